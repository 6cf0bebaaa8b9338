/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The march's own right-hand side for an adaptive integrator: the same
 * inlined curves, blends and flows, evaluated at the state instead of at a
 * predicted midpoint.  The thermostat must have a band (without one it is a
 * constraint and not an equation), and the coil no store that gives back.
 */
#ifndef DEW_TESTS_REFERENCE_H
#define DEW_TESTS_REFERENCE_H

#include "march/hour.h"
#include "march/open.h"
#include "support/ode.h"

enum { REFERENCE_SIZE = 7 }; /* t_air t_mass w, three stores, co2             */

struct reference {
    const struct dew_march *march; /* its case, lane and planes             */
    struct march__hour hour;
    double begin; /* s, of the hour                                         */
    long calls;
};

static inline struct dew_state reference_state(const double *y)
{
    return (struct dew_state){.t_air = y[0],
                              .t_mass = y[1],
                              .w = y[2],
                              .w_surface = y[3],
                              .w_mid = y[4],
                              .w_deep = y[5],
                              .co2 = y[6]};
}

static inline struct march__duty reference_duty(const struct march__now *n,
                                                const struct dew_state *x)
{
    double band = n->lane->band;
    struct march__duty d = {0};

    d.heat = core__share((n->drive.set_heat - x->t_air) / band);
    march__share_out(n, core__share((x->t_air - n->drive.set_cool) / band), &d);
    return d;
}

static inline void reference_rate(const struct march__now *n,
                                  const struct march__terms *k,
                                  const struct dew_state *x,
                                  struct march__duty *duty, double *f)
{
    const struct march__lane *l = n->lane;
    struct march__warm warm = {x->t_air, x->t_mass, 0.0, *duty};
    struct march__node s = march__surface_node(n, k);
    struct march__terms b = march__bend(n, k, &s, &warm);
    struct march__pieces p = march__pieces_of(n, &b, duty, x, 0.0);
    struct march__at a = march__at_of(n, &b, &p, x, &warm);
    struct dew_water_flows w = march__water_flows(n, &b, &a);
    double ts = march__surface_t(&s, x->t_air, x->t_mass);
    double all = n->c1.sensible + n->c2.sensible + n->c3.sensible;
    double cool = march__ratio(duty->cool * n->c1.sensible, all) * k->cool_full;
    double p1 = b.pws_store / l->cap_surface, p2 = b.pws_store / l->cap_mid;
    double p3 = b.pws_store / l->cap_deep, sum = 0.0;
    double mid = l->rate_mid * (p1 * x->w_surface - p2 * x->w_mid);
    double deep = l->rate_deep * (p2 * x->w_mid - p3 * x->w_deep);
    double out = (n->blend.leak + n->blend.fresh + n->blend.unplanned +
                  n->blend.ductleak) /
                     l->rho +
                 n->drive.window;

#define ADD(name, words) sum += w.name;
    DEW_WATER_MAP(ADD)
#undef ADD
    f[0] = (k->air_source - k->air_g * x->t_air + l->h_is * (ts - x->t_air) +
            duty->heat * k->heat_full - cool) /
           l->c_air;
    f[1] = (k->mass_source - (l->h_em + l->h_ground) * x->t_mass +
            l->h_ms * (ts - x->t_mass)) /
           l->c_mass;
    f[2] = sum / l->mass_air;
    f[3] = -w.store - mid;
    f[4] = mid - deep;
    f[5] = deep;
    f[6] = (1e6 * n->drive.co2_in + out * (l->co2_out - x->co2)) / l->volume;
}

static inline void reference_f(double t, const double *y, double *f, void *with)
{
    struct reference *r = with;
    const struct march__body *body = &r->march->body;
    struct march__hour h = r->hour;
    struct dew_state x = reference_state(y);
    struct march__duty duty;
    struct march__terms k;

    r->calls++;
    h.now.mid = dew_hour_between(&h.start, h.end, (t - r->begin) / 3600.0);
    duty = reference_duty(&h.now, &x);
    march__mix_of(body, &h, &x, &duty, &h.mix);
    march__equip(body, &h, &x, &duty);
    duty = reference_duty(&h.now, &x);
    h.now.blend = march__blend_all(
        &body->c, &h.mix, body->lane.rho,
        march__natural(&body->lane, x.t_air, &h.now.mid), &h.worst);
    duty.dry = march__dry_share(&h.now, air__rh(x.t_air, x.w, h.now.mid.p));
    h.now.blend.fresh +=
        body->lane.rho * body->c.plant.dryer.outdoor * duty.dry;
    k = march__settle(&h.now, &x, &duty, 0.0, 1.0);
    reference_rate(&h.now, &k, &x, &duty, f);
}

static inline void reference_begin(struct reference *r,
                                   const struct dew_march *m,
                                   const struct dew_hour *out,
                                   const struct dew_date *date, int hour)
{
    const struct march__body *body = &m->body;
    struct march__light light;
    struct march__sun sun;

    march__light_of(&body->c, m->planes, out, date, &light);
    sun = march__sun_of(&body->c, light.on, march__ground_of(&body->c, date));
    r->march = m;
    r->hour = (struct march__hour){.start = body->before,
                                   .end = out,
                                   .date = *date,
                                   .per_steps = 0.5,
                                   .dt = 1800.0,
                                   .length = 1.0};
    r->hour.now.lane = &body->lane;
    r->hour.now.kinds = body->kinds;
    march__drive_of(&body->c, &body->clock, body->way != MARCH__LIVED, &sun,
                    &(const struct march__when){out, date}, &r->hour.now.drive);
    r->begin = 3600.0 * hour;
}

#endif
