/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What it is worth to know.  Held to decisions of two options whose losses
 * differ by a line of a normal figure, which have a closed form: the slope
 * times the standard deviation times the unit normal loss integral
 * L(D) = f(D) - D (1 - F(D)), D = |mean difference| / (slope x sd)
 * [RAIFFA61].
 */
#include "dew/worth.h"

#include <string.h>

#include "core/num.h"
#include "support/rows.h"

enum { N = 1024, FIGURES = 4 };

static double u[N * FIGURES], z[FIGURES][N], loss[N * 3];

static double below(double x)
{
    return 0.5 * erfc(-x / sqrt(2));
}

static double unit_loss(double d)
{
    return exp(-d * d / 2) / sqrt(2 * 3.14159265358979323846) -
           d * (1 - below(d));
}

/* The normal figure below which that share lies, by halving. */
static double normal(double share)
{
    double low = -9, high = 9;

    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;

        if (below(middle) < share)
            low = middle;
        else
            high = middle;
    }
    return low;
}

static int draw_all(void **state)
{
    const struct core__draws d = {N, FIGURES, 5};

    (void)state;
    if (core__draw(&d, u, NULL) != DEW_OK)
        return 1;
    for (size_t i = 0; i < N; i++)
        for (size_t k = 0; k < FIGURES; k++)
            z[k][i] = normal(u[FIGURES * i + k]);
    return 0;
}

static struct dew_worth *worth_of(size_t options)
{
    const struct dew_worth_table of = {N, options, loss};
    struct dew_worth *w;

    assert_int_equal(dew_worth_open(&w, &of, NULL), DEW_OK);
    return w;
}

static struct dew_worth_gain gain_of(struct dew_worth *w, size_t k)
{
    const double *x[] = {z[k]};
    struct dew_worth_gain g;

    assert_int_equal(dew_worth_of(w, x, 1, &g, NULL), DEW_OK);
    return g;
}

/* Figures of the integral as tables of it print them; from memory. */
static const struct printed {
    const char *name;
    double d, loss;
} printed[] = {{"D 0", 0, 0.3989}, {"D 0.5", 0.5, 0.1978}, {"D 1", 1, 0.08332}};

static void integral_is_that_printed(void **state)
{
    const struct printed *row = *state;

    assert_near(unit_loss(row->d), row->loss, 5e-5);
}
ROWS(printed, integral_is_that_printed);

/* Option 0 loses 100; option 1 100 + mean + a z0 + b z1. */
static const struct line {
    const char *name;
    double mean, a, b;
} lines[] = {
    {"one figure, near a tie", 3, 40, 0},
    {"one figure, half a deviation off", 20, 40, 0},
    {"two figures", 11, 30, 20},
    {"two figures, the other way", -17, 12, 25},
};

static void value_is_the_closed_form(void **state)
{
    const struct line *r = *state;
    double both = hypot(r->a, r->b);
    struct dew_worth_gain g;
    struct dew_worth *w;

    for (size_t i = 0; i < N; i++) {
        loss[2 * i] = 100;
        loss[2 * i + 1] = 100 + r->mean + r->a * z[0][i] + r->b * z[1][i];
    }
    w = worth_of(2);
    assert_int_equal(dew_worth_best(w), r->mean < 0);
    g = gain_of(w, 0);
    assert_near(g.value, r->a * unit_loss(fabs(r->mean) / r->a), 3 * g.error);
    assert_true(g.error < 0.08 * r->a);
    assert_true(g.told);
    assert_near(g.turned, 1 - below(fabs(r->mean) / r->a), 0.02);
    assert_near(dew_worth_perfect(w), both * unit_loss(fabs(r->mean) / both),
                0.01 * both);
    dew_worth_close(w);
}
ROWS(lines, value_is_the_closed_form);

/* Both figures known together are worth what knowing all is. */
TEST(two_known_together_are_worth_more)
{
    const double *x[] = {z[0], z[1]};
    struct dew_worth_gain one, two;
    struct dew_worth *w;

    for (size_t i = 0; i < N; i++) {
        loss[2 * i] = 100;
        loss[2 * i + 1] = 111 + 30 * z[0][i] + 20 * z[1][i];
    }
    w = worth_of(2);
    one = gain_of(w, 0);
    assert_int_equal(dew_worth_of(w, x, 2, &two, NULL), DEW_OK);
    assert_true(two.value > one.value + 1);
    assert_near(two.value, dew_worth_perfect(w), 0.05);
    dew_worth_close(w);
}

/* The loss of an option is never of the figure, or never turns the choice. */
TEST(what_does_not_matter_is_not_told)
{
    struct dew_worth *w;
    struct dew_worth_gain g;

    for (size_t i = 0; i < N; i++) {
        loss[2 * i] = 100;
        loss[2 * i + 1] = 103 + 40 * z[0][i] + 2 * z[1][i];
    }
    w = worth_of(2);
    for (size_t k = 2; k < FIGURES; k++) { /* in no loss                     */
        g = gain_of(w, k);
        assert_int_equal(g.told, 0);
        assert_true(g.value <= g.chance);
    }
    dew_worth_close(w);
    for (size_t i = 0; i < N; i++)
        loss[2 * i + 1] = 300 + 40 * z[0][i];
    w = worth_of(2);
    g = gain_of(w, 0);
    assert_int_equal(g.told, 0); /* 5 deviations off */
    assert_near(g.value, 0, 0);
    assert_near(g.turned, 0, 0);
    dew_worth_close(w);
}

/*
 * Of a tie, a fit to nothing still chooses by what is there: a judge that had
 * seen the draws would find worth in it each time; one that has not does by
 * luck alone, and shuffled figures find as much.
 */
TEST(luck_is_not_worth_anything)
{
    enum { TRIALS = 30 };
    size_t told = 0, lucky = 0;
    double sum = 0;

    for (size_t t = 0; t < TRIALS; t++) {
        struct dew_worth_gain g;
        struct dew_worth *w;

        for (size_t i = 0; i < N; i++) {
            loss[2 * i] = 100;
            loss[2 * i + 1] =
                100 + 40 * z[t % FIGURES][(i * (2 * t + 7) + 3) % N];
        }
        w = worth_of(2);
        g = gain_of(w, (t + 1) % FIGURES);
        told += (size_t)g.told;
        lucky += g.value > 0;
        sum += g.value / TRIALS;
        dew_worth_close(w);
    }
    assert_true(told <= 1);
    assert_true(lucky >= 3);
    assert_true(sum < 0.5); /* a standard error is 40 / sqrt(1,024) = 1.25   */
}

/* Yes or no: by hand.  Of three options, the third is best without. */
TEST(a_figure_of_two_values_by_hand)
{
    static const double of[2][3] = {{10, 90, 40}, {95, 20, 40}};
    static double yes[N];
    const double *x[] = {yes};
    struct dew_worth_gain g;
    struct dew_worth *w;
    size_t n = 0;

    for (size_t i = 0; i < N; i++) {
        int y = u[FIGURES * i] < 0.5;

        yes[i] = y;
        n += (size_t)y;
        for (int d = 0; d < 3; d++)
            loss[3 * i + (size_t)d] = of[y][d] + z[1][i];
    }
    assert_int_equal(n, N / 2);
    w = worth_of(3);
    assert_int_equal(dew_worth_best(w), 2);
    assert_int_equal(dew_worth_of(w, x, 1, &g, NULL), DEW_OK);
    assert_near(g.value, 25, 1e-9); /* (30 + 20) / 2                         */
    assert_near(g.turned, 1, 0);
    assert_int_equal(g.told, 1);
    for (size_t i = 0; i < N; i++)
        assert_int_equal(dew_worth_choice(w)[i], yes[i] > 0 ? 1 : 0);
    assert_near(dew_worth_perfect(w), 25, 1e-9);
    dew_worth_close(w);
}

TEST(the_same_figures_give_the_same_gain)
{
    struct dew_worth *w;
    struct dew_worth_gain a, b;

    for (size_t i = 0; i < N; i++) {
        loss[2 * i] = 100;
        loss[2 * i + 1] = 103 + 40 * z[0][i] + 20 * z[1][i];
    }
    w = worth_of(2);
    a = gain_of(w, 1);
    (void)gain_of(w, 0);
    b = gain_of(w, 1);
    assert_memory_equal(&a.value, &b.value, sizeof a.value);
    assert_memory_equal(&a.chance, &b.chance, sizeof a.chance);
    dew_worth_close(w);
}

/* Of the variance a^2 / (a^2 + b^2). */
TEST(the_share_explained_is_that_of_the_variance)
{
    static double y[N], flat[N];

    for (size_t i = 0; i < N; i++)
        y[i] = 3 * z[0][i] + 4 * z[1][i];
    assert_near(dew_worth_explained(z[0], y, N, NULL), 9.0 / 25, 0.03);
    assert_near(dew_worth_explained(z[1], y, N, NULL), 16.0 / 25, 0.03);
    assert_near(dew_worth_explained(z[2], y, N, NULL), 0, 0.03);
    assert_nan(dew_worth_explained(z[2], flat, N, NULL));
    assert_nan(dew_worth_explained(z[2], y, 20, NULL));
}

TEST(what_is_no_decision_is_refused)
{
    const double *x[] = {z[0], z[1], z[2], z[3], z[0], z[1], z[2]};
    struct dew_worth_table of = {N, 2, loss};
    struct dew_error err = {0};
    struct dew_worth_gain g;
    struct dew_worth *w = NULL;

    of.draws = 49;
    assert_int_equal(dew_worth_open(&w, &of, &err), DEW_ERANGE);
    assert_string_equal(err.text, "losses of 2 options in 49 draws are outside "
                                  "1 .. 64 and 50 or more");
    assert_null(w);
    of.draws = (size_t)UINT32_MAX + 1; /* the order of draws is of 32 bits */
    assert_int_equal(dew_worth_open(&w, &of, NULL), DEW_ERANGE);
    of.draws = N;
    of.options = 0;
    assert_int_equal(dew_worth_open(&w, &of, NULL), DEW_ERANGE);
    of.options = 65;
    assert_int_equal(dew_worth_open(&w, &of, NULL), DEW_ERANGE);
    of.options = 2;
    loss[2 * 6 + 1] = NAN;
    err = (struct dew_error){0};
    assert_int_equal(dew_worth_open(&w, &of, &err), DEW_ERANGE);
    assert_string_equal(err.text,
                        "the loss of option 2 in draw 7 is no number");
    loss[2 * 6 + 1] = 0;
    w = worth_of(2);
    assert_int_equal(dew_worth_of(w, x, 0, &g, NULL), DEW_ERANGE);
    assert_int_equal(dew_worth_of(w, x, 7, &g, NULL), DEW_ERANGE);
    dew_worth_close(w);
    dew_worth_close(NULL);
}

RUN_TESTS_IN("worth of knowing", draw_all, NULL);
