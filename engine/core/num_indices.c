/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/indices.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/num.h"

enum { SAMPLES = 1000, SEED = 1999 };

/* Of one sample of the points: which, and their mean and variance. */
struct sample {
    const struct core__results *of;
    const uint32_t *at; /* [n]; NULL: each once                              */
    double mean, variance;
};

static size_t point(const struct sample *s, size_t i)
{
    return s->at != NULL ? s->at[i] : i;
}

static struct sample sample_of(const struct core__results *of,
                               const uint32_t *at)
{
    struct sample s = {.of = of, .at = at};
    double n = (double)of->n, squares = 0;

    for (size_t i = 0; i < of->n; i++)
        s.mean += (of->a[point(&s, i)] + of->b[point(&s, i)]) / (2 * n);
    for (size_t i = 0; i < of->n; i++) {
        double a = of->a[point(&s, i)] - s.mean;
        double b = of->b[point(&s, i)] - s.mean;

        squares += a * a + b * b;
    }
    s.variance = squares / (2 * n);
    return s;
}

static double first(const struct sample *s, size_t group)
{
    const double *ab = s->of->ab + group * s->of->n;
    double sum = 0;

    for (size_t i = 0; i < s->of->n; i++) {
        size_t k = point(s, i);

        sum += (s->of->b[k] - s->mean) * (ab[k] - s->of->a[k]);
    }
    return sum / (double)s->of->n / s->variance;
}

static double total(const struct sample *s, size_t group)
{
    const double *ab = s->of->ab + group * s->of->n;
    double sum = 0;

    for (size_t i = 0; i < s->of->n; i++) {
        double moved = s->of->a[point(s, i)] - ab[point(s, i)];

        sum += moved * moved;
    }
    return sum / (double)(2 * s->of->n) / s->variance;
}

/* ---- intervals ----------------------------------------------------------------- */

static void any_points(struct core__random *random, size_t n, uint32_t *at)
{
    for (size_t i = 0; i < n; i++)
        at[i] = (uint32_t)core__random_below(random, n);
}

/* A sample all of whose points came to the same says nothing. */
static size_t keep(double *list, size_t count, double x)
{
    if (isfinite(x))
        list[count++] = x;
    return count;
}

static void interval(double *list, size_t count, struct core__effect *effect)
{
    core__sort(list, count);
    effect->low = core__quantile(list, count, 0.025);
    effect->high = core__quantile(list, count, 0.975);
}

/* sums: [groups][2][SAMPLES]. */
static void bootstrap(const struct core__results *of,
                      struct core__random *random, uint32_t *at, double *sums,
                      struct core__index *index)
{
    size_t count = 0;

    for (int k = 0; k < SAMPLES; k++) {
        struct sample s;
        size_t after = count;

        any_points(random, of->n, at);
        s = sample_of(of, at);
        for (size_t g = 0; g < of->groups; g++) {
            (void)keep(sums + 2 * g * SAMPLES, count, first(&s, g));
            after = keep(sums + (2 * g + 1) * SAMPLES, count, total(&s, g));
        }
        count = after;
    }
    for (size_t g = 0; g < of->groups; g++) {
        interval(sums + 2 * g * SAMPLES, count, &index[g].first);
        interval(sums + (2 * g + 1) * SAMPLES, count, &index[g].total);
    }
}

/* ---- all of it ------------------------------------------------------------------- */

static int finite_all(const double *x, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (!isfinite(x[i]))
            return 0;
    return 1;
}

static enum dew_status check(const struct core__results *of,
                             struct dew_error *err)
{
    if (of->n < CORE__INDICES_LEAST || of->n > UINT32_MAX || of->groups < 1)
        return core__fail(err, DEW_ERANGE,
                          "indices of %zu inputs from %zu points, not 1 and %d "
                          "or more",
                          of->groups, of->n, CORE__INDICES_LEAST);
    if (!finite_all(of->a, of->n) || !finite_all(of->b, of->n) ||
        !finite_all(of->ab, of->n * of->groups))
        return core__fail(err, DEW_ERANGE,
                          "a result to take indices of is not finite");
    return DEW_OK;
}

enum dew_status core__indices(const struct core__results *of,
                              struct core__index *index, struct dew_error *err)
{
    struct core__random *random = NULL;
    struct sample all;
    double *sums;
    uint32_t *at;
    enum dew_status status = check(of, err);

    if (status != DEW_OK)
        return status;
    all = sample_of(of, NULL);
    for (size_t g = 0; g < of->groups; g++)
        index[g] = (struct core__index){{first(&all, g), NAN, NAN},
                                        {total(&all, g), NAN, NAN}};
    sums = calloc(2 * of->groups * SAMPLES, sizeof *sums);
    at = calloc(of->n, sizeof *at);
    status = sums != NULL && at != NULL
                 ? core__random_open(&random, SEED, err)
                 : core__fail(err, DEW_EMEM, "no memory for indices");
    if (status == DEW_OK)
        bootstrap(of, random, at, sums, index);
    core__random_close(random);
    free(sums);
    free(at);
    return status;
}
