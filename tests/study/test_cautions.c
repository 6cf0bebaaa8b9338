/* SPDX-License-Identifier: GPL-3.0-or-later */
/* When each caution stands; test_caution_answers.c has what hangs on answers. */
#include "support/rows.h"

#include <stdlib.h>
#include <string.h>

#include "dew/sources.h"
#include "study/asked.h"

TEST(only_what_always_stands)
{
    answered(1);
    ask();
    assert_int_equal(count, 3);
    assert_non_null(find("electrical"));
    assert_non_null(find("one_zone"));
    assert_non_null(find("planning_aid"));
}

TEST(return_tie_stops_unless_interlocked)
{
    answered(3);
    for (size_t i = 1; i < 3; i++) {
        s.facts[i].core = DEW_CORE_heat_plate;
        s.facts[i].layout = DEW_LAYOUT_return_tie;
    }
    s.facts[1].interlock = DEW_ANSWER_YES;
    ask();
    assert_non_null(find("return_tie"));
    assert_int_equal(find("return_tie")->level, DEW_STOP);
    assert_true(find("return_tie")->options == UINT64_C(4));
    s.facts[2].interlock = DEW_ANSWER_YES;
    ask();
    assert_null(find("return_tie"));
}

/* computed hours of wet or cold ducts, with nothing else that would call */
static const struct duct_row {
    const char *name;
    enum dew_duct_spot spot;
    const char *key;
} duct_rows[] = {
    {"an intake duct that sweats", DEW_SPOT_intake, "cold_ducts"},
    {"an exhaust duct that sweats", DEW_SPOT_exhaust, "cold_ducts"},
    {"a trunk wet inside", DEW_SPOT_trunk, "sweating_trunk"},
    {"a trunk wet outside", DEW_SPOT_outside, "sweating_trunk"},
    {"cold air at the heater", DEW_SPOT_heater, "cold_exchanger"},
};

static void computed_hours_call_for_it(void **state)
{
    const struct duct_row *r = *state;

    answered(2);
    s.cases[1].plant.heater.fuel = 1;
    ask();
    assert_null(find(r->key));
    s.outcomes[1].year.ducts[r->spot] = 3.5;
    ask();
    assert_non_null(find(r->key));
    assert_int_equal(find(r->key)->level, DEW_CHECK);
    assert_true(find(r->key)->options == UINT64_C(2));
}

/* ---- each caution of an option, alone ------------------------------------------ */

static struct dew_case *one(void)
{
    s.facts[1].core = DEW_CORE_heat_plate;
    return &s.cases[1];
}
static void frosty(void)
{
    one();
    s.series[31] = -7.2;
}
static void plain(void)
{
    one();
}
static void hood(void)
{
    one();
    s.safety.hood_into_ventilator = DEW_ANSWER_UNKNOWN;
}
static void garage(void)
{
    one();
    s.safety.attached_garage = DEW_ANSWER_UNKNOWN;
}
static void chimney(void)
{
    one();
    s.safety.natural_draft_appliance = DEW_ANSWER_UNKNOWN;
    s.cases[1].paths[DEW_VENT_ON][0].supply = 0.045;
    s.cases[1].paths[DEW_VENT_ON][0].exhaust = 0.045;
}
static void spills(void)
{
    chimney();
    s.cases[1].paths[DEW_VENT_OFF][2].spill = 0.004;
}
static void leaks_out(void)
{
    chimney();
    s.cases[1].paths[DEW_VENT_ON][1].leak_out = 0.004;
}
static void leaks_out_and_in(void)
{
    leaks_out();
    s.cases[1].paths[DEW_VENT_ON][1].leak_in = 0.004;
}
static void spills_what_it_draws(void)
{
    spills();
    s.cases[1].paths[DEW_VENT_OFF][2].unplanned = 0.004;
}
static void draws_out_little(void)
{
    chimney();
    s.cases[1].paths[DEW_VENT_ON][0].exhaust = 0.0472;
}
static void draws_out_more(void)
{
    chimney();
    s.cases[1].paths[DEW_VENT_ON][0].exhaust = 0.0475;
}
static void exhaust_in_frost(void)
{
    chimney();
    s.cases[1].plant.frost.strategy = DEW_FROST_EXHAUST_ONLY;
}
static void recirculates(void)
{
    one()->plant.frost.strategy = DEW_FROST_RECIRCULATE;
    s.outcomes[1].year.frost_hours = 0.5;
}
static void protected_frosty(void)
{
    frosty();
    s.cases[1].plant.frost.strategy = DEW_FROST_PREHEAT;
}
static void drains(void)
{
    s.outcomes[1].year.core_drained = 0.01;
}
static void tied(void)
{
    one();
    s.facts[1].layout = DEW_LAYOUT_supply_tie;
    s.facts[1].damper = DEW_ANSWER_YES;
    s.facts[1].interlock = DEW_ANSWER_NO;
}
static void undamped(void)
{
    tied();
    s.facts[1].damper = DEW_ANSWER_UNKNOWN;
}
static void tied_and_cooled(void)
{
    tied();
    s.cases[1].plant.handler_count = 1;
    s.cases[1].plant.handlers[0].capacity = 7000;
}
static void tied_to_a_furnace(void)
{
    tied();
    s.cases[1].plant.heater.fuel = 1;
    s.series[31] = -0.2;
}
static void wired(void)
{
    tied();
    s.facts[1].interlock = DEW_ANSWER_UNKNOWN;
}
static void return_tied(void)
{
    tied();
    s.facts[1].layout = DEW_LAYOUT_return_tie;
}
static void lopsided(void)
{
    one()->paths[DEW_VENT_ON][1].supply = 0.05;
    s.cases[1].paths[DEW_VENT_ON][1].exhaust = 0.044;
}
static void nearly_level(void)
{
    lopsided();
    s.cases[1].paths[DEW_VENT_ON][1].exhaust = 0.0455;
}
static void exhaust_cooled(void)
{
    tied_and_cooled();
    s.facts[1].core = DEW_CORE_exhaust_only;
}
static void exhaust_uncooled(void)
{
    one();
    s.facts[1].core = DEW_CORE_exhaust_only;
}
static void hood_of_its_own(void)
{
    s.cases[1].plant.exhausts[DEW_LOCAL_KITCHEN].flow = 0.07;
    s.outcomes[1].year.pressure_all_min = -12.4;
}
static void heat_pump(void)
{
    s.cases[1].plant.heater.capacity = 9000;
}
static void furnace(void)
{
    heat_pump();
    s.cases[1].plant.heater.efficiency = 0.9;
}
static void dehumidifier(void)
{
    s.cases[1].limits = (struct dew_limits){0.60, 0.30};
    s.cases[1].plant.dryer =
        (struct dew_dryer){.rate = 3e-4, .set = 0.5, .band = 0.04};
}

/* [SWS20]: 10 ft between a mechanical intake and an exhaust. */
TEST(an_intake_keeps_ten_feet_from_its_own_exhaust)
{
    struct dew_caution c;

    assert_true(dew_cautions_find("intake", DEW_ANSWER_YES, &c));
    assert_non_null(strstr(c.text, "3 m (10 ft) from every exhaust, the "
                                   "unit's own too"));
    assert_null(strstr(c.text, "6 ft"));
}

/* Told 5 L/day, 1825 kg a year. */
static void wet_ground_gives(double kg)
{
    s.cases[1].house.water[DEW_SOURCE_ground] =
        dew_house_felt(DEW_SOURCE_ground, 5);
    s.outcomes[1].year.water.ground = kg;
}
static void held_back(void)
{
    wet_ground_gives(1360);
}
static void nearly_as_told(void)
{
    wet_ground_gives(1375);
}
static void drawn(void)
{
    wet_ground_gives(2440);
}
static void stale(void)
{
    s.outcomes[1].year.co2_max = 5001;
}
static void less_stale(void)
{
    s.outcomes[1].year.co2_max = 4999;
}

static const struct option_row {
    const char *name, *key;
    void (*change)(void);
    int stands;
    enum dew_caution_level level;
} option_rows[] = {
    {"a hood perhaps joined", "hood_joined", hood, 1, DEW_STOP},
    {"a hood surely not joined", "hood_joined", plain, 0, DEW_STOP},
    {"ducts near a garage", "garage_ducts", garage, 1, DEW_CHECK},
    {"no garage", "garage_ducts", plain, 0, DEW_CHECK},
    {"a balanced unit beside a chimney", "net_exhaust", chimney, 0, DEW_STOP},
    {"an idle unit that spills house air", "net_exhaust", spills, 1, DEW_STOP},
    {"ducts that leak out more than in", "net_exhaust", leaks_out, 1, DEW_STOP},
    {"ducts that leak both ways", "net_exhaust", leaks_out_and_in, 0, DEW_STOP},
    {"an idle unit in balance", "net_exhaust", spills_what_it_draws, 0,
     DEW_STOP},
    {"4.7 % more out than in", "net_exhaust", draws_out_little, 0, DEW_STOP},
    {"5.3 % more out than in", "net_exhaust", draws_out_more, 1, DEW_STOP},
    {"a supply that stops in frost", "net_exhaust", exhaust_in_frost, 1,
     DEW_STOP},
    {"an intake", "intake", plain, 1, DEW_CHECK},
    {"a unit where it freezes", "freezing", frosty, 1, DEW_CHECK},
    {"a unit where it does not", "freezing", plain, 0, DEW_CHECK},
    {"a core without frost protection", "no_frost_protection", frosty, 1,
     DEW_CHECK},
    {"a core with it", "no_frost_protection", protected_frosty, 0, DEW_CHECK},
    {"ducts where it freezes", "cold_ducts", frosty, 1, DEW_CHECK},
    {"defrost by recirculation", "defrost", recirculates, 1, DEW_CHECK},
    {"none needed", "defrost", plain, 0, DEW_CHECK},
    {"carbon dioxide above 5,000 ppm [OSHA-Z1]", "stale_air", stale, 1,
     DEW_CHECK},
    {"carbon dioxide below it", "stale_air", less_stale, 0, DEW_CHECK},
    {"a core that drains", "condensate", drains, 1, DEW_CHECK},
    {"a core that does not", "condensate", plain, 0, DEW_CHECK},
    {"a dehumidifier drains", "condensate", dehumidifier, 1, DEW_CHECK},
    {"humid air in a cooled duct", "sweating_trunk", tied_and_cooled, 1,
     DEW_CHECK},
    {"a duct never cooled", "sweating_trunk", tied, 0, DEW_CHECK},
    {"cold air to a furnace", "cold_exchanger", tied_to_a_furnace, 1,
     DEW_CHECK},
    {"no furnace", "cold_exchanger", tied, 0, DEW_CHECK},
    {"a damper not known", "no_damper", undamped, 1, DEW_CHECK},
    {"a damper told", "no_damper", tied, 0, DEW_CHECK},
    {"12 % apart", "imbalance", lopsided, 1, DEW_CHECK},
    {"9 % apart", "imbalance", nearly_level, 0, DEW_CHECK},
    {"a pickup in the kitchen", "kitchen_pickup", plain, 1, DEW_CHECK},
    {"exhaust only, cooled", "exhaust_only", exhaust_cooled, 1, DEW_CHECK},
    {"exhaust only, not cooled", "exhaust_only", exhaust_uncooled, 0,
     DEW_CHECK},
    {"a hood wants make-up air", "makeup_air", hood_of_its_own, 1, DEW_CHECK},
    {"no hood", "makeup_air", plain, 0, DEW_CHECK},
    {"wet ground gave 25.5 % less than told", "wet_ground", held_back, 1,
     DEW_NOTE},
    {"wet ground gave 24.7 % less", "wet_ground", nearly_as_told, 0, DEW_NOTE},
    {"wet ground gave a third more", "wet_ground", drawn, 1, DEW_NOTE},
    {"an interlock not known", "interlock", wired, 1, DEW_NOTE},
    {"an interlock to be wired", "interlock", return_tied, 1, DEW_NOTE},
    {"none meant", "interlock", tied, 0, DEW_NOTE},
    {"a coil", "refrigerant", tied_and_cooled, 1, DEW_NOTE},
    {"a heat pump", "refrigerant", heat_pump, 1, DEW_NOTE},
    {"a dehumidifier's circuit", "refrigerant", dehumidifier, 1, DEW_NOTE},
    {"a furnace has none", "refrigerant", furnace, 0, DEW_NOTE},
    {"ducts through fire walls", "fire_walls", plain, 1, DEW_NOTE},
    {"smoke outdoors", "smoke_days", plain, 1, DEW_NOTE},
    {"filters", "filters", plain, 1, DEW_NOTE},
};

/* 48 h at 12.3 degC outdoors; the house as it stands calls for none of it. */
static void option_calls_for_it(void **state)
{
    const struct option_row *r = *state;

    answered(2);
    for (int h = 0; h < 48; h++)
        s.series[h] = 12.3;
    s.outcomes[1].series.t_out = s.series;
    s.outcomes[1].count = 48;
    ask();
    assert_null(find(r->key));
    r->change();
    ask();
    assert_int_equal(find(r->key) != NULL, r->stands);
    if (!r->stands)
        return;
    assert_int_equal(find(r->key)->level, r->level);
    assert_true(find(r->key)->options == UINT64_C(2));
    assert_true(strlen(find(r->key)->text) > 40);
}

TEST(a_log_damper_than_its_sources_asks_for_water)
{
    struct dew_beside log = {.rh = {.hours = 700, .bias = -0.049}};

    answered(1);
    s.question.measured = &log;
    ask();
    assert_null(find("unexplained_water"));
    log.rh.bias = -0.051;
    ask();
    assert_int_equal(find("unexplained_water")->level, DEW_CHECK);
    log.rh.hours = 100; /* less than a week tells nothing */
    ask();
    assert_null(find("unexplained_water"));
}

TEST(freezing_is_read_from_the_weather)
{
    answered(2);
    s.facts[1].core = DEW_CORE_heat_plate;
    s.outcomes[1].series.t_out = s.series;
    s.outcomes[1].count = 48;
    ask();
    assert_null(find("freezing"));
    s.series[31] = -0.4;
    ask();
    assert_non_null(find("freezing"));
    assert_null(find("supply_only"));
    s.facts[1].core = DEW_CORE_supply_only;
    ask();
    assert_non_null(find("supply_only"));
}

TEST(stop_comes_first_and_note_last)
{
    scene_open(&s, 2);
    s.facts[1].core = DEW_CORE_exhaust_only;
    ask();
    assert_int_equal(list[0].level, DEW_STOP);
    for (size_t i = 1; i < count; i++) {
        assert_true(list[i].level >= list[i - 1].level);
        if (list[i].level == list[i - 1].level)
            assert_true(list[i].answer == DEW_ANSWER_UNKNOWN ||
                        list[i - 1].answer == DEW_ANSWER_YES);
    }
    assert_string_equal(dew_cautions_level(DEW_STOP), "STOP");
}

TEST(more_than_room_is_counted_not_written)
{
    struct dew_caution two[2];

    scene_open(&s, 1);
    ask();
    assert_true(count > 2);
    assert_int_equal(dew_cautions_of(&s.question, two, 2), count);
    assert_string_equal(two[1].key, list[1].key);
}

TEST(water_of_unvented_burning_stops_whatever_was_answered)
{
    answered(2);
    ask();
    assert_null(find("unvented_heater"));
    s.cases[1].house.water[DEW_SOURCE_burning].per_day = 0.18;
    ask();
    assert_int_equal(find("unvented_heater")->level, DEW_STOP);
}

TEST(a_humidistat_keeps_half_its_band_from_a_limit)
{
    answered(1);
    s.cases[0].limits = (struct dew_limits){0.60, 0.30};
    s.cases[0].plant.dryer =
        (struct dew_dryer){.rate = 2e-4, .set = 0.58, .band = 0.04};
    ask();
    assert_null(find("humidistat_near_limit"));
    s.cases[0].plant.dryer.set = 0.585;
    ask();
    assert_int_equal(find("humidistat_near_limit")->level, DEW_CHECK);
    s.cases[0].plant.dryer.set = 0.50;
    s.cases[0].plant.humidifier =
        (struct dew_humidifier){.rate = 2e-4, .set = 0.32, .band = 0.04};
    ask();
    assert_null(find("humidistat_near_limit"));
    s.cases[0].plant.humidifier.set = 0.31;
    ask();
    assert_non_null(find("humidistat_near_limit"));
}

ROWS(option_rows, option_calls_for_it);
ROWS(duct_rows, computed_hours_call_for_it);
RUN_TESTS("study, cautions");
