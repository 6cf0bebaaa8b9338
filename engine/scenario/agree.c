/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules between keys.  Each is said once when the base alone breaks it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "scenario/agree.h"
#include "scenario/case.h"

/* A rule returns NULL, or what is wrong; *key is then where it shows. */
typedef const char *rule_of(const struct dew_value *v, enum scenario__key *key);

static const char *one_weather(const struct dew_value *v,
                               enum scenario__key *key)
{
    int given = GIVEN(v, weather_place) + GIVEN(v, weather_file) +
                GIVEN(v, weather_monthly);

    *key = GIVEN(v, weather_place) ? KEY_weather_place : KEY_weather_file;
    if (given == 1)
        return NULL;
    return given > 1 ? "place, file and monthly exclude each other: keep one"
                     : "no weather: give weather.place, weather.file or "
                       "weather.monthly";
}

/* One of count keys, or the flag, speaks of a file that is not there. */
static int lacks_file(const struct dew_value *v, enum scenario__key file,
                      const enum scenario__key *keys, size_t count,
                      enum scenario__key flag, enum scenario__key *key)
{
    for (size_t i = 0; i < count; i++)
        if (v[keys[i]].given && !v[file].given) {
            *key = keys[i];
            return 1;
        }
    *key = flag;
    return v[flag].choice && !v[file].given;
}

static const char *answers_have_file(const struct dew_value *v,
                                     enum scenario__key *key)
{
    static const enum scenario__key answers[] = {
        KEY_weather_station,   KEY_weather_year,      KEY_weather_order,
        KEY_weather_clock,     KEY_weather_utc,       KEY_weather_latitude,
        KEY_weather_longitude, KEY_weather_elevation, KEY_weather_units,
        KEY_weather_columns,   KEY_weather_gap};

    if (!lacks_file(v, KEY_weather_file, answers,
                    sizeof answers / sizeof answers[0], KEY_weather_frost_point,
                    key))
        return NULL;
    return *key == KEY_weather_frost_point
               ? "is of a weather.file's dew points: there is none"
               : "answers what a weather.file leaves open: there is none";
}

static const char *log_has_file(const struct dew_value *v,
                                enum scenario__key *key)
{
    static const enum scenario__key answers[] = {
        KEY_log_sensor, KEY_log_order,   KEY_log_clock, KEY_log_utc,
        KEY_log_units,  KEY_log_columns, KEY_log_reads};

    return lacks_file(v, KEY_log_file, answers,
                      sizeof answers / sizeof answers[0], KEY_log_held, key)
               ? "has no log to speak of: give log.file"
               : NULL;
}

/* Further off a sensor is broken: our own. */
static const double FAR_OFF = 0.3;

static const char *checks_a_sensor(const struct dew_value *v,
                                   enum scenario__key *key)
{
    const struct dew_value *reads = &v[KEY_log_reads];

    *key = KEY_log_reads;
    for (size_t i = 0; reads->given && i < reads->count; i++) {
        double is = reads->items[i].at;

        if (is < 0 || is > 1 || fabs(reads->items[i].amount.si - is) > FAR_OFF)
            return "is no check of a sensor: write what it reads at what the "
                   "humidity is, as in 79 % at 75.3 %, both 0 to 100 %; one "
                   "that is more than 30 points off is broken";
    }
    return NULL;
}

static const char *rooms_have_height(const struct dew_value *v,
                                     enum scenario__key *key)
{
    double height;

    *key = KEY_house_volume;
    if (!GIVEN(v, house_volume))
        return NULL;
    height = (SI(v, house_volume) - scenario__basement_volume(v)) /
             SI(v, house_floor_area);
    if (height < 1.8 && scenario__basement_volume(v) > 0)
        return "less the basement, volume / floor area is below 1.8 m (5.9 "
               "ft): volume counts the basement, floor area does not";
    return height < 1.8 ? "volume / floor area is below 1.8 m (5.9 ft): one of "
                          "the two is wrong"
           : height > 8 ? "volume / floor area is above 8 m (26 ft): one of "
                          "the two is wrong"
                        : NULL;
}

static const char *basement_is_told(const struct dew_value *v,
                                    enum scenario__key *key)
{
    static const enum scenario__key keys[] = {KEY_house_basement_depth,
                                              KEY_house_basement_height,
                                              KEY_insulation_basement_walls};
    int cellar = WORD(v, house_foundation) == FOUNDATION_basement;

    for (size_t i = 0; i < sizeof keys / sizeof keys[0] && !cellar; i++)
        if (v[keys[i]].given && v[keys[i]].origin.by != DEW_BY_DEFAULT) {
            *key = keys[i];
            return "has no basement to speak of: see house.foundation";
        }
    *key = KEY_insulation_ground_area;
    return cellar && GIVEN(v, insulation_ground_area) &&
                   SI(v, insulation_ground_area) <= 0
               ? "is 0, and house.foundation is basement: give the area of its "
                 "floor"
               : NULL;
}

/* ---- the rules ------------------------------------------------------------ */

static int passes_water(const struct dew_value *v)
{
    return WORD(v, ventilator_core) >= DEW_CORE_enthalpy_plate;
}

static int dries(const struct dew_value *v)
{
    return GIVEN(v, dehumidifier_rate) || GIVEN(v, dehumidifier_observed);
}

/* Of an option alone: in the base, keys may wait for options to have what
   they speak of. */
static int is_own(const struct dew_value *v)
{
    return v->given && v->origin.by == DEW_BY_OPTION;
}

static enum scenario__key own_key(const struct dew_value *v,
                                  enum scenario__key a, enum scenario__key b)
{
    return is_own(&v[a]) ? a : b;
}

/* The first given of count keys in a row, or the first of all. */
static enum scenario__key first_given(const struct dew_value *v,
                                      enum scenario__key first, int count)
{
    for (int k = (int)first; k < (int)first + count; k++)
        if (v[k].given)
            return (enum scenario__key)k;
    return first;
}

#define F(name, groups)
#define R(name, groups, at, when, text)                                        \
    static const char *name(const struct dew_value *v,                         \
                            enum scenario__key *key)                           \
    {                                                                          \
        *key = (at);                                                           \
        return (when) ? (text) : NULL;                                         \
    }
#include "scenario/rules.h"
#undef F
#undef R

static const struct rule {
    rule_of *breaks;
    const char *groups;
} rules[] = {
#define F(name, groups)                 {name, groups},
#define R(name, groups, at, when, text) {name, groups},
#include "scenario/rules.h"
#undef F
#undef R
};
enum { RULES = sizeof rules / sizeof rules[0] };

static void say_as(struct scenario__reading *r,
                   const struct scenario__option *o, enum scenario__key key,
                   enum dew_status status, const char *text)
{
    const struct dew_origin *at = &o->values[key].origin;
    struct scenario__node place = {.line = at->line, .column = at->column};
    char prefix[SCENARIO__NAME + 12];
    size_t count;

    snprintf(prefix, sizeof prefix, "options.%s.", o->name);
    r->prefix = at->by == DEW_BY_OPTION ? prefix : NULL;
    r->line = 0;
    scenario__blame(r, at->line > 0 && at->by != DEW_BY_SET ? &place : NULL,
                    dew_scenario_fields(&count)[key].path, status, "%s", text);
    r->prefix = NULL;
}

static void say(struct scenario__reading *r, const struct scenario__option *o,
                enum scenario__key key, const char *text)
{
    say_as(r, o, key, DEW_ERANGE, text);
}

/* Faults of house and plant, in weather that is nobody's in particular. */
static void try_case(const struct dew_scenario *s, size_t option,
                     struct scenario__reading *r, int *base_said)
{
    const struct dew_outdoors anywhere = {
        .site = {.latitude = 40},
        .pressure = 101325,
        .monthly = {-3, -1, 4, 10, 16, 21, 24, 23, 19, 12, 6, 0}};
    struct dew_error err = {0};
    const struct dew_field *f;
    size_t count;
    enum scenario__key key;

    if (dew_scenario_case(s, option, &anywhere, NULL, NULL, &err) == DEW_OK)
        return;
    f = dew_scenario_field(err.path);
    key = f != NULL ? (enum scenario__key)(f - dew_scenario_fields(&count))
                    : KEY_title;
    if (s->options[option].values[key].origin.by != DEW_BY_OPTION &&
        (*base_said)++ > 0)
        return;
    say_as(r, &s->options[option], key, err.status, err.text);
}

/* A second stage leads to an option of this file. */
static void next_is_an_option(const struct dew_scenario *s,
                              struct scenario__reading *r)
{
    int base_said = 0;

    for (size_t k = 0; k < s->count; k++) {
        const struct dew_value *next =
            &s->options[k].values[KEY_costs_next_option];
        int own = next->origin.by == DEW_BY_OPTION;

        if (!next->given || dew_scenario_find(s, next->text) < s->count ||
            (base_said && !own))
            continue;
        say(r, &s->options[k], KEY_costs_next_option,
            "no option has that name: a second stage leads to one of options");
        base_said |= !own;
    }
}

/* One rule through the options that are not left out. */
static void try_rule(const struct dew_scenario *s, const struct rule *rule,
                     const unsigned char *left_out, struct scenario__reading *r)
{
    int said = 0;

    for (size_t k = 0; k < s->count; k++) {
        const struct dew_value *v = s->options[k].values;
        enum scenario__key key = KEY_title;
        const char *text = left_out[k] ? NULL : rule->breaks(v, &key);
        int own = v[key].origin.by == DEW_BY_OPTION;

        if (text == NULL || (said && !own))
            continue;
        say(r, &s->options[k], key, text);
        said |= !own;
    }
}

enum dew_status scenario__agree(const struct dew_scenario *s,
                                const char *source, struct dew_faults *faults)
{
    struct scenario__reading r = {.faults = faults, .source = source};
    const unsigned char none[SCENARIO__OPTIONS] = {0};
    int base_said = 0;

    for (int i = 0; i < RULES; i++)
        try_rule(s, &rules[i], none, &r);
    scenario__agree_ducts(s, &r);
    next_is_an_option(s, &r);
    if (r.status == DEW_OK)
        for (size_t k = 0; k < s->count; k++)
            try_case(s, k, &r, &base_said);
    return r.status;
}

enum dew_status scenario__agree_values(const struct dew_value *v,
                                       struct dew_error *err)
{
    size_t count;

    for (int i = 0; i < RULES; i++) {
        enum scenario__key key = KEY_title;
        const char *text = rules[i].breaks(v, &key);

        if (text == NULL)
            continue;
        core__in(err, dew_scenario_fields(&count)[key].path);
        return core__fail(err, DEW_ERANGE, "%s", text);
    }
    return DEW_OK;
}

/* ---- beside faults of single keys ----------------------------------------- */

/* The option whose own key the path is; s->count where there is none. */
static size_t option_of(const struct dew_scenario *s, const char *path)
{
    for (size_t k = 0; k < s->count; k++) {
        size_t n = strlen(s->options[k].name);

        if (strncmp(path, s->options[k].name, n) == 0 && path[n] == '.')
            return k;
    }
    return s->count;
}

static int names(const char *groups, const char *path)
{
    size_t n = strcspn(path, ".");

    for (; *groups != '\0'; groups += strspn(groups, " ")) {
        size_t length = strcspn(groups, " ");

        if (length == n && strncmp(groups, path, n) == 0)
            return 1;
        groups += length;
    }
    return 0;
}

/* Of each fault its option is left out, or the rules of its group; 0 where it
   may stand for any key, as a group's name that is not known does. */
static int leave_out(const struct dew_scenario *s, const char *path,
                     unsigned char *option, unsigned char *rule)
{
    static const char own[] = "options.";
    size_t k;

    if (strncmp(path, own, sizeof own - 1) == 0) {
        k = option_of(s, path + sizeof own - 1);
        if (k < s->count)
            option[k] = 1;
        return k < s->count;
    }
    for (int i = 0; i < RULES; i++)
        rule[i] |= (unsigned char)names(rules[i].groups, path);
    return strchr(path, '.') != NULL || dew_scenario_field(path) != NULL;
}

void scenario__agree_beside(const struct dew_scenario *s, const char *source,
                            struct dew_faults *faults)
{
    struct scenario__reading r = {.faults = faults, .source = source};
    unsigned char option[SCENARIO__OPTIONS] = {0}, rule[RULES] = {0};

    if (faults == NULL || faults->count > faults->room)
        return;
    for (size_t i = 0; i < faults->count; i++)
        if (!leave_out(s, faults->list[i].path, option, rule))
            return;
    for (int i = 0; i < RULES; i++)
        if (!rule[i])
            try_rule(s, &rules[i], option, &r);
}
