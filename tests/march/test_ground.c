/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Wet ground through the march: what is told is told of a surface of 20 degC
 * in a room of 20 degC and 50 %; elsewhere it follows the vapour pressure that
 * is left, and never takes any water up.
 */
#include "dew/sources.h"
#include "march/solve.h"
#include "support/marched.h"

#include "support/lively.h"

static const double told = 5.0; /* kg/day */

/* A room held at t, whose air leaks so fast that it keeps the outdoors' RH;
   litres are told as millilitres, so that they do not wet it. */
static double litres_a_day(double t, double rh, double lean, double ground)
{
    struct dew_case c = bare_case(300.0, t);
    const struct dew_hour out = outdoors(t, rh);
    struct dew_tally sum = {0};

    c.house.leakage.constant = 1.0;
    c.house.thermal.h_ground = 40.0;
    c.house.thermal.ground_mean = ground;
    c.house.thermal.floor_lean = lean;
    c.house.water[DEW_SOURCE_ground] =
        dew_house_felt(DEW_SOURCE_ground, 1e-3 * told);
    run(&c, &out, 48, &sum);
    return 1e3 * sum.water.ground;
}

/* By hand: told (p_s(t) - p_room) / (p_s(20) - p_s(20) / 2), p_s of [HW83];
   [ISO6946] R_si 0.17 m2K/W downward with a slab of 0.43 W/(m2 K). */
static const struct face_row {
    const char *name;
    double room_t, rh, lean, ground, litres;
} face_rows[] = {
    /* clang-format off */
    {"as told: surface and air at 20 degC, air at 50 %",  20, 0.5, 0.0, 8, 5.00},
    {"as told, though it leans: ground of 20 degC",       20, 0.5, 0.3, 20, 5.00},
    {"surface of 18 degC: 3.83 of 5 L/day",               20, 0.5, 1.0, 18, 3.83},
    {"surface of 16 degC: 2.78 of 5 L/day",               20, 0.5, 1.0, 16, 2.78},
    {"surface of 14 degC: 1.84 of 5 L/day",               20, 0.5, 1.0, 14, 1.84},
    {"surface of 12 degC: 1.00 of 5 L/day",               20, 0.5, 1.0, 12, 1.00},
    {"surface of 10 degC: 0.25 of 5 L/day",               20, 0.5, 1.0, 10, 0.25},
    {"surface of 8 degC, below the dew point: none",      20, 0.5, 1.0, 8,  0.00},
    {"slab of 0.43 W/(m2 K) over 8 degC: face of 19.12",  20, 0.5, 0.43 * 0.17, 8, 4.47},
    {"the same over -3 degC: face of 18.32",              20, 0.5, 0.43 * 0.17, -3, 4.00},
    {"the same over 25 degC, room of 24 degC, 60 %",      24, 0.6, 0.43 * 0.17, 25, 5.16},
    {"air at 100 %: none",                                20, 1.0, 0.0, 8, 0.00},
    /* clang-format on */
};

static void ground_gives_what_its_face_drives(void **state)
{
    const struct face_row *r = *state;

    assert_near(litres_a_day(r->room_t, r->rh, r->lean, r->ground), r->litres,
                0.005);
}

/* Frozen ground below a lived-in house: it dries nothing, in any hour, and
   wets again in summer; the march closes its books in each. */
TEST(cold_ground_takes_up_no_water)
{
    struct dew_case c = lively_case();
    struct lively run;
    int wet = 0, none = 0;

    c.house.water[DEW_SOURCE_ground] = dew_house_felt(DEW_SOURCE_ground, 20.0);
    c.house.thermal.floor_lean = 0.8;
    c.house.thermal.ground_mean = 4.0;
    c.house.thermal.ground_swing = 8.0;
    lively_open(&run, &c);
    while (lively_step(&run)) {
        assert_true(run.r.water.ground >= 0.0);
        wet += run.r.water.ground > 0.1;
        none += run.r.water.ground == 0.0;
    }
    lively_close(&run);
    assert_true(wet > 1000 && none > 1000);
}

/* Its heat is the air's. */
TEST(evaporation_is_paid_in_heat)
{
    struct dew_case c = lively_case();
    struct lively run;
    double water = 0.0, heat = 0.0;

    for (int s = 0; s < DEW_SOURCES; s++)
        c.house.water[s].rate = c.house.water[s].per_day = 0.0;
    for (int s = 0; s < DEW_SURFACES; s++)
        c.house.surfaces[s].area = 0.0;
    c.house.buffer = (struct dew_buffer){0};
    c.plant.humidifier.rate = 0.0;
    c.house.water[DEW_SOURCE_ground] = dew_house_felt(DEW_SOURCE_ground, 20.0);
    lively_open(&run, &c);
    while (lively_step(&run)) {
        water += run.r.water.ground;
        heat += run.r.heat.evaporation;
    }
    lively_close(&run);
    assert_true(water > 1000.0);
    assert_near(-heat / water, DEW_LATENT, 1e-6 * DEW_LATENT);
}

ROWS(face_rows, ground_gives_what_its_face_drives);
RUN_TESTS("march, wet ground");
