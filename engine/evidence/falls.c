/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air change from the falls of CO2 [ASTM-E741]. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "evidence/evidence.h"

/* Our own: where a fall begins and ends above the outdoors, and how long one
   tells a slope. */
static const double FROM = 400.0, TO = 100.0; /* ppm                        */
enum { LEAST = 3 };                           /* h                          */

/* The hours of the fall that begins at hour i, 1 where there is none. */
static size_t length(const double *co2, size_t count, double outdoor, size_t i)
{
    size_t n = 1;

    if (!(co2[i] >= outdoor + FROM))
        return 1;
    while (i + n < count && co2[i + n] < co2[i + n - 1] &&
           co2[i + n] >= outdoor + TO)
        n++;
    return n;
}

/* The slope of ln (co2 - outdoor) over n hours, falling positive. */
static double slope(const double *co2, size_t n, double outdoor)
{
    double middle = 0.5 * (double)(n - 1), up = 0, down = 0;

    for (size_t i = 0; i < n; i++) {
        double far = (double)i - middle;

        up -= far * log(co2[i] - outdoor);
        down += far * far;
    }
    return up / down;
}

enum dew_status dew_evidence_falls(const double *co2, size_t count,
                                   double outdoor,
                                   struct dew_evidence_falls *out,
                                   struct dew_error *err)
{
    double *rates;
    size_t n;

    if (!(outdoor >= 300 && outdoor <= 1000))
        return core__fail(err, DEW_ERANGE, "CO2 outdoors is 300 to 1000 ppm");
    rates = calloc(count / LEAST + 1, sizeof *rates);
    if (rates == NULL)
        return core__fail(err, DEW_EMEM, "no memory for falls of CO2");
    out->count = 0;
    for (size_t i = 0; i < count; i += n) {
        n = length(co2, count, outdoor, i);
        if (n >= LEAST)
            rates[out->count++] = slope(co2 + i, n, outdoor);
    }
    out->rate = evidence__range(rates, out->count);
    free(rates);
    return DEW_OK;
}
