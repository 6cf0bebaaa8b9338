/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a filled layout to points, runs and fans.  Private to the ducts. */
#ifndef DEW_DUCTS_BUILD_H
#define DEW_DUCTS_BUILD_H

#include "dew/ducts.h"

enum {
    DEW__POINTS = 3 + 10 * DEW_DUCT_VENTS + 8 * DEW_DUCT_HANDLERS +
                  DEW_DUCT_VENTS * DEW_DUCT_HANDLERS + 3 * DEW_DUCT_GRILLES,
    DEW__RUNS = 2 * DEW__POINTS,
    DEW__FANS = DEW_DUCT_HANDLERS + DEW_DUCT_VENTS
};

struct dew__built {
    struct dew_duct_point points[DEW__POINTS];
    struct dew_duct_run runs[DEW__RUNS];
    struct dew_fan *fans[DEW__FANS];
    size_t point_count, run_count, fan_count;
};

/* Errors: DEW_ERANGE with the member, DEW_EMEM.  The fans are the caller's to
   close, also on failure; *b starts zeroed. */
enum dew_status dew__ducts_build(const struct dew_duct_layout *layout,
                                 struct dew__built *b, struct dew_error *err);

/* Smallest common round size, m, that loses at most rate Pa/m at q. */
double dew__ducts_size(double q, double rate, double roughness);

/*
 * Fill what a run with a role leaves at 0 or NULL.  Fans are kept in b, one
 * for each handler and ventilator; all DEW__FANS may be closed.
 */
enum dew_status dew__ducts_complete(const struct dew_duct_layout *l,
                                    struct dew_duct_run *run,
                                    struct dew__built *b,
                                    struct dew_error *err);

/* Grilles of the usual rooms, where none were told; shares still in parts. */
void dew__ducts_usual(struct dew_duct_layout *layout);

/* Layouts in pieces. */
int dew__ducts_return_fresh(const struct dew_duct_layout *l);
int dew__ducts_supply_fresh(const struct dew_duct_layout *l);
int dew__ducts_return_stale(const struct dew_duct_layout *l);
int dew__ducts_own_fresh(const struct dew_duct_layout *l);

/* Pa that handler's trunk and grilles lose at a flow with the blower still:
   of the return, seen from its fresh or stale tap, or of the supply. */
double dew__ducts_return_resists(const struct dew_duct_handler *h, int fresh,
                                 double flow);
double dew__ducts_supply_resists(const struct dew_duct_handler *h, double flow);

#endif
