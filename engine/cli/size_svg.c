/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hours too humid and too dry against airflow, as a drawing. */
#include <math.h>
#include <stdlib.h>

#include "cli/size.h"
#include "core/out.h"
#include "draw/curves.h"
#include "report/words.h"

enum { LINES = 2 * DEW_SIZE_CORES, POINTS = 64, WORDS = 100 };

struct picture {
    struct draw__curve list[LINES];
    double x[LINES][POINTS], y[3][LINES][POINTS];
    char words[LINES][WORDS];
    int count;
    struct draw__figure figure;
};

static int any(const struct dew_size_curve *c, enum dew_drawn_what what)
{
    for (size_t i = 0; i < c->count; i++)
        if (c->points[i].hours[what].told >= 1 ||
            c->points[i].hours[what].p90 >= 1)
            return 1;
    return 0;
}

static void add(const struct cli__size *s, struct picture *p,
                const struct dew_size_curve *c, enum dew_drawn_what what)
{
    int k = p->count++, n = 0;

    for (size_t i = 0; i < c->count && n < POINTS; i++, n++) {
        const struct dew_draws_range *r = &c->points[i].hours[what];

        p->x[k][n] = report__shown(c->points[i].value, DEW_FLOW, s->system);
        p->y[0][k][n] = r->p10;
        p->y[1][k][n] = cli__size_middle(r);
        p->y[2][k][n] = r->p90;
    }
    snprintf(p->words[k], WORDS, "%s, %.80s",
             what == DEW_DRAWN_too_humid ? "too humid" : "too dry",
             cli__size_core(s, c->core).text);
    p->list[k] = (struct draw__curve){p->words[k], p->x[k],    p->y[0][k],
                                      p->y[1][k],  p->y[2][k], n};
}

static void say_band(const struct cli__size *s, char *note, size_t size)
{
    if (s->target.draws == 0)
        snprintf(note, size, "Of the house as told: no figure has a range.");
    else
        snprintf(note, size,
                 "Line: half of the houses drawn have fewer hours. Band: all "
                 "but one in ten have more than its lower edge and fewer than "
                 "its upper edge.%s%s",
                 s->target.years > 1
                     ? " Each goes through one of several made years."
                     : "",
                 s->target.model > 0 ? " The model's own error is in it." : "");
}

static void draw(const struct cli__size *s, struct picture *p, FILE *out)
{
    char heading[240], along[60], note[400];
    struct draw__curves c = {
        .heading = heading,
        .note = note,
        .words = "Hours too humid and too dry with each core, as lines over "
                 "the fresh air it brings; the figures are in the table of "
                 "the command.",
        .along = along,
        .up = "hours of the year",
        .list = p->list,
        .count = p->count,
        .limit = s->target.hours,
        .mark = report__shown(s->target.asked, DEW_FLOW, s->system),
        .limit_words = "most hours that keep a limit",
        .mark_words = "fresh air asked for"};

    say_band(s, note, sizeof note);
    snprintf(heading, sizeof heading, "%.160s: hours against airflow",
             report__title(dew_scenario_title(dew_run_scenario(s->run))));
    snprintf(along, sizeof along, "fresh air, %s",
             report__unit(DEW_FLOW, s->system)->name);
    draw__curves(out, &c, &p->figure);
}

/* Into the file, whole or not at all; an exit code. */
static int write_it(const char *path, const struct cli__size *s,
                    struct picture *p,
                    void (*drawn)(const struct cli__size *s, struct picture *p,
                                  FILE *out))
{
    struct dew_error err = {0};
    struct core__out out;

    if (core__out_open(&out, path, CORE__OUT_OVER, &err) == DEW_OK) {
        drawn(s, p, out.file);
        core__out_close(&out, &err);
    }
    return err.status == DEW_OK ? CLI__DONE : cli__error(&err);
}

int cli__size_svg(const struct cli__size *s, const char *path)
{
    static const enum dew_drawn_what drawn[] = {DEW_DRAWN_too_humid,
                                                DEW_DRAWN_too_dry};
    struct picture *p = calloc(1, sizeof *p);
    int code;

    if (p == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    for (int w = 0; w < 2; w++)
        for (int k = 0; k < DEW_SIZE_CORES; k++) {
            const struct dew_size_curve *c =
                dew_size_find(s->size, (enum dew_size_core)k, DEW_SIZE_flow);

            if (c != NULL && (w == 0 || any(c, drawn[w])))
                add(s, p, c, drawn[w]);
        }
    code = write_it(path, s, p, draw);
    free(p);
    return code;
}

/* ---- which core is the better one --------------------------------------------- */

/* Of 100 houses: those of the bands below, and with this one. */
static void add_share(const struct cli__size *s, struct picture *p, int core)
{
    struct dew_size_best b;
    int k = p->count++, n = 0;

    for (size_t i = 0; n < POINTS && dew_size_best(s->size, i, &b); i++, n++) {
        size_t in = core < DEW_SIZE_CORES ? b.best[core] : b.alike;
        double below = k > 0 ? p->y[2][k - 1][n] : 0;

        p->x[k][n] = report__shown(b.flow, DEW_FLOW, s->system);
        p->y[0][k][n] = below;
        p->y[1][k][n] = p->y[2][k][n] =
            below + 100.0 * (double)in / (double)b.houses;
    }
    if (core < DEW_SIZE_CORES)
        snprintf(p->words[k], WORDS, "%.90s",
                 cli__size_core(s, (enum dew_size_core)core).text);
    else
        snprintf(p->words[k], WORDS, "less than a day apart");
    p->list[k] = (struct draw__curve){p->words[k], p->x[k],    p->y[0][k],
                                      p->y[1][k],  p->y[2][k], n};
}

static void draw_better(const struct cli__size *s, struct picture *p, FILE *out)
{
    char heading[240], along[60];
    struct draw__curves c = {
        .heading = heading,
        .note = "Each band: in how many of 100 houses drawn, at that airflow, "
                "that core has the fewest hours too humid, too dry and of wet "
                "glass together.",
        .words = "For each core, in how many of 100 houses it is the better "
                 "one, as bands over the fresh air it brings; the figures are "
                 "in the command's JSON.",
        .along = along,
        .up = "of 100 houses",
        .list = p->list,
        .count = p->count,
        .limit = NAN,
        .mark = report__shown(s->target.asked, DEW_FLOW, s->system),
        .mark_words = "fresh air asked for"};

    snprintf(heading, sizeof heading, "%.160s: the better core by airflow",
             report__title(dew_scenario_title(dew_run_scenario(s->run))));
    snprintf(along, sizeof along, "fresh air, %s",
             report__unit(DEW_FLOW, s->system)->name);
    draw__curves(out, &c, &p->figure);
}

int cli__size_no_better(void)
{
    return cli__fail(CLI__BAD_INPUT,
                     "no better core can be drawn: it takes two "
                     "cores and houses drawn");
}

int cli__size_better_svg(const struct cli__size *s, const char *path)
{
    struct dew_size_best b;
    struct picture *p;
    int code;

    if (!dew_size_best(s->size, 0, &b))
        return cli__size_no_better();
    p = calloc(1, sizeof *p);
    if (p == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    for (int k = 0; k <= DEW_SIZE_CORES; k++)
        if (k == DEW_SIZE_CORES || dew_size_find(s->size, (enum dew_size_core)k,
                                                 DEW_SIZE_flow) != NULL)
            add_share(s, p, k);
    code = write_it(path, s, p, draw_better);
    free(p);
    return code;
}
