/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The outdoors: hours of weather, where and when they are, and where they
 * come from.  One convention, here and nowhere else:
 *
 *   Hour h (from 0) ENDS at its stamp: t, w, p and wind stand at the end of
 *   the hour, solar is the mean over the hour that ends there.  The year is
 *   local standard time; hour 0 of a whole year ends at 01:00 on 1 January.
 */
#ifndef DEW_WEATHER_H
#define DEW_WEATHER_H

#include <math.h>
#include <stddef.h>

#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One hour of weather.  Plain. */
struct dew_hour {
    double t;       /* degC    -70 .. 60    dry bulb                        */
    double w;       /* kg/kg     0 .. w_s   humidity ratio (liquid branch)  */
    double p;       /* Pa     50e3 .. 110e3                                 */
    double wind;    /* m/s       0 .. 80    at the station                  */
    double global;  /* W/m2      0 .. 1500  on the horizontal, hour mean    */
    double direct;  /* W/m2      0 .. 1500  normal to the beam, hour mean   */
    double diffuse; /* W/m2      0 .. 1000  on the horizontal, hour mean    */
    double sky;     /* K        -5 .. 60    the sky below t, as it radiates;
                                            sun.h; every reader and maker of
                                            a year sets it                  */
};

/* Where a weather file or a place stands.  Plain. */
struct dew_site {
    char id[24];       /* "722020", or ""                                   */
    char name[64];     /* "MIAMI INTL AP", or ""                            */
    double latitude;   /* deg    -90 .. 90      north positive, NaN unknown */
    double longitude;  /* deg   -180 .. 180     east positive, NaN unknown  */
    double elevation;  /* m     -500 .. 6000                                */
    double utc_offset; /* h      -12 .. 14      of local standard time      */
};

/* The calendar place of one hour: what schedules are resolved by. */
struct dew_date {
    int year;    /* 0 for a typical year that mixes years                   */
    int month;   /* 1 .. 12                                                 */
    int day;     /* 1 .. 31                                                 */
    int hour;    /* 1 .. 24     the hour that ends then                     */
    int weekday; /* 0 .. 6      Monday 0; a typical year starts on a Monday */
    int yearday; /* 1 .. 366                                                */
};

struct dew_light;

/* Hours with their dates, borrowed. */
struct dew_weather {
    const struct dew_hour *hours; /* count                                  */
    const struct dew_date *dates; /* count                                  */
    size_t count;
    const struct dew_light *light; /* of these hours (dew/bundle.h), or NULL */
};

/* How a clock without UTC times is set in summer. */
#define DEW_CLOCK_MAP(X)                                                       \
    X(STANDARD, standard) /* standard time all year */                         \
    X(US, us)             /* summer time by the rule of the United States */   \
    X(EU, eu)             /* summer time by the rule of the European Union */

enum dew_clock {
    DEW_CLOCK_UNSAID, /* standard time; a question when it looks otherwise */
#define X(name, word) DEW_CLOCK_##name,
    DEW_CLOCK_MAP(X)
#undef X
};

/*
 * The hour that date (standard time) names, by a clock of that kind: an hour
 * later in summer.  A typical year has the days of 2007.  utc_offset, h, is
 * that of standard time.
 */
struct dew_date dew_weather_by_clock(const struct dew_date *date,
                                     enum dew_clock clock, double utc_offset);

struct dew_year; /* opaque: hours, dates, site, provenance, notes */

/* Borrowed from the year; *count hours, the same for both. */
const struct dew_hour *dew_year_hours(const struct dew_year *year,
                                      size_t *count);
const struct dew_date *dew_year_dates(const struct dew_year *year,
                                      size_t *count);
const struct dew_site *dew_year_site(const struct dew_year *year);
/* In words: which file or place, how made, what was filled.  Borrowed. */
const char *dew_year_provenance(const struct dew_year *year);

/* Free a year; NULL is allowed. */
void dew_year_close(struct dew_year *year);

/*
 * The hour between two stamps: t, w, p and wind linear at share (0 .. 1) of
 * the way from before to after; solar and sky are after's, of the hour itself.
 */
struct dew_hour dew_hour_between(const struct dew_hour *before,
                                 const struct dew_hour *after, double share);

/*
 * DEW_OK when every lane of every hour is a number.  A file without wind or
 * without solar leaves NaN in that lane throughout, for the caller to fill or
 * to refuse.
 *
 * Errors     DEW_EMISSING naming the lane and the first hour that lacks it.
 */
enum dew_status dew_year_whole(const struct dew_year *year,
                               struct dew_error *err);

/* What a year lacked and was given, in hours.  Plain. */
struct dew_year_filled {
    long air;                 /* t and humidity, or humidity alone         */
    long longest;             /* of these, one after the other             */
    long pressure, wind, sun; /* sun: global, direct and diffuse           */
    long split;               /* direct or diffuse from the others         */
};

/*
 * Give every hour of the year what it lacks, so that it is whole.  Direct and
 * diffuse come from global by dew_weather_split, or from the two that are
 * known; all else from another year, at the same month, day and hour (29
 * February: the day before), without smoothing at the edges.  Where only t is
 * known, the other year's RH goes with it.  A year without a place is taken to
 * stand where from stands; one of which only a part is known is refused, for
 * the sun is followed from it.  The provenance says what was filled.
 *
 *     from   whole, of the same place or near: dew_made_open; NULL: light
 *            alone is parted, and anything else that is missing is an error
 *
 * Errors     DEW_EMISSING naming the lane and the hour, or "site" and what of
 *            latitude, longitude and offset is not known; the year is then partly filled, for dew_year_close.
 */
enum dew_status dew_year_complete(struct dew_year *year,
                                  const struct dew_year *from,
                                  struct dew_year_filled *filled,
                                  struct dew_error *err);

/* ---- reading files --------------------------------------------------------- */

#define DEW_DATE_ORDER_MAP(X) X(MONTH_FIRST, mdy) X(DAY_FIRST, dmy)

enum dew_date_order {
    DEW_ORDER_UNSAID, /* from the file; a question when it cannot tell      */
#define X(name, word) DEW_ORDER_##name,
    DEW_DATE_ORDER_MAP(X)
#undef X
};

/* What a person says of a column that its header does not. */
struct dew_column_said {
    const char *header;  /* as in the file; case and marks do not matter    */
    const char *meaning; /* "temperature", "dew point", ...; NULL: keep     */
    const char *unit;    /* "degF"; NULL: keep                              */
};

/* One month of normals, to fill long gaps from: means of the month. */
struct dew_month_normal {
    double t, w, p, wind; /* degC, kg/kg, Pa, m/s                           */
};

/*
 * Answers to what a file leaves open.  A complete description: start from
 * DEW_WEATHER_ASK and change what is known.
 */
struct dew_weather_ask {
    const char *station;       /* id or name, in a file of several; or NULL */
    int year;                  /* of a file of several; 0 all               */
    enum dew_date_order order; /* of dates such as 3/4/2020                 */
    enum dew_clock clock;
    double utc_offset; /* h     of local standard time, NaN unsaid  */
    double elevation;  /* m     NaN: from the file                  */
    double latitude;   /* deg   NaN: from the file                  */
    double longitude;  /* deg   NaN: from the file                  */
    const struct dew_column_said *said; /* said_count rows                  */
    size_t said_count;
    int frost_point;  /* 1: dew points below 0 degC are over ice   */
    double gap_limit; /* h     longest gap filled by a line        */
    int keep_gaps;    /* 1: leave NaN in long gaps, to look at, not to run    */
    const struct dew_month_normal *normals; /* 12, or NULL: refuse long gaps */
};

/* Nothing said; gaps up to 3 h are filled (our own choice, no source). */
#define DEW_WEATHER_ASK                                                        \
    {                                                                          \
        .utc_offset = (double)NAN, .elevation = (double)NAN,                   \
        .latitude = (double)NAN, .longitude = (double)NAN, .gap_limit = 3.0    \
    }

/* What a reader left out, mended or found odd: code, words. */
#define DEW_NOTICE_MAP(X)                                                      \
    X(SUMMARY, "daily or monthly summary rows left out")                       \
    X(SYNOPTIC, "synoptic reports left out beside the hourly ones")            \
    X(STATION, "rows of other stations left out")                              \
    X(YEAR, "rows of other years left out")                                    \
    X(NO_TIME, "rows without a time left out")                                 \
    X(EMPTY, "rows without a value left out")                                  \
    X(BROKEN, "rows that are no table rows left out")                          \
    X(MISSING, "values marked as missing")                                     \
    X(FLAGGED, "values marked as suspect, left out")                           \
    X(NOT_NUMBER, "values that are not numbers, left out")                     \
    X(RANGE, "values outside their range, left out")                           \
    X(DOUBLED, "rows repeating the time of another, left out")                 \
    X(DISORDER, "rows earlier than the row before, sorted in")                 \
    X(FROM_RH, "rows whose humidity is from RH, the rest from dew point")      \
    X(SATURATED, "dew points above the temperature, cut to it")                \
    X(SUMMER_TIME, "rows moved from summer to standard time")                  \
    X(NO_SUCH_TIME, "rows in the hour that summer time leaves out")            \
    X(JUMP, "steps of more than 15 K in an hour")                              \
    X(STUCK, "hours in runs above 24 h of one temperature and humidity")       \
    X(FILLED, "hours in gaps, filled by a line")                               \
    X(FILLED_NORMALS, "hours in gaps, filled from monthly normals")            \
    X(HELD, "hours at the ends, held from the nearest row")

enum dew_notice_code {
#define X(code, words) DEW_NOTICE_##code,
    DEW_NOTICE_MAP(X)
#undef X
        DEW_NOTICE_COUNT
};

struct dew_notice {
    long count;
    int line; /* of the first; 0 when there is none or it is an hour        */
};

/* One column that was taken. */
struct dew_column_taken {
    char header[48], meaning[24], unit[12];
};

enum { DEW_COLUMNS_TAKEN = 24 };

/* What a reader understood and did.  Plain; all zero before. */
struct dew_weather_report {
    char format[64];   /* "table with a header, separator ;"                */
    char units_by[96]; /* what gave the units that the header did not, ""   */
    struct dew_column_taken columns[DEW_COLUMNS_TAKEN];
    int column_count;
    char unread[160]; /* headers whose meaning is not known: "A", "B"       */
    int header_line;
    long rows;       /* data rows read                                  */
    long used;       /* of them, samples kept                           */
    double interval; /* s     median step between samples               */
    struct dew_notice notices[DEW_NOTICE_COUNT];
    double longest_gap;  /* h     between samples, of those that were filled */
    char longest_at[32]; /* "2020-03-04 05:00": its first hour              */
    double back;         /* h     longest step back in time from row to row  */
    int back_line;       /* where it is, 0 for none                          */
    char clock[128];     /* which clock was read and how it was moved       */
    char humidity[64];   /* "dew point over liquid water"                   */
    char pressure[64];   /* "station pressure"                              */
    char method[160];    /* how samples became hours                        */
    char suspicion[160]; /* a likely mix-up of units, ""                    */
};

/* The few words of DEW_NOTICE_MAP; never NULL. */
const char *dew_notice_text(enum dew_notice_code code);

enum { DEW_NOTE_TEXT = 200, DEW_NOTES_MOST = DEW_NOTICE_COUNT + 4 };

/*
 * What a reading left out, mended and suspects, in lines: rows read and kept,
 * each notice with the first line it is about, the longest gap bridged, where
 * time goes back by a day or more, a likely mix-up of units.  Returns how many of room lines were written; a
 * room of DEW_NOTES_MOST holds all.
 */
size_t dew_weather_notes(const struct dew_weather_report *report,
                         char (*list)[DEW_NOTE_TEXT], size_t room);

/* A file in memory, its bytes as they lie on disk.  Borrowed for the call. */
struct dew_text {
    const char *name;  /* for messages                                      */
    const char *bytes; /* NULL: the file of that name is opened             */
    size_t length;
};

/*
 * Read a weather file, plain or gzipped: fixed-width surface observations, or
 * any table of text with a header from whose words time, temperature and
 * humidity can be told.  Separators , ; tab; decimal point or comma; UTF-8 or
 * Latin-1.  Units come from the header, from rows before it, from the
 * documentation of a known layout or from ask->said, and are else refused.
 *
 * Local standard time comes out.  Samples become hours by a straight line
 * between the reports around the end of the hour; solar is a mean over it.
 *
 *     gap_limit  h     0 .. 24
 *
 * A typical year (8,760 hours) and a file in the project's own form are held
 * to order: each missing, doubled or disordered hour is a fault.  In any other
 * file they are counted in the report, and a gap above gap_limit is a fault.
 *
 * Owner      on DEW_OK *year is the caller's, for dew_year_close; else NULL.
 * Errors     the first fault's status; every fault is in faults, its column
 *            the number of the cell (the character in a fixed-width file):
 *            DEW_EIO DEW_EMEM DEW_ESYNTAX DEW_EMISSING DEW_EUNIT DEW_ERANGE;
 *            DEW_EAMBIGUOUS is a question, with the answers in the text.
 * Limits     at most 1 GiB, unpacked, and 3,000,000 lines; at most 60 years;
 *            a quoted cell ends on its line; a line has at most 65,536 bytes
 *            and 512 cells; the header is within the first 60 lines; names of
 *            months are read in English.  *report is filled also on an error.
 */
enum dew_status dew_weather_read(struct dew_year **year, const char *path,
                                 const struct dew_weather_ask *ask,
                                 struct dew_weather_report *report,
                                 struct dew_faults *faults);
enum dew_status dew_weather_parse(struct dew_year **year,
                                  const struct dew_text *text,
                                  const struct dew_weather_ask *ask,
                                  struct dew_weather_report *report,
                                  struct dew_faults *faults);

/*
 * Write a year as a table in the project's own form: "# key: value" lines for
 * the site, then time, t, w, p, wind and solar, with units in the header.
 * Written whole or not at all.  Reading it again gives the same year, to 9
 * significant digits.
 *
 * Errors     DEW_EIO.
 */
enum dew_status dew_weather_write(const struct dew_year *year, const char *path,
                                  struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
