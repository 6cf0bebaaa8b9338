/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closing the books of an hour. */
#include "march/ledger.h"

#include <math.h>

static const double closing = 1e-9; /* of the inflows                       */

#define SUM(name, words)  sum += f->name;
#define GAIN(name, words) in += f->name > 0.0 ? f->name : 0.0;

static double water_sum(const struct dew_water_flows *f, double *inflow)
{
    double sum = 0.0, in = 0.0;

    DEW_WATER_MAP(SUM)
    DEW_WATER_MAP(GAIN)
    *inflow = in;
    return sum;
}

static double heat_sum(const struct dew_heat_flows *f, double *inflow)
{
    double sum = 0.0, in = 0.0;

    DEW_HEAT_MAP(SUM)
    DEW_HEAT_MAP(GAIN)
    *inflow = in;
    return sum;
}

/* What rounding alone makes of a store that is there: nothing flows, and the
   gap of the last digits must not count as a leak. */
static double grain(double store)
{
    return 1e-13 * fabs(store) / closing;
}

static double film_rise(const struct march__books *b)
{
    return (b->after->film_glass - b->before->film_glass) +
           (b->after->film_edge - b->before->film_edge) +
           (b->after->film_corner - b->before->film_corner);
}

static double coil_rise(const struct march__books *b)
{
    return (b->after->coil_1 - b->before->coil_1) +
           (b->after->coil_2 - b->before->coil_2) +
           (b->after->coil_3 - b->before->coil_3);
}

static double store_rise(const struct march__books *b)
{
    return (b->after->w_surface - b->before->w_surface) +
           (b->after->w_mid - b->before->w_mid) +
           (b->after->w_deep - b->before->w_deep);
}

static void water_gaps(const struct march__books *b, struct march__gaps *g)
{
    const struct dew_state *x = b->before, *y = b->after;
    double in, sum = water_sum(b->water, &in), held = b->lane->mass_air * x->w;
    double stored = x->w_surface + x->w_mid + x->w_deep;
    double scale = in + grain(held + stored);

    g->air = (sum - b->lane->mass_air * (y->w - x->w)) / scale;
    g->stores = (b->water->store + store_rise(b)) / scale;
    g->films = (b->water->glass + film_rise(b) + b->wiped) / scale;
    g->coils =
        (b->water->coil + b->water->reevaporation + coil_rise(b) + b->drained) /
        scale;
}

struct march__gaps march__ledger_gaps(const struct march__books *b)
{
    const struct dew_state *x = b->before, *y = b->after;
    double in, sum = heat_sum(b->heat, &in);
    double held =
        fabs(b->lane->c_mass * x->t_mass) + fabs(b->lane->c_air * x->t_air);
    double rise = b->lane->c_air * (y->t_air - x->t_air) +
                  b->lane->c_mass * (y->t_mass - x->t_mass) +
                  (y->owed_q - x->owed_q);
    struct march__gaps g;

    water_gaps(b, &g);
    g.heat = (sum - rise) / (in + grain(held));
    return g;
}

int march__ledger_closes(const struct march__gaps *g)
{
    return fabs(g->air) <= closing && fabs(g->stores) <= closing &&
           fabs(g->films) <= closing && fabs(g->coils) <= closing &&
           fabs(g->heat) <= closing;
}
