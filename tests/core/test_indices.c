/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sobol's indices, of functions whose indices are known. */
#include "support/rows.h"

#include "core/indices.h"
#include "core/num.h"

enum { N = 512, MOST = 8 };

static const double PI = 3.14159265358979323846;

/* sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 over -pi .. pi [ISHIGAMI90]. */
static double ishigami(const double *p)
{
    double x[3];

    for (int j = 0; j < 3; j++)
        x[j] = PI * (2 * p[j] - 1);
    return sin(x[0]) + 7 * sin(x[1]) * sin(x[1]) +
           0.1 * pow(x[2], 4) * sin(x[0]);
}

/* Product of (|4 x - 2| + a) / (1 + a) [SALTELLI95]. */
static const double g_a[MOST] = {0, 1, 4.5, 9, 99, 99, 99, 99};

static double g(const double *p)
{
    double product = 1;

    for (int j = 0; j < MOST; j++)
        product *= (fabs(4 * p[j] - 2) + g_a[j]) / (1 + g_a[j]);
    return product;
}

/* The indices of a function at N points of that seed; group k is the inputs
   for which of[j] is k. */
static void indices_of(double (*f)(const double *p), size_t columns,
                       const size_t *of, size_t groups, unsigned long seed,
                       struct core__index *index)
{
    static double u[N * 2 * MOST], a[N], b[N], ab[MOST * N];
    const struct core__draws d = {N, 2 * columns, seed};
    const struct core__results r = {N, groups, a, b, ab};
    double p[MOST];

    assert_int_equal(core__draw(&d, u, NULL), DEW_OK);
    for (size_t i = 0; i < N; i++) {
        const double *x = u + i * 2 * columns, *y = x + columns;

        a[i] = f(x);
        b[i] = f(y);
        for (size_t k = 0; k < groups; k++) {
            for (size_t j = 0; j < columns; j++)
                p[j] = of[j] == k ? y[j] : x[j];
            ab[k * N + i] = f(p);
        }
    }
    assert_int_equal(core__indices(&r, index, NULL), DEW_OK);
}

static const size_t each[MOST] = {0, 1, 2, 3, 4, 5, 6, 7};

/* The interval holds it, and is no wider than that. */
static void holds(const struct core__effect *e, double want, double wide)
{
    if (!(e->low <= want && want <= e->high && e->low <= e->is &&
          e->is <= e->high && e->high - e->low < wide))
        fail_msg("%g is not in %g (%g to %g), less wide than %g", want, e->is,
                 e->low, e->high, wide);
}

/* V = 1/2 + a^2/8 + b pi^4/5 + b^2 pi^8/18, a = 7, b = 0.1, of which the first
   input has (1 + b pi^4/5)^2 / 2, the second a^2/8, the first with the third
   8 b^2 pi^8 / 225 [HOMMA96]. */
static const struct published {
    const char *name;
    size_t input;
    double first, total; /* as printed in many places; from memory          */
} published[] = {{"Ishigami, first input", 0, 0.3139, 0.5576},
                 {"Ishigami, second input", 1, 0.4424, 0.4424},
                 {"Ishigami, third input", 2, 0.0, 0.2437}};

static void ishigami_is_as_published(void **state)
{
    const struct published *row = *state;
    double b = 0.1, p4 = pow(PI, 4), p8 = p4 * p4;
    double v1 = pow(1 + b * p4 / 5, 2) / 2, v2 = 49.0 / 8;
    double v13 = 8 * b * b * p8 / 225, v = v1 + v2 + v13;
    double first[] = {v1, v2, 0}, more[] = {v13, 0, v13};
    struct core__index index[3];

    assert_near(first[row->input] / v, row->first, 5e-5);
    assert_near((first[row->input] + more[row->input]) / v, row->total, 5e-5);
    indices_of(ishigami, 3, each, 3, 1, index);
    holds(&index[row->input].first, row->first, 0.35);
    holds(&index[row->input].total, row->total, 0.30);
    assert_near(index[row->input].first.is, row->first, 0.03);
    assert_near(index[row->input].total.is, row->total, 0.03);
}
ROWS(published, ishigami_is_as_published);

/* V_i = 1 / (3 (1 + a_i)^2); V = prod (1 + V_i) - 1 [SALTELLI95]. */
TEST(the_g_function_is_as_its_closed_form)
{
    struct core__index index[MOST];
    double all = 1;

    for (int j = 0; j < MOST; j++)
        all *= 1 + 1 / (3 * pow(1 + g_a[j], 2));
    indices_of(g, MOST, each, MOST, 2, index);
    for (int j = 0; j < MOST; j++) {
        double v = 1 / (3 * pow(1 + g_a[j], 2));

        holds(&index[j].first, v / (all - 1), 0.5);
        holds(&index[j].total, v * all / (1 + v) / (all - 1), 0.35);
    }
}

/* Intervals hold what they should about as often as they say, of 60. */
TEST(intervals_hold_it_over_seeds)
{
    int held = 0;

    for (unsigned long seed = 1; seed <= 10; seed++) {
        struct core__index index[3];
        const double first[] = {0.3139, 0.4424, 0};
        const double total[] = {0.5576, 0.4424, 0.2437};

        indices_of(ishigami, 3, each, 3, seed, index);
        for (int j = 0; j < 3; j++)
            held += (index[j].first.low <= first[j] &&
                     first[j] <= index[j].first.high) +
                    (index[j].total.low <= total[j] &&
                     total[j] <= index[j].total.high);
    }
    assert_true(held >= 55);
}

/* The first and third input of Ishigami together: first V1 + V13, and what is
   left is the second's. */
TEST(a_group_is_told_as_one)
{
    static const size_t groups[] = {0, 1, 0};
    struct core__index index[2];

    indices_of(ishigami, 3, groups, 2, 1, index);
    holds(&index[0].first, 0.5576, 0.35);
    holds(&index[0].total, 0.5576, 0.30);
    assert_near(index[0].total.is, 0.5576, 0.05);
}

/* By hand, of 16 points: f = 3 in A, -1 or 1 in B; AB as B, or as A. */
TEST(estimators_by_hand)
{
    double a[16], b[16], ab[32];
    const struct core__results r = {16, 2, a, b, ab};
    struct core__index index[2];

    for (int i = 0; i < 16; i++) {
        a[i] = 3;
        b[i] = i % 2 ? 1 : -1;
        ab[i] = b[i];
        ab[16 + i] = a[i];
    }
    /* mean 1.5; V = (16 * 2.25 + 8 * 0.25 + 8 * 6.25) / 32 = 2.75 */
    assert_int_equal(core__indices(&r, index, NULL), DEW_OK);
    assert_near(index[0].first.is, (-2.5 * -4 + -0.5 * -2) / 2 / 2.75, 1e-12);
    assert_near(index[0].total.is, (16.0 + 4.0) / 2 / 2 / 2.75, 1e-12);
    assert_near(index[1].first.is, 0, 0);
    assert_near(index[1].total.is, 0, 0);
}

TEST(what_does_not_vary_has_no_indices)
{
    double same[32] = {0};
    struct core__results r = {16, 1, same, same, same};
    struct core__index index;
    struct dew_error err = {0};

    assert_int_equal(core__indices(&r, &index, NULL), DEW_OK);
    assert_nan(index.first.is);
    assert_nan(index.total.low);
    r.n = 15;
    assert_int_equal(core__indices(&r, &index, &err), DEW_ERANGE);
    assert_string_equal(
        err.text, "indices of 1 inputs from 15 points, not 1 and 16 or more");
    r.n = 16;
    same[3] = NAN;
    assert_int_equal(core__indices(&r, &index, NULL), DEW_ERANGE);
}

RUN_TESTS("variance by input");
