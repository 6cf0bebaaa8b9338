/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The polynomials hold the errors they state. */
#include "support/rows.h"

#include "air/air_step.h"
#include "air/root.h"
#include "dew/air.h"

static double of_pws(double t)
{
    return air__poly_pws(t).value;
}

static double of_liquid(double t)
{
    return air__poly_pws_liquid(t).value;
}

static double of_room(double t)
{
    return air__poly_pws_room(t).value;
}

static double slope_of_pws(double t)
{
    return air__poly_pws(t).slope;
}

static double slope_of_liquid(double t)
{
    return air__poly_pws_liquid(t).slope;
}

static double slope_of_room(double t)
{
    return air__poly_pws_room(t).slope;
}

static double slope_handbook(double t)
{
    return air__pws(t).slope;
}

static double slope_liquid(double t)
{
    return air__pws_liquid(t).slope;
}

/* clang-format off */
static const struct curve { const char *source; double (*poly)(double), (*exact)(double); double low, high, rel; }
curve_rows[] = {
    {"pws by polynomial, -60 .. 60",             of_pws,          dew_air_pws,        -60, 60, 1e-9},
    {"pws over liquid by polynomial, -60 .. 60", of_liquid,       dew_air_pws_liquid, -60, 60, 1e-9},
    {"pws of rooms by polynomial, -5 .. 50",     of_room,         dew_air_pws_liquid,  -5, 50, 2e-9},
    {"its slope, -60 .. 60",                     slope_of_pws,    slope_handbook,     -60, 60, 1e-8},
    {"its slope over liquid, -60 .. 60",         slope_of_liquid, slope_liquid,       -60, 60, 1e-8},
    {"its slope in rooms, -5 .. 50",             slope_of_room,   slope_liquid,        -5, 50, 4e-8},
};
/* clang-format on */

static void poly_stays_within_its_error(void **state)
{
    const struct curve *row = *state;
    const int steps = 30011;

    for (int i = 0; i <= steps; i++) {
        double t = row->low + (row->high - row->low) * i / steps;
        double want = row->exact(t);

        assert_near(row->poly(t), want, row->rel * want);
    }
}

TEST(poly_is_nan_outside)
{
    assert_nan(of_pws(60.001));
    assert_nan(of_pws(-60.001));
    assert_nan(of_liquid(60.001));
    assert_nan(of_liquid(-60.001));
    assert_nan(of_room(50.001));
    assert_nan(of_room(-5.001));
    assert_nan(of_pws(NAN));
}

TEST(poly_log2_and_exp2_match_libm)
{
    for (double x = 2.3e-308; x < 1e308; x *= 1.0137) {
        double want = log2(x);

        assert_near(air__poly_log2(x), want, 1e-12 * fmax(fabs(want), 1.0));
        /* near 1 the value itself is small */
        want = log2(1.0 + 1e-3 * x / (1.0 + x));
        assert_near(air__poly_log2(1.0 + 1e-3 * x / (1.0 + x)), want,
                    1e-12 * want + 1e-300 + 4e-16);
    }
    for (double y = -1021.7; y < 1023; y += 0.0137)
        assert_near(air__poly_exp2(y) / exp2(y), 1.0, 1e-12);
}

/* The powers a house needs: leakage, stack, wind, exchangers, convection. */
TEST(poly_pow_matches_libm)
{
    for (double y = -2.1; y < 3; y += 0.0913)
        for (double x = 1e-9; x < 1e6; x *= 1.0717)
            assert_near(air__poly_pow(x, y) / pow(x, y), 1.0,
                        1e-11 * fmax(1.0, fabs(y * log2(x))));
    assert_true(air__poly_pow(0.0, 0.67) == 0.0);
    assert_true(air__poly_pow(-1.3, 0.67) == 0.0);
}

/* Against dew_air_dew, which takes it from [HW83] itself. */
TEST(the_dew_point_of_a_step_is_the_published_one)
{
    const double p[] = {80e3, 101325.0};

    for (int k = 0; k < 2; k++)
        for (double t = -59.0; t < 59.9; t += 0.017)
            assert_near(air__dew(dew_air_w_dew(t, p[k]), p[k]), t, 1e-8);
    assert_near(air__dew(0.0, 101325.0), -60.0, 0.0); /* the curve's end */
}

/* exp(x) - 3, counted, and where Newton leaves the bracket: its own square root
   of the distance. */
struct counted {
    int *turns;
    double at;
    int bends;
};

static struct air__line counted(double x, const void *in)
{
    const struct counted *c = in;
    double d = x - c->at, root = sqrt(fabs(d)) + 1e-30;

    ++*c->turns;
    if (c->bends)
        return (struct air__line){copysign(root, d), 0.5 / root};
    return (struct air__line){exp(x) - exp(c->at), exp(x)};
}

TEST(a_root_is_found_in_few_turns_or_by_halving)
{
    int turns = 0;
    struct counted c = {&turns, 1.0986122886681098, 0};

    assert_near(air__root(counted, &c, -3.0, 5.0), c.at, 1e-12);
    assert_true(turns <= 10); /* halving alone takes 37 */
    turns = 0;
    c.bends = 1;
    assert_near(air__root(counted, &c, -3.1, 5.0), c.at, 1e-9);
    assert_true(turns <= 60);
    assert_nan(air__root(counted, &c, 1.2, 5.0));
    assert_nan(air__root(counted, &c, -5.0, 1.0));
}

ROWS(curve_rows, poly_stays_within_its_error);
RUN_TESTS("air, polynomials");
