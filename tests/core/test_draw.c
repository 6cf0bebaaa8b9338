/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ranges and draws.  GSL's error handler is left on, as in test_num. */
#include "support/rows.h"

#include <string.h>

#include "core/num.h"

/* ---- a range ---------------------------------------------------------------- */

static const struct range {
    const char *name;
    struct core__pert p;
} ranges[] = {
    {"an airtightness, skewed", {0.7, 1.1, 2.0}},
    {"likely at the low end", {0.0, 0.0, 3.7}},
    {"likely at the high end", {-2.3, 1.9, 1.9}},
    {"likely in the middle", {19.0, 27.3, 35.6}},
    {"nearly at an end", {0.30, 0.31, 0.90}},
};

enum { PARTS = 200000 };

/* Mean and variance of the beta density itself, by the midpoint rule:
   alpha = 1 + 4 (m - a) / (b - a), beta likewise [MALCOLM59]. */
static void of_density(const struct core__pert *p, double *mean, double *var)
{
    double width = p->high - p->low, sum = 0, m1 = 0, m2 = 0;
    double alpha = 1 + 4 * (p->likely - p->low) / width;
    double beta = 1 + 4 * (p->high - p->likely) / width;

    for (int i = 0; i < PARTS; i++) {
        double x = (i + 0.5) / PARTS;
        double f = pow(x, alpha - 1) * pow(1 - x, beta - 1);

        sum += f;
        m1 += f * x;
        m2 += f * x * x;
    }
    m1 /= sum;
    *mean = p->low + width * m1;
    *var = width * width * (m2 / sum - m1 * m1);
}

static void moments_are_those_of_the_density(void **state)
{
    const struct range *r = *state;
    double mean, var;

    of_density(&r->p, &mean, &var);
    assert_near(core__pert_mean(&r->p), mean, 1e-7);
    assert_near(core__pert_variance(&r->p), var, 1e-7);
}
ROWS(ranges, moments_are_those_of_the_density);

/* What is drawn has them too: the quantiles, all shares alike. */
static void quantiles_have_the_moments(void **state)
{
    const struct range *r = *state;
    double m1 = 0, m2 = 0, before = r->p.low;

    for (int i = 0; i < 20000; i++) {
        double x = core__pert_at(&r->p, (i + 0.5) / 20000);

        assert_true(x >= before && x <= r->p.high);
        before = x;
        m1 += x / 20000;
        m2 += x * x / 20000;
    }
    assert_near(m1, (r->p.low + 4 * r->p.likely + r->p.high) / 6, 2e-5);
    assert_near(m2 - m1 * m1, core__pert_variance(&r->p), 1e-3);
}
ROWS(ranges, quantiles_have_the_moments);

/* Likely in the middle: alpha = beta = 3, whose share below x is the closed
   form 10 x^3 - 15 x^4 + 6 x^5. */
TEST(quantile_of_a_closed_form)
{
    const struct core__pert p = {0, 0.5, 1};

    for (double x = 0.05; x < 1; x += 0.1)
        assert_near(core__pert_at(&p, x * x * x * (10 - 15 * x + 6 * x * x)), x,
                    1e-9);
    assert_near(core__pert_at(&p, 0), 0, 0);
    assert_near(core__pert_at(&p, 1), 1, 0);
}

TEST(no_range_is_the_value_and_no_order_is_none)
{
    const struct core__pert one = {2.7, 2.7, 2.7}, odd = {1, 3, 2};
    const struct core__pert open = {0, 1, INFINITY};

    assert_near(core__pert_at(&one, 0.3), 2.7, 0);
    assert_near(core__pert_mean(&one), 2.7, 1e-15);
    assert_nan(core__pert_at(&odd, 0.3));
    assert_nan(core__pert_mean(&odd));
    assert_nan(core__pert_variance(&odd));
    assert_nan(core__pert_at(&open, 0.3));
    assert_nan(core__pert_at(&one, 1.01));
    assert_nan(core__pert_at(&one, NAN));
}

/* ---- points ----------------------------------------------------------------- */

enum { MOST = 1024, WIDE = 44 };

static double u[MOST * WIDE], v[MOST * WIDE];

static void draw(size_t count, size_t columns, unsigned long seed, double *to)
{
    const struct core__draws d = {count, columns, seed};

    assert_int_equal(core__draw(&d, to, NULL), DEW_OK);
}

/* What a digital shift keeps of a net and a hypercube is made of. */
TEST(each_part_of_each_column_is_hit_once)
{
    for (unsigned long seed = 0; seed < 4; seed++) {
        draw(256, WIDE, seed, u);
        for (size_t j = 0; j < WIDE; j++) {
            int hit[256] = {0};

            for (size_t i = 0; i < 256; i++) {
                assert_true(u[i * WIDE + j] > 0 && u[i * WIDE + j] < 1);
                hit[(int)(u[i * WIDE + j] * 256)]++;
            }
            for (int k = 0; k < 256; k++)
                assert_int_equal(hit[k], 1);
        }
    }
}

/* The first two columns are a net in base 2: every box of the plane of that
   area is hit once, whatever its shape. */
TEST(each_box_of_the_plane_is_hit_once)
{
    draw(256, 2, 9, u);
    for (int across = 1; across <= 256; across *= 2) {
        int hit[256] = {0}, up = 256 / across;

        for (size_t i = 0; i < 256; i++)
            hit[(int)(u[2 * i] * across) * up + (int)(u[2 * i + 1] * up)]++;
        for (int k = 0; k < 256; k++)
            assert_int_equal(hit[k], 1);
    }
}

TEST(draws_hang_on_the_seed_alone)
{
    draw(128, 7, 1, u);
    draw(128, 7, 1, v);
    assert_memory_equal(u, v, 128 * 7 * sizeof *u);
    draw(128, 7, 2, v);
    for (size_t k = 0; k < 128 * 7; k++)
        assert_true(u[k] != v[k]);
}

TEST(a_further_column_leaves_the_others)
{
    draw(128, 43, 5, u);
    draw(128, WIDE, 5, v);
    for (size_t i = 0; i < 128; i++)
        assert_memory_equal(u + i * 43, v + i * WIDE, 43 * sizeof *u);
    draw(128, 3, 5, u);
    for (size_t i = 0; i < 128; i++)
        assert_memory_equal(u + i * 3, v + i * WIDE, 3 * sizeof *u);
}

/* No two columns are the same points in the same order.  Of those past the
   25th four pairs go together by 0.75 in so few points; a regression. */
TEST(columns_do_not_follow_one_another)
{
    static double x[256], y[256];

    draw(256, WIDE, 3, u);
    for (size_t a = 0; a < WIDE; a++)
        for (size_t b = 0; b < a; b++) {
            for (size_t i = 0; i < 256; i++) {
                x[i] = u[i * WIDE + a];
                y[i] = u[i * WIDE + b];
            }
            assert_true(fabs(core__correlation(x, y, 256)) <
                        (a < 25 || b >= 40 ? 0.25 : 0.8));
        }
}

/* ---- published functions ------------------------------------------------------ */

/* sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 over -pi .. pi: mean 7 / 2
   [ISHIGAMI90]. */
static double ishigami(const double *p)
{
    const double pi = 3.14159265358979323846;
    double x1 = pi * (2 * p[0] - 1), x2 = pi * (2 * p[1] - 1);
    double x3 = pi * (2 * p[2] - 1);

    return sin(x1) + 7 * sin(x2) * sin(x2) + 0.1 * pow(x3, 4) * sin(x1);
}

/* Product of (|4 x - 2| + a) / (1 + a), a = 0, 1, 4.5, 9, 99, 99, 99, 99: mean
   1 [SALTELLI95]. */
static double g(const double *p)
{
    static const double a[8] = {0, 1, 4.5, 9, 99, 99, 99, 99};
    double product = 1;

    for (int j = 0; j < 8; j++)
        product *= (fabs(4 * p[j] - 2) + a[j]) / (1 + a[j]);
    return product;
}

static const struct published {
    const char *name;
    double (*f)(const double *p);
    size_t columns, first; /* of the cube; from which f is fed              */
    double mean, sd;       /* published; of one point                       */
    double share;          /* of the error of as many points by chance      */
} functions[] = {
    {"Ishigami on Sobol points", ishigami, 3, 0, 3.5, 3.72, 0.10},
    {"g-function on Sobol points", g, 8, 0, 1.0, 0.68, 0.10},
    {"Ishigami on a hypercube", ishigami, WIDE, 40, 3.5, 3.72, 0.80},
};

/* Root mean square error over seeds, against that of points by chance. */
static void means_are_those_published(void **state)
{
    const struct published *f = *state;
    double squares = 0, all = 0;
    enum { SEEDS = 32 };

    for (unsigned long seed = 1; seed <= SEEDS; seed++) {
        double sum = 0;

        draw(MOST, f->columns, seed, u);
        for (size_t i = 0; i < MOST; i++)
            sum += f->f(u + i * f->columns + f->first) / MOST;
        squares += (sum - f->mean) * (sum - f->mean) / SEEDS;
        all += (sum - f->mean) / SEEDS;
    }
    assert_true(sqrt(squares) < f->share * f->sd / sqrt(MOST));
    assert_near(all, 0, 4 * sqrt(squares / SEEDS)); /* no bias              */
    assert_true(squares > 0);                       /* seeds differ         */
}
ROWS(functions, means_are_those_published);

TEST(draws_out_of_range_are_refused)
{
    const struct core__draws none = {0, 3, 1}, flat = {8, 0, 1};
    const struct core__draws many = {CORE__DRAWS_MOST + (size_t)1, 1, 1};
    struct dew_error err = {0};

    assert_int_equal(core__draw(&none, u, &err), DEW_ERANGE);
    assert_string_equal(
        err.text,
        "0 draws of 3 figures are outside 1 .. 1048576 of at least 1");
    assert_int_equal(core__draw(&flat, u, NULL), DEW_ERANGE);
    assert_int_equal(core__draw(&many, u, NULL), DEW_ERANGE);
}

RUN_TESTS("ranges and draws");
