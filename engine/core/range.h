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
    return core__min(CORE__OF(high), core__max(CORE__OF(low), x));
}

/* A share: 0 .. 1, and 0 of NaN. */
static CORE__INLINE double core__share(double x)
{
    return core__min(core__max(x, CORE__OF(0.0)), CORE__OF(1.0));
}

/* The lower of two, or the one that is a number. */
static CORE__INLINE double core__lower(double a, double b)
{
    return core__pick(a == a, core__min(b, a), b);
}

#endif
