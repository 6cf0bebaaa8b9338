/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From keys to equipment: air paths, control, machines, other readings. */
#include "support/rows.h"

#include <stdio.h>

#include "dew/dryer.h"
#include "dew/library.h"
#include "dew/plant.h"
#include "scenario/case_open.h"

/* ---- air paths ------------------------------------------------------------ */

TEST(a_core_gives_what_its_figures_say)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: enthalpy_plate, flow: 95 cfm, sensible: 74 % "
             "at 95 cfm, moisture: 52 % at 95 cfm, power: 58 W, boost_flow: "
             "140 cfm, cross_leakage: 2 %}\n"
             "ducts: {short_circuit: 13 %}\n");
    const struct dew_path *on = &c.paths[DEW_VENT_ON][0];
    const struct dew_path *boost = &c.paths[DEW_VENT_BOOST][26];

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

TEST(fans_alone_are_one_sided)
{
    struct dew_case c = case_of(BASE "ventilator: {core: exhaust_only, flow: "
                                     "80 cfm, found: 61 %}\n");

    assert_near(c.paths[DEW_VENT_ON][0].exhaust, 0.61 * 80 * cfm, 1e-12);
    assert_near(c.paths[DEW_VENT_ON][0].supply, 0, 0);
    assert_near(c.paths[DEW_VENT_ON][0].fresh, 0, 0);
    assert_near(c.paths[DEW_VENT_ON][0].drawn, 0.61 * 80 * cfm, 1e-12);
    c = case_of(BASE "layout: return_tie\nair_handlers: 1\nventilator: {core: "
                     "supply_only, flow: 80 cfm, power: 21 W}\n");
    assert_near(c.paths[DEW_VENT_ON][0].supply, 80 * cfm, 1e-12);
    assert_near(c.paths[DEW_VENT_ON][0].at_coil, 80 * cfm, 1e-12);
    assert_near(c.paths[DEW_VENT_ON][0].exhaust, 0, 0);
    assert_near(c.paths[DEW_VENT_ON][0].drawn, 0, 0);
    assert_near(c.paths[DEW_VENT_ON][0].fan_heat, 21, 0);
    c = case_of(BASE "ventilator: {core: balanced, flow: 80 cfm, exhaust_flow: "
                     "120 cfm}\n");
    assert_near(c.paths[DEW_VENT_ON][0].exhaust, 120 * cfm, 1e-12);
    assert_near(c.paths[DEW_VENT_ON][0].drawn, 0, 0);
}

TEST(exhaust_only_defrost_draws_and_does_not_supply)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: heat_plate, flow: 95 cfm, sensible: 74 % at "
             "95 cfm, frost: exhaust_only, frost_start: -7 degC}\n");

    assert_true(c.paths[DEW_VENT_DEFROST][0].exhaust > 0);
    assert_near(c.paths[DEW_VENT_DEFROST][0].supply, 0, 0);
    assert_near(c.plant.frost.start, -7, 0);
    assert_int_equal(c.plant.core_passes_water, 0);
}

/* [C439]'s row: 0.65 SRE at 30 L/s with 60 W makes 0.6744 of the core. */
TEST(a_rating_row_is_taken_to_the_core)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: heat_plate, flow: 30 L/s, cross_leakage: 0, "
             "ratings: [{flow: 30 L/s, sre: 65 %, power: 60 W, cross_leakage: "
             "0}]}\n");

    assert_near(c.paths[DEW_VENT_ON][0].sensible, 0.6744, 2e-3);
    assert_near(c.paths[DEW_VENT_ON][0].fan_w, 60, 1e-9);
}

/* 20 min of each hour, however it is written. */
TEST(blower_minutes_are_a_share_or_a_time)
{
    static const char *const ways[] = {"20 min", "20 min/h", "1200 s"};

    for (size_t i = 0; i < COUNT_OF(ways); i++) {
        char text[400];

        snprintf(text, sizeof text,
                 BASE "cooling: {capacity: 3 ton, shr: 74 %%, blower: minutes, "
                      "blower_minutes: %s}\n",
                 ways[i]);
        assert_near(case_of(text).plant.handlers[0].minutes, 1.0 / 3.0, 1e-12);
    }
}

TEST(local_exhausts_fill_their_hours_and_no_more)
{
    struct dew_case c = case_of(
        BASE "bath_fan: {flow: 80 cfm, run: 5 h/day}\nrange_hood: {flow: 200 "
             "cfm, run: 4 h/day}\nclothes_dryer: {flow: 140 cfm, run: 3 "
             "h/day}\n");
    double sum[DEW_LOCALS] = {0};

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

static struct dew_option_facts facts_of(const char *text)
{
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_option_facts facts = dew_scenario_facts(s, 0);

    dew_scenario_close(s);
    return facts;
}

/* Told to be absent: nothing runs, and it is known that nothing does. */
TEST(no_cubic_feet_say_that_there_is_no_fan)
{
    struct dew_case c =
        case_of(BASE "bath_fan: {flow: 0 cfm}\nrange_hood: {flow: 100 cfm}\n");
    const struct dew_exhaust *bath = &c.plant.exhausts[DEW_LOCAL_BATH];

    assert_near(bath->flow, 0, 0);
    assert_near(bath->watts, 0, 0);
    for (int h = 0; h < 24; h++)
        assert_near(bath->hours[h], 0, 0);
    assert_int_equal(facts_of(BASE "bath_fan: {flow: 0 cfm}\n"
                                   "range_hood: {flow: 100 cfm}\n")
                         .exhausts_told,
                     1U << DEW_LOCAL_BATH | 1U << DEW_LOCAL_KITCHEN);
    assert_int_equal(
        facts_of(BASE "clothes_dryer: {flow: 140 cfm}\n").exhausts_told,
        1U << DEW_LOCAL_DRYER);
    assert_int_equal(facts_of(BASE).exhausts_told, 0);
}

/* 4 showers of 8 min and 15 min on, 3 meals of 20 min; a dryer's 0.7 h. */
TEST(local_exhausts_run_as_long_as_their_events)
{
    struct dew_case c =
        case_of(BASE "bath_fan: {flow: 80 cfm, run_on: 15 min, capture: 55 %}\n"
                     "range_hood: {flow: 200 cfm}\n"
                     "clothes_dryer: {flow: 140 cfm}\n"
                     "moisture: {showers: 4 per day}\n");
    double sum[DEW_LOCALS] = {0};

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

TEST(control_keys_are_handed_on)
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

TEST(further_handlers_fall_back_on_the_first)
{
    struct dew_case c =
        case_of(BASE "air_handlers: 2\ncooling: {capacity: 3 ton, shr: 73 %, "
                     "capacity_is: gross, blower_power: 410 W}\n"
                     "second_handler: {capacity: 2 ton}\n");

    assert_int_equal(c.plant.handler_count, 2);
    assert_near(c.plant.handlers[0].capacity, 3 * 3516.8528, 0.01);
    assert_near(c.plant.handlers[1].capacity, 2 * 3516.8528, 0.01);
    assert_near(c.plant.handlers[1].shr, 0.73, 1e-9);
    assert_near(c.plant.handlers[1].blower_w, 410, 1e-9);
    assert_near(c.plant.handlers[0].air, 1200 * cfm, 1e-3);
}

/* Two gallons a day seen at 22.7 degC and 55 % by a machine that ran a third
   of the day, 530 W: the label comes back by the published fit. */
TEST(an_existing_dehumidifier_is_known_by_its_bucket)
{
    struct dew_case c = case_of(
        BASE "dehumidifier: {observed: 2 gal/day, observed_temperature: "
             "22.7 degC, observed_humidity: 55 %, power: 530 W, "
             "running: 40 %, rating: old_80F}\n");
    const struct dew_dryer *d = &c.plant.dryer;
    struct dew_dryer_work o;
    double day = 2 * 3.785411784;

    dew_plant_dryer_at(d, 22.7, dew_air_w(22.7, 0.55, 101325), 101325, &o);
    assert_near(o.rate * 86400 * d->drained, day, 1e-3 * day);
    assert_near(o.power, 530, 0.5);
    assert_near(d->rating_t, 26.6667, 1e-4);
    assert_true(d->rate > o.rate);
    /* seen at the set point when nothing is said of it */
    c = case_of(BASE "dehumidifier: {observed: 2 gal/day, set: 47 %}\n"
                     "temperature: {cool: 23.4 degC}\n");
    dew_plant_dryer_at(d, 23.4, dew_air_w(23.4, 0.47, 101325), 101325, &o);
    assert_near(o.rate * 86400, day, 1e-3 * day);
}

/* ---- machines and readings --------------------------------------------- */

/* The library's own figures stand where a person gave none [library.h]. */
TEST(typical_machines_fill_in_what_is_not_given)
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
    assert_near(c.plant.dryer.factor, 2.09 / 3.6e6, 1e-12);
    c = case_of(BASE "dehumidifier: {rate: 90 pint/day, typical: "
                     "ducted_large, factor: 2.6 L/kWh}\n");
    assert_near(c.plant.dryer.factor, 2.6 / 3.6e6, 1e-12);
    c = case_of(BASE "dehumidifier: {rate: 60 pint/day, typical: "
                     "portable_large, rating: old_80F}\n");
    assert_near(c.plant.dryer.factor, 3.3 / 3.6e6, 1e-12);
    assert_near(c.plant.dryer.rating_t, 26.6667, 1e-4);
}

/* Without a factor, the least that was sold of that size and test; 70 pints at
   80 degF were of another class than 70 at 65 degF [DOE-DH] [NRCAN-DH]. */
static const struct least_row {
    const char *source, *text;
    double factor; /* kg/kWh */
} least_rows[] = {
    {"[DOE-DH] 22 pints", "rate: 22 pint/day", 1.30},
    {"[DOE-DH] 50 pints", "rate: 50 pint/day", 1.60},
    {"[DOE-DH] 50.01 pints", "rate: 50.01 pint/day", 2.80},
    {"[DOE-DH] 33.1 L, 70 pints", "rate: 33.1 L/day", 2.80},
    {"[NRCAN-DH] 70 pints", "rate: 70 pint/day, rating: old_80F", 1.70},
    {"[NRCAN-DH] 50 pints", "rate: 50 pint/day, rating: old_80F", 1.60},
    {"[DOE-DH] whole house", "rate: 98 pint/day, rating: ducted_73F", 1.77},
    /* 33 pints at 80 degF and 60 % are 21.7 at 65 degF by the published fit */
    {"[DOE-DH] seen in warm air",
     "observed: 33 pint/day, observed_temperature: 80 degF, "
     "observed_humidity: 60 %",
     1.30},
};

static const struct label_row {
    const char *name, *text;
    int open;
} label_rows[] = {
    {"a label alone", "rate: 50 pint/day", 1},
    {"its test told", "rate: 50 pint/day, rating: portable_65F", 0},
    {"its kind told", "rate: 50 pint/day, typical: portable", 0},
    {"water seen, no label", "observed: 50 pint/day", 0},
    {"none", "set: 50 %", 0},
};

static void a_label_leaves_its_test_open(void **state)
{
    const struct label_row *r = *state;
    char text[400];
    struct dew_scenario *sc;

    snprintf(text, sizeof text, BASE "dehumidifier: {%s}\n", r->text);
    sc = opened(text, NULL, 0);
    assert_int_equal(dew_scenario_facts(sc, 0).label_open, r->open);
    dew_scenario_close(sc);
}

static void a_factor_not_told_is_the_least_of_its_size(void **state)
{
    const struct least_row *r = *state;
    char text[400];

    snprintf(text, sizeof text, BASE "dehumidifier: {%s}\n", r->text);
    assert_near(case_of(text).plant.dryer.factor * 3.6e6, r->factor, 1e-9);
}

/* One effectiveness at one flow, three ways of passing: at half the flow a
   crossflow core gains least.  [ASH-F4], closed forms in test_exchange.c. */
TEST(plates_pass_each_other_in_three_ways)
{
    static const char *const ways[] = {"crossflow", "headered", "counterflow"};
    double boost[3];

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
TEST(frost_and_fan_heat_are_as_said)
{
    struct dew_case c = case_of(
        BASE "ventilator: {core: heat_plate, flow: 90 cfm, sensible: 70 % at "
             "90 cfm, power: 60 W, supply_fan_share: 35 %, frost_start: -4 "
             "degC, frost_time: 9 min/h, frost_deep: -21 degC, "
             "frost_time_deep: 18 min/h}\n");

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
TEST(a_rating_leaves_a_range_open)
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

    assert_true(otherwise(tre, DEW_CORE_READ_LOW, &low));
    assert_true(otherwise(tre, DEW_CORE_READ_HIGH, &high));
    assert_true(low.paths[DEW_VENT_ON][0].latent < on->latent - 0.03);
    assert_true(high.paths[DEW_VENT_ON][0].latent > on->latent + 0.03);
    assert_true(low.paths[DEW_VENT_ON][0].sensible <= on->sensible);
    assert_near(high.house.volume, c.house.volume, 0);
    assert_false(otherwise(plain, DEW_CORE_READ_LOW, &low));
    assert_false(otherwise(plain, DEW_HANDLERS_OTHER, &low));
}

TEST(two_air_handlers_may_run_either_way)
{
    static const char two[] = BASE "air_handlers: 2\nhandlers_run: lead_lag\n"
                                   "cooling: {capacity: 1.5 ton}\n";
    static const char blowers[] = BASE "air_handlers: 2\n"
                                       "heating: {kind: gas}\n";
    struct dew_case c;

    assert_int_equal(case_of(two).plant.lead_lag, 1);
    assert_true(otherwise(two, DEW_HANDLERS_OTHER, &c));
    assert_int_equal(c.plant.lead_lag, 0);
    assert_false(otherwise(blowers, DEW_HANDLERS_OTHER, &c));
}

/* The ranges of the delay and of the drift, from the defaults or as told. */
TEST(a_coil_may_be_drier_or_wetter)
{
    static const char usual[] = BASE "cooling: {capacity: 3 ton}\n";
    static const char told[] =
        BASE "cooling: {capacity: 3 ton, blower_off_delay: 45 s (30 to 60), "
             "still_air: 1 %}\n";
    static const char sure[] = BASE
        "cooling: {capacity: 3 ton, blower_off_delay: 0 s, still_air: 0}\n";
    static const char none[] = BASE "heating: {kind: gas}\n";
    struct dew_case c = case_of(usual);

    assert_near(c.plant.handlers[0].off_delay, 60, 1e-12);
    assert_near(c.plant.handlers[0].still, 0.004, 1e-12);
    assert_true(otherwise(usual, DEW_COIL_DRY, &c));
    assert_near(c.plant.handlers[0].off_delay, 0, 0);
    assert_near(c.plant.handlers[0].still, 0, 0);
    assert_true(otherwise(usual, DEW_COIL_WET, &c));
    assert_near(c.plant.handlers[0].off_delay, 90, 1e-12);
    assert_near(c.plant.handlers[0].still, 0.02, 1e-12);
    assert_true(otherwise(told, DEW_COIL_WET, &c));
    assert_near(c.plant.handlers[0].off_delay, 60, 1e-12);
    assert_near(c.plant.handlers[0].still, 0.01, 1e-12);
    assert_false(otherwise(sure, DEW_COIL_DRY, &c));
    assert_false(otherwise(sure, DEW_COIL_WET, &c));
    assert_false(otherwise(none, DEW_COIL_WET, &c));
}

/* 75 % at 70 %, and the same line elsewhere; or as told. */
TEST(the_low_stage_has_its_own_air)
{
    struct dew_case c =
        case_of(BASE "cooling: {capacity: 3 ton, low_stage: 70 %}\n");

    assert_near(c.plant.handlers[0].low_air, 0.75, 1e-12);
    c = case_of(BASE "cooling: {capacity: 3 ton, turndown: 40 %}\n");
    assert_near(c.plant.handlers[0].low_air, 0.5, 1e-12);
    c = case_of(BASE "cooling: {capacity: 3 ton, low_stage: 70 %, "
                     "low_stage_air: 81 %}\n");
    assert_near(c.plant.handlers[0].low_air, 0.81, 1e-12);
}

/* As much as the pump gives at 47 degF, unless said; other heaters none. */
TEST(a_heat_pump_has_resistance_beside_it)
{
    struct dew_case c =
        case_of(BASE "heating: {kind: heat_pump, capacity: 9 kW}\n");

    assert_near(c.plant.heater.capacity, 9000, 1e-9);
    assert_near(c.plant.heater.backup, 9000, 1e-9);
    c = case_of(BASE "heating: {kind: heat_pump, backup: 0 W}\n");
    assert_near(c.plant.heater.backup, 0, 0);
    c = case_of(BASE "heating: {kind: heat_pump, backup: 5 kW}\n");
    assert_near(c.plant.heater.backup, 5000, 1e-9);
    c = case_of(BASE "heating: {kind: gas, capacity: 9 kW}\n");
    assert_near(c.plant.heater.backup, 0, 0);
}

ROWS(label_rows, a_label_leaves_its_test_open);
ROWS(least_rows, a_factor_not_told_is_the_least_of_its_size);
RUN_TESTS("scenario, equipment");
