/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/leakage.h"

#include <math.h>

#include "house/window_step.h"

double dew_house_running_mean(double before, double t, double hours)
{
    return isnan(before) ? t : house__running_mean(before, t, hours);
}

double dew_house_window_share(const struct dew_windows *windows,
                              double running_mean, int cooling)
{
    return isnan(running_mean)
               ? NAN
               : house__window_share(windows, running_mean, cooling != 0);
}

int dew_house_window_dries(double w_out, double w, double t, double rh,
                           double p)
{
    return house__window_dries(w_out, w, t, rh, p);
}
