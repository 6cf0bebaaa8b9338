/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole files: faults word for word, merging, --set, units, origins. */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/scenario.h"

#define BASE                                                                   \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1900 ft2, bedrooms: 3}\n"

enum { ROOM = 60 };

static struct dew_error list[ROOM];
static char all[ROOM * 400];

/* Every fault, one a line, or "" when there is none. */
static const char *faults_of(const char *text, const char *const *sets,
                             size_t set_count)
{
    struct dew_faults faults = {list, ROOM, 0};
    struct dew_scenario_source from = {text, strlen(text), "h.yaml", sets,
                                       set_count};
    struct dew_scenario *s = NULL;
    enum dew_status status;
    char line[400];

    memset(list, 0, sizeof list);
    all[0] = '\0';
    status = dew_scenario_open(&s, &from, &faults);
    assert_true((status == DEW_OK) == (faults.count == 0));
    assert_true((status == DEW_OK) == (s != NULL));
    for (size_t i = 0; i < faults.count && i < ROOM; i++) {
        strncat(all, dew_error_line(&list[i], line, sizeof line),
                sizeof all - strlen(all) - 2);
        strncat(all, "\n", sizeof all - strlen(all) - 1);
    }
    dew_scenario_close(s);
    return all;
}

struct fault_row {
    const char *name, *text, *want;
};

static const struct fault_row fault_rows[] = {
#include "scenario/fault_rows.h"
};

static void faults_word_for_word(void **state)
{
    const struct fault_row *row = *state;

    assert_string_equal(faults_of(row->text, NULL, 0), row->want);
}

/* ---- reading and merging ---------------------------------------------------- */

static struct dew_scenario *opened(const char *text, const char *const *sets,
                                   size_t set_count)
{
    struct dew_faults faults = {list, ROOM, 0};
    struct dew_scenario_source from = {text, strlen(text), "h.yaml", sets,
                                       set_count};
    struct dew_scenario *s = NULL;

    memset(list, 0, sizeof list);
    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        print_error("%s\n", dew_error_line(&list[0], all, sizeof all));
    assert_non_null(s);
    return s;
}

static const struct dew_value *value(const struct dew_scenario *s,
                                     size_t option, const char *path)
{
    size_t count;

    assert_non_null(dew_scenario_field(path));
    return &dew_scenario_values(
        s, option)[dew_scenario_field(path) - dew_scenario_fields(&count)];
}

static const char *shown(const struct dew_scenario *s, size_t option,
                         const char *path, int system)
{
    static char out[200];

    return dew_scenario_show(dew_scenario_field(path), value(s, option, path),
                             system, out, sizeof out);
}

TEST(a_number_is_held_in_si_with_its_range)
{
    struct dew_scenario *s = opened(BASE "  # a comment\n"
                                         "people: {count: 4.5 (2 to 7)}\n"
                                         "temperature: {heat: 68.5 degF}\n",
                                    NULL, 0);
    const struct dew_value *v = value(s, 0, "house.floor_area");

    assert_near(v->amount.si, 176.515776, 1e-9); /* 1900 x 0.09290304, exact */
    assert_near(v->amount.low, v->amount.si, 0);
    assert_near(value(s, 0, "temperature.heat")->amount.si, 36.5 / 1.8, 1e-12);
    v = value(s, 0, "people.count");
    assert_near(v->amount.low, 2, 0);
    assert_near(v->amount.high, 7, 0);
    dew_scenario_close(s);
}

TEST(an_origin_finds_its_value_in_the_text)
{
    static const char text[] =
        "title: \xC2\xB0 tight \xE2\x82\xAC\n" BASE "people: {count: 4.5}\n";
    struct dew_scenario *s = opened(text, NULL, 0);
    const struct dew_origin *o = &value(s, 0, "people.count")->origin;

    assert_int_equal(o->by, DEW_BY_FILE);
    assert_int_equal(o->line, 4);
    assert_int_equal(o->column, 17);
    assert_int_equal(o->length, 3);
    assert_memory_equal(text + o->offset, "4.5", 3);
    o = &value(s, 0, "title")->origin;
    assert_memory_equal(text + o->offset, "\xC2\xB0 tight \xE2\x82\xAC",
                        o->length);
    assert_int_equal(value(s, 0, "house.storeys")->origin.by, DEW_BY_DEFAULT);
    dew_scenario_close(s);
}

#define OPTIONS                                                                \
    BASE "cooling: {capacity: 3 ton, shr: 74 %}\n"                             \
         "control: {boost_above: 61 %}\n"                                      \
         "ventilator: {core: heat_plate, flow: 95 cfm,\n"                      \
         "  sensible: [74 % at 95 cfm, 69 % at 120 cfm]}\n"                    \
         "options:\n"                                                          \
         "  - name: as it stands\n"                                            \
         "    ventilator: none\n"                                              \
         "  - name: plate\n"                                                   \
         "    ventilator: {sensible: 81 % at 64 cfm}\n"                        \
         "    cooling: {shr: 0.71}\n"                                          \
         "    control: {boost_above: none}\n"                                  \
         "  - name: plate, more air\n"                                         \
         "    ventilator: {flow: 130 cfm}\n"

TEST(mappings_merge_lists_replace_none_removes)
{
    struct dew_scenario *s = opened(OPTIONS, NULL, 0);

    assert_int_equal(dew_scenario_count(s), 3);
    assert_string_equal(dew_scenario_name(s, 1), "plate");
    assert_int_equal(dew_scenario_find(s, "plate, more air"), 2);
    assert_string_equal(shown(s, 0, "ventilator.core", 0), "none");
    assert_string_equal(shown(s, 0, "ventilator.sensible", 0), "none");
    assert_string_equal(shown(s, 1, "ventilator.core", 0), "heat_plate");
    assert_string_equal(shown(s, 1, "ventilator.flow", 0), "95 cfm");
    assert_string_equal(shown(s, 1, "ventilator.sensible", 1),
                        "81 % at 64 cfm");
    assert_string_equal(shown(s, 1, "cooling.capacity", 0), "3 ton");
    assert_string_equal(shown(s, 1, "cooling.shr", 0), "0.71");
    assert_false(value(s, 1, "control.boost_above")->given);
    assert_string_equal(shown(s, 2, "ventilator.sensible", 1),
                        "[74 % at 95 cfm, 69 % at 120 cfm]");
    assert_string_equal(shown(s, 2, "ventilator.flow", 0), "130 cfm");
    assert_string_equal(shown(s, 2, "control.boost_above", 0), "61 %");
    assert_int_equal(value(s, 1, "cooling.shr")->origin.by, DEW_BY_OPTION);
    dew_scenario_close(s);
}

TEST(set_rules_over_file_and_option)
{
    static const char *const sets[] = {
        "ventilator.flow=88 cfm",
        "options.plate, more air.ventilator.flow=99 cfm",
        "house.volume=\"16,200 ft3\"", "cooling.shr=none"};
    struct dew_scenario *s = opened(OPTIONS, sets, COUNT_OF(sets));

    assert_string_equal(shown(s, 1, "ventilator.flow", 0), "88 cfm");
    assert_string_equal(shown(s, 2, "ventilator.flow", 0), "99 cfm");
    assert_string_equal(shown(s, 0, "house.volume", 0), "16200 ft3");
    assert_string_equal(shown(s, 1, "cooling.shr", 0), "75 %");
    assert_int_equal(value(s, 1, "ventilator.flow")->origin.by, DEW_BY_SET);
    assert_int_equal(value(s, 2, "ventilator.flow")->origin.line, 2);
    dew_scenario_close(s);
}

struct set_row {
    const char *name, *set, *want;
};

static const struct set_row set_rows[] = {
    {"--set without =", "house.volume",
     "--set: \"house.volume\" is not key=value: write it like "
     "house.floor_area=\"1900 ft2\"\n"},
    {"--set of an unknown key", "house.volum=16200 ft3",
     "--set:1:13: house.volum: no such key; the nearest is \"house.volume\"\n"},
    {"--set with a foreign unit", "house.volume=16200 kg",
     "--set:1:14: house.volume: \"kg\" is no unit that fits: write one of ft3, "
     "gal, m3, L\n"},
    {"--set of an unknown option", "options.nobody.house.volume=16200 ft3",
     "--set: options.nobody.house.volume: no option of that name\n"},
    {"--set with broken YAML", "house.volume=[",
     "--set:1:14: house.volume: not readable as YAML: did not find expected "
     "node content\n"},
    {"--set with no value", "house.volume=",
     "--set:1:13: house.volume: has no value: write one, or none\n"},
};

static void set_faults(void **state)
{
    const struct set_row *row = *state;

    assert_string_equal(faults_of(BASE, &row->set, 1), row->want);
}

TEST(the_system_is_the_one_used_most)
{
    struct dew_scenario *s = opened(BASE, NULL, 0);

    assert_int_equal(dew_scenario_system(s), 1);
    dew_scenario_close(s);
    s = opened("weather: {place: 722020}\n"
               "house: {floor_area: 176 m2, bedrooms: 3, ceiling_height: 9 ft, "
               "airtightness: 310 m3/h50}\n",
               NULL, 0);
    assert_int_equal(dew_scenario_system(s), 2);
    assert_string_equal(shown(s, 0, "house.floor_area", 1), "1894.4 ft2");
    assert_string_equal(shown(s, 0, "house.floor_area", 2), "176 m2");
    assert_string_equal(shown(s, 0, "house.airtightness", 1), "182.46 cfm50");
    dew_scenario_close(s);
}

TEST(other_kinds_are_shown_as_typed)
{
    struct dew_scenario *s = opened(
        BASE "temperature: {setback_hours: [22 to 6:30, 9:00 to 15:00]}\n"
             "house: {flue: Yes}\n"
             "safety: {attached_garage: yes, house_age: 14 month}\n"
             "moisture: {laundry_dried_indoors: 3 per week}\n"
             "prices: {electricity: $0.17/kWh (0.14 to 0.2)}\n"
             "costs: {install: \"$6,500\"}\n"
             "ventilator: {core: Enthalpy-Plate, ratings: [{flow: 64 cfm, sre: "
             "0.71, power: 41 W, lrmt: 48 %}]}\n",
        NULL, 0);

    assert_string_equal(shown(s, 0, "temperature.setback_hours", 0),
                        "[22:00 to 6:30, 9:00 to 15:00]");
    assert_string_equal(shown(s, 0, "house.flue", 0), "yes");
    assert_string_equal(shown(s, 0, "safety.attached_garage", 0), "yes");
    assert_string_equal(shown(s, 0, "safety.visible_mould", 0), "unknown");
    assert_string_equal(shown(s, 0, "safety.house_age", 0), "14 month");
    assert_string_equal(shown(s, 0, "moisture.laundry_dried_indoors", 0),
                        "3 per week");
    assert_string_equal(shown(s, 0, "prices.electricity", 0),
                        "0.17 $/kWh (0.14 to 0.2)");
    assert_string_equal(shown(s, 0, "costs.install", 0), "6500 $");
    assert_string_equal(shown(s, 0, "ventilator.core", 0), "enthalpy_plate");
    assert_string_equal(shown(s, 0, "ventilator.ratings", 1),
                        "[{flow: 64 cfm, power: 41 W, sre: 0.71, lrmt: 48 %}]");
    dew_scenario_close(s);
}

TEST(a_title_is_kept_and_a_file_without_options_is_one)
{
    struct dew_scenario *s = opened("title: Damp, made up\n" BASE, NULL, 0);
    size_t length;

    assert_string_equal(dew_scenario_title(s), "Damp, made up");
    assert_int_equal(dew_scenario_count(s), 1);
    assert_string_equal(dew_scenario_name(s, 0), "as it stands");
    assert_string_equal(dew_scenario_text(s, &length),
                        "title: Damp, made up\n" BASE);
    dew_scenario_close(s);
    dew_scenario_close(NULL);
}

TEST(a_long_run_of_brackets_is_refused_at_once)
{
    char *text = malloc(100001);

    memset(text, '[', 100000);
    text[100000] = '\0';
    assert_string_equal(faults_of(text, NULL, 0),
                        "h.yaml:1:17: nested deeper than 16\n");
    free(text);
}

TEST(a_file_over_one_mebibyte_is_refused)
{
    size_t n = (1 << 20) + 1;
    char *text = malloc(n + 1);

    memset(text, '#', n);
    text[n] = '\0';
    assert_string_equal(faults_of(text, NULL, 0),
                        "h.yaml: longer than 1 MiB\n");
    free(text);
}

ROWS(fault_rows, faults_word_for_word);
ROWS(set_rows, set_faults);
RUN_TESTS("scenario, files");
