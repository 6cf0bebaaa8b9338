/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Condensing in a core that passes no water, inline: no call, no branch, no
 * loop.  Contract in core.h.  Private to engine/.
 *
 * Two exchangers in series.  In the dry one the house air cools to its dew
 * point d; its capacity is v = 1 + 1860 w / 1006 times the supply's, and its
 * units are its rise over its mean gap.  From there, at a gap g, it follows
 * saturation with r times the supply's capacity (the mean over that part),
 * and the gap widens as exp(n k), k = 1 - 1/r, n the wet part's units:
 *
 *     n = N - v (T3 - d) / (g - (v - 1) (T3 - d) / 2)
 *     d - T1 = g (1 + (exp(n k) - 1) / k)
 *     T4 = T1 + g exp(n k)
 *
 * One Newton step for g and one new r in turn, six times over.
 */
#ifndef DEW_PLANT_CORE_STEP_H
#define DEW_PLANT_CORE_STEP_H

#include "air/poly.h"
#include "dew/air.h"
#include "dew/core.h"

static DEW__INLINE double dew__core_w_sat(double t, double p)
{
    double pws = dew__poly_pws(t < -60.0 ? -60.0 : t).value;

    return DEW_AIR_MASS_RATIO * pws / (p - pws);
}

/* The wet part as it stands between two turns. */
struct dew__core_turn {
    double g, k, t4;
};

/*
 * What does not change between turns: units, the supply air in, the house air
 * at its dew point d with its heat; rise of the supply air in the dry part,
 * and less, half of what the gap changes there.
 */
struct dew__core_fixed {
    double units, t_out, p, w, d, dew_up, heat, rise, less;
};

static DEW__INLINE double dew__core_wet_units(const struct dew__core_fixed *c,
                                              double g)
{
    double n = c->units - c->rise / (g - c->less);

    return n > 0.0 ? n : 0.0;
}

static DEW__INLINE struct dew__core_turn dew__core_turn(
    const struct dew__core_fixed *c, struct dew__core_turn x)
{
    const double small = 1e-6; /* of k: below it (exp(n k) - 1) / k is n */
    const double least = 1e-3; /* K, of a gap */
    double n = dew__core_wet_units(c, x.g), mean = x.g - c->less;
    double grown = dew__poly_exp2(1.4426950408889634 * n * x.k);
    double k = x.k > small ? x.k : 1.0;
    double length = x.k > small ? (grown - 1.0) / k : n;
    double slope = 1.0 + length + grown * c->rise * x.g / (mean * mean);
    double w4, per_k;

    x.g = x.g - (x.g * (1.0 + length) - c->dew_up) / slope;
    x.g = x.g > c->less + least ? x.g : c->less + least;
    n = dew__core_wet_units(c, x.g);
    x.t4 = c->t_out + x.g * dew__poly_exp2(1.4426950408889634 * n * x.k);
    x.t4 = x.t4 < c->d - 0.01 ? x.t4 : c->d - 0.01; /* K; keeps r defined */
    w4 = dew__core_w_sat(x.t4, c->p);
    per_k = (c->heat - 1006.0 * x.t4 - w4 * (2501e3 + 1860.0 * x.t4) -
             (c->w - w4) * 4186.0 * x.t4) /
            (c->d - x.t4);
    x.k = 1.0 - 1006.0 / per_k;
    return x;
}

/* d, the dew point of w, is the caller's: the march has it at hand. */
static DEW__INLINE struct dew_core_wet dew__core_wet(double units, double t_out,
                                                     double t_in, double w,
                                                     double d, double p)
{
    struct dew_core_wet o;
    double v = 1.0 + 1860.0 / 1006.0 * w, n, w4, heat;
    struct dew__core_fixed c = {
        .units = units, .t_out = t_out, .p = p, .w = w, .d = d};
    struct dew__core_turn x;
    int wets;

    /* dry: eps at C = 1 and its slope there, for C = 1/v near 1 */
    n = units / (1.0 + units);
    n = n + 0.5 * n * n * (1.0 - 1.0 / v);
    o.t_exhaust = t_in - n * (t_in - t_out) / v;
    wets = o.t_exhaust < d;

    c.dew_up = d - t_out;
    c.heat = 1006.0 * d + w * (2501e3 + 1860.0 * d);
    c.rise = v * (t_in - d);
    c.less = 0.5 * (v - 1.0) * (t_in - d);
    x = (struct dew__core_turn){o.t_exhaust - t_out, 0.3, 0.0};
    x = dew__core_turn(&c, x);
    x = dew__core_turn(&c, x);
    x = dew__core_turn(&c, x);
    x = dew__core_turn(&c, x);
    x = dew__core_turn(&c, x);
    x = dew__core_turn(&c, x);

    w4 = dew__core_w_sat(x.t4, p);
    w4 = wets && w4 < w ? w4 : w;
    heat = c.heat - 1006.0 * x.t4 - w4 * (2501e3 + 1860.0 * x.t4) -
           (w - w4) * 4186.0 * x.t4 + 1006.0 * c.rise;
    o.water = w - w4;
    o.sensible = wets ? heat / 1006.0 / (t_in - t_out) : n;
    o.t_exhaust = wets ? x.t4 : o.t_exhaust;
    return o;
}

#endif
