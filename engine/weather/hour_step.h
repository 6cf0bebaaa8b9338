/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The weather between two stamps; weather.h has its contract.  Private. */
#ifndef DEW_WEATHER_HOUR_STEP_H
#define DEW_WEATHER_HOUR_STEP_H

#include "core/many.h"
#include "dew/weather.h"

static CORE__INLINE struct dew_hour weather__between(
    const struct dew_hour *before, const struct dew_hour *after, double share)
{
    struct dew_hour h = *after;

    h.t = before->t + (after->t - before->t) * share;
    h.w = before->w + (after->w - before->w) * share;
    h.p = before->p + (after->p - before->p) * share;
    h.wind = before->wind + (after->wind - before->wind) * share;
    return h;
}

#endif
