/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Money: what a year costs to run, what an option costs over the years, and
 * whether what it saves ever pays for it.
 *
 * Money is in the currency of struct dew_prices.  What is not given is NaN,
 * and whatever hangs on it is NaN: nothing is filled in.
 */
#ifndef DEW_COST_H
#define DEW_COST_H

#include "dew/march.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A figure with its doubt; low = high = likely when none is given. */
struct dew_estimate {
    double likely, low, high;
};

/* Prices, one set a scenario.  NaN where not given. */
struct dew_prices {
    struct dew_estimate electricity; /* $/J                                 */
    struct dew_estimate gas;         /* $/J   of the fuel's heat            */
    struct dew_estimate oil;         /* $/J                                 */
    struct dew_estimate propane;     /* $/J                                 */
    struct dew_estimate wood;        /* $/J                                 */
    struct dew_estimate wage;        /* $/s   own hours; 0 = free           */
    double too_humid;                /* $/s   what such an hour less is     */
    double too_dry;                  /* $/s   worth: no part of a bill, to  */
    double short_of_air;             /* $/s   weigh comfort against money   */
    double interest;                 /* -     real, per year                */
    double years;                    /* a     over which costs are compared */
    char date[32];                   /* when the prices were true, as typed */
    char currency[8];                /* "$"                                 */
    /* by month, from January; read where the flag beside them is 1 */
    struct dew_estimate electricity_by_month[12], gas_by_month[12]; /* $/J  */
    int electricity_seasonal, gas_seasonal;
};

/* The reading that decides whether a second stage follows. */
#define DEW_READING_MAP(X)                                                     \
    X(READING, humidity) X(READING, air_flow) X(READING, carbon_dioxide)

enum dew_reading_kind {
#define X(what, name) DEW_READING_##name,
    DEW_READING_MAP(X)
#undef X
};

/* What one option costs.  Zero where nothing is bought. */
struct dew_costs {
    struct dew_estimate install;   /* $    parts and labour                 */
    struct dew_estimate upkeep;    /* $    a year: filters, cores, service  */
    struct dew_estimate own_hours; /* s    the owner's own work             */
    struct dew_estimate later;     /* $    a second stage, if it follows    */
    double later_chance;           /* -    that it follows                  */
    double later_after;            /* a    until it does                    */
    double life;                   /* a    before it is bought again        */
    char date[32];                 /* as typed, or ""                       */
    char next[92];                 /* name of the option it then is, or ""  */
    enum dew_reading_kind reading; /* that decides                          */
};

/* A year's money by end use, and the sums over the years.  Plain. */
struct dew_bill {
#define X(name, words) struct dew_estimate name; /* money a year           */
    DEW_ENERGY_MAP(X)
#undef X
    struct dew_estimate energy;  /* a year   all end uses                   */
    struct dew_estimate upkeep;  /* a year   filters, cores, service        */
    struct dew_estimate yearly;  /* a year   energy and upkeep              */
    struct dew_estimate install; /* once     parts, labour, own hours       */
    struct dew_estimate present; /* all of it over the years, present value */
};

/*
 * The present worth of 1 paid after years years at a real rate of interest.
 *
 *     interest   -   > -1      0 is allowed
 *     years      a   0 ..
 *
 * Equation   (1 + i)^-n                                   [BLANK-TARQUIN] P/F
 * Outside    NaN
 */
double dew_cost_present_worth(double interest, double years);

/*
 * The present worth of 1 paid at the end of each of years years.
 *
 * Equation   (1 - (1 + i)^-n) / i, n when i = 0           [BLANK-TARQUIN] P/A
 */
double dew_cost_annuity_worth(double interest, double years);

/*
 * The bill of one option from a year of energy use.
 *
 *     energy   J   as tallied over hours
 *     fuel     -   0 electricity, 1 gas, 2 oil, 3 propane, 4 wood (plant.h)
 *     hours    h   > 0; another run than 8760 h is scaled to it
 *     costs        may be NULL: nothing is bought
 *
 * An end use that used no energy costs 0 also when its price is not given.
 * Things bought again after costs->life fall due within prices->years; the
 * second stage is paid after costs->later_after, weighed by its chance (likely), at 0
 * (low) or in full (high) when the chance is above 0.
 */
struct dew_bill dew_cost_bill(const struct dew_energy *energy, int fuel,
                              double hours, const struct dew_prices *prices,
                              const struct dew_costs *costs);

/*
 * The same from twelve months, each at its own price where prices have a
 * season.  months[0] is January; the hours of all are scaled to 8760.
 */
struct dew_bill dew_cost_bill_months(const struct dew_tally months[12],
                                     int fuel, const struct dew_prices *prices,
                                     const struct dew_costs *costs);

/*
 * A path in two stages: buy the first now, and go on to the next only if a
 * reading asks for it.
 */
struct dew_staged {
    double now;        /* first stage, installed                            */
    double later;      /* second stage, when it comes                       */
    double both;       /* expected, present value over the years            */
    double at_once;    /* the next option from the start, present value     */
    double break_even; /* -  chance at which they cost the same; above 1: the
                          path is cheaper even if it always goes on; below 0:
                          never                                             */
};

/*
 *     first, next   bills of the two options
 *     costs         of the first: later, later_chance, later_after
 *
 * Equation   both = first installed (and renewed) + first's year x P/A(a) +
 *            (1 - c) first's year x (P/A(n) - P/A(a)) + c (later x P/F(a) +
 *            next's year x (P/A(n) - P/A(a))), a at most n.
 */
struct dew_staged dew_cost_staged(const struct dew_bill *first,
                                  const struct dew_bill *next,
                                  const struct dew_costs *costs,
                                  const struct dew_prices *prices);

/*
 * Years until what option saves a year has paid for what it costs more than
 * base to install.  0 when it costs no more and saves; infinity when it never
 * does; NaN when prices are wanting.  low is the shortest, high the longest.
 */
struct dew_estimate dew_cost_payback(const struct dew_bill *base,
                                     const struct dew_bill *option);

#ifdef __cplusplus
}
#endif
#endif
