/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every row of the key table: its ends, its preset, its words. */
#include "support/rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/near.h"
#include "dew/scenario.h"
#include "scenario/value.h"

static struct scenario__arena arena;

static const struct dew_unit *metric(const struct dew_field *f)
{
    if (f->quantity == DEW_PURE && f->high <= 1.5)
        return dew_unit_find("%", 1, DEW_PURE);
    return dew_unit_shown(f->quantity, 2);
}

/* Reads text as a value of f alone; *status is of the fault. */
static int reads(const struct dew_field *f, const char *text,
                 enum dew_status *status)
{
    struct scenario__reading r = {.arena = &arena};
    struct scenario__node node = {.text = text};
    struct dew_value v;
    int good = scenario__value_read(&r, f, f->path, &node, &v);

    *status = r.status;
    return good;
}

static void in_unit(const struct dew_field *f, double si, char *out,
                    size_t size)
{
    const struct dew_unit *u = metric(f);
    char x[40];

    dew_number_print((si - u->offset) / u->factor, 15, x, sizeof x);
    snprintf(out, size, "%s%s%s", x, u->name[0] ? " " : "", u->name);
}

/* A file with text at f, on line 3; *column is where its value stands. */
static void file_with(const struct dew_field *f, const char *text, char *out,
                      size_t size, int *column)
{
    const char *dot = strchr(f->path, '.');
    int area = strcmp(f->path, "house.floor_area") == 0;
    int beds = strcmp(f->path, "house.bedrooms") == 0;
    int group = dot != NULL ? (int)(dot - f->path) : 0;

    *column = (int)strlen(f->path) + (dot != NULL ? 5 : 3);
    snprintf(out, size,
             "weather: {place: 1}\nhouse: {%s%s%s}\n%.*s%s%s: %s%s\n",
             area ? "" : "floor_area: 1900 ft2", area || beds ? "" : ", ",
             beds ? "" : "bedrooms: 3", group, f->path, dot ? ": {" : "",
             dot ? dot + 1 : f->path, text, dot ? "}" : "");
}

static void refused_with(const struct dew_field *f, double si, int above)
{
    const struct dew_unit *u = metric(f);
    struct dew_error fault = {0};
    struct dew_faults faults = {&fault, 1, 0};
    char text[80], file[300], want[400], got[400], x[40], end[40];
    double limit = ((above ? f->high : f->low) - u->offset) / u->factor;
    int column;
    struct dew_scenario *s = NULL;
    struct dew_scenario_source from = {file, 0, "h.yaml", NULL, 0};
    const char *gap = u->name[0] ? " " : "";

    in_unit(f, si, text, sizeof text);
    file_with(f, text, file, sizeof file, &column);
    from.length = strlen(file);
    assert_int_not_equal(dew_scenario_open(&s, &from, &faults), DEW_OK);
    assert_null(s);
    assert_int_equal(faults.count, 1);
    dew_number_print((si - u->offset) / u->factor, 6, x, sizeof x);
    dew_number_print(limit, limit == rint(limit) ? 10 : 4, end, sizeof end);
    snprintf(want, sizeof want, "h.yaml:3:%d: %s: %s%s%s is %s %s%s%s: %s",
             column, f->path, x, gap, u->name, above ? "above" : "below", end,
             gap, u->name, f->why);
    assert_string_equal(dew_error_line(&fault, got, sizeof got), want);
}

/* The ends themselves belong to the range; a step beyond does not. */
static void ends_of(void **state)
{
    const struct dew_field *f = *state;
    double span = f->high - f->low;
    enum dew_status status;
    char text[80];

    assert_true(span > 0);
    assert_non_null(f->why);
    in_unit(f, f->low + 1e-12 * span, text, sizeof text);
    assert_true(reads(f, text, &status));
    in_unit(f, f->high - 1e-12 * span, text, sizeof text);
    assert_true(reads(f, text, &status));
    refused_with(f, f->low - 1e-3 * span, 0);
    refused_with(f, f->high + 1e-3 * span, 1);
}

static void count_ends_of(void **state)
{
    const struct dew_field *f = *state;
    enum dew_status status;
    char text[40];

    snprintf(text, sizeof text, "%d", (int)f->low);
    assert_true(reads(f, text, &status));
    snprintf(text, sizeof text, "%d", (int)f->high);
    assert_true(reads(f, text, &status));
    refused_with(f, f->low - 1, 0);
    refused_with(f, f->high + 1, 1);
}

static void every_word_of(void **state)
{
    const struct dew_field *f = *state;
    enum dew_status status;
    char word[64];

    for (int i = 0; scenario__word_at(f->words, i, word, sizeof word)[0]; i++)
        assert_true(reads(f, word, &status));
    assert_false(reads(f, "nosuchword", &status));
    assert_int_equal(status, DEW_EUNKNOWN);
}

TEST(presets_and_starts_are_values)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    enum dew_status status;

    for (size_t i = 0; i < count; i++) {
        const char *preset = f[i].preset;
        int typed = preset != NULL && preset[0] != '\0' && preset[0] != '=';

        if (typed && !reads(&f[i], preset, &status))
            fail_msg("%s: preset \"%s\"", f[i].path, preset);
        if (typed && f[i].source == NULL)
            fail_msg("%s: preset without source", f[i].path);
        if (f[i].start != NULL && !reads(&f[i], f[i].start, &status))
            fail_msg("%s: start \"%s\"", f[i].path, f[i].start);
        if (preset == NULL && f[i].start == NULL)
            fail_msg("%s: required, and no example", f[i].path);
    }
}

TEST(every_group_is_described_and_every_path_is_one)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    char group[40];

    for (size_t i = 0; i < count; i++) {
        const char *dot = strchr(f[i].path, '.');

        assert_ptr_equal(dew_scenario_field(f[i].path), &f[i]);
        assert_true(strlen(f[i].help) > 3);
        if (dot == NULL)
            continue;
        snprintf(group, sizeof group, "%.*s", (int)(dot - f[i].path),
                 f[i].path);
        if (dew_scenario_group(group) == NULL)
            fail_msg("%s: group not described", f[i].path);
    }
    assert_null(dew_scenario_field("house"));
    assert_null(dew_scenario_group("house.volume"));
}

struct near_row {
    const char *name, *typed, *want;
};

static const struct near_row near_rows[] = {
    {"swapped letters", "ventilator.folw", "ventilator.flow"},
    {"dash for underscore", "house.floor-area", "house.floor_area"},
    {"bare name", "airtightnes", "house.airtightness"},
    {"group", "moisure", "moisture"},
    {"capitals", "House.Volume", "house.volume"},
    {"nonsense is near nothing", "NONSENSEXYZ", NULL},
    {"nor is what begins like a group", "house.nonsense_of_length", NULL},
    {"nor an empty word", "", NULL},
};

static void nearest_key(void **state)
{
    const struct near_row *row = *state;

    const char *near = dew_scenario_nearest(row->typed);

    if (row->want == NULL)
        assert_null(near);
    else
        assert_string_equal(near, row->want);
}

TEST(distance_counts_letters)
{
    assert_int_equal(core__distance("flow", "flow"), 0);
    assert_int_equal(core__distance("folw", "flow"), 1);
    assert_int_equal(core__distance("flw", "flow"), 1);
    assert_int_equal(core__distance("fllow", "flow"), 1);
    assert_int_equal(core__distance("glow", "flow"), 1);
    assert_int_equal(core__distance("", "flow"), 4);
    assert_int_equal(core__distance("kitten", "sitting"), 3);
}

static int free_arena(void **state)
{
    (void)state;
    scenario__arena_free(&arena);
    return 0;
}

ROWS(near_rows, nearest_key);

/* A test of each key that has ends or words. */
__attribute__((constructor)) static void add_keys(void)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++) {
        CMUnitTestFunction test = f[i].kind == DEW_KIND_NUMBER  ? ends_of
                                  : f[i].kind == DEW_KIND_COUNT ? count_ends_of
                                  : f[i].kind == DEW_KIND_WORD  ? every_word_of
                                                                : NULL;

        if (test != NULL)
            add_test(f[i].path, test, &f[i]);
    }
}

RUN_TESTS_IN("scenario, keys", NULL, free_arena);
