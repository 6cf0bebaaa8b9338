/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drawings as SVG: a frame with axes and units, and marks told apart by
 * pattern and dash as well as by colour.
 *
 *     struct draw__plot p = {.out = out, .x1 = 12, .y1 = 744};
 *
 *     draw__svg_open(&p, "hours");
 *     draw__svg_upright(&p);
 *     draw__svg_months(&p);
 *     draw__svg_marks_open(&p);
 *     draw__svg_bar(&p, corners, tone, "July: 312 h");
 *     draw__svg_marks_close(&p);
 *     draw__svg_close(&p);
 *
 * What stands between marks_open and marks_close is cut at the frame, and is
 * what the page's script moves when a reader zooms.  chart.css has the looks.
 */
#ifndef DEW_DRAW_SVG_H
#define DEW_DRAW_SVG_H

#include <stdio.h>

/* Where a chart is drawn, and what its axes mean. */
struct draw__plot {
    FILE *out;
    double x0, x1, y0, y1; /* values at the edges of the frame             */
};

/* Size of the drawing and its frame, in the units of its view box. */
enum {
    DRAW__SVG_WIDE = 760,
    DRAW__SVG_HIGH = 352,
    DRAW__SVG_LEFT = 64,
    DRAW__SVG_RIGHT = 14,
    DRAW__SVG_TOP = 30,
    DRAW__SVG_FOOT = 54
};

/* Tones, told apart by colour and pattern: of options, which repeat after ten;
   of end uses of energy; of the ways of water. */
enum {
    DRAW__TONES = 10,
    DRAW__ENERGY = DRAW__TONES,
    DRAW__WATER = DRAW__ENERGY + 10,
    DRAW__EVERY = DRAW__WATER + 8
};

/* The tone of the i-th option, 0 first. */
int draw__svg_option(size_t i);

/* Open the drawing with the unit of the upright axis, and close its frame. */
void draw__svg_open(const struct draw__plot *p, const char *unit);
void draw__svg_close(const struct draw__plot *p);
/* Open and close what lies inside the frame. */
void draw__svg_marks_open(const struct draw__plot *p);
void draw__svg_marks_close(const struct draw__plot *p);

/* Place of a value on the drawing. */
double draw__svg_x(const struct draw__plot *p, double x);
double draw__svg_y(const struct draw__plot *p, double y);

/* A step of 1, 2 or 5 tens that cuts low .. high into about count parts. */
double draw__svg_step(double low, double high, int count);

/* Lines and figures of the upright axis. */
void draw__svg_upright(const struct draw__plot *p);
/* Figures of the level axis up to most, and its unit. */
void draw__svg_level(const struct draw__plot *p, double most, const char *unit);
/* Names of the months along the level axis, x 0 .. 12. */
void draw__svg_months(const struct draw__plot *p);
/* A text centred below the level axis, line 0, 1 .. below it. */
void draw__svg_below(const struct draw__plot *p, double x, int line,
                     const char *kind, const char *words);

/* A bar between two corners in a tone, with words for who points. */
void draw__svg_bar(const struct draw__plot *p, const double corner[4], int tone,
                   const char *words);

/* A number beside a mark, told from what it stands on by a halo. */
void draw__svg_number(const struct draw__plot *p, double x, double y,
                      int number);

/* A line through count points, of a kind of chart.css; NaN breaks it. */
void draw__svg_line(const struct draw__plot *p, const double *x,
                    const double *y, int count, const char *kind);
/* "l0" .. "l9": the line kind of an option. */
const char *draw__svg_kind(size_t i);
/* The same a point at a time; down: what the point before returned, 0 first. */
void draw__svg_path_open(const struct draw__plot *p, const char *kind);
int draw__svg_path_to(const struct draw__plot *p, double x, double y, int down);
void draw__svg_path_close(const struct draw__plot *p);
/* The area between two lines over the same x, of an option; nothing where one
   is NaN. */
void draw__svg_band(const struct draw__plot *p, const double *x,
                    const double *const y[2], int count, size_t i);
/* An upright stroke of a kind of chart.css over the whole frame; words, for
   who points at it, may be NULL. */
void draw__svg_upstroke(const struct draw__plot *p, double x, const char *kind,
                        const char *words);

/* A clear strip of the frame from x0 to x1, for who points at it. */
void draw__svg_zone(const struct draw__plot *p, double x0, double x1,
                    const char *words);

/* The patterns that tones fill with; once in a page or a file. */
void draw__svg_patterns(FILE *out);

#endif
