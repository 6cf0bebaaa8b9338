/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why a range changes nothing: what a key is about is not there. */
#include <string.h>

#include "scenario/case.h"

/* ---- what stands ----------------------------------------------------------- */

static int basement(const struct dew_value *v)
{
    return WORD(v, house_foundation) == FOUNDATION_basement;
}

static int worked_out(const struct dew_value *v)
{
    return WORD(v, house_infiltration) != INFILTRATION_constant;
}

static int constant(const struct dew_value *v)
{
    return !worked_out(v);
}

static int blower_door(const struct dew_value *v)
{
    return !GIVEN(v, house_leakage_at_1_pa);
}

/* A figure of each event, where events are not told as their water. */
static int by_event(const struct dew_value *v, enum scenario__key events)
{
    return !v[events].given || v[events].unit == NULL ||
           v[events].unit->quantity != DEW_WATER_RATE;
}

static int showers(const struct dew_value *v)
{
    return by_event(v, KEY_moisture_showers);
}

static int baths(const struct dew_value *v)
{
    return SI(v, moisture_baths) > 0 && by_event(v, KEY_moisture_baths);
}

static int laundry(const struct dew_value *v)
{
    return SI(v, moisture_laundry_dried_indoors) > 0 &&
           by_event(v, KEY_moisture_laundry_dried_indoors);
}

static int plants(const struct dew_value *v)
{
    return by_event(v, KEY_moisture_plants);
}

static int cooking(const struct dew_value *v)
{
    return WORD(v, moisture_cooking) != COOKING_none;
}

static int drying(const struct dew_value *v)
{
    return scenario__construction_water(v) > 0;
}

static int by_value(const struct dew_value *v)
{
    return SI(v, buffering_value) > 0;
}

static int by_class(const struct dew_value *v)
{
    return !GIVEN(v, buffering_value) && WORD(v, buffering_class) > 0;
}

static int thermostat(const struct dew_value *v)
{
    return !GIVEN(v, temperature_given) && !GIVEN(v, temperature_given_by_hour);
}

static int setback(const struct dew_value *v)
{
    return GIVEN(v, temperature_setback_hours);
}

static int windows(const struct dew_value *v)
{
    return SI(v, airing_flow) > 0;
}

static int heated(const struct dew_value *v)
{
    return WORD(v, heating_kind) != HEATING_none;
}

static int heat_pump(const struct dew_value *v)
{
    return WORD(v, heating_kind) == HEATING_heat_pump;
}

static int burner(const struct dew_value *v)
{
    return heated(v) && !heat_pump(v) &&
           WORD(v, heating_kind) != HEATING_electric;
}

static int cooled(const struct dew_value *v)
{
    return GIVEN(v, cooling_capacity);
}

static int stages(const struct dew_value *v)
{
    const struct dew_typical_cooler *row = scenario__typical_cooler(v);

    return SI(v, cooling_low_stage) < 1 || SI(v, cooling_turndown) < 1 ||
           (row != NULL && (row->low_stage < 1 || row->turndown < 1));
}

static int by_seer(const struct dew_value *v)
{
    return !GIVEN(v, cooling_eer);
}

static int by_minutes(const struct dew_value *v)
{
    return WORD(v, cooling_blower) == DEW_BLOWER_MINUTES;
}

static int slow_blower(const struct dew_value *v)
{
    return WORD(v, cooling_blower) != DEW_BLOWER_AUTO || stages(v);
}

static int overcools(const struct dew_value *v)
{
    return SI(v, cooling_overcool) > 0;
}

static int handlers(const struct dew_value *v)
{
    return scenario__handlers(v) > 0;
}

static int two_handlers(const struct dew_value *v)
{
    return scenario__handlers(v) > 1;
}

static int three_handlers(const struct dew_value *v)
{
    return scenario__handlers(v) > 2;
}

static int ventilator(const struct dew_value *v)
{
    return WORD(v, ventilator_core) != DEW_CORE_none;
}

static int enthalpy(const struct dew_value *v)
{
    return WORD(v, ventilator_core) >= DEW_CORE_enthalpy_plate;
}

static int by_lists(const struct dew_value *v)
{
    return !GIVEN(v, ventilator_ratings);
}

static int defrosts(const struct dew_value *v)
{
    return !GIVEN(v, ventilator_frost) ||
           WORD(v, ventilator_frost) != DEW_FROST_NONE;
}

static int tied(const struct dew_value *v)
{
    return handlers(v) && WORD(v, layout) != DEW_LAYOUT_own_ducts;
}

static int boosts(const struct dew_value *v)
{
    return GIVEN(v, control_boost_above);
}

static int boosted(const struct dew_value *v)
{
    return boosts(v) || SI(v, control_boost_for_events) > 0;
}

static int dehumidifier(const struct dew_value *v)
{
    return SI(v, dehumidifier_rate) > 0 || SI(v, dehumidifier_observed) > 0;
}

static int by_factor(const struct dew_value *v)
{
    return !GIVEN(v, dehumidifier_power);
}

static int seen(const struct dew_value *v)
{
    return GIVEN(v, dehumidifier_observed);
}

static int humidifier(const struct dew_value *v)
{
    return SI(v, humidifier_rate) > 0;
}

static int bath_fan(const struct dew_value *v)
{
    return SI(v, bath_fan_flow) > 0;
}

static int bath_fan_run(const struct dew_value *v)
{
    return !GIVEN(v, bath_fan_run);
}

static int range_hood(const struct dew_value *v)
{
    return SI(v, range_hood_flow) > 0;
}

static int range_hood_run(const struct dew_value *v)
{
    return !GIVEN(v, range_hood_run);
}

static int dryer(const struct dew_value *v)
{
    return SI(v, clothes_dryer_flow) > 0;
}

static int dryer_run(const struct dew_value *v)
{
    return !GIVEN(v, clothes_dryer_run);
}

/* ---- by key or family of keys ----------------------------------------------- */

/* The further down for a key, the closer to it: what a machine must have stands
   below the machine. */
static const struct lull {
    const char *keys; /* a key, or what its path begins with                  */
    int (*stands)(const struct dew_value *v);
    const char *why; /* while that does not                                  */
} lulls[] = {
    {"house.airtightness", worked_out, "leakage is told as a constant"},
    {"house.airtightness", blower_door, "house.leakage_at_1_pa is told"},
    {"house.leakage_", worked_out, "leakage is told as a constant"},
    {"house.shelter", worked_out, "leakage is told as a constant"},
    {"house.flue", worked_out, "leakage is told as a constant"},
    {"house.constant_leakage", constant, "leakage is worked out hour by hour"},
    {"house.basement_", basement, "there is no basement"},
    {"insulation.basement_", basement, "there is no basement"},
    {"moisture.shower_water", showers, "showers are told as their water"},
    {"moisture.bath_water", baths, "no baths are told"},
    {"moisture.cooking_water", cooking, "nothing is cooked"},
    {"moisture.laundry_water", laundry, "no laundry is dried indoors"},
    {"moisture.plant_water", plants, "plants are told as their water"},
    {"moisture.drying", drying, "the house is not told to dry out still"},
    {"buffering.area", by_value, "buffering.value is not told"},
    {"buffering.class", by_class, "what takes up water is told otherwise"},
    {"temperature.heat", thermostat, "the rooms' temperature is given"},
    {"temperature.heat_setback", setback, "no setback hours are told"},
    {"temperature.cool", cooled, "there is no cooling"},
    {"temperature.cool_setback", setback, "no setback hours are told"},
    {"temperature.band", thermostat, "the rooms' temperature is given"},
    {"airing.from", windows, "no windows are told to be opened"},
    {"airing.full", windows, "no windows are told to be opened"},
    {"heating.", thermostat, "the rooms' temperature is given"},
    {"heating.", heated, "there is no heating"},
    {"heating.efficiency", burner, "the heater burns no fuel"},
    {"heating.cop_", heat_pump, "there is no heat pump"},
    {"heating.backup", heat_pump, "there is no heat pump"},
    {"cooling.", handlers, "there is no air handler"},
    {"cooling.shr", cooled, "there is no cooling"},
    {"cooling.airflow", cooled, "there is no cooling"},
    {"cooling.seer", cooled, "there is no cooling"},
    {"cooling.c", cooled, "there is no cooling"},
    {"cooling.still_air", cooled, "there is no cooling"},
    {"cooling.blower_off_delay", cooled, "there is no cooling"},
    {"cooling.overcool_above", cooled, "there is no cooling"},
    {"cooling.seer", by_seer, "cooling.eer is told"},
    {"cooling.blower_minutes", by_minutes, "the blower does not run so"},
    {"cooling.low_flow", slow_blower, "the blower runs at full flow alone"},
    {"cooling.low_power", slow_blower, "the blower runs at full flow alone"},
    {"cooling.low_stage_air", stages, "the cooling has one speed"},
    {"cooling.overcool_above", overcools, "the thermostat does not overcool"},
    {"second_handler.", two_handlers, "there is no second air handler"},
    {"third_handler.", three_handlers, "there is no third air handler"},
    {"ventilator.", ventilator, "there is no ventilator"},
    {"ventilator.sensible", scenario__recovers, "there is no core"},
    {"ventilator.sensible", by_lists, "ventilator.ratings are told"},
    {"ventilator.moisture", enthalpy, "there is no enthalpy core"},
    {"ventilator.moisture", by_lists, "ventilator.ratings are told"},
    {"ventilator.supply_fan_share", scenario__recovers, "there is no core"},
    {"ventilator.exhaust_fan_ahead", scenario__recovers, "there is no core"},
    {"ventilator.cross_leakage", scenario__recovers, "there is no core"},
    {"ventilator.frost_", scenario__recovers, "there is no core"},
    {"ventilator.frost_", defrosts, "there is no frost protection"},
    {"ventilator.boost_flow", boosted, "nothing boosts it"},
    {"ventilator.damper", scenario__ducts_said, "no layout is written"},
    {"ventilator.core_loss", scenario__ducts_said, "no layout is written"},
    {"ventilator.fan_pressure", scenario__ducts_said, "no layout is written"},
    {"ducts.external_static", handlers, "there is no air handler"},
    {"ducts.external_static", scenario__ducts_said, "no layout is written"},
    {"ducts.inside_static", handlers, "there is no air handler"},
    {"ducts.inside_static", scenario__ducts_said, "no layout is written"},
    {"ducts.return_", scenario__ducts_said, "no layout is written"},
    {"ducts.return_", tied, "the ventilator's ducts are its own"},
    {"ducts.blower_free", handlers, "there is no air handler"},
    {"ducts.blower_free", scenario__ducts_said, "no layout is written"},
    {"ducts.length", scenario__ducts_said, "no layout is written"},
    {"ducts.tap_spacing", scenario__ducts_said, "no layout is written"},
    {"ducts.tap_spacing", tied, "the ventilator's ducts are its own"},
    {"ducts.supply_tap", scenario__ducts_said, "no layout is written"},
    {"ducts.supply_tap", tied, "the ventilator's ducts are its own"},
    {"ducts.backdraft", scenario__ducts_said, "no layout is written"},
    {"ducts.backdraft", tied, "the ventilator's ducts are its own"},
    {"ducts.damper_leak", scenario__ducts_said, "no layout is written"},
    {"ducts.mixing", scenario__ducts_said, "no layout is written"},
    {"ducts.mixing", tied, "the ventilator's ducts are its own"},
    {"ducts.leak_", handlers, "there is no air handler"},
    {"ducts.place_air", scenario__ducts_outside, "no duct is told to leak"},
    {"ducts.deck_insulation", scenario__ducts_outside,
     "no duct is told to leak"},
    {"ducts.shower_caught", ventilator, "there is no ventilator"},
    {"ducts.shower_caught", scenario__ducts_said, "no layout is written"},
    {"ducts.cooking_caught", ventilator, "there is no ventilator"},
    {"ducts.cooking_caught", scenario__ducts_said, "no layout is written"},
    {"ducts.laundry_caught", ventilator, "there is no ventilator"},
    {"ducts.laundry_caught", scenario__ducts_said, "no layout is written"},
    {"ducts.laundry_caught", laundry, "no laundry is dried indoors"},
    {"control.", ventilator, "there is no ventilator"},
    {"control.boost_band", boosts, "no humidity boosts it"},
    {"dehumidifier.", dehumidifier, "there is no dehumidifier"},
    {"dehumidifier.factor", by_factor, "dehumidifier.power is told"},
    {"dehumidifier.observed_", seen, "dehumidifier.observed is not told"},
    {"humidifier.", humidifier, "there is no humidifier"},
    {"bath_fan.", bath_fan, "no bath fan is told"},
    {"bath_fan.run_on", bath_fan_run, "bath_fan.run is told"},
    {"range_hood.", range_hood, "no range hood is told"},
    {"range_hood.run_on", range_hood_run, "range_hood.run is told"},
    {"clothes_dryer.", dryer, "no clothes dryer is told"},
    {"clothes_dryer.run_on", dryer_run, "clothes_dryer.run is told"},
};

static int is_about(const struct lull *l, const char *path)
{
    return strncmp(path, l->keys, strlen(l->keys)) == 0;
}

int dew_scenario_lull(const struct dew_value *values, size_t key)
{
    size_t count;
    const char *path = dew_scenario_fields(&count)[key].path;

    for (int i = 0; i < (int)(sizeof lulls / sizeof lulls[0]); i++)
        if (is_about(&lulls[i], path) && !lulls[i].stands(values))
            return i;
    return -1;
}

const char *dew_scenario_lull_words(int lull)
{
    return lull < 0 ? "with these options it is read nowhere" : lulls[lull].why;
}
