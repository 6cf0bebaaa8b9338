/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multimin.h>

#include "core/fail.h"
#include "core/num.h"

/* GSL's simplex takes no value that is not finite: such a point is far up. */
static const double FAR_UP = 1e300;

struct seen {
    const struct core__valley *v;
    double *x; /* unknowns: GSL's own vectors have strides                  */
};

static double height(const gsl_vector *at, void *with)
{
    const struct seen *s = with;
    double y;

    for (size_t i = 0; i < s->v->unknowns; i++)
        s->x[i] = gsl_vector_get(at, i);
    y = s->v->f(s->x, s->v->with);
    return isfinite(y) ? y : FAR_UP;
}

/* Downhill until the simplex is small; 1 where it got there. */
static int walk(gsl_multimin_fminimizer *m, const struct core__valley *v)
{
    for (int i = 0; i < v->turns; i++) {
        if (gsl_multimin_fminimizer_iterate(m) != GSL_SUCCESS)
            return 0;
        if (gsl_multimin_test_size(gsl_multimin_fminimizer_size(m),
                                   v->tolerance) == GSL_SUCCESS)
            return 1;
    }
    return 1;
}

enum dew_status core__search_valley(const struct core__valley *v, double *x,
                                    struct dew_error *err)
{
    size_t n = v->unknowns;
    double *room;
    gsl_multimin_fminimizer *m;
    enum dew_status status = DEW_OK;

    if (n < 1 || v->turns < 1 || !(v->tolerance > 0.0) || !(v->step > 0.0))
        return core__fail(err, DEW_ERANGE, "a search for the lowest is empty");
    room = calloc(2 * n, sizeof *room);
    m = gsl_multimin_fminimizer_alloc(gsl_multimin_fminimizer_nmsimplex2, n);
    if (room != NULL && m != NULL) {
        struct seen seen = {v, room};
        gsl_multimin_function f = {height, n, &seen};
        gsl_vector_view start = gsl_vector_view_array(x, n);
        gsl_vector_view steps = gsl_vector_view_array(room + n, n);

        gsl_vector_set_all(&steps.vector, v->step);
        if (gsl_multimin_fminimizer_set(m, &f, &start.vector, &steps.vector) !=
                GSL_SUCCESS ||
            !walk(m, v) || !(m->fval < FAR_UP))
            status = core__fail(err, DEW_ESOLVE, "no lowest point was found");
        else
            for (size_t i = 0; i < n; i++)
                x[i] = gsl_vector_get(m->x, i);
    } else {
        status = core__fail(err, DEW_EMEM, "no memory for a search");
    }
    if (m != NULL)
        gsl_multimin_fminimizer_free(m);
    free(room);
    return status;
}
