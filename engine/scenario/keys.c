/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/keys.h"

#include <string.h>

#include "core/near.h"
#include "dew/buffer.h"
#include "dew/core.h"
#include "dew/dryer.h"
#include "dew/library.h"
#include "dew/thermal.h"

#define HOUR 3600.0
#define DAY  86400.0
#define YEAR (365.0 * DAY)
#define KWH  3.6e6

/* What a key takes besides its first quantity. */
static const struct dew_form airtight_forms[] = {
    {DEW_FLOW50, 1e-3, 20},
    {DEW_LEAKAGE_AREA, 1e-4, 1},
};
static const struct dew_form constant_forms[] = {
    {DEW_PER_DAY, 0, 20 / HOUR},
};
static const struct dew_form rate_forms[] = {
    {DEW_WATER_RATE, 0, 1e-3},
};
/* How long in each hour. */
static const struct dew_form minute_forms[] = {{DEW_TIME, 0, 3600}};
#define FORMS(list)                                                            \
    .forms = (list), .form_count = sizeof(list) / sizeof((list)[0])

/* ---- what a default leaves open ------------------------------------------- */

/* "low to high", or "" where the preset has it; factors of what is worked out;
   what is added to it, SI; from the low to the high of a table of its own. */
#define RANGE(span_, source)                                                   \
    .doubt = DEW_DOUBT_RANGE, .span = (span_), .doubt_why = (source)
#define TIMES(low_, high_, source)                                             \
    .doubt = DEW_DOUBT_TIMES, .least_by = (low_), .most_by = (high_),          \
    .doubt_why = (source)
#define STEP(low_, high_, source)                                              \
    .doubt = DEW_DOUBT_STEP, .least_by = (low_), .most_by = (high_),           \
    .doubt_why = (source)
#define WITHIN(source)                                                         \
    .doubt = DEW_DOUBT_WITHIN, .least_by = -1, .most_by = 1,                   \
    .doubt_why = (source)
/* One of these words. */
#define EITHER(span_, source)                                                  \
    .doubt = DEW_DOUBT_WORDS, .span = (span_), .doubt_why = (source)
/* Nothing, and why. */
#define SURE(why) .doubt_why = (why)

#define ASKED    "it says what is asked, not how the house is"
#define TOLD     "it must be told: with a range, where it is not sure"
#define UNTOLD   "there is none unless it is told"
#define OTHERS   "worked out from keys that have their own"
#define FOLLOWS  "as another key, whose range it shares"
#define KNOWN    "its owner knows it"
#define SETTING  "it is set, and its owner can look"
#define SHEET    "it stands on the machine's sheet"
#define NOTHING  "none, and who has one knows"
#define SHOWERS  "counted with the showers, which have one"
#define SCHEDULE "by people.schedule"
#define WEATHER  "of the weather, hour by hour"
#define COMPUTED "computed from the layout, whose keys have theirs"
#define MODEL    "what the model takes it to be"
/* of rows, whose figures are not drawn */
#define LAID     "it can be measured where it is laid"
#define SHARED   "a share of one whole: the rows sum to it"
#define FOUND_SO "it was measured, and holds in place of what is computed"
#define OBSERVED "it was read off, and its own span is its doubt"
#define CHOSEN   "it says which, not how much"
#define OF_MONEY "of money, which is told as a range and not drawn"

/* The help is the first of the rest; further members may follow it. */
#define ROW(words, kind_, quantity_, low_, high_, why_, preset_, source_,      \
            start_, ...)                                                       \
    {.path = (words),                                                          \
     .kind = DEW_KIND_##kind_,                                                 \
     .quantity = DEW_##quantity_,                                              \
     .low = (low_),                                                            \
     .high = (high_),                                                          \
     .why = (why_),                                                            \
     .preset = (preset_),                                                      \
     .source = (source_),                                                      \
     .start = (start_),                                                        \
     .help = __VA_ARGS__},
#define K(group, name, ...) ROW(#group "." #name, __VA_ARGS__)
#define T(name, ...)        ROW(#name, __VA_ARGS__)

/* clang-format off */
#define SHARE "a share: 1 is perfect"
static const struct dew_field rating_columns[SCENARIO__RATING_COLUMNS] = {
    ROW("flow",          NUMBER, FLOW, 1e-3, 0.5, "one household's ventilator", NULL, NULL, "64 cfm", "net supply air of the row", SURE(SHEET))
    ROW("power",         NUMBER, POWER, 0, 1000, "one household's ventilator", "", NULL, NULL, "electricity of both fans", SURE(SHEET))
    ROW("pressure",      NUMBER, PRESSURE, 0, 500, "small fans make no more", "", NULL, NULL, "pressure outside the unit at this flow", SURE(SHEET))
    ROW("outdoor",       NUMBER, TEMPERATURE, -40, 50, "temperatures of tests", "", NULL, NULL, "outdoor air of the test; 0 degC, 35 degC for tre", SURE(SHEET))
    ROW("indoor",        NUMBER, TEMPERATURE, 10, 30, "temperatures of tests", "", NULL, NULL, "indoor air of the test; 22 degC, 24 degC for tre", SURE(SHEET))
    ROW("sre",           NUMBER, PURE, 0, 1, SHARE, "", NULL, NULL, "sensible recovery efficiency", SURE(SHEET))
    ROW("ase",           NUMBER, PURE, 0, 1, SHARE, "", NULL, NULL, "apparent sensible effectiveness", SURE(SHEET))
    ROW("asre",          NUMBER, PURE, 0, 1, SHARE, "", NULL, NULL, "adjusted sensible recovery efficiency", SURE(SHEET))
    ROW("sensible",      NUMBER, PURE, 0, 1, SHARE, "", NULL, NULL, "the core's own, fan heat left out", SURE(SHEET))
    ROW("tre",           NUMBER, PURE, 0, 1, SHARE, "", NULL, NULL, "total recovery efficiency, cooling", SURE(SHEET))
    ROW("lrmt",          NUMBER, PURE, 0, 1, SHARE, "", NULL, NULL, "latent recovery moisture transfer", SURE(SHEET))
    ROW("moisture",      NUMBER, PURE, 0, 1, SHARE, "", NULL, NULL, "the core's own", SURE(SHEET))
    ROW("cross_leakage", NUMBER, PURE, 0, 0.3, "more than that is a hole in the core", "", NULL, NULL, "exhaust air transfer ratio (EATR)", SURE(SHEET))
};
/* clang-format on */

#define X(name, ...) ROW(#name, __VA_ARGS__)
static const struct dew_field line_columns[SCENARIO__LINE_COLUMNS] = {
    SCENARIO__LINE_MAP(X)};
static const struct dew_field grille_columns[SCENARIO__GRILLE_COLUMNS] = {
    SCENARIO__GRILLE_MAP(X)};
static const struct dew_field point_columns[SCENARIO__POINT_COLUMNS] = {
    SCENARIO__POINT_MAP(X)};
static const struct dew_field run_columns[SCENARIO__RUN_COLUMNS] = {
    SCENARIO__RUN_MAP(X)};
static const struct dew_field found_columns[SCENARIO__FOUND_COLUMNS] = {
    SCENARIO__FOUND_MAP(X)};
static const struct dew_field fan_columns[SCENARIO__FAN_COLUMNS] = {
    SCENARIO__FAN_MAP(X)};
const struct dew_field scenario__reading_columns[SCENARIO__READING_COLUMNS] = {
    SCENARIO__READING_MAP(X)};
#undef X

static const struct dew_field fields[] = {
#include "scenario/rows_house.h"
#include "scenario/rows_plant.h"
};

static const struct {
    const char *name, *about;
} groups[] = {
    {"weather", "the outdoors: one of place, file or monthly normals"},
    {"log", "what a logger measured indoors, beside the model"},
    {"house", "size, airtightness and build"},
    {"insulation", "heat through walls, roof and floor"},
    {"windows", "glass by side, and what it lets in"},
    {"surfaces", "where water may condense indoors"},
    {"ground", "temperature under the floor"},
    {"people", "who lives there and when they are at home"},
    {"moisture", "water set free indoors"},
    {"buffering", "water that furnishings and fabric take up and give back"},
    {"temperature", "what the thermostat is set to"},
    {"airing",
     "windows opened by habit in mild weather, shut for a day after cooling"},
    {"limits", "what counts as too humid, too dry and too little fresh air"},
    {"heating", "what heats"},
    {"cooling", "what cools: each air handler alike"},
    {"second_handler", "what differs in the second air handler"},
    {"third_handler", "what differs in the third air handler"},
    {"ventilator", "the fan or core that brings fresh air"},
    {"ducts", "the ducts of the layout, and where its air goes astray"},
    {"control", "when the ventilator runs"},
    {"dehumidifier", "a machine that takes water out of the air"},
    {"humidifier", "a machine that puts water into the air"},
    {"bath_fan", "the fan of the bathrooms, together"},
    {"range_hood", "the kitchen's fan"},
    {"clothes_dryer", "the clothes dryer vented outdoors"},
    {"safety", "questions that cautions hang on: yes, no or unknown"},
    {"prices", "energy and money"},
    {"costs", "what an option costs to buy and keep"},
    {"run", "how the hours are marched"},
};

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

const struct dew_field *dew_scenario_fields(size_t *count)
{
    *count = COUNT(fields);
    return fields;
}

const struct dew_field *dew_scenario_field(const char *path)
{
    for (size_t i = 0; i < COUNT(fields); i++)
        if (strcmp(fields[i].path, path) == 0)
            return &fields[i];
    return NULL;
}

const char *dew_scenario_group(const char *name)
{
    for (size_t i = 0; i < COUNT(groups); i++)
        if (strcmp(groups[i].name, name) == 0)
            return groups[i].about;
    return NULL;
}

/*
 * A bare name is compared with the last part of each path as well.  More than
 * one slip in three letters is another word, not a slip (our own).
 */
const char *dew_scenario_nearest(const char *path)
{
    const char *best = NULL;
    size_t length = strlen(path), least = length / 3 + 1;
    int bare = strchr(path, '.') == NULL;

    for (size_t i = 0; i < COUNT(fields); i++) {
        const char *dot = strchr(fields[i].path, '.');
        const char *name = bare && dot != NULL ? dot + 1 : fields[i].path;
        size_t d = core__distance(path, name);

        if (d < least) {
            least = d;
            best = fields[i].path;
        }
    }
    for (size_t i = 0; i < COUNT(groups); i++) {
        size_t d = core__distance(path, groups[i].name);

        if (d < least || (bare && best != NULL && d == least)) {
            least = d;
            best = groups[i].name;
        }
    }
    return best;
}
