/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a plan: each fault by its place, and which houses a plan has. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/out.h"
#include "dew/survey.h"
#include "support/rows.h"
#include "survey/survey.h"

enum { FAULTS = 20, LINE = 500 };

static char folder[] = "/tmp/dew-plan-XXXXXX";

static void put(const char *name, const char *text)
{
    struct core__out out;
    char path[80];

    snprintf(path, sizeof path, "%s/%s", folder, name);
    assert_int_equal(core__out_open(&out, path, CORE__OUT_OVER, NULL), DEW_OK);
    fputs(text, out.file);
    assert_int_equal(core__out_close(&out, NULL), DEW_OK);
}

static int open_room(void **state)
{
    (void)state;
    if (mkdtemp(folder) == NULL)
        return -1;
    put("house.yaml", "house: {floor_area: 1830 ft2, bedrooms: 3, "
                      "airtightness: 1.3 ach50}\n"
                      "weather: {place: 722020}\n"
                      "options:\n- name: now\n- name: more\n"
                      "  ventilator: {core: exhaust_only, power: 12 W}\n");
    put("bare.yaml", "house: {floor_area: 1830 ft2, bedrooms: 3, "
                     "airtightness: 1.3 ach50}\nweather: {place: 722020}\n");
    put("bad.yaml", "house: {floor_area: 1830, bedrooms: 3, "
                    "airtightness: 1.3 ach50}\nweather: {place: 722020}\n");
    put("houses.csv", "house.airtightness,people.count\n0.7 ach50,2\n"
                      "# between\n\n1.9 ach50,5\n");
    put("bad.csv", "house.airtightness,people.count\n0.7,2\n1.9 ach50\n"
                   "1 ach50,many\n9000 cfm50,,3\n");
    put("names.csv", "house.airtightnes,people.count,people.count\n1,2,3\n");
    put("none.csv", "people.count\n");
    return 0;
}

static int close_room(void **state)
{
    static const char *const names[] = {"house.yaml", "bare.yaml", "bad.yaml",
                                        "houses.csv", "bad.csv",   "names.csv",
                                        "none.csv",   "plan.yaml"};
    char path[80];

    (void)state;
    for (size_t i = 0; i < COUNT_OF(names); i++) {
        snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        unlink(path);
    }
    return rmdir(folder);
}

/* All faults as lines, the folder's name left out. */
static struct dew_survey_plan *read_plan(const char *text, char *lines,
                                         size_t size)
{
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_survey_plan *plan;
    char path[80], line[LINE];
    size_t used = 0;

    put("plan.yaml", text);
    snprintf(path, sizeof path, "%s/plan.yaml", folder);
    lines[0] = '\0';
    dew_survey_read(&plan, path, &faults);
    for (size_t i = 0; i < faults.count && used < size; i++) {
        dew_error_line(&list[i], line, sizeof line);
        used += (size_t)snprintf(lines + used, size - used, "%s\n",
                                 strncmp(line, folder, sizeof folder - 1) == 0
                                     ? line + sizeof folder
                                     : line);
    }
    assert_int_equal(plan == NULL, faults.count > 0);
    return plan;
}

#define HEAD "scenario: house.yaml\n"

/* clang-format off */
static const struct fault_row {
    const char *name, *plan, *says;
} fault_rows[] = {
    {"nothing", "", "plan.yaml: a plan is keys with their values: scenario: house.yaml\n"},
    {"no scenario", "draws: 4\n", "plan.yaml: scenario: name the file of the house: scenario: house.yaml\n"},
    {"no YAML", "scenario: [\n", "plan.yaml:2:1: not readable as YAML: did not find expected node content\n"},
    {"a key that is none", HEAD "houes: 3\n",
     "plan.yaml:2:1: houes: no key of a plan, which has scenario, vary, sample, houses, places, options, draws and seed\n"},
    {"a key told twice", HEAD "draws: 3\ndraws: 4\n", "plan.yaml:3:1: draws: told twice: leave one\n"},
    {"draws and seed", HEAD "draws: 2.5\nseed: -1\n",
     "plan.yaml:2:8: draws: write a whole number in 0 .. 65536\n"
     "plan.yaml:3:7: seed: write a whole number in 0 .. 4294967295\n"},
    {"a scenario at fault", "scenario: bad.yaml\n",
     "bad.yaml:1:21: house.floor_area: 1830 needs a unit: write one of ft2, in2, m2, cm2\n"},
    {"houses of which none fits",
     HEAD "vary:\n- {key: limits.too_dry, values: [30 %]}\n- {key: limits.too_humid, range: 20 to 29 %, steps: 900}\n",
     "house.yaml: limits.too_dry: is not below limits.too_humid: no humidity would be right (and none of the 256 "
     "houses looked at fits)\n"},
    {"places", HEAD "places: [722020, Atlantiss, 722020]\n",
     "plan.yaml:2:18: places: no place in the table answers to \"Atlantiss\"; spelt most like it: "
     "724070 Atlantic City Intl Ap NJ, 725453 Atlantic IA\n"
     "plan.yaml:2:29: places: Miami Intl Airport is named twice: leave one\n"},
    {"one place in words", HEAD "places: everywhere\n",
     "plan.yaml:2:9: places: write all, or a list of places: [Miami FL, Fargo ND]\n"},
    {"options", HEAD "options: [now, later]\n",
     "plan.yaml:2:16: options: the scenario has no option named \"later\"\n"},
    {"options of none", "scenario: bare.yaml\noptions: [now]\n",
     "plan.yaml:2:10: options: the scenario has no options, and those usually tried are marched: leave this out\n"},
    {"a sample of nothing", HEAD "sample: 8\n",
     "plan.yaml:2:1: sample: a sample is drawn from what is varied: add vary\n"},
    {"houses and vary", HEAD "houses: houses.csv\nvary:\n- {key: people.count, values: [2]}\n",
     "plan.yaml:2:1: houses: a file of houses goes without vary and sample: leave one\n"},
    {"keys that cannot be varied",
     HEAD "places: all\nvary:\n- {key: house.floor_aera, values: [1]}\n- {key: weather.file, values: [a]}\n"
          "- {key: weather.place, values: [722020]}\n- {key: people.count, values: [2]}\n"
          "- {key: people.count, values: [3]}\n- {values: [3]}\n",
     "plan.yaml:4:9: house.floor_aera: no such key of a scenario; the nearest is \"house.floor_area\"\n"
     "plan.yaml:5:9: weather.file: a file is read once and not varied: for other weather vary the place\n"
     "plan.yaml:6:9: weather.place: places has the places: leave one of the two\n"
     "plan.yaml:8:9: people.count: varied twice: write all its values in one list\n"
     "plan.yaml:9:3: vary: which key is varied? write key: house.airtightness\n"},
    {"values", HEAD "vary:\n- {key: people.count, values: [2, many, 4000]}\n- {key: house.airtightness, values: [1 ach50, 2]}\n",
     "plan.yaml:3:35: people.count: \"many\" is no number: write it like 4\n"
     "plan.yaml:3:41: people.count: 4000 is above 30: one household\n"
     "plan.yaml:4:47: house.airtightness: 2 needs a unit: write one of ach50, cfm50, m3/h50, L/s50, in2, cm2, m2\n"},
    {"values of two quantities", HEAD "vary:\n- {key: house.airtightness, values: [1 ach50, 900 cfm50]}\n",
     "plan.yaml:3:47: house.airtightness: air flow at 50 Pa, and the first of its values was air changes at 50 Pa: "
     "write all of them as one\n"},
    {"ranges",
     HEAD "vary:\n- {key: people.count, range: 4 to 2, steps: 3}\n- {key: house.airtightness, range: 1 ach50 to 3}\n"
          "- {key: people.schedule, range: 1 to 2, steps: 2}\n- {key: house.floor_area, range: 90 to 120 m2, steps: 1}\n"
          "- {key: house.bedrooms, values: [2], range: 1 to 3}\n- {key: moisture.showers, range: 1 to 4 perday, steps: 2}\n",
     "plan.yaml:3:30: people.count: write a range as low to high, its unit behind: 0.6 to 3 ach50\n"
     "plan.yaml:4:36: house.airtightness: into how many figures? write steps: 5, or a sample\n"
     "plan.yaml:4:36: house.airtightness: write a range as low to high, its unit behind: 0.6 to 3 ach50\n"
     "plan.yaml:5:33: people.schedule: this key is no number: write a list of values\n"
     "plan.yaml:6:55: house.floor_area: write a whole number of steps in 2 .. 10000\n"
     "plan.yaml:7:3: house.bedrooms: write either values or a range\n"
     "plan.yaml:8:34: moisture.showers: \"perday\" is no unit that fits: write one of per day, per week, per hour, pint/day, gal/day, lb/day, lb/h, L/day, kg/day, L/h, kg/h, g/h, kg/s\n"},
    {"steps in a sample", HEAD "sample: 4\nvary:\n- {key: people.count, range: 2 to 4, steps: 3}\n",
     "plan.yaml:4:45: people.count: a sample takes figures anywhere in the range: leave steps out\n"},
    {"more houses than are taken",
     HEAD "places: all\nvary:\n- {key: people.count, range: 2 to 4, steps: 100}\n"
          "- {key: house.airtightness, range: 1 to 2 ach50, steps: 100}\n",
     "plan.yaml: 10000 houses in 1007 places are more than 10000000: vary less, or take a sample\n"},
    {"a file of houses", HEAD "houses: bad.csv\n",
     "bad.csv:3:1: this row has not as many cells as there are keys\n"
     "bad.csv:5:2: an empty cell: write a value, or none\n"
     "bad.csv:5:1: this row has not as many cells as there are keys\n"
     "bad.csv:2:1: house.airtightness: 0.7 needs a unit: write one of ach50, cfm50, m3/h50, L/s50, in2, cm2, m2\n"
     "bad.csv:4:2: people.count: \"many\" is no number: write it like 4\n"},
    {"names of keys", HEAD "houses: names.csv\n",
     "names.csv:1:1: house.airtightnes: no such key of a scenario; the nearest is \"house.airtightness\"\n"
     "names.csv:1:3: people.count: varied twice: write all its values in one list\n"},
    {"no house", HEAD "houses: none.csv\n",
     "none.csv:1:1: there is no house in this file: keys on the first line, then one house a row\n"},
    {"no file", HEAD "houses: nowhere.csv\n",
     "plan.yaml:2:9: houses: nowhere.csv: No such file or directory (looked for beside the scenario, then where the "
     "command was given)\n"},
};
/* clang-format on */

static void faults_are_told(void **state)
{
    const struct fault_row *row = *state;
    char lines[4000];

    dew_survey_plan_close(read_plan(row->plan, lines, sizeof lines));
    assert_string_equal(lines, row->says);
}

ROWS(fault_rows, faults_are_told);

static struct dew_survey_plan *good_plan(const char *text)
{
    char lines[4000];
    struct dew_survey_plan *plan = read_plan(text, lines, sizeof lines);

    assert_string_equal(lines, "");
    return plan;
}

static void house_is(const struct dew_survey_plan *p, size_t house,
                     size_t place, const char *want)
{
    struct survey__sets *sets = calloc(1, sizeof *sets);
    char all[300] = "";
    size_t used = 0;

    assert_non_null(sets);
    survey__sets(p, house, place, sets);
    for (size_t i = 0; i < sets->count; i++)
        used += (size_t)snprintf(all + used, sizeof all - used, "%s;",
                                 sets->list[i]);
    assert_string_equal(all, want);
    free(sets);
}

TEST(a_plan_of_nothing_is_the_house)
{
    struct dew_survey_plan *p = good_plan(HEAD);
    struct dew_survey_size z = dew_survey_size(p);

    assert_int_equal(z.items, 1);
    assert_int_equal(z.rows, 2);
    assert_false(dew_survey_bare(p));
    house_is(p, 0, 0, "");
    dew_survey_plan_close(p);
}

TEST(a_grid_has_each_of_all_the_last_key_fastest)
{
    struct dew_survey_plan *p =
        good_plan(HEAD "vary:\n"
                       "- {key: house.airtightness, range: 0.6 to 3 ach50, "
                       "steps: 5}\n"
                       "- {key: people.count, values: [2, 5]}\n"
                       "places: [727530, 722020]\ndraws: 3\n"
                       "options: [more]\n");
    struct dew_survey_size z = dew_survey_size(p);

    assert_int_equal(z.houses, 10);
    assert_int_equal(z.places, 2);
    assert_int_equal(z.options, 1);
    assert_int_equal(z.rows, 10 * 2 * 1 * 4);
    house_is(p, 0, 0,
             "house.airtightness=0.6 ach50;people.count=2;"
             "weather.place=727530;");
    house_is(p, 3, 1,
             "house.airtightness=1.2 ach50;people.count=5;"
             "weather.place=722020;");
    house_is(p, 9, 0,
             "house.airtightness=3 ach50;people.count=5;"
             "weather.place=727530;");
    dew_survey_plan_close(p);
}

/* Houses of which the first breaks a rule between keys are left out as any
   others are; and a key that goes with it has its unit all the same. */
TEST(a_plan_may_begin_with_a_house_that_does_not_fit)
{
    static const char *const plans[] = {
        HEAD "vary:\n- {key: limits.too_humid, range: 25 to 60 %, steps: 900}\n"
             "- {key: limits.too_dry, values: [30 %]}\n"
             "- {key: house.airtightness, values: [1 ach50, 2 ach50]}\n",
        HEAD "sample: 64\nvary:\n- {key: limits.too_humid, range: 25 to 60 %}\n"
             "- {key: limits.too_dry, values: [30 %]}\n"
             "- {key: house.airtightness, values: [1 ach50, 2 ach50]}\n"};
    char name[SURVEY__COLUMN];
    enum survey__type type;

    for (size_t i = 0; i < COUNT_OF(plans); i++) {
        struct dew_survey_plan *p = good_plan(plans[i]);

        assert_int_equal(dew_survey_size(p).options, 2);
        assert_true(survey__column(p, 11, name, &type));
        assert_string_equal(name, "house_airtightness_1_h_at_50_Pa");
        dew_survey_plan_close(p);
    }
}

TEST(all_places_are_those_of_the_table)
{
    struct dew_survey_plan *p = good_plan(HEAD "places: all\n");

    assert_int_equal(dew_survey_size(p).places, 1007);
    dew_survey_plan_close(p);
}

TEST(a_file_has_its_houses_in_their_order)
{
    struct dew_survey_plan *p = good_plan(HEAD "houses: houses.csv\n");

    assert_int_equal(dew_survey_size(p).houses, 2);
    house_is(p, 0, 0, "house.airtightness=0.7 ach50;people.count=2;");
    house_is(p, 1, 0, "house.airtightness=1.9 ach50;people.count=5;");
    dew_survey_plan_close(p);
}

/* 256 points: each word as often, each quarter of a range too. */
TEST(a_sample_fills_ranges_and_lists_alike)
{
    struct dew_survey_plan *p =
        good_plan(HEAD "sample: 256\nseed: 7\nvary:\n"
                       "- {key: house.airtightness, range: 1 to 3 ach50}\n"
                       "- {key: people.schedule, values: [retired, all_day]}\n"
                       "- {key: house.bedrooms, range: 1 to 4}\n");
    size_t quarter[4] = {0}, word[2] = {0}, beds[5] = {0};
    char room[SURVEY__SET];
    double x;

    assert_int_equal(dew_survey_size(p).houses, 256);
    for (size_t i = 0; i < 256; i++) {
        const char *text = survey__cell(p, i, 0, room);

        assert_true(dew_number_read(text, strlen(text), &x) > 0);
        assert_true(x > 1 && x < 3);
        assert_non_null(strstr(text, " ach50"));
        quarter[(size_t)(2 * (x - 1))]++;
        word[survey__cell(p, i, 1, room)[0] == 'r']++;
        text = survey__cell(p, i, 2, room);
        assert_int_equal(strlen(text), 1);
        beds[text[0] - '0']++;
    }
    for (size_t i = 0; i < 4; i++) {
        assert_int_equal(quarter[i], 64);
        assert_int_equal(beds[1 + i], 64);
    }
    assert_int_equal(word[0], 128);
    dew_survey_plan_close(p);
}

TEST(another_seed_draws_other_houses)
{
    const char *text = HEAD "sample: 4\nvary:\n- {key: house.airtightness, "
                            "range: 1 to 3 ach50}\n";
    char first[SURVEY__SET], second[SURVEY__SET], other[200];
    struct dew_survey_plan *a = good_plan(text), *b;

    snprintf(other, sizeof other, "%sseed: 2\n", text);
    b = good_plan(other);
    survey__cell(a, 2, 0, first);
    survey__cell(b, 2, 0, second);
    assert_string_not_equal(first, second);
    dew_survey_plan_close(a);
    dew_survey_plan_close(b);
}

TEST(columns_have_their_units)
{
    static const char *const want[] = {"row",
                                       "house",
                                       "place",
                                       "station",
                                       "state",
                                       "lat_deg",
                                       "lon_deg",
                                       "option",
                                       "draw",
                                       "house_airtightness_1_h_at_50_Pa",
                                       "people_schedule",
                                       "house_floor_area_m2",
                                       "too_humid_h",
                                       "too_dry_h",
                                       "short_of_air_h",
                                       "glass_wet_h",
                                       "short_heat_h",
                                       "energy_kwh",
                                       "running",
                                       "present",
                                       "keeps",
                                       "ventilates",
                                       "best"};
    struct dew_survey_plan *p =
        good_plan(HEAD "vary:\n- {key: house.airtightness, values: [1 ach50]}\n"
                       "- {key: people.schedule, values: [retired]}\n"
                       "- {key: house.floor_area, values: [1200 ft2]}\n");
    char name[SURVEY__COLUMN];
    enum survey__type type;

    for (size_t i = 0; i < COUNT_OF(want); i++) {
        assert_true(survey__column(p, i, name, &type));
        assert_string_equal(name, want[i]);
    }
    assert_false(survey__column(p, COUNT_OF(want), name, &type));
    dew_survey_plan_close(p);
}

RUN_TESTS_IN("survey, plan", open_room, close_room);
