/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What it is worth to know a doubted figure before choosing: from many draws,
 * the figure in each, and what every option loses in it.
 *
 *     dew_worth_open     the losses; which option is best as things stand
 *     dew_worth_of       ... a figure, or a few known together
 *     dew_worth_close
 *
 * Without knowing more, the option of least mean loss is taken in every draw.
 * Knowing a figure, the one of least loss expected at that figure:
 *
 * Equation   min E[L] - E[min E[L | x]], of losses L by option; E[L | x] by
 *            regression of the draws on x                       [STRONG14]
 * Judged     on draws that the regression has not seen: what the options
 *            chosen by it really lose there
 * Chance     the same for the figure shuffled among the draws, the highest of
 *            99: what is not above it may be no more than luck
 * Limit      what a mean of the loss tells: no fear of the worst case
 */
#ifndef DEW_WORTH_H
#define DEW_WORTH_H

#include <stddef.h>

#include "dew/cost.h"
#include "dew/draws.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    DEW_WORTH_DRAWS = 1024, /* below, chance hides what matters             */
    DEW_WORTH_LEAST = 50,   /* draws                                        */
    DEW_WORTH_OPTIONS = 64, /* at most                                      */
    DEW_WORTH_TOGETHER = 6  /* figures known together, at most              */
};

struct dew_worth; /* opaque */

struct dew_worth_table {
    size_t draws, options; /* DEW_WORTH_LEAST .., 1 .. DEW_WORTH_OPTIONS     */
    const double *loss;    /* [draws][options], finite, in any one unit      */
};

struct dew_worth_gain {
    double value;  /* of loss, mean of the draws; below 0 where it misleads  */
    double error;  /* of loss: standard error of value                       */
    double chance; /* of loss, 0 ..: the highest value of one shuffled       */
    double turned; /* - 0 .. 1: draws in which another option is chosen      */
    int told;      /* 1 where value is above chance                          */
};

/* The losses are copied.  Errors: DEW_ERANGE, DEW_EMEM; *worth is then NULL. */
enum dew_status dew_worth_open(struct dew_worth **worth,
                               const struct dew_worth_table *of,
                               struct dew_error *err);
void dew_worth_close(struct dew_worth *worth); /* NULL is allowed            */

/* The option of least mean loss, the first of equals. */
size_t dew_worth_best(const struct dew_worth *worth);

/* of loss: what knowing everything would be worth, 0 .. */
double dew_worth_perfect(const struct dew_worth *worth);

/*
 * x[0 .. count): a figure in each draw; count 1 .. DEW_WORTH_TOGETHER.  The
 * same figures give the same gain, whatever was asked before.
 * Errors: DEW_ERANGE where a figure is not finite; DEW_ESOLVE; DEW_EMEM.
 */
enum dew_status dew_worth_of(struct dew_worth *worth, const double *const *x,
                             size_t count, struct dew_worth_gain *gain,
                             struct dew_error *err);

/* [draws]: the option chosen in each, of the last dew_worth_of.  Borrowed. */
const size_t *dew_worth_choice(const struct dew_worth *worth);

/*
 * The share of the variance of y, [draws], that knowing x explains, judged on
 * draws left out: - , 1 at most, about 0 where x tells nothing.  NaN where y
 * does not vary, and on an error.
 */
double dew_worth_explained(const double *x, const double *y, size_t draws,
                           struct dew_error *err);

/* ---- losses of houses drawn ------------------------------------------------- */

/* Which losses were to be had. */
enum dew_worth_of_what {
    DEW_WORTH_MONEY, /* cost over the years, and the price of the hours in it */
    DEW_WORTH_HOURS  /* the price of a year's hours alone: some price to
                        install or of energy is open                         */
};

/*
 * What every option loses in every draw: what it costs over the years, and
 * each year's hours too humid, too dry and short of air at their prices.
 *
 *     loss       [count][options] of draws, filled
 *
 * Equation   present + P/A(interest, years) x sum price x hours
 */
enum dew_worth_of_what dew_worth_losses(const struct dew_draws *draws,
                                        const struct dew_prices *prices,
                                        double *loss);

/* What the choices of the last dew_worth_of save against the best option,
   means of the draws, which are those that the losses are of. */
struct dew_worth_saved {
    double money;     /* over the years; NaN where a price is open          */
    double too_humid; /* h a year                                           */
    double too_dry;
    double short_of_air;
};
struct dew_worth_saved dew_worth_saved(const struct dew_worth *worth,
                                       const struct dew_draws *draws);

#ifdef __cplusplus
}
#endif
#endif
