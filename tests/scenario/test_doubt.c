/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What defaults leave open: every numeric key has a range or says why not, and
 * each range moves the house where what it is about stands.
 */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "scenario/case_further.h"
#include "scenario/case_open.h"

static int numeric(const struct dew_field *f)
{
    return f->kind == DEW_KIND_NUMBER || f->kind == DEW_KIND_COUNT ||
           f->kind == DEW_KIND_AT || f->kind == DEW_KIND_LIST ||
           f->kind == DEW_KIND_HOURS;
}

TEST(every_numeric_key_has_a_range_or_says_why_not)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++) {
        if (numeric(&f[i]) && f[i].doubt_why == NULL)
            fail_msg("%s: neither a range nor a reason", f[i].path);
        if ((f[i].doubt == DEW_DOUBT_RANGE || f[i].doubt == DEW_DOUBT_WORDS) !=
            (f[i].span != NULL))
            fail_msg("%s: a span, and no range", f[i].path);
    }
}

/* A list's figures are not drawn: each column says why it has no range. */
TEST(every_numeric_column_of_rows_says_why_it_has_no_range)
{
    size_t count, seen = 0;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < f[i].row_count; k++) {
            const struct dew_field *column = &f[i].row[k];

            if (!numeric(column))
                continue;
            seen++;
            if (column->doubt_why == NULL || column->doubt != DEW_DOUBT_NONE)
                fail_msg("%s, column %s: no reason", f[i].path, column->path);
        }
    assert_true(seen > 40);
}

/* Of the presets as read, which hold the ends to the key's own range. */
TEST(usual_ranges_hold_their_likely_figure)
{
    struct dew_scenario *s = opened(BASE, NULL, 0);
    const char *const bare[] = {"house.airtightness=none",
                                "house.ceiling_height=none"};
    struct dew_scenario *none = opened(BASE, bare, 2);
    const struct dew_value *v = dew_scenario_values(none, 0);
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++)
        if (f[i].doubt == DEW_DOUBT_RANGE && !v[i].given)
            fail_msg("%s: a range of no default", f[i].path);
        else if (f[i].doubt == DEW_DOUBT_RANGE &&
                 !(f[i].low <= v[i].least && v[i].least <= v[i].amount.si &&
                   v[i].amount.si <= v[i].most && v[i].most <= f[i].high &&
                   v[i].least < v[i].most))
            fail_msg("%s: its range does not hold", f[i].path);
        else if (f[i].doubt == DEW_DOUBT_TIMES &&
                 !(f[i].least_by >= 0 && f[i].least_by <= 1 &&
                   f[i].most_by >= 1 && f[i].least_by < f[i].most_by))
            fail_msg("%s: its factors do not hold 1", f[i].path);
        else if (f[i].doubt == DEW_DOUBT_STEP &&
                 !(f[i].least_by < 0 && f[i].most_by > 0))
            fail_msg("%s: its steps do not hold 0", f[i].path);
    dew_scenario_close(none);
    dew_scenario_close(s);
}

/* ---- each range moves the house ------------------------------------------------ */

static enum dew_status end_of(const struct dew_scenario *s,
                              const struct dew_change *one,
                              struct dew_case *out)
{
    const struct dew_changes changes = {one, 1};
    struct dew_error err = {0};

    memset(out, 0, sizeof *out);
    return dew_scenario_case(s, 0, &place, &changes, out, &err);
}

/* 1 where both ends make houses that differ. */
static int moves(const char *text, size_t key)
{
    static struct dew_case low, high;
    size_t count;
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_measure ends;
    struct dew_change at = {
        .path = dew_scenario_fields(&count)[key].path,
        .how = dew_scenario_doubt(dew_scenario_values(s, 0), key, &ends)};
    int differ = 0;

    if (at.how != DEW_DOUBT_NONE) {
        at.si = ends.low;
        differ = end_of(s, &at, &low) == DEW_OK;
        at.si = ends.high;
        differ = differ && end_of(s, &at, &high) == DEW_OK &&
                 memcmp(&low, &high, sizeof low) != 0;
    }
    dew_scenario_close(s);
    return differ;
}

static void a_range_moves_the_house(void **state)
{
    const struct dew_field *f = *state;
    size_t count, key = (size_t)(f - dew_scenario_fields(&count));

    for (size_t g = 0; g < COUNT_OF(grounds); g++)
        if (moves(grounds[g], key))
            return;
    for (size_t g = 0; g < COUNT_OF(further); g++)
        if (moves(further[g], key))
            return;
    fail_msg("%s: its range changes no house of these", f->path);
}

/* ---- words ------------------------------------------------------------------------ */

static const struct word_row {
    const char *name, *key, *text;
    int likely;
    unsigned may;
} word_rows[] = {
    {"two fuels", "heating.kind", BARE "heating: {kind: gas or electric}\n", 2,
     1U << 1 | 1U << 2},
    {"the likelier first", "heating.kind",
     BARE "heating: {kind: electric or gas}\n", 1, 1U << 1 | 1U << 2},
    {"one told twice is in no doubt", "heating.kind",
     BARE "heating: {kind: gas or gas}\n", 2, 0},
    {"any, by the default", "house.foundation",
     BARE "house: {foundation: unknown}\n", 0, 7},
    {"yes or no", "house.flue", BARE "house: {flue: yes or no}\n", 1, 3},
    {"no or yes", "house.flue", BARE "house: {flue: no or yes}\n", 0, 3},
    {"a flag by its default", "house.flue", BARE "house: {flue: unknown}\n", 0,
     3},
    {"a flag whose default is yes", "heating.by_air",
     BARE "heating: {by_air: unknown}\n", 1, 3},
    {"an answer not known", "ducts.backdraft",
     BARE "ducts: {backdraft: unknown}\n", DEW_ANSWER_UNKNOWN,
     1U << DEW_ANSWER_NO | 1U << DEW_ANSWER_YES},
    {"a default in doubt", "house.shelter", BARE, 2,
     1U << 1 | 1U << 2 | 1U << 3},
    {"and told", "house.shelter", BARE "house: {shelter: open}\n", 0, 0},
};

static void words_are_in_doubt_so(void **state)
{
    const struct word_row *row = *state;
    struct dew_scenario *s = opened(row->text, NULL, 0);
    size_t count, key = (size_t)(dew_scenario_field(row->key) -
                                 dew_scenario_fields(&count));
    const struct dew_value *v = &dew_scenario_values(s, 0)[key];
    struct dew_measure ends = {-1, -1, -1};
    unsigned seen = 0;

    assert_int_equal(v->choice, row->likely);
    assert_int_equal(v->may, row->may);
    assert_int_equal(dew_scenario_doubt(dew_scenario_values(s, 0), key, &ends),
                     row->may ? DEW_DOUBT_WORDS : DEW_DOUBT_NONE);
    for (int i = 0; i < 600; i++)
        seen |= 1U << dew_scenario_word(v, (i + 0.5) / 600);
    assert_int_equal(seen, row->may ? row->may : 1U << row->likely);
    dew_scenario_close(s);
}
ROWS(word_rows, words_are_in_doubt_so);

/* Of three words each takes a third. */
TEST(words_are_as_likely_as_each_other)
{
    struct dew_scenario *s =
        opened(BARE "house: {foundation: unknown}\n", NULL, 0);
    const struct dew_value *v = dew_scenario_values(s, 0);
    size_t count, key = (size_t)(dew_scenario_field("house.foundation") -
                                 dew_scenario_fields(&count));

    assert_int_equal(dew_scenario_word(&v[key], 0.333), 0);
    assert_int_equal(dew_scenario_word(&v[key], 0.334), 1);
    assert_int_equal(dew_scenario_word(&v[key], 0.666), 1);
    assert_int_equal(dew_scenario_word(&v[key], 0.667), 2);
    assert_int_equal(dew_scenario_word(&v[key], 1), 2);
    dew_scenario_close(s);
}

static const struct refused_word_row {
    const char *name, *text, *says;
} refused_word_rows[] = {
    {"no usual one",
     BARE "ventilator: {core: heat_plate, sensible: 70 % at 95 cfm,\n"
          "  frost: unknown}\n",
     "h.yaml:4:10: ventilator.frost: unknown: there is no usual one to go by; "
     "write those it may be with \"or\" between, of none, recirculate, "
     "exhaust_only or preheat"},
    {"what is chosen", BARE "ventilator: {core: balanced or exhaust_only}\n",
     "h.yaml:3:20: ventilator.core: \"balanced or exhaust_only\": this is "
     "chosen, not doubted: write one, and the other in an option of its own"},
    {"a flag that is chosen", BARE "ventilator: {typical: yes or no}\n",
     "h.yaml:3:23: ventilator.typical: \"yes or no\": this is chosen, not "
     "doubted: write one, and the other in an option of its own"},
    {"a word that is none", BARE "house: {foundation: slab or stilts}\n",
     "h.yaml:3:21: house.foundation: \"stilts\" is not known: write slab, "
     "basement or crawl_space"},
    {"no answer", BARE "house: {flue: perhaps}\n",
     "h.yaml:3:15: house.flue: \"perhaps\" is no answer: write yes, no or "
     "unknown"},
};

static void a_word_is_refused(void **state)
{
    const struct refused_word_row *row = *state;
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_scenario_source from = {row->text, strlen(row->text), "h.yaml",
                                       NULL, 0};
    struct dew_scenario *s = NULL;
    char line[500];

    assert_int_not_equal(dew_scenario_open(&s, &from, &faults), DEW_OK);
    assert_null(s);
    assert_string_equal(dew_error_line(&list[0], line, sizeof line), row->says);
}
ROWS(refused_word_rows, a_word_is_refused);

/* ---- a change is the figure that it comes to -------------------------------------- */

static const struct as_set_row {
    const char *name, *key;
    double si;
    enum dew_doubt how;
    const char *set;
} as_set_rows[] = {
    {"a range", "insulation.floor", 1.2, DEW_DOUBT_RANGE,
     "insulation.floor=1.2 m2K/W"},
    {"people, 4 of 3 bedrooms", "people.count", 1.25, DEW_DOUBT_TIMES,
     "people.count=5"},
    {"showers, one for each of 4", "moisture.showers", 0.75, DEW_DOUBT_TIMES,
     "moisture.showers=3 per day"},
    {"cooking, 0.99 kg/day for 4", "moisture.cooking_water", 1.5,
     DEW_DOUBT_TIMES, "moisture.cooking_water=1.485 kg/day"},
    {"dishes, 0.50 kg/day for 4", "moisture.dishes", 0.5, DEW_DOUBT_TIMES,
     "moisture.dishes=0.25 kg/day"},
    {"appliances, 3 W/m2 of 222.967 m2", "people.appliances", 0.5,
     DEW_DOUBT_TIMES, "people.appliances=334.450944 W"},
    {"a window side, 3.75 % of the floor", "windows.south", 1.6,
     DEW_DOUBT_TIMES, "windows.south=13.378037760 m2"},
    {"a heater, 150 W/m2", "heating.capacity", 0.5, DEW_DOUBT_TIMES,
     "heating.capacity=16722.5472 W"},
    {"gas, 90 %", "heating.efficiency", 0.9, DEW_DOUBT_TIMES,
     "heating.efficiency=81 %"},
    {"a frost start, 23 degF", "ventilator.frost_start", 2, DEW_DOUBT_STEP,
     "ventilator.frost_start=-3 degC"},
    {"a blower half way to its high, 0.365 to 0.45 W per cfm",
     "cooling.blower_power", 0.5, DEW_DOUBT_WITHIN,
     "cooling.blower_power=489 W"},
    {"an attic at its low, 5 to 6.5 an hour", "ducts.place_air", -1,
     DEW_DOUBT_WITHIN, "ducts.place_air=5 per hour"},
    {"a word", "house.foundation", 2, DEW_DOUBT_WORDS,
     "house.foundation=crawl_space"},
    {"a flag", "house.flue", 1, DEW_DOUBT_WORDS, "house.flue=yes"},
    {"a bath fan, 4 showers of 28 minutes", "bath_fan.run", 0.5,
     DEW_DOUBT_TIMES, "bath_fan.run=2.333333333333 min/h"},
};

/* The number at byte i of both is the same but for a hair. */
static int is_near(const struct dew_case *a, const struct dew_case *b, size_t i)
{
    double x, y;

    memcpy(&x, (const char *)a + i, sizeof x);
    memcpy(&y, (const char *)b + i, sizeof y);
    return fabs(x - y) <= 1e-9 * fabs(y);
}

/* Numbers of one struct against another's, none farther than a hair.  They stand
   at every fourth byte where a machine puts them so: half a number that differs
   is of one that is near. */
static void assert_alike(const struct dew_case *a, const struct dew_case *b)
{
    const size_t half = sizeof(double) / 2;

    for (size_t i = 0; i + half <= sizeof *a; i += half) {
        if (memcmp((const char *)a + i, (const char *)b + i, half) == 0)
            continue;
        if (!(i >= half && is_near(a, b, i - half)) &&
            !(i + sizeof(double) <= sizeof *a && is_near(a, b, i)))
            fail_msg("byte %zu of a case is another", i);
    }
}

static void a_change_comes_to_a_set(void **state)
{
    static const char text[] =
        BASE "heating: {kind: gas}\ncooling: {capacity: 3 ton}\n"
             "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm}\n"
             "bath_fan: {flow: 80 cfm}\nducts: {leak_return: 4 %}\n";
    static struct dew_case plain, changed, set;
    const struct as_set_row *row = *state;
    const struct dew_change one = {row->key, row->si, row->how};
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_scenario *typed = opened(text, &row->set, 1);

    make(s, 0, &plain);
    make(typed, 0, &set);
    assert_int_equal(end_of(s, &one, &changed), DEW_OK);
    assert_true(memcmp(&plain, &changed, sizeof plain) != 0);
    assert_alike(&changed, &set);
    dew_scenario_close(typed);
    dew_scenario_close(s);
}
ROWS(as_set_rows, a_change_comes_to_a_set);

/* ---- what is in doubt --------------------------------------------------------------- */

static const struct doubt_row {
    const char *name, *key, *text;
    enum dew_doubt how;
    double low, likely, high;
} doubt_rows[] = {
    {"a range that was told", "house.airtightness",
     BARE "house: {airtightness: 2 ach50 (1 to 4)}\n", DEW_DOUBT_RANGE, 1, 2,
     4},
    {"a figure told without one", "house.airtightness",
     BARE "house: {airtightness: 2 ach50}\n", DEW_DOUBT_NONE, 0, 0, 0},
    {"a default with its own", "surfaces.corner_factor", BARE, DEW_DOUBT_RANGE,
     0.70, 0.75, 0.80},
    {"a default with its row's", "surfaces.edge_factor", BARE, DEW_DOUBT_RANGE,
     0.45, 0.55, 0.70},
    {"a figure worked out", "people.count", BARE, DEW_DOUBT_TIMES, 0.5, 1,
     1.25},
    {"and told", "people.count", BARE "people: {count: 3}\n", DEW_DOUBT_NONE, 0,
     0, 0},
    {"a share at a flow", "ventilator.sensible",
     BARE "ventilator: {core: heat_plate, sensible: 74 % (70 to 80) at 95 "
          "cfm}\n",
     DEW_DOUBT_RANGE, 0.70, 0.74, 0.80},
    {"a typical core", "ventilator.sensible",
     BARE "ventilator: {core: heat_plate, typical: yes}\n", DEW_DOUBT_WITHIN,
     -1, 0, 1},
    {"no core", "ventilator.sensible", BARE, DEW_DOUBT_NONE, 0, 0, 0},
    {"a machine by its default", "cooling.seer",
     BARE "cooling: {capacity: 3 ton}\n", DEW_DOUBT_RANGE, 10, 14, 18},
    {"a typical machine", "cooling.seer",
     BARE "cooling: {capacity: 3 ton, typical: variable}\n", DEW_DOUBT_WITHIN,
     -1, 0, 1},
};

static void it_is_in_doubt_so(void **state)
{
    const struct doubt_row *row = *state;
    struct dew_scenario *s = opened(row->text, NULL, 0);
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    struct dew_measure ends = {0, 0, 0};

    assert_int_equal(
        dew_scenario_doubt(dew_scenario_values(s, 0),
                           (size_t)(dew_scenario_field(row->key) - f), &ends),
        row->how);
    assert_near(ends.low, row->low, 1e-9);
    assert_near(ends.si, row->likely, 1e-9);
    assert_near(ends.high, row->high, 1e-9);
    dew_scenario_close(s);
}
ROWS(doubt_rows, it_is_in_doubt_so);

/* ---- why a range changes nothing ---------------------------------------------------- */

#define CORE    "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm}\n"
#define COOL    "cooling: {capacity: 3 ton}\n"
#define WET_OFF "dehumidifier: {rate: 50 pint/day"

/* What a bare house lacks, and that nothing which has a reason moves a house:
   test_doubt_march.c. */
static const struct lull_row {
    const char *name, *key, *text, *why; /* NULL: none                       */
} lull_rows[] = {
    {"a seer", "cooling.seer", BARE COOL, NULL},
    {"an eer for it", "cooling.seer",
     BARE "cooling: {capacity: 3 ton, eer: 12}\n", "cooling.eer is told"},
    {"boosted by events", "ventilator.boost_flow",
     BARE CORE "control: {boost_for_events: 50 %}\n", NULL},
    {"boosted by humidity", "ventilator.boost_flow",
     BARE CORE "control: {boost_above: 55 %}\n", NULL},
    {"boosted by nothing", "ventilator.boost_flow", BARE CORE,
     "nothing boosts it"},
    {"a band of events", "control.boost_band",
     BARE CORE "control: {boost_for_events: 50 %}\n", "no humidity boosts it"},
    {"a band of humidity", "control.boost_band",
     BARE CORE "control: {boost_above: 55 %}\n", NULL},
    {"a dryer", "clothes_dryer.run_on", BARE "clothes_dryer: {flow: 150 cfm}\n",
     NULL},
    {"a dryer's run", "clothes_dryer.run_on",
     BARE "clothes_dryer: {flow: 150 cfm, run: 5 min/h}\n",
     "clothes_dryer.run is told"},
    {"a hood", "range_hood.run_on", BARE "range_hood: {flow: 150 cfm}\n", NULL},
    {"a hood's run", "range_hood.run_on",
     BARE "range_hood: {flow: 150 cfm, run: 5 min/h}\n",
     "range_hood.run is told"},
    {"a bath fan", "bath_fan.run_on", BARE "bath_fan: {flow: 80 cfm}\n", NULL},
    {"a bath fan's run", "bath_fan.run_on",
     BARE "bath_fan: {flow: 80 cfm, run: 5 min/h}\n", "bath_fan.run is told"},
    {"one handler", "second_handler.shr", BARE COOL,
     "there is no second air handler"},
    {"two handlers", "second_handler.shr", BARE "air_handlers: 2\n" COOL, NULL},
    {"two for a third", "third_handler.shr", BARE "air_handlers: 2\n" COOL,
     "there is no third air handler"},
    {"three handlers", "third_handler.shr", BARE "air_handlers: 3\n" COOL,
     NULL},
    {"a factor", "dehumidifier.factor", BARE WET_OFF "}\n", NULL},
    {"a power for it", "dehumidifier.factor", BARE WET_OFF ", power: 500 W}\n",
     "dehumidifier.power is told"},
    {"nothing observed", "dehumidifier.observed_humidity", BARE WET_OFF "}\n",
     "dehumidifier.observed is not told"},
    {"a heat core's moisture", "ventilator.moisture", BARE CORE,
     "there is no enthalpy core"},
    {"one stage", "cooling.low_stage_air", BARE COOL,
     "the cooling has one speed"},
    {"two stages", "cooling.low_stage_air",
     BARE "cooling: {capacity: 3 ton, low_stage: 70 %}\n", NULL},
    {"stages of a typical one", "cooling.low_stage_air",
     BARE "cooling: {capacity: 3 ton, typical: two_stage}\n", NULL},
    {"no overcooling", "cooling.overcool_above", BARE COOL,
     "the thermostat does not overcool"},
    {"gas", "heating.efficiency", BARE "heating: {kind: gas}\n", NULL},
    {"a heat pump's fuel", "heating.efficiency",
     BARE "heating: {kind: heat_pump}\n", "the heater burns no fuel"},
    {"electric heat's fuel", "heating.efficiency",
     BARE "heating: {kind: electric}\n", "the heater burns no fuel"},
    {"showers", "moisture.shower_water", BARE, NULL},
    {"showers as water", "moisture.shower_water",
     BARE "moisture: {showers: 2 kg/day}\n", "showers are told as their water"},
    {"plants as water", "moisture.plant_water",
     BARE "moisture: {plants: 0.5 kg/day}\n", "plants are told as their water"},
    {"nothing cooked", "moisture.cooking_water",
     BARE "moisture: {cooking: none}\n", "nothing is cooked"},
    {"a class", "buffering.class", BARE, NULL},
    {"a value for it", "buffering.class",
     BARE "buffering: {value: 0.1 kg/m2}\n",
     "what takes up water is told otherwise"},
    {"a leakage for it", "house.airtightness",
     BARE "house: {leakage_at_1_pa: 10 cfm}\n",
     "house.leakage_at_1_pa is told"},
    {"a constant leakage", "house.shelter",
     BARE "house: {infiltration: constant, constant_leakage: 50 cfm}\n",
     "leakage is told as a constant"},
    {"a constant leakage for it", "house.airtightness",
     BARE "house: {infiltration: constant, constant_leakage: 50 cfm}\n",
     "leakage is told as a constant"},
    {"a constant leakage's flue", "house.flue",
     BARE "house: {infiltration: constant, constant_leakage: 50 cfm}\n",
     "leakage is told as a constant"},
    {"a temperature given for a heater", "heating.capacity",
     BARE "temperature: {given: 70 degF}\n", "the rooms' temperature is given"},
    {"no heater", "heating.capacity", BARE "heating: {kind: none}\n",
     "there is no heating"},
    {"a band of a temperature given", "temperature.band",
     BARE "temperature: {given: 70 degF}\n", "the rooms' temperature is given"},
    {"ratings", "ventilator.sensible",
     BARE "ventilator: {core: heat_plate, ratings: [{flow: 60 cfm, sre: 0.7, "
          "power: 40 W}]}\n",
     "ventilator.ratings are told"},
    {"ratings of moisture", "ventilator.moisture",
     BARE "ventilator: {core: enthalpy_plate, ratings: [{flow: 60 cfm, sre: "
          "0.7, lrmt: 0.5, power: 40 W}]}\n",
     "ventilator.ratings are told"},
    {"no frost", "ventilator.frost_start",
     BARE "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm, frost: "
          "none}\n",
     "there is no frost protection"},
    {"baths", "moisture.bath_water", BARE "moisture: {baths: 1 per day}\n",
     NULL},
    {"baths as water", "moisture.bath_water",
     BARE "moisture: {baths: 1 kg/day}\n", "no baths are told"},
    {"laundry", "moisture.laundry_water",
     BARE "moisture: {laundry_dried_indoors: 1 per day}\n", NULL},
    {"laundry as water", "moisture.laundry_water",
     BARE "moisture: {laundry_dried_indoors: 1 kg/day}\n",
     "no laundry is dried indoors"},
    {"a temperature given", "temperature.heat",
     BARE "temperature: {given: 70 degF}\n", "the rooms' temperature is given"},
};

static void it_changes_nothing_for_a_reason(void **state)
{
    const struct lull_row *row = *state;
    struct dew_scenario *s = opened(row->text, NULL, 0);
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    int lull = dew_scenario_lull(dew_scenario_values(s, 0),
                                 (size_t)(dew_scenario_field(row->key) - f));

    if (row->why != NULL)
        assert_string_equal(dew_scenario_lull_words(lull), row->why);
    else
        assert_int_equal(lull, -1);
    dew_scenario_close(s);
}
ROWS(lull_rows, it_changes_nothing_for_a_reason);

__attribute__((constructor)) static void add_ranges(void)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++)
        if (f[i].doubt != DEW_DOUBT_NONE)
            add_test(f[i].path, a_range_moves_the_house, &f[i]);
}

RUN_TESTS("scenario, doubt");
