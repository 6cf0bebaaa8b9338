/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Many houses like the one told: every figure given as a range is drawn from
 * it, and every usual one from what its default leaves open; all options are marched through the year with the same draws, and what
 * they come to is counted.
 *
 *     dew_run_open        a run of DEW_RUN_MARCH, which need not be stepped
 *     dew_spread_open     which figures are doubted, and the draws
 *     dew_spread_step     ... until done is 1
 *     dew_spread_draws    what they came to: dew/draws.h
 *
 * A range is a PERT distribution: low and high are its ends.  One draw takes
 * the same share of a key's range in every option.  The figures hang on the
 * seed and the number of draws, never on the threads.
 */
#ifndef DEW_SPREAD_H
#define DEW_SPREAD_H

#include "dew/draws.h"
#include "dew/run.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { DEW_SPREAD_DRAWS = 128, DEW_SPREAD_MOST = 65536, DEW_SPREAD_SEED = 1 };

struct dew_spread_ask {
    size_t draws;       /* .. DEW_SPREAD_MOST; best a power of two; 0: the
                           likely house alone, ranges or not                 */
    unsigned long seed; /* of the draws                                      */
    size_t threads;     /* at most; 0: as many as processors                 */
    int years; /* 1: each through one of DEW_SPREAD_YEARS, where made        */
    int model; /* 1: with the model's own error                              */
    int told_only; /* 1: what nobody told stands at its default without doubt */
    /* NULL, or one that outlives this: its light is shared, where the run's
       year is lent by its run */
    const struct dew_spread *light_of;
};

/*
 * The model's own error: an offset of RH that a draw adds to all its options,
 * a PERT distribution about nothing with ends at this.  Its deviation, end /
 * sqrt(7), is the root mean square of the means by which the model was off in
 * the two measured houses of docs/dev/first-results.md, 0.4 and 5.4 points:
 * two houses, our own figure.
 */
#define DEW_SPREAD_MODEL 0.10

/* Years that draws go through where the weather is made: the run's, and others
   of the place. */
enum { DEW_SPREAD_YEARS = 16 };

/* How a figure of the scenario is taken. */
enum dew_spread_why {
    DEW_SPREAD_DRAWN, /* from its range                                      */
    DEW_SPREAD_STILL, /* it has a range, neither end of which changes a house */
    DEW_SPREAD_MONEY, /* a range of money: costs are told with it elsewhere  */
    DEW_SPREAD_LISTED, /* a range within a list: the likely one is taken     */
    DEW_SPREAD_SURE    /* given without a range                               */
};

/* A figure that was given, in the file, an option or by --set, or whose default
   leaves a range open. */
struct dew_spread_input {
    size_t key;    /* in dew_scenario_fields                                 */
    size_t option; /* of the run: the first that has it, with a range if any
                      does                                                   */
    int each;      /* 1: it is not the same in every option                  */
    int usual;     /* 1: nobody told it, it is its default that is doubted   */
    enum dew_spread_why why;
    size_t column; /* of the draws; DRAWN only                               */
    const char *still; /* why, in words; STILL only, else NULL.  Static      */
};

/* What "best" was judged by, of options that will do. */
enum dew_spread_by {
    DEW_SPREAD_BY_MONEY,  /* cost over the years                             */
    DEW_SPREAD_BY_RUNNING /* cost of a year: some price to install is open   */
};

struct dew_spread; /* opaque */

/*
 * run is borrowed until close, and must not be stepped meanwhile.  On DEW_OK
 * *spread is the caller's, for dew_spread_close; else NULL.
 * Errors: DEW_EMISSING where no figure drawn from a range changes a house, or
 * there is none with told_only;
 * DEW_ERANGE for the draws, or weather of less than a year; those of
 * dew_scenario_case; DEW_EMEM.
 */
enum dew_status dew_spread_open(struct dew_spread **spread,
                                const struct dew_run *run,
                                const struct dew_spread_ask *ask,
                                struct dew_error *err);
void dew_spread_close(struct dew_spread *spread); /* NULL is allowed */

/*
 * March some more draws; *done is the share of them, 1 at the end, and then a
 * step is DEW_OK and does nothing.
 * Errors: those of dew_scenario_case and dew_bundle_step, the draw and the
 * option named.  A spread that failed stays failed.
 */
enum dew_status dew_spread_step(struct dew_spread *spread, double *done,
                                struct dew_error *err);

/*
 * A first step of several spreads at once, of their likely houses alone: as
 * told, they march side by side where they branch alike.  Each comes to the very
 * figures that a step of its own gives it.  Of none has a step been taken, and
 * all are of one place and calendar, with as many options.
 * Errors: DEW_ERANGE where that is not so; those of a step, of the first that
 * fails.  Then none has begun, and each may be stepped by itself.
 */
enum { DEW_SPREAD_TOGETHER = 64 }; /* at most                                */
enum dew_status dew_spread_likely(struct dew_spread *const *spreads,
                                  size_t count, struct dew_error *err);

/*
 * From here on every house has these figures, over what is drawn or told of
 * them; to the first draw again, with the same draws.  changes are borrowed
 * until close or the next call; NULL: none.
 */
void dew_spread_fix(struct dew_spread *spread,
                    const struct dew_changes *changes);

/* Borrowed from the spread: the figures given, in the order of the table. */
const struct dew_spread_input *dew_spread_inputs(
    const struct dew_spread *spread, size_t *count);

/*
 * The figure of an input in a draw for an option, SI; of words the choice, by
 * itself no measure of anything; of one that is worked
 * out, what moves it, as dew_scenario_doubt has it.  The likely one where it is
 * not DRAWN.
 */
double dew_spread_figure(const struct dew_spread *spread,
                         const struct dew_spread_input *input, size_t draw,
                         size_t option);

/* Draws that broke a rule between keys, in whose place others were drawn, by
   the key at which the rule shows.  Borrowed from the spread. */
enum { DEW_SPREAD_RULES = 16 };
struct dew_spread_anew {
    size_t count;          /* of draws                                       */
    struct dew_error rule; /* path and text                                  */
};
const struct dew_spread_anew *dew_spread_anew(const struct dew_spread *spread,
                                              size_t *count);

/* Of a draw that is marched; NULL else.  draw = the number of draws: the
   likely house, with every figure as told. */
const struct dew_drawn *dew_spread_house(const struct dew_spread *spread,
                                         size_t draw, size_t option);

/* Which made year a draw goes through, 0 the run's own; and by how much its RH
   is off, -. */
int dew_spread_year(const struct dew_spread *spread, size_t draw);
double dew_spread_off(const struct dew_spread *spread, size_t draw);

enum dew_spread_by dew_spread_by(const struct dew_spread *spread);

/* ---- columns: what differs from draw to draw --------------------------------- */

/* What a column of the draws stands for. */
enum dew_spread_of {
    DEW_SPREAD_OF_NOTHING, /* a figure that changes no house: STILL          */
    DEW_SPREAD_OF_INPUT,
    DEW_SPREAD_OF_YEAR, /* which made year                                   */
    DEW_SPREAD_OF_MODEL /* the model's own error                             */
};

struct dew_spread_column {
    enum dew_spread_of of;
    const struct dew_spread_input *input; /* of OF_INPUT, else NULL          */
};

size_t dew_spread_columns(const struct dew_spread *spread);
struct dew_spread_column dew_spread_column(const struct dew_spread *spread,
                                           size_t column);

/* What a draw took of a column, 0 .. 1 of its distribution; and what that comes
   to: the figure for the first option that has it, SI; the year; the error. */
double dew_spread_share(const struct dew_spread *spread, size_t column,
                        size_t draw);
double dew_spread_known(const struct dew_spread *spread, size_t column,
                        size_t draw);

/*
 * Shares of one's own, a value for each draw, in place of those drawn by seed.
 * Errors: DEW_ERANGE where one is not above 0 and below 1, nothing changed; or
 * a draw is marched already.
 */
enum dew_status dew_spread_give(struct dew_spread *spread, size_t column,
                                const double *shares, struct dew_error *err);

/*
 * Of shares given, a draw that breaks a rule between keys in some option becomes
 * like the next one that breaks none, and dew_spread_anew tells of it.
 * Errors: DEW_ERANGE where more than half break one, or a draw is marched
 * already; those of dew_scenario_agrees; DEW_EMEM.
 */
enum dew_status dew_spread_mend(struct dew_spread *spread,
                                struct dew_error *err);

/* ---- what they come to ------------------------------------------------------ */

/* Of all draws, borrowed until the next call; NULL before all are marched. */
const struct dew_draws *dew_spread_draws(struct dew_spread *spread);

#ifdef __cplusplus
}
#endif
#endif
