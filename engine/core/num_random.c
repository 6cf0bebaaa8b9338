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
struct core__random {
    gsl_rng gsl;
    alignas(max_align_t) unsigned char state[];
};

struct core__sobol {
    gsl_qrng gsl;
    alignas(max_align_t) unsigned char state[];
};

enum dew_status core__random_open(struct core__random **random,
                                  unsigned long seed, struct dew_error *err)
{
    *random = malloc(sizeof **random + gsl_rng_mt19937->size);
    if (*random == NULL)
        return core__fail(err, DEW_EMEM, "no memory for random numbers");
    (*random)->gsl.type = gsl_rng_mt19937;
    (*random)->gsl.state = (*random)->state;
    gsl_rng_set(&(*random)->gsl, seed);
    return DEW_OK;
}

double core__random_uniform(struct core__random *random)
{
    return gsl_rng_uniform(&random->gsl);
}

size_t core__random_below(struct core__random *random, size_t n)
{
    return (size_t)(core__random_uniform(random) * (double)n);
}

double core__random_gaussian(struct core__random *random)
{
    return gsl_ran_gaussian_ratio_method(&random->gsl, 1.0);
}

void core__random_close(struct core__random *random)
{
    free(random);
}

enum dew_status core__sobol_open(struct core__sobol **sobol, size_t dimension,
                                 struct dew_error *err)
{
    unsigned int d = (unsigned int)dimension;
    size_t size;

    *sobol = NULL;
    if (dimension < 1 || dimension > CORE__SOBOL_MOST)
        return core__fail(err, DEW_ERANGE,
                          "%zu Sobol dimensions are outside 1 .. %d", dimension,
                          CORE__SOBOL_MOST);
    size = gsl_qrng_sobol->state_size(d);
    *sobol = malloc(sizeof **sobol + size);
    if (*sobol == NULL)
        return core__fail(err, DEW_EMEM, "no memory for Sobol points");
    (*sobol)->gsl.type = gsl_qrng_sobol;
    (*sobol)->gsl.dimension = d;
    (*sobol)->gsl.state_size = size;
    (*sobol)->gsl.state = (*sobol)->state;
    gsl_qrng_init(&(*sobol)->gsl);
    return DEW_OK;
}

void core__sobol_next(struct core__sobol *sobol, double *point)
{
    gsl_qrng_get(&sobol->gsl, point);
}

void core__sobol_close(struct core__sobol *sobol)
{
    free(sobol);
}

void core__sort(double *x, size_t n)
{
    gsl_sort(x, 1, n);
}

double core__quantile(const double *sorted, size_t n, double share)
{
    double place;
    size_t i;

    if (n == 0 || !(share >= 0 && share <= 1))
        return NAN;
    place = share * (double)(n - 1);
    i = (size_t)place;
    if (i + 1 >= n)
        return sorted[n - 1];
    return sorted[i] + (place - (double)i) * (sorted[i + 1] - sorted[i]);
}

double core__mean(const double *x, size_t n)
{
    return n > 0 ? gsl_stats_mean(x, 1, n) : NAN;
}

double core__sd(const double *x, size_t n)
{
    return n > 1 ? gsl_stats_sd(x, 1, n) : NAN;
}

double core__correlation(const double *x, const double *y, size_t n)
{
    return n > 1 ? gsl_stats_correlation(x, 1, y, 1, n) : NAN;
}
