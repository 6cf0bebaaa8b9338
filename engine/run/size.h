/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of sizing share.  Private to engine/run/. */
#ifndef DEW_RUN_SIZE_H
#define DEW_RUN_SIZE_H

#include "dew/size.h"
#include "run/run.h"

enum {
    RUN__SIZE_POINTS = 48, /* of a curve                                     */
    RUN__SIZE_GRID = 12,
    RUN__SIZE_HELD = 10, /* figures that are fixed at once                    */
    RUN__SIZE_CURVES = (int)DEW_SIZE_CORES * (int)DEW_SIZE_KNOBS
};

#define RUN__CFM        4.719474432e-4        /* m3/s */
#define RUN__PINT_A_DAY (0.473176473 / 86400) /* kg/s */

/* A core to try. */
struct run__size_core {
    struct dew_run *run; /* NULL: not tried, and why                         */
    struct dew_spread *spread;
    size_t draws; /* 0: nothing is told in a range                           */
    /* [RUN__SIZE_GRID][draws]  h outside the limits at each airflow of the
       grid; NaN where none was marched; NULL without draws                  */
    double *outside;
    char why[200];
};

struct run__size_curve {
    struct dew_size_curve told;
    struct dew_size_point points[RUN__SIZE_POINTS];
    double grid[RUN__SIZE_GRID]; /* to be tried first                        */
    size_t grid_count, tried;    /* of the grid                              */
    int ended; /* 1: closed in on no further                                 */
    struct dew_change list[RUN__SIZE_HELD]; /* of the figure now tried       */
};

struct dew_size {
    struct run__size_core cores[DEW_SIZE_CORES];
    struct run__size_curve *curves; /* RUN__SIZE_CURVES                      */
    size_t count;                   /* finished                              */
    int open;                       /* 1: curves[count] is being tried       */
    size_t next;                    /* core and knob to look at, of all      */
    struct dew_size_target target;
    unsigned knobs; /* of the ask                                            */
};

/* ---- size.c ------------------------------------------------------------------ */

/* Of the weather of a run and the limits of its first option. */
struct dew_size_outdoors run__outdoors(const struct dew_run *run);

/* ---- size_best.c ------------------------------------------------------------- */

/* Give the cores the same draws, and room for what is compared.  Errors:
   DEW_EMEM. */
enum dew_status run__size_pair(struct dew_size *s, struct dew_error *err);

/* Keep what the houses just marched came to at airflow i of the grid. */
void run__size_keep(struct dew_size *s, enum dew_size_core core, size_t i);

/* ---- size_plan.c ------------------------------------------------------------- */

/* Key i of an option of the run's scenario, as told there. */
const struct dew_value *run__size_value(const struct dew_run *run,
                                        const char *key);

/* The airflows of the grid, m3/s; returns how many. */
size_t run__size_flows(const struct dew_size *s, double flows[RUN__SIZE_GRID]);

/* Whether a figure is worth trying, by the curves before it; and then its
   first figures and what it is tried at, into c. */
int run__size_plan(const struct dew_size *s, enum dew_size_core core,
                   enum dew_size_knob knob, struct run__size_curve *c);

/* What is held while value is tried. */
struct dew_changes run__size_changes(const struct dew_size *s,
                                     struct run__size_curve *c, double value);

/* ---- size_curve.c ------------------------------------------------------------ */

/* The figure to try next; 0 when there is none. */
int run__size_next(const struct run__size_curve *c, double *value);

/* March it and put it in its place. */
enum dew_status run__size_try(struct dew_size *s, struct run__size_curve *c,
                              double value, struct dew_error *err);

/* Fill what is told from the points. */
void run__size_tell(struct run__size_curve *c);

#endif
