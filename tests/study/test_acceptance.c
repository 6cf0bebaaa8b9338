/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Questions that owners and builders put, with the figures they can work out
 * by hand (ideal psychrometrics at sea level, 0.075 lb of dry air per ft3),
 * each to its last digit.  What the command line answers by itself stands in
 * tests/cli/test_acceptance.sh.
 */
#include "support/rows.h"

#include "dew/cost.h"
#include "dew/drying.h"
#include "dew/leakage.h"
#include "dew/rates.h"
#include "dew/surface.h"
#include "support/cases.h"

enum { SETTLED = 24 * 60 };

static const double lb = 0.45359237, ft = 0.3048;

static double celsius(double f)
{
    return (f - 32) / 1.8;
}

/* A house held at t, in one weather, until nothing changes any more. */
static struct dew_result steady(const struct dew_case *c, double t, double rh)
{
    const struct dew_hour hour = {
        .t = t, .w = dew_air_w(t, rh, c->pressure), .p = c->pressure};
    struct dew_error err = {0};
    struct dew_result r = {.rh = 0};
    struct dew_march *m;

    if (dew_march_open(&m, c, &hour, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    for (int h = 0; h < SETTLED; h++) {
        const struct dew_date date = date_of(h);

        if (dew_march_step(m, &hour, &date, &r, &err) != DEW_OK)
            fail_msg("%s: %s", err.path, err.text);
    }
    dew_march_close(m);
    return r;
}

/* Which core: 18 lb/day, 20 cfm of leakage, 70 degF; RH over ice outdoors. */
static const struct core_row {
    const char *name;
    double t_out, rh_out, cfm, kept, percent;
} core_rows[] = {
    {"20 degF, no ventilation: 64 %", 20, 0.80, 0, 0, 64},
    {"20 degF, 60 cfm heat only: 25 %", 20, 0.80, 60, 0, 25},
    {"20 degF, 60 cfm, half the moisture kept: 33 %", 20, 0.80, 60, 0.5, 33},
    {"35 degF, no ventilation: 76 %", 35, 0.85, 0, 0, 76},
    {"35 degF, 60 cfm heat only: 37 %", 35, 0.85, 60, 0, 37},
    {"35 degF, 60 cfm, half the moisture kept: 45 %", 35, 0.85, 60, 0.5, 45},
};

static struct dew_case ventilated(double t_in, double flow, double kept)
{
    struct dew_case c = bare_case(19200 * ft * ft * ft, celsius(t_in));
    double v = cfm(flow, c.pressure);
    const struct dew_path path = {
        .supply = v, .exhaust = v, .fresh = v, .sensible = 0.7, .latent = kept};

    set_path(&c, DEW_VENT_ON, &path);
    c.house.leakage = dew_house_leakage_given(0.05, 0.65, cfm(20, c.pressure));
    c.house.water[DEW_SOURCE_other].per_day = 18 * lb;
    return c;
}

static void cores_hold_the_humidity_told(void **state)
{
    const struct core_row *r = *state;
    const struct dew_case c = ventilated(70, r->cfm, r->kept);

    assert_near(100 * steady(&c, celsius(r->t_out), r->rh_out).rh, r->percent,
                0.5);
}

/* Cold comfort: 0 degF outdoors, 68 degF indoors; fans left out. */
static const struct supply_row {
    const char *name;
    double kept, f;
} supply_rows[] = {
    {"60 %: supply at 41 degF", 0.60, 41},
    {"75 %: supply at 51 degF", 0.75, 51},
    {"95 %: supply at 65 degF", 0.95, 65},
};

static void supply_air_is_as_warm_as_told(void **state)
{
    const struct supply_row *r = *state;
    struct dew_case c = ventilated(68, 60, 0);

    for (int b = 0; b < DEW_BLOWER_STATES; b++)
        c.paths[DEW_VENT_ON][b].sensible = r->kept;
    assert_near(steady(&c, celsius(0), 0.8).supply_t * 1.8 + 32, r->f, 0.5);
}

/* Water that ventilation brings (+) or takes out (-), by a core that keeps
   some: gal/day of 3.785 kg, house held at the humidity by its own sources. */
static const struct water_row {
    const char *name;
    double t_in, rh_in, t_out, rh_out, cfm, kept, gallons;
} water_rows[] = {
    {"dew point 75 degF, 60 cfm heat only: +7.4", 75, 0.5, 75, 1, 60, 0, 7.4},
    {"dew point 75 degF, 60 cfm, half kept: +3.7", 75, 0.5, 75, 1, 60, 0.5,
     3.7},
    {"dew point 75 degF, 102 cfm heat only: +12.6", 75, 0.5, 75, 1, 102, 0,
     12.6},
    {"20 degF, 60 cfm heat only: -4.7", 70, 0.5, 20, 0.8, 60, 0, -4.7},
    {"20 degF, 60 cfm, half kept: -2.4", 70, 0.5, 20, 0.8, 60, 0.5, -2.4},
};

/* A dehumidifier's place is taken by a source below nothing. */
static void ventilation_moves_the_water_told(void **state)
{
    const struct water_row *r = *state;
    const double gallon = 3.785411784 * 0.998; /* kg at 20 degC */
    struct dew_case c = ventilated(r->t_in, r->cfm, r->kept);
    double p = c.pressure, flow = cfm(r->cfm, p) * dew_air_density_run(p);
    double w_in = dew_air_w(celsius(r->t_in), r->rh_in, p);
    double w_out = dew_air_w(celsius(r->t_out), r->rh_out, p);
    struct dew_result got;

    c.house.leakage.constant = 0;
    c.house.water[DEW_SOURCE_other].per_day =
        86400 * flow * (1 - r->kept) * (w_in - w_out);
    got = steady(&c, celsius(r->t_out), r->rh_out);
    assert_near(got.rh, r->rh_in, 1e-6);
    assert_near(24 * (got.water.fresh + got.water.recovered) / gallon,
                r->gallons, 0.05);
}

/* 19,200 ft3 from 60 to 50 % at 75 degF. */
TEST(the_air_gives_up_2_7_pounds)
{
    const struct dew_case c = bare_case(19200 * ft * ft * ft, 20);
    const struct dew_falling_ask ask = {celsius(75), 0.60, 0.50, 0.05, 0.004};

    assert_near(dew_drying_falling(&c, &ask).air / lb, 2.7, 0.05);
}

/* A hood of 400 cfm: about 12 Pa at 1,000 CFM50, 27 Pa at 600; n = 0.65. */
static const struct hood_row {
    const char *name;
    double cfm50, pa;
} hood_rows[] = {
    {"400 cfm in 1,000 CFM50: 12 Pa", 1000, 12},
    {"400 cfm in 600 CFM50: 27 Pa", 600, 27},
};

static void a_hood_draws_the_house_down(void **state)
{
    const struct hood_row *r = *state;
    struct dew_case c = bare_case(500, 20);
    const struct dew_hour hour = {
        .t = 20, .w = dew_air_w(20, 0.5, 101325), .p = 101325};
    const struct dew_date date = date_of(0);
    struct dew_error err = {0};
    struct dew_result out;
    struct dew_march *m;

    c.house.leakage =
        dew_house_leakage_given(r->cfm50 * CFM / pow(50, 0.65), 0.65, 0);
    c.plant.exhausts[DEW_LOCAL_KITCHEN].flow = 400 * CFM;
    assert_int_equal(dew_march_open(&m, &c, &hour, &err), DEW_OK);
    assert_int_equal(dew_march_step(m, &hour, &date, &out, &err), DEW_OK);
    assert_near(-out.pressure_all, r->pa, 0.5);
    dew_march_close(m);
}

/* A blower of 400 W: always 3,504 kWh a year, 20 min each hour 1,168; a
   ventilator of 40 W 350.  By the march, a day times 365. */
static const struct blower_row {
    const char *name;
    enum dew_blower_mode mode;
    double kwh;
} blower_rows[] = {
    {"400 W always: 3,504 kWh", DEW_BLOWER_ON, 3504},
    {"400 W for 20 minutes each hour: 1,168 kWh", DEW_BLOWER_MINUTES, 1168},
    {"400 W with heat and cold alone: none here", DEW_BLOWER_AUTO, 0},
};

static void blowers_use_what_is_told(void **state)
{
    const struct blower_row *r = *state;
    struct dew_case c = ventilated(70, 60, 0);
    struct dew_result out;

    for (int b = 0; b < DEW_BLOWER_STATES; b++)
        c.paths[DEW_VENT_ON][b].fan_w = 40;
    c.plant.handler_count = 1;
    c.plant.handlers[0] = (struct dew_handler){.air = 0.4,
                                               .blower_w = 400,
                                               .blower_low = 1,
                                               .blower_low_w = 400,
                                               .mode = r->mode,
                                               .minutes = 20.0 / 60,
                                               .low_stage = 1,
                                               .turndown = 1};
    out = steady(&c, celsius(60), 0.5);
    assert_near(8760 * out.energy.blower / 3.6e6, r->kwh, 0.5);
    assert_near(8760 * out.energy.ventilator / 3.6e6, 350, 0.5);
}

ROWS(core_rows, cores_hold_the_humidity_told);
ROWS(water_rows, ventilation_moves_the_water_told);
ROWS(supply_rows, supply_air_is_as_warm_as_told);
ROWS(hood_rows, a_hood_draws_the_house_down);
ROWS(blower_rows, blowers_use_what_is_told);
RUN_TESTS("study, acceptance");
