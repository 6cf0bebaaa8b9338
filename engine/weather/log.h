/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The parts of the log reader: which sensors a file holds (log_sensors.c), the
 * rows of a history that comes on change (log_history.c), hours from samples
 * (log_hours.c).  log.c calls them once for each sensor that is read.
 */
#ifndef DEW_WEATHER_LOG_H
#define DEW_WEATHER_LOG_H

#include "dew/log.h"
#include "weather/table.h"

/* The lanes a sensor can have. */
enum { WEATHER__SENSOR_LANES = 7 };
extern const enum weather__lane weather__sensor_lane[WEATHER__SENSOR_LANES];
extern const enum weather__meaning
    weather__sensor_meaning[WEATHER__SENSOR_LANES];

struct weather__sensor {
    char name[48];
    int indoors, taken;
    const struct weather__column *column[WEATHER__SENSOR_LANES]; /* or NULL */
};

/* An hour of several sensors. */
struct weather__log_sum {
    double t, rh, co2, cool, fan;
    int t_count, rh_count, co2_count, cool_count, fan_count;
};

struct weather__log {
    const struct dew_log_ask *ask;
    struct dew_log_report *report;
    struct dew_weather_ask as_weather;
    struct weather__reader r;
    struct weather__lines in;
    struct weather__table t;
    struct weather__sensor sensors[DEW_LOG_SENSORS];
    int sensor_count;
    int history; /* rows are sensor, state, time        */
    const struct weather__column *entity, *state, *unit;
    char id[WEATHER__COLUMNS_MAX][96]; /* of t.columns, in a history          */
    struct weather__log_sum *hours;
    size_t count;
    int64_t first; /* the end of hours[0]                                   */
};

/* Sensors from the columns, and which of them are taken. */
enum dew_status weather__log_sensors(struct weather__log *log);

/* Give the sensor's columns to the lanes of the table. */
enum dew_status weather__log_take(struct weather__log *log,
                                  const struct weather__sensor *sensor);

/* Back to the first row after the header. */
enum dew_status weather__log_rewind(struct weather__log *log);

/* Whether the header is that of a history. */
int weather__history_is(struct weather__log *log);
/* The ids in the rows become columns of log->t. */
enum dew_status weather__history_columns(struct weather__log *log);
/* Samples of the lanes taken. */
enum dew_status weather__history_rows(struct weather__log *log);

/* The hours of the samples in log->r added to log->hours. */
enum dew_status weather__log_add(struct weather__log *log);

#endif
