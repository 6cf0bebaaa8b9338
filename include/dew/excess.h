/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Moisture excess: how much more vapour the room's air holds than the
 * outdoors, kg/m3.  A yardstick from many houses to hold one against; the
 * march does not use it.
 */
#ifndef DEW_EXCESS_H
#define DEW_EXCESS_H

#ifdef __cplusplus
extern "C" {
#endif

/* Vapour in a m3 of air, kg/m3, of rh (0 .. 1) at t (degC): pv / (Rv T). */
double dew_house_vapour(double t, double rh);

/* Excess that a source leaves at rest, kg/m3: source / flow (kg/s, m3/s). */
double dew_house_excess(double source, double flow);

/*
 * Upper bound of humidity class 1 .. 4 (storage; dwellings with usual use;
 * unknown use; kitchens and halls) at outdoor te, kg/m3: 2, 4, 6, 8 g/m3 up to
 * 0 degC, straight down to 0 at 20 degC.  NaN for no such class.
 *
 * Source     [ISO13788] annex A, quoted; class 1 from memory.
 */
double dew_house_excess_bound(int class_of, double te);

/* What a tenth of 101 timber houses exceed, kg/m3: 4 g/m3 up to 5 degC, 1.5
   from 15 degC, straight between.  [KVK06]  In 220 dwellings the mean of the
   cold season was 2.8 +- 1.6 g/m3 [VINHA18]. */
double dew_house_excess_measured(double te);

#ifdef __cplusplus
}
#endif
#endif
