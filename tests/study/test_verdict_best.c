/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is called best, and what pays, on books written by hand. */
#include "study/judged.h"

/* Present values over 15 years at 3 %: 2400 and 2520 are 5 % apart. */
TEST(best_is_the_cheapest_that_keeps_the_limits)
{
    scene_open(&s, 3);
    scene_humid(&s, 0, JULY, 900);
    s.facts[1].core = s.facts[2].core = DEW_CORE_enthalpy_plate;
    s.costs[1].install = (struct dew_estimate)SAME(4000);
    s.costs[2].install = (struct dew_estimate)SAME(2400);
    judge();
    assert_int_equal(v.best, 2);
    assert_near(NUMBERS(best, 2).money, 2400, 1e-9);
    s.costs[1].install = (struct dew_estimate)SAME(2520);
    judge();
    assert_int_equal(must(FIND(best, 2))->drawn, 0);
    assert_null(FIND(best_close, ANY));
}

/* Of 20 houses: so many in which the first, and the other, is the best. */
static const struct close_row {
    const char *name;
    size_t first, other;
    int close;
} close_rows[] = {
    {"in all", 20, 0, 0},
    {"the other in 3", 15, 3, 0},
    {"the other in 4 of 20", 14, 4, 1},
    {"none will do in most", 6, 3, 0},
    {"the other in more of them", 6, 12, 1},
};

static void a_close_call_is_one_of_houses(void **state)
{
    const struct close_row *r = *state;
    const struct dew_finding *f;

    scene_open(&s, 3);
    scene_humid(&s, 0, JULY, 900);
    s.costs[1].install = (struct dew_estimate)SAME(2520);
    s.costs[2].install = (struct dew_estimate)SAME(2400);
    scene_draw(&s);
    SCENE_DRAWN(&s, 2, 0, r->first, best, 1);
    SCENE_DRAWN(&s, 1, r->first, r->other, best, 1);
    judge();
    assert_int_equal(v.best, 2);
    f = must(r->close ? FIND(best_close, 2) : FIND(best, 2));
    assert_int_equal(f->so, r->first);
    assert_int_equal(f->drawn, 20);
    if (!r->close)
        return;
    assert_int_equal(f->other, 1);
    assert_near(f->number.best_close.other_so, (double)r->other, 0);
    assert_near(f->number.best_close.money, 2400, 1e-9);
    assert_near(f->number.best_close.next_money, 2520, 1e-9);
    assert_true(isnan(f->number.best_close.energy));
    assert_true(isnan(f->number.best_close.next_energy));
}

TEST(the_only_one_that_will_do_is_best_without_a_rival)
{
    scene_open(&s, 2);
    scene_humid(&s, 0, JULY, 900);
    s.costs[1].install = (struct dew_estimate)SAME(4000);
    judge();
    assert_true(NUMBERS(best, 1).only);
    assert_null(FIND(best_close, ANY));
}

TEST(without_prices_energy_decides_and_is_said_so)
{
    scene_open(&s, 2);
    s.question.prices = NULL;
    s.outcomes[0].year.energy.cooling = 900 * KWH;
    s.outcomes[1].year.energy.cooling = 1300 * KWH;
    judge();
    assert_near(NUMBERS(best, 0).energy, 900 * KWH, 1);
    assert_true(isnan(NUMBERS(best, 0).money));
    assert_true(isnan(NUMBERS(best, 0).running));
    assert_false(NUMBERS(best, 0).only);
    assert_non_null(FIND(unpriced, ANY));
    assert_null(FIND(pays_back, ANY));
    s.outcomes[1].year.energy.cooling = 930 * KWH;
    scene_draw(&s);
    SCENE_DRAWN(&s, 0, 0, 10, best, 1);
    SCENE_DRAWN(&s, 1, 10, 10, best, 1);
    judge();
    assert_near(NUMBERS(best_close, 0).energy, 900 * KWH, 1);
    assert_near(NUMBERS(best_close, 0).next_energy, 930 * KWH, 1);
}

static const struct dew_estimate not_told = SAME(NAN);

/* 0.15 $/kWh: 1,000 and 1,200 kWh are 150 and 180 $ a year; option 3 costs as
   much as option 1 in whole dollars and leaves more hours outside. */
static void four_of_which_three_will_do(void)
{
    scene_open(&s, 4);
    scene_humid(&s, 0, JULY, 900);
    s.outcomes[1].year.energy.cooling = 1000 * KWH;
    s.outcomes[2].year.energy.cooling = 1200 * KWH;
    s.outcomes[3].year.energy.cooling = 999 * KWH;
    scene_humid(&s, 3, JULY, 31);
    for (int i = 1; i < 4; i++)
        s.costs[i].install = (struct dew_estimate)SAME(1000 * i);
}

TEST(no_best_by_money_without_a_price_to_install)
{
    size_t list[64];

    four_of_which_three_will_do();
    s.costs[2].install = not_told;
    judge();
    assert_int_equal(v.best, DEW_NO_OPTION);
    assert_null(FIND(best, ANY));
    assert_null(FIND(best_close, ANY));
    assert_null(FIND(best_none, ANY));
    assert_null(FIND(unpriced, ANY)); /* of energy every price is given */
    assert_int_equal(must(FIND(best_open, 1))->other, 3);
    assert_near(NUMBERS(best_open, 1).running, 150, 1e-9);
    assert_near(NUMBERS(best_open, 1).next_running, 149.85, 1e-9);
    assert_int_equal(dew_verdict_passing(&s.question, list), 3);
    assert_int_equal(list[0], 1); /* 31 h less outside, the same dollars */
    assert_int_equal(list[1], 3);
    assert_int_equal(list[2], 2);
}

/* What is cheapest to run is named where a dehumidifier is needed, too; it is
   as dry as any, so no other winner is told. */
TEST(the_first_of_several_is_the_one_named)
{
    four_of_which_three_will_do();
    for (int i = 1; i < 4; i++)
        s.cases[i].plant.dryer.rate = 1e-4;
    s.outcomes[2].year.energy.cooling = 900 * KWH; /* 135 $: the cheapest */
    s.costs[2].install = not_told;
    judge();
    assert_non_null(FIND(best_open, 2));
    assert_non_null(FIND(dryer_needed, 2));
    assert_null(FIND(least_humid, ANY));
}

TEST(a_price_wanting_of_what_will_not_do_is_no_matter)
{
    four_of_which_three_will_do();
    s.costs[3].install = not_told;
    scene_humid(&s, 3, JULY, 700);
    judge();
    assert_int_equal(v.best, 1);
    assert_true(NUMBERS(best, 1).money > 0);
    assert_null(FIND(best_open, ANY));
}

TEST(what_runs_cheaper_stands_first)
{
    size_t list[64];

    four_of_which_three_will_do();
    s.costs[1].install = not_told;
    s.outcomes[3].year.energy.cooling = 980 * KWH; /* 147 $, though damper */
    judge();
    assert_int_equal(must(FIND(best_open, 3))->other, 1);
    assert_int_equal(dew_verdict_passing(&s.question, list), 3);
    assert_int_equal(list[0], 3);
}

TEST(the_only_one_is_best_though_its_price_is_not_told)
{
    scene_open(&s, 2);
    scene_humid(&s, 0, JULY, 900);
    s.outcomes[1].year.energy.cooling = 1000 * KWH;
    s.costs[1].install = not_told;
    judge();
    assert_int_equal(v.best, 1);
    assert_near(NUMBERS(best, 1).running, 150, 1e-9);
    assert_true(isnan(NUMBERS(best, 1).money));
    assert_true(NUMBERS(best, 1).only);
    assert_null(FIND(pays_back, 1));
    assert_null(FIND(never_pays, 1));
}

TEST(none_does_and_the_nearest_is_named)
{
    scene_open(&s, 3);
    for (size_t i = 0; i < 3; i++)
        scene_humid(&s, i, JULY, 600 - 100 * (double)i);
    s.outcomes[1].year.too_dry = 42;
    s.outcomes[1].year.sweat[DEW_GLASS] = 13;
    s.outcomes[2].year.fresh_sum = 0;
    judge();
    assert_int_equal(v.best, DEW_NO_OPTION);
    assert_near(NUMBERS(best_none, 1).humid, 500, 0);
    assert_near(NUMBERS(best_none, 1).dry, 42, 0);
    assert_near(NUMBERS(best_none, 1).glass_wet, 13, 0);
}

TEST(paying_back_within_the_years_or_not)
{
    scene_open(&s, 3);
    s.outcomes[0].year.energy.cooling = 4000 * KWH;
    s.outcomes[1].year.energy.cooling = 2000 * KWH;
    s.outcomes[2].year.energy.cooling = 4200 * KWH;
    s.costs[1].install = (struct dew_estimate){1500, 1200, 1800};
    s.costs[2].install = (struct dew_estimate)SAME(1500);
    judge();
    assert_near(NUMBERS(pays_back, 1).likely, 5, 1e-9);
    assert_near(NUMBERS(pays_back, 1).low, 4, 1e-9);
    assert_near(NUMBERS(pays_back, 1).high, 6, 1e-9);
    assert_near(NUMBERS(never_pays, 2).saved, -30, 1e-9);
    assert_near(NUMBERS(never_pays, 2).install, 1500, 1e-9);
}

ROWS(close_rows, a_close_call_is_one_of_houses);
RUN_TESTS("study, verdict, best");
