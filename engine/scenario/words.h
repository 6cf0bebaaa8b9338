/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Words of keys that no enum of the floors below has: one list gives the words
 * of a row, SCENARIO__WORDS(list), and their places, WHAT_word.  Where an enum
 * below has them, the row takes that enum's list, its own or the house's:
 * X(what, word).  Private to engine/scenario/.
 */
#ifndef DEW_SCENARIO_WORDS_H
#define DEW_SCENARIO_WORDS_H

/* "|one|two" of a list; what of a list X(word, meaning); and cut for a row. */
#define SCENARIO__WORD(what, word)   "|" #word
#define SCENARIO__NAME_OF(word, ...) "|" #word
#define SCENARIO__WORDS(list)        (&("" list(SCENARIO__WORD))[1])
#define SCENARIO__NAMES(list)        (&("" list(SCENARIO__NAME_OF))[1])
#define SCENARIO__OR_NONE(list)      ("none" list(SCENARIO__WORD))
#define SCENARIO__PLACE(what, word)  what##_##word,

/* clang-format off */
#define SCENARIO__INFILTRATION(X) X(INFILTRATION, enhanced) X(INFILTRATION, basic) X(INFILTRATION, constant)
#define SCENARIO__FOUNDATION(X)   X(FOUNDATION, slab) X(FOUNDATION, basement) X(FOUNDATION, crawl_space)
#define SCENARIO__COOKING(X)      X(COOKING, electric) X(COOKING, gas) X(COOKING, none)
#define SCENARIO__HABIT(X)        X(HABIT, warm_weather) X(HABIT, dew_point)
#define SCENARIO__FRESH_AIR(X)    X(FRESH_AIR, floor_and_bedrooms) X(FRESH_AIR, floor_and_bedrooms_old) X(FRESH_AIR, none)
#define SCENARIO__HEATING(X)      X(HEATING, none) X(HEATING, electric) X(HEATING, gas) X(HEATING, oil) X(HEATING, propane) X(HEATING, wood) X(HEATING, heat_pump)
#define SCENARIO__HANDLERS_RUN(X) X(HANDLERS, even_split) X(HANDLERS, lead_lag)
#define SCENARIO__CAPACITY_IS(X)  X(CAPACITY, net) X(CAPACITY, gross)
#define SCENARIO__EXCHANGE(X)     X(EXCHANGE, counterflow) X(EXCHANGE, crossflow) X(EXCHANGE, headered)
#define SCENARIO__HUMIDIFIER(X)   X(HUMIDIFIER, evaporative) X(HUMIDIFIER, steam)
#define SCENARIO__VENTILATORS(X)  X(VENTILATORS, shared) X(VENTILATORS, one_each)
#define SCENARIO__DUCTS_LIE(X)    X(DUCTS_IN, attic) X(DUCTS_IN, crawl_space) X(DUCTS_IN, outdoors)
#define SCENARIO__LINES(X)        X(LINE_IS, intake) X(LINE_IS, discharge) X(LINE_IS, fresh) X(LINE_IS, stale) X(LINE_IS, supply_trunk) X(LINE_IS, return_trunk)
#define SCENARIO__RUN_KIND(X)     X(RUN_IS, duct) X(RUN_IS, fitting) X(RUN_IS, backdraft) X(RUN_IS, damper) X(RUN_IS, fan)
#define SCENARIO__WALLS(X)        X("galvanized, round", smooth) X("galvanized, spiral", spiral) X("flexible", flexible) X("lined, faced", lined)

enum { SCENARIO__INFILTRATION(SCENARIO__PLACE) };
enum { SCENARIO__FOUNDATION(SCENARIO__PLACE) };
enum { SCENARIO__COOKING(SCENARIO__PLACE) };
enum { SCENARIO__HABIT(SCENARIO__PLACE) };
enum { SCENARIO__FRESH_AIR(SCENARIO__PLACE) };
enum { SCENARIO__HEATING(SCENARIO__PLACE) };
enum { SCENARIO__HANDLERS_RUN(SCENARIO__PLACE) };
enum { SCENARIO__CAPACITY_IS(SCENARIO__PLACE) };
enum { SCENARIO__EXCHANGE(SCENARIO__PLACE) };
enum { SCENARIO__HUMIDIFIER(SCENARIO__PLACE) };
enum { SCENARIO__VENTILATORS(SCENARIO__PLACE) };
enum { SCENARIO__DUCTS_LIE(SCENARIO__PLACE) };
enum { SCENARIO__LINES(SCENARIO__PLACE) };
enum { SCENARIO__RUN_KIND(SCENARIO__PLACE) };
/* clang-format on */

#endif
