/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Houses for bundles, and a year for them. */
#ifndef DEW_TESTS_HOUSES_H
#define DEW_TESTS_HOUSES_H

#include <math.h>

#include "support/lively.h"

enum { YEAR = 8760 };

static struct dew_hour hours[YEAR];
static struct dew_date dates[YEAR];

static inline void make_year(void)
{
    for (int h = 0; h < YEAR; h++) {
        hours[h] = lively_weather(h + 1);
        dates[h] = date_of(h);
    }
}

static const struct dew_weather year = {hours, dates, YEAR, NULL};

/* Houses that differ in much, but not in what they branch on. */
static inline struct dew_case house(int i)
{
    struct dew_case c = lively_case();

    lively_cool(&c, 1.0);
    c.steps_per_hour = 4;
    c.house.volume *= 1.0 + 0.037 * i;
    c.house.leakage.stack_n = 0.6 + 0.01 * i;
    c.house.buffer.surface_kg *= 1.0 + 0.05 * i;
    c.house.people.count = 1.0 + 0.3 * i;
    c.house.water[DEW_SOURCE_drying] = (struct dew_water){
        .per_day = i % 3, .half_life = 100.0 * (i % 2), .start_day = 5.0};
    c.plant.heater.capacity = 3000.0 + 400.0 * i;
    c.plant.handlers[0].low_stage = i % 2 ? 0.7 : 1.0;
    c.plant.handlers[0].overcool = 0.5 * (i % 3);
    c.plant.handlers[0].overcool_rh = 0.55;
    c.plant.dryer = (struct dew_dryer){.rate = i % 2 ? 3e-4 : 0.0,
                                       .factor = 5e-7,
                                       .rating_t = 26.7,
                                       .rating_rh = 0.6,
                                       .set = 0.5,
                                       .band = 0.04,
                                       .drained = 1.0};
    return c;
}

static inline void assert_same(const void *a, const void *b, size_t bytes)
{
    const double *x = a, *y = b;

    for (size_t i = 0; i < bytes / sizeof *x; i++)
        if (!(fabs(x[i] - y[i]) <= 1e-9 * fmax(1.0, fabs(x[i]))) &&
            !(isnan(x[i]) && isnan(y[i])))
            fail_msg("number %zu: %.17g alone, %.17g in a lane", i, x[i], y[i]);
}

#endif
