/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the days of a month should be beyond its own figures. */
#ifndef DEW_MADE_AIM_H
#define DEW_MADE_AIM_H

#include "dew/climate.h"

enum { MADE__LAGS = 3, MADE__MONTHS = 12 };

/* How far each month of a year is from the usual: scores of mean 0 and
   deviation 1. */
struct made__odd {
    double t_lean[MADE__MONTHS], td_lean[MADE__MONTHS];
    double t_lag[MADE__MONTHS], td_lag[MADE__MONTHS];
};

/* What a month's other weather tells of its wind, in deviations of the wind's
   logarithm. */
struct made__told {
    double next;  /* 1/K  by t of the next day less that of the day          */
    double last;  /* 1/K  by how far t is from the last day's                */
    double range; /* -    by the score of the day's range                    */
    double dry;   /* -    of its dryness                                     */
    double cold;  /* -    of its t                                           */
    double dew;   /* -    of its dew point                                   */
};

struct made__aim {
    double t[MADE__LAGS], td[MADE__LAGS]; /* -  correlation of a day with the
                                           next, the second and the third    */
    double t_lean, td_lean;          /* -  skewness                       */
    double range_spread, range_lean; /* -  deviation over the mean        */
    double td_stray; /* -  change of the hours' dew point's stray within a day
                           for each deviation of a day above the month's    */
    double wind_spread, wind_lean; /* -                                 */
    struct made__told told;
};

/* The usual month of these figures. */
struct made__aim made__aim_of(const struct dew_normal *now);

/* Move month m (0 ..) of a typical year as far from the usual as real months
   are: odd months make the rare hours. */
void made__aim_odd(struct made__aim *aim, const struct dew_normal *now,
                   const struct made__odd *odd, int m);

#endif
