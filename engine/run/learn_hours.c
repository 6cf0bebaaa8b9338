/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hours that a log and the weather share. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/num.h"
#include "dew/air.h"
#include "run/learn.h"
#include "weather/calendar.h"

/* Outdoors on the mean of a day above this, and no more than so much below
   indoors, a house with cooling may be cooling.  Our own. */
static const double WARM = 12.0, BELOW = 10.0;
/* K within which temperatures are one thermostat's; shares of warm hours that
   are below it for sure, of an hour of the clock and of all.  Our own. */
static const double FLAT = 0.7, WARMEST = 0.9, TOP = 0.98;

/* ---- the weather ---------------------------------------------------------------- */

/* The calendar place of an hour in a year that mixes years: 29 February is the
   day before it there. */
static int64_t typical_moment(const struct dew_date *date)
{
    struct dew_date d = *date;

    if (d.month == 2 && d.day == 29)
        d.day = 28;
    d.year = 0;
    return weather__moment_of(&d);
}

/* Where the hour that ends at date stands in the year; its count: nowhere. */
static size_t place(const struct dew_date *year, size_t count,
                    const struct dew_date *date)
{
    int typical = year[0].year == 0;
    int64_t at = typical ? typical_moment(date) : weather__moment_of(date);
    int64_t k = (at - weather__moment_of(&year[0])) / WEATHER__HOUR;
    const int64_t whole = 365 * 24;

    if (typical)
        k = (k % whole + whole) % whole;
    return k >= 0 && k < (int64_t)count ? (size_t)k : count;
}

/* First and one past the last hour of the fit that the year has, one after the
   other. */
static void shared(const struct dew_fit *f, const struct dew_date *year,
                   size_t count, size_t *first, size_t *end)
{
    *first = 0;
    while (*first < f->count && place(year, count, &f->dates[*first]) == count)
        (*first)++;
    *end = *first;
    while (*end < f->count && place(year, count, &f->dates[*end]) < count)
        (*end)++;
}

/* The log's own outdoor air over a made year's hours; where the log has none
   between, a straight line. */
static void own_air(struct run__learn_hours *h, const struct dew_fit *f,
                    size_t first)
{
    size_t last = SIZE_MAX;

    for (size_t k = 0; k < h->count; k++) {
        const struct dew_evidence_hour *x = &f->hours[first + k];

        if (isnan(x->t_out + x->pv_out))
            continue;
        h->weather[k].t = x->t_out;
        h->weather[k].w = dew_air_w_pv(x->pv_out, h->weather[k].p);
        for (size_t i = last == SIZE_MAX ? 0 : last + 1; i < k; i++) {
            const struct dew_hour *a = &h->weather[last == SIZE_MAX ? k : last];
            double share =
                last == SIZE_MAX ? 1 : (double)(i - last) / (double)(k - last);

            h->weather[i].t = a->t + share * (h->weather[k].t - a->t);
            h->weather[i].w = a->w + share * (h->weather[k].w - a->w);
        }
        last = k;
    }
    for (size_t i = last + 1; last != SIZE_MAX && i < h->count; i++) {
        h->weather[i].t = h->weather[last].t;
        h->weather[i].w = h->weather[last].w;
    }
}

/* ---- the log -------------------------------------------------------------------- */

/* 1 where it is so warm outdoors that a house may cool: by the day that ends. */
static void mark_warm(struct run__learn_hours *h)
{
    double mean = h->weather[0].t;

    for (size_t k = 0; k < h->count; k++) {
        mean += (h->weather[k].t - mean) / 24;
        if (mean > WARM && mean > h->t[k] - BELOW && isnan(h->run[k]))
            h->held[k] = NAN;
    }
}

/* The temperatures of the hours that are not held, of one hour of the clock or,
   with CLOCK, of all; sorted into room. */
static size_t free_hours(const struct run__learn_hours *h,
                         const struct dew_fit *f, size_t first, int clock,
                         double *room)
{
    size_t n = 0;

    for (size_t k = 0; k < h->count; k++)
        if (isnan(h->held[k]) && !isnan(h->t[k]) &&
            (clock == RUN__LEARN_CLOCK || f->hours[first + k].clock == clock))
            room[n++] = h->t[k];
    core__sort(room, n);
    return n;
}

/* Where the thermostat is at an hour of the clock, from above: where the upper
   half of its hours are as good as one, there; else, as it floats below, at what
   the house is kept from going over. */
static double thermostat(const struct run__learn_hours *h,
                         const struct dew_fit *f, size_t first, int clock,
                         double top, double *room)
{
    size_t n = free_hours(h, f, first, clock, room);
    double high = n > 0 ? core__quantile(room, n, WARMEST) : top;

    return n > 0 && high - core__quantile(room, n, 0.5) <= FLAT ? high : top;
}

/* A coil runs where the log is at its thermostat.  Hours that float below it are
   held; what is left sets it. */
static void set_points(struct run__learn_hours *h, const struct dew_fit *f,
                       size_t first, double *room)
{
    double set[RUN__LEARN_CLOCK];
    size_t n = free_hours(h, f, first, RUN__LEARN_CLOCK, room);
    double top = n > 0 ? core__quantile(room, n, TOP) : INFINITY;

    for (int i = 0; i < RUN__LEARN_CLOCK; i++)
        set[i] = thermostat(h, f, first, i, top, room);
    for (size_t k = 0; k < h->count; k++)
        if (isnan(h->held[k]) &&
            h->t[k] < set[f->hours[first + k].clock] - FLAT)
            h->held[k] = h->t[k];
    for (int i = 0; i < RUN__LEARN_CLOCK; i++) {
        n = free_hours(h, f, first, i, room);
        h->set[i] = n > 0 ? core__quantile(room, n, 0.5) : NAN;
    }
}

static double mean_of(const double *x, size_t count, double none)
{
    double sum = 0, n = 0;

    for (size_t k = 0; k < count; k++)
        if (!isnan(x[k])) {
            sum += x[k];
            n += 1;
        }
    return n > 0 ? sum / n : none;
}

/* An hour weighs that has a log after the first week, and before until. */
static void lay_log(struct run__learn_hours *h, const struct dew_fit *f,
                    size_t first)
{
    for (size_t k = 0; k < h->count; k++) {
        const struct dew_evidence_hour *x = &f->hours[first + k];

        h->t[k] = h->held[k] = x->t_in;
        h->rh[k] = isnan(x->t_in + x->t_out + x->pv_out) ? NAN : 100 * x->rh;
        h->run[k] = f->cool[first + k];
        h->fan[k] = f->fan[first + k];
        h->told_run += (size_t)!isnan(h->run[k]);
        h->told_fan += (size_t)!isnan(h->fan[k]);
    }
    h->weigh = 0;
    h->start_t = mean_of(h->t, RUN__LEARN_LEAD, 20);
    h->start_rh = 0.01 * mean_of(h->rh, RUN__LEARN_LEAD, 50);
    for (size_t k = 0; k < h->count; k++) {
        if (k < RUN__LEARN_LEAD || first + k >= f->until)
            h->rh[k] = NAN;
    }
    h->days = h->count / 24;
    for (size_t d = 0; d < h->days; d++) {
        int n = 0;

        for (size_t k = 24 * d; k < 24 * d + 24; k++)
            n += isnan(h->rh[k]) ? 0 : 1;
        h->weigh += n >= RUN__LEARN_DAY;
    }
}

static enum dew_status find_set_points(struct run__learn_hours *h,
                                       const struct dew_fit *f, size_t first,
                                       struct dew_error *err)
{
    double *room = calloc(h->count, sizeof *room);

    if (room == NULL)
        return core__fail(err, DEW_EMEM, "no memory for the hours of a log");
    set_points(h, f, first, room);
    free(room);
    return DEW_OK;
}

/* ---- all ------------------------------------------------------------------------- */

static enum dew_status make_room(struct run__learn_hours *h,
                                 struct dew_error *err)
{
    h->weather = calloc(h->count, sizeof *h->weather);
    h->dates = calloc(h->count, sizeof *h->dates);
    h->held = calloc(5 * h->count, sizeof *h->held);
    h->t = h->held + h->count;
    h->rh = h->held + 2 * h->count;
    h->run = h->held + 3 * h->count;
    h->fan = h->held + 4 * h->count;
    return h->weather != NULL && h->dates != NULL && h->held != NULL
               ? DEW_OK
               : core__fail(err, DEW_EMEM, "no memory for the hours of a log");
}

void run__learn_hours_close(struct run__learn_hours *h)
{
    dew_light_close(h->light);
    free(h->weather);
    free(h->dates);
    free(h->held);
}

/* A house that has a coil. */
static int cools(const struct dew_learn *l)
{
    const struct dew_plant *p = &l->run->cases[0].plant;

    return p->handler_count > 0 && p->handlers[0].capacity > 0;
}

static int runs(const struct run__learn_hours *h)
{
    for (size_t k = 0; k < h->count; k++)
        if (h->run[k] > 0)
            return 1;
    return 0;
}

enum dew_status run__learn_hours(struct dew_learn *l, const struct dew_fit *f,
                                 struct dew_error *err)
{
    struct run__learn_hours *h = &l->hours;
    size_t count, first, end;
    const struct dew_hour *year = dew_year_hours(l->run->year, &count);
    const struct dew_date *dates = dew_year_dates(l->run->year, &count);

    h->typical = dates[0].year == 0;
    if (h->typical && !f->own)
        return core__fail(err, DEW_EMISSING,
                          "a typical or made year is not the weather of the "
                          "log's days: give that as weather.file, or a log "
                          "with the outdoor air beside the indoor");
    shared(f, dates, count, &first, &end);
    if (end < first + RUN__LEARN_LEAD + DEW_EVIDENCE_LEAST)
        return core__fail(err, DEW_EMISSING,
                          "weather and log share %zu days one after the other; "
                          "two weeks are the least",
                          (end - first) / 24);
    h->first = first;
    h->count = end - first;
    if (make_room(h, err) != DEW_OK)
        return err->status;
    for (size_t k = 0; k < h->count; k++) {
        h->weather[k] = year[place(dates, count, &f->dates[first + k])];
        h->dates[k] = f->dates[first + k];
    }
    if (h->typical)
        own_air(h, f, first);
    lay_log(h, f, first);
    if (h->weigh < 7)
        return core__fail(err, DEW_EMISSING,
                          "after its first week the log has %zu days that "
                          "weigh; a week of them is the least",
                          h->weigh);
    h->cooled = cools(l);
    if (!h->cooled && runs(h))
        return core__fail(err, DEW_EMISSING,
                          "by its export the coil ran, and the scenario has no "
                          "cooling: give cooling.capacity");
    if (h->cooled)
        mark_warm(h);
    return find_set_points(h, f, first, err);
}
