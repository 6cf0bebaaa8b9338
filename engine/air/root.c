/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "air/root.h"

#include <math.h>

/* A step this small, K, ends the search; halving alone needs 41 turns. */
static const double last_step = 1e-10;
enum { MOST_TURNS = 100 };

static int brackets(struct air__line (*f)(double x, const void *in),
                    const void *in, double low, double high)
{
    return low <= high && f(low, in).value <= 0.0 && f(high, in).value >= 0.0;
}

double air__root(struct air__line (*f)(double x, const void *in),
                 const void *in, double low, double high)
{
    double x = 0.5 * (low + high);

    if (!brackets(f, in, low, high))
        return NAN;
    for (int turn = 0; turn < MOST_TURNS && high - low > last_step; turn++) {
        struct air__line y = f(x, in);
        double step = y.value / y.slope;

        if (fabs(step) <= last_step)
            return fmin(fmax(x - step, low), high);
        if (y.value < 0.0)
            low = x;
        else
            high = x;
        x -= step;
        if (!(x > low && x < high))
            x = 0.5 * (low + high);
    }
    return 0.5 * (low + high);
}
