/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Control of the ventilator and local fans in the march: what each changes. */
#include "dew/leakage.h"
#include "support/marched.h"

/* A lived-in room held at t, 40 L/s in balance and 70 on boost. */
static struct dew_case room(double t)
{
    struct dew_case c = bare_case(390.0, t);
    struct dew_path on = {.supply = 0.040,
                          .exhaust = 0.040,
                          .fresh = 0.040,
                          .sensible = 0.74,
                          .fan_w = 40.0};
    struct dew_path boost = {.supply = 0.070,
                             .exhaust = 0.070,
                             .fresh = 0.070,
                             .sensible = 0.66,
                             .fan_w = 150.0};

    set_path(&c, DEW_VENT_ON, &on);
    set_path(&c, DEW_VENT_BOOST, &boost);
    c.house.leakage.c = 0.01;
    c.house.water[DEW_SOURCE_other].per_day = 8.3;
    c.house.water[DEW_SOURCE_showers].per_day = 1.1;
    c.plant.control.boost_band = 0.04;
    c.steps_per_hour = 4;
    return c;
}

/* The last day of three weeks of one weather. */
static struct dew_tally day_of(const struct dew_case *c, double t, double rh)
{
    struct dew_hour out = outdoors(t, rh);
    struct dew_tally sum = {0};

    run(c, &out, 24 * 21, &sum);
    return sum;
}

TEST(boost_by_humidity_brings_more_air_and_less_damp)
{
    struct dew_case c = room(21.0);
    struct dew_tally usual = day_of(&c, 11.0, 0.8), boost;

    assert_near(usual.fresh_sum / 24.0, 0.040, 1e-12);
    assert_true(usual.rh_sum / 24.0 > 0.55);
    c.plant.control.boost_rh = 0.50;
    boost = day_of(&c, 11.0, 0.8);
    assert_true(boost.rh_sum < usual.rh_sum - 24.0 * 0.02);
    assert_true(boost.fresh_sum > usual.fresh_sum * 1.1);
    assert_true(boost.energy.ventilator > usual.energy.ventilator * 1.2);
    /* the flows are those of the share of boost */
    assert_near(boost.fresh_sum, 0.040 * 24.0 + 0.030 * boost.duty.boost, 1e-9);
}

/* Drawn in is told apart from what is delivered, and goes with the running;
   without a ventilator nothing runs, whatever its schedule says. */
TEST(an_exhaust_fan_draws_while_it_runs)
{
    struct dew_case c = room(21.0);
    struct dew_path on = {.exhaust = 0.040, .drawn = 0.040, .fan_w = 12.0};
    struct dew_path none = {0};
    struct dew_tally sum;

    set_path(&c, DEW_VENT_ON, &on);
    set_path(&c, DEW_VENT_BOOST, &on);
    all_day(c.plant.control.on_weekday, 0.35);
    all_day(c.plant.control.on_weekend, 0.35);
    sum = day_of(&c, 11.0, 0.8);
    assert_near(sum.drawn_sum, 0.35 * 0.040 * 24.0, 1e-9);
    assert_near(sum.fresh_sum, 0.0, 0.0);
    assert_near(sum.duty.vent, 0.35 * 24.0, 1e-9);
    set_path(&c, DEW_VENT_ON, &none);
    set_path(&c, DEW_VENT_BOOST, &none);
    c.plant.control.boost_rh = 0.10;
    sum = day_of(&c, 11.0, 0.8);
    assert_near(sum.duty.vent, 0.0, 0.0);
    assert_near(sum.duty.boost, 0.0, 0.0);
}

/* 40 L/s are asked for; drawn air counts in full, one hour below it does not */
TEST(hours_short_of_air_count_what_is_drawn)
{
    struct dew_limits limits = {0.6, 0.3};
    struct dew_date date = {0, 7, 14, 13, 0, 1};
    struct dew_result r = {.rh = 0.45, .fresh = 0.012, .drawn = 0.028};
    struct dew_tally sum = {0};

    dew_tally_add(&sum, &limits, 0.040, &date, &r);
    assert_near(sum.fresh_short, 0.0, 0.0);
    r.drawn = 0.027;
    dew_tally_add(&sum, &limits, 0.040, &date, &r);
    assert_near(sum.fresh_short, 1.0, 0.0);
    assert_near(sum.drawn_sum, 0.055, 1e-15);
}

/* 60 % is the limit; the hours stand 0.04, 0.7, 1.3, 2.7 and 3.9 points past */
TEST(humid_hours_are_counted_by_how_far_past_the_limit)
{
    const double past[] = {0.0004, 0.007, 0.013, 0.027, 0.039};
    struct dew_limits limits = {0.6, 0.3};
    struct dew_date date = {0, 7, 14, 13, 0, 1};
    struct dew_tally sum = {0};

    for (size_t i = 0; i < COUNT_OF(past); i++) {
        struct dew_result r = {.rh = 0.6 + past[i]};

        dew_tally_add(&sum, &limits, 0, &date, &r);
    }
    assert_near(sum.too_humid, 4.0, 0.0);
    assert_near(sum.humid_by[0], 3.0, 0.0);
    assert_near(sum.humid_by[1], 2.0, 0.0);
    assert_near(sum.humid_by[2], 1.0, 0.0);
}

TEST(boost_by_events_lasts_as_long_as_they_do)
{
    struct dew_case c = room(21.0);
    struct dew_tally boost;

    c.plant.control.event_boost = 0.5;
    c.plant.control.events[6] = 0.9;
    c.plant.control.events[18] = 0.4;
    boost = day_of(&c, 11.0, 0.8);
    assert_near(boost.duty.boost, 0.5 * 1.3, 1e-9);
    assert_near(boost.fresh_sum, 0.040 * 24.0 + 0.030 * 0.65, 1e-9);
    /* an event boosts a ventilator that is off */
    all_day(c.plant.control.on_weekday, 0.0);
    all_day(c.plant.control.on_weekend, 0.0);
    boost = day_of(&c, 11.0, 0.8);
    assert_near(boost.fresh_sum, 0.070 * 0.65, 1e-9);
}

TEST(lockout_keeps_water_out_and_a_least_of_air)
{
    struct dew_case c = room(24.0);
    struct dew_tally open, shut, drier;

    c.house.water[DEW_SOURCE_other].per_day = 1.0;
    c.plant.dryer = (struct dew_dryer){.rate = 4e-4,
                                       .factor = 6e-7,
                                       .rating_t = 22.8,
                                       .rating_rh = 0.6,
                                       .set = 0.50,
                                       .band = 0.04,
                                       .drained = 1.0};
    open = day_of(&c, 28.0, 0.75);
    assert_true(open.water.fresh > 0.0);
    c.plant.control.lockout_w = 0.0112;
    c.plant.control.lockout_least = 0.35;
    shut = day_of(&c, 28.0, 0.75);
    assert_near(shut.fresh_sum, 0.35 * open.fresh_sum, 1e-9);
    assert_true(shut.water.fresh < 0.5 * open.water.fresh);
    assert_true(shut.energy.dehumidifier < open.energy.dehumidifier);
    /* held only while it is wetter outdoors than in */
    c.plant.control.lockout_excess = 0.02;
    drier = day_of(&c, 28.0, 0.75);
    assert_near(drier.fresh_sum, open.fresh_sum, 1e-9);
    /* drier outdoors than the limit: it runs */
    c.plant.control.lockout_excess = NAN;
    drier = day_of(&c, 10.0, 0.75);
    assert_near(drier.fresh_sum, open.fresh_sum, 1e-9);
}

TEST(a_winter_target_keeps_the_house_from_drying_out)
{
    struct dew_case c = room(21.0);
    struct dew_tally usual, target, colder;

    c.house.water[DEW_SOURCE_other].per_day = 4.0;
    usual = day_of(&c, -10.0, 0.8);
    assert_true(usual.rh_sum / 24.0 < 0.25);
    c.plant.control.winter_rh[0] = 0.40;
    c.plant.control.winter_rh[1] = 0.30;
    target = day_of(&c, -10.0, 0.8);
    /* 35 % at -10 degC, kept over 4 points of RH */
    assert_true(target.rh_sum / 24.0 > 0.345 && target.rh_sum / 24.0 < 0.39);
    assert_true(target.fresh_sum < usual.fresh_sum);
    colder = day_of(&c, -20.0, 0.8);
    assert_true(colder.rh_sum < target.rh_sum);
    /* no target in mild weather */
    assert_near(day_of(&c, 12.0, 0.3).fresh_sum, usual.fresh_sum, 1e-9);
    /* and never below the least share */
    c.plant.control.lockout_least = 0.9;
    assert_true(day_of(&c, -10.0, 0.8).fresh_sum >= 0.9 * usual.fresh_sum);
}

TEST(free_cooling_passes_the_core_by)
{
    struct dew_case c = room(25.0);
    struct dew_tally through, round;

    through = day_of(&c, 17.0, 0.6);
    c.plant.control.bypass_low = 13.0;
    c.plant.control.bypass_indoor = 23.0;
    round = day_of(&c, 17.0, 0.6);
    assert_near(-through.heat.recovery, 0.74 * through.heat.freshair, 1e-3);
    assert_near(round.heat.recovery, 0.0, 1e-9);
    assert_true(round.heat.freshair < 0.0);
    assert_near(round.water.fresh, through.water.fresh, 1e-9);
    /* too cold outdoors: nothing is bypassed */
    assert_true(day_of(&c, 9.0, 0.6).heat.recovery > 0.0);
}

/* As many owners leave it: off, or a low share of the hours. */
TEST(left_off_it_brings_nothing)
{
    struct dew_case c = room(21.0);
    struct dew_tally usual, off, low;

    c.house.water[DEW_SOURCE_other].per_day = 0.7; /* else it is saturated */
    usual = day_of(&c, 8.0, 0.8);
    all_day(c.plant.control.on_weekday, 0.0);
    all_day(c.plant.control.on_weekend, 0.0);
    off = day_of(&c, 8.0, 0.8);
    assert_near(off.fresh_sum, 0.0, 0.0);
    assert_near(off.energy.ventilator, 0.0, 0.0);
    all_day(c.plant.control.on_weekday, 0.2);
    all_day(c.plant.control.on_weekend, 0.2);
    low = day_of(&c, 8.0, 0.8);
    assert_near(low.fresh_sum, 0.2 * usual.fresh_sum, 1e-9);
    assert_true(off.rh_sum > low.rh_sum && low.rh_sum > usual.rh_sum);
}

/* What is listed for an hour of the day happens in that one: hour 1 is the
   list's first. */
TEST(each_hour_has_its_own_of_the_lists)
{
    struct dew_case c = room(21.0);
    struct dew_hour out = outdoors(8.0, 0.8);
    struct dew_march *m;

    for (int h = 0; h < 24; h++) {
        c.plant.control.on_weekday[h] = 0.01 * (h + 1);
        c.plant.control.on_weekend[h] = 0.02 * (h + 1);
        c.plant.control.events[h] = 0.03 * (h + 1);
        c.plant.exhausts[0].hours[h] = 0.04 * h;
    }
    c.plant.control.event_boost = 0.5;
    c.plant.exhausts[0].flow = 0.023;
    c.plant.exhausts[0].watts = 20.0;
    m = opened(&c, &out);
    for (int i = 0; i < 24 * 7; i++) {
        struct dew_date date = date_of(i);
        double boost = 0.5 * 0.03 * date.hour;
        double on = (date.weekday < 5 ? 0.01 : 0.02) * date.hour;
        struct dew_result r = step(m, &out, i);

        assert_near(r.duty.boost, boost, 1e-12);
        assert_near(r.duty.vent, on + (1.0 - on) * boost, 1e-12);
        assert_near(r.energy.exhausts, 20.0 * 3600.0 * 0.04 * (date.hour - 1),
                    1e-6);
    }
    dew_march_close(m);
}

/* What frost takes of a ventilator's time is not fresh air. */
TEST(frost_takes_its_share_of_the_air)
{
    struct dew_case c = room(21.0);
    struct dew_tally sum;

    c.plant.frost = (struct dew_frost_rule){.strategy = DEW_FROST_RECIRCULATE,
                                            .start = -5.0,
                                            .deep = -20.0,
                                            .share = 0.10,
                                            .share_deep = 0.25,
                                            .dry_dew = -20.0};
    sum = day_of(&c, -12.5, 0.8);
    assert_near(sum.duty.defrost, 24.0 * 0.175, 1e-9); /* half way down */
    assert_near(sum.fresh_sum, 0.040 * (24.0 - sum.duty.defrost), 1e-9);
}

/* ---- local exhaust ------------------------------------------------------ */

static struct dew_case with_fans(void)
{
    struct dew_case c = room(21.0);

    c.house.leakage.c = 0.02;
    c.house.leakage.constant = 0.011;
    c.house.water[DEW_SOURCE_cooking].per_day = 1.3;
    c.house.water[DEW_SOURCE_laundry].per_day = 0.7;
    for (int e = 0; e < DEW_LOCALS; e++) {
        c.plant.exhausts[e] = (struct dew_exhaust){
            .flow = 0.023 + 0.031 * e, .watts = 20.0, .caught = 0.4};
        all_day(c.plant.exhausts[e].hours, 0.04 + 0.01 * e);
    }
    return c;
}

/* Each fan takes its share of its own event's water, and no other's. */
TEST(local_fans_take_water_before_it_mixes)
{
    struct dew_case c = with_fans();
    struct dew_tally t = day_of(&c, 8.0, 0.8);

    assert_near(t.water.showers, 0.6 * 1.1, 1e-9);
    assert_near(t.water.cooking, 0.6 * 1.3, 1e-9);
    assert_near(t.water.laundry, 0.6 * 0.7, 1e-9);
    assert_near(t.water.other, 8.3, 1e-9);
    assert_near(t.energy.exhausts, 20.0 * 0.15 * 86400.0, 1e-6);
    /* and the ventilator's own grille its share of what is left */
    c.house.water[DEW_SOURCE_showers].caught = 0.25;
    t = day_of(&c, 8.0, 0.8);
    assert_near(t.water.showers, 0.6 * 0.75 * 1.1, 1e-9);
}

/* [ASH-F16] eq. 51, each fan's state at its full flow. */
TEST(local_fans_draw_air_in)
{
    struct dew_case c = with_fans();
    struct dew_tally t = day_of(&c, 8.0, 0.8);
    double nature = 0.011, leak = (1.0 - 0.15) * nature, worst, all = 0.0;

    for (int e = 0; e < DEW_LOCALS; e++) {
        double flow = 0.023 + 0.031 * e;

        leak += (0.04 + 0.01 * e) * hypot(flow, nature);
        all += flow;
    }
    assert_near(t.leak_sum / 24.0, leak, 1e-12);
    worst = -dew_house_pressure(&c.house.leakage, 0.0, -0.085);
    assert_near(t.pressure_min, -fabs(worst), 1e-9);
    worst = dew_house_pressure(&c.house.leakage, 0.0, all);
    assert_near(t.pressure_all_min, -fabs(worst), 1e-9);
    assert_true(t.pressure_all_min < 2.0 * t.pressure_min);
}

RUN_TESTS("march, control");
