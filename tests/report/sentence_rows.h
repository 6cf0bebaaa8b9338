/* SPDX-License-Identifier: GPL-3.0-or-later */
/* name, finding, units, the sentence that comes of it */
/* clang-format off */
    {"too humid today, metric",
     {.kind = DEW_FINDING_today_humid,
      .option = 0,
      .other = -1,
      .months = 0x0c0,
      .value = {1207.2, 402.6, 88},
      .source = {"people", "leakage through the envelope"},
      .source_kg = {4.26, 3.31}},
     DEW_SYSTEM_SI,
     "Today the house is too humid (above 60 %) in 1207 h of the year: up to "
     "403 h in one month, 88 h at a stretch, most in July and August. The "
     "water comes in by people (4.3 L/day) and leakage through the envelope "
     "(3.3 L/day)."},
    {"heating falls short",
     {.kind = DEW_FINDING_short_heat, .option = 1, .value = {203.2, 11.3}},
     DEW_SYSTEM_US,
     "\"heat core\": heating falls short in 203 h of the year, to 52 degF in "
     "the coldest. Warming up after a setback counts too."},
    {"the coil leaves today open",
     {.kind = DEW_FINDING_coil_today, .option = 0, .value = {81.3, 0, 708.4}},
     DEW_SYSTEM_US,
     "The 81 hours too humid could be 0 to 708: how much water the blower "
     "takes back from the wet coil is not well known."},
    {"and its limits with it",
     {.kind = DEW_FINDING_coil_today,
      .option = 0,
      .value = {81.3, 0, 708.4, 1}},
     DEW_SYSTEM_US,
     "The 81 hours too humid could be 0 to 708: how much water the blower "
     "takes back from the wet coil is not well known. Whether the house keeps "
     "its limits hangs on that."},
    {"the coil leaves an option's limits open",
     {.kind = DEW_FINDING_coil_option,
      .option = 1,
      .value = {1036, 113, 2609, 1}},
     DEW_SYSTEM_US,
     "\"heat core\" could be too humid in 113 to 2609 h instead of 1036: how "
     "much water the blower takes back from the wet coil is not well known. "
     "Whether it keeps the limits hangs on that."},
    /* 4.26 kg a day / 3.785411784 kg = 1.125 gal */
    {"too dry today, inch-pound",
     {.kind = DEW_FINDING_today_dry,
      .option = 0,
      .other = -1,
      .months = 0xc01,
      .value = {911, 430},
      .source = {"leakage through the envelope"},
      .source_kg = {4.26}},
     DEW_SYSTEM_US,
     "Today the house is too dry (below 30 %) in 911 h of the year, up to 430 "
     "h in one month, most in November to January. The water leaves by "
     "leakage through the envelope (1.1 gal/day)."},
    {"outdoor air cannot",
     {.kind = DEW_FINDING_outdoor_cannot,
      .option = 0,
      .other = -1,
      .months = 0x0c0,
      .value = {0.042, 1402, 1488}},
     DEW_SYSTEM_US,
     "Outdoor air cannot dry the house in 1402 of the 1488 h of July and "
     "August: more of it does not help then."},
    {"fans, cooling and windows not told",
     {.kind = DEW_FINDING_today_assumes, .option = 0, .value = {31}},
     DEW_SYSTEM_US,
     "Today's house is worked out without a bath fan, a kitchen hood, a "
     "clothes dryer that blows outdoors, cooling or open windows. If that is "
     "not so, the hours change: give bath_fan, range_hood, clothes_dryer, "
     "cooling and airing."},
    {"a hood not told",
     {.kind = DEW_FINDING_today_assumes, .option = 0, .value = {DEW_NO_HOOD}},
     DEW_SYSTEM_US,
     "Today's house is worked out without a kitchen hood. If that is not so, "
     "the hours change: give range_hood."},
    {"cooling too large",
     {.kind = DEW_FINDING_cool_large,
      .option = 0,
      .months = 0x040,
      .value = {8, 0.2314}},
     DEW_SYSTEM_US,
     "Cooling looks at least twice too large: it runs more than half of the "
     "hour in only 8 h of the year, and 23 % of the time in its busiest month, "
     "July. A machine of half the size would run longer and dry the air more. "
     "Have the load of the rooms worked out before choosing one."},
    {"cooling too large in every hour",
     {.kind = DEW_FINDING_cool_large,
      .option = 0,
      .months = 0x040,
      .value = {0, 0.2314}},
     DEW_SYSTEM_US,
     "Cooling looks at least twice too large: it runs more than half of the "
     "hour in no hour of the year, and 23 % of the time in its busiest month, "
     "July. A machine of half the size would run longer and dry the air more. "
     "Have the load of the rooms worked out before choosing one."},
    {"worse in some months, better in the others",
     {.kind = DEW_FINDING_air_worsens,
      .option = 1,
      .months = 0x0c0,
      .value = {1267, 1500, 100}},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 1267 h, today in 1500 h: 100 h more in "
     "July and August, 333 h fewer in the other months."},
    {"worse in some months, hardly otherwise in the others",
     {.kind = DEW_FINDING_air_worsens,
      .option = 1,
      .months = 0x0c0,
      .value = {1267, 189, 1024}},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 1267 h, today in 189 h: 1078 h more, most "
     "in July and August."},
    {"worse in every month",
     {.kind = DEW_FINDING_air_worsens,
      .option = 1,
      .months = 0xfff,
      .value = {4840, 189, 4651}},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 4840 h, today in 189 h: 4651 h more, in "
     "every month."},
    {"no ventilation alone beats today's",
     {.kind = DEW_FINDING_air_fails, .option = 0, .value = {900, 900}},
     DEW_SYSTEM_US,
     "Ventilation alone does not fix it: no option with it alone is too humid "
     "for fewer hours than today (900 h)."},
    {"mould in the year",
     {.kind = DEW_FINDING_mould,
      .option = 1,
      .other = -1,
      .months = 0x801,
      .value = {DEW_EDGE, 4.17, 5.3}},
     DEW_SYSTEM_SI,
     "\"heat core\": mould can be seen on the window frame and glass edge: "
     "index 4.2 in the year (limit 3); its mean humidity passes 80 % in "
     "December and January."},
    {"mould in time",
     {.kind = DEW_FINDING_mould,
      .option = 1,
      .other = -1,
      .value = {DEW_CORNER, 1.2, 3.46}},
     DEW_SYSTEM_SI,
     "\"heat core\": mould may come to be seen on the coldest corner: index "
     "1.2 in the year, 3.5 after ten like it (limit 3)."},
    /* 8760 h are twelve months, 720 h thirty days */
    {"the end of drying",
     {.kind = DEW_FINDING_drying_ends,
      .option = 0,
      .other = -1,
      .value = {14 * 730, 720, 27 * 730}},
     DEW_SYSTEM_US,
     "It makes less than 1 point of RH after about 14 months, in March of year 2 (30 days to 27 "
     "months, by the half-life given)."},
    {"what lasts, another option",
     {.kind = DEW_FINDING_settled, .option = 0, .other = 1, .value = {61}},
     DEW_SYSTEM_US,
     "Once the house is dry, the best is \"as it stands\" (too humid in 61 "
     "h). Choose lasting equipment by that answer."},
    /* 70 pints of 0.473176473 l, 0.998 kg each, a day are 3.83e-4 kg/s */
    {"what lasts, no best told",
     {.kind = DEW_FINDING_settled, .option = 1, .other = 1, .value = {61, 1}},
     DEW_SYSTEM_US,
     "Once the house is dry, the cheapest to run of those that will do is still \"heat "
     "core\" (too humid in 61 h). Choose lasting equipment by that answer."},
    {"the only one, its price not told",
     {.kind = DEW_FINDING_best,
      .option = 1,
      .other = -1,
      .value = {312.4, 0, 2, 1}},
     DEW_SYSTEM_SI,
     "Best of these: \"heat core\". It alone brings the fresh air asked for and "
     "keeps the limits: $312 a year to run and keep. What it costs to install "
     "is not told (costs.install)."},
    {"a dehumidifier's size",
     {.kind = DEW_FINDING_dryer_size,
      .option = 1,
      .other = -1,
      .value = {3.83e-4, 3.12e-4, 0.9e-4, 1100 * KWH, 1748}},
     DEW_SYSTEM_SI,
     "The dehumidifier of \"heat core\", 33.1 L/day on its label, takes out "
     "27.0 L/day in this house's own air; its busiest day asks for 7.8 L/day, "
     "so a smaller one would do. It runs 1748 h and uses 1100 kWh a year."},
    {"a label of no test told",
     {.kind = DEW_FINDING_dryer_label,
      .option = 1,
      .other = -1,
      .value = {70 * 0.473176473 / 86400, 46.1 * 0.473176473 / 86400}},
     DEW_SYSTEM_US,
     "Is the label of the dehumidifier of \"heat core\" older than June 2019? "
     "Its 70 pints/day is taken as of today's test, at 65 degF; an old label "
     "is of 80 degF, and its machine takes out only 46 pints/day at 65 degF. "
     "Look, and say dehumidifier.rating."},
    {"a tie-in that does harm",
     {.kind = DEW_FINDING_tie_harmful,
      .option = 1,
      .other = 0,
      .value = {DEW_TIE_SHORT | DEW_TIE_AIR | DEW_TIE_BLOWER, 0, 1168 * KWH, 0,
                100 * 0.00047194745, 20 * 0.00047194745}},
     DEW_SYSTEM_US,
     "The tie-in of \"heat core\" does harm beside the own ducts of \"as it "
     "stands\": of the 100 cfm it draws in, 20 cfm reach the rooms, less than "
     "asked for; 1168 kWh a year more for the blower."},
    {"a tie-in that does not",
     {.kind = DEW_FINDING_tie_fine, .option = 1, .other = 0},
     DEW_SYSTEM_US,
     "The tie-in of \"heat core\" keeps up with the own ducts of \"as it "
     "stands\"."},
    {"saturated air",
     {.kind = DEW_FINDING_saturated,
      .option = 1,
      .other = -1,
      .value = {37, 91}},
     DEW_SYSTEM_SI,
     "\"heat core\": in 37 h of the year the rooms' air is as full of water as "
     "air can be (100 %): what comes in beyond that turns to fog and wet "
     "surfaces."},
    {"under-ventilated, inch-pound",
     {.kind = DEW_FINDING_under_ventilated,
      .option = 1,
      .other = -1,
      .value = {25 * 0.00047194745, 60 * 0.00047194745}},
     DEW_SYSTEM_US,
     "UNDER-VENTILATED: \"heat core\" brings 25 cfm of the 60 cfm asked for."},
    {"an answer near a limit",
     {.kind = DEW_FINDING_dryer_not_needed,
      .option = 1,
      .other = -1,
      .value = {140},
      .near_limit = 175.2},
     DEW_SYSTEM_SI,
     "A dehumidifier is not needed: \"heat core\" has none and is too humid in "
     "140 h. The hours outside the limits lie near the 175 h that still keep "
     "them: too near to be sure."},
    {"dehumidifier needed",
     {.kind = DEW_FINDING_dryer_needed,
      .option = 1,
      .other = -1,
      .value = {31, 1490}},
     DEW_SYSTEM_SI,
     "A dehumidifier is needed: \"heat core\" is too humid in 31 h; the best "
     "that brings enough air without one, in 1490 h."},
    {"pays back within a range",
     {.kind = DEW_FINDING_pays_back,
      .option = 1,
      .other = -1,
      .value = {8.26, 6.1, 11.94}},
     DEW_SYSTEM_SI,
     "\"heat core\" pays for itself in 8.3 years (6.1 to 11.9)."},
    {"pays back, at worst never",
     {.kind = DEW_FINDING_pays_back,
      .option = 1,
      .other = -1,
      .value = {8.2, 6.1, INFINITY}},
     DEW_SYSTEM_SI,
     "\"heat core\" pays for itself in 8.2 years (6.1 or more; at worst "
     "never)."},
    {"does not pay back, dearer to run",
     {.kind = DEW_FINDING_never_pays,
      .option = 1,
      .other = -1,
      .value = {-61.4, 5200}},
     DEW_SYSTEM_SI,
     "\"heat core\" does not pay back on energy: it costs $61 a year more to "
     "run. It buys dryness."},
    {"best by money",
     {.kind = DEW_FINDING_best,
      .option = 1,
      .other = -1,
      .value = {8049, 0, 1}},
     DEW_SYSTEM_SI,
     "Best of these: \"heat core\". It brings the fresh air asked for, keeps "
     "the limits and costs least: $8,049 over 15 years, in today's money."},
    /* clang-format on */
