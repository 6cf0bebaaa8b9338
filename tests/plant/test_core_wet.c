/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condensing in a core, against slices. */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/core.h"

/* Regression, worked apart with 800 slices: NTU 3 dry, 22 degC, sea level. */
static const struct row {
    const char *name;
    double t_out, rh, eps, t4, water;
} rows[] = {
    {"0 degC, 30 %", 0, .3, .7525, 5.59, 0},
    {"0 degC, 50 %", 0, .5, .7685, 8.54, 1.32e-3},
    {"-5 degC, 50 %", -5, .5, .7801, 6.58, 2.19e-3},
    {"-10 degC, 30 %", -10, .3, .7584, 0.44, 1.01e-3},
    {"-10 degC, 50 %", -10, .5, .7897, 4.47, 3.02e-3},
};

static void published_band(void **state)
{
    const struct row *r = *state;
    struct dew_core_wet o;

    dew_plant_core_wet(3.0, r->t_out, 22.0, dew_air_w(22.0, r->rh, 101325.0),
                       101325.0, &o);
    assert_near(o.sensible, r->eps, 0.01);
    assert_near(o.water, r->water, 0.10 * r->water);
    assert_near(o.t_exhaust, r->t4, 0.5);
}

/* Counterflow in slices from the warm end; supply leaving at t2. */
struct end {
    double t_supply, t4, w4;
};

static struct end slices(double units, double t_in, double w, double t2,
                         double p)
{
    const int count = 2000;
    double ts = t2, te = t_in;

    for (int i = 0; i < count; i++) {
        double q = units / count * 1006.0 * (te - ts); /* J per kg */
        double w_sat = dew_air_w_sat(te, p), cp = 1006.0 + 1860.0 * w;

        if (w >= w_sat) { /* on the saturation curve */
            double dw =
                (dew_air_w_sat(te + 0.01, p) - dew_air_w_sat(te - 0.01, p)) /
                0.02;

            cp += dw * (2501e3 + 1860.0 * te - 4186.0 * te);
            te -= q / cp;
            w = dew_air_w_sat(te, p);
        } else {
            te -= q / cp;
            w = fmin(w, dew_air_w_sat(te, p));
        }
        ts -= q / 1006.0;
    }
    return (struct end){ts, te, w};
}

static void agrees_with_slices(void **state)
{
    static const double units[] = {1.3, 2.9, 6.1}, out[] = {-23.7, -9.1, 2.3},
                        rh[] = {0.23, 0.37, 0.58}, p[] = {101325, 83100};

    (void)state;
    for (int i = 0; i < 3 * 3 * 3 * 2; i++) {
        double n = units[i % 3], t1 = out[i / 3 % 3], pr = p[i / 27];
        double w = dew_air_w(21.3, rh[i / 9 % 3], pr), low = t1, high = 21.3;
        struct end e = {0, 0, 0};
        struct dew_core_wet o;

        for (int k = 0; k < 40; k++) {
            double t2 = 0.5 * (low + high);

            e = slices(n, 21.3, w, t2, pr);
            if (!(e.t_supply >= t1)) /* NaN: far too cold */
                low = t2;
            else
                high = t2;
        }
        dew_plant_core_wet(n, t1, 21.3, w, pr, &o);
        assert_near(o.sensible, (low - t1) / (21.3 - t1), 0.004);
        assert_near(o.water, w - e.w4, 0.015 * (w - e.w4) + 2e-6);
    }
}

static void heat_and_water_close(void **state)
{
    double w = dew_air_w(21.3, 0.47, 98400.0), t4;
    struct dew_core_wet o;

    (void)state; /* [ASH-F1] eq. 43: what the exhaust gives the supply takes */
    dew_plant_core_wet(4.7, -13.9, 21.3, w, 98400.0, &o);
    t4 = o.t_exhaust;
    assert_near(w - o.water, dew_air_w_sat(t4, 98400.0), 1e-9);
    assert_near(1006.0 * o.sensible * (21.3 + 13.9),
                dew_air_h(21.3, w) - dew_air_h(t4, w - o.water) -
                    o.water * 4186.0 * t4,
                1.0);
}

static void dry_air_is_the_dry_core(void **state)
{
    struct dew_core_wet o;

    (void)state;
    dew_plant_core_wet(3.7, -8.3, 21.3, 0.0, 98400.0, &o);
    assert_near(o.sensible, 3.7 / 4.7, 1e-12);
    assert_near(o.water, 0.0, 0.0);
}

static void begins_without_a_jump(void **state)
{
    double before = NAN;

    (void)state;
    for (double rh = 0.20; rh < 0.62; rh += 0.002) {
        struct dew_core_wet o;

        dew_plant_core_wet(3.1, -4.3, 21.3, dew_air_w(21.3, rh, 98400.0),
                           98400.0, &o);
        if (!isnan(before))
            assert_true(fabs(o.sensible - before) < 0.002);
        before = o.sensible;
    }
}

static void outside_gives_nan(void **state)
{
    struct dew_core_wet o;

    (void)state;
    dew_plant_core_wet(3.1, 23.0, 21.3, 0.006, 98400.0, &o);
    assert_nan(o.sensible);
}

int main(void)
{
    struct CMUnitTest tests[32] = {
        cmocka_unit_test(agrees_with_slices),
        cmocka_unit_test(heat_and_water_close),
        cmocka_unit_test(dry_air_is_the_dry_core),
        cmocka_unit_test(begins_without_a_jump),
        cmocka_unit_test(outside_gives_nan),
    };
    size_t n = 5;

    ADD_ROWS(tests, n, rows, published_band);
    return _cmocka_run_group_tests("plant, condensing core", tests, n, NULL,
                                   NULL);
}
