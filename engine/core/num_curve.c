/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_interp.h>

#include "core/fail.h"
#include "core/num.h"

struct dew__curve {
    gsl_interp *gsl;
    size_t n;
    double *y;       /* within points */
    double points[]; /* x, then y */
};

static const gsl_interp_type *type_of(enum dew__curve_kind kind)
{
    switch (kind) {
    case DEW__STEFFEN:
        return gsl_interp_steffen;
    case DEW__CUBIC:
        return gsl_interp_cspline;
    case DEW__PERIODIC:
        return gsl_interp_cspline_periodic;
    case DEW__LINEAR:
        break;
    }
    return gsl_interp_linear;
}

static enum dew_status check(enum dew__curve_kind kind, const double *x,
                             const double *y, size_t n, struct dew_error *err)
{
    size_t least = kind == DEW__LINEAR ? 2 : 3;

    if (n < least)
        return dew__fail(err, DEW_ERANGE, "a curve of %zu points, not %zu", n,
                         least);
    for (size_t i = 0; i < n; i++) {
        if (!isfinite(x[i]) || !isfinite(y[i]))
            return dew__fail(err, DEW_ERANGE,
                             "point %zu of a curve is not finite", i + 1);
        if (i > 0 && !(x[i] > x[i - 1]))
            return dew__fail(err, DEW_ERANGE,
                             "point %zu of a curve does not ascend", i + 1);
    }
    if (kind == DEW__PERIODIC && y[n - 1] != y[0])
        return dew__fail(err, DEW_ERANGE,
                         "a periodic curve ends where it does not begin");
    return DEW_OK;
}

enum dew_status dew__curve_open(struct dew__curve **curve,
                                enum dew__curve_kind kind, const double *x,
                                const double *y, size_t n,
                                struct dew_error *err)
{
    enum dew_status status = check(kind, x, y, n, err);
    struct dew__curve *c;

    *curve = NULL;
    if (status != DEW_OK)
        return status;
    c = malloc(sizeof *c + 2 * n * sizeof(double));
    if (c == NULL)
        return dew__fail(err, DEW_EMEM, "no memory for a curve");
    c->n = n;
    c->y = c->points + n;
    memcpy(c->points, x, n * sizeof(double));
    memcpy(c->y, y, n * sizeof(double));
    c->gsl = gsl_interp_alloc(type_of(kind), n);
    if (c->gsl == NULL ||
        gsl_interp_init(c->gsl, c->points, c->y, n) != GSL_SUCCESS) {
        dew__curve_close(c);
        return dew__fail(err, DEW_EMEM, "no memory for a curve");
    }
    *curve = c;
    return DEW_OK;
}

static int inside(const struct dew__curve *c, double x)
{
    return x >= c->points[0] && x <= c->points[c->n - 1];
}

double dew__curve_at(const struct dew__curve *c, double x)
{
    return inside(c, x) ? gsl_interp_eval(c->gsl, c->points, c->y, x, NULL)
                        : NAN;
}

double dew__curve_slope(const struct dew__curve *c, double x)
{
    return inside(c, x)
               ? gsl_interp_eval_deriv(c->gsl, c->points, c->y, x, NULL)
               : NAN;
}

void dew__curve_close(struct dew__curve *curve)
{
    if (curve == NULL)
        return;
    gsl_interp_free(curve->gsl);
    free(curve);
}
