/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes and words of a sketch of air paths.  Private to the report. */
#ifndef DEW_DRAW_DUCTS_PEN_H
#define DEW_DRAW_DUCTS_PEN_H

#include "draw/ducts_plan.h"

struct dew__pen {
    FILE *out;
    const struct dew__told *t;
    const struct dew_duct_state *s;
    const struct dew__plan *p;
    enum dew_system system;
    double most; /* m3/s   widest flow                                    */
};

struct dew__spot {
    double x, y;
};

enum dew__stroke { DEW__FRESH, DEW__STALE, DEW__TRUNK, DEW__ASTRAY };

/* m3/s of air, signed, and of the fresh part of it. */
struct dew__flow {
    double q, fresh;
};

/* Below it nothing is drawn as a flow: half a cfm, m3/s. */
#define DEW__NO_FLOW 2.5e-4

/* A run by its name, "return trunk 1", or its role; -1 when there is none. */
int dew__pen_run_named(const struct dew__pen *p, const char *name, int of);
int dew__pen_run(const struct dew__pen *p, enum dew_duct_role role, int of);
/* Its flow in the state solved last; none for -1. */
struct dew__flow dew__pen_air(const struct dew__pen *p, int run);

/* Stroke of a flow, by its root. */
double dew__pen_width(const struct dew__pen *p, double q);
/* A line through n corners. */
void dew__pen_path(const struct dew__pen *p, const struct dew__spot *at, int n,
                   const char *class, double width);
/* A duct through corners with its head, its flow positive along them. */
void dew__pen_duct(const struct dew__pen *p, const struct dew__spot *at, int n,
                   struct dew__flow air, enum dew__stroke stroke);
void dew__pen_words(const struct dew__pen *p, struct dew__spot at,
                    const char *class, const char *text);
/* How much flows, where it is drawn at all. */
void dew__pen_amount(const struct dew__pen *p, struct dew__spot at, double q,
                     const char *class);

#endif
