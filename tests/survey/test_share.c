/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One that hands out and one that has joined, here in the same process: the
   table is that of one alone, and what goes wrong is told. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/rows.h"
#include "survey/room.h"
#include "survey/survey.h"

#define HOUSE                                                                  \
    "run: {steps_per_hour: 1}\nweather: {place: 722020}\n"                     \
    "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}\n"    \
    "options:\n- name: now\n"
#define PLAN                                                                   \
    "scenario: house.yaml\nvary:\n"                                            \
    "- {key: house.airtightness, range: 0.7 to 2.3 ach50, steps: 5}\n"

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
    (void)state;
    dew_survey_plan_close(plan);
    return remove_folder();
}

static struct dew_survey *opened(const char *name, enum dew_survey_how how)
{
    struct dew_survey *s;
    struct dew_error err = {0};
    char path[ROOM_PATH];

    assert_int_equal(dew_survey_open(&s, plan, path_of(name, path), how, &err),
                     DEW_OK);
    return s;
}

/* ---- who hands out, and who asks --------------------------------------------- */

struct pair {
    const char *name;
    struct dew_survey *first;
    size_t most; /* times that items are given, then no more                 */
    size_t given, asked;
};

static void take(void *of, size_t range[2])
{
    struct pair *p = of;

    p->asked++;
    range[0] = range[1] = 0;
    if (p->given < p->most)
        p->given += (size_t)dew_survey_hand(p->first, range);
}

static enum dew_status serve(void *of, struct dew_survey *first,
                             struct dew_error *err)
{
    struct pair *p = of;
    const struct dew_survey_share share = {.of = p, .process = 7, .take = take};
    const struct dew_survey_watch watch = {.share = &share};
    struct dew_survey *joined = opened(p->name, DEW_SURVEY_JOIN);
    struct dew_survey_state state;
    enum dew_status status;

    p->first = first;
    status = dew_survey_run(joined, 2, 0, &watch, err);
    state = dew_survey_state(joined);
    dew_survey_add(first, &state);
    dew_survey_close(joined);
    return status;
}

static size_t marched_by_a_pair(struct pair *p, enum dew_survey_how how)
{
    const struct dew_survey_share share = {
        .of = p, .workers = 2, .serve = serve};
    const struct dew_survey_watch watch = {.share = &share};
    struct dew_survey *s = opened(p->name, how);
    struct dew_error err = {0};
    size_t done;

    assert_int_equal(dew_survey_run(s, 1, 0, &watch, &err), DEW_OK);
    done = dew_survey_state(s).done;
    if (done == dew_survey_state(s).items)
        assert_int_equal(dew_survey_write(s, &err), DEW_OK);
    dew_survey_close(s);
    return done;
}

static void assert_same(const char *a, const char *b)
{
    char line[400];

    snprintf(line, sizeof line, "cmp %s/%s/march.csv %s/%s/march.csv", folder,
             a, folder, b);
    assert_int_equal(system(line), 0);
}

TEST(who_joined_marches_what_is_handed_out_and_goes_on_where_it_was)
{
    struct pair some = {.name = "pair", .most = 2};
    struct pair rest = {.name = "pair", .most = 100};
    struct dew_survey *alone = opened("alone", DEW_SURVEY_NEW);
    char path[ROOM_PATH];

    assert_int_equal(dew_survey_run(alone, 1, 0, NULL, NULL), DEW_OK);
    assert_int_equal(dew_survey_write(alone, NULL), DEW_OK);
    dew_survey_close(alone);
    assert_int_equal(marched_by_a_pair(&some, DEW_SURVEY_NEW), 2);
    assert_int_equal(marched_by_a_pair(&rest, DEW_SURVEY_GO_ON), 5);
    assert_int_equal(rest.given, 3); /* nothing twice */
    assert_int_equal(rest.asked, 5); /* and each of two threads is told so */
    assert_same("alone", "pair");
    assert_int_equal(access(path_of("pair/rows-0007-001", path), F_OK), 0);
    assert_int_not_equal(access(path_of("pair/rows-0000-000", path), F_OK), 0);
}

TEST(who_joined_without_a_share_marches_nothing)
{
    struct dew_survey *first = opened("without", DEW_SURVEY_NEW);
    struct dew_survey *joined = opened("without", DEW_SURVEY_JOIN);

    assert_int_equal(dew_survey_run(joined, 1, 0, NULL, NULL), DEW_OK);
    assert_int_equal(dew_survey_state(joined).done, 0);
    dew_survey_close(joined);
    dew_survey_close(first);
}

TEST(a_folder_without_a_survey_cannot_be_joined)
{
    struct dew_survey *s;
    struct dew_error err = {0};
    char path[ROOM_PATH], want[300];

    assert_int_equal(dew_survey_open(&s, plan, folder, DEW_SURVEY_JOIN, &err),
                     DEW_EMISSING);
    assert_null(s);
    snprintf(want, sizeof want,
             "%s: holds no survey as seen from here: the folder must be on a "
             "disk that all see",
             folder);
    assert_string_equal(err.text, want);
    assert_int_equal(
        dew_survey_open(&s, plan, path_of("none", path), DEW_SURVEY_JOIN, &err),
        DEW_EIO);
}

RUN_TESTS_IN("survey, share", open_room, close_room);
