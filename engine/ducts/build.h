/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a filled layout to points, runs and fans.  Private to the ducts. */
#ifndef DEW_DUCTS_BUILD_H
#define DEW_DUCTS_BUILD_H

#include "dew/ducts.h"

enum {
    DUCTS__POINTS = 3 + 10 * DEW_DUCT_VENTS + 8 * DEW_DUCT_HANDLERS +
                    DEW_DUCT_VENTS * DEW_DUCT_HANDLERS + 3 * DEW_DUCT_GRILLES,
    DUCTS__RUNS = 2 * DUCTS__POINTS,
    DUCTS__FANS = DEW_DUCT_HANDLERS + DEW_DUCT_VENTS
};

struct ducts__built {
    struct dew_duct_point points[DUCTS__POINTS];
    struct dew_duct_run runs[DUCTS__RUNS];
    struct dew_fan *fans[DUCTS__FANS];
    size_t point_count, run_count, fan_count;
};

/* Errors: DEW_ERANGE with the member, DEW_EMEM.  The fans are the caller's to
   close, also on failure; *b starts zeroed. */
enum dew_status ducts__build(const struct dew_duct_layout *layout,
                             struct ducts__built *b, struct dew_error *err);

/* Smallest common round size, m, that loses at most rate Pa/m at q. */
double ducts__size(double q, double rate, double roughness);

/*
 * Fill what a run with a role leaves at 0 or NULL.  Fans are kept in b, one
 * for each handler and ventilator; all DUCTS__FANS may be closed.
 */
enum dew_status ducts__complete(const struct dew_duct_layout *l,
                                struct dew_duct_run *run,
                                struct ducts__built *b, struct dew_error *err);

/* Grilles of the usual rooms, where none were told; shares still in parts. */
void ducts__usual(struct dew_duct_layout *layout);

/* Layouts in pieces. */
int ducts__return_fresh(const struct dew_duct_layout *l);
int ducts__supply_fresh(const struct dew_duct_layout *l);
int ducts__return_stale(const struct dew_duct_layout *l);
int ducts__own_fresh(const struct dew_duct_layout *l);

/* Pa that handler's trunk and grilles lose at a flow with the blower still:
   of the return, seen from its fresh or stale tap, or of the supply. */
double ducts__return_resists(const struct dew_duct_handler *h, int fresh,
                             double flow);
double ducts__supply_resists(const struct dew_duct_handler *h, double flow);

#endif
