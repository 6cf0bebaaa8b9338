/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A number against a range, inline and without a branch.  Private. */
#ifndef DEW_CORE_RANGE_H
#define DEW_CORE_RANGE_H

/* gcc 12 gives up a vector loop over a plain inline that it leaves a call. */
#define CORE__INLINE inline __attribute__((always_inline))

static CORE__INLINE int core__within(double x, double low, double high)
{
    return x >= low && x <= high; /* false for NaN */
}

/* x, or the end of the range that it lies beyond; NaN stays. */
static CORE__INLINE double core__hold(double x, double low, double high)
{
    x = x < low ? low : x;
    return x > high ? high : x;
}

/* A share: 0 .. 1, and 0 of NaN. */
static CORE__INLINE double core__share(double x)
{
    x = x > 0.0 ? x : 0.0;
    return x < 1.0 ? x : 1.0;
}

#endif
