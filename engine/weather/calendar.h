/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Days and seconds of the civil (Gregorian) calendar, without the C library's
 * clock.  A moment is a count of seconds from 1970-01-01 00:00 of whatever
 * clock the caller keeps; nothing here knows of zones.
 */
#ifndef DEW_WEATHER_CALENDAR_H
#define DEW_WEATHER_CALENDAR_H

#include <stdint.h>

#include "dew/weather.h"

enum {
    WEATHER__MINUTE = 60,
    WEATHER__HOUR = 3600,
    WEATHER__DAY = 86400,
    /* Year that stands in for a typical one: 365 days, starts on a Monday. */
    WEATHER__TYPICAL = 2001
};

int weather__leap(int year);
int weather__month_days(int year, int month);

/* Days from 1970-01-01; month 1 .. 12, day from 1 (may pass the month). */
int64_t weather__days(int year, int month, int day);

/* The inverse: year, month and day of the moment's day. */
void weather__civil(int64_t moment, int *year, int *month, int *day);

/* 0 .. 6, Monday 0. */
int weather__weekday(int64_t days);

/*
 * The calendar place of the hour that ends at moment (on the hour): 00:00 is
 * hour 24 of the day before.  typical: year 0 in *date.
 */
void weather__date_of(int64_t moment, int typical, struct dew_date *date);

/* The end of the hour at date; year 0 counts in WEATHER__TYPICAL. */
int64_t weather__moment_of(const struct dew_date *date);

/*
 * When summer time begins and ends in a year, by the wall clock before each
 * change.  [USC-15-260A] second Sunday of March to first of November since
 * 2007, before that first Sunday of April to last of October; [EU-2000-84]
 * last Sundays of March and October at 01:00 UTC; offset, h, of standard time
 * (NaN: 1).
 */
void weather__summer_of(enum dew_clock rule, int year, double offset,
                        int64_t *begins, int64_t *ends);

#endif
