/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/spread.h"

#include <sched.h>
#include <stdint.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/num.h"
#include "core/parallel.h"
#include "run/spread.h"
#include "study/kept.h"

/* ---- opening ----------------------------------------------------------------- */

static enum dew_status check(const struct dew_spread *s, struct dew_error *err)
{
    if (s->draws > DEW_SPREAD_MOST)
        return core__fail(err, DEW_ERANGE, "%zu draws are more than %d",
                          s->draws, DEW_SPREAD_MOST);
    if (s->years[0].weather.count < DEW_MARCH_YEAR)
        return core__fail(err, DEW_ERANGE,
                          "the weather has %zu hours: ranges are drawn for "
                          "a whole year, %d or more",
                          s->years[0].weather.count, DEW_MARCH_YEAR);
    return DEW_OK;
}

static enum dew_status any_moves(const struct dew_spread *s,
                                 struct dew_error *err)
{
    if (s->draws == 0 || s->year_column < s->columns ||
        s->model_column < s->columns)
        return DEW_OK;
    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].why == DEW_SPREAD_DRAWN)
            return DEW_OK;
    return core__fail(
        err, DEW_EMISSING,
        s->ranges > 0
            ? "of the figures with a range none changes a house of this "
              "scenario: there is nothing to draw"
            : "no figure of the house has a range.  Write one behind a figure "
              "that you are not sure of: \"airtightness: 1.1 ach50 (0.7 to "
              "2.0)\", likely (low to high)");
}

/* ---- years --------------------------------------------------------------------- */

void run__spread_lay_year(struct dew_weather *weather,
                          const struct dew_year *year)
{
    size_t dates;

    weather->hours = dew_year_hours(year, &weather->count);
    weather->dates = dew_year_dates(year, &dates);
}

/* The run's own, and the light on it of another of that year. */
static void take_year(struct dew_spread *s, const struct dew_spread *light_of)
{
    s->year_count = 1;
    s->years[0].outdoors = s->run->outdoors;
    run__spread_lay_year(&s->years[0].weather, s->run->year);
    if (light_of != NULL && light_of->run->year == s->run->year)
        s->years[0].weather.light = light_of->years[0].weather.light;
}

static int is_made(const struct dew_spread *s)
{
    return dew_scenario_weather(s->run->scenario).file[0] == '\0';
}

/* What is drawn beside the figures of the scenario. */
static void add_columns(struct dew_spread *s, const struct dew_spread_ask *ask)
{
    s->year_column = s->model_column = SIZE_MAX;
    if (ask->years && is_made(s)) {
        s->year_count = DEW_SPREAD_YEARS;
        s->year_column = s->columns++;
    }
    if (ask->model)
        s->model_column = s->columns++;
}

/* Of the run's year, for all that march; a block lights the others. */
static enum dew_status light_up(struct dew_spread *s, struct dew_error *err)
{
    struct dew_weather *w = &s->years[0].weather;
    enum dew_status status =
        dew_light_open(&s->light, &s->run->cases[0], w, err);

    w->light = s->light;
    return status;
}

/* Most of what marched in a year may be kept, for which its name will do: who
   marches in it makes it again. */
static void put_off(struct run__spread_year *y)
{
    dew_year_close(y->year);
    y->year = NULL;
    y->weather.hours = NULL;
    y->weather.dates = NULL;
}

static void name_year(const struct dew_spread *s, struct run__spread_year *y)
{
    if (s->run->kept != NULL)
        study__name_weather(&y->weather,
                            s->run->held ? s->run->measured.t : NULL, y->kept);
}

static enum dew_status own_year(struct dew_spread *s, struct dew_error *err)
{
    name_year(s, &s->years[0]);
    return s->years[0].weather.light == NULL ? light_up(s, err) : DEW_OK;
}

static int was_made(const struct run__spread_year *y)
{
    return y->weather.hours != NULL || y->kept[0] != '\0';
}

static void one_year(void *of, size_t i)
{
    struct dew_spread *s = of;
    struct run__spread_year *y = &s->years[i];

    s->status[i] = DEW_OK;
    if (!y->wanted || was_made(y))
        return;
    s->status[i] =
        run__made_year(s->run, (int)i, &y->year, &y->outdoors, &s->err[i]);
    if (s->status[i] != DEW_OK)
        return;
    run__spread_lay_year(&y->weather, y->year);
    name_year(s, y);
    if (s->run->kept != NULL)
        put_off(y);
    sched_yield(); /* the page may be asked to stop */
}

/* The status of the first of count that failed. */
static enum dew_status first_fault(const struct dew_spread *s, size_t count,
                                   struct dew_error *err)
{
    for (size_t i = 0; i < count; i++)
        if (s->status[i] != DEW_OK) {
            if (err != NULL && err->status == DEW_OK)
                *err = s->err[i];
            return s->status[i];
        }
    return DEW_OK;
}

/* Years that no drawn house stands in are not made. */
static enum dew_status make_years(struct dew_spread *s, struct dew_error *err)
{
    int any = 0;

    for (size_t i = 0; i < s->draws; i++) {
        struct run__spread_year *y = &s->years[dew_spread_year(s, i)];

        y->wanted = 1;
        any = any || !was_made(y);
    }
    if (!any)
        return DEW_OK;
    core__parallel(s->threads, s->year_count, one_year, s);
    return first_fault(s, s->year_count, err);
}

/* ---- draws ----------------------------------------------------------------------- */

static enum dew_status make_draws(struct dew_spread *s, unsigned long seed,
                                  struct dew_error *err)
{
    const struct core__draws d = {s->draws, s->columns, seed};
    enum dew_status status;

    s->u = calloc(s->draws * s->columns + 1, sizeof *s->u);
    s->figures = calloc(s->draws * s->columns + 1, sizeof *s->figures);
    s->ends = calloc(s->columns + 1, sizeof *s->ends);
    s->houses = calloc((1 + s->draws) * s->options, sizeof *s->houses);
    s->room = calloc(s->draws + 1, sizeof *s->room);
    if (s->u == NULL || s->figures == NULL || s->ends == NULL ||
        s->houses == NULL || s->room == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu draws", s->draws);
    if (s->draws == 0)
        return DEW_OK;
    run__spread_ends(s);
    status = core__draw(&d, s->u, err);
    return status == DEW_OK ? run__spread_anew(s, seed, err) : status;
}

enum dew_status dew_spread_open(struct dew_spread **spread,
                                const struct dew_run *run,
                                const struct dew_spread_ask *ask,
                                struct dew_error *err)
{
    struct dew_spread *s = calloc(1, sizeof *s);
    struct dew_error inside = {0};
    enum dew_status status;

    *spread = NULL;
    if (s == NULL)
        return core__fail(err, DEW_EMEM, "no memory for draws");
    err = err != NULL ? err : &inside;
    s->run = run;
    s->options = run->count;
    s->draws = ask->draws;
    s->told_only = ask->told_only;
    s->threads = ask->threads > 0 ? ask->threads : core__processors();
    s->seed = ask->seed;
    s->prices = dew_scenario_prices(run->scenario);
    take_year(s, ask->light_of);
    status = check(s, err);
    if (status == DEW_OK)
        status = run__spread_list(s, err);
    if (status == DEW_OK)
        add_columns(s, ask);
    if (status == DEW_OK)
        status = any_moves(s, err);
    if (status == DEW_OK)
        status = own_year(s, err);
    if (status == DEW_OK)
        status = make_draws(s, ask->seed, err);
    if (status == DEW_OK)
        *spread = s;
    else
        dew_spread_close(s);
    return status;
}

enum dew_status run__spread_or_told(struct dew_spread **spread,
                                    const struct dew_run *run,
                                    struct dew_spread_ask *ask,
                                    struct dew_error *err)
{
    const struct dew_error before = *err;
    enum dew_status status = dew_spread_open(spread, run, ask, err);

    if (status != DEW_EMISSING)
        return status;
    *err = before;
    ask->draws = 0;
    return dew_spread_open(spread, run, ask, err);
}

void dew_spread_close(struct dew_spread *s)
{
    if (s == NULL)
        return;
    dew_light_close(s->light);
    for (size_t i = 0; i < DEW_SPREAD_YEARS; i++)
        dew_year_close(s->years[i].year);
    free(s->inputs);
    free(s->u);
    free(s->figures);
    free(s->ends);
    free(s->houses);
    free(s->order);
    free(s->room);
    free(s);
}

void dew_spread_fix(struct dew_spread *s, const struct dew_changes *changes)
{
    s->fixed = changes != NULL ? *changes : (struct dew_changes){NULL, 0};
    s->marched = 0;
    s->failed = DEW_OK;
}

/* ---- the march --------------------------------------------------------------- */

/* Rows of a year one after another, for houses that march side by side through
   one year are busy in the same hours, and wait less for each other; row 0 stays
   first. */
static enum dew_status lay_order(struct dew_spread *s, struct dew_error *err)
{
    size_t rows = 1 + s->draws, at = 1;
    size_t *order = calloc(2 * rows, sizeof *order);

    if (order == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu draws", s->draws);
    for (int year = 0; year < (int)s->year_count; year++)
        for (size_t i = 0; i < s->draws; i++)
            if (dew_spread_year(s, i) == year) {
                order[rows + 1 + i] = at;
                order[at++] = 1 + i;
            }
    s->order = order;
    return DEW_OK;
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

static void one_block(void *of, size_t i)
{
    struct dew_spread *s = of;
    size_t first = s->marched + i * s->block;

    s->status[i] = run__spread_march(
        s, first, least(s->block, 1 + s->draws - first), &s->err[i]);
}

static enum dew_status blocks(struct dew_spread *s, struct dew_error *err)
{
    size_t left = 1 + s->draws - s->marched;
    size_t threads = least(s->threads, RUN__SPREAD_THREADS), count;
    enum dew_status status;

    if (s->order == NULL && lay_order(s, err) != DEW_OK)
        return DEW_EMEM;
    status = make_years(s, err);
    if (status != DEW_OK)
        return status;
    s->block = run__spread_block(left, threads);
    count = least(threads, (left + s->block - 1) / s->block);
    core__parallel(threads, count, one_block, s);
    if (first_fault(s, count, err) == DEW_OK)
        s->marched += least(count * s->block, left);
    return first_fault(s, count, NULL);
}

enum dew_status dew_spread_step(struct dew_spread *s, double *done,
                                struct dew_error *err)
{
    if (s->failed != DEW_OK)
        return core__fail(err, s->failed, "this spread has failed before");
    if (s->marched < 1 + s->draws)
        s->failed = blocks(s, err);
    if (s->failed == DEW_OK)
        *done = (double)s->marched / (double)(1 + s->draws);
    return s->failed;
}

/* ---- what it came to ----------------------------------------------------------- */

const struct dew_spread_input *dew_spread_inputs(const struct dew_spread *s,
                                                 size_t *count)
{
    *count = s->input_count;
    return s->inputs;
}

const struct dew_drawn *dew_spread_house(const struct dew_spread *s,
                                         size_t draw, size_t option)
{
    size_t row = draw < s->draws ? draw + 1 : 0;
    size_t place = s->order != NULL ? s->order[1 + s->draws + row] : row;

    return place < s->marched && option < s->options
               ? &s->houses[row * s->options + option]
               : NULL;
}

static double share_of(const struct dew_spread *s, size_t draw, size_t column)
{
    return s->u[draw * s->columns + column];
}

int dew_spread_year(const struct dew_spread *s, size_t draw)
{
    return draw < s->draws && s->year_column < s->columns
               ? (int)(share_of(s, draw, s->year_column) *
                       (double)s->year_count)
               : 0;
}

double dew_spread_off(const struct dew_spread *s, size_t draw)
{
    static const struct core__pert off = {-DEW_SPREAD_MODEL, 0,
                                          DEW_SPREAD_MODEL};

    return draw < s->draws && s->model_column < s->columns
               ? core__pert_at(&off, share_of(s, draw, s->model_column))
               : 0;
}

enum dew_spread_by dew_spread_by(const struct dew_spread *s)
{
    return s->by;
}

/* Figures drawn; usual: of them those that nobody told. */
static size_t count_drawn(const struct dew_spread *s, int usual)
{
    size_t n = 0;

    for (size_t k = 0; k < s->input_count; k++)
        n += s->inputs[k].why == DEW_SPREAD_DRAWN &&
             (!usual || s->inputs[k].usual);
    return n;
}

const struct dew_draws *dew_spread_draws(struct dew_spread *s)
{
    if (s->marched < 1 + s->draws)
        return NULL;
    s->told = (struct dew_draws){
        .count = s->draws,
        .options = s->options,
        .told = s->houses,
        .each = s->houses + s->options,
        .room = s->room,
        .seed = s->seed,
        .doubted = count_drawn(s, 0),
        .usual = count_drawn(s, 1),
        .years = (int)s->year_count,
        .model = s->model_column < s->columns ? DEW_SPREAD_MODEL : 0};
    return &s->told;
}
