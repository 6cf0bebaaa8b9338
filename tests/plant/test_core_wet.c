/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condensing in a core, against slices. */
#include "support/drawn.h"
#include "support/rows.h"

#include "core/range.h"
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

/* One over the logarithmic mean of two gaps. */
static double per_mean(double a, double b)
{
    return fabs(a / b - 1.0) < 1e-6 ? 2.0 / (a + b) : log(a / b) / (a - b);
}

/* A core seen from its cold end up. */
struct seen {
    double units, t_supply; /* NaN units: the airs cross                     */
};

/*
 * Exhaust air that leaves at t4, its wet part cut into so many, each of
 * constant capacity: one is what core_step.h solves, many are the differential
 * equations.  The water drains at the lower temperature of its cut; d is the
 * dew point.
 */
static struct seen seen_from(const struct dew_core_meeting *m, double d,
                             double t4, int cuts)
{
    double t = t4, w = fmin(dew_air_w_sat(t4, m->p), m->w), gap = t4 - m->t_out;
    double rise = m->ratio * (1.0 + 1860.0 * m->w / 1006.0) * (m->t_in - d);
    struct seen s = {0.0, m->t_out};

    for (int i = 1; i <= cuts; i++) {
        double up = t4 + (d - t4) * i / cuts, next, q;
        double w_up = i < cuts ? dew_air_w_sat(up, m->p) : m->w;

        q = m->ratio / 1006.0 *
            (dew_air_h(up, w_up) - dew_air_h(t, w) - (w_up - w) * 4186.0 * t);
        s.t_supply += q;
        next = up - s.t_supply;
        s.units += next > 0.0 ? q * per_mean(gap, next) : NAN;
        gap = next;
        t = up;
        w = w_up;
    }
    s.t_supply += rise;
    s.units += m->t_in - s.t_supply > 0.0
                   ? rise * per_mean(gap, m->t_in - s.t_supply)
                   : NAN;
    return s;
}

/* Where it leaves a core of m's units, by halving. */
static double leaves(const struct dew_core_meeting *m, double d, int cuts)
{
    double low = m->t_out, high = d;

    for (int i = 0; i < 40; i++) {
        double t4 = 0.5 * (low + high);

        if (seen_from(m, d, t4, cuts).units <= m->ntu)
            high = t4;
        else
            low = t4; /* or NaN */
    }
    return high;
}

/* A core of 0.3 .. 0.98 on the lesser flow, or of up to 50 units. */
static struct dew_core_meeting drawn_meeting(uint64_t *seed)
{
    double ratio = 0.3 * pow(10.0, drawn_share(seed)), eps, least;
    struct dew_core_meeting m;

    if (drawn_share(seed) < 0.15)
        ratio = 1.0;
    least = fmin(ratio, 1.0);
    eps = 0.3 + 0.68 * drawn_share(seed);
    m = (struct dew_core_meeting){
        .ntu = dew_plant_ntu(DEW_COUNTERFLOW, eps, fmin(ratio, 1.0 / ratio)) *
               least,
        .ratio = ratio,
        .t_in = 15.0 + 15.0 * drawn_share(seed),
        .p = 70e3 + 35e3 * drawn_share(seed)};
    if (drawn_share(seed) < 0.1)
        m.ntu = 50.0 * drawn_share(seed);
    m.t_out = fmin(-40.0 + 65.0 * drawn_share(seed), m.t_in - 0.01);
    m.w = dew_air_w(m.t_in, fmin(0.2 + 0.8 * drawn_share(seed), 1.0), m.p);
    return m;
}

/* Regression: what of the root the steps leave, K. */
static double leave(const struct dew_core_meeting *m)
{
    int alike = core__within(m->ratio, 0.75, 1.33);

    return alike && m->ntu < 6.0                             ? 1e-4
           : m->ntu < 10.0 && core__within(m->ratio, 0.5, 2) ? 1e-3
                                                             : 0.01;
}

TEST(steps_end_at_the_root_of_the_equations)
{
    uint64_t seed = 7;
    int wets = 0, great = 0;

    for (int i = 0; i < 30000; i++) {
        struct dew_core_meeting m = drawn_meeting(&seed);
        struct dew_core_wet o;

        dew_plant_core_wet(&m, &o);
        if (!(o.water > 0.0)) {
            assert_near(o.sensible, o.dry, 0.0);
            continue;
        }
        wets++;
        great += m.ntu > 13.0;
        assert_near(o.t_exhaust, leaves(&m, dew_air_dew(m.w, m.p), 1),
                    leave(&m));
    }
    assert_true(wets > 15000 && great > 2000);
}

/* One if it wets at all. */
static int at_root(const struct dew_core_meeting *m, double within)
{
    double d = dew_air_dew(m->w, m->p);
    struct dew_core_wet o;

    dew_plant_core_wet(m, &o);
    if (!(o.t_exhaust < d))
        return 0;
    assert_near(o.t_exhaust, leaves(m, d, 1), within);
    return 1;
}

/* Flows of the same capacity, or nearly; more units than any core has. */
TEST(even_flows_and_many_units)
{
    struct dew_core_meeting m = {3.7, 1.0, -11.3, 21.7, 0.0, 98400.0};
    int wets = 0;

    m.w = dew_air_w(m.t_in, 0.47, m.p);
    for (int i = -10; i <= 10; i++) {
        m.ratio = (1.0 + 3e-7 * i) / (1.0 + 1860.0 * m.w / 1006.0);
        wets += at_root(&m, 1e-4);
    }
    assert_int_equal(wets, 21);
    for (m.ntu = 51.0; m.ntu <= 200.0; m.ntu += 7.0)
        for (m.ratio = 0.31; m.ratio < 3.0; m.ratio *= 1.07)
            wets += at_root(&m, 0.01);
    assert_true(wets > 600);
}

/* House air that is saturated, airs alike to a hundredth, and little water. */
TEST(edges_are_at_the_root)
{
    int wets = 0;

    for (double ntu = 0.7; ntu < 60.0; ntu *= 1.9)
        for (double ratio = 0.31; ratio < 3.0; ratio *= 1.3)
            for (double t_out = -38.7; t_out < 22.0; t_out += 9.7) {
                struct dew_core_meeting m = {ntu,  ratio, t_out,
                                             21.3, 0.0,   84300.0};

                m.w = dew_air_w(m.t_in, 1.0, m.p);
                wets += at_root(&m, 0.01);
                m.t_out = m.t_in - 0.01;
                wets += at_root(&m, 1e-5);
                m.t_out = -59.3;
                m.w = dew_air_w_sat(-55.0, m.p);
                wets += at_root(&m, 0.01);
            }
    assert_true(wets > 900);
}

/* The farthest from the root of a million drawn. */
TEST(steps_are_held_by_the_pinch)
{
    static const struct dew_core_meeting m[] = {
        {84.728, 0.416, -35.09, 27.81, 0.04278, 58108.0},
        {41.935, 0.422, -32.56, 29.54, 0.03891, 70237.0},
        {14.237, 1.000, -39.76, 20.32, 0.02078, 70055.0},
    };

    for (int i = 0; i < 3; i++)
        assert_true(at_root(&m[i], m[i].ntu > 50.0 ? 0.03 : 0.01));
}

/* Dew on the last hundredth of a kelvin, and less. */
TEST(what_is_barely_wet_is_nearly_dry)
{
    for (double ratio = 0.5; ratio < 2.0; ratio *= 1.21)
        for (double by = 1e-2; by > 1e-9; by *= 0.13) {
            struct dew_core_meeting m = {3.3, ratio, -7.9, 21.3, 0.0, 98400.0};
            struct dew_core_wet o = {NAN, NAN, m.t_out, NAN};

            for (int i = 0; i < 60; i++) {
                double v = ratio * (1.0 + 1860.0 * m.w / 1006.0);

                dew_plant_core_wet(&m, &o);
                m.w = dew_air_w_sat(
                    m.t_in - o.dry * (m.t_in - m.t_out) / v + by, m.p);
            }
            assert_true(at_root(&m, 1e-6));
            dew_plant_core_wet(&m, &o);
            assert_true(o.sensible - o.dry > -1e-12 &&
                        o.sensible - o.dry < 0.1 * by);
            assert_true(o.water >= 0.0 && o.water < 1e-3 * by);
        }
}

/* The differential equations of counterflow [ASH-F4], as 100 cuts, along both
   airs: core.h's accuracy.  Tolerances of effectiveness and of water are
   regressions: of one capacity for the whole wet part. */
static const struct flows whole_rows[] = {
    {"cuts, exhaust half of supply", 0.5, 0.046, 0.033},
    {"cuts, exhaust 0.7 of supply", 0.7, 0.036, 0.025},
    {"cuts, equal flows", 1.0, 0.014, 0.018},
    {"cuts, exhaust 1.4 of supply", 1.4, 0.006, 0.012},
    {"cuts, exhaust twice the supply", 2.0, 0.003, 0.008},
};

static void agrees_with_cuts(void **state)
{
    static const double units[] = {1.3, 3.1, 7.3, 17.0, 49.0},
                        out[] = {-39.7, -17.9, 1.3}, rh[] = {0.27, 0.53, 0.93},
                        in[] = {17.7, 27.3}, p[] = {101325, 73100};
    const struct flows *row = *state;

    for (int i = 0; i < 5 * 3 * 3 * 2 * 2; i++) {
        struct dew_core_meeting m = {.ntu = units[i % 5],
                                     .ratio = row->ratio,
                                     .t_out = out[i / 5 % 3],
                                     .t_in = in[i / 45 % 2],
                                     .p = p[i / 90]};
        double d, t4, drained;
        struct dew_core_wet o;

        m.w = dew_air_w(m.t_in, rh[i / 15 % 3], m.p);
        d = dew_air_dew(m.w, m.p);
        dew_plant_core_wet(&m, &o);
        if (!(o.t_exhaust < d))
            continue;
        t4 = leaves(&m, d, 100);
        drained = m.w - dew_air_w_sat(t4, m.p);
        assert_near(o.sensible,
                    (seen_from(&m, d, t4, 100).t_supply - m.t_out) /
                        (m.t_in - m.t_out),
                    row->eps);
        assert_near(o.water, drained, row->water * drained + 2e-6);
    }
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
ROWS(whole_rows, agrees_with_cuts);
RUN_TESTS("plant, condensing core");
