/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Condensing in a core that passes no water, inline: no call, no branch, no
 * loop.  Contract in core.h.  Private to engine/.
 *
 * Two exchangers in series.  In the dry one the house air cools to its dew
 * point d; its capacity is v = ratio (1 + 1860 w / 1006) times the supply's,
 * and its units are the supply's rise over the mean gap, logarithmic to 0.1 %
 * by two parts of the geometric and one of the plain mean.  From there, at a
 * gap g, it follows saturation with r times the supply's capacity (the mean
 * over that part), and the gap widens as exp(n k), k = 1 - 1/r, n the wet
 * part's units:
 *
 *     n = N - v (T3 - d) / mean(g, g - (v - 1) (T3 - d))
 *     d - T1 = g (1 + (exp(n k) - 1) / k)
 *     T4 = T1 + g exp(n k)
 *
 * One Newton step for g and one new r in turn, six times over.
 */
#ifndef DEW_PLANT_CORE_STEP_H
#define DEW_PLANT_CORE_STEP_H

#include <math.h>

#include "air/air_step.h"
#include "dew/core.h"

static CORE__INLINE double plant__core_w_sat(double t, double p)
{
    return air__w_sat(core__pick(t < -60.0, -60.0, t), p);
}

/* The wet part as it stands between two turns. */
struct plant__core_turn {
    double g, k, t4;
};

/*
 * What does not change between turns: units, the supply air in, the house air
 * at its dew point d with its heat; rise of the supply air in the dry part,
 * and less, half of what the gap changes there.
 */
struct plant__core_fixed {
    double units, ratio, t_out, p, w, d, dew_up, heat, rise, less;
};

/* Mean gap of the dry part and its slope in g. */
struct plant__core_gap {
    double mean, slope;
};

static CORE__INLINE struct plant__core_gap plant__core_gap(double g,
                                                           double less)
{
    double other = g - 2.0 * less, root;
    struct plant__core_gap m;

    other = core__pick(other > 1e-4, other, 1e-4); /* K */
    root = core__sqrt(g * other);
    m.mean = (2.0 * root + 0.5 * (g + other)) / 3.0;
    m.slope = ((g + other) / root + 1.0) / 3.0;
    return m;
}

static CORE__INLINE double plant__core_wet_units(
    const struct plant__core_fixed *c, double g)
{
    double n = c->units - c->rise / plant__core_gap(g, c->less).mean;

    return core__pick(n > 0.0, n, 0.0);
}

static CORE__INLINE struct plant__core_turn plant__core_turn(
    const struct plant__core_fixed *c, struct plant__core_turn x)
{
    const core__plain small = 1e-6; /* of k: below it (exp(n k) - 1) / k is n */
    const core__plain least = 1e-3; /* K, of a gap */
    double n = plant__core_wet_units(c, x.g);
    double grown = air__poly_exp2(1.4426950408889634 * n * x.k);
    core__truth bent = (x.k > small) | (x.k < -small);
    double length =
        core__pick(bent, (grown - 1.0) / (core__pick(bent, x.k, 1.0)), n);
    struct plant__core_gap m = plant__core_gap(x.g, c->less);
    double slope =
        1.0 + length + grown * c->rise * x.g * m.slope / (m.mean * m.mean);
    double floor = core__pick(c->less > 0.0, 2.0 * c->less, 0.0), w4, per_k;

    x.g = x.g - (x.g * (1.0 + length) - c->dew_up) / slope;
    x.g = core__pick(x.g > floor + least, x.g, floor + least);
    n = plant__core_wet_units(c, x.g);
    x.t4 = c->t_out + x.g * air__poly_exp2(1.4426950408889634 * n * x.k);
    x.t4 = core__pick(x.t4 < c->d - 0.01, x.t4,
                      c->d - 0.01); /* K; keeps r defined */
    w4 = plant__core_w_sat(x.t4, c->p);
    per_k = (c->heat - AIR__CP * x.t4 - w4 * air__h_vapour(x.t4) -
             (c->w - w4) * AIR__CP_LIQUID * x.t4) /
            (c->d - x.t4);
    x.k = 1.0 - AIR__CP / (c->ratio * per_k);
    return x;
}

/* Counterflow on the supply's capacity, the other's v times it. */
static CORE__INLINE double plant__core_dry(double units, double v)
{
    double z = units * (1.0 - 1.0 / v);
    double e = air__poly_exp2(-1.4426950408889634 * z);
    core__truth near = (z > -1e-4) & (z < 1e-4);
    double mean =
        core__pick(near, 1.0 - 0.5 * z, (1.0 - e) / (core__pick(near, 1.0, z)));

    return units * mean / (units * mean + e);
}

/* d, the dew point of the house air, is the caller's: the march has it. */
static CORE__INLINE struct dew_core_wet plant__core_wet(
    const struct dew_core_meeting *a, double d)
{
    struct dew_core_wet o;
    double v = a->ratio * air__moist(a->w), w4, heat;
    struct plant__core_fixed c = {.units = a->ntu,
                                  .ratio = a->ratio,
                                  .t_out = a->t_out,
                                  .p = a->p,
                                  .w = a->w,
                                  .d = d};
    struct plant__core_turn x;
    core__truth wets;

    o.dry = plant__core_dry(a->ntu, v);
    o.t_exhaust = a->t_in - o.dry * (a->t_in - a->t_out) / v;
    wets = o.t_exhaust < d;

    c.dew_up = d - a->t_out;
    c.heat = air__h(d, a->w);
    c.rise = v * (a->t_in - d);
    c.less = 0.5 * (v - 1.0) * (a->t_in - d);
    x = (struct plant__core_turn){o.t_exhaust - a->t_out, CORE__OF(0.3),
                                  CORE__OF(0.0)};
    x = plant__core_turn(&c, x);
    x = plant__core_turn(&c, x);
    x = plant__core_turn(&c, x);
    x = plant__core_turn(&c, x);
    x = plant__core_turn(&c, x);
    x = plant__core_turn(&c, x);

    w4 = plant__core_w_sat(x.t4, a->p);
    w4 = core__pick(wets & (w4 < a->w), w4, a->w);
    heat = a->ratio * (c.heat - AIR__CP * x.t4 - w4 * air__h_vapour(x.t4) -
                       (a->w - w4) * AIR__CP_LIQUID * x.t4) +
           AIR__CP * c.rise;
    o.water = a->w - w4;
    o.sensible = core__pick(wets, heat / AIR__CP / (a->t_in - a->t_out), o.dry);
    o.t_exhaust = core__pick(wets, x.t4, o.t_exhaust);
    return o;
}

#endif
