/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/leakage.h"

#include <math.h>

#include "dew/air.h"

double dew_house_running_mean(double before, double t, double hours)
{
    const double memory = 0.8;                 /* a day  [EN16798] */
    const double an_hour = 0.9907454415104576; /* its 24th root    */

    if (isnan(before))
        return t;
    return t +
           (before - t) * (hours == 1.0 ? an_hour : pow(memory, hours / 24.0));
}

double dew_house_window_share(const struct dew_windows *windows,
                              double running_mean, int cooling)
{
    double x = running_mean - windows->mild_low;
    double width = windows->mild_high - windows->mild_low;

    if (isnan(running_mean))
        return NAN;
    if (cooling || !(windows->flow > 0.0) || x <= 0.0)
        return 0.0;
    if (x >= width)
        return 1.0;
    x /= width;
    return x * x * (3.0 - 2.0 * x);
}

int dew_house_window_dries(double w_out, double w, double t, double rh,
                           double p)
{
    return w_out < w && w_out < dew_air_w(t, rh, p);
}
