/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Heat exchanger relations: effectiveness from transfer units, and back.
 *
 *     ntu   number of transfer units, UA / C_min     -    0 .. 500
 *     c     capacity ratio, C_min / C_max            -    0 .. 1
 *     eps   effectiveness on C_min                   -    0 .. 1
 *
 * Vapour goes by the same relations with dry-air mass flows for capacities.
 * An argument outside its range gives NaN.
 */
#ifndef DEW_EXCHANGE_H
#define DEW_EXCHANGE_H

#ifdef __cplusplus
extern "C" {
#endif

/* The way the two airs pass each other. */
enum dew_exchange {
    DEW_COUNTERFLOW, /* plates, counterflow                                 */
    DEW_CROSSFLOW,   /* plates, crossflow, both airs unmixed                */
    DEW_HEADERED,    /* counterflow plates with crossflow ends              */
    DEW_WHEEL,       /* rotor; its correction is apart, see below           */
};

/*
 * Effectiveness.
 *
 * Equation   counterflow [ASH-F4] table 10, T10.2; crossflow the exact series
 *            of [MASON54], to 1e-14; headered: two in series in counterflow
 *            order [KL84], with DEW_HEADER_SHARE of the units in the ends;
 *            wheel as counterflow.
 * Errors     NaN outside the ranges above.
 * Checked    tests/plant/test_exchange.c against published values.
 */
double dew_plant_effectiveness(enum dew_exchange kind, double ntu, double c);

/*
 * Share of the transfer units that a headered core has in its crossflow ends.
 * Common practice, no source: two of seven parts of the plate.
 */
#define DEW_HEADER_SHARE (2.0 / 7.0)

/*
 * Transfer units that give eps; the inverse of dew_plant_effectiveness, to
 * 1e-10 relative.  Closed form for counterflow; else bisection in the
 * logarithm of ntu within 1e-9 .. 500.
 *
 * Errors     NaN when eps is outside 0 .. 1 or not reached within ntu 500.
 */
double dew_plant_ntu(enum dew_exchange kind, double eps, double c);

/* Two exchangers in series in counterflow order, each on the same c [KL84]. */
double dew_plant_in_series(double eps_1, double eps_2, double c);

/*
 * Factor on the effectiveness of a rotor that turns at a finite speed.
 *
 *     rotor  -    1 .. inf    heat capacity rate of the rotor / C_min
 *
 * Equation   1 - 1 / (9 rotor^1.93), [KL84]; stated there for eps <= 0.9.
 */
double dew_plant_rotor(double rotor);

#ifdef __cplusplus
}
#endif
#endif
