/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One step, of one house or of several (core/many.h): the same source.
 *
 * L-stable two-stage SDIRK, gamma = 1 - 1/sqrt 2 [ALE77], with the
 * thermostat, the humidistats, the wet or dry coil and the sweating surfaces
 * solved inside the stage in closed form.  A step runs in phases:
 *
 *     march__predict   one stage with the previous step's coefficients
 *     march__natural   wind and stack at the predicted midpoint
 *     march__blend     the air paths, state by state, weighted whole
 *     march__settle    the step's coefficients, once
 *     march__finish    two stages, and what flowed in them
 */
#ifndef DEW_MARCH_STEP_H
#define DEW_MARCH_STEP_H

#include "house/co2_step.h"
#include "house/leakage_step.h"
#include "house/surface_step.h"
#include "march/flows.h"

#define DEW_GAMMA 0.29289321881345254 /* 1 - 1/sqrt 2, [ALE77] */

DEW_LANE double march__co2_stage(const struct march__now *n,
                                 const struct dew_state *x, double gdt)
{
    struct dew_co2_room room;

    room.volume = n->lane->volume; /* V dC/dt = 1e6 G + q (C_out - C) */
    room.generation = n->drive.co2_in;
    room.flow = march__exchange(&n->blend) / n->lane->rho + n->drive.window;
    room.outdoors = n->lane->co2_out;
    return house__co2_step(&room, x->co2, gdt);
}

/* ---- the step's coefficients --------------------------------------------- */

DEW_LANE double march__face_w(const struct march__now *n, double t, double face)
{
    return air__w_sat(house__surface_t(face, t, n->mid.t), n->mid.p);
}

/* Natural air change at a predicted state, m3/s; see dew_leakage. */
DEW_LANE double march__natural(const struct march__lane *l, double t,
                               const struct dew_hour *mid)
{
    struct dew_leakage k;

    k.stack_k = l->stack_k;
    k.stack_n = l->stack_n;
    k.wind_k = l->wind_k;
    k.wind_n = l->wind_n;
    k.constant = l->leak_constant;
    return house__natural(&k, t - mid->t, mid->wind);
}

/* What fans and leaks of ducts bring in and take out, m3/s; local: a fan in
   bath or kitchen, or the dryer's. */
struct march__moved {
    double in, out;
};

DEW_LANE struct march__moved march__moved_by(const struct dew_path *a,
                                             double local)
{
    return (struct march__moved){a->supply + a->unplanned + a->leak_in,
                                 a->exhaust + a->spill + a->leak_out + local};
}

/* One state of the air paths at its full flow. */
DEW_LANE void march__blend_state(struct march__blend *b,
                                 const struct dew_path *a, double rho,
                                 double weight, double local, double natural)
{
    struct march__moved moved = march__moved_by(a, local);
    double m = rho * weight;

    b->leak +=
        m * house__leak_in(natural, moved.in, moved.out); /* equation 51 */
    b->fresh += m * a->fresh;
    b->drawn += m * a->drawn;
    b->fresh_sensible += m * a->fresh * a->sensible;
    b->fresh_latent += m * a->fresh * a->latent;
    b->unplanned += m * a->unplanned;
    b->ductleak += m * (a->leak_in - a->leak_lost);
    b->fan_w += weight * a->fan_w;
    b->fan_heat += weight * a->fan_heat;
}

/* What the predicted state bends: the only transcendental work of a step. */
DEW_LANE struct march__terms march__curves(const struct march__now *n,
                                           const struct dew_state *at)
{
    const struct march__lane *l = n->lane;
    double sum = l->h_is + l->h_w + l->h_ms;
    double t_face = /* sum of h t / sum of h: the surface without gains */
        (l->h_is * at->t_air + l->h_ms * at->t_mass + l->h_w * n->mid.t) / sum;
    struct air__line air = air__poly_pws(at->t_air);
    struct air__line store = air__poly_pws(t_face);
    struct air__line wet = {0};
    struct march__terms k;

    if (n->kinds & MARCH__GROUND)
        wet = air__poly_pws(l->wet_follow * at->t_air + n->drive.wet_t);
    k.per_w = air__per_w(at->w, n->mid.p);
    k.t_air = at->t_air;
    k.t_store = t_face;
    k.pws_air = air.value;
    k.air_slope = air.slope;
    k.pws_store = store.value;
    k.store_slope = store.slope;
    k.pws_wet = wet.value;
    k.wet_slope = l->wet_follow * wet.slope;
    k.sorb = DEW_LATENT * l->rate_surface * store.slope * at->w_surface *
             l->per_surface; /* L beta A RH dp_s/dt */
    k.wsat_glass = k.wsat_edge = k.wsat_corner = CORE__OF(0.0);
    if (n->kinds & MARCH__FILMS) {
        k.wsat_glass = march__face_w(n, at->t_air, l->face_glass);
        k.wsat_edge = march__face_w(n, at->t_air, l->face_edge);
        k.wsat_corner = march__face_w(n, at->t_air, l->face_corner);
    }
    k.evap_air = k.evap_surface = CORE__OF(0.0);
    k.fog = k.cp = CORE__OF(0.0);
    return k;
}

/* kg/s of water that schedules put in. */
#define MARCH__ADD_SOURCE(name, words) +s->name
DEW_LANE double march__poured(const struct march__drive *s)
{
    return 0.0 DEW_SOURCE_MAP(MARCH__ADD_SOURCE);
}

/* What the present hour puts in, given the curves: the sources and slopes of
   the equations that the stages solve.  What goes in here is booked in
   march__water_flows and march__heat_flows.  owed, W: see finish. */
DEW_LANE struct march__terms march__sources(const struct march__now *n,
                                            const struct march__terms *curves,
                                            double owed)
{
    const struct march__lane *l = n->lane;
    const struct march__drive *s = &n->drive;
    const struct march__blend *b = &n->blend;
    double inside = (1.0 - l->convective) * (s->bodies + s->gains) + s->solar;
    double gas = b->leak + l->rho * s->window + b->unplanned + b->ductleak;
    double all = n->c1.sensible + n->c2.sensible + n->c3.sensible;
    double evap = l->evap_plants + l->evap_laundry;
    struct march__terms k = *curves;

    k.cp = air__cp(n->mid.w);
    /* C_m dtm/dt = mass_source - (h_em + h_ground) tm + h_ms (ts - tm) */
    k.mass_source = l->mass_share * inside + s->sunlit + l->h_em * n->mid.t +
                    l->h_ground * s->t_ground - s->sky_opaque;
    /* 0 = surface_source + h_is (ta - ts) + h_ms (tm - ts) + h_w (to - ts) */
    k.surface_source = (1.0 - l->mass_share - l->lost_share) * inside +
                       k.evap_surface - s->sky_glazed;
    /* C_a dta/dt = air_source - air_g ta + h_is (ts - ta)
                    + heat heat_full - cool cool_full */
    k.air_g = k.cp * (gas + b->fresh - b->fresh_sensible) + s->duct_g;
    k.air_source = l->convective * (s->bodies + s->gains) + k.air_g * n->mid.t +
                   b->fan_heat + b->preheat +
                   s->blower_idle * (1.0 - s->lost_rest) + k.evap_air + owed +
                   (k.cp * b->ductleak + s->duct_g) * (s->place_t - n->mid.t);
    k.heat_full =
        core__pick(s->heat_cap > 0.0, s->heat_cap + s->blower_heat, 0.0);
    k.heat_full *= 1.0 - s->duct_heat - s->lost_heat;
    k.cool_full = core__pick(all > 0.0, all - s->blower_cool, 0.0);
    k.cool_full *= 1.0 - s->duct_cool - s->lost_cool;
    /* M dw/dt = w_source - w_g w - evap p_v + what stores and kinks add */
    k.w_g = gas + b->fresh - b->fresh_latent;
    k.w_source = march__poured(s) + s->reevaporation * (1.0 - s->lost_rest) +
                 k.w_g * n->mid.w + evap * k.pws_air +
                 b->ductleak * (s->place_w - n->mid.w);
    return k;
}

/*
 * The step's coefficients, once, at the predicted midpoint and with the duty
 * predicted there.
 *
 *     owed    W     latent heat the heat equations have not had yet
 *     per_dt  1/s   of a film, what may leave it
 */
DEW_LANE struct march__terms march__settle(const struct march__now *n,
                                           const struct dew_state *at,
                                           const struct march__duty *duty,
                                           double owed, double per_dt)
{
    struct march__terms k = march__curves(n, at);
    struct march__pieces p = march__pieces_of(n, &k, duty, at, per_dt);
    struct march__warm warm = {at->t_air, at->t_mass, CORE__OF(0.0), *duty};
    struct march__at a = march__at_of(n, &k, &p, at, &warm);
    struct dew_water_flows f = march__water_flows(n, &k, &a);

    k.evap_air = march__latent_air(n, &f) + march__drier_heat(n, &f, a.dry);
    k.evap_surface = march__latent_surface(&f);
    k.fog = duty->fog;
    return march__sources(n, &k, owed);
}

/* ---- two stages ----------------------------------------------------------- */

#define MARCH__ADD_FLOW(name, words) sum->name += weight * f.name;
#define MARCH__ADD_HEAT(name, words) sum->name += weight * f.name;

DEW_LANE void march__add_water(struct dew_water_flows *sum,
                               struct dew_water_flows f,
                               double weight){DEW_WATER_MAP(MARCH__ADD_FLOW)}

DEW_LANE
    void march__add_heat(struct dew_heat_flows *sum, struct dew_heat_flows f,
                         double weight){DEW_HEAT_MAP(MARCH__ADD_HEAT)}

#define MARCH__TIMES(name, words) f.name *= dt;
DEW_LANE struct dew_water_flows
    march__water_times(struct dew_water_flows f, double dt)
{
    DEW_WATER_MAP(MARCH__TIMES)
    return f;
}

DEW_LANE struct dew_heat_flows march__heat_times(struct dew_heat_flows f,
                                                 double dt)
{
    DEW_HEAT_MAP(MARCH__TIMES)
    return f;
}

/* What a step returns beside the state. */
struct march__sum {
    struct dew_water_flows water; /* kg                                     */
    struct dew_heat_flows heat;   /* J                                      */
    struct march__duty duty;      /* s, of each                             */
    core__truth heats, cools; /* acting at the end                          */
    double given_q; /* J   latent heat that the heat equations were given   */
    double t, w, rh, co2; /* means, by the stages' weights                  */
};

/* Vapour pressures at the stage's own temperatures, by their slopes. */
DEW_LANE struct march__terms march__bend(const struct march__now *n,
                                         const struct march__terms *k,
                                         const struct march__node *node,
                                         const struct march__warm *warm)
{
    const struct march__lane *l = n->lane;
    double ts = march__surface_t(node, warm->t_air, warm->t_mass);
    double warmer = warm->t_air - k->t_air, rise = k->air_slope * warmer;
    struct march__terms y = *k;

    y.pws_air += rise;
    y.pws_wet += k->wet_slope * warmer;
    y.pws_store += k->store_slope * (ts - k->t_store);
    y.w_source += (l->evap_plants + l->evap_laundry) * rise;
    return y;
}

/* Latent heat that a step's heat equations were given, W. */
DEW_LANE double march__given_q(const struct march__terms *k,
                               const struct march__node *node,
                               const struct march__at *a)
{
    double ts = march__surface_t(node, a->t_air, a->t_mass);

    return k->evap_air + k->evap_surface - k->sorb * (ts - k->t_store);
}

/* One stage from base x; *at is what its flows are made of. */
DEW_LANE struct dew_state march__stage(const struct march__now *n,
                                       const struct march__terms *k,
                                       const struct march__elimination *e,
                                       const struct dew_state *x,
                                       struct march__length length,
                                       struct march__at *at)
{
    struct march__given g = march__given_warmer(n, k, e, length.warmer);
    struct march__warm warm = march__warm_stage(n, k, e, &g, x);
    struct march__terms b = march__bend(n, k, &e->node, &warm);
    struct march__pieces p =
        march__pieces_of(n, &b, &warm.duty, x, length.per_dt);
    struct dew_state y;

    b.w_source += k->w_g * length.moister;
    p.top = air__w_sat(warm.t_air, n->mid.p);
    y = march__water_stage(n, &b, x, length, &p);
    y.t_air = warm.t_air;
    y.t_mass = warm.t_mass;
    y.co2 = march__co2_stage(n, x, length.gdt);
    *at = march__at_of(n, &b, &p, &y, &warm);
    return y;
}

/* The flows of a step of dt whose stages have the mean a. */
DEW_LANE void march__flows(const struct march__now *n,
                           const struct march__terms *k,
                           const struct march__node *node,
                           const struct march__at *a, double dt,
                           struct march__sum *sum)
{
    struct dew_water_flows w = march__water_flows(n, k, a);
    struct dew_heat_flows q = march__heat_flows(n, k, node, &w, a);

    sum->water = march__water_times(w, dt);
    sum->heat = march__heat_times(q, dt);
    sum->given_q = dt * march__given_q(k, node, a);
    sum->duty.heat = dt * a->heat;
    sum->duty.cool = dt * a->cool;
    sum->duty.cool_2 = dt * a->cool_2;
    sum->duty.cool_3 = dt * a->cool_3;
    sum->duty.dry = dt * a->dry;
    sum->duty.wet = dt * a->wet;
}

/* x + r (y - x): the base of the second stage. */
#define MARCH__LEAN(name) b.name = x->name + r * (y->name - x->name);
DEW_LANE struct dew_state march__lean(const struct dew_state *x,
                                      const struct dew_state *y, double r)
{
    struct dew_state b;

    DEW_STATE_MAP(MARCH__LEAN)
    return b;
}

/* A step's seconds, one over them, and by how much outdoor air becomes warmer,
   K, and moister, kg/kg, in it. */
struct march__span_of {
    double dt, per_dt, warmer, moister;
};

/* The mean of two stages, the second's weight gamma. */
#define MARCH__MEAN(name) m.name = a->name + DEW_GAMMA * (b->name - a->name);
DEW_LANE struct march__at march__mean(const struct march__at *a,
                                      const struct march__at *b)
{
    struct march__at m;

    DEW_AT_MAP(MARCH__MEAN)
    return m;
}

/* The means of a step from its stages, as those of its flows: a state that
   jumped at its beginning, and is gone, does not count. */
DEW_LANE void march__means(const struct march__now *n,
                           const struct dew_state *one,
                           const struct dew_state *end, struct march__sum *sum)
{
    const core__plain g = DEW_GAMMA;
    double rh = air__rh(one->t_air, one->w, n->mid.p);

    sum->t = one->t_air + g * (end->t_air - one->t_air);
    sum->w = one->w + g * (end->w - one->w);
    sum->rh = rh + g * (air__rh(end->t_air, end->w, n->mid.p) - rh);
    sum->co2 = one->co2 + g * (end->co2 - one->co2);
}

/*
 * The two stages, each with outdoor air of its own time, gamma and 1 of the
 * step: with the stages' weights that is the air of the middle again, with which
 * the flows are told.  sum gets what flowed in the step; the latent heat that the
 * heat equations were given from the prediction and the true one differ a
 * little, and the difference is owed to the next step.
 */
DEW_LANE struct dew_state march__finish(const struct march__now *n,
                                        const struct march__terms *k,
                                        const struct dew_state *x,
                                        const struct march__span_of *span,
                                        struct march__sum *sum)
{
    const double dt = span->dt, gdt = DEW_GAMMA * dt;
    const double per_gdt = (1.0 / DEW_GAMMA) * span->per_dt;
    const core__plain early = DEW_GAMMA - 0.5, late = 0.5;
    struct march__length first = {gdt, per_gdt, span->per_dt,
                                  early * span->warmer, early * span->moister};
    struct march__length second = {gdt, per_gdt, per_gdt, late * span->warmer,
                                   late * span->moister};
    struct march__elimination e = march__eliminate(n, k, per_gdt);
    struct dew_state one, base, end;
    struct march__at a, b, mean;

    one = march__stage(n, k, &e, x, first, &a); /* x1 = x + gamma dt f(x1) */
    base = march__lean(x, &one, CORE__OF((1.0 - DEW_GAMMA) / DEW_GAMMA));
    end = march__stage(n, k, &e, &base, second, &b); /* base + gamma dt f(x2) */
    mean = march__mean(&a, &b); /* (1 - gamma) f(x1) + gamma f(x2) */
    march__flows(n, k, &e.node, &mean, dt, sum);
    march__means(n, &one, &end, sum);
    sum->heats = b.heat > 0.0;
    sum->cools = b.cool > 0.0;
    end.owed_q = sum->heat.evaporation + sum->heat.drier - sum->given_q;
    return end;
}

/*
 * What falls out of the air, with the warmth that it brings: at t, where p.fog
 * would fall, the air has had the heat of k->fog.  One Newton step of
 *
 *     fog = surplus(t),  dt = h_fg dfog / slope,  dsurplus/dt = -g dw_s/dt
 *
 * with g the slope of all that takes water out at saturation,
 *
 * without which much air and little heat capacity would swing up.
 */
DEW_LANE double march__fog_of(const struct march__now *n,
                              const struct march__terms *k,
                              const struct march__pieces *p, double per_slope)
{
    struct air__line pws = {k->pws_air, k->air_slope};
    double w_slope = air__w_slope(pws, n->mid.p);
    struct march__passed passed = march__passed_at(p, p->top);
    double back =
        DEW_LATENT * march__slope_on(p, &passed) * w_slope * per_slope;
    double surplus = -march__residual(p, p->top);

    return march__over((surplus + back * k->fog) / (1.0 + back));
}

/* The warmth of a prediction anew, with the latent heat of the water that was
   predicted: where a source comes or goes, furnishings take up or give off so
   much that it moves the duty. */
DEW_LANE struct march__warm march__mend(const struct march__now *n,
                                        const struct march__terms *k,
                                        const struct march__elimination *e,
                                        const struct dew_state *x,
                                        const struct march__at *a,
                                        const struct dew_water_flows *f)
{
    double ts = march__surface_t(&e->node, a->t_air, a->t_mass);
    double air = march__latent_air(n, f) + march__drier_heat(n, f, a->dry);
    double surface = march__latent_surface(f) + k->sorb * (ts - k->t_store);
    struct march__given g = march__given_at(k, e);

    g.air += air - k->evap_air;
    g.c += (surface - k->evap_surface) * e->node.per;
    return march__warm_stage(n, k, e, &g, x);
}

/* The midpoint, by one stage with the coefficients of the step before, and its
   duties once more with what that stage says of the water. */
DEW_LANE struct dew_state march__predict(const struct march__now *n,
                                         const struct march__terms *k,
                                         const struct dew_state *x,
                                         const struct march__span_of *span,
                                         struct march__duty *duty)
{
    const struct march__length half = {0.5 * span->dt, 2.0 * span->per_dt,
                                       span->per_dt, CORE__OF(0.0),
                                       CORE__OF(0.0)};
    struct march__elimination e = march__eliminate(n, k, half.per_gdt);
    struct march__given g = march__given_at(k, &e);
    struct march__warm warm = march__warm_stage(n, k, &e, &g, x);
    struct march__terms b = march__bend(n, k, &e.node, &warm);
    struct march__pieces p =
        march__pieces_of(n, &b, &warm.duty, x, half.per_dt);
    struct march__at a;
    struct dew_water_flows f;
    struct dew_state y;

    p.top = air__w_sat(warm.t_air, n->mid.p);
    y = march__water_stage(n, &b, x, half, &p);
    a = march__at_of(n, &b, &p, &y, &warm);
    a.fog = k->fog; /* as in evap_air: its own warmth is in march__fog_of */
    f = march__water_flows(n, &b, &a);
    warm = march__mend(n, k, &e, x, &a, &f);
    march__put_coils(n, &warm.duty, &p);
    y.w = core__min(p.top, march__w_root(&p, y.w));
    y.t_air = warm.t_air;
    y.t_mass = warm.t_mass;
    *duty = warm.duty;
    duty->dry = march__dry_share(n, p.per_rh * y.w);
    duty->wet = march__wet_share(n, p.per_rh * y.w);
    duty->fog = march__fog_of(n, &b, &p, e.per_slope);
    return y;
}

#endif
