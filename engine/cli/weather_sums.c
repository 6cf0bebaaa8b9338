/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Months, days and gaps of a weather year. */
#include <math.h>

#include "cli/weather.h"
#include "dew/air.h"

static void add(struct cli__weather_lane *l, double x)
{
    if (isnan(x))
        return;
    l->low = l->n > 0 ? fmin(l->low, x) : x;
    l->high = l->n > 0 ? fmax(l->high, x) : x;
    l->mean += x;
    l->n++;
}

static void add_hour(struct cli__weather_sum *s, const struct dew_hour *h)
{
    s->hours++;
    add(&s->t, h->t);
    add(&s->td, dew_air_dew_liquid(h->w, h->p));
    add(&s->wind, h->wind);
    add(&s->global, h->global);
}

static void finish(struct cli__weather_sum *s)
{
    struct cli__weather_lane *const lanes[] = {&s->t, &s->td, &s->wind,
                                               &s->global};

    for (size_t i = 0; i < sizeof lanes / sizeof lanes[0]; i++)
        if (lanes[i]->n > 0)
            lanes[i]->mean /= (double)lanes[i]->n;
        else
            lanes[i]->mean = lanes[i]->low = lanes[i]->high = NAN;
}

void cli__weather_months(const struct dew_year *year,
                         struct cli__weather_sum months[12])
{
    size_t n;
    const struct dew_hour *hours = dew_year_hours(year, &n);
    const struct dew_date *dates = dew_year_dates(year, &n);

    for (int m = 0; m < 12; m++)
        months[m] = (struct cli__weather_sum){.month = m + 1};
    for (size_t i = 0; i < n; i++)
        add_hour(&months[dates[i].month - 1], &hours[i]);
    for (int m = 0; m < 12; m++)
        finish(&months[m]);
}

size_t cli__weather_days(const struct dew_year *year,
                         struct cli__weather_sum *list, size_t room)
{
    size_t n, days = 0;
    const struct dew_hour *hours = dew_year_hours(year, &n);
    const struct dew_date *dates = dew_year_dates(year, &n);

    for (size_t i = 0; i < n; i++) {
        if (days == 0 || list[days - 1].day != dates[i].day ||
            list[days - 1].month != dates[i].month) {
            if (days == room)
                break;
            list[days++] = (struct cli__weather_sum){.month = dates[i].month,
                                                     .day = dates[i].day};
        }
        add_hour(&list[days - 1], &hours[i]);
    }
    for (size_t i = 0; i < days; i++)
        finish(&list[i]);
    return days;
}

size_t cli__weather_gaps(const struct dew_year *year,
                         struct cli__weather_gap *list, size_t room)
{
    size_t n, gaps = 0, run = 0;
    const struct dew_hour *hours = dew_year_hours(year, &n);

    for (size_t i = 0; i <= n; i++) {
        if (i < n && (isnan(hours[i].t) || isnan(hours[i].w))) {
            run++;
            continue;
        }
        if (run > 0 && gaps < room)
            list[gaps] = (struct cli__weather_gap){i - run, run};
        gaps += run > 0;
        run = 0;
    }
    return gaps;
}
