/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of options and months, tinted, where bars would be slivers. */
#ifndef DEW_DRAW_CHARTS_TINT_H
#define DEW_DRAW_CHARTS_TINT_H

#include "draw/charts.h"

enum { DRAW__BARS = 5 }; /* options that bars still show                     */

/* What is told of each month. */
struct draw__tint {
    const char *class, *heading, *note;
    double (*of)(const struct dew_tally *tally);
};

/* 1 where a chart is better such a table: of many options. */
int draw__tinted(const struct draw__chart *c);

/* Open its figure and write the table; who calls it closes the figure. */
void draw__tint_open(const struct draw__chart *c, const struct draw__tint *t);

/* The same as a file of its own. */
void draw__tint_alone(const struct draw__chart *c, const struct draw__tint *t);

/* Rows of such a file, from y down: heads of months, and count options, each
   tinted by the most of a month that any option has; options NULL: the first
   ones.  Returns the y below. */
enum { DRAW__TINT_ROW = 22 };
double draw__tint_rows(const struct draw__chart *c, const struct draw__tint *t,
                       const size_t *options, size_t count, double y);

/* Hours above the limit, for either. */
extern const struct draw__tint draw__tint_humid;

#endif
