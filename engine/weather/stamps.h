/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a cell says of the time, before anybody decides which of its two small
 * numbers is the month and which clock it was read from.
 */
#ifndef DEW_WEATHER_STAMPS_H
#define DEW_WEATHER_STAMPS_H

#include <stdint.h>

struct weather__stamp {
    int has_date, has_clock, has_zone;
    int ordered; /* a is the month for certain: the year came first        */
    int year;    /* two digits: 00 .. 69 are 2000 .. 2069                  */
    int a, b;    /* as written; month and day, or day and month            */
    int seconds; /* of the day, 0 .. 86400                                 */
    int zone;    /* s east of UTC, with has_zone                           */
};

/*
 * Read text (ended by NUL) into *out.  Forms: 2020-01-31, 2020/1/31, 20200131,
 * 1/31/2020, 31.1.20; 1:00, 01:00:00, 24:00, 3:15 PM; the two together with a
 * space, T, colon or comma between; Z, UTC, GMT+2, +02:00 behind; Unix seconds
 * of 10 digits or milliseconds of 13.
 *
 * Returns 1, or 0 when the text is none of these or names no such day or hour.
 */
int weather__stamp_read(const char *text, struct weather__stamp *out);

/*
 * A zone said in words, as in a header: "utc+1", "GMT-05:00", "(UTC)".
 * Returns 1 and *zone in s east of UTC.
 */
int weather__zone_read(const char *text, int *zone);

#endif
