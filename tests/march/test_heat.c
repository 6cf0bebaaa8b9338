/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The march on heat: the simple hourly method's worked house, closed forms. */
#include "support/rows.h"

#include "dew/thermal.h"
#include "support/cases.h"

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
    struct dew_march *m;
    struct dew_result r = {0};
    struct dew_error err = {0};

    assert_int_equal(dew_march_open(&m, c, &cold, &err), DEW_OK);
    for (int h = 0; h < hours; h++) {
        struct dew_date date = date_of(h);

        if (dew_march_step(m, &cold, &date, &r, &err) != DEW_OK)
            print_error("hour %d: %s\n", err.hour, err.text);
        assert_int_equal(err.status, DEW_OK);
    }
    dew_march_close(m);
    return r;
}

/* Exact hour mean of the heat that holds 20 degC; closed form, ours. */
static void held_house_needs_the_exact_hour_mean(void **state)
{
    struct dew_case c = worked_house();
    struct dew_result r;

    (void)state;
    c.plant.heater = (struct dew_heater){.capacity = 20e3, .efficiency = 1.0};
    r = after(&c, 1);
    assert_near(r.heat.heating / 3600.0, 659.742, 0.66);
    assert_near(r.end.t_air, 20.0, 1e-9);
}

static void held_house_settles_at_the_steady_need(void **state)
{
    struct dew_case c = worked_house();
    struct dew_result r;

    (void)state;
    c.plant.heater = (struct dew_heater){.capacity = 20e3, .efficiency = 1.0};
    r = after(&c, 24 * 40);
    assert_near(r.heat.heating / 3600.0, 1645.247, 0.001);
    assert_near(r.end.t_mass, 18.8062, 0.0001);
}

/* The share H_w / (9.1 A_t) of the radiant gains that the method drops. */
static void dropped_share_is_a_named_flow(void **state)
{
    struct dew_case c = worked_house();
    struct dew_result r = after(&c, 1);

    (void)state;
    assert_near(r.heat.dropped / 3600.0, -(500.0 - 498.2906), 0.0001);
}

struct node_row {
    const char *name;
    int hours;
    double t_mass, tolerance;
};

/* Exact exponential: t = t_end + (20 - t_end) exp(-h / 41.6646), mass node. */
static const struct node_row node_rows[] = {
    {"mass node after 1 h, exact exponential", 1, 0.0, 1e-4},
    {"mass node after 2 h, exact exponential", 2, 0.0, 1e-4},
    {"mass node after 10 h, exact exponential", 10, 0.0, 1e-4},
    {"mass node after 24 h, exact exponential 13.18917", 24, 13.18917, 1e-4},
    {"mass node at rest, 4.44566", 24 * 60, 4.44566, 1e-5},
};

static void free_house_cools_by_the_exponential(void **state)
{
    const struct node_row *row = *state;
    struct dew_case c = worked_house();
    double end = 4.44566, tau = 41.6646;
    struct dew_result r = after(&c, row->hours);

    assert_near(r.end.t_mass, end + (20.0 - end) * exp(-row->hours / tau),
                row->tolerance + 2e-5);
    if (row->t_mass > 0.0)
        assert_near(r.end.t_mass, row->t_mass, row->tolerance);
}

/* A band b: the heater gives share f at b f below the set point. */
static void throttling_band_is_solved_in_the_stage(void **state)
{
    struct dew_case c = worked_house();
    struct dew_result r;

    (void)state;
    c.plant.heater = (struct dew_heater){.capacity = 4000.0, .efficiency = 1.0};
    c.house.comfort.band = 0.8;
    r = after(&c, 24 * 40);
    assert_near(r.end.t_air, 20.0 - 0.8 * r.heat.heating / 3600.0 / 4000.0,
                1e-9);
}

int main(void)
{
    struct CMUnitTest tests[16] = {
        cmocka_unit_test(held_house_needs_the_exact_hour_mean),
        cmocka_unit_test(held_house_settles_at_the_steady_need),
        cmocka_unit_test(dropped_share_is_a_named_flow),
        cmocka_unit_test(throttling_band_is_solved_in_the_stage),
    };
    size_t n = 4;

    ADD_ROWS(tests, n, node_rows, free_house_cools_by_the_exponential);
    return _cmocka_run_group_tests("march, heat", tests, n, NULL, NULL);
}
