/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much air a rule asks for.  Rules disagree; each has its name and edition
 * and none is the truth.  Flows m3/s, areas m2; where a rule is written in cfm
 * and ft2 those are its exact conversions.  NaN outside a rule's range.  A
 * local code and its inspector come first.
 */
#ifndef DEW_RATES_H
#define DEW_RATES_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* code, key, what it is */
#define DEW_RATE_MAP(X)                                                        \
    X(622_2013, "62.2-2013",                                                   \
      "ASHRAE 62.2, 2013 and later: 0.03 cfm/ft2 + 7.5 cfm (bedrooms + 1)")    \
    X(622_2013_TABLE, "62.2-2013-table", "the same by its table 4.1a")         \
    X(622_2013_METRIC, "62.2-2013-metric",                                     \
      "the same as its metric edition rounds: 0.15 L/s m2 + 3.5 L/s")          \
    X(622_2010, "62.2-2010",                                                   \
      "ASHRAE 62.2 to 2010, IRC: 0.01 cfm/ft2 + 7.5 cfm (bedrooms + 1)")       \
    X(IRC_TABLE, "irc-table",                                                  \
      "IRC model code, 2018 and later: table M1505.4.3(1)")                    \
    X(IRC_2021_WA_TABLE, "irc-2021-wa-table",                                  \
      "IRC 2021 as amended by Washington State: table M1505.4.3(1)")           \
    X(ADF_2021, "adf-2021",                                                    \
      "England, Approved Document F 2021: table 1.3, at least 0.3 L/s m2")     \
    X(ADF_2010, "adf-2010",                                                    \
      "England, Approved Document F 2010: by bedrooms, at least 0.3 L/s m2")   \
    X(EN16798_I, "en-16798-1-I", "EN 16798-1 category I, from memory")         \
    X(EN16798_II, "en-16798-1-II", "EN 16798-1 category II, from memory")      \
    X(EN16798_III, "en-16798-1-III", "EN 16798-1 category III, from memory")   \
    X(EN16798_IV, "en-16798-1-IV", "EN 16798-1 category IV, from memory")      \
    X(ACH_035, "0.35-ach",                                                     \
      "older ASHRAE rule: 0.35 air changes an hour, at least 15 cfm a person")

enum dew_rate_rule {
#define X(code, key, words) DEW_RATE_##code,
    DEW_RATE_MAP(X)
#undef X
        DEW_RATE_RULES
};

/* Key and words of a rule; NULL for none. */
const char *dew_house_rate_key(enum dew_rate_rule rule);
const char *dew_house_rate_words(enum dew_rate_rule rule);

struct dew_dwelling {
    double floor_area; /* m2   10 .. 2000                                   */
    double volume;     /* m3   read by 0.35-ach only                        */
    int bedrooms;      /* 0 .. 12                                           */
    double persons;    /* read by 0.35-ach only                             */
};

/*
 * Whole-house rate, m3/s.  The tables of 62.2 and of Washington end at 5000
 * ft2, NaN beyond, and hold 5 bedrooms and more as 5; the model table has no
 * end.  A house without a bedroom counts as of one [UPC-E]; in England as of
 * one habitable room, 13 L/s.
 *
 * Sources    [ASH-622] eq. 4.1a and table 4.1a, as reprinted in [UPC-E];
 *            [IRC-M1505] (row 1501 to 3000 ft2 quoted, the others from memory, in
 *            the same steps); [IRC21-WA]; [ADF21]; [EN16798], from memory.
 * Checked    test_rates.c: each cell of the three tables.
 */
double dew_house_rate(enum dew_rate_rule rule, const struct dew_dwelling *home);

/* ---- with the infiltration credit of leakage.h -------------------------- */

enum dew_credit_rule {
    DEW_CREDIT_NONE,
    DEW_CREDIT_2013,     /* a house that stands already                     */
    DEW_CREDIT_2013_NEW, /* one being built                                 */
    DEW_CREDIT_2016
};

/*
 * Flow left for the fan, m3/s: 2013, total - credit, the whole credit in a
 * house that stands already [NREL-SWS], at most 2/3 of total in a new one
 * [PRIMER-622]; 2016, total - phi credit with phi = 1 where balanced, else
 * credit / total: from memory.
 */
double dew_house_fan_rate(enum dew_credit_rule rule, double total,
                          double credit, int balanced);

/* ---- intermittent running ----------------------------------------------- */

/*
 * Effectiveness of a fan that runs share of each cycle and then must carry
 * flow_mean / (effectiveness share), for the same mean concentration of a
 * steady source with no flow between: exact for one mixed zone.
 *
 *     share   -   0 < .. 1
 *     turns   -   > 0      mean flow x cycle / volume
 *
 * NaN where no flow can do it: turns >= 2 / (1 - share)^2.
 * Accuracy   1e-12 (bracketed halving, 200 steps at most).
 * Checked    test_rates.c, effectiveness_rows.
 */
double dew_house_effectiveness(double share, double turns);

/*
 * The other way: steady flow, m3/s, of the same mean concentration as a fan of
 * on m3/s that runs share of each cycle, s, in a house of volume, m3.
 */
double dew_house_steady(double on, double share, double cycle, double volume);

/* ---- local exhaust ------------------------------------------------------ */

enum dew_room { DEW_KITCHEN, DEW_BATH, DEW_UTILITY, DEW_TOILET };
enum dew_running { DEW_WHEN_NEEDED, DEW_CONTINUOUS };

struct dew_exhaust_rule {
    const char *rule; /* "62.2", "irc-2021-wa", "irc", "adf-2021"          */
    enum dew_room room;
    enum dew_running running;
    double flow;      /* m3/s, or 0 where it is by air changes             */
    double changes;   /* 1/h of the room, or 0                             */
    const char *note; /* "", "with a hood", "gas, capture 80 %"            */
};

const struct dew_exhaust_rule *dew_house_locals(size_t *count);

#ifdef __cplusplus
}
#endif
#endif
