/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Windows opened by habit in mild weather.  For every hour; allocation-free.
 * A plain model of ours: it knows no rain, no noise and no open door, and no
 * study that we know says what people in cooled houses do.
 */
#ifndef DEW_WINDOWS_H
#define DEW_WINDOWS_H

#include "dew/house.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Running mean outdoors after hours (>= 0) more at t: a memory of 0.8 a day,
 * [EN16798], from memory, taken without steps at midnight.  A NaN before
 * starts it at t.
 */
double dew_house_running_mean(double before, double t, double hours);

/*
 * Share of full opening, 0 .. 1: 0 up to mild_low, 1 from mild_high, between
 * them 3x^2 - 2x^3; 0 while the house is cooled, and where flow is 0.
 */
double dew_house_window_share(const struct dew_windows *windows,
                              double running_mean, int cooling);

/*
 * 1 where one who looks at the dew point leaves windows open: that outdoors
 * (w_out, kg/kg) is below that of the air indoors (w) and below that of the
 * limit rh (0 .. 1) at the indoor temperature t (degC), at p (Pa).  Outdoor
 * air then takes water out of the house, and brings none.
 */
int dew_house_window_dries(double w_out, double w, double t, double rh,
                           double p);

#ifdef __cplusplus
}
#endif
#endif
