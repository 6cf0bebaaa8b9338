/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/year.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "weather/calendar.h"
#include "weather/hour_step.h"

enum dew_status weather__year_open(struct dew_year **year, size_t room,
                                   struct dew_error *err)
{
    struct dew_year *y = calloc(1, sizeof *y);

    *year = NULL;
    if (y != NULL)
        y->hours = malloc(room * sizeof *y->hours);
    if (y == NULL || y->hours == NULL) {
        free(y);
        return core__fail(err, DEW_EMEM, "no memory for %zu hours", room);
    }
    y->room = room;
    y->site.latitude = y->site.longitude = NAN;
    y->site.elevation = y->site.utc_offset = NAN;
    *year = y;
    return DEW_OK;
}

enum dew_status weather__year_append(struct dew_year *year,
                                     const struct dew_hour *hour,
                                     struct dew_error *err)
{
    if (year->count == year->room) {
        size_t room = year->room + year->room / 2 + 24;
        struct dew_hour *more = realloc(year->hours, room * sizeof *more);

        if (more == NULL)
            return core__fail(err, DEW_EMEM, "no memory for %zu hours", room);
        year->hours = more;
        year->room = room;
    }
    year->hours[year->count++] = *hour;
    return DEW_OK;
}

void weather__year_say(struct dew_year *year, const char *format, ...)
{
    size_t used = strlen(year->provenance);
    size_t left = sizeof year->provenance - used;
    va_list args;

    if (used > 0 && left > 3) {
        memcpy(year->provenance + used, "; ", 3);
        used += 2;
        left -= 2;
    }
    va_start(args, format);
    vsnprintf(year->provenance + used, left, format, args);
    va_end(args);
}

enum dew_status weather__year_finish(struct dew_year *year, int64_t first,
                                     int typical, struct dew_error *err)
{
    if (year->count == 0)
        return core__fail(err, DEW_EMISSING, "no hour of weather");
    free(year->dates);
    year->dates = malloc(year->count * sizeof *year->dates);
    if (year->dates == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu dates",
                          year->count);
    for (size_t h = 0; h < year->count; h++)
        weather__date_of(first + (int64_t)h * WEATHER__HOUR, typical,
                         &year->dates[h]);
    return DEW_OK;
}

const struct dew_hour *dew_year_hours(const struct dew_year *year,
                                      size_t *count)
{
    *count = year->count;
    return year->hours;
}

const struct dew_date *dew_year_dates(const struct dew_year *year,
                                      size_t *count)
{
    *count = year->count;
    return year->dates;
}

const struct dew_site *dew_year_site(const struct dew_year *year)
{
    return &year->site;
}

const char *dew_year_provenance(const struct dew_year *year)
{
    return year->provenance;
}

/* The first lane of an hour that is no number, or NULL. */
static const char *lacking(const struct dew_hour *h)
{
    const struct {
        const char *name;
        double x;
    } lanes[] = {
        {"temperature", h->t},
        {"humidity", h->w},
        {"pressure", h->p},
        {"wind speed", h->wind},
        {"global solar", h->global},
        {"direct solar", h->direct},
        {"diffuse solar", h->diffuse},
    };

    for (size_t i = 0; i < sizeof lanes / sizeof lanes[0]; i++)
        if (isnan(lanes[i].x))
            return lanes[i].name;
    return NULL;
}

enum dew_status dew_year_whole(const struct dew_year *year,
                               struct dew_error *err)
{
    for (size_t h = 0; h < year->count; h++) {
        const char *name = lacking(&year->hours[h]);

        if (name == NULL)
            continue;
        core__in(err, name);
        return core__fail(err, DEW_EMISSING, "the weather has none in hour %zu",
                          h + 1);
    }
    return DEW_OK;
}

void dew_year_close(struct dew_year *year)
{
    if (year == NULL)
        return;
    free(year->hours);
    free(year->dates);
    free(year);
}

struct dew_hour dew_hour_between(const struct dew_hour *before,
                                 const struct dew_hour *after, double share)
{
    return weather__between(before, after, share);
}
