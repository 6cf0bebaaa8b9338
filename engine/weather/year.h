/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The body of a weather year, for the parts of this floor that build one:
 *
 *     weather__year_open(&year, 8760, err)
 *     weather__year_append(year, &hour, err)      once an hour, in order
 *     weather__year_say(year, "made from ...")    once or more, joined by "; "
 *     weather__year_finish(year, first, typical, err)
 *
 * On an error the builder calls dew_year_close.
 */
#ifndef DEW_WEATHER_YEAR_H
#define DEW_WEATHER_YEAR_H

#include <stdint.h>

#include "dew/sun.h"
#include "dew/weather.h"

struct dew_year {
    struct dew_site site;
    struct dew_hour *hours;
    struct dew_date *dates; /* filled by finish            */
    size_t count, room;
    char provenance[900];
    enum dew_sky_by sky; /* where the hours' sky comes from                 */
};

/*
 * An empty year with room (>= 1) for hours; it grows when more come.  The site
 * has no name and NaN coordinates, which the builder fills.
 *
 * Owner      on DEW_OK *year is the caller's, for dew_year_close; else NULL.
 * Errors     DEW_EMEM.
 */
enum dew_status weather__year_open(struct dew_year **year, size_t room,
                                   struct dew_error *err);

/* Errors: DEW_EMEM. */
enum dew_status weather__year_append(struct dew_year *year,
                                     const struct dew_hour *hour,
                                     struct dew_error *err);

/* Add words to the provenance; cut at its end, never overrun. */
void weather__year_say(struct dew_year *year, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/*
 * Give every hour its date: hour 0 ends at moment first (calendar.h), the
 * others follow without a gap.  typical: year 0 in the dates; first is then
 * weather__days(WEATHER__TYPICAL, 1, 1) * WEATHER__DAY + WEATHER__HOUR.
 *
 * Errors     DEW_EMEM; DEW_EMISSING when there is no hour.
 */
enum dew_status weather__year_finish(struct dew_year *year, int64_t first,
                                     int typical, struct dew_error *err);

/* Set the sky of every hour that has NaN there; for when site, dates, air and
   light stand.  suns: dew_weather_sun of each hour, where they are at hand; else
   NULL. */
void weather__year_sky(struct dew_year *year, const struct dew_sun *suns);
/* 1 where the file itself has it for most hours. */
int weather__sky_of_file(const struct dew_year *year);

#endif
