/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_multifit_nlinear.h>

#include "core/fail.h"
#include "core/num.h"

static const double MOVES_LESS = 1e-8; /* of x itself: half a double's digits */

struct core__fit {
    struct core__residuals r;
    gsl_multifit_nlinear_fdf fdf;
    gsl_multifit_nlinear_workspace *gsl;
    double *x;        /* within scratch: unknowns                            */
    double scratch[]; /* residuals, then x: GSL's own vectors have strides   */
};

static int residuals(const gsl_vector *x, void *with, gsl_vector *f)
{
    struct core__fit *fit = with;

    for (size_t i = 0; i < fit->r.unknowns; i++)
        fit->x[i] = gsl_vector_get(x, i);
    if (fit->r.f(fit->x, fit->scratch, fit->r.with) != 0)
        return GSL_EBADFUNC;
    for (size_t i = 0; i < fit->r.count; i++) {
        if (!isfinite(fit->scratch[i]))
            return GSL_EBADFUNC;
        gsl_vector_set(f, i, fit->scratch[i]);
    }
    return GSL_SUCCESS;
}

static enum dew_status none_here(struct dew_error *err)
{
    return core__fail(err, DEW_ESOLVE,
                      "a fit came to a point that has no residuals");
}

/* GSL's part. */
static enum dew_status begin(struct core__fit *fit, const double *x,
                             struct dew_error *err)
{
    size_t n = fit->r.count, p = fit->r.unknowns;
    gsl_vector_const_view start = gsl_vector_const_view_array(x, p);
    gsl_multifit_nlinear_parameters options =
        gsl_multifit_nlinear_default_parameters();

    fit->fdf = (gsl_multifit_nlinear_fdf){
        .f = residuals, .n = n, .p = p, .params = fit};
    fit->gsl =
        gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &options, n, p);
    if (fit->gsl == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a fit");
    if (gsl_multifit_nlinear_init(&start.vector, &fit->fdf, fit->gsl) !=
        GSL_SUCCESS)
        return none_here(err);
    return DEW_OK;
}

enum dew_status core__fit_open(struct core__fit **fit,
                               const struct core__residuals *r, const double *x,
                               struct dew_error *err)
{
    enum dew_status status;
    struct core__fit *made;

    *fit = NULL;
    if (r->unknowns < 1 || r->count < r->unknowns)
        return core__fail(err, DEW_ERANGE,
                          "%zu residuals cannot fix %zu unknowns", r->count,
                          r->unknowns);
    made = calloc(1, sizeof *made + (r->count + r->unknowns) * sizeof(double));
    if (made == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a fit");
    made->r = *r;
    made->x = made->scratch + r->count;
    status = begin(made, x, err);
    if (status == DEW_OK)
        *fit = made;
    else
        core__fit_close(made);
    return status;
}

enum dew_status core__fit_step(struct core__fit *fit, int *done,
                               struct dew_error *err)
{
    int why = 0, status = gsl_multifit_nlinear_iterate(fit->gsl);

    if (status != GSL_SUCCESS && status != GSL_ENOPROG)
        return none_here(err);
    *done = status == GSL_ENOPROG ||
            gsl_multifit_nlinear_test(MOVES_LESS, MOVES_LESS, 0.0, &why,
                                      fit->gsl) == GSL_SUCCESS;
    return DEW_OK;
}

const double *core__fit_x(const struct core__fit *fit)
{
    return gsl_multifit_nlinear_position(fit->gsl)->data;
}

double core__fit_squares(const struct core__fit *fit)
{
    double norm = gsl_blas_dnrm2(gsl_multifit_nlinear_residual(fit->gsl));

    return norm * norm;
}

/* a of n columns, whose diagonal is scale^2, to unit diagonal or back. */
static void rescale(double *a, const double *scale, size_t n)
{
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n; j++)
            a[i * n + j] /= scale[i] * scale[j];
}

/* (J' J)^-1 by Cholesky, columns scaled to one length: GSL's own takes memory
   and does not look whether it was had. */
void core__fit_covariance(const struct core__fit *fit, double *covariance)
{
    size_t n = fit->r.count, p = fit->r.unknowns;
    double *scale = fit->x;
    gsl_matrix_view c = gsl_matrix_view_array(covariance, p, p);
    int known = n > p;

    gsl_blas_dsyrk(CblasLower, CblasTrans, 1.0,
                   gsl_multifit_nlinear_jac(fit->gsl), 0.0, &c.matrix);
    for (size_t i = 0; i < p; i++) {
        scale[i] = sqrt(covariance[i * p + i]);
        for (size_t j = i + 1; j < p; j++)
            covariance[i * p + j] = covariance[j * p + i];
    }
    rescale(covariance, scale, p);
    known = known && core__cholesky(covariance, p, NULL) == DEW_OK;
    if (known) {
        gsl_linalg_cholesky_invert(&c.matrix);
        rescale(covariance, scale, p);
    }
    gsl_matrix_scale(&c.matrix,
                     known ? core__fit_squares(fit) / (double)(n - p) : NAN);
}

void core__fit_close(struct core__fit *fit)
{
    if (fit == NULL)
        return;
    if (fit->gsl != NULL)
        gsl_multifit_nlinear_free(fit->gsl);
    free(fit);
}
