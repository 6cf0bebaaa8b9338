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
     {IS(today_humid, .humid = 1207.2, .worst_month = 402.6, .longest = 88),
      .option = 0, .other = -1, .months = 0x0c0, .source = {"people",
      "leakage through the envelope"}, .source_kg = {4.26, 3.31}},
     DEW_SYSTEM_SI,
     "Today the house is too humid (above 60 %) in 1207 h of the year: up to "
     "403 h in one month, 88 h at a stretch, most in July and August. The "
     "water comes in by people (4.3 L/day) and leakage through the envelope "
     "(3.3 L/day)."},
    {"heating falls short",
     {IS(short_heat, .short_of_heat = 203.2, .coldest = 11.3), .option = 1},
     DEW_SYSTEM_US,
     "\"heat core\": heating falls short in 203 h of the year, to 52 degF in "
     "the coldest. Warming up after a setback counts too."},
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
     "\"heat core\" could be too humid in 113 to 2609 h instead of 1036: how "
     "much water the blower takes back from the wet coil is not well known. "
     "Whether it keeps the limits hangs on that."},
    /* 4.26 kg a day / 3.785411784 kg = 1.125 gal */
    {"too dry today, inch-pound",
     {IS(today_dry, .dry = 911, .worst_month = 430), .option = 0, .other = -1,
      .months = 0xc01, .source = {"leakage through the envelope"},
      .source_kg = {4.26}},
     DEW_SYSTEM_US,
     "Today the house is too dry (below 30 %) in 911 h of the year, up to 430 "
     "h in one month, most in November to January. The water leaves by "
     "leakage through the envelope (1.1 gal/day)."},
    {"outdoor air cannot",
     {IS(outdoor_cannot, .could_dry = 0.042, .cannot_dry = 1402, .all = 1488),
      .option = 0, .other = -1, .months = 0x0c0},
     DEW_SYSTEM_US,
     "Outdoor air cannot dry the house in 1402 of the 1488 h of July and "
     "August: more of it does not help then."},
    {"fans, cooling and windows not told",
     {IS(today_assumes, .no_bath_fan = 1, .no_hood = 1, .no_clothes_dryer = 1,
      .no_cooling = 1, .windows_shut = 1), .option = 0},
     DEW_SYSTEM_US,
     "Today's house is worked out without a bath fan, a kitchen hood, a "
     "clothes dryer that blows outdoors, cooling or open windows. If that is "
     "not so, the hours change: give bath_fan, range_hood, clothes_dryer, "
     "cooling and airing."},
    {"a hood not told",
     {IS(today_assumes, .no_hood = 1), .option = 0},
     DEW_SYSTEM_US,
     "Today's house is worked out without a kitchen hood. If that is not so, "
     "the hours change: give range_hood."},
    {"cooling too large",
     {IS(cool_large, .above_half = 8, .runs = 0.2314), .option = 0,
      .months = 0x040},
     DEW_SYSTEM_US,
     "Cooling looks at least twice too large: it runs more than half of the "
     "hour in only 8 h of the year, and 23 % of the time in its busiest month, "
     "July. A machine of half the size would run longer and dry the air more. "
     "Have the load of the rooms worked out before choosing one."},
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
     "\"heat core\" is too humid in 1267 h, today in 1500 h: 100 h more in "
     "July and August, 333 h fewer in the other months."},
    {"worse in some months, hardly otherwise in the others",
     {IS(air_worsens, .humid = 1267, .today = 189, .added = 1024), .option = 1,
      .months = 0x0c0},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 1267 h, today in 189 h: 1078 h more, most "
     "in July and August."},
    {"worse in every month",
     {IS(air_worsens, .humid = 4840, .today = 189, .added = 4651), .option = 1,
      .months = 0xfff},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 4840 h, today in 189 h: 4651 h more, in "
     "every month."},
    {"no ventilation alone beats today's",
     {IS(air_fails, .humid = 900, .today = 900), .option = 0},
     DEW_SYSTEM_US,
     "Ventilation alone does not fix it: no option with it alone is too humid "
     "for fewer hours than today (900 h)."},
    {"mould in the year",
     {IS(mould, .surface = DEW_EDGE, .index = 4.17, .after_ten_years = 5.3),
      .option = 1, .other = -1, .months = 0x801},
     DEW_SYSTEM_SI,
     "\"heat core\": mould can be seen on the window frame and glass edge: "
     "index 4.2 in the year (limit 3); its mean humidity passes 80 % in "
     "December and January."},
    {"mould in time",
     {IS(mould, .surface = DEW_CORNER, .index = 1.2, .after_ten_years = 3.46),
      .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "\"heat core\": mould may come to be seen on the coldest corner: index "
     "1.2 in the year, 3.5 after ten like it (limit 3)."},
    /* 8760 h are twelve months, 720 h thirty days */
    {"the end of drying",
     {IS(drying_ends, .likely = 14 * 730, .low = 720, .high = 27 * 730),
      .option = 0, .other = -1},
     DEW_SYSTEM_US,
     "It makes less than 1 point of RH after about 14 months, in March of year 2 (30 days to 27 "
     "months, by the half-life given)."},
    {"what lasts, another option",
     {IS(settled, .humid_once_dry = 61), .option = 0, .other = 1},
     DEW_SYSTEM_US,
     "Once the house is dry, the best is \"as it stands\" (too humid in 61 "
     "h). Choose lasting equipment by that answer."},
    /* 70 pints of 0.473176473 l, 0.998 kg each, a day are 3.83e-4 kg/s */
    {"what lasts, no best told",
     {IS(settled, .humid_once_dry = 61, .cheapest_to_run = 1), .option = 1,
      .other = 1},
     DEW_SYSTEM_US,
     "Once the house is dry, the cheapest to run of those that will do is still \"heat "
     "core\" (too humid in 61 h). Choose lasting equipment by that answer."},
    {"the only one, its price not told",
     {IS(best, .money = NAN, .running = 312.4, .energy = NAN, .only = 1),
      .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "Best of these: \"heat core\". It alone brings the fresh air asked for and "
     "keeps the limits: $312 a year to run and keep. What it costs to install "
     "is not told (costs.install)."},
    {"a dehumidifier's size",
     {IS(dryer_size, .label = 3.83e-4, .here = 3.12e-4, .busiest = 0.9e-4,
      .energy = 1100 * KWH, .runs = 1748), .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "The dehumidifier of \"heat core\", 33.1 L/day on its label, takes out "
     "27.0 L/day in this house's own air; its busiest day asks for 7.8 L/day, "
     "so a smaller one would do. It runs 1748 h and uses 1100 kWh a year."},
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
     "asked for; 1168 kWh a year more for the blower."},
    {"a tie-in that does not",
     {IS(tie_fine, .short_circuits = 0), .option = 1, .other = 0},
     DEW_SYSTEM_US,
     "The tie-in of \"heat core\" keeps up with the own ducts of \"as it "
     "stands\"."},
    {"saturated air",
     {IS(saturated, .saturated = 37, .fog = 91), .option = 1, .other = -1},
     DEW_SYSTEM_SI,
     "\"heat core\": in 37 h of the year the rooms' air is as full of water as "
     "air can be (100 %): what comes in beyond that turns to fog and wet "
     "surfaces."},
    {"under-ventilated, inch-pound",
     {IS(under_ventilated, .fresh = 25 * 0.00047194745, .required = 60 *
      0.00047194745), .option = 1, .other = -1},
     DEW_SYSTEM_US,
     "UNDER-VENTILATED: \"heat core\" brings 25 cfm of the 60 cfm asked for."},
    {"an answer near a limit",
     {IS(dryer_not_needed, .humid = 140), .option = 1, .other = -1,
      .near_limit = 175.2},
     DEW_SYSTEM_SI,
     "A dehumidifier is not needed: \"heat core\" has none and is too humid in "
     "140 h. The hours outside the limits lie near the 175 h that still keep "
     "them: too near to be sure."},
    {"dehumidifier needed",
     {IS(dryer_needed, .humid = 31, .humid_without = 1490), .option = 1,
      .other = -1},
     DEW_SYSTEM_SI,
     "A dehumidifier is needed: \"heat core\" is too humid in 31 h; the best "
     "that brings enough air without one, in 1490 h."},
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
     "\"heat core\" does not pay back on energy: it costs $61 a year more to "
     "run. It buys dryness."},
    {"best by money",
     {IS(best, .money = 8049, .running = NAN, .energy = NAN), .option = 1,
      .other = -1},
     DEW_SYSTEM_SI,
     "Best of these: \"heat core\". It brings the fresh air asked for, keeps "
     "the limits and costs least: $8,049 over 15 years, in today's money."},
    {"a bath fan and cooling not told",
     {IS(today_assumes, .no_bath_fan = 1, .no_cooling = 1), .option = 0},
     DEW_SYSTEM_SI,
     "Today's house is worked out without a bath fan or cooling. If that is not "
     "so, the hours change: give bath_fan and cooling."},
    {"a bath fan and a clothes dryer not told",
     {IS(today_assumes, .no_bath_fan = 1, .no_clothes_dryer = 1), .option = 0},
     DEW_SYSTEM_SI,
     "Today's house is worked out without a bath fan or a clothes dryer that "
     "blows outdoors. If that is not so, the hours change: give bath_fan and "
     "clothes_dryer."},
    {"ventilation does not cure it",
     {IS(air_fails, .humid = 411, .today = 702), .option = 1, .months = 0x040},
     DEW_SYSTEM_SI,
     "Ventilation alone does not fix it: \"heat core\" is still too humid in "
     "411 h (today 702 h), most in July."},
    {"fine today",
     {IS(today_fine, .humid = 31, .dry = 12), .option = 0},
     DEW_SYSTEM_SI,
     "Today the house keeps its limits: too humid (above 60 %) in 31 h and too "
     "dry (below 30 %) in 12 h of the year."},
    {"worth waiting for",
     {IS(wait, .humid_once_dry = 31, .humid_now = 702, .dry_once_dry = 8,
         .dry_now = 5), .option = 0},
     DEW_SYSTEM_SI,
     "Wait a season: once dry, the house as it stands keeps its humidity limits "
     "(too humid in 31 h instead of 702 h, too dry in 8 h instead of 5 h)."},
    {"cooling that stands idle",
     {IS(idle, .humid_while_idle = 116, .humid = 189), .option = 0},
     DEW_SYSTEM_SI,
     "Cooling stands idle in 116 of the 189 hours too humid: it dries the air "
     "only while there is heat to remove."},
    {"outdoor air could",
     {IS(outdoor_dries, .could_dry = 1515, .all = 8760), .option = 0},
     DEW_SYSTEM_SI, "Outdoor air could dry the house in 1515 of 8760 h."},
    {"ventilation cures it",
     {IS(air_fixes, .humid = 31, .today = 702, .dry = NAN), .option = 1},
     DEW_SYSTEM_SI,
     "Ventilation alone fixes it: with \"heat core\" the house is too humid in "
     "31 h, today in 702 h."},
    {"ventilation cures it and dries too far",
     {IS(air_fixes, .humid = 31, .today = 702, .dry = 411), .option = 1},
     DEW_SYSTEM_SI,
     "Ventilation alone cures the damp and dries the house too far: with \"heat "
     "core\" it is too humid in 31 h, today in 702 h, and too dry in 411 h."},
    {"a dehumidifier alone",
     {IS(dryer_alone, .humid = 31, .fresh = 0.002, .required = 0.035),
      .option = 1},
     DEW_SYSTEM_SI,
     "A dehumidifier does not replace fresh air: \"heat core\" is too humid in "
     "31 h but brings 2 L/s of the 35 L/s asked for."},
    {"fewest hours, with others alike",
     {IS(least_humid, .humid = 31, .today = 702, .alike = 3), .option = 1},
     DEW_SYSTEM_SI,
     "Fewest hours too humid with enough fresh air: \"heat core\" and 2 more "
     "alike, 31 h (today 702 h)."},
    {"two cores",
     {IS(core_enthalpy, .heat_humid = 901, .heat_dry = 82,
         .enthalpy_humid = 403, .enthalpy_dry = 64), .option = 1},
     DEW_SYSTEM_SI,
     "Which core: \"heat core\" (heat only) is too humid in 901 h and too dry in "
     "82 h, \"as it stands\" (heat and moisture) in 403 h and 64 h: the core that "
     "passes moisture suits this house better."},
    {"grown dry",
     {IS(grows_dry, .dry = 411, .today = 12), .option = 1}, DEW_SYSTEM_SI,
     "\"heat core\" dries the house too far: too dry in 411 h (today 12 h)."},
    {"a blower that costs",
     {IS(blower_cost, .blower = 1168 * KWH, .own_fans = 350 * KWH,
         .reevaporation = 85.5), .option = 1},
     DEW_SYSTEM_SI,
     "\"heat core\" leans on the blower: 1168 kWh a year more for the blower, "
     "beside 350 kWh for the ventilator's own fans, and the coil puts 86 L more "
     "water back."},
    {"a close call by energy",
     {IS(best_close, .money = NAN, .next_money = NAN, .energy = 900 * KWH,
         .next_energy = 930 * KWH), .option = 1, .other = 0},
     DEW_SYSTEM_SI,
     "Best is a close call between \"heat core\" and \"as it stands\": both "
     "bring the fresh air asked for and keep the limits, and 900 kWh against "
     "930 kWh a year is inside the doubt of the inputs."},
    {"a close call by money",
     {IS(best_close, .money = 2400, .next_money = 2520, .energy = NAN,
         .next_energy = NAN), .option = 1, .other = 0},
     DEW_SYSTEM_SI,
     "Best is a close call between \"heat core\" and \"as it stands\": both "
     "bring the fresh air asked for and keep the limits, and $2,400 against "
     "$2,520 over 15 years is inside the doubt of the inputs."},
    {"best by energy",
     {IS(best, .money = NAN, .running = NAN, .energy = 900 * KWH), .option = 1},
     DEW_SYSTEM_SI,
     "Best of these: \"heat core\". It brings the fresh air asked for, keeps the "
     "limits and uses least energy: 900 kWh a year."},
    {"none will do",
     {IS(best_none, .humid = 501, .dry = 42, .glass_wet = 13), .option = 1},
     DEW_SYSTEM_SI,
     "None of these will do: none both brings the fresh air asked for and keeps "
     "the limits. The nearest is \"heat core\": 501 h too humid, 42 h too dry, "
     "13 h of wet glass."},
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
     "people sleep, hour by hour through July (31 days): go on if it passes "
     "60 % in more than 37 h (61 h expected, so it is likely)."},
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
     "The reading that decides on \"as it stands\": carbon dioxide where people "
     "sleep, 7 nights with the door shut: go on if it passes 1014 ppm by "
     "morning (731 ppm is the mean of the year and the whole house)."},
    /* clang-format on */
};
