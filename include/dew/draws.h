/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What many houses like the one told came to: a set of draws, each marched
 * with every option, and what may be counted of them.  Filled by dew/spread.h;
 * plain, borrowed.
 */
#ifndef DEW_DRAWS_H
#define DEW_DRAWS_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

enum { DEW_DRAWS_MONTHS = 12 };

/*
 * The figures of an option in a draw: name, unit, what of.  Money is NaN where
 * a price is not told.
 */
#define DEW_DRAWN_MAP(X)                                                       \
    X(too_humid, h, "too humid")                                               \
    X(too_dry, h, "too dry")                                                   \
    X(short_of_air, h, "short of fresh air")                                   \
    X(glass_wet, h, "of wet glass")                                            \
    X(short_heat, h, "short of heat")                                          \
    X(energy, J, "energy a year")                                              \
    X(running, money, "cost of a year")                                        \
    X(present, money, "cost over the years")

enum dew_drawn_what {
#define X(name, unit, words) DEW_DRAWN_##name,
    DEW_DRAWN_MAP(X)
#undef X
        DEW_DRAWN_FIGURES
};

/* What one option came to in one draw. */
struct dew_drawn {
#define X(name, unit, words) double name;
    DEW_DRAWN_MAP(X)
#undef X
    double humid_month[DEW_DRAWS_MONTHS]; /* h   of too_humid                */
    int keeps;                            /* the limits, as dew_verdict_keeps */
    int ventilates; /* as dew_verdict_ventilates                             */
    int best;       /* first of dew_verdict_passing in its draw              */
};

/* A set of draws.  The likely house, with every figure as told, is not one. */
struct dew_draws {
    size_t count, options;        /* draws; both 1 or more                   */
    const struct dew_drawn *told; /* [options]          the likely house     */
    const struct dew_drawn *each; /* [count][options]                        */
    double *room;                 /* [count]   to work in: one call at a time */
    unsigned long seed;
    size_t doubted; /* figures of the scenario that were drawn              */
    size_t usual;   /* of them by the usual range of what was not told      */
    int years;      /* made years that the draws went through; 1: the one   */
    double model;   /* -   of RH: the ends of the model's own error; 0: none */
};

/* A figure by its name.  what below DEW_DRAWN_FIGURES. */
double dew_drawn_figure(const struct dew_drawn *drawn,
                        enum dew_drawn_what what);

/* One house in ten is below p10, half are below p50, one in ten above p90, by
   dew_study_quantile; NaN where any is. */
struct dew_draws_range {
    double p10, p50, p90, told;
};
struct dew_draws_range dew_draws_range(const struct dew_draws *draws,
                                       size_t option, enum dew_drawn_what what);
/* h   of too humid hours in a month, from 0 */
struct dew_draws_range dew_draws_month(const struct dew_draws *draws,
                                       size_t option, int month);

/* Draws in which an option does so. */
struct dew_draws_shares {
    size_t keeps, ventilates, best;
};
struct dew_draws_shares dew_draws_shares(const struct dew_draws *draws,
                                         size_t option);

/* Draws in which no option will do. */
size_t dew_draws_none(const struct dew_draws *draws);

/* The option that is best in most of them. */
size_t dew_draws_best(const struct dew_draws *draws);

/*
 * The share of all such houses, from count of draws: the interval that holds
 * it in 95 of 100 cases.  NaN where there is no draw.
 *
 * Equation   the score interval, z = 1.96                        [NEWCOMBE98]
 * Limit      of draws by chance: spread as evenly as ours are, it is wide
 */
struct dew_draws_interval {
    double low, high; /* 0 .. 1                                              */
};
struct dew_draws_interval dew_draws_interval(size_t count, size_t draws);

#ifdef __cplusplus
}
#endif
#endif
