/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The books of one hour: what came in, what went out, what stayed.  Private. */
#ifndef DEW_MARCH_LEDGER_H
#define DEW_MARCH_LEDGER_H

#include "core/many.h"
#include "march/lane.h"

/* Everything a ledger looks at; the flows were integrated on their own. */
struct march__books {
    const struct march__lane *lane;
    const struct dew_state *before, *after;
    const struct dew_water_flows *water; /* kg                              */
    const struct dew_heat_flows *heat;   /* J                               */
    double wiped;                        /* kg   off the surfaces           */
    double drained;                      /* kg   off the coils              */
};

/* Residuals relative to the hour's inflows. */
struct march__gaps {
    double air, stores, films, coils; /* of water                           */
    double heat;
};

#define MARCH__CLOSING 1e-9 /* of the inflows                              */

#define MARCH__SUM(name, words)  sum += f->name;
#define MARCH__GAIN(name, words) in += core__pick(f->name > 0.0, f->name, 0.0);

static inline double march__water_sum(const struct dew_water_flows *f,
                                      double *inflow)
{
    double sum = CORE__OF(0.0), in = CORE__OF(0.0);

    DEW_WATER_MAP(MARCH__SUM)
    DEW_WATER_MAP(MARCH__GAIN)
    *inflow = in;
    return sum;
}

static inline double march__heat_sum(const struct dew_heat_flows *f,
                                     double *inflow)
{
    double sum = CORE__OF(0.0), in = CORE__OF(0.0);

    DEW_HEAT_MAP(MARCH__SUM)
    DEW_HEAT_MAP(MARCH__GAIN)
    *inflow = in;
    return sum;
}

/* What rounding alone makes of a store that is there: nothing flows, and the
   gap of the last digits must not count as a leak. */
static inline double march__grain(double store)
{
    return 1e-13 * core__abs(store) / MARCH__CLOSING;
}

static inline double march__film_rise(const struct march__books *b)
{
    return (b->after->film_glass - b->before->film_glass) +
           (b->after->film_edge - b->before->film_edge) +
           (b->after->film_corner - b->before->film_corner);
}

static inline double march__coil_rise(const struct march__books *b)
{
    return (b->after->coil_1 - b->before->coil_1) +
           (b->after->coil_2 - b->before->coil_2) +
           (b->after->coil_3 - b->before->coil_3);
}

static inline double march__store_rise(const struct march__books *b)
{
    return (b->after->w_surface - b->before->w_surface) +
           (b->after->w_mid - b->before->w_mid) +
           (b->after->w_deep - b->before->w_deep);
}

static inline void march__water_gaps(const struct march__books *b,
                                     struct march__gaps *g)
{
    const struct dew_state *x = b->before, *y = b->after;
    double in, sum = march__water_sum(b->water, &in),
               held = b->lane->mass_air * x->w;
    double stored = x->w_surface + x->w_mid + x->w_deep;
    double scale = in + march__grain(held + stored);

    g->air = (sum - b->lane->mass_air * (y->w - x->w)) / scale;
    g->stores = (b->water->store + march__store_rise(b)) / scale;
    g->films = (b->water->glass + march__film_rise(b) + b->wiped) / scale;
    g->coils = (b->water->coil + b->water->reevaporation + march__coil_rise(b) +
                b->drained) /
               scale;
}

static inline struct march__gaps march__ledger_gaps(
    const struct march__books *b)
{
    const struct dew_state *x = b->before, *y = b->after;
    double in, sum = march__heat_sum(b->heat, &in);
    double held = core__abs(b->lane->c_mass * x->t_mass) +
                  core__abs(b->lane->c_air * x->t_air);
    double rise = b->lane->c_air * (y->t_air - x->t_air) +
                  b->lane->c_mass * (y->t_mass - x->t_mass) +
                  (y->owed_q - x->owed_q);
    struct march__gaps g;

    march__water_gaps(b, &g);
    g.heat = (sum - rise) / (in + march__grain(held));
    return g;
}

/* Where every gap is within 1e-9; not where one is NaN. */
static inline core__truth march__ledger_closes(const struct march__gaps *g)
{
    return (core__abs(g->air) <= MARCH__CLOSING) &
           (core__abs(g->stores) <= MARCH__CLOSING) &
           (core__abs(g->films) <= MARCH__CLOSING) &
           (core__abs(g->coils) <= MARCH__CLOSING) &
           (core__abs(g->heat) <= MARCH__CLOSING);
}

#endif
