/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Air through the leaks at a state, without a call, a branch or a loop, so
 * that a loop over houses turns into vector instructions; leakage.h has its
 * contract.  Private to engine/.
 */
#ifndef DEW_HOUSE_LEAKAGE_STEP_H
#define DEW_HOUSE_LEAKAGE_STEP_H

#include "air/poly.h"
#include "dew/leakage.h"

/* Keeps the power's argument above 0; K, m/s; ours, 1e-6 of either is none. */
#define HOUSE__STILL 1e-6

/* Stack and wind in quadrature, [ASH-F16] eqs 47 - 50; dt of either sign. */
static CORE__INLINE double house__natural(const struct dew_leakage *k,
                                          double dt, double wind)
{
    double stack =
        k->stack_k * air__poly_pow(core__abs(dt) + HOUSE__STILL, k->stack_n);
    double gust = k->wind_k * air__poly_pow(wind + HOUSE__STILL, k->wind_n);

    return core__sqrt(stack * stack + gust * gust) + k->constant;
}

/*
 * What comes in through the leaks while fans move supply and exhaust:
 * [ASH-F16] eq. 51 less the supply, without the cancellation
 *
 *     root - net = natural^2 / (root + net),  root^2 = natural^2 + net^2
 */
static CORE__INLINE double house__leak_in(double natural, double supply,
                                          double exhaust)
{
    double net = core__abs(supply - exhaust);
    double root = core__sqrt(net * net + natural * natural), both = root + net;
    double pressed = natural * natural / (core__pick(both > 0.0, both, 1.0));

    return core__pick(supply > exhaust, pressed, root);
}

/* House over outdoors, Pa, of a house with leaks: the power law backwards. */
static CORE__INLINE double house__pressure(const struct dew_leakage *k,
                                           double surplus)
{
    double size = air__poly_pow(core__abs(surplus) / k->c, 1.0 / k->n);

    return core__pick(surplus < 0.0, -size, size);
}

#endif
