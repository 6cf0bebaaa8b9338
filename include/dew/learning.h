/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The house itself from its log: houses are drawn from what the scenario
 * leaves in doubt, marched through the log's own weather with the indoor
 * temperature held to the log, and each weighs as much as the log is likely
 * in it.
 *
 *     dew_fit_open          the log, the outdoors, and what it does beside
 *     dew_learn_open        the first option of the scenario, and its doubts
 *     dew_learn_step        ... until done is 1
 *     dew_learn_learned, dew_learn_inputs, dew_learn_scenario
 *
 * What is left between a house and the log is what fit has for habits: the two
 * that dew/evidence.h learned from this log, one set of figures for all draws.
 * A sensor's offset is not drawn beside: the slow habit is it.
 *
 * Draws come in rounds, each nearer to the log; a weight is what is known
 * beforehand x the likelihood / the density that was drawn from.
 */
#ifndef DEW_LEARNING_H
#define DEW_LEARNING_H

#include "dew/fit.h"
#include "dew/spread.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    DEW_LEARN_DRAWS = 4096, /* of all rounds, as marched                     */
    DEW_LEARN_FEW = 2048,   /* enough for readings                            */
    DEW_LEARN_MOST = 65536,
    DEW_LEARN_ENOUGH = 50 /* effective draws below which nothing is told, and
                             more are drawn                                */
};

/* Beyond these no house drawn does what the log shows, however many share the
   weight: its mean, its course.  Our own. */
#define DEW_LEARN_REACH      3.0
#define DEW_LEARN_INNOVATION 2.0

struct dew_learn_ask {
    size_t draws;       /* .. DEW_LEARN_MOST                                 */
    unsigned long seed; /* of the draws                                      */
    size_t threads;     /* at most; 0: as many as processors                 */
    int told_only; /* 1: what nobody told stands at its default without doubt */
    int causes;    /* 1: what may make it damp is switched too: see below     */
};

/* How near houses come to the log, over the hours that weigh, % RH. */
struct dew_learn_near {
    double rmse; /* root mean square of house less log                        */
    double bias; /* mean of house less log                                    */
};

/* What was learned as a whole.  Plain. */
struct dew_learned {
    size_t draws;      /* drawn                                               */
    size_t further;    /* of them beyond those asked for, for what these were
                          worth was too little: as many at the most           */
    size_t houses;     /* of them marched: the others break a rule            */
    double effective;  /* draws that the weights are worth                    */
    double innovation; /* rms of the likeliest house's misfits, 1 expected   */
    double reach;      /* after.bias, in standard deviations of the mean of the
                          slow habit                                         */
    int told;          /* 1: DEW_LEARN_ENOUGH or more, and the log is reached:
                          see DEW_LEARN_REACH                                */
    size_t readings; /* weighed in the place of a log; 0: a log              */
    double days;     /* of hours that weigh                                 */
    struct dew_learn_near likely; /* the house as told                       */
    struct dew_learn_near best;   /* the likeliest that was drawn            */
    struct dew_learn_near after;  /* mean over the weights                   */
    struct dew_evidence_noise noise; /* what the houses are weighed by       */
    int cooled; /* 1: hours in which it cools are not held: see below       */
    size_t told_run; /* hours in which the log's export runs the coil        */
    size_t told_fan; /* and the blower                                      */
    int typical; /* 1: wind and sun are those of a made year                 */
    int yearly;  /* 1: the scenario's weather is DEW_MARCH_YEAR or more, so
                    that houses can be given to a spread of it               */
};

/* One figure in doubt, before and after.  Ranges are of the figure, SI; of
   WORDS the place of the word; of TIMES, STEP and WITHIN what moves it. */
struct dew_learn_input {
    size_t key; /* in dew_scenario_fields                                 */
    int usual;  /* 1: nobody told it                                      */
    enum dew_doubt how;
    struct dew_evidence_range before, after;
    struct dew_measure left; /* of a figure that moved, not of WORDS: the PERT
                                range of the same mean and spread, and the skew
                                of p10, p50, p90, within what it was       */
    double mean, sd; /* after, where before is 0 and 1: of the normal score  */
    struct dew_evidence_range
        score; /* the same: before is -1.28, 0, 1.28     */
    int moved; /* 1: the log tells something of it                           */
    int end;   /* -1, 1: the log pushes it to that end of its range; else 0 */
};

/* Two that moved, and go together: only both of them are known. */
struct dew_learn_pair {
    size_t a, b; /* of the inputs                                            */
    double r;    /* correlation of the normal scores, -1 .. 1                */
};

/*
 * What may make a house as damp as it is: of a table (engine/run/learn_cause.c)
 * those that the scenario leaves open, nobody having told their key, and that
 * change its house.  Each draw has it or not, by the chance thought before, and
 * where it has it of some size; it weighs as all draws do.
 */
struct dew_learn_cause {
    const char *name; /* words.  Static, as the next two                     */
    const char *key;  /* that it is a figure of                            */
    const char *source; /* of chance and size                                */
    double before, after; /* chance that it is so, 0 .. 1                    */
    /* Those of one number, 1 or more, the log cannot tell apart; 0: by itself.
       any_: the chance that one of them or more is so. */
    size_t together;
    double any_before, any_after;
    int timed; /* 0: too few have it for the next two                        */
    /* Of houses that have it: h above limits.too_humid, of the log in what
       weighs, of readings in the year, their mean; and how many of them go when
       it is taken away */
    double humid;
    struct dew_evidence_range hours;
};

/* Chances go together where their correlation is below this, and below CHANCE of
   its own error.  Our own. */
#define DEW_LEARN_TOGETHER (-0.2)

struct dew_learn; /* opaque */

/*
 * from as for dew_run_open, of the scenario that the fit read: without text it
 * is the fit's.  Its log is not read, nor its options but the first, nor its
 * job and with.  fit is borrowed for the call; the hours before
 * its dew_fit_until weigh, the first week of the log apart.
 *
 * The stores begin at the first week's mean RH.  A house that cools is held to
 * the log except while it is warm outdoors: then its own thermostat, set to
 * what the log has at that hour of the day on the mean, runs the coil.  Hours
 * whose run time the log has are held, and the coil runs for that share of them;
 * it is an error where the scenario has none.  In held hours whose blower share
 * the log has, the blower runs so (dew_bundle_prescribe_blower).
 *
 * fit NULL: the scenario's readings are weighed, in its year, which no
 * temperature is held to; days are then readings, and near is of those of a
 * humidity.  A reading is off by its own range, by its instrument and, all of
 * a month together, by the slow habit and another year; and by what habits make
 * of cold and warm.
 *
 * Owner   on DEW_OK *learn is the caller's, for dew_learn_close; else NULL.
 * Errors  all that were found are in faults: those of dew_run_open;
 *         DEW_EMISSING where no figure in doubt changes the house, or weather
 *         and log share too few days; DEW_ERANGE for the draws; DEW_EMEM.
 */
enum dew_status dew_learn_open(struct dew_learn **learn,
                               const struct dew_run_ask *from,
                               const struct dew_fit *fit,
                               const struct dew_learn_ask *ask,
                               struct dew_faults *faults);
void dew_learn_close(struct dew_learn *learn); /* NULL is allowed */

/* March some more draws; *done is their share, 1 at the end, and then a step
   does nothing.  Where it goes on for more than were asked for, it falls once
   each time.  Errors: those of dew_scenario_case and dew_bundle_step;
   DEW_ESOLVE. */
enum dew_status dew_learn_step(struct dew_learn *learn, double *done,
                               struct dew_error *err);

/* NULL before the end, as all below; borrowed from learn. */
const struct dew_learned *dew_learn_learned(const struct dew_learn *learn);
/* In the order of the table. */
const struct dew_learn_input *dew_learn_inputs(const struct dew_learn *learn,
                                               size_t *count);
/* The strongest first, above 0.4 either way. */
const struct dew_learn_pair *dew_learn_pairs(const struct dew_learn *learn,
                                             size_t *count);

/* In the order of the table; none without causes asked for. */
const struct dew_learn_cause *dew_learn_causes(const struct dew_learn *learn,
                                               size_t *count);

/* The scenario and all its options, for dew_spread_open; not to be stepped.
   Borrowed from learn, before the end too. */
const struct dew_run *dew_learn_run(const struct dew_learn *learn);

/*
 * The houses that are left, as often as they weigh and with what goes together
 * in them, in the place of the draws of a spread of the same scenario or of
 * what dew_learn_write made of it, of which nothing is marched yet.  What was
 * not learned stays as drawn.  Causes are not given.  A house that breaks a
 * rule between keys in some option is left out, another that is left takes its
 * place, and dew_spread_anew tells of it.
 *
 *     beyond  figures that a range of the spread does not reach, taken at its
 *             end; may be NULL
 *
 * Errors  DEW_EMISSING where nothing is told; DEW_ERANGE where more than half
 *         break a rule, or a draw is marched already; those of
 *         dew_scenario_agrees; DEW_EMEM.
 */
enum dew_status dew_learn_give(const struct dew_learn *learn,
                               struct dew_spread *spread, size_t *beyond,
                               struct dew_error *err);

/*
 * The same for a scenario as dew_learn_write made it: written has its text and
 * the name, sets and files of dew_learn_open's from.
 *
 * Owner   out is for dew_learn_houses_close, also where it fails.
 * Errors  in faults: those of dew_run_open, dew_spread_open, dew_learn_give.
 */
struct dew_learn_houses {
    struct dew_run *run;
    struct dew_spread *spread; /* of run, ask's draws, not marched           */
    size_t beyond;             /* as of dew_learn_give                       */
};
enum dew_status dew_learn_houses(const struct dew_learn *learn,
                                 const struct dew_run_ask *written,
                                 const struct dew_spread_ask *ask,
                                 struct dew_learn_houses *out,
                                 struct dew_faults *faults);
void dew_learn_houses_close(struct dew_learn_houses *houses);

/* A figure before (0) or after (1), as p50 (p10 to p90) to three digits: "1.2
   ach50 (1.1 to 1.5)", "0.9 times the usual (0.7 to 1.1)".  Returns out; size >
   0; cut, never overrun. */
char *dew_learn_show(const struct dew_learn *learn,
                     const struct dew_learn_input *input, int after, char *out,
                     size_t size);

/* What was given without a range, where what is drawn does not reach the log:
   paths with commas between.  Returns out, likewise. */
char *dew_learn_sure(const struct dew_learn *learn, char *out, size_t size);

/*
 * The scenario's text with what moved narrowed: a range of the same mean and
 * spread as what is left of it.  Keys that cannot be written so are named in
 * left (room for size letters; "" where none).  houses: the file that
 * run.houses is to name; NULL: none.  To be freed.
 * Errors  NULL: DEW_EMISSING where nothing is told; DEW_ESYNTAX where the text
 *         has no place for it; DEW_EMEM.
 */
char *dew_learn_write(const struct dew_learn *learn, const char *houses,
                      size_t *length, char *left, size_t size,
                      struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
