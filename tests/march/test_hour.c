/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an hour tells: wet surfaces, and the power of a heat pump. */
#include "dew/leakage.h"
#include "dew/surface.h"
#include "march/hour.h"
#include "march/open.h"
#include "support/marched.h"

/* A tight room in frost that grows damp, with a pane of area m2. */
static struct dew_march *damp_room(double area, const struct dew_hour *out)
{
    struct dew_case c = bare_case(173.0, 20.7);

    c.house.water[DEW_SOURCE_other].per_day = 0.29;
    c.house.surfaces[DEW_GLASS] = (struct dew_surface){0.64, area, 0.05 * area};
    return opened(&c, out);
}

/* Wet from a thousandth of a millimetre on, not from the first molecule. */
TEST(a_film_counts_once_it_can_be_seen)
{
    const double area = 37.0, seen = DEW_FILM_SEEN * area;
    struct dew_hour out = outdoors(-7.3, 0.8);
    struct dew_march *m = damp_room(area, &out);
    double film = 0.0;
    int faint = 0, wet = 0;

    for (int h = 0; h < 300; h++) {
        struct dew_result r = step(m, &out, h);

        assert_true(r.end.film_glass >= film); /* it only grows here */
        if (r.end.film_glass < seen)
            assert_near(r.sweat[DEW_GLASS], 0.0, 0.0);
        if (film >= seen)
            assert_near(r.sweat[DEW_GLASS], 1.0, 1e-12);
        faint += r.end.film_glass > 0.0 && r.end.film_glass < seen;
        wet += film >= seen;
        film = r.end.film_glass;
    }
    dew_march_close(m);
    assert_true(faint >= 1 && wet >= 1);
}

/* What stands on the pane came out of the air, and goes back into it once the
   pane is warmer, to the last of it; what runs off is told. */
TEST(a_film_dries_into_the_air_it_came_from)
{
    struct dew_hour frost = outdoors(-7.3, 0.8), mild = outdoors(15.0, 0.3);
    struct dew_march *m = damp_room(3.0, &frost);
    double film = 0.0, back = 0.0;
    int dry = 0;

    for (int h = 0; h < 450; h++) {
        struct dew_result r = step(m, h < 300 ? &frost : &mild, h);

        assert_near(r.end.film_glass - film, -r.water.glass - r.wiped, 1e-9);
        back += fmax(r.water.glass, 0.0);
        if (h == 299)
            assert_true(r.end.film_glass > 0.1);
        dry += h > 300 && r.end.film_glass <= 0.0;
        film = r.end.film_glass;
    }
    dew_march_close(m);
    assert_true(back > 0.09 && dry > 10);
}

/* Without a film there is nothing to see: saturated air counts. */
TEST(a_watched_surface_counts_by_its_air)
{
    struct dew_hour out = outdoors(-7.3, 0.8);
    struct dew_march *m = damp_room(0.0, &out);
    int dry = 0, wet = 0;

    for (int h = 0; h < 300; h++) {
        struct dew_result r = step(m, &out, h);

        if (fabs(r.surface_rh[DEW_GLASS] - 1.0) < 0.02)
            continue;
        assert_near(r.sweat[DEW_GLASS], r.surface_rh[DEW_GLASS] > 1.0, 0.0);
        dry += r.sweat[DEW_GLASS] < 0.5;
        wet += r.sweat[DEW_GLASS] > 0.5;
    }
    dew_march_close(m);
    assert_true(dry > 10 && wet > 10);
}

/* A boost that ends within the hour still made its pressure in it. */
TEST(the_worst_pressure_of_an_hour_stays)
{
    struct dew_case c = bare_case(91.0, 21.3);
    struct dew_hour out = outdoors(1.7, 0.8);
    struct dew_path boost = {.exhaust = 0.083, .fresh = 0.083};
    struct dew_march *m;
    struct dew_result r;
    double full;

    c.steps_per_hour = 12;
    c.plant.control.boost_rh = 0.44; /* the march begins at 0.45 */
    c.plant.control.boost_band = 0.005;
    set_path(&c, DEW_VENT_BOOST, &boost);
    full = dew_house_pressure(&c.house.leakage, 0.0, 0.083);
    m = opened(&c, &out);
    r = step(m, &out, 0);
    assert_near(r.pressure, full, 1e-12);
    assert_true(r.duty.boost > 0.0 && r.duty.boost < 0.9);
    for (int h = 1; h < 4; h++)
        r = step(m, &out, h);
    assert_near(r.duty.boost, 0.0, 0.0);
    assert_near(r.pressure, 0.0, 0.0);
    dew_march_close(m);
}

/* By hand: .7 of the way to the room, and 33 W in 50 L/s. */
TEST(supply_air_has_the_heat_of_core_and_fan)
{
    struct dew_case c = bare_case(173.0, 20.7);
    struct dew_hour out = outdoors(-7.3, 0.8);
    struct dew_path on = {
        .supply = 0.05, .exhaust = 0.05, .sensible = 0.7, .fan_heat = 33.0};
    double warmer = 33.0 / (0.05 * dew_air_density_run(p0) * 1006.0);

    set_path(&c, DEW_VENT_ON, &on);
    assert_near(run(&c, &out, 2, NULL).supply_t, -7.3 + 0.7 * 28.0 + warmer,
                1e-9);
}

/* The label's own points; the curve between them is test_coil.c's. */
struct pump {
    const char *name;
    double t_out, cop, tol;
};

static const struct pump pumps[] = {
    {"heat pump: the label at 47 degF", 15.0 / 1.8, 3.9, 1e-9},
    {"heat pump: the label at 17 degF", -15.0 / 1.8, 2.6, 1e-9},
};

static void heat_pump_draws_by_its_curve(void **state)
{
    const struct pump *row = *state;
    struct dew_case c = bare_case(430.0, 21.3);
    struct dew_hour out = outdoors(row->t_out, 0.8);
    struct dew_result r;

    c.house.comfort.given = 0;
    all_day(c.house.comfort.cool, 30.0);
    c.house.thermal.h_em = 97.0;
    c.plant.heater = (struct dew_heater){
        .capacity = 9000.0, .cop_warm = 3.9, .cop_cold = 2.6};
    r = run(&c, &out, 48, NULL);
    assert_true(r.heat.heating > 1e6);
    assert_near(r.heat.heating / r.energy.heating_power, row->cop, row->tol);
}

/* ---- steps ----------------------------------------------------------------- */

/* Tries of an hour that begins in wind of 2 m/s and ends in so much. */
static long tries_in(const struct dew_case *c, double wind)
{
    struct dew_hour out = outdoors(4.1, 0.7), end = out;
    struct dew_march *m;
    long before;

    out.wind = 2.0;
    end.wind = wind;
    m = opened(c, &out);
    for (int h = 0; h < 200; h++)
        step(m, &out, h);
    before = m->body.tries;
    step(m, &end, 200);
    before = m->body.tries - before;
    dew_march_close(m);
    return before;
}

static const struct stride {
    const char *name;
    int steps, quiet; /* an hour: asked for, taken                           */
} strides[] = {{"1", 1, 1},    {"2", 2, 2},   {"3", 3, 3}, {"4", 4, 2},
               {"5", 5, 5},    {"6", 6, 3},   {"8", 8, 4}, {"12", 12, 6},
               {"14", 14, 14}, {"60", 60, 60}};

static void a_quiet_hour_takes_half_of_some_steps(void **state)
{
    const struct stride *row = *state;
    struct dew_case c = bare_case(240.0, 20.7);

    c.steps_per_hour = row->steps;
    assert_int_equal(tries_in(&c, 2.0), row->quiet);
}

/* One in which something is in sight takes all of them. */
TEST(a_busy_hour_takes_its_steps)
{
    struct dew_case c = bare_case(240.0, 20.7);

    c.steps_per_hour = 4;
    assert_true(tries_in(&c, 2.0) == 2);
    c.house.leakage.wind_k = 0.0024;
    c.house.leakage.wind_n = 1.3;
    assert_true(tries_in(&c, 2.1) == 2);
    assert_true(tries_in(&c, 13.0) >= 4); /* a gust on a leaky house */
}

ROWS(strides, a_quiet_hour_takes_half_of_some_steps);
ROWS(pumps, heat_pump_draws_by_its_curve);
/* A wet coil's air takes up water to saturation at its wet bulb; air that is
   saturated takes none. */
TEST(air_soaks_to_its_wet_bulb)
{
    const double t = 24.3, w = 0.0113, p = 98400.0;
    double wet = dew_air_wet(t, w, p);
    struct dew_coil coil = {.m = 0.613};
    struct dew_coil_air air = {.t = t, .w = w, .p = p, .flow = 1.0};

    assert_near(march__soak_of(&coil, &air, wet),
                0.613 * (dew_air_w_sat(wet, p) - w), 1e-9);
    air.w = dew_air_w_sat(t, p);
    assert_near(march__soak_of(&coil, &air, t), 0.0, 1e-9);
    assert_near(march__soak_of(&coil, &air, t - 1.0), 0.0, 0.0);
}

/* A set point that is lowered, and let go, nears its aim as a memory fades: what
   is left of the way, by the middle of each step and by its end. */
TEST(overcooling_comes_down_as_slowly_as_it_goes)
{
    static struct march__body m;
    static struct march__hour h;
    struct dew_state wet = {.w = 0.017}, dry = {.w = 0.004};
    const double half = 0.9;

    m.c = bare_case(173.0, 20.7);
    m.c.plant.handler_count = 1;
    m.c.plant.handlers[0].overcool = 1.2;
    m.c.plant.handlers[0].overcool_rh = 0.5;
    all_day(m.c.house.comfort.cool, 24.0);
    h.date.hour = 7;
    h.now.mid.p = p0;
    h.half_left = half;
    for (int n = 1; n <= 60; n++) {
        march__overcool(&m, &h, n <= 30 ? &wet : &dry);
        m.at.lowered = h.lowered;
        if (n <= 30)
            assert_near(h.now.drive.set_cool,
                        24.0 - 1.2 * (1 - pow(half, 2 * n - 1)), 1e-9);
        else
            assert_near(h.now.drive.set_cool,
                        24.0 - 1.2 * (1 - pow(half, 60)) *
                                   pow(half, 2 * (n - 30) - 1),
                        1e-9);
    }
}

RUN_TESTS("march, hour");
