/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The clockwork between hours: the window habit through a year with cooling. */
#include "support/rows.h"

#include "dew/leakage.h"
#include "support/lively.h"

struct habit {
    struct dew_march *march;
    double mean, idle; /* degC running mean; h since cooling ran             */
    int open, shut;    /* h in which the habit alone decides; cooling does   */
};

/* One hour; what the habit says is worked out here on its own. */
static void follow(struct habit *k, const struct dew_case *c, int hour)
{
    struct dew_hour out = lively_weather(hour + 1);
    struct dew_date date = date_of(hour);
    double wanted = dew_house_window_share(&c->house.windows, k->mean, 0);
    struct dew_result r;

    assert_int_equal(dew_march_step(k->march, &out, &date, &r, NULL), DEW_OK);
    assert_near(r.duty.window, k->idle < 24.0 ? 0.0 : wanted, 1e-12);
    k->open += wanted > 0.0 && k->idle >= 24.0;
    k->shut += wanted > 0.0 && k->idle < 24.0;
    k->mean += (out.t - k->mean) * (1.0 - pow(0.8, 1.0 / 24.0));
    k->idle = r.duty.cool > 0.01 ? 0.0 : k->idle + 1.0;
}

/* A year of a house, cooled or not: an uncooled one airs all summer. */
TEST(windows_stay_shut_for_a_day_after_cooling)
{
    for (int cooled = 0; cooled < 2; cooled++) {
        struct dew_case c = lively_case();
        struct dew_hour before = lively_weather(0);
        struct habit k = {.mean = before.t, .idle = 24.0};

        if (cooled)
            lively_cool(&c, 0.0);
        assert_int_equal(dew_march_open(&k.march, &c, &before, NULL), DEW_OK);
        for (int h = 0; h < 8759; h++)
            follow(&k, &c, h);
        dew_march_close(k.march);
        assert_true(k.open > (cooled ? 100 : 2000));
        assert_true(cooled ? k.shut > 500 : k.shut == 0);
    }
}

/* Through a year: open where the habit says so and the air outdoors is the
   drier, from the hour's start to its end; what is let in takes water out. */
TEST(who_looks_at_the_dew_point_lets_no_water_in)
{
    struct dew_case c = lively_case();
    struct lively run;
    double mean = lively_weather(0).t;
    int open = 0, shut = 0;

    c.house.windows.by_dew_point = 1;
    c.limits.too_humid = 0.55;
    lively_open(&run, &c);
    while (lively_step(&run)) {
        struct dew_hour start = lively_weather(run.hour - 1);
        struct dew_hour end = lively_weather(run.hour);
        double w = fmax(start.w, end.w);
        double limit = dew_air_w(run.before.t_air, 0.55, c.pressure);
        int dry = w < run.before.w && w < limit;

        if (run.hour == 2) /* the first hour is not told */
            mean = dew_house_running_mean(mean, lively_weather(1).t, 1.0);
        assert_near(run.r.duty.window,
                    dry ? dew_house_window_share(&c.house.windows, mean, 0)
                        : 0.0,
                    1e-9);
        assert_true(run.r.water.windows <= 0.0);
        open += run.r.duty.window > 0.0;
        shut += !dry && mean > c.house.windows.mild_low;
        mean = dew_house_running_mean(mean, end.t, 1.0);
    }
    lively_close(&run);
    assert_true(open > 500 && shut > 500);
}

/* A shower at 7 by the wall, set points and a fan's hours by it too: in summer
   they come an hour earlier by the sun. */
TEST(people_live_by_their_clock)
{
    struct dew_case c = bare_case(300.0, 20.0);
    struct dew_hour out = lively_weather(0);
    double *fan = c.plant.exhausts[DEW_LOCAL_BATH].hours;

    c.clock = DEW_CLOCK_US;
    c.site.utc_offset = -6.0;
    all_day(c.house.water[DEW_SOURCE_showers].shape.weekday, 0.0);
    all_day(c.house.water[DEW_SOURCE_showers].shape.weekend, 0.0);
    c.house.water[DEW_SOURCE_showers].per_day = 1.7;
    c.house.water[DEW_SOURCE_showers].shape.weekday[7] = 1.0;
    c.house.comfort.heat[7] = 23.7;
    c.plant.exhausts[DEW_LOCAL_BATH].flow = 0.03;
    c.plant.exhausts[DEW_LOCAL_BATH].watts = 17.0;
    fan[7] = 1.0;
    for (int month = 1; month <= 7; month += 6)
        for (int h = 1; h <= 24; h++) {
            struct dew_date date = {.month = month,
                                    .day = 3,
                                    .hour = h,
                                    .yearday = month == 1 ? 3 : 184};
            int due = h == (month == 1 ? 8 : 7);
            struct dew_march *m;
            struct dew_result r;

            assert_int_equal(dew_march_open(&m, &c, &out, NULL), DEW_OK);
            assert_int_equal(dew_march_step(m, &out, &date, &r, NULL), DEW_OK);
            dew_march_close(m);
            assert_near(r.water.showers, due ? 1.7 : 0.0, 1e-12);
            assert_near(r.end.t_air, due ? 23.7 : 20.0, 1e-9);
            assert_near(r.energy.exhausts, due ? 17.0 * 3600.0 : 0.0, 1e-6);
        }
}

RUN_TESTS("march, drive");
