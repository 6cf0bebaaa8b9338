/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ducts that sweat, and cold air at the heaters, hour by hour. */
#include <math.h>

#include "air/air_step.h"
#include "march/march.h"

/* The airs of an hour: its means, and outdoors. */
struct airs {
    double t_in, w_in, t_out, w_out, p, dew_in;
};

/* Air behind handler k's coil while it cools, degC. */
static double behind_coil(const struct dew_march *m,
                          const struct march__hour *h, const struct airs *a,
                          int k)
{
    const double sensible[DEW_HANDLERS] = {
        h->now.c1.sensible, h->now.c2.sensible, h->now.c3.sensible};

    return a->t_in - sensible[k] / (m->coils[k].m * dew_air_cp(a->w_in));
}

/* The coldest of the coils that ran; NaN when none did. */
static double coldest_coil(const struct dew_march *m,
                           const struct march__hour *h, const struct airs *a)
{
    double t = NAN;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        if (m->coils[k].m > 0.0 && h->mix.full[k] > 0.0)
            t = fmin(t, behind_coil(m, h, a, k)); /* fmin passes NaN over */
    return t;
}

/* Fresh air of the ventilator, behind its core. */
static double fresh_w(const struct dew_march *m, const struct airs *a)
{
    const struct dew_path *on = &m->c.paths[DEW_VENT_ON][0];

    return a->w_out + on->latent * (a->w_in - a->w_out);
}

/* Stale air behind the core, no colder than what it met. */
static double thrown_t(const struct dew_march *m, const struct airs *a)
{
    const struct dew_path *on = &m->c.paths[DEW_VENT_ON][0];
    double share =
        on->exhaust > 0.0 ? on->sensible * on->supply / on->exhaust : 0.0;

    return a->t_in - fmin(share, 1.0) * (a->t_in - a->t_out);
}

static int skin_sweats(double follows, double t, double around, double dew)
{
    return follows > 0.0 && around + follows * (t - around) < dew;
}

/* All blowers at full. */
static int full_state(const struct dew_march *m)
{
    static const int full[] = {0, 2, 8, 26};

    return m->alike ? 0 : full[m->c.plant.handler_count];
}

/* Outdoor air that the returns mix in, with all blowers at full: the air that
   reaches the heaters, degC, or NaN when there is none in it. */
static double mixed_t(const struct dew_march *m, const struct airs *a, int vent)
{
    const struct dew_path *p = &m->c.paths[vent][full_state(m)];
    double outdoor = p->at_coil * (1.0 - p->sensible) + p->idle_at_coil;
    double all = 0.0;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        all += m->c.plant.handlers[k].air;
    if (!(all > 0.0) || !(p->at_coil + p->idle_at_coil > 0.0))
        return NAN;
    return a->t_in + fmin(outdoor / all, 1.0) * (a->t_out - a->t_in);
}

/* The heaters' air, with the ventilator running and standing. */
static void tell_mixed(const struct dew_march *m, const struct airs *a,
                       struct dew_result *r)
{
    double on = mixed_t(m, a, DEW_VENT_ON), off = mixed_t(m, a, DEW_VENT_OFF);
    double run = r->duty.vent, heat = r->duty.heat;

    r->mixed_t = fmin(run > 0.0 ? on : NAN, run < 1.0 ? off : NAN);
    if (!m->c.plant.heater.by_air)
        return;
    r->ducts[DEW_SPOT_heater] =
        heat * (run * (on < DEW_DUCTS_HEATER_LEAST) +
                (1.0 - run) * (off < DEW_DUCTS_HEATER_LEAST));
}

void march__tell_ducts(const struct dew_march *m, const struct march__hour *h,
                       struct dew_result *r)
{
    const struct dew_duct_watch *w = &m->c.watch;
    struct airs a = {r->t, r->w, r->t_out, r->w_out, h->end->p, 0.0};
    double run = r->duty.vent, cold;

    tell_mixed(m, &a, r);
    if (!(w->intake_follows + w->exhaust_follows + w->outside_follows > 0.0) &&
        !w->trunk)
        return;
    a.dew_in = air__dew(a.w_in, a.p);
    cold = coldest_coil(m, h, &a);
    r->ducts[DEW_SPOT_intake] =
        run * skin_sweats(w->intake_follows, a.t_out, a.t_in, a.dew_in);
    r->ducts[DEW_SPOT_exhaust] =
        run *
        skin_sweats(w->exhaust_follows, thrown_t(m, &a), a.t_in, a.dew_in);
    r->ducts[DEW_SPOT_trunk] =
        w->trunk ? run * r->duty.cool * (cold < air__dew(fresh_w(m, &a), a.p))
                 : 0.0;
    r->ducts[DEW_SPOT_outside] =
        r->duty.cool *
        (isfinite(cold) &&
         skin_sweats(w->outside_follows, cold, h->now.drive.place_t,
                     air__dew(h->now.drive.place_w, a.p)));
}
