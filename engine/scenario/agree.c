/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules between keys.  Each is said once when the base alone breaks it. */
#include <stdio.h>
#include <string.h>

#include "scenario/agree.h"
#include "scenario/case.h"

/* A rule returns NULL, or what is wrong; *key is then where it shows. */
typedef const char *rule_of(const struct dew_value *v, enum dew__key *key);

static const char *one_weather(const struct dew_value *v, enum dew__key *key)
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

static const char *fill_has_file(const struct dew_value *v, enum dew__key *key)
{
    *key = KEY_weather_fill;
    return GIVEN(v, weather_fill) && !GIVEN(v, weather_file)
               ? "fill is for a weather.file: a place has every hour"
               : NULL;
}

/* One of count keys, or the flag, speaks of a file that is not there. */
static int lacks_file(const struct dew_value *v, enum dew__key file,
                      const enum dew__key *keys, size_t count,
                      enum dew__key flag, enum dew__key *key)
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
                                     enum dew__key *key)
{
    static const enum dew__key answers[] = {
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

static const char *log_has_file(const struct dew_value *v, enum dew__key *key)
{
    static const enum dew__key answers[] = {KEY_log_sensor, KEY_log_order,
                                            KEY_log_clock};

    return lacks_file(v, KEY_log_file, answers,
                      sizeof answers / sizeof answers[0], KEY_log_held, key)
               ? "has no log to speak of: give log.file"
               : NULL;
}

static const char *rooms_have_height(const struct dew_value *v,
                                     enum dew__key *key)
{
    double height;

    *key = KEY_house_volume;
    if (!GIVEN(v, house_volume))
        return NULL;
    height = (SI(v, house_volume) - dew__basement_volume(v)) /
             SI(v, house_floor_area);
    if (height < 1.8 && dew__basement_volume(v) > 0)
        return "less the basement, volume / floor area is below 1.8 m (5.9 "
               "ft): volume counts the basement, floor area does not";
    return height < 1.8 ? "volume / floor area is below 1.8 m (5.9 ft): one of "
                          "the two is wrong"
           : height > 8 ? "volume / floor area is above 8 m (26 ft): one of "
                          "the two is wrong"
                        : NULL;
}

static const char *basement_is_told(const struct dew_value *v,
                                    enum dew__key *key)
{
    static const enum dew__key keys[] = {KEY_house_basement_depth,
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

static const char *constant_has_flow(const struct dew_value *v,
                                     enum dew__key *key)
{
    *key = KEY_house_infiltration;
    return WORD(v, house_infiltration) == INFILTRATION_constant &&
                   !GIVEN(v, house_constant_leakage)
               ? "is constant: give house.constant_leakage too"
               : NULL;
}

static const char *heat_below_cool(const struct dew_value *v,
                                   enum dew__key *key)
{
    *key = GIVEN(v, temperature_heat) &&
                   v[KEY_temperature_heat].origin.by != DEW_BY_DEFAULT
               ? KEY_temperature_heat
               : KEY_temperature_cool;
    return SI(v, temperature_heat) > SI(v, temperature_cool)
               ? "heats to above what temperature.cool cools to: the lower "
                 "one is for heating"
               : NULL;
}

static const char *dry_below_humid(const struct dew_value *v,
                                   enum dew__key *key)
{
    *key = KEY_limits_too_dry;
    return SI(v, limits_too_dry) >= SI(v, limits_too_humid)
               ? "is not below limits.too_humid: no humidity would be right"
               : NULL;
}

static const char *airing_rises(const struct dew_value *v, enum dew__key *key)
{
    *key = KEY_airing_full;
    return SI(v, airing_from) >= SI(v, airing_full)
               ? "is not above airing.from: windows open as it gets warmer"
               : NULL;
}

static const char *humidistats_apart(const struct dew_value *v,
                                     enum dew__key *key)
{
    *key = KEY_humidifier_set;
    return GIVEN(v, humidifier_rate) &&
                   (GIVEN(v, dehumidifier_rate) ||
                    GIVEN(v, dehumidifier_observed)) &&
                   SI(v, humidifier_set) + SI(v, humidifier_band) / 2 >
                       SI(v, dehumidifier_set) - SI(v, dehumidifier_band) / 2
               ? "overlaps dehumidifier.set with its band: each would feed the "
                 "other"
               : NULL;
}

static const char *one_dryer(const struct dew_value *v, enum dew__key *key)
{
    *key = KEY_dehumidifier_observed;
    return GIVEN(v, dehumidifier_rate) && GIVEN(v, dehumidifier_observed)
               ? "stands beside dehumidifier.rate: keep one or the other"
               : NULL;
}

static const char *seen_is_observed(const struct dew_value *v,
                                    enum dew__key *key)
{
    *key = GIVEN(v, dehumidifier_observed_humidity)
               ? KEY_dehumidifier_observed_humidity
               : KEY_dehumidifier_observed_temperature;
    return !GIVEN(v, dehumidifier_observed) &&
                   (GIVEN(v, dehumidifier_observed_humidity) ||
                    GIVEN(v, dehumidifier_observed_temperature))
               ? "is where dehumidifier.observed was seen: give that too"
               : NULL;
}

/* Whether an option writes one of two keys itself; *key is then that one. */
static int option_says(const struct dew_value *v, enum dew__key a,
                       enum dew__key b, enum dew__key *key)
{
    *key = v[a].given && v[a].origin.by == DEW_BY_OPTION ? a : b;
    return v[*key].given && v[*key].origin.by == DEW_BY_OPTION;
}

/* Of an option alone: in the base, keys may wait for options to have it. */
static const char *dryer_is_there(const struct dew_value *v, enum dew__key *key)
{
    return option_says(v, KEY_dehumidifier_set, KEY_dehumidifier_rating, key) &&
                   !GIVEN(v, dehumidifier_rate) &&
                   !GIVEN(v, dehumidifier_observed)
               ? "has no dehumidifier to speak of: give dehumidifier.rate or "
                 "dehumidifier.observed"
               : NULL;
}

static const char *one_lockout(const struct dew_value *v, enum dew__key *key)
{
    *key = KEY_control_lockout_humidity_ratio;
    return GIVEN(v, control_lockout_humidity_ratio) &&
                   GIVEN(v, control_lockout_dew_point)
               ? "stands beside control.lockout_dew_point: keep one or the "
                 "other"
               : NULL;
}

/* ---- ventilator ---------------------------------------------------------- */

static int recovers(const struct dew_value *v)
{
    return WORD(v, ventilator_core) >= DEW_CORE_heat_plate;
}

static const char *ventilator_is_there(const struct dew_value *v,
                                       enum dew__key *key)
{
    return option_says(v, KEY_ventilator_flow, KEY_ventilator_power, key) &&
                   WORD(v, ventilator_core) == DEW_CORE_none
               ? "has no ventilator to speak of: say its kind, ventilator.core"
               : NULL;
}

static const char *core_has_figures(const struct dew_value *v,
                                    enum dew__key *key)
{
    *key = KEY_ventilator_core;
    return recovers(v) && !GIVEN(v, ventilator_sensible) &&
                   !GIVEN(v, ventilator_ratings) && !WORD(v, ventilator_typical)
               ? "recovers heat: give ventilator.sensible (74 % at 95 cfm) or "
                 "ventilator.ratings"
               : NULL;
}

static const char *core_has_moisture(const struct dew_value *v,
                                     enum dew__key *key)
{
    *key = KEY_ventilator_core;
    return WORD(v, ventilator_core) >= DEW_CORE_enthalpy_plate &&
                   !GIVEN(v, ventilator_moisture) &&
                   !GIVEN(v, ventilator_ratings) && !WORD(v, ventilator_typical)
               ? "passes moisture: give ventilator.moisture (52 % at 95 cfm) "
                 "or ventilator.ratings"
               : NULL;
}

static const char *heat_core_is_dry(const struct dew_value *v,
                                    enum dew__key *key)
{
    *key = KEY_ventilator_moisture;
    return GIVEN(v, ventilator_moisture) &&
                   WORD(v, ventilator_core) < DEW_CORE_enthalpy_plate
               ? "only enthalpy cores pass moisture: see ventilator.core"
               : NULL;
}

static const char *one_sheet(const struct dew_value *v, enum dew__key *key)
{
    *key = KEY_ventilator_ratings;
    return GIVEN(v, ventilator_ratings) && (GIVEN(v, ventilator_sensible) ||
                                            GIVEN(v, ventilator_moisture))
               ? "stands beside ventilator.sensible or moisture: keep one or "
                 "the other"
               : NULL;
}

static const char *sensible_has_core(const struct dew_value *v,
                                     enum dew__key *key)
{
    *key = GIVEN(v, ventilator_ratings) ? KEY_ventilator_ratings
                                        : KEY_ventilator_sensible;
    return !recovers(v) && (GIVEN(v, ventilator_sensible) ||
                            GIVEN(v, ventilator_ratings))
               ? "has no core to speak of: see ventilator.core"
               : NULL;
}

static const char *tie_has_handler(const struct dew_value *v,
                                   enum dew__key *key)
{
    *key = KEY_layout;
    return WORD(v, layout) != DEW_LAYOUT_own_ducts && GIVEN(v, air_handlers) &&
                   SI(v, air_handlers) == 0
               ? "ties into an air handler, and air_handlers is 0"
               : NULL;
}

/* ---- air handlers -------------------------------------------------------- */

static const char *extra_handler(const struct dew_value *v, enum dew__key *key,
                                 enum dew__key first, double least)
{
    for (int i = 0; i < 4; i++)
        if (v[(int)first + i].given &&
            (!GIVEN(v, air_handlers) || SI(v, air_handlers) < least)) {
            *key = (enum dew__key)((int)first + i);
            return "air_handlers does not count that many";
        }
    return NULL;
}

static const char *second_counts(const struct dew_value *v, enum dew__key *key)
{
    return extra_handler(v, key, KEY_second_handler_capacity, 2);
}

static const char *third_counts(const struct dew_value *v, enum dew__key *key)
{
    return extra_handler(v, key, KEY_third_handler_capacity, 3);
}

/* The groups whose keys a rule reads: where one of them has a fault, its key
   stands at its default, and the rule would speak of what nobody wrote. */
struct rule {
    rule_of *breaks;
    const char *groups;
};

static const struct rule rules[] = {
    {one_weather, "weather"},
    {answers_have_file, "weather"},
    {fill_has_file, "weather"},
    {rooms_have_height, "house insulation"},
    {constant_has_flow, "house"},
    {heat_below_cool, "temperature"},
    {dry_below_humid, "limits"},
    {airing_rises, "airing"},
    {humidistats_apart, "humidifier dehumidifier"},
    {ventilator_is_there, "ventilator"},
    {core_has_figures, "ventilator"},
    {core_has_moisture, "ventilator"},
    {heat_core_is_dry, "ventilator"},
    {one_sheet, "ventilator"},
    {sensible_has_core, "ventilator"},
    {tie_has_handler, "layout air_handlers"},
    {second_counts, "air_handlers second_handler"},
    {third_counts, "air_handlers third_handler"},
    {dryer_is_there, "dehumidifier"},
    {one_dryer, "dehumidifier"},
    {seen_is_observed, "dehumidifier"},
    {one_lockout, "control"},
    {log_has_file, "log"},
    {basement_is_told, "house insulation"},
};
enum { RULES = sizeof rules / sizeof rules[0] };

static void say_as(struct dew__reading *r, const struct dew__option *o,
                   enum dew__key key, enum dew_status status, const char *text)
{
    const struct dew_origin *at = &o->values[key].origin;
    struct dew__node place = {.line = at->line, .column = at->column};
    char prefix[DEW__NAME + 12];
    size_t count;

    snprintf(prefix, sizeof prefix, "options.%s.", o->name);
    r->prefix = at->by == DEW_BY_OPTION ? prefix : NULL;
    r->line = 0;
    dew__blame(r, at->line > 0 && at->by != DEW_BY_SET ? &place : NULL,
               dew_scenario_fields(&count)[key].path, status, "%s", text);
    r->prefix = NULL;
}

static void say(struct dew__reading *r, const struct dew__option *o,
                enum dew__key key, const char *text)
{
    say_as(r, o, key, DEW_ERANGE, text);
}

/* Faults of house and plant, in weather that is nobody's in particular. */
static void try_case(const struct dew_scenario *s, size_t option,
                     struct dew__reading *r, int *base_said)
{
    const struct dew_outdoors anywhere = {
        .site = {.latitude = 40},
        .pressure = 101325,
        .monthly = {-3, -1, 4, 10, 16, 21, 24, 23, 19, 12, 6, 0}};
    struct dew_error err = {0};
    struct dew_case c;
    const struct dew_field *f;
    size_t count;
    enum dew__key key;

    if (dew_scenario_case(s, option, &anywhere, NULL, &c, &err) == DEW_OK)
        return;
    f = dew_scenario_field(err.path);
    key = f != NULL ? (enum dew__key)(f - dew_scenario_fields(&count))
                    : KEY_title;
    if (s->options[option].values[key].origin.by != DEW_BY_OPTION &&
        (*base_said)++ > 0)
        return;
    say_as(r, &s->options[option], key, err.status, err.text);
}

/* A second stage leads to an option of this file. */
static void next_is_an_option(const struct dew_scenario *s,
                              struct dew__reading *r)
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
                     const unsigned char *left_out, struct dew__reading *r)
{
    int said = 0;

    for (size_t k = 0; k < s->count; k++) {
        const struct dew_value *v = s->options[k].values;
        enum dew__key key = KEY_title;
        const char *text = left_out[k] ? NULL : rule->breaks(v, &key);
        int own = v[key].origin.by == DEW_BY_OPTION;

        if (text == NULL || (said && !own))
            continue;
        say(r, &s->options[k], key, text);
        said |= !own;
    }
}

enum dew_status dew__scenario_agree(const struct dew_scenario *s,
                                    const char *source,
                                    struct dew_faults *faults)
{
    struct dew__reading r = {.faults = faults, .source = source};
    const unsigned char none[DEW__OPTIONS] = {0};
    int base_said = 0;

    for (int i = 0; i < RULES; i++)
        try_rule(s, &rules[i], none, &r);
    dew__agree_ducts(s, &r);
    next_is_an_option(s, &r);
    if (r.status == DEW_OK)
        for (size_t k = 0; k < s->count; k++)
            try_case(s, k, &r, &base_said);
    return r.status;
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

void dew__scenario_agree_beside(const struct dew_scenario *s,
                                const char *source, struct dew_faults *faults)
{
    struct dew__reading r = {.faults = faults, .source = source};
    unsigned char option[DEW__OPTIONS] = {0}, rule[RULES] = {0};

    if (faults == NULL || faults->count > faults->room)
        return;
    for (size_t i = 0; i < faults->count; i++)
        if (!leave_out(s, faults->list[i].path, option, rule))
            return;
    for (int i = 0; i < RULES; i++)
        if (!rule[i])
            try_rule(s, &rules[i], option, &r);
}
