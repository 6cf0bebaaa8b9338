/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The water a coil holds, over one step: no call, no branch, and loops of a
 * length that is the same for all houses.  Contract in coil.h.  Private to
 * engine/.
 *
 * In one cycle of t_on and t_off the water on the coil goes
 *
 *     up    by L (t_on - tau (1 - exp(-t_on / tau))), the rest draining,
 *     down  by sqrt(m): sqrt(m / m_max) falls at gamma d / (2 t_wet).
 *
 * A step holds K cycles, seldom a whole number.  It is done in passes of
 * k = K / passes <= 1 of a cycle each: a pass lets in k times a cycle's water
 * and takes out k times what a whole cycle would from the height reached.  At
 * a steady state that is exactly the cycle's own balance, whatever k is.
 * Where a cycle would dry the coil out (e > s below), the water leaves in its
 * true time instead, so that k -> 0 (compressor always on, or never) is the
 * plain law.  The two meet at e = s, and between them evaporation rises no
 * faster than k falls: steeper, it could cool more than the running that it
 * replaces, and a house would have two answers.
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

/* What one pass needs; all per pass. */
struct plant__store_pass {
    double k;           /* -    cycles                                      */
    double in;          /* -    water let in / most                         */
    double fall;        /* -    fall of sqrt(m / most) in its true time     */
    double left, dries; /* -    of what is left: see plant__store_pass      */
};

static CORE__INLINE struct plant__store_pass plant__store_pass_of(double cycles,
                                                                  double in,
                                                                  double fall,
                                                                  int passes)
{
    struct plant__store_pass p;
    double per = CORE__OF(1.0 / passes), e2;

    p.k = per * cycles;
    p.in = per * in;
    p.fall = per * fall;
    e2 = p.fall * p.fall;
    p.left = (1.0 - p.k) / (core__pick(p.k > 1e-9, p.k, 1.0)) * e2;
    p.dries = (1.0 - p.k) * p.k;
    return p;
}

/* How a store stands after some passes; all in units of most. */
struct plant__stored {
    double u, drained, back;
};

static CORE__INLINE struct plant__stored plant__store_pass(
    const struct plant__store_pass *p, struct plant__stored at)
{
    double top = at.u + p->in, over, s, rest, share, left;

    over = core__pick(top > 1.0, top - 1.0, 0.0);
    top = top - over;
    s = core__sqrt(top);
    rest = core__pick(s > p->fall, s - p->fall, 0.0);
    /* k (1 - k) e^2 with e = fall / k while e <= s, else s^2 for e^2 */
    share = core__pick(p->fall <= p->k * s, p->left, p->dries * top);
    left = rest * rest + share;
    left = core__pick(left > top, top, left);
    return (struct plant__stored){left, at.drained + over,
                                  at.back + (top - left)};
}

/* passes: a multiple of four. */
static CORE__INLINE struct plant__stored plant__store_passes(
    const struct plant__store_pass *p, struct plant__stored at, int passes)
{
    for (int i = 0; i < passes; i += 4) {
        at = plant__store_pass(p, at);
        at = plant__store_pass(p, at);
        at = plant__store_pass(p, at);
        at = plant__store_pass(p, at);
    }
    return at;
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

/* Passes of a step, for plant__store_step: none longer than a cycle, of which
   there are at most N_max an hour; and, where the coil is near dry, none longer
   than a minute, so that the step's length does not show in a coil that dries
   out within its cycle.  quarters: of the cycles in an hour, rounded up. */
static CORE__INLINE int plant__store_quarters(core__plain cycles_max)
{
    return (int)ceil(cycles_max / 4.0);
}

static CORE__INLINE int plant__store_passes_of(int quarters,
                                               core__plain seconds)
{
    int parts = (int)ceil(quarters * seconds / 3600.0);

    return 4 * (parts > 1 ? parts : 1);
}

static CORE__INLINE int plant__store_fine(core__plain seconds)
{
    return 4 * (int)ceil(seconds / (4.0 * 60.0));
}

/* A step so drying that the passes' length shows: sqrt(m / most) would fall by
   that share of itself; ours. */
#define PLANT__STORE_NEAR 0.1

/*
 * A step in so many passes, each at most a cycle; in as many as fine says
 * where the coil comes near to drying out.
 */
static CORE__INLINE struct dew_coil_store_out plant__store_step(
    const struct dew_coil_store *k, const struct dew_coil_store_in *a,
    int passes, int fine)
{
    struct dew_coil_store_out o;
    double x = a->run, still = 1.0 - x, moving, most, cycles, on, lost, fall;
    double late = x + a->lately, rhythm;
    struct plant__stored begin = {0}, end, slow;
    struct plant__store_pass p;
    core__truth near;

    most = core__pick(k->most > 0.0, k->most, 1.0);
    cycles = 4.0 * k->cycles_max * x * still * a->seconds * (1.0 / 3600.0);
    rhythm = 4.0 * k->cycles_max * late * (1.0 - late) * a->seconds / 3600.0;
    /* on-time of a cycle in tau; 900 s / (N_max (1 - x)) */
    on =
        900.0 / PLANT__STORE_TAU /
        (core__pick(k->cycles_max * still > 0.03, k->cycles_max * still, 0.03));
    lost = PLANT__STORE_TAU * (1.0 - air__poly_exp2(-1.4426950408889634 * on));
    begin.u = a->m / most;
    moving =
        a->blower - x + plant__store_still(k, a, begin.u) * (1.0 - a->blower);
    moving = core__pick(moving > 0.0, moving, 0.0);

    o.condensed = a->water * (x * a->seconds - cycles * lost);
    o.condensed = core__pick(k->latent > 0.0, o.condensed, 0.0);
    fall =
        0.5 * k->gamma * a->depression * k->latent / most * moving * a->seconds;
    p = plant__store_pass_of(rhythm, o.condensed / most, fall, passes);
    end = plant__store_passes(&p, begin, passes);
    near = fall * fall > PLANT__STORE_NEAR * PLANT__STORE_NEAR * begin.u;
    if (core__any(near) &&
        fine > passes) { /* a block: picked from where it is near */
        p = plant__store_pass_of(rhythm, o.condensed / most, fall, fine);
        slow = plant__store_passes(&p, begin, fine);
        end.u = core__pick(near, slow.u, end.u);
        end.drained = core__pick(near, slow.drained, end.drained);
        end.back = core__pick(near, slow.back, end.back);
    }
    o.m = end.u * most;
    o.reevaporated = end.back * most;
    o.drained = end.drained * most;
    return o;
}

#endif
