/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From keys to cases: figures by hand, no key without effect, a year marched. */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "dew/air.h"
#include "dew/made.h"
#include "dew/scenario.h"
#include "dew/thermal.h"
#include "scenario/case_open.h"

/* ---- figures by hand ------------------------------------------------------ */

TEST(the_envelope_is_what_the_keys_say)
{
    struct dew_case c = case_of(BASE "windows: {u: 1.83 W/m2K, north: 61 ft2, "
                                     "east: 0 ft2, south: 97 ft2, west: 43 "
                                     "ft2, sun_gain: 31 %, turn: -17 deg}\n"
                                     "insulation: {heat_loss: 143 W/K}\n");
    double volume = 2400 * 8.5 * 0.028316846592, glass = 201 * ft2;

    assert_near(c.house.volume, volume, 1e-9);
    assert_near(c.house.leakage.n, 0.65, 0);
    assert_near(c.house.leakage.c, 1.1 * volume / 3600 / pow(50, 0.65), 1e-12);
    assert_near(c.house.thermal.h_w, glass * 1.83, 1e-9);
    assert_int_equal(c.house.thermal.facade_count, 5);
    assert_near(c.house.thermal.facades[0].azimuth, 343, 1e-9);
    assert_near(c.house.thermal.facades[2].azimuth, 163, 1e-9);
    assert_near(c.house.surfaces[DEW_GLASS].factor, 1 - 1.83 * 0.13, 1e-12);
    assert_near(c.house.surfaces[DEW_GLASS].area +
                    c.house.surfaces[DEW_EDGE].area,
                glass, 1e-9);
    assert_near(c.pressure, 98512, 0);
}

TEST(the_four_forms_of_airtightness_agree)
{
    double volume = 2400 * 8.5 * 0.028316846592, flow = 1.1 * volume / 3600;
    double c = flow / pow(50, 0.65), rho = dew_air_density_run(98512);
    /* [ASH-F16] eq. 41 at 4 Pa, C_D 1 */
    double area = c * pow(4, 0.65) * sqrt(rho / (2 * 4));
    char text[400];

    snprintf(text, sizeof text, BASE "house: {leakage_at_1_pa: %.12f m3/s}\n",
             c);
    assert_near(case_of(text).house.leakage.c, c, 1e-11);
    snprintf(text, sizeof text,
             "weather: {place: 1}\nhouse: {floor_area: 2400 ft2, bedrooms: 3, "
             "airtightness: %.12f m3/h50}\n",
             flow * 3600);
    assert_near(case_of(text).house.leakage.c, c, 1e-11);
    snprintf(text, sizeof text,
             "weather: {place: 1}\nhouse: {floor_area: 2400 ft2, bedrooms: 3, "
             "airtightness: %.12f cm2}\n",
             area * 1e4);
    assert_near(case_of(text).house.leakage.c, c, 1e-9);
}

TEST(a_constant_leak_is_a_flow_or_air_changes)
{
    struct dew_case c = case_of(BASE "house: {infiltration: constant, "
                                     "constant_leakage: 0.13 per hour}\n");
    double volume = 2400 * 8.5 * 0.028316846592;

    assert_near(c.house.leakage.constant, 0.13 * volume / 3600, 1e-12);
    c = case_of(BASE "house: {infiltration: constant, constant_leakage: 23 "
                     "cfm}\n");
    assert_near(c.house.leakage.constant, 23 * cfm, 1e-15);
    assert_near(c.house.leakage.stack_k, 0, 0);
}

TEST(water_a_day_adds_up)
{
    struct dew_case c = case_of(
        BASE "moisture: {showers: 3 per day, shower_water: 0.31 kg, baths: 2 "
             "per week, bath_water: 0.07 kg, cooking: gas, dishes: 0.4 L/day, "
             "laundry_dried_indoors: 0.9 L/day, pets: 23 kg, aquarium: 0.5 m2, "
             "other: 11 g/h, felt: no, plants: 7, plant_water: 2 g/h, ground: "
             "1 L/day, drying: 200 kg, burning: 2 g/h}\n"
             "people: {count: 3}\n");
    const struct dew_water *w = c.house.water;

    assert_near(w[DEW_SOURCE_showers].per_day, 3 * 0.31 + 2 * 0.07 / 7, 1e-12);
    assert_near(w[DEW_SOURCE_cooking].per_day, 2.33 * 3 / 4, 1e-12);
    assert_near(w[DEW_SOURCE_dishes].per_day, 0.4, 1e-12);
    assert_near(w[DEW_SOURCE_laundry].per_day, 0.9, 1e-12);
    assert_near(w[DEW_SOURCE_pets].per_day, 0.47 + 0.5 * 0.96, 1e-12);
    assert_near(w[DEW_SOURCE_other].per_day, 0.264, 1e-12);
    assert_near(w[DEW_SOURCE_plants].per_day, 7 * 0.048, 1e-12);
    for (int i = 0; i < DEW_SOURCES; i++) /* no source without a key */
        assert_true(w[i].per_day > 0);
}

/* For four people by [AO88]; outdoors by [WMO-GHG21]. */
TEST(what_is_not_told_is_the_published)
{
    struct dew_case c = case_of(BASE "people: {count: 5}\n");
    const struct dew_water *w = c.house.water;

    assert_near(w[DEW_SOURCE_cooking].per_day, 0.99 * 5 / 4, 1e-12);
    assert_near(w[DEW_SOURCE_dishes].per_day, 0.50 * 5 / 4, 1e-12);
    assert_near(w[DEW_SOURCE_showers].per_day, 0.24 * 5, 1e-12);
    assert_near(c.house.co2_outdoors, 424, 0);
    c = case_of(BASE "moisture: {cooking: none, cooking_water: 2 kg/day}\n");
    assert_near(c.house.water[DEW_SOURCE_cooking].per_day, 0, 0);
}

TEST(a_daily_total_is_the_sum_but_for_ground_and_drying)
{
    struct dew_case c =
        case_of(BASE "moisture: {total: 13.7 L/day, ground: 2 L/day, drying: "
                     "310 kg, drying_half_life: 83 day, felt: no}\n");
    double sum = 0;

    for (int i = 0; i < DEW_SOURCES; i++)
        if (i != DEW_SOURCE_ground && i != DEW_SOURCE_drying)
            sum += c.house.water[i].per_day;
    assert_near(sum, 13.7, 1e-9);
    assert_near(c.house.water[DEW_SOURCE_ground].per_day, 2, 1e-12);
    assert_near(c.house.water[DEW_SOURCE_drying].per_day, 310 * log(2) / 83,
                1e-9);
}

TEST(setback_hours_wrap_round_midnight)
{
    struct dew_case c = case_of(BASE "temperature: {heat: 20.5 degC, "
                                     "heat_setback: 16.5 degC, setback_hours: "
                                     "[22 to 6, 9 to 15]}\n");

    for (int h = 0; h < 24; h++)
        assert_near(c.house.comfort.heat[h],
                    h < 6 || h >= 22 || (h >= 9 && h < 15) ? 16.5 : 20.5, 0);
}

/* 2,400 ft2 and three bedrooms: 102 and 54 cfm [ASH-622]. */
TEST(the_fresh_air_required_follows_the_rule)
{
    static const char *const old[] = {
        "limits.fresh_air_rule=floor_and_bedrooms_old"};
    static const char *const own[] = {"limits.fresh_air=77 cfm"};
    static const char *const none[] = {"limits.fresh_air_rule=none"};
    static const char *const studio[] = {"house.bedrooms=0"};
    struct dew_scenario *s = opened(BASE, NULL, 0);

    assert_near(dew_scenario_required(s, 0), 102 * cfm, 1e-12);
    dew_scenario_close(s);
    s = opened(BASE, old, 1);
    assert_near(dew_scenario_required(s, 0), 54 * cfm, 1e-12);
    dew_scenario_close(s);
    s = opened(BASE, own, 1);
    assert_near(dew_scenario_required(s, 0), 77 * cfm, 1e-12);
    dew_scenario_close(s);
    s = opened(BASE, none, 1);
    assert_near(dew_scenario_required(s, 0), 0, 0);
    dew_scenario_close(s);
    s = opened(BASE, studio, 1); /* at least one bedroom [UPC-E] */
    assert_near(dew_scenario_required(s, 0), 87 * cfm, 1e-12);
    dew_scenario_close(s);
}

/* ---- changes and plain inputs ---------------------------------------------- */

TEST(a_change_takes_the_place_of_a_figure)
{
    struct dew_scenario *s = opened(BASE, NULL, 0);
    const struct dew_change list[] = {{.path = "house.airtightness", .si = 2.3},
                                      {.path = "people.count", .si = 5.5}};
    const struct dew_changes changes = {list, 2};
    const struct dew_change wrong[] = {{.path = "title", .si = 2}};
    const struct dew_changes bad = {wrong, 1};
    struct dew_error err = {0};
    struct dew_case before, c;

    make(s, 0, &before);
    assert_int_equal(dew_scenario_case(s, 0, &place, &changes, &c, &err),
                     DEW_OK);
    assert_near(c.house.leakage.c / before.house.leakage.c, 2.3 / 1.1, 1e-12);
    assert_near(c.house.people.count, 5.5, 0);
    assert_int_equal(dew_scenario_case(s, 0, &place, &bad, &c, &err),
                     DEW_EUNKNOWN);
    assert_string_equal(err.path, "title");
    dew_scenario_close(s);
}

/* kg of construction water: half_life / ln 2 times the first day's rate. */
static const struct young_row {
    const char *name, *text;
    double kg;
} young_rows[] = {
    {"age not told: none", "", 0},
    {"just finished: 4.7 kg/day, half-life 180 days [AO88]",
     "safety: {house_age: 0 month}\n", 4.7 * 180 / 0.6931471805599453},
    {"after two half-lives a quarter is left", "safety: {house_age: 360 day}\n",
     4.7 * 45 / 0.6931471805599453},
    {"two years old: none", "safety: {house_age: 730 day}\n", 0},
    {"told: as told",
     "safety: {house_age: 3 month}\nmoisture: {drying: 310 "
     "kg}\n",
     310},
    {"told to be none: none",
     "safety: {house_age: 3 month}\nmoisture: {drying: 0 kg}\n", 0},
};

static void a_young_house_gives_off_water(void **state)
{
    const struct young_row *r = *state;
    char text[1000];
    struct dew_case c;
    const struct dew_water *w = &c.house.water[DEW_SOURCE_drying];

    snprintf(text, sizeof text, BASE "%s", r->text);
    c = case_of(text);
    assert_near(w->per_day * w->half_life / log(2), r->kg, 1e-6);
}

TEST(seasons_and_stages_are_handed_on)
{
    struct dew_scenario *s = opened(
        BASE "prices: {gas_by_month: [1 $/therm, 2 $/therm, 3 $/therm, 4 "
             "$/therm, 5 $/therm, 6 $/therm (5 to 9), 7 $/therm, 8 $/therm, 9 "
             "$/therm, 10 $/therm, 11 $/therm, 12 $/therm]}\n"
             "options:\n"
             "  - name: tie\n"
             "    costs: {install: 3200 $, next_option: own, later_chance: 40 "
             "%, later_after: 18 month, reading: air_flow}\n"
             "  - name: own\n"
             "    costs: {install: 6900 $ (5000 to 9000)}\n"
             "  - name: told\n"
             "    costs: {next_option: own, later: 4100 $}\n",
        NULL, 0);
    struct dew_prices prices = dew_scenario_prices(s);
    struct dew_costs tie = dew_scenario_costs(s, 0);

    assert_false(prices.electricity_seasonal);
    assert_true(prices.gas_seasonal);
    assert_near(prices.gas_by_month[11].likely * 105.505585262e6, 12, 1e-9);
    assert_near(prices.gas_by_month[5].high * 105.505585262e6, 9, 1e-9);
    assert_string_equal(tie.next, "own");
    assert_near(tie.later.likely, 6900, 0); /* what the next one costs */
    assert_near(tie.later.high, 9000, 0);
    assert_near(tie.later_after, 1.5, 1e-12);
    assert_int_equal(tie.reading, DEW_READING_air_flow);
    assert_near(dew_scenario_costs(s, 2).later.likely, 4100, 0);
    assert_near(dew_scenario_costs(s, 1).later.likely, 0, 0);
    assert_nan(dew_scenario_costs(s, 2).install.likely); /* not told */
    dew_scenario_close(s);
}

TEST(prices_costs_safety_and_facts_are_handed_on)
{
    struct dew_scenario *s = opened(
        BASE "safety: {attached_garage: yes, visible_mould: no, house_age: 14 "
             "month}\n"
             "prices: {electricity: 0.21 $/kWh (0.18 to 0.3), interest: 2.5 %, "
             "years: 20 year, date: May 2026, hour_short_of_air: 0.75 $/h}\n"
             "costs: {install: 5200 $ (3800 to 7500), own_work: 12 h}\n"
             "layout: return_tie\nair_handlers: 1\n"
             "cooling: {capacity: 3 ton, blower: interlock}\n"
             "ventilator: {core: balanced, flow: 90 cfm, found: 70 %, damper: "
             "no}\n",
        NULL, 0);
    struct dew_safety safety = dew_scenario_safety(s);
    struct dew_prices prices = dew_scenario_prices(s);
    struct dew_costs costs = dew_scenario_costs(s, 0);
    struct dew_option_facts facts = dew_scenario_facts(s, 0);
    struct dew_weather_request weather = dew_scenario_weather(s);

    assert_int_equal(safety.attached_garage, DEW_ANSWER_YES);
    assert_int_equal(safety.visible_mould, DEW_ANSWER_NO);
    assert_int_equal(safety.natural_draft_appliance, DEW_ANSWER_UNKNOWN);
    assert_near(safety.house_age, 14 * 365.0 / 12 * 86400, 1);
    assert_near(prices.electricity.likely * 3.6e6, 0.21, 1e-12);
    assert_near(prices.electricity.high * 3.6e6, 0.30, 1e-12);
    assert_near(prices.years, 20, 1e-12);
    assert_near(prices.too_humid * 3600, 0.50, 1e-12); /* not told          */
    assert_near(prices.too_dry * 3600, 0.25, 1e-12);
    assert_near(prices.short_of_air * 3600, 0.75, 1e-12);
    assert_string_equal(prices.date, "May 2026");
    assert_near(costs.install.low, 3800, 0);
    assert_near(costs.own_hours.likely, 43200, 0);
    assert_near(costs.life, 20, 1e-12);
    assert_near(facts.half_life.likely, 180, 1e-9);
    assert_near(facts.half_life.high, 365, 1e-9);
    assert_int_equal(facts.core, DEW_CORE_balanced);
    assert_int_equal(facts.layout, DEW_LAYOUT_return_tie);
    assert_int_equal(facts.interlock, DEW_ANSWER_YES);
    assert_int_equal(facts.damper, DEW_ANSWER_NO);
    assert_near(facts.flow, 63 * cfm, 1e-12);
    assert_near(facts.rated_flow, 90 * cfm, 1e-12);
    assert_string_equal(weather.place, "722020");
    assert_string_equal(weather.file, "");
    assert_int_equal(weather.seed, DEW_MADE_SEED);
    dew_scenario_close(s);
}

/* ---- basement ---- */

/* A square plan of 1200 ft2: air, walls above and below the ground, mass. */
TEST(a_basement_is_part_of_the_house)
{
    const double plan = 1200 * ft2, edge = 4 * sqrt(plan), foot = 0.3048;
    const double wall_u = 1 / (1.937 + 0.17);
    struct dew_slab below = {plan, edge, 0.2, 0.88, DEW_SOIL_SAND, 1.5, 1.937};
    struct dew_wave outdoors = dew_house_yearly_wave(place.monthly);
    struct dew_earth earth;
    struct dew_case flat = case_of(BASE "house: {storeys: 2}\n");
    struct dew_case c =
        case_of(BASE "house: {storeys: 2, foundation: basement, "
                     "basement_depth: 1.5 m, basement_height: 2.3 m}\n"
                     "insulation: {basement_walls: 1.937 m2K/W, floor: 0.88 "
                     "m2K/W}\n");
    const struct dew_thermal *t = &c.house.thermal, *slab = &flat.house.thermal;
    double loss = 1 / (1 / (t->h_em + t->h_ground) + 1 / t->h_ms);
    double opaque = loss * t->h_em / (t->h_em + t->h_ground);
    double loss_flat = 1 / (1 / (slab->h_em + slab->h_ground) + 1 / slab->h_ms);
    double opaque_flat = loss_flat * slab->h_em / (slab->h_em + slab->h_ground);

    assert_int_equal(dew_house_slab(&below, &outdoors, &earth, NULL), DEW_OK);
    assert_near(c.house.volume, 2400 * ft2 * 8.5 * foot + plan * 2.3, 1e-9);
    assert_near(loss - opaque, earth.loss, 1e-9);
    assert_near(opaque - opaque_flat, edge * (2.3 - 1.5) * wall_u, 1e-9);
    assert_near(t->floor_lean, earth.lean, 1e-15);
    assert_near(t->ground_swing, earth.wave.swing, 1e-12);
    assert_near(t->c_mass - slab->c_mass, 260e3 * plan, 1e-3);
    assert_near(t->h_ms - slab->h_ms, 9.1 * 3.0 * plan, 1e-9);
    /* a blower door counts the basement's air too */
    assert_near(c.house.leakage.c / flat.house.leakage.c,
                c.house.volume / flat.house.volume, 1e-12);
    assert_near(c.house.floor_area, 2400 * ft2, 1e-9);
}

/* With its volume given, the walls above the ground stay what they were. */
TEST(a_volume_given_counts_the_basement)
{
    struct dew_case by_height = case_of(BASE "house: {foundation: basement}\n");
    char text[400];
    struct dew_case given;

    snprintf(text, sizeof text,
             BASE "house: {foundation: basement, volume: %.9f m3}\n",
             by_height.house.volume);
    given = case_of(text);
    assert_near(given.house.thermal.h_em, by_height.house.thermal.h_em, 1e-6);
}

/* ---- no key without effect ---------------------------------------------------- */

/* All that a scenario hands on, in one block of bytes to compare. */
struct handed {
    struct dew_case c;
    struct dew_safety safety;
    struct dew_prices prices;
    struct dew_costs costs;
    struct dew_option_facts facts;
    double required;
    size_t draws, seen;
    char answers[300], words[400];
};

/* By member: a struct's padding would not compare. */
static void put_safety(const struct dew_scenario *s, struct dew_safety *out)
{
    struct dew_safety safety = dew_scenario_safety(s);

#define X(name, words) out->name = safety.name;
    DEW_SAFETY_MAP(X)
#undef X
    out->house_age = safety.house_age;
}

static int hand_on(const char *ground, const char *set, struct handed *out)
{
    struct dew_scenario_source from = {ground, strlen(ground), "h.yaml", &set,
                                       set != NULL};
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    struct dew_seen seen[DEW_SEEN_MOST];
    struct dew_scenario *s;
    struct dew_weather_request w;
    struct dew_log_request log;
    int good;

    memset(out, 0, sizeof *out);
    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        return 0;
    good = dew_scenario_case(s, 0, &place, NULL, &out->c, NULL) == DEW_OK;
    put_safety(s, &out->safety);
    out->prices = dew_scenario_prices(s);
    out->costs = dew_scenario_costs(s, 0);
    out->facts = dew_scenario_facts(s, 0);
    out->required = dew_scenario_required(s, 0);
    out->draws = dew_scenario_draws(s).count;
    out->seen = dew_scenario_seen(s, seen);
    w = dew_scenario_weather(s);
    log = dew_scenario_log(s);
    snprintf(out->words, sizeof out->words,
             "%s|%s|%s|%s|%s|%lu|%s|%s|%d|%d|%d|%s", dew_scenario_title(s),
             w.place, w.file, w.monthly, w.fill, w.seed, log.file,
             log.ask.sensor != NULL ? log.ask.sensor : "", (int)log.ask.order,
             (int)log.ask.clock, log.held, dew_scenario_draws(s).file);
    snprintf(out->answers, sizeof out->answers,
             "%s|%d|%d|%d|%g|%g|%g|%g|%d|%g|%s|%s|%g|%s|%s|%zu|%g|%g",
             w.ask.station != NULL ? w.ask.station : "", w.ask.year,
             (int)w.ask.order, (int)w.ask.clock, w.ask.utc_offset,
             w.ask.latitude, w.ask.longitude, w.ask.elevation,
             w.ask.frost_point, w.ask.gap_limit, w.units, w.columns,
             log.ask.utc_offset, log.units, log.columns, log.ask.checks,
             log.ask.check[0].reads, log.ask.check[0].is);
    dew_scenario_close(s);
    return good;
}

/* Rows to try for a key of rows. */
static const char *rows_of(const char *path)
{
    static const struct {
        const char *path, *rows;
    } known[] = {
        {"ventilator.ratings", "[{flow: 60 cfm, sre: 61 %, power: 33 W}]"},
        {"ventilator.fan", "[{flow: 40 cfm, pressure: 210 Pa, power: 41 W}, "
                           "{flow: 110 cfm, pressure: 140 Pa, power: 63 W}, "
                           "{flow: 160 cfm, pressure: 25 Pa, power: 71 W}]"},
        {"ducts.lines", "[{line: intake, diameter: 5 in, length: 31 ft, "
                        "elbows: 4, wall: flexible, slack: 11 %}]"},
        {"ducts.grilles", "[{room: den, supply: 100 %}, {room: bath, stale: "
                          "30 %}, {room: kitchen, stale: 70 %}]"},
        {"ducts.points", POINTS("house")},
        {"ducts.runs", RUNS("5 in")},
        {"readings", "[{when: march nights, rh: 41 to 47 %, t: 66 degF}]"},
        {"ducts.found", "[{blower: full, fresh: 71 cfm, stale: 93 cfm}]"},
    };

    for (size_t i = 0; i < COUNT_OF(known); i++)
        if (strcmp(known[i].path, path) == 0)
            return known[i].rows;
    return "none known to this test";
}

/* The i-th value to try for f, as after --set; 0 when there are no more. */
static int value_of(const struct dew_field *f, int i, char *out, size_t size)
{
    static const double at[] = {0.3, 0.6, 0.05, 0.9, 0.01};
    char text[80] = "", x[40];
    const struct dew_unit *u = dew_unit_shown(f->quantity, 2);
    double si = f->low + at[i % 5] * (f->high - f->low);
    const char *word = f->words;

    if (i >= 7)
        return 0;
    for (int k = 0; k < i && word != NULL; k++)
        word = strchr(word, '|') ? strchr(word, '|') + 1 : NULL;
    if (f->quantity == DEW_PURE && f->high <= 1.5)
        u = dew_unit_find("%", 1, DEW_PURE);
    dew_number_print((si - u->offset) / u->factor, 6, x, sizeof x);
    switch (f->kind) {
    case DEW_KIND_NUMBER:
        snprintf(text, sizeof text, "%s %s", x, u->name);
        break;
    case DEW_KIND_COUNT:
        snprintf(text, sizeof text, "%d", (int)f->low + i);
        break;
    case DEW_KIND_FLAG:
    case DEW_KIND_ANSWER:
        snprintf(text, sizeof text, "%s", i % 2 ? "yes" : "no");
        break;
    case DEW_KIND_WORD:
        if (word == NULL)
            return 0;
        snprintf(text, sizeof text, "%.*s", (int)strcspn(word, "|"), word);
        break;
    case DEW_KIND_AT:
        snprintf(text, sizeof text, "61 %% at 60 %s",
                 f->at == DEW_PURE ? "%" : "cfm");
        break;
    case DEW_KIND_HOURS:
        snprintf(text, sizeof text, "9 to 13");
        break;
    case DEW_KIND_ROWS:
        snprintf(out, size, "%s=%s", f->path, rows_of(f->path));
        return 1;
    case DEW_KIND_LIST:
        snprintf(out, size, "%s=[%s %s", f->path, x, u->name);
        for (size_t h = 1; h < f->least; h++)
            snprintf(out + strlen(out), size - strlen(out), ", %s %s", x,
                     u->name);
        snprintf(out + strlen(out), size - strlen(out), "]");
        return 1;
    default:
        snprintf(text, sizeof text, "another");
    }
    snprintf(out, size, "%s=%s", f->path, text);
    return 1;
}

static void key_has_an_effect(void **state)
{
    static struct handed before, after;
    const struct dew_field *f = *state;
    char set[900];

    for (size_t g = 0; g < COUNT_OF(grounds); g++) {
        assert_true(hand_on(grounds[g], NULL, &before));
        assert_true(hand_on(grounds[g], NULL, &after));
        assert_memory_equal(&before, &after, sizeof before);
        for (int i = 0; value_of(f, i, set, sizeof set); i++)
            if (hand_on(grounds[g], set, &after) &&
                memcmp(&before, &after, sizeof before) != 0)
                return;
    }
    fail_msg("%s changes nothing that is handed on", f->path);
}

/* ---- a year ------------------------------------------------------------------- */

TEST(a_made_year_marches_on_every_option)
{
    static const char text[] =
        BASE "cooling: {capacity: 2 ton}\nheating: {kind: heat_pump}\n"
             "options:\n"
             "  - name: as it stands\n"
             "  - name: core\n"
             "    ventilator: {core: enthalpy_plate, sensible: 74 % at 95 cfm, "
             "moisture: 52 % at 95 cfm}\n"
             "  - name: dehumidifier\n"
             "    ventilator: {core: exhaust_only}\n"
             "    dehumidifier: {rate: 50 pint/day}\n";
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_climate climate;
    struct dew_made how = {.seed = DEW_MADE_SEED};
    struct dew_year *year;
    struct dew_outdoors outdoors;
    struct dew_error err = {0};
    const struct dew_hour *hours;
    const struct dew_date *dates;
    size_t count;

    assert_int_equal(
        dew_climate_find(dew_scenario_weather(s).place, &climate, &err),
        DEW_OK);
    assert_int_equal(dew_made_open(&climate, &how, &year, &err), DEW_OK);
    assert_int_equal(dew_scenario_outdoors(year, &outdoors, &err), DEW_OK);
    hours = dew_year_hours(year, &count);
    dates = dew_year_dates(year, &count);
    assert_near(outdoors.monthly[6], climate.month[6].t, 0.11);
    for (size_t i = 0; i < dew_scenario_count(s); i++) {
        struct dew_march *m = NULL;
        struct dew_case c;
        struct dew_result r = {.rh = 0};

        assert_int_equal(dew_scenario_case(s, i, &outdoors, NULL, &c, &err),
                         DEW_OK);
        assert_int_equal(dew_march_open(&m, &c, &hours[0], &err), DEW_OK);
        for (size_t h = 0; h < 2000; h++)
            assert_int_equal(dew_march_step(m, &hours[h], &dates[h], &r, &err),
                             DEW_OK);
        assert_true(r.rh > 0.1 && r.rh < 1);
        dew_march_close(m);
    }
    dew_year_close(year);
    dew_scenario_close(s);
}

ROWS(young_rows, a_young_house_gives_off_water);

/* A test of each key. */
__attribute__((constructor)) static void add_keys(void)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++)
        add_test(f[i].path, key_has_an_effect, &f[i]);
}

RUN_TESTS("scenario, cases");
