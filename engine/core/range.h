/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A number against a range, inline and without a branch.  Private. */
#ifndef DEW_CORE_RANGE_H
#define DEW_CORE_RANGE_H

#include "core/many.h"

static CORE__INLINE core__truth core__within(double x, double low, double high)
{
    return (x >= low) & (x <= high); /* false for NaN */
}

/* x, or the end of the range that it lies beyond; NaN stays. */
static CORE__INLINE double core__hold(double x, core__plain low,
                                      core__plain high)
{
    x = core__pick(x < low, low, x);
    return core__pick(x > high, high, x);
}

/* A share: 0 .. 1, and 0 of NaN. */
static CORE__INLINE double core__share(double x)
{
    x = core__pick(x > 0.0, x, 0.0);
    return core__pick(x < 1.0, x, 1.0);
}

/* The lower of two, or the one that is a number. */
static CORE__INLINE double core__lower(double a, double b)
{
    return core__pick(a == a, core__min(b, a), b);
}

#endif
