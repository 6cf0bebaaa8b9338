// SPDX-License-Identifier: GPL-3.0-or-later
// What the page asks, in plain words: keys of a scenario.  What is not known is
// left out, and the engine takes what is usual and how far that goes.

const NOT_KNOWN = ["", "I don't know"];
const YES_NO = [["", "I don't know"], ["yes", "yes"], ["no", "no"]];

// units: first those of US, then of SI; more may be picked.  must: no house can
// be told without it.
export const GROUPS = [
  { name: "Where it stands", open: true, rows: [
    { key: "weather.place", label: "Nearest place", kind: "place", must: true,
      hint: "Begin to type a town or airport. A year of hours is made from its monthly figures." },
    { key: "weather.file", label: "Or a weather file of your own", kind: "file",
      hint: "Hourly temperature, humidity, wind and sun. It takes the place of the above." },
  ] },
  { name: "The house", open: true, rows: [
    { key: "house.floor_area", label: "Floor area inside, all storeys", kind: "number",
      units: ["ft2", "m2"], must: true },
    { key: "house.bedrooms", label: "Bedrooms", kind: "plain", must: true },
    { key: "house.airtightness", label: "Blower-door result (how leaky it is)", kind: "number",
      units: ["ach50", "ach50", "cfm50", "m3/h50"],
      hint: "Air changes an hour at 50 Pa. In doubt write 1.1 (0.7 to 2)." },
    { key: "people.count", label: "People who live there", kind: "plain" },
    { key: "moisture.showers", label: "Showers", kind: "number", units: ["per day", "per day", "per week"] },
    { key: "cooling.capacity", label: "Air conditioner or heat pump: cooling", kind: "number",
      units: ["ton", "kW", "kBtu/h"], hint: "Leave it empty where the house is not cooled.",
      empty: "Empty: the house has no cooling." },
    { key: "house.foundation", label: "It stands on", kind: "choice", words: [NOT_KNOWN,
      ["slab", "a slab on the ground"], ["crawl_space", "a crawl space"],
      ["basement", "a warm basement open to the rooms"]] },
    { key: "house.storeys", label: "Storeys above ground", kind: "plain" },
    { key: "house.ceiling_height", label: "Height of the rooms", kind: "number", units: ["ft", "m"] },
  ] },
  { name: "Could any of this hurt someone?", open: true, rows: [
    { key: "safety.natural_draft_appliance", kind: "choice", words: YES_NO,
      label: "A furnace, water heater, stove or fireplace that draws its air from the rooms and has a chimney?" },
    { key: "safety.unvented_heater", kind: "choice", words: YES_NO,
      label: "A fuel heater or stove without a flue?" },
    { key: "safety.attached_garage", kind: "choice", words: YES_NO,
      label: "A garage that shares a wall or ceiling with the house?" },
    { key: "safety.hood_into_ventilator", kind: "choice", words: YES_NO,
      label: "A kitchen hood or clothes dryer that blows into ventilation ducts?" },
    { key: "safety.visible_mould", kind: "choice", words: YES_NO,
      label: "Mould that can be seen, a square metre (10 ft2) or more?" },
    { key: "safety.sewage_or_flood", kind: "choice", words: YES_NO,
      label: "Water from a drain or a flood in the past year?" },
    { key: "safety.bulk_water", kind: "choice", words: YES_NO,
      label: "A leak, a wet cellar or crawl space, rain coming in?" },
  ] },
  { name: "Living, heating and cooling", rows: [
    { key: "people.schedule", label: "When people are at home", kind: "choice", words: [NOT_KNOWN,
      ["work_and_school", "out for work and school"], ["all_day", "at home all day"],
      ["home_office", "working at home"], ["retired", "retired"],
      ["night_shift", "night shifts"], ["weekends_only", "weekends only"]] },
    { key: "moisture.cooking", label: "Cooking", kind: "choice", words: [NOT_KNOWN,
      ["electric", "electric"], ["gas", "gas"], ["none", "none"]] },
    { key: "moisture.laundry_dried_indoors", label: "Loads of laundry dried indoors", kind: "number",
      units: ["per week", "per week", "per day"] },
    { key: "heating.kind", label: "Heated by", kind: "choice", words: [NOT_KNOWN,
      ["heat_pump", "a heat pump"], ["gas", "gas"], ["electric", "electric heaters"],
      ["oil", "oil"], ["propane", "propane"], ["wood", "wood"], ["none", "nothing"]] },
    { key: "temperature.heat", label: "Heated to", kind: "number", units: ["degF", "degC"] },
    { key: "temperature.cool", label: "Cooled to", kind: "number", units: ["degF", "degC"] },
    { key: "air_handlers", label: "Air handlers (furnace or cooling cabinets with a blower)", kind: "plain" },
    { key: "cooling.blower", label: "Besides heating and cooling its blower runs", kind: "choice",
      words: "blower" },
  ] },
  { name: "Walls and windows", rows: [
    { key: "insulation.walls", label: "Insulation of the walls, whole", kind: "number", units: ["R", "RSI"] },
    { key: "insulation.roof", label: "Insulation of roof or ceiling", kind: "number", units: ["R", "RSI"] },
    { key: "windows.u", label: "U-value of the windows", kind: "number", units: ["Btu/hft2F", "W/m2K"] },
    { key: "house.shelter", label: "What stands in the wind's way", kind: "choice", words: [NOT_KNOWN,
      ["open", "nothing: open land"], ["lone", "a lone house with a few trees"],
      ["large_lots", "houses on large lots"], ["houses_across_street", "houses across the street"],
      ["close_neighbours", "neighbours close by"]] },
  ] },
  { name: "Limits and prices", rows: [
    { key: "limits.too_humid", label: "Too humid above (relative humidity)", kind: "number", units: ["%", "%"] },
    { key: "limits.too_dry", label: "Too dry below", kind: "number", units: ["%", "%"] },
    { key: "prices.electricity", label: "Electricity", kind: "number", units: ["$/kWh", "$/kWh"] },
    { key: "prices.gas", label: "Gas", kind: "number", units: ["$/therm", "$/kWh"] },
  ] },
  { name: "What a logger measured", rows: [
    { key: "log.file", label: "A file of indoor temperature and humidity", kind: "file",
      hint: "From a logger or home automation; it is laid over what is worked out." },
    { key: "log.sensor", label: "Which sensor, where it has several", kind: "plain" },
    { key: "log.order", label: "Dates such as 3/4/2025 are", kind: "choice",
      words: [["", "as the file tells"], ["mdy", "month, day"], ["dmy", "day, month"]] },
  ] },
];

const BLOWER = [["", "as the house has it"], ["auto", "not at all (auto)"], ["on", "always (on)"],
  ["minutes", "some minutes of each hour"], ["interlock", "whenever the ventilator runs"]];

// In an option's card; needs: only with such a ventilator.
const FAN = ["exhaust_only", "supply_only", "balanced", "heat_plate", "enthalpy_plate", "enthalpy_wheel"];
const CORE = FAN.slice(3);
const WET = FAN.slice(4);

export const CARD = [
  { key: "name", label: "Name", kind: "plain" },
  { key: "ventilator.core", label: "Fresh air by", kind: "choice", words: [["", "nothing new"],
    ["exhaust_only", "a fan that blows stale air out"],
    ["supply_only", "a fan that blows fresh air in"],
    ["balanced", "two fans, in and out"],
    ["heat_plate", "heat core (HRV): stale air warms or cools the fresh"],
    ["enthalpy_plate", "enthalpy core (ERV): passes heat and also moisture"],
    ["enthalpy_wheel", "enthalpy wheel: the same with a turning wheel"],
    ["none", "none, where the house has one"]] },
  { key: "ventilator.flow", label: "Airflow", kind: "number", units: ["cfm", "L/s", "m3/h"], needs: FAN,
    empty: "Empty: the fresh air that the rule asks for." },
  { key: "dehumidifier.rate", label: "Dehumidifier: water a day by its label", kind: "number",
    units: ["pint/day", "L/day"], empty: "Empty: none." },
  { key: "costs.install", label: "Price, installed", kind: "number", units: ["$", "$"],
    hint: "In doubt write 5500 (3500 to 8500). Empty: no best is told by money." },
];

export const CARD_MORE = [
  { key: "ventilator.typical", label: "Figures of its core", kind: "choice", needs: CORE,
    words: [["", "from its spec sheet, below"], ["yes", "typical, with their range"], ["no", "only those below"]] },
  { key: "ventilator.sensible", label: "Heat it passes, by the spec sheet", kind: "plain", needs: CORE,
    hint: "Such as 75 % at 100 cfm." },
  { key: "ventilator.moisture", label: "Moisture it passes, by the spec sheet", kind: "plain", needs: WET,
    hint: "Such as 50 % at 100 cfm." },
  { key: "ventilator.power", label: "Electricity of its fans", kind: "number", units: ["W", "W"], needs: FAN },
  { key: "ventilator.found", label: "Share of its airflow found on site", kind: "number", units: ["%", "%"], needs: FAN },
  { key: "layout", label: "Ducts", kind: "choice", needs: FAN, words: [["", "not told"],
    ["own_ducts", "its own ducts to the rooms"],
    ["return_tie", "fresh and stale air both tied to the return duct"],
    ["supply_tie", "fresh air into the supply duct"],
    ["return_to_supply", "stale air from the return, fresh into the supply"],
    ["mix", "fresh air into the return, stale air by own ducts"]] },
  { key: "cooling.blower", label: "The air handler's blower runs besides", kind: "choice", words: "blower" },
  { key: "dehumidifier.typical", label: "Kind of dehumidifier", kind: "choice", words: [["", "not told"],
    ["portable_small", "portable, to 25 pints a day"], ["portable", "portable, to 50 pints a day"],
    ["portable_large", "portable, larger"], ["old_portable", "portable, an older label"],
    ["ducted", "whole house, ducted"], ["ducted_large", "whole house, large case"]] },
  { key: "dehumidifier.set", label: "It is set to (relative humidity)", kind: "number", units: ["%", "%"] },
  { key: "costs.upkeep", label: "Filters and service, a year", kind: "number", units: ["$", "$"] },
];

// A grille of an option, as it was measured on site.
const FOUND = { kind: "number", units: ["cfm", "L/s", "m3/h"] };

export const GRILLE = [
  { key: "room", label: "Room", kind: "plain" },
  { key: "fresh_found", label: "Fresh air in", ...FOUND },
  { key: "stale_found", label: "Stale air out", ...FOUND },
  { key: "fresh_found_full", label: "Fresh air in, blower at full flow", ...FOUND },
  { key: "stale_found_full", label: "Stale air out, blower at full flow", ...FOUND },
];

for (const row of [...GROUPS.flatMap((group) => group.rows), ...CARD_MORE])
  if (row.words === "blower") row.words = BLOWER;

// What may be added.  Prices: our guess, as the engine's own options have them.
const part = (name, lines, low, likely, high, upkeep) => [name, `name: ${name}\n${lines}costs: ` +
  `{install: ${likely} $ (${low} to ${high}), upkeep: ${upkeep} $, date: our guess 2025}`];

export const PARTS = [
  ["as it stands", "name: as it stands"],
  part("exhaust fan", "ventilator: {core: exhaust_only}\n", 400, 700, 1200, 10),
  part("heat core", "ventilator: {core: heat_plate, typical: yes}\n", 3500, 5500, 8500, 60),
  part("enthalpy core", "ventilator: {core: enthalpy_plate, typical: yes}\n", 4000, 6000, 9000, 75),
  part("dehumidifier", "dehumidifier: {rate: 50 pint/day, typical: portable}\n", 250, 400, 700, 10),
  part("enthalpy core, dehumidifier", "ventilator: {core: enthalpy_plate, typical: yes}\n" +
    "dehumidifier: {rate: 50 pint/day, typical: portable}\n", 4250, 6400, 9700, 85),
];
