/* SPDX-License-Identifier: GPL-3.0-or-later */
/* No case, site or hour of weather that holds a NaN comes into the march. */
#include <math.h>
#include <stddef.h>

#include "core/fail.h"
#include "march/march.h"

/* Doubles that stand one behind the other in a struct, and that struct times
   over.  What may be NaN (thermal.sky_given, control.lockout_excess and
   bypass_*) is left out. */
struct run {
    const char *path;
    size_t offset, count; /* of the first; of one struct                    */
    size_t times, stride;
};

/* clang-format off */
#define SPAN(type, first, last)                                                \
    ((offsetof(type, last) - offsetof(type, first)) / sizeof(double) + 1)
#define ONE(path, at, type, first, last)                                       \
    {path, offsetof(struct dew_case, at) + offsetof(type, first),              \
     SPAN(type, first, last), 1, 0}
#define EACH(path, at, type, first, last, times)                               \
    {path, offsetof(struct dew_case, at) + offsetof(type, first),              \
     SPAN(type, first, last), times, sizeof(type)}
#define ALL(path, at, type, times)                                             \
    {path, offsetof(struct dew_case, at), sizeof(type) / sizeof(double), times,\
     sizeof(type)}

static const struct run runs[] = {
    {"pressure", offsetof(struct dew_case, pressure), 1, 1, 0},
    ONE("site.latitude",   site, struct dew_site, latitude, latitude),
    ONE("site.longitude",  site, struct dew_site, longitude, longitude),
    ONE("site.utc_offset", site, struct dew_site, utc_offset, utc_offset),
    ALL("limits",          limits, struct dew_limits, 1),
    ONE("watch",           watch, struct dew_duct_watch, intake_follows, outside_follows),
    ONE("watch",           watch, struct dew_duct_watch, supply_full, leaks[DEW_VENT_STATES - 1][DEW_DUCT_HANDLERS - 1][1].lost),
    ALL("paths",           paths, struct dew_path, DEW_VENT_STATES * DEW_BLOWER_STATES),
    ONE("house.volume",    house, struct dew_house, volume, volume),
    ONE("house.floor_area", house, struct dew_house, floor_area, floor_area),
    ONE("house.co2_outdoors", house, struct dew_house, co2_outdoors, co2_outdoors),
    ALL("house.leakage",   house.leakage, struct dew_leakage, 1),
    ONE("house.thermal",   house.thermal, struct dew_thermal, h_is, sky_glazed),
    ALL("house.thermal.facades", house.thermal.facades, struct dew_facade, DEW_FACADES),
    ALL("house.buffer",    house.buffer, struct dew_buffer, 1),
    ALL("house.water",     house.water, struct dew_water, DEW_SOURCES),
    ALL("house.people",    house.people, struct dew_people, 1),
    ONE("house.comfort",   house.comfort, struct dew_comfort, heat, band),
    ONE("house.windows",   house.windows, struct dew_windows, flow, mild_high),
    ALL("house.surfaces",  house.surfaces, struct dew_surface, DEW_SURFACES),
    ALL("house.around",    house.around, struct dew_around, 1),
    EACH("plant.handlers", plant.handlers, struct dew_handler, capacity, blower_low_w, DEW_HANDLERS),
    EACH("plant.handlers", plant.handlers, struct dew_handler, minutes, overcool_rh, DEW_HANDLERS),
    ONE("plant.heater",    plant.heater, struct dew_heater, capacity, cop_cold),
    ONE("plant.frost",     plant.frost, struct dew_frost_rule, start, dry_dew),
    ONE("plant.control",   plant.control, struct dew_control, on_weekday, lockout_w),
    ONE("plant.control",   plant.control, struct dew_control, lockout_least, winter_rh[1]),
    ONE("plant.control",   plant.control, struct dew_control, event_boost, events[23]),
    ALL("plant.dryer",     plant.dryer, struct dew_dryer, 1),
    ALL("plant.humidifier", plant.humidifier, struct dew_humidifier, 1),
    ALL("plant.exhausts",  plant.exhausts, struct dew_exhaust, DEW_LOCALS),
};
/* clang-format on */

static int holds(const struct dew_case *c, const struct run *run)
{
    const char *at = (const char *)c + run->offset;

    for (size_t i = 0; i < run->times; i++, at += run->stride) {
        const double *x = (const double *)(const void *)at;

        for (size_t k = 0; k < run->count; k++)
            if (isnan(x[k]))
                return 0;
    }
    return 1;
}

static enum dew_status refuse(const char *path, struct dew_error *err)
{
    core__in(err, path);
    return core__fail(err, DEW_ERANGE, "a value in it is no number");
}

enum dew_status march__one_hour(const struct dew_hour *h, struct dew_error *err)
{
    const struct {
        const char *path;
        double x;
    } lanes[] = {{"weather.t", h->t},
                 {"weather.w", h->w},
                 {"weather.p", h->p},
                 {"weather.wind", h->wind},
                 {"weather.global", h->global},
                 {"weather.direct", h->direct},
                 {"weather.diffuse", h->diffuse},
                 {"weather.sky", h->sky}};

    for (size_t i = 0; i < sizeof lanes / sizeof lanes[0]; i++)
        if (isnan(lanes[i].x))
            return refuse(lanes[i].path, err);
    return DEW_OK;
}

enum dew_status march__numbers(const struct dew_case *c, struct dew_error *err)
{
    for (size_t i = 0; i < sizeof runs / sizeof runs[0]; i++)
        if (!holds(c, &runs[i]))
            return refuse(runs[i].path, err);
    return DEW_OK;
}
