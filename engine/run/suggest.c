/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/suggest.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/spread.h"
#include "run/suggest.h"

enum { HOURS_A_STEP = 730 };

struct dew_suggest {
    struct dew_run *house; /* as asked, its first option alone               */
    struct dew_run *run;   /* all of the list                                */
    struct dew_spread *spread;
    size_t draws, threads;
    unsigned parts[RUN__SUGGEST_MOST]; /* of options 1 .. count - 1          */
    char names[RUN__SUGGEST_MOST + 1][RUN__SUGGEST_NAME + 1];
    struct dew_suggest_option options[RUN__SUGGEST_MOST + 1];
    size_t count;
    char *text; /* of those that are left                                    */
    size_t length;
};

/* ---- opening --------------------------------------------------------------------- */

static enum dew_status open_list(struct dew_suggest *s,
                                 const struct dew_run_ask *base,
                                 struct dew_faults *faults)
{
    struct dew_run_ask ask = *base;
    struct dew_error err = {0};
    size_t n = 0;
    enum dew_status status;
    char *text;

    while (n < RUN__SUGGEST_MOST &&
           (s->parts[n] = run__suggest_parts(s->house, n)) != 0)
        n++;
    core__at(&err, base->name, 0, 0);
    text = run__suggest_write(s->house, s->parts, n, &ask.length, &err);
    if (text == NULL)
        return core__fault(faults, &err);
    ask.text = text;
    ask.option_count = 0;
    status = dew_run_open(&s->run, &ask, faults);
    free(text);
    for (size_t i = 0; status == DEW_OK && i < s->run->count; i++) {
        snprintf(s->names[i], sizeof s->names[i], "%s",
                 dew_scenario_name(s->run->scenario, s->run->options[i].at));
        s->options[i] =
            (struct dew_suggest_option){.name = s->names[i], .by = -1};
    }
    s->count = status == DEW_OK ? s->run->count : 0;
    return status;
}

static enum dew_status open_all(struct dew_suggest *s,
                                const struct dew_run_ask *from,
                                struct dew_faults *faults)
{
    struct dew_run_ask ask = *from;
    enum dew_status status;

    ask.job = DEW_RUN_MARCH;
    ask.with = 0;
    ask.option_count = 0;
    status = dew_run_open(&s->house, &ask, faults);
    if (status != DEW_OK)
        return status;
    ask.text = dew_scenario_text(s->house->scenario, &ask.length);
    return open_list(s, &ask, faults);
}

enum dew_status dew_suggest_open(struct dew_suggest **suggest,
                                 const struct dew_run_ask *from,
                                 struct dew_faults *faults)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_suggest *s = calloc(1, sizeof *s);
    enum dew_status status;

    *suggest = NULL;
    if (s == NULL)
        return core__fault(faults, &err);
    s->draws = DEW_SUGGEST_DRAWS;
    s->threads = from->threads;
    status = open_all(s, from, faults);
    if (status == DEW_OK)
        *suggest = s;
    else
        dew_suggest_close(s);
    return status;
}

void dew_suggest_close(struct dew_suggest *s)
{
    if (s == NULL)
        return;
    dew_spread_close(s->spread);
    dew_run_close(s->run);
    dew_run_close(s->house);
    free(s->text);
    free(s);
}

/* ---- what is left out ---------------------------------------------------------------- */

/* 1 where b is no worse than a in anything. */
static int no_worse(const struct dew_suggest_option *b,
                    const struct dew_suggest_option *a)
{
    return b->outside <= a->outside && b->air >= a->air && b->does >= a->does &&
           b->cost <= a->cost;
}

/* Of two alike in everything the first stays. */
static int beaten_by(const struct dew_suggest *s, size_t i)
{
    const struct dew_suggest_option *o = s->options;

    for (size_t k = 0; k < s->count; k++)
        if (k != i && no_worse(&o[k], &o[i]) &&
            (k < i || !no_worse(&o[i], &o[k])))
            return (int)k;
    return -1;
}

/* Whether a is to be kept before b: what will do, then less outside, then
   less money. */
static int before(const struct dew_suggest_option *a,
                  const struct dew_suggest_option *b)
{
    if (a->does < b->does || a->does > b->does)
        return a->does > b->does;
    if (a->outside < b->outside || a->outside > b->outside)
        return a->outside < b->outside;
    return a->cost < b->cost;
}

static size_t ahead_of(const struct dew_suggest *s, size_t i)
{
    size_t ahead = 0;

    for (size_t k = 1; k < s->count; k++)
        ahead += k != i && s->options[k].left &&
                 before(&s->options[k], &s->options[i]);
    return ahead;
}

/* The house as it stands is never left out. */
static void leave_out(struct dew_suggest *s)
{
    int keep[RUN__SUGGEST_MOST + 1];

    for (size_t i = 0; i < s->count; i++) {
        s->options[i].by = i > 0 ? beaten_by(s, i) : -1;
        s->options[i].left = s->options[i].by < 0;
    }
    for (size_t i = 0; i < s->count; i++)
        keep[i] = i == 0 ||
                  (s->options[i].left && ahead_of(s, i) < DEW_SUGGEST_LEFT - 1);
    for (size_t i = 0; i < s->count; i++)
        s->options[i].left = keep[i];
}

/* ---- the march ------------------------------------------------------------------------ */

static enum dew_status open_spread(struct dew_suggest *s, struct dew_error *err)
{
    struct dew_spread_ask ask = {
        .draws = s->draws, .seed = DEW_SPREAD_SEED, .threads = s->threads};
    enum dew_status status = run__spread_or_told(&s->spread, s->run, &ask, err);

    s->draws = ask.draws;
    return status;
}

static void sum_up(struct dew_suggest *s)
{
    const struct dew_question *q = dew_run_report(s->run, 0)->question;
    size_t houses = s->draws > 0 ? s->draws : 1;

    for (size_t i = 0; i < s->count; i++) {
        struct dew_suggest_option *o = &s->options[i];

        o->cost = dew_verdict_bill(q, i).present.likely;
        for (size_t k = 0; k < houses; k++) {
            const struct dew_drawn *h = dew_spread_house(s->spread, k, i);

            o->outside +=
                (h->too_humid + h->too_dry + h->glass_wet) / (double)houses;
            o->air += h->ventilates / (double)houses;
            o->does += (h->ventilates && h->keeps) / (double)houses;
        }
    }
}

static enum dew_status finish(struct dew_suggest *s, struct dew_error *err)
{
    unsigned left[RUN__SUGGEST_MOST];
    size_t n = 0;

    sum_up(s);
    leave_out(s);
    for (size_t i = 1; i < s->count; i++)
        if (s->options[i].left)
            left[n++] = s->parts[i - 1];
    s->text = run__suggest_write(s->house, left, n, &s->length, err);
    return s->text != NULL ? DEW_OK : err->status;
}

/* A third is of the house as told, for what it costs. */
enum dew_status dew_suggest_step(struct dew_suggest *s, double *done,
                                 struct dew_error *err)
{
    struct dew_error inside = {0};
    enum dew_status status = DEW_OK;
    double part = 1;

    err = err != NULL ? err : &inside;
    *done = 1;
    if (s->text != NULL)
        return DEW_OK;
    if (s->spread == NULL) {
        status = dew_run_step(s->run, HOURS_A_STEP, &part, err);
        *done = part / 3;
        if (status == DEW_OK && part >= 1)
            status = open_spread(s, err);
        return status;
    }
    status = dew_spread_step(s->spread, &part, err);
    *done = fmin((1 + 2 * part) / 3, 0.999);
    if (status == DEW_OK && part >= 1) {
        status = finish(s, err);
        *done = 1;
    }
    return status;
}

/* ---- what it came to ------------------------------------------------------------------- */

const struct dew_suggest_option *dew_suggest_options(
    const struct dew_suggest *s, size_t *count)
{
    *count = s->count;
    return s->options;
}

const char *dew_suggest_text(const struct dew_suggest *s, size_t *length)
{
    *length = s->length;
    return s->text;
}
