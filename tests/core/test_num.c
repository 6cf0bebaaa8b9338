/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Numerical methods.  GSL's error handler is left on: a precondition that
 * engine/core/num_*.c does not check aborts this program.
 */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/num.h"

TEST(random_is_the_same_everywhere)
{
    struct core__random *r;
    double x = 0.0;

    /* MT19937 seeded by 4357: the 1000th draw is 1186927261, GSL's own test
       of this generator (gsl-2.7.1, rng/test.c). */
    assert_int_equal(core__random_open(&r, 4357, NULL), DEW_OK);
    for (int i = 0; i < 1000; i++)
        x = core__random_uniform(r);
    assert_near(x, 1186927261.0 / 4294967296.0, 0.0);
    core__random_close(r);
    core__random_close(NULL);
}

TEST(gaussians_have_their_moments)
{
    enum { N = 200000 };
    struct core__random *r;
    double sum = 0.0, squares = 0.0, fourth = 0.0;

    assert_int_equal(core__random_open(&r, 61, NULL), DEW_OK);
    for (int i = 0; i < N; i++) {
        double z = core__random_gaussian(r);

        sum += z;
        squares += z * z;
        fourth += z * z * z * z;
    }
    core__random_close(r);
    assert_near(sum / N, 0.0, 4.0 / sqrt(N)); /* four standard errors */
    assert_near(squares / N, 1.0, 4.0 * sqrt(2.0 / N));
    assert_near(fourth / N, 3.0, 4.0 * sqrt(96.0 / N));
}

TEST(sobol_fills_every_box_once)
{
    struct core__sobol *s;
    struct dew_error err = {0};
    int seen[8][8] = {{0}};
    double p[3];

    assert_int_equal(core__sobol_open(&s, 3, NULL), DEW_OK);
    core__sobol_next(s, p); /* the first is the centre */
    assert_near(p[0] + p[1] + p[2], 1.5, 0.0);
    seen[0][0] = 1; /* GSL leaves out the origin */
    seen[(int)(p[0] * 8)][(int)(p[1] * 8)]++;
    for (int i = 2; i < 64; i++) {
        core__sobol_next(s, p);
        seen[(int)(p[0] * 8)][(int)(p[1] * 8)]++;
    }
    core__sobol_close(s);
    for (int i = 0; i < 64; i++) /* a (0, 6, 2) net: one in each box */
        assert_int_equal(seen[i / 8][i % 8], 1);
    assert_int_equal(core__sobol_open(&s, 41, &err), DEW_ERANGE);
    assert_string_equal(err.text, "41 Sobol dimensions are outside 1 .. 40");
    assert_null(s);
    assert_int_equal(core__sobol_open(&s, 0, NULL), DEW_ERANGE);
}

TEST(statistics_by_hand)
{
    double x[] = {7.3, -1.9, 4.4, 11.2, 0.5};
    const double y[] = {3.1, 2.0, 8.8, -4.2, 6.0};

    assert_near(core__mean(x, 5), 4.3, 1e-15);
    /* deviations 3, -6.2, 0.1, 6.9, -3.8: squares 109.5 */
    assert_near(core__sd(x, 5), sqrt(109.5 / 4.0), 1e-14);
    /* products of deviations of y (-0.04, -1.14, 5.66, -7.34, 2.86):
       -54.00; squares of y's: 95.392 */
    assert_near(core__correlation(x, y, 5), -54.00 / sqrt(109.5 * 95.392),
                1e-14);
    core__sort(x, 5);
    assert_near(x[0], -1.9, 0.0);
    assert_near(core__quantile(x, 5, 0.5), 4.4, 0.0);
    assert_near(core__quantile(x, 5, 0.3), 0.5 + 0.2 * 3.9, 1e-15);
    assert_near(core__quantile(x, 5, 1.0), 11.2, 0.0);
    assert_nan(core__quantile(x, 0, 0.5));
    assert_nan(core__quantile(x, 5, 1.01));
    assert_nan(core__mean(x, 0));
    assert_nan(core__sd(x, 1));
    assert_nan(core__correlation(x, y, 1));
}

TEST(solve_gives_x_back)
{
    enum { N = 7 };
    double a[N * N], b[N], x[N], work[N];
    struct core__random *r;

    assert_int_equal(core__random_open(&r, 733, NULL), DEW_OK);
    for (int i = 0; i < N * N; i++)
        a[i] = core__random_gaussian(r);
    a[0] = 0.0; /* must exchange or reflect, not divide */
    for (int i = 0; i < N; i++)
        x[i] = core__random_gaussian(r);
    core__random_close(r);
    for (int i = 0; i < N; i++) {
        b[i] = 0.0;
        for (int j = 0; j < N; j++)
            b[i] += a[i * N + j] * x[j];
    }
    assert_int_equal(core__solve(a, b, work, N, NULL), DEW_OK);
    for (int i = 0; i < N; i++)
        assert_near(b[i], x[i], 1e-12);
}

TEST(solve_refuses_a_singular_system)
{
    double a[] = {1.5, 2.5, 3.5, 0.3, 0.1, 0.9, 1.8, 2.6, 4.4};
    double b[] = {1.0, 2.0, 3.0}, work[3], nan[] = {NAN};
    struct dew_error err = {0};

    assert_int_equal(core__solve(a, b, work, 3, &err), DEW_ESOLVE);
    assert_string_equal(err.text, "a linear system is singular");
    assert_near(b[1], 2.0, 0.0);
    assert_int_equal(core__solve(nan, b, work, 1, NULL), DEW_ESOLVE);
    assert_int_equal(core__solve(a, b, work, 0, NULL), DEW_OK);
}

TEST(solve_spd_by_hand)
{
    /* L = {2, 0, 0; 1, 3, 0; -1, 0.5, 1.5}, x = {0.7, -1.3, 2.1} */
    double a[] = {4, 2, -2, 2, 10, 0.5, -2, 0.5, 3.5};
    double b[] = {-4.0, -10.55, 5.3}, bad[] = {1, 2, 2, 1}, c[] = {1, 1};
    struct dew_error err = {0};

    assert_int_equal(core__solve_spd(a, b, 3, NULL), DEW_OK);
    assert_near(b[0], 0.7, 1e-15);
    assert_near(b[1], -1.3, 1e-15);
    assert_near(b[2], 2.1, 1e-15);
    assert_int_equal(core__solve_spd(bad, c, 2, &err), DEW_ESOLVE);
    assert_string_equal(err.text, "a linear system is not positive definite");
    bad[0] = INFINITY;
    assert_int_equal(core__solve_spd(bad, c, 2, NULL), DEW_ESOLVE);
}

/*
 * Norris, certified by NIST StRD (linear regression, lower difficulty):
 * y = B0 + B1 x, 36 observations.
 */
static const double norris[][2] = {
    {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6},
    {9.2, 10.1},    {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3},
    {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
    {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0},
    {448.9, 447.5}, {10.8, 11.6},   {557.7, 556.0}, {228.3, 228.1},
    {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
    {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2},
    {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1},   {117.6, 118.3},
    {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5},
};

TEST(least_squares_meets_nist_norris)
{
    enum { N = COUNT_OF(norris) };
    double a[N * 2], b[N], x[2], cov[4], work[N + 2];
    struct core__lines lines = {N, 2, a, b};

    for (int i = 0; i < N; i++) {
        a[2 * i] = 1.0;
        a[2 * i + 1] = norris[i][1];
        b[i] = norris[i][0];
    }
    assert_int_equal(core__least_squares_work(N, 2), N + 2);
    assert_int_equal(core__least_squares(&lines, work, x, cov, NULL), DEW_OK);
    assert_near(x[0], -0.262323073774029, 1e-12);
    assert_near(x[1], 1.00211681802045, 1e-13);
    assert_near(sqrt(cov[0]), 0.232818234301152, 1e-12);
    assert_near(sqrt(cov[3]), 0.429796848199937e-3, 1e-14);
    assert_near(cov[1], cov[2], 1e-18);
}

/* A closed form: l of l l' by hand. */
TEST(cholesky_is_the_root)
{
    double a[] = {4, 2, -6, 2, 10, 9, -6, 9, 29};
    static const double want[] = {2, 0, 0, 1, 3, 0, -3, 4, 2};
    double bad[] = {1, 2, 2, 1}, odd[] = {NAN};

    assert_int_equal(core__cholesky(a, 3, NULL), DEW_OK);
    for (int i = 0; i < 9; i++)
        assert_near(a[i], want[i], 1e-12);
    assert_int_equal(core__cholesky(bad, 2, NULL), DEW_ESOLVE);
    assert_int_equal(core__cholesky(odd, 1, NULL), DEW_ESOLVE);
}

/* [ROS60]: the valley bends, its lowest point is 0 at (1, 1).  Beyond x = 1.7
   it is no number. */
static double rosenbrock(const double *x, void *with)
{
    double a = 1 - x[0], b = x[1] - x[0] * x[0];

    (*(int *)with)++;
    return x[0] > 1.7 ? NAN : a * a + 100 * b * b;
}

TEST(a_valley_is_walked_to_its_lowest_point)
{
    int calls = 0;
    double x[] = {-1.2, 1.0}, short_of[] = {-1.2, 1.0};
    struct core__valley v = {.unknowns = 2,
                             .f = rosenbrock,
                             .with = &calls,
                             .step = 0.4,
                             .tolerance = 1e-7,
                             .turns = 400};

    assert_int_equal(core__search_valley(&v, x, NULL), DEW_OK);
    assert_near(x[0], 1.0, 1e-5);
    assert_near(x[1], 1.0, 1e-5);
    calls = 0;
    v.turns = 5;
    assert_int_equal(core__search_valley(&v, short_of, NULL), DEW_OK);
    assert_true(calls < 25 && short_of[0] < 0.9);
    v.tolerance = 0;
    assert_int_equal(core__search_valley(&v, x, NULL), DEW_ERANGE);
    v.tolerance = 1e-7;
    x[0] = short_of[0] = 9.0; /* nowhere a number */
    v.step = 0.01;
    assert_int_equal(core__search_valley(&v, x, NULL), DEW_ESOLVE);
    assert_near(x[0], 9.0, 0);
}

TEST(least_squares_refuses_what_it_cannot_tell)
{
    double a[] = {1, 2, 2, 4, 3, 6}, b[] = {1.1, 2.3, 2.9}, x[2] = {5, 6};
    double work[5], cov[4], square[] = {2, 1, 1, 3};
    struct core__lines same = {3, 2, a, b}, few = {1, 2, a, b};
    struct core__lines exact = {2, 2, square, b};
    struct dew_error err = {0};

    assert_int_equal(core__least_squares(&same, work, x, NULL, &err),
                     DEW_ESOLVE);
    assert_string_equal(err.text, "a fit's columns are not independent");
    assert_near(x[0], 5.0, 0.0);
    assert_int_equal(core__least_squares(&few, work, x, NULL, NULL),
                     DEW_ESOLVE);
    assert_int_equal(core__least_squares(&exact, work, x, cov, NULL), DEW_OK);
    assert_near(x[0], 0.2, 1e-15); /* 2 x + y = 1.1, x + 3 y = 2.3 */
    assert_nan(cov[0]);
}

static const struct root_row {
    const char *test;
    double low, high, want;
    int f;
} root_rows[] = {
    {"cos x = x: the Dottie number", 0.0, 1.5, 0.73908513321516064, 0},
    {"x^3 - 2 x - 5, Wallis 1685", 2.0, 3.0, 2.0945514815423266, 1},
    {"a root at the bracket's end", 0.0, 3.0, 0.0, 2},
};

static double curve_of(double x, void *with)
{
    switch (*(const int *)with) {
    case 0:
        return cos(x) - x;
    case 1:
        return (x * x - 2.0) * x - 5.0;
    case 2:
        return x * x * x;
    case 3:
        return log(x - 1.7); /* not finite below */
    default:
        return (x - 0.37) * (x - 0.37) + 0.1 * x;
    }
}

static void root_is_found(void **state)
{
    const struct root_row *row = *state;
    int which = row->f;
    struct core__function f = {curve_of, &which};
    double x = 0.0;

    assert_int_equal(
        core__search_root(&f, row->low, row->high, 1e-13, &x, NULL), DEW_OK);
    assert_near(x, row->want, 1e-13);
}

TEST(root_needs_a_bracket)
{
    int which = 1;
    struct core__function f = {curve_of, &which};
    struct dew_error err = {0}, nan = {0};
    double x = 8.25;

    assert_int_equal(core__search_root(&f, 3.0, 4.0, 1e-9, &x, &err),
                     DEW_ESOLVE);
    assert_string_equal(err.text, "no change of sign from 3 to 4");
    assert_int_equal(core__search_root(&f, 4.0, 3.0, 1e-9, &x, NULL),
                     DEW_ESOLVE);
    assert_int_equal(core__search_root(&f, 0.0, 4.0, 0.0, &x, NULL),
                     DEW_ESOLVE);
    which = 3;
    assert_int_equal(core__search_root(&f, 1.0, 4.0, 1e-9, &x, &nan),
                     DEW_ESOLVE);
    assert_string_equal(nan.text, "a function searched is not finite");
    assert_near(x, 8.25, 0.0);
}

TEST(minimum_by_hand)
{
    int which = 4;
    struct core__function f = {curve_of, &which};
    struct core__bracket in = {-1.0, 0.5, 2.0}, beside = {1.0, 1.5, 2.0};
    struct dew_error err = {0};
    double x = 0.0;

    assert_int_equal(core__search_least(&f, &in, 1e-7, &x, NULL), DEW_OK);
    assert_near(x, 0.32, 1e-7);
    assert_int_equal(core__search_least(&f, &beside, 1e-7, &x, &err),
                     DEW_ESOLVE);
    assert_string_equal(err.text, "no least value between 1 and 2");
    which = 3;
    assert_int_equal(core__search_least(&f, &in, 1e-7, &x, NULL), DEW_ESOLVE);
}

static const double at_x[] = {0.0, 1.3, 2.1, 4.6, 5.2, 7.9};
static const double at_y[] = {3.1, 3.1, 7.7, 7.9, 2.4, 3.1};

static const struct curve_row {
    const char *test;
    enum core__curve_kind kind;
} curve_rows[] = {
    {"linear goes through its points", CORE__LINEAR},
    {"Steffen goes through its points", CORE__STEFFEN},
    {"cubic goes through its points", CORE__CUBIC},
    {"periodic goes through its points", CORE__PERIODIC},
};

static void curve_goes_through_its_points(void **state)
{
    const struct curve_row *row = *state;
    struct core__curve *c;
    double line[6];

    assert_int_equal(core__curve_open(&c, row->kind, at_x, at_y, 6, NULL),
                     DEW_OK);
    for (int i = 0; i < 6; i++)
        assert_near(core__curve_at(c, at_x[i]), at_y[i], 1e-14);
    assert_nan(core__curve_at(c, -1e-9));
    assert_nan(core__curve_slope(c, 7.91));
    core__curve_close(c);
    if (row->kind == CORE__PERIODIC)
        return;
    for (int i = 0; i < 6; i++)
        line[i] = 2.7 - 0.6 * at_x[i];
    assert_int_equal(core__curve_open(&c, row->kind, at_x, line, 6, NULL),
                     DEW_OK);
    assert_near(core__curve_at(c, 3.33), 2.7 - 0.6 * 3.33, 1e-14);
    assert_near(core__curve_slope(c, 3.33), -0.6, 1e-14);
    core__curve_close(c);
}

TEST(steffen_does_not_overshoot)
{
    struct core__curve *c;

    assert_int_equal(core__curve_open(&c, CORE__STEFFEN, at_x, at_y, 6, NULL),
                     DEW_OK);
    for (int i = 0; i < 5; i++)
        for (double s = 0.0; s <= 1.0; s += 0.01) {
            double y = core__curve_at(c, at_x[i] + s * (at_x[i + 1] - at_x[i]));

            assert_true(y >= fmin(at_y[i], at_y[i + 1]) - 1e-14);
            assert_true(y <= fmax(at_y[i], at_y[i + 1]) + 1e-14);
        }
    core__curve_close(c);
}

TEST(periodic_curve_closes_smoothly)
{
    struct core__curve *c;
    double x[13], y[13];

    for (int i = 0; i < 13; i++) {
        x[i] = i * 30.4;
        y[i] = 11.3 + 8.1 * cos(acos(-1.0) * (i % 12) / 6.0 - 0.4);
    }
    assert_int_equal(core__curve_open(&c, CORE__PERIODIC, x, y, 13, NULL),
                     DEW_OK);
    assert_near(core__curve_slope(c, 0.0), core__curve_slope(c, x[12]), 1e-13);
    assert_near(core__curve_at(c, 45.6), 11.3 + 8.1 * cos(acos(-1.0) / 4 - 0.4),
                0.01); /* h^4 f'''' / 384 is 0.0016 for h = pi / 6 */
    core__curve_close(c);
}

static const struct bad_curve_row {
    const char *test, *want;
    enum core__curve_kind kind;
    size_t n;
    double x[3], y[3];
} bad_curve_rows[] = {
    {"too few", "a curve of 2 points, not 3", CORE__STEFFEN, 2, {0, 1}, {1, 1}},
    {"repeated x",
     "point 3 of a curve does not ascend",
     CORE__LINEAR,
     3,
     {0, 1, 1},
     {1, 2, 3}},
    {"NaN",
     "point 2 of a curve is not finite",
     CORE__CUBIC,
     3,
     {0, 1, 2},
     {1, NAN, 3}},
    {"open end",
     "a periodic curve ends where it does not begin",
     CORE__PERIODIC,
     3,
     {0, 1, 2},
     {1, 2, 3}},
};

static void bad_curve_is_refused(void **state)
{
    const struct bad_curve_row *row = *state;
    struct dew_error err = {0};
    struct core__curve *c;

    assert_int_equal(
        core__curve_open(&c, row->kind, row->x, row->y, row->n, &err),
        DEW_ERANGE);
    assert_string_equal(err.text, row->want);
    assert_null(c);
}

/*
 * Misra1a, certified by NIST StRD (nonlinear regression, lower difficulty):
 * y = b1 (1 - exp(-b2 x)), start 1 (500, 0.0001).
 */
static const double misra[][2] = {
    {10.07E0, 77.6E0},  {14.73E0, 114.9E0}, {17.94E0, 141.1E0},
    {23.93E0, 190.8E0}, {29.61E0, 239.9E0}, {35.18E0, 289.0E0},
    {40.02E0, 332.8E0}, {44.82E0, 378.4E0}, {50.76E0, 434.8E0},
    {55.05E0, 477.3E0}, {61.01E0, 536.8E0}, {66.40E0, 593.1E0},
    {75.47E0, 689.1E0}, {81.78E0, 760.0E0},
};

static int misra_residuals(const double *b, double *r, void *with)
{
    const int *refuse = with;

    if (*refuse > 0)
        return 1;
    for (size_t i = 0; i < COUNT_OF(misra); i++)
        r[i] = -b[0] * expm1(-b[1] * misra[i][1]) - misra[i][0];
    return 0;
}

TEST(fit_meets_nist_misra)
{
    int refuse = 0, done = 0, turns = 0;
    struct core__residuals r = {COUNT_OF(misra), 2, misra_residuals, &refuse};
    double start[] = {500.0, 0.0001}, cov[4];
    struct core__fit *fit;

    assert_int_equal(core__fit_open(&fit, &r, start, NULL), DEW_OK);
    while (!done && turns++ < 100)
        assert_int_equal(core__fit_step(fit, &done, NULL), DEW_OK);
    assert_true(done);
    assert_near(core__fit_x(fit)[0], 2.3894212918E+02, 1e-3);
    assert_near(core__fit_x(fit)[1], 5.5015643181E-04, 3e-9);
    assert_near(core__fit_squares(fit), 1.2455138894E-01, 1e-9);
    core__fit_covariance(fit, cov);
    assert_near(sqrt(cov[0]), 2.7070075241E+00, 1e-3);
    assert_near(sqrt(cov[3]), 7.2668688436E-06, 1e-8);
    refuse = 1;
    assert_int_equal(core__fit_step(fit, &done, NULL), DEW_ESOLVE);
    core__fit_close(fit);
    core__fit_close(NULL);
}

TEST(fit_refuses_what_it_cannot_tell)
{
    int refuse = 1;
    struct core__residuals r = {COUNT_OF(misra), 2, misra_residuals, &refuse};
    double start[] = {500.0, 0.0001};
    struct dew_error err = {0}, few = {0};
    struct core__fit *fit;

    assert_int_equal(core__fit_open(&fit, &r, start, &err), DEW_ESOLVE);
    assert_string_equal(err.text,
                        "a fit came to a point that has no residuals");
    assert_null(fit);
    r.count = 1;
    assert_int_equal(core__fit_open(&fit, &r, start, &few), DEW_ERANGE);
    assert_string_equal(few.text, "1 residuals cannot fix 2 unknowns");
}

ROWS(root_rows, root_is_found);
ROWS(curve_rows, curve_goes_through_its_points);
ROWS(bad_curve_rows, bad_curve_is_refused);
/* ---- eigenvalues ------------------------------------------------------------ */

/* Q diag(7.3, 0.41, -2.2) Q' with Q two turns, by 0.6 and 1.1. */
TEST(eigenvalues_of_a_turned_diagonal)
{
    const double c = cos(0.6), s = sin(0.6), d = cos(1.1), e = sin(1.1),
                 values[] = {7.3, 0.41, -2.2},
                 q[3][3] = {{c, -s * d, s * e}, {s, c * d, -c * e}, {0, e, d}};
    double a[9] = {0}, found[3], vectors[9];

    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            for (int k = 0; k < 3; k++)
                a[3 * i + j] += q[i][k] * values[k] * q[j][k];
    assert_int_equal(core__eigen(a, found, vectors, 3, NULL), DEW_OK);
    for (int k = 0; k < 3; k++) {
        int which = 0;
        double along = 0;

        while (which < 2 && fabs(found[k] - values[which]) > 1e-9)
            which++;
        assert_near(found[k], values[which], 1e-12);
        for (int i = 0; i < 3; i++)
            along += vectors[3 * i + k] * q[i][which];
        assert_near(fabs(along), 1, 1e-12);
    }
    a[4] = NAN;
    assert_int_equal(core__eigen(a, found, vectors, 3, NULL), DEW_ESOLVE);
}

RUN_TESTS("core, numerical methods");
