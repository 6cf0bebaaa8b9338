/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Condensing in a core that passes no water, inline: no call, no branch, no
 * loop.  Contract in core.h.  Private to engine/.
 *
 * Two exchangers in series.  In the dry one the house air cools to its dew
 * point d; its capacity is v = ratio (1 + 1860 w / 1006) times the supply's.
 * From there it follows saturation, its capacity the mean over that part.
 * Gaps between the two airs: y at the cold end, g at the dew point, h at the
 * warm end.  One unknown, y; q is what the wet part gives the supply air, K of
 * that, and by it and the logarithmic mean of the gaps all units N are met:
 *
 *     T4 = T1 + y
 *     q = ratio (heat of the air at d - heat of it and its water at T4) / 1006
 *     g = d - T1 - q,  h = g - (v - 1) (T3 - d)
 *     n(y) = q ln(y / g) / (y - g) + v / (v - 1) ln(g / h) = N
 *
 * n falls as y rises, and grows without end where a gap closes: with u one over
 * the distance from that pinch, as ln(1 + k u) / k does in one exchanger of
 * constant capacities.  A step follows that curve, of the value, slope and
 * bend that n has:
 *
 *     du = (exp(k (N - n)) - 1) / k  u^2 / p,  p = -n',  k p = 2 u - n'' / p
 *
 * Three steps.
 */
#ifndef DEW_PLANT_CORE_STEP_H
#define DEW_PLANT_CORE_STEP_H

#include <math.h>

#include "air/air_step.h"
#include "dew/core.h"

static CORE__INLINE struct air__line plant__core_pws(double t)
{
    return air__poly_pws(core__pick(t < -60.0, -60.0, t));
}

static CORE__INLINE double plant__core_w_sat(double t, double p)
{
    return air__w_pv(plant__core_pws(t).value, p);
}

/*
 * What does not change between steps: units; K of the supply air for a J/kg of
 * the house air; its heat at its dew point; the gap there if nothing condensed
 * further on, the least one that is worked with, and by how much it is more
 * than at the warm end; rise of the supply air in the dry part, and the dry
 * part's units for a doubling of its gap.
 */
struct plant__core_fixed {
    double units, scale, t_out, p, w, heat, up, floor, more, rise, doubling;
};

/* q, and its slope -dq/dy, taken as constant where n bends. */
struct plant__core_given {
    double q, slope;
};

/* n, -dn/dy and n's bend; 1/K, one over y's distance from a pinch; K that the
   gap lacks of the least. */
struct plant__core_units {
    double n, less, bend, near, lack;
};

/* -dq/dy where w_sat is w. */
static CORE__INLINE double plant__core_slope(const struct plant__core_fixed *c,
                                             double t, double w, double w_slope)
{
    return c->scale * (air__cp(w) + AIR__CP_LIQUID * (c->w - w) +
                       w_slope * air__latent(t));
}

/* Heat of the air at t and of what it lost on the way, J/kg. */
static CORE__INLINE double plant__core_heat(double t, double w, double water)
{
    return air__h(t, w) + water * AIR__CP_LIQUID * t;
}

static CORE__INLINE struct plant__core_given plant__core_given(
    const struct plant__core_fixed *c, double t)
{
    struct air__line pv = plant__core_pws(t);
    double w = air__w_pv(pv.value, c->p);

    return (struct plant__core_given){
        c->scale * (c->heat - plant__core_heat(t, w, c->w - w)),
        plant__core_slope(c, t, w, air__w_slope(pv, c->p))};
}

/* y a step nearer to N. */
static CORE__INLINE double plant__core_nearer(const struct plant__core_fixed *c,
                                              double y, double slope,
                                              const struct plant__core_units *n)
{
    const core__plain straight = 1e-3, far = 30.0; /* k over u / p; k (N - n) */
    double per = 1.0 / n->less;
    double kp = core__max(2.0 * n->near - n->bend * per, straight * n->near);
    double x = core__hold(kp * per * (c->units - n->n), -far, far);
    double grows = n->near * (air__poly_exp2(AIR__PER_LN_2 * x) - 1.0);
    double all;

    /* a pinch at most so many times nearer, or 500 times farther; where ice
       steepens w_sat the step may have gone past it, by what g lacks */
    grows = core__min(grows, (90.0 + 6.0 * n->n) * kp);
    grows = core__max(grows, -0.998 * kp);
    all = n->near * (kp + grows);
    return core__min(y + (n->lack * all - slope * grows) / (slope * all),
                     c->up);
}

/* One over each gap, and over y - g, by one division for four; y / g. */
struct plant__core_gaps {
    double y, g, h, far, ratio;
};

static CORE__INLINE struct plant__core_gaps plant__core_gaps(double y, double g,
                                                             double h)
{
    const core__plain apart = 1e-5; /* nearer to g, y counts as so far above */
    double least = apart * g, far = y - g, yg, hf, all;
    core__truth close = (far < least) & (far > -least);

    far = core__pick(close, least, far);
    y = g + far;
    yg = y * g;
    hf = h * far;
    all = 1.0 / (yg * hf);
    hf *= all;
    yg *= all;
    return (struct plant__core_gaps){g * hf, y * hf, far * yg, h * yg,
                                     y * (y * hf)};
}

/* l is ln(y / g) / (y - g), l1 and l2 its slope and bend along y. */
static CORE__INLINE double plant__core_turn(const struct plant__core_fixed *c,
                                            double y)
{
    struct plant__core_given q = plant__core_given(c, c->t_out + y);
    double s = q.slope, g = core__max(c->up - q.q, c->floor);
    struct plant__core_gaps per = plant__core_gaps(y, g, g - c->more);
    double l = AIR__LN_2 * air__poly_log2(per.ratio) * per.far;
    double l1 = (per.y - s * per.g - l * (1.0 - s)) * per.far;
    double l2 =
        ((s * per.g - per.y) * (s * per.g + per.y) - 2.0 * l1 * (1.0 - s)) *
        per.far;
    double dry = c->rise * per.g * per.h; /* of -dn/dg */
    struct plant__core_units n;

    n.n = q.q * l + c->doubling * air__poly_log2(g * per.h);
    n.less = s * (l + dry) - q.q * l1;
    n.bend = q.q * l2 - 2.0 * s * l1 + dry * s * s * (per.g + per.h);
    n.near = core__max(per.y, s * core__max(per.g, per.h));
    n.lack = g - (c->up - q.q);
    return plant__core_nearer(c, y, s, &n);
}

/*
 * Where to begin: from y = d - T1, where q is 0, as far towards the pinch that
 * its slope there foretells as one exchanger of equal flows would go.  w_sat's
 * slope by Clausius and Clapeyron's law.
 */
static CORE__INLINE double plant__core_start(const struct plant__core_fixed *c,
                                             double d)
{
    const core__plain zero = 273.15, per_t = DEW_AIR_LATENT / 461.5; /* K */
    double t = d + zero;
    double s = plant__core_slope(c, d, c->w, c->w * per_t / (t * t));
    double near = core__min(s * c->up, core__min(c->up, c->up - c->more));

    return c->up - near * c->units / (s * (1.0 + c->units));
}

/* Counterflow on the supply's capacity, the other's v times it. */
static CORE__INLINE double plant__core_dry(double units, double v)
{
    double z = units * (1.0 - 1.0 / v);
    double e = air__poly_exp2(-AIR__PER_LN_2 * z);
    core__truth near = (z > -1e-4) & (z < 1e-4);
    double mean =
        core__pick(near, 1.0 - 0.5 * z, (1.0 - e) / (core__pick(near, 1.0, z)));

    return units * mean / (units * mean + e);
}

static CORE__INLINE struct plant__core_fixed plant__core_fixed(
    const struct dew_core_meeting *a, double d, double v)
{
    const core__plain even = 1e-6;  /* v nearer to 1 counts as so far above   */
    const core__plain least = 2e-4; /* of what there is at d: 0.01 K         */
    double over = v - 1.0, dry = a->t_in - d;
    struct plant__core_fixed c;

    over = core__pick((over < even) & (over > -even), even, over);
    c.units = a->ntu;
    c.scale = a->ratio * (1.0 / AIR__CP);
    c.t_out = a->t_out;
    c.p = a->p;
    c.w = a->w;
    c.heat = air__h(d, a->w);
    c.up = d - a->t_out;
    c.more = over * dry;
    c.floor = core__max(c.more, CORE__OF(0.0)) + least * c.up;
    c.rise = v * dry;
    c.doubling = AIR__LN_2 * v / over;
    return c;
}

/* d, the dew point of the house air, is the caller's: the march has it. */
static CORE__INLINE struct dew_core_wet plant__core_wet(
    const struct dew_core_meeting *a, double d)
{
    struct dew_core_wet o;
    double v = a->ratio * air__moist(a->w), y, t4, w4, rise;
    struct plant__core_fixed c = plant__core_fixed(a, d, v);
    core__truth wets;

    o.dry = plant__core_dry(a->ntu, v);
    o.t_exhaust = a->t_in - o.dry * (a->t_in - a->t_out) / v;
    wets = o.t_exhaust < d;

    y = plant__core_start(&c, d);
    y = plant__core_turn(&c, y);
    y = plant__core_turn(&c, y);
    y = plant__core_turn(&c, y);

    t4 = a->t_out + y;
    w4 = plant__core_w_sat(t4, a->p);
    w4 = core__pick(wets & (w4 < a->w), w4, a->w);
    o.water = a->w - w4;
    rise = c.scale * (c.heat - plant__core_heat(t4, w4, o.water)) + c.rise;
    o.sensible = core__pick(wets, rise / (a->t_in - a->t_out), o.dry);
    o.t_exhaust = core__pick(wets, t4, o.t_exhaust);
    return o;
}

#endif
