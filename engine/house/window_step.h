/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who opens windows, at a state; leakage.h has the contract.  Private. */
#ifndef DEW_HOUSE_WINDOW_STEP_H
#define DEW_HOUSE_WINDOW_STEP_H

#include "air/air_step.h"
#include "dew/leakage.h"

static CORE__INLINE double house__running_mean(double before, double t,
                                               double hours)
{
    const core__plain memory = 0.8; /* a day  [EN16798] */

    return t + (before - t) * air__poly_pow(CORE__OF(memory), hours / 24.0);
}

/* A cubic from shut to open over the band, with level ends. */
static CORE__INLINE double house__window_share(
    const struct dew_windows *windows, double running_mean, core__truth cooling)
{
    double width = windows->mild_high - windows->mild_low;
    core__truth wide = width > 0.0;
    double x =
        (running_mean - windows->mild_low) / core__pick(wide, width, 1.0);
    core__truth shut = cooling | core__not(windows->flow > 0.0) |
                       (running_mean <= windows->mild_low);

    x = core__pick(wide, x, 1.0);
    x = core__pick(x < 1.0, x * x * (3.0 - 2.0 * x), 1.0);
    return core__pick(shut, 0.0, x);
}

static CORE__INLINE core__truth house__window_dries(double w_out, double w,
                                                    double t, double rh,
                                                    double p)
{
    return (w_out < w) & (w_out < air__w_pv(rh * air__poly_pws(t).value, p));
}

#endif
