/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The outdoors: hours of weather, where and when they are, and where they
 * come from.  One convention, here and nowhere else:
 *
 *   Hour h (from 0) ENDS at its stamp: t, w, p and wind stand at the end of
 *   the hour, solar is the mean over the hour that ends there.  The year is
 *   local standard time; hour 0 of a whole year ends at 01:00 on 1 January.
 */
#ifndef DEW_WEATHER_H
#define DEW_WEATHER_H

#include <stddef.h>

#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One hour of weather.  Plain. */
struct dew_hour {
    double t;       /* degC    -70 .. 60    dry bulb                        */
    double w;       /* kg/kg     0 .. w_s   humidity ratio (liquid branch)  */
    double p;       /* Pa     50e3 .. 110e3                                 */
    double wind;    /* m/s       0 .. 80    at the station                  */
    double global;  /* W/m2      0 .. 1500  on the horizontal, hour mean    */
    double direct;  /* W/m2      0 .. 1500  normal to the beam, hour mean   */
    double diffuse; /* W/m2      0 .. 1000  on the horizontal, hour mean    */
};

/* Where a weather file or a place stands.  Plain. */
struct dew_site {
    char id[24];       /* "722020", or ""                                   */
    char name[64];     /* "MIAMI INTL AP", or ""                            */
    double latitude;   /* deg    -90 .. 90      north positive, NaN unknown */
    double longitude;  /* deg   -180 .. 180     east positive, NaN unknown  */
    double elevation;  /* m     -500 .. 6000                                */
    double utc_offset; /* h      -12 .. 14      of local standard time      */
};

/* The calendar place of one hour: what schedules are resolved by. */
struct dew_date {
    int year;    /* 0 for a typical year that mixes years                   */
    int month;   /* 1 .. 12                                                 */
    int day;     /* 1 .. 31                                                 */
    int hour;    /* 1 .. 24     the hour that ends then                     */
    int weekday; /* 0 .. 6      Monday 0; a typical year starts on a Monday */
    int yearday; /* 1 .. 366                                                */
};

struct dew_year; /* opaque: hours, dates, site, provenance, notes */

/* Borrowed from the year; *count hours, the same for both. */
const struct dew_hour *dew_year_hours(const struct dew_year *year,
                                      size_t *count);
const struct dew_date *dew_year_dates(const struct dew_year *year,
                                      size_t *count);
const struct dew_site *dew_year_site(const struct dew_year *year);
/* In words: which file or place, how made, what was filled.  Borrowed. */
const char *dew_year_provenance(const struct dew_year *year);

/* Free a year; NULL is allowed. */
void dew_year_close(struct dew_year *year);

/*
 * The hour between two stamps: t, w, p and wind linear at share (0 .. 1) of
 * the way from before to after; solar is after's, the hour's own mean.
 */
struct dew_hour dew_hour_between(const struct dew_hour *before,
                                 const struct dew_hour *after, double share);

#ifdef __cplusplus
}
#endif
#endif
