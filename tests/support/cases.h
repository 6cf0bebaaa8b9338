/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cases to march in tests: complete, plain, and easy to vary. */
#ifndef DEW_TESTS_CASES_H
#define DEW_TESTS_CASES_H

#include "dew/air.h"
#include "dew/march.h"

/* Standard air of the trade, 0.075 lb of dry air per ft3, in kg/m3. */
#define STANDARD_AIR (0.075 * 0.45359237 / 0.028316846592)
#define CFM          4.719474432e-4 /* m3/s */

/* A flow in cfm of standard air, as m3/s of air at 20 degC and p. */
static inline double cfm(double flow, double p)
{
    return flow * CFM * STANDARD_AIR / dew_air_density_run(p);
}

static inline void all_day(double day[24], double value)
{
    for (int h = 0; h < 24; h++)
        day[h] = value;
}

/* An empty shell: nothing flows, nothing is set free, indoors held at t. */
static inline struct dew_case bare_case(double volume, double t)
{
    struct dew_case c = {0};

    c.house.volume = volume;
    c.house.floor_area = volume / 2.5;
    c.house.leakage = (struct dew_leakage){
        .c = 0.05, .n = 0.65, .stack_n = 0.65, .wind_n = 1.3};
    c.house.thermal = (struct dew_thermal){
        .h_is = 1500.0, .h_ms = 2200.0, .c_air = 1e6, .c_mass = 1.5e7};
    c.house.comfort.given = 1;
    all_day(c.house.comfort.heat, t);
    all_day(c.house.comfort.cool, t);
    for (int s = 0; s < DEW_SOURCES; s++) {
        all_day(c.house.water[s].shape.weekday, 1.0 / 24.0);
        all_day(c.house.water[s].shape.weekend, 1.0 / 24.0);
    }
    all_day(c.house.people.gains_shape.weekday, 1.0 / 24.0);
    all_day(c.house.people.gains_shape.weekend, 1.0 / 24.0);
    all_day(c.plant.control.on_weekday, 1.0);
    all_day(c.plant.control.on_weekend, 1.0);
    c.house.co2_outdoors = 420.0;
    c.limits = (struct dew_limits){0.60, 0.30};
    c.plant.control.bypass_low = NAN;
    c.plant.control.lockout_excess = NAN;
    c.pressure = 101325.0;
    c.steps_per_hour = 2;
    return c;
}

static inline void set_path(struct dew_case *c, enum dew_vent_state state,
                            const struct dew_path *path)
{
    for (int b = 0; b < DEW_BLOWER_STATES; b++)
        c->paths[state][b] = *path;
}

static inline struct dew_date date_of(int hour)
{
    return (struct dew_date){.month = 1 + hour / 730 % 12,
                             .day = 1,
                             .hour = 1 + hour % 24,
                             .weekday = hour / 24 % 7,
                             .yearday = 1 + hour / 24 % 365};
}

#endif
