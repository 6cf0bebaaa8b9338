/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Adaptive integrators, to measure the project's own step against.  For
 * tests, benchmarks and studies; engine/ does not use them.
 */
#ifndef DEW_TESTS_ODE_H
#define DEW_TESTS_ODE_H

#include <stddef.h>

enum ode_kind {
    ODE_RK2,   /* Runge-Kutta 2(3)                                          */
    ODE_RKCK,  /* Cash-Karp 4(5)                                            */
    ODE_RK8PD, /* Prince-Dormand 8(9)                                       */
    ODE_MSBDF, /* backward differences, with a forward-difference Jacobian  */
};

struct ode_system {
    void (*f)(double t, const double *y, double *dydt, void *with);
    void *with;
    size_t size;
};

struct ode;

/* absolute is per unit of y, relative per share of y; NULL without memory. */
struct ode *ode_open(enum ode_kind kind, const struct ode_system *system,
                     double first_step, double absolute, double relative);

/* March y from *t to end, end > *t.  Returns 1, or 0 when it gave up. */
int ode_to(struct ode *ode, double *t, double end, double *y);

/* Forget the past, as where the inputs jump. */
void ode_restart(struct ode *ode);
void ode_close(struct ode *ode);

#endif
