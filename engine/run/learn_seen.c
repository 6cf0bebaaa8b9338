/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings without a logger. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "dew/air.h"
#include "evidence/evidence.h"
#include "run/learn.h"
#include "weather/calendar.h"

/* Points of RH, all our guess: what a dial or a cheap instrument is off by, all
   readings together; to what one is read; what another year of the place
   makes of a month. */
static const double SENSOR = 2.5, DIAL = 0.5, YEAR = 1.5;
/* sd to one side of what one in ten is beyond. */
static const double TENTH = 1.2816;
/* Glass is wet in half of the hours or more, dry in one of ten or fewer, give
   or take: our guess. */
static const double WET = 0.5, DRY = 0.1, GLASS = 0.2;
static const double ROOM = 21.0; /* degC  for points of a Pa                 */

/* ---- which hours -------------------------------------------------------------------- */

/* The hour of the clock that ends at date lies within the part of the day. */
static int within(const struct dew_seen *x, int hour)
{
    double middle = hour - 0.5;

    return x->from < x->until ? middle > x->from && middle < x->until
                              : middle > x->from || middle < x->until;
}

static int is_of(const struct dew_seen *x, const struct dew_date *date,
                 const struct dew_date *wall)
{
    if (x->months != 0)
        return (x->months >> (wall->month - 1) & 1U) && within(x, wall->hour);
    return date->year != 0 &&
           weather__days(wall->year, wall->month, wall->day) * 24 +
                   wall->hour ==
               weather__days(x->date.year, x->date.month, x->date.day) * 24 +
                   (x->at > 0 ? (int)ceil(x->at) : 0);
}

static void mark(struct dew_learn *l)
{
    const struct run__learn_hours *h = &l->hours;
    const struct dew_case *c = &l->run->cases[0];
    struct run__learn_seen *s = &l->seen;

    for (size_t k = 0; k < h->count; k++) {
        struct dew_date wall =
            dew_weather_by_clock(&h->dates[k], c->clock, c->site.utc_offset);

        for (size_t i = 0; i < s->count; i++)
            if (is_of(&s->list[i], &h->dates[k], &wall)) {
                s->of[k] |= 1U << i;
                s->hours[i] += 1;
                s->t_out[i] += h->weather[k].t;
            }
    }
    for (size_t i = 0; i < s->count; i++)
        s->t_out[i] /= s->hours[i];
}

int run__seen_there(const struct dew_run *r, const struct dew_seen *seen)
{
    const struct dew_value *v =
        run__value(dew_scenario_values(r->scenario, 0), "people.clock");
    enum dew_clock clock =
        v->given ? (enum dew_clock)(v->choice + 1) : DEW_CLOCK_UNSAID;
    double offset = dew_year_site(r->year)->utc_offset;
    size_t count;
    const struct dew_date *dates = dew_year_dates(r->year, &count);

    for (size_t k = 0; k < count; k++) {
        struct dew_date wall = dew_weather_by_clock(&dates[k], clock, offset);

        if (is_of(seen, &dates[k], &wall))
            return 1;
    }
    return 0;
}

/* ---- how sure ------------------------------------------------------------------------ */

double run__learn_own_variance(const struct dew_seen *x)
{
    double range = 100 * (x->rh.high - x->rh.low) / (2 * TENTH),
           quick = exp(evidence__noise_mean[2]);

    return fmax(range * range, DIAL * DIAL) +
           (x->months == 0 ? quick * quick : 0);
}

static int month_of(const struct dew_seen *x)
{
    int m = 0;

    if (x->months == 0)
        return x->date.month;
    while ((x->months >> m & 1U) == 0)
        m++;
    return m + 1;
}

/* Points2 of two readings together: the sensor, the month's slow habit and
   another year, what habits make of cold and warm. */
static double together(const struct run__learn_seen *s, size_t i, size_t j)
{
    double slow = exp(evidence__noise_mean[0]),
           point = 100 / dew_air_pws_liquid(ROOM),
           same = month_of(&s->list[i]) == month_of(&s->list[j]);

    return SENSOR * SENSOR + same * (slow * slow + YEAR * YEAR) +
           point * point * evidence__bend_at(s->t_out[i], s->t_out[j]);
}

/* Those with a humidity first. */
static void humid_first(struct run__learn_seen *s)
{
    struct dew_seen list[DEW_SEEN_MOST];
    size_t n = 0;

    for (int humid = 1; humid >= 0; humid--)
        for (size_t i = 0; i < s->count; i++)
            if ((isnan(s->list[i].rh.si) ? 0 : 1) == humid)
                list[n++] = s->list[i];
    memcpy(s->list, list, n * sizeof *list);
    s->read = 0;
    while (s->read < s->count && !isnan(s->list[s->read].rh.si))
        s->read++;
}

static enum dew_status spread(struct run__learn_seen *s, struct dew_error *err)
{
    for (size_t i = 0; i < s->read; i++)
        for (size_t j = 0; j < s->read; j++)
            s->root[i * s->read + j] =
                together(s, i, j) +
                (i == j ? run__learn_own_variance(&s->list[i]) : 0);
    return core__cholesky(s->root, s->read, err);
}

/* ---- all ------------------------------------------------------------------------------ */

static enum dew_status copy_year(struct dew_learn *l, struct dew_error *err)
{
    struct run__learn_hours *h = &l->hours;
    const struct dew_hour *hours = dew_year_hours(l->run->year, &h->count);
    const struct dew_date *dates = dew_year_dates(l->run->year, &h->count);

    if (h->count < DEW_MARCH_YEAR)
        return core__fail(err, DEW_ERANGE,
                          "the weather has %zu hours: readings want a whole "
                          "year, %d or more",
                          h->count, DEW_MARCH_YEAR);
    h->weather = calloc(h->count, sizeof *h->weather);
    h->dates = calloc(h->count, sizeof *h->dates);
    l->seen.of = calloc(h->count, sizeof *l->seen.of);
    if (h->weather == NULL || h->dates == NULL || l->seen.of == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a year");
    memcpy(h->weather, hours, h->count * sizeof *hours);
    memcpy(h->dates, dates, h->count * sizeof *dates);
    return DEW_OK;
}

enum dew_status run__learn_seen(struct dew_learn *l, struct dew_error *err)
{
    struct run__learn_seen *s = &l->seen;
    enum dew_status status;

    s->count = dew_scenario_seen(l->run->scenario, s->list);
    if (s->count == 0)
        return core__fail(err, DEW_EMISSING,
                          "no log and no readings: name a logger's file, or "
                          "write what you saw into the scenario, as in "
                          "readings: [{when: july, rh: 62 to 68 %%}]");
    humid_first(s);
    status = copy_year(l, err);
    if (status != DEW_OK)
        return status;
    mark(l);
    l->hours.weigh = s->read;
    for (size_t i = 0; i < s->count; i++)
        l->hours.weigh += s->list[i].glass >= 0;
    return spread(s, err);
}

/* ---- a house ---------------------------------------------------------------------------- */

void run__learn_seen_hour(const struct dew_learn *l, size_t h,
                          const struct dew_result *out,
                          struct run__learn_sums *sums)
{
    const struct run__learn_seen *s = &l->seen;
    double pv = dew_air_pv(out->w, l->hours.weather[h].p);

    for (size_t i = 0; i < s->count; i++)
        if (s->of[h] >> i & 1U) {
            double t = isnan(s->list[i].t) ? out->t : s->list[i].t;

            sums->rh[i] += 100 * pv / dew_air_pws_liquid(t);
            sums->wet[i] += out->sweat[DEW_GLASS];
        }
}

/* What the share of hours with wet glass lacks of what was seen. */
static double glass(const struct dew_seen *x, double share)
{
    return x->glass == 1 ? fmax(WET - share, 0) / GLASS
                         : fmax(share - DRY, 0) / GLASS;
}

struct dew_learn_near run__learn_seen_end(const struct dew_learn *l,
                                          const struct run__learn_sums *sums,
                                          double *misfits)
{
    const struct run__learn_seen *s = &l->seen;
    struct dew_learn_near near = {0, 0};
    size_t n = s->read;

    for (size_t i = 0; i < s->read; i++) {
        double gap = 100 * s->list[i].rh.si - sums->rh[i] / s->hours[i];

        near.rmse += gap * gap / (double)s->read;
        near.bias -= gap / (double)s->read;
        for (size_t j = 0; j < i; j++)
            gap -= s->root[i * s->read + j] * misfits[j];
        misfits[i] = gap / s->root[i * s->read + i];
    }
    for (size_t i = 0; i < s->count; i++)
        if (s->list[i].glass >= 0)
            misfits[n++] = glass(&s->list[i], sums->wet[i] / s->hours[i]);
    near.rmse = sqrt(near.rmse);
    return near;
}
