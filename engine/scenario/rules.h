/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Rules between keys, in the order they are told:
 *
 *     R(name, groups, key, breaks, text)    of values v: the key it shows at,
 *                                           when it is broken, what is wrong
 *     F(name, groups)                       has a function in agree.c
 *
 * breaks and text may read *key.  groups are those whose keys a rule reads:
 * where one of them has a fault, its key stands at its default, and the rule
 * would speak of what nobody wrote.  Read by agree.c.
 */
/* clang-format off */
F(one_weather, "weather")
F(answers_have_file, "weather")
R(fill_has_file, "weather", KEY_weather_fill,
  GIVEN(v, weather_fill) && !GIVEN(v, weather_file),
  "fill is for a weather.file: a place has every hour")
F(checks_a_sensor, "log")
F(rooms_have_height, "house insulation")
R(constant_has_flow, "house", KEY_house_infiltration,
  WORD(v, house_infiltration) == INFILTRATION_constant && !GIVEN(v, house_constant_leakage),
  "is constant: give house.constant_leakage too")
R(heat_below_cool, "temperature", SAID(v, temperature_heat) ? KEY_temperature_heat : KEY_temperature_cool,
  SI(v, temperature_heat) > SI(v, temperature_cool),
  "heats to above what temperature.cool cools to: the lower one is for heating")
R(dry_below_humid, "limits", KEY_limits_too_dry,
  SI(v, limits_too_dry) >= SI(v, limits_too_humid),
  "is not below limits.too_humid: no humidity would be right")
R(airing_rises, "airing", KEY_airing_full,
  SI(v, airing_from) >= SI(v, airing_full),
  "is not above airing.from: windows open as it gets warmer")
R(humidistats_apart, "humidifier dehumidifier", KEY_humidifier_set,
  GIVEN(v, humidifier_rate) && dries(v) &&
      SI(v, humidifier_set) + SI(v, humidifier_band) / 2 > SI(v, dehumidifier_set) - SI(v, dehumidifier_band) / 2,
  "overlaps dehumidifier.set with its band: each would feed the other")
R(ventilator_is_there, "ventilator", own_key(v, KEY_ventilator_flow, KEY_ventilator_power),
  is_own(&v[*key]) && WORD(v, ventilator_core) == DEW_CORE_none,
  "has no ventilator to speak of: say its kind, ventilator.core")
R(core_has_figures, "ventilator", KEY_ventilator_core,
  scenario__recovers(v) && !GIVEN(v, ventilator_sensible) && !GIVEN(v, ventilator_ratings) && !WORD(v, ventilator_typical),
  "recovers heat: give ventilator.sensible (74 % at 95 cfm) or ventilator.ratings")
R(core_has_moisture, "ventilator", KEY_ventilator_core,
  passes_water(v) && !GIVEN(v, ventilator_moisture) && !GIVEN(v, ventilator_ratings) && !WORD(v, ventilator_typical),
  "passes moisture: give ventilator.moisture (52 % at 95 cfm) or ventilator.ratings")
R(heat_core_is_dry, "ventilator", KEY_ventilator_moisture,
  GIVEN(v, ventilator_moisture) && !passes_water(v),
  "only enthalpy cores pass moisture: see ventilator.core")
R(one_sheet, "ventilator", KEY_ventilator_ratings,
  GIVEN(v, ventilator_ratings) && (GIVEN(v, ventilator_sensible) || GIVEN(v, ventilator_moisture)),
  "stands beside ventilator.sensible or moisture: keep one or the other")
R(sensible_has_core, "ventilator", GIVEN(v, ventilator_ratings) ? KEY_ventilator_ratings : KEY_ventilator_sensible,
  !scenario__recovers(v) && v[*key].given,
  "has no core to speak of: see ventilator.core")
R(tie_has_handler, "layout air_handlers", KEY_layout,
  WORD(v, layout) != DEW_LAYOUT_own_ducts && GIVEN(v, air_handlers) && SI(v, air_handlers) == 0,
  "ties into an air handler, and air_handlers is 0")
R(second_counts, "air_handlers second_handler", first_given(v, KEY_second_handler_capacity, 4),
  v[*key].given && (!GIVEN(v, air_handlers) || SI(v, air_handlers) < 2),
  "air_handlers does not count that many")
R(third_counts, "air_handlers third_handler", first_given(v, KEY_third_handler_capacity, 4),
  v[*key].given && (!GIVEN(v, air_handlers) || SI(v, air_handlers) < 3),
  "air_handlers does not count that many")
R(dryer_is_there, "dehumidifier", own_key(v, KEY_dehumidifier_set, KEY_dehumidifier_rating),
  is_own(&v[*key]) && !dries(v),
  "has no dehumidifier to speak of: give dehumidifier.rate or dehumidifier.observed")
R(one_dryer, "dehumidifier", KEY_dehumidifier_observed,
  GIVEN(v, dehumidifier_rate) && GIVEN(v, dehumidifier_observed),
  "stands beside dehumidifier.rate: keep one or the other")
R(seen_is_observed, "dehumidifier", GIVEN(v, dehumidifier_observed_humidity) ? KEY_dehumidifier_observed_humidity : KEY_dehumidifier_observed_temperature,
  v[*key].given && !GIVEN(v, dehumidifier_observed),
  "is where dehumidifier.observed was seen: give that too")
R(one_lockout, "control", KEY_control_lockout_humidity_ratio,
  GIVEN(v, control_lockout_humidity_ratio) && GIVEN(v, control_lockout_dew_point),
  "stands beside control.lockout_dew_point: keep one or the other")
F(log_has_file, "log")
F(basement_is_told, "house insulation")
/* clang-format on */
