/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Saturation pressure and powers without a call, a branch or a loop, so that
 * a loop over houses turns into vector instructions.  Private to engine/.
 *
 * pws is P(x)^8 with x = (t - middle) / half: the eighth root of the curve is
 * nearly straight.  The coefficients are made by tests/air/make_poly.py, which
 * says how; tests/air/test_poly.c holds the errors stated here against
 * [HW83] as dew_air_pws has it, and tests/air/test_vector.sh the claim above.
 *
 *     air__poly_pws         -60 .. 60 degC   over ice below 0.01    1e-9
 *     air__poly_pws_liquid  -60 .. 60 degC   over liquid            1e-9
 *     air__poly_pws_room     -5 .. 50 degC   over liquid            2e-9
 *     air__poly_log2        x 2.3e-308 .. 1.7e308                   1e-11
 *     air__poly_exp2        y -1022 .. 1023                         1e-12
 *     air__poly_pow         x > 0, |y log2 x| < 1000                1e-11 per
 *                           unit of |y log2 x|, at least 1e-11
 *
 * Errors are relative.  A pws outside its range is NaN; the ranges of the
 * powers are the caller's to keep.
 */
#ifndef DEW_AIR_POLY_H
#define DEW_AIR_POLY_H

#include <math.h>
#include <string.h>

#include "core/range.h"

#define AIR__POLY_LOW  (-60.0)
#define AIR__POLY_HIGH 60.0

/* For powers of e and natural logarithms by those of 2. */
#define AIR__LN_2     0.69314718055994531
#define AIR__PER_LN_2 1.4426950408889634

/* A value and its slope in t; the part not used costs nothing. */
struct air__line {
    double value, slope;
};

static CORE__INLINE core__bits air__poly_bits(double x)
{
    core__bits u;

    memcpy(&u, &x, sizeof u);
    return u;
}

static CORE__INLINE double air__poly_from_bits(core__bits u)
{
    double x;

    memcpy(&x, &u, sizeof x);
    return x;
}

/* t between low and high, else NaN.  A term, for gcc to find no branch in. */
static CORE__INLINE double air__poly_between(double t, core__plain low,
                                             core__plain high)
{
    const core__plain none = NAN;
    double below = core__pick(t < low, none, 0.0);
    double above = core__pick(t > high, none, 0.0);

    return t + below + above;
}

/* P of degree 8 in x, and its slope; named members keep gcc vectorising. */
struct air__poly_row {
    double c0, c1, c2, c3, c4, c5, c6, c7, c8;
};

/* By pairs, so that what waits for the last product is short. */
static CORE__INLINE struct air__line air__poly_eighth(struct air__poly_row c,
                                                      double x, double per_half)
{
    double x2 = x * x, x4 = x2 * x2, two_x = x + x;
    double p01 = c.c0 + c.c1 * x, p23 = c.c2 + c.c3 * x;
    double p45 = c.c4 + c.c5 * x, p67 = c.c6 + c.c7 * x, top = c.c8 * x4;
    double low = p01 + p23 * x2, high = p45 + p67 * x2 + top;
    double d_low = c.c1 + c.c3 * x2 + p23 * two_x; /* of low, by x */
    double d_high = c.c5 + c.c7 * x2 + p67 * two_x;
    double p = low + high * x4, p2 = p * p, p4 = p2 * p2;
    double d = d_low + d_high * x4 + two_x * two_x * x * (high + top);

    return (struct air__line){p4 * p4, p4 * (p2 * p) * (d * (8.0 * per_half))};
}

/* Saturation over ice below 0.01 degC, over liquid above, in some of the
   houses each. */
static CORE__RARELY struct air__line air__poly_both(double t)
{
    core__truth low = t < 0.01;
    double middle = core__pick(low, -29.995, 30.005),
           per_half = core__pick(low, 1.0 / 30.005, 1.0 / 29.995);
    /* clang-format off */
    struct air__poly_row c = {
        core__pick(low, 1.5758815872665684, 2.8412762870840167),
        core__pick(low, 0.6149167549893221, 0.6115130883991164),
        core__pick(low, 0.04404598799811904, -0.002950889682066725),
        core__pick(low, -0.004864291116064634, -0.00288313008959207),
        core__pick(low, 3.0873899129833786e-05, 0.0003348930863610703),
        core__pick(low, 3.833323316899376e-05, -1.5038857204915886e-05),
        core__pick(low, -5.30522877582285e-06, -7.926403792090457e-07),
        core__pick(low, 3.943797926887837e-07, 2.2414399705108452e-07),
        core__pick(low, -7.035703565653597e-09, -2.4254247488991925e-08)};
    /* clang-format on */

    t = air__poly_between(t, AIR__POLY_LOW, AIR__POLY_HIGH);
    return air__poly_eighth(c, (t - middle) * per_half, per_half);
}

static CORE__INLINE struct air__line air__poly_pws(double t)
{
    /* clang-format off */
    const struct air__poly_row warm = {
        CORE__OF(2.8412762870840167),
        CORE__OF(0.6115130883991164),
        CORE__OF(-0.002950889682066725),
        CORE__OF(-0.00288313008959207),
        CORE__OF(0.0003348930863610703),
        CORE__OF(-1.5038857204915886e-05),
        CORE__OF(-7.926403792090457e-07),
        CORE__OF(2.2414399705108452e-07),
        CORE__OF(-2.4254247488991925e-08)};
    /* clang-format on */

    if (core__rare(t < 0.01))
        return air__poly_both(t);
    t = air__poly_between(t, AIR__POLY_LOW, AIR__POLY_HIGH);
    return air__poly_eighth(warm, (t - 30.005) * (1.0 / 29.995),
                            CORE__OF(1.0 / 29.995));
}

/* Saturation over liquid, supercooled below 0. */
static CORE__INLINE struct air__line air__poly_pws_liquid(double t)
{
    core__truth low = t < 0.01;
    double middle = core__pick(low, -29.995, 30.005),
           per_half = core__pick(low, 1.0 / 30.005, 1.0 / 29.995);
    /* clang-format off */
    struct air__poly_row c = {
        core__pick(low, 1.6350726104822706, 2.8412762870840167),
        core__pick(low, 0.5772563439532988, 0.6115130883991164),
        core__pick(low, 0.023219568409124494, -0.002950889682066725),
        core__pick(low, -0.005866706891279191, -0.00288313008959207),
        core__pick(low, 0.0003419637706782526, 0.0003348930863610703),
        core__pick(low, 2.7557121879485512e-05, -1.5038857204915886e-05),
        core__pick(low, -7.805313531602286e-06, -7.926403792090457e-07),
        core__pick(low, 8.39477384410817e-07, 2.2414399705108452e-07),
        core__pick(low, -4.101071390792251e-08, -2.4254247488991925e-08)};
    /* clang-format on */

    t = air__poly_between(t, AIR__POLY_LOW, AIR__POLY_HIGH);
    return air__poly_eighth(c, (t - middle) * per_half, per_half);
}

/* The same for rooms: one row, so the cheapest. */
static CORE__INLINE struct air__line air__poly_pws_room(double t)
{
    /* clang-format off */
    const struct air__poly_row c = {
        CORE__OF(2.6881323458482576),
        CORE__OF(0.5614849990528734),
        CORE__OF(-0.00055362942251692),
        CORE__OF(-0.002487190967086068),
        CORE__OF(0.00024930649693435464),
        CORE__OF(-8.76809978191265e-06),
        CORE__OF(-7.54580427580357e-07),
        CORE__OF(1.500987451042529e-07),
        CORE__OF(0.0)};
    /* clang-format on */

    t = air__poly_between(t, -5.0, 50.0);
    return air__poly_eighth(c, (t - 22.5) * (1.0 / 27.5), CORE__OF(1.0 / 27.5));
}

/*
 * log2 x = e + log2 m, m within 1/sqrt 2 .. sqrt 2, by the series of
 * 2 artanh((m - 1) / (m + 1)): its first term left out is 5e-13 of the sum.
 * Bits less those of 1/sqrt 2 have e where the exponent stands; it becomes a
 * double by way of the low bits of 2^52.
 */
static CORE__INLINE double air__poly_log2(double x)
{
    const uint64_t root_half = 0x3fe6a09e667f3bcd, two_52 = 0x4330000000000000,
                   bias = 0x4000000000000000, exponent = 0xfff0000000000000;
    core__bits u = air__poly_bits(x), k = (u - root_half + bias) & exponent;
    double m = air__poly_from_bits(u - (k - bias));
    double e = air__poly_from_bits((k >> 52) | two_52) -
               (4503599627370496.0 + 1024.0); /* 2^52, and bias >> 52 */
    double s, q, q2, sum;

    s = (m - 1.0) / (m + 1.0);
    q = s * s;
    q2 = q * q;
    sum = (1.0 / 9 + q * (1.0 / 11)) + q2 * (1.0 / 13);
    sum = (1.0 + q * (1.0 / 3)) + q2 * ((1.0 / 5 + q * (1.0 / 7)) + q2 * sum);
    return e + 2.8853900817779268 * s * sum; /* 2 / ln 2 */
}

/*
 * 2^y = 2^n 2^f, n the nearest whole number: adding 1.5 x 2^52 rounds to it
 * and leaves it in the low bits.  2^f by the series of exp(f ln 2) to f^10,
 * |f| <= 1/2: the first term left out is 2.2e-13.
 */
static CORE__INLINE double air__poly_exp2(double y)
{
    const core__plain shift = 6755399441055744.0; /* 1.5 x 2^52 */
    double n = y + shift, z = (y - (n - shift)) * AIR__LN_2;
    double two_n = air__poly_from_bits((air__poly_bits(n) + 1023) << 52), z2,
           z4, sum;

    z2 = z * z;
    z4 = z2 * z2;
    sum = (1.0 / 40320 + z * (1.0 / 362880)) + z2 * (1.0 / 3628800);
    sum = (1.0 / 24 + z * (1.0 / 120)) + z2 * (1.0 / 720 + z * (1.0 / 5040)) +
          z4 * sum;
    sum = (1.0 + z) + z2 * (0.5 + z * (1.0 / 6)) + z4 * sum;
    return two_n * sum;
}

/* x^y for x > 0; 0 for x at or below the smallest normal number, y > 0. */
static CORE__INLINE double air__poly_pow(double x, double y)
{
    const core__plain smallest = 2.2250738585072014e-308;
    double positive =
        core__pick(x > smallest, 1.0, 0.0); /* a factor, not a branch */

    return positive * air__poly_exp2(y * air__poly_log2(x));
}

#endif
