/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A table of text: where its header is, how it is separated, which cells hold
 * the time and which the readings.  table.c finds out; table_rows.c reads.
 */
#ifndef DEW_WEATHER_TABLE_H
#define DEW_WEATHER_TABLE_H

#include "weather/reader.h"

enum {
    DEW__HEAD_LINES = 60,   /* the header is one of the first               */
    DEW__COLUMNS_MAX = 160, /* with a meaning                               */
    DEW__HINTS_MAX = 48,
    DEW__TIMES_MAX = 4
};

/* "Pressure Units" -> "mbar", from the rows before the header. */
struct dew__hint {
    char key[48], value[48];
};

/* Which cells make the time; -1 for none. */
struct dew__time_plan {
    int known;
    int whole;       /* date and clock in one cell                          */
    int date, clock; /* in two                                              */
    int parts;       /* in year, month, day, hour and maybe minute          */
    int local;       /* the whole cell of a local clock beside a UTC one    */
    int local_parts; /* the same in parts                                   */
};

struct dew__profile;

struct dew__table {
    struct dew__reader *r;
    struct dew__lines *in;
    struct dew__cells cells, before; /* this line and the one before it     */
    char delimiter;
    int header_line;
    struct dew__column columns[DEW__COLUMNS_MAX];
    int count;
    struct dew__hint hints[DEW__HINTS_MAX];
    int hint_count;
    const struct dew__column *lane[DEW__LANES]; /* taken, or NULL           */
    const struct dew__column *station, *name, *report;
    const struct dew__column *latitude, *longitude, *elevation;
    int times[DEW__TIMES_MAX], time_count; /* cells of TIME columns         */
    int part[5]; /* cells of year, month, day, hour, minute; -1 for none  */
    struct dew__time_plan plan;
    const struct dew__profile *profile;
    unsigned char wanted[DEW__CELLS_MAX];
};

/*
 * profile.c: layouts whose documentation says what their header does not.
 * Find the one that fits (t->profile, NULL for none) and note what it says;
 * the unit it gives to a meaning, or NULL.
 */
void dew__profile_find(struct dew__table *t);
const struct dew_unit *dew__profile_unit(const struct dew__table *t,
                                         enum dew__meaning meaning);

/* Find the header and what its columns mean; none is taken yet. */
enum dew_status dew__table_open(struct dew__table *t, struct dew__reader *r,
                                struct dew__lines *in);
void dew__table_close(struct dew__table *t);

/* A header cell, with what the person says of it. */
void dew__table_column(const struct dew__table *t, const char *header, int cell,
                       struct dew__column *c);

/* Its unit from the header, the rows before or the layout; NULL: unsaid. */
const struct dew_unit *dew__table_unit(const struct dew__table *t,
                                       const struct dew__column *c);

/* Take a column of t->columns for a lane. */
void dew__table_take(struct dew__table *t, enum dew__lane lane,
                     const struct dew__column *c);

/* The time of the row that is split, into out; 0 when there is none. */
int dew__table_time(struct dew__table *t, struct dew__sample *out);

/* The value said for key before the header, or NULL. */
const char *dew__table_hint(const struct dew__table *t, const char *key);

/* Every row after the header. */
enum dew_status dew__table_rows(struct dew__table *t);

/* A number in a cell: what it is. */
enum dew__cell_kind {
    DEW__CELL_NUMBER,
    DEW__CELL_MISSING,
    DEW__CELL_FLAGGED,
    DEW__CELL_BAD
};
enum dew__cell_kind dew__cell_number(const char *text, char delimiter,
                                     double *x);

#endif
