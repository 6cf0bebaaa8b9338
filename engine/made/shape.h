/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the days of a month are drawn and spread: scores of mean 0 and
   deviation 1. */
#ifndef DEW_MADE_SHAPE_H
#define DEW_MADE_SHAPE_H

#include "core/num.h"

enum { MADE__MONTH_MOST = 31 };

/* Correlation of days that hang together little: a distribution that is nearly
   normal. */
#define MADE__LOOSE_LAG 0.37

/* x no less than low and no more than high. */
double made__between(double x, double low, double high);

/* An autoregression: of the last day and, by second, of the one before. */
struct made__walk {
    double last, before;
};

/* n days of it, deviation 1, with this correlation of a day with the next. */
void made__walk_on(struct made__walk *walk, struct core__random *random,
                   double lag, double second, int n, double *out);

/* Lag of the process whose n days show lag r on average, [KENDALL54]; within
   -0.95 .. 0.95. */
double made__true_lag(double r, int n);

/* To mean 0 and deviation 1 within n days. */
void made__standardise(double *x, int n);

/* Mean of the squares. */
double made__power(const double *x, int n);

/* Take what x shares with y out of it; both standardised, x again after. */
void made__set_apart(double *x, const double *y, int n);

/*
 * What a month's days should be.  Typical: the very values, in order, of n
 * (1 .. 31) days of skewness lean whose neighbours correlate by lag, which
 * made__shape deals out by rank, so that the month meets its mean and deviation
 * and has no odd days by the luck of the draw.  Else days keep their own
 * scores, bent.
 */
struct made__spread {
    int n, typical;
    double lean;
    double value[MADE__MONTH_MOST];
};

struct made__spread made__spread_of(int n, int typical, double lean,
                                    double lag);

/* Scores of one month, in place. */
void made__shape(double *score, const struct made__spread *spread);

/* n (1 .. 31) scores in random order, a normal distribution's by rank. */
void made__deal(struct core__random *random, int n, double *out);

#endif
