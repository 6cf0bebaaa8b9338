/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What ventilation alone does, on books written by hand. */
#include "study/judged.h"

/* Today 900 humid hours in July and August; heat core as given. */
static void humid_house(double heat_core_july)
{
    scene_open(&s, 2);
    scene_humid(&s, 0, JULY, 500);
    scene_humid(&s, 0, AUGUST, 400);
    scene_humid(&s, 1, JULY, heat_core_july);
    s.facts[1].core = DEW_CORE_heat_plate;
    judge();
}

TEST(ventilation_alone_fixes_it)
{
    humid_house(120);
    assert_near(NUMBERS(air_fixes, 1).humid, 120, 0);
    assert_near(NUMBERS(air_fixes, 1).today, 900, 0);
    assert_null(FIND(air_fails, ANY));
    assert_null(FIND(air_worsens, ANY));
}

TEST(ventilation_alone_fails_in_its_months)
{
    humid_house(420);
    assert_int_equal(must(FIND(air_fails, 1))->months, 1U << JULY);
    assert_near(NUMBERS(air_fails, 1).humid, 420, 0);
    assert_near(NUMBERS(air_fails, 1).today, 900, 0);
    assert_null(FIND(air_fixes, ANY));
}

TEST(ventilation_makes_a_month_worse)
{
    humid_house(620);
    assert_int_equal(must(FIND(air_worsens, 1))->months, 1U << JULY);
    assert_near(NUMBERS(air_worsens, 1).humid, 620, 0);
    assert_near(NUMBERS(air_worsens, 1).today, 900, 0);
    assert_near(NUMBERS(air_worsens, 1).added, 120, 0);
}

/* Today ventilates alone at 900 h; the other option is worse. */
TEST(today_is_one_of_those_that_ventilate_alone)
{
    humid_house(1100);
    s.facts[0].core = DEW_CORE_heat_plate;
    judge();
    assert_near(NUMBERS(air_fails, 0).humid, 900, 0);
    assert_null(FIND(air_fails, 1));
    assert_near(NUMBERS(least_humid, 0).humid, 900, 0);
}

/* 175.2 h are allowed: 176 too dry is no fix without a word, and what nobody
   tried against it is asked for. */
TEST(air_that_cures_damp_may_dry_too_far)
{
    humid_house(120);
    scene_dry(&s, 1, 0, 175);
    judge();
    assert_true(isnan(NUMBERS(air_fixes, 1).dry));
    assert_null(FIND(wetter_untried, ANY));
    scene_dry(&s, 1, 0, 1);
    s.outcomes[0].year.fresh_sum = 0; /* today has no air to speak of */
    judge();
    assert_near(NUMBERS(air_fixes, 1).dry, 176, 0);
    assert_near(NUMBERS(wetter_untried, 1).dry, 176, 0);
    s.cases[1].plant.control.winter_rh[0] = 0.40;
    judge();
    assert_null(FIND(wetter_untried, ANY));
    s.cases[1].plant.control.winter_rh[0] = 0;
    s.cases[1].plant.humidifier.rate = 1e-4;
    judge();
    assert_null(FIND(wetter_untried, ANY));
}

/* All too dry: the least of those that bring the air asked for is named. */
TEST(the_least_dry_that_brings_air_is_asked_for_water)
{
    scene_open(&s, 3);
    scene_dry(&s, 0, 0, 400);
    scene_dry(&s, 1, 0, 300);
    scene_dry(&s, 2, 0, 350);
    judge();
    assert_near(NUMBERS(wetter_untried, 1).dry, 300, 0);
    assert_null(FIND(wetter_untried, 0));
    assert_null(FIND(wetter_untried, 2));
    s.outcomes[1].year.fresh_sum = 0;
    judge();
    assert_near(NUMBERS(wetter_untried, 2).dry, 350, 0);
}

/* Two options alike at 200 h, and none keeps the limits: both are counted;
   where one is the best, no other winner is named. */
TEST(a_tie_names_no_second_winner)
{
    scene_open(&s, 3);
    scene_humid(&s, 0, JULY, 700);
    scene_humid(&s, 1, JULY, 200);
    scene_humid(&s, 2, JULY, 200);
    judge();
    assert_near(NUMBERS(least_humid, 1).alike, 2, 0);
    s.outcomes[1].year.too_humid = s.outcomes[2].year.too_humid = 0;
    judge();
    assert_int_equal(v.best, 1);
    assert_null(FIND(least_humid, ANY));
    s.outcomes[1].year.too_humid = 100;
    s.outcomes[2].year.energy.cooling = 3e9; /* dearer, and less humid */
    judge();
    assert_int_equal(v.best, 1);
    assert_near(NUMBERS(least_humid, 2).humid, 0, 0);
}

RUN_TESTS("study/verdict_options");
