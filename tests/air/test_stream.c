/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Streams: mixing, the coil line; whole states from any two. */
#include "support/rows.h"

#include <string.h>

#include "dew/air.h"

static const double sea_level = 101325.0;

static struct dew_stream stream(double t, double w, double flow)
{
    return (struct dew_stream){t, w, sea_level, flow};
}

/* The stream of a volume flow, m3/s, at its own state. */
static struct dew_stream of_volume(double t, double w, double volume)
{
    return stream(t, w, volume / dew_air_v(t, w, sea_level));
}

/* ---- the worked examples of [ASH-F1] --------------------------------------- */

TEST(example_1_state_of_air)
{
    double w = dew_air_w_wet(40.0, 20.0, sea_level);

    /* read off a chart: half of its last digit, the dew point to 0.5 K */
    assert_near(w, 0.0065, 1.5e-4);
    assert_near(1e-3 * dew_air_h(40.0, w), 56.7, 0.05);
    assert_near(dew_air_dew(w, sea_level), 7.0, 0.5);
    assert_near(100 * dew_air_rh(40.0, w, sea_level), 14.0, 0.5);
    assert_near(dew_air_v(40.0, w, sea_level), 0.896, 5e-4);
}

TEST(example_4_mixing)
{
    struct dew_stream a =
        of_volume(4.0, dew_air_w_wet(4.0, 2.0, sea_level), 2.0);
    struct dew_stream b =
        of_volume(25.0, dew_air_w(25.0, 0.5, sea_level), 6.25);
    double water = -1.0;
    struct dew_stream m = dew_air_mix(&a, &b, &water);

    /* 19.5 degC, wet bulb 14.6 degC off a chart; recomputed 19.63, 14.56 */
    assert_near(m.t, 19.63, 0.005);
    assert_near(dew_air_wet(m.t, m.w, sea_level), 14.56, 0.005);
    assert_near(1e3 * m.w, 8.248, 5e-4);
    assert_true(water == 0.0);
}

TEST(example_6_room)
{
    double w = dew_air_w_wet(25.0, 19.0, sea_level);
    double h = dew_air_h(25.0, w);
    /* 9 kW and 0.0015 kg/s of vapour at 2555.5 kJ/kg: the condition line */
    double slope = (9e3 + 0.0015 * 2555.5e3) / 0.0015;
    /* supply at 15 degC on that line: h - slope x w is kept */
    double supply_w =
        (h - slope * w - 1006.0 * 15.0) / (2501e3 + 1860.0 * 15.0 - slope);
    double flow = 0.0015 / (w - supply_w);

    /* recomputed: supply wet bulb 14.02 degC, 0.730 m3/s */
    assert_near(dew_air_wet(15.0, supply_w, sea_level), 14.02, 0.005);
    assert_near(flow * dew_air_v(15.0, supply_w, sea_level), 0.730, 5e-4);
}

/* ---- what owners ask -------------------------------------------------------- */

static double degc(double f)
{
    return (f - 32.0) / 1.8;
}

TEST(dew_points_of_a_damp_house)
{
    /* 80.5 degF, 62.3 % in; 81 degF, 63 % out: 66.4 and 67.2 degF, by hand */
    double in = dew_air_w(degc(80.5), 0.623, sea_level);
    double out = dew_air_w(degc(81.0), 0.63, sea_level);

    assert_near(dew_air_dew(in, sea_level), degc(66.4), 0.05 / 1.8);
    assert_near(dew_air_dew(out, sea_level), degc(67.2), 0.05 / 1.8);
    assert_true(out > in);
}

/* ---- fog -------------------------------------------------------------------- */

/* Enthalpy of fog's water, [ASH-F1] eq. 33 and 35. */
static double h_fog(double t)
{
    return t < 0.01 ? 2100.0 * t - 329e3 : 4186.0 * t;
}

/* clang-format off */
static const struct pairing { const char *source; double t1, rh1, m1, t2, rh2, m2; int fogs; }
pairing_rows[] = {
    {"mix: warm room and winter, clear",    21.3, 0.45, 0.7,  -3.1, 0.83, 0.2, 0},
    {"mix: bathroom and winter, fogged",    27.1, 0.97, 0.3, -12.7, 0.91, 0.5, 1},
    {"mix: two saturated, fogged",          31.7, 1.0,  0.9,   2.3, 1.0,  0.4, 1},
    {"mix: two frozen, fogged as ice",      -2.1, 1.0,  0.9, -33.9, 1.0,  0.7, 1},
    {"mix: one stream is nothing",          24.7, 0.61, 0.9,   3.3, 0.7,  0.0, 0},
};
/* clang-format on */

static void mixing_keeps_heat_and_water(void **state)
{
    const struct pairing *r = *state;
    struct dew_stream a =
        stream(r->t1, dew_air_w(r->t1, r->rh1, sea_level), r->m1);
    struct dew_stream b =
        stream(r->t2, dew_air_w(r->t2, r->rh2, sea_level), r->m2);
    double fog, back;
    struct dew_stream m = dew_air_mix(&a, &b, &fog);
    struct dew_stream n = dew_air_mix(&b, &a, &back);
    double in = a.flow * dew_air_h(a.t, a.w) + b.flow * dew_air_h(b.t, b.w);

    assert_near(m.flow, a.flow + b.flow, 1e-15);
    assert_near(m.flow * m.w + fog, a.flow * a.w + b.flow * b.w, 1e-15);
    assert_near(m.flow * dew_air_h(m.t, m.w) + fog * h_fog(m.t), in, 1e-5);
    assert_near(m.t, n.t, 1e-9);
    assert_near(fog, back, 1e-12);
    assert_true((fog > 0.0) == r->fogs);
    if (r->fogs)
        assert_near(dew_air_rh(m.t, m.w, sea_level), 1.0, 1e-9);
}

TEST(mixing_at_the_triple_point_stands_there)
{
    /* fog that is part ice, part drops: neither branch closes the heat */
    struct dew_stream a = stream(22.9, dew_air_w_sat(22.9, sea_level), 0.3);
    struct dew_stream b = stream(-20.7, dew_air_w_sat(-20.7, sea_level), 0.5);
    int stands = 0;

    for (b.flow = 0.3; b.flow < 1.2; b.flow += 0.0037) {
        double fog;
        struct dew_stream m = dew_air_mix(&a, &b, &fog);
        double in = a.flow * dew_air_h(a.t, a.w) + b.flow * dew_air_h(b.t, b.w);
        double air = m.flow * dew_air_h(m.t, m.w);

        assert_true(fog > 0.0);
        if (fabs(m.t - 0.01) > 1e-6)
            continue;
        stands++;
        assert_true(in >= air + fog * (2100.0 * m.t - 329e3) - 1e-3);
        assert_true(in <= air + fog * 4186.0 * m.t + 1e-3);
    }
    assert_true(stands > 3);
}

TEST(mixing_refuses)
{
    struct dew_stream a = stream(20.0, 0.007, 1.0), b = a, wet = a;

    b.p = 0.98 * sea_level;
    wet.w = 0.02;
    assert_nan(dew_air_mix(&a, &b, NULL).t);
    assert_nan(dew_air_mix(&a, &wet, NULL).t);
    a.flow = b.flow = 0.0;
    assert_nan(dew_air_mix(&a, &a, NULL).t);
    a.flow = -1.0;
    assert_nan(dew_air_mix(&a, &a, NULL).t);
    a.flow = INFINITY;
    assert_nan(dew_air_mix(&a, &a, NULL).t);
}

/* ---- coils ------------------------------------------------------------------ */

/* clang-format off */
static const struct coil { const char *source; double t, rh, adp, bypass; }
coil_rows[] = {
    {"coil and back: a house in July",   24.7, 0.55, 9.7, 0.17},
    {"coil and back: hot and damp",      29.3, 0.71, 12.9, 0.23},
    {"coil and back: low air flow",      25.1, 0.49, 4.1, 0.07},
    {"coil and back: nothing goes by",   26.3, 0.63, 11.3, 0.0},
};
/* clang-format on */

static void coil_line_leads_back_to_its_dew_point(void **state)
{
    const struct coil *r = *state;
    struct dew_stream in = stream(r->t, dew_air_w(r->t, r->rh, sea_level), 0.4);
    double w_adp = dew_air_w_sat(r->adp, sea_level);
    struct dew_stream out = stream(r->adp + r->bypass * (r->t - r->adp),
                                   w_adp + r->bypass * (in.w - w_adp), 0.4);

    assert_near(dew_air_adp(&in, &out), r->adp, 1e-6);
}

TEST(coil_line_can_miss)
{
    struct dew_stream in = stream(26.7, 0.0111, 1.0);
    struct dew_stream steep = stream(25.9, 0.0103, 1.0);
    struct dew_stream warm = stream(27.9, 0.0101, 1.0);
    struct dew_stream wet = stream(20.3, 0.0112, 1.0);
    struct dew_stream dry = stream(19.1, 0.0111, 1.0);

    assert_nan(dew_air_adp(&in, &steep));
    assert_nan(dew_air_adp(&in, &warm));
    assert_nan(dew_air_adp(&in, &wet));
    /* no water removed: the coil is as cold as the dew point, no colder */
    assert_near(dew_air_adp(&in, &dry), dew_air_dew(0.0111, sea_level), 1e-6);
}

TEST(coil_line_is_not_found_below_freezing)
{
    struct dew_stream in = stream(6.9, 0.0036, 1.0);
    struct dew_stream out = stream(1.1, 0.0034, 1.0);

    /* would meet saturation near -1.5 degC, where a coil ices */
    assert_nan(dew_air_adp(&in, &out));
}

/* ---- any two ---------------------------------------------------------------- */

static double member(const struct dew_air *a, enum dew_air_given g)
{
    const double all[] = {a->t, a->rh, a->w, a->dew, a->wet, a->h};

    return all[g];
}

static int refused(enum dew_air_given a, enum dew_air_given b)
{
    return a == b || (a == DEW_AIR_BY_W && b == DEW_AIR_BY_DEW) ||
           (a == DEW_AIR_BY_DEW && b == DEW_AIR_BY_W) ||
           (a == DEW_AIR_BY_WET && b == DEW_AIR_BY_H) ||
           (a == DEW_AIR_BY_H && b == DEW_AIR_BY_WET);
}

static void solve_back(const struct dew_air *a, enum dew_air_given i,
                       enum dew_air_given j)
{
    enum dew_air_given given[2] = {i, j};
    double value[2] = {member(a, i), member(a, j)};
    struct dew_air b = {0};
    enum dew_status status = dew_air_solve(given, value, a->p, &b, NULL);

    if (refused(i, j)) {
        assert_int_equal(status, DEW_EAMBIGUOUS);
        assert_true(b.p == 0.0);
        return;
    }
    assert_int_equal(status, DEW_OK);
    assert_near(b.t, a->t, 1e-6);
    assert_near(b.w, a->w, 1e-8 * a->w + 1e-11);
    assert_near(b.rh, a->rh, 1e-7);
    assert_near(b.wet, a->wet, 1e-6);
    assert_near(b.density, a->density, 1e-7);
}

/* clang-format off */
static const struct point { const char *source; double t, rh, p; }
point_rows[] = {
    {"any two: a room",             22.3, 0.47, 101325.0},
    {"any two: a swamp",            33.1, 0.89,  99870.0},
    {"any two: a desert",           43.7, 0.061, 88300.0},
    {"any two: a hard frost",      -23.9, 0.77, 102900.0},
    {"any two: on a mountain",       7.9, 0.58,  61700.0},
    {"any two: just saturated",     13.7, 1.0,  100700.0},
};
/* clang-format on */

static void any_two_give_the_rest(void **state)
{
    static const enum dew_air_given given[2] = {DEW_AIR_BY_T, DEW_AIR_BY_RH};
    const struct point *r = *state;
    double value[2] = {r->t, r->rh};
    struct dew_air a;

    assert_int_equal(dew_air_solve(given, value, r->p, &a, NULL), DEW_OK);
    for (int i = 0; i < DEW_AIR_GIVEN_COUNT; i++)
        for (int j = 0; j < DEW_AIR_GIVEN_COUNT; j++)
            solve_back(&a, (enum dew_air_given)i, (enum dew_air_given)j);
}

/* clang-format off */
static const struct fault { const char *source; enum dew_air_given given[2]; double value[2], p; enum dew_status status; const char *line; }
fault_rows[] = {
    {"fault: rh above 1", {DEW_AIR_BY_T, DEW_AIR_BY_RH}, {20.0, 1.2}, 101325.0, DEW_ERANGE, "rh: 1.2 is outside 0 .. 1"},
    {"fault: t below its range", {DEW_AIR_BY_W, DEW_AIR_BY_T}, {0.001, -101.0}, 101325.0, DEW_ERANGE, "t: -101 is outside -100 .. 90"},
    {"fault: t is NaN", {DEW_AIR_BY_T, DEW_AIR_BY_RH}, {NAN, 0.5}, 101325.0, DEW_ERANGE, "t: nan is outside -100 .. 90"},
    {"fault: p below its range", {DEW_AIR_BY_T, DEW_AIR_BY_RH}, {20.0, 0.5}, 49000.0, DEW_ERANGE, "p: 49000 Pa is outside 50e3 .. 110e3"},
    {"fault: w and dew", {DEW_AIR_BY_DEW, DEW_AIR_BY_W}, {10.0, 0.0076}, 101325.0, DEW_EAMBIGUOUS, "w and dew say the same thing: give another"},
    {"fault: wet and h", {DEW_AIR_BY_H, DEW_AIR_BY_WET}, {4e4, 15.0}, 101325.0, DEW_EAMBIGUOUS, "wet and h say nearly the same thing: give another"},
    {"fault: more than the air holds", {DEW_AIR_BY_T, DEW_AIR_BY_W}, {20.0, 0.02}, 101325.0, DEW_ESOLVE, "air of 20 degC cannot hold that: it is full at 14.7 g/kg"},
    {"fault: no such air", {DEW_AIR_BY_T, DEW_AIR_BY_WET}, {40.0, 3.0}, 101325.0, DEW_ESOLVE, "no air from -100 to 90 degC has both"},
};
/* clang-format on */

static void solve_says_what_is_wrong(void **state)
{
    const struct fault *r = *state;
    struct dew_error err = {0};
    struct dew_air a = {.t = 7.7};
    char line[400];

    assert_int_equal(dew_air_solve(r->given, r->value, r->p, &a, &err),
                     r->status);
    assert_string_equal(dew_error_line(&err, line, sizeof line), r->line);
    assert_true(a.t == 7.7);
}

ROWS(pairing_rows, mixing_keeps_heat_and_water);
ROWS(coil_rows, coil_line_leads_back_to_its_dew_point);
ROWS(point_rows, any_two_give_the_rest);
ROWS(fault_rows, solve_says_what_is_wrong);
RUN_TESTS("air, streams");
