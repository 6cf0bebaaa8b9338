/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two halves of a made year: its days, then its hours. */
#ifndef DEW_MADE_MADE_H
#define DEW_MADE_MADE_H

#include "core/num.h"
#include "dew/made.h"
#include "dew/sun.h"

enum { DEW__YEAR_DAYS = 365, DEW__YEAR_HOURS = 8760 };

/* First day of each month of a typical year, from 0, and one past the last. */
extern const int dew__month_start[13];
/* Month of a day, from 0. */
int dew__month_of(int day);

/* One value a day. */
struct dew__daily {
    double t[DEW__YEAR_DAYS];         /* degC                                 */
    double td[DEW__YEAR_DAYS];        /* degC                                 */
    double clearness[DEW__YEAR_DAYS]; /* -  of what would come without air   */
    double range[DEW__YEAR_DAYS];     /* K   highest less lowest              */
    double wind[DEW__YEAR_DAYS];      /* m/s                                  */
    double pressure[DEW__YEAR_DAYS];  /* Pa                                   */
    double beyond[DEW__YEAR_DAYS];    /* W/m2  sun beyond the air, day's mean */
};

/* One value an hour. */
struct dew__hourly {
    struct dew_sun sun[DEW__YEAR_HOURS];
    double t[DEW__YEAR_HOURS], td[DEW__YEAR_HOURS];
    double global[DEW__YEAR_HOURS], wind[DEW__YEAR_HOURS];
    double pressure[DEW__YEAR_HOURS];
    double noise[DEW__YEAR_HOURS];
};

/* days->beyond is there already. */
void dew__made_days(const struct dew_climate *place, int typical,
                    struct dew__random *random, struct dew__daily *days);

/* hours->sun is there already. */
void dew__made_hours(const struct dew_climate *place,
                     const struct dew__daily *days, struct dew__random *random,
                     struct dew__hourly *hours);

#endif
