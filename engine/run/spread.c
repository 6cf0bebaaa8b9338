/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/spread.h"

#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/num.h"
#include "core/parallel.h"
#include "run/spread.h"

/* ---- opening ----------------------------------------------------------------- */

static enum dew_status check(const struct dew_spread *s, struct dew_error *err)
{
    if (s->draws < 1 || s->draws > DEW_SPREAD_MOST)
        return core__fail(err, DEW_ERANGE, "%zu draws are outside 1 .. %d",
                          s->draws, DEW_SPREAD_MOST);
    if (s->weather.count < DEW_MARCH_YEAR)
        return core__fail(err, DEW_ERANGE,
                          "the weather has %zu hours: ranges are drawn for "
                          "a whole year, %d or more",
                          s->weather.count, DEW_MARCH_YEAR);
    return DEW_OK;
}

static enum dew_status any_moves(const struct dew_spread *s,
                                 struct dew_error *err)
{
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

static enum dew_status make_draws(struct dew_spread *s, unsigned long seed,
                                  struct dew_error *err)
{
    const struct core__draws d = {s->draws, s->columns, seed};
    enum dew_status status;

    s->u = calloc(s->draws * s->columns, sizeof *s->u);
    s->houses = calloc((1 + s->draws) * s->options, sizeof *s->houses);
    s->sorted = calloc(s->draws, sizeof *s->sorted);
    s->as_told = calloc(s->options, sizeof *s->as_told);
    if (s->u == NULL || s->houses == NULL || s->sorted == NULL ||
        s->as_told == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu draws", s->draws);
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
    size_t dates;

    *spread = NULL;
    if (s == NULL)
        return core__fail(err, DEW_EMEM, "no memory for draws");
    err = err != NULL ? err : &inside;
    s->run = run;
    s->options = run->count;
    s->draws = ask->draws;
    s->told_only = ask->told_only;
    s->threads = ask->threads > 0 ? ask->threads : core__processors();
    s->prices = dew_scenario_prices(run->scenario);
    s->weather.hours = dew_year_hours(run->year, &s->weather.count);
    s->weather.dates = dew_year_dates(run->year, &dates);
    status = check(s, err);
    if (status == DEW_OK)
        status = run__spread_list(s, err);
    if (status == DEW_OK)
        status = any_moves(s, err);
    if (status == DEW_OK)
        status = make_draws(s, ask->seed, err);
    if (status == DEW_OK)
        *spread = s;
    else
        dew_spread_close(s);
    return status;
}

void dew_spread_close(struct dew_spread *s)
{
    if (s == NULL)
        return;
    free(s->inputs);
    free(s->u);
    free(s->houses);
    free(s->sorted);
    free(s->as_told);
    free(s);
}

/* ---- the march --------------------------------------------------------------- */

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

static void one_block(void *of, size_t i)
{
    struct dew_spread *s = of;
    size_t rows = run__spread_block(), first = s->marched + i * rows;

    s->status[i] = run__spread_march(
        s, first, least(rows, 1 + s->draws - first), &s->err[i]);
}

static enum dew_status blocks(struct dew_spread *s, struct dew_error *err)
{
    size_t rows = run__spread_block(), left = 1 + s->draws - s->marched;
    size_t threads = least(s->threads, RUN__SPREAD_THREADS);
    size_t count = least(threads, (left + rows - 1) / rows);

    core__parallel(threads, count, one_block, s);
    for (size_t i = 0; i < count; i++)
        if (s->status[i] != DEW_OK) {
            if (err != NULL && err->status == DEW_OK)
                *err = s->err[i];
            return s->status[i];
        }
    s->marched += least(count * rows, left);
    return DEW_OK;
}

static enum dew_status as_told(struct dew_spread *s, struct dew_error *err)
{
    struct dew_error inside = {0};
    enum dew_status status =
        run__spread_march(s, 0, 1, err != NULL ? err : &inside);

    s->marched = status == DEW_OK;
    return status;
}

enum dew_status dew_spread_step(struct dew_spread *s, double *done,
                                struct dew_error *err)
{
    if (s->failed != DEW_OK)
        return core__fail(err, s->failed, "this spread has failed before");
    if (s->marched == 0)
        s->failed = as_told(s, err);
    else if (s->marched < 1 + s->draws)
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

const struct dew_spread_house *dew_spread_house(const struct dew_spread *s,
                                                size_t draw, size_t option)
{
    size_t row = draw < s->draws ? draw + 1 : 0;

    return row < s->marched && option < s->options
               ? &s->houses[row * s->options + option]
               : NULL;
}

enum dew_spread_by dew_spread_by(const struct dew_spread *s)
{
    return s->by;
}

static double hours_of(const struct dew_spread_house *h,
                       enum dew_spread_count what)
{
#define X(name, words) h->name,
    const double hours[] = {DEW_SPREAD_HOURS_MAP(X)};
#undef X

    return hours[what];
}

struct dew_spread_range dew_spread_hours(const struct dew_spread *s,
                                         size_t option,
                                         enum dew_spread_count what)
{
    const struct dew_spread_house *h = dew_spread_house(s, s->draws, option);
    double *x = s->sorted;

    if (s->marched < 1 + s->draws)
        return (struct dew_spread_range){NAN, NAN, NAN, NAN};
    for (size_t i = 0; i < s->draws; i++)
        x[i] = hours_of(dew_spread_house(s, i, option), what);
    core__sort(x, s->draws);
    return (struct dew_spread_range){dew_study_quantile(x, s->draws, 0.1),
                                     dew_study_quantile(x, s->draws, 0.5),
                                     dew_study_quantile(x, s->draws, 0.9),
                                     hours_of(h, what)};
}

struct dew_spread_shares dew_spread_shares(const struct dew_spread *s,
                                           size_t option)
{
    struct dew_spread_shares sum = {0};

    for (size_t i = 0; i + 1 < s->marched; i++) {
        const struct dew_spread_house *h = dew_spread_house(s, i, option);

        sum.keeps += (size_t)h->keeps;
        sum.ventilates += (size_t)h->ventilates;
        sum.best += (size_t)h->best;
    }
    return sum;
}

struct dew_spread_interval dew_spread_interval(size_t count, size_t draws)
{
    const double z = 1.959963984540054;
    double n = (double)draws, p = (double)count / n;
    double middle = p + z * z / (2 * n);
    double half = z * sqrt(p * (1 - p) / n + z * z / (4 * n * n));
    double whole = 1 + z * z / n;

    if (draws == 0 || count > draws)
        return (struct dew_spread_interval){NAN, NAN};
    return (struct dew_spread_interval){fmax(0, (middle - half) / whole),
                                        fmin(1, (middle + half) / whole)};
}

size_t dew_spread_none(const struct dew_spread *s)
{
    size_t some_best = 0;

    for (size_t i = 0; i < s->options; i++)
        some_best += dew_spread_shares(s, i).best;
    return s->marched > 0 ? s->marched - 1 - some_best : 0;
}
