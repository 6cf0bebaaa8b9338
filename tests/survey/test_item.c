/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an item came to, as bytes and back; cut bytes are no item. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "dew/spread.h"
#include "support/rows.h"
#include "survey/room.h"
#include "survey/survey.h"

#define HOUSE                                                                  \
    "run: {steps_per_hour: 1}\nweather: {place: 722020}\n"                     \
    "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}\n"    \
    "cooling: {capacity: 2.5 ton}\nlimits: {too_dry: 31 %}\n"                  \
    "options:\n- name: now\n- name: more\n"                                    \
    "  ventilator: {core: exhaust_only, power: 12 W}\n"
#define PLAN                                                                   \
    "scenario: house.yaml\ndraws: 3\nseed: 5\nvary:\n"                         \
    "- {key: house.airtightness, values: [0.7 ach50, 2.3 ach50]}\n"            \
    "- {key: limits.too_humid, values: [57 %, 30 %]}\n"                        \
    "places: [727530, 722020]\n"

static struct dew_survey_plan *plan;

static int open_room(void **state)
{
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    char path[ROOM_PATH];

    (void)state;
    if (!make_folder() || !put("house.yaml", HOUSE) || !put("plan.yaml", PLAN))
        return -1;
    return dew_survey_read(&plan, path_of("plan.yaml", path), &faults) == DEW_OK
               ? 0
               : -1;
}

static int close_room(void **state)
{
    char path[ROOM_PATH];

    (void)state;
    dew_survey_plan_close(plan);
    unlink(path_of("house.yaml", path));
    unlink(path_of("plan.yaml", path));
    return rmdir(folder);
}

static struct survey__bytes marched(size_t item, struct survey__last *last)
{
    struct survey__bytes b = {NULL, 0, 0, 0};
    struct dew_error err = {0};

    assert_int_equal(survey__march(plan, item, 1, last, &b, &err), DEW_OK);
    return b;
}

/* The same by the library's own calls, without a plan. */
static void spread_of(struct dew_run **run, struct dew_spread **spread)
{
    static const char *const sets[] = {"weather.place=722020",
                                       "limits.too_humid=57 %",
                                       "house.airtightness=2.3 ach50"};
    const struct dew_run_ask ask = {.name = "x",
                                    .text = HOUSE,
                                    .length = strlen(HOUSE),
                                    .sets = sets,
                                    .set_count = COUNT_OF(sets),
                                    .threads = 1};
    const struct dew_spread_ask how = {
        .draws = 3, .seed = 5, .threads = 1, .years = 1, .model = 1};
    struct dew_error list[2] = {{0}};
    struct dew_faults faults = {list, 2, 0};
    double done = 0;

    assert_int_equal(dew_run_open(run, &ask, &faults), DEW_OK);
    assert_int_equal(dew_spread_open(spread, *run, &how, NULL), DEW_OK);
    while (done < 1)
        assert_int_equal(dew_spread_step(*spread, &done, NULL), DEW_OK);
}

static void row_is(const struct dew_drawn *got, const struct dew_drawn *want)
{
    for (int k = 0; k < DEW_DRAWN_FIGURES; k++) {
        double x = dew_drawn_figure(want, (enum dew_drawn_what)k);
        double y = dew_drawn_figure(got, (enum dew_drawn_what)k);

        assert_memory_equal(&x, &y, sizeof x); /* NaN too */
    }
    assert_int_equal(got->keeps, want->keeps);
    assert_int_equal(got->ventilates, want->ventilates);
    assert_int_equal(got->best, want->best);
}

/* Items of the second place: 4 .. 7; house 2 of it shares the year that house
   0 made. */
TEST(an_item_is_what_the_library_comes_to)
{
    struct survey__last last = {0};
    struct survey__bytes first = marched(4, &last), b = marched(6, &last);
    struct survey__item item;
    struct dew_run *run;
    struct dew_spread *spread;
    struct dew_drawn row;

    assert_int_equal(survey__unpack(plan, b.at, b.length, &item), b.length);
    assert_int_equal(item.number, 6);
    assert_int_equal(item.rows, 2 * 4);
    assert_string_equal(item.where.name, "Miami Intl Airport");
    assert_string_equal(item.where.state, "FL");
    assert_near(item.where.latitude, 25.817, 1e-9);
    assert_near(item.known[0], 2.3, 1e-12);
    assert_near(item.known[1], 0.57, 1e-12);
    spread_of(&run, &spread);
    for (size_t i = 0; i < 2; i++)
        for (size_t d = 0; d < 4; d++) {
            survey__row(&item, 4 * i + d, &row);
            row_is(&row, dew_spread_house(spread, d > 0 ? d - 1 : 3, i));
        }
    dew_spread_close(spread);
    dew_run_close(run);
    survey__last_close(&last);
    free(first.at);
    free(b.at);
}

TEST(a_house_that_does_not_fit_is_kept_as_a_fault)
{
    struct survey__last last = {0};
    struct survey__bytes b = marched(1, &last);
    struct survey__item item;

    assert_null(last.run);
    assert_int_equal(survey__unpack(plan, b.at, b.length, &item), b.length);
    assert_int_equal(item.rows, 0);
    assert_string_equal(item.text,
                        "limits.too_dry: is not below limits.too_humid: no "
                        "humidity would be right");
    free(b.at);
}

TEST(cut_bytes_are_no_item)
{
    struct survey__last last = {0};
    struct survey__bytes b = marched(1, &last);
    struct survey__item item;

    for (size_t n = 0; n < b.length; n++)
        assert_int_equal(survey__unpack(plan, b.at, n, &item), 0);
    b.at[b.length - 1] = 'x'; /* a text without its end */
    assert_int_equal(survey__unpack(plan, b.at, b.length, &item), 0);
    free(b.at);
}

RUN_TESTS_IN("survey, item", open_room, close_room);
