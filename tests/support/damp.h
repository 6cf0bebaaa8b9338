/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a year of weather means for damp: hours that a house would feel. */
#ifndef DEW_TESTS_DAMP_H
#define DEW_TESTS_DAMP_H

#include <math.h>
#include <stddef.h>

#include "dew/air.h"
#include "dew/weather.h"

/*
 * A tight house without equipment, invented: its vapour pressure follows the
 * outdoors by 36 h, people add 250 Pa, it is held at 23 degC.  empty: the
 * same without people.
 */
struct damp {
    double above_60, above_65, above_70; /* h  outdoor dew point, degF       */
    double frosty;                       /* h  outdoor dew point below 0 C   */
    double saturated;                    /* h  within 0.5 K of t             */
    double humid, dry;                   /* h  house above 60 %, below 30 %  */
    double empty_humid, empty_dry;       /* h                                */
};

static inline void damp_house(struct damp *d, double pv)
{
    const double full = dew_air_pws(23.0);

    d->humid += (pv + 250.0) / full > 0.60;
    d->dry += (pv + 250.0) / full < 0.30;
    d->empty_humid += pv / full > 0.60;
    d->empty_dry += pv / full < 0.30;
}

static inline struct damp damp_of(const struct dew_hour *h, size_t count)
{
    const double follow = 1.0 - exp(-1.0 / 36.0);
    struct damp d = {0};
    double pv = dew_air_pv(h[0].w, h[0].p);

    for (size_t i = 0; i < count; i++) /* to forget the start */
        pv += follow * (dew_air_pv(h[i].w, h[i].p) - pv);
    for (size_t i = 0; i < count; i++) {
        double td = dew_air_dew_liquid(h[i].w, h[i].p);

        pv += follow * (dew_air_pv(h[i].w, h[i].p) - pv);
        d.above_60 += td > 5.0 / 9.0 * (60.0 - 32.0);
        d.above_65 += td > 5.0 / 9.0 * (65.0 - 32.0);
        d.above_70 += td > 5.0 / 9.0 * (70.0 - 32.0);
        d.frosty += td < 0.0;
        d.saturated += h[i].t - td < 0.5;
        damp_house(&d, pv);
    }
    return d;
}

#endif
