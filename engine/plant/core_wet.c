/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condensing in a core that passes no water. */
#include <math.h>

#include "plant/core_step.h"

void dew_plant_core_wet(double ntu, double t_out, double t_in, double w_in,
                        double p, struct dew_core_wet *out)
{
    int sound = ntu > 0.0 && ntu <= 20.0 && t_out >= -60.0 && t_in <= 40.0 &&
                t_in >= 0.0 && t_out < t_in && w_in >= 0.0 && p >= 50e3 &&
                p <= 110e3;
    double dew = w_in > 0.0 ? dew_air_dew(w_in, p) : -100.0;

    *out = sound ? dew__core_wet(ntu, t_out, t_in, w_in, dew, p)
                 : (struct dew_core_wet){NAN, NAN, NAN};
}
