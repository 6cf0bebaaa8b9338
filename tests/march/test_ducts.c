/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Duct layouts in the march: states weighed whole, flows by their names. */
#include "support/duct_march.h"

/* ---- whole states, weighed ------------------------------------------------------ */

/*
 * One handler; the ventilator on for share of the hour.  The fresh air is that
 * of blower off and low, each for its share: of the ventilator's time low for
 * minutes / 60 when it goes by the clock, always when interlocked.
 */
/* clang-format off */
static const struct weighed {
    const char *name;
    enum dew_layout kind;
    enum dew_blower_mode mode;
    double share, minutes, low;
} weighings[] = {
    {"return tie, auto: as with the blower off", DEW_LAYOUT_return_tie, DEW_BLOWER_AUTO, .63, 0, 0},
    {"return tie, on: as at low flow", DEW_LAYOUT_return_tie, DEW_BLOWER_ON, .63, 0, 1},
    {"return tie, interlocked: as at low flow", DEW_LAYOUT_return_tie, DEW_BLOWER_INTERLOCK, .63, 0, 1},
    {"return tie, 20 minutes: a third of it", DEW_LAYOUT_return_tie, DEW_BLOWER_MINUTES, .63, 1. / 3, 1. / 3},
    {"supply tie, on", DEW_LAYOUT_supply_tie, DEW_BLOWER_ON, .41, 0, 1},
    {"return to supply, 20 minutes", DEW_LAYOUT_return_to_supply, DEW_BLOWER_MINUTES, .87, 1. / 3, 1. / 3},
    {"mix, on", DEW_LAYOUT_mix, DEW_BLOWER_ON, .87, 0, 1},
};
/* clang-format on */

static void weighed_row(void **state)
{
    const struct weighed *r = *state;
    static struct house h;
    struct dew_result got;
    double expected;

    house_of(&h, r->kind, 1);
    h.c.plant.handlers[0].mode = r->mode;
    h.c.plant.handlers[0].minutes = r->minutes;
    all_day(h.c.plant.control.on_weekday, r->share);
    all_day(h.c.plant.control.on_weekend, r->share);
    got = last_hour(&h.c, 27.9, .71);
    expected = r->share * ((1 - r->low) * h.states[1][0].fresh_delivered +
                           r->low * h.states[1][1].fresh_delivered);
    assert_near(got.fresh, expected, 1e-9);
}

/* outdoor air through the idle unit, in its own row of the ledger */
TEST(an_idle_unit_is_a_named_flow)
{
    static struct house h;
    struct dew_result got;
    double rho = dew_air_density_run(p0), idle, gap;

    house_of(&h, DEW_LAYOUT_mix, 1);
    h.c.plant.handlers[0].mode = DEW_BLOWER_ON;
    all_day(h.c.plant.control.on_weekday, .37);
    all_day(h.c.plant.control.on_weekend, .37);
    got = last_hour(&h.c, 28.3, .77);
    idle = h.states[0][1].unplanned;
    gap = got.w_out - got.w;
    assert_true(idle > .005);
    assert_near(got.water.unplanned, .63 * rho * idle * gap * 3600, 1e-6);
    assert_near(got.heat.ductair,
                .63 * rho * idle * 3600 * (1006 + 1860 * got.w_out) *
                    (got.t_out - got.t),
                200);
    h.layout.damper = DEW_DUCT_FITTED;
    lay(&h, 1);
    got = last_hour(&h.c, 28.3, .77);
    assert_true(h.states[0][1].unplanned < .05 * idle);
    assert_near(got.water.unplanned,
                .63 * rho * h.states[0][1].unplanned * (got.w_out - got.w) *
                    3600,
                1e-6);
}

/* leaks of return and supply ducts outside: each its own way */
TEST(leaks_outside_change_the_house_air)
{
    static struct house h;
    struct dew_result tight, leaky;
    double rho = dew_air_density_run(p0);

    house_of(&h, DEW_LAYOUT_own_ducts, 1);
    h.c.plant.handlers[0].mode = DEW_BLOWER_ON;
    tight = last_hour(&h.c, 28.3, .47);
    assert_near(tight.water.ductleak, 0, 0);
    h.layout.handlers[0].leak_return = .11;
    h.layout.handlers[0].leak_supply = .07;
    lay(&h, 1);
    leaky = last_hour(&h.c, 28.3, .47);
    assert_near(leaky.water.ductleak,
                rho * (h.states[1][1].leak_in - h.states[1][1].leak_lost) *
                    (leaky.w_out - leaky.w) * 3600,
                1e-6);
    assert_near(h.states[1][1].leak_lost,
                h.states[1][1].leak_in * h.states[1][1].coil_lost[0], 1e-12);
    assert_true(h.states[1][1].leak_in > h.states[1][1].leak_out);
    assert_true(leaky.w > tight.w);
}

/* ---- what the coil meets --------------------------------------------------------- */

/* The same flows, but for who meets the coil first. */
static struct dew_result without_inlet(const struct house *h)
{
    struct dew_case c = h->c;

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++)
            c.paths[v][b].at_coil = c.paths[v][b].idle_at_coil = 0.0;
    return last_hour(&c, 29.1, .81);
}

TEST(outdoor_air_that_meets_the_coil_first_dries_better)
{
    static struct house h;
    struct dew_result mixed, first;

    house_of(&h, DEW_LAYOUT_mix, 1);
    cool(&h, 1);
    first = last_hour(&h.c, 29.1, .81);
    mixed = without_inlet(&h);
    assert_true(first.duty.cool > .2 && first.duty.cool < 1);
    assert_true(first.rh < mixed.rh - .003);
    /* the ventilator stands: unplanned air does the same */
    all_day(h.c.plant.control.on_weekday, 0);
    all_day(h.c.plant.control.on_weekend, 0);
    h.c.plant.handlers[0].mode = DEW_BLOWER_ON;
    assert_true(h.states[0][2].idle_at_coil > .02);
    assert_near(h.states[0][2].idle_at_coil, h.states[0][2].unplanned, 1e-9);
    first = last_hour(&h.c, 29.1, .81);
    mixed = without_inlet(&h);
    assert_true(first.rh < mixed.rh - .001);
}

/* two equal handlers that run alike are one of both their sizes */
TEST(two_alike_are_one_twice_as_large)
{
    static struct house one, two;
    struct dew_result a, b;

    house_of(&one, DEW_LAYOUT_mix, 1);
    house_of(&two, DEW_LAYOUT_mix, 2);
    cool(&one, 1);
    cool(&two, 2);
    for (int k = 0; k < 2; k++) {
        two.c.plant.handlers[k].capacity = .5 * 9100;
        two.c.plant.handlers[k].air = .5 * .453;
        two.c.plant.handlers[k].blower_w = .5 * 293;
    }
    /* paths alike in all states, so that only the sharing is compared */
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int s = 0; s < DEW_BLOWER_STATES; s++)
            one.c.paths[v][s] = two.c.paths[v][s] = one.c.paths[v][2];
    a = last_hour(&one.c, 29.1, .81);
    b = last_hour(&two.c, 29.1, .81);
    assert_near(b.w, a.w, 1e-9);
    assert_near(b.water.coil, a.water.coil, 1e-6);
}

/* ---- ducts that sweat --------------------------------------------------------------- */

static void watch(struct house *h)
{
    dew_ducts_watch_of(&h->layout, &h->c.watch);
}

TEST(a_bare_intake_is_wet_while_the_ventilator_runs)
{
    static struct house h;
    struct dew_result bare, clad;

    house_of(&h, DEW_LAYOUT_own_ducts, 1);
    all_day(h.c.plant.control.on_weekday, .63);
    all_day(h.c.plant.control.on_weekend, .63);
    h.c.house.water[DEW_SOURCE_other].per_day = 17.3;
    bare = last_hour(&h.c, -13.1, .81);
    assert_near(bare.ducts[DEW_SPOT_intake], 0, 0); /* nothing is watched */
    h.layout.vents[0].intake.r = 0;
    watch(&h);
    bare = last_hour(&h.c, -13.1, .81);
    assert_near(bare.ducts[DEW_SPOT_intake], .63, 1e-12);
    assert_true(dew_air_dew(bare.w, p0) >
                bare.t + h.c.watch.intake_follows * (bare.t_out - bare.t));
    h.layout.vents[0].intake.r = 2.3;
    h.layout.vents[0].discharge.r = 2.3;
    watch(&h);
    clad = last_hour(&h.c, -13.1, .81);
    assert_near(clad.ducts[DEW_SPOT_intake], 0, 0);
    assert_near(clad.ducts[DEW_SPOT_exhaust], 0, 0);
}

TEST(fresh_air_wets_a_cold_trunk)
{
    static struct house h;
    struct dew_result r;

    house_of(&h, DEW_LAYOUT_supply_tie, 1);
    cool(&h, 1);
    watch(&h);
    r = last_hour(&h.c, 29.1, .81);
    assert_true(r.duty.cool > .1);
    assert_near(r.ducts[DEW_SPOT_trunk], r.duty.cool, 1e-12);
    r = last_hour(&h.c, 29.1, .27); /* dew point 8 degC */
    assert_true(r.duty.cool > .1);
    assert_near(r.ducts[DEW_SPOT_trunk], 0, 0);
    house_of(&h, DEW_LAYOUT_mix, 1);
    cool(&h, 1);
    watch(&h);
    assert_near(last_hour(&h.c, 29.1, .81).ducts[DEW_SPOT_trunk], 0, 0);
}

/* by hand from the paths: fresh by the core, and through the idle unit */
TEST(cold_air_at_the_heater_is_counted)
{
    static struct house h;
    struct dew_tally sum = {0};
    struct dew_result r;
    struct dew_path *on, *off;
    double t_on, t_off;

    house_of(&h, DEW_LAYOUT_mix, 1);
    h.c.house.comfort.given = 0;
    all_day(h.c.house.comfort.heat, 19.3);
    all_day(h.c.house.comfort.cool, 26);
    h.c.house.thermal.h_em = 140;
    h.c.plant.heater =
        (struct dew_heater){.capacity = 14e3, .efficiency = .9, .by_air = 1};
    all_day(h.c.plant.control.on_weekday, .63);
    all_day(h.c.plant.control.on_weekend, .63);
    r = last_hour(&h.c, -37.3, .81);
    on = &h.c.paths[DEW_VENT_ON][2];
    off = &h.c.paths[DEW_VENT_OFF][2];
    t_on = r.t + on->at_coil * (1 - .713) / .453 * (-37.3 - r.t);
    t_off = r.t + off->idle_at_coil / .453 * (-37.3 - r.t);
    assert_true(t_off < 15.6 && t_on > 15.6);
    assert_near(r.mixed_t, t_off, 1e-9);
    assert_true(r.duty.heat > .2);
    assert_near(r.ducts[DEW_SPOT_heater], r.duty.heat * .37, 1e-12);
    dew_tally_add(&sum, &h.c.limits, 0, &(struct dew_date){.hour = 3}, &r);
    r.mixed_t += 2;
    dew_tally_add(&sum, &h.c.limits, 0, &(struct dew_date){.hour = 4}, &r);
    assert_near(sum.mixed_t_min, t_off, 1e-9);
    assert_near(sum.ducts[DEW_SPOT_heater], 2 * r.duty.heat * .37, 1e-12);
}

/* ---- ducts outside the envelope ------------------------------------------------------ */

static void heated(struct house *h)
{
    house_of(h, DEW_LAYOUT_own_ducts, 1);
    h->c.house.comfort.given = 0;
    all_day(h->c.house.comfort.heat, 20.7);
    all_day(h->c.house.comfort.cool, 26);
    h->c.house.thermal.h_em = 130;
    h->c.plant.heater =
        (struct dew_heater){.capacity = 11e3, .efficiency = .9, .by_air = 1};
    h->layout.handlers[0].supply_trunk.outside = .7;
    h->layout.handlers[0].supply_trunk.r = 1.4;
    h->layout.handlers[0].return_trunk.outside = .4;
    h->layout.handlers[0].return_trunk.r = .7;
}

/*
 * What passes through the walls, by hand: the trunk's air enters at the
 * house's temperature and what heats it, and keeps 1 - E of its difference to
 * outdoors; the return's likewise.
 */
TEST(a_trunk_outside_loses_heat)
{
    static struct house h;
    struct dew_result in, out;
    double rho = dew_air_density_run(p0), m, t_warm, lost;

    heated(&h);
    in = last_hour(&h.c, -11.3, .7);
    assert_near(in.heat.ductwall, 0, 0);
    watch(&h);
    out = last_hour(&h.c, -11.3, .7);
    m = rho * .453 * 1006;
    t_warm = out.t + (11e3 + 293) / m;
    lost = h.c.watch.supply_full * (t_warm + 11.3) +
           h.c.watch.return_full * (out.t + 11.3);
    assert_true(h.c.watch.supply_full > .003 && h.c.watch.return_full > .001);
    assert_near(out.heat.ductwall, -3600 * m * lost * out.duty.heat,
                .002 * fabs(out.heat.ductwall));
    assert_true(out.heat.heating > in.heat.heating);
    assert_near(out.heat.heating + out.heat.ductwall, in.heat.heating,
                .004 * in.heat.heating);
}

/* circulating air through them costs without any heating */
TEST(low_flow_through_a_trunk_outside_costs_too)
{
    static struct house h;
    struct dew_result out;
    double rho = dew_air_density_run(p0);

    heated(&h);
    h.c.plant.heater.by_air = 0; /* heaters in the rooms */
    h.c.plant.handlers[0].mode = DEW_BLOWER_ON;
    watch(&h);
    out = last_hour(&h.c, -11.3, .7);
    assert_near(
        out.heat.ductwall,
        -3600 * rho * .5 * .453 * 1006 *
            (1 - (1 - h.c.watch.supply_low) * (1 - h.c.watch.return_low)) *
            (out.t + 11.3),
        .002 * fabs(out.heat.ductwall));
}

TEST(a_trunk_outside_loses_cold)
{
    static struct house h;
    struct dew_result in, out;

    house_of(&h, DEW_LAYOUT_own_ducts, 1);
    cool(&h, 1);
    in = last_hour(&h.c, 33.1, .41);
    h.layout.handlers[0].supply_trunk.outside = .9;
    h.layout.handlers[0].supply_trunk.r = 0;
    lay(&h, 1);
    watch(&h);
    out = last_hour(&h.c, 33.1, .41);
    assert_true(out.heat.ductwall > 2e5);
    assert_true(out.duty.cool > in.duty.cool);
}

ROWS(weighings, weighed_row);
RUN_TESTS("march: ducts");
