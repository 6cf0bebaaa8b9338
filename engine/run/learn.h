/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a house learned from its log share.  Private to
   engine/run/. */
#ifndef DEW_RUN_LEARN_H
#define DEW_RUN_LEARN_H

#include "dew/learning.h"
#include "evidence/rounds.h"
#include "run/fit.h"
#include "run/spread.h"

enum {
    RUN__LEARN_BLOCK = 64,
    RUN__LEARN_LEAD = 7 * 24,
    RUN__LEARN_CLOCK = 24,
    RUN__LEARN_DAY = 18
};

/* The hours marched: those that weather and log share. */
struct run__learn_hours {
    struct dew_hour *weather; /* count                                       */
    struct dew_date *dates;   /* count                                       */
    struct dew_light *light;  /* of them, for houses as the first option's    */
    double *held; /* count   degC  of the log; NaN: the thermostat rules     */
    double *t;    /* count   degC  of the log; NaN: not had                  */
    double *rh;   /* count   % RH  of the log in hours that weigh; else NaN  */
    double *run;  /* count   -     of the coil, by the log's export; else NaN */
    double *fan;  /* count   -     of the blower, likewise                    */
    size_t first; /* hour of the fit                                         */
    size_t count, days, weigh; /* days: whole ones; weigh: of them           */
    double start_t, start_rh;  /* degC, -  where the stores begin             */
    double set[RUN__LEARN_CLOCK]; /* degC  by the clock, where it cools; NaN */
    int cooled, typical;
    size_t told_run; /* hours whose run is                                   */
    size_t told_fan; /* hours whose fan is                                   */
};

/*
 * What habits make of the excess from cold to warm is in no house drawn: a
 * curve over the outdoor temperature, of the spread that dew/evidence.h has for
 * its shape and nothing on the mean of the log, is integrated out, the same for all draws.  In misfits r that is
 * r - sum of taken q (q' r) over its axes.
 */
struct run__learn_habit {
    double *axes; /* [NODES][weigh], each of length 1                        */
    double taken[DEW_EVIDENCE_NODES];
};

/* What was seen without a logger, and the hours of the year that each is of. */
struct run__learn_seen {
    struct dew_seen list[DEW_SEEN_MOST];
    size_t count; /* 0: a log is weighed                                     */
    size_t read;  /* of them a humidity                                      */
    double hours[DEW_SEEN_MOST]; /* that each is of                          */
    double t_out[DEW_SEEN_MOST]; /* degC   their mean                        */
    unsigned *of;                /* [hours of the year]  bit i: reading i    */
    double root[DEW_SEEN_MOST * DEW_SEEN_MOST]; /* of the spread of what is
                                 left, % RH; read x read                     */
};

enum { RUN__LEARN_CAUSES = 16, RUN__LEARN_PAIRED = 32 };

/* A cause of the table: what its key becomes where it is so. */
struct run__learn_cause {
    const char *name, *key;
    enum dew_doubt how; /* RANGE or TIMES; WORDS: low is the choice          */
    double low, likely, high; /* of a PERT                                   */
    double chance;
    const char *source;
    const char *beside; /* a key that must not be told either, or NULL       */
    const char *with;   /* a key that must be told, or NULL                  */
};
extern const struct run__learn_cause run__learn_cause_rows[];

struct dew_learn {
    struct dew_run *run;
    int logged; /* 1: of a log, not of readings                              */
    int blown;  /* 1: the log has how long the blower ran                    */
    struct dew_spread *doubts; /* its list of inputs and u alone             */
    struct evidence__rounds *rounds;
    struct run__learn_hours hours;
    struct dew_evidence_noise noise; /* of the means of days, a day a step   */
    struct run__learn_habit habit;
    struct run__learn_seen seen;
    size_t threads;
    size_t asked; /* draws of the rounds asked for                           */
    size_t draws; /* of all rounds so far, asked at least                    */
    struct dew_learn_near *near; /* [1 + draws]; 0 the house as told; NaN:
                                    no house                                 */
    size_t marched; /* rows of near                                          */
    size_t drawn;   /* rows of near that may be marched                      */
    int weighed;    /* 1: the rounds are over                                */
    int done;       /* 1: all is told                                        */
    enum dew_status failed;
    struct dew_learned learned;
    struct dew_learn_input *inputs; /* [columns]                             */
    size_t input_count;
    struct dew_learn_pair *pairs;
    size_t pair_count;
    const struct run__learn_cause *open[RUN__LEARN_CAUSES];
    size_t open_count; /* columns of the rounds after those of doubts        */
    struct dew_learn_cause causes[RUN__LEARN_CAUSES];
    size_t timed; /* of them, whose hours are counted                        */
};

/* ---- learning.c ------------------------------------------------------------------- */

/* Variance of the mean of a habit, of its own: x is its time / the span. */
double run__learn_mean(double x);
/* A normal score as the share of a range, ends apart. */
double run__learn_share(double z);

/* ---- learn_hours.c ------------------------------------------------------------ */

enum dew_status run__learn_hours(struct dew_learn *learn,
                                 const struct dew_fit *fit,
                                 struct dew_error *err);
void run__learn_hours_close(struct run__learn_hours *hours);

/* ---- learn_habit.c --------------------------------------------------------------- */

enum dew_status run__learn_habit(struct dew_learn *learn,
                                 const struct dew_fit *fit,
                                 struct dew_error *err);
void run__learn_habit_off(const struct dew_learn *learn, double *misfits);

/* The means of whole days: NaN where fewer than RUN__LEARN_DAY of the hours
   weigh. */
void run__learn_days(const struct run__learn_hours *hours, const double *rest,
                     double *day);

/* ---- learn_seen.c ------------------------------------------------------------------ */

/* The readings of the scenario and its year in the place of a log's hours. */
enum dew_status run__learn_seen(struct dew_learn *learn, struct dew_error *err);

/* (% RH)^2 by which a reading is off for itself alone: half of its range is a
   tenth's bound, or its dial; of one hour the quick habits too. */
double run__learn_own_variance(const struct dew_seen *reading);

/* Sums over the hours of each reading. */
struct run__learn_sums {
    double rh[DEW_SEEN_MOST];  /* %                                          */
    double wet[DEW_SEEN_MOST]; /* h                                          */
};
void run__learn_seen_hour(const struct dew_learn *learn, size_t h,
                          const struct dew_result *out,
                          struct run__learn_sums *sums);
/* The misfits of a house, hours.weigh of them. */
struct dew_learn_near run__learn_seen_end(const struct dew_learn *learn,
                                          const struct run__learn_sums *sums,
                                          double *misfits);

/* ---- learn_march.c -------------------------------------------------------------- */

/* Some rows marched on a thread. */
struct run__learn_block {
    size_t first, count; /* rows of near                          */
    /* NULL: to be weighed; else these rows, for their humidity alone, one of
       their causes taken away                                            */
    const size_t *rows;
    size_t without; /* 1 + its place in open; 0: none                       */
    double *rh;     /* [count][hours]  %, of all hours                     */
    double *white;  /* [count][weigh]                        */
    int house[RUN__LEARN_BLOCK]; /* 1: it keeps the rules                 */
    enum dew_status status;
    struct dew_error err;
};
void run__learn_march(struct dew_learn *learn, struct run__learn_block *b);

/* % RH: the house's vapour at the temperature of the log, its own without. */
double run__learn_rh(const struct run__learn_hours *hours, size_t h,
                     const struct dew_result *out);

/* ---- learn_tell.c ---------------------------------------------------------------- */

/* learned, inputs and pairs, from the weights. */
enum dew_status run__learn_tell(struct dew_learn *learn, struct dew_error *err);

/* ---- learn_cause.c ---------------------------------------------------------------- */

/* open: those that the scenario leaves so. */
enum dew_status run__learn_causes(struct dew_learn *learn,
                                  struct dew_error *err);
/* What a row, 1 + draw, has of them, but for one, behind so many changes. */
void run__learn_caused(const struct dew_learn *learn, size_t row,
                       size_t without, struct dew_changes *changes,
                       struct dew_change *list);
/* 1 where a draw has a cause; RUN__LEARN_CAUSES: every draw does. */
int run__learn_has(const struct dew_learn *learn, size_t draw, size_t cause);
/* causes, from the weights; no hours yet. */
void run__learn_tell_causes(struct dew_learn *learn);
/* The hours of the next of them. */
enum dew_status run__learn_time(struct dew_learn *learn, struct dew_error *err);

/* ---- learn_give.c ----------------------------------------------------------------- */

/* Draws that have a cause, as often as they weigh of all that do, whose weight
   it is: count of them, or one fewer where rounding leaves the last out. */
size_t run__learn_pick(const struct dew_learn *learn, size_t cause,
                       double weight, size_t count, size_t *draws);

/* ---- learn_show.c ----------------------------------------------------------------- */

/* A range as a person types it, three digits each, in the key's unit. */
char *run__learn_typed(const struct dew_learn *learn, size_t key,
                       const struct dew_measure *range, char *out, size_t size);

#endif
