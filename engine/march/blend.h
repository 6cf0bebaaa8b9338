/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air paths, state by state, weighted whole; of one house or several.
   Private. */
#ifndef DEW_MARCH_BLEND_H
#define DEW_MARCH_BLEND_H

#include "march/paths.h"
#include "march/step.h"
#include "plant/core_step.h"

/* Share of the step that the blowers spend in state (base 3); handler given
   (-1 for none) is left out: the share while it is as the state says. */
static inline double march__blower_share(const struct march__mixing *mix,
                                         int state, int vent, int given)
{
    const double *low = vent == DEW_VENT_OFF ? mix->low_off : mix->low_on;
    double share = CORE__OF(1.0);

    for (int k = 0; k < mix->handlers; k++, state /= 3) {
        double full = mix->full[k], rest = 1.0 - full;

        if (k == given)
            continue;
        share *= state % 3 == 2   ? full
                 : state % 3 == 1 ? rest * low[k]
                                  : rest * (1.0 - low[k]);
    }
    return share;
}

static inline int march__states_of(int handlers)
{
    return handlers == 0 ? 1 : handlers == 1 ? 3 : handlers == 2 ? 9 : 27;
}

/* Where the exhaust air would end if nothing condensed, degC. */
static inline double march__coldest(const struct dew_path *p,
                                    const struct march__core_airs *a)
{
    double moist = air__moist(a->w);

    return a->t_in - p->sensible * (a->t_in - a->t_out) * p->supply /
                         (p->exhaust * moist);
}

/* Where the wet core's own formula holds. */
static inline core__truth march__may_condense(const struct dew_path *p,
                                              const struct march__core_airs *a)
{
    const core__plain closest = 1.0; /* K apart; nearer none condenses     */

    return (p->condensing > 0.0) & (p->exhaust >= 0.5 * p->supply) &
           (p->exhaust <= 2.0 * p->supply) & (a->t_in - a->t_out > closest) &
           (a->t_out >= -60.0) &
           (a->w > plant__core_w_sat(march__coldest(p, a), a->p));
}

/*
 * What condensing on the core's warm side adds to the path's effectiveness,
 * - ; water, kg/s, is what drains at its exhaust flow.  0 while nothing does,
 * and where one flow is more than twice the other.
 */
static inline double march__path_condenses(const struct dew_path *path,
                                           const struct march__core_airs *airs,
                                           double rho, double *water)
{
    struct dew_core_meeting m;
    struct dew_core_wet wet;
    core__truth may;

    *water = CORE__OF(0.0);
    if (!core__any(path->condensing > 0.0))
        return CORE__OF(0.0);
    may = march__may_condense(path, airs);
    if (!core__any(may))
        return CORE__OF(0.0);
    m = (struct dew_core_meeting){.ntu = path->condensing,
                                  .ratio = path->exhaust / path->supply,
                                  .t_out = airs->t_out,
                                  .t_in = airs->t_in,
                                  .w = airs->w,
                                  .p = airs->p};
    wet = plant__core_wet(&m, air__dew(airs->w, airs->p));
    *water = core__pick(may, rho * path->exhaust * wet.water, 0.0);
    return core__pick(may, wet.sensible - wet.dry, 0.0);
}

/* The path as it is in this step; *water, kg/s, drains from its core. */
static inline struct dew_path march__at_state(const struct march__mixing *mix,
                                              const struct dew_path *dry,
                                              double rho, double *water)
{
    double used = 1.0 - mix->bypass;
    struct dew_path path = *dry;

    path.sensible += march__path_condenses(dry, &mix->core, rho, water);
    path.sensible *= used;
    path.latent *= used;
    *water *= used;
    return path;
}

/* What all of them share, and one of them: densities, shares of the step. */
struct march__state_of {
    double rho, weight, natural; /* kg/m3, -, m3/s                          */
};

static inline void march__add_locals(const struct dew_case *c,
                                     const struct march__mixing *mix,
                                     const struct dew_path *path,
                                     const struct march__state_of *by,
                                     struct march__blend *sum, double *worst)
{
    for (int e = 0; e <= DEW_LOCALS; e++) {
        double local = e > 0 ? c->plant.exhausts[e - 1].flow : CORE__OF(0.0);
        struct march__moved moved = march__moved_by(path, local);
        core__truth runs = mix->local[e] > 0.0;
        double weight = core__pick(runs, by->weight * mix->local[e], 0.0);

        if (!core__any(runs))
            continue;
        march__blend_state(sum, path, by->rho, weight, local, by->natural);
        *worst = core__pick(weight > 0.0,
                            core__min(*worst, moved.in - moved.out), *worst);
    }
}

/*
 * Weigh whole states.  natural m3/s; worst m3/s: most negative supply less
 * exhaust of any state visited.
 */
static inline struct march__blend march__blend_all(
    const struct dew_case *c, const struct march__mixing *mix, double rho,
    double natural, double *worst)
{
    struct march__blend sum = {0};

    *worst = CORE__OF(0.0);
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < march__states_of(mix->handlers); b++) {
            double weight = mix->vent[v] * march__blower_share(mix, b, v, -1);
            struct march__state_of by = {rho, weight, natural};
            double water;
            struct dew_path path;

            if (!core__any(weight > 0.0))
                continue;
            path = march__at_state(mix, &c->paths[v][b], rho, &water);
            march__add_locals(c, mix, &path, &by, &sum, worst);
            sum.drained += weight * water;
            sum.preheat_use += weight * path.preheat_w * mix->core.preheat;
            sum.preheat += weight * path.preheat_w * mix->core.preheat *
                           (1.0 - path.sensible);
        }
    return sum;
}

static inline int march__at_full(int state, int handler)
{
    for (int k = 0; k < handler; k++)
        state /= 3;
    return state % 3 == 2;
}

/* Outdoor air that a coil meets before the house does, m3/s. */
struct march__inlet {
    double all;      /* fresh and unplanned                                 */
    double sensible; /* of it, what is not yet at the house's temperature   */
    double latent;   /* of it, what is not yet at the house's humidity      */
};

static inline void march__add_inlet(const struct dew_path *path, double used,
                                    double share, struct march__inlet *in)
{
    double fresh = share * path->at_coil, idle = share * path->idle_at_coil;

    in->all += fresh + idle;
    in->sensible += fresh * (1.0 - used * path->sensible) + idle;
    in->latent += fresh * (1.0 - used * path->latent) + idle;
}

/*
 * Of handler k while its blower is at full, over the states of the ventilator
 * and of the other blowers.  What a state sends past coils is shared by the
 * handlers that run at full in it.
 */
static inline struct march__inlet march__coil_inlet(
    const struct dew_case *c, const struct march__mixing *mix, int k)
{
    struct march__inlet in = {0};

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < march__states_of(mix->handlers); b++) {
            int sharing = c->plant.handler_count;
            double share = mix->vent[v];

            if (mix->handlers > 0) {
                if (!march__at_full(b, k))
                    continue;
                share *= march__blower_share(mix, b, v, k);
                sharing = march__at_full(b, 0) + march__at_full(b, 1) +
                          march__at_full(b, 2);
            }
            march__add_inlet(&c->paths[v][b], 1.0 - mix->bypass,
                             share / sharing, &in);
        }
    return in;
}

#endif
