/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include <gsl/gsl_eigen.h>

#include "core/fail.h"
#include "core/num.h"

/* Sweeps: they close in by squares, and 6 to 10 do.  GSL's own stop is all
   zeros beside the diagonal, which rounding may never give. */
enum { SWEEPS = 16 };

enum dew_status core__eigen(double *a, double *values, double *vectors,
                            size_t n, struct dew_error *err)
{
    gsl_matrix_view matrix, v;
    gsl_vector_view x;
    unsigned int turns = 0;

    if (n == 0)
        return DEW_OK;
    for (size_t i = 0; i < n * n; i++)
        if (!isfinite(a[i]))
            return core__fail(err, DEW_ESOLVE, "a matrix is not finite");
    matrix = gsl_matrix_view_array(a, n, n);
    v = gsl_matrix_view_array(vectors, n, n);
    x = gsl_vector_view_array(values, n);
    gsl_eigen_jacobi(&matrix.matrix, &x.vector, &v.matrix, SWEEPS, &turns);
    return DEW_OK;
}
