/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Keys of the place, the house, its people, their water and their comfort.
 * Read by keys.h and keys.c, which say what the columns are.
 */
/* clang-format off */

/* ---- top ---- */
T(title, TEXT, PURE, 0, 0, NULL, "", NULL, "Tight house on a warm coast (made up)", "what this is about, in a line", .base_only = 1)

/* ---- weather ---- */
K(weather, place, TEXT, PURE, 0, 0, NULL, "", NULL, "722020", "number or name of one of 1,007 places, or latitude and longitude (the nearest within 80 km): a year is made from its months", .base_only = 1)
K(weather, file, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "hourly weather file, looked for beside the scenario", .base_only = 1)
K(weather, monthly, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "file of twelve months of figures, looked for beside the scenario; a year is made from it", .base_only = 1)
K(weather, fill, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "place whose made year fills the gaps of weather.file above 3 hours, and the wind or sunlight it does not have", .base_only = 1)
K(weather, seed, COUNT, PURE, 0, 1e6, "any number will do", "129", "our own", NULL, "another seed makes another year from the same months", .base_only = 1, SURE(ASKED))

K(weather, station, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "which station of a weather.file of several: its name or number", .base_only = 1)
K(weather, year, COUNT, PURE, 1800, 2200, "years that instruments recorded", "", NULL, NULL, "which year of a weather.file of several", .base_only = 1, SURE(ASKED))
K(weather, order, WORD, PURE, 0, 0, NULL, "", NULL, NULL, "how dates of weather.file such as 3/4/2020 are meant, where it leaves it open", .base_only = 1, .words = SCENARIO__WORDS(DEW_DATE_ORDER_MAP))
K(weather, clock, WORD, PURE, 0, 0, NULL, "", NULL, NULL, "the clock of weather.file, where it leaves it open: standard time all year, or summer time by the rule of the United States or the European Union", .base_only = 1, .words = SCENARIO__WORDS(DEW_CLOCK_MAP))
K(weather, utc, NUMBER, PURE, -12, 14, "hours from Greenwich", "", NULL, NULL, "local standard time of weather.file less UTC, in hours, where it does not say", .base_only = 1, SURE(ASKED))
K(weather, latitude, NUMBER, PURE, -90, 90, "degrees, north positive", "", NULL, NULL, "of weather.file, where it does not say", .base_only = 1, SURE(ASKED))
K(weather, longitude, NUMBER, PURE, -180, 180, "degrees, east positive", "", NULL, NULL, "of weather.file, where it does not say", .base_only = 1, SURE(ASKED))
K(weather, elevation, NUMBER, LENGTH, -430, 5500, "from the Dead Sea to the highest town", "", NULL, NULL, "of weather.file, where it does not say", .base_only = 1, SURE(ASKED))
K(weather, units, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "units of columns of weather.file whose header has none: HEADER=UNIT, several with commas between, as temp=degF, dewp=degF", .base_only = 1)
K(weather, columns, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "what columns of weather.file are: HEADER=MEANING, several with commas between, as T2=temperature", .base_only = 1)
K(weather, frost_point, FLAG, PURE, 0, 0, NULL, "no", "what instruments report by rule", NULL, "dew points of weather.file below freezing are over ice", .base_only = 1)
K(weather, gap, NUMBER, TIME, 0, 86400, "a day is no gap to draw a line through", "=3 h", NULL, NULL, "longest gap of weather.file that is filled by a line", .base_only = 1, SURE(ASKED))

/* ---- log ---- */
K(log, file, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "a logger's file of the house as it is: measured humidity is told beside the model's; looked for beside the scenario", .base_only = 1)
K(log, sensor, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "which sensor of the file: its name, several with commas between, or all", .base_only = 1)
K(log, order, WORD, PURE, 0, 0, NULL, "", NULL, NULL, "how dates such as 3/4/2020 are meant, where the file leaves it open", .base_only = 1, .words = SCENARIO__WORDS(DEW_DATE_ORDER_MAP))
K(log, clock, WORD, PURE, 0, 0, NULL, "", NULL, NULL, "the logger's clock, where the file leaves it open: standard time all year, or summer time by the rule of the United States or the European Union", .base_only = 1, .words = SCENARIO__WORDS(DEW_CLOCK_MAP))
K(log, utc, NUMBER, PURE, -12, 14, "hours from Greenwich", "", NULL, NULL, "local standard time of the log less UTC, in hours, where its times are UTC or Unix time", .base_only = 1, SURE(ASKED))
K(log, units, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "units of columns of the log whose header has none: HEADER=UNIT, several with commas between, as temp=degF", .base_only = 1)
K(log, columns, TEXT, PURE, 0, 0, NULL, "", NULL, NULL, "what columns of the log are: HEADER=MEANING, several with commas between, as column 2=relative humidity", .base_only = 1)
K(log, reads, AT, PURE, 0, 1, "a relative humidity", "", NULL, NULL, "what the sensor reads at what the humidity is, one or two: 79 % at 75.3 % over wet table salt, or the means of a week beside a good one", .at = DEW_PURE, .least = 1, .most = 2, .base_only = 1, SURE(ASKED))
K(log, held, FLAG, PURE, 0, 0, NULL, "no", "our own", NULL, "hold the house at the temperature measured, hour by hour; heating and cooling equipment rests then", .base_only = 1)

/* ---- readings ---- */
T(readings, ROWS, PURE, 0, 0, NULL, "", NULL, NULL, "what was seen of the house as it is, without a logger: houses drawn are weighed by it (fit)", .row = scenario__reading_columns, .row_count = SCENARIO__READING_COLUMNS, .least = 1, .most = DEW_SEEN_MOST, .base_only = 1)

/* ---- house ---- */
K(house, floor_area, NUMBER, AREA, 10, 2000, "one household's house", NULL, NULL, "1900 ft2", "floor area inside the walls, all storeys", SURE(TOLD))
K(house, ceiling_height, NUMBER, LENGTH, 1.8, 6, "a room one can stand in", "8 ft", "common practice, no source", "8.5 ft", "mean height of the rooms, for the volume", RANGE("8 to 9", "our guess"))
K(house, volume, NUMBER, VOLUME, 20, 5000, "one household's house", "=floor area x ceiling height, and a basement's", NULL, NULL, "air inside the envelope, a basement's included", SURE(OTHERS))
K(house, storeys, NUMBER, PURE, 1, 3, "the leakage models are drawn for 1 to 3 storeys [ASH-F16]", "1", "the commonest house asked about, no source", "1", "storeys above the ground; between whole ones is allowed", SURE(KNOWN))
K(house, bedrooms, COUNT, PURE, 0, 12, "one household's house", NULL, NULL, "3", "bedrooms, which the fresh air rules count; none counts as one", SURE(TOLD))
K(house, airtightness, NUMBER, ACH50, 0.05, 40, "from a gas-tight test house to a barn", "1.5 ach50 (0.5 to 3)", "foamed and not tested: from memory", "1.1 ach50 (0.7 to 2.0)", "blower-door result in any form", FORMS(airtight_forms), RANGE("", "foamed and not tested: from memory"))
K(house, leakage_exponent, NUMBER, PURE, 0.5, 1, "0.5 is an orifice, 1 a fine crack", "0.65", "[ASH-F16] usual value", NULL, "exponent n of the blower-door curve", RANGE("0.6 to 0.7", "from memory"))
K(house, leakage_at_1_pa, NUMBER, FLOW, 1e-4, 5, "from a gas-tight test house to a barn", "", NULL, NULL, "coefficient c of the blower-door curve, as the flow at 1 Pa; used instead of airtightness", SURE(UNTOLD))
K(house, infiltration, WORD, PURE, 0, 0, NULL, "enhanced", "[ASH-F16] eqs 49, 50", NULL, "how wind and stack drive leakage: by the enhanced model, the basic one, or a constant", .words = SCENARIO__WORDS(SCENARIO__INFILTRATION))
K(house, constant_leakage, NUMBER, FLOW, 0, 1, "more than that is an open house", "", NULL, NULL, "outdoor air that leaks in, day and night, when infiltration is constant", FORMS(constant_forms), SURE(UNTOLD))
K(house, shelter, WORD, PURE, 0, 0, NULL, "houses_across_street", "[ASH-F16] class 3 of 5", "houses_across_street", "what stands in the wind's way", .words = "open|lone|houses_across_street|large_lots|close_neighbours", .either = 1, EITHER("houses_across_street or lone or large_lots", "our guess: the classes beside it"))
K(house, flue, FLAG, PURE, 0, 0, NULL, "no", "a tight house without a fireplace", NULL, "a flue or chimney open to the rooms", .either = 1)
K(house, foundation, WORD, PURE, 0, 0, NULL, "slab", "the commonest house asked about, no source", "slab", "what the house stands on; a basement is one inside the insulation, as warm as the rooms and open to them: house.floor_area then counts the storeys above it", .words = SCENARIO__WORDS(SCENARIO__FOUNDATION), .either = 1)
K(house, basement_depth, NUMBER, LENGTH, 0.3, 6, "from a sunken floor to two storeys down", "7 ft", "common practice, no source", NULL, "basement: its floor below the ground outside", RANGE("6 to 8", "our guess"))
K(house, basement_height, NUMBER, LENGTH, 1.8, 6, "a room one can stand in", "8 ft", "common practice, no source", NULL, "basement: height of its rooms; their air counts with the house's, and what of the walls stands above the ground as outside wall", RANGE("7 to 9", "our guess"))
K(house, construction, WORD, PURE, 0, 0, NULL, "light", "timber frame, [ISO13790] table 12", "light", "how much heat the fabric holds", .words = SCENARIO__WORDS(DEW_FABRIC_MAP), .either = 1)

/* ---- insulation ---- */
K(insulation, walls, NUMBER, RSI, 0.1, 20, "from bare board to a passive house", "19 R", "code minimum of the warm zones, from memory", "21 R", "thermal resistance of the walls, whole", RANGE("11 to 23", "our guess, from older codes to newer"))
K(insulation, roof, NUMBER, RSI, 0.1, 30, "from bare board to a passive house", "38 R", "code minimum of the warm zones, from memory", "38 R", "thermal resistance of ceiling or roof", RANGE("19 to 60", "our guess, from older codes to newer"))
K(insulation, floor, NUMBER, RSI, 0.1, 20, "from bare board to a passive house", "4 R", "slab with thin insulation, from memory", NULL, "thermal resistance of the floor and what insulates it, without the soil", RANGE("1 to 10", "our guess, from a bare slab to a well insulated one"))
K(insulation, basement_walls, NUMBER, RSI, 0, 20, "from bare concrete to a passive house", "11 R", "code minimum of the middle zones, from memory: 10 R on concrete, which alone has 1 R", NULL, "thermal resistance of a basement's walls, without the soil", RANGE("1 to 16", "our guess, from bare concrete to newer codes"))
K(insulation, wall_area, NUMBER, AREA, 5, 3000, "one household's house", "=a square plan of that many storeys, less the windows", NULL, NULL, "outside walls, without windows and doors", TIMES(0.95, 1.35, "our guess: few plans are square"))
K(insulation, roof_area, NUMBER, AREA, 5, 2000, "one household's house", "=floor area / storeys", NULL, NULL, "ceiling or roof", TIMES(1, 1.2, "our guess: eaves, and ceilings that slope"))
K(insulation, ground_area, NUMBER, AREA, 0, 2000, "one household's house", "=floor area / storeys", NULL, NULL, "floor against the ground", TIMES(0.9, 1.1, "our guess"))
K(insulation, absorptance, NUMBER, PURE, 0, 1, "a share of the sun", "60 %", "middling colours, from memory", NULL, "share of the sun that walls and roof take up", RANGE("40 to 85", "light to dark colours, from memory"))
K(insulation, sky, NUMBER, TEMPERATURE_STEP, 0, 30, "the standard's figures are 9 to 13 K; a clear dry sky lies 25 K below the air", "=of each hour's weather", NULL, NULL, "how much colder than the air the sky is taken to be, all year: 9 K subpolar, 11 K, 13 K tropics by [ISO13790]; without it hour by hour, from sunlight and dew point", SURE(WEATHER))
K(insulation, heat_loss, NUMBER, CONDUCTANCE, 5, 5000, "from a passive cabin to a barn", "", NULL, NULL, "walls and roof together, used instead of the parts", SURE(UNTOLD))

/* ---- windows ---- */
K(windows, u, NUMBER, USI, 0.3, 7, "from the best triple glazing to a single pane", "0.35 Btu/hft2F", "double glazing, low-e: from memory", "0.30 Btu/hft2F", "thermal transmittance of the windows, frame and all", RANGE("0.28 to 0.5", "double glazing, better and worse: from memory"))
K(windows, sun_gain, NUMBER, PURE, 0.05, 0.9, "share of the sun that a window lets in", "30 %", "low-e double glazing, frame and all: from memory", "28 %", "solar heat gain coefficient (g-value), whole window", RANGE("22 to 50", "low-e to plain double glazing: from memory"))
K(windows, north, NUMBER, AREA, 0, 300, "one household's house", "=3.75 % of the floor area", NULL, "50 ft2", "windows that face north, less the turn", TIMES(0.5, 1.6, "our guess"))
K(windows, east, NUMBER, AREA, 0, 300, "one household's house", "=3.75 % of the floor area", NULL, "60 ft2", "windows that face east, less the turn", TIMES(0.5, 1.6, "our guess"))
K(windows, south, NUMBER, AREA, 0, 300, "one household's house", "=3.75 % of the floor area", NULL, "90 ft2", "windows that face south, less the turn", TIMES(0.5, 1.6, "our guess"))
K(windows, west, NUMBER, AREA, 0, 300, "one household's house", "=3.75 % of the floor area", NULL, "40 ft2", "windows that face west, less the turn", TIMES(0.5, 1.6, "our guess"))
K(windows, turn, NUMBER, ANGLE, -45, 45, "a further turn only swaps the names of the sides", "0 deg", "a house square to the compass", NULL, "how far the house is turned clockwise", SURE("windows told by side are told as they face"))
K(windows, unshaded, NUMBER, PURE, 0, 1, "share of the sun that reaches the glass", "70 %", "eaves, trees and screens: from memory", NULL, "what overhangs, trees and screens leave of the sun", RANGE("45 to 90", "our guess"))

/* ---- surfaces ---- */
K(surfaces, glass_factor, NUMBER, PURE, 0.05, 1, "0 is outdoors, 1 indoors [ISO13788]", "=from the windows' u", NULL, NULL, "temperature factor of the middle of the glass", TIMES(0.97, 1.02, "our guess: the film of air at the glass varies"))
K(surfaces, edge_factor, NUMBER, PURE, 0.05, 1, "0 is outdoors, 1 indoors [ISO13788]", "55 %", "metal spacer in a double pane: from memory", NULL, "temperature factor of the glass edge and frame", RANGE("45 to 70", "metal to warm spacers: from memory"))
K(surfaces, corner_factor, NUMBER, PURE, 0.05, 1, "0 is outdoors, 1 indoors [ISO13788]", "75 % (70 to 80)", "[BRE-IP106] least for dwellings, from memory; low [DIN4108-2]; high ours", NULL, "temperature factor of the coldest corner of a room", RANGE("", "low [DIN4108-2]; high our guess"))
K(surfaces, edge_share, NUMBER, PURE, 0, 1, "a part of the windows", "15 %", "from memory", NULL, "part of the window area that is edge and frame", RANGE("10 to 20", "our guess"))

/* ---- ground ---- */
K(ground, soil, WORD, PURE, 0, 0, NULL, "sand", "the commonest, no source", NULL, "what the house stands in", .words = SCENARIO__WORDS(DEW_SOIL_MAP), .either = 1, EITHER("sand or clay", "our guess"))
K(ground, mean, NUMBER, TEMPERATURE, -20, 40, "soil a house stands on", "=from the weather [ISO13370]", NULL, NULL, "yearly mean under the floor", STEP(-2, 2, "our guess"))
K(ground, swing, NUMBER, TEMPERATURE_STEP, 0, 20, "half the range over a year", "=from the weather [ISO13370]", NULL, NULL, "half the yearly range under the floor", TIMES(0.7, 1.3, "our guess"))

/* ---- people ---- */
K(people, count, NUMBER, PURE, 0, 30, "one household", "=bedrooms + 1", NULL, "4", "people who live there", TIMES(0.5, 1.25, "our guess: more beds than people, or a child more"))
K(people, schedule, WORD, PURE, 0, 0, NULL, "work_and_school", "our own, common practice", "work_and_school", "when they are at home, asleep and about", .words = "all_day|work_and_school|home_office|retired|night_shift|weekends_only", .either = 1)
K(people, clock, WORD, PURE, 0, 0, NULL, "standard", "summer time is not everywhere: say which", NULL, "the clock people live by: standard time all year, or an hour ahead in summer by the rule of the United States or the European Union; schedules, set points and timers follow it, weather and tables stay in standard time", .words = SCENARIO__WORDS(DEW_CLOCK_MAP))
K(people, weekday, LIST, PURE, 0, 1, "share of the people at home", "=by the schedule", NULL, NULL, "share at home in each hour of a weekday, from midnight", .least = 24, .most = 24, SURE(SCHEDULE))
K(people, weekend, LIST, PURE, 0, 1, "share of the people at home", "=by the schedule", NULL, NULL, "share at home in each hour of Saturday and Sunday, from midnight", .least = 24, .most = 24, SURE(SCHEDULE))
K(people, water_each, NUMBER, WATER_RATE, 5e-6, 1e-4, "from asleep to hard work", "=by schedule and activity [ASH-F18]", NULL, NULL, "water each sets free by breath and skin, while at home", TIMES(0.8, 1.3, "our guess, about as far as the activities of [ASH-F18] go"))
K(people, heat_each, NUMBER, POWER, 20, 300, "from asleep to hard work", "=by schedule and activity [ASH-F18]", NULL, NULL, "dry heat each gives off, while at home", TIMES(0.85, 1.15, "our guess"))
K(people, carbon_dioxide_each, NUMBER, FLOW, 1e-6, 2e-5, "from a sleeping child to hard work", "=by schedule and activity [PJ17]", NULL, NULL, "carbon dioxide each breathes out, while at home", TIMES(0.8, 1.2, "our guess: age and body"))
K(people, appliances, NUMBER, POWER, 0, 5000, "one household", "=3 W per m2 of floor, from memory", NULL, NULL, "lights and appliances that warm the rooms, yearly mean", TIMES(0.5, 1.6, "our guess"))

/* ---- moisture ---- */
K(moisture, total, NUMBER, WATER_RATE, 0, 5.8e-3, "500 L/day is a spring, not a household", "", NULL, NULL, "all water people and use set free, when it is known; used instead of people's and all the single sources but ground and drying", SURE(UNTOLD))
K(moisture, showers, NUMBER, PER_DAY, 0, 40.0 / DAY, "one household", "=one a day per person", NULL, "4 per day", "showers taken, or their water a day", FORMS(rate_forms), TIMES(0.5, 1.5, "our guess"))
K(moisture, shower_water, NUMBER, WATER, 0.01, 3, "published figures run from 0.24 to 2.6 kg", "0.24 kg", "[AO88] 5 minutes, without towels", NULL, "water each shower sets free", RANGE("0.2 to 0.6", "our guess: longer ones, and towels; published figures reach 2.6 kg"))
K(moisture, baths, NUMBER, PER_DAY, 0, 20.0 / DAY, "one household", "0 per day", "counted with the showers", NULL, "tub baths taken, or their water a day", FORMS(rate_forms), SURE(SHOWERS))
K(moisture, bath_water, NUMBER, WATER, 0.01, 3, "published figures run from 0.05 to 1 kg", "0.05 kg", "[AO88] without towels", NULL, "water each bath sets free", RANGE("0.05 to 0.3", "our guess: towels"))
K(moisture, cooking, WORD, PURE, 0, 0, NULL, "electric", "common practice, no source", "electric", "what cooks: gas sets its own water free too", .words = SCENARIO__WORDS(SCENARIO__COOKING), .either = 1)
K(moisture, cooking_water, NUMBER, WATER_RATE, 0, 1e-4, "one household", "=0.99 kg/day for four people, 2.33 with gas [AO88], partly from memory", NULL, NULL, "water set free by cooking", TIMES(0.5, 1.6, "our guess"))
K(moisture, dishes, NUMBER, WATER_RATE, 0, 1e-4, "one household", "=0.50 kg/day for four people [AO88], partly from memory", NULL, NULL, "water set free by washing up", TIMES(0.3, 1.3, "our guess, from a machine to much by hand"))
K(moisture, laundry_dried_indoors, NUMBER, PER_DAY, 0, 10.0 / DAY, "one household", "0 per day", "a dryer vented outdoors", "0 per day", "loads hung up indoors or dried by an unvented dryer, or their water a day", FORMS(rate_forms), SURE(NOTHING))
K(moisture, laundry_water, NUMBER, WATER, 0.2, 6, "one load", "2.5 kg", "[AO88] 2.2 to 2.9 kg", NULL, "water in each load", RANGE("2.2 to 2.9", "[AO88]"))
K(moisture, plants, NUMBER, PURE, 0, 500, "pots, not a greenhouse", "5", "common practice, no source", NULL, "pot plants, or their water a day", FORMS(rate_forms), RANGE("0 to 12", "our guess"))
K(moisture, plant_water, NUMBER, WATER_RATE, 0, 1e-5, "one pot", "3 g/h", "[AO88] 0.43 kg/day for six", NULL, "water each pot plant sets free", RANGE("1.5 to 6", "our guess"))
K(moisture, pets, NUMBER, MASS, 0, 500, "pets, not a stable", "0 kg", "none unless said", NULL, "body weight of the pets together, or their water a day", FORMS(rate_forms), SURE(NOTHING))
K(moisture, aquarium, NUMBER, AREA, 0, 20, "a pool needs its own model", "0 m2", "none unless said", NULL, "open water of aquaria; 40 g/h per m2 [DIN4108-8]", SURE(NOTHING))
K(moisture, ground, NUMBER, WATER_RATE, 0, 6e-4, "published figures reach 50 kg/day", "0 kg/day", "a dry slab or a sealed crawl space", NULL, "water that wet ground, a damp slab, basement or crawl space gives into the rooms, not what its soil gives off; a cold floor and damp air hold it back, and it never takes water up (see felt)", RANGE("0 to 2", "our guess, of a slab thought to be dry"))
K(moisture, felt, FLAG, PURE, 0, 0, NULL, "yes", "[TP07]", NULL, "plants and wet ground set free less in damp air, more in dry, and wet ground less from a cold floor; their figures then hold with floor and room at 20 degC and 50 %")
K(moisture, burning, NUMBER, WATER_RATE, 0, 3e-4, "one household", "0 kg/day", "no unvented burning", NULL, "water from unvented heaters and pilot flames", SURE(NOTHING))
K(moisture, other, NUMBER, WATER_RATE, 0, 1e-3, "one household", "0 kg/day", "none unless said", NULL, "any further source, spread over the day", RANGE("0 to 1", "our guess: what nobody thinks of"))
K(moisture, drying, NUMBER, WATER, 0, 20000, "a concrete house may hold tonnes", "=none, or of a house younger than two years what gives off 4.7 kg/day when just finished, less by safety.house_age [AO88]", NULL, NULL, "construction water still in the fabric when the year begins", TIMES(0.5, 2, "our guess"))
K(moisture, drying_half_life, NUMBER, TIME, DAY, 3650 * DAY, "timber takes months, concrete years", "180 day (90 to 365)", "from memory", NULL, "time in which half of the construction water leaves", RANGE("", "from memory"))

/* ---- buffering ---- */
K(buffering, class, WORD, PURE, 0, 0, NULL, "likely", "from memory, as the range of its classes", "likely", "how much water furnishings and fabric take up", .words = SCENARIO__OR_NONE(DEW_HOLDING_MAP), TIMES(0.52, 2.5, "of what the house takes up: the low and high class beside the likely, from memory"), .either = 1)
K(buffering, value, NUMBER, BUFFER_VALUE, 0, 1, "moisture buffer values run from 0 to about 0.3 kg/m2", "", NULL, NULL, "moisture buffer value of the inside surfaces, used instead of the class", SURE(UNTOLD))
K(buffering, area, NUMBER, AREA, 1, 20000, "one household's house", "=3 m2 per m2 of floor", NULL, NULL, "surface that the moisture buffer value stands for", TIMES(0.83, 1.33, "the classes' own, 2.5 to 4 m2 per m2: from memory"))

/* ---- temperature ---- */
K(temperature, heat, NUMBER, TEMPERATURE, 5, 30, "rooms people live in", "68 degF", "common practice, no source", "69 degF", "heated to", RANGE("66 to 72", "our guess"))
K(temperature, cool, NUMBER, TEMPERATURE, 15, 40, "rooms people live in", "76 degF", "common practice, no source", "75 degF", "cooled to", RANGE("72 to 78", "our guess"))
K(temperature, heat_setback, NUMBER, TEMPERATURE, 5, 30, "rooms people live in", "=as heat", NULL, NULL, "heated to in the setback hours", SURE(FOLLOWS))
K(temperature, cool_setback, NUMBER, TEMPERATURE, 15, 40, "rooms people live in", "=as cool", NULL, NULL, "cooled to in the setback hours", SURE(FOLLOWS))
K(temperature, setback_hours, HOURS, PURE, 0, 24, "hours of the day", "", NULL, NULL, "when the setback applies", .least = 1, .most = 6, SURE(UNTOLD))
K(temperature, band, NUMBER, TEMPERATURE_STEP, 0, 5, "a thermostat's throttling band", "0 K", "an ideal thermostat", NULL, "throttling band of the thermostat", SURE(MODEL))
K(temperature, given, NUMBER, TEMPERATURE, 0, 45, "rooms people live in", "", NULL, NULL, "indoor temperature held outright, without heating or cooling equipment", SURE(UNTOLD))
K(temperature, given_by_hour, LIST, TEMPERATURE, 0, 45, "rooms people live in", "", NULL, NULL, "the same by hour of the day, from midnight", .least = 24, .most = 24, SURE(UNTOLD))

/* ---- airing ---- */
K(airing, flow, NUMBER, FLOW, 0, 3, "open windows on both sides of a house", "0 cfm", "windows kept shut", NULL, "outdoor air through windows opened by habit, at full opening", RANGE("0 to 100", "our guess: a window now and then"))
K(airing, habit, WORD, PURE, 0, 0, NULL, "warm_weather", "our guess: no study we know says what people in cooled houses do; the two words are its ends", NULL, "how windows are opened: in warm weather whatever the humidity, or only while the dew point outdoors is below that indoors and below that of limits.too_humid", .words = SCENARIO__WORDS(SCENARIO__HABIT), .either = 1)
K(airing, from, NUMBER, TEMPERATURE, -10, 40, "mild weather", "61 degF", "our guess: 55 to 66 degF", NULL, "running mean outdoors at which windows begin to be opened", RANGE("55 to 66", "our guess"))
K(airing, full, NUMBER, TEMPERATURE, -10, 40, "mild weather", "70 degF", "our guess: 64 to 75 degF", NULL, "running mean outdoors at which they stand fully open", RANGE("64 to 75", "our guess"))

/* ---- limits ---- */
K(limits, too_humid, NUMBER, PURE, 0.2, 1, "a relative humidity", "60 %", "[EPA-COURSE]", "60 %", "relative humidity above which the house is too humid", SURE(ASKED))
K(limits, too_dry, NUMBER, PURE, 0, 0.6, "a relative humidity", "30 %", "[EPA-COURSE] lower end of the good range", "30 %", "relative humidity below which it is too dry", SURE(ASKED))
K(limits, fresh_air, NUMBER, FLOW, 0, 1, "one household", "=by the rule", NULL, NULL, "fresh air that must be delivered, when it is set by hand", SURE(ASKED))
K(limits, fresh_air_rule, WORD, PURE, 0, 0, NULL, "floor_and_bedrooms", "[ASH-622] 2013 and later, without credit for leakage", NULL, "rule for the fresh air: by floor and bedrooms, its older form, or none", .words = SCENARIO__WORDS(SCENARIO__FRESH_AIR))
K(limits, outdoor_carbon_dioxide, NUMBER, CO2, 300, 1000, "outdoor air", "424 ppm", "[WMO-GHG21] mean of the world in 2024", NULL, "carbon dioxide outdoors", RANGE("415 to 450", "our guess: the season, and a town"))
/* clang-format on */
