/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A logger's file: the temperature and humidity somebody measured indoors, as
 * hours beside those of the model.  The same reader as for weather: columns
 * are found by what their headers mean, units come from the header or are
 * said, and what is left out is counted.
 *
 *   Hour h ENDS at its date's hour, local standard time, as in weather.h; its
 *   figures are means over that hour, to stand beside those of the march.
 */
#ifndef DEW_LOG_H
#define DEW_LOG_H

#include "dew/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One hour of a log; NaN where nothing was measured.  Plain. */
struct dew_log_hour {
    double t;    /* degC    -70 .. 60                                        */
    double rh;   /* -         0 .. 1       over liquid water                 */
    double co2;  /* ppm       0 .. 50000                                     */
    double cool; /* -        0 .. 1       share of the hour that cooling ran */
    double fan;  /* -        0 .. 1       and the blower                     */
};

struct dew_log; /* opaque: hours, dates, where they come from */

/* How rows become hours. */
enum dew_log_method {
    DEW_LOG_AUTO, /* LINE; HOLD where rows come only on change             */
    DEW_LOG_LINE, /* the mean over the hour of a line through the rows;
                      rows 45 min apart or more stand for their own hour    */
    DEW_LOG_HOLD  /* the mean over the hour of values held up to the next  */
};

/* A humidity sensor held to the truth: over wet salt, or beside a good one for
   a week. */
struct dew_log_check {
    double reads, is; /* -   0 .. 1                                          */
};
enum { DEW_LOG_CHECKS = 2 };

/* Answers to what a log leaves open: start from DEW_LOG_ASK. */
struct dew_log_ask {
    const char *sensor; /* "bedroom", "t1", "bedroom, hall" or "all": the
                           mean of each hour; NULL asks when there are more  */
    enum dew_date_order order;
    enum dew_clock clock;
    double utc_offset; /* h     of local standard time, NaN unsaid          */
    const struct dew_column_said *said; /* said_count rows; the header may be
                                           "column 2" or a sensor's id       */
    size_t said_count;
    const char *degrees; /* unit of temperatures whose header has none      */
    enum dew_log_method method;
    double gap_limit;  /* h  0 .. 24   longest gap bridged by a line         */
    double hold_limit; /* h  0 .. 720  longest time a value is held          */
    struct dew_log_check check[DEW_LOG_CHECKS];
    size_t checks; /* of these: 0; 1, an offset; 2, a line                   */
    int outdoors;  /* 1: not the indoor sensors but what the file has of the
                     outdoors, the mean of all of it; sensor is not asked    */
};

/* Nothing said; a line bridges 3 h as for weather, and a value is held a day
   (our own choices, no source). */
#define DEW_LOG_ASK                                                            \
    {                                                                          \
        .utc_offset = (double)NAN, .gap_limit = 3.0, .hold_limit = 24.0        \
    }

enum { DEW_LOG_SENSORS = 32 }; /* most in a file */

/* What the reader found and did.  Plain; all zero before. */
struct dew_log_report {
    struct dew_weather_report file; /* format, columns, notices, clock; rows
                                       of all sensors, values of those taken */
    char sensors[256]; /* those found: "bedroom, hall"                       */
    char taken[96];    /* of them, those read                                */
    int sensor_count, taken_count;
    long hours;          /* from the first to the last                       */
    long without_t;      /* of them, hours left without a temperature        */
    long without_rh;     /* and without a humidity                           */
    double longest_gap;  /* h  without either, at a stretch                  */
    char longest_at[32]; /* "2020-03-04 05:00": its first hour               */
    int columns_left; /* columns of a known meaning that are not read        */
};

/*
 * Read a log, plain or gzipped: a table with a time and a temperature or a
 * humidity (RH, dew point or humidity ratio) in the row, or a history with a
 * sensor's id, its state and the time in the row, which comes on change.
 *
 *     gap_limit   h     0 .. 24
 *     hold_limit  h     0 .. 720
 *
 * Columns said to be outdoors, and columns that say nothing beside some said to
 * be indoors, are read where ask->outdoors is set, and no others then.  An hour
 * counts when at least half of it is covered.  An hour without is NaN.
 * With checks, humidities are put right: by the difference of the one, by the
 * line through the two; an hour that then lies beyond 0 or 1 is without.  Two
 * must be at least 0.1 apart in both figures.
 * Where a history says that a sensor is unavailable for longer than gap_limit,
 * its value is not held on.
 *
 * Owner      on DEW_OK *log is the caller's, for dew_log_close; else NULL.
 * Errors     the first fault's status, every fault in faults, as for
 *            dew_weather_read; DEW_EMISSING where no column is a sensor's, or
 *            none is the outdoors'; DEW_EAMBIGUOUS is a question (which sensor,
 *            which order of day and month, which clock); DEW_EUNIT also where
 *            most values are outside the range of the unit said.
 * Limits     as dew_weather_read; at most DEW_LOG_SENSORS sensors; a humidity
 *            ratio is read at 101325 Pa.  *report is filled also on an error.
 */
enum dew_status dew_log_read(struct dew_log **log, const char *path,
                             const struct dew_log_ask *ask,
                             struct dew_log_report *report,
                             struct dew_faults *faults);
enum dew_status dew_log_parse(struct dew_log **log, const struct dew_text *text,
                              const struct dew_log_ask *ask,
                              struct dew_log_report *report,
                              struct dew_faults *faults);

/* Borrowed from the log; *count hours, the same for both. */
const struct dew_log_hour *dew_log_hours(const struct dew_log *log,
                                         size_t *count);
const struct dew_date *dew_log_dates(const struct dew_log *log, size_t *count);

/* In words: which file, which sensor, how it became hours.  Borrowed. */
const char *dew_log_provenance(const struct dew_log *log);

/* The hour that ends at date (year, month, day, hour), or NULL. */
const struct dew_log_hour *dew_log_at(const struct dew_log *log,
                                      const struct dew_date *date);

/* Free a log; NULL is allowed. */
void dew_log_close(struct dew_log *log);

#ifdef __cplusplus
}
#endif
#endif
