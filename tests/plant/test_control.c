/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Control and frost. */
#include "support/rows.h"

#include "dew/plant.h"

TEST(boost_comes_in_over_its_band)
{
    struct dew_control c = {.boost_rh = 0.57, .boost_band = 0.06};

    assert_near(dew_plant_boost(&c, 0.563), 0.0, 0.0);
    assert_near(dew_plant_boost(&c, 0.585), 0.25, 1e-12);
    assert_near(dew_plant_boost(&c, 0.71), 1.0, 0.0);
    c.boost_rh = 0.0;
    assert_near(dew_plant_boost(&c, 0.93), 0.0, 0.0);
}

TEST(lockout_holds_low_but_never_below_its_least)
{
    struct dew_control c = {
        .lockout_w = 0.0112, .lockout_excess = NAN, .lockout_least = 0.37};

    assert_near(dew_plant_lockout(&c, 0.0099, 0.0083), 1.0, 0.0);
    assert_near(dew_plant_lockout(&c, 0.0173, 0.0083), 0.37, 1e-12);
    assert_near(dew_plant_lockout(&c, 0.0112, 0.0083), 0.5 * 1.37, 1e-9);
    c.lockout_excess = 0.0007;
    assert_near(dew_plant_lockout(&c, 0.0173, 0.0171), 1.0, 0.0);
    assert_near(dew_plant_lockout(&c, 0.0173, 0.0166), 0.5 * 1.37, 1e-9);
    assert_near(dew_plant_lockout(&c, 0.0173, 0.0083), 0.37, 1e-12);
    c.lockout_w = 0.0;
    assert_near(dew_plant_lockout(&c, 0.0173, 0.0083), 1.0, 0.0);
}

TEST(winter_target_falls_with_cold)
{
    struct dew_control c = {.winter_rh = {0.41, 0.27}};

    assert_near(dew_plant_winter_rh(&c, 6.3), 0.41, 1e-12);
    assert_near(dew_plant_winter_rh(&c, -10.0), 0.34, 1e-12);
    assert_near(dew_plant_winter_rh(&c, -31.0), 0.27, 1e-12);
    c.winter_rh[0] = 0.0;
    assert_nan(dew_plant_winter_rh(&c, -10.0));
}

TEST(bypass_only_cools)
{
    struct dew_control c = {.bypass_low = 12.3, .bypass_indoor = 22.9};

    assert_near(dew_plant_bypass(&c, 16.7, 24.8), 1.0, 0.0);
    assert_near(dew_plant_bypass(&c, 11.9, 24.8), 0.0, 0.0);
    assert_near(dew_plant_bypass(&c, 26.1, 24.8), 0.0, 0.0);
    assert_near(dew_plant_bypass(&c, 16.7, 22.1), 0.0, 0.0);
    c.bypass_low = NAN;
    assert_near(dew_plant_bypass(&c, 16.7, 24.8), 0.0, 0.0);
}

TEST(demand_is_centred_on_the_set_point)
{
    struct dew_dryer d = {.rate = 2e-4, .set = 0.53, .band = 0.04};
    struct dew_humidifier h = {.rate = 2e-4, .set = 0.37, .band = 0.04};

    assert_near(dew_plant_dry_demand(&d, 0.53), 0.5, 1e-9);
    assert_near(dew_plant_dry_demand(&d, 0.509), 0.0, 0.0);
    assert_near(dew_plant_dry_demand(&d, 0.54), 0.75, 1e-9);
    assert_near(dew_plant_humid_demand(&h, 0.36), 0.75, 1e-9);
    assert_near(dew_plant_humid_demand(&h, 0.40), 0.0, 0.0);
    assert_near(dew_plant_humid_demand(&h, 0.34), 1.0, 0.0);
    d.band = h.band = 0.0; /* a step has no straight line */
    assert_nan(dew_plant_dry_demand(&d, 0.53));
    assert_nan(dew_plant_humid_demand(&h, 0.36));
    d.rate = h.rate = 0.0;
    assert_near(dew_plant_dry_demand(&d, 0.99), 0.0, 0.0);
    assert_near(dew_plant_humid_demand(&h, 0.01), 0.0, 0.0);
    assert_nan(dew_plant_humid_demand(&h, -0.01));
}

TEST(a_schedule_is_held_to_three_hours)
{
    struct dew_control c = {.winter_rh = {0}};
    struct dew_schedule s;

    for (int h = 0; h < 24; h++) {
        c.on_weekday[h] = h % 3 == 0; /* an hour in three */
        c.on_weekend[h] = 0.37;
    }
    s = dew_plant_schedule(&c);
    assert_near(s.mean, (5 * 8 + 2 * 24 * 0.37) / 168, 1e-12);
    /* Friday 23 and 24 h off, then 0.37 */
    assert_near(s.least, 0.37 / 3, 1e-12);
    c.on_weekend[23] = 0.9;
    for (int h = 0; h < 24; h++)
        c.on_weekday[h] = h < 8;
    s = dew_plant_schedule(&c);
    assert_near(s.least, 0.0, 0.0);
}

/* -(1 - eps) T3 / (1 + eps) at T3 = 21 degC, by hand. */
static const struct threshold_row {
    const char *name;
    double eps, t;
} threshold_rows[] = {
    {"frost threshold at 0.6", 0.6, -5.3},
    {"frost threshold at 0.7", 0.7, -3.7},
    {"frost threshold at 0.75", 0.75, -3.0},
    {"frost threshold at 0.8", 0.8, -2.3},
    {"frost threshold at 0.9", 0.9, -1.1},
};

static void threshold(void **state)
{
    const struct threshold_row *r = *state;

    assert_near(dew_plant_frost_threshold(r->eps, 21.0), r->t, 0.06);
}

TEST(defrost_follows_the_time_table)
{
    struct dew_frost_rule r = dew_plant_frost_usual(DEW_FROST_RECIRCULATE, 0);

    /* 6 min in 38, 6 in 26: 0.158, 0.231 */
    assert_near(dew_plant_frost_share(&r, -4.9, 3.0), 0.0, 0.0);
    assert_near(dew_plant_frost_share(&r, -5.001, 3.0), 0.158, 5e-4);
    assert_near(dew_plant_frost_share(&r, -16.0, 3.0), (.1579 + .2308) / 2,
                1e-4);
    assert_near(dew_plant_frost_share(&r, -33.0, 3.0), 0.231, 5e-4);
    assert_near(dew_plant_frost_share(&r, -16.0, -20.7), 0.0, 0.0);
    assert_true(dew_plant_frost_share(&r, -16.0, -19.0) > 0.09);
    r = dew_plant_frost_usual(DEW_FROST_EXHAUST_ONLY, 1);
    assert_near(dew_plant_frost_share(&r, -9.7, 3.0), 0.0, 0.0);
    assert_true(dew_plant_frost_share(&r, -10.3, 3.0) > 0.15);
}

ROWS(threshold_rows, threshold);
RUN_TESTS("plant, control");
