/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hours over a figure that is varied: lines with their bands, in a file. */
#ifndef DEW_DRAW_CURVES_H
#define DEW_DRAW_CURVES_H

#include "draw/figure.h"

/* Borrowed, as all below. */
struct draw__curve {
    const char *words; /* of the legend                           */
    const double *x, *low, *mid, *high; /* rising in x; low, high NaN: none */
    int count;
};

enum { DRAW__CURVES = 10 }; /* told apart                                   */

struct draw__curves {
    const char *heading, *note, *words; /* words: for who cannot see it     */
    const char *along, *up;         /* units of the axes                    */
    const struct draw__curve *list; /* DRAW__CURVES at most                 */
    int count;
    double limit, mark; /* a level line; an upright one; NaN: no */
    const char *limit_words, *mark_words;
};

/* An SVG file of its own.  room is to work in: too large for a stack. */
void draw__curves(FILE *out, const struct draw__curves *c,
                  struct draw__figure *room);

#endif
