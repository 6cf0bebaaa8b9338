/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An indoor temperature that was measured, held hour by hour. */
#include "support/marched.h"

#include "support/lively.h"

enum { HOURS = 24 * 35, FREE_HOUR = 700 };

static struct dew_hour hours[HOURS];
static struct dew_date dates[HOURS];
static double held[HOURS];

static struct dew_march *filled(const struct dew_case *c)
{
    for (int h = 0; h < HOURS; h++) {
        hours[h] = lively_weather(h + 1);
        dates[h] = date_of(h);
        held[h] = 21.3 + 1.7 * sin(0.37 * h);
    }
    held[FREE_HOUR] = NAN;
    return opened(c, &hours[0]);
}

TEST(hours_have_the_temperature_measured)
{
    struct dew_case c = lively_case();
    struct dew_march *m = filled(&c);
    struct dew_error err = {0};
    int turns;

    dew_march_prescribe_t(m, held, HOURS);
    assert_int_equal(dew_march_warm_up(m, hours, dates, HOURS, &turns, &err),
                     DEW_OK);
    for (int h = 0; h < HOURS; h++) {
        struct dew_result r = step(m, &hours[h], h);

        if (h == FREE_HOUR)
            continue;
        assert_near(r.t, held[h], 1e-12);
        assert_near(r.end.t_air, held[h], 1e-12);
        assert_near(r.heat.heating + r.heat.cooling, 0.0, 0.0);
        assert_near(r.water.coil, 0.0, 0.0);
    }
    dew_march_close(m);
}

/* What holds a constant is what a heater without limit would have given. */
TEST(held_is_the_heat_an_ideal_heater_gives)
{
    struct dew_case c = lively_case();
    struct dew_march *m, *warmed;

    c.plant.handler_count = 0;
    c.plant.heater = (struct dew_heater){.capacity = 1e6, .efficiency = 1.0};
    all_day(c.house.comfort.heat, 22.9);
    all_day(c.house.comfort.cool, 60.0);
    c.house.comfort.band = 0.0;
    m = filled(&c);
    warmed = filled(&c);
    for (int h = 0; h < HOURS; h++)
        held[h] = 22.9;
    dew_march_prescribe_t(m, held, HOURS);
    for (int h = 0; h < 200; h++) {
        (void)step(m, &hours[h], h);
        (void)step(warmed, &hours[h], h);
    }
    for (int h = 200; h < 240; h++) {
        struct dew_result a = step(m, &hours[h], h),
                          b = step(warmed, &hours[h], h);

        assert_near(a.heat.prescribed, b.heat.heating, 1e-6 * b.heat.heating);
    }
    dew_march_close(m);
    dew_march_close(warmed);
}

/* Where nothing was measured the thermostat rules: that hour heats. */
TEST(hours_without_have_the_thermostat)
{
    struct dew_case c = lively_case();
    struct dew_march *m = filled(&c);
    struct dew_result r;

    dew_march_prescribe_t(m, held, HOURS);
    for (int h = 0; h < FREE_HOUR; h++)
        (void)step(m, &hours[h], h);
    r = step(m, &hours[FREE_HOUR], FREE_HOUR);
    assert_near(r.heat.prescribed, 0.0, 0.0);
    dew_march_prescribe_t(m, NULL, HOURS);
    r = step(m, &hours[FREE_HOUR + 1], FREE_HOUR + 1);
    assert_near(r.heat.prescribed, 0.0, 0.0);
    dew_march_close(m);
}

RUN_TESTS("march, held temperature");
