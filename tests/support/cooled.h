/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cooled house to march in tests, under one weather that stays. */
#ifndef DEW_TESTS_COOLED_H
#define DEW_TESTS_COOLED_H

#include "support/marched.h"

/* A cooled house in the damp: gains by day and night, outdoor air by leaks. */
static inline struct dew_case cooled(void)
{
    struct dew_case c = bare_case(420.0, 24.0);

    c.house.comfort.given = 0;
    all_day(c.house.comfort.heat, 15.0);
    all_day(c.house.comfort.cool, 24.0);
    c.house.thermal.h_em = 90.0;
    c.house.thermal.h_w = 40.0;
    c.house.people.gains_w = 900.0;
    c.house.leakage.constant = 0.03;
    c.house.water[DEW_SOURCE_other].per_day = 9.0;
    c.plant.handler_count = 1;
    c.plant.handlers[0] = (struct dew_handler){.capacity = 9000.0,
                                               .shr = 0.74,
                                               .air = 0.48,
                                               .cop = 3.9,
                                               .blower_w = 380.0,
                                               .blower_low = 0.5,
                                               .blower_low_w = 95.0,
                                               .cycling = 0.07,
                                               .cycles_max = 3.0,
                                               .hold_s = 1000.0,
                                               .gamma = 1.5,
                                               .off_delay = 60.0,
                                               .still = 0.004,
                                               .low_stage = 1.0,
                                               .turndown = 1.0,
                                               .overcool_rh = 0.50};
    c.steps_per_hour = 4;
    return c;
}

/* At the rating's own air: w is pinned by a core that passes heat alone. */
static inline struct dew_case pinned(double gains, struct dew_hour *out)
{
    struct dew_case c = cooled();
    double w = dew_air_w_wet(48.0 / 1.8, 35.0 / 1.8, p0);
    struct dew_path pin = {
        .supply = 30.0, .exhaust = 30.0, .fresh = 30.0, .sensible = 1.0};

    *out = (struct dew_hour){.t = 35.0, .w = w, .p = p0};
    all_day(c.house.comfort.cool, 48.0 / 1.8);
    c.house.thermal.h_em = c.house.thermal.h_w = 0.0;
    c.house.leakage.constant = 0.0;
    c.house.people.gains_w = gains;
    set_path(&c, DEW_VENT_ON, &pin);
    return c;
}

#endif
