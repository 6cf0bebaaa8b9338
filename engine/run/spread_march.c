/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Some draws of every option, marched side by side and judged. */
#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/spread.h"
#include "study/kept.h"
#include "study/year.h"

/* Of a block: words that are drawn part its houses, and what is alike in so
   many fills its lanes all the same. */
enum {
    BUNDLES = 8,
    ROWS = BUNDLES * DEW_BUNDLE_MOST,
    OPTIONS = (RUN__MOST - RUN__OTHERS) / 2 /* of a run at most               */
};
_Static_assert((int)DEW_SPREAD_TOGETHER <= (int)ROWS, "they are a block");

/* A drawn year that is marched in, and its light for houses as the first
   option's: rows go through the years one after another, and a block need not
   hold all. */
struct held_year {
    struct dew_year *year; /* NULL: the spread holds it                       */
    struct dew_weather weather;
    struct dew_light *light; /* NULL: not marched in                          */
};

/* Rows of a spread, in the order of their years, or row 0 of several; of the
   crowd [option][row]. */
struct block {
    struct dew_spread *of[ROWS];
    size_t row[ROWS], count;
    struct run__crowd crowd;
    struct dew_change *list; /* room for the changes of one house            */
    /* [options]  the name of what is kept of an option's houses, and 1 where it
       was                                                                    */
    char (*kept)[DEW_KEPT_NAME];
    unsigned char was_kept[OPTIONS];
    struct held_year years[DEW_SPREAD_YEARS]; /* the first is the run's      */
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
    return draw_of_row(b->of[k], b->row[k]);
}

static int number_of_year(const struct block *b, size_t k)
{
    return dew_spread_year(b->of[k], draw_of(b, k));
}

static const struct run__spread_year *year_of(const struct block *b, size_t k)
{
    return &b->of[k]->years[number_of_year(b, k)];
}

/* The place of a house in the crowd. */
static size_t at(const struct block *b, size_t option, size_t k)
{
    return option * b->count + k;
}

static const char *name_of(const struct block *b, size_t option)
{
    const struct dew_run *r = b->of[0]->run;

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

static enum dew_status make_one(struct block *b, size_t option, size_t k,
                                struct dew_error *err)
{
    const struct dew_run *r = b->of[k]->run;
    const struct dew_changes changes =
        run__spread_changes(b->of[k], b->row[k], option, b->list);
    const struct run__spread_year *year = year_of(b, k);
    size_t from = r->options[option].at, i = at(b, option, k);
    struct dew_case *c = &b->crowd.cases[i];
    struct dew_outcome *o = &b->crowd.outcomes[i];

    o->name = dew_scenario_name(r->scenario, from);
    o->count = year->weather.count;
    b->crowd.weather[i] = year->weather;
    b->crowd.held[i] = r->held ? r->measured.t : NULL;
    if (dew_scenario_case(r->scenario, from, &year->outdoors, &changes, c,
                          err) != DEW_OK ||
        dew_scenario_required_with(r->scenario, from, &changes, &o->required,
                                   err) != DEW_OK)
        return blame(b, option, k, err);
    shift_limits(c, dew_spread_off(b->of[k], draw_of(b, k)));
    return DEW_OK;
}

/* ---- marching ---------------------------------------------------------------- */

static enum dew_status hold_year(struct held_year *y,
                                 const struct dew_spread *s, int number,
                                 struct dew_error *err)
{
    struct dew_outdoors outdoors; /* the spread's own are the same */

    y->weather = s->years[number].weather;
    if (y->weather.hours == NULL) {
        if (run__made_year(s->run, number, &y->year, &outdoors, err) != DEW_OK)
            return err->status;
        run__spread_lay_year(&y->weather, y->year);
    }
    if (dew_light_open(&y->light, &s->run->cases[0], &y->weather, err) !=
        DEW_OK)
        return err->status;
    y->weather.light = y->light;
    return DEW_OK;
}

/* Those that houses still march in. */
static enum dew_status hold_years(struct block *b, struct dew_error *err)
{
    for (size_t i = 0; i < b->of[0]->options * b->count; i++) {
        size_t k = i % b->count;
        int number = number_of_year(b, k);
        struct held_year *y = &b->years[number];

        if (number == 0 || b->crowd.gone[i])
            continue;
        if (y->light == NULL && hold_year(y, b->of[k], number, err) != DEW_OK)
            return err->status;
        b->crowd.weather[i] = y->weather;
    }
    return DEW_OK;
}

static void let_go(struct block *b)
{
    for (size_t i = 0; i < DEW_SPREAD_YEARS; i++) {
        dew_light_close(b->years[i].light);
        dew_year_close(b->years[i].year);
    }
}

/* ---- what is kept ------------------------------------------------------------ */

/* What a march fills of an outcome, one behind the other. */
enum { MONTHS = DEW_MONTHS, TALLIES = (1 + MONTHS) * sizeof(struct dew_tally) };
_Static_assert(offsetof(struct dew_outcome, month) ==
                   offsetof(struct dew_outcome, year) +
                       sizeof(struct dew_tally),
               "a year, then its months");

/* Of an option of which nothing is drawn, the first house of a spread is all. */
static size_t houses_of(const struct block *b, size_t option)
{
    int several = b->of[0] != b->of[b->count - 1];

    return several || run__spread_moves(b->of[0], option) ? b->count : 1;
}

/* All that an option's houses of a block come to depends on. */
static void name_kept(const struct block *b, size_t option, size_t houses,
                      char out[DEW_KEPT_NAME])
{
    struct study__name name = study__name_of("houses drawn", houses * TALLIES);

    for (size_t k = 0; k < houses; k++) {
        const struct dew_outcome *o = &b->crowd.outcomes[at(b, option, k)];

        study__name_add(&name, year_of(b, k)->kept, DEW_KEPT_NAME);
        study__name_add(&name, &o->required, sizeof o->required);
        study__name_case(&name, &b->crowd.cases[at(b, option, k)]);
    }
    study__name_end(&name, out);
}

static void lay_parts(const struct block *b, size_t option, size_t houses,
                      struct dew_kept_part parts[ROWS])
{
    for (size_t k = 0; k < houses; k++)
        parts[k] = (struct dew_kept_part){
            &b->crowd.outcomes[at(b, option, k)].year, TALLIES};
}

/* Kept houses do not march. */
static void get_kept(struct block *b, size_t option)
{
    const struct dew_kept *kept = b->of[0]->run->kept;
    size_t houses = houses_of(b, option);
    struct dew_kept_part parts[ROWS];

    name_kept(b, option, houses, b->kept[option]);
    lay_parts(b, option, houses, parts);
    b->was_kept[option] =
        kept->get(kept->of, b->kept[option], parts, houses) != 0;
    if (b->was_kept[option])
        memset(&b->crowd.gone[at(b, option, 0)], 1, houses);
}

static void put_kept(const struct block *b, size_t option)
{
    const struct dew_kept *kept = b->of[0]->run->kept;
    size_t houses = houses_of(b, option);
    struct dew_kept_part parts[ROWS];

    lay_parts(b, option, houses, parts);
    kept->put(kept->of, b->kept[option], parts, houses);
}

/* ---- judging ----------------------------------------------------------------- */

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
    struct dew_spread *s = b->of[k];
    struct dew_choice choices[OPTIONS];
    const struct dew_question q = {
        .choices = choices,
        .count = s->options,
        .prices = run__priced(&s->prices) ? &s->prices : NULL,
        .judging = dew_verdict_judging()};
    struct dew_drawn *out = &s->houses[b->row[k] * s->options];
    size_t passing[OPTIONS], best;

    for (size_t i = 0; i < s->options; i++)
        choices[i] =
            (struct dew_choice){.outcome = &b->crowd.outcomes[at(b, i, k)],
                                .c = &b->crowd.cases[at(b, i, k)],
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
    const struct dew_spread *s = b->of[k];

    for (size_t i = 0; i < s->options; i++)
        s->houses[b->row[k] * s->options + i].too_humid =
            b->crowd.outcomes[at(b, i, k)].year.too_humid;
}

/* ---- a block ----------------------------------------------------------------- */

/* Of houses that all are one the first marches. */
static void march_one_of(struct block *b, size_t option)
{
    for (size_t k = houses_of(b, option); k < b->count; k++)
        b->crowd.gone[at(b, option, k)] = 1;
}

static void all_as_one(struct block *b, size_t option)
{
    for (size_t k = houses_of(b, option); k < b->count; k++)
        b->crowd.outcomes[at(b, option, k)] =
            b->crowd.outcomes[at(b, option, 0)];
}

static int is_marched(const struct block *b, size_t option)
{
    const struct dew_spread *s = b->of[0];

    return s->only == NULL || s->only[option];
}

/* The houses of an option, those that need not march gone already. */
static enum dew_status set_out(struct block *b, size_t option,
                               struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    if (!is_marched(b, option)) {
        memset(&b->crowd.gone[at(b, option, 0)], 1, b->count);
        return DEW_OK;
    }
    for (size_t k = 0; k < b->count && status == DEW_OK; k++)
        status = make_one(b, option, k, err);
    if (status != DEW_OK)
        return status;
    march_one_of(b, option);
    if (b->of[0]->run->kept != NULL)
        get_kept(b, option);
    return DEW_OK;
}

static void come_in(struct block *b, size_t option)
{
    all_as_one(b, option);
    if (b->of[0]->run->kept != NULL && is_marched(b, option) &&
        !b->was_kept[option])
        put_kept(b, option);
}

/* Houses of one option are busy in the same hours, and wait less for each other;
   where they fill no vector, those of all go side by side. */
static enum dew_status march(struct block *b, struct dew_error *err)
{
    size_t options = b->of[0]->options, failed = 0;
    size_t each = b->count < (size_t)dew_bundle_lanes() ? options : 1;
    enum dew_status status = hold_years(b, err);

    if (status != DEW_OK)
        return status;
    for (size_t i = 0; i < options && status == DEW_OK; i += each) {
        status = run__crowd_march(&b->crowd, at(b, i, 0), each * b->count,
                                  &failed, err);
        for (size_t j = i; j < i + each && status == DEW_OK; j++)
            come_in(b, j);
    }
    return status == DEW_OK || b->count == 0
               ? status
               : blame(b, failed / b->count, failed % b->count, err);
}

static enum dew_status all_options(struct block *b, struct dew_error *err)
{
    size_t options = b->of[0]->options;
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < options && status == DEW_OK; i++)
        status = set_out(b, i, err);
    if (status == DEW_OK)
        status = march(b, err);
    if (status != DEW_OK)
        return status;
    for (size_t k = 0; k < b->count; k++)
        if (b->of[k]->only != NULL)
            count(b, k);
        else
            judge(b, k);
    return DEW_OK;
}

/* The rows are in it. */
static enum dew_status march_block(struct block *b, struct dew_error *err)
{
    size_t room = 1;
    enum dew_status status =
        run__crowd_open(&b->crowd, b->of[0]->options * b->count, err);

    for (size_t k = 0; k < b->count; k++)
        if (run__spread_room(b->of[k]) > room)
            room = run__spread_room(b->of[k]);
    b->list = calloc(room, sizeof *b->list);
    b->kept = calloc(b->of[0]->options, sizeof *b->kept);
    if (status == DEW_OK && (b->list == NULL || b->kept == NULL))
        status = core__fail(err, DEW_EMEM, "out of memory");
    if (status == DEW_OK)
        status = all_options(b, err);
    let_go(b);
    run__crowd_close(&b->crowd);
    free(b->list);
    free(b->kept);
    return status;
}

enum dew_status run__spread_march(struct dew_spread *s, size_t first,
                                  size_t count, struct dew_error *err)
{
    struct block b = {.count = 0};

    for (; b.count < count; b.count++) {
        b.of[b.count] = s;
        b.row[b.count] =
            s->order != NULL ? s->order[first + b.count] : first + b.count;
    }
    return march_block(&b, err);
}

/* ---- likely houses of several spreads ------------------------------------------ */

/* Not begun, of as many options and hours as the first. */
static int goes_with(const struct dew_spread *a, const struct dew_spread *b)
{
    return b->failed == DEW_OK && b->marched == 0 && b->only == NULL &&
           a->options == b->options &&
           a->years[0].weather.count == b->years[0].weather.count;
}

enum dew_status dew_spread_likely(struct dew_spread *const *spreads,
                                  size_t count, struct dew_error *err)
{
    struct dew_error inside = {0};
    struct block b = {.count = 0};
    enum dew_status status;

    err = err != NULL ? err : &inside;
    if (count < 1 || count > DEW_SPREAD_TOGETHER)
        return core__fail(err, DEW_ERANGE, "%zu spreads are not 1 .. %d", count,
                          (int)DEW_SPREAD_TOGETHER);
    for (; b.count < count; b.count++) {
        if (!goes_with(spreads[0], spreads[b.count]))
            return core__fail(err, DEW_ERANGE,
                              "spread %zu does not go with the first", b.count);
        b.of[b.count] = spreads[b.count];
    }
    status = march_block(&b, err);
    for (size_t k = 0; k < count && status == DEW_OK; k++)
        spreads[k]->marched = 1;
    return status;
}
