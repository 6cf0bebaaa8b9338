/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The march beside an adaptive integrator on the same right-hand side. */
#ifndef DEW_TESTS_CONVERGE_H
#define DEW_TESTS_CONVERGE_H

#include "support/reference.h"

struct converge {
    double rms, max;         /* points of RH at the ends of hours             */
    double humid_a, humid_b; /* h above the limit: march, reference         */
    long calls;              /* of the right-hand side                        */
};

struct converge_year {
    const struct dew_hour *hours;
    const struct dew_date *dates;
    size_t count;
};

static inline void converge_load(const struct dew_state *x, double *y)
{
    y[0] = x->t_air;
    y[1] = x->t_mass;
    y[2] = x->w;
    y[3] = x->w_surface;
    y[4] = x->w_mid;
    y[5] = x->w_deep;
    y[6] = x->co2;
}

/* Per unit of each state: what 1e-3 of RH or 0.01 K would be.  Scales only. */
static inline void converge_scale(double *y, double to)
{
    const double unit[REFERENCE_SIZE] = {1.0,  1.0,  1e-3, 10.0,
                                         10.0, 10.0, 100.0};

    for (int i = 0; i < REFERENCE_SIZE; i++)
        y[i] *= to > 0.0 ? 1.0 / unit[i] : unit[i];
}

/* RH at a scaled state, pressure p. */
static inline double converge_rh(const double *z, double p)
{
    double y[REFERENCE_SIZE];

    for (int i = 0; i < REFERENCE_SIZE; i++)
        y[i] = z[i];
    converge_scale(y, -1.0);
    return dew_air_rh(y[0], y[2], p);
}

static inline void converge_f(double t, const double *z, double *dz, void *with)
{
    double y[REFERENCE_SIZE];

    for (int i = 0; i < REFERENCE_SIZE; i++)
        y[i] = z[i];
    converge_scale(y, -1.0);
    reference_f(t, y, dz, with);
    converge_scale(dz, 1.0);
}

/* Both through the same hours; the march is opened and closed by the caller. */
static inline struct converge converge_run(struct dew_march *m,
                                           const struct converge_year *year,
                                           enum ode_kind kind, double tolerance)
{
    struct reference ref = {0};
    struct ode_system system = {converge_f, &ref, REFERENCE_SIZE};
    struct ode *ode = ode_open(kind, &system, 60.0, tolerance, 0.0);
    struct converge c = {0};
    double y[REFERENCE_SIZE], t = 0.0;

    converge_load(&m->x, y);
    converge_scale(y, 1.0);
    for (size_t h = 0; h < year->count; h++) {
        struct dew_result r;
        struct dew_error err = {0};
        double a, b;

        reference_begin(&ref, m, &year->hours[h], &year->dates[h], (int)h);
        ode_restart(ode);
        assert_true(ode_to(ode, &t, 3600.0 * (double)(h + 1), y));
        if (dew_march_step(m, &year->hours[h], &year->dates[h], &r, &err))
            print_error("hour %d: %s\n", err.hour, err.text);
        assert_int_equal(err.status, DEW_OK);
        a = dew_air_rh(r.end.t_air, r.end.w, year->hours[h].p);
        b = converge_rh(y, year->hours[h].p);
        if (h < 24) /* a run is spun up; the first prediction is not */
            continue;
        c.rms += (a - b) * (a - b);
        c.max = fmax(c.max, fabs(a - b));
        c.humid_a += a > m->c.limits.too_humid;
        c.humid_b += b > m->c.limits.too_humid;
    }
    ode_close(ode);
    c.rms = 100.0 * sqrt(c.rms / (double)(year->count - 24));
    c.max *= 100.0;
    c.calls = ref.calls;
    return c;
}

#endif
