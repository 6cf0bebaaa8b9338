/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Frost in a recovery core: when it begins and what keeping it off costs.
 * The rule itself, struct dew_frost_rule, stands in plant.h.
 */
#ifndef DEW_FROST_H
#define DEW_FROST_H

#include "dew/plant.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * A rule with its usual figures, for a core that passes water or not.
 *
 * Starts     -5 degC for plates that pass no water, -10 degC for those that
 *            do [MANUALS].
 * Shares     6 min in 38 from the start, 6 in 26 below -27 degC: a typical
 *            printed time table, from memory.  Preheat loses no time.
 * Dry        no defrost when the exhaust air's dew point is so low that no
 *            water comes out at the threshold: -20 degC, ours.
 */
struct dew_frost_rule dew_plant_frost_usual(enum dew_frost strategy,
                                            int passes_water);

/*
 * Share of time lost to defrosting, 0 .. 1: recirculating (no fresh air) or
 * exhausting alone (unbalanced).  0 for preheat and for none.
 *
 *     t_out  degC   outdoors
 *     dew    degC   dew point of the exhaust air
 *
 * From rule->share at rule->start in a straight line to rule->share_deep at
 * rule->deep; fades to nothing over the 2 K of dew above rule->dry_dew.
 */
double dew_plant_frost_share(const struct dew_frost_rule *rule, double t_out,
                             double dew);

/*
 * Outdoor temperature, degC, at which the coldest part of a balanced
 * counterflow core reaches 0 degC: the wall there is midway between outdoor
 * air in and exhaust air out, -(1 - eps) t_in / (1 + eps).  A figure to report
 * beside the rule; it takes the exhaust air as saturated there.
 */
double dew_plant_frost_threshold(double eps, double t_in);

#ifdef __cplusplus
}
#endif
#endif
