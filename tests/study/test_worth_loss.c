/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Losses of houses drawn, by hand. */
#include <string.h>

#include "dew/worth.h"
#include "support/rows.h"

enum { N = 60, OPTIONS = 2 };

static struct dew_drawn each[N * OPTIONS];
static double loss[N * OPTIONS];

/* 0.50, 0.25 and 0.10 money an hour; two years without interest. */
static const struct dew_prices prices = {.too_humid = 0.50 / 3600,
                                         .too_dry = 0.25 / 3600,
                                         .short_of_air = 0.10 / 3600,
                                         .interest = 0,
                                         .years = 2};

static struct dew_draws draws_of(void)
{
    return (struct dew_draws){.count = N, .options = OPTIONS, .each = each};
}

/* Every other house is damp; option 1 costs more, and dries it. */
static int fill(void **state)
{
    (void)state;
    for (size_t i = 0; i < N; i++) {
        each[2 * i] = (struct dew_drawn){.too_humid = i % 2 ? 3100 : 40,
                                         .too_dry = 20,
                                         .short_of_air = 70,
                                         .present = 510};
        each[2 * i + 1] = (struct dew_drawn){
            .too_humid = 10, .too_dry = 60, .short_of_air = 0, .present = 2710};
    }
    return 0;
}

TEST(a_loss_is_the_cost_and_the_price_of_the_hours)
{
    struct dew_draws d = draws_of();

    assert_int_equal(dew_worth_losses(&d, &prices, loss), DEW_WORTH_MONEY);
    assert_near(loss[0], 510 + 2 * (20 + 5 + 7), 1e-9);
    assert_near(loss[1], 2710 + 2 * (5 + 15), 1e-9);
    assert_near(loss[2], 510 + 2 * (1550 + 5 + 7), 1e-9);
}

TEST(years_to_come_are_worth_less)
{
    struct dew_draws d = draws_of();
    struct dew_prices dear = prices;

    dear.interest = 0.25; /* 1 / 1.25 + 1 / 1.25^2 = 1.44                    */
    (void)dew_worth_losses(&d, &dear, loss);
    assert_near(loss[1], 2710 + 1.44 * 20, 1e-9);
}

TEST(where_a_price_is_open_the_hours_alone_are_lost)
{
    struct dew_draws d = draws_of();
    double kept = each[5].present;

    each[5].present = NAN;
    assert_int_equal(dew_worth_losses(&d, &prices, loss), DEW_WORTH_HOURS);
    each[5].present = kept;
    assert_near(loss[0], 32, 1e-9);
    assert_near(loss[1], 20, 1e-9);
}

/* Known which house it is, the damp half buys: (0 + 2 * 1562 - 2240) / 2. */
TEST(what_a_choice_saves_is_told_apart)
{
    struct dew_draws d = draws_of();
    const struct dew_worth_table of = {N, OPTIONS, loss};
    static double damp[N];
    const double *x[] = {damp};
    struct dew_worth_saved saved;
    struct dew_worth_gain g;
    struct dew_worth *w;

    for (size_t i = 0; i < N; i++)
        damp[i] = (double)(i % 2);
    (void)dew_worth_losses(&d, &prices, loss);
    assert_int_equal(dew_worth_open(&w, &of, NULL), DEW_OK);
    assert_int_equal(dew_worth_best(w), 0); /* 2104 of 2750                  */
    assert_int_equal(dew_worth_of(w, x, 1, &g, NULL), DEW_OK);
    saved = dew_worth_saved(w, &d);
    dew_worth_close(w);
    assert_near(g.value, (510 + 3124 - 2750) / 2.0, 1e-9);
    assert_near(saved.money, (510 - 2710) / 2.0, 1e-9);
    assert_near(saved.too_humid, (3100 - 10) / 2.0, 1e-9);
    assert_near(saved.too_dry, (20 - 60) / 2.0, 1e-9);
    assert_near(saved.short_of_air, 70 / 2.0, 1e-9);
    assert_near(g.turned, 0.5, 0);
}

RUN_TESTS_IN("losses of houses drawn", fill, NULL);
