/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings: when they were, and what is no time. */
#include <string.h>

#include "dew/scenario.h"
#include "support/rows.h"

#define HEAD                                                                   \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1830 ft2, bedrooms: 3}\n"

static struct dew_scenario_source source_of(const char *text)
{
    return (struct dew_scenario_source){
        .text = text, .length = strlen(text), .name = "r.yaml"};
}

/* Of readings written with this when; 0 where it is none. */
static int seen_at(const char *when, struct dew_seen *out)
{
    char text[400];
    struct dew_scenario_source from;
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_seen seen[DEW_SEEN_MOST];
    struct dew_scenario *s;
    int good;

    snprintf(text, sizeof text,
             HEAD "readings: [{when: %s, rh: 62 to 68 %%, glass: dry}]\n"
                  "options: [{name: as it stands}]\n",
             when);
    from = source_of(text);
    good = dew_scenario_open(&s, &from, &faults) == DEW_OK;
    if (good) {
        assert_int_equal(dew_scenario_seen(s, seen), 1);
        *out = seen[0];
        assert_near(out->rh.si, 0.65, 1e-12);
        assert_near(out->rh.low, 0.62, 1e-12);
        assert_near(out->rh.high, 0.68, 1e-12);
        assert_true(isnan(out->t));
        assert_int_equal(out->glass, 0);
        assert_int_equal(out->line, 3);
        dew_scenario_close(s);
    } else {
        assert_string_equal(list[0].path, "readings.when");
        assert_int_equal(list[0].line, 3);
    }
    return good;
}

TEST(months_and_parts_of_their_days)
{
    static const struct {
        const char *when;
        int month;
        double from, until;
    } rows[] = {{"jul", 7, 0, 24},
                {"July", 7, 0, 24},
                {"sept", 9, 0, 24},
                {"june", 6, 0, 24},
                {"january mornings", 1, 6, 9},
                {"feb morning", 2, 6, 9},
                {"mar afternoons", 3, 13, 17},
                {"dec evenings", 12, 18, 22},
                {"may nights", 5, 22, 6}};
    struct dew_seen x;

    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_true(seen_at(rows[i].when, &x));
        assert_int_equal(x.months, 1U << (rows[i].month - 1));
        assert_near(x.from, rows[i].from, 0);
        assert_near(x.until, rows[i].until, 0);
    }
}

/* The end that is wrong, not the middle that nobody wrote. */
TEST(an_end_past_all_is_named)
{
    const char text[] = HEAD "readings: [{when: july, rh: 62 to 168 %}]\n";
    struct dew_scenario_source from = source_of(text);
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_scenario *s;

    assert_int_equal(dew_scenario_open(&s, &from, &faults), DEW_ERANGE);
    assert_string_equal(list[0].path, "readings.rh");
    assert_non_null(strstr(list[0].text, "168 % is above 100 %"));
}

/* A house whose figures and readings are wrong in every way, told at once. */
TEST(all_that_is_wrong_is_told_at_once_line_by_line)
{
    static const char text[] =
        "weather: {place: 722020}\n"
        "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 3 foo}\n"
        "readings:\n"
        "  - {when: juli, rh: 62 to 68 %}\n"
        "  - {when: january mornigs, glass: wet}\n"
        "  - {when: july, rh: 141 %}\n"
        "  - {when: mar, glass: damp}\n"
        "  - {when: 2026-02-30 07:00, rh: 162 %}\n"
        "  - {when: apr, t: 70 degF}\n"
        "  - {when: may, glass: dry, t: 70 degF}\n"
        "  - {rh: 50 %}\n"
        "  - {when: jun, when: jul, rh: 50 %}\n"
        "  - no row\n"
        "  - {when: aug, glass: foggy, t: 70 degF}\n"
        "people: {count: -1}\n";
    static const struct {
        int line, column;
        const char *path, *text;
    } want[] = {
        {2, 58, "house.airtightness", "\"foo\" is no unit"},
        {4, 12, "readings.when", "\"juli\" is no time: write a month"},
        {5, 12, "readings.when", "\"january mornigs\" is no time"},
        {6, 22, "readings.rh", "141 % is above 100 %"},
        {7, 24, "readings.glass", "\"damp\" is not known: write dry or wet"},
        {8, 12, "readings.when", "\"2026-02-30 07:00\" is no time"},
        {8, 34, "readings.rh", "162 % is above 100 %"},
        {9, 12, "readings.when", "says nothing: give rh or glass"},
        {10, 32, "readings.t", "stands without the rh"},
        {11, 5, "readings", "a row needs its when"},
        {12, 17, "readings.when", "given twice"},
        {13, 5, "readings", "takes rows such as {when: july, ...}"},
        {14, 24, "readings.glass", "\"foggy\" is not known"},
        {14, 34, "readings.t", "stands without the rh"},
        {15, 17, "people.count", "-1 is below"},
    };
    struct dew_scenario_source from = source_of(text);
    struct dew_error list[COUNT_OF(want) + 4] = {{0}};
    struct dew_faults faults = {list, COUNT_OF(list), 0};
    struct dew_seen seen[DEW_SEEN_MOST];
    struct dew_scenario *s;

    assert_int_not_equal(dew_scenario_look(&s, &from, &faults), DEW_OK);
    assert_int_equal(faults.count, COUNT_OF(want));
    for (size_t i = 0; i < COUNT_OF(want); i++) {
        assert_int_equal(list[i].line, want[i].line);
        assert_int_equal(list[i].column, want[i].column);
        assert_string_equal(list[i].source, "r.yaml");
        assert_string_equal(list[i].path, want[i].path);
        assert_non_null(strstr(list[i].text, want[i].text));
    }
    /* whose time is sound: july, mar, apr, may, jun, aug */
    assert_int_equal(dew_scenario_seen(s, seen), 6);
    assert_int_equal(seen[1].line, 7);
    dew_scenario_close(s);
}

/* Rules between keys stand among the faults of single ones. */
TEST(rules_are_told_in_their_line)
{
    static const char text[] =
        "weather: {place: 722020, file: a.csv}\n"
        "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 3 foo}\n";
    struct dew_scenario_source from = source_of(text);
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_scenario *s;

    assert_int_not_equal(dew_scenario_open(&s, &from, &faults), DEW_OK);
    assert_int_equal(faults.count, 2);
    assert_int_equal(list[0].line, 1);
    assert_int_equal(list[1].line, 2);
}

TEST(a_day_and_an_hour)
{
    struct dew_seen x;

    assert_true(seen_at("2024-02-29 07:30", &x));
    assert_int_equal(x.months, 0);
    assert_int_equal(x.date.year, 2024);
    assert_int_equal(x.date.month, 2);
    assert_int_equal(x.date.day, 29);
    assert_near(x.at, 7.5, 1e-12);
}

TEST(what_is_no_time)
{
    static const char *const wrong[] = {"foo",
                                        "ju",
                                        "july noon",
                                        "july  mornings please",
                                        "2023-02-29 07:00",
                                        "2024-13-01 07:00",
                                        "2024-02-03 24:00",
                                        "2024-02-03",
                                        "mornings",
                                        "2024-02-03 07:60"};
    struct dew_seen x;

    for (size_t i = 0; i < COUNT_OF(wrong); i++)
        assert_false(seen_at(wrong[i], &x));
}

RUN_TESTS("readings");
