/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Winter windows: the humidity at which the glass and its edge wet, by outdoor
 * temperature, beside the humidity the trade advises for that temperature.
 */
#ifndef DEW_WETTING_H
#define DEW_WETTING_H

#include "dew/study.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { DEW_WET_ROWS = 6 };

/* The trade's table holds for rooms at 70 degF, [MN-DPS]. */
#define DEW_WET_ROOM (38.0 / 1.8) /* degC                                    */

/* One band of the trade's table; the last is open below.  Plain. */
struct dew_wet_row {
    double t_low, t_high; /* degC  outdoors: 20 to 40 degF, 10 to 20, ...    */
    double t;             /* degC  at which the rest is worked out: the lower
                                   end, 10 degF below the open one's upper   */
    double glass;         /* -     room RH at which the middle of it wets    */
    double frame;         /* -     the same of edge and frame                */
    double trade;         /* -     the trade's ceiling                       */
    double hours;         /* h     of the year in this band                  */
    double above_trade;   /* h     of them with RH above the trade's ceiling */
    double wet;           /* h     of them with the glass at its dew point   */
    double keeps_dry;     /* m3/s  outdoor air that would keep the frame from
                                   wetting in those hours, without moisture
                                   recovery; 0 where it stays dry; NaN where
                                   outdoor air cannot, or no hour fell       */
};

/*
 * The bands at rooms of DEW_WET_ROOM; hours from the outcome.  The film inside
 * is in the factors of *c: DEW_FILM_GLASS unless the factors were given.
 *
 * Equation   surface.h; keeps_dry: G / (rho (w_wet - w_out)), with G the mean
 *            of what people, cooking and the like set free, w_wet that of the
 *            room at which the frame wets at t, w_out the mean of the hours.
 */
void dew_wetting_of(const struct dew_outcome *o, const struct dew_case *c,
                    struct dew_wet_row out[DEW_WET_ROWS]);

/* kg/s   what the house's own sources set free, mean of the year. */
double dew_wetting_sources(const struct dew_tally *year);

#ifdef __cplusplus
}
#endif
#endif
