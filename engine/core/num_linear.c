/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <float.h>
#include <math.h>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>

#include "core/fail.h"
#include "core/num.h"

static int finite_all(const double *x, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (!isfinite(x[i]))
            return 0;
    return 1;
}

/*
 * A triangle is singular to working precision when a diagonal member drowns
 * in the rounding of the largest.
 */
static int diagonal_stands(const gsl_matrix *r)
{
    double most = 0.0, least = INFINITY;

    for (size_t i = 0; i < r->size2; i++) {
        double d = fabs(gsl_matrix_get(r, i, i));

        most = fmax(most, d);
        least = fmin(least, d);
    }
    return isfinite(most) && least > (double)r->size1 * DBL_EPSILON * most;
}

enum dew_status core__solve(double *a, double *b, double *work, size_t n,
                            struct dew_error *err)
{
    gsl_matrix_view qr;
    gsl_vector_view tau, x;

    if (n == 0)
        return DEW_OK;
    if (!finite_all(a, n * n) || !finite_all(b, n))
        return core__fail(err, DEW_ESOLVE, "a linear system is not finite");
    qr = gsl_matrix_view_array(a, n, n);
    tau = gsl_vector_view_array(work, n);
    gsl_linalg_QR_decomp(&qr.matrix, &tau.vector);
    if (!diagonal_stands(&qr.matrix))
        return core__fail(err, DEW_ESOLVE, "a linear system is singular");
    x = gsl_vector_view_array(b, n);
    gsl_linalg_QR_svx(&qr.matrix, &tau.vector, &x.vector);
    return DEW_OK;
}

/*
 * Row by row, lower triangle in place.  GSL's own calls its error handler on
 * an indefinite matrix, which only the factorisation itself can find.
 */
static int cholesky(double *a, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        double scale = a[i * n + i];

        for (size_t j = 0; j <= i; j++) {
            double s = a[i * n + j];

            for (size_t k = 0; k < j; k++)
                s -= a[i * n + k] * a[j * n + k];
            if (i != j)
                a[i * n + j] = s / a[j * n + j];
            else if (s > (double)n * DBL_EPSILON * scale)
                a[i * n + i] = sqrt(s);
            else
                return 0;
        }
    }
    return 1;
}

enum dew_status core__cholesky(double *a, size_t n, struct dew_error *err)
{
    if (!finite_all(a, n * n))
        return core__fail(err, DEW_ESOLVE, "a matrix is not finite");
    if (!cholesky(a, n))
        return core__fail(err, DEW_ESOLVE, "a matrix is not positive definite");
    for (size_t i = 0; i < n; i++)
        for (size_t j = i + 1; j < n; j++)
            a[i * n + j] = 0.0;
    return DEW_OK;
}

enum dew_status core__solve_spd(double *a, double *b, size_t n,
                                struct dew_error *err)
{
    gsl_matrix_view l;
    gsl_vector_view x;

    if (n == 0)
        return DEW_OK;
    if (!finite_all(a, n * n) || !finite_all(b, n))
        return core__fail(err, DEW_ESOLVE, "a linear system is not finite");
    if (!cholesky(a, n))
        return core__fail(err, DEW_ESOLVE,
                          "a linear system is not positive definite");
    l = gsl_matrix_view_array(a, n, n);
    x = gsl_vector_view_array(b, n);
    gsl_linalg_cholesky_svx(&l.matrix, &x.vector);
    return DEW_OK;
}

size_t core__least_squares_work(size_t rows, size_t columns)
{
    return columns + rows;
}

/* (R' R)^-1 by columns, times the residual variance. */
static void covariance_of(const gsl_matrix *qr, double variance,
                          double *covariance)
{
    size_t p = qr->size2;
    gsl_matrix_const_view r = gsl_matrix_const_submatrix(qr, 0, 0, p, p);

    for (size_t i = 0; i < p; i++) {
        gsl_vector_view row = gsl_vector_view_array(covariance + i * p, p);

        gsl_vector_set_basis(&row.vector, i);
        gsl_blas_dtrsv(CblasUpper, CblasTrans, CblasNonUnit, &r.matrix,
                       &row.vector);
        gsl_blas_dtrsv(CblasUpper, CblasNoTrans, CblasNonUnit, &r.matrix,
                       &row.vector);
        gsl_vector_scale(&row.vector, variance);
    }
}

/* x from the factors; returns the sum of squares left over. */
static double solve_lines(const gsl_matrix *qr, const gsl_vector *tau,
                          const double *b, double *x, double *rest)
{
    gsl_vector_const_view right = gsl_vector_const_view_array(b, qr->size1);
    gsl_vector_view solution = gsl_vector_view_array(x, qr->size2);
    gsl_vector_view left = gsl_vector_view_array(rest, qr->size1);
    double norm;

    gsl_linalg_QR_lssolve(qr, tau, &right.vector, &solution.vector,
                          &left.vector);
    norm = gsl_blas_dnrm2(&left.vector);
    return norm * norm;
}

enum dew_status core__least_squares(const struct core__lines *lines,
                                    double *work, double *x, double *covariance,
                                    struct dew_error *err)
{
    size_t n = lines->rows, p = lines->columns;
    gsl_matrix_view qr;
    gsl_vector_view tau;
    double squares;

    if (p == 0 || n < p)
        return core__fail(err, DEW_ESOLVE, "%zu lines cannot fix %zu unknowns",
                          n, p);
    if (!finite_all(lines->a, n * p) || !finite_all(lines->b, n))
        return core__fail(err, DEW_ESOLVE, "a fit's lines are not finite");
    qr = gsl_matrix_view_array(lines->a, n, p);
    tau = gsl_vector_view_array(work, p);
    gsl_linalg_QR_decomp(&qr.matrix, &tau.vector);
    if (!diagonal_stands(&qr.matrix))
        return core__fail(err, DEW_ESOLVE,
                          "a fit's columns are not independent");
    squares = solve_lines(&qr.matrix, &tau.vector, lines->b, x, work + p);
    if (covariance != NULL)
        covariance_of(&qr.matrix, n > p ? squares / (double)(n - p) : NAN,
                      covariance);
    return DEW_OK;
}
