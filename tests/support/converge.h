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
    size_t lead; /* h   of a whole year's end to lead in with; 0 none       */
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

/* One hour of the reference, at m's clock and weather. */
static inline void converge_hour(struct reference *ref, struct ode *ode,
                                 const struct dew_march *m,
                                 const struct converge_year *year, size_t h,
                                 double *y)
{
    double t = 0.0;

    reference_begin(ref, m, &year->hours[h], &year->dates[h], 0);
    ode_restart(ode);
    assert_true(ode_to(ode, &t, 3600.0, y));
}

static inline void converge_step(struct dew_march *m,
                                 const struct converge_year *year, size_t h,
                                 struct dew_result *r)
{
    struct dew_error err = {0};

    if (dew_march_step(m, &year->hours[h], &year->dates[h], r, &err))
        print_error("hour %d: %s\n", err.hour, err.text);
    assert_int_equal(err.status, DEW_OK);
}

/* The reference's own lead-in: the end of the year, from where a march is
   opened.  A second march keeps its clock. */
static inline void converge_lead(struct reference *ref, struct ode *ode,
                                 const struct dew_march *m,
                                 const struct converge_year *year, double *y)
{
    size_t from = year->count - year->lead;
    struct dew_march *guide;
    struct dew_result r;

    assert_int_equal(
        dew_march_open(&guide, &m->body.c, &year->hours[from - 1], NULL),
        DEW_OK);
    converge_load(&guide->body.at.x, y);
    converge_scale(y, 1.0);
    for (size_t h = from; h < year->count; h++) {
        guide->body.way = MARCH__IDLE;
        converge_hour(ref, ode, guide, year, h, y);
        converge_step(guide, year, h, &r);
    }
    dew_march_close(guide);
}

/*
 * Both through the same hours; the march is opened and closed by the caller.
 * With a lead, each side comes from a lead-in of its own, and no hour is left
 * out; without one both begin at the march's state.
 */
static inline struct converge converge_run(struct dew_march *m,
                                           const struct converge_year *year,
                                           enum ode_kind kind, double tolerance)
{
    struct reference ref = {0};
    struct ode_system system = {converge_f, &ref, REFERENCE_SIZE};
    struct ode *ode = ode_open(kind, &system, 60.0, tolerance, 0.0);
    size_t skipped = year->lead > 0 ? 0 : 24; /* the first prediction is none */
    struct converge c = {0};
    double y[REFERENCE_SIZE];

    converge_load(&m->body.at.x, y);
    converge_scale(y, 1.0);
    if (year->lead > 0) {
        assert_int_equal(dew_march_warm_up(m, year->hours, year->dates,
                                           year->count, NULL, NULL),
                         DEW_OK);
        converge_lead(&ref, ode, m, year, y);
    }
    for (size_t h = 0; h < year->count; h++) {
        struct dew_result r;
        double a, b;

        converge_hour(&ref, ode, m, year, h, y);
        converge_step(m, year, h, &r);
        a = dew_air_rh(r.end.t_air, r.end.w, year->hours[h].p);
        b = converge_rh(y, year->hours[h].p);
        if (h < skipped)
            continue;
        c.rms += (a - b) * (a - b);
        c.max = fmax(c.max, fabs(a - b));
        c.humid_a += a > m->body.c.limits.too_humid;
        c.humid_b += b > m->body.c.limits.too_humid;
    }
    ode_close(ode);
    c.rms = 100.0 * sqrt(c.rms / (double)(year->count - skipped));
    c.max *= 100.0;
    c.calls = ref.calls;
    return c;
}

#endif
