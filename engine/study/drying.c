/* SPDX-License-Identifier: GPL-3.0-or-later */
/* With and without construction water; what contents hold. */
#include "dew/drying.h"

#include <math.h>

#include "dew/air.h"
#include "dew/sources.h"

enum { WEEK = 24 * 7, WEEKS = 24 * 28 };

int dew_drying_matters(const struct dew_case *c)
{
    const struct dew_water *w = &c->house.water[DEW_SOURCE_drying];

    return w->per_day > 0 || w->rate > 0;
}

struct dew_case dew_drying_settled(const struct dew_case *c)
{
    struct dew_case dry = *c;

    dry.house.water[DEW_SOURCE_drying] = (struct dew_water){0};
    return dry;
}

/* ---- when they agree --------------------------------------------------------- */

static double gap(const struct dew_drying_ask *a, size_t h)
{
    return a->with->series.rh[h] - a->without->series.rh[h];
}

/* Mean over the count hours that end before hour end. */
static double mean_gap(const struct dew_drying_ask *a, size_t end, size_t count)
{
    double sum = 0;

    for (size_t h = end - count; h < end; h++)
        sum += gap(a, h);
    return sum / (double)count;
}

/* The hour after which every week's mean lies below the limit. */
static size_t agreed_by(const struct dew_drying_ask *a)
{
    size_t count = a->with->count, last = 0;
    double sum = 0;

    for (size_t h = 0; h < count; h++) {
        sum += gap(a, h);
        if (h >= WEEK)
            sum -= gap(a, h - WEEK);
        if (h + 1 >= WEEK && fabs(sum) >= DEW_DRYING_AGREES * WEEK)
            last = h + 1;
    }
    return last;
}

/* kg/day at hour h of the run, of a half-life in days. */
static double rate_at(double kg, double half_life, double h)
{
    return kg * log(2) / half_life * exp2(-h / 24 / half_life);
}

/* Hours until kg of that half-life give off no more than rate. */
static double until(double kg, double half_life, double rate)
{
    return fmax(24 * half_life * log2(kg * log(2) / half_life / rate), 0);
}

static double held(const struct dew_water *w)
{
    return w->per_day * w->half_life / log(2);
}

/* The rate at which what it adds comes down to the limit, kg/day. */
static double rate_that_agrees(const struct dew_drying_ask *a)
{
    const struct dew_water *w = a->water;
    size_t count = a->with->count, hour = agreed_by(a);
    size_t last = count < WEEKS ? count : WEEKS;
    double adds;

    if (hour < count)
        return rate_at(held(w), w->half_life, (double)hour);
    adds = fabs(mean_gap(a, count, last));
    return rate_at(held(w), w->half_life, (double)count - 0.5 * (double)last) *
           fmin(DEW_DRYING_AGREES / adds, 1);
}

static struct dew_estimate agrees(const struct dew_drying_ask *a)
{
    double rate, ends[2], kg = held(a->water);
    struct dew_estimate out = {0, 0, 0};

    if (agreed_by(a) == 0)
        return out;
    rate = rate_that_agrees(a);
    out.likely = until(kg, a->water->half_life, rate);
    ends[0] = until(kg, a->half_life.low, rate);
    ends[1] = until(kg, a->half_life.high, rate);
    out.low = fmin(out.likely, fmin(ends[0], ends[1]));
    out.high = fmax(out.likely, fmax(ends[0], ends[1]));
    return out;
}

struct dew_drying dew_drying_of(const struct dew_drying_ask *a)
{
    double days = (double)a->with->count / 24;
    struct dew_drying out = {
        .given_off = dew_house_dried(a->water, 0, days),
        .humid_more = a->with->year.too_humid - a->without->year.too_humid,
        .more = mean_gap(a, a->with->count, a->with->count)};

    out.left = held(a->water) - out.given_off;
    out.agree = agrees(a);
    return out;
}

/* ---- what contents hold ------------------------------------------------------ */

struct dew_falling dew_drying_falling(const struct dew_case *c,
                                      const struct dew_falling_ask *ask)
{
    const struct dew_buffer *b = &c->house.buffer;
    double density = dew_air_density_run(c->pressure);
    double from = dew_air_w(ask->t, ask->from, c->pressure);
    double to = dew_air_w(ask->t, ask->to, c->pressure);
    double air = density * c->house.volume;
    double turns = log((from - ask->w_out) / (to - ask->w_out));
    struct dew_falling f = {.air = air * (from - to),
                            .day = (b->surface_kg + b->mid_kg) *
                                   (ask->from - ask->to),
                            .deep = b->deep_kg * (ask->from - ask->to)};
    double all = (f.air + f.day + f.deep) / (from - to);

    if (!(ask->w_out < to))
        turns = NAN;
    f.hours[0] = air * turns / (density * ask->flow * 3600);
    f.hours[1] = all * turns / (density * ask->flow * 3600);
    return f;
}
