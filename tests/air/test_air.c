/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moist air against published numbers; each row names the page it is from. */
#include "support/rows.h"

#include "air/air_step.h"

/* clang-format off */
static const struct near_row { const char *source; double x, want, tol; }
pws_ice_rows[] = {
    /* one unit of the last digit: the Handbook rounds the coefficients */
    {"pws ice 173.15 K, [HW83] appendix",     -100.0, 1.40510e-3,  1e-8},
    {"pws ice 273.15 K, [HW83] appendix",        0.0, 611.153,     1e-3},
},
pws_liquid_rows[] = {
    {"pws liquid 273.15 K, [HW83] appendix",     0.0, 611.213,     1e-3},
},
pws_rows[] = {
    /* [ASH-F1] table 3 is of IAPWS-95: 300 ppm, or half the last digit */
    {"pws -60 degC, [ASH-F1] table 3",         -60.0, 1.08,        5e-3},
    {"pws -20 degC, [ASH-F1] table 3",         -20.0, 103.24,      103.24 * 3e-4},
    {"pws -5 degC, [ASH-F1] table 3",           -5.0, 401.74,      401.74 * 3e-4},
    {"pws 5 degC, [ASH-F1] table 3",             5.0, 872.6,       872.6 * 3e-4},
    {"pws 25 degC, [ASH-F1] table 3",           25.0, 3169.7,      3169.7 * 3e-4},
    {"pws 50 degC, [ASH-F1] table 3",           50.0, 12351.3,     12351.3 * 3e-4},
    {"pws at the triple point, [IAPWS-R14]",    0.01, 611.657,     611.657 * 1e-5},
    {"pws just below the triple point",  0.01 - 1e-9, 611.657,     611.657 * 1e-5},
},
std_p_rows[] = {
    {"standard pressure -500 m, [ASH-F1] table 1",  -500, 107478, 1.0},
    {"standard pressure 0 m, [ASH-F1] table 1",        0, 101325, 1.0},
    {"standard pressure 500 m, [ASH-F1] table 1",    500,  95461, 1.0},
    {"standard pressure 1000 m, [ASH-F1] table 1",  1000,  89875, 1.0},
    {"standard pressure 4000 m, [ASH-F1] table 1",  4000,  61640, 1.0},
    {"standard pressure 10000 m, [ASH-F1] table 1",10000,  26436, 1.0},
},
supercooled_rows[] = {
    /* supercooled water, [MK05] eq. 10, from memory: the gap stated in air.h */
    {"liquid branch -5 degC by [MK05]",   -5.0,  0, 1.5e-3},
    {"liquid branch -20 degC by [MK05]", -20.0,  0, 1.5e-3},
    {"liquid branch -30 degC by [MK05]", -30.0,  0, 3.5e-3},
    {"liquid branch -40 degC by [MK05]", -40.0,  0, 1e-2},
};

/*
 * Saturated air at 101325 Pa as a real gas; ours must stand below it by just
 * the enhancement factor: w_bias a share of w, h_bias in J/kg.
 */
static const struct saturated { const char *source; double t, w, w_last, w_bias, h, h_bias; }
saturated_rows[] = {
    {"saturated air -50 degC, [ASH-F1] table 2", -50, 0.0000243, 5e-8, -0.0060,  -50222,     -20},
    {"saturated air -20 degC, [ASH-F1] table 2", -20, 0.0006373, 5e-8, -0.0045,  -18542,     -15},
    {"saturated air -5 degC, [ASH-F1] table 2",   -5, 0.0024863, 5e-8, -0.0043,    1164,     -25},
    {"saturated air 5 degC, [ASH-F1] table 2",     5, 0.005425,  5e-7, -0.0043,   18639,     -50},
    {"saturated air 25 degC, [ASH-F1] table 2",   25, 0.020173,  5e-7, -0.0047,   76504,    -197},
    {"saturated air 50 degC, [ASH-F1] table 2",   50, 0.086863,  5e-7, -0.0063,  275353,   -1122},
};

/*
 * [PTP96] table 20, real gas at 101325 Pa; t, tw, td, g/kg, %, m3/kg, kJ/kg.
 * Ours must stand below it by just what the perfect gas leaves out, worked
 * apart from this program: h_bias, kJ/kg, from IAPWS humid air [IAPWS-G8] and
 * the steam tables' h_g and h_f; td_bias, K, by the perfect gas' formulas
 * against the table (humid air gives the same within 0.05 K but for the two
 * driest, which hang on the last digit of w).
 */
static const struct ptp { const char *source; double t, tw, td, w, rh, v, h, h_bias, td_bias; int dry; }
ptp_rows[] = {
    {"t 5, tw 5, [PTP96] table 20",     5,  5,   5.00,  5.42, 100,  0.794, 18.64, -0.050,  0.00, 0},
    {"t 5, tw 2, [PTP96] table 20",     5,  2,  -2.16,  3.16, 58.6, 0.792, 12.97, -0.045, -0.02, 0},
    {"t 5, tw -1, [PTP96] table 20",    5, -1, -11.92,  1.35, 25.1, 0.789,  8.42, -0.045, -0.09, 0},
    {"t 5, tw -3, [PTP96] table 20",    5, -3, -37.23,  0.11,  2.0, 0.788,  5.30, -0.043, -1.37, 1},
    {"t 25, tw 25, [PTP96] table 20",  25, 25,  25.00, 20.17, 100,  0.872, 76.50, -0.203,  0.00, 0},
    {"t 25, tw 20, [PTP96] table 20",  25, 20,  17.60, 12.66, 63.5, 0.862, 57.38, -0.143, -0.01, 0},
    {"t 25, tw 15, [PTP96] table 20",  25, 15,   7.73,  6.56, 33.2, 0.853, 41.85, -0.100, -0.03, 0},
    {"t 25, tw 10, [PTP96] table 20",  25, 10, -10.42,  1.55,  7.9, 0.846, 29.09, -0.070, -0.13, 0},
    {"t 50, tw 25, [PTP96] table 20",  50, 25,  13.47,  9.67, 12.5, 0.930, 75.40, -0.200, -0.04, 0},
    {"t 50, tw 22, [PTP96] table 20",  50, 22,   4.16,  5.11,  6.7, 0.923, 63.58, -0.168, -0.08, 0},
    {"t 50, tw 20, [PTP96] table 20",  50, 20,  -5.48,  2.39,  3.1, 0.919, 56.51, -0.140, -0.15, 0},
    {"t 50, tw 19, [PTP96] table 20",  50, 19, -14.12,  1.11,  1.5, 0.917, 53.20, -0.135, -0.31, 1},
};

/* [PTP96] table 13: h_s - w_s x 4.186 t, kJ/kg, one value a wet bulb; real gas. */
static const struct near_row sigma_rows[] = {
    {"sigma 2 degC, [PTP96] table 13",   2,  12.94, 0.06}, {"sigma 6 degC, [PTP96] table 13",   6,  20.50, 0.08},
    {"sigma 10 degC, [PTP96] table 13", 10,  29.03, 0.10}, {"sigma 14 degC, [PTP96] table 13", 14,  38.78, 0.12},
    {"sigma 18 degC, [PTP96] table 13", 18,  50.03, 0.15}, {"sigma 22 degC, [PTP96] table 13", 22,  63.11, 0.19},
    {"sigma 26 degC, [PTP96] table 13", 26,  78.46, 0.25}, {"sigma 30 degC, [PTP96] table 13", 30,  96.57, 0.32},
    {"sigma 34 degC, [PTP96] table 13", 34, 118.07, 0.42}, {"sigma 38 degC, [PTP96] table 13", 38, 143.74, 0.55},
    {"sigma 42 degC, [PTP96] table 13", 42, 174.58, 0.72}, {"sigma 48 degC, [PTP96] table 13", 48, 233.36, 1.10},
};

static const struct point { const char *source; double t, rh, p; }
state_rows[] = {
    {"round trips: warm and wet",     27.3, 0.71,  98400.0},
    {"round trips: dry",              41.7, 0.043, 101830.0},
    {"round trips: frost",           -17.9, 0.83, 102300.0},
    {"round trips: deep frost",      -58.3, 0.37,  84100.0},
    {"round trips: high ground",       8.6, 0.39,  71800.0},
    {"round trips: near freezing",     0.7, 0.97,  99200.0},
    {"round trips: hot and thin",     77.7, 0.61,  53700.0},
    {"round trips: just saturated",   19.1, 1.0,  101325.0},
},
outside_rows[] = {
    {"outside: t below -100",    -100.1, 0.5, 101325.0},
    {"outside: t above 90",        90.1, 0.5, 101325.0},
    {"outside: rh above 1",        20.0, 1.0001, 101325.0},
    {"outside: rh below 0",        20.0, -1e-9, 101325.0},
    {"outside: p below 50 kPa",    20.0, 0.5,  49999.0},
    {"outside: p above 110 kPa",   20.0, 0.5, 110001.0},
    {"outside: t is NaN",           NAN, 0.5, 101325.0},
    {"outside: rh is NaN",         20.0, NAN, 101325.0},
    {"outside: p is NaN",          20.0, 0.5, NAN},
    {"outside: boiling",           85.0, 1.0, 55000.0},
};
/* clang-format on */

static const double sea_level = 101325.0;

static void air_pws_ice_matches(void **state)
{
    const struct near_row *row = *state;

    assert_near(dew_air_pws_ice(row->x), row->want, row->tol);
}

static void air_pws_liquid_matches(void **state)
{
    const struct near_row *row = *state;

    assert_near(dew_air_pws_liquid(row->x), row->want, row->tol);
}

static void air_pws_matches_source(void **state)
{
    const struct near_row *row = *state;

    assert_near(dew_air_pws(row->x), row->want, row->tol);
}

static void air_std_pressure_matches(void **state)
{
    const struct near_row *row = *state;

    assert_near(dew_air_std_pressure(row->x), row->want, row->tol);
}

/* [MK05] eq. 10, Pa of T, 123 .. 332 K; from memory. */
static double supercooled(double T)
{
    double bulk = 54.842763 - 6763.22 / T - 4.210 * log(T) + 0.000367 * T;
    double cold = 53.878 - 1331.22 / T - 9.44523 * log(T) + 0.014025 * T;

    return exp(bulk + tanh(0.0415 * (T - 218.8)) * cold);
}

static void air_liquid_branch_goes_on_below_zero(void **state)
{
    const struct near_row *row = *state;
    double want = supercooled(row->x + 273.15);

    assert_near(dew_air_pws_liquid(row->x), want, row->tol * want);
}

/* Our bias has a sign and a size: both are held, to 0.05 % of w. */
static void air_saturated_stands_below_real_gas(void **state)
{
    const struct saturated *row = *state;
    double w = dew_air_w_sat(row->t, sea_level), h = dew_air_h(row->t, w);

    assert_true(w < row->w);
    assert_true(h < row->h);
    assert_near(w, row->w * (1.0 + row->w_bias), 5e-4 * row->w + row->w_last);
    assert_near(h, row->h + row->h_bias, 2.0);
}

TEST(air_dry_air_matches_handbook)
{
    /* [ASH-F1] table 2, dry air at 25 degC: 25.148 kJ/kg, 0.8443 m3/kg */
    assert_near(dew_air_h(25.0, 0.0), 25148.0, 3.0);
    /* perfect gas: 0.036 % above real, [ASH-F1] table 2 */
    assert_near(dew_air_v(25.0, 0.0, sea_level), 0.8443, 4e-4);
}

static void air_wet_bulb_table_holds(void **state)
{
    const struct ptp *row = *state;
    double w = dew_air_w_wet(row->t, row->tw, sea_level);

    assert_near(1e3 * w, row->w, 0.005 * row->w + 0.04);
    assert_true(1e-3 * dew_air_h(row->t, w) < row->h);
    assert_near(1e-3 * dew_air_h(row->t, w), row->h + row->h_bias, 0.03);
    assert_near(dew_air_v(row->t, w, sea_level), row->v, 1.5e-3 * row->v);
    assert_near(dew_air_dew(w, sea_level), row->td + row->td_bias, 0.02);
    if (!row->dry)
        assert_near(100 * dew_air_rh(row->t, w, sea_level), row->rh,
                    0.05 + 0.0075 * row->rh);
    assert_near(dew_air_wet(row->t, w, sea_level), row->tw, 1e-8);
}

static void air_sigma_is_kept_along_a_wet_bulb_line(void **state)
{
    const struct near_row *row = *state;
    double tw = row->x, ws = dew_air_w_sat(tw, sea_level);
    double ours = dew_air_h(tw, ws) - ws * 4186.0 * tw;

    assert_near(1e-3 * ours, row->want, row->tol);
    assert_true(1e-3 * ours < row->want); /* no enhancement factor */
    for (double t = tw + 1.3; t < tw + 20; t += 3.7) {
        double w = dew_air_w_wet(t, tw, sea_level);

        if (w >= 0.0)
            assert_near(dew_air_h(t, w) - w * 4186.0 * tw, ours, 1e-9 * ours);
    }
}

static void air_every_function_has_its_way_back(void **state)
{
    const struct point *row = *state;
    double t = row->t, p = row->p, w = dew_air_w(t, row->rh, p);

    assert_near(dew_air_rh(t, w, p), row->rh, 1e-14);
    assert_near(dew_air_w_pv(dew_air_pv(w, p), p), w, 1e-14 * w);
    assert_near(dew_air_w_dew(dew_air_dew(w, p), p), w, 1e-9 * w);
    assert_near(dew_air_w_dew_liquid(dew_air_dew_liquid(w, p), p), w, 1e-9 * w);
    assert_near(dew_air_w_rh_liquid(t, 0.7 * row->rh, p),
                dew_air_w_pv(0.7 * row->rh * dew_air_pws_liquid(t), p),
                1e-14 * w);
    assert_near(dew_air_w_wet(t, dew_air_wet(t, w, p), p), w, 1e-9 * w);
    assert_near(dew_air_t_wet(dew_air_wet(t, w, p), w, p), t, 1e-7);
    assert_near(dew_air_w_h(t, dew_air_h(t, w)), w, 1e-12 * (w + 0.01));
    assert_near(dew_air_t(dew_air_h(t, w), w), t, 1e-11);
    assert_near(dew_air_mu(t, dew_air_w_sat(t, p), p), 1.0, 1e-14);
    assert_near(dew_air_t_rh(row->rh, w, p), t, 1e-8);
}

static void air_is_nan_outside(void **state)
{
    const struct point *row = *state;

    assert_nan(dew_air_w(row->t, row->rh, row->p));
}

TEST(air_refuses_what_no_air_can_be)
{
    assert_nan(dew_air_pws(-100.01));
    assert_nan(dew_air_pws_ice(0.02));
    assert_nan(dew_air_pws_liquid(90.01));
    assert_nan(dew_air_t_pws(1e-3));  /* below saturation at -100 degC */
    assert_nan(dew_air_t_pws(71000)); /* above that at 90 */
    assert_nan(dew_air_t_pws(0.0));
    assert_nan(dew_air_w_pv(sea_level, sea_level));
    assert_nan(dew_air_w_frost(1.0, sea_level));
    assert_nan(dew_air_dew(0.0, sea_level)); /* dry air has no dew point */
    assert_nan(dew_air_rh(20.0, -1e-6, sea_level));
    assert_nan(dew_air_w_wet(20.0, 20.1, sea_level));
    assert_nan(dew_air_w_wet(40.0, 5.0, sea_level));  /* w below 0 */
    assert_nan(dew_air_wet(20.0, 0.0148, sea_level)); /* above saturation */
    assert_nan(dew_air_w_h(20.0, 20000.0));
    assert_nan(dew_air_t(120e3, 0.0));
    assert_nan(dew_air_std_pressure(11001.0));
    assert_nan(dew_air_mu(20.0, -1.0, sea_level));
    assert_nan(dew_air_cp(-1e-9));
    assert_nan(dew_air_density_run(49e3));
}

/* Over the whole range: back to 1e-9, and one way up. */
TEST(air_inverts_over_the_grid)
{
    double before = 0.0;

    for (double t = -99.7; t < 90; t += 1.37) {
        double pws = dew_air_pws(t);

        assert_true(pws > before);
        before = pws;
        assert_near(dew_air_t_pws(pws), t, 1e-9 * (fabs(t) + 1));
        assert_near(dew_air_t_pws_liquid(dew_air_pws_liquid(t)), t,
                    1e-9 * (fabs(t) + 1));
        if (t < 0)
            assert_near(dew_air_t_pws_ice(pws), t, 1e-9 * (fabs(t) + 1));
    }
}

static void wet_bulb_inverts_at(double t, double rh, double p)
{
    double w = dew_air_w(t, rh, p), tw = dew_air_wet(t, w, p);

    if (isnan(w) || t < -90) /* boiling; wet bulb below -100 */
        return;
    assert_true(tw <= t);
    assert_near(dew_air_w_wet(t, tw, p), w, 1e-9 * w + 1e-14);
}

TEST(air_wet_bulb_inverts_over_the_grid)
{
    for (double p = 50e3; p <= 110e3; p += 7311)
        for (double t = -99.1; t <= 90; t += 2.93)
            for (double rh = 0.0; rh <= 1.0; rh += 0.0771)
                wet_bulb_inverts_at(t, rh, p);
}

TEST(air_takes_the_wet_wick_near_freezing)
{
    double w = dew_air_w_wet(5.0, -0.2, sea_level), tw;

    tw = dew_air_wet(5.0, w, sea_level);
    assert_true(tw >= 0.0);
    assert_near(dew_air_w_wet(5.0, tw, sea_level), w, 1e-9 * w);
}

TEST(air_weather_dew_point_is_over_liquid)
{
    /* at -20 degC about 21 % of the vapour pressure lies between, [WMO-8] */
    double p = 98700.0, w = dew_air_w_dew_liquid(-20.0, p);

    assert_near(dew_air_pv(w, p) / dew_air_pws(-20.0), 1.21, 0.01);
    assert_near(dew_air_dew_liquid(w, p), -20.0, 1e-8);
    assert_near(dew_air_w_frost(dew_air_dew(w, p), p), w, 1e-9 * w);
    assert_true(dew_air_dew(w, p) > -18.0);
    /* above freezing the two are one */
    w = dew_air_w_dew_liquid(7.3, p);
    assert_near(dew_air_dew(w, p), dew_air_dew_liquid(w, p), 1e-9);
    assert_near(dew_air_rh(11.3, w, p), dew_air_rh_liquid(11.3, w, p), 1e-15);
}

TEST(air_density_of_a_run_is_dry_air_at_20)
{
    /* 101325 / (287.042 x 293.15) by hand */
    assert_near(dew_air_density_run(sea_level), 1.204152, 5e-7);
    assert_near(dew_air_density(20.0, 0.0, sea_level), 1.204152, 5e-7);
    assert_near(dew_air_cp(0.0091), 1006.0 + 1860.0 * 0.0091, 1e-12);
}

/* What the march has inline beside what the rows above hold. */
TEST(air_is_the_same_inline)
{
    const double t = 27.3, w = 0.0117, p = 98400.0, d = 1e-3;
    double rise = dew_air_w_sat(t + d, p) - dew_air_w_sat(t - d, p);
    double vapour = dew_air_h(t, 1.0) - dew_air_h(t, 0.0);

    assert_near(air__rh(t, w, p), dew_air_rh(t, w, p), 1e-9);
    assert_near(air__w_sat(t, p), dew_air_w_sat(t, p), 1e-10);
    assert_near(air__per_w(w, p) * w, dew_air_pv(w, p), 1e-9);
    assert_near(air__w_slope(air__poly_pws(t), p), 0.5 * rise / d, 1e-9);
    assert_near(air__moist(w), dew_air_cp(w) / dew_air_cp(0.0), 1e-12);
    assert_near(air__latent(t), vapour - 4186.0 * t, 1e-6);
}

ROWS(pws_ice_rows, air_pws_ice_matches);
ROWS(pws_liquid_rows, air_pws_liquid_matches);
ROWS(pws_rows, air_pws_matches_source);
ROWS(std_p_rows, air_std_pressure_matches);
ROWS(supercooled_rows, air_liquid_branch_goes_on_below_zero);
ROWS(saturated_rows, air_saturated_stands_below_real_gas);
ROWS(ptp_rows, air_wet_bulb_table_holds);
ROWS(sigma_rows, air_sigma_is_kept_along_a_wet_bulb_line);
ROWS(state_rows, air_every_function_has_its_way_back);
ROWS(outside_rows, air_is_nan_outside);
RUN_TESTS("air");
