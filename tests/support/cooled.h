/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cooled house to march in tests, under one weather that stays. */
#ifndef DEW_TESTS_COOLED_H
#define DEW_TESTS_COOLED_H

#include "dew/air.h"
#include "support/cases.h"
#include "support/rows.h"

static const double p0 = 101325.0;

static inline struct dew_hour outdoors(double t, double rh)
{
    return (struct dew_hour){.t = t, .w = dew_air_w(t, rh, p0), .p = p0};
}

/* March hours of one weather; *sum has the last day's tally. */
static inline struct dew_result run(const struct dew_case *c,
                                    const struct dew_hour *out, int hours,
                                    struct dew_tally *sum)
{
    struct dew_march *m;
    struct dew_result r = {0};
    struct dew_error err = {0};

    assert_int_equal(dew_march_open(&m, c, out, &err), DEW_OK);
    for (int h = 0; h < hours; h++) {
        struct dew_date date = date_of(h);

        if (dew_march_step(m, out, &date, &r, &err) != DEW_OK)
            fail_msg("hour %d: %s", err.hour, err.text);
        if (sum != NULL && h >= hours - 24)
            dew_tally_add(sum, &c->limits, 0.0, &date, &r);
    }
    dew_march_close(m);
    return r;
}

/* A cooled house in the damp: gains by day and night, outdoor air by leaks. */
static inline struct dew_case cooled(void)
{
    struct dew_case c = bare_case(420.0, 24.0);

    c.house.comfort.given = 0;
    all_day(c.house.comfort.heat, 15.0);
    all_day(c.house.comfort.cool, 24.0);
    c.house.thermal.h_em = 90.0;
    c.house.thermal.h_w = 40.0;
    c.house.people = (struct dew_people){.gains_w = 900.0};
    all_day(c.house.people.gains_shape.weekday, 1.0 / 24.0);
    all_day(c.house.people.gains_shape.weekend, 1.0 / 24.0);
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

#endif
