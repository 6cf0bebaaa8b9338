/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Keys of the equipment, its control, prices and safety.
 * Read by keys.h and keys.c, which say what the columns are.
 */
/* clang-format off */

/* ---- heating ---- */
K(heating, kind, WORD, PURE, 0, 0, NULL, "electric", "no flue, no water in the house", "heat_pump", "what heats", .words = SCENARIO__WORDS(SCENARIO__HEATING), .either = 1)
K(heating, capacity, NUMBER, POWER, 100, 100e3, "one household's heater", "=150 W per m2 of floor, which is ample", NULL, NULL, "most heat it gives; of a heat pump at 47 degF outdoors, and less the colder it is", TIMES(0.5, 1.5, "our guess"))
K(heating, backup, NUMBER, POWER, 0, 100e3, "one household's heater", "=as capacity beside a heat pump: common practice, no source", NULL, NULL, "heat pump: most heat of the electric resistance that helps it out", SURE(FOLLOWS))
K(heating, efficiency, NUMBER, PURE, 0.3, 1, "a share; a heat pump has its own keys", "=100 % electric, 90 % gas and propane, 83 % oil, 70 % wood: from memory", NULL, NULL, "heat given per fuel burnt or electricity used", TIMES(0.88, 1.06, "older to newer heaters, from memory; electric heaters have none"))
K(heating, cop_warm, NUMBER, PURE, 1, 8, "heat pumps on the market", "3.6", "[NREL-56354] single speed 3.2 to 4.2, from memory", NULL, "heat pump: heat per electricity at 47 degF outdoors", RANGE("3.2 to 4.2", "[NREL-56354] single speed, from memory"))
K(heating, cop_cold, NUMBER, PURE, 1, 6, "heat pumps on the market", "2.5", "[NREL-56354] single speed 2.2 to 2.9, from memory", NULL, "heat pump: heat per electricity at 17 degF outdoors", RANGE("2.2 to 2.9", "[NREL-56354] single speed, from memory"))
K(heating, by_air, FLAG, PURE, 0, 0, NULL, "yes", "a house with an air handler", NULL, "the air handler's blower carries the heat", .either = 1)

/* ---- cooling ---- */
T(air_handlers, COUNT, PURE, 0, 3, "one house, not a block", "=1 when the house is cooled, or heated by air", NULL, "1", "air handlers; keys of cooling hold for each, second_handler and third_handler say what differs", SURE(KNOWN))
T(handlers_run, WORD, PURE, 0, 0, NULL, "even_split", "one zone cannot know which of two runs", NULL, "two air handlers: both alike, or one leads", .words = SCENARIO__WORDS(SCENARIO__HANDLERS_RUN), .either = 1)
K(cooling, capacity, NUMBER, POWER, 500, 60e3, "one household's machine", "", NULL, "3 ton", "total cooling of one air handler at its rating; none without it", SURE(UNTOLD))
K(cooling, capacity_is, WORD, PURE, 0, 0, NULL, "net", "labels are net of the blower's heat", NULL, "whether that is net or gross of the blower's heat", .words = SCENARIO__WORDS(SCENARIO__CAPACITY_IS), .either = 1)
K(cooling, shr, NUMBER, PURE, 0.5, 1, "the sensible share of cooling", "75 %", "common practice, no source", "74 %", "sensible share of the capacity at its rating", RANGE("70 to 80", "[SHR-TRADE] by design; of a typical machine, its row of the library"))
K(cooling, airflow, NUMBER, FLOW_PER_CAPACITY, 2.5e-5, 9e-5, "200 to 700 cfm per ton are coils that work", "400 cfm/ton", "common practice, no source", NULL, "air through the coil at its rating", RANGE("350 to 450", "common practice, no source"))
K(cooling, seer, NUMBER, PURE, 6, 40, "labels run from 6 to 40", "14", "common practice, no source", NULL, "seasonal efficiency on the label, Btu per Wh", RANGE("10 to 18", "our guess; of a typical machine, its row of the library"))
K(cooling, eer, NUMBER, PURE, 5, 25, "labels run from 5 to 25", "", NULL, NULL, "efficiency at 95 degF on the label, Btu per Wh; used instead of seer", SURE(UNTOLD))
K(cooling, blower, WORD, PURE, 0, 0, NULL, "auto", "the usual setting", "auto", "what runs the blower besides heating and cooling: auto, nothing; on, always; minutes, so many of each hour; interlock, the ventilator", .words = SCENARIO__WORDS(DEW_BLOWER_MAP), .either = 1)
K(cooling, blower_minutes, NUMBER, SHARE_OF_TIME, 0, 1, "no more than all the time", "20 min/h", "common practice, no source", NULL, "share of each hour for blower: minutes, or how long in each hour", FORMS(minute_forms), SURE(SETTING))
K(cooling, blower_power, NUMBER, POWER, 0, 3000, "one household's blower", "=by motor: constant torque 0.365 W per cfm [NREL-56354]", NULL, "400 W", "electricity of the blower at full flow", WITHIN("the row of its motor in the library"))
K(cooling, low_flow, NUMBER, PURE, 0.05, 1, "a share of the full flow", "=by motor: constant torque 50 %, from memory", NULL, NULL, "blower's low flow when it only circulates", TIMES(0.8, 1.2, "our guess"))
K(cooling, low_power, NUMBER, POWER, 0, 3000, "one household's blower", "=by motor, or by the square of the flow (our own) where low_flow is given", NULL, NULL, "electricity of the blower at its low flow", TIMES(0.7, 1.4, "our guess"))
K(cooling, typical, WORD, PURE, 0, 0, NULL, "none", "the keys' own defaults", NULL, "kind of machine whose typical seer, shr, cycling_loss, low_stage and turndown stand where yours are not given: see `dewledger explain typical`", .words = SCENARIO__OR_NONE(DEW_TYPICAL_COOLER_MAP), .either = 1)
K(cooling, motor, WORD, PURE, 0, 0, NULL, "constant_torque", "common in new air handlers", NULL, "blower motor whose typical blower_power, low_flow and low_power stand where yours are not given", .words = SCENARIO__WORDS(DEW_TYPICAL_BLOWER_MAP), .either = 1)
K(cooling, cycling_loss, NUMBER, PURE, 0, 0.5, "published values run from 0.07 to 0.2 [NREL-56354]", "7 %", "[NREL-56354] SEER 13 and above; 20 % for older machines", NULL, "capacity and efficiency lost to starting and stopping, at the least load (C_d)", RANGE("7 to 20", "[NREL-56354] newer to older machines"))
K(cooling, low_stage, NUMBER, PURE, 0.2, 1, "a share of the capacity", "100 %", "one stage", NULL, "capacity of the low stage of a two-stage machine", SURE(KNOWN))
K(cooling, low_stage_air, NUMBER, PURE, 0.1, 1, "a share of the full air", "=75 % at 70 % of the capacity, in line with it elsewhere: 70 to 80 %, from memory", NULL, NULL, "air at the low stage, or at the least capacity of a variable-speed machine, as a share of the full air", TIMES(0.93, 1.07, "70 to 80 %, from memory"))
K(cooling, turndown, NUMBER, PURE, 0.1, 1, "a share of the capacity", "100 %", "fixed speed", NULL, "least capacity of a variable-speed machine", SURE(KNOWN))
K(cooling, overcool, NUMBER, TEMPERATURE_STEP, 0, 5, "more is cold", "0 K", "not used", NULL, "cooled further than asked, while too humid", SURE(SETTING))
K(cooling, overcool_above, NUMBER, PURE, 0.3, 0.9, "a relative humidity", "55 %", "common practice, no source", NULL, "relative humidity above which it overcools", SURE(SETTING))
K(cooling, coil_hold, NUMBER, TIME, 60, 5000, "published values run from 720 to 1200 s [HR96]", "1000 s", "[HR96] typical", NULL, "water a wet coil holds, in time of running", RANGE("720 to 1200", "[HR96]"))
K(cooling, coil_drying, NUMBER, PURE, 0, 3, "published values run from 1.0 to 1.5 [HR96]", "1.5", "[HR96]", NULL, "first evaporation off the wet coil over its drying rate, blower on and compressor off", RANGE("1 to 1.5", "[HR96]"))
K(cooling, blower_off_delay, NUMBER, TIME, 0, 300, "boards run a blower on by 0 to 90 s", "60 s (0 to 90)", "makers set 0, 30, 45, 60 or 90 s: from memory", NULL, "how long the blower runs on after the compressor stops, and takes water back from the wet coil", RANGE("", "from memory"))
K(cooling, still_air, NUMBER, PURE, 0, 0.1, "a share: what drifts through a coil at rest is little", "0.4 % (0 to 2)", "our own bound, no source: buoyancy against the filter", NULL, "the same by air that drifts through while the blower stands, as a share of what full flow takes", RANGE("", "our own bound, no source"))
K(cooling, cycles, NUMBER, PER_DAY, 0.5 / HOUR, 20 / HOUR, "thermostats run from 1 to 6 an hour", "3 per hour", "[HR96]", NULL, "most starts of the compressor in an hour", RANGE("2 to 3.5", "[HR96], from memory"))
HANDLER(second_handler)
HANDLER(third_handler)

/* ---- ventilator ---- */
K(ventilator, core, WORD, PURE, 0, 0, NULL, "none", "a house as it stands", NULL, "what kind of ventilator: a fan one way (supply_only, exhaust_only), two fans without a core (balanced), a heat core or HRV (heat_plate), an enthalpy core or ERV (enthalpy_plate, enthalpy_wheel)", .words = SCENARIO__NAMES(DEW_CORE_MAP))
K(ventilator, flow, NUMBER, FLOW, 1e-3, 0.5, "one household's ventilator", "=the fresh air required", NULL, NULL, "fresh air it is set to, as rated", SURE(SETTING))
K(ventilator, exhaust_flow, NUMBER, FLOW, 0, 0.5, "one household's ventilator", "=as flow", NULL, NULL, "stale air, where it differs", SURE(FOLLOWS))
K(ventilator, boost_flow, NUMBER, FLOW, 1e-3, 0.5, "one household's ventilator", "=as flow", NULL, NULL, "fresh air on boost", SURE(FOLLOWS))
K(ventilator, found, NUMBER, PURE, 0, 1.5, "share of the rated flow", "100 %", "installed as designed; field studies find less", NULL, "share of its set flow that it really moves, when measured", SURE("it is measured when it is set; where it was not, tell 100 % (60 to 100)"))
K(ventilator, sensible, AT, PURE, 0, 1, "a share: 1 is perfect", "", NULL, NULL, "temperature effectiveness of the core at a flow, one or more", .at = DEW_FLOW, .least = 1, .most = 8, WITHIN("of a typical core, its row of the library"))
K(ventilator, moisture, AT, PURE, 0, 1, "a share: 1 is perfect", "", NULL, NULL, "moisture effectiveness of the core at a flow, one or more", .at = DEW_FLOW, .least = 1, .most = 8, WITHIN("of a typical core, its row of the library"))
K(ventilator, ratings, ROWS, PURE, 0, 0, NULL, "", NULL, NULL, "rows of the spec sheet, used instead of sensible and moisture", .row = rating_columns, .row_count = SCENARIO__RATING_COLUMNS, .least = 1, .most = DEW_CORE_ROWS)
K(ventilator, typical, FLAG, PURE, 0, 0, NULL, "no", "a spec sheet is better", NULL, "take the typical figures of its kind of core, with their range, where yours are not given: see `dewledger explain typical`")
K(ventilator, exchange, WORD, PURE, 0, 0, NULL, "counterflow", "common practice, no source", NULL, "how the two airs pass each other in a plate core", .words = SCENARIO__WORDS(SCENARIO__EXCHANGE), .either = 1)
K(ventilator, supply_fan_share, NUMBER, PURE, 0, 1, "a share of both fans' heat", "50 %", "equal fans: common practice, no source", NULL, "share of the fans' electricity that warms the supply air", RANGE("35 to 65", "our guess"))
K(ventilator, exhaust_fan_ahead, NUMBER, PURE, 0, 1, "a share of the exhaust fan's heat", "0 %", "the exhaust fan behind the core: common practice, no source", NULL, "share of the exhaust fan's heat that enters ahead of the core", SURE(SHEET))
K(ventilator, cross_leakage, NUMBER, PURE, 0, 0.3, "more than that is a hole in the core", "=1 % plates, 4 % wheels: from memory", NULL, NULL, "stale air that comes back with the fresh (EATR)", TIMES(0.3, 2.5, "from memory; of a typical core, its row of the library"))
K(ventilator, power, NUMBER, POWER, 0, 1000, "one household's ventilator", "=0.83 W per cfm, the least of manufactured homes [CFR460]", NULL, NULL, "electricity of both fans at its flow", TIMES(0.5, 1.2, "our guess; of a typical core, its row of the library"))
K(ventilator, frost, WORD, PURE, 0, 0, NULL, "=recirculate with a core, else none", NULL, NULL, "how it keeps the core from freezing", .words = SCENARIO__WORDS(DEW_FROST_MAP), .either = 1)
K(ventilator, frost_start, NUMBER, TEMPERATURE, -40, 5, "cores freeze below that", "=23 degF heat plate, 14 degF enthalpy: makers' manuals", NULL, NULL, "outdoor temperature below which frost protection acts", STEP(-3, 3, "our guess"))
K(ventilator, frost_time, NUMBER, SHARE_OF_TIME, 0, 0.9, "a core must run too", "=6 min in 38, from memory", NULL, NULL, "share of time it defrosts, just below frost_start", TIMES(0.6, 1.5, "our guess"))
K(ventilator, frost_deep, NUMBER, TEMPERATURE, -60, 0, "the coldest row of its time table", "-27 degC", "a typical time table, from memory", NULL, "outdoor temperature at which the share of time is frost_time_deep", RANGE("-32 to -22", "our guess"))
K(ventilator, frost_time_deep, NUMBER, SHARE_OF_TIME, 0, 0.9, "a core must run too", "=6 min in 26, from memory", NULL, NULL, "share of time it defrosts there and below", TIMES(0.6, 1.5, "our guess"))
K(ventilator, damper, ANSWER, PURE, 0, 0, NULL, "unknown", "not asked", NULL, "a motorised damper shuts its outdoor ducts when it is off", .either = 1, EITHER("yes or no", "not asked"))
K(ventilator, fan_pressure, NUMBER, PRESSURE, 10, 500, "small fans make no more", "=150 Pa at the rated flow: from memory", NULL, NULL, "pressure outside the unit at its flow; for computed layouts", SURE(SHEET))
K(ventilator, holds_flow, FLAG, PURE, 0, 0, NULL, "no", "fans at a fixed speed", NULL, "its own control holds both flows whatever the ducts do, as far as its fans go; for computed layouts", .either = 1)
K(ventilator, core_loss, NUMBER, PRESSURE, 1, 500, "small units lose no more", "75 Pa", "from memory", NULL, "what one side of the unit itself loses at its flow, fan still; for computed layouts", RANGE("40 to 120", "our guess"))
K(ventilator, fan, ROWS, PURE, 0, 0, NULL, "=by shape through fan_pressure", NULL, NULL, "rows of its fan sheet, flow against pressure outside the unit; for computed layouts", .row = fan_columns, .row_count = SCENARIO__FAN_COLUMNS, .least = 3, .most = DEW_DUCT_ROWS)
#include "scenario/rows_ducts.h"

/* ---- control ---- */
K(control, run, NUMBER, SHARE_OF_TIME, 0, 1, "no more than all the time", "60 min/h", "always on", NULL, "share of each hour that the ventilator runs", SURE(SETTING))
K(control, weekday, LIST, SHARE_OF_TIME, 0, 1, "no more than all the time", "=as run", NULL, NULL, "the same for each hour of a weekday, from midnight", .least = 24, .most = 24, SURE(FOLLOWS))
K(control, weekend, LIST, SHARE_OF_TIME, 0, 1, "no more than all the time", "=as run", NULL, NULL, "the same for each hour of Saturday and Sunday, from midnight", .least = 24, .most = 24, SURE(FOLLOWS))
K(control, boost_above, NUMBER, PURE, 0.2, 1, "a relative humidity", "", NULL, NULL, "indoor humidity above which the boost flow runs", SURE(UNTOLD))
K(control, boost_band, NUMBER, PURE, 0.001, 0.3, "a relative humidity", "4 %", "our own: no humidistat is sharper", NULL, "band over which boost comes in", RANGE("2 to 8", "our guess"))
K(control, boost_for_events, NUMBER, PURE, 0, 1, "a share of the time", "0 %", "no switch in bath or kitchen", NULL, "boost while a shower or cooking runs: share of the events for which it is used", SURE(SETTING))
K(control, boost_time, NUMBER, TIME, 60, 7200, "timers of bath fans", "20 min", "common practice, no source", NULL, "how long the boost of one shower or meal lasts", SURE(SETTING))
K(control, lockout_dew_point, NUMBER, TEMPERATURE, -10, 30, "outdoor dew points worth a lockout", "", NULL, NULL, "outdoor dew point above which the ventilator is held back", SURE(UNTOLD))
K(control, lockout_humidity_ratio, NUMBER, HUMIDITY_RATIO, 0.001, 0.03, "outdoor air worth a lockout", "", NULL, NULL, "outdoor humidity ratio above which the ventilator is held back; used instead of lockout_dew_point", SURE(UNTOLD))
K(control, lockout_unless_drier, NUMBER, HUMIDITY_RATIO, 0, 0.01, "a difference of humidity ratios", "", NULL, NULL, "held back only while outdoor air is wetter than indoor air by that much; alone or beside one of the two above", SURE(UNTOLD))
K(control, lockout_least, NUMBER, SHARE_OF_TIME, 0, 1, "no more than all the time", "0 %", "wholly off", NULL, "share of its time kept in a lockout", SURE(SETTING))
K(control, winter_target, NUMBER, PURE, 0.05, 0.8, "a relative humidity", "", NULL, NULL, "indoor humidity aimed at when it is 0 degC outdoors: below it the ventilator slows", SURE(UNTOLD))
K(control, winter_target_cold, NUMBER, PURE, 0.05, 0.8, "a relative humidity", "=as winter_target", NULL, NULL, "the same at -20 degC outdoors", SURE(FOLLOWS))
K(control, bypass_above, NUMBER, TEMPERATURE, -10, 30, "free cooling", "", NULL, NULL, "core bypassed when it is warmer outdoors than this", SURE(UNTOLD))
K(control, bypass_indoor, NUMBER, TEMPERATURE, 10, 40, "free cooling", "", NULL, NULL, "and warmer indoors than this", SURE(UNTOLD))

/* ---- dehumidifier ---- */
K(dehumidifier, rate, NUMBER, WATER_RATE, 0, 2e-3, "one household's machine", "", NULL, NULL, "water it removes at its rating point", SURE(UNTOLD))
K(dehumidifier, observed, NUMBER, WATER_RATE, 0, 2e-3, "one household's machine", "", NULL, NULL, "water that an existing machine is seen to fill its bucket with; used instead of rate", SURE(UNTOLD))
K(dehumidifier, observed_temperature, NUMBER, TEMPERATURE, 15, 32, "the published fit ends there [NREL-52791]", "=as temperature.cool", NULL, NULL, "room temperature while that was seen", SURE(FOLLOWS))
K(dehumidifier, observed_humidity, NUMBER, PURE, 0.3, 0.9, "the published fit ends there [NREL-52791]", "=as set", NULL, NULL, "relative humidity while that was seen", SURE(FOLLOWS))
K(dehumidifier, rating, WORD, PURE, 0, 0, NULL, "portable_65F", "[DOE-DH] labels since 2019", NULL, "rating point of its label: 65 degF and 60 %, 80 degF and 60 %, 73 degF and 60 %", .words = SCENARIO__WORDS(DEW_DRYER_TEST_MAP), .either = 1)
K(dehumidifier, typical, WORD, PURE, 0, 0, NULL, "none", "the keys' own defaults", NULL, "kind of machine whose typical factor and rating stand where yours are not given: see `dewledger explain typical`", .words = SCENARIO__OR_NONE(DEW_TYPICAL_DRYER_MAP), .either = 1)
K(dehumidifier, factor, NUMBER, WATER_PER_ENERGY, 1e-7, 3e-6, "machines on the market", "=the least sold of its rating and size [DOE-DH] [NRCAN-DH]", NULL, NULL, "water removed per electricity at its rating point. The least sold, L/kWh: portable_65F 1.30 to 25 pints/day, 1.60 to 50, 2.80 above; old_80F 1.35 to 35, 1.50 to 45, 1.60 to 54, 1.70 to 75, 2.5 above; ducted_73F 1.77, of cases to 8 ft3 (larger ones 2.41)", TIMES(1, 1.4, "our guess; of a typical machine, its row of the library"))
K(dehumidifier, power, NUMBER, POWER, 20, 3000, "one household's machine", "", NULL, NULL, "electricity at its rating point, or where its water was seen; used instead of factor", SURE(UNTOLD))
K(dehumidifier, set, NUMBER, PURE, 0.2, 0.9, "a relative humidity", "50 %", "common practice, no source", NULL, "relative humidity it is set to", RANGE("45 to 55", "our guess: dials are off by some points"))
K(dehumidifier, band, NUMBER, PURE, 0.001, 0.3, "a relative humidity", "4 %", "our own: no humidistat is sharper", NULL, "band over which it comes in", RANGE("2 to 8", "our guess"))
K(dehumidifier, fresh_air, NUMBER, FLOW, 0, 0.3, "one household's machine", "0 cfm", "not a ventilating one", NULL, "outdoor air it draws through itself", SURE(NOTHING))
K(dehumidifier, running, NUMBER, PURE, 0, 1, "a share of the day", "100 %", "drains by itself", NULL, "share of the day it is on and its bucket not full", SURE(SETTING))

/* ---- humidifier ---- */
K(humidifier, rate, NUMBER, WATER_RATE, 0, 2e-3, "one household's machine", "", NULL, NULL, "water it sets free at full output", SURE(UNTOLD))
K(humidifier, set, NUMBER, PURE, 0.1, 0.8, "a relative humidity", "35 %", "common practice, no source", NULL, "relative humidity it is set to", RANGE("30 to 40", "our guess: dials are off by some points"))
K(humidifier, band, NUMBER, PURE, 0.001, 0.3, "a relative humidity", "4 %", "our own: no humidistat is sharper", NULL, "band over which it comes in", RANGE("2 to 8", "our guess"))
K(humidifier, kind, WORD, PURE, 0, 0, NULL, "evaporative", "common practice, no source", NULL, "evaporative ones cool the air, steam ones use electricity", .words = SCENARIO__WORDS(SCENARIO__HUMIDIFIER), .either = 1)

/* ---- local exhaust ---- */
EXHAUST(bath_fan, "80 cfm", "10 W", "5 to 30", "=each shower and bath, 8 min and run_on", "20 min", "0 to 60", "35 % (30 to 50)", "door open, from memory", RANGE("", "from memory"))
EXHAUST(range_hood, "150 cfm", "60 W", "30 to 150", "=three meals of 20 min and run_on", "0 min", "0 to 10", "60 %", "[LBNL-HOOD] front burners 46 to 78 %", RANGE("46 to 78", "[LBNL-HOOD] front burners"))
EXHAUST(clothes_dryer, "150 cfm", "0 W", "0 to 10", "=0.7 h/day and run_on", "0 min", "0 to 10", "0 %", "its water leaves by its own duct and is no part of laundry_dried_indoors", SURE(MODEL))

/* ---- safety ---- */
#define X(name, words) K(safety, name, ANSWER, PURE, 0, 0, NULL, "unknown", "not asked: treated with the same caution as yes", "unknown", words, .base_only = 1)
DEW_SAFETY_MAP(X)
#undef X
K(safety, house_age, NUMBER, TIME, 0, 400 * YEAR, "finished, and not yet a monument", "", NULL, NULL, "time since the house was finished or last dried out", .base_only = 1, SURE(UNTOLD))

/* ---- prices ---- */
K(prices, electricity, NUMBER, ENERGY_PRICE, 0, 2 / KWH, "a price per energy", "0.18 $/kWh (0.12 to 0.40)", "[EIA-EPM] U.S. homes, October 2025", "0.18 $/kWh (0.12 to 0.40)", "electricity", .base_only = 1, SURE(OF_MONEY))
K(prices, electricity_by_month, LIST, ENERGY_PRICE, 0, 2 / KWH, "a price per energy", "=as electricity", NULL, NULL, "electricity in each month, from January", .least = 12, .most = 12, .base_only = 1, SURE(FOLLOWS))
K(prices, gas, NUMBER, ENERGY_PRICE, 0, 1 / KWH, "a price per energy", "1.40 $/therm (1.20 to 1.60)", "from memory", NULL, "natural gas, by its heat", .base_only = 1, SURE(OF_MONEY))
K(prices, gas_by_month, LIST, ENERGY_PRICE, 0, 1 / KWH, "a price per energy", "=as gas", NULL, NULL, "natural gas in each month, from January", .least = 12, .most = 12, .base_only = 1, SURE(FOLLOWS))
K(prices, oil, NUMBER, ENERGY_PRICE, 0, 1 / KWH, "a price per energy", "27 $/MMBtu (20 to 35)", "from memory", NULL, "heating oil, by its heat", .base_only = 1, SURE(OF_MONEY))
K(prices, propane, NUMBER, ENERGY_PRICE, 0, 1 / KWH, "a price per energy", "26 $/MMBtu (21 to 49)", "[EIA-HOP] Midwest to Florida, October 2025", NULL, "propane, by its heat", .base_only = 1, SURE(OF_MONEY))
K(prices, wood, NUMBER, ENERGY_PRICE, 0, 1 / KWH, "a price per energy", "15 $/MMBtu (8 to 25)", "from memory", NULL, "firewood or pellets, by their heat", .base_only = 1, SURE(OF_MONEY))
K(prices, own_hour, NUMBER, WAGE, 0, 1000 / HOUR, "a price per hour", "0 $/h", "the owner's own hours are free", NULL, "what an hour of the owner's own work is worth", .base_only = 1, SURE(OF_MONEY))
K(prices, hour_too_humid, NUMBER, WAGE, 0, 1000 / HOUR, "a price per hour", "0.50 $/h", "our guess", NULL, "what an hour less too humid is worth, to weigh comfort against money", .base_only = 1, SURE(OF_MONEY))
K(prices, hour_too_dry, NUMBER, WAGE, 0, 1000 / HOUR, "a price per hour", "0.25 $/h", "our guess", NULL, "what an hour less too dry is worth", .base_only = 1, SURE(OF_MONEY))
K(prices, hour_short_of_air, NUMBER, WAGE, 0, 1000 / HOUR, "a price per hour", "0.50 $/h", "our guess", NULL, "what an hour less short of the fresh air asked for is worth", .base_only = 1, SURE(OF_MONEY))
K(prices, interest, NUMBER, PURE, -0.05, 0.3, "a yearly share", "3 %", "common practice, no source", NULL, "yearly interest above inflation", .base_only = 1, SURE(OF_MONEY))
K(prices, years, NUMBER, TIME, YEAR, 60 * YEAR, "the life of a house's equipment", "15 year (10 to 20)", "life of a ventilator, from memory", NULL, "time over which costs are compared", .base_only = 1, SURE(OF_MONEY))
K(prices, date, TEXT, PURE, 0, 0, NULL, "October 2025", "of the electricity price above", NULL, "when the prices were true", .base_only = 1)

/* ---- costs ---- */
K(costs, install, NUMBER, MONEY, 0, 1e6, "one household's equipment", "=0 $ of the first option; of another not known until it is given", NULL, NULL, "parts and labour of this option, 0 $ where nothing is bought. While it is not given for an option that will do, no best is told by money", SURE(OF_MONEY))
K(costs, upkeep, NUMBER, MONEY, 0, 1e5, "one household's equipment", "0 $", "nothing is bought", NULL, "filters, cores and service, each year", SURE(OF_MONEY))
K(costs, own_work, NUMBER, TIME, 0, 2000 * HOUR, "one household's equipment", "0 h", "nothing is built", NULL, "the owner's own hours", SURE(OF_MONEY))
K(costs, later, NUMBER, MONEY, 0, 1e6, "one household's equipment", "=what next_option costs, else 0 $", NULL, NULL, "a second stage, if it follows", SURE(FOLLOWS))
K(costs, later_chance, NUMBER, PURE, 0, 1, "a chance", "0 %", "no second stage", NULL, "chance that the second stage follows", SURE(OF_MONEY))
K(costs, later_after, NUMBER, TIME, 0, 60 * YEAR, "within the life of the equipment", "1 year", "our own: a summer and a winter to look", NULL, "time until the second stage, if it follows", SURE(OF_MONEY))
K(costs, next_option, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "option that this one becomes with its second stage, by its name")
K(costs, reading, WORD, PURE, 0, 0, NULL, "humidity", "our own: what the house is being helped for", NULL, "what is measured to decide on the second stage", .words = SCENARIO__WORDS(DEW_READING_MAP))
K(costs, life, NUMBER, TIME, YEAR, 100 * YEAR, "equipment", "=as prices.years", NULL, NULL, "time until it must be bought again", SURE(FOLLOWS))
K(costs, date, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "when the costs were true")

/* ---- run ---- */
K(run, draws, COUNT, PURE, 0, 65536, "as many as a spread draws", "128", "our own: shares to the nearest 5 of 100", NULL, "houses like yours that `run` draws from your ranges and marches, so that it can tell how sure it is; best a power of two; 0: none. Not told, it is fewer where there are more than eight options", SURE(ASKED))
K(run, houses, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "file of houses, as `fit --yaml` and `spread --csv` write them, that `run` and `spread` take in the place of houses of their own; what it lacks is drawn; looked for beside the scenario", .base_only = 1)
K(run, steps_per_hour, COUNT, PURE, 1, 60, "a minute is the shortest step", "4", "our own: see the accuracy tests", NULL, "steps the march takes in an hour; in a quiet one half as many, of an even number from 4 to 12, or a quarter, of 4, 8 or 12", SURE(ASKED))
/* clang-format on */
