/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_interp.h>

#include "core/fail.h"
#include "core/num.h"

struct core__curve {
    gsl_interp *gsl;
    size_t n;
    double *y;       /* within points */
    double points[]; /* x, then y */
};

static const gsl_interp_type *type_of(enum core__curve_kind kind)
{
    switch (kind) {
    case CORE__STEFFEN:
        return gsl_interp_steffen;
    case CORE__CUBIC:
        return gsl_interp_cspline;
    case CORE__PERIODIC:
        return gsl_interp_cspline_periodic;
    case CORE__LINEAR:
        break;
    }
    return gsl_interp_linear;
}

static enum dew_status check(enum core__curve_kind kind, const double *x,
                             const double *y, size_t n, struct dew_error *err)
{
    size_t least = kind == CORE__LINEAR ? 2 : 3;

    if (n < least)
        return core__fail(err, DEW_ERANGE, "a curve of %zu points, not %zu", n,
                          least);
    for (size_t i = 0; i < n; i++) {
        if (!isfinite(x[i]) || !isfinite(y[i]))
            return core__fail(err, DEW_ERANGE,
                              "point %zu of a curve is not finite", i + 1);
        if (i > 0 && !(x[i] > x[i - 1]))
            return core__fail(err, DEW_ERANGE,
                              "point %zu of a curve does not ascend", i + 1);
    }
    if (kind == CORE__PERIODIC && y[n - 1] != y[0])
        return core__fail(err, DEW_ERANGE,
                          "a periodic curve ends where it does not begin");
    return DEW_OK;
}

enum dew_status core__curve_open(struct core__curve **curve,
                                 enum core__curve_kind kind, const double *x,
                                 const double *y, size_t n,
                                 struct dew_error *err)
{
    enum dew_status status = check(kind, x, y, n, err);
    struct core__curve *c;

    *curve = NULL;
    if (status != DEW_OK)
        return status;
    c = malloc(sizeof *c + 2 * n * sizeof(double));
    if (c == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a curve");
    c->n = n;
    c->y = c->points + n;
    memcpy(c->points, x, n * sizeof(double));
    memcpy(c->y, y, n * sizeof(double));
    c->gsl = gsl_interp_alloc(type_of(kind), n);
    if (c->gsl == NULL ||
        gsl_interp_init(c->gsl, c->points, c->y, n) != GSL_SUCCESS) {
        core__curve_close(c);
        return core__fail(err, DEW_EMEM, "no memory for a curve");
    }
    *curve = c;
    return DEW_OK;
}

static int inside(const struct core__curve *c, double x)
{
    return x >= c->points[0] && x <= c->points[c->n - 1];
}

double core__curve_at(const struct core__curve *c, double x)
{
    return inside(c, x) ? gsl_interp_eval(c->gsl, c->points, c->y, x, NULL)
                        : NAN;
}

double core__curve_slope(const struct core__curve *c, double x)
{
    return inside(c, x)
               ? gsl_interp_eval_deriv(c->gsl, c->points, c->y, x, NULL)
               : NAN;
}

void core__curve_close(struct core__curve *curve)
{
    if (curve == NULL)
        return;
    gsl_interp_free(curve->gsl);
    free(curve);
}
