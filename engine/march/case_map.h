/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the numbers of a case stand, for one house or several: the same rows
 * in a file that is compiled for lanes say where they stand there, so that a
 * house can be put into a lane.  tests/march/test_bundle.c holds that no
 * number of the struct is missing.  Private.
 */
#ifndef DEW_MARCH_CASE_MAP_H
#define DEW_MARCH_CASE_MAP_H

#include <stddef.h>

#include "dew/march.h"

/* Numbers that stand one behind the other in a struct, and that struct times
   over. */
struct march__span {
    const char *path;
    size_t offset, count; /* of the first; of one struct                    */
    size_t times, stride;
    int may_lack; /* 1: NaN where nothing is meant                          */
};

/* clang-format off */
#define MARCH__RUN(type, first, last)                                          \
    ((offsetof(type, last) - offsetof(type, first)) / sizeof(double) + 1)
#define MARCH__ONE(path, at, type, first, last)                                \
    {path, offsetof(struct dew_case, at) + offsetof(type, first),              \
     MARCH__RUN(type, first, last), 1, 0, 0}
#define MARCH__LACKS(path, at, type, first, last)                              \
    {path, offsetof(struct dew_case, at) + offsetof(type, first),              \
     MARCH__RUN(type, first, last), 1, 0, 1}
#define MARCH__EACH(path, at, type, first, last, times)                        \
    {path, offsetof(struct dew_case, at) + offsetof(type, first),              \
     MARCH__RUN(type, first, last), times, sizeof(type), 0}
#define MARCH__ALL(path, at, type, times)                                      \
    {path, offsetof(struct dew_case, at), sizeof(type) / sizeof(double), times,\
     sizeof(type), 0}
#define MARCH__LAST_LEAK leaks[DEW_VENT_STATES - 1][DEW_DUCT_HANDLERS - 1][1].lost

#define MARCH__CASE_SPANS                                                      \
    {"pressure", offsetof(struct dew_case, pressure), 1, 1, 0, 0},             \
    MARCH__ONE("site.latitude",   site, struct dew_site, latitude, latitude),  \
    MARCH__ONE("site.longitude",  site, struct dew_site, longitude, longitude), \
    MARCH__LACKS("site.elevation", site, struct dew_site, elevation, elevation), \
    MARCH__ONE("site.utc_offset", site, struct dew_site, utc_offset, utc_offset), \
    MARCH__ALL("limits",          limits, struct dew_limits, 1),               \
    MARCH__ONE("watch",           watch, struct dew_duct_watch, intake_follows, outside_follows), \
    MARCH__ONE("watch",           watch, struct dew_duct_watch, supply_full, MARCH__LAST_LEAK), \
    MARCH__ALL("paths",           paths, struct dew_path, DEW_VENT_STATES * DEW_BLOWER_STATES), \
    MARCH__ONE("house.volume",    house, struct dew_house, volume, volume),    \
    MARCH__ONE("house.floor_area", house, struct dew_house, floor_area, floor_area), \
    MARCH__ONE("house.co2_outdoors", house, struct dew_house, co2_outdoors, co2_outdoors), \
    MARCH__ALL("house.leakage",   house.leakage, struct dew_leakage, 1),       \
    MARCH__ONE("house.thermal",   house.thermal, struct dew_thermal, h_is, sky_glazed), \
    MARCH__LACKS("house.thermal", house.thermal, struct dew_thermal, sky_given, sky_given), \
    MARCH__ALL("house.thermal.facades", house.thermal.facades, struct dew_facade, DEW_FACADES), \
    MARCH__ALL("house.buffer",    house.buffer, struct dew_buffer, 1),         \
    MARCH__ALL("house.water",     house.water, struct dew_water, DEW_SOURCES), \
    MARCH__ALL("house.people",    house.people, struct dew_people, 1),         \
    MARCH__ONE("house.comfort",   house.comfort, struct dew_comfort, heat, band), \
    MARCH__ONE("house.windows",   house.windows, struct dew_windows, flow, mild_high), \
    MARCH__ALL("house.surfaces",  house.surfaces, struct dew_surface, DEW_SURFACES), \
    MARCH__ALL("house.around",    house.around, struct dew_around, 1),         \
    MARCH__EACH("plant.handlers", plant.handlers, struct dew_handler, capacity, blower_low_w, DEW_HANDLERS), \
    MARCH__EACH("plant.handlers", plant.handlers, struct dew_handler, minutes, overcool_rh, DEW_HANDLERS), \
    MARCH__ONE("plant.heater",    plant.heater, struct dew_heater, capacity, cop_cold), \
    MARCH__ONE("plant.frost",     plant.frost, struct dew_frost_rule, start, dry_dew), \
    MARCH__ONE("plant.control",   plant.control, struct dew_control, on_weekday, lockout_w), \
    MARCH__LACKS("plant.control", plant.control, struct dew_control, lockout_excess, lockout_excess), \
    MARCH__ONE("plant.control",   plant.control, struct dew_control, lockout_least, winter_rh[1]), \
    MARCH__LACKS("plant.control", plant.control, struct dew_control, bypass_low, bypass_indoor), \
    MARCH__ONE("plant.control",   plant.control, struct dew_control, event_boost, events[23]), \
    MARCH__ALL("plant.dryer",     plant.dryer, struct dew_dryer, 1),           \
    MARCH__ALL("plant.humidifier", plant.humidifier, struct dew_humidifier, 1), \
    MARCH__ALL("plant.exhausts",  plant.exhausts, struct dew_exhaust, DEW_LOCALS),

/* Whole numbers that an hour branches on: alike in the houses of a bundle. */
#define MARCH__CASE_FORKS(X)                                                   \
    X(steps_per_hour)                                                          \
    X(clock)                                                                   \
    X(watch.trunk)                                                             \
    X(house.thermal.facade_count)                                              \
    X(house.comfort.given)                                                     \
    X(house.windows.by_dew_point)                                              \
    X(plant.handler_count)                                                     \
    X(plant.handlers[0].mode)                                                  \
    X(plant.handlers[1].mode)                                                  \
    X(plant.handlers[2].mode)                                                  \
    X(plant.heater.fuel)                                                       \
    X(plant.heater.by_air)                                                     \
    X(plant.frost.strategy)

/* And those that it does not look at. */
#define MARCH__CASE_IDLE(X)                                                    \
    X(house.bedrooms)                                                          \
    X(plant.lead_lag) /* a number of the lane */                               \
    X(plant.core_is_wheel)                                                     \
    X(plant.core_passes_water)
/* clang-format on */

#endif
