/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condensing in a core that passes no water. */
#include <math.h>

#include "plant/core_step.h"

void dew_plant_core_wet(const struct dew_core_meeting *meeting,
                        struct dew_core_wet *out)
{
    const struct dew_core_meeting *m = meeting;
    int sound =
        m->ntu > 0.0 && m->ntu <= 200.0 && core__within(m->ratio, 0.3, 3.0) &&
        core__within(m->t_in, 0.0, 40.0) && m->t_out >= -60.0 &&
        m->t_out < m->t_in && m->w >= 0.0 && core__within(m->p, 50e3, 110e3);
    double dew = m->w > 0.0 ? dew_air_dew(m->w, m->p) : -100.0;

    *out = sound ? plant__core_wet(m, dew)
                 : (struct dew_core_wet){NAN, NAN, NAN, NAN};
}
