/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Control and frost: shares of time. */
#include "dew/control.h"

#include <math.h>

#include "dew/frost.h"
#include "plant/control_step.h"

double dew_plant_ramp(double x, double low, double width)
{
    return dew__plant_ramp(x, low, width);
}

double dew_plant_boost(const struct dew_control *control, double rh)
{
    return dew__plant_boost(control, rh);
}

double dew_plant_lockout(const struct dew_control *control, double w_out,
                         double w_in)
{
    return dew__plant_lockout(control, w_out, w_in);
}

double dew_plant_winter_rh(const struct dew_control *control, double t_out)
{
    const double cold = 20.0; /* K below 0 degC: the second of the pair */

    if (!(control->winter_rh[0] > 0.0))
        return NAN;
    return control->winter_rh[0] +
           (control->winter_rh[1] - control->winter_rh[0]) *
               dew__plant_ramp(-t_out, 0.0, cold);
}

double dew_plant_bypass(const struct dew_control *control, double t_out,
                        double t_in)
{
    return dew__plant_bypass(control, t_out, t_in);
}

double dew_plant_dry_demand(const struct dew_dryer *dryer, double rh)
{
    return dryer->rate > 0.0
               ? dew__plant_ramp(rh, dryer->set - 0.5 * dryer->band,
                                 dryer->band)
               : 0.0;
}

double dew_plant_humid_demand(const struct dew_humidifier *humidifier,
                              double rh)
{
    return humidifier->rate > 0.0
               ? dew__plant_ramp(-rh,
                                 -(humidifier->set + 0.5 * humidifier->band),
                                 humidifier->band)
               : 0.0;
}

/* ---- frost -------------------------------------------------------------- */

static const double air_capacity = 1.204 * 1006.0; /* J/(m3 K) at 20 degC */

struct dew_frost_rule dew_plant_frost_usual(enum dew_frost strategy,
                                            int passes_water)
{
    return (struct dew_frost_rule){
        .strategy = strategy,
        .start = passes_water ? -10.0 : -5.0, /* [MANUALS] */
        .deep = -27.0,                        /* from memory */
        .share = 6.0 / 38.0,                  /* from memory */
        .share_deep = 6.0 / 26.0,             /* from memory */
        .dry_dew = -20.0,                     /* ours */
    };
}

double dew_plant_frost_share(const struct dew_frost_rule *rule, double t_out,
                             double dew)
{
    return dew__plant_frost(rule, t_out, dew);
}

double dew_plant_frost_preheat(const struct dew_frost_rule *rule, double t_out)
{
    return rule->strategy == DEW_FROST_PREHEAT
               ? air_capacity * fmax(rule->start - t_out, 0.0)
               : 0.0;
}

double dew_plant_frost_threshold(double eps, double t_in)
{
    return eps >= 0.0 && eps <= 1.0 ? -(1.0 - eps) * t_in / (1.0 + eps) : NAN;
}
