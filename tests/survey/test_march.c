/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Items that march side by side come to the bytes that each comes to alone. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/rows.h"
#include "survey/room.h"
#include "survey/survey.h"

#define HOUSE                                                                  \
    "weather: {place: 722020}\n"                                               \
    "run: {steps_per_hour: 1}\n"                                               \
    "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}\n"    \
    "cooling: {capacity: 2.5 ton}\nlimits: {too_dry: 31 %}\n"                  \
    "prices: {electricity: 0.2 $/kWh}\n"                                       \
    "options:\n- name: now\n- name: core\n"                                    \
    "  ventilator: {core: enthalpy_plate, sensible: 72 % at 100 cfm, "         \
    "moisture: 50 % at 100 cfm, power: 62 W}\n"
/* 12 houses in 2 places; every third has no humidity that would be right, and
   what blows its air parts the rest. */
#define PLAN                                                                   \
    "scenario: house.yaml\nvary:\n"                                            \
    "- {key: cooling.blower, values: [auto, on]}\n"                            \
    "- {key: house.airtightness, values: [0.7 ach50, 2.3 ach50]}\n"            \
    "- {key: limits.too_humid, values: [57 %, 30 %, 63 %]}\n"                  \
    "places: [727530, 722020]\n"
#define DRAWN "scenario: house.yaml\ndraws: 2\n"
#define SEEDED                                                                 \
    "scenario: house.yaml\nvary: [{key: weather.seed, values: [1, 2]}]\n"

enum { HOUSES = 12, ITEMS = 24, ALONE = HOUSES + 3 };

static int open_room(void **state)
{
    (void)state;
    return make_folder() && put("house.yaml", HOUSE) ? 0 : -1;
}

static int close_room(void **state)
{
    (void)state;
    return remove_folder();
}

static struct dew_survey_plan *plan_of(const char *text)
{
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_survey_plan *plan;
    char path[ROOM_PATH];

    assert_true(put("plan.yaml", text));
    if (dew_survey_read(&plan, path_of("plan.yaml", path), &faults) != DEW_OK)
        fail_msg("%s", list[0].text);
    return plan;
}

/* Items up to an end, so many at once at most. */
static struct survey__bytes marched(const struct dew_survey_plan *plan,
                                    size_t end, size_t most)
{
    struct survey__bytes b = {0};
    struct survey__last last = {0};
    struct dew_error err = {0};

    for (size_t i = 0, n; i < end; i += n) {
        n = survey__next(plan, i, end);
        n = n < most ? n : most;
        assert_int_equal(survey__march(plan, i, n, &last, &b, &err), DEW_OK);
    }
    survey__last_close(&last);
    return b;
}

TEST(items_side_by_side_come_to_the_bytes_of_each_alone)
{
    struct dew_survey_plan *plan = plan_of(PLAN);
    struct survey__bytes all = marched(plan, ITEMS, ITEMS);
    struct survey__bytes one = marched(plan, ALONE, 1);
    size_t at = 0, number;
    int fault;

    assert_true(one.length < all.length);
    assert_memory_equal(all.at, one.at, one.length);
    for (size_t i = 0; i < ITEMS; i++) {
        assert_true(i != ALONE || at == one.length);
        at += survey__skip(all.at + at, all.length - at, &number, &fault);
        assert_int_equal(number, i);
        assert_int_equal(fault, i % 3 == 1);
    }
    assert_int_equal(at, all.length);
    free(all.at);
    free(one.at);
    dew_survey_plan_close(plan);
}

TEST(they_march_side_by_side_in_a_place_alone)
{
    struct dew_survey_plan *plan = plan_of(PLAN);

    assert_int_equal(survey__together(plan), SURVEY__TOGETHER);
    assert_int_equal(survey__next(plan, 0, ITEMS), HOUSES);
    assert_int_equal(survey__next(plan, 7, ITEMS), HOUSES - 7);
    assert_int_equal(survey__next(plan, HOUSES, ITEMS), HOUSES);
    assert_int_equal(survey__next(plan, 3, 5), 2);
    dew_survey_plan_close(plan);
}

TEST(houses_with_draws_or_weather_of_their_own_march_by_themselves)
{
    struct dew_survey_plan *plan = plan_of(DRAWN);

    assert_int_equal(survey__together(plan), 1);
    dew_survey_plan_close(plan);
    plan = plan_of(SEEDED);
    assert_int_equal(survey__together(plan), 1);
    dew_survey_plan_close(plan);
}

RUN_TESTS_IN("survey, march", open_room, close_room);
