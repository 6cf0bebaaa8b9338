/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of cautions: level, about, pressure, key, key of the question, when
 * it stands, source, in brief where told and as a question, in full where it was
 * told (or computed) and where the question is open.  Included by cautions.c alone.
 *
 * Labels: [BPI-1200] [EPA-IAQ] [EPA-MOULD] [EPA-RADON] [SWS20] [PNNL-BASC]
 * [OSHA-Z1]; what is not said to be from memory was read.
 */
/* clang-format off */
{DEW_STOP, HOUSE, 1, "combustion", "safety.natural_draft_appliance", natural_draft_appliance, "BPI-1200",
 "A chimney appliance uses room air: have it tested before any change.", "a furnace, stove or fire with chimney?",
 TOLD "a furnace, boiler, water heater, stove or fireplace draws its air from the rooms and "
 "has a chimney. In a tight house a fan can pull its smoke and carbon monoxide back "
 "into the rooms. Before any change of fans, balance or airtightness have a qualified "
 "person test it under the worst case of all exhausts running, and keep a working "
 "carbon monoxide alarm on each floor. This program never calls such an appliance "
 "safe; no computed pressure does.",
 UNSAID "a furnace, boiler, water heater, stove or fireplace draws its air from the rooms and "
 "has a chimney. If one does, a fan in a tight house can pull its smoke and carbon "
 "monoxide back into the rooms. Before any change of fans, balance or airtightness "
 "have a qualified person look, and test it under the worst case of all exhausts "
 "running; keep a working carbon monoxide alarm on each floor. This program never "
 "calls such an appliance safe; no computed pressure does."},
{DEW_STOP, HOUSE, 0, "unvented_heater", "safety.unvented_heater", unvented_heater, "EPA-IAQ",
 "A heater without a flue burns indoors: have it removed or vented.", "a fuel heater without a flue?",
 TOLD "a fuel heater without a flue burns in the rooms. It puts all its water, carbon "
 "monoxide and nitrogen dioxide into them. Do not plan ventilation around it: have it "
 "removed or vented.",
 UNSAID "a fuel heater or stove without a flue burns in the rooms. It would put all its "
 "water, carbon monoxide and nitrogen dioxide into them. Do not plan ventilation "
 "around it: have it removed or vented."},
{DEW_STOP, HOUSE, 0, "garage", "safety.attached_garage", attached_garage, "PNNL-BASC",
 "A garage adjoins: no duct, intake or unit in it; seal it off first.", "a garage that shares a wall?",
 TOLD "a garage shares a wall or ceiling with the house. No intake, grille, duct opening or "
 "unit in it, and no leaky duct through it: exhaust fumes and fuel vapour follow. Seal "
 "the wall, the ceiling and the door between garage and house first.",
 UNSAID "a garage shares a wall or ceiling with the house. If one does: no intake, grille, "
 "duct opening or unit in it, and no leaky duct through it: exhaust fumes and fuel "
 "vapour follow. Seal the wall, the ceiling and the door between garage and house "
 "first."},
{DEW_STOP, OPTION, 0, "return_tie", "cooling.blower", return_tie_open, "common practice, no source",
 "Both sides on the return, no interlock: do not build it so.", "does the blower run along?",
 "Fresh and stale air are both tied to the return without a blower interlock. With the "
 "blower off the fresh air runs from one tap to the other and little reaches the "
 "rooms. Do not build it so: wire the interlock, or give one side ducts of its own.",
 UNSAID "the blower runs whenever the ventilator does, where fresh and stale air are both "
 "tied to the return. With the blower off the fresh air runs from one tap to the other "
 "and little reaches the rooms. Do not build it so: wire the interlock, or give one "
 "side ducts of its own."},
{DEW_STOP, OPTION, 0, "hood_joined", "safety.hood_into_ventilator", hood_joined, "common practice, no source",
 "A hood or dryer blows into shared ducts, which can burn: part them.", "a hood or dryer into shared ducts?",
 TOLD "a kitchen hood or a clothes dryer blows into the ventilator or shared ducts. Grease "
 "and lint burn. Each needs its own duct to the outdoors.",
 UNSAID "a kitchen hood or a clothes dryer blows into the ventilator or shared ducts. Grease "
 "and lint burn. Each needs its own duct to the outdoors."},
{DEW_STOP, OPTION, 1, "net_exhaust", "safety.natural_draft_appliance", net_exhaust, "common practice, no source",
 "More air out than in beside a chimney: do not run it before its test.", "a furnace, stove or fire with chimney?",
 "More air can be drawn out than comes in, and you told us of an appliance with a "
 "chimney that draws its air from the rooms. Do not run this before the test of the "
 "appliance under the worst case.",
 UNSAID "an appliance with a chimney draws its air from the rooms, where more air can be "
 "drawn out than comes in. Do not run this before you know, and before the test of the "
 "appliance under the worst case."},
{DEW_STOP, HOUSE, 0, "mould", "safety.visible_mould", visible_mould_surely, "EPA-MOULD",
 "Much visible mould: have it cleaned, find the water; run no such duct.", NULL,
 TOLD "there is mould over about 1 m2 (10 ft2): have a professional clean it and find the "
 "water. Do not run ducts that mould has reached: they spread it.",
 NULL},
{DEW_STOP, HOUSE, 0, "sewage", "safety.sewage_or_flood", sewage_or_flood_surely, "EPA-MOULD",
 "Flood or drain water was in: have it cleaned before any fan runs.", NULL,
 TOLD "water came from a drain or a flood: what it wetted needs professional cleaning "
 "before any fan moves the air over it.",
 NULL},
{DEW_STOP, HOUSE, 0, "illness", "safety.illness", illness_surely, "EPA-MOULD",
 "Someone is ill from it or at risk: see a doctor; air is no treatment.", NULL,
 TOLD "someone has asthma, weak immunity or symptoms laid to the house: see a doctor, and "
 "let a professional look at the house. Air changes are no treatment.",
 NULL},
{DEW_CHECK, HOUSE, 0, "mould_unknown", "safety.visible_mould", visible_mould_unknown, "EPA-MOULD",
 NULL, "is there visible mould?",
 NULL,
 UNSAID "mould can be seen. Look behind furniture, in closets, around windows and inside "
 "ducts; over about 1 m2 (10 ft2) call a professional before running anything."},
{DEW_CHECK, HOUSE, 0, "sewage_unknown", "safety.sewage_or_flood", sewage_or_flood_unknown, "EPA-MOULD",
 NULL, "was there a flood or drain water?",
 NULL,
 UNSAID "water came from a drain or a flood in the past year. If any did, have it cleaned "
 "professionally first."},
{DEW_CHECK, HOUSE, 0, "illness_unknown", "safety.illness", illness_unknown, "EPA-MOULD",
 NULL, "is someone ill from it, or at risk?",
 NULL,
 UNSAID "someone has asthma, weak immunity or symptoms that ease away from home. If so, see a "
 "doctor about it."},
{DEW_CHECK, HOUSE, 0, "alarm", "safety.carbon_monoxide_alarm", carbon_monoxide_alarm_wanting, "common practice, no source",
 "No carbon monoxide alarm on each floor: fit them.", "a working CO alarm on each floor?",
 TOLD "there is no working carbon monoxide alarm on each floor. Fit them where anything "
 "burns or a garage adjoins.",
 UNSAID "a working carbon monoxide alarm hangs on each floor. Fit them where anything burns "
 "or a garage adjoins."},
{DEW_CHECK, HOUSE, 0, "bulk_water", "safety.bulk_water", bulk_water, "common practice, no source",
 "Water comes in: find it before buying anything.", "a leak, wet cellar or crawl space?",
 TOLD "water comes in: a leak, a wet cellar or crawl space, or rain. Find leaks, rain, a "
 "wet cellar or crawl space and dry drain traps before buying equipment. No ventilator "
 "keeps up with running water.",
 UNSAID "water comes in: a leak, a wet cellar or crawl space, or rain. Find leaks, rain, a "
 "wet cellar or crawl space and dry drain traps before buying equipment. No ventilator "
 "keeps up with running water."},
{DEW_CHECK, HOUSE, 0, "unexplained_water", NULL, unexplained_here, "common practice, no source",
 "The log is damper than what was named explains: look for water.", NULL,
 "The log is damper than the sources named here explain. Look for water before buying "
 "equipment: leaks, a wet crawl space or cellar, a dryer that blows indoors, dry drain "
 "traps.",
 NULL},
{DEW_CHECK, HOUSE, 0, "dryer_vent", "safety.dryer_vented_outdoors", dryer_vented_outdoors_wanting, "common practice, no source",
 "No clothes dryer's duct ends outdoors: mend that first.", "does the dryer blow outdoors?",
 TOLD "no clothes dryer's duct ends outdoors. If there is a dryer, it blows indoors: a load "
 "of washing holds a few litres of water; a gas dryer adds fumes.",
 UNSAID "the clothes dryer's duct ends outdoors. A load of washing holds a few litres of "
 "water; a gas dryer adds fumes."},
{DEW_CHECK, HOUSE, 0, "first_year", "safety.house_age", young_house, "common practice, no source",
 "A new house still gives off water: do not size for that.", "how old is the house?",
 TOLD "the house is younger than two years. Building materials give off water for a season "
 "or two: do not size lasting equipment on that water.",
 UNSAID "the house is older than two years. In a young one building materials give off water "
 "for a season or two: do not size lasting equipment on that water."},
{DEW_CHECK, HOUSE, 0, "foamed_roof", "safety.foamed_roof_deck", foamed_roof_deck, "common practice, no source",
 "Foam under the roof boards: measure the damp at the ridge.", "foam under the roof boards?",
 TOLD "foam is sprayed under the roof boards. Water can gather at the ridge, most with "
 "open-cell foam. A model of one zone cannot see it: measure there.",
 UNSAID "foam is sprayed under the roof boards. If it is: water can gather at the ridge, most "
 "with open-cell foam. A model of one zone cannot see it: measure there."},
{DEW_CHECK, HOUSE, 0, "recent_foam", "safety.recent_foam", recent_foam, "common practice, no source",
 "Fresh or smelling foam: ventilation does not cure it.", "foam sprayed this past year?",
 TOLD "foam was sprayed in the past year, or smells. Ventilation does not cure badly mixed "
 "foam. Keep to the installer's waiting time and have odours looked into.",
 UNSAID "foam was sprayed in the past year, or smells. Ventilation does not cure badly mixed "
 "foam. Keep to the installer's waiting time and have odours looked into."},
{DEW_CHECK, HOUSE, 0, "asbestos", "safety.old_insulation", old_insulation, "common practice, no source",
 "Insulation from before 1985 may hold asbestos: have it tested.", "insulation from before 1985?",
 TOLD "duct wrap or insulation is from before 1985 and may hold asbestos. Do not cut, drill "
 "or pull at it before a sample has been tested.",
 UNSAID "duct wrap or insulation is from before 1985 and may hold asbestos. Do not cut, drill "
 "or pull at it before you know, or a sample has been tested."},
{DEW_CHECK, HOUSE, 0, "attic_work", "safety.ducts_outside", ducts_outside, "common practice, no source",
 "Ducts in attic, garage or crawl space: mind heat, falls, foam.", "ducts in attic, garage, crawl space?",
 TOLD "there are ducts in an attic, garage or crawl space. Work there: heat stroke, falls "
 "through the ceiling and nails. Exposed foam needs its fire barrier back when the "
 "work is done.",
 UNSAID "there are ducts in an attic, garage or crawl space. Work there: heat stroke, falls "
 "through the ceiling and nails. Exposed foam needs its fire barrier back when the "
 "work is done."},
{DEW_CHECK, HOUSE, 0, "radon", "safety.radon_tested", radon_tested_wanting, "EPA-RADON, from memory",
 "Radon was not tested since the last change: test it.", "was radon tested?",
 TOLD "radon was not tested since the last change of house or ventilation. Test for radon, "
 "and again after every change of airtightness, fans or balance; a clogged intake or "
 "an imbalance can draw more of it in.",
 UNSAID "radon was tested since the last change of house or ventilation. Test for radon, and "
 "again after every change of airtightness, fans or balance; a clogged intake or an "
 "imbalance can draw more of it in."},
{DEW_CHECK, OPTION, 0, "intake", NULL, has_ventilator_here, "SWS20: 10 ft from exhausts; the rest from memory", NULL, NULL,
 "Intake: 3 m (10 ft) to the side of flues, vents, driveways and plumbing stacks, or "
 "7.6 m (25 ft) above; 3 m (10 ft) from every exhaust, the unit's own too, unless both "
 "are in one hood listed for that; 0.45 m (18 in) above ground and snow. Local code "
 "and the maker's manual may ask for more.",
 NULL},
{DEW_CHECK, OPTION, 0, "garage_ducts", "safety.attached_garage", garage_ducts, "PNNL-BASC",
 "A garage adjoins: no duct of it may open there.", "a garage that shares a wall?",
 "There is a garage beside the house: trace every duct of this option. None may open "
 "into, or run unsealed through, the garage.",
 UNSAID "a garage adjoins. If one does, trace every duct of this option: none may open into, "
 "or run unsealed through, the garage."},
{DEW_CHECK, OPTION, 0, "freezing", NULL, freezes_here, "common practice, no source", NULL, NULL,
 "It freezes at this place. Keep the unit, its trap and its condensate line above 0 "
 "degC (32 degF): no unheated attic or crawl space.",
 NULL},
{DEW_CHECK, OPTION, 0, "no_frost_protection", NULL, bare_core_here, "MANUALS", NULL, NULL,
 "This place gets colder than a core stands without frost protection, and it is told "
 "to have none: it ices up, moves less air and can be damaged.",
 NULL},
{DEW_CHECK, OPTION, 0, "cold_ducts", NULL, cold_ducts_here, "common practice, no source", NULL, NULL,
 "Insulate the ducts to and from outdoors with an outer vapour-tight skin, sealed up "
 "to the collar of the unit, or they drip.",
 NULL},
{DEW_CHECK, OPTION, 0, "defrost", NULL, recirculates_here, "common practice, no source", NULL, NULL,
 "While it defrosts this unit brings in no fresh air. The hours are in the table.",
 NULL},
{DEW_CHECK, OPTION, 0, "condensate", NULL, condenses_here, "common practice, no source", NULL, NULL,
 "Condensate: a trap, a fall to the drain, a pan below and a float switch that stops "
 "the machine where an overflow would do damage.",
 NULL},
{DEW_CHECK, OPTION, 0, "sweating_trunk", NULL, sweats_outside_here, "common practice, no source", NULL, NULL,
 "Humid fresh air in a duct that also carries cooled air can wet the inside of the "
 "trunk, and cold trunks in warm spaces sweat outside. Let it in where air is already "
 "mixed, and insulate.",
 NULL},
{DEW_CHECK, OPTION, 0, "cold_exchanger", NULL, cold_to_furnace_here, "common practice, no source", NULL, NULL,
 "Cold fresh air mixed into the return reaches a fuel-fired heat exchanger. Keep the "
 "mixed air above the furnace maker's limit, or condensate eats it.",
 NULL},
{DEW_CHECK, OPTION, 0, "no_damper", "ventilator.damper", no_damper, "common practice, no source",
 "No motorised damper on the tied duct: air passes the idle unit.", "a motorised damper on the tied duct?",
 TOLD "no motorised damper is on the tied-in duct. The blower then draws outdoor air, or "
 "blows house air, through the idle unit whenever it runs.",
 UNSAID "a motorised damper is on the tied-in duct. Without one the blower draws outdoor air, "
 "or blows house air, through the idle unit whenever it runs."},
{DEW_CHECK, OPTION, 0, "imbalance", NULL, unbalanced_here, "TIE-MANUALS", NULL, NULL,
 "Fresh and stale air differ by more than 10 % in a state of the blowers. The house is "
 "then put under pressure or suction through its leaks, and the core recovers less. "
 "Measure and set both sides with the blower off and at full flow.",
 NULL},
{DEW_CHECK, OPTION, 0, "kitchen_pickup", NULL, has_ventilator_here, "common practice, no source", NULL, NULL,
 "A stale-air pickup in the kitchen stands well away from the cooktop, with a grease "
 "filter that is washed. It never replaces the hood.",
 NULL},
{DEW_CHECK, OPTION, 0, "exhaust_only", NULL, exhaust_only_cooled_here, "common practice, no source", NULL, NULL,
 "Exhaust only, in a cooled house: outdoor air is drawn through the walls and can wet "
 "them where it meets cooled surfaces.",
 NULL},
{DEW_CHECK, OPTION, 0, "supply_only", NULL, supply_only_cold_here, "common practice, no source", NULL, NULL,
 "Supply only, where it freezes: humid room air is pushed into cold walls and roof.",
 NULL},
{DEW_CHECK, OPTION, 1, "makeup_air", NULL, exhausts_here, "common practice, no source", NULL, NULL,
 "A hood, bath fan or dryer needs as much air in as it blows out. In a tight house "
 "plan make-up air for large ones. A pressure beside this is computed, never a "
 "clearance.",
 NULL},
{DEW_CHECK, OPTION, 0, "stale_air", NULL, stale_here, "OSHA-Z1, from memory", NULL, NULL,
 "Carbon dioxide is computed above 5,000 ppm, the limit for a working day. It is the "
 "sign of far too little outdoor air: bring in air before anything else, and measure "
 "it.",
 NULL},
{DEW_CHECK, OPTION, 0, "humidistat_near_limit", NULL, set_near_limit_here, "limit of the model", NULL, NULL,
 "A dehumidifier or humidifier is set within half its band of a limit, or beyond it: "
 "it comes in only when the limit is passed, and hours past it are its setting's and "
 "not its size's. Set it further off.",
 NULL},
{DEW_NOTE, OPTION, 0, "wet_ground", NULL, ground_differs_here, "limit of the model", NULL, NULL,
 "What wet ground is said to give holds with floor and room at 20 degC and 50 %. Over "
 "this year it gave much more or less: a cold floor and damp air hold it back, dry air "
 "draws it. The row of wet ground in the water table is what the rooms got.",
 NULL},
{DEW_NOTE, OPTION, 0, "interlock", NULL, blower_wired_here, "common practice, no source", NULL, NULL,
 "Wiring a blower interlock: power off at the breaker, low voltage only by the maker's "
 "diagram, anything else by a licensed electrician.",
 NULL},
{DEW_NOTE, HOUSE, 0, "electrical", NULL, always, "common practice, no source", NULL, NULL,
 "Electrical work: an outlet of its own, no extension cord, bonding across flexible "
 "joints; permits and a licensed electrician where required.",
 NULL},
{DEW_NOTE, OPTION, 0, "refrigerant", NULL, refrigerates_here, "common practice, no source", NULL, NULL,
 "Refrigerant circuits are work for certified people. Nothing here is an instruction "
 "for charging, or for the airflow over a coil.",
 NULL},
{DEW_NOTE, OPTION, 0, "fire_walls", NULL, has_ventilator_here, "common practice, no source", NULL, NULL,
 "Ducts through fire-rated walls and floors need the dampers and detectors that local "
 "code asks for.",
 NULL},
{DEW_NOTE, OPTION, 0, "smoke_days", NULL, has_ventilator_here, "common practice, no source", NULL, NULL,
 "On days of smoke, pollen or heavy traffic turn ventilation down or off, and back on "
 "after.",
 NULL},
{DEW_NOTE, OPTION, 0, "filters", NULL, has_ventilator_here, "common practice, no source", NULL, NULL,
 "Filters, the intake screen and the drain need dates in a calendar. A unit that is "
 "clogged, noisy or switched off ventilates nothing.",
 NULL},
{DEW_NOTE, HOUSE, 0, "one_zone", NULL, always, "limit of the model", NULL, NULL,
 "The house is one mixed zone here. Bedrooms behind shut doors, closets, walls and "
 "roofs can be damper or drier than the figures.",
 NULL},
{DEW_NOTE, HOUSE, 0, "planning_aid", NULL, always, "limit of the model", NULL, NULL,
 "This is a planning aid and not a design to a code. Local code, the maker's manual "
 "and the inspector come first.",
 NULL},
    /* clang-format on */
