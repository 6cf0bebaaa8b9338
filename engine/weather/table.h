/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A table of text: where its header is, how it is separated, which cells hold
 * the time and which the readings.  table.c finds out; table_rows.c reads.
 */
#ifndef DEW_WEATHER_TABLE_H
#define DEW_WEATHER_TABLE_H

#include "weather/reader.h"

enum {
    WEATHER__HEAD_LINES = 60, /* the header is one of the first               */
    WEATHER__COLUMNS_MAX =
        160, /* with a meaning                               */
    WEATHER__HINTS_MAX = 48,
    WEATHER__TIMES_MAX = 4
};

/* "Pressure Units" -> "mbar", from the rows before the header. */
struct weather__hint {
    char key[48], value[48];
};

/* Which cells make the time; -1 for none. */
struct weather__time_plan {
    int known;
    int whole;       /* date and clock in one cell                          */
    int date, clock; /* in two                                              */
    int parts;       /* in year, month, day, hour and maybe minute          */
    int local;       /* the whole cell of a local clock beside a UTC one    */
    int local_parts; /* the same in parts                                   */
};

struct weather__profile;

struct weather__table {
    struct weather__reader *r;
    struct weather__lines *in;
    struct weather__cells cells,
        before; /* this line and the one before it     */
    char delimiter;
    int header_line;
    struct weather__column columns[WEATHER__COLUMNS_MAX];
    int count;
    struct weather__hint hints[WEATHER__HINTS_MAX];
    int hint_count;
    const struct weather__column
        *lane[WEATHER__LANES]; /* taken, or NULL           */
    const struct weather__column *station, *name, *report;
    const struct weather__column *latitude, *longitude, *elevation;
    int times[WEATHER__TIMES_MAX],
        time_count; /* cells of TIME columns         */
    int part[5];    /* cells of year, month, day, hour, minute; -1 for none  */
    struct weather__time_plan plan;
    const struct weather__profile *profile;
    unsigned char wanted[WEATHER__CELLS_MAX];
};

/*
 * profile.c: layouts whose documentation says what their header does not.
 * Find the one that fits (t->profile, NULL for none) and note what it says;
 * the unit it gives to a meaning, or NULL.
 */
void weather__profile_find(struct weather__table *t);
const struct dew_unit *weather__profile_unit(const struct weather__table *t,
                                             enum weather__meaning meaning);

/* Find the header and what its columns mean; none is taken yet. */
enum dew_status weather__table_open(struct weather__table *t,
                                    struct weather__reader *r,
                                    struct weather__lines *in);
void weather__table_close(struct weather__table *t);

/* A header cell, with what the person says of it. */
void weather__table_column(const struct weather__table *t, const char *header,
                           int cell, struct weather__column *c);

/* Its unit from the header, the rows before or the layout; NULL: unsaid. */
const struct dew_unit *weather__table_unit(const struct weather__table *t,
                                           const struct weather__column *c);

/* Take a column of t->columns for a lane. */
void weather__table_take(struct weather__table *t, enum weather__lane lane,
                         const struct weather__column *c);

/* The time of the row that is split, into out; 0 when there is none. */
int weather__table_time(struct weather__table *t, struct weather__sample *out);

/* The value said for key before the header, or NULL. */
const char *weather__table_hint(const struct weather__table *t,
                                const char *key);

/* Every row after the header. */
enum dew_status weather__table_rows(struct weather__table *t);

/* A number in a cell: what it is. */
enum weather__cell_kind {
    WEATHER__CELL_NUMBER,
    WEATHER__CELL_MISSING,
    WEATHER__CELL_FLAGGED,
    WEATHER__CELL_BAD
};
enum weather__cell_kind weather__cell_number(const char *text, char delimiter,
                                             double *x);

#endif
