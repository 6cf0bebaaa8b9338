/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air paths, state by state, weighted whole. */
#include "march/paths.h"

#include "march/step.h"

static int same(const struct dew_path *a, const struct dew_path *b)
{
    return a->supply == b->supply && a->exhaust == b->exhaust &&
           a->fresh == b->fresh && a->sensible == b->sensible &&
           a->latent == b->latent && a->unplanned == b->unplanned &&
           a->spill == b->spill && a->leak_in == b->leak_in &&
           a->leak_out == b->leak_out && a->at_coil == b->at_coil &&
           a->fan_w == b->fan_w && a->fan_heat == b->fan_heat &&
           a->preheat_w == b->preheat_w;
}

int dew__paths_alike(const struct dew_case *c)
{
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 1; b < DEW_BLOWER_STATES; b++)
            if (!same(&c->paths[v][b], &c->paths[v][0]))
                return 0;
    return 1;
}

/* Share of the step that the blowers spend in state (base 3). */
static double blower_share(const struct dew__mixing *mix, int state, int vent)
{
    const double *low = vent == DEW_VENT_OFF ? mix->low_off : mix->low_on;
    double share = 1.0;

    for (int k = 0; k < mix->handlers; k++, state /= 3) {
        double full = mix->full[k], rest = 1.0 - full;

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

static struct dew_path at_state(const struct dew_case *c,
                                const struct dew__mixing *mix, int vent,
                                int blower)
{
    struct dew_path path = c->paths[vent][blower];

    path.sensible *= 1.0 - mix->bypass;
    path.latent *= 1.0 - mix->bypass;
    return path;
}

static void add_locals(const struct dew_case *c, const struct dew__mixing *mix,
                       const struct dew_path *path, const double by[3],
                       struct dew__blend *sum, double *worst)
{
    for (int e = 0; e <= DEW_LOCALS; e++) {
        double local = e > 0 ? c->plant.exhausts[e - 1].flow : 0.0;
        double net = path->supply + path->unplanned + path->leak_in -
                     path->exhaust - path->spill - path->leak_out - local;

        if (!(mix->local[e] > 0.0))
            continue;
        dew__blend_state(sum, path, by[0], by[1] * mix->local[e], local, by[2]);
        *worst = net < *worst ? net : *worst;
    }
}

struct dew__blend dew__blend_all(const struct dew_case *c,
                                 const struct dew__mixing *mix, double rho,
                                 double natural, double *worst)
{
    struct dew__blend sum = {0};

    *worst = 0.0;
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < states_of(mix->handlers); b++) {
            double weight = mix->vent[v] * blower_share(mix, b, v);
            struct dew_path path = at_state(c, mix, v, b);
            double by[3] = {rho, weight, natural};

            if (weight > 0.0)
                add_locals(c, mix, &path, by, &sum, worst);
        }
    return sum;
}
