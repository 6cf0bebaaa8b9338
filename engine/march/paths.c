/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the states of the air paths differ at all. */
#include "march/paths.h"

static int same(const struct dew_path *a, const struct dew_path *b)
{
    return a->supply == b->supply && a->exhaust == b->exhaust &&
           a->fresh == b->fresh && a->drawn == b->drawn &&
           a->sensible == b->sensible && a->latent == b->latent &&
           a->unplanned == b->unplanned && a->spill == b->spill &&
           a->leak_in == b->leak_in && a->leak_out == b->leak_out &&
           a->leak_lost == b->leak_lost && a->at_coil == b->at_coil &&
           a->idle_at_coil == b->idle_at_coil && a->fan_w == b->fan_w &&
           a->fan_heat == b->fan_heat && a->preheat_w == b->preheat_w &&
           a->condensing == b->condensing;
}

int march__paths_alike(const struct dew_case *c)
{
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 1; b < DEW_BLOWER_STATES; b++)
            if (!same(&c->paths[v][b], &c->paths[v][0]))
                return 0;
    return 1;
}
