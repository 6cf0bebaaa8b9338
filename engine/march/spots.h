/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ducts that sweat, and cold air at the heaters, hour by hour; of one house or
   several.  Private. */
#ifndef DEW_MARCH_SPOTS_H
#define DEW_MARCH_SPOTS_H

#include "march/march.h"

/* The airs of an hour: its means, and outdoors. */
struct march__airs {
    double t_in, w_in, t_out, w_out, p, dew_in;
};

/* Air behind handler k's coil while it cools, degC. */
static inline double march__behind_coil(const struct march__body *m,
                                        const struct march__hour *h,
                                        const struct march__airs *a, int k)
{
    const double sensible[DEW_HANDLERS] = {
        h->now.c1.sensible, h->now.c2.sensible, h->now.c3.sensible};

    return a->t_in - sensible[k] / (m->coils[k].m * air__cp(a->w_in));
}

/* The coldest of the coils that ran; NaN when none did. */
static inline double march__coldest_coil(const struct march__body *m,
                                         const struct march__hour *h,
                                         const struct march__airs *a)
{
    double t = CORE__OF((core__plain)NAN);

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        t = core__pick((m->coils[k].m > 0.0) & (h->mix.full[k] > 0.0),
                       core__min(t, march__behind_coil(m, h, a, k)), t);
    return t;
}

/* Fresh air of the ventilator, behind its core. */
static inline double march__fresh_w(const struct march__body *m,
                                    const struct march__airs *a)
{
    const struct dew_path *on = &m->c.paths[DEW_VENT_ON][0];

    return a->w_out + on->latent * (a->w_in - a->w_out);
}

/* Stale air behind the core, no colder than what it met. */
static inline double march__thrown_t(const struct march__body *m,
                                     const struct march__airs *a)
{
    const struct dew_path *on = &m->c.paths[DEW_VENT_ON][0];
    double share = march__ratio(on->sensible * on->supply, on->exhaust);

    return a->t_in - core__min(share, CORE__OF(1.0)) * (a->t_in - a->t_out);
}

/* 1 where a skin that follows its air stands below the dew point around. */
static inline double march__skin_sweats(double follows, double t, double around,
                                        double dew)
{
    core__truth sweats =
        (follows > 0.0) & (around + follows * (t - around) < dew);

    return core__pick(sweats, 1.0, 0.0);
}

/* All blowers at full. */
static inline int march__full_state(const struct march__body *m)
{
    static const int full[] = {0, 2, 8, 26};

    return m->alike ? 0 : full[m->c.plant.handler_count];
}

/* Outdoor air that the returns mix in, with all blowers at full: the air that
   reaches the heaters, degC, or NaN when there is none in it. */
static inline double march__mixed_t(const struct march__body *m,
                                    const struct march__airs *a, int vent)
{
    const struct dew_path *p = &m->c.paths[vent][march__full_state(m)];
    double outdoor = p->at_coil * (1.0 - p->sensible) + p->idle_at_coil;
    double all = CORE__OF(0.0);
    core__truth mixes;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        all += m->c.plant.handlers[k].air;
    mixes = (all > 0.0) & (p->at_coil + p->idle_at_coil > 0.0);
    return core__pick(mixes,
                      a->t_in + core__min(outdoor / core__pick(mixes, all, 1.0),
                                          CORE__OF(1.0)) *
                                    (a->t_out - a->t_in),
                      (core__plain)NAN);
}

/* The heaters' air, with the ventilator running and standing. */
static inline void march__tell_mixed(const struct march__body *m,
                                     const struct march__airs *a,
                                     struct dew_result *r)
{
    const core__plain none = NAN;
    double on = march__mixed_t(m, a, DEW_VENT_ON);
    double off = march__mixed_t(m, a, DEW_VENT_OFF);
    double run = r->duty.vent, heat = r->duty.heat;

    r->mixed_t = core__lower(core__pick(run > 0.0, on, none),
                             core__pick(run < 1.0, off, none));
    if (!m->c.plant.heater.by_air)
        return;
    r->ducts[DEW_SPOT_heater] =
        heat * (core__pick(on < DEW_DUCTS_HEATER_LEAST, run, 0.0) +
                core__pick(off < DEW_DUCTS_HEATER_LEAST, 1.0 - run, 0.0));
}

/* Ducts that sweat and cold air at the heaters, from the hour's means. */
static inline void march__tell_ducts(const struct march__body *m,
                                     const struct march__hour *h,
                                     struct dew_result *r)
{
    const struct dew_duct_watch *w = &m->c.watch;
    struct march__airs a = {r->t,     r->w,      r->t_out,
                            r->w_out, h->end->p, CORE__OF(0.0)};
    double run = r->duty.vent, cold;

    march__tell_mixed(m, &a, r);
    if (!core__any(w->intake_follows + w->exhaust_follows + w->outside_follows >
                   0.0) &&
        !w->trunk)
        return;
    a.dew_in = air__dew(a.w_in, a.p);
    cold = march__coldest_coil(m, h, &a);
    r->ducts[DEW_SPOT_intake] =
        run * march__skin_sweats(w->intake_follows, a.t_out, a.t_in, a.dew_in);
    r->ducts[DEW_SPOT_exhaust] =
        run * march__skin_sweats(w->exhaust_follows, march__thrown_t(m, &a),
                                 a.t_in, a.dew_in);
    r->ducts[DEW_SPOT_trunk] =
        w->trunk ? core__pick(cold < air__dew(march__fresh_w(m, &a), a.p),
                              run * r->duty.cool, 0.0)
                 : CORE__OF(0.0);
    r->ducts[DEW_SPOT_outside] =
        r->duty.cool *
        core__pick(cold == cold,
                   march__skin_sweats(w->outside_follows, cold,
                                      h->now.drive.place_t,
                                      air__dew(h->now.drive.place_w, a.p)),
                   0.0);
}

#endif
