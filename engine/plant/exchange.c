/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat exchanger relations. */
#include "dew/core.h"

#include <math.h>

static const double most_ntu = 500.0;
static const double least_ntu = 1e-9; /* of the search; below, eps = ntu */

/* Below this the two capacities count as equal: the general form would lose
   its digits, and the limit is nearer than 1e-9. */
static const double equal_gap = 1e-9;

static double counterflow(double n, double c)
{
    if (1.0 - c < equal_gap)
        return n / (1.0 + n);
    double e = expm1(-n * (1.0 - c)); /* exp() - 1 */

    return -e / (1.0 - c - c * e);
}

/*
 * [MASON54]: eps = 1/(c n) sum_k P_k(n) P_k(c n), where P_k(x) is one less
 * the first k + 1 terms of exp(-x) x^m / m!.  The terms fall off beyond
 * k = n; the sum stops when they no longer count.
 */
static double crossflow(double n, double c)
{
    const double nothing = 1e-17; /* of the sum */
    double cn = c * n, tail_n = -expm1(-n), tail_c = -expm1(-cn);
    double term_n = exp(-n), term_c = exp(-cn), sum = 0.0;

    if (cn < least_ntu) /* one capacity without limit */
        return tail_n;
    for (int k = 1; k < 4000; k++) {
        double part = tail_n * tail_c;

        sum += part;
        if (k > n && part < nothing * sum)
            break;
        term_n *= n / k;
        term_c *= cn / k;
        tail_n = fmax(tail_n - term_n, 0.0);
        tail_c = fmax(tail_c - term_c, 0.0);
    }
    return sum / cn;
}

double dew_plant_in_series(double eps_1, double eps_2, double c)
{
    if (1.0 - c < equal_gap) {
        double n = eps_1 / (1.0 - eps_1) + eps_2 / (1.0 - eps_2);

        return n / (1.0 + n);
    }
    double gain =
        (1.0 - eps_1 * c) / (1.0 - eps_1) * (1.0 - eps_2 * c) / (1.0 - eps_2);

    return (gain - 1.0) / (gain - c);
}

static double headered(double n, double c)
{
    double ends = crossflow(DEW_HEADER_SHARE * n, c);
    double middle = counterflow((1.0 - DEW_HEADER_SHARE) * n, c);

    return ends < 1.0 && middle < 1.0 ? dew_plant_in_series(ends, middle, c)
                                      : 1.0;
}

double dew_plant_effectiveness(enum dew_exchange kind, double ntu, double c)
{
    if (!(ntu >= 0.0 && ntu <= most_ntu && c >= 0.0 && c <= 1.0))
        return NAN;
    switch (kind) {
    case DEW_COUNTERFLOW:
    case DEW_WHEEL:
        return counterflow(ntu, c);
    case DEW_CROSSFLOW:
        return ntu > 0.0 ? crossflow(ntu, c) : 0.0;
    case DEW_HEADERED:
        return ntu > 0.0 ? headered(ntu, c) : 0.0;
    }
    return NAN;
}

static double counterflow_ntu(double eps, double c)
{
    double n = 1.0 - c < equal_gap
                   ? eps / (1.0 - eps)
                   : log((1.0 - eps * c) / (1.0 - eps)) / (1.0 - c);

    return n <= most_ntu ? n : NAN;
}

double dew_plant_ntu(enum dew_exchange kind, double eps, double c)
{
    double low = log(least_ntu), high = log(most_ntu);

    if (!(eps >= 0.0 && eps < 1.0 && c >= 0.0 && c <= 1.0))
        return NAN;
    if (eps <= least_ntu)
        return eps;
    if (kind == DEW_COUNTERFLOW || kind == DEW_WHEEL)
        return counterflow_ntu(eps, c);
    if (!(dew_plant_effectiveness(kind, most_ntu, c) > eps))
        return NAN;
    for (int i = 0; i < 48; i++) { /* 27 / 2^48 = 1e-13 */
        double middle = 0.5 * (low + high);

        if (dew_plant_effectiveness(kind, exp(middle), c) < eps)
            low = middle;
        else
            high = middle;
    }
    return exp(0.5 * (low + high));
}

double dew_plant_rotor(double rotor)
{
    return rotor >= 1.0 ? 1.0 - 1.0 / (9.0 * pow(rotor, 1.93)) : NAN;
}
