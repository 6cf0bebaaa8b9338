/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Charts drawn as SVG inside a page: a frame with axes and units, and marks
 * told apart by pattern and dash as well as by colour.
 */
#ifndef DEW_REPORT_SVG_H
#define DEW_REPORT_SVG_H

#include <stdio.h>

/* Where a chart is drawn, and what its axes mean. */
struct dew__plot {
    FILE *out;
    double x0, x1, y0, y1; /* values at the edges of the frame             */
    const char *title;     /* for who cannot see it                        */
};

/* Size of the drawing and its frame, in the units of its view box. */
enum {
    DEW__SVG_WIDE = 760,
    DEW__SVG_HIGH = 330,
    DEW__SVG_LEFT = 58,
    DEW__SVG_RIGHT = 14,
    DEW__SVG_TOP = 26,
    DEW__SVG_FOOT = 36
};

enum { DEW__TONES = 8 }; /* tones told apart by colour and pattern          */

/* Open the drawing, and its frame with the unit of the upright axis. */
void dew__svg_open(const struct dew__plot *p, const char *unit);
void dew__svg_close(const struct dew__plot *p);

/* Place of a value on the drawing. */
double dew__svg_x(const struct dew__plot *p, double x);
double dew__svg_y(const struct dew__plot *p, double y);

/* A step of 1, 2 or 5 tens that cuts low .. high into about count parts. */
double dew__svg_step(double low, double high, int count);

/* Lines and figures of the upright axis. */
void dew__svg_upright(const struct dew__plot *p);
/* Figures of the level axis, and its unit. */
void dew__svg_level(const struct dew__plot *p, const char *unit);
/* Names of the months along the level axis, x 0 .. 12. */
void dew__svg_months(const struct dew__plot *p);

/* A bar between two corners in a tone (0 ..), with words for who points. */
void dew__svg_bar(const struct dew__plot *p, const double corner[4], int tone,
                  const char *words);

/* A line through count points, dashed by tone; NaN breaks it. */
void dew__svg_line(const struct dew__plot *p, const double *x, const double *y,
                   int count, int tone);

/* Text, escaped for HTML and attributes. */
void dew__escape(FILE *out, const char *text);

#endif
