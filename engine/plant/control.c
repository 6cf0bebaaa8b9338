/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Control: shares of time. */
#include "dew/plant.h"

#include <math.h>

#include "plant/control_step.h"

double dew_plant_ramp(double x, double low, double width)
{
    return plant__ramp(x, low, width);
}

enum { WEEK = 7 * 24, SPAN = 3 }; /* hours */

/* Hour h of a week that begins on Monday. */
static double on_in(const struct dew_control *c, int h)
{
    h %= WEEK;
    return h < 5 * 24 ? c->on_weekday[h % 24] : c->on_weekend[h % 24];
}

struct dew_schedule dew_plant_schedule(const struct dew_control *control)
{
    struct dew_schedule s = {0.0, 1.0};

    for (int h = 0; h < WEEK; h++) {
        double span = 0.0;

        for (int k = 0; k < SPAN; k++)
            span += on_in(control, h + k);
        s.mean += on_in(control, h) / WEEK;
        s.least = fmin(s.least, span / SPAN);
    }
    return s;
}

double dew_plant_boost(const struct dew_control *control, double rh)
{
    return plant__boost(control, rh);
}

double dew_plant_lockout(const struct dew_control *control, double w_out,
                         double w_in)
{
    return plant__lockout(control, w_out, w_in);
}

double dew_plant_winter_rh(const struct dew_control *control, double t_out)
{
    return control->winter_rh[0] > 0.0 ? plant__winter_rh(control, t_out) : NAN;
}

double dew_plant_bypass(const struct dew_control *control, double t_out,
                        double t_in)
{
    return plant__bypass(control, t_out, t_in);
}

double dew_plant_dry_demand(const struct dew_dryer *dryer, double rh)
{
    struct plant__band band = plant__dry_band(dryer);

    if (!(band.width > 0.0 && rh >= 0.0))
        return NAN;
    return plant__dry_share(rh, band.end, band.per);
}

double dew_plant_humid_demand(const struct dew_humidifier *humidifier,
                              double rh)
{
    struct plant__band band = plant__wet_band(humidifier);

    if (!(band.width > 0.0 && rh >= 0.0))
        return NAN;
    return plant__wet_share(rh, band.end, band.per);
}
