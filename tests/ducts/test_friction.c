/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Friction in ducts against handbooks, codes and an independent library. */
#include "support/rows.h"

#include "dew/network.h"

static const double foot = 0.3048;        /* m, exact */
static const double inch_wg = 249.089;    /* Pa [SP811] */
static const double cfm = 4.719474432e-4; /* m3/s, exact */

struct factor {
    const char *name;
    double re, relative, f, tolerance;
};

/* clang-format off */
static const struct factor factors[] = {
    {"f [FLUIDS-DOC], Re 1e5, 1e-4", 1e5, 1e-4, 0.018513866077471648, 1e-10},
    {"f [FLUIDS-DOC], Re 1e4, 9e-4", 1e4, 9e-4, 0.032236088,          5e-10},
    {"f [FLUIDS-DOC], Re 2e4, 6e-4", 2e4, 6e-4, 0.027151154,          5e-10},
    {"f [FLUIDS-DOC], Re 5e4, 6e-4", 5e4, 6e-4, 0.022871062,          5e-10},
    {"f [FLUIDS-DOC], Re 1e5, 6e-3", 1e5, 6e-3, 0.032949629,          5e-10},
};

/* Published drops.  Roughness and length in m, flow in L/s. */
static const struct drop {
    const char *name;
    double diameter, roughness, length, compression, litres, want, share;
} drops[] = {
    {"[ASH-F21] example 6, spiral",            .250, .12e-3, 1.8, 0,   470,  7.7,  .02},
    {"[ASH-F21] example 6, flexible",          .250, .9e-3,  1.8, 0,   470,  11.4, .02},
    {"[ASH-F21] example 6, 4 % compressed",    .250, .9e-3,  1.8, .04, 470,  19.5, .04},
    {"[ASH-F21] example 6, 15 % compressed",   .250, .9e-3,  1.8, .15, 470,  40.0, .04},
    {"[ASH-F21] example 6, 30 % compressed",   .250, .9e-3,  1.8, .30, 470,  68.9, .04},
    {"[ASH-F21] table 13, 240 L/s, 0.4 Pa/m",  .312, .12e-3, 1,   0,   240,  0.4,  .045},
    {"[ASH-F21] table 13, 240 L/s, 0.8 Pa/m",  .270, .12e-3, 1,   0,   240,  0.8,  .045},
    {"[ASH-F21] table 13, 240 L/s, 1.0 Pa/m",  .258, .12e-3, 1,   0,   240,  1.0,  .045},
    {"[ASH-F21] table 13, 240 L/s, 1.2 Pa/m",  .248, .12e-3, 1,   0,   240,  1.2,  .045},
    {"[ASH-F21] table 13, 240 L/s, 1.6 Pa/m",  .234, .12e-3, 1,   0,   240,  1.6,  .045},
    {"[ASH-F21] table 13, 470 L/s, 0.4 Pa/m",  .402, .12e-3, 1,   0,   470,  0.4,  .04},
    {"[ASH-F21] table 13, 470 L/s, 0.8 Pa/m",  .348, .12e-3, 1,   0,   470,  0.8,  .04},
    {"[ASH-F21] table 13, 470 L/s, 1.0 Pa/m",  .332, .12e-3, 1,   0,   470,  1.0,  .04},
    {"[ASH-F21] table 13, 470 L/s, 1.2 Pa/m",  .320, .12e-3, 1,   0,   470,  1.2,  .04},
    {"[ASH-F21] table 13, 470 L/s, 1.6 Pa/m",  .302, .12e-3, 1,   0,   470,  1.6,  .04},
    {"[ASH-F21] table 13, 940 L/s, 0.4 Pa/m",  .520, .12e-3, 1,   0,   940,  0.4,  .03},
    {"[ASH-F21] table 13, 940 L/s, 0.8 Pa/m",  .452, .12e-3, 1,   0,   940,  0.8,  .03},
    {"[ASH-F21] table 13, 940 L/s, 1.0 Pa/m",  .432, .12e-3, 1,   0,   940,  1.0,  .03},
    {"[ASH-F21] table 13, 940 L/s, 1.2 Pa/m",  .416, .12e-3, 1,   0,   940,  1.2,  .03},
    {"[ASH-F21] table 13, 940 L/s, 1.6 Pa/m",  .394, .12e-3, 1,   0,   940,  1.6,  .03},
    {"[ASH-F21] example 9, 200 mm, 860 L/s",   .200, .09e-3, 1,   0,   860,  40,   .02},
    {"[ASH-F21] example 9, 125 mm, 290 L/s",   .125, .09e-3, 1,   0,   290,  54,   .02},
    {"[ASH-F21] example 9, 180 mm, 580 L/s",   .180, .09e-3, 1,   0,   580,  32,   .02},
    {"[ASH-F21] example 9, 355 mm, 1440 L/s",  .355, .09e-3, 1,   0,   1440, 6,    .02},
};

/* [ASH-F21] table 3, mm, to the printed millimetre */
static const struct sides {
    const char *name;
    double a, b, d;
} sides[] = {
    {"[ASH-F21] table 3, 200 x 200",  200,  200, 219},
    {"[ASH-F21] table 3, 200 x 100",  200,  100, 152},
    {"[ASH-F21] table 3, 400 x 200",  400,  200, 305},
    {"[ASH-F21] table 3, 500 x 250",  500,  250, 381},
    {"[ASH-F21] table 3, 600 x 300",  600,  300, 457},
    {"[ASH-F21] table 3, 1000 x 500", 1000, 500, 762},
    {"[ASH-F21] table 3, 600 x 600",  600,  600, 656},
};

/* [ASH-F21] example 8, 0.978 kg/m3, spiral: the duct, L/s, and the printed
   velocity pressure, friction and loss of the section in Pa */
static const struct section {
    const char *name;
    struct dew_duct duct;
    double litres, velocity, friction, want;
} sections[] = {
    {"[ASH-F21] example 8, section 1", {.width = .45, .height = .5, .length = 1.5, .roughness = .12e-3}, 1520, 22, 1, 1},
    {"[ASH-F21] example 8, section 2", {.diameter = .375, .length = 6,   .roughness = .12e-3, .loss = .06}, 1520, 93, 26, 32},
    {"[ASH-F21] example 8, section 4", {.diameter = .350, .length = 6,   .roughness = .12e-3, .loss = .14}, 1140, 69, 21, 31},
    {"[ASH-F21] example 8, section 6", {.diameter = .300, .length = 6,   .roughness = .12e-3, .loss = .13}, 760, 57, 21, 28},
    {"[ASH-F21] example 8, section 8", {.diameter = .225, .length = 4.5, .roughness = .12e-3, .loss = .14}, 380, 45, 18, 24},
    {"[ASH-F21] example 8, section 3", {.diameter = .200, .length = 1.5, .roughness = .12e-3, .loss = 2.25}, 380, 72, 11, 173},
    {"[ASH-F21] example 8, section 5", {.diameter = .200, .length = 1.5, .roughness = .12e-3, .loss = 2.05}, 380, 72, 11, 159},
    {"[ASH-F21] example 8, section 7", {.diameter = .200, .length = 1.5, .roughness = .12e-3, .loss = 1.96}, 380, 72, 11, 152},
    {"[ASH-F21] example 8, section 9", {.diameter = .200, .length = 3.0, .roughness = .12e-3, .loss = 1.82}, 380, 72, 22, 153},
};

/* its four paths, indices into sections[], and their printed totals */
static const struct path {
    const char *name;
    int part[6]; /* ends with -1 */
    double want;
} paths[] = {
    {"[ASH-F21] example 8, path A", {0, 1, 5, -1},          206},
    {"[ASH-F21] example 8, path B", {0, 1, 2, 6, -1},       223},
    {"[ASH-F21] example 8, path C", {0, 1, 2, 3, 7, -1},    244},
    {"[ASH-F21] example 8, path D", {0, 1, 2, 3, 4, 8},     269},
};

/* round metal at 0.06 in./100 ft; its 14-in. figure is rounded down to 750
   and left out */
static const struct chart {
    const char *name;
    double inches, cfm;
} charts[] = {
    {"[FIELD-CHART] 5 in.",  5,  50},  {"[FIELD-CHART] 6 in.",  6,  85},
    {"[FIELD-CHART] 7 in.",  7,  125}, {"[FIELD-CHART] 8 in.",  8,  180},
    {"[FIELD-CHART] 9 in.",  9,  240}, {"[FIELD-CHART] 10 in.", 10, 325},
    {"[FIELD-CHART] 12 in.", 12, 525},
};

/* [IRC-M1506]: most feet of duct without elbows for a fan of 0.25 in. of
   water; NL no limit, XX not allowed */
#define NL 1e9
#define XX (-1)
static const double irc_cfm[8] = {50, 80, 100, 125, 150, 200, 250, 300};
static const struct irc {
    const char *name;
    double inches, roughness, feet[8];
} ircs[] = {
    {"[IRC-M1506] flexible 4 in.", 4, .9e-3,  {56,  4,   XX,  XX,  XX,  XX, XX, XX}},
    {"[IRC-M1506] flexible 5 in.", 5, .9e-3,  {NL,  81,  42,  16,  2,   XX, XX, XX}},
    {"[IRC-M1506] flexible 6 in.", 6, .9e-3,  {NL,  NL,  158, 91,  55,  18, 1,  XX}},
    {"[IRC-M1506] smooth 3 in.",   3, .09e-3, {5,   XX,  XX,  XX,  XX,  XX, XX, XX}},
    {"[IRC-M1506] smooth 4 in.",   4, .09e-3, {114, 31,  10,  XX,  XX,  XX, XX, XX}},
    {"[IRC-M1506] smooth 5 in.",   5, .09e-3, {NL,  152, 91,  51,  28,  4,  XX, XX}},
    {"[IRC-M1506] smooth 6 in.",   6, .09e-3, {NL,  NL,  NL,  168, 112, 53, 25, 9}},
};

/* shapes for the round trip and the slope; flows in m3/s */
static const struct trip {
    const char *name;
    struct dew_duct duct;
    double density;
} trips[] = {
    {"round trip, spiral",      {.diameter = .1527, .length = 7.31, .roughness = .12e-3}, 1.137},
    {"round trip, flexible",    {.diameter = .1273, .length = 3.9, .roughness = .9e-3, .compression = .113, .loss = 1.37}, 1.204},
    {"round trip, rectangular", {.width = .613, .height = .207, .length = 11.3, .roughness = .09e-3, .loss = .83}, .978},
    {"round trip, a loss only", {.diameter = .2031, .loss = 2.713}, 1.19},
    {"round trip, smooth",      {.diameter = .0507, .length = 20.7, .extra = 4.1}, 1.31},
};
/* clang-format on */

static void factor_row(void **state)
{
    const struct factor *r = *state;

    assert_near(dew_ducts_colebrook(r->re, r->relative), r->f, r->tolerance);
    assert_near(dew_ducts_friction_factor(r->re, r->relative), r->f,
                r->tolerance);
}

static void drop_row(void **state)
{
    const struct drop *r = *state;
    struct dew_duct duct = {.diameter = r->diameter,
                            .length = r->length,
                            .roughness = r->roughness,
                            .compression = r->compression};

    assert_near(dew_ducts_drop(&duct, 1.204, r->litres / 1000.0, NULL), r->want,
                r->share * r->want);
}

static void sides_row(void **state)
{
    const struct sides *r = *state;

    assert_near(1000.0 *
                    dew_ducts_equivalent_diameter(r->a / 1000.0, r->b / 1000.0),
                r->d, 0.5);
}

/* Pa */
static double velocity_pressure(const struct dew_duct *duct, double density,
                                double q)
{
    double v = q / dew_ducts_area(duct);

    return 0.5 * density * v * v;
}

/* The book adds its rounded velocity pressure times the coefficient. */
static double section_loss(const struct section *s)
{
    struct dew_duct plain = s->duct;
    double q = s->litres / 1000.0;

    plain.loss = 0.0;
    return dew_ducts_drop(&plain, 0.978, q, NULL) +
           s->duct.loss * round(velocity_pressure(&plain, 0.978, q));
}

static void section_row(void **state)
{
    const struct section *r = *state;
    struct dew_duct plain = r->duct;
    double q = r->litres / 1000.0;
    double velocity = velocity_pressure(&plain, 0.978, q);

    plain.loss = 0.0;
    assert_near(velocity, r->velocity, 0.55);
    assert_near(dew_ducts_drop(&plain, 0.978, q, NULL), r->friction, 0.55);
    assert_near(section_loss(r), r->want, 1.0);
    /* unrounded: half a pascal more for each velocity pressure */
    assert_near(dew_ducts_drop(&r->duct, 0.978, q, NULL), r->want,
                1.0 + 0.5 * r->duct.loss);
}

static void path_row(void **state)
{
    const struct path *r = *state;
    double sum = 0.0;

    for (int i = 0; i < 6 && r->part[i] >= 0; i++)
        sum += section_loss(&sections[r->part[i]]);
    assert_near(sum, r->want, 2.0);
}

static void chart_row(void **state)
{
    const struct chart *r = *state;
    struct dew_duct duct = {.diameter = r->inches * foot / 12.0,
                            .length = 100.0 * foot,
                            .roughness = 0.09e-3};
    double q = dew_ducts_flow(&duct, 1.204, 0.06 * inch_wg, NULL);

    assert_near(q / cfm, r->cfm, 0.04 * r->cfm);
}

/* what the budget leaves for fittings, as a sum of loss coefficients */
static double left_over(const struct irc *r, int i, double feet)
{
    struct dew_duct duct = {.diameter = r->inches * foot / 12.0,
                            .length = feet * foot,
                            .roughness = r->roughness};
    double q = irc_cfm[i] * cfm, budget = 0.25 * inch_wg;

    return (budget - dew_ducts_drop(&duct, 1.204, q, NULL)) /
           velocity_pressure(&duct, 1.204, q);
}

/*
 * Every length allowed leaves something for caps and grilles, 1.2 .. 6
 * velocity pressures; where there is no limit, 250 ft leave that too; and
 * where no duct is allowed, not even a duct of no length would leave as much
 * as the row's roomiest cell.
 */
static void irc_row(void **state)
{
    const struct irc *r = *state;
    double most = 0.0;

    for (int i = 0; i < 8; i++) {
        double left = left_over(r, i,
                                r->feet[i] == NL   ? 250.0
                                : r->feet[i] == XX ? 0.0
                                                   : r->feet[i]);

        if (r->feet[i] != XX)
            assert_true(left > 1.2);
        if (r->feet[i] != XX && r->feet[i] != NL) {
            assert_true(left < 6.0);
            most = fmax(most, left);
        }
        if (r->feet[i] == XX)
            assert_true(left < most);
    }
}

static void trip_row(void **state)
{
    const struct trip *r = *state;

    for (double q = 1.37e-7; q < 0.4; q *= 2.23) {
        double slope, back, h = 1e-5 * q;
        double drop = dew_ducts_drop(&r->duct, r->density, q, &slope);
        double up = dew_ducts_drop(&r->duct, r->density, q + h, NULL);
        double down = dew_ducts_drop(&r->duct, r->density, q - h, NULL);

        assert_near((up - down) / (2.0 * h), slope, 1e-6 * slope);
        assert_near(dew_ducts_flow(&r->duct, r->density, drop, &back), q,
                    1e-12 * q);
        assert_near(back * slope, 1.0, 1e-10);
        assert_near(dew_ducts_drop(&r->duct, r->density, -q, NULL), -drop, 0.0);
    }
    assert_near(dew_ducts_flow(&r->duct, r->density, 0.0, NULL), 0.0, 0.0);
}

/* [ASH-F21] eq. 21 */
TEST(reynolds_is_the_handbooks)
{
    assert_near(1.204 * 5.31 * 0.203 / DEW_DUCTS_VISCOSITY, 66.4 * 203 * 5.31,
                1e-6);
}

/* Hagen and Poiseuille: 128 mu L q / (pi D^4) */
TEST(slow_flow_is_laminar)
{
    struct dew_duct duct = {.diameter = .153, .length = 7.7, .roughness = 1e-4};
    double q = 1.9e-3, d2 = .153 * .153;

    assert_near(dew_ducts_drop(&duct, 1.13, q, NULL),
                128.0 * DEW_DUCTS_VISCOSITY * 7.7 * q / (acos(-1) * d2 * d2),
                1e-15);
}

/* value and slope meet where the kinds of flow meet */
TEST(no_step_between_kinds_of_flow)
{
    static const double edges[] = {1000.0, 2300.0, 4000.0};
    struct dew_duct duct = {
        .diameter = .153, .length = 7.7, .roughness = .9e-3, .loss = 1.7};
    double scale = acos(-1) * .153 * DEW_DUCTS_VISCOSITY / (4.0 * 1.13);

    for (size_t i = 0; i < COUNT_OF(edges); i++) {
        double s0, s1, q = edges[i] * scale;
        double d0 = dew_ducts_drop(&duct, 1.13, q * (1.0 - 1e-12), &s0);
        double d1 = dew_ducts_drop(&duct, 1.13, q * (1.0 + 1e-12), &s1);

        assert_near(d1, d0, 1e-11 * d0);
        assert_near(s1, s0, 1e-10 * s0);
    }
}

/* [LBNL-FLEX]: moderate compression about fourfold, further close to ten */
TEST(flexible_duct_within_measured_bounds)
{
    assert_near(dew_ducts_flex_factor(0.2032, 0.15), 4.0, 1.5);
    assert_true(dew_ducts_flex_factor(0.1524, 0.30) < 10.0);
    assert_true(dew_ducts_flex_factor(0.1524, 0.30) > 8.0);
    assert_near(dew_ducts_flex_factor(0.25, 0.0), 1.0, 0.0);
}

TEST(hydraulic_diameter_of_a_square)
{
    assert_near(dew_ducts_hydraulic_diameter(.37 * .37, 4 * .37), .37, 1e-15);
}

TEST(outside_the_range_is_nan)
{
    struct dew_duct duct = {.diameter = .15, .length = 5, .roughness = 1e-4};
    struct dew_duct none = {.diameter = .15}, rough = duct, odd = duct;

    rough.roughness = 0.0051;
    odd.compression = 0.31;
    assert_nan(dew_ducts_colebrook(2299, 1e-4));
    assert_nan(dew_ducts_colebrook(1e5, 0.11));
    assert_nan(dew_ducts_friction_factor(0, 1e-4));
    assert_nan(dew_ducts_flex_factor(0.09, 0.1));
    assert_nan(dew_ducts_drop(&rough, 1.2, 0.1, NULL));
    assert_nan(dew_ducts_drop(&odd, 1.2, 0.1, NULL));
    assert_nan(dew_ducts_drop(&duct, 0.4, 0.1, NULL));
    assert_nan(dew_ducts_drop(&duct, 1.2, NAN, NULL));
    assert_nan(dew_ducts_flow(&none, 1.2, 3.0, NULL));
    assert_nan(dew_ducts_flow(&duct, 1.2, INFINITY, NULL));
}

ROWS(factors, factor_row);
ROWS(drops, drop_row);
ROWS(sides, sides_row);
ROWS(sections, section_row);
ROWS(paths, path_row);
ROWS(charts, chart_row);
ROWS(ircs, irc_row);
ROWS(trips, trip_row);
RUN_TESTS("ducts: friction");
