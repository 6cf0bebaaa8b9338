/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The march on heat: the simple hourly method's worked house, closed forms. */
#include "dew/thermal.h"
#include "support/marched.h"

#include "support/lively.h"

/*
 * [ISO13790] annex C by its own equations, the coefficients from memory:
 * 100 m2, medium mass, windows 20 W/K, opaque 60 W/K, air 30 W/K, 0 degC
 * outdoors, 300 W of gains and 200 W of sun.  Here the sun's radiant 200 W
 * and the radiant half of the gains are one 350 W.
 */
static struct dew_case worked_house(void)
{
    struct dew_case c = bare_case(250.0, 20.0);
    struct dew_fabric_nodes nodes = {
        .floor_area = 100.0,
        .loss = {.opaque = 60.0, .glazed = 20.0},
        .capacity = dew_house_fabric_capacity(DEW_FABRIC_MEDIUM, 100.0),
        .mass_area = dew_house_fabric_area(DEW_FABRIC_MEDIUM, 100.0),
        .contents = 1.0};

    assert_int_equal(dew_house_thermal(&nodes, &c.house.thermal, NULL), DEW_OK);
    c.house.thermal.c_air = 1e-3; /* the standard has none                  */
    c.house.comfort.given = 0;
    all_day(c.house.comfort.cool, 60.0);
    c.house.leakage.constant = 30.0 / (1006.0 * dew_air_density_run(101325.0));
    c.house.people.gains_w = 500.0;
    c.house.people.gains_convective = 0.3;
    return c;
}

static const struct dew_hour cold = {.t = 0.0, .w = 0.0, .p = 101325.0};

static struct dew_result after(const struct dew_case *c, int hours)
{
    return run(c, &cold, hours, NULL);
}

/* Exact hour mean of the heat that holds 20 degC; closed form, ours. */
TEST(held_house_needs_the_exact_hour_mean)
{
    struct dew_case c = worked_house();
    struct dew_result r;

    c.plant.heater = (struct dew_heater){.capacity = 20e3, .efficiency = 1.0};
    r = after(&c, 1);
    assert_near(r.heat.heating / 3600.0, 659.742, 0.66);
    assert_near(r.end.t_air, 20.0, 1e-9);
}

TEST(held_house_settles_at_the_steady_need)
{
    struct dew_case c = worked_house();
    struct dew_result r;

    c.plant.heater = (struct dew_heater){.capacity = 20e3, .efficiency = 1.0};
    r = after(&c, 24 * 40);
    assert_near(r.heat.heating / 3600.0, 1645.247, 0.001);
    assert_near(r.end.t_mass, 18.8062, 0.0001);
}

/* The share H_w / (9.1 A_t) of the radiant gains that the method drops. */
TEST(dropped_share_is_a_named_flow)
{
    struct dew_case c = worked_house();
    struct dew_result r = after(&c, 1);

    assert_near(r.heat.dropped / 3600.0, -(500.0 - 498.2906), 0.0001);
}

/* Exact exponential: t = t_end + (20 - t_end) exp(-h / 41.6646), mass node.
   The standard steps by the mean of an hour's ends (Crank-Nicolson) and tells
   the air of that mean; its figures, worked out from its equations with the
   coefficients from memory, stand within 3e-4 K of it; for the air 7e-4 K, of
   which the mean of the ends is tau^-2 / 12 of 14 K, 6.6e-4 K, too warm. */
static const struct iso_row {
    const char *name;
    int hours;
    double t_mass, t_air;
} iso_rows[] = {
    {"[ISO13790] annex C arithmetic, hour 1", 1, 19.63110, NAN},
    {"[ISO13790] annex C arithmetic, hour 2", 2, 19.27096, 18.89831},
    {"[ISO13790] annex C arithmetic, hour 10", 10, 16.68085, 16.38114},
    {"[ISO13790] annex C arithmetic, hour 24", 24, 13.18893, 12.98754},
    {"[ISO13790] annex C arithmetic, at rest", 2000, 4.44566, 4.49046},
};

static void free_house_cools_by_the_exponential(void **state)
{
    const struct iso_row *row = *state;
    struct dew_case c = worked_house();
    double end = 4.44566, tau = 41.6646;
    struct dew_result r = after(&c, row->hours);

    assert_near(r.end.t_mass, end + (20.0 - end) * exp(-row->hours / tau),
                1.2e-4);
    assert_near(r.end.t_mass, row->t_mass, 3e-4);
    if (!isnan(row->t_air)) /* hour 1 begins with air of 20 degC here */
        assert_near(r.t, row->t_air, 7e-4);
}

/* A band b: the heater gives share f at b f below the set point. */
TEST(throttling_band_is_solved_in_the_stage)
{
    struct dew_case c = worked_house();
    struct dew_result r;

    c.plant.heater = (struct dew_heater){.capacity = 4000.0, .efficiency = 1.0};
    c.house.comfort.band = 0.8;
    r = after(&c, 24 * 40);
    assert_near(r.end.t_air, 20.0 - 0.8 * r.heat.heating / 3600.0 / 4000.0,
                1e-9);
}

/* ---- the sky --------------------------------------------------------------- */

static const struct dew_hour clear = {
    .t = 17.3, .w = 0.0, .p = 101325.0, .sky = 11.0};

/* A house of one part and no heat, at rest. */
static double at_rest(double opaque, double glazed, double given)
{
    struct dew_case c = bare_case(250.0, 20.0);

    c.house.comfort.given = 0;
    all_day(c.house.comfort.cool, 60.0);
    c.house.thermal.c_mass = 1e6;
    c.house.thermal.h_em = opaque;
    c.house.thermal.h_w = glazed;
    c.house.thermal.sky_opaque = dew_house_sky(opaque / 0.31, 0.31, 1.0);
    c.house.thermal.sky_glazed = dew_house_sky(glazed / 1.7, 1.7, 0.5);
    c.house.thermal.sky_given = given;
    return run(&c, &clear, 24 * 60, NULL).end.t_air;
}

/* Nothing but a roof: R_se h_r x 11 K below outdoors, 1.98 K; nothing but
   windows: half of it [ISO13790]. */
TEST(a_house_at_rest_hangs_below_outdoors)
{
    assert_near(at_rest(120.0, 0.0, NAN), 17.3 - 1.98, 1e-6);
    assert_near(at_rest(0.0, 60.0, NAN), 17.3 - 0.99, 1e-6);
    assert_near(at_rest(120.0, 0.0, 13.0), 17.3 - 13.0 * 0.18, 1e-6);
    assert_near(at_rest(0.0, 60.0, 0.0), 17.3, 1e-6);
}

/* The ledger's row is the sum over the hours, each with its own sky. */
TEST(sky_row_is_the_sum_of_its_hours)
{
    struct dew_case c = lively_case();
    struct lively run;
    double sum = 0.0, got = 0.0;

    lively_open(&run, &c);
    while (lively_step(&run)) {
        sum += 3600.0 * (6.9 + 4.3) * lively_weather(run.hour).sky;
        got += run.r.heat.sky;
    }
    assert_int_equal(lively_close(&run), 0);
    assert_true(sum > 0.0);
    assert_near(got, -sum, 1e-9 * sum);
}

ROWS(iso_rows, free_house_cools_by_the_exponential);
RUN_TESTS("march, heat");
