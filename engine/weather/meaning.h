/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a column means, from the words of its header, wherever it stands.
 */
#ifndef DEW_WEATHER_MEANING_H
#define DEW_WEATHER_MEANING_H

#include "dew/unit.h"

/* code, kind of quantity, the words used in messages */
#define WEATHER__MEANING_MAP(X)                                                \
    X(NOTHING, PURE, "nothing")                                                \
    X(TIME, PURE, "time")                                                      \
    X(YEAR, PURE, "year")                                                      \
    X(MONTH, PURE, "month")                                                    \
    X(DAY, PURE, "day")                                                        \
    X(HOUR, PURE, "hour")                                                      \
    X(MINUTE, PURE, "minute")                                                  \
    X(T, TEMPERATURE, "temperature")                                           \
    X(TD, TEMPERATURE, "dew point")                                            \
    X(TWB, TEMPERATURE, "wet bulb")                                            \
    X(RH, PURE, "relative humidity")                                           \
    X(W, HUMIDITY_RATIO, "humidity ratio")                                     \
    X(P, PRESSURE, "pressure")                                                 \
    X(P_SEA, PRESSURE, "pressure at sea level")                                \
    X(WIND, SPEED, "wind speed")                                               \
    X(GLOBAL, IRRADIANCE, "global solar")                                      \
    X(DIRECT, IRRADIANCE, "direct solar")                                      \
    X(DIFFUSE, IRRADIANCE, "diffuse solar")                                    \
    X(CLOUD, PURE, "cloud cover")                                              \
    X(INFRARED, IRRADIANCE, "sky infrared")                                    \
    X(CO2, CO2, "carbon dioxide")                                              \
    X(COOL, PURE, "cooling run time")                                          \
    X(FAN, PURE, "blower run time")                                            \
    X(STATION, PURE, "station")                                                \
    X(NAME, PURE, "station name")                                              \
    X(LATITUDE, ANGLE, "latitude")                                             \
    X(LONGITUDE, ANGLE, "longitude")                                           \
    X(ELEVATION, LENGTH, "elevation")                                          \
    X(REPORT, PURE, "kind of report")                                          \
    X(ENTITY, PURE, "sensor's id")                                             \
    X(STATE, PURE, "sensor's state")                                           \
    X(UNIT, PURE, "unit of the state")

enum weather__meaning {
#define X(code, quantity, words) WEATHER__IS_##code,
    WEATHER__MEANING_MAP(X)
#undef X
        WEATHER__MEANING_COUNT
};

enum weather__place { WEATHER__UNSAID, WEATHER__OUTDOORS, WEATHER__INDOORS };

struct weather__column {
    int cell; /* from 0                                                     */
    enum weather__meaning meaning;
    int words; /* of the pattern that fitted: more words, surer             */
    enum weather__place place;
    const struct dew_unit *unit; /* NULL: the header does not say           */
    int order;                   /* 1 month first, 2 day first, 0 unsaid    */
    int has_zone, zone;          /* s east of UTC, from the header          */
    char header[48];             /* as written, cut                         */
    char room[48];               /* of a logger: what is left of the words  */
};

const char *weather__meaning_text(enum weather__meaning meaning);
enum dew_quantity weather__meaning_quantity(enum weather__meaning meaning);

/* The meaning called word by a person ("dew point"), or WEATHER__IS_NOTHING. */
enum weather__meaning weather__meaning_find(const char *word);

/* Read a header cell.  column->meaning is WEATHER__IS_NOTHING for most of them. */
void weather__column_read(const char *header, int cell,
                          struct weather__column *column);

/* A unit as people spell it ("C", "deg F", "mbar", "W/m^2"), or NULL. */
const struct dew_unit *weather__unit_spelt(const char *text,
                                           enum dew_quantity q);

/* The unit of a run time as people spell it: a share of the time, or a time in
   each row, of which is_time is 1; NULL. */
const struct dew_unit *weather__run_spelt(const char *text);
int weather__run_is_time(const struct dew_unit *unit);

/* Compare without regard to case and blanks around. */
int weather__same_words(const char *a, const char *b);

#endif
