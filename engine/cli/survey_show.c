/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger survey show: what a survey came to, as tables, JSON, a chart. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cli/cli.h"
#include "cli/survey.h"
#include "core/out.h"
#include "dew/survey.h"
#include "report/lay.h"

enum { NAME = 35, NARROW = 26, SPAN = 12, CELL = 40, TEXT = 800 };

/* ---- text ------------------------------------------------------------------------------- */

/* A share that is not all and not none does not look so. */
static const char *share(double x, char out[CELL])
{
    const char *almost = x > 0 && x < 0.005   ? "<1 %"
                         : x < 1 && x > 0.995 ? ">99 %"
                                              : NULL;

    if (almost != NULL)
        snprintf(out, CELL, "%s", almost);
    else
        snprintf(out, CELL, "%.0f %%", 100 * x);
    return out;
}

static void put_range(const struct dew_survey_range *r)
{
    char middle[CELL] = "-", span[CELL] = "";

    if (isfinite(r->p50)) {
        snprintf(middle, sizeof middle, "%.12s",
                 report__number(r->p50, 0).text);
        snprintf(span, sizeof span, "%.12s-%.12s",
                 report__number(r->p10, 0).text,
                 report__number(r->p90, 0).text);
    }
    report__right(stdout, middle, 6);
    report__right(stdout, span, SPAN);
}

/* Each word in its part of the width, one column between them. */
static void put_name(const struct dew_survey_show *w, size_t i, int width)
{
    int n = (int)w->by_count;

    for (int k = 0; k < n; k++) {
        int part = width * (k + 1) / n - width * k / n;

        report__left(stdout, w->groups[i].by[k], part - 1);
        putchar(' ');
    }
}

static int is_cut(const struct dew_survey_show *w, size_t i)
{
    for (size_t k = 0; k < w->by_count; k++)
        if (strlen(w->groups[i].by[k]) > (size_t)NARROW / w->by_count - 1)
            return 1;
    return 0;
}

static void put_cut(const struct dew_survey_show *w)
{
    char name[TEXT], head[CELL];
    int any = 0;

    for (size_t i = 0; i < w->count; i++) {
        if (!is_cut(w, i))
            continue;
        if (!any++)
            fputs("\nIn full:\n", stdout);
        dew_survey_group_words(w, i, name, sizeof name);
        snprintf(head, sizeof head, "line %zu: ", i + 1);
        report__wrap(stdout, head, name);
    }
}

static void put_shares(const struct dew_survey_show *w)
{
    char cell[CELL];

    printf("%*s%9s%12s%12s%9s\n", NAME, "", "house-", "keep the", "bring the",
           "are the");
    printf("%*s%9s%12s%12s%9s\n", NAME, "", "years", "limits", "fresh air",
           "best");
    for (size_t i = 0; i < w->count; i++) {
        const struct dew_survey_group *g = &w->groups[i];

        put_name(w, i, NAME);
        report__right(stdout, cli__count(g->marches).text, 9);
        report__right(stdout, share(g->keeps, cell), 12);
        report__right(stdout, share(g->ventilates, cell), 12);
        report__right(stdout, share(g->best, cell), 9);
        putchar('\n');
    }
}

static void put_hours(const struct dew_survey_show *w)
{
    printf("\n%*s%18s%18s%18s\n", NARROW, "", "hours too humid",
           "hours too dry", "cost of a year");
    printf("%*s", NARROW, "");
    for (int i = 0; i < 3; i++)
        printf("%6s%*s", "half", (int)SPAN, "8 of 10");
    putchar('\n');
    for (size_t i = 0; i < w->count; i++) {
        const struct dew_survey_group *g = &w->groups[i];

        put_name(w, i, NARROW);
        put_range(&g->too_humid);
        put_range(&g->too_dry);
        put_range(&g->running);
        putchar('\n');
    }
}

/* The answer, where options stand beside one another: which is best. */
static void put_best(const struct dew_survey_show *w)
{
    size_t best = 0;
    char text[TEXT + 80], name[TEXT], cell[CELL];

    for (size_t i = 1; i < w->count; i++)
        if (w->groups[i].best > w->groups[best].best)
            best = i;
    dew_survey_group_words(w, best, name, sizeof name);
    if (w->groups[best].best > 0)
        snprintf(text, sizeof text,
                 "Best most often: %s, in %s of its house-years.", name,
                 share(w->groups[best].best, cell));
    else
        snprintf(text, sizeof text,
                 "None of them keeps the limits and brings the fresh air asked "
                 "for in any house marched.");
    cli__wrap(stdout, 0, text);
}

static void put_head(const struct dew_survey_show *w)
{
    char text[TEXT] = "";
    size_t used = 0;
    int options = 0;

    for (size_t k = 0; k < w->by_count; k++) {
        options |= strcmp(w->by[k], "option") == 0;
        used += (size_t)snprintf(text + used, sizeof text - used, "%s%s",
                                 k > 0 ? ", " : "", w->by[k]);
    }
    if (options)
        put_best(w);
    printf("Of %s house-years marched, by\n", cli__count(w->marches).text);
    cli__wrap(stdout, 2, text);
    putchar('\n');
}

static void put_text(const struct dew_survey_show *w)
{
    put_head(w);
    put_shares(w);
    put_hours(w);
    put_cut(w);
    fputs("\nHalf of the house-years are below \"half\", 8 of 10 lie within "
          "\"8 of 10\".\nBest of its house: of the options that keep the "
          "limits and bring the fresh air\nasked for, the one of least cost "
          "over the years. Cost in the scenario's money.\n",
          stdout);
}

/* ---- JSON ------------------------------------------------------------------------------- */

static json_t *json_range(const struct dew_survey_range *r)
{
    return cli__range(r->p10, r->p50, r->p90);
}

static json_t *json_group(const struct dew_survey_show *w,
                          const struct dew_survey_group *g)
{
    json_t *by = json_object(), *o = json_object();

    for (size_t i = 0; i < w->by_count; i++)
        by = cli__set(by, w->by[i], json_string(g->by[i]));
    o = cli__set(o, "by", by);
    o = cli__set(o, "marches", json_integer((json_int_t)g->marches));
    o = cli__set(o, "share_keeps", cli__real(g->keeps));
    o = cli__set(o, "share_ventilates", cli__real(g->ventilates));
    o = cli__set(o, "share_best", cli__real(g->best));
    o = cli__set(o, "too_humid_h", json_range(&g->too_humid));
    o = cli__set(o, "too_dry_h", json_range(&g->too_dry));
    return cli__set(o, "running", json_range(&g->running));
}

static int put_json(const struct dew_survey_show *w)
{
    json_t *by = json_array(), *groups = json_array(), *o = json_object();

    for (size_t i = 0; i < w->by_count; i++)
        by = cli__add(by, json_string(w->by[i]));
    for (size_t i = 0; i < w->count; i++)
        groups = cli__add(groups, json_group(w, &w->groups[i]));
    o = cli__set(o, "by", by);
    o = cli__set(o, "marches", json_integer((json_int_t)w->marches));
    return cli__json(cli__set(o, "groups", groups));
}

/* ---- all -------------------------------------------------------------------------------- */

static int write_chart(const struct dew_survey_show *w, const char *path)
{
    struct core__out out;
    struct dew_error err = {0};
    enum dew_status status = core__out_open(&out, path, CORE__OUT_OVER, &err);

    if (status == DEW_OK) {
        status = dew_survey_chart(w, out.file, &err);
        if (status == DEW_OK)
            status = core__out_close(&out, &err);
        else
            core__out_drop(&out);
    }
    return status == DEW_OK ? CLI__DONE : cli__error(&err);
}

int cli__survey_show(const struct cli__show *ask)
{
    struct dew_survey_show *w = NULL;
    struct dew_error err = {0};
    int code = CLI__DONE;

    if (dew_survey_show(&w, ask->folder, ask->by != NULL ? ask->by : "option",
                        &err) != DEW_OK)
        return cli__error(&err);
    if (ask->svg != NULL)
        code = write_chart(w, ask->svg);
    if (code == CLI__DONE && ask->json)
        code = put_json(w);
    else if (code == CLI__DONE)
        put_text(w);
    dew_survey_show_close(w);
    return code;
}
