/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts, each a figure with its table beside it. */
#ifndef DEW_DRAW_CHARTS_H
#define DEW_DRAW_CHARTS_H

#include "dew/report.h"
#include "draw/figure.h"

/* What to draw, where. */
struct draw__chart {
    const struct dew_report *r;
    size_t option; /* of charts that show one                              */
    FILE *out;
    int alone; /* 1: a file of its own                                      */
};

/* One function for each row of DEW_CHART_MAP. */
#define X(name, file, each)                                                    \
    void draw__chart_##name(const struct draw__chart *c);
DEW_CHART_MAP(X)
#undef X

/* Draw one of them. */
void draw__chart_draw(enum dew_chart kind, const struct draw__chart *c);

/* What the charts share. */
const struct dew_outcome *draw__chart_outcome(const struct draw__chart *c,
                                              size_t option);
struct draw__figure draw__chart_figure(const struct draw__chart *c);
/* Below the bar of an option, at i + 0.5: its number, and while there is room
   its name in two lines; 1 where there is none. */
void draw__chart_below(const struct draw__plot *p, const struct draw__chart *c,
                       size_t i);
int draw__chart_crowded(const struct draw__chart *c);
/* "3 Jan" below the first hour of days, x hours: each, of weeks, of months or
   every other. */
void draw__chart_dates(const struct draw__plot *p,
                       const struct dew_date *dates);
/* "Jan" .. "Dec" and "Year" as heads of a table. */
void draw__chart_month_heads(FILE *out, const char *first);
/* Its row: a member of option's tallies, at offset, each by its unit. */
void draw__chart_month_row(const struct draw__chart *c, size_t option,
                           const char *name, size_t offset, double unit);

#endif
