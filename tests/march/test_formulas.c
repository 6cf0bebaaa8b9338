/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the march makes of leaks, breath, surfaces and humidistats, against
 * the published examples and the closed forms that hold their formulas.
 */
#include "dew/leakage.h"
#include "dew/plant.h"
#include "dew/sources.h"
#include "dew/surface.h"
#include "support/marched.h"

static const double inside = 20.0;

static struct dew_hour windy(double t, double wind)
{
    return (struct dew_hour){.t = t, .w = 0.001, .p = p0, .wind = wind};
}

/* clang-format off */
static const struct leak {
    const char *source;
    double c, n, storeys; int flue, crawl, shelter; double dt, wind, volume;
    double flow;
} leak_rows[] = {
    /* flow as tests/house/test_leakage.c has it: unrounded; hence 1 % */
    {"[ASH-F16] example 5", 0.051, 0.67, 2, 1, 0, 4, 39, 6.7,  340, 0.0596},
    {"[ASH-F16] example 6", 0.078, 0.60, 1, 0, 1, 4, 16, 2.7,  255, 0.0230},
    {"[ASH-F16] example 7", 0.102, 0.67, 3, 1, 1, 5, 5,  4.47, 395, 0.0389},
    {"[ASH-F16] example 5, stack alone", 0.051, 0.67, 2, 1, 0, 4, 39, 0,   340, 0.0528},
    {"[ASH-F16] example 5, wind alone",  0.051, 0.67, 2, 1, 0, 4, 0,  6.7, 340, 0.0276},
};

/* Unbalanced fan over 50 L/s of nature, [ASH-F16] eq. 51; L/s. */
static const struct fan { const char *source; double fan, total; } fan_rows[] = {
    {"50 of nature, no fan",   0,   50.0},
    {"50 of nature, fan 25",   25,  55.9},
    {"50 of nature, fan 50",   50,  70.7},
    {"50 of nature, fan 100",  100, 111.8},
    {"50 of nature, fan 200",  200, 206.2},
};

/* Two asleep in 30 m3, 400 ppm outdoors, after 8 h (closed form). */
static const struct night { const char *source; double flow, ppm; } night_rows[] = {
    {"bedroom at 7.5 L/s: 1332.6 ppm after 8 h", 7.5, 1332.6},
    {"bedroom at 5 L/s: 1788.5 ppm after 8 h",   5.0, 1788.5},
};

/* [ISO13788] relations, film 0.13 (regression); limit: room RH that wets it. */
static const struct pane { const char *source; double u, te, ts, limit; } pane_rows[] = {
    {"U 2.8, 20 and -10 degC", 2.8, -10, 9.08,  0.494},
    {"U 1.1, 20 and -20 degC", 1.1, -20, 14.28, 0.696},
    {"U 5.8, 20 and -5 degC",  5.8, -5,  1.15,  0.284},
};
/* clang-format on */

static void house_leaks_as_the_example(void **state)
{
    const struct leak *row = *state;
    struct dew_case c = bare_case(row->volume, inside);
    struct dew_siting siting = {row->storeys, row->shelter, row->flue,
                                row->crawl};
    struct dew_hour cold = windy(inside - row->dt, row->wind);
    struct dew_hour hot = windy(inside + row->dt, row->wind);

    assert_int_equal(dew_house_leakage_enhanced(row->c, row->n, &siting,
                                                &c.house.leakage, NULL),
                     DEW_OK);
    assert_near(run(&c, &cold, 3, NULL).leak, row->flow, 0.01 * row->flow);
    assert_near(run(&c, &hot, 3, NULL).leak, row->flow, 0.01 * row->flow);
}

static void fan_joins_nature_by_the_rule(void **state)
{
    const struct fan *row = *state;
    struct dew_case c = bare_case(340.0, inside);
    struct dew_hour out = windy(7.0, 3.3);
    double fan = 1e-3 * row->fan;
    struct dew_path in = {.supply = fan, .fresh = fan}, away = {.exhaust = fan};
    struct dew_result r;

    c.house.leakage = dew_house_leakage_given(0.05, 0.65, 0.050);
    set_path(&c, DEW_VENT_ON, &in);
    r = run(&c, &out, 3, NULL);
    assert_near(1e3 * (r.leak + r.fresh), row->total, 0.05);
    set_path(&c, DEW_VENT_ON, &away);
    assert_near(1e3 * run(&c, &out, 3, NULL).leak, row->total, 0.05);
}

/* The step is of second order: within 0.05 ppm at twelve of them an hour, and
   the rows are printed to 0.05. */
static void bedroom_fills_overnight(void **state)
{
    const struct night *row = *state;
    struct dew_case c = bare_case(30.0, inside);
    struct dew_hour out = windy(7.0, 3.3);
    double part = 0.25e-3 * row->flow; /* each way that outdoor air comes in */
    struct dew_path path = {.supply = part,
                            .fresh = part,
                            .unplanned = part,
                            .leak_in = part,
                            .exhaust = 3.0 * part};

    c.house.leakage = dew_house_leakage_given(0.05, 0.65, part);
    set_path(&c, DEW_VENT_ON, &path);
    c.house.people = (struct dew_people){.count = 2.0, .co2 = 0.0035e-3};
    all_day(c.house.people.present_weekday, 1.0);
    c.house.co2_outdoors = 400.0;
    c.steps_per_hour = 12;
    assert_near(run(&c, &out, 8, NULL).end.co2, row->ppm, 0.1);
}

/* Open windows thin breath as leaks do: the steady rise of their sum. */
TEST(windows_thin_the_breath)
{
    struct dew_case c = bare_case(340.0, inside);
    struct dew_hour out = windy(16.0, 0.0);
    struct dew_result r;

    c.house.leakage = dew_house_leakage_given(0.05, 0.65, 0.011);
    c.house.windows = (struct dew_windows){0.013, 14.0, 18.0, 0};
    c.house.people = (struct dew_people){.count = 2.0, .co2 = 0.0035e-3};
    all_day(c.house.people.present_weekday, 1.0);
    all_day(c.house.people.present_weekend, 1.0);
    r = run(&c, &out, 200, NULL);
    assert_near(r.duty.window, 0.5, 1e-12); /* half way from 14 to 18 */
    assert_near(
        r.co2, 420.0 + dew_house_co2_rise(0.007e-3, 0.011 + 0.5 * 0.013), 1e-6);
}

/* The room's humidity over the limit is that at the pane. */
static void pane_is_as_cold_as_the_example(void **state)
{
    const struct pane *row = *state;
    struct dew_case c = bare_case(340.0, inside);
    struct dew_hour out = windy(row->te, 0.0);
    double factor = dew_house_factor(row->u, DEW_FILM_GLASS);
    struct dew_result r;

    for (int s = 0; s < DEW_SURFACES; s++)
        c.house.surfaces[s] = dew_house_surface(DEW_GLASS, factor, 0.0);
    c.house.leakage.constant = 0.05;
    r = run(&c, &out, 200, NULL);
    for (int s = 0; s < DEW_SURFACES; s++) {
        assert_near(r.surface_t[s], row->ts, 0.0051);
        /* its limit is printed to half a thousandth */
        assert_near(r.surface_rh[s] * row->limit, r.rh, 2e-3 * r.rh);
        assert_near(r.surface_rh[s],
                    dew_house_surface_rh(factor, inside, row->te, r.rh),
                    1e-6 * r.rh);
    }
}

/* Where nothing changes any more the machine runs the share of its band that
   the house has come to. */
TEST(machines_settle_within_their_bands)
{
    struct dew_case c = bare_case(340.0, inside);
    struct dew_hour wet = {.t = inside, .w = 0.0093, .p = p0};
    struct dew_hour dry = {.t = inside, .w = 0.0027, .p = p0};
    struct dew_result r;

    c.house.leakage.constant = 0.05;
    c.plant.dryer = (struct dew_dryer){.rate = 3e-4,
                                       .factor = 1.6 / 3.6e6,
                                       .rating_t = 26.7,
                                       .rating_rh = 0.6,
                                       .set = 0.53,
                                       .band = 0.07,
                                       .drained = 1.0};
    r = run(&c, &wet, 400, NULL);
    assert_true(r.duty.dehumidify > 0.1 && r.duty.dehumidify < 0.9);
    assert_near(dew_plant_dry_demand(&c.plant.dryer, r.rh), r.duty.dehumidify,
                1e-6);
    c.plant.dryer.rate = 0.0;
    c.plant.humidifier = (struct dew_humidifier){1.7e-4, 0.36, 0.07, 1.0};
    r = run(&c, &dry, 400, NULL);
    assert_true(r.duty.humidify > 0.1 && r.duty.humidify < 0.9);
    assert_near(dew_plant_humid_demand(&c.plant.humidifier, r.rh),
                r.duty.humidify, 1e-6);
}

/* Damp air carries more: 1006 + 1860 w a kg of dry air, [ASH-F1] eq. 30. */
TEST(leaks_bring_the_heat_of_moist_air)
{
    struct dew_case c = bare_case(340.0, inside);
    struct dew_hour out = {.t = 33.0, .w = 0.021, .p = p0};
    struct dew_result r;
    double m;

    c.house.leakage.constant = 0.02;
    r = run(&c, &out, 48, NULL);
    m = r.leak * dew_air_density_run(c.pressure) * 3600.0;
    assert_near(r.leak, 0.02, 1e-9);
    assert_near(r.heat.infiltration,
                m * (1006.0 + 1860.0 * 0.021) * (33.0 - inside),
                1e-6 * r.heat.infiltration);
}

/* What leaks brought in an hour is what the hour's mean air lacked. */
TEST(the_mean_air_of_an_hour_is_what_leaks_met)
{
    struct dew_case c = bare_case(340.0, inside);
    struct dew_hour out = {.t = 7.0, .w = 0.0031, .p = p0};
    struct dew_march *m;
    double before = NAN;

    c.house.leakage.constant = 0.02;
    m = opened(&c, &out);
    out.w = 0.0097; /* from now on */
    for (int h = 0; h < 6; h++) {
        struct dew_result r = step(m, &out, h);
        double flow = r.leak * dew_air_density_run(c.pressure) * 3600.0;

        assert_near(r.water.leakage, flow * (r.w_out - r.w),
                    1e-6 * fabs(r.water.leakage));
        assert_near(dew_air_rh(r.t, r.w, p0), r.rh, 1e-3 * r.rh);
        if (h > 0)
            assert_true((r.w - before) * (r.w - r.end.w) < 0);
        before = r.end.w;
    }
    dew_march_close(m);
}

ROWS(leak_rows, house_leaks_as_the_example);
ROWS(fan_rows, fan_joins_nature_by_the_rule);
ROWS(night_rows, bedroom_fills_overnight);
ROWS(pane_rows, pane_is_as_cold_as_the_example);
RUN_TESTS("march, formulas");
