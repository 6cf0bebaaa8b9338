/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The integrators that others are measured against, against closed forms. */
#include "support/rows.h"

#include "support/ode.h"

/* A damped swing and, beside it, a fast decay to a wave: stiff. */
static void swing(double t, const double *y, double *dydt, void *with)
{
    const double *rate = with;

    dydt[0] = y[1];
    dydt[1] = -1.7 * y[0] - 0.6 * y[1];
    dydt[2] = -*rate * (y[2] - cos(t)) - sin(t);
}

static const struct ode_row {
    const char *test;
    enum ode_kind kind;
    double rate, tolerance;
} ode_rows[] = {
    {"rk2 follows the closed form", ODE_RK2, 3.1, 1e-5},
    {"rkck follows the closed form", ODE_RKCK, 3.1, 1e-6},
    {"rk8pd follows the closed form", ODE_RK8PD, 3.1, 1e-6},
    {"msbdf follows the closed form, stiff", ODE_MSBDF, 2300.0, 1e-4},
};

static void closed_form_is_followed(void **state)
{
    const struct ode_row *row = *state;
    double rate = row->rate, y[] = {0.83, -0.3 * 0.83, 1.4}, t = 0.0;
    struct ode_system system = {swing, &rate, 3};
    struct ode *o = ode_open(row->kind, &system, 1e-4, 1e-8, 1e-8);
    double w = sqrt(1.7 - 0.09);

    assert_non_null(o);
    for (int i = 1; i <= 5; i++) {
        assert_true(ode_to(o, &t, 0.9 * i, y));
        assert_near(y[0], 0.83 * exp(-0.3 * t) * cos(w * t), row->tolerance);
        assert_near(y[2], cos(t) + 0.4 * exp(-rate * t), row->tolerance);
        ode_restart(o);
    }
    ode_close(o);
}

ROWS(ode_rows, closed_form_is_followed);
RUN_TESTS("support, integrators");
