/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What one stage solves in closed form: the thermostat on three nodes, and
 * the humidistats, wet coils and sweating surfaces on one monotone line.
 * Private; see step.h for the whole step and for what keeps it vectorising.
 */
#ifndef DEW_MARCH_SOLVE_H
#define DEW_MARCH_SOLVE_H

#include <math.h>

#include "air/poly.h"
#include "march/lane.h"

/* Heat of evaporation at 20 degC, J/kg: 2501 + 1.86 t - 4.186 t, [ASH-F1] */
#define DEW_LATENT 2454480.0

/* All coefficients of a step that the stages share. */
struct dew__now {
    struct dew__lane lane;
    struct dew__drive drive;
    struct dew__coil c1, c2, c3;
    struct dew__blend blend;
    struct dew_hour mid;
    int bundled; /* 1: one of many houses in lanes, which must not branch    */
};

DEW_LANE double dew__pws(double t)
{
    return dew__poly_pws(t).value;
}

DEW_LANE double dew__pow(double x, double y)
{
    return dew__poly_pow(x, y);
}

DEW_LANE double dew__clamp01(double x)
{
    x = x > 0.0 ? x : 0.0;
    return x < 1.0 ? x : 1.0;
}

DEW_LANE double dew__over(double x)
{
    return x > 0.0 ? x : 0.0;
}

/* x / y, or 0 where y is not positive. */
DEW_LANE double dew__ratio(double x, double y)
{
    double safe = y > 0.0 ? y : 1.0;

    return y > 0.0 ? x / safe : 0.0;
}

/* ---- the surface node, an algebraic one: ts = a ta + b tm + c.  Furnishings
   give off water, and take heat, the faster the warmer they are: sorb, W/K,
   about the predicted t_store ----------- */

struct dew__node {
    double a, b, c;
};

DEW_LANE struct dew__node dew__surface_node(const struct dew__now *n,
                                            const struct dew__terms *k)
{
    const struct dew__lane *l = &n->lane;
    double per = 1.0 / (l->h_is + l->h_w + l->h_ms + k->sorb);
    struct dew__node s;

    s.a = l->h_is * per;
    s.b = l->h_ms * per;
    s.c = (l->h_w * n->mid.t + k->surface_source + k->sorb * k->t_store) * per;
    return s;
}

DEW_LANE double dew__surface_t(const struct dew__node *s, double t_air,
                               double t_mass)
{
    return s->a * t_air + s->b * t_mass + s->c;
}

/* ---- heat: eliminate surface and mass, solve the air for the thermostat -- */

/* What stages of one length have in common: the mass is d + follow ta, the air
   ta = right / slope. */
struct dew__elimination {
    struct dew__node node;
    double cm, ca, per_mass, follow, slope, per_slope, per_heat, per_cool;
};

DEW_LANE struct dew__elimination dew__eliminate(const struct dew__now *n,
                                                const struct dew__terms *k,
                                                double gdt)
{
    const struct dew__lane *l = &n->lane;
    struct dew__elimination e;
    double per = 1.0 / gdt;

    e.node = dew__surface_node(n, k);
    e.cm = l->c_mass * per;
    e.ca = l->c_air * per;
    e.per_mass =
        1.0 / (e.cm + l->h_em + l->h_ground + l->h_ms * (1.0 - e.node.b));
    e.follow = l->h_ms * e.node.a * e.per_mass;
    e.slope =
        e.ca + k->air_g + l->h_is * (1.0 - e.node.a - e.node.b * e.follow);
    e.per_slope = 1.0 / e.slope;
    e.per_heat = dew__ratio(1.0, l->band * e.slope + k->heat_full);
    e.per_cool = dew__ratio(1.0, l->band * e.slope + k->cool_full);
    return e;
}

struct dew__warm {
    double t_air, t_mass, held;
    struct dew__duty duty;
};

/* How one share of the whole coil capacity falls on each handler. */
DEW_LANE void dew__share_out(const struct dew__now *n, double share,
                             struct dew__duty *d)
{
    double all = n->c1.sensible + n->c2.sensible + n->c3.sensible;
    double need = share * all, rest = need - n->c1.sensible;
    double ll = n->lane.lead_lag;

    d->cool = ll > 0.0 ? dew__clamp01(dew__ratio(need, n->c1.sensible)) : share;
    d->cool_2 =
        ll > 0.0 ? dew__clamp01(dew__ratio(rest, n->c2.sensible)) : share;
    rest -= n->c2.sensible;
    d->cool_3 =
        ll > 0.0 ? dew__clamp01(dew__ratio(rest, n->c3.sensible)) : share;
}

DEW_LANE struct dew__warm dew__warm_stage(const struct dew__now *n,
                                          const struct dew__terms *k,
                                          const struct dew__elimination *e,
                                          const struct dew_state *x)
{
    const struct dew__lane *l = &n->lane;
    double d = (e->cm * x->t_mass + k->mass_source + l->h_ms * e->node.c) *
               e->per_mass;
    double right = e->ca * x->t_air + k->air_source +
                   l->h_is * (e->node.c + e->node.b * d);
    double heat =
        dew__clamp01((n->drive.set_heat * e->slope - right) * e->per_heat);
    double cool =
        dew__clamp01((right - n->drive.set_cool * e->slope) * e->per_cool);
    struct dew__warm out;
    double given = n->drive.given;

    heat = k->heat_full > 0.0 ? heat : 0.0;
    heat = given > 0.0 ? 0.0 : heat;
    cool = k->cool_full > 0.0 ? cool : 0.0;
    cool = given > 0.0 ? 0.0 : cool;
    out.t_air =
        (right + heat * k->heat_full - cool * k->cool_full) * e->per_slope;
    out.t_air = given > 0.0 ? n->drive.set_heat : out.t_air;
    out.held = given > 0.0 ? out.t_air * e->slope - right : 0.0;
    out.t_mass = d + e->follow * out.t_air;
    out.duty.heat = heat;
    dew__share_out(n, cool, &out.duty);
    out.duty.dry = 0.0;
    out.duty.wet = 0.0;
    return out;
}

/* ---- water: a monotone, piecewise linear equation in w ------------------- */

/* What makes the pieces, for one stage. */
struct dew__pieces {
    double g, r; /* g w - r: the linear part                      */
    double p1, b1, p2, b2, p3, b3; /* coils: pass, and w at which they wet    */
    double f1, s1, a1, f2, s2, a2, f3, s3, a3; /* films: rate, w_s, at hand   */
    double per_rh; /* RH per w                                      */
};

DEW_LANE double dew__film_piece(double rate, double w_s, double at_hand,
                                double w)
{
    double flow = rate * (w - w_s);

    return flow > -at_hand ? flow : -at_hand;
}

DEW_LANE double dew__dry_share(const struct dew__now *n, double rh)
{
    return dew__clamp01((rh - n->lane.dry_low) * n->lane.dry_per);
}

DEW_LANE double dew__wet_share(const struct dew__now *n, double rh)
{
    return dew__clamp01((n->lane.wet_high - rh) * n->lane.wet_per);
}

/* kg/s leaving the zone's air less what enters it, at w. */
DEW_LANE double dew__residual(const struct dew__now *n,
                              const struct dew__pieces *p, double w)
{
    double rh = p->per_rh * w;

    return p->g * w - p->r + p->p1 * dew__over(w - p->b1) +
           p->p2 * dew__over(w - p->b2) + p->p3 * dew__over(w - p->b3) +
           dew__film_piece(p->f1, p->s1, p->a1, w) +
           dew__film_piece(p->f2, p->s2, p->a2, w) +
           dew__film_piece(p->f3, p->s3, p->a3, w) +
           n->drive.dry_rate * dew__dry_share(n, rh) -
           n->drive.wet_rate * dew__wet_share(n, rh);
}

/* On which side of each kink the root lies: 1 above it, 0 below. */
struct dew__sides {
    double c1, c2, c3;                     /* coils: wet                      */
    double f1, f2, f3;                     /* films: free                     */
    double dry_on, dry_full, wet_on, idle; /* humidistats                     */
};

/* The straight piece between the kinks: g w = r. */
struct dew__line {
    double g, r;
};

DEW_LANE struct dew__line dew__line_of(const struct dew__now *n,
                                       const struct dew__pieces *p,
                                       const struct dew__sides *s)
{
    const struct dew__lane *l = &n->lane;
    double dry = (s->dry_on - s->dry_full) * n->drive.dry_rate * l->dry_per;
    double wet = (s->wet_on - s->idle) * n->drive.wet_rate * l->wet_per;
    double c1 = s->c1 * p->p1, c2 = s->c2 * p->p2, c3 = s->c3 * p->p3;
    double f1 = s->f1 * p->f1, f2 = s->f2 * p->f2, f3 = s->f3 * p->f3;
    struct dew__line y;

    y.g = p->g + c1 + c2 + c3 + f1 + f2 + f3 + (dry + wet) * p->per_rh;
    y.r = p->r + c1 * p->b1 + c2 * p->b2 + c3 * p->b3 + f1 * p->s1 +
          f2 * p->s2 + f3 * p->s3 + (1.0 - s->f1) * p->a1 +
          (1.0 - s->f2) * p->a2 + (1.0 - s->f3) * p->a3 + dry * l->dry_low +
          wet * l->wet_high - s->dry_full * n->drive.dry_rate +
          (1.0 - s->wet_on) * n->drive.wet_rate;
    return y;
}

DEW_LANE double dew__above(double x, double kink)
{
    return x > kink ? 1.0 : 0.0;
}

/* The sides on which w itself lies. */
DEW_LANE struct dew__sides dew__sides_at(const struct dew__now *n,
                                         const struct dew__pieces *p, double w)
{
    const struct dew__lane *l = &n->lane;
    double rh = p->per_rh * w;
    struct dew__sides s;

    s.c1 = dew__above(w, p->b1);
    s.c2 = dew__above(w, p->b2);
    s.c3 = dew__above(w, p->b3);
    s.f1 = dew__above(p->f1 * (w - p->s1), -p->a1);
    s.f2 = dew__above(p->f2 * (w - p->s2), -p->a2);
    s.f3 = dew__above(p->f3 * (w - p->s3), -p->a3);
    s.dry_on = dew__above(rh, l->dry_low);
    s.dry_full = dew__above(rh, l->dry_low + l->dry_width);
    s.wet_on = dew__above(rh, l->wet_high - l->wet_width);
    s.idle = dew__above(rh, l->wet_high);
    return s;
}

DEW_LANE double dew__film_edge(double rate, double w_s, double at_hand)
{
    return w_s - dew__ratio(at_hand, rate);
}

/* 1 where the root lies above w: the residual rises with w. */
DEW_LANE double dew__root_above(const struct dew__now *n,
                                const struct dew__pieces *p, double w)
{
    return dew__above(0.0, dew__residual(n, p, w));
}

/* The sides on which the root lies, wherever it is. */
DEW_LANE struct dew__sides dew__sides_of_root(const struct dew__now *n,
                                              const struct dew__pieces *p)
{
    const struct dew__lane *l = &n->lane;
    double to_w = 1.0 / p->per_rh;
    struct dew__sides s;

    s.c1 = dew__root_above(n, p, p->b1);
    s.c2 = dew__root_above(n, p, p->b2);
    s.c3 = dew__root_above(n, p, p->b3);
    s.f1 = dew__root_above(n, p, dew__film_edge(p->f1, p->s1, p->a1));
    s.f2 = dew__root_above(n, p, dew__film_edge(p->f2, p->s2, p->a2));
    s.f3 = dew__root_above(n, p, dew__film_edge(p->f3, p->s3, p->a3));
    s.dry_on = dew__root_above(n, p, l->dry_low * to_w);
    s.dry_full = dew__root_above(n, p, (l->dry_low + l->dry_width) * to_w);
    s.wet_on = dew__root_above(n, p, (l->wet_high - l->wet_width) * to_w);
    s.idle = dew__root_above(n, p, l->wet_high * to_w);
    return s;
}

DEW_LANE int dew__same_sides(const struct dew__sides *a,
                             const struct dew__sides *b)
{
    return (a->c1 == b->c1) & (a->c2 == b->c2) & (a->c3 == b->c3) &
           (a->f1 == b->f1) & (a->f2 == b->f2) & (a->f3 == b->f3) &
           (a->dry_on == b->dry_on) & (a->dry_full == b->dry_full) &
           (a->wet_on == b->wet_on) & (a->idle == b->idle);
}

DEW_LANE double dew__root_on(const struct dew__now *n,
                             const struct dew__pieces *p,
                             const struct dew__sides *s)
{
    struct dew__line y = dew__line_of(n, p, s);

    return y.r / y.g;
}

/*
 * The root of the residual, exactly: its sign at each kink says on which side
 * the root lies.  A house by itself first tries the piece that near lies on,
 * and the one that leads to; lanes cannot branch.
 */
DEW_LANE double dew__w_root(const struct dew__now *n,
                            const struct dew__pieces *p, double near)
{
    struct dew__sides s;

    if (!n->bundled)
        for (int tries = 0; tries < 2; tries++) {
            struct dew__sides from = dew__sides_at(n, p, near);

            near = dew__root_on(n, p, &from);
            s = dew__sides_at(n, p, near);
            if (dew__same_sides(&from, &s))
                return near;
        }
    s = dew__sides_of_root(n, p);
    return dew__root_on(n, p, &s);
}

#endif
