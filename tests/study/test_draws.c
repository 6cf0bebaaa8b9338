/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Counting what many houses came to, by hand. */
#include "support/rows.h"

#include "dew/draws.h"

/* ---- intervals ---------------------------------------------------------- */

/* [NEWCOMBE98] table I, method 3. */
static const struct score_row {
    const char *name;
    size_t count, draws;
    double low, high;
} score_rows[] = {
    {"81 of 263", 81, 263, 0.2553, 0.3662},
    {"15 of 148", 15, 148, 0.0624, 0.1605},
    {"0 of 20", 0, 20, 0.0000, 0.1611},
    {"1 of 29", 1, 29, 0.0061, 0.1718},
};

static void the_interval_is_that_published(void **state)
{
    const struct score_row *row = *state;
    struct dew_draws_interval in = dew_draws_interval(row->count, row->draws);

    assert_near(in.low, row->low, 0.00005);
    assert_near(in.high, row->high, 0.00005);
    in = dew_draws_interval(row->draws - row->count, row->draws);
    assert_near(in.low, 1 - row->high, 0.00005);
    assert_near(in.high, 1 - row->low, 0.00005);
}

TEST(no_draws_tell_nothing)
{
    assert_nan(dew_draws_interval(0, 0).low);
    assert_nan(dew_draws_interval(8, 7).high);
    assert_near(dew_draws_interval(7, 7).high, 1, 0);
}

/* ---- what is counted ---------------------------------------------------- */

enum { DRAWS = 11, OPTIONS = 3 };
static struct dew_drawn each[DRAWS * OPTIONS], told[OPTIONS];
static double room[DRAWS];
static const struct dew_draws draws = {.count = DRAWS,
                                       .options = OPTIONS,
                                       .told = told,
                                       .each = each,
                                       .room = room};

/* Option i in draw k has 100 i + k' hours, k' each of 0 .. 10 once, not in
   order; 0 keeps in 7, 1 is best in 5, 2 in 3, none in the other 3. */
static void count_by_hand(void)
{
    for (int k = 0; k < DRAWS; k++)
        for (int i = 0; i < OPTIONS; i++) {
            struct dew_drawn *x = &each[k * OPTIONS + i];

            *x = (struct dew_drawn){.too_humid = 100 * i + 4 * k % DRAWS,
                                    .energy = 1e9 * (7 * k % DRAWS),
                                    .keeps = i == 0 && k < 7,
                                    .ventilates = i != 1 || k % 2,
                                    .best = i == 1 ? k < 5 : i == 2 && k > 7};
            x->humid_month[6] = 10 * i + 3 * k % DRAWS;
            told[i].too_humid = 41 + i;
            told[i].humid_month[6] = 17 + i;
        }
}

TEST(hours_are_quantiles)
{
    struct dew_draws_range r;

    count_by_hand();
    r = dew_draws_range(&draws, 2, DEW_DRAWN_too_humid);
    assert_near(r.p10, 201, 1e-12);
    assert_near(r.p50, 205, 1e-12);
    assert_near(r.p90, 209, 1e-12);
    assert_near(r.told, 43, 0);
    r = dew_draws_month(&draws, 1, 6);
    assert_near(r.p10, 11, 1e-12);
    assert_near(r.p50, 15, 1e-12);
    assert_near(r.p90, 19, 1e-12);
    assert_near(r.told, 18, 0);
    assert_near(dew_draws_range(&draws, 0, DEW_DRAWN_energy).p90, 9e9, 1e-3);
    each[4 * OPTIONS].energy = NAN; /* no range without one of them */
    assert_nan(dew_draws_range(&draws, 0, DEW_DRAWN_energy).p50);
}

TEST(draws_are_counted)
{
    const struct dew_draws_shares want[OPTIONS] = {
        {7, 11, 0}, {0, 5, 5}, {0, 11, 3}};

    count_by_hand();
    for (size_t i = 0; i < OPTIONS; i++) {
        struct dew_draws_shares got = dew_draws_shares(&draws, i);

        assert_int_equal(got.keeps, want[i].keeps);
        assert_int_equal(got.ventilates, want[i].ventilates);
        assert_int_equal(got.best, want[i].best);
    }
    assert_int_equal(dew_draws_none(&draws), 3);
    assert_int_equal(dew_draws_best(&draws), 1);
}

ROWS(score_rows, the_interval_is_that_published);
RUN_TESTS("study, draws");
