/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An opened layout.  Private to the ducts. */
#ifndef DEW_DUCTS_OPENED_H
#define DEW_DUCTS_OPENED_H

#include "ducts/build.h"

struct dew_ducts {
    struct dew_duct_layout layout;
    struct ducts__built built; /* of a layout: also owns its fans     */
    const struct dew_duct_point *points;
    const struct dew_duct_run *runs;
    size_t n, m;
    void *copies; /* points and runs written out, owned  */
    struct dew_ducts_network *network;
    double *setting;               /* a run                               */
    double *fresh;                 /* a point: share of fresh air there   */
    double *carried;               /* a point: of what was traced last    */
    double *matrix, *right, *work; /* of the points                       */
    double speed[DEW_DUCT_VENTS][DEW_DUCT_VENT_STATES][2]; /* fresh, stale   */
    int limit[DEW_DUCT_VENTS][DEW_DUCT_VENT_STATES];
    enum dew_vent_state vent;
    int blower;
};

/* Find the fan speeds that give the set flows of d->vent while the blowers are
   as d->blower says. */
enum dew_status ducts__tune(struct dew_ducts *d, struct dew_error *err);

/* 1 where no ventilator is set to more on boost, or to other air: all that is
   said of it running holds of the boost. */
int ducts__no_boost(const struct dew_duct_layout *layout);

/* How many blower states there are. */
int ducts__blowers(const struct dew_duct_layout *layout);

/* Solve the flows of d->vent and d->blower. */
enum dew_status ducts__solve(struct dew_ducts *d, struct dew_error *err);

/* Share of fresh air at every point, from the flows solved last; with the
   ventilator off, of unplanned air. */
enum dew_status ducts__trace(struct dew_ducts *d, struct dew_error *err);

/* Share of fresh air in what flows through run i. */
double ducts__share(const struct dew_ducts *d, size_t i);

/* Trace air drawn in by leaks (handler -1), or one unit of what a handler
   gives each unit of its air; and how much of it flows through run i. */
enum { DUCTS__DRAWN = -1 };
enum dew_status ducts__carry(struct dew_ducts *d, int handler,
                             struct dew_error *err);
double ducts__carries(const struct dew_ducts *d, size_t i);

/* The first run with a role, or d->m; and its flow, or 0. */
size_t ducts__find(const struct dew_ducts *d, enum dew_duct_role role, int of);
double ducts__flow_of(const struct dew_ducts *d, enum dew_duct_role role,
                      int of);

#endif
