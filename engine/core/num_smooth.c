/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "core/smooth.h"

enum {
    FOLDS = 10,
    KNOTS = 7,
    FEW = 16, /* values at most that have a mean each                         */
    PAIRS = CORE__SMOOTH_INPUTS * (CORE__SMOOTH_INPUTS - 1) / 2,
    COLUMNS = CORE__SMOOTH_INPUTS * FEW + PAIRS,
    SEED = 20140
};

/* Of the normal equations' diagonal, per point: what a column that no point
   of a fit has is held at 0 by. */
static const double RIDGE = 1e-9;

struct core__smooth {
    size_t n, responses, columns;
    double *basis;       /* [n][columns]                                     */
    unsigned char *fold; /* [n]                                              */
    /* normal equations: of each fold, then of all */
    double *a; /* [FOLDS + 1][columns][columns]                              */
    double *r; /* [FOLDS + 1][responses][columns]                            */
    double *fit, *left; /* [FOLDS][responses][columns]; [columns][columns]    */
};

/* ---- the basis of an input ---------------------------------------------------- */

/* The values of an input that are knots: all where they are few. */
struct knots {
    double at[FEW];
    size_t count;
    int few;
};

static struct knots knots_of(const double *sorted, size_t n)
{
    struct knots k = {.few = 1};

    for (size_t i = 0; i < n && k.few; i++)
        if (k.count == 0 || sorted[i] > k.at[k.count - 1]) {
            k.few = k.count < FEW;
            if (k.few)
                k.at[k.count++] = sorted[i];
        }
    if (k.few)
        return k;
    k.count = 0;
    for (int i = 0; i < KNOTS; i++) {
        double x = core__quantile(sorted, n, (double)i / (KNOTS - 1));

        if (k.count == 0 || x > k.at[k.count - 1])
            k.at[k.count++] = x;
    }
    k.few = k.count < 3;
    return k;
}

/* A column each: 1 at its knot, 0 at the others, a natural spline between. */
static enum dew_status splines(struct core__smooth *s, const double *x,
                               const struct knots *k, size_t first,
                               struct dew_error *err)
{
    for (size_t j = first; j < k->count; j++) {
        double y[KNOTS] = {0};
        struct core__curve *curve;

        enum dew_status status;

        y[j] = 1;
        status = core__curve_open(&curve, CORE__CUBIC, k->at, y, k->count, err);
        if (status != DEW_OK)
            return status;
        for (size_t i = 0; i < s->n; i++)
            s->basis[i * COLUMNS + s->columns + j - first] =
                core__curve_at(curve, x[i]);
        core__curve_close(curve);
    }
    return DEW_OK;
}

/* A column each: 1 at its value or above it up to the next. */
static void steps(struct core__smooth *s, const double *x,
                  const struct knots *k, size_t first)
{
    for (size_t j = first; j < k->count; j++)
        for (size_t i = 0; i < s->n; i++)
            s->basis[i * COLUMNS + s->columns + j - first] =
                x[i] >= k->at[j] && (j + 1 == k->count || x[i] < k->at[j + 1]);
}

/* The columns of an input sum to 1, so that all but the first input's have
   one less. */
static enum dew_status add_input(struct core__smooth *s, const double *x,
                                 int more, double *sorted,
                                 struct dew_error *err)
{
    enum dew_status status = DEW_OK;
    size_t first = more ? 1 : 0;
    struct knots k;

    memcpy(sorted, x, s->n * sizeof *x);
    core__sort(sorted, s->n);
    k = knots_of(sorted, s->n);
    if (k.few)
        steps(s, x, &k, first);
    else
        status = splines(s, x, &k, first, err);
    s->columns += k.count - first;
    return status;
}

static void add_pair(struct core__smooth *s, const double *x, const double *z)
{
    double mx = core__mean(x, s->n), mz = core__mean(z, s->n);
    double scale = core__sd(x, s->n) * core__sd(z, s->n);

    if (!(scale > 0))
        return;
    for (size_t i = 0; i < s->n; i++)
        s->basis[i * COLUMNS + s->columns] = (x[i] - mx) * (z[i] - mz) / scale;
    s->columns++;
}

static enum dew_status make_basis(struct core__smooth *s,
                                  const struct core__smoothing *of,
                                  struct dew_error *err)
{
    double *sorted = malloc(s->n * sizeof *sorted);
    enum dew_status status =
        sorted != NULL ? DEW_OK
                       : core__fail(err, DEW_EMEM, "no memory for a fit");

    for (size_t k = 0; k < of->inputs && status == DEW_OK; k++)
        status = add_input(s, of->x[k], k > 0, sorted, err);
    for (size_t k = 0; k < of->inputs && status == DEW_OK; k++)
        for (size_t m = 0; m < k; m++)
            add_pair(s, of->x[k], of->x[m]);
    free(sorted);
    return status;
}

/* ---- opening ------------------------------------------------------------------- */

/* As many of each fold, in any order: points of a sequence go by turns, so
   that every tenth of them would leave out a part of the range. */
static enum dew_status deal(struct core__smooth *s, struct dew_error *err)
{
    struct core__random *random;
    enum dew_status status = core__random_open(&random, SEED, err);

    if (status != DEW_OK)
        return status;
    for (size_t i = 0; i < s->n; i++) {
        size_t k = core__random_below(random, i + 1);

        s->fold[i] = s->fold[k];
        s->fold[k] = (unsigned char)(i % FOLDS);
    }
    core__random_close(random);
    return DEW_OK;
}

static enum dew_status check(const struct core__smoothing *of,
                             struct dew_error *err)
{
    if (of->n < CORE__SMOOTH_LEAST || of->inputs < 1 ||
        of->inputs > CORE__SMOOTH_INPUTS || of->responses < 1 ||
        of->responses > CORE__SMOOTH_RESPONSES)
        return core__fail(err, DEW_ERANGE,
                          "a fit of %zu responses to %zu inputs at %zu points "
                          "is outside 1 .. %d, 1 .. %d, %d and more",
                          of->responses, of->inputs, of->n,
                          CORE__SMOOTH_RESPONSES, CORE__SMOOTH_INPUTS,
                          CORE__SMOOTH_LEAST);
    for (size_t k = 0; k < of->inputs; k++)
        for (size_t i = 0; i < of->n; i++)
            if (!isfinite(of->x[k][i]))
                return core__fail(err, DEW_ERANGE,
                                  "input %zu of a fit is not finite at point "
                                  "%zu",
                                  k + 1, i + 1);
    return DEW_OK;
}

static enum dew_status take_memory(struct core__smooth *s,
                                   struct dew_error *err)
{
    size_t cells = (size_t)COLUMNS * COLUMNS, rows = s->responses * COLUMNS;

    s->basis = calloc(s->n * COLUMNS, sizeof *s->basis);
    s->fold = calloc(s->n, sizeof *s->fold);
    s->a = calloc((FOLDS + 1) * cells, sizeof *s->a);
    s->r = calloc((FOLDS + 1) * rows, sizeof *s->r);
    s->fit = calloc(FOLDS * rows, sizeof *s->fit);
    s->left = calloc(cells, sizeof *s->left);
    return s->basis != NULL && s->fold != NULL && s->a != NULL &&
                   s->r != NULL && s->fit != NULL && s->left != NULL
               ? DEW_OK
               : core__fail(err, DEW_EMEM, "no memory for a fit");
}

enum dew_status core__smooth_open(struct core__smooth **smooth,
                                  const struct core__smoothing *of,
                                  struct dew_error *err)
{
    struct core__smooth *s;
    enum dew_status status = check(of, err);

    *smooth = NULL;
    if (status != DEW_OK)
        return status;
    s = calloc(1, sizeof *s);
    if (s == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a fit");
    s->n = of->n;
    s->responses = of->responses;
    status = take_memory(s, err);
    if (status == DEW_OK)
        status = deal(s, err);
    if (status == DEW_OK)
        status = make_basis(s, of, err);
    if (status == DEW_OK)
        *smooth = s;
    else
        core__smooth_close(s);
    return status;
}

void core__smooth_close(struct core__smooth *s)
{
    if (s == NULL)
        return;
    free(s->basis);
    free(s->fold);
    free(s->a);
    free(s->r);
    free(s->fit);
    free(s->left);
    free(s);
}

/* ---- fits ---------------------------------------------------------------------- */

static const double *basis_of(const struct core__smooth *s,
                              const uint32_t *order, size_t i)
{
    return s->basis + COLUMNS * (order != NULL ? order[i] : i);
}

/* A point into the normal equations of its fold; the lower triangle. */
static void add_point(struct core__smooth *s, const double *b, const double *y,
                      size_t fold)
{
    size_t p = s->columns;
    double *a = s->a + fold * p * p, *r = s->r + fold * s->responses * p;

    for (size_t j = 0; j < p; j++)
        for (size_t k = 0; k <= j; k++)
            a[j * p + k] += b[j] * b[k];
    for (size_t d = 0; d < s->responses; d++)
        for (size_t j = 0; j < p; j++)
            r[d * p + j] += b[j] * y[d];
}

static void sum_folds(double *x, size_t size)
{
    double *all = x + FOLDS * size;

    memset(all, 0, size * sizeof *all);
    for (size_t f = 0; f < FOLDS; f++)
        for (size_t j = 0; j < size; j++)
            all[j] += x[f * size + j];
}

static void gather(struct core__smooth *s, const double *y,
                   const uint32_t *order)
{
    size_t cells = s->columns * s->columns, rows = s->responses * s->columns;

    memset(s->a, 0, FOLDS * cells * sizeof *s->a);
    memset(s->r, 0, FOLDS * rows * sizeof *s->r);
    for (size_t i = 0; i < s->n; i++)
        add_point(s, basis_of(s, order, i), y + i * s->responses, s->fold[i]);
    sum_folds(s->a, cells);
    sum_folds(s->r, rows);
}

/* The fits to all but a fold. */
static enum dew_status solve(struct core__smooth *s, size_t fold,
                             struct dew_error *err)
{
    size_t p = s->columns, cells = p * p, rows = s->responses * p;
    enum dew_status status = DEW_OK;

    for (size_t d = 0; d < s->responses && status == DEW_OK; d++) {
        double *x = s->fit + fold * rows + d * p;

        for (size_t j = 0; j < cells; j++)
            s->left[j] = s->a[FOLDS * cells + j] - s->a[fold * cells + j];
        for (size_t j = 0; j < p; j++) {
            s->left[j * p + j] += RIDGE * (double)s->n;
            x[j] =
                s->r[FOLDS * rows + d * p + j] - s->r[fold * rows + d * p + j];
        }
        status = core__solve_spd(s->left, x, p, err);
    }
    return status;
}

enum dew_status core__smooth_left_out(struct core__smooth *s, const double *y,
                                      const uint32_t *order, double *out,
                                      struct dew_error *err)
{
    size_t p = s->columns, rows = s->responses * p;
    enum dew_status status = DEW_OK;

    gather(s, y, order);
    for (size_t f = 0; f < FOLDS && status == DEW_OK; f++)
        status = solve(s, f, err);
    for (size_t i = 0; i < s->n && status == DEW_OK; i++)
        for (size_t d = 0; d < s->responses; d++) {
            const double *b = basis_of(s, order, i);
            const double *x = s->fit + s->fold[i] * rows + d * p;
            double sum = 0;

            for (size_t j = 0; j < p; j++)
                sum += b[j] * x[j];
            out[i * s->responses + d] = sum;
        }
    return status;
}
