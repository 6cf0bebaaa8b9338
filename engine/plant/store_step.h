/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The water a coil holds, over one step: no call, no branch, no loop.  Contract
 * in coil.h.  Private to engine/.
 *
 * In one cycle of t_on and t_off the water on the coil goes
 *
 *     up    by L (t_on - tau (1 - exp(-t_on / tau))), the rest draining,
 *     down  by sqrt(m): sqrt(m / m_max) falls at gamma d / (2 t_wet).
 *
 * A step holds K cycles, seldom a whole number, lets in I and would let
 * sqrt(u), u = m / m_max, fall by F in its true time.  A part of it holds K h
 * cycles, and takes out K h times what a whole cycle would from the height
 * reached, s = sqrt(u):
 *
 *     du = h (I - e(s)),   e = 2 F s - F^2 / K    while F <= K s
 *                          e = 2 F s - K s^2      else
 *
 * At a steady state the first is exactly the cycle's own balance.  Where a
 * cycle would dry the coil out (the second) the water leaves in its true time
 * instead, so that K -> 0 (compressor always on, or never) is the plain law.
 * The two meet at F = K s, and evaporation rises no faster than K falls:
 * steeper, it could cool more than the running that it replaces, and a house
 * would have two answers.
 *
 * The step is taken in two implicit stages of gamma h, L-stable, as the march's
 * own [ALE77]; each is a quadratic in s.
 */
#ifndef DEW_PLANT_STORE_STEP_H
#define DEW_PLANT_STORE_STEP_H

#include <math.h>

#include "air/poly.h"
#include "dew/coil.h"

/* Time a dry coil takes to wet, s: with N_max 3 it gives [HR96]'s ratios. */
#define PLANT__STORE_TAU 45.0

/* What a full wet coil gives to air at full flow, of what that air could take
   up: 1.25 L 0.85 / (m (w* - w)) for 2.5 tons at SHR 0.74 and 400 cfm per ton
   in air of 24 degC and 55 %; by hand. */
#define PLANT__STORE_GIVES 0.68

/* The second order's stages: 1 - 1/sqrt 2, [ALE77]. */
#define PLANT__STORE_GAMMA 0.29289321881345254

/* A step's rhythm; all of the whole step, and in units of most. */
struct plant__store_way {
    double cycles;   /* -    K                                              */
    double in, fall; /* -    I, F                                           */
    double lift;     /* -    F^2 / K                                        */
};

static CORE__INLINE struct plant__store_way plant__store_way_of(double cycles,
                                                                double in,
                                                                double fall)
{
    double safe = core__pick(cycles > 1e-9, cycles, 1.0);

    return (struct plant__store_way){cycles, in, fall, fall * fall / safe};
}

/* What a stage comes to. */
struct plant__stored {
    double u;    /* -    at its end                                         */
    double gone; /* -    e there                                            */
};

/* One stage of h from base: u = base + h (I - e(sqrt u)), and no more than the
   coil holds. */
static CORE__INLINE struct plant__stored plant__store_stage(
    const struct plant__store_way *k, double base, double h)
{
    double hf = h * k->fall, hk = h * k->cycles, q = base + h * k->in;
    /* whether its root lies where a cycle dries the coil out */
    core__truth dries =
        q * k->cycles * k->cycles < k->fall * k->fall * (1.0 + hk);
    double a = core__pick(dries, 1.0 - hk, 1.0), root, s;

    /* a s^2 + 2 h F s = q */
    q = core__pick(dries, q, q + h * k->lift);
    root = core__sqrt(core__max(hf * hf + a * q, CORE__OF(0.0))) + hf;
    s = core__min(q / core__pick(root > 0.0, root, 1.0), CORE__OF(1.0));
    return (struct plant__stored){
        s * s,
        2.0 * k->fall * s - core__pick(dries, k->cycles * s * s, k->lift)};
}

/* What evaporates in the step from u on, of what there is; where the compressor
   rests, and has long rested, by the plain law alone. */
static CORE__INLINE double plant__store_gone(const struct plant__store_way *k,
                                             double u)
{
    const core__plain g = PLANT__STORE_GAMMA, lean = (1.0 - g) / g;
    struct plant__stored one = plant__store_stage(k, u, CORE__OF(g)), two;
    double base = core__max(u + lean * (one.u - u), CORE__OF(0.0)), gone;
    double dried = core__max(core__sqrt(u) - k->fall, CORE__OF(0.0));
    core__truth rests = core__not(k->in > 0.0) & core__not(k->cycles > 1e-9);

    two = plant__store_stage(k, base, CORE__OF(g));
    gone = one.gone + g * (two.gone - one.gone);
    gone = core__min(core__max(gone, CORE__OF(0.0)), u + k->in);
    return core__pick(rests, u - dried * dried, gone);
}

/* Evaporation into air that drifts by, of that at full flow: such air leaves
   saturated and takes no more. */
static CORE__INLINE double plant__store_still(const struct dew_coil_store *k,
                                              const struct dew_coil_store_in *a,
                                              double u)
{
    double moving = k->gamma * a->depression * k->latent * core__sqrt(u);
    double most = PLANT__STORE_GIVES * a->soak;

    return k->still * (core__pick(most < moving, most / moving, 1.0));
}

static CORE__INLINE struct dew_coil_store_out plant__store_step(
    const struct dew_coil_store *k, const struct dew_coil_store_in *a)
{
    struct dew_coil_store_out o;
    double x = a->run, still = 1.0 - x, moving, most, cycles, on, lost, fall;
    double late = x + a->lately, rhythm, u, gone, over;
    struct plant__store_way way;

    most = core__pick(k->most > 0.0, k->most, 1.0);
    cycles = 4.0 * k->cycles_max * x * still * a->seconds * (1.0 / 3600.0);
    rhythm = 4.0 * k->cycles_max * late * (1.0 - late) * a->seconds / 3600.0;
    /* on-time of a cycle in tau; 900 s / (N_max (1 - x)) */
    on =
        900.0 / PLANT__STORE_TAU /
        (core__pick(k->cycles_max * still > 0.03, k->cycles_max * still, 0.03));
    lost = PLANT__STORE_TAU * (1.0 - air__poly_exp2(-AIR__PER_LN_2 * on));
    u = a->m / most;
    moving = a->blower - x + plant__store_still(k, a, u) * (1.0 - a->blower);
    moving = core__pick(moving > 0.0, moving, 0.0);

    o.condensed = a->water * (x * a->seconds - cycles * lost);
    o.condensed = core__pick(k->latent > 0.0, o.condensed, 0.0);
    fall =
        0.5 * k->gamma * a->depression * k->latent / most * moving * a->seconds;
    way = plant__store_way_of(rhythm, o.condensed / most, fall);
    gone = plant__store_gone(&way, u);
    u = (u + way.in) - gone; /* in this order never below 0 */
    over = core__pick(u > 1.0, u - 1.0, 0.0);
    o.m = (u - over) * most;
    o.reevaporated = gone * most;
    o.drained = over * most;
    return o;
}

#endif
