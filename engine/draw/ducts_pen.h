/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes and words of a sketch of air paths.  Private to the report. */
#ifndef DEW_DRAW_DUCTS_PEN_H
#define DEW_DRAW_DUCTS_PEN_H

#include "draw/ducts_plan.h"

struct draw__pen {
    FILE *out;
    const struct report__told *t;
    const struct dew_duct_state *s;
    const struct draw__plan *p;
    enum dew_system system;
    double most; /* m3/s   widest flow                                    */
    int words;   /* 1: words alone, to stand on every line; 0: lines alone */
};

struct draw__spot {
    double x, y;
};

enum draw__stroke { DRAW__FRESH, DRAW__STALE, DRAW__TRUNK, DRAW__ASTRAY };

/* m3/s of air, signed, and of the fresh part of it. */
struct draw__flow {
    double q, fresh;
};

/* Below it nothing is drawn as a flow: half a cfm, m3/s. */
#define DRAW__NO_FLOW 2.5e-4

/* A run by its name, "return trunk 1", or its role; -1 when there is none. */
int draw__pen_run_named(const struct draw__pen *p, const char *name, int of);
int draw__pen_run(const struct draw__pen *p, enum dew_duct_role role, int of);
/* Its flow in the state solved last; none for -1. */
struct draw__flow draw__pen_air(const struct draw__pen *p, int run);

/* Stroke of a flow, by its root. */
double draw__pen_width(const struct draw__pen *p, double q);
/* A line through n corners. */
void draw__pen_path(const struct draw__pen *p, const struct draw__spot *at,
                    int n, const char *class, double width);
/* A duct through corners with its head, its flow positive along them. */
void draw__pen_duct(const struct draw__pen *p, const struct draw__spot *at,
                    int n, struct draw__flow air, enum draw__stroke stroke);
void draw__pen_words(const struct draw__pen *p, struct draw__spot at,
                     const char *class, const char *text);
/* How much flows, where it is drawn at all: ducts without flow are not. */
void draw__pen_amount(const struct draw__pen *p, struct draw__spot at, double q,
                      const char *class);

#endif
