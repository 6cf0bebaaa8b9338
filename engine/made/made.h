/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two halves of a made year: its days, then its hours. */
#ifndef DEW_MADE_MADE_H
#define DEW_MADE_MADE_H

#include "core/num.h"
#include "dew/made.h"
#include "dew/sun.h"

enum { MADE__YEAR_DAYS = 365, MADE__YEAR_HOURS = 8760 };

/* First day of each month of a typical year, from 0, and one past the last. */
extern const int made__month_start[13];
/* Month of a day, from 0. */
int made__month_of(int day);

/* One value a day. */
struct made__daily {
    double t[MADE__YEAR_DAYS];  /* degC                                 */
    double td[MADE__YEAR_DAYS]; /* degC                                 */
    double clearness[MADE__YEAR_DAYS]; /* -  of what would come without air   */
    double range[MADE__YEAR_DAYS];    /* K   highest less lowest              */
    double wind[MADE__YEAR_DAYS];     /* m/s                                  */
    double pressure[MADE__YEAR_DAYS]; /* Pa                                   */
    double beyond[MADE__YEAR_DAYS];   /* W/m2  sun beyond the air, day's mean */
};

/* One value an hour. */
struct made__hourly {
    struct dew_sun sun[MADE__YEAR_HOURS];
    double t[MADE__YEAR_HOURS], td[MADE__YEAR_HOURS];
    double global[MADE__YEAR_HOURS], wind[MADE__YEAR_HOURS];
    double pressure[MADE__YEAR_HOURS];
    double noise[MADE__YEAR_HOURS];
};

/* days->beyond is there already. */
void made__days(const struct dew_climate *place, int typical,
                struct core__random *random, struct made__daily *days);

/* hours->sun is there already. */
void made__hours(const struct dew_climate *place,
                 const struct made__daily *days, struct core__random *random,
                 struct made__hourly *hours);

#endif
