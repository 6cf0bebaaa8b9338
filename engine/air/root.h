/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one solver of this floor, and its range checks.  Private. */
#ifndef DEW_AIR_ROOT_H
#define DEW_AIR_ROOT_H

#include "air/poly.h"

/* The one place of the ranges stated in air.h. */
#define AIR__T_LOW  (-100.0)
#define AIR__T_HIGH 90.0
#define AIR__P_LOW  50e3
#define AIR__P_HIGH 110e3

/* Share above saturation that is rounding of a round trip, not fog. */
#define AIR__ROUNDING 1e-9

/*
 * The zero of f between low and high, where f(low) <= 0 <= f(high); NaN when
 * that does not hold.  Newton, halving the bracket where a step would leave
 * it; ends when a step is below 1e-10 K, and then the error is far smaller.
 */
double air__root(struct air__line (*f)(double x, const void *in),
                 const void *in, double low, double high);

/* Saturation pressure and its slope, unchecked: t within -100 .. 90. */
struct air__line air__pws(double t);
struct air__line air__pws_liquid(double t);
struct air__line air__pws_ice(double t);

/* Humidity ratio of rh at t and its slope in t; pv must stay below p. */
struct air__line air__w_rh(double t, double rh, double p);

/* Highest t, at most 90 degC, at which rh x pws is still below p. */
double air__t_top(double rh, double p);

#endif
