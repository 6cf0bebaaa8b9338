/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/leakage.h"

static const struct dew_windows habit = {0.11, 13.5, 21.5, 0};

TEST(share_rises_smoothly)
{
    double before = 0.0, slope = 0.0;

    for (int i = 0; i < 1500; i++) {
        double share = dew_house_window_share(&habit, 10.0 + 0.01 * i, 0);

        assert_true(share >= before && share <= 1.0);
        /* 1.5 / 8 K is the steepest; no jump in the slope either */
        assert_true(share - before <= 0.01 * 1.5 / 8.0 + 1e-9);
        assert_near(share - before, slope, 0.01 * 0.01 * 6.1 / 64.0);
        slope = share - before;
        before = share;
    }
    assert_near(before, 1.0, 0.0);
    assert_near(dew_house_window_share(&habit, 17.5, 0), 0.5, 1e-15);
    assert_near(dew_house_window_share(&habit, 15.5, 0), 0.15625, 1e-15);
}

TEST(cooling_shuts_them)
{
    struct dew_windows never = habit;

    never.flow = 0.0;
    assert_near(dew_house_window_share(&habit, 23.0, 1), 0.0, 0.0);
    assert_near(dew_house_window_share(&never, 23.0, 0), 0.0, 0.0);
    assert_nan(dew_house_window_share(&habit, NAN, 0));
}

/* A day at once and 24 hours one by one remember the same. */
TEST(running_mean_forgets_a_fifth_a_day)
{
    double mean = 7.3;

    for (int h = 0; h < 24; h++)
        mean = dew_house_running_mean(mean, 17.3, 1.0);
    assert_near(mean, 17.3 - 0.8 * 10.0, 1e-12);
    assert_near(dew_house_running_mean(7.3, 17.3, 24.0), mean, 1e-12);
    assert_near(dew_house_running_mean(NAN, -3.1, 1.0), -3.1, 0.0);
}

/* 24 degC and 60 %: dew point 15.8 degC, 11.2 g/kg. */
TEST(dry_air_alone_is_let_in)
{
    double p = 101325.0, limit = dew_air_w(24.0, 0.60, p);

    assert_near(dew_air_dew(limit, p), 15.8, 0.05);
    assert_true(dew_house_window_dries(0.0090, 0.0095, 24.0, 0.60, p));
    assert_false(dew_house_window_dries(0.0096, 0.0095, 24.0, 0.60, p));
    assert_true(dew_house_window_dries(0.0111, 0.0130, 24.0, 0.60, p));
    assert_false(dew_house_window_dries(0.0113, 0.0130, 24.0, 0.60, p));
    assert_false(dew_house_window_dries(NAN, 0.0130, 24.0, 0.60, p));
}

RUN_TESTS("house, windows");
