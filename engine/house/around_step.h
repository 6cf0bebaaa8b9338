/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The space around ducts at a state; thermal.h has its contract.  Private. */
#ifndef DEW_HOUSE_AROUND_STEP_H
#define DEW_HOUSE_AROUND_STEP_H

#include "core/many.h"
#include "dew/thermal.h"

#define HOUSE__OUTER     17.0 /* W/m2K   h_o [ASH-F18]                      */
#define HOUSE__EMITTANCE 0.9  /* -       [ASH-F18]                          */
#define HOUSE__TO_SKY    63.0 /* W/m2    [ASH-F18]                          */

static CORE__INLINE double house__sol_air(double t_out, double sun,
                                          double absorptance)
{
    return t_out + (absorptance * sun - HOUSE__EMITTANCE * HOUSE__TO_SKY) /
                       HOUSE__OUTER;
}

static CORE__INLINE double house__around_t(const struct dew_around *a,
                                           const struct dew_around_hour *h)
{
    double sum = a->roof + a->rooms + a->ground + a->air;
    double roof = house__sol_air(h->t_out, h->sun, a->absorptance);
    core__truth bound = sum > 0.0;
    double by = a->roof * (roof - h->t_out) + a->rooms * (h->t_in - h->t_out) +
                a->ground * (h->t_ground - h->t_out);

    return h->t_out + core__pick(bound, by / core__pick(bound, sum, 1.0), 0.0);
}

#endif
