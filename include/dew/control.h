/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Control of ventilator and dryers: shares of time, 0 .. 1, from the state.
 * Each comes in along a straight ramp, so that no answer hangs on the step.
 * engine/plant/control_step.h holds the same as inline functions.
 */
#ifndef DEW_CONTROL_H
#define DEW_CONTROL_H

#include "dew/plant.h"

#ifdef __cplusplus
extern "C" {
#endif

/* 0 at low and below, 1 at low + width and above; width 0 = a step. */
double dew_plant_ramp(double x, double low, double width);

/*
 * The week's schedule: mean share of time on, and the least mean of any three
 * hours on end, to which [ASH-622] holds a fan that pauses (from memory).
 */
struct dew_schedule {
    double mean, least;
};
struct dew_schedule dew_plant_schedule(const struct dew_control *control);

/* Share of boost: 0 at boost_rh, 1 a boost_band above; 0 when boost_rh = 0. */
double dew_plant_boost(const struct dew_control *control, double rh);

/*
 * Share kept of the ventilator's time, lockout_least .. 1.  Outdoor air holds
 * more than lockout_w, and more than w_in + lockout_excess when that is
 * asked: each comes in over 0.0002 kg/kg centred on its limit.
 */
double dew_plant_lockout(const struct dew_control *control, double w_out,
                         double w_in);

/*
 * RH the house should have at t_out in winter: winter_rh[0] at 0 degC and
 * above, a straight line to winter_rh[1] at -20 degC, level below.  NaN when
 * winter_rh[0] = 0: none set.
 */
double dew_plant_winter_rh(const struct dew_control *control, double t_out);

/*
 * Share of the core by-passed for free cooling, 0 .. 1: outdoors above
 * bypass_low and below the indoor air, indoors above bypass_indoor; each comes
 * in over 0.5 K.  0 when bypass_low is NaN.
 */
double dew_plant_bypass(const struct dew_control *control, double t_out,
                        double t_in);

/*
 * Share of output of a dryer or humidifier with a band about its set point: 0
 * to 1 across it.  0 of a device without a rate; NaN for a band of no width,
 * and for an rh below 0.
 */
double dew_plant_dry_demand(const struct dew_dryer *dryer, double rh);
double dew_plant_humid_demand(const struct dew_humidifier *humidifier,
                              double rh);

#ifdef __cplusplus
}
#endif
#endif
