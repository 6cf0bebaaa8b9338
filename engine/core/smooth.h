/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a figure tells of others, by regression, judged on points left out.
 * Private to engine/.
 *
 *     core__smooth_open      the inputs: one, or a few known together
 *     core__smooth_left_out  predictions of responses at every point, each
 *                            by a fit that has not seen it
 *     core__smooth_close
 *
 * Fit        Least squares on a natural cubic spline whose knots are quantiles
 *            of the input; an input of few values has the mean of each instead.
 *            Several inputs: the sum of theirs, and the product of each pair.
 * Left out   Ten parts of the points, dealt out by a fixed seed: each part is
 *            predicted by a fit to the other nine [STONE74].
 * Figures    Hang on the arguments alone.
 */
#ifndef DEW_CORE_SMOOTH_H
#define DEW_CORE_SMOOTH_H

#include <stddef.h>
#include <stdint.h>

#include "dew/status.h"

enum {
    CORE__SMOOTH_INPUTS = 6,     /* together, at most                        */
    CORE__SMOOTH_RESPONSES = 64, /* at most                                  */
    CORE__SMOOTH_LEAST = 50      /* points                                   */
};

struct core__smooth;

struct core__smoothing {
    size_t n, inputs, responses;
    const double *x[CORE__SMOOTH_INPUTS]; /* n each, finite                  */
};

/* The arrays of x need not outlive the call.  Errors: DEW_ERANGE, DEW_EMEM. */
enum dew_status core__smooth_open(struct core__smooth **smooth,
                                  const struct core__smoothing *of,
                                  struct dew_error *err);

/*
 * y, out     [n][responses]
 * order      n: point i is taken to have had the inputs of order[i]; NULL: its
 *            own
 * Errors     DEW_ESOLVE when y is not finite.
 */
enum dew_status core__smooth_left_out(struct core__smooth *smooth,
                                      const double *y, const uint32_t *order,
                                      double *out, struct dew_error *err);
void core__smooth_close(struct core__smooth *smooth); /* NULL is allowed     */

#endif
