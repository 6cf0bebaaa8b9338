/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A number of one house, or of each of CORE__LANES houses: what a step is
 * written in, so that one source makes both.  Private to engine/.
 *
 * Alone (CORE__LANES not defined) these words are C's own.  In a file that is
 * compiled for lanes a double is a vector, which C can add, multiply and
 * compare but neither choose with nor branch on.  So a step never branches on
 * a number; it takes one of two by core__pick, and asks core__any only to
 * leave out work that would change nothing.
 *
 *     core__truth      what a comparison of numbers gives; & | for and, or
 *     core__not(c)
 *     core__pick(c, a, b)   a where c, else b
 *     core__any(c)     in any of the houses, and core__every: in all
 *     core__rare(c)    the same of what is seldom so and costs less where it is
 *                      not; always where a choice costs as little, as alone.
 *                      What it leads to is CORE__RARELY, out of the way
 *     CORE__OF(x)      a constant as a number
 *     core__plain      a double that stays one: constants, sizes
 *     core__max, _min  the second where either is NaN
 */
#ifndef DEW_CORE_MANY_H
#define DEW_CORE_MANY_H

#include <math.h>
#include <stdint.h>

typedef double core__plain;

/* gcc 12 gives up a vector loop over a plain inline that it leaves a call. */
#define CORE__INLINE inline __attribute__((always_inline))

#ifdef CORE__LANES
#include "core/lanes.h"
#else

typedef int core__truth;
typedef uint64_t core__bits;

#define CORE__RARELY        CORE__INLINE
#define core__rare(c)       1
#define CORE__OF(x)         (x)
#define core__pick(c, a, b) ((c) ? (a) : (b))
#define core__not(c)        (!(c))
#define core__any(c)        (c)
#define core__every(c)      (c)
#define core__sqrt(x)       sqrt(x)
#define core__abs(x)        fabs(x)

static CORE__INLINE double core__max(double a, double b)
{
    return a > b ? a : b;
}

static CORE__INLINE double core__min(double a, double b)
{
    return a < b ? a : b;
}

#endif
#endif
