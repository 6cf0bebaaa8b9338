/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table's bytes, and what its readers share. */
#ifndef DEW_MADE_CLIMATE_H
#define DEW_MADE_CLIMATE_H

#include <stddef.h>

#include "core/embed.h"
#include "dew/climate.h"

/* weather/climates.csv, from a comment line to a NUL. */
CORE__EMBEDDED(climates_csv);

/* One figure of a month: a row of DEW_NORMAL_MAP. */
struct made__figure {
    const char *column, *words;
    size_t offset; /* in struct dew_normal                                   */
    double factor, shift, low, high;
};
extern const struct made__figure made__figures[];
extern const size_t made__figure_count;

/* Cells of one line of a table without quotes. */
enum { MADE__CELLS = 32 };
struct made__line {
    const char *cell[MADE__CELLS];
    size_t length[MADE__CELLS];
    size_t count;
};

/* Cut the line at text; returns the start of the next one. */
const char *made__cut(const char *text, struct made__line *line);

/* Like dew_climate_next, but reads the months only when told. */
int made__climate_next(size_t *at, struct dew_climate *out, int months);

/* Set or get a figure, in SI. */
double *made__figure_at(struct dew_normal *month, size_t figure);

/* The figure of that column, or the count when there is none. */
size_t made__figure_of(const char *column);

/* A name of the table fit to read: "Homestead Afb" is "Homestead AFB". */
void made__place_name(const char *raw, char *out, size_t size);

/*
 * Give the figures that are not (given: one flag each) from the place of the
 * table whose temperatures, dew points and latitude are most alike, and the
 * pressure from the elevation.  t, t_max, t_min, td and the site stand.
 */
void made__climate_lend(struct dew_climate *c, const unsigned char *given);

#endif
