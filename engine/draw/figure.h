/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Figures: one chart with its heading, note and legend, either inside the page
 * with a table beside it, or alone as an SVG file that needs no other.
 *
 *     struct draw__figure f = {.out = out, .alone = alone};
 *
 *     snprintf(f.heading, sizeof f.heading, "Hours too humid");
 *     draw__figure_key(&f, 0, DRAW__AREA, "as it stands");
 *     draw__figure_open(&f, &p, "hours");
 *     ... the drawing, see svg.h ...
 *     if (draw__figure_table(&f, &p, "Hours too humid"))
 *         ... thead and tbody ...
 *     draw__figure_close(&f);
 */
#ifndef DEW_DRAW_FIGURE_H
#define DEW_DRAW_FIGURE_H

#include <stdio.h>

#include "draw/svg.h"

enum { DRAW__KEYS = 66, DRAW__FIGURE_TEXT = 480 };

/* How a tone is drawn in the legend. */
enum draw__key_kind {
    DRAW__AREA,   /* t0 .. of chart.css   */
    DRAW__LINE,   /* l0 ..                */
    DRAW__THICK,  /* the house's own line */
    DRAW__THIN,   /* outdoors             */
    DRAW__LOGGED, /* what was measured     */
    DRAW__EDGE,   /* a limit              */
    DRAW__SHADE,  /* m0 .. , flat         */
    DRAW__SOME,   /* days too humid       */
    DRAW__MUCH,
    DRAW__DOTS
};

struct draw__figure {
    FILE *out;
    int alone; /* 1: a file of its own                  */
    int plain; /* 1: nothing stands below the names of the months */
    int zooms; /* 1: the script lets a reader zoom      */
    int high;  /* of a file that is no plot; 0: as high as plots are */
    char heading[240];
    char note[DRAW__FIGURE_TEXT];  /* how to read it                        */
    char words[DRAW__FIGURE_TEXT]; /* what it shows, for who cannot see it  */
    struct draw__key {
        int tone;
        enum draw__key_kind kind;
        char words[100];
    } keys[DRAW__KEYS];
    int key_count;
};

/* Add a line to the legend; call before draw__figure_open. */
void draw__figure_key(struct draw__figure *f, int tone,
                      enum draw__key_kind kind, const char *words);

/* Open it and its drawing, with the unit of the upright axis. */
void draw__figure_open(const struct draw__figure *f, const struct draw__plot *p,
                       const char *unit, ...)
    __attribute__((format(printf, 3, 4)));

/* Close the drawing and its marks; 1 when a table follows, then open. */
int draw__figure_table(const struct draw__figure *f, const struct draw__plot *p,
                       const char *caption);

void draw__figure_close(const struct draw__figure *f);

/* A file of its own that is no plot: f->high below the note are drawn in
   between, from y = DRAW__FIGURE_TOP. */
enum { DRAW__FIGURE_EDGE = 12, DRAW__FIGURE_TOP = 16 };
void draw__figure_begin(const struct draw__figure *f);
void draw__figure_end(const struct draw__figure *f);

/* Bytes of the next line of s, cut at a space, of so many letters. */
size_t draw__figure_line(const char *s, size_t letters);

#endif
