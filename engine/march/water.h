/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The water of one stage: the stores as straight lines of w, the kinks that
 * coils, films, humidistats and wet ground make, and the step of w itself.
 * Private; see step.h.
 */
#ifndef DEW_MARCH_WATER_H
#define DEW_MARCH_WATER_H

#include "march/solve.h"

/*
 * The stores as straight lines, each of the one above it and that of w: all
 * that flows down the ladder in the stage, from the deepest up.  With W in kg
 * and p the vapour pressure of a kg, p_v = per_w w of the air:
 *
 *     (W1 - W1_0) / gdt = rate_surface (p_v - p1 W1) - rate_mid (p1 W1 - p2 W2)
 *     (W2 - W2_0) / gdt = rate_mid (p1 W1 - p2 W2) - rate_deep (p2 W2 - p3 W3)
 *     (W3 - W3_0) / gdt = rate_deep (p2 W2 - p3 W3)
 */
struct march__stores {
    double surface_0, surface_w, mid_0, mid_surface, deep_0, deep_mid;
};

DEW_LANE struct march__stores march__store_lines(const struct march__now *n,
                                                 const struct march__terms *k,
                                                 const struct dew_state *x,
                                                 double gdt)
{
    const struct march__lane *l = n->lane;
    double p1 = k->pws_store * l->per_surface, p2 = k->pws_store * l->per_mid;
    double p3 = k->pws_store * l->per_deep, in = gdt * l->rate_surface;
    double mid = gdt * l->rate_mid, deep = gdt * l->rate_deep;
    /* by elimination from below, the pivots d3, d2 / d3 and d1 / d2 */
    double d3 = 1.0 + deep * p3;
    double d2 = (1.0 + (mid + deep) * p2) * d3 - deep * p3 * (deep * p2);
    double d1 = (1.0 + (in + mid) * p1) * d2 - mid * p2 * (mid * p1) * d3;
    double d32 = d3 * d2, per = 1.0 / (d32 * d1), per_1 = d2 * d32 * per;
    double per_2 = d3 * (d3 * d1 * per), per_3 = d2 * d1 * per;
    struct march__stores s;

    s.deep_0 = x->w_deep * per_3;
    s.deep_mid = deep * p2 * per_3;
    s.mid_0 = (x->w_mid + deep * p3 * s.deep_0) * per_2;
    s.mid_surface = mid * p1 * per_2;
    s.surface_0 = (x->w_surface + mid * p2 * s.mid_0) * per_1;
    s.surface_w = in * k->per_w * per_1;
    return s;
}

#define MARCH__PUT_KINK(p, name, w, slope)                                     \
    (p)->at.name = (w);                                                        \
    (p)->bend.name = (slope);                                                  \
    (p)->held.name = CORE__OF(0.0);

/* What stands on a face of that film may leave at per_dt, 1/s; a dry one has
   its kink where its air is saturated. */
#define MARCH__PUT_FILM(p, name)                                               \
    rate = march__over(l->film_rate_##name * k->per_w);                        \
    most = core__pick(rate > 0.0, march__over(x->film_##name * per_dt), 0.0);  \
    MARCH__PUT_KINK(p, name, k->wsat_##name, rate)                             \
    if (core__any(most > 0.0))                                                 \
        (p)->at.name -= march__ratio(most, rate);                              \
    (p)->held.name = most;                                                     \
    (p)->r += most;

DEW_LANE void march__put_films(const struct march__now *n,
                               const struct march__terms *k,
                               const struct dew_state *x, double per_dt,
                               struct march__pieces *p)
{
    const struct march__lane *l = n->lane;
    double rate, most;

    MARCH__PUT_FILM(p, glass)
    MARCH__PUT_FILM(p, edge)
    MARCH__PUT_FILM(p, corner)
}

/* Dehumidifier and humidifier over their bands. */
DEW_LANE void march__put_humidistats(const struct march__now *n,
                                     const struct march__terms *k,
                                     struct march__pieces *p)
{
    const struct march__lane *l = n->lane;
    double to_w = k->pws_air / k->per_w;
    double dry = n->drive.dry_rate * l->dry_per * p->per_rh;
    double wet = n->drive.wet_rate * l->wet_per * p->per_rh;

    if (p->kinds & MARCH__DRIES) {
        MARCH__PUT_KINK(p, dry_on, l->dry_low * to_w, dry)
        MARCH__PUT_KINK(p, dry_full, (l->dry_low + l->dry_width) * to_w, -dry)
    }
    if (p->kinds & MARCH__WETS) {
        p->r += n->drive.wet_rate;
        MARCH__PUT_KINK(p, wet_less, (l->wet_high - l->wet_width) * to_w, wet)
        MARCH__PUT_KINK(p, wet_off, l->wet_high * to_w, -wet)
    }
}

/* Wet ground gives off what vapour pressure drives, and never takes any up. */
DEW_LANE double march__off_ground(const struct march__now *n,
                                  const struct march__terms *k, double w)
{
    return n->lane->evap_ground * march__over(k->pws_wet - k->per_w * w);
}

DEW_LANE void march__put_ground(const struct march__now *n,
                                const struct march__terms *k,
                                struct march__pieces *p)
{
    double rate = n->lane->evap_ground * k->per_w;

    p->g += rate;
    p->r += n->lane->evap_ground * k->pws_wet;
    MARCH__PUT_KINK(p, ground, k->pws_wet / k->per_w, -rate)
}

/* Coils wet from their apparatus dew point on. */
DEW_LANE void march__put_coils(const struct march__now *n,
                               const struct march__duty *d,
                               struct march__pieces *p)
{
    double kept = 1.0 - n->drive.lost_cool;

    if (p->kinds & MARCH__COOLS) {
        MARCH__PUT_KINK(p, coil, n->c1.w_adp, d->cool * n->c1.pass * kept)
    }
    if (p->kinds & MARCH__COOLS_MORE) {
        MARCH__PUT_KINK(p, coil_2, n->c2.w_adp, d->cool_2 * n->c2.pass * kept)
        MARCH__PUT_KINK(p, coil_3, n->c3.w_adp, d->cool_3 * n->c3.pass * kept)
    }
}

/* All kinks; the rest of g and r is added by what solves for w. */
DEW_LANE struct march__pieces march__pieces_of(const struct march__now *n,
                                               const struct march__terms *k,
                                               const struct march__duty *d,
                                               const struct dew_state *x,
                                               double per_dt)
{
    struct march__pieces p;

    p.g = CORE__OF(0.0);
    p.r = CORE__OF(0.0);
    p.per_rh = k->per_w / k->pws_air;
    p.top = CORE__OF(1.0); /* no end yet */
    p.fog = d->fog;
    p.kinds = n->kinds;
    march__put_coils(n, d, &p);
    if (p.kinds & MARCH__FILMS)
        march__put_films(n, k, x, per_dt, &p);
    if (p.kinds & (MARCH__DRIES | MARCH__WETS))
        march__put_humidistats(n, k, &p);
    if (p.kinds & MARCH__GROUND)
        march__put_ground(n, k, &p);
    return p;
}

/* One stage of gdt from its base, of which a film may lose per_dt; and by how
   much outdoor air is warmer, K, and moister, kg/kg, at its time than in the
   middle of the step. */
struct march__length {
    double gdt, per_gdt, per_dt, warmer, moister;
};

/* Advance w, the stores and the films from base x by gdt.  Where the root lies
   beyond saturation the air stays there, and what comes in beyond what goes
   out falls out. */
DEW_LANE struct dew_state march__water_stage(const struct march__now *n,
                                             const struct march__terms *k,
                                             const struct dew_state *x,
                                             struct march__length length,
                                             struct march__pieces *p)
{
    const struct march__lane *l = n->lane;
    double gdt = length.gdt, held = l->mass_air * length.per_gdt;
    struct march__stores s = march__store_lines(n, k, x, gdt);
    double p1 = k->pws_store * l->per_surface;
    double evap = l->evap_plants + l->evap_laundry;
    struct dew_state y = *x;

    /* g w - r = M (w - w_0) / gdt + w_g w - w_source + evap p_v
                 + rate_surface (p_v - p1 W1), W1 = surface_0 + surface_w w */
    p->g += held + k->w_g + evap * k->per_w +
            l->rate_surface * (k->per_w - p1 * s.surface_w);
    p->r += held * x->w + k->w_source + l->rate_surface * p1 * s.surface_0;
    y.w = march__w_root(p, x->w);
    p->fog = core__pick(y.w > p->top, -march__residual(p, p->top), 0.0);
    y.w = core__pick(y.w > p->top, p->top, y.w);
    y.w_surface = s.surface_0 + s.surface_w * y.w;
    y.w_mid = s.mid_0 + s.mid_surface * y.w_surface;
    y.w_deep = s.deep_0 + s.deep_mid * y.w_mid;
    if (p->kinds & MARCH__FILMS) {
        y.film_glass += gdt * MARCH__ONTO(p, glass, y.w);
        y.film_edge += gdt * MARCH__ONTO(p, edge, y.w);
        y.film_corner += gdt * MARCH__ONTO(p, corner, y.w);
    }
    return y;
}

#endif
