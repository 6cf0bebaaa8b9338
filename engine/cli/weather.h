/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the sub-commands of `dewledger weather` share. */
#ifndef DEW_CLI_WEATHER_H
#define DEW_CLI_WEATHER_H

#include "cli/cli.h"
#include "dew/atlas.h"
#include "dew/climate.h"
#include "report/words.h"
#include "run/run.h"

/* One row a sub-command: name, the rest of its function's name, what it does */
#define CLI__WEATHER_MAP(X)                                                    \
    X(look, "read a weather file and say what was found")                      \
    X(convert, "read a weather file and write it in our own form")             \
    X(list, "list places that have monthly figures")                           \
    X(near, "list the places nearest to a point")                              \
    X(make, "make an hourly year out of monthly figures")                      \
    X(years, "march a scenario's options through many made years")

#define X(name, does) int cli__weather_##name(int argc, char **argv);
CLI__WEATHER_MAP(X)
#undef X

enum {
    CLI__WEATHERS = 0
#define X(name, does) +1
    CLI__WEATHER_MAP(X)
#undef X
};

extern const struct cli__command cli__weathers[CLI__WEATHERS];

/* What all of them print in: --units, else inch-pound, as of a scenario that
   has a place of the table and no unit: its places are those of one country. */
enum dew_system cli__weather_system(const struct cli__cli *common);

/* A word of the command line behind those that came before it. */
void cli__weather_word(char *words, size_t size, const char *word);

/* Least, mean and most of count values, each stride bytes from the last. */
struct cli__weather_spread {
    double low, mean, high;
};
struct cli__weather_spread cli__weather_spread(const double *first,
                                               size_t stride, int count);

/* Print what the atlas says of the nearest place, and in how many of them it is
   the same; nothing where it has no such place. */
void cli__weather_like_yours(const struct dew_nearby *list, size_t count);
json_t *cli__weather_atlas_json(const struct dew_atlas *a);

enum { CLI__WEATHER_FAULTS = 40 };

/* A file to read, and what the command line says about it. */
struct cli__weather_file {
    struct cli__cli common;
    const char *path, *out, *svg;
    int files; /* how many names the sub-command takes */
    struct dew_weather_ask ask;
    struct run__said said;
    struct dew_year *year;
    struct dew_weather_report report;
    const char *fill; /* a place, or NULL                                   */
    struct dew_year_filled filled;
};

/*
 * Read the command line of a sub-command that takes files names (1: FILE,
 * 2: FILE OUT).  Returns 0 or an enum cli__exit.
 */
int cli__weather_parse(struct cli__weather_file *f, const char *does, int argc,
                       char **argv);

/* Read f->path; every fault goes to stderr.  Returns 0 or an exit code. */
int cli__weather_open(struct cli__weather_file *f);

/* Means and extremes of the hours of a month or a day that have values; NaN
   where none has. */
struct cli__weather_lane {
    size_t n;
    double mean, low, high;
};

struct cli__weather_sum {
    int month, day; /* day 0: a whole month                                 */
    size_t hours;
    struct cli__weather_lane t, td;        /* degC; dew point over liquid   */
    struct cli__weather_lane wind, global; /* m/s, W/m2                     */
};

/* Sums of 12 months, or of each day (list of room days); how many. */
void cli__weather_months(const struct dew_year *year,
                         struct cli__weather_sum months[12]);
size_t cli__weather_days(const struct dew_year *year,
                         struct cli__weather_sum *list, size_t room);

/* A run of hours without a temperature or humidity. */
struct cli__weather_gap {
    size_t first, hours;
};
size_t cli__weather_gaps(const struct dew_year *year,
                         struct cli__weather_gap *list, size_t room);

json_t *cli__weather_json(const struct cli__weather_file *f);

/* Write the picture of the year, whole or not at all. */
int cli__weather_picture(const struct cli__weather_file *f);

#endif
