/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Regression judged on points left out. */
#include "support/rows.h"

#include <string.h>

#include "core/num.h"
#include "core/smooth.h"

enum { N = 500 };

static double u[N * 3], x[3][N], y[N], out[N];

static int draw_all(void **state)
{
    const struct core__draws d = {N, 3, 7};

    (void)state;
    if (core__draw(&d, u, NULL) != DEW_OK)
        return 1;
    for (size_t i = 0; i < N; i++)
        for (int k = 0; k < 3; k++)
            x[k][i] = 3 * u[3 * i + (size_t)k] - 0.7;
    return 0;
}

static void predict(size_t inputs, const uint32_t *order)
{
    const struct core__smoothing of = {N, inputs, 1, {x[0], x[1], x[2]}};
    struct core__smooth *s;

    assert_int_equal(core__smooth_open(&s, &of, NULL), DEW_OK);
    assert_int_equal(core__smooth_left_out(s, y, order, out, NULL), DEW_OK);
    core__smooth_close(s);
}

/* What the basis holds, a fit returns, whichever points it has seen. */
TEST(a_line_is_found_from_the_other_points)
{
    for (size_t i = 0; i < N; i++)
        y[i] = 2.7 - 1.3 * x[0][i];
    predict(1, NULL);
    for (size_t i = 0; i < N; i++)
        assert_near(out[i], y[i], 1e-6);
}

TEST(lines_and_the_products_of_pairs_are_found)
{
    for (size_t i = 0; i < N; i++)
        y[i] = 2.7 - 1.3 * x[0][i] + 0.4 * x[1][i] * x[0][i] -
               0.9 * x[2][i] * x[1][i] + 1.1 * x[2][i];
    predict(3, NULL);
    for (size_t i = 0; i < N; i++)
        assert_near(out[i], y[i], 1e-5);
}

/* A natural spline through seven points of a half wave of 3 long. */
TEST(a_wave_is_followed)
{
    for (size_t i = 0; i < N; i++)
        y[i] = sin(2.1 * x[0][i]);
    predict(1, NULL);
    for (size_t i = 0; i < N; i++)
        assert_near(out[i], y[i], 0.08); /* most at the ends          */
}

/* The prediction at a point hangs on the others alone, and on most of them. */
TEST(a_point_is_predicted_without_itself)
{
    static double before[N];
    int moved = 0;

    for (size_t i = 0; i < N; i++)
        y[i] = x[0][i] * x[0][i];
    predict(1, NULL);
    memcpy(before, out, sizeof out);
    y[123] += 1000;
    predict(1, NULL);
    for (size_t i = 0; i < N; i++)
        moved += fabs(out[i] - before[i]) > 1e-6;
    assert_near(out[123], before[123], 1e-12);
    assert_int_equal(moved, N - N / 10); /* all but its own part             */
}

/* Points of a sequence go by turns: the parts must not, or what every tenth
   point has would be seen by no fit to the others. */
TEST(a_part_left_out_is_not_every_tenth)
{
    double sum = 0;

    for (size_t i = 0; i < N; i++)
        y[i] = i % 10 == 3 ? 1 : 0;
    predict(1, NULL);
    for (size_t i = 3; i < N; i += 10)
        sum += out[i] * 10 / N;
    assert_near(sum, 0.1, 0.04);
}

/* Where the input has few values: the means of the other points that have the
   same, by hand. */
TEST(few_values_have_their_means)
{
    double own[3] = {0, 0, 0}, all[3] = {0, 0, 0};
    static double code[N];
    const struct core__smoothing of = {N, 1, 1, {code}};
    struct core__smooth *s;

    for (size_t i = 0; i < N; i++) {
        size_t c = (i * 7) % 3;

        code[i] = (double)c * 1.5;
        y[i] = (double)(c * c) + u[3 * i];
        all[c] += y[i];
        own[c] += 1;
    }
    assert_int_equal(core__smooth_open(&s, &of, NULL), DEW_OK);
    assert_int_equal(core__smooth_left_out(s, y, NULL, out, NULL), DEW_OK);
    core__smooth_close(s);
    for (size_t i = 0; i < N; i++) {
        size_t c = (i * 7) % 3;

        assert_near(out[i], all[c] / own[c], 0.03);
    }
}

/* Sixteen values in no order, as of years: each has its mean, as by a spline
   none would. */
TEST(values_without_order_have_their_means)
{
    static double code[N];
    const struct core__smoothing of = {N, 1, 1, {code}};
    struct core__smooth *s;

    for (size_t i = 0; i < N; i++) {
        code[i] = (double)(i % 16);
        y[i] = i % 16 % 2 ? 3.5 : -1.25;
    }
    assert_int_equal(core__smooth_open(&s, &of, NULL), DEW_OK);
    assert_int_equal(core__smooth_left_out(s, y, NULL, out, NULL), DEW_OK);
    core__smooth_close(s);
    for (size_t i = 0; i < N; i++)
        assert_near(out[i], y[i], 1e-4);
}

/* A value that only the points left out have: nothing is known of it. */
TEST(a_value_not_seen_is_told_as_nothing)
{
    static double code[N];
    const struct core__smoothing of = {N, 1, 1, {code}};
    struct core__smooth *s;

    memset(code, 0, sizeof code);
    code[77] = 1;
    for (size_t i = 0; i < N; i++)
        y[i] = 5;
    assert_int_equal(core__smooth_open(&s, &of, NULL), DEW_OK);
    assert_int_equal(core__smooth_left_out(s, y, NULL, out, NULL), DEW_OK);
    core__smooth_close(s);
    assert_near(out[77], 0, 1e-9);
    assert_near(out[78], 5, 1e-6);
}

TEST(a_figure_that_does_not_vary_tells_the_mean)
{
    static double flat[N];
    const struct core__smoothing of = {N, 1, 1, {flat}};
    struct core__smooth *s;

    for (size_t i = 0; i < N; i++) {
        flat[i] = 2.5;
        y[i] = u[3 * i];
    }
    assert_int_equal(core__smooth_open(&s, &of, NULL), DEW_OK);
    assert_int_equal(core__smooth_left_out(s, y, NULL, out, NULL), DEW_OK);
    core__smooth_close(s);
    for (size_t i = 0; i < N; i++)
        assert_near(out[i], 0.5, 0.01);
}

TEST(an_order_hands_the_inputs_round)
{
    static uint32_t order[N];

    for (size_t i = 0; i < N; i++)
        order[i] = (uint32_t)((i * 7 + 3) % N);
    for (size_t i = 0; i < N; i++)
        y[i] = 3 * x[0][order[i]];
    predict(1, order);
    for (size_t i = 0; i < N; i++)
        assert_near(out[i], y[i], 1e-6);
}

TEST(what_is_no_fit_is_refused)
{
    struct core__smoothing few = {N, 0, 1, {x[0]}};
    struct core__smooth *s = NULL;
    struct dew_error err = {0};
    double kept = x[0][4];

    assert_int_equal(core__smooth_open(&s, &few, &err), DEW_ERANGE);
    assert_string_equal(err.text,
                        "a fit of 1 responses to 0 inputs at 500 points is "
                        "outside 1 .. 64, 1 .. 6, 50 and more");
    assert_null(s);
    few.inputs = 7;
    assert_int_equal(core__smooth_open(&s, &few, NULL), DEW_ERANGE);
    few.inputs = 1;
    few.n = 49;
    assert_int_equal(core__smooth_open(&s, &few, NULL), DEW_ERANGE);
    few.n = N;
    few.responses = 65;
    assert_int_equal(core__smooth_open(&s, &few, NULL), DEW_ERANGE);
    few.responses = 1;
    x[0][4] = NAN;
    err = (struct dew_error){0};
    assert_int_equal(core__smooth_open(&s, &few, &err), DEW_ERANGE);
    assert_string_equal(err.text, "input 1 of a fit is not finite at point 5");
    x[0][4] = kept;
    assert_int_equal(core__smooth_open(&s, &few, NULL), DEW_OK);
    y[9] = INFINITY;
    assert_int_equal(core__smooth_left_out(s, y, NULL, out, NULL), DEW_ESOLVE);
    core__smooth_close(s);
    core__smooth_close(NULL);
}

RUN_TESTS_IN("smooth fits", draw_all, NULL);
