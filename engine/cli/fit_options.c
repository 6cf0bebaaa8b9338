/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The options, marched through the year on the houses that the log leaves. */
#include <string.h>

#include "cli/fit.h"
#include "cli/spread.h"
#include "report/lay.h"
#include "report/markup.h"
#include "report/words.h"

enum { TEXT = 900, NAME = 34, HOURS = 6, BEST = 10, CLEAN = 160 };

/* ---- marching ----------------------------------------------------------------- */

int cli__fit_options(struct cli__fit *f, const struct dew_spread_ask *ask,
                     struct dew_spread **spread)
{
    struct dew_error err = {0};
    double done = 0;

    if (!dew_learn_learned(f->learn)->told)
        return CLI__DONE; /* said by the house's own words */
    if (dew_spread_open(spread, dew_learn_run(f->learn), ask, &err) != DEW_OK ||
        dew_learn_give(f->learn, *spread, NULL, &err) != DEW_OK)
        return cli__error(&err);
    while (done < 1) {
        cli__progress(done, "%zu houses", ask->draws);
        if (dew_spread_step(*spread, &done, &err) != DEW_OK)
            return cli__error(&err);
    }
    cli__progress(1, "%zu houses", ask->draws);
    f->options = dew_spread_draws(*spread);
    f->spread = *spread;
    return CLI__DONE;
}

static const char *name_of(const struct cli__fit *f, size_t option)
{
    const struct dew_run *run = dew_learn_run(f->learn);

    return dew_scenario_name(dew_run_scenario(run),
                             dew_run_option(run, option));
}

/* ---- in words ------------------------------------------------------------------- */

static void say_best(const struct cli__fit *f)
{
    const struct dew_draws *d = f->options;
    size_t best = dew_draws_best(d), none = dew_draws_none(d),
           count = dew_draws_shares(d, best).best;
    char name[CLEAN], text[TEXT];

    if (none > count)
        snprintf(text, sizeof text,
                 "On the houses that are left none of the %zu options will do "
                 "in %s; in %s \"%s\" is the best.",
                 d->options, report__houses(none, d->count).text,
                 report__of_100(count, d->count).text,
                 core__clean(name_of(f, best), name, sizeof name));
    else
        snprintf(text, sizeof text,
                 "On the houses that are left \"%s\" is the best of the %zu "
                 "options in %s.",
                 core__clean(name_of(f, best), name, sizeof name), d->options,
                 report__houses(count, d->count).text);
    cli__fit_say(f, text);
}

static const enum dew_drawn_what told[] = {DEW_DRAWN_too_humid,
                                           DEW_DRAWN_too_dry};

/* "1 as it stands" */
static void number_of(const struct cli__fit *f, size_t option, char *out,
                      size_t size)
{
    char name[CLEAN];

    snprintf(out, size, "%zu %s", option + 1,
             core__clean(name_of(f, option), name, sizeof name));
}

static struct report__word best_of(const struct cli__fit *f, size_t option)
{
    const struct dew_draws *d = f->options;

    return report__of_100(dew_draws_shares(d, option).best, d->count);
}

static void row(const struct cli__fit *f, size_t option)
{
    char text[CLEAN + 24];

    number_of(f, option, text, sizeof text);
    report__left(f->out, text, NAME);
    for (int k = 0; k < 2; k++) {
        struct dew_draws_range r = dew_draws_range(f->options, option, told[k]);

        report__right(f->out, report__number(r.p10, 0).text, HOURS);
        report__right(f->out, report__number(r.p50, 0).text, HOURS);
        report__right(f->out, report__number(r.p90, 0).text, HOURS);
    }
    report__right(f->out, best_of(f, option).text, BEST);
    fputc('\n', f->out);
}

static void table(const struct cli__fit *f)
{
    fprintf(f->out, "\n%-*s%*s%*s%*s\n%-*s", NAME, "Hours of the year",
            3 * HOURS, "too humid", 3 * HOURS, "too dry", BEST, "best of", NAME,
            "option");
    for (int k = 0; k < 2; k++)
        fprintf(f->out, "%*s%*s%*s", HOURS, "low", HOURS, "mid", HOURS, "high");
    fprintf(f->out, "%*s\n", BEST, "100");
    for (size_t i = 0; i < f->options->options; i++)
        row(f, i);
}

static void page_table(const struct cli__fit *f)
{
    char text[CLEAN + 24];

    fputs("<div class=\"wide\"><table><caption>Hours of the year</caption>",
          f->out);
    report__html_heads(f->out,
                       "option|too humid, low|mid|high|too dry, low|mid|high|"
                       "best of 100");
    for (size_t i = 0; i < f->options->options; i++) {
        struct dew_draws_range h = dew_draws_range(f->options, i, told[0]),
                               d = dew_draws_range(f->options, i, told[1]);

        number_of(f, i, text, sizeof text);
        report__html_row(
            f->out, "%s|%s|%s|%s|%s|%s|%s|%s", text,
            report__number(h.p10, 0).text, report__number(h.p50, 0).text,
            report__number(h.p90, 0).text, report__number(d.p10, 0).text,
            report__number(d.p50, 0).text, report__number(d.p90, 0).text,
            best_of(f, i).text);
    }
    fputs("</tbody></table></div>\n", f->out);
}

void cli__fit_print_options(const struct cli__fit *f)
{
    char text[TEXT];

    if (f->options == NULL)
        return;
    say_best(f);
    (f->page ? page_table : table)(f);
    cli__fit_say(f,
                 "low: 1 house in 10 has fewer hours; mid: half have fewer; "
                 "high: 1 in 10 has more. The houses are those below, as often "
                 "as they weigh.");
    for (size_t i = 0;
         cli__anew_words(f->spread, f->options->count, i, text, sizeof text);
         i++)
        cli__fit_say(f, text);
    cli__fit_gap(f);
}

/* ---- JSON ------------------------------------------------------------------------ */

static json_t *range_json(const struct cli__fit *f, size_t option,
                          enum dew_drawn_what what)
{
    struct dew_draws_range r = dew_draws_range(f->options, option, what);

    return cli__range(r.p10, r.p50, r.p90);
}

json_t *cli__fit_options_json(const struct cli__fit *f)
{
    json_t *list = json_array();

    if (f->options == NULL) {
        json_decref(list);
        return json_null();
    }
    for (size_t i = 0; i < f->options->options; i++) {
        struct dew_draws_shares n = dew_draws_shares(f->options, i);
        double all = (double)f->options->count;
        json_t *o = json_pack("{s:s, s:o, s:o}", "name", name_of(f, i),
                              "best_share", cli__real((double)n.best / all),
                              "keeps_share", cli__real((double)n.keeps / all));

        o = cli__set(o, "too_humid_h", range_json(f, i, DEW_DRAWN_too_humid));
        o = cli__set(o, "too_dry_h", range_json(f, i, DEW_DRAWN_too_dry));
        list = cli__add(list, o);
    }
    return list;
}

json_t *cli__fit_left_out_json(const struct cli__fit *f)
{
    return f->options != NULL ? cli__anew_json(f->spread) : json_null();
}
