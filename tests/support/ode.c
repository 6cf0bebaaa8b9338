/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/ode.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

struct ode {
    struct ode_system system;
    gsl_odeiv2_system gsl;
    gsl_odeiv2_driver *driver;
    double *moved, *slope; /* within scratch, for the Jacobian */
    double scratch[];
};

static int derivatives(double t, const double y[], double dydt[], void *with)
{
    struct ode *o = with;

    o->system.f(t, y, dydt, o->system.with);
    return GSL_SUCCESS;
}

/* Column by column; dfdt only helps methods that none of ours is. */
static int jacobian(double t, const double y[], double *dfdy, double dfdt[],
                    void *with)
{
    struct ode *o = with;
    size_t n = o->system.size;

    memcpy(o->moved, y, n * sizeof *y);
    o->system.f(t, y, dfdt, o->system.with);
    for (size_t j = 0; j < n; j++) {
        double h = sqrt(DBL_EPSILON) * fmax(fabs(y[j]), 1e-5);

        o->moved[j] = y[j] + h;
        o->system.f(t, o->moved, o->slope, o->system.with);
        o->moved[j] = y[j];
        for (size_t i = 0; i < n; i++)
            dfdy[i * n + j] = (o->slope[i] - dfdt[i]) / h;
    }
    memset(dfdt, 0, n * sizeof *dfdt);
    return GSL_SUCCESS;
}

static const gsl_odeiv2_step_type *type_of(enum ode_kind kind)
{
    switch (kind) {
    case ODE_RKCK:
        return gsl_odeiv2_step_rkck;
    case ODE_RK8PD:
        return gsl_odeiv2_step_rk8pd;
    case ODE_MSBDF:
        return gsl_odeiv2_step_msbdf;
    case ODE_RK2:
        break;
    }
    return gsl_odeiv2_step_rk2;
}

struct ode *ode_open(enum ode_kind kind, const struct ode_system *system,
                     double first_step, double absolute, double relative)
{
    struct ode *o = malloc(sizeof *o + 2 * system->size * sizeof(double));

    if (o == NULL)
        return NULL;
    o->system = *system;
    o->moved = o->scratch;
    o->slope = o->scratch + system->size;
    o->gsl = (gsl_odeiv2_system){derivatives, jacobian, system->size, o};
    o->driver = gsl_odeiv2_driver_alloc_y_new(&o->gsl, type_of(kind),
                                              first_step, absolute, relative);
    if (o->driver == NULL) {
        free(o);
        return NULL;
    }
    return o;
}

int ode_to(struct ode *ode, double *t, double end, double *y)
{
    return gsl_odeiv2_driver_apply(ode->driver, t, end, y) == GSL_SUCCESS;
}

void ode_restart(struct ode *ode)
{
    gsl_odeiv2_driver_reset(ode->driver);
}

void ode_close(struct ode *ode)
{
    if (ode == NULL)
        return;
    gsl_odeiv2_driver_free(ode->driver);
    free(ode);
}
