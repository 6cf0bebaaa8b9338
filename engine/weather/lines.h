/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A text file, plain or gzipped, one physical line at a time, and the cells of
 * a line.  The parser of libcsv is given one line and then told that it ended,
 * so that a line number is exact and an open quote cannot swallow the file; a
 * line without quotes needs no parser.
 */
#ifndef DEW_WEATHER_LINES_H
#define DEW_WEATHER_LINES_H

#include <csv.h>

#include "core/in.h"
#include "dew/weather.h"

enum {
    WEATHER__BLOCK = 1 << 17, /* bytes looked into for an end of line        */
    WEATHER__LINE_MAX =
        1 << 16,              /* longest line                                */
    WEATHER__CELLS_MAX = 512, /* most cells in a line                       */
    WEATHER__LINES_MAX =
        3000000 /* most lines: five years of minutes, 60 of quarter hours  */
};

struct weather__lines {
    const char *path;
    const char *bytes; /* all of them, unpacked                             */
    size_t size, from; /* from: those given out                             */
    char *own;         /* they, where they are not the caller's             */
    char *room;        /* of a line                                         */
    char eol;   /* '\n', or '\r' in a file that has no '\n'                 */
    int line;   /* number of the line last given, from 1                    */
    char *text; /* that line: no end of line, NUL after it                  */
    size_t length;
};

/*
 * text is borrowed until close; without bytes it is the file of that name.
 * Close in any case.  Errors: DEW_EIO: not to be opened, the disk, compressed
 * data that are damaged or cut; DEW_ERANGE: above 1 GiB or
 * WEATHER__LINES_MAX; DEW_EMEM.
 */
enum dew_status weather__lines_open(struct weather__lines *in,
                                    const struct dew_text *text,
                                    struct dew_error *err);
void weather__lines_close(struct weather__lines *in);

/*
 * The next line.  *more is 0 at the end of the file.  A byte order mark is
 * taken off the first line.
 *
 * Errors     DEW_ESYNTAX: a line above WEATHER__LINE_MAX or a zero byte (no text).
 */
enum dew_status weather__lines_next(struct weather__lines *in, int *more,
                                    struct dew_error *err);

/* Start again at the first line. */
void weather__lines_again(struct weather__lines *in);

struct weather__cells {
    struct csv_parser csv;
    int ready; /* csv is initialised                                         */
    char delimiter;
    char *text; /* the cells, each ended by NUL                              */
    size_t used, room;
    size_t count,
        at[WEATHER__CELLS_MAX]; /* where each cell starts in text      */
    int too_many;
    const unsigned char *wanted; /* 0: give "" for this cell; NULL: all      */
    size_t wanted_count;         /* the last that is wanted, from 1          */
};

/* Errors: DEW_EMEM. */
enum dew_status weather__cells_open(struct weather__cells *cells,
                                    struct dew_error *err);
void weather__cells_close(struct weather__cells *cells);

/*
 * Split a line at delimiter (',' ';' or tab).  Spaces around a cell are taken
 * off.  cells->count is 0 for a blank line.
 *
 * Errors     DEW_ESYNTAX: a quote left open, above WEATHER__CELLS_MAX cells;
 *            DEW_EMEM.
 */
enum dew_status weather__cells_split(struct weather__cells *cells,
                                     const struct weather__lines *in,
                                     char delimiter, struct dew_error *err);

/* Cell i (from 0), "" past the last.  Good until the next split. */
const char *weather__cell(const struct weather__cells *cells, size_t i);

#endif
