/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air paths, state by state, weighted whole. */
#include "march/paths.h"

#include "dew/air.h"
#include "march/step.h"
#include "plant/core_step.h"

static int same(const struct dew_path *a, const struct dew_path *b)
{
    return a->supply == b->supply && a->exhaust == b->exhaust &&
           a->fresh == b->fresh && a->drawn == b->drawn &&
           a->sensible == b->sensible && a->latent == b->latent &&
           a->unplanned == b->unplanned && a->spill == b->spill &&
           a->leak_in == b->leak_in && a->leak_out == b->leak_out &&
           a->leak_lost == b->leak_lost && a->at_coil == b->at_coil &&
           a->idle_at_coil == b->idle_at_coil && a->fan_w == b->fan_w &&
           a->fan_heat == b->fan_heat && a->preheat_w == b->preheat_w &&
           a->condensing == b->condensing;
}

int march__paths_alike(const struct dew_case *c)
{
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 1; b < DEW_BLOWER_STATES; b++)
            if (!same(&c->paths[v][b], &c->paths[v][0]))
                return 0;
    return 1;
}

/* Share of the step that the blowers spend in state (base 3); handler given
   (-1 for none) is left out: the share while it is as the state says. */
static double blower_share(const struct march__mixing *mix, int state, int vent,
                           int given)
{
    const double *low = vent == DEW_VENT_OFF ? mix->low_off : mix->low_on;
    double share = 1.0;

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

static int states_of(int handlers)
{
    return handlers == 0 ? 1 : handlers == 1 ? 3 : handlers == 2 ? 9 : 27;
}

/* Where the exhaust air would end if nothing condensed, degC. */
static double coldest(const struct dew_path *p,
                      const struct march__core_airs *a)
{
    double moist = air__moist(a->w);

    return a->t_in - p->sensible * (a->t_in - a->t_out) * p->supply /
                         (p->exhaust * moist);
}

/* Where the wet core's own formula holds. */
static int may_condense(const struct dew_path *p,
                        const struct march__core_airs *a)
{
    const double closest = 1.0; /* K between the airs; nearer none condenses */

    return p->condensing > 0.0 && p->exhaust >= 0.5 * p->supply &&
           p->exhaust <= 2.0 * p->supply && a->t_in - a->t_out > closest &&
           a->t_out >= -60.0 && a->w > plant__core_w_sat(coldest(p, a), a->p);
}

double march__path_condenses(const struct dew_path *path,
                             const struct march__core_airs *airs, double rho,
                             double *water)
{
    struct dew_core_meeting m;
    struct dew_core_wet wet;

    *water = 0.0;
    if (!may_condense(path, airs))
        return 0.0;
    m = (struct dew_core_meeting){.ntu = path->condensing,
                                  .ratio = path->exhaust / path->supply,
                                  .t_out = airs->t_out,
                                  .t_in = airs->t_in,
                                  .w = airs->w,
                                  .p = airs->p};
    wet = plant__core_wet(&m, air__dew(airs->w, airs->p));
    *water = rho * path->exhaust * wet.water;
    return wet.sensible - wet.dry;
}

/* The path as it is in this step; *water, kg/s, drains from its core. */
static struct dew_path at_state(const struct march__mixing *mix,
                                const struct dew_path *dry, double rho,
                                double *water)
{
    double used = 1.0 - mix->bypass;
    struct dew_path path = *dry;

    path.sensible += march__path_condenses(dry, &mix->core, rho, water);
    path.sensible *= used;
    path.latent *= used;
    *water *= used;
    return path;
}

static void add_locals(const struct dew_case *c,
                       const struct march__mixing *mix,
                       const struct dew_path *path, const double by[3],
                       struct march__blend *sum, double *worst)
{
    for (int e = 0; e <= DEW_LOCALS; e++) {
        double local = e > 0 ? c->plant.exhausts[e - 1].flow : 0.0;
        struct march__moved moved = march__moved_by(path, local);

        if (!(mix->local[e] > 0.0))
            continue;
        march__blend_state(sum, path, by[0], by[1] * mix->local[e], local,
                           by[2]);
        *worst = fmin(*worst, moved.in - moved.out);
    }
}

struct march__blend march__blend_all(const struct dew_case *c,
                                     const struct march__mixing *mix,
                                     double rho, double natural, double *worst)
{
    struct march__blend sum = {0};

    *worst = 0.0;
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < states_of(mix->handlers); b++) {
            double weight = mix->vent[v] * blower_share(mix, b, v, -1);
            double by[3] = {rho, weight, natural}, water;
            struct dew_path path;

            if (!(weight > 0.0))
                continue;
            path = at_state(mix, &c->paths[v][b], rho, &water);
            add_locals(c, mix, &path, by, &sum, worst);
            sum.drained += weight * water;
            sum.preheat_use += weight * path.preheat_w * mix->core.preheat;
            sum.preheat += weight * path.preheat_w * mix->core.preheat *
                           (1.0 - path.sensible);
        }
    return sum;
}

static int at_full(int state, int handler)
{
    for (int k = 0; k < handler; k++)
        state /= 3;
    return state % 3 == 2;
}

static void add_inlet(const struct dew_path *path, double used, double share,
                      struct march__inlet *in)
{
    double fresh = share * path->at_coil, idle = share * path->idle_at_coil;

    in->all += fresh + idle;
    in->sensible += fresh * (1.0 - used * path->sensible) + idle;
    in->latent += fresh * (1.0 - used * path->latent) + idle;
}

struct march__inlet march__coil_inlet(const struct dew_case *c,
                                      const struct march__mixing *mix, int k)
{
    struct march__inlet in = {0};

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < states_of(mix->handlers); b++) {
            int sharing = c->plant.handler_count;
            double share = mix->vent[v];

            if (mix->handlers > 0) {
                if (!at_full(b, k))
                    continue;
                share *= blower_share(mix, b, v, k);
                sharing = at_full(b, 0) + at_full(b, 1) + at_full(b, 2);
            }
            add_inlet(&c->paths[v][b], 1.0 - mix->bypass, share / sharing, &in);
        }
    return in;
}
