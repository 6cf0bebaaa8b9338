/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Keys of the layout and its ducts.  Read by rows_plant.h, so that they stand
 * beside the ventilator's.  Presets are those of dew_ducts_layout_fill, and a
 * test holds the two together.
 */
/* clang-format off */
T(layout, WORD, PURE, 0, 0, NULL, "own_ducts", "the plain case", NULL, "where its air comes in and goes out; once written, or with keys of ducts, every blower state is computed", .words = SCENARIO__NAMES(DEW_LAYOUT_MAP))
K(ducts, length, WORD, PURE, 0, 0, NULL, "medium", "common practice, no source", NULL, "how long own ducts are that lines and grilles do not describe", .words = SCENARIO__WORDS(DEW_DUCT_CLASS_MAP), .either = 1, EITHER("medium or short or long", "our guess"))
K(ducts, ventilators, WORD, PURE, 0, 0, NULL, "shared", "the plain case", NULL, "one ventilator for all air handlers, or the flow split over one for each", .words = SCENARIO__WORDS(SCENARIO__VENTILATORS))
K(ducts, tied_to, WORD, PURE, 0, 0, NULL, "all", "the plain case", NULL, "air handlers that a shared ventilator is tied to", .words = "all|first|second|third")
K(ducts, external_static, NUMBER, PRESSURE, 10, 500, "blowers of houses make no more", "124 Pa", "common practice, no source", NULL, "pressure that trunks and grilles of an air handler lose at its full flow", RANGE("75 to 200", "our guess"))
K(ducts, inside_static, NUMBER, PRESSURE, 1, 500, "blowers of houses make no more", "87 Pa", "common practice, no source", NULL, "pressure that its filter, coil and casing lose besides", RANGE("50 to 150", "our guess"))
K(ducts, return_share, NUMBER, PURE, 0.1, 0.9, "both sides lose something", "50 %", "our own", NULL, "part of external_static lost on the return side", RANGE("35 to 65", "our guess"))
K(ducts, blower_free, NUMBER, PURE, 1.01, 3, "near 1 a blower holds its flow", "1.3", "our own", NULL, "blower's flow without any ducts over its full flow", RANGE("1.1 to 1.6", "our guess"))
K(ducts, tap_spacing, NUMBER, LENGTH, 0, 100, "one household's trunk", "3 ft", "[TIE-MANUALS] the least", NULL, "return trunk between the stale tap and the fresh tap", RANGE("3 to 8", "our guess, from the least"))
K(ducts, return_tap, NUMBER, LENGTH, 0, 100, "one household's trunk", "10 ft", "[TIE-MANUALS] the least", NULL, "return trunk between the fresh tap and the air handler", RANGE("10 to 20", "our guess, from the least"))
K(ducts, supply_tap, NUMBER, LENGTH, 0, 100, "one household's trunk", "18 in", "[TIE-MANUALS] the least", NULL, "supply trunk between the air handler and the fresh tap", RANGE("18 to 60", "our guess, from the least"))
K(ducts, open_end, FLAG, PURE, 0, 0, NULL, "no", "the plain case", NULL, "the fresh tie ends in the open beside a return grille", .either = 1)
K(ducts, own_branches, FLAG, PURE, 0, 0, NULL, "no", "the plain case", NULL, "a tie with own fresh air ducts to grilles besides")
K(ducts, backdraft, ANSWER, PURE, 0, 0, NULL, "unknown", "not asked", NULL, "a backdraft damper on each fresh air tie", .either = 1, EITHER("yes or no", "not asked"))
K(ducts, damper_leak, NUMBER, PURE, 0.003, 1, "a share of the rated flow", "2 %", "from memory", NULL, "air past a shut damper at 50 Pa, of the ventilator's rated flow", RANGE("1 to 5", "our guess"))
K(ducts, leak_return, NUMBER, PURE, 0, 0.5, "a share of the blower's flow", "0 %", "ducts inside; else [ASH-F17] 5 to 11 %", NULL, "air that return ducts outside the house draw in from there, blower at full flow; counts in every option with an air handler", RANGE("0 to 3", "our guess of ducts thought to be inside"))
K(ducts, leak_supply, NUMBER, PURE, 0, 0.5, "a share of the blower's flow", "0 %", "ducts inside; else [ASH-F17] 5 to 11 %", NULL, "air that supply ducts outside the house lose there, as warm or as cool and dry as it is, blower at full flow; counts in every option with an air handler", RANGE("0 to 3", "our guess of ducts thought to be inside"))
K(ducts, place, WORD, PURE, 0, 0, NULL, "attic", "our guess: where most ducts outside the envelope lie", NULL, "where ducts outside the envelope lie; leaks draw in its air, and trunks with a part outside pass through it", .words = SCENARIO__WORDS(SCENARIO__DUCTS_LIE), .either = 1)
K(ducts, place_air, NUMBER, PER_DAY, 0, 100 / HOUR, "a hundred an hour is outdoors", "=attic 6.5 per hour (5 to 10), which gives the peaks measured under dark roofs; crawl space 2 per hour (1 to 10): our guesses", NULL, NULL, "outdoor air changes of that attic or crawl space; 0.5 per hour where it has no vents", WITHIN("our guess, as its default"))
K(ducts, deck_insulation, NUMBER, RSI, 0, 20, "more is a passive house", "0 R", "the plain case", NULL, "insulation on the attic's roof deck in place of its floor; such an attic is near the room's temperature", SURE(KNOWN))
K(ducts, mixing, NUMBER, PURE, 0, 1, "a share of the fresh air", "10 % (0 to 30 %)", "our guess", NULL, "fresh air mixed back from the fresh tap to the stale tap of one return trunk, beside what flows", RANGE("", "our guess"))
K(ducts, set_while, WORD, PURE, 0, 0, NULL, "off", "the plain case", NULL, "what the blowers did while the ventilator's flows were set", .words = "off|low|full", .either = 1)
K(ducts, short_circuit, NUMBER, PURE, 0, 1, "a share of the fresh air", "=computed; 0 % where no layout is written", NULL, NULL, "share of the fresh air that goes straight to the stale pickup: holds in place of what is computed", SURE(COMPUTED))
K(ducts, short_circuit_full, NUMBER, PURE, 0, 1, "a share of the fresh air", "=as short_circuit", NULL, NULL, "the same while a blower runs at full flow", SURE(FOLLOWS))
K(ducts, past_coil, NUMBER, PURE, 0, 1, "a share of the fresh air", "=computed; where no layout is written, 100 % tied to the return, else 0 %", NULL, NULL, "share of the fresh air that passes the cooling coil first: holds in place of what is computed", SURE(COMPUTED))
K(ducts, shower_caught, NUMBER, PURE, 0, 1, "a share of its water", "=by the pickup's flow, see docs/ducts.md", NULL, NULL, "water of a shower that the stale pickup takes before it mixes", WITHIN("what docs/ducts.md gives for the flow, doors open and shut"))
K(ducts, cooking_caught, NUMBER, PURE, 0, 1, "a share of its water", "=by the pickup's flow, see docs/ducts.md", NULL, NULL, "the same of cooking", WITHIN("what docs/ducts.md gives for the flow, doors open and shut"))
K(ducts, laundry_caught, NUMBER, PURE, 0, 1, "a share of its water", "=by the pickup's flow, see docs/ducts.md", NULL, NULL, "the same of laundry dried indoors", WITHIN("what docs/ducts.md gives for the flow, doors open and shut"))
K(ducts, lines, ROWS, PURE, 0, 0, NULL, "", NULL, NULL, "ducts that are known one by one", .row = line_columns, .row_count = SCENARIO__LINE_COLUMNS, .least = 1, .most = 24)
K(ducts, grilles, ROWS, PURE, 0, 0, NULL, "=living room, kitchen, the bedrooms, a bath, from 3 bedrooms another: our guess", NULL, NULL, "grilles or groups of them, one room each, with their shares and what was measured", .row = grille_columns, .row_count = SCENARIO__GRILLE_COLUMNS, .least = 1, .most = DEW_DUCT_GRILLES)
K(ducts, points, ROWS, PURE, 0, 0, NULL, "", NULL, NULL, "where the runs of a network written out in full meet", .row = point_columns, .row_count = SCENARIO__POINT_COLUMNS, .least = 2, .most = SCENARIO__POINTS)
K(ducts, runs, ROWS, PURE, 0, 0, NULL, "", NULL, NULL, "a network written out in full, run by run, in place of the one by layout, lines and grilles", .row = run_columns, .row_count = SCENARIO__RUN_COLUMNS, .least = 4, .most = SCENARIO__RUNS)
K(ducts, found, ROWS, PURE, 0, 0, NULL, "=the sum of measured grilles, where all were", NULL, NULL, "flows of the ventilator as measured: hold in place of what is computed", .row = found_columns, .row_count = SCENARIO__FOUND_COLUMNS, .least = 1, .most = 3)
/* clang-format on */
