/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From keys to cases: figures by hand, no key without effect, a year marched. */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "dew/air.h"
#include "dew/control.h"
#include "dew/dryer.h"
#include "dew/frost.h"
#include "dew/library.h"
#include "dew/made.h"
#include "dew/scenario.h"
#include "scenario/case_grounds.h"

static const double cfm = 4.719474432e-4; /* m3/s, exact */
static const double ft2 = 0.09290304;     /* m2, exact */

/* A made place: 17 degC on the yearly mean, coldest in January. */
static const struct dew_outdoors place = {
    .site = {.name = "made up",
             .latitude = 41.3,
             .longitude = -81.9,
             .elevation = 238,
             .utc_offset = -5},
    .pressure = 98512,
    .monthly = {5.1, 6.9, 11.2, 16.4, 21.7, 26.1, 28.3, 27.6, 24.2, 17.9, 11.4,
                6.8},
};

static struct dew_scenario *opened(const char *text, const char *const *sets,
                                   size_t set_count)
{
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_scenario_source from = {text, strlen(text), "h.yaml", sets,
                                       set_count};
    struct dew_scenario *s = NULL;
    char line[400];

    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return s;
}

static void make(const struct dew_scenario *s, size_t option,
                 struct dew_case *out)
{
    struct dew_error err = {0};
    char line[400];

    if (dew_scenario_case(s, option, &place, NULL, out, &err) != DEW_OK)
        fail_msg("%s", dew_error_line(&err, line, sizeof line));
}

static struct dew_case case_of(const char *text)
{
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_case c;

    make(s, 0, &c);
    dew_scenario_close(s);
    return c;
}

/* ---- figures by hand ------------------------------------------------------ */

static void the_envelope_is_what_the_keys_say(void **state)
{
    struct dew_case c = case_of(BASE "windows: {u: 1.83 W/m2K, north: 61 ft2, "
                                     "east: 0 ft2, south: 97 ft2, west: 43 "
                                     "ft2, sun_gain: 31 %, turn: -17 deg}\n"
                                     "insulation: {heat_loss: 143 W/K}\n");
    double volume = 2400 * 8.5 * 0.028316846592, glass = 201 * ft2;

    (void)state;
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

static void the_four_forms_of_airtightness_agree(void **state)
{
    double volume = 2400 * 8.5 * 0.028316846592, flow = 1.1 * volume / 3600;
    double c = flow / pow(50, 0.65), rho = dew_air_density_run(98512);
    /* [ASH-F16] eq. 41 at 4 Pa, C_D 1 */
    double area = c * pow(4, 0.65) * sqrt(rho / (2 * 4));
    char text[400];

    (void)state;
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

static void a_constant_leak_is_a_flow_or_air_changes(void **state)
{
    struct dew_case c = case_of(BASE "house: {infiltration: constant, "
                                     "constant_leakage: 0.13 per hour}\n");
    double volume = 2400 * 8.5 * 0.028316846592;

    (void)state;
    assert_near(c.house.leakage.constant, 0.13 * volume / 3600, 1e-12);
    c = case_of(BASE "house: {infiltration: constant, constant_leakage: 23 "
                     "cfm}\n");
    assert_near(c.house.leakage.constant, 23 * cfm, 1e-15);
    assert_near(c.house.leakage.stack_k, 0, 0);
}

static void water_a_day_adds_up(void **state)
{
    struct dew_case c = case_of(
        BASE "moisture: {showers: 3 per day, shower_water: 0.31 kg, baths: 2 "
             "per week, bath_water: 0.07 kg, cooking: gas, dishes: 0.4 L/day, "
             "laundry_dried_indoors: 0.9 L/day, pets: 23 kg, aquarium: 0.5 m2, "
             "other: 11 g/h, felt: no, plants: 7, plant_water: 2 g/h}\n"
             "people: {count: 3}\n");
    const struct dew_water *w = c.house.water;

    (void)state;
    assert_near(w[DEW_SOURCE_showers].per_day, 3 * 0.31 + 2 * 0.07 / 7, 1e-12);
    assert_near(w[DEW_SOURCE_cooking].per_day, 2.28 * 3 / 4, 1e-12);
    assert_near(w[DEW_SOURCE_dishes].per_day, 0.4, 1e-12);
    assert_near(w[DEW_SOURCE_laundry].per_day, 0.9, 1e-12);
    assert_near(w[DEW_SOURCE_pets].per_day, 0.47 + 0.5 * 0.96, 1e-12);
    assert_near(w[DEW_SOURCE_other].per_day, 0.264, 1e-12);
    assert_near(w[DEW_SOURCE_plants].per_day, 7 * 0.048, 1e-12);
}

static void a_daily_total_is_the_sum_but_for_ground_and_drying(void **state)
{
    struct dew_case c =
        case_of(BASE "moisture: {total: 13.7 L/day, ground: 2 L/day, drying: "
                     "310 kg, drying_half_life: 83 day, felt: no}\n");
    double sum = 0;

    (void)state;
    for (int i = 0; i < DEW_SOURCES; i++)
        if (i != DEW_SOURCE_ground && i != DEW_SOURCE_drying)
            sum += c.house.water[i].per_day;
    assert_near(sum, 13.7, 1e-9);
    assert_near(c.house.water[DEW_SOURCE_ground].per_day, 2, 1e-12);
    assert_near(c.house.water[DEW_SOURCE_drying].per_day, 310 * log(2) / 83,
                1e-9);
}

static void setback_hours_wrap_round_midnight(void **state)
{
    struct dew_case c = case_of(BASE "temperature: {heat: 20.5 degC, "
                                     "heat_setback: 16.5 degC, setback_hours: "
                                     "[22 to 6, 9 to 15]}\n");

    (void)state;
    for (int h = 0; h < 24; h++)
        assert_near(c.house.comfort.heat[h],
                    h < 6 || h >= 22 || (h >= 9 && h < 15) ? 16.5 : 20.5, 0);
}

/* 2,400 ft2 and three bedrooms: 102 and 54 cfm [ASH-622]. */
static void the_fresh_air_required_follows_the_rule(void **state)
{
    static const char *const old[] = {
        "limits.fresh_air_rule=floor_and_bedrooms_old"};
    static const char *const own[] = {"limits.fresh_air=77 cfm"};
    static const char *const none[] = {"limits.fresh_air_rule=none"};
    struct dew_scenario *s = opened(BASE, NULL, 0);

    (void)state;
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
}

/* ---- air paths ------------------------------------------------------------ */

static void a_core_gives_what_its_figures_say(void **state)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: enthalpy_plate, flow: 95 cfm, sensible: 74 % "
             "at 95 cfm, moisture: 52 % at 95 cfm, power: 58 W, boost_flow: "
             "140 cfm, cross_leakage: 2 %}\n"
             "ducts: {short_circuit: 13 %}\n");
    const struct dew_path *on = &c.paths[DEW_VENT_ON][0];
    const struct dew_path *boost = &c.paths[DEW_VENT_BOOST][26];

    (void)state;
    assert_near(on->supply, 95 * cfm / 0.98, 1e-9);
    assert_near(on->fresh, 0.87 * 95 * cfm, 1e-9);
    assert_near(on->sensible, 0.74, 1e-6);
    assert_near(on->latent, 0.52, 1e-6);
    assert_near(on->fan_w, 58, 1e-9);
    assert_true(boost->fresh > on->fresh && boost->sensible < 0.74);
    assert_near(boost->fan_w, 58 * pow(140.0 / 95, 3), 1e-9);
    assert_near(c.paths[DEW_VENT_OFF][0].supply, 0, 0);
    assert_near(c.paths[DEW_VENT_DEFROST][0].fresh, 0, 0);
    assert_near(c.paths[DEW_VENT_DEFROST][0].exhaust, 0, 0);
}

static void fans_alone_are_one_sided(void **state)
{
    struct dew_case c = case_of(BASE "ventilator: {core: exhaust_only, flow: "
                                     "80 cfm, found: 61 %}\n");

    (void)state;
    assert_near(c.paths[DEW_VENT_ON][0].exhaust, 0.61 * 80 * cfm, 1e-12);
    assert_near(c.paths[DEW_VENT_ON][0].supply, 0, 0);
    assert_near(c.paths[DEW_VENT_ON][0].fresh, 0, 0);
    c = case_of(BASE "layout: return_tie\nair_handlers: 1\nventilator: {core: "
                     "supply_only, flow: 80 cfm, power: 21 W}\n");
    assert_near(c.paths[DEW_VENT_ON][0].supply, 80 * cfm, 1e-12);
    assert_near(c.paths[DEW_VENT_ON][0].at_coil, 80 * cfm, 1e-12);
    assert_near(c.paths[DEW_VENT_ON][0].exhaust, 0, 0);
    assert_near(c.paths[DEW_VENT_ON][0].fan_heat, 21, 0);
}

static void exhaust_only_defrost_draws_and_does_not_supply(void **state)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: heat_plate, flow: 95 cfm, sensible: 74 % at "
             "95 cfm, frost: exhaust_only, frost_start: -7 degC}\n");

    (void)state;
    assert_true(c.paths[DEW_VENT_DEFROST][0].exhaust > 0);
    assert_near(c.paths[DEW_VENT_DEFROST][0].supply, 0, 0);
    assert_near(c.plant.frost.start, -7, 0);
    assert_int_equal(c.plant.core_passes_water, 0);
}

/* [C439]'s row: 0.65 SRE at 30 L/s with 60 W makes 0.6744 of the core. */
static void a_rating_row_is_taken_to_the_core(void **state)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: heat_plate, flow: 30 L/s, cross_leakage: 0, "
             "ratings: [{flow: 30 L/s, sre: 65 %, power: 60 W, cross_leakage: "
             "0}]}\n");

    (void)state;
    assert_near(c.paths[DEW_VENT_ON][0].sensible, 0.6744, 2e-3);
    assert_near(c.paths[DEW_VENT_ON][0].fan_w, 60, 1e-9);
}

static void local_exhausts_fill_their_hours_and_no_more(void **state)
{
    struct dew_case c = case_of(
        BASE "bath_fan: {flow: 80 cfm, run: 5 h/day}\nrange_hood: {flow: 200 "
             "cfm, run: 4 h/day}\nclothes_dryer: {flow: 140 cfm, run: 3 "
             "h/day}\n");
    double sum[DEW_LOCALS] = {0};

    (void)state;
    for (int h = 0; h < 24; h++) {
        double all = 0;

        for (int e = 0; e < DEW_LOCALS; e++) {
            sum[e] += c.plant.exhausts[e].hours[h];
            all += c.plant.exhausts[e].hours[h];
        }
        assert_true(all <= 1 + 1e-12);
    }
    assert_near(sum[DEW_LOCAL_BATH], 5, 1e-9);
    assert_near(sum[DEW_LOCAL_KITCHEN], 4, 1e-9);
    assert_near(sum[DEW_LOCAL_DRYER], 3, 1e-9);
}

/* 4 showers of 8 min and 15 min on, 3 meals of 20 min; a dryer's 0.7 h. */
static void local_exhausts_run_as_long_as_their_events(void **state)
{
    struct dew_case c =
        case_of(BASE "bath_fan: {flow: 80 cfm, run_on: 15 min, capture: 55 %}\n"
                     "range_hood: {flow: 200 cfm}\n"
                     "clothes_dryer: {flow: 140 cfm}\n"
                     "moisture: {showers: 4 per day}\n");
    double sum[DEW_LOCALS] = {0};

    (void)state;
    for (int e = 0; e < DEW_LOCALS; e++)
        for (int h = 0; h < 24; h++)
            sum[e] += c.plant.exhausts[e].hours[h];
    assert_near(sum[DEW_LOCAL_BATH], 4 * (8.0 + 15.0) / 60, 1e-9);
    assert_near(sum[DEW_LOCAL_KITCHEN], 1, 1e-9);
    assert_near(sum[DEW_LOCAL_DRYER], 0.7, 1e-9);
    assert_near(c.plant.exhausts[DEW_LOCAL_BATH].caught, 0.55, 0);
    /* the water of a day's showers counts their number: 0.24 kg each */
    c = case_of(BASE "bath_fan: {flow: 80 cfm, run_on: 0 min}\n"
                     "moisture: {showers: 1.44 kg/day, baths: 0 per day}\n");
    sum[DEW_LOCAL_BATH] = 0;
    for (int h = 0; h < 24; h++)
        sum[DEW_LOCAL_BATH] += c.plant.exhausts[DEW_LOCAL_BATH].hours[h];
    assert_near(sum[DEW_LOCAL_BATH], 6 * 8.0 / 60, 1e-9);
}

static void control_keys_are_handed_on(void **state)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: balanced, flow: 90 cfm}\n"
             "ducts: {shower_caught: 31 %, cooking_caught: 17 %, "
             "laundry_caught: 23 %}\n"
             "control: {lockout_humidity_ratio: 11.3 g/kg, lockout_least: 20 "
             "min/h, boost_for_events: 60 %, boost_time: 30 min, "
             "winter_target: 38 %, winter_target_cold: 24 %}\n"
             "moisture: {showers: 5 per day}\n");
    double hours = 0;

    (void)state;
    assert_near(c.plant.control.lockout_w, 0.0113, 1e-12);
    assert_near(c.plant.control.lockout_least, 1.0 / 3, 1e-12);
    assert_near(c.plant.control.winter_rh[1], 0.24, 1e-12);
    assert_near(c.plant.control.event_boost, 0.6, 0);
    for (int h = 0; h < 24; h++)
        hours += c.plant.control.events[h];
    assert_near(hours, (5 + 3) * 0.5, 0.3); /* full hours are cut */
    assert_near(c.house.water[DEW_SOURCE_showers].caught, 0.31, 0);
    assert_near(c.house.water[DEW_SOURCE_cooking].caught, 0.17, 0);
    assert_near(c.house.water[DEW_SOURCE_laundry].caught, 0.23, 0);
    /* wetter than indoors, without a limit of its own */
    c = case_of(BASE "ventilator: {core: balanced, flow: 90 cfm}\n"
                     "control: {lockout_unless_drier: 0.7 g/kg}\n");
    assert_near(dew_plant_lockout(&c.plant.control, 0.0092, 0.0081), 0, 1e-9);
    assert_near(dew_plant_lockout(&c.plant.control, 0.0086, 0.0081), 1, 1e-9);
}

static void further_handlers_fall_back_on_the_first(void **state)
{
    struct dew_case c =
        case_of(BASE "air_handlers: 2\ncooling: {capacity: 3 ton, shr: 73 %, "
                     "capacity_is: gross, blower_power: 410 W}\n"
                     "second_handler: {capacity: 2 ton}\n");

    (void)state;
    assert_int_equal(c.plant.handler_count, 2);
    assert_near(c.plant.handlers[0].capacity, 3 * 3516.8528, 0.01);
    assert_near(c.plant.handlers[1].capacity, 2 * 3516.8528, 0.01);
    assert_near(c.plant.handlers[1].shr, 0.73, 1e-9);
    assert_near(c.plant.handlers[1].blower_w, 410, 1e-9);
    assert_near(c.plant.handlers[0].air, 1200 * cfm, 1e-3);
}

/* Two gallons a day seen at 22.7 degC and 55 % by a machine that ran a third
   of the day, 530 W: the label comes back by the published fit. */
static void an_existing_dehumidifier_is_known_by_its_bucket(void **state)
{
    struct dew_case c = case_of(
        BASE "dehumidifier: {observed: 2 gal/day, observed_temperature: "
             "22.7 degC, observed_humidity: 55 %, power: 530 W, "
             "running: 40 %, rating: old_80F}\n");
    const struct dew_dryer *d = &c.plant.dryer;
    struct dew_dryer_work o;
    double day = 2 * 3.785411784;

    (void)state;
    dew_plant_dryer_at(d, 22.7, dew_air_w(22.7, 0.55, 101325), 101325, &o);
    assert_near(o.rate * 86400 * d->drained, day, 1e-3 * day);
    assert_near(o.power, 530, 0.5);
    assert_near(d->rating_t, 26.667, 1e-9);
    assert_true(d->rate > o.rate);
    /* seen at the set point when nothing is said of it */
    c = case_of(BASE "dehumidifier: {observed: 2 gal/day, set: 47 %}\n"
                     "temperature: {cool: 23.4 degC}\n");
    dew_plant_dryer_at(d, 23.4, dew_air_w(23.4, 0.47, 101325), 101325, &o);
    assert_near(o.rate * 86400, day, 1e-3 * day);
}

/* ---- changes and plain inputs ---------------------------------------------- */

static void a_change_takes_the_place_of_a_figure(void **state)
{
    struct dew_scenario *s = opened(BASE, NULL, 0);
    const struct dew_change list[] = {{"house.airtightness", 2.3},
                                      {"people.count", 5.5}};
    const struct dew_changes changes = {list, 2};
    const struct dew_change wrong[] = {{"house.shelter", 2}};
    const struct dew_changes bad = {wrong, 1};
    struct dew_error err = {0};
    struct dew_case before, c;

    (void)state;
    make(s, 0, &before);
    assert_int_equal(dew_scenario_case(s, 0, &place, &changes, &c, &err),
                     DEW_OK);
    assert_near(c.house.leakage.c / before.house.leakage.c, 2.3 / 1.1, 1e-12);
    assert_near(c.house.people.count, 5.5, 0);
    assert_int_equal(dew_scenario_case(s, 0, &place, &bad, &c, &err),
                     DEW_EUNKNOWN);
    assert_string_equal(err.path, "house.shelter");
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

/* The library's own figures stand where a person gave none [library.h]. */
static void typical_machines_fill_in_what_is_not_given(void **state)
{
    const struct dew_typical_core *core = dew_plant_typical_core(2);
    const struct dew_typical_blower *psc = dew_plant_typical_blower(0);
    const struct dew_typical_cooler *two = dew_plant_typical_cooler(2);
    struct dew_case c = case_of(
        BASE "ventilator: {core: enthalpy_plate, flow: 90 cfm, typical: yes}\n"
             "cooling: {capacity: 2 ton, typical: two_stage, motor: psc, "
             "low_stage: 61 %, shr: 77 %, capacity_is: gross}\n"
             "dehumidifier: {rate: 70 pint/day, typical: ducted}\n");
    const struct dew_path *on = &c.paths[DEW_VENT_ON][0];
    const struct dew_handler *h = &c.plant.handlers[0];

    (void)state;
    assert_string_equal(core->key, "enthalpy_plate");
    assert_string_equal(psc->key, "psc");
    assert_string_equal(two->key, "two_stage");
    assert_near(on->sensible, core->sensible.likely, 1e-6);
    assert_near(on->latent, core->latent.likely, 1e-6);
    assert_near(on->supply * (1 - core->eatr.likely), 90 * cfm, 1e-9);
    assert_near(on->fan_w, core->power.likely * 90 * cfm, 1e-6);
    assert_near(h->blower_w, psc->power.likely * 800 * cfm, 0.1);
    assert_near(h->blower_low, psc->low_flow, 0);
    assert_near(h->blower_low_w, psc->low_power * h->blower_w, 1e-9);
    assert_near(h->cycling, two->cycling, 0);
    assert_near(h->low_stage, 0.61, 1e-12); /* given */
    assert_near(h->shr, 0.77, 1e-12);
    assert_near(c.plant.dryer.rating_t, 22.778, 0);
    assert_near(c.plant.dryer.factor, 2.2 / 3.6e6, 1e-12);
}

/* One effectiveness at one flow, three ways of passing: at half the flow a
   crossflow core gains least.  [ASH-F4], closed forms in test_exchange.c. */
static void plates_pass_each_other_in_three_ways(void **state)
{
    static const char *const ways[] = {"crossflow", "headered", "counterflow"};
    double boost[3];

    (void)state;
    for (int i = 0; i < 3; i++) {
        char text[400];
        struct dew_case c;

        snprintf(text, sizeof text,
                 BASE
                 "ventilator: {core: heat_plate, flow: 90 cfm, boost_flow: "
                 "45 cfm, sensible: 70 %% at 90 cfm, exchange: %s}\n",
                 ways[i]);
        c = case_of(text);
        assert_near(c.paths[DEW_VENT_ON][0].sensible, 0.70, 1e-6);
        boost[i] = c.paths[DEW_VENT_BOOST][0].sensible;
    }
    assert_true(boost[0] < boost[1] && boost[1] < boost[2]);
}

/* The maker's own time table, and the motors' places. */
static void frost_and_fan_heat_are_as_said(void **state)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: heat_plate, flow: 90 cfm, sensible: 70 % at "
             "90 cfm, power: 60 W, supply_fan_share: 35 %, frost_start: -4 "
             "degC, frost_time: 9 min/h, frost_deep: -21 degC, "
             "frost_time_deep: 18 min/h}\n");

    (void)state;
    assert_near(dew_plant_frost_share(&c.plant.frost, -12.5, 5), 0.225, 1e-9);
    assert_near(dew_plant_frost_share(&c.plant.frost, -30, 5), 0.30, 1e-9);
    assert_near(c.paths[DEW_VENT_ON][0].fan_heat, 0.35 * 60, 1e-6);
    c = case_of(BASE
                "ventilator: {core: heat_plate, flow: 90 cfm, sensible: 70 "
                "% at 90 cfm, power: 60 W, exhaust_fan_ahead: 100 %}\n");
    assert_near(c.paths[DEW_VENT_ON][0].fan_heat, 30 + 0.70 * 30, 0.1);
}

/* Another reading of the one option, or 0 when it leaves nothing open. */
static int otherwise(const char *text, enum dew_otherwise how,
                     struct dew_case *out)
{
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_another x = {.how = how};
    struct dew_error err = {0};

    assert_int_equal(dew_scenario_otherwise(s, 0, &place, &x, &err), DEW_OK);
    dew_scenario_close(s);
    *out = x.c;
    return x.open;
}

/* A total recovery whose fan terms may have either sign, and cross leakage
   that may be in it: the moisture is a range, the likely one inside. */
static void a_rating_leaves_a_range_open(void **state)
{
    static const char tre[] =
        BASE "ventilator: {core: enthalpy_plate, flow: 30 L/s, ratings: "
             "[{flow: 30 L/s, sre: 68 %, tre: 54 %, power: 60 W, "
             "cross_leakage: 2 %}]}\n";
    static const char plain[] =
        BASE "ventilator: {core: enthalpy_plate, sensible: 70 % at 30 L/s, "
             "moisture: 48 % at 30 L/s}\n";
    struct dew_case c = case_of(tre), low, high;
    const struct dew_path *on = &c.paths[DEW_VENT_ON][0];

    (void)state;
    assert_true(otherwise(tre, DEW_CORE_READ_LOW, &low));
    assert_true(otherwise(tre, DEW_CORE_READ_HIGH, &high));
    assert_true(low.paths[DEW_VENT_ON][0].latent < on->latent - 0.03);
    assert_true(high.paths[DEW_VENT_ON][0].latent > on->latent + 0.03);
    assert_true(low.paths[DEW_VENT_ON][0].sensible <= on->sensible);
    assert_near(high.house.volume, c.house.volume, 0);
    assert_false(otherwise(plain, DEW_CORE_READ_LOW, &low));
    assert_false(otherwise(plain, DEW_HANDLERS_OTHER, &low));
}

static void two_air_handlers_may_run_either_way(void **state)
{
    static const char two[] = BASE "air_handlers: 2\nhandlers_run: lead_lag\n"
                                   "cooling: {capacity: 1.5 ton}\n";
    static const char blowers[] = BASE "air_handlers: 2\n"
                                       "heating: {kind: gas}\n";
    struct dew_case c;

    (void)state;
    assert_int_equal(case_of(two).plant.lead_lag, 1);
    assert_true(otherwise(two, DEW_HANDLERS_OTHER, &c));
    assert_int_equal(c.plant.lead_lag, 0);
    assert_false(otherwise(blowers, DEW_HANDLERS_OTHER, &c));
}

static void seasons_and_stages_are_handed_on(void **state)
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

    (void)state;
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
    dew_scenario_close(s);
}

static void prices_costs_safety_and_facts_are_handed_on(void **state)
{
    struct dew_scenario *s = opened(
        BASE "safety: {attached_garage: yes, visible_mould: no, house_age: 14 "
             "month}\n"
             "prices: {electricity: 0.21 $/kWh (0.18 to 0.3), interest: 2.5 %, "
             "years: 20 year, date: May 2026}\n"
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

    (void)state;
    assert_int_equal(safety.attached_garage, DEW_ANSWER_YES);
    assert_int_equal(safety.visible_mould, DEW_ANSWER_NO);
    assert_int_equal(safety.natural_draft_appliance, DEW_ANSWER_UNKNOWN);
    assert_near(safety.house_age, 14 * 365.0 / 12 * 86400, 1);
    assert_near(prices.electricity.likely * 3.6e6, 0.21, 1e-12);
    assert_near(prices.electricity.high * 3.6e6, 0.30, 1e-12);
    assert_near(prices.years, 20, 1e-12);
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
    assert_int_equal(weather.seed, 1);
    dew_scenario_close(s);
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
    char words[400];
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
    w = dew_scenario_weather(s);
    log = dew_scenario_log(s);
    snprintf(out->words, sizeof out->words, "%s|%s|%s|%s|%s|%lu|%s|%s|%d|%d|%d",
             dew_scenario_title(s), w.place, w.file, w.monthly, w.fill, w.seed,
             log.file, log.ask.sensor != NULL ? log.ask.sensor : "",
             (int)log.ask.order, (int)log.ask.clock, log.held);
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
        snprintf(text, sizeof text, "61 %% at 60 cfm");
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

static void a_made_year_marches_on_every_option(void **state)
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
    struct dew_made how = {.seed = 1};
    struct dew_year *year;
    struct dew_outdoors outdoors;
    struct dew_error err = {0};
    const struct dew_hour *hours;
    const struct dew_date *dates;
    size_t count;

    (void)state;
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

int main(void)
{
    struct CMUnitTest tests[500] = {
        cmocka_unit_test(the_envelope_is_what_the_keys_say),
        cmocka_unit_test(the_four_forms_of_airtightness_agree),
        cmocka_unit_test(a_constant_leak_is_a_flow_or_air_changes),
        cmocka_unit_test(water_a_day_adds_up),
        cmocka_unit_test(a_daily_total_is_the_sum_but_for_ground_and_drying),
        cmocka_unit_test(setback_hours_wrap_round_midnight),
        cmocka_unit_test(the_fresh_air_required_follows_the_rule),
        cmocka_unit_test(a_core_gives_what_its_figures_say),
        cmocka_unit_test(fans_alone_are_one_sided),
        cmocka_unit_test(exhaust_only_defrost_draws_and_does_not_supply),
        cmocka_unit_test(an_existing_dehumidifier_is_known_by_its_bucket),
        cmocka_unit_test(a_rating_row_is_taken_to_the_core),
        cmocka_unit_test(local_exhausts_fill_their_hours_and_no_more),
        cmocka_unit_test(local_exhausts_run_as_long_as_their_events),
        cmocka_unit_test(control_keys_are_handed_on),
        cmocka_unit_test(a_rating_leaves_a_range_open),
        cmocka_unit_test(typical_machines_fill_in_what_is_not_given),
        cmocka_unit_test(plates_pass_each_other_in_three_ways),
        cmocka_unit_test(frost_and_fan_heat_are_as_said),
        cmocka_unit_test(two_air_handlers_may_run_either_way),
        cmocka_unit_test(further_handlers_fall_back_on_the_first),
        cmocka_unit_test(a_change_takes_the_place_of_a_figure),
        cmocka_unit_test(seasons_and_stages_are_handed_on),
        cmocka_unit_test(prices_costs_safety_and_facts_are_handed_on),
        cmocka_unit_test(a_made_year_marches_on_every_option),
    };
    size_t n = 0, count;
    const struct dew_field *f = dew_scenario_fields(&count);

    while (tests[n].test_func != NULL) /* those above */
        n++;
    ADD_ROWS(tests, n, young_rows, a_young_house_gives_off_water);
    for (size_t i = 0; i < count && n < COUNT_OF(tests); i++)
        tests[n++] =
            (struct CMUnitTest){.name = f[i].path,
                                .test_func = key_has_an_effect,
                                .initial_state = (void *)(uintptr_t)&f[i]};
    return _cmocka_run_group_tests("scenario, cases", tests, n, NULL, NULL);
}
