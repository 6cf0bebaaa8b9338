/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Windows opened by habit in mild weather.  For every hour; allocation-free.
 * A plain model of ours: it knows no rain, no noise and no open door.
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

#ifdef __cplusplus
}
#endif
#endif
