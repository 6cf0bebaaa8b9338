/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What ducts outside make of their air, at a state; ducts.h has its contract.
   Private to engine/. */
#ifndef DEW_DUCTS_DELIVERY_STEP_H
#define DEW_DUCTS_DELIVERY_STEP_H

#include "core/many.h"
#include "dew/ducts.h"

static CORE__INLINE struct dew_duct_delivery ducts__delivery(
    const struct dew_duct_leaking *leaking, double supply_takes,
    double return_takes)
{
    struct dew_duct_delivery d;
    double both = (1.0 - supply_takes) * (1.0 - return_takes);

    d.kept = 1.0 - leaking->lost;
    d.wall = d.kept * (1.0 - leaking->drawn) * (1.0 - both);
    d.wall_effect = d.kept * supply_takes;
    return d;
}

#endif
