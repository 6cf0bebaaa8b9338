/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules about new-house water, on books written by hand. */
#include "study/judged.h"

/* Option 0 with 20 kg a day at first, half-life 180 days, adding 6 points of
   RH all year; its dry twin is too humid in as many hours as given. */
static struct dew_outcome dry_twin;
static double damp_rh[SCENE_HOURS], dry_rh[SCENE_HOURS];

static void new_house(double humid_once_dry)
{
    scene_open(&s, 2);
    scene_humid(&s, 0, JULY, 900);
    dry_twin = s.outcomes[0];
    dry_twin.year.too_humid = humid_once_dry;
    for (int h = 0; h < SCENE_HOURS; h++) {
        damp_rh[h] = 0.58;
        dry_rh[h] = 0.52;
    }
    s.outcomes[0].count = dry_twin.count = SCENE_HOURS;
    s.outcomes[0].series.rh = damp_rh;
    dry_twin.series.rh = dry_rh;
    s.choices[0].settled = &dry_twin;
    s.facts[0].half_life = (struct dew_estimate){180, 90, 365};
    s.cases[0].house.water[DEW_SOURCE_drying] =
        (struct dew_water){.per_day = 20, .half_life = 180};
    judge();
}

/* 6 points at day 351 (the middle of the last four weeks) are 1 point after
   log2(6) = 2.585 half-lives more. */
TEST(the_end_of_drying_is_told)
{
    new_house(900);
    assert_near(NUMBERS(drying_ends, 0).likely / 24, 351 + 180 * log2(6), 1e-9);
    assert_true(NUMBERS(drying_ends, 0).low < NUMBERS(drying_ends, 0).likely);
    assert_true(NUMBERS(drying_ends, 0).high > NUMBERS(drying_ends, 0).likely);
    scene_open(&s, 2);
    judge();
    assert_null(FIND(drying_ends, ANY));
    assert_null(FIND(settled, ANY));
}

TEST(waiting_a_season_is_advised_where_it_helps)
{
    new_house(176);
    assert_null(FIND(wait, ANY)); /* 2 % of the year is 175.2 h */
    new_house(175);
    s.outcomes[0].year.too_dry = 40;
    dry_twin.year.too_dry = 90;
    judge();
    assert_near(NUMBERS(wait, 0).humid_once_dry, 175, 0);
    assert_near(NUMBERS(wait, 0).humid_now, 900, 0);
    assert_near(NUMBERS(wait, 0).dry_once_dry, 90, 0);
    assert_near(NUMBERS(wait, 0).dry_now, 40, 0);
    s.outcomes[0].year.too_humid = 100; /* nothing is wrong now either */
    judge();
    assert_null(FIND(wait, ANY));
}

/* Now only option 1 keeps the limits; once dry the house as it stands does,
   for nothing. */
TEST(the_lasting_answer_is_kept_apart)
{
    new_house(100);
    s.costs[1].install = (struct dew_estimate)SAME(4000);
    judge();
    assert_int_equal(v.best, 1);
    assert_int_equal(must(FIND(settled, 0))->other, 1);
    assert_near(NUMBERS(settled, 0).humid_once_dry, 100, 0);
    assert_false(NUMBERS(settled, 0).cheapest_to_run);
    s.costs[1].install = (struct dew_estimate)SAME(NAN);
    judge(); /* both will do once dry, and which is best is open */
    assert_true(NUMBERS(settled, 1).cheapest_to_run);
    dry_twin.year.too_humid = 900;
    judge();
    assert_non_null(FIND(settled, 1));
    assert_false(NUMBERS(settled, 1).cheapest_to_run);
    s.outcomes[1].year.too_dry = 900;
    judge();
    assert_non_null(FIND(settled, DEW_NO_OPTION));
}

RUN_TESTS("study, new-house water");
