/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Fresh air beside what the rules ask for: each rule with its edition, the
 * hours below it, what leakage may be credited, local exhaust, and what people
 * breathe out.
 */
#ifndef DEW_FRESH_H
#define DEW_FRESH_H

#include "dew/rates.h"
#include "dew/verdict.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What the rules ask of this house, m3/s; NaN outside a rule's range. */
struct dew_dwelling dew_fresh_dwelling(const struct dew_question *question);

/*
 * Hours of the run in which an option brings less than asked (m3/s) of the
 * air that counts: see dew_verdict_air.
 */
double dew_fresh_hours_below(const struct dew_question *question, size_t option,
                             double asked);

/* Weather and shielding factors of the infiltration credit run from 0.37 to
   1.0 by station, [ASH-622], from memory; its table is not kept here. */
#define DEW_FRESH_WSF_LOW  0.37
#define DEW_FRESH_WSF_HIGH 1.0

/* What of the leaks [ASH-622] would count, m3/s. */
struct dew_fresh_credit {
    double low, high; /* by the form of 2016, least and largest factor      */
    double model;     /* mean leakage of the year, house as it stands       */
    double left_2013; /* fan's flow after the middle credit, 2013           */
    double left_2013_new; /* the same for a house being built               */
    double left_2016; /* 2016, balanced                                     */
    double left_2016_one_sided;
};

/* Of the house as it stands; storeys 1 .. 3. */
struct dew_fresh_credit dew_fresh_credit_of(const struct dew_question *question,
                                            double storeys);

/* A room's local exhaust by one rule; NaN where it says nothing, or is by air
   changes of a room whose size is not known. */
struct dew_fresh_local {
    const char *rule; /* "62.2", "irc", "irc-2021-wa", "adf-2021"            */
    enum dew_room room;
    double needed;     /* m3/s   run when needed                             */
    double continuous; /* m3/s   run all the time                            */
    double changes;    /* 1/h    run all the time, by the room's volume      */
    double here;       /* m3/s   the fan that the option has; 0 = none told  */
};

enum { DEW_FRESH_LOCALS = 16 };

/* Kitchen and bath by every rule, of one option; returns how many. */
size_t dew_fresh_locals(const struct dew_question *question, size_t option,
                        struct dew_fresh_local out[DEW_FRESH_LOCALS]);

/* ppm   steady, all people at home, in the fresh air asked for and as the mean
   of those present; NaN where none is asked. */
double dew_fresh_co2(const struct dew_question *question);

#ifdef __cplusplus
}
#endif
#endif
