/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the parts of the weather reader share: rows of a file become samples
 * (table.c, isd.c), samples get their moment (moments.c) and become hours
 * (humid.c, hours.c).  reader.c calls them in that order.
 */
#ifndef DEW_WEATHER_READER_H
#define DEW_WEATHER_READER_H

#include <stdint.h>

#include "dew/weather.h"
#include "weather/lines.h"
#include "weather/meaning.h"
#include "weather/stamps.h"

/* What a sample holds, SI; NaN where the row has none. */
enum weather__lane {
    WEATHER__LANE_T,
    WEATHER__LANE_TD,
    WEATHER__LANE_RH,
    WEATHER__LANE_TWB,
    WEATHER__LANE_W,
    WEATHER__LANE_P,
    WEATHER__LANE_WIND,
    WEATHER__LANE_GLOBAL,
    WEATHER__LANE_DIRECT,
    WEATHER__LANE_DIFFUSE,
    WEATHER__LANE_CLOUD, /* with INFRARED: of use, never asked for */
    WEATHER__LANE_INFRARED,
    WEATHER__LANE_CO2,  /* this one and the next of a log alone */
    WEATHER__LANE_COOL, /* -, or s in the row before the hours are made */
    WEATHER__LANE_FAN,  /* the same */
    WEATHER__LANES
};

struct weather__sample {
    int64_t moment;  /* of the day as written; later local standard time   */
    int32_t seconds; /* of that day                                        */
    int32_t zone;    /* s east of UTC, with has_zone                       */
    int32_t local;   /* s: the local clock less UTC, with has_local        */
    int32_t line;
    uint8_t has_zone, has_local;
    uint8_t swaps;    /* month and day could change places                  */
    uint8_t synoptic; /* a report that repeats an hourly one                */
    uint16_t ends;    /* bit of each lane that is said to be unknown here   */
    double lane[WEATHER__LANES];
};

enum {
    WEATHER__STATIONS_MAX = 8,
    WEATHER__ID_MAX = 40,
    /* steps that no weather makes, and a sensor that no longer moves: our own
       choice of limits, for a warning only */
    WEATHER__JUMP_K = 15,
    WEATHER__STUCK_H = 24,
    /* 60 years, our own limit: a slip in one year shall not fill the memory */
    WEATHER__HOURS_MOST = 60 * 8766
};

/* How a lane's values stand to its range, and which unit would mend them. */
struct weather__seen {
    long inside, outside;
    long as_degf, as_k, as_degc; /* of those outside                         */
};

struct weather__reader {
    const char *path;
    const struct dew_text *text;
    const struct dew_weather_ask *ask;
    struct dew_weather_report *report;
    struct dew_faults *faults;
    enum dew_status status; /* of the first fault */

    struct weather__sample *samples;
    size_t count, room;

    struct dew_site site; /* NaN and "" where the file does not say          */
    int strict;           /* own form or typical year: faults, not notices   */
    int typical;
    int log;      /* indoors: no typical year, no site               */
    int instants; /* solar is of the moment, not a mean that ends    */
    int standard; /* the layout is known to keep standard time       */
    int has
        [WEATHER__LANES]; /* a column or a field for it                      */
    char header[WEATHER__LANES][48]; /* its header, for messages              */
    int cell[WEATHER__LANES];        /* its cell, from 1                      */
    int no_unit[WEATHER__LANES];
    int sea_pressure; /* the pressure lane is at sea level               */
    int time_cell;    /* from 1                                          */
    int month_first, day_first; /* a row proves it: its line                 */
    int order;  /* 1 month first, 2 day first, 0 unsaid            */
    int hourly; /* rows that are not synoptic                      */
    int header_zone, has_header_zone;
    char stations[WEATHER__STATIONS_MAX][WEATHER__ID_MAX];
    int station_count;
    char first_date[32]; /* the first time cell, for a question             */
    struct weather__seen
        seen[WEATHER__LANES]; /* of values with a unit              */
    long over_one, to_one; /* RH without a unit: above 1.5, and not          */
    int bad_time_line, bad_value_line; /* the first of each, 0 for none      */
    int bad_value_cell;
    char bad_time[32], bad_value[32];
    char provenance[700]; /* of a file in our own form, as it says          */
};

/* Note the code once, at line. */
void weather__note(struct weather__reader *r, enum dew_notice_code code,
                   int line);

/* Add a fault; line 0: of the file.  Returns status. */
enum dew_status weather__reader_fault(struct weather__reader *r,
                                      enum dew_status status, const char *key,
                                      int line, int column, const char *format,
                                      ...)
    __attribute__((format(printf, 6, 7)));

/* Add the fault in err. */
enum dew_status weather__reader_error(struct weather__reader *r,
                                      const struct dew_error *err);

/* A new sample at the end, all lanes NaN; NULL and a fault without memory. */
struct weather__sample *weather__reader_sample(struct weather__reader *r);

/* Put x (SI) into a lane when it is within its range, else note or fault. */
void weather__reader_put(struct weather__reader *r, struct weather__sample *s,
                         enum weather__lane lane, double x);

/* Refuse lanes most of whose values are outside their range. */
enum dew_status weather__reader_ranges(struct weather__reader *r);

/* Say which column was taken for what. */
void weather__reader_took(struct weather__reader *r, const char *header,
                          const char *meaning, const char *unit);

/* Note the station of a row; 0 when the row is of another than asked. */
int weather__reader_station(struct weather__reader *r, const char *id,
                            const char *name, int line);

/* The file as a table: samples, site, what each lane is. */
enum dew_status weather__table_read(struct weather__reader *r,
                                    struct weather__lines *in);

/* Fixed-width surface observations: is the first line one, and read them. */
int weather__isd_is(const struct weather__lines *in);
enum dew_status weather__isd_read(struct weather__reader *r,
                                  struct weather__lines *in);

/* Samples in local standard time, in order, each moment once. */
enum dew_status weather__moments(struct weather__reader *r);

/* RH as a share; refuse units that are not said, look at those that are. */
enum dew_status weather__humid_units(struct weather__reader *r);

/* Pressure and humidity ratio of every sample. */
void weather__humid(struct weather__reader *r);

/* Hours from samples, dated. */
enum dew_status weather__hours(struct weather__reader *r,
                               struct dew_year *year);

/* "2020-03-04 05:00" of a moment; size 24 is enough.  Returns out. */
char *weather__moment_text(int64_t moment, int typical, char *out, size_t size);

#endif
