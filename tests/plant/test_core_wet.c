/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condensing in a core, against slices. */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/core.h"

/* Equal flows, to save words. */
static struct dew_core_wet wet(double ntu, double t_out, double t_in, double w,
                               double p)
{
    struct dew_core_meeting m = {ntu, 1.0, t_out, t_in, w, p};
    struct dew_core_wet o;

    dew_plant_core_wet(&m, &o);
    return o;
}

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
    struct dew_core_wet o =
        wet(3.0, r->t_out, 22.0, dew_air_w(22.0, r->rh, 101325.0), 101325.0);

    assert_near(o.sensible, r->eps, 0.01);
    assert_near(o.water, r->water, 0.10 * r->water);
    assert_near(o.t_exhaust, r->t4, 0.5);
}

/* Counterflow in slices from the warm end; supply leaving at t2; units and
   ratio of flows on the supply's capacity. */
struct end {
    double t_supply, t4, w4;
};

static struct end slices(double units, double ratio, double t_in, double w,
                         double t2, double p)
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
            te -= q / cp / ratio;
            w = dew_air_w_sat(te, p);
        } else {
            te -= q / cp / ratio;
            w = fmin(w, dew_air_w_sat(te, p));
        }
        ts -= q / 1006.0;
    }
    return (struct end){ts, te, w};
}

/* The slices whose supply air comes in at t1; *eps of them. */
static struct end sliced(const struct dew_core_meeting *m, double *eps)
{
    double low = m->t_out, high = m->t_in;
    struct end e = {0, 0, 0};

    for (int k = 0; k < 40; k++) {
        double t2 = 0.5 * (low + high);

        e = slices(m->ntu, m->ratio, m->t_in, m->w, t2, m->p);
        if (!(e.t_supply >= m->t_out)) /* NaN: far too cold */
            low = t2;
        else
            high = t2;
    }
    *eps = (low - m->t_out) / (m->t_in - m->t_out);
    return e;
}

struct flows {
    const char *name;
    double ratio, eps, water; /* tolerances: of effectiveness, of water */
};

static const struct flows flow_rows[] = {
    {"slices, equal flows", 1.0, 0.004, 0.015},
    {"slices, exhaust 0.7 of supply", 0.7, 0.017, 0.03},
    {"slices, exhaust 1.4 of supply", 1.4, 0.006, 0.03},
};

static void agrees_with_slices(void **state)
{
    static const double units[] = {1.3, 2.9, 6.1}, out[] = {-23.7, -9.1, 2.3},
                        rh[] = {0.23, 0.37, 0.58}, p[] = {101325, 83100};
    const struct flows *row = *state;

    for (int i = 0; i < 3 * 3 * 3 * 2; i++) {
        struct dew_core_meeting m = {.ntu = units[i % 3],
                                     .ratio = row->ratio,
                                     .t_out = out[i / 3 % 3],
                                     .t_in = 21.3,
                                     .p = p[i / 27]};
        double eps;
        struct dew_core_wet o;
        struct end e;

        m.w = dew_air_w(21.3, rh[i / 9 % 3], m.p);
        e = sliced(&m, &eps);
        dew_plant_core_wet(&m, &o);
        assert_near(o.sensible, eps, row->eps);
        assert_near(o.water, m.w - e.w4, row->water * (m.w - e.w4) + 2e-6);
    }
}

/* ---- the equations themselves -------------------------------------------- */

/* A core whose air condenses from its dew point d on, d - t_out being g (1 +
   (exp(n k) - 1) / k); g is the gap there, n the units left. */
struct part {
    const struct dew_core_meeting *m;
    double d, v, k;
};

static double units_left(const struct part *x, double g)
{
    double a = x->m->t_in - x->d, other = g - (x->v - 1.0) * a, mean;

    if (!(other > 0.0))
        return 0.0;
    mean = fabs(other / g - 1.0) < 1e-6 ? g : (other - g) / log(other / g);
    return fmax(x->m->ntu - x->v * a / mean, 0.0);
}

static double gap_at_dew(const struct part *x)
{
    double low = fmax((x->v - 1.0) * (x->m->t_in - x->d), 0.0),
           high = x->d - x->m->t_out;

    for (int i = 0; i < 60; i++) {
        double g = 0.5 * (low + high), n = units_left(x, g);

        if (g * (1.0 + expm1(n * x->k) / x->k) < x->d - x->m->t_out)
            low = g;
        else
            high = g;
    }
    return low;
}

/* Exhaust out, by its capacity along the saturation curve: the gap by halving,
   k in small turns, and many. */
static double exhaust_by_halving(const struct dew_core_meeting *m)
{
    struct part x = {.m = m,
                     .d = dew_air_dew(m->w, m->p),
                     .v = m->ratio * (1.0 + 1860.0 * m->w / 1006.0),
                     .k = 0.3};
    double h = dew_air_h(x.d, m->w), t = x.d;

    for (int i = 0; i < 150; i++) {
        double g = gap_at_dew(&x), w, r;

        t = m->t_out + g * exp(units_left(&x, g) * x.k);
        t = fmin(t, x.d - 0.01);
        w = dew_air_w_sat(t, m->p);
        r = m->ratio * (h - dew_air_h(t, w) - (m->w - w) * 4186.0 * t) /
            (1006.0 * (x.d - t));
        x.k += 0.1 * (1.0 - 1.0 / r - x.k);
    }
    return t;
}

/* The six turns have come to the equations' root, to 0.02 K; the mean gap of
   the dry part by two parts to one is the logarithmic to 0.1 %. */
TEST(six_turns_are_enough_to_five_units)
{
    static const double units[] = {0.7, 2.3, 4.9}, ratio[] = {0.55, 1.0, 1.83},
                        out[] = {-31.0, -11.3, 3.7}, rh[] = {0.33, 0.57, 0.74};
    int wets = 0;

    for (int i = 0; i < 81; i++) {
        struct dew_core_meeting m = {.ntu = units[i % 3],
                                     .ratio = ratio[i / 3 % 3],
                                     .t_out = out[i / 9 % 3],
                                     .t_in = 22.3,
                                     .p = 98400.0};
        struct dew_core_wet o;

        m.w = dew_air_w(m.t_in, rh[i / 27], m.p);
        dew_plant_core_wet(&m, &o);
        if (!(o.water > 1e-5))
            continue;
        wets++;
        assert_near(o.t_exhaust, exhaust_by_halving(&m), 0.02);
    }
    assert_true(wets > 60);
}

/* Closed form of counterflow where nothing condenses, [ASH-F4] T10.2. */
TEST(dry_flows_are_counterflow)
{
    static const double ratio[] = {0.61, 0.97, 1.0, 1.33, 1.9};

    for (int i = 0; i < 5; i++) {
        struct dew_core_meeting m = {2.7, ratio[i], -3.1, 20.7, 0.0, 97300.0};
        double least = fmin(ratio[i], 1.0);
        double c = fmin(ratio[i], 1.0 / ratio[i]);
        struct dew_core_wet o;

        dew_plant_core_wet(&m, &o);
        assert_near(
            o.sensible,
            least * dew_plant_effectiveness(DEW_COUNTERFLOW, 2.7 / least, c),
            1e-9);
        assert_near(o.dry, o.sensible, 0.0);
    }
}

TEST(heat_and_water_close)
{
    double p = 98400.0, w = dew_air_w(21.3, 0.47, p), t4;
    struct dew_core_meeting m = {4.7, 1.17, -13.9, 21.3, w, p};
    struct dew_core_wet o;

    /* [ASH-F1] eq. 43: what the exhaust gives the supply takes */
    dew_plant_core_wet(&m, &o);
    t4 = o.t_exhaust;
    assert_near(w - o.water, dew_air_w_sat(t4, p), 1e-9);
    assert_near(1006.0 * o.sensible * (21.3 + 13.9),
                1.17 * (dew_air_h(21.3, w) - dew_air_h(t4, w - o.water) -
                        o.water * 4186.0 * t4),
                1.0);
    assert_true(o.sensible > o.dry + 0.01);
}

TEST(dry_air_is_the_dry_core)
{
    struct dew_core_wet o = wet(3.7, -8.3, 21.3, 0.0, 98400.0);

    assert_near(o.sensible, 3.7 / 4.7, 1e-12);
    assert_near(o.water, 0.0, 0.0);
}

TEST(begins_without_a_jump)
{
    double before = NAN;

    for (double rh = 0.20; rh < 0.62; rh += 0.002) {
        struct dew_core_wet o =
            wet(3.1, -4.3, 21.3, dew_air_w(21.3, rh, 98400.0), 98400.0);

        if (!isnan(before))
            assert_true(fabs(o.sensible - before) < 0.002);
        before = o.sensible;
    }
}

TEST(outside_gives_nan)
{
    assert_nan(wet(3.1, 23.0, 21.3, 0.006, 98400.0).sensible);
}

ROWS(rows, published_band);
ROWS(flow_rows, agrees_with_slices);
RUN_TESTS("plant, condensing core");
