/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Carbon dioxide of one well mixed room over a stretch of time, without a
 * call, a branch or a loop; sources.h has its contract.  Private to engine/.
 */
#ifndef DEW_HOUSE_CO2_STEP_H
#define DEW_HOUSE_CO2_STEP_H

#include "air/poly.h"
#include "dew/sources.h"

/* y of  volume (y - start) / time = 1e6 generation + flow (outdoors - y) */
static CORE__INLINE double house__co2_step(const struct dew_co2_room *r,
                                           double start, double time)
{
    double comes = 1e6 * r->generation + r->flow * r->outdoors;

    return (r->volume * start + time * comes) / (r->volume + time * r->flow);
}

#endif
