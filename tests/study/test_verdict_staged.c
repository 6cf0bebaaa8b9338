/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules about a path in two stages and the reading that decides. */
#include "study/judged.h"

#include <stdio.h>

/* Option 1 becomes option 2 in four of ten cases, after a year, for 4,100. */
static void path(void)
{
    scene_open(&s, 3);
    s.facts[1].core = s.facts[2].core = DEW_CORE_enthalpy_plate;
    s.facts[1].layout = DEW_LAYOUT_mix;
    s.costs[1].install = (struct dew_estimate)SAME(3200);
    s.costs[2].install = (struct dew_estimate)SAME(6900);
    s.costs[1].later = (struct dew_estimate)SAME(4100);
    s.costs[1].later_chance = 0.4;
    s.costs[1].later_after = 1;
    snprintf(s.costs[1].next, sizeof s.costs[1].next, "enthalpy core");
}

/* Nothing runs: only what is bought counts.  15 years at 3 %. */
TEST(both_stages_stand_against_one)
{
    const struct dew_finding *f;

    path();
    judge();
    f = must(FIND(staged, 1));
    assert_int_equal(f->other, 2);
    assert_near(f->number.staged.now, 3200, 0);
    assert_near(f->number.staged.later, 4100, 0);
    assert_near(f->number.staged.chance, 0.4, 0);
    assert_near(f->number.staged.both, 3200 + 0.4 * 4100 / 1.03, 1e-9);
    assert_near(f->number.staged.at_once, 6900, 1e-9);
    assert_near(f->number.staged.even_chance, 3700 / (4100 / 1.03), 1e-12);
    assert_null(FIND(staged, 2));
}

TEST(a_path_needs_its_end_and_prices)
{
    path();
    s.question.prices = NULL;
    judge();
    assert_null(FIND(staged, ANY));
    assert_non_null(FIND(reading, 1)); /* that needs none */
    path();
    snprintf(s.costs[1].next, sizeof s.costs[1].next, "no such option");
    judge();
    assert_null(FIND(staged, ANY));
    assert_null(FIND(reading, ANY));
    path();
    snprintf(s.costs[1].next, sizeof s.costs[1].next, "heat core"); /* itself */
    judge();
    assert_null(FIND(staged, ANY));
}

/* 5 % of the 744 h of July are 37.2 h. */
TEST(humidity_is_read_in_the_worst_month)
{
    const struct dew_finding *f;

    path();
    scene_humid(&s, 1, MAY, 20);
    scene_humid(&s, 1, JULY, 61);
    judge();
    f = must(FIND(reading, 1));
    assert_int_equal(f->number.reading.what, DEW_READING_humidity);
    assert_near(f->number.reading.days, 31, 0);
    assert_near(f->number.reading.humid_limit, 37.2, 1e-9);
    assert_near(f->number.reading.humid, 61, 0);
    assert_true(isnan(f->number.reading.air));
    assert_true(isnan(f->number.reading.co2));
    assert_int_equal(f->months, 1U << JULY);
}

TEST(air_is_read_against_what_is_asked)
{
    path();
    s.costs[1].reading = DEW_READING_air_flow;
    judge();
    assert_near(NUMBERS(reading, 1).air_limit, 0.95 * 0.035, 1e-12);
    assert_near(NUMBERS(reading, 1).air, 0.040, 1e-12);
    s.outcomes[1].required = 0;
    judge();
    assert_null(FIND(reading, 1));
}

/* Four people of 5.2e-6 m3/s in 35 l/s: 594 ppm above 420. */
TEST(breath_is_read_against_the_steady_rise)
{
    path();
    s.costs[1].reading = DEW_READING_carbon_dioxide;
    s.cases[1].house.people.count = 4;
    s.cases[1].house.people.co2 = 5.2e-6;
    s.cases[1].house.co2_outdoors = 420;
    s.outcomes[1].year.co2_sum = 731.0 * 8760;
    judge();
    assert_near(NUMBERS(reading, 1).co2_limit, 420 + 20.8e-6 / 0.035 * 1e6,
                1e-9);
    assert_near(NUMBERS(reading, 1).co2, 731, 1e-9);
}

RUN_TESTS("study, two stages");
