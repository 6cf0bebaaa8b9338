/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a spread share.  Private to engine/run/. */
#ifndef DEW_RUN_SPREAD_H
#define DEW_RUN_SPREAD_H

#include "dew/bundle.h"
#include "dew/spread.h"
#include "run/run.h"

enum { RUN__SPREAD_THREADS = 64 };

/* A year of weather, and what a case asks of it; all but the run's are made when
   a house is about to march in them. */
struct run__spread_year {
    int wanted;
    /* NULL: the run's; or, where marches are kept, not held, and no hours  */
    struct dew_year *year;
    struct dew_weather weather;
    struct dew_outdoors outdoors;
    char kept[DEW_KEPT_NAME]; /* of its weather, where marches are kept      */
};

/* What a share of a range came to; it stands while the share is the same. */
struct run__figure {
    double share, value;
};

/* Rows are what is marched: 0 the likely house, 1 + i draw i. */
struct dew_spread {
    const struct dew_run *run;
    const struct dew_field *fields;
    struct run__spread_year years[DEW_SPREAD_YEARS];
    struct dew_light *light; /* of year 0, for houses as the first option's  */
    size_t year_count; /* 1: the run's alone                                 */
    struct dew_prices prices;
    struct dew_spread_input *inputs;
    size_t input_count, columns;
    size_t year_column, model_column; /* of u; past columns: not drawn       */
    double *u; /* [draws][columns]  shares of ranges           */
    /* [draws][columns]  what they come to within ends, worked out once; NULL:
       each time                                                              */
    struct run__figure *figures;
    struct dew_measure *ends; /* [columns]  for the input's first option      */
    struct dew_drawn *houses; /* [1 + draws][options]                         */
    double *room;             /* [draws]  scratch                             */
    struct dew_draws told;    /* of dew_spread_draws                          */
    unsigned long seed;
    size_t ranges;            /* inputs with one, STILL ones too           */
    struct dew_changes fixed; /* borrowed: of every house                  */
    struct dew_spread_anew anew[DEW_SPREAD_RULES];
    size_t anew_count;
    int told_only;
    size_t draws, options, threads;
    const unsigned char *only; /* [options]  1: marched, and counted without
                                  a verdict; NULL: all, and judged           */
    size_t marched; /* of order                                               */
    /* [1 + draws]  rows as they are marched, those of a year together; and
       then the place of each in that.  NULL until draws are marched          */
    size_t *order;
    size_t block; /* rows that march together now                           */
    enum dew_spread_by by;
    enum dew_status failed;
    /* of the blocks that march at once, each on a thread */
    struct dew_error err[RUN__SPREAD_THREADS];
    enum dew_status status[RUN__SPREAD_THREADS];
};

/* ---- spread.c ---------------------------------------------------------------- */

void run__spread_lay_year(struct dew_weather *weather,
                          const struct dew_year *year);

/* dew_spread_open; where no figure drawn changes a house, of the likely one
   alone, and ask->draws is 0. */
enum dew_status run__spread_or_told(struct dew_spread **spread,
                                    const struct dew_run *run,
                                    struct dew_spread_ask *ask,
                                    struct dew_error *err);

/* ---- spread_inputs.c --------------------------------------------------------- */

/* Fill inputs, those that change no house marked, and count the columns.
   Errors: DEW_EMEM; those of dew_scenario_case. */
enum dew_status run__spread_list(struct dew_spread *s, struct dew_error *err);

/* The changes of a row for an option, into list, room for run__spread_room. */
size_t run__spread_room(const struct dew_spread *s);
struct dew_changes run__spread_changes(const struct dew_spread *s, size_t row,
                                       size_t option, struct dew_change *list);

/* What each range is for its first option. */
void run__spread_ends(struct dew_spread *s);

/* The figure of an input for an option at a share of its range, as
   dew_spread_figure; and what kind of range that is. */
double run__spread_at(const struct dew_spread *s,
                      const struct dew_spread_input *input, size_t option,
                      double share);
enum dew_doubt run__spread_how(const struct dew_spread *s,
                               const struct dew_spread_input *input,
                               size_t option);

/* 1 where some figure of an option is drawn; 0: all its houses are one. */
int run__spread_moves(const struct dew_spread *s, size_t option);

/* ---- spread_anew.c ------------------------------------------------------------ */

/* Put the next points of the draws in the place of those that break a rule
   between keys.  Errors: those of core__draw; DEW_ERANGE where more than half
   break one; DEW_EMEM. */
enum dew_status run__spread_anew(struct dew_spread *s, unsigned long seed,
                                 struct dew_error *err);

/* Whether all options of a row keep the rules between keys: DEW_ERANGE where
   one does not.  list: room for s->columns changes and one. */
enum dew_status run__spread_agrees(const struct dew_spread *s, size_t row,
                                   struct dew_change *list,
                                   struct dew_error *err);

/* Count a rule that a draw broke; past the room of the list, with its last. */
void run__spread_note(struct dew_spread *s, const struct dew_error *rule);
/* DEW_ERANGE, by the rule that most of so many draws broke. */
enum dew_status run__spread_too_many(const struct dew_spread *s, size_t broken,
                                     struct dew_error *err);

/* ---- spread_fly.c ------------------------------------------------------------ */

/* Houses that march through a year of the same dates, by their places. */
struct run__crowd {
    struct dew_case *cases;
    struct dew_outcome *outcomes; /* required is given                 */
    struct dew_weather *weather;  /* of each, its hours borrowed         */
    const double **held; /* its temperature of the hours, or NULL            */
    unsigned char *gone; /* 1: has marched                                   */
};

/* Room for so many; to be closed also where there was none. */
enum dew_status run__crowd_open(struct run__crowd *c, size_t count,
                                struct dew_error *err);
void run__crowd_close(struct run__crowd *c);

/* March count of them from first on, to their outcomes.  Errors: those of
   dew_bundle_open and dew_bundle_step, the place in *failed. */
enum dew_status run__crowd_march(const struct run__crowd *c, size_t first,
                                 size_t count, size_t *failed,
                                 struct dew_error *err);

/* ---- spread_march.c ---------------------------------------------------------- */

/* Rows of a block, of so many that are left: full bundles, and a block for
   each thread. */
size_t run__spread_block(size_t left, size_t threads);

/* March order[first] .. of so many rows, at most a block, and judge them: row 0
   before all others and by itself. */
enum dew_status run__spread_march(struct dew_spread *s, size_t first,
                                  size_t count, struct dew_error *err);

#endif
