/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The recovery core in the march: condensing, frost, bypass. */
#include "dew/core.h"
#include "support/marched.h"

/* A room held at 22 degC whose water source holds it damp, 3 units of core. */
static struct dew_case damp_room(double kg_per_day)
{
    struct dew_case c = bare_case(400.0, 22.0);
    struct dew_path path = {.supply = 0.041,
                            .exhaust = 0.041,
                            .fresh = 0.041,
                            .sensible = 0.75,
                            .condensing = 3.0};

    c.house.water[DEW_SOURCE_other].per_day = kg_per_day;
    c.house.leakage.c = 1e-6;
    c.steps_per_hour = 4;
    set_path(&c, DEW_VENT_ON, &path);
    return c;
}

/* The hour in which all is at rest. */
static struct dew_result rest(const struct dew_case *c, double t_out)
{
    struct dew_hour out = outdoors(t_out, 0.0);

    return run(c, &out, 24 * 40, NULL);
}

/* Effectiveness that the heat books show. */
static double shown(const struct dew_result *r)
{
    return -r->heat.recovery / r->heat.freshair;
}

/* Regression, worked apart with 800 slices: 3 units, 22 degC, sea level. */
static const struct band {
    const char *name;
    double t_out, rh, eps, water;
} bands[] = {
    {"in the march: 0 degC, 50 %", 0, .5, .7685, 1.32e-3},
    {"in the march: -5 degC, 50 %", -5, .5, .7801, 2.19e-3},
    {"in the march: -10 degC, 30 %", -10, .3, .7584, 1.01e-3},
    {"in the march: -10 degC, 50 %", -10, .5, .7897, 3.02e-3},
};

/* kg a day that hold a room at rh while 0.041 m3/s of dry air pass. */
static double day_of(double rh)
{
    return 86400.0 * 0.041 * dew_air_density_run(p0) * dew_air_w(22.0, rh, p0);
}

static void condensing_raises_recovery_and_drains(void **state)
{
    const struct band *b = *state;
    struct dew_case c = damp_room(day_of(b->rh));
    struct dew_result r = rest(&c, b->t_out);
    double passed = 3600.0 * 0.041 * dew_air_density_run(p0);

    assert_near(r.rh, b->rh, 1e-3);
    assert_near(shown(&r), b->eps, 0.01);
    assert_near(r.supply_t, b->t_out + shown(&r) * (22.0 - b->t_out), 1e-6);
    assert_near(r.core_drained / passed, b->water, 0.10 * b->water);
}

/* What the supply air gains the exhaust air loses, [ASH-F1] eq. 43.  The dry
   effectiveness is that of this moist air: rated in drier air it would leave
   0.5 % of the vapour's own heat out. */
TEST(heat_is_kept_across_the_core)
{
    struct dew_case c = damp_room(day_of(0.47));
    double w = dew_air_w(22.0, 0.47, p0), water, t4, lost;
    struct dew_core_meeting in = {3.0, 1.0, -13.7, 22.0, w, p0};
    double m = 0.041 * dew_air_density_run(p0) * 3600.0;
    struct dew_core_wet alone;
    struct dew_result r;

    dew_plant_core_wet(&in, &alone);
    c.paths[DEW_VENT_ON][0].sensible = alone.dry;
    r = rest(&c, -13.7);
    water = r.core_drained / m;
    t4 = dew_air_dew(r.w - water, p0);
    lost =
        dew_air_h(22.0, r.w) - dew_air_h(t4, r.w - water) - water * 4186.0 * t4;
    assert_near(r.heat.recovery, m * lost, 2e-5 * m * lost);
    /* the zone's own water never sees it: all of it left with the exhaust */
    assert_near(r.water.recovered, 0.0, 0.0);
    assert_true(r.core_drained < -r.water.fresh);
}

TEST(a_dry_house_has_the_dry_core)
{
    struct dew_case c = damp_room(day_of(0.12)), plain = c;
    struct dew_result r = rest(&c, -4.3), same;

    plain.paths[DEW_VENT_ON][0].condensing = 0.0;
    same = rest(&plain, -4.3);
    assert_near(r.core_drained, 0.0, 0.0);
    assert_near(r.heat.recovery, same.heat.recovery, 0.0);
    assert_near(shown(&r), 0.75, 1e-12);
}

/* Less exhaust air is cooled further: each kg of it drains more. */
TEST(unequal_flows_condense_by_their_own_air)
{
    struct dew_case c = damp_room(day_of(0.47));
    struct dew_result equal, less;
    double flow = 0.041 * dew_air_density_run(p0) * 3600.0, water;

    equal = rest(&c, -9.7);
    c.paths[DEW_VENT_ON][0].exhaust = 0.8 * 0.041;
    less = rest(&c, -9.7);
    water = less.core_drained / (0.8 * flow);
    assert_true(water > equal.core_drained / flow && water < less.w);
    c.paths[DEW_VENT_ON][0].exhaust = 0.4 * 0.041;
    less = rest(&c, -9.7);
    assert_near(less.core_drained, 0.0, 0.0); /* past what is known */
}

TEST(bypassed_core_condenses_nothing)
{
    struct dew_case c = damp_room(day_of(0.62));
    struct dew_result r;

    c.plant.control.bypass_low = -20.0;
    c.plant.control.bypass_indoor = 15.0;
    r = rest(&c, 2.0);
    assert_near(r.core_drained, 0.0, 0.0);
    assert_near(r.heat.recovery, 0.0, 0.0);
    assert_near(r.supply_t, 2.0, 1e-9);
}

/* Preheat lifts the air that the core meets to where frost begins. */
TEST(preheat_warms_what_the_core_meets)
{
    struct dew_case c = damp_room(day_of(0.35));
    struct dew_result bare, warm;
    double per_k = 0.041 * dew_air_density_run(p0) * 1006.0;

    bare = rest(&c, -5.0);
    c.plant.frost.strategy = DEW_FROST_PREHEAT;
    c.plant.frost.start = -5.0;
    c.paths[DEW_VENT_ON][0].preheat_w = per_k;
    warm = rest(&c, -21.0);
    assert_near(warm.energy.preheat, 3600.0 * per_k * 16.0, 1.0);
    /* in all as if it were -5 degC outdoors */
    assert_near(warm.heat.freshair + warm.heat.recovery + warm.heat.fans,
                bare.heat.freshair + bare.heat.recovery, 5.0);
    assert_near(warm.core_drained, bare.core_drained, 1e-9);
    assert_near(warm.supply_t, bare.supply_t, 1e-6);
}

ROWS(bands, condensing_raises_recovery_and_drains);
RUN_TESTS("march, core");
