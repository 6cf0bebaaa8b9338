/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dehumidifier, humidifier and air handlers in the march. */
#include "dew/dryer.h"
#include "dew/sources.h"
#include "support/cooled.h"

static const double latent = 2454480.0; /* J/kg, 20 degC [ASH-F1] */

static struct dew_dryer fifty_pints(double set)
{
    return (struct dew_dryer){.rate = 50.0 * 0.473176473 / 86400.0,
                              .factor = 1.7 / 3.6e6,
                              .rating_t = 18.333,
                              .rating_rh = 0.6,
                              .set = set,
                              .band = 0.04,
                              .drained = 1.0};
}

/* ---- dehumidifier ------------------------------------------------------- */

/* Nothing leaves but the water in the bucket: the box warms by the power and
   the heat of condensation. */
TEST(a_sealed_box_warms_by_power_and_latent_heat)
{
    struct dew_case c = bare_case(310.0, 21.0);
    struct dew_hour out = outdoors(21.0, 0.5);
    struct dew_state a = {0};
    double power = 0.0, water = 0.0, gained, air;
    struct dew_march *m;
    struct dew_result r = {0};

    c.house.comfort.given = 0;
    c.house.water[DEW_SOURCE_other].per_day = 11.0;
    c.plant.dryer = fifty_pints(0.47);
    m = opened(&c, &out);
    for (int h = 0; h < 60; h++) {
        r = step(m, &out, h);
        if (h == 0)
            a = r.end;
        power += h > 0 ? r.energy.dehumidifier : 0.0;
        water += h > 0 ? -r.water.dehumidifier : 0.0;
    }
    dew_march_close(m);
    gained = c.house.thermal.c_air * (r.end.t_air - a.t_air) +
             c.house.thermal.c_mass * (r.end.t_mass - a.t_mass) +
             (r.end.owed_q - a.owed_q); /* owed to the next step */
    assert_near(gained, power + latent * water, 1e-9 * gained);
    assert_true(fabs(r.end.owed_q) < 2e-3 * gained);
    assert_true(water > 20.0 && r.end.t_air - a.t_air > 3.0);
    air = dew_air_density_run(p0) * 310.0;
    assert_near(air * (r.end.w - a.w), 11.0 / 24.0 * 59.0 - water, 1e-9);
}

struct load {
    const char *name;
    double per_day;
};

static const struct load loads[] = {
    {"dehumidifier at a fifth of its load", 3.1},
    {"dehumidifier at half its load", 7.9},
    {"dehumidifier short of its load", 60.0},
};

/* Energy for a kg: power / rate at the state, over 0.90 + 0.10 duty. */
static void a_cycling_dehumidifier_needs_more_for_its_water(void **state)
{
    const struct load *row = *state;
    struct dew_case c = bare_case(310.0, 22.3);
    struct dew_hour out = outdoors(22.3, 0.3);
    struct dew_dryer_work full;
    struct dew_result r;
    double duty;

    c.house.water[DEW_SOURCE_other].per_day = row->per_day;
    c.plant.dryer = fifty_pints(0.50);
    r = run(&c, &out, 24 * 20, NULL);
    dew_plant_dryer_at(&c.plant.dryer, 22.3, r.w, p0, &full);
    duty = r.duty.dehumidify;
    assert_near(-r.water.dehumidifier, full.rate * duty * 3600.0, 1e-6);
    assert_near(r.energy.dehumidifier,
                full.power * duty * 3600.0 / (0.90 + 0.10 * duty),
                1e-4 * r.energy.dehumidifier);
    /* what it uses is what warms the room */
    assert_near(r.heat.drier,
                r.energy.dehumidifier - latent * r.water.dehumidifier, 1.0);
}

TEST(the_air_it_ran_in_is_told)
{
    struct dew_case c = bare_case(310.0, 22.3);
    struct dew_hour out = outdoors(22.3, 0.3);
    struct dew_tally sum = {0};
    struct dew_result r;

    c.house.water[DEW_SOURCE_other].per_day = 7.9;
    c.plant.dryer = fifty_pints(0.50);
    r = run(&c, &out, 24 * 20, &sum);
    assert_near(sum.dryer_t / sum.duty.dehumidify, 22.3, 1e-9);
    assert_near(sum.dryer_rh / sum.duty.dehumidify, r.rh, 1e-6);
}

/* Its outdoor air meets its coil first: the fit on the mixed air, and fresh
   air as long as it runs. */
TEST(a_ventilating_dehumidifier_dries_the_mix)
{
    struct dew_case c = bare_case(310.0, 23.9);
    struct dew_hour out = outdoors(29.3, 0.74);
    struct dew_dryer_inlet in;
    struct dew_dryer_work work;
    struct dew_tally sum = {0};
    struct dew_result r;

    c.house.leakage.c = 0.05;
    c.house.water[DEW_SOURCE_other].per_day = 3.0;
    c.plant.dryer = fifty_pints(0.50);
    c.plant.dryer.outdoor = 0.019;
    r = run(&c, &out, 24 * 20, &sum);
    in = dew_plant_dryer_inlet(&c.plant.dryer, 23.9, r.w, out.t, out.w);
    dew_plant_dryer_at(&c.plant.dryer, in.t, in.w, p0, &work);
    assert_true(in.outdoor > 0.2);
    assert_near(-r.water.dehumidifier, work.rate * r.duty.dehumidify * 3600.0,
                1e-3 * work.rate * 3600.0);
    assert_near(sum.fresh_sum, 0.019 * sum.duty.dehumidify,
                1e-3 * sum.fresh_sum);
    assert_true(r.water.fresh > 0.0);
}

/* Air of 12 degC below zero at its coil: no fit knows it, so the machine rests
   and uses nothing, whatever the humidity; the limit is ours. */
TEST(a_ventilating_dehumidifier_rests_in_the_cold)
{
    struct dew_case c = bare_case(310.0, 21.0);
    struct dew_hour out = outdoors(-24.0, 0.7);
    struct dew_dryer_inlet in;
    struct dew_tally sum = {0};
    struct dew_result r;

    c.house.leakage.c = 0.05;
    c.house.water[DEW_SOURCE_other].per_day = 190.0;
    c.plant.dryer = fifty_pints(0.30);
    c.plant.dryer.outdoor = 0.047;
    r = run(&c, &out, 24 * 5, &sum);
    in = dew_plant_dryer_inlet(&c.plant.dryer, 21.0, r.w, out.t, out.w);
    assert_true(in.t < 0.0 && r.rh > 0.32);
    assert_near(r.water.dehumidifier, 0.0, 0.0);
    assert_near(sum.energy.dehumidifier, 0.0, 0.0);
    assert_near(r.fresh, 0.047, 1e-6);
}

/* Published: 2257 + 419 kJ from water at 0 degC to steam at 100 [ASH-F1]; the
   mains bring it at 15. */
TEST(a_steam_humidifier_uses_electricity)
{
    struct dew_case c = bare_case(310.0, 21.0);
    struct dew_hour out = outdoors(-7.0, 0.8);
    struct dew_path on = {.supply = 0.03, .exhaust = 0.03, .fresh = 0.03};
    struct dew_result steam, wick;

    set_path(&c, DEW_VENT_ON, &on);
    c.plant.humidifier =
        (struct dew_humidifier){.rate = 2e-4, .set = 0.35, .band = 0.04};
    steam = run(&c, &out, 24 * 10, NULL);
    c.plant.humidifier.heat = 1.0;
    wick = run(&c, &out, 24 * 10, NULL);
    assert_true(steam.water.humidifier > 0.3);
    assert_near(steam.energy.humidifier, 2613e3 * steam.water.humidifier, 1.0);
    assert_near(wick.energy.humidifier, 0.0, 0.0);
    assert_near(wick.heat.drier, -latent * wick.water.humidifier, 1.0);
    assert_near(steam.heat.drier, 0.0, 1e-9);
}

/* ---- what evaporates takes its heat --------------------------------------- */

struct wet {
    const char *name;
    enum dew_source source;
    double share;
};

static const struct wet wets[] = {
    {"laundry cools the air", DEW_SOURCE_laundry, 1.0},
    {"plants cool the air", DEW_SOURCE_plants, 1.0},
    {"wet ground cools the air", DEW_SOURCE_ground, 1.0},
    {"showers bring their own heat", DEW_SOURCE_showers, 0.0},
};

static void what_evaporates_takes_its_heat_from_the_air(void **state)
{
    const struct wet *row = *state;
    struct dew_case c = bare_case(310.0, 21.0);
    struct dew_hour out = outdoors(9.0, 0.8);
    struct dew_path on = {.supply = 0.04, .exhaust = 0.04, .fresh = 0.04};
    struct dew_shape shape = c.house.water[row->source].shape;
    struct dew_result r, dry;

    set_path(&c, DEW_VENT_ON, &on);
    dry = run(&c, &out, 24 * 10, NULL);
    c.house.water[row->source] = dew_house_scheduled(row->source, 4.7, &shape);
    r = run(&c, &out, 24 * 10, NULL);
    assert_near(r.heat.evaporation, -row->share * latent * 4.7 / 24.0, 1.0);
    /* what holds the room's temperature has to bring it */
    assert_near(r.heat.prescribed - dry.heat.prescribed,
                row->share * latent * 4.7 / 24.0,
                1e-3 * latent * 4.7 / 24.0 + 200.0);
}

/* A film on glass below the dew point gives its heat, and takes it back. */
TEST(films_carry_their_heat)
{
    struct dew_case c = bare_case(310.0, 21.0);
    struct dew_hour out = outdoors(-11.0, 0.8);
    struct dew_result r;

    c.house.water[DEW_SOURCE_other].per_day = 9.0;
    c.house.leakage.constant = 0.005;
    c.house.surfaces[DEW_GLASS] = (struct dew_surface){0.6, 12.0, 1e6};
    r = run(&c, &out, 24 * 10, NULL);
    assert_true(r.water.glass < -0.02);
    assert_near(r.heat.evaporation, -latent * r.water.glass,
                1e-9 * latent * fabs(r.water.glass));
}

/* ---- air handlers ------------------------------------------------------- */

static struct dew_tally day_of(const struct dew_case *c)
{
    struct dew_hour out = outdoors(29.0, 0.72);
    struct dew_tally sum = {0};

    run(c, &out, 24 * 25, &sum);
    return sum;
}

/* Hours by ventilator, a third of each, 45 L/s in balance. */
static void ventilate(struct dew_case *c)
{
    struct dew_path path = {
        .supply = 0.045, .exhaust = 0.045, .fresh = 0.045, .sensible = 0.7};

    set_path(c, DEW_VENT_ON, &path);
    all_day(c->plant.control.on_weekday, 1.0 / 3.0);
    all_day(c->plant.control.on_weekend, 1.0 / 3.0);
}

TEST(a_blower_over_a_wet_coil_puts_water_back)
{
    enum { MODES = 4 };
    struct dew_case c = cooled();
    struct dew_tally mode[MODES];

    ventilate(&c);
    c.plant.handlers[0].minutes = 0.6;
    for (int i = 0; i < MODES; i++) {
        c.plant.handlers[0].mode = (enum dew_blower_mode)i;
        mode[i] = day_of(&c);
    }
    /* always on above interlocked a third of the time above heating and
       cooling alone, in water put back and in the humidity it makes */
    assert_true(mode[DEW_BLOWER_AUTO].water.reevaporation > 0.0);
    assert_true(mode[DEW_BLOWER_INTERLOCK].water.reevaporation >
                mode[DEW_BLOWER_AUTO].water.reevaporation + 0.5);
    assert_true(mode[DEW_BLOWER_ON].water.reevaporation >
                mode[DEW_BLOWER_INTERLOCK].water.reevaporation + 0.5);
    assert_true(mode[DEW_BLOWER_MINUTES].water.reevaporation >
                mode[DEW_BLOWER_AUTO].water.reevaporation + 0.2);
    assert_true(mode[DEW_BLOWER_INTERLOCK].rh_sum >
                mode[DEW_BLOWER_AUTO].rh_sum);
    assert_true(mode[DEW_BLOWER_ON].rh_sum > mode[DEW_BLOWER_INTERLOCK].rh_sum);
    assert_true(mode[DEW_BLOWER_ON].energy.blower >
                mode[DEW_BLOWER_INTERLOCK].energy.blower);
    /* no more than went on the coil */
    for (int i = 0; i < MODES; i++)
        assert_true(mode[i].water.reevaporation < -mode[i].water.coil);
}

/* Net over gross water at run fraction x with a blower that never stops, by
   the closed form of [HR96], from memory; t_wet, gamma, N_max 3, tau 45 s. */
static double closed_form(double x, double t_wet, double gamma)
{
    double on = 3600.0 / (12.0 * (1.0 - x)), tau = 45.0;
    double off = fmin(3600.0 / (12.0 * x), 2.0 * t_wet / gamma);
    double water = gamma * off - gamma * gamma * off * off / (4.0 * t_wet);
    double t0 = water;

    for (int i = 0; i < 200; i++)
        t0 = water - tau * expm1(-t0 / tau);
    return fmax((on - t0) / (on + tau * expm1(-on / tau)), 0.0);
}

struct part {
    const char *name;
    double gains; /* W */
};

static const struct part parts[] = {
    {"put back by the closed form, mostly running", 6100.0},
    {"put back by the closed form, three quarters", 5500.0},
    {"put back by the closed form, two thirds", 4950.0},
};

static void the_march_puts_back_what_the_closed_form_does(void **state)
{
    const struct part *row = *state;
    struct dew_hour out;
    struct dew_case c = pinned(row->gains, &out);
    struct dew_result r;
    double x, net;

    c.plant.handlers[0].mode = DEW_BLOWER_ON;
    c.plant.handlers[0].off_delay = c.plant.handlers[0].still = 0.0;
    c.plant.handlers[0].cycling = 0.0;
    r = run(&c, &out, 24 * 30, NULL);
    x = r.duty.cool; /* C_d 0: it runs as long as its load */
    net = (-r.water.coil - r.water.reevaporation) / -r.water.coil;
    assert_true(x > 0.6 && x < 0.97);
    assert_near(r.w, out.w, 3e-5);
    assert_near(1.0 - net, 1.0 - closed_form(x, 1000.0, 1.5),
                0.02 * (1.0 - closed_form(x, 1000.0, 1.5)));
    /* and it cools */
    assert_near(r.heat.evaporation, -latent * r.water.reevaporation,
                1e-9 * latent * r.water.reevaporation);
}

/* A machine near its load stands still less, and so puts back less. */
TEST(a_low_stage_dries_better_than_a_single_one)
{
    struct dew_case c = cooled();
    struct dew_tally one, two, many;

    c.plant.handlers[0].mode = DEW_BLOWER_ON;
    one = day_of(&c);
    c.plant.handlers[0].low_stage = 0.65;
    two = day_of(&c);
    c.plant.handlers[0].low_stage = 1.0;
    c.plant.handlers[0].turndown = 0.3;
    many = day_of(&c);
    assert_true(two.rh_sum < one.rh_sum - 0.1);
    assert_true(two.water.reevaporation < one.water.reevaporation);
    assert_true(many.water.reevaporation < two.water.reevaporation);
    assert_true(many.rh_sum < one.rh_sum - 0.2);
}

TEST(overcooling_dries_and_costs)
{
    struct dew_case c = cooled();
    struct dew_tally usual = day_of(&c), colder;

    assert_true(usual.rh_sum / 24.0 > 0.53);
    c.plant.handlers[0].overcool = 1.2;
    colder = day_of(&c);
    assert_near(colder.t_sum / 24.0, 24.0 - 1.2, 0.05);
    assert_true(colder.water.coil < usual.water.coil);
    assert_true(colder.energy.cooling > usual.energy.cooling);
    /* dry enough: the set point is left alone */
    c.plant.handlers[0].overcool_rh = 0.80;
    colder = day_of(&c);
    assert_near(colder.t_sum / 24.0, 24.0, 1e-3);
}

/* Two alike at one duty, or one before the other: the leader stands still
   less than either of two, so that its coil keeps more of its water. */
TEST(two_handlers_even_or_one_first)
{
    struct dew_case c = cooled();
    struct dew_tally even, lead;

    c.plant.handler_count = 2;
    c.plant.handlers[0].capacity *= 0.5;
    c.plant.handlers[0].air *= 0.5;
    c.plant.handlers[0].mode = DEW_BLOWER_ON;
    c.plant.handlers[1] = c.plant.handlers[0];
    even = day_of(&c);
    c.plant.lead_lag = 1;
    lead = day_of(&c);
    assert_near(even.t_sum, lead.t_sum, 1e-6);
    assert_true(lead.water.reevaporation < even.water.reevaporation - 0.1);
    assert_true(lead.rh_sum < even.rh_sum - 0.05);
}

/* Three of different sizes that share the load evenly are one of their sum;
   and one after the other they carry the same heat. */
TEST(three_machines_are_one)
{
    const double part[DEW_HANDLERS] = {0.5, 0.3, 0.2};
    struct dew_case c = cooled();
    struct dew_tally one, three, staged;

    c.house.people.gains_w = 6000.0; /* the last is needed */
    one = day_of(&c);
    c.plant.handler_count = DEW_HANDLERS;
    for (int k = DEW_HANDLERS - 1; k >= 0; k--) {
        struct dew_handler *h = &c.plant.handlers[k];

        *h = c.plant.handlers[0];
        h->capacity *= part[k];
        h->air *= part[k];
        h->blower_w *= part[k];
        h->blower_low_w *= part[k];
    }
    three = day_of(&c);
    assert_near(three.t_sum, one.t_sum, 1e-9 * one.t_sum);
    assert_near(three.rh_sum, one.rh_sum, 1e-9 * one.rh_sum);
    assert_near(three.water.coil, one.water.coil, -1e-9 * one.water.coil);
    assert_near(three.water.reevaporation, one.water.reevaporation, 1e-9);
    assert_near(three.energy.cooling, one.energy.cooling,
                1e-9 * one.energy.cooling);
    c.plant.lead_lag = 1;
    staged = day_of(&c);
    assert_near(staged.t_sum, one.t_sum, 1e-6 * one.t_sum);
    assert_true(one.duty.cool > 0.85 * 24.0 && one.duty.cool < 23.0);
}

ROWS(loads, a_cycling_dehumidifier_needs_more_for_its_water);
ROWS(wets, what_evaporates_takes_its_heat_from_the_air);
ROWS(parts, the_march_puts_back_what_the_closed_form_does);
RUN_TESTS("march, equipment");
