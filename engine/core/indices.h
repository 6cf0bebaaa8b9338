/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much of a result's variance comes by which input: Sobol's indices.
 * Private to engine/.
 *
 * Design     Two sets of points, A and B, and for each input (or group of
 *            them) A with that input taken from B: n * (2 + groups) results.
 * First      the share of variance that knowing the input takes away
 *            (1 / n) sum f(B) (f(AB) - f(A)) / V    [SALTELLI10] table 2 b
 * Total      the share that is left where all but the input is known
 *            (1 / 2 n) sum (f(A) - f(AB))^2 / V           [JANSEN99]
 * V          of A and B together; f less their mean, which changes no first
 *            effect but its error.
 * Intervals  95 of 100 bootstrap samples of the points.
 */
#ifndef DEW_CORE_INDICES_H
#define DEW_CORE_INDICES_H

#include <stddef.h>

#include "dew/status.h"

enum { CORE__INDICES_LEAST = 16 }; /* points                                 */

struct core__effect {
    double is, low, high; /* share of the variance; NaN where there is none  */
};

struct core__index {
    struct core__effect first, total;
};

struct core__results {
    size_t n, groups;
    const double *a, *b; /* [n]                                              */
    const double *ab;    /* [groups][n]                                      */
};

/*
 * index: groups.  The intervals hang on the results alone.
 * Errors: DEW_ERANGE for n or a result that is not finite; DEW_EMEM.
 */
enum dew_status core__indices(const struct core__results *of,
                              struct core__index *index, struct dew_error *err);

#endif
