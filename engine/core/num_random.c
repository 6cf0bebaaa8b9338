/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdalign.h>
#include <stdlib.h>

#include <gsl/gsl_qrng.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include "core/fail.h"
#include "core/num.h"

/* GSL's object and its state in one block, so that memory is ours to check. */
struct dew__random {
    gsl_rng gsl;
    alignas(max_align_t) unsigned char state[];
};

struct dew__sobol {
    gsl_qrng gsl;
    alignas(max_align_t) unsigned char state[];
};

enum dew_status dew__random_open(struct dew__random **random,
                                 unsigned long seed, struct dew_error *err)
{
    *random = malloc(sizeof **random + gsl_rng_mt19937->size);
    if (*random == NULL)
        return dew__fail(err, DEW_EMEM, "no memory for random numbers");
    (*random)->gsl.type = gsl_rng_mt19937;
    (*random)->gsl.state = (*random)->state;
    gsl_rng_set(&(*random)->gsl, seed);
    return DEW_OK;
}

double dew__random_uniform(struct dew__random *random)
{
    return gsl_rng_uniform(&random->gsl);
}

double dew__random_gaussian(struct dew__random *random)
{
    return gsl_ran_gaussian_ratio_method(&random->gsl, 1.0);
}

void dew__random_close(struct dew__random *random)
{
    free(random);
}

enum dew_status dew__sobol_open(struct dew__sobol **sobol, size_t dimension,
                                struct dew_error *err)
{
    unsigned int d = (unsigned int)dimension;
    size_t size;

    *sobol = NULL;
    if (dimension < 1 || dimension > DEW__SOBOL_MOST)
        return dew__fail(err, DEW_ERANGE,
                         "%zu Sobol dimensions are outside 1 .. %d", dimension,
                         DEW__SOBOL_MOST);
    size = gsl_qrng_sobol->state_size(d);
    *sobol = malloc(sizeof **sobol + size);
    if (*sobol == NULL)
        return dew__fail(err, DEW_EMEM, "no memory for Sobol points");
    (*sobol)->gsl.type = gsl_qrng_sobol;
    (*sobol)->gsl.dimension = d;
    (*sobol)->gsl.state_size = size;
    (*sobol)->gsl.state = (*sobol)->state;
    gsl_qrng_init(&(*sobol)->gsl);
    return DEW_OK;
}

void dew__sobol_next(struct dew__sobol *sobol, double *point)
{
    gsl_qrng_get(&sobol->gsl, point);
}

void dew__sobol_close(struct dew__sobol *sobol)
{
    free(sobol);
}

void dew__sort(double *x, size_t n)
{
    gsl_sort(x, 1, n);
}

double dew__quantile(const double *sorted, size_t n, double share)
{
    if (n == 0 || !(share >= 0.0 && share <= 1.0))
        return NAN;
    return gsl_stats_quantile_from_sorted_data(sorted, 1, n, share);
}

double dew__mean(const double *x, size_t n)
{
    return n > 0 ? gsl_stats_mean(x, 1, n) : NAN;
}

double dew__sd(const double *x, size_t n)
{
    return n > 1 ? gsl_stats_sd(x, 1, n) : NAN;
}

double dew__correlation(const double *x, const double *y, size_t n)
{
    return n > 1 ? gsl_stats_correlation(x, 1, y, 1, n) : NAN;
}
