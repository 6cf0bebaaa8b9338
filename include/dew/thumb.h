/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Rules of thumb of the trade beside what this house comes to, and why they
 * part where they do.  A rule that has nothing to say of this house, or that
 * the study holds no figure for, is left out.
 */
#ifndef DEW_THUMB_H
#define DEW_THUMB_H

#include "dew/verdict.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What a figure counts; SI as always, shares 0 .. 1. */
enum dew_thumb_unit {
    DEW_THUMB_SHARE,
    DEW_THUMB_PLAIN,
    DEW_THUMB_CORE,       /* 0 heat, 1 enthalpy, 0.5 either                 */
    DEW_THUMB_HOURS,      /* h a year                                       */
    DEW_THUMB_FLOW,       /* m3/s                                           */
    DEW_THUMB_WATER_RATE, /* kg/s                                           */
    DEW_THUMB_WATER,      /* kg a year                                      */
    DEW_THUMB_ENERGY,     /* J a year                                       */
    DEW_THUMB_PER_ENERGY, /* kg/J                                           */
    DEW_THUMB_PER_FAN,    /* m3/J                                           */
    DEW_THUMB_PER_TON,    /* kg/s per W                                     */
    DEW_THUMB_MONEY
};

enum dew_thumb_says { DEW_THUMB_AGREES, DEW_THUMB_DIFFERS };

/* key, words, source */
/* clang-format off */
#define DEW_THUMB_MAP(X)                                                       \
    X(humid_60, "Keep relative humidity below 60 %: hours above it",           \
      "[EPA-COURSE]")                                                          \
    X(winter_ceiling, "Winter ceiling for double glazing, coldest weather "    \
      "here: humidity at which the frame wets", "[MN-DPS]")                    \
    X(rate_now, "Fresh air: 7.5 cfm for each bedroom and one more, and 3 cfm " \
      "per 100 ft2", "[ASH-622] 2013 and later")                               \
    X(rate_old, "Fresh air, older and code form: 7.5 cfm for each bedroom "    \
      "and one more, and 1 cfm per 100 ft2", "[ASH-622] to 2010, [IRC-M1505]")     \
    X(rate_rooms, "Fresh air by rooms: 20 cfm for the main bedroom and 10 for "\
      "each other room (four more than bedrooms counted)",                     \
      "R-2000, a provincial builders' programme")                              \
    X(half_time, "A fan that runs half the time moves twice the air: factor "  \
      "for 12 hours on, 12 off", "practice under [ASH-622]")                   \
    X(not_dryer, "An enthalpy core is no dehumidifier: water that its air "    \
      "brings in the most humid month", "a contractors' association")          \
    X(core_choice, "Heat core for cold or crowded houses, enthalpy core for "  \
      "humid summers or dry winters",                                          \
      "a state university's housing pages, trade press")                       \
    X(dew_60, "Outdoor dew point above 60 degF: keep it out.  Hours in which " \
      "that and the house's own dew point say the same",                       \
      "trade press")                                                           \
    X(fan_auto, "Fan AUTO, not ON: water put back, more than the house as it " \
      "stands", "several contractors' pages")                                  \
    X(ton_water, "Cooling takes out 3 lb/h per ton while it runs",             \
      "a trade forum")                                                         \
    X(cool_half, "Cooling holds 50 % only if it runs more than half of each "  \
      "hour: its mean running in the hours of 50 % or less",                   \
      "a trade forum")                                                         \
    X(own_best, "Own ducts are best: hours too humid beside the tie-in",       \
      "US Department of Energy, trade press")                                  \
    X(no_damper, "Tied in without a motorised damper: outdoor air unplanned",  \
      "trade press")                                                           \
    X(balance, "Supply and exhaust within 10 % of each other",                 \
      "makers' manuals, R-2000")                                               \
    X(sensible_76, "Sensible effectiveness of 76 % or more",                   \
      "a state university's housing pages")                                    \
    X(fan_15, "Ventilator: 1.5 cfm per watt or more",                          \
      "a state university's housing pages")                                    \
    X(family_water, "A family sets free 11 to 14.6 lb a day for three persons",\
      "a building consultant's page")                                          \
    X(first_year, "A new house is worst in its first year: hours too humid "   \
      "more than once dry", "trade press")                                     \
    X(dryer_1000, "A dehumidifier uses about 1,000 kWh a year",                \
      "two electric utilities' pages")                                         \
    X(dryer_factor, "A dehumidifier takes out 1.2 to 3.75 L/kWh",              \
      "trade press")                                                           \
    X(cost_balanced, "A balanced system with ducts costs $6,000 to 8,000 "     \
      "(smaller house, Alaska, 2015)", "a newspaper, on a cold-climate study") \
    X(tight_3, "At 3 air changes at 50 Pa or less: mechanical ventilation.  "  \
      "Leakage here beside the fresh air asked for",                           \
      "a published builders' guide")
/* clang-format on */

enum dew_thumb_rule {
#define X(name, words, source) DEW_THUMB_##name,
    DEW_THUMB_MAP(X)
#undef X
        DEW_THUMB_RULES
};

/* One rule beside its figure.  Plain; strings are static. */
struct dew_thumb {
    enum dew_thumb_rule rule;
    enum dew_thumb_unit unit;
    double low, high; /* what the rule says; NaN = open on that side        */
    double slack;     /* -  of low and high: so far outside still agrees    */
    double found;     /* what this house comes to                           */
    int option;       /* the option it is taken from, or DEW_NO_OPTION      */
    enum dew_thumb_says says;
    const char *why; /* why they differ, or agree none the less; or ""      */
};

/* "humid_60", the rule in words, and whose it is; never NULL. */
const char *dew_thumb_key(enum dew_thumb_rule rule);
const char *dew_thumb_words(enum dew_thumb_rule rule);
const char *dew_thumb_source(enum dew_thumb_rule rule);

/* The rules that have something to say, in the order of the list; returns how
   many; out has room for DEW_THUMB_RULES. */
size_t dew_thumb_of(const struct dew_question *question,
                    struct dew_thumb out[DEW_THUMB_RULES]);

#ifdef __cplusplus
}
#endif
#endif
