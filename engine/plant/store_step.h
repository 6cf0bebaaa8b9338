/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The water a coil holds, over one step: no call, no branch, no loop.
 * Contract in coil.h.  Private to engine/.
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
 * plain law.  The two meet at e = s.
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

/* Of each rest, that many cycles an hour into 3600 (1 - run) s of rest. */
static CORE__INLINE double plant__off_delay(const struct dew_handler *h,
                                            double run)
{
    double part = 4.0 * h->cycles_max * run * h->off_delay / 3600.0;

    return (1.0 - run) * core__min(part, CORE__OF(1.0));
}

/* What one pass needs; all per pass. */
struct plant__store_pass {
    double k;    /* -    cycles                                          */
    double in;   /* -    water let in / most                             */
    double fall; /* -    fall of sqrt(m / most) in the pass's true time  */
};

/* u = m / most after one pass; *drained and *back in units of most. */
static CORE__INLINE double plant__store_pass(struct plant__store_pass p,
                                             double u, double *drained,
                                             double *back)
{
    double top = u + p.in, over, s, rest, e2, share, left;

    over = core__pick(top > 1.0, top - 1.0, 0.0);
    top = top - over;
    s = core__sqrt(top);
    rest = core__pick(s > p.fall, s - p.fall, 0.0);
    /* k (1 - k) e^2 with e = fall / k while e <= s, else s^4 / e^2 for e^2 */
    e2 = p.fall * p.fall;
    share = core__pick(p.fall <= p.k * s,
                       (1.0 - p.k) / core__pick(p.k > 0.0, p.k, 1.0) * e2,
                       (1.0 - p.k) * p.k * p.k * p.k * top * top /
                           core__pick(e2 > 0.0, e2, 1.0));
    left = rest * rest + share;
    left = core__pick(left > top, top, left);
    *drained += over;
    *back += top - left;
    return left;
}

/* Evaporation into air that drifts by, of that at full flow: such air leaves
   saturated and takes no more. */
static CORE__INLINE double plant__store_still(const struct dew_coil_store *k,
                                              const struct dew_coil_store_in *a,
                                              double u)
{
    double moving = k->gamma * a->depression * k->latent * core__sqrt(u);
    double most = PLANT__STORE_GIVES * a->soak;

    return k->still * core__pick(most < moving, most / moving, 1.0);
}

/*
 * A step in four passes; good while 4 N_max X (1 - X) seconds / 3600 <= 4,
 * that is N_max <= 4 for whole hours, and always for a quarter of one.
 */
static CORE__INLINE struct dew_coil_store_out plant__store_step(
    const struct dew_coil_store *k, const struct dew_coil_store_in *a)
{
    struct dew_coil_store_out o;
    double x = a->run, still = 1.0 - x, moving, most, cycles, on, lost, u;
    double drained = CORE__OF(0.0), back = CORE__OF(0.0);
    struct plant__store_pass p;

    most = core__pick(k->most > 0.0, k->most, 1.0);
    cycles = 4.0 * k->cycles_max * x * still * a->seconds * (1.0 / 3600.0);
    /* on-time of a cycle in tau; 900 s / (N_max (1 - x)) */
    on = 900.0 / PLANT__STORE_TAU /
         core__pick(k->cycles_max * still > 0.03, k->cycles_max * still, 0.03);
    lost = PLANT__STORE_TAU * (1.0 - air__poly_exp2(-1.4426950408889634 * on));
    u = a->m / most;
    moving = a->blower - x + plant__store_still(k, a, u) * (1.0 - a->blower);
    moving = core__pick(moving > 0.0, moving, 0.0);

    o.condensed = a->water * (x * a->seconds - cycles * lost);
    o.condensed = core__pick(k->latent > 0.0, o.condensed, 0.0);
    p.k = 0.25 * cycles;
    p.in = 0.25 * o.condensed / most;
    p.fall = 0.25 * 0.5 * k->gamma * a->depression * k->latent / most * moving *
             a->seconds;
    u = plant__store_pass(p, u, &drained, &back);
    u = plant__store_pass(p, u, &drained, &back);
    u = plant__store_pass(p, u, &drained, &back);
    u = plant__store_pass(p, u, &drained, &back);
    o.m = u * most;
    o.reevaporated = back * most;
    o.drained = drained * most;
    return o;
}

/*
 * Parts of a step of so many seconds that is done in passes of a minute at
 * most, so that the step's length does not show in a coil that dries out
 * within its cycle; no pass is then longer than a cycle while there are no
 * more than 20 an hour.
 */
static CORE__INLINE int plant__store_parts(core__plain seconds)
{
    int parts = (int)ceil(seconds / (4.0 * 60.0));

    return parts < 1 ? 1 : parts;
}

/* A step of it in parts. */
static CORE__INLINE struct dew_coil_store_out plant__store(
    const struct dew_coil_store *k, const struct dew_coil_store_in *in,
    int parts)
{
    struct dew_coil_store_out sum = {0};
    struct dew_coil_store_in part = *in;

    part.seconds = in->seconds / parts;
    for (int i = 0; i < parts; i++) {
        struct dew_coil_store_out o = plant__store_step(k, &part);

        part.m = o.m;
        sum.condensed += o.condensed;
        sum.reevaporated += o.reevaporated;
        sum.drained += o.drained;
    }
    sum.m = part.m;
    return sum;
}

#endif
