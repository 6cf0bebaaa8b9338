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

/* 1 where a chart is better such a table: on a page, of many options. */
int draw__tinted(const struct draw__chart *c);

/* Open its figure and write the table; who calls it closes the figure. */
void draw__tint_open(const struct draw__chart *c, const struct draw__tint *t);

#endif
