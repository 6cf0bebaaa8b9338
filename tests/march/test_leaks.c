/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Leaks and walls of ducts outside in the march, by worked values. */
#include "dew/coil.h"
#include "dew/thermal.h"
#include "support/duct_march.h"

/*
 * A handler of .472 m3/s that heats or cools by E, its ducts outside: shares
 * leaked, a_s and a_r kept; R-6 trunks of 30 and 9 m2 keep B_s .9514 and B_r
 * .9852 of a temperature difference, exp(-A / (569.8 W/K x 1.0567 m2K/W)).
 */
static void leaky(struct house *h, double supply, double back)
{
    house_of(h, DEW_LAYOUT_own_ducts, 1);
    h->c.house.comfort.given = 0;
    h->c.plant.handlers[0] = (struct dew_handler){.air = .472};
    h->c.watch.supply_full = 1 - .9514;
    h->c.watch.return_full = 1 - .9852;
    for (int v = 0; v < DEW_VENT_STATES; v++) {
        h->c.watch.leaks[v][0][1] = (struct dew_duct_leaking){back, supply};
        for (int b = 0; b < DEW_BLOWER_STATES; b++)
            h->c.paths[v][b] = (struct dew_path){0};
        h->c.paths[v][2].leak_in = back * .472;
        h->c.paths[v][2].leak_out = supply * .472;
        h->c.paths[v][2].leak_lost = back * supply * .472;
    }
}

/* closed form of [ASH-152]: DE .6557 = 5245 of 8000 W, 20 degC in, 0 out */
TEST(leaks_and_walls_heat_by_the_closed_form)
{
    static struct house h;
    struct dew_result r;
    double made;

    leaky(&h, .1, .1);
    all_day(h.c.house.comfort.heat, 20);
    all_day(h.c.house.comfort.cool, 40);
    h.c.house.thermal.h_em = 130;
    h.c.plant.handlers[0].blower_w = 290;
    h.c.plant.heater = (struct dew_heater){
        .capacity = dew_air_density_run(p0) * .472 * 1006 * 14.04 - 290,
        .efficiency = .9,
        .by_air = 1};
    r = last_hour(&h.c, 0, .01);
    assert_near(r.t, 20, .01);
    assert_true(r.duty.heat > .2 && r.duty.heat < .9);
    made = r.heat.heating + r.heat.blowers;
    assert_near((made + r.heat.ductwall + r.heat.ductlost + r.heat.ductair) /
                    made,
                .6557, .0005);
}

/* of what the coil does, sensible and latent, the rooms get a_s: dry and cool
   air is lost as it is, not as the rooms' */
TEST(a_supply_leak_loses_a_tenth_of_both)
{
    static struct house h;
    struct dew_result r;

    leaky(&h, .1, 0);
    cool(&h, 1);
    h.c.watch.supply_full = h.c.watch.return_full = 0;
    h.c.house.water[DEW_SOURCE_other].per_day = 20;
    r = last_hour(&h.c, 33.1, .41);
    assert_true(r.duty.cool > .1 && r.water.coil < -.1);
    assert_near(r.water.ductlost, -.1 * r.water.coil, 1e-12);
    assert_near(r.heat.ductlost, -.1 * (r.heat.cooling + r.heat.blowers), 1e-3);
    assert_near(r.water.ductleak, 0, 0);
    h.c.watch.leaks[DEW_VENT_OFF][0][1].lost = .2;
    all_day(h.c.plant.control.on_weekday, .3);
    all_day(h.c.plant.control.on_weekend, .3);
    r = last_hour(&h.c, 33.1, .41); /* weighed by the ventilator: .7, .3 */
    assert_near(r.water.ductlost, -(.7 * .2 + .3 * .1) * r.water.coil, 1e-12);
}

/* The coils take out of the air what coils of that size do, by what the rooms
   are without as well: no lost starts, so that it is their own answer. */
TEST(coils_work_as_without_leaks)
{
    static struct house h;

    for (int n = 1; n <= DEW_HANDLERS; n++) {
        struct dew_result r;
        double water = 0;

        house_of(&h, DEW_LAYOUT_own_ducts, n);
        cool(&h, n);
        h.c.house.water[DEW_SOURCE_other].per_day = 20;
        for (int k = 0; k < n; k++) {
            h.c.plant.handlers[k].cycles_max = 0;
            for (int v = 0; v < DEW_VENT_STATES; v++)
                h.c.watch.leaks[v][k][1].lost = .2;
        }
        r = last_hour(&h.c, 33.1, .41);
        for (int k = 0; k < n; k++) {
            struct dew_coil_air air = {r.t, r.w, p0, 33.1, 1};
            struct dew_coil_work work;
            struct dew_coil coil;

            assert_int_equal(
                dew_plant_coil_open(&h.c.plant.handlers[k], &coil, NULL),
                DEW_OK);
            dew_plant_coil_at(&coil, &air, &work);
            water += work.water * r.duty.cool * 3600;
        }
        assert_near(-r.water.coil, water, .01 * water);
    }
}

/* of two handlers the mean by their air is lost */
TEST(two_handlers_lose_by_their_air)
{
    static struct house h;
    struct dew_result r;

    house_of(&h, DEW_LAYOUT_own_ducts, 2);
    cool(&h, 2);
    for (int v = 0; v < DEW_VENT_STATES; v++) {
        h.c.watch.leaks[v][0][1].lost = .1;
        h.c.watch.leaks[v][1][1].lost = .3;
    }
    h.c.house.water[DEW_SOURCE_other].per_day = 20;
    r = last_hour(&h.c, 33.1, .41);
    assert_true(r.water.coil < -.1);
    assert_near(r.water.ductlost,
                -(.453 * .1 + .524 * .3) / .977 * r.water.coil, 1e-12);
}

/* a blower that only circulates loses its own heat and what a wet coil gives
   back, by the leaks of its low flow */
TEST(circulating_loses_by_the_low_flow)
{
    static struct house h;
    struct dew_result r;

    leaky(&h, .1, 0);
    cool(&h, 1);
    h.c.plant.handlers[0].mode = DEW_BLOWER_ON;
    h.c.plant.handlers[0].blower_low = .5;
    h.c.plant.handlers[0].blower_low_w = 83;
    h.c.watch.supply_full = h.c.watch.return_full = 0;
    for (int v = 0; v < DEW_VENT_STATES; v++)
        h.c.watch.leaks[v][0][0].lost = .07;
    h.c.house.water[DEW_SOURCE_other].per_day = 20;
    r = last_hour(&h.c, 33.1, .41);
    assert_true(r.water.reevaporation > .01);
    assert_near(r.water.ductlost,
                -.1 * r.water.coil - .07 * r.water.reevaporation, 1e-12);
    assert_near(r.heat.evaporation, -2454480 * .93 * r.water.reevaporation,
                1e-9 * 2454480); /* heat of evaporation at 20 degC [ASH-F1] */
    h.c.house.people.gains_w = 0;
    all_day(h.c.house.comfort.cool, 40); /* nothing runs but the blower */
    r = last_hour(&h.c, 21, .41);
    assert_near(r.duty.cool, 0, 0);
    assert_near(r.heat.ductlost, -.07 * 83 * 3600, 1e-6);
}

/* .1 x .472 m3/s x 1.2 x 7.5 g/kg = .425 g/s while the blower runs */
TEST(a_tenth_of_the_return_brings_its_water)
{
    static struct house h;
    struct dew_result r, supply;
    double by;

    leaky(&h, 0, .1);
    cool(&h, 1);
    h.c.house.water[DEW_SOURCE_other].per_day = 20;
    r = last_hour(&h.c, 33.1, .55);
    by = (dew_air_density_run(p0) / 1.2) * (r.w_out - r.w) / .0075;
    assert_true(r.duty.cool > .1);
    assert_near(r.water.ductleak, .425e-3 * 3600 * r.duty.cool * by,
                .002 * r.water.ductleak); /* .0005 of .425 */
    assert_near(r.water.ductlost, 0, 0);
    leaky(&h, .1, 0);
    cool(&h, 1);
    h.c.house.water[DEW_SOURCE_other].per_day = 20;
    supply = last_hour(&h.c, 33.1, .55);
    assert_true(fabs(r.rh - supply.rh) > .005);
    assert_true(fabs(r.duty.cool - supply.duty.cool) > .005);
}

/* a coil that meets attic air works on that: the same machine, warmer inlet */
TEST(a_coil_meets_what_its_return_draws_in)
{
    static struct house h;
    struct dew_result alone, told;

    leaky(&h, 0, .1);
    cool(&h, 1);
    h.c.watch.supply_full = h.c.watch.return_full = 0;
    h.c.house.water[DEW_SOURCE_other].per_day = 20;
    told = last_hour(&h.c, 33.1, .55);
    for (int v = 0; v < DEW_VENT_STATES; v++)
        h.c.watch.leaks[v][0][1].drawn = 0;
    alone = last_hour(&h.c, 33.1, .55);
    assert_true(told.w < alone.w - 2e-4);
    assert_true(-told.water.coil / told.duty.cool >
                -alone.water.coil / alone.duty.cool);
}

/* After 30 hours of one noon. */
static struct dew_result noon(const struct house *h, const struct dew_hour *out)
{
    struct dew_march *m = opened(&h->c, out);
    struct dew_result r = {0};

    for (int i = 0; i < 30; i++)
        r = step(m, out, 12);
    dew_march_close(m);
    return r;
}

/* ducts in a hot attic leak and conduct its air, not the outdoors' */
TEST(an_attic_is_worse_than_the_open_air)
{
    static struct house h;
    struct dew_hour out = outdoors(33, .41);
    struct dew_result r[2];

    out.global = 900;
    for (int attic = 0; attic < 2; attic++) {
        leaky(&h, 0, .1);
        cool(&h, 1);
        if (attic)
            h.c.house.around =
                dew_house_attic(&(struct dew_attic){.9, 0, .15, 5 / 3600.});
        r[attic] = noon(&h, &out);
    }
    assert_near(r[1].heat.ductair / r[1].duty.cool / (60.7 - r[1].t),
                r[0].heat.ductair / r[0].duty.cool / (33 - r[0].t),
                .002 * r[0].heat.ductair / r[0].duty.cool / (33 - r[0].t));
    assert_true(r[1].heat.ductwall > 2.5 * r[0].heat.ductwall);
    assert_true(r[1].duty.cool > r[0].duty.cool);
    assert_true(r[1].heat.cooling / r[1].duty.cool <
                1.03 * r[0].heat.cooling / r[0].duty.cool); /* its warmer air */
}

/* a cold trunk sweats in damp outdoor air; in an attic that the sun heats it
   is warmer than the same air's dew point */
TEST(a_hot_attic_keeps_a_trunk_dry)
{
    static struct house h;
    struct dew_hour out = outdoors(28, .85);
    struct dew_result r[2];

    out.global = 900;
    for (int attic = 0; attic < 2; attic++) {
        leaky(&h, 0, 0);
        cool(&h, 1);
        h.c.watch.outside_follows = .3;
        if (attic)
            h.c.house.around =
                dew_house_attic(&(struct dew_attic){.9, 0, .15, 5 / 3600.});
        r[attic] = noon(&h, &out);
    }
    assert_true(r[0].duty.cool > .1);
    assert_near(r[0].ducts[DEW_SPOT_outside], r[0].duty.cool, 1e-12);
    assert_near(r[1].ducts[DEW_SPOT_outside], 0, 0);
}

RUN_TESTS("march: leaks of ducts");
