/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What one stage solves in closed form: the thermostat on three nodes, and
 * the humidistats, wet coils and sweating surfaces on one monotone line.
 * Private; see step.h for the whole step.
 */
#ifndef DEW_MARCH_SOLVE_H
#define DEW_MARCH_SOLVE_H

#include <math.h>

#include "air/air_step.h"
#include "march/lane.h"
#include "plant/control_step.h"

/* Heat of evaporation of all that dries or wets the house, J/kg. */
#define DEW_LATENT air__latent(CORE__OF(20.0))

/* What bends the line of the water; a kind that no house has is left out. */
enum march__kind {
    MARCH__COOLS = 1 << 0,      /* one coil                                 */
    MARCH__COOLS_MORE = 1 << 1, /* two more                                 */
    MARCH__FILMS = 1 << 2,      /* faces with an area                       */
    MARCH__DRIES = 1 << 3,      /* a dehumidifier                           */
    MARCH__WETS = 1 << 4,       /* a humidifier                             */
    MARCH__GROUND = 1 << 5      /* wet ground                               */
};

/* All coefficients of a step that the stages share. */
struct march__now {
    struct march__drive drive;
    struct march__coil c1, c2, c3;
    struct march__blend blend;
    struct dew_hour mid;
    int kinds; /* of kinks that there are: enum march__kind                 */
    const struct march__lane *lane;
};

/* The machines: the end of the drive, and the coils. */
enum {
    MARCH__MACHINES = offsetof(struct march__now, drive.heat_cap),
    MARCH__MACHINES_SIZE = offsetof(struct march__now, blend) - MARCH__MACHINES
};

DEW_LANE void *march__machines(struct march__now *n)
{
    return (char *)n + MARCH__MACHINES;
}

/* Outdoor air by every way but windows, kg/s. */
DEW_LANE double march__exchange(const struct march__blend *b)
{
    return b->leak + b->fresh + b->unplanned + b->ductleak;
}

DEW_LANE double march__over(double x)
{
    return core__max(x, CORE__OF(0.0));
}

/* A run of numbers, those of other where it is so; truths among them are as
   wide where there are several houses, and one house alone never asks. */
DEW_LANE void march__where(core__truth so, void *numbers, const void *other,
                           size_t bytes)
{
    double *to = numbers;
    const double *from = other;

    for (size_t i = 0; i < bytes / sizeof *to; i++)
        to[i] = core__pick(so, from[i], to[i]);
}

/* A run of numbers, 0 where it is not so. */
DEW_LANE void march__only(core__truth so, void *numbers, size_t bytes)
{
    double *to = numbers;

    for (size_t i = 0; i < bytes / sizeof *to; i++)
        to[i] = core__pick(so, to[i], 0.0);
}

/* x / y, or 0 where y is not positive. */
DEW_LANE double march__ratio(double x, double y)
{
    double safe = core__pick(y > 0.0, y, 1.0);

    return core__pick(y > 0.0, x / safe, 0.0);
}

/* 1 / a, 1 / b and 1 / c by one division; 0 of what is not positive. */
struct march__three {
    double a, b, c;
};

DEW_LANE struct march__three march__three_of(double a, double b, double c)
{
    core__truth is_a = a > 0.0, is_b = b > 0.0, is_c = c > 0.0;
    double per, ab;

    a = core__pick(is_a, a, 1.0);
    b = core__pick(is_b, b, 1.0);
    c = core__pick(is_c, c, 1.0);
    ab = a * b;
    per = 1.0 / (ab * c);
    return (struct march__three){core__pick(is_a, b * c * per, 0.0),
                                 core__pick(is_b, a * c * per, 0.0),
                                 core__pick(is_c, ab * per, 0.0)};
}

/*
 * ---- the surface node, an algebraic one: ts = a ta + b tm + c, from
 *
 *     0 = h_is (ta - ts) + h_ms (tm - ts) + h_w (to - ts) + surface_source
 *         - sorb (ts - t_store)
 *
 * Furnishings give off water, and take heat, the faster the warmer they are:
 * sorb, W/K, about the predicted t_store.
 */

struct march__node {
    double a, b, c;
    double per; /* K/W  of ts by what its surface is given                  */
};

DEW_LANE struct march__node march__surface_node(const struct march__now *n,
                                                const struct march__terms *k)
{
    const struct march__lane *l = n->lane;
    struct march__node s;

    s.per = 1.0 / (l->h_is + l->h_w + l->h_ms + k->sorb);
    s.a = l->h_is * s.per;
    s.b = l->h_ms * s.per;
    s.c =
        (l->h_w * n->mid.t + k->surface_source + k->sorb * k->t_store) * s.per;
    return s;
}

DEW_LANE double march__surface_t(const struct march__node *s, double t_air,
                                 double t_mass)
{
    return s->a * t_air + s->b * t_mass + s->c;
}

/* ---- heat: eliminate surface and mass, solve the air for the thermostat -- */

/* What stages of one length have in common: the mass is tm = d + follow ta, the
   air ta = (right + heat heat_full - cool cool_full) / slope. */
struct march__elimination {
    struct march__node node;
    double cm, ca, per_mass, follow, slope, per_slope, per_heat, per_cool;
};

/* per: 1 / s of the stage. */
DEW_LANE struct march__elimination march__eliminate(
    const struct march__now *n, const struct march__terms *k, double per)
{
    const struct march__lane *l = n->lane;
    struct march__elimination e;
    struct march__three three;

    e.node = march__surface_node(n, k);
    e.cm = l->c_mass * per; /* C (t - t0) / gdt, implicit */
    e.ca = l->c_air * per;
    /* cm (tm - tm0) = mass_source - (h_em + h_ground) tm + h_ms (ts - tm) */
    e.per_mass =
        1.0 / (e.cm + l->h_em + l->h_ground + l->h_ms * (1.0 - e.node.b));
    e.follow = l->h_ms * e.node.a * e.per_mass; /* dtm/dta, by ts */
    /* ca (ta - ta0) = air_source - air_g ta + h_is (ts - ta) */
    e.slope =
        e.ca + k->air_g + l->h_is * (1.0 - e.node.a - e.node.b * e.follow);
    /* heat = (set - ta) / band, in ta = (right + heat heat_full) / slope */
    three = march__three_of(e.slope, l->band * e.slope + k->heat_full,
                            l->band * e.slope + k->cool_full);
    e.per_slope = three.a;
    e.per_heat = three.b;
    e.per_cool = three.c;
    return e;
}

struct march__warm {
    double t_air, t_mass, prescribed;
    struct march__duty duty;
};

/* How one share of the whole coil capacity falls on each handler. */
DEW_LANE void march__share_out(const struct march__now *n, double share,
                               struct march__duty *d)
{
    double all = n->c1.sensible + n->c2.sensible + n->c3.sensible;
    double need = share * all, rest = need - n->c1.sensible;
    double ll = n->lane->lead_lag;

    d->cool = d->cool_2 = d->cool_3 = share;
    if (!core__any(ll > 0.0))
        return;
    d->cool = core__pick(
        ll > 0.0, core__share(march__ratio(need, n->c1.sensible)), share);
    d->cool_2 = core__pick(
        ll > 0.0, core__share(march__ratio(rest, n->c2.sensible)), share);
    rest -= n->c2.sensible;
    d->cool_3 = core__pick(
        ll > 0.0, core__share(march__ratio(rest, n->c3.sensible)), share);
}

/* What the heat equations of a stage are given: W of mass and air, and the c of
   the surface node. */
struct march__given {
    double mass, air, c;
};

DEW_LANE struct march__given march__given_at(const struct march__terms *k,
                                             const struct march__elimination *e)
{
    return (struct march__given){k->mass_source, k->air_source, e->node.c};
}

/* And while it is warmer outdoors by that, K, than in the middle of the step. */
DEW_LANE struct march__given march__given_warmer(
    const struct march__now *n, const struct march__terms *k,
    const struct march__elimination *e, double warmer)
{
    const struct march__lane *l = n->lane;

    return (struct march__given){k->mass_source + l->h_em * warmer,
                                 k->air_source + k->air_g * warmer,
                                 e->node.c + l->h_w * e->node.per * warmer};
}

DEW_LANE struct march__warm march__warm_stage(
    const struct march__now *n, const struct march__terms *k,
    const struct march__elimination *e, const struct march__given *g,
    const struct dew_state *x)
{
    const struct march__lane *l = n->lane;
    double d = (e->cm * x->t_mass + g->mass + l->h_ms * g->c) * e->per_mass;
    double right = e->ca * x->t_air + g->air + l->h_is * (g->c + e->node.b * d);
    double heat =
        core__share((n->drive.set_heat * e->slope - right) * e->per_heat);
    double cool =
        core__share((right - n->drive.set_cool * e->slope) * e->per_cool);
    struct march__warm out;
    double given = n->drive.given;

    heat = core__pick(k->heat_full > 0.0, heat, 0.0);
    heat = core__pick(given > 0.0, 0.0, heat);
    cool = core__pick(given > 0.0, n->drive.told_cool, cool);
    cool = core__pick(k->cool_full > 0.0, cool, 0.0);
    out.t_air =
        (right + heat * k->heat_full - cool * k->cool_full) * e->per_slope;
    out.t_air = core__pick(given > 0.0, n->drive.set_heat, out.t_air);
    out.prescribed = core__pick(
        given > 0.0, out.t_air * e->slope - right + cool * k->cool_full,
        0.0); /* residual */
    out.t_mass = d + e->follow * out.t_air;
    out.duty.heat = heat;
    march__share_out(n, cool, &out.duty);
    out.duty.dry = CORE__OF(0.0);
    out.duty.wet = CORE__OF(0.0);
    out.duty.fog = CORE__OF(0.0);
    return out;
}

/* ---- water: a monotone, piecewise linear equation in w ------------------- */

/*
 * What leaves the zone's air less what enters it, kg/s, for one stage:
 *
 *     g w - r + sum over the kinks of slope (w - at)+
 *
 * A coil wets at its apparatus dew point.  A film takes up water above its
 * kink and gives off all it holds below.  A humidistat has two kinks, the ends
 * of its band.  Wet ground evaporates up to its kink, and takes up nothing.
 */
/* clang-format off */
#define DEW_KINK_MAP(X)                                                        \
    X(coil) X(coil_2) X(coil_3)                                                \
    X(glass) X(edge) X(corner)                                                 \
    X(dry_on) X(dry_full)                                                      \
    X(wet_less) X(wet_off)                                                     \
    X(ground)
/* clang-format on */

DEW_LANE_STRUCT(march__kinks, DEW_KINK_MAP);

/* Of each kink, whether. */
#define MARCH__TRUTH(name) core__truth name;
struct march__passed {
    DEW_KINK_MAP(MARCH__TRUTH)
};

/* X of each kink whose kind there is. */
#define MARCH__EACH_KINK(kinds, X)                                             \
    if ((kinds)&MARCH__COOLS) {                                                \
        X(coil)                                                                \
    }                                                                          \
    if ((kinds)&MARCH__COOLS_MORE) {                                           \
        X(coil_2)                                                              \
        X(coil_3)                                                              \
    }                                                                          \
    if ((kinds)&MARCH__FILMS) {                                                \
        X(glass)                                                               \
        X(edge)                                                                \
        X(corner)                                                              \
    }                                                                          \
    if ((kinds)&MARCH__DRIES) {                                                \
        X(dry_on)                                                              \
        X(dry_full)                                                            \
    }                                                                          \
    if ((kinds)&MARCH__WETS) {                                                 \
        X(wet_less)                                                            \
        X(wet_off)                                                             \
    }                                                                          \
    if ((kinds)&MARCH__GROUND) {                                               \
        X(ground)                                                              \
    }

struct march__pieces {
    double g, r;            /* the straight part                             */
    struct march__kinks at; /* kg/kg                                         */
    struct march__kinks
        bend; /* kg/s per kg/kg: slope added above the kink    */
    struct march__kinks
        held;      /* kg/s  films: what one gives off at most       */
    int kinds;     /* of kinks that there are                       */
    double per_rh; /* RH per w                                      */
    double top;    /* w at which the air is saturated: its end      */
    double fog;    /* kg/s that falls out there                     */
};

/* What a kink adds at w, kg/s. */
#define MARCH__BENT(p, name, w)                                                \
    ((p)->bend.name * march__over((w) - (p)->at.name))

/* Onto a film, or off it. */
#define MARCH__ONTO(p, name, w) (MARCH__BENT(p, name, w) - (p)->held.name)

DEW_LANE double march__dry_share(const struct march__now *n, double rh)
{
    return plant__dry_share(rh, n->lane->dry_low, n->lane->dry_per);
}

DEW_LANE double march__wet_share(const struct march__now *n, double rh)
{
    return plant__wet_share(rh, n->lane->wet_high, n->lane->wet_per);
}

#define MARCH__ADD_BENT(name) y += MARCH__BENT(p, name, w);
DEW_LANE double march__residual(const struct march__pieces *p, double w)
{
    double y = p->g * w - p->r;

    MARCH__EACH_KINK(p->kinds, MARCH__ADD_BENT)
    return y;
}

/* Which kinks lie below w. */
#define MARCH__PASSED(name) y.name = w > p->at.name;
DEW_LANE struct march__passed march__passed_at(const struct march__pieces *p,
                                               double w)
{
    struct march__passed y = {0};

    MARCH__EACH_KINK(p->kinds, MARCH__PASSED)
    return y;
}

/* And below the root, wherever it is: the residual rises with w. */
#define MARCH__ROOT_ABOVE(name) y.name = march__residual(p, p->at.name) < 0.0;
DEW_LANE struct march__passed march__passed_at_root(
    const struct march__pieces *p)
{
    struct march__passed y = {0};

    MARCH__EACH_KINK(p->kinds, MARCH__ROOT_ABOVE)
    return y;
}

#define MARCH__OTHER(name) other = other | (a->name ^ b->name);
DEW_LANE core__truth march__other_passed(int kinds,
                                         const struct march__passed *a,
                                         const struct march__passed *b)
{
    core__truth other = {0};

    MARCH__EACH_KINK(kinds, MARCH__OTHER)
    return other;
}

/* The slope of the straight piece that lies above the kinks passed. */
#define MARCH__ADD_G(name) g += core__pick(passed->name, p->bend.name, 0.0);
DEW_LANE double march__slope_on(const struct march__pieces *p,
                                const struct march__passed *passed)
{
    double g = p->g;

    MARCH__EACH_KINK(p->kinds, MARCH__ADD_G)
    return g;
}

/* And its root. */
#define MARCH__ADD_R(name)                                                     \
    r += core__pick(passed->name, p->bend.name * p->at.name, 0.0);
DEW_LANE double march__root_on(const struct march__pieces *p,
                               const struct march__passed *passed)
{
    double g = march__slope_on(p, passed);
    double r = p->r;

    MARCH__EACH_KINK(p->kinds, MARCH__ADD_R)
    return r / g;
}

/* The root, wherever it lies. */
static CORE__RARELY double march__any_root(const struct march__pieces *p)
{
    struct march__passed passed = march__passed_at_root(p);

    return march__root_on(p, &passed);
}

/*
 * The root of the residual, exactly: its sign at each kink says on which side
 * the root lies.  That takes all kinks; the piece that near lies on, and the
 * one that leads to, are tried first.  A house that had it then keeps it, lest
 * its last digit hang on who marches beside it.
 */
DEW_LANE double march__w_root(const struct march__pieces *p, double near)
{
    struct march__passed passed;
    core__truth other = {0};

    for (int tries = 0; tries < 2; tries++) {
        struct march__passed from = march__passed_at(p, near);

        near = march__root_on(p, &from);
        passed = march__passed_at(p, near);
        other = march__other_passed(p->kinds, &from, &passed);
        if (!core__any(other))
            return near;
    }
    return core__pick(other, march__any_root(p), near);
}

#endif
