/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Figures: one chart with its heading, note and legend, either inside the page
 * with a table beside it, or alone as an SVG file that needs no other.
 *
 *     struct dew__figure f = {.out = out, .alone = alone};
 *
 *     snprintf(f.heading, sizeof f.heading, "Hours too humid");
 *     dew__figure_key(&f, 0, DEW__AREA, "as it stands");
 *     dew__figure_open(&f, &p, "hours");
 *     ... the drawing, see svg.h ...
 *     if (dew__figure_table(&f, &p, "Hours too humid"))
 *         ... thead and tbody ...
 *     dew__figure_close(&f);
 */
#ifndef DEW_DRAW_FIGURE_H
#define DEW_DRAW_FIGURE_H

#include <stdio.h>

#include "draw/svg.h"

enum { DEW__KEYS = 66, DEW__FIGURE_TEXT = 480 };

/* How a tone is drawn in the legend. */
enum dew__key_kind {
    DEW__AREA,   /* t0 .. of chart.css   */
    DEW__LINE,   /* l0 ..                */
    DEW__THICK,  /* the house's own line */
    DEW__THIN,   /* outdoors             */
    DEW__LOGGED, /* what was measured     */
    DEW__EDGE,   /* a limit              */
    DEW__SHADE,  /* m0 .. , flat         */
    DEW__SOME,   /* days too humid       */
    DEW__MUCH,
    DEW__DOTS
};

struct dew__figure {
    FILE *out;
    int alone; /* 1: a file of its own                  */
    int plain; /* 1: nothing stands below the names of the months */
    int zooms; /* 1: the script lets a reader zoom      */
    char heading[240];
    char note[DEW__FIGURE_TEXT];  /* how to read it                        */
    char words[DEW__FIGURE_TEXT]; /* what it shows, for who cannot see it  */
    struct dew__key {
        int tone;
        enum dew__key_kind kind;
        char words[100];
    } keys[DEW__KEYS];
    int key_count;
};

/* Add a line to the legend; call before dew__figure_open. */
void dew__figure_key(struct dew__figure *f, int tone, enum dew__key_kind kind,
                     const char *words);

/* Open it and its drawing, with the unit of the upright axis. */
void dew__figure_open(const struct dew__figure *f, const struct dew__plot *p,
                      const char *unit, ...)
    __attribute__((format(printf, 3, 4)));

/* Close the drawing and its marks; 1 when a table follows, then open. */
int dew__figure_table(const struct dew__figure *f, const struct dew__plot *p,
                      const char *caption);

void dew__figure_close(const struct dew__figure *f);

#endif
