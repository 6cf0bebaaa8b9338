/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/calendar.h"

#include <math.h>

int weather__leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

int weather__month_days(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

    return days[month - 1] + (month == 2 && weather__leap(year));
}

/*
 * Count years from March, so that the leap day is the last of its year; 400
 * years have 146097 days; 1970-01-01 is day 719468 of that count.
 */
int64_t weather__days(int year, int month, int day)
{
    int64_t y = year - (month <= 2);
    int64_t era = (y >= 0 ? y : y - 399) / 400;
    int64_t in_era = y - era * 400;
    int64_t in_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
    int64_t days = in_era * 365 + in_era / 4 - in_era / 100 + in_year;

    return era * 146097 + days - 719468;
}

static int64_t floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

void weather__civil(int64_t moment, int *year, int *month, int *day)
{
    int64_t z = floor_div(moment, WEATHER__DAY) + 719468;
    int64_t era = floor_div(z, 146097);
    int64_t d = z - era * 146097;
    int64_t y = (d - d / 1460 + d / 36524 - d / 146096) / 365;
    int64_t in_year = d - (365 * y + y / 4 - y / 100);
    int64_t m = (5 * in_year + 2) / 153;

    *day = (int)(in_year - (153 * m + 2) / 5 + 1);
    *month = (int)(m + (m < 10 ? 3 : -9));
    *year = (int)(y + era * 400 + (*month <= 2));
}

int weather__weekday(int64_t days)
{
    int64_t w = (days + 3) % 7; /* 1970-01-01 was a Thursday */

    return (int)(w < 0 ? w + 7 : w);
}

void weather__date_of(int64_t moment, int typical, struct dew_date *date)
{
    int64_t within = moment - WEATHER__HOUR; /* the start of the hour */
    int64_t days = floor_div(within, WEATHER__DAY);
    int year, month, day;

    weather__civil(within, &year, &month, &day);
    date->year = typical ? 0 : year;
    date->month = month;
    date->day = day;
    date->hour = (int)((within - days * WEATHER__DAY) / WEATHER__HOUR) + 1;
    date->weekday = weather__weekday(days);
    date->yearday = (int)(days - weather__days(year, 1, 1)) + 1;
}

int64_t weather__moment_of(const struct dew_date *date)
{
    int year = date->year == 0 ? WEATHER__TYPICAL : date->year;

    return weather__days(year, date->month, date->day) * WEATHER__DAY +
           (int64_t)date->hour * WEATHER__HOUR;
}

/* ---- summer time ------------------------------------------------------------ */

/* The day of month of the nth Sunday (from 1), or of the last one (n 0). */
static int sunday(int year, int month, int n)
{
    int first = 7 - weather__weekday(weather__days(year, month, 1));
    int last = first;

    while (last + 7 <= weather__month_days(year, month))
        last += 7;
    return n > 0 ? first + 7 * (n - 1) : last;
}

void weather__summer_of(enum dew_clock rule, int year, double offset,
                        int64_t *begins, int64_t *ends)
{
    int us = rule == DEW_CLOCK_US;
    int late = us && year >= 2007;
    int spring = us && !late ? 4 : 3, autumn = late ? 11 : 10;
    int first = sunday(year, spring, late ? 2 : us ? 1 : 0);
    int last = sunday(year, autumn, late ? 1 : 0);
    int hour = us ? 2 : 1 + (int)(isnan(offset) ? 1.0 : floor(offset));

    *begins = weather__days(year, spring, first) * WEATHER__DAY +
              (int64_t)hour * WEATHER__HOUR;
    *ends = weather__days(year, autumn, last) * WEATHER__DAY +
            (int64_t)(us ? 2 : hour + 1) * WEATHER__HOUR;
}

struct dew_date dew_weather_by_clock(const struct dew_date *date,
                                     enum dew_clock clock, double utc_offset)
{
    /* the first year of today's rule whose days are those of WEATHER__TYPICAL */
    int year = date->year == 0 ? 2007 : date->year;
    int64_t end, begins, ends;
    struct dew_date wall = *date;

    if (clock != DEW_CLOCK_US && clock != DEW_CLOCK_EU)
        return wall;
    end = weather__days(year, date->month, date->day) * WEATHER__DAY +
          (int64_t)date->hour * WEATHER__HOUR;
    weather__summer_of(clock, year, utc_offset, &begins, &ends);
    if (end > begins && end <= ends - WEATHER__HOUR)
        weather__date_of(end + WEATHER__HOUR, date->year == 0, &wall);
    return wall;
}
