/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dehumidifier and humidifier. */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/dryer.h"

static const double kwh = 3.6e6, day = 86400.0, pint = 0.473176473;

/* [NREL-52791], evaluated by hand from its coefficients. */
static const struct fit_row {
    const char *name;
    double t, rh, removal, efficiency;
} fit_rows[] = {
    {"18.33 degC, 60 %", 18.33, .60, .650, .778},
    {"21.11 degC, 50 %", 21.11, .50, .549, .636},
    {"21.11 degC, 60 %", 21.11, .60, .764, .856},
    {"23.89 degC, 50 %", 23.89, .50, .650, .710},
    {"23.89 degC, 60 %", 23.89, .60, .876, .925},
    {"26.67 degC, 50 %", 26.67, .50, .750, .775},
    {"26.67 degC, 60 %", 26.67, .60, .986, .985},
    {"29.44 degC, 60 %", 29.44, .60, 1.094, 1.034},
    {"18.33 degC, 40 %", 18.33, .40, .227, .303},
};

static void fit(void **state)
{
    const struct fit_row *r = *state;

    assert_near(dew_plant_dryer_removal(r->t, r->rh), r->removal, 0.002);
    assert_near(dew_plant_dryer_efficiency(r->t, r->rh), r->efficiency, 0.002);
}

TEST(fit_ends_in_nan)
{
    assert_nan(dew_plant_dryer_removal(14.9, 0.6));
    assert_nan(dew_plant_dryer_efficiency(21.3, 0.91));
    assert_nan(dew_plant_dryer_removal(15.1, 0.31)); /* fit is negative */
}

/* 1/EF + 0.682 kWh per litre at 20 degC, by hand. */
static const struct heat_row {
    const char *name;
    double factor, heat;
} heat_rows[] = {
    {"heat at 1.3 L/kWh", 1.3, 1.45}, {"heat at 1.6 L/kWh", 1.6, 1.31},
    {"heat at 1.8 L/kWh", 1.8, 1.24}, {"heat at 2.8 L/kWh", 2.8, 1.04},
    {"heat at 3.3 L/kWh", 3.3, 0.98},
};

static void heat_per_litre(void **state)
{
    const struct heat_row *r = *state;
    struct dew_dryer d = {.rate = 50 * pint / day,
                          .factor = r->factor / kwh,
                          .rating_t = 20.0,
                          .rating_rh = 0.6};
    struct dew_dryer_work o;

    dew_plant_dryer_at(&d, 20.0, dew_air_w(20.0, 0.6, 101325.0), 101325.0, &o);
    assert_near(o.rate * 3600, 0.986, 0.001); /* 50 pints a day in kg/h */
    assert_near(o.heat / o.rate / kwh, r->heat, 0.006);
    assert_near(o.held, 0.0, 0.0);
}

TEST(sealed_box_warms_by_power_and_condensation)
{
    struct dew_dryer d = {.rate = 1.7e-4,
                          .factor = 1.71 / kwh,
                          .rating_t = 18.3,
                          .rating_rh = 0.6};
    struct dew_dryer_work o;
    double t = 24.7, w = 0.0113, p = 98400.0, box = 31.0; /* kg of air */
    double dt = 1.0, h0 = dew_air_h(t, w), w1, h1;

    /* energy of the box: power in, liquid out at t */
    dew_plant_dryer_at(&d, t, w, p, &o);
    w1 = w - o.rate * dt / box;
    h1 = h0 + (o.power * dt - o.rate * dt * 4186.0 * t) / box;
    assert_near((dew_air_t(h1, w1) - t) * box * dew_air_cp(w1), o.heat, 0.01);
}

TEST(sixty_five_degrees_is_the_harder_label)
{
    /* the two rating points at 60 % */
    assert_near(dew_plant_dryer_removal(18.33, .6) /
                    dew_plant_dryer_removal(26.67, .6),
                0.659, 0.001);
    assert_near(dew_plant_dryer_efficiency(18.33, .6) /
                    dew_plant_dryer_efficiency(26.67, .6),
                0.790, 0.001);
}

TEST(what_the_owner_sees_comes_back)
{
    struct dew_dryer_label l = {.rate = 2 * 3.785 / day,
                                .factor = NAN,
                                .watts = 530.0,
                                .t = 22.7,
                                .rh = 0.563,
                                .rating_t = 18.3,
                                .rating_rh = 0.6};
    struct dew_dryer d = {.set = 0.5};
    struct dew_dryer_work o;

    /* "fills two gallons a day" in the house's own air */
    assert_int_equal(dew_plant_dryer_of(&l, &d, NULL), DEW_OK);
    dew_plant_dryer_at(&d, l.t, dew_air_w(l.t, l.rh, 100300.0), 100300.0, &o);
    assert_near(o.rate / l.rate, 1.0, 1e-9);
    assert_near(o.power, 530.0, 1e-6);
    assert_near(d.set, 0.5, 0.0);
}

TEST(absurd_labels_are_refused)
{
    struct dew_dryer_label l = {.rate = 50 * pint / day,
                                .factor = 1.6,
                                .watts = NAN,
                                .t = 18.3,
                                .rh = 0.6,
                                .rating_t = NAN,
                                .rating_rh = NAN};
    struct dew_dryer d;
    struct dew_error err = {0};

    assert_int_equal(dew_plant_dryer_of(&l, &d, &err), DEW_ERANGE);
    assert_string_equal(err.path, "factor");
    assert_string_equal(err.text, "5.76e+06 kg/kWh is outside 0.3 .. 8 "
                                  "kg/kWh: no dehumidifier works so");
    err = (struct dew_error){0};
    l.factor = 1.6 / kwh;
    l.rate = 253.0 / day;
    assert_int_equal(dew_plant_dryer_of(&l, &d, &err), DEW_ERANGE);
    assert_string_equal(err.path, "rate");
    assert_string_equal(err.text, "253 kg a day is outside 0 .. 250 kg a day");
    err = (struct dew_error){0};
    l.rate = 50 * pint / day;
    l.t = 8.0;
    assert_int_equal(dew_plant_dryer_of(&l, &d, &err), DEW_ERANGE);
    assert_string_equal(err.path, "t");
    assert_string_equal(err.text,
                        "8.0 degC and 60 % are outside what is known of "
                        "dehumidifiers, 15 .. 32 degC and 30 .. 90 %");
    err = (struct dew_error){0};
    l.t = 18.3;
    l.factor = NAN;
    assert_int_equal(dew_plant_dryer_of(&l, &d, &err), DEW_EMISSING);
    assert_string_equal(err.text,
                        "a dehumidifier needs an energy factor or watts");
}

TEST(held_outside_the_fit)
{
    struct dew_dryer d = {.rate = 1.7e-4,
                          .factor = 1.71 / kwh,
                          .rating_t = 18.3,
                          .rating_rh = 0.6};
    struct dew_dryer_work o;

    dew_plant_dryer_at(&d, 11.7, 0.0061, 98400.0, &o);
    assert_near(o.held, 1.0, 0.0);
    assert_true(o.rate > 0.0 && o.power > 0.0 && isfinite(o.heat));
    dew_plant_dryer_at(&d, 21.7, 0.0011, 98400.0, &o); /* bone dry */
    assert_near(o.held, 1.0, 0.0);
    assert_true(o.rate >= 0.0 && o.rate < 0.2 * d.rate);
    assert_true(o.power < 1.3 * d.rate / d.factor);
    dew_plant_dryer_at(&d, 47.0, 0.0101, 98400.0, &o);
    assert_nan(o.rate);
}

static const struct least_row {
    const char *source;
    enum dew_dryer_test test;
    double pints, factor; /* a day, kg/kWh */
} least_rows[] = {
    {"[DOE-DH] 25.00 pints or less: 1.30", DEW_TEST_PORTABLE, 25.00, 1.30},
    {"[DOE-DH] 25.01 to 50.00: 1.60", DEW_TEST_PORTABLE, 25.01, 1.60},
    {"[DOE-DH] to 50.00: 1.60", DEW_TEST_PORTABLE, 50.00, 1.60},
    {"[DOE-DH] 50.01 or more: 2.80", DEW_TEST_PORTABLE, 50.01, 2.80},
    {"[DOE-DH] 70 pints: 2.80", DEW_TEST_PORTABLE, 70, 2.80},
    /* 16.6, 21.3, 25.5 and 35.5 L/day are 35.1, 45.0, 53.9 and 75.0 pints */
    {"[NRCAN-DH] to 35 pints: 1.35", DEW_TEST_OLD, 35, 1.35},
    {"[NRCAN-DH] to 45 pints: 1.50", DEW_TEST_OLD, 45, 1.50},
    {"[NRCAN-DH] to 54 pints: 1.60", DEW_TEST_OLD, 54, 1.60},
    {"[NRCAN-DH] to 75 pints: 1.70", DEW_TEST_OLD, 75, 1.70},
    {"[NRCAN-DH] above: 2.5", DEW_TEST_OLD, 76, 2.5},
    {"[DOE-DH] whole house, to 8 ft3: 1.77", DEW_TEST_DUCTED, 90, 1.77},
};

static void the_least_sold_is_the_published(void **state)
{
    const struct least_row *r = *state;

    assert_near(dew_plant_dryer_least_factor(r->test, r->pints * pint / day) *
                    kwh,
                r->factor, 1e-9);
}

TEST(tests_have_their_air)
{
    /* 65, 80, 73 degF [DOE-DH] */
    assert_near(dew_plant_dryer_test_t(DEW_TEST_PORTABLE), 18.3333, 1e-4);
    assert_near(dew_plant_dryer_test_t(DEW_TEST_OLD), 26.6667, 1e-4);
    assert_near(dew_plant_dryer_test_t(DEW_TEST_DUCTED), 22.7778, 1e-4);
    assert_nan(dew_plant_dryer_test_t(DEW_DRYER_TESTS));
    assert_nan(dew_plant_dryer_least_factor(DEW_DRYER_TESTS, 1e-4));
    assert_nan(dew_plant_dryer_least_factor(DEW_TEST_OLD, 0));
}

TEST(humidifier_takes_its_heat)
{
    struct dew_humidifier h = {.rate = 2.3e-4, .heat = 1.0};
    struct dew_humidifier_work o = dew_plant_humidifier_at(&h, 0.63, 21.3);

    assert_near(o.rate, 0.63 * 2.3e-4, 1e-15);
    assert_near(o.air_heat, o.rate * (2501e3 - 2326.0 * 21.3), 1e-9);
    assert_near(o.power, 0.0, 0.0);
    h.heat = 0.0;
    o = dew_plant_humidifier_at(&h, 0.63, 21.3);
    assert_near(o.air_heat, 0.0, 0.0);
    assert_near(o.power, o.rate * 2613e3, 1e-9);
}

TEST(part_load_and_air)
{
    struct dew_dryer d = {.rate = 70 * pint / day};

    /* [DH-AIR] */
    assert_near(dew_plant_dryer_part_load(0.31), 0.931, 1e-12);
    assert_near(dew_plant_dryer_air(&d) * 2118.880, 70 * 2.75, 0.001);
}

TEST(a_ventilating_dryer_draws_a_mix)
{
    struct dew_dryer d = {.rate = 90 * pint / day, .outdoor = 0.0283};
    struct dew_stream in = {23.7, 0.0098, 101325.0, 0},
                      out = {31.3, 0.0187, 101325.0, 0}, mix;
    struct dew_dryer_inlet got =
        dew_plant_dryer_inlet(&d, in.t, in.w, out.t, out.w);

    out.flow = d.outdoor * 1.2041;
    in.flow = dew_plant_dryer_air(&d) * 1.2041 - out.flow;
    mix = dew_air_mix(&in, &out, NULL);
    assert_near(got.w, mix.w, 1e-12);
    assert_near(got.t, mix.t, 0.03); /* vapour left out */
    d.outdoor = 0.5;
    got = dew_plant_dryer_inlet(&d, in.t, in.w, out.t, out.w);
    assert_near(got.outdoor, 1.0, 0.0);
}

ROWS(fit_rows, fit);
ROWS(heat_rows, heat_per_litre);
ROWS(least_rows, the_least_sold_is_the_published);
RUN_TESTS("plant, dryer");
