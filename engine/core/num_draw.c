/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ranges as distributions, and points that fill a cube of many of them. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include <gsl/gsl_cdf.h>

#include "core/fail.h"
#include "core/num.h"

/* ---- a range ---------------------------------------------------------------- */

/* The weight of the likely value beside the two ends. */
static const double LIKELY = 4.0;

static int is_range(const struct core__pert *p)
{
    return p->low <= p->likely && p->likely <= p->high && isfinite(p->low) &&
           isfinite(p->high);
}

double core__pert_at(const struct core__pert *p, double share)
{
    double width = p->high - p->low, alpha, beta;

    if (!is_range(p) || !(share >= 0.0 && share <= 1.0))
        return NAN;
    if (!(width > 0.0))
        return p->likely;
    alpha = 1.0 + LIKELY * (p->likely - p->low) / width;
    beta = 1.0 + LIKELY * (p->high - p->likely) / width;
    return fmin(p->low + width * gsl_cdf_beta_Pinv(share, alpha, beta),
                p->high);
}

double core__pert_mean(const struct core__pert *p)
{
    return is_range(p) ? (p->low + LIKELY * p->likely + p->high) / 6.0 : NAN;
}

double core__pert_variance(const struct core__pert *p)
{
    double mean = core__pert_mean(p);

    return (mean - p->low) * (p->high - mean) / 7.0;
}

/* ---- points ----------------------------------------------------------------- */

/* GSL's points are whole multiples of 2^-30 [gsl-2.7.1, qrng/sobol.c]. */
static const double SOBOL_PARTS = 1073741824.0, PARTS = 4294967296.0;

static uint32_t any_bits(struct core__random *random)
{
    return (uint32_t)(core__random_uniform(random) * PARTS);
}

/* The middle of one of the 2^32 parts of 0 .. 1: never an end. */
static double middle(uint32_t part)
{
    return ((double)part + 0.5) / PARTS;
}

/* The sequence from its first point, 0, which GSL leaves out. */
static enum dew_status sobol(const struct core__draws *d, double *u,
                             const uint32_t *shift, size_t columns,
                             struct dew_error *err)
{
    struct core__sobol *s;
    double point[CORE__SOBOL_MOST] = {0};
    enum dew_status status = core__sobol_open(&s, columns, err);

    for (size_t i = 0; i < d->count && status == DEW_OK; i++) {
        for (size_t j = 0; j < columns; j++)
            u[i * d->columns + j] =
                middle(((uint32_t)(point[j] * SOBOL_PARTS) << 2) ^ shift[j]);
        core__sobol_next(s, point);
    }
    core__sobol_close(s);
    return status;
}

/* Latin hypercube: one value in each of count like parts, in any order. */
static void latin(const struct core__draws *d, double *u,
                  struct core__random *random)
{
    for (size_t i = 0; i < d->count; i++)
        u[i * d->columns] =
            ((double)i + middle(any_bits(random))) / (double)d->count;
    for (size_t i = d->count - 1; i > 0; i--) {
        size_t k = core__random_below(random, i + 1);
        double kept = u[i * d->columns];

        u[i * d->columns] = u[k * d->columns];
        u[k * d->columns] = kept;
    }
}

enum dew_status core__draw(const struct core__draws *d, double *u,
                           struct dew_error *err)
{
    size_t most = d->columns < CORE__SOBOL_MOST ? d->columns : CORE__SOBOL_MOST;
    uint32_t shift[CORE__SOBOL_MOST];
    struct core__random *random;
    enum dew_status status;

    if (d->count < 1 || d->count > CORE__DRAWS_MOST || d->columns < 1)
        return core__fail(err, DEW_ERANGE,
                          "%zu draws of %zu figures are outside 1 .. %d of at "
                          "least 1",
                          d->count, d->columns, CORE__DRAWS_MOST);
    status = core__random_open(&random, d->seed, err);
    if (status != DEW_OK)
        return status;
    for (size_t j = 0; j < CORE__SOBOL_MOST; j++)
        shift[j] = any_bits(random);
    status = sobol(d, u, shift, most, err);
    for (size_t j = most; j < d->columns && status == DEW_OK; j++)
        latin(d, u + j, random);
    core__random_close(random);
    return status;
}
