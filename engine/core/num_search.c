/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdalign.h>
#include <stddef.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <gsl/gsl_roots.h>

#include "core/fail.h"
#include "core/num.h"

enum { MOST_TURNS = 200, STATE_BYTES = 256 };

/* GSL calls its handler on a value that is not finite: note it, answer 0. */
struct watched {
    const struct core__function *f;
    int broken;
};

static double watch(double x, void *with)
{
    struct watched *w = with;
    double y = w->f->f(x, w->f->with);

    if (isfinite(y))
        return y;
    w->broken = 1;
    return 0.0;
}

static enum dew_status not_finite(struct dew_error *err)
{
    return core__fail(err, DEW_ESOLVE, "a function searched is not finite");
}

static int spans(double low, double high, double tolerance)
{
    return isfinite(low) && isfinite(high) && low < high && tolerance > 0.0;
}

static int opposite(double a, double b)
{
    return a <= 0.0 ? b >= 0.0 : b <= 0.0;
}

/*
 * The solver is GSL's public struct with its state on our stack: a search
 * inside the hour must not allocate.
 */
enum dew_status core__search_root(const struct core__function *f, double low,
                                  double high, double tolerance, double *root,
                                  struct dew_error *err)
{
    alignas(max_align_t) unsigned char state[STATE_BYTES];
    struct watched w = {f, 0};
    gsl_function g = {watch, &w};
    gsl_root_fsolver s = {.type = gsl_root_fsolver_brent, .state = state};
    double at_low, at_high;

    if (!spans(low, high, tolerance) || s.type->size > sizeof state)
        return core__fail(err, DEW_ESOLVE, "a root's bracket is empty");
    at_low = watch(low, &w);
    at_high = watch(high, &w);
    if (w.broken)
        return not_finite(err);
    if (!opposite(at_low, at_high))
        return core__fail(err, DEW_ESOLVE, "no change of sign from %g to %g",
                          low, high);
    gsl_root_fsolver_set(&s, &g, low, high);
    for (int i = 0; i < MOST_TURNS; i++) {
        gsl_root_fsolver_iterate(&s);
        if (w.broken)
            return not_finite(err);
        if (gsl_root_test_interval(s.x_lower, s.x_upper, tolerance, 0.0) ==
            GSL_SUCCESS) {
            *root = s.root;
            return DEW_OK;
        }
    }
    return core__fail(err, DEW_ESOLVE, "no root after %d turns", MOST_TURNS);
}

enum dew_status core__search_least(const struct core__function *f,
                                   const struct core__bracket *in,
                                   double tolerance, double *x,
                                   struct dew_error *err)
{
    alignas(max_align_t) unsigned char state[STATE_BYTES];
    struct watched w = {f, 0};
    gsl_function g = {watch, &w};
    gsl_min_fminimizer s = {.type = gsl_min_fminimizer_brent, .state = state};
    double middle = watch(in->middle, &w);

    if (!spans(in->low, in->high, tolerance) || s.type->size > sizeof state ||
        !(in->low < in->middle && in->middle < in->high) ||
        !(middle < watch(in->low, &w) && middle < watch(in->high, &w)))
        return w.broken ? not_finite(err)
                        : core__fail(err, DEW_ESOLVE,
                                     "no least value between %g and %g",
                                     in->low, in->high);
    gsl_min_fminimizer_set(&s, &g, in->middle, in->low, in->high);
    for (int i = 0; i < MOST_TURNS; i++) {
        gsl_min_fminimizer_iterate(&s);
        if (w.broken)
            return not_finite(err);
        if (gsl_min_test_interval(s.x_lower, s.x_upper, tolerance, 0.0) ==
            GSL_SUCCESS) {
            *x = s.x_minimum;
            return DEW_OK;
        }
    }
    return core__fail(err, DEW_ESOLVE, "no minimum after %d turns", MOST_TURNS);
}
