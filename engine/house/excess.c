/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/excess.h"

#include <math.h>

#include "dew/air.h"

static const double vapour_constant = 461.52; /* J/(kg K)  R / 18.015 */

double dew_house_vapour(double t, double rh)
{
    if (!(rh >= 0.0 && rh <= 1.0))
        return NAN;
    return rh * dew_air_pws(t) / (vapour_constant * (t + 273.15));
}

double dew_house_excess(double source, double flow)
{
    return source >= 0.0 && flow > 0.0 ? source / flow : NAN;
}

/* cold up to from, warm beyond to, straight between. */
static double falling(double te, const double at[2], const double of[2])
{
    double share = (te - at[0]) / (at[1] - at[0]);

    if (isnan(te))
        return NAN;
    return of[0] + (of[1] - of[0]) * fmin(fmax(share, 0.0), 1.0);
}

double dew_house_excess_bound(int class_of, double te)
{
    const double at[2] = {0.0, 20.0};
    const double of[2] = {2e-3 * class_of, 0.0};

    return class_of >= 1 && class_of <= 4 ? falling(te, at, of) : NAN;
}

double dew_house_excess_measured(double te)
{
    static const double at[2] = {5.0, 15.0}, of[2] = {4e-3, 1.5e-3};

    return falling(te, at, of);
}
