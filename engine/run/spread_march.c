/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Some draws of every option, marched side by side and judged. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "run/spread.h"
#include "study/year.h"

/* Of a block: words that are drawn part its houses, and what is alike in so
   many fills its lanes all the same. */
enum { BUNDLES = 8, ROWS = BUNDLES * DEW_BUNDLE_MOST };

/* count rows of the spread, in the order of their years; [option][row] of the
   block. */
struct block {
    struct dew_spread *s;
    size_t row[ROWS], count;
    struct dew_case *cases;
    struct dew_outcome *outcomes;
    struct dew_change *list; /* room for the changes of one house            */
};

size_t run__spread_block(size_t left, size_t threads)
{
    size_t lanes = (size_t)dew_bundle_lanes();
    size_t each = (left + threads - 1) / threads;
    size_t bundles = (each + lanes - 1) / lanes;

    return lanes * (bundles < BUNDLES ? bundles : BUNDLES);
}

/* Row 0 is the likely house, in the run's year. */
static size_t draw_of_row(const struct dew_spread *s, size_t row)
{
    return row > 0 ? row - 1 : s->draws;
}

static size_t draw_of(const struct block *b, size_t k)
{
    return draw_of_row(b->s, b->row[k]);
}

static const struct run__spread_year *year_of(const struct block *b, size_t k)
{
    return &b->s->years[dew_spread_year(b->s, draw_of(b, k))];
}

/* The place of a house in the block; and of a place the option and the row. */
static size_t at(const struct block *b, size_t option, size_t k)
{
    return option * b->count + k;
}

static size_t option_at(const struct block *b, size_t place)
{
    return place / b->count;
}

static size_t row_at(const struct block *b, size_t place)
{
    return place % b->count;
}

static const char *name_of(const struct block *b, size_t option)
{
    const struct dew_run *r = b->s->run;

    return dew_scenario_name(r->scenario, r->options[option].at);
}

/* What went wrong, and in which of the houses. */
static enum dew_status blame(const struct block *b, size_t option, size_t k,
                             struct dew_error *err)
{
    size_t row = b->row[k];
    char why[sizeof err->text];

    snprintf(why, sizeof why, "%s", err->text);
    if (row == 0)
        snprintf(err->text, sizeof err->text, "%.160s (as told, \"%.60s\")",
                 why, name_of(b, option));
    else
        snprintf(err->text, sizeof err->text, "%.160s (draw %zu, \"%.60s\")",
                 why, row, name_of(b, option));
    return err->status;
}

/* ---- making ------------------------------------------------------------------ */

/* A house that is damper than the model has it by so much passes limits that
   are lower by it: the march itself is the same. */
static void shift_limits(struct dew_case *c, double off)
{
    c->limits.too_humid -= off;
    c->limits.too_dry -= off;
}

static enum dew_status make(struct block *b, size_t option,
                            struct dew_error *err)
{
    const struct dew_run *r = b->s->run;
    size_t from = r->options[option].at;

    for (size_t k = 0; k < b->count; k++) {
        const struct dew_changes changes =
            run__spread_changes(b->s, b->row[k], option, b->list);
        const struct run__spread_year *year = year_of(b, k);
        struct dew_case *c = &b->cases[at(b, option, k)];
        struct dew_outcome *o = &b->outcomes[at(b, option, k)];

        o->name = name_of(b, option);
        o->count = year->weather.count;
        if (dew_scenario_case(r->scenario, from, &year->outdoors, &changes, c,
                              err) != DEW_OK ||
            dew_scenario_required_with(r->scenario, from, &changes,
                                       &o->required, err) != DEW_OK)
            return blame(b, option, k, err);
        shift_limits(c, dew_spread_off(b->s, draw_of(b, k)));
    }
    return DEW_OK;
}

/* ---- marching ---------------------------------------------------------------- */

/* Houses of a block that branch alike, by their places. */
struct flight {
    size_t count, place[DEW_BUNDLE_MOST];
};

enum { YEAR, MONTHS = 12 }; /* tallies of a house: the year, then months */

static enum dew_status open_flight(const struct block *b,
                                   const struct flight *f,
                                   struct dew_bundle **bundle, size_t *failed,
                                   struct dew_error *err)
{
    const struct dew_run *r = b->s->run;
    const struct dew_case *cases[DEW_BUNDLE_MOST];
    struct dew_weather weather[DEW_BUNDLE_MOST];
    enum dew_status status;

    for (size_t k = 0; k < f->count; k++) {
        cases[k] = &b->cases[f->place[k]];
        weather[k] = year_of(b, row_at(b, f->place[k]))->weather;
    }
    status = dew_bundle_open(bundle, cases, weather, f->count, 1 + MONTHS, err);
    for (size_t k = 0; k < f->count && status == DEW_OK; k++) {
        dew_bundle_require(*bundle, k, b->outcomes[f->place[k]].required);
        dew_bundle_prescribe_t(*bundle, k, r->held ? r->measured.t : NULL,
                               weather[k].count);
    }
    return status == DEW_OK ? dew_bundle_warm_up(*bundle, failed, err) : status;
}

static void land(const struct block *b, const struct flight *f,
                 const struct dew_bundle *bundle)
{
    for (size_t k = 0; k < f->count; k++) {
        struct dew_outcome *o = &b->outcomes[f->place[k]];

        dew_bundle_total(bundle, k, YEAR, &o->year);
        for (size_t m = 0; m < MONTHS; m++)
            dew_bundle_total(bundle, k, 1 + m, &o->month[m]);
    }
}

static enum dew_status fly(const struct block *b, const struct flight *f,
                           struct dew_error *err)
{
    const struct dew_weather *w = &b->s->years[0].weather; /* dates of all */
    struct dew_bundle *bundle = NULL;
    size_t failed = 0;
    enum dew_status status = open_flight(b, f, &bundle, &failed, err);

    for (size_t h = 0; h < w->count && status == DEW_OK; h++) {
        status = dew_bundle_step(bundle, h, &failed, err);
        dew_bundle_tally(bundle, YEAR);
        dew_bundle_tally(bundle, (size_t)w->dates[h].month);
    }
    if (status == DEW_OK)
        land(b, f, bundle);
    dew_bundle_close(bundle);
    return status == DEW_OK ? DEW_OK
                            : blame(b, option_at(b, f->place[failed]),
                                    row_at(b, f->place[failed]), err);
}

/* Houses from a place on, those that branch alike side by side; ROWS at most. */
static enum dew_status march(const struct block *b, size_t first, size_t count,
                             struct dew_error *err)
{
    unsigned char gone[ROWS] = {0};
    struct flight f;
    size_t lanes = (size_t)dew_bundle_lanes();
    enum dew_status status = DEW_OK;

    while (status == DEW_OK &&
           (f.count = dew_bundle_next(&b->cases[first], count, lanes, gone,
                                      f.place)) > 0) {
        for (size_t k = 0; k < f.count; k++)
            f.place[k] += first;
        status = fly(b, &f, err);
    }
    return status;
}

/* An option of which nothing is drawn came to the same in every row. */
static enum dew_status march_option(const struct block *b, size_t option,
                                    struct dew_error *err)
{
    if (run__spread_moves(b->s, option))
        return march(b, at(b, option, 0), b->count, err);
    for (size_t k = 0; k < b->count; k++)
        b->outcomes[at(b, option, k)] = b->s->as_told[option];
    return DEW_OK;
}

/* ---- judging ----------------------------------------------------------------- */

enum { OPTIONS = (RUN__MOST - RUN__OTHERS) / 2 }; /* of a run at most */
_Static_assert((int)OPTIONS <= (int)ROWS, "the likely houses are a block");

static enum dew_spread_by ranked_by(const struct dew_question *q)
{
    for (size_t i = 0; i < q->count; i++)
        if (isnan(dew_verdict_bill(q, i).present.likely))
            return DEW_SPREAD_BY_RUNNING;
    return DEW_SPREAD_BY_MONEY;
}

static struct dew_drawn drawn(const struct dew_question *q, size_t i, int best)
{
    const struct dew_outcome *o = q->choices[i].outcome;
    const struct dew_tally *y = &o->year;
    struct dew_bill bill = dew_verdict_bill(q, i);
    struct dew_drawn d = {.too_humid = y->too_humid,
                          .too_dry = y->too_dry,
                          .short_of_air = y->fresh_short,
                          .glass_wet = y->sweat[DEW_GLASS],
                          .short_heat = y->short_heat,
                          .energy = study__energy(y),
                          .running = bill.yearly.likely,
                          .present = bill.present.likely,
                          .keeps = dew_verdict_keeps(q, i),
                          .ventilates = dew_verdict_ventilates(q, i),
                          .best = best};

    for (int m = 0; m < MONTHS; m++)
        d.humid_month[m] = o->month[m].too_humid;
    return d;
}

static void judge(const struct block *b, size_t k)
{
    struct dew_spread *s = b->s;
    struct dew_choice choices[OPTIONS];
    const struct dew_question q = {
        .choices = choices,
        .count = s->options,
        .prices = run__priced(&s->prices) ? &s->prices : NULL,
        .judging = dew_verdict_judging()};
    struct dew_drawn *out = &s->houses[b->row[k] * s->options];
    size_t passing[OPTIONS], best;

    for (size_t i = 0; i < s->options; i++)
        choices[i] = (struct dew_choice){.outcome = &b->outcomes[at(b, i, k)],
                                         .c = &b->cases[at(b, i, k)],
                                         .facts = &s->run->options[i].facts,
                                         .costs = &s->run->options[i].costs};
    best = dew_verdict_passing(&q, passing) > 0 ? passing[0] : s->options;
    for (size_t i = 0; i < s->options; i++)
        out[i] = drawn(&q, i, i == best);
    if (b->row[k] == 0)
        s->by = ranked_by(&q);
}

/* Of a house that has no options beside it to be judged by. */
static void count(const struct block *b, size_t k)
{
    const struct dew_spread *s = b->s;

    for (size_t i = 0; i < s->options; i++)
        s->houses[b->row[k] * s->options + i].too_humid =
            b->outcomes[at(b, i, k)].year.too_humid;
}

/* ---- a block ----------------------------------------------------------------- */

static int is_marched(const struct block *b, size_t option)
{
    return b->s->only == NULL || b->s->only[option];
}

/* The likely house of every option, side by side where they branch alike. */
static enum dew_status likely(struct block *b, struct dew_error *err)
{
    size_t options = b->s->options;
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < options && status == DEW_OK; i++)
        status = make(b, i, err);
    if (status == DEW_OK)
        status = march(b, 0, options, err);
    for (size_t i = 0; i < options && status == DEW_OK; i++)
        b->s->as_told[i] = b->outcomes[i];
    return status;
}

static enum dew_status drawn_rows(struct block *b, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < b->s->options && status == DEW_OK; i++) {
        if (!is_marched(b, i))
            continue;
        status = make(b, i, err);
        if (status == DEW_OK)
            status = march_option(b, i, err);
    }
    return status;
}

static enum dew_status all_options(struct block *b, struct dew_error *err)
{
    enum dew_status status =
        b->row[0] == 0 ? likely(b, err) : drawn_rows(b, err);

    for (size_t k = 0; k < b->count && status == DEW_OK; k++)
        if (b->s->only != NULL)
            count(b, k);
        else
            judge(b, k);
    return status;
}

enum dew_status run__spread_march(struct dew_spread *s, size_t first,
                                  size_t count, struct dew_error *err)
{
    size_t houses = s->options * count;
    struct block b = {.s = s,
                      .cases = calloc(houses, sizeof *b.cases),
                      .outcomes = calloc(houses, sizeof *b.outcomes),
                      .list = calloc(run__spread_room(s), sizeof *b.list)};
    enum dew_status status;

    for (; b.count < count; b.count++)
        b.row[b.count] =
            s->order != NULL ? s->order[first + b.count] : first + b.count;
    status =
        b.cases != NULL && b.outcomes != NULL && b.list != NULL
            ? all_options(&b, err)
            : core__fail(err, DEW_EMEM, "no memory for %zu houses", houses);

    free(b.cases);
    free(b.outcomes);
    free(b.list);
    return status;
}
