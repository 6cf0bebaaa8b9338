/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Months, days and gaps of a weather year. */
#include <math.h>

#include "cli/weather.h"
#include "dew/air.h"

static void start(struct dew__weather_sum *s, int month, int day)
{
    const struct dew__weather_sum zero = {.month = month,
                                          .day = day,
                                          .t_low = INFINITY,
                                          .t_high = -INFINITY,
                                          .td_low = INFINITY,
                                          .td_high = -INFINITY};

    *s = zero;
}

static void add(struct dew__weather_sum *s, const struct dew_hour *h)
{
    double td = dew_air_dew_liquid(h->w, h->p);

    s->hours++;
    if (!isnan(h->t)) {
        s->dry++;
        s->t += h->t;
        s->t_low = fmin(s->t_low, h->t);
        s->t_high = fmax(s->t_high, h->t);
    }
    if (!isnan(td)) {
        s->wet++;
        s->td += td;
        s->td_low = fmin(s->td_low, td);
        s->td_high = fmax(s->td_high, td);
    }
    if (!isnan(h->wind)) {
        s->windy++;
        s->wind += h->wind;
    }
    if (!isnan(h->global)) {
        s->sunny++;
        s->global += h->global;
    }
}

static double mean(double sum, size_t n)
{
    return n > 0 ? sum / (double)n : NAN;
}

static void finish(struct dew__weather_sum *s)
{
    s->t = mean(s->t, s->dry);
    s->td = mean(s->td, s->wet);
    s->wind = mean(s->wind, s->windy);
    s->global = mean(s->global, s->sunny);
    if (s->dry == 0)
        s->t_low = s->t_high = NAN;
    if (s->wet == 0)
        s->td_low = s->td_high = NAN;
}

void dew__weather_months(const struct dew_year *year,
                         struct dew__weather_sum months[12])
{
    size_t n;
    const struct dew_hour *hours = dew_year_hours(year, &n);
    const struct dew_date *dates = dew_year_dates(year, &n);

    for (int m = 0; m < 12; m++)
        start(&months[m], m + 1, 0);
    for (size_t i = 0; i < n; i++)
        add(&months[dates[i].month - 1], &hours[i]);
    for (int m = 0; m < 12; m++)
        finish(&months[m]);
}

size_t dew__weather_days(const struct dew_year *year,
                         struct dew__weather_sum *list, size_t room)
{
    size_t n, days = 0;
    const struct dew_hour *hours = dew_year_hours(year, &n);
    const struct dew_date *dates = dew_year_dates(year, &n);

    for (size_t i = 0; i < n; i++) {
        if (days == 0 || list[days - 1].day != dates[i].day ||
            list[days - 1].month != dates[i].month) {
            if (days == room)
                break;
            start(&list[days++], dates[i].month, dates[i].day);
        }
        add(&list[days - 1], &hours[i]);
    }
    for (size_t i = 0; i < days; i++)
        finish(&list[i]);
    return days;
}

size_t dew__weather_gaps(const struct dew_year *year,
                         struct dew__weather_gap *list, size_t room)
{
    size_t n, gaps = 0, run = 0;
    const struct dew_hour *hours = dew_year_hours(year, &n);

    for (size_t i = 0; i <= n; i++) {
        if (i < n && (isnan(hours[i].t) || isnan(hours[i].w))) {
            run++;
            continue;
        }
        if (run > 0 && gaps < room)
            list[gaps] = (struct dew__weather_gap){i - run, run};
        gaps += run > 0;
        run = 0;
    }
    return gaps;
}
