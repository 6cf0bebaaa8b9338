/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Frost: when a core must be kept from it, and what that costs. */
#include "dew/plant.h"

#include <math.h>

#include "plant/control_step.h"

struct dew_frost_rule dew_plant_frost_usual(enum dew_frost strategy,
                                            int passes_water)
{
    return (struct dew_frost_rule){
        .strategy = strategy,
        .start = passes_water ? -10.0 : -5.0, /* [MANUALS] */
        .deep = -27.0,                        /* from memory */
        .share = 6.0 / 38.0,                  /* from memory */
        .share_deep = 6.0 / 26.0,             /* from memory */
        .dry_dew = -20.0,                     /* ours */
    };
}

double dew_plant_frost_share(const struct dew_frost_rule *rule, double t_out,
                             double dew)
{
    return plant__frost(rule, t_out, dew);
}

double dew_plant_frost_threshold(double eps, double t_in)
{
    return eps >= 0.0 && eps <= 1.0 ? -(1.0 - eps) * t_in / (1.0 + eps) : NAN;
}
