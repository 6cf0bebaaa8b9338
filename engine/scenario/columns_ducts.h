/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Columns of the rows of ducts.lines, ducts.grilles, ducts.points, ducts.runs,
 * ducts.found and ventilator.fan.  One row a column: X(name, kind, quantity, low, high, why,
 * preset, source, start, help, further members...).  Private to
 * engine/scenario/.
 */
#ifndef DEW_SCENARIO_COLUMNS_DUCTS_H
#define DEW_SCENARIO_COLUMNS_DUCTS_H

/* clang-format off */
#define SCENARIO__LINE_MAP(X)                                                       \
    X(line, WORD, PURE, 0, 0, NULL, NULL, NULL, "intake", "which duct: to or from outdoors, from the ventilator to its tap or first branch, or a trunk", .words = SCENARIO__WORDS(SCENARIO__LINES)) \
    X(of, COUNT, PURE, 1, 3, "three at most", "=all alike", NULL, NULL, "of which ventilator or air handler", SURE(CHOSEN)) \
    X(diameter, NUMBER, LENGTH, 0.02, 3, "ducts of houses", "", NULL, NULL, "of a round duct", SURE(LAID)) \
    X(width, NUMBER, LENGTH, 0.02, 3, "ducts of houses", "", NULL, NULL, "of a rectangular duct", SURE(LAID)) \
    X(height, NUMBER, LENGTH, 0.02, 3, "ducts of houses", "", NULL, NULL, "of a rectangular duct", SURE(LAID)) \
    X(length, NUMBER, LENGTH, 0, 1000, "ducts of houses", NULL, NULL, "12 ft", "as laid", SURE(LAID)) \
    X(elbows, COUNT, PURE, 0, 40, "ducts of houses", "0", "none", NULL, "smooth right-angled ones, 0.25 each [ETB-208]", SURE(LAID)) \
    X(loss, NUMBER, PURE, 0, 1000, "sums of loss coefficients", "=a cap with screen outdoors, else 0 [ETB-208]", NULL, NULL, "loss coefficients of all else on the duct, summed", SURE(LAID)) \
    X(wall, WORD, PURE, 0, 0, NULL, "smooth", "common practice, no source", NULL, "sheet metal, spiral, flexible pulled out, or lined", .words = SCENARIO__WORDS(SCENARIO__WALLS)) \
    X(slack, NUMBER, PURE, 0, 0.3, "measured so far", "0 %", "pulled out", NULL, "length that a flexible duct lacks to be pulled out", SURE(LAID)) \
    X(outside, NUMBER, PURE, 0, 1, "a share of its length", "0 %", "inside", NULL, "part of its length outside the envelope", SURE(LAID)) \
    X(insulation, NUMBER, RSI, 0, 10, "duct wrap", "8 R", "common practice, no source", NULL, "of its skin", SURE(LAID))

#define SCENARIO__GRILLE_MAP(X)                                                     \
    X(room, TEXT, PURE, 0, 0, NULL, NULL, NULL, "kitchen", "name of the room") \
    X(handler, COUNT, PURE, 0, 3, "three at most", "=1 where there is one", NULL, NULL, "air handler whose supply air it lets in; 0 none", SURE(CHOSEN)) \
    X(ventilator, COUNT, PURE, 0, 3, "three at most", "=the air handler's own, else 1", NULL, NULL, "ventilator whose own ducts reach it; 0 none", SURE(CHOSEN)) \
    X(supply, NUMBER, PURE, 0, 1, "a share; those of one air handler sum to 100 %", "=none", NULL, NULL, "share of that air handler's supply air", SURE(SHARED)) \
    X(fresh, NUMBER, PURE, 0, 1, "a share; those of one ventilator sum to 100 %", "=none", NULL, NULL, "share of the fresh air by own ducts", SURE(SHARED)) \
    X(stale, NUMBER, PURE, 0, 1, "a share; those of one ventilator sum to 100 %", "=none", NULL, NULL, "share of the stale air by own ducts", SURE(SHARED)) \
    X(supply_found, NUMBER, FLOW, 0, 3, "one household's blower", "", NULL, NULL, "supply air as measured, blower at full flow", SURE(FOUND_SO)) \
    X(fresh_found, NUMBER, FLOW, 0, 1, "one household's ventilator", "", NULL, NULL, "own fresh air as measured, ventilator on, blowers off", SURE(FOUND_SO)) \
    X(stale_found, NUMBER, FLOW, 0, 1, "one household's ventilator", "", NULL, NULL, "own stale air as measured, ventilator on, blowers off", SURE(FOUND_SO)) \
    X(fresh_found_full, NUMBER, FLOW, 0, 1, "one household's ventilator", "=as fresh_found", NULL, NULL, "the same with blowers at full flow", SURE(FOUND_SO)) \
    X(stale_found_full, NUMBER, FLOW, 0, 1, "one household's ventilator", "=as stale_found", NULL, NULL, "the same with blowers at full flow", SURE(FOUND_SO)) \
    X(diameter, NUMBER, LENGTH, 0.02, 1, "branches of houses", "=by the flow", NULL, NULL, "of its own branch", SURE(LAID)) \
    X(length, NUMBER, LENGTH, 0, 100, "branches of houses", "=by ducts.length", NULL, NULL, "of its own branch", SURE(LAID)) \
    X(elbows, COUNT, PURE, 0, 20, "branches of houses", "0", "none", NULL, "on its own branch, where its length is given", SURE(LAID))

#define SCENARIO__POINT_MAP(X)                                                      \
    X(name, TEXT, PURE, 0, 0, NULL, NULL, NULL, "tee", "name that runs call it by") \
    X(place, WORD, PURE, 0, 0, NULL, "duct", "the plain case", NULL, "inside a duct, in the rooms, outdoors, or in an attic, crawl space or garage", .words = SCENARIO__WORDS(DEW_DUCT_PLACE_MAP))

/* Roles in the order of enum dew_duct_role. */
#define SCENARIO__RUN_MAP(X)                                                        \
    X(name, TEXT, PURE, 0, 0, NULL, NULL, NULL, "fresh branch", "name of the run; with the role grille or pickup, the room") \
    X(from, TEXT, PURE, 0, 0, NULL, NULL, NULL, "tee", "point it begins at; its air is counted from there") \
    X(to, TEXT, PURE, 0, 0, NULL, NULL, NULL, "house", "point it ends at") \
    X(role, WORD, PURE, 0, 0, NULL, "plain", "the plain case", NULL, "what it is to the air handler or ventilator: its fan, a side of its core, a damper that shuts with it, a grille, a pickup, return grilles, or a tie to a trunk", .words = SCENARIO__WORDS(DEW_DUCT_ROLE_MAP)) \
    X(of, COUNT, PURE, 1, 3, "three at most", "1", "the plain case", NULL, "of which air handler or ventilator; not for a grille or pickup", SURE(CHOSEN)) \
    X(kind, WORD, PURE, 0, 0, NULL, "=by its role; else a fitting where pressure is given, else a duct", NULL, NULL, "what it is built as; fans and dampers are those of a role, and what they lose is the ventilator's or air handler's", .words = SCENARIO__WORDS(SCENARIO__RUN_KIND)) \
    X(diameter, NUMBER, LENGTH, 0.02, 3, "ducts of houses", "", NULL, NULL, "of a round duct or fitting", SURE(LAID)) \
    X(width, NUMBER, LENGTH, 0.02, 3, "ducts of houses", "", NULL, NULL, "of a rectangular one", SURE(LAID)) \
    X(height, NUMBER, LENGTH, 0.02, 3, "ducts of houses", "", NULL, NULL, "of a rectangular one", SURE(LAID)) \
    X(length, NUMBER, LENGTH, 0, 1000, "ducts of houses", "", NULL, NULL, "of a duct, as laid", SURE(LAID)) \
    X(elbows, COUNT, PURE, 0, 40, "ducts of houses", "0", "none", NULL, "smooth right-angled ones, 0.25 each [ETB-208]", SURE(LAID)) \
    X(loss, NUMBER, PURE, 0, 1000, "sums of loss coefficients", "0", "none", NULL, "loss coefficients of all else on it, summed, on its own velocity pressure", SURE(LAID)) \
    X(wall, WORD, PURE, 0, 0, NULL, "smooth", "common practice, no source", NULL, "sheet metal, spiral, flexible pulled out, or lined", .words = SCENARIO__WORDS(SCENARIO__WALLS)) \
    X(pressure, NUMBER, PRESSURE, 0.1, 1000, "fittings of houses", "", NULL, NULL, "in place of a size: what a fitting or backdraft damper loses at flow", SURE(SHEET)) \
    X(flow, NUMBER, FLOW, 1e-4, 10, "one household's ducts", "", NULL, NULL, "air at which it loses that pressure", SURE(SHEET)) \
    X(leak, NUMBER, PURE, 1e-4, 1, "a share of its flow", "1 %", "our own", NULL, "air backwards through a backdraft damper, of that forwards at the same pressure", SURE(SHEET))

#define SCENARIO__FOUND_MAP(X)                                                      \
    X(blower, WORD, PURE, 0, 0, NULL, NULL, NULL, "off", "what the fastest blower did", .words = "off|low|full") \
    X(fresh, NUMBER, FLOW, 0, 1, "one household's ventilator", "", NULL, NULL, "all fresh air drawn from outdoors", SURE(FOUND_SO)) \
    X(stale, NUMBER, FLOW, 0, 1, "one household's ventilator", "", NULL, NULL, "all stale air thrown outdoors", SURE(FOUND_SO))

#define SCENARIO__FAN_MAP(X)                                                        \
    X(flow, NUMBER, FLOW, 0, 0.5, "one household's ventilator", NULL, NULL, "95 cfm", "air of one side", SURE(SHEET)) \
    X(pressure, NUMBER, PRESSURE, 0, 500, "small fans make no more", NULL, NULL, "0.3 inwg", "outside the unit at that flow", SURE(SHEET)) \
    X(power, NUMBER, POWER, 0, 1000, "one household's ventilator", "", NULL, NULL, "of the whole unit; in all rows or none", SURE(SHEET))
/* clang-format on */

enum scenario__line_column {
#define X(name, ...) LINE_##name,
    SCENARIO__LINE_MAP(X)
#undef X
        SCENARIO__LINE_COLUMNS
};
enum scenario__grille_column {
#define X(name, ...) GRILLE_##name,
    SCENARIO__GRILLE_MAP(X)
#undef X
        SCENARIO__GRILLE_COLUMNS
};
enum scenario__point_column {
#define X(name, ...) POINT_##name,
    SCENARIO__POINT_MAP(X)
#undef X
        SCENARIO__POINT_COLUMNS
};
enum scenario__run_column {
#define X(name, ...) RUN_##name,
    SCENARIO__RUN_MAP(X)
#undef X
        SCENARIO__RUN_COLUMNS
};
enum scenario__found_column {
#define X(name, ...) FOUND_##name,
    SCENARIO__FOUND_MAP(X)
#undef X
        SCENARIO__FOUND_COLUMNS
};
enum scenario__fan_column {
#define X(name, ...) FAN_##name,
    SCENARIO__FAN_MAP(X)
#undef X
        SCENARIO__FAN_COLUMNS
};

#endif
