/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings and the sentences that come of them. */
#define IS(kind_, ...)                                                         \
    .kind = DEW_FINDING_##kind_, .number.kind_ = {__VA_ARGS__}

static const struct sentence_row {
    const char *name;
    struct dew_finding finding;
    enum dew_system system;
    const char *want;
} sentence_rows[] = {
    /* clang-format off */
    {"too humid today, metric",
     {IS(today_humid, .humid = 1207.2, .worst_month = 402.6, .longest = 88,
      .by_1 = 811, .by_2 = 502, .by_3 = 313),
      .option = 0, .other = -1, .months = 0x0c0, .source = {"people",
      "leakage through the envelope"}, .source_kg = {4.26, 3.31}},
     DEW_SYSTEM_SI,
     "Today the house is too humid (above 60 % relative humidity) in 1,207 "
     "hours of the year: by 1 point or more in 811, by 2 in 502, by 3 in 313. Up "
     "to 403 hours in one month, 88 hours at a stretch, most in July and "
     "August. The water comes in by people (4.3 L/day) and leakage through "
     "the envelope (3.3 L/day)."},
    {"no planned air",
     {IS(today_stale, .fresh = 0, .leaks = 0.0033, .required = 0.041,
      .co2 = 4934, .co2_outdoors = 424, .short_of_air = 1), .option = 0},
     DEW_SYSTEM_SI,
     "Today the house has no planned fresh air: about 3 L/s comes in by leaks, "
     "41 L/s is asked for, and carbon dioxide (CO2) averages 4,934 ppm "
     "(outdoors 424)."},
    {"too little air",
     {IS(today_stale, .fresh = 0.012, .leaks = 0.0033, .required = 0.041,
      .co2 = 1934, .co2_outdoors = 424, .short_of_air = 1), .option = 0},
     DEW_SYSTEM_SI,
     "Today the house has 12 L/s of planned fresh air of the 41 L/s asked for; "
     "about 3 L/s comes in by leaks, and carbon dioxide (CO2) averages 1,934 "
     "ppm (outdoors 424)."},
    {"stale air with the air asked for",
     {IS(today_stale, .fresh = 0.012, .leaks = 0.0033, .required = 0.012,
      .co2 = 1934, .co2_outdoors = 424), .option = 0},
     DEW_SYSTEM_SI,
     "Today the air is stale: about 3 L/s comes in by leaks, 12 L/s is "
     "planned, and carbon dioxide (CO2) averages 1,934 ppm (outdoors 424)."},
    {"outdoor air nearly always drier",
     {IS(outdoor_dries, .could_dry = 8758, .all = 8760), .option = 0},
     DEW_SYSTEM_SI,
     "Outdoor air is drier than the house's at nearly every hour of the year: "
     "airing dries the house."},
    {"outdoor air never drier",
     {IS(outdoor_dries, .could_dry = 0, .all = 8760), .option = 0},
     DEW_SYSTEM_SI,
     "Outdoor air is never drier than the house's: airing does not dry the "
     "house."},
    {"outdoor air always damper",
     {IS(outdoor_cannot, .could_dry = 0, .cannot_dry = 1488, .all = 1488),
      .option = 0, .months = 0x0c0},
     DEW_SYSTEM_SI,
     "In July and August outdoor air is damper than the house's at every hour: "
     "more ventilation then brings water in."},
    {"cooling that always runs",
     {IS(idle, .humid_while_idle = 0, .humid = 189), .option = 0},
     DEW_SYSTEM_SI, "Cooling runs in all of the 189 hours too humid."},
    {"a dehumidifier that does all it can",
     {IS(dryer_size, .label = 3.83e-4, .here = 3.12e-4, .busiest = 3.1e-4,
      .energy = 1100 * KWH, .runs = 1), .option = 1},
     DEW_SYSTEM_SI,
     "In this house's air that of \"heat core\" (33.1 L/day on its label) "
     "could take out 27.0 L/day, and the wettest day needs 26.8 L/day, all it "
     "can. It runs 1 hour and uses 1,100 kWh a year."},
    {"none brings the air",
     {IS(best_none, .humid = NAN), .option = -1}, DEW_SYSTEM_SI,
     "None of these will do: none brings the fresh air asked for. Try next: a "
     "larger flow of fresh air (ventilator.flow)."},
    {"saves too little",
     {IS(never_pays, .saved = 12.4, .install = 5200), .option = 1},
     DEW_SYSTEM_SI,
     "\"heat core\" does not pay back within 15 years: it saves $12 a year and "
     "costs $5,200 to install."},
    {"saves nothing",
     {IS(never_pays, .saved = 0.2, .install = 5200), .option = 1},
     DEW_SYSTEM_SI, "\"heat core\" does not pay back: it saves nothing."},
    {"either core",
     {IS(core_close, .heat_humid = 401, .heat_dry = 0, .enthalpy_humid = 403,
         .enthalpy_dry = 0), .option = 1},
     DEW_SYSTEM_SI,
     "Either core will do, they are too close to tell: 403 hours too humid with "
     "\"as it stands\" (heat and moisture), 401 with \"heat core\" (heat only); "
     "neither gets too dry."},
    {"heating falls short",
     {IS(short_heat, .short_of_heat = 203.2, .coldest = 11.3), .option = 1},
     DEW_SYSTEM_US,
     "\"heat core\": heating falls short in 203 hours of the year, to 52 degF "
     "in the coldest. Warming up after a setback counts too."},
    {"the coil leaves today open",
     {IS(coil_today, .likely = 81.3, .low = 0, .high = 708.4), .option = 0},
     DEW_SYSTEM_US,
     "The 81 hours too humid could be 0 to 708: how much water the blower "
     "takes back from the wet coil is not well known."},
    {"and its limits with it",
     {IS(coil_today, .likely = 81.3, .low = 0, .high = 708.4, .decides = 1),
      .option = 0},
     DEW_SYSTEM_US,
     "The 81 hours too humid could be 0 to 708: how much water the blower "
     "takes back from the wet coil is not well known. Whether the house keeps "
     "its limits hangs on that."},
    {"the coil leaves an option's limits open",
     {IS(coil_option, .likely = 1036, .low = 113, .high = 2609, .decides = 1),
      .option = 1},
     DEW_SYSTEM_US,
     "\"heat core\" could be too humid in 113 to 2,609 hours instead of 1,036: "
     "how much water the blower takes back from the wet coil is not well "
     "known. Whether it keeps the limits hangs on that."},
    /* 4.26 kg a day / 3.785411784 kg = 1.125 gal */
    {"too dry today, inch-pound",
     {IS(today_dry, .dry = 911, .worst_month = 430), .option = 0, .other = -1,
      .months = 0xc01, .source = {"leakage through the envelope"},
      .source_kg = {4.26}},
     DEW_SYSTEM_US,
     "Today the house is too dry (below 30 % relative humidity) in 911 hours "
     "of the year, up to 430 hours in one month, most in November to January. "
     "The water leaves by leakage through the envelope (1.1 gal/day)."},
    {"outdoor air cannot",
     {IS(outdoor_cannot, .could_dry = 0.042, .cannot_dry = 1402, .all = 1488),
      .option = 0, .other = -1, .months = 0x0c0},
     DEW_SYSTEM_US,
     "In July and August outdoor air is damper than the house's in 94 % of the "
     "hours: more ventilation then brings water in."},
    {"fans, cooling and windows not told",
     {IS(today_assumes, .no_bath_fan = 1, .no_hood = 1, .no_clothes_dryer = 1,
      .no_cooling = 1, .windows_shut = 1), .option = 0},
     DEW_SYSTEM_US,
     "Today is worked out without a bath fan, a kitchen hood, a clothes dryer "
     "that blows outdoors, cooling or open windows, as none is given. If that "
     "is not so, the hours change: give bath_fan, range_hood, clothes_dryer, "
     "cooling and airing."},
    {"a hood not told",
     {IS(today_assumes, .no_hood = 1), .option = 0},
     DEW_SYSTEM_US,
     "Today is worked out without a kitchen hood, as none is given. If that is "
     "not so, the hours change: give range_hood."},
    {"cooling too large",
     {IS(cool_large, .above_half = 8, .runs = 0.2314), .option = 0,
      .months = 0x040},
     DEW_SYSTEM_US,
     "Cooling looks at least twice too large: it runs more than half of the "
     "hour in only 8 hours of the year, and 23 % of the time in its busiest "
     "month, July. A machine of half the size would run longer and dry the air "
     "more. Have the load of the rooms worked out before choosing one."},
    {"cooling too large in every hour",
     {IS(cool_large, .above_half = 0, .runs = 0.2314), .option = 0,
      .months = 0x040},
     DEW_SYSTEM_US,
     "Cooling looks at least twice too large: it runs more than half of the "
     "hour in no hour of the year, and 23 % of the time in its busiest month, "
     "July. A machine of half the size would run longer and dry the air more. "
     "Have the load of the rooms worked out before choosing one."},
    {"worse in some months, better in the others",
     {IS(air_worsens, .humid = 1267, .today = 1500, .added = 100), .option = 1,
      .months = 0x0c0},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 1,267 hours, today in 1,500: 100 more in "
     "July and August, 333 fewer in the other months."},
    {"worse in some months, hardly otherwise in the others",
     {IS(air_worsens, .humid = 1267, .today = 189, .added = 1024), .option = 1,
      .months = 0x0c0},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 1,267 hours, today in 189: 1,078 more, "
     "most in July and August."},
    {"worse in every month",
     {IS(air_worsens, .humid = 4840, .today = 189, .added = 4651), .option = 1,
      .months = 0xfff},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 4,840 hours, today in 189: 4,651 more, in "
     "every month."},
    {"no ventilation alone beats today's",
     {IS(air_fails, .humid = 900, .today = 900), .option = 0},
     DEW_SYSTEM_US,
     "Ventilation alone does not cure the damp: no option with it alone is too "
     "humid for fewer hours than today (900)."},
    {"mould in the year",
     {IS(mould, .surface = DEW_EDGE, .index = 4.17, .after_ten_years = 5.3),
      .option = 1, .other = -1, .months = 0x801},
     DEW_SYSTEM_SI,
     "By the model visible mould would grow on the window frame and glass edge "
     "with \"heat core\" (mould index 4.2 of 6; 3 is visible): damp there in "
     "December and January. Look there."},
    {"mould in time",
     {IS(mould, .surface = DEW_CORNER, .index = 1.2, .after_ten_years = 3.46),
      .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "By the model visible mould would in time grow on the coldest corner with "
     "\"heat core\" (mould index 1.2 of 6, 3.5 after ten such years; 3 is "
     "visible). Look there."},
    /* 8760 h are twelve months, 720 h thirty days */
    {"the end of drying",
     {IS(drying_ends, .likely = 14 * 730, .low = 720, .high = 27 * 730),
      .option = 0, .other = -1},
     DEW_SYSTEM_US,
     "It makes less than 1 point of humidity after about 14 months, in March "
     "of year 2 (30 days to 27 months, by the half-life given)."},
    {"what lasts, another option",
     {IS(settled, .humid_once_dry = 61), .option = 0, .other = 1},
     DEW_SYSTEM_US,
     "Once the house is dry, the best is \"as it stands\" (too humid in 61 "
     "hours). Choose lasting equipment by that answer."},
    /* 70 pints of 0.473176473 l, 0.998 kg each, a day are 3.83e-4 kg/s */
    {"what lasts, no best told",
     {IS(settled, .humid_once_dry = 61, .cheapest_to_run = 1), .option = 1,
      .other = 1},
     DEW_SYSTEM_US,
     "Once the house is dry, the cheapest to run of those that will do is "
     "still \"heat core\" (too humid in 61 hours). Choose lasting equipment by "
     "that answer."},
    {"the only one, its price not told",
     {IS(best, .money = NAN, .running = 312.4, .energy = NAN, .only = 1),
      .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "Best of the 2 options: \"heat core\". It alone brings enough fresh air "
     "(35 L/s) and keeps the limits: $312 a year to run and keep. What it "
     "costs to install is not given (costs.install)."},
    {"a dehumidifier's size",
     {IS(dryer_size, .label = 3.83e-4, .here = 3.12e-4, .busiest = 0.9e-4,
      .energy = 1100 * KWH, .runs = 1748), .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "A smaller dehumidifier would do: in this house's air that of \"heat "
     "core\" (33.1 L/day on its label) could take out 27.0 L/day, and the "
     "wettest day needs 7.8 L/day. It runs 1,748 hours and uses 1,100 kWh a "
     "year."},
    {"a label of no test told",
     {IS(dryer_label, .label = 70 * 0.473176473 / 86400, .if_old = 46.1 *
      0.473176473 / 86400), .option = 1, .other = -1},
     DEW_SYSTEM_US,
     "Is the label of the dehumidifier of \"heat core\" older than June 2019? "
     "Its 70 pints/day is taken as of today's test, at 65 degF; an old label "
     "is of 80 degF, and its machine takes out only 46 pints/day at 65 degF. "
     "Look, and say dehumidifier.rating."},
    {"a tie-in that does harm",
     {IS(tie_harmful, .short_circuits = 1, .lacks_air = 1, .dear = 1,
      .blower_more = 1168 * KWH, .drawn = 100 * 0.00047194745, .reaching = 20 *
      0.00047194745), .option = 1, .other = 0},
     DEW_SYSTEM_US,
     "The tie-in of \"heat core\" does harm beside the own ducts of \"as it "
     "stands\": of the 100 cfm it draws in, 20 cfm reach the rooms, less than "
     "asked for; 1,168 kWh a year more for the blower."},
    {"a tie-in that does not",
     {IS(tie_fine, .short_circuits = 0), .option = 1, .other = 0},
     DEW_SYSTEM_US,
     "\"heat core\" does as well as the own ducts of \"as it stands\"."},
    {"saturated air",
     {IS(saturated, .saturated = 37, .fog = 91), .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "\"heat core\": in 37 hours of the year the rooms' air is as full of "
     "water as air can be (100 %): what comes in beyond that turns to fog and "
     "wet surfaces."},
    {"under-ventilated, inch-pound",
     {IS(under_ventilated, .fresh = 25 * 0.00047194745, .required = 60 *
      0.00047194745), .option = 1, .other = -1},
     DEW_SYSTEM_US,
     "Too little fresh air: \"heat core\" brings 25 cfm of the 60 cfm asked "
     "for."},
    {"an answer not sure",
     {IS(dryer_not_needed, .humid = 140), .option = 1, .other = -1,
      .so = 110, .drawn = 128},
     DEW_SYSTEM_SI,
     "A dehumidifier is not needed to stay below 60 %: \"heat core\" has none "
     "and is too humid in 140 hours. So it is in 85 of 100 houses like yours "
     "(78 to 91)."},
    {"an answer sure",
     {IS(dryer_not_needed, .humid = 140), .option = 1, .other = -1,
      .so = 128, .drawn = 128},
     DEW_SYSTEM_SI,
     "A dehumidifier is not needed to stay below 60 %: \"heat core\" has none "
     "and is too humid in 140 hours."},
    {"dehumidifier needed",
     {IS(dryer_needed, .humid = 31, .humid_without = 1490), .option = 1,
      .other = -1},
     DEW_SYSTEM_SI,
     "A dehumidifier is needed to stay below 60 %: \"heat core\" is too humid "
     "in 31 hours; the best that brings enough air without one, in 1,490."},
    {"pays back within a range",
     {IS(pays_back, .likely = 8.26, .low = 6.1, .high = 11.94), .option = 1,
      .other = -1},
     DEW_SYSTEM_SI,
     "\"heat core\" pays for itself in 8.3 years (6.1 to 11.9)."},
    {"pays back, at worst never",
     {IS(pays_back, .likely = 8.2, .low = 6.1, .high = INFINITY), .option = 1,
      .other = -1},
     DEW_SYSTEM_SI,
     "\"heat core\" pays for itself in 8.2 years (6.1 or more; at worst "
     "never)."},
    {"does not pay back, dearer to run",
     {IS(never_pays, .saved = -61.4, .install = 5200), .option = 1,
      .other = -1},
     DEW_SYSTEM_SI,
     "\"heat core\" saves no money: it costs $61 a year more to run than "
     "today. What you get is drier air."},
    {"best by money",
     {IS(best, .money = 8049, .running = NAN, .energy = NAN), .option = 1,
      .other = -1},
     DEW_SYSTEM_SI,
     "Best of the 2 options: \"heat core\". It brings enough fresh air (35 "
     "L/s), keeps the limits and costs least: $3,100 to install, as much to "
     "run as today, $8,049 over 15 years in today's money."},
    {"a bath fan and cooling not told",
     {IS(today_assumes, .no_bath_fan = 1, .no_cooling = 1), .option = 0},
     DEW_SYSTEM_SI,
     "Today is worked out without a bath fan or cooling, as none is given. If "
     "that is not so, the hours change: give bath_fan and cooling."},
    {"a bath fan and a clothes dryer not told",
     {IS(today_assumes, .no_bath_fan = 1, .no_clothes_dryer = 1), .option = 0},
     DEW_SYSTEM_SI,
     "Today is worked out without a bath fan or a clothes dryer that blows "
     "outdoors, as none is given. If that is not so, the hours change: give "
     "bath_fan and clothes_dryer."},
    {"ventilation does not cure it",
     {IS(air_fails, .humid = 411, .today = 702), .option = 1, .months = 0x040},
     DEW_SYSTEM_SI,
     "Ventilation alone does not cure the damp: with \"heat core\" the house "
     "is still too humid in 411 hours (today 702), most in July."},
    {"fine today",
     {IS(today_fine, .humid = 31, .dry = 12), .option = 0},
     DEW_SYSTEM_SI,
     "Today the house keeps its limits of relative humidity: too humid (above "
     "60 %) in 31 hours and too dry (below 30 %) in 12 hours of the year."},
    {"worth waiting for",
     {IS(wait, .humid_once_dry = 31, .humid_now = 702, .dry_once_dry = 8,
         .dry_now = 5), .option = 0},
     DEW_SYSTEM_SI,
     "Wait a season: once dry, the house as it stands keeps its humidity "
     "limits (too humid in 31 hours instead of 702, too dry in 8 hours instead "
     "of 5)."},
    {"cooling that stands idle",
     {IS(idle, .humid_while_idle = 116, .humid = 189), .option = 0},
     DEW_SYSTEM_SI,
     "In 116 of the 189 hours too humid cooling is off, because the house is "
     "cool enough: it dries the air only while it runs."},
    {"outdoor air could",
     {IS(outdoor_dries, .could_dry = 1515, .all = 8760), .option = 0},
     DEW_SYSTEM_SI, "Outdoor air is drier than the house's in 17 % of the hours. Only then "
     "does airing dry the house."},
    {"ventilation cures it",
     {IS(air_fixes, .humid = 31, .today = 702, .dry = NAN), .option = 1},
     DEW_SYSTEM_SI,
     "Ventilation alone cures the damp: with \"heat core\" the house is too "
     "humid in 31 hours, today in 702."},
    {"ventilation cures it and dries too far",
     {IS(air_fixes, .humid = 31, .today = 702, .dry = 411), .option = 1},
     DEW_SYSTEM_SI,
     "Ventilation alone cures the damp but dries too far: with \"heat core\" "
     "the house is too humid in 31 hours, today in 702, and too dry in 411 "
     "hours."},
    {"a dehumidifier alone",
     {IS(dryer_alone, .humid = 31, .fresh = 0.002, .required = 0.035),
      .option = 1},
     DEW_SYSTEM_SI,
     "A dehumidifier does not replace fresh air: \"heat core\" is too humid in "
     "31 hours but brings 2 L/s of the 35 L/s asked for."},
    {"fewest hours, with others alike",
     {IS(least_humid, .humid = 31, .today = 702, .alike = 3), .option = 1},
     DEW_SYSTEM_SI,
     "Fewest hours too humid with enough fresh air: \"heat core\", 31 hours "
     "(today 702)."},
    {"two cores",
     {IS(core_enthalpy, .heat_humid = 901, .heat_dry = 82,
         .enthalpy_humid = 403, .enthalpy_dry = 64), .option = 1},
     DEW_SYSTEM_SI,
     "Choose a core that passes moisture: 403 hours too humid with \"as it "
     "stands\" (heat and moisture), 901 with \"heat core\" (heat only); too "
     "dry in 64 hours and 82."},
    {"grown dry",
     {IS(grows_dry, .dry = 411, .today = 12), .option = 1}, DEW_SYSTEM_SI,
     "\"heat core\" dries the house too far: too dry in 411 hours (today 12)."},
    {"a blower that costs",
     {IS(blower_cost, .blower = 1168 * KWH, .own_fans = 350 * KWH,
         .reevaporation = 85.5), .option = 1},
     DEW_SYSTEM_SI,
     "\"heat core\" has the air handler's blower run for the fresh air too: "
     "1,168 kWh a year more than today, beside 350 kWh for the ventilator's "
     "own fans, and it blows 86 L more water a year from the wet cooling coil "
     "back into the rooms."},
    {"a close call by energy",
     {IS(best_close, .money = NAN, .next_money = NAN, .energy = 900 * KWH,
         .next_energy = 930 * KWH), .option = 1, .other = 0},
     DEW_SYSTEM_SI,
     "Best is a close call between \"heat core\" and \"as it stands\". As you "
     "told the house it is \"heat core\" (900 kWh a year)."},
    {"a close call by money",
     {IS(best_close, .money = 2400, .next_money = 2520, .energy = NAN,
         .next_energy = NAN), .option = 1, .other = 0},
     DEW_SYSTEM_SI,
     "Best is a close call between \"heat core\" and \"as it stands\". As you "
     "told the house it is \"heat core\" ($2,400 over 15 years)."},
    {"best by energy",
     {IS(best, .money = NAN, .running = NAN, .energy = 900 * KWH), .option = 1},
     DEW_SYSTEM_SI,
     "Best of the 2 options: \"heat core\". It brings enough fresh air (35 "
     "L/s), keeps the limits and uses least energy: 900 kWh a year."},
    {"none will do",
     {IS(best_none, .humid = 501, .dry = 42, .glass_wet = 13), .option = 1},
     DEW_SYSTEM_SI,
     "None of these will do: none both brings the fresh air asked for and "
     "keeps the limits. The nearest is \"heat core\": 501 hours too humid, 42 "
     "too dry, 13 of wet glass. Try next: the same with a dehumidifier."},
    {"two stages",
     {IS(staged, .now = 3200, .later = 4100, .chance = 0.4, .both = 4792,
         .at_once = 6900, .even_chance = 0.93), .option = 1, .other = 0},
     DEW_SYSTEM_SI,
     "In two stages: \"heat core\" now for $3,200, and \"as it stands\" later for "
     "$4,100 if it must follow (40 % likely): $4,792 expected over 15 years, "
     "against $6,900 for \"as it stands\" at once. They cost the same at a "
     "chance of 93 %."},
    {"the humidity that decides",
     {IS(reading, .what = DEW_READING_humidity, .days = 31,
         .humid_limit = 37.2, .humid = 61), .option = 1, .other = 0,
      .months = 0x040},
     DEW_SYSTEM_SI,
     "The reading that decides on \"as it stands\": relative humidity where "
     "people sleep, hour by hour through July (31 days): go on if it passes 60 "
     "% in more than 37 hours (61 expected, so it is likely)."},
    {"the air that decides",
     {IS(reading, .what = DEW_READING_air_flow, .air_limit = 0.033,
         .air = 0.040), .option = 1, .other = 0},
     DEW_SYSTEM_SI,
     "The reading that decides on \"as it stands\": the sum of the supply "
     "grilles, blower on and blower off, on one day: go on if either is below "
     "33 L/s (40 L/s expected)."},
    {"the breath that decides",
     {IS(reading, .what = DEW_READING_carbon_dioxide, .days = 7,
         .co2_limit = 1014, .co2 = 731), .option = 1, .other = 0},
     DEW_SYSTEM_SI,
     "The reading that decides on \"as it stands\": carbon dioxide where "
     "people sleep, 7 nights with the door shut: go on if it passes 1,014 ppm "
     "by morning (731 ppm is the mean of the year and the whole house)."},
    /* clang-format on */
};
