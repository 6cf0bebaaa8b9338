/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Words of keys that no enum of the floors below has: one list gives the words
 * of a row, DEW__WORDS(list), and their places, WHAT_word.  Where an enum
 * below has them, the row takes that enum's list, its own or the house's:
 * X(what, word).  Private to engine/scenario/.
 */
#ifndef DEW_SCENARIO_WORDS_H
#define DEW_SCENARIO_WORDS_H

/* "|one|two" of a list; what of a list X(word, meaning); and cut for a row. */
#define DEW__WORD(what, word)   "|" #word
#define DEW__NAME_OF(word, ...) "|" #word
#define DEW__WORDS(list)        (&("" list(DEW__WORD))[1])
#define DEW__NAMES(list)        (&("" list(DEW__NAME_OF))[1])
#define DEW__OR_NONE(list)      ("none" list(DEW__WORD))
#define DEW__PLACE(what, word)  what##_##word,

/* clang-format off */
#define DEW__INFILTRATION(X) X(INFILTRATION, enhanced) X(INFILTRATION, basic) X(INFILTRATION, constant)
#define DEW__FOUNDATION(X)   X(FOUNDATION, slab) X(FOUNDATION, basement) X(FOUNDATION, crawl_space)
#define DEW__COOKING(X)      X(COOKING, electric) X(COOKING, gas) X(COOKING, none)
#define DEW__HABIT(X)        X(HABIT, warm_weather) X(HABIT, dew_point)
#define DEW__FRESH_AIR(X)    X(FRESH_AIR, floor_and_bedrooms) X(FRESH_AIR, floor_and_bedrooms_old) X(FRESH_AIR, none)
#define DEW__HEATING(X)      X(HEATING, none) X(HEATING, electric) X(HEATING, gas) X(HEATING, oil) X(HEATING, propane) X(HEATING, wood) X(HEATING, heat_pump)
#define DEW__HANDLERS_RUN(X) X(HANDLERS, even_split) X(HANDLERS, lead_lag)
#define DEW__CAPACITY_IS(X)  X(CAPACITY, net) X(CAPACITY, gross)
#define DEW__EXCHANGE(X)     X(EXCHANGE, counterflow) X(EXCHANGE, crossflow) X(EXCHANGE, headered)
#define DEW__HUMIDIFIER(X)   X(HUMIDIFIER, evaporative) X(HUMIDIFIER, steam)
#define DEW__VENTILATORS(X)  X(VENTILATORS, shared) X(VENTILATORS, one_each)
#define DEW__DUCTS_LIE(X)    X(DUCTS_IN, attic) X(DUCTS_IN, crawl_space) X(DUCTS_IN, outdoors)
#define DEW__LINES(X)        X(LINE_IS, intake) X(LINE_IS, discharge) X(LINE_IS, fresh) X(LINE_IS, stale) X(LINE_IS, supply_trunk) X(LINE_IS, return_trunk)
#define DEW__RUN_KIND(X)     X(RUN_IS, duct) X(RUN_IS, fitting) X(RUN_IS, backdraft) X(RUN_IS, damper) X(RUN_IS, fan)
#define DEW__WALLS(X)        X("galvanized, round", smooth) X("galvanized, spiral", spiral) X("flexible", flexible) X("lined, faced", lined)

enum { DEW__INFILTRATION(DEW__PLACE) };
enum { DEW__FOUNDATION(DEW__PLACE) };
enum { DEW__COOKING(DEW__PLACE) };
enum { DEW__HABIT(DEW__PLACE) };
enum { DEW__FRESH_AIR(DEW__PLACE) };
enum { DEW__HEATING(DEW__PLACE) };
enum { DEW__HANDLERS_RUN(DEW__PLACE) };
enum { DEW__CAPACITY_IS(DEW__PLACE) };
enum { DEW__EXCHANGE(DEW__PLACE) };
enum { DEW__HUMIDIFIER(DEW__PLACE) };
enum { DEW__VENTILATORS(DEW__PLACE) };
enum { DEW__DUCTS_LIE(DEW__PLACE) };
enum { DEW__LINES(DEW__PLACE) };
enum { DEW__RUN_KIND(DEW__PLACE) };
/* clang-format on */

#endif
