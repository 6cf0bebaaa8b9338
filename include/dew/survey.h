/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Surveys: many houses in many places, each marched with every option, the
 * results kept on disk as they come, so that nothing is lost when the work is
 * cut off.
 *
 *     dew_survey_read       a plan: which houses, where, how many draws
 *     dew_survey_open       a folder for its results, new or begun
 *     dew_survey_run        march what is not there yet; may be cut off
 *     dew_survey_write      the table, as CSV and SQLite, once all is marched
 *
 * One item is a house in a place, with all its options and draws.  A worker
 * takes some items at a time and appends what they came to, as one record, to
 * a journal of its own in the folder, synced: a kill costs what it has in
 * hand.  Table and figures hang on the plan alone, never on the threads or on
 * how often it was cut off.  docs/survey.md has the form of a plan and the
 * columns.
 */
#ifndef DEW_SURVEY_H
#define DEW_SURVEY_H

#include "dew/draws.h"
#include "dew/run.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    DEW_SURVEY_ITEMS = 10000000, /* houses x places at most                  */
    DEW_SURVEY_HOUSES = 1 << 20, /* of a sample or a file at most            */
    DEW_SURVEY_CHECKED = 5000,   /* rows of a file of houses that are checked
                                    before anything is marched               */
    DEW_SURVEY_KEYS = 64,        /* varied at most                           */
    DEW_SURVEY_FILES = 4096      /* of rows: threads of all processes        */
};

/* How a folder is opened. */
enum dew_survey_how {
    DEW_SURVEY_NEW,   /* there is no survey in it yet                        */
    DEW_SURVEY_GO_ON, /* or one of this plan                                 */
    DEW_SURVEY_JOIN   /* that another process has open, which hands out what
                         is to be done: struct dew_survey_share              */
};

struct dew_survey_plan; /* opaque: the plan, its scenario, houses and places */

/*
 * Read a plan, the scenario it names and its file of houses.
 *
 * Owner   on DEW_OK *plan is the caller's, for dew_survey_plan_close; else
 *         NULL.
 * Errors  the status of the first fault; all that were found are in faults,
 *         under the names of their files.
 */
enum dew_status dew_survey_read(struct dew_survey_plan **plan, const char *path,
                                struct dew_faults *faults);
void dew_survey_plan_close(struct dew_survey_plan *plan); /* NULL is allowed */

/* How much a plan asks for. */
struct dew_survey_size {
    size_t houses, places; /* 1 where the scenario's own weather is taken    */
    size_t options, draws; /* draws 0: the likely house alone                */
    size_t items;          /* houses x places, place by place                */
    size_t rows;           /* items x options x (1 + draws): house-years too */
};
struct dew_survey_size dew_survey_size(const struct dew_survey_plan *plan);

/* How many items a thread has to march until its rate says something of all. */
size_t dew_survey_taste(const struct dew_survey_plan *plan);

/*
 * 1 where the scenario has no options and none were given: they are then to be
 * made (dew/suggest.h), of the scenario that is told here, and given as the
 * text of a scenario.  Errors: those of dew_scenario_open.
 */
int dew_survey_bare(const struct dew_survey_plan *plan);
const char *dew_survey_scenario(const struct dew_survey_plan *plan,
                                const char **name, size_t *length);
enum dew_status dew_survey_give(struct dew_survey_plan *plan, const char *text,
                                size_t length, struct dew_faults *faults);

/* ---- the work ---------------------------------------------------------------- */

/* How far it is. */
struct dew_survey_state {
    size_t items, done; /* done: marched or at fault, on the disk            */
    size_t faults;      /* of them houses that could not be marched          */
    size_t rows;        /* of all items                                      */
    double seconds;     /* that marching took, summed over workers; 0 where
                           nobody had a clock                                */
};

struct dew_survey; /* opaque */

/*
 * Many processes, on one machine or more, in a folder that all of them see:
 * one has it open and hands out the items, the others have joined it and march
 * them.  How they talk is the caller's: messages, sockets, files.
 */
struct dew_survey_share {
    void *of;
    size_t
        process; /* 0 hands out; 1 and on march, and name their files by it */
    size_t workers; /* threads of all that march                             */
    /* of who joined: the next items, from range[0] to before range[1]; the two
       alike: there are no more.  Called by one thread at a time. */
    void (*take)(void *of, size_t range[2]);
    /* of who hands out: called once in place of marching, until all others have
       ended: dew_survey_hand answers a take, dew_survey_add what was done */
    enum dew_status (*serve)(void *of, struct dew_survey *survey,
                             struct dew_error *err);
};

/* Who looks on.  Called by one worker at a time. */
struct dew_survey_watch {
    void *of;
    double (*seconds)(void *of); /* a clock that only goes on; may be NULL   */
    /* after each item; other than 0: finish what is in hand, and stop */
    int (*look)(void *of, const struct dew_survey_state *state);
    const struct dew_survey_share *share; /* NULL: this process alone        */
};

/*
 * folder: made where it is not there; NULL: nothing is kept, to see how fast
 * it goes.
 *
 * Owner   on DEW_OK *survey is the caller's, for dew_survey_close; else NULL.
 *         The plan is borrowed until then.
 * Errors  DEW_ERANGE where the folder holds something else: another plan, a
 *         survey without resume, files that are none; DEW_EMISSING for a bare
 *         plan without options; DEW_EIO, also while another writes there;
 *         DEW_EMEM.
 */
enum dew_status dew_survey_open(struct dew_survey **survey,
                                struct dew_survey_plan *plan,
                                const char *folder, enum dew_survey_how how,
                                struct dew_error *err);
void dew_survey_close(struct dew_survey *survey); /* NULL is allowed */

/* 1 where a folder holds a survey that was begun. */
int dew_survey_begun(const char *folder);

/*
 * March what is left, most items at most (0: all), on so many threads at most
 * (0: as many as processors).  A house that cannot be marched is kept as a
 * fault, and the work goes on.
 * Errors: DEW_EIO, DEW_EMEM; what is on the disk by then stays.
 */
enum dew_status dew_survey_run(struct dew_survey *survey, size_t threads,
                               size_t most,
                               const struct dew_survey_watch *watch,
                               struct dew_error *err);

struct dew_survey_state dew_survey_state(const struct dew_survey *survey);

/* The next items that are to be marched, for a worker: from range[0] to before
   range[1]; 0: there are no more, or it is to stop.  Any thread. */
int dew_survey_hand(struct dew_survey *survey, size_t range[2]);
/* What a worker has put on the disk since: done, faults, seconds. */
void dew_survey_add(struct dew_survey *survey,
                    const struct dew_survey_state *more);

/*
 * "march.csv", "march.sqlite" and, where houses were at fault, "faults.csv" in
 * the folder, once all items are done.  Errors: DEW_EMISSING before;
 * DEW_EIO, DEW_EMEM.
 */
enum dew_status dew_survey_write(struct dew_survey *survey,
                                 struct dew_error *err);

/* What one thread of a process has done, in all its turns. */
struct dew_survey_thread {
    size_t process, thread; /* as its file is named                          */
    size_t done;
    double seconds;
};

/* How far the survey in a folder is, by what is on the disk. */
struct dew_survey_far {
    struct dew_survey_state state;
    long worker; /* the process at work there; 0: none, -1: not known        */
    size_t count;
    struct dew_survey_thread threads[DEW_SURVEY_FILES];
};

/* Errors: DEW_EUNKNOWN where there is no survey; DEW_EIO, DEW_EMEM. */
enum dew_status dew_survey_look(const char *folder, struct dew_survey_far *far,
                                struct dew_error *err);

/* ---- what it came to -------------------------------------------------------- */

enum { DEW_SURVEY_BY = 4, DEW_SURVEY_COLUMN = 160, DEW_SURVEY_BARS = 40 };

/* One in ten is below p10, half below p50, nine in ten below p90; linear
   between the two values beside.  NaN where there is no value. */
struct dew_survey_range {
    double p10, p50, p90;
};

/* House-years that have the same value in each of some columns. */
struct dew_survey_group {
    char *by[DEW_SURVEY_BY]; /* their values, as words                       */
    size_t first;            /* row of the table                             */
    size_t marches;
    double keeps, ventilates, best; /* 0..1  of the marches                  */
    struct dew_survey_range too_humid, too_dry; /* h of the year             */
    struct dew_survey_range running;            /* money a year              */
};

struct dew_survey_show {
    size_t by_count, count, marches;
    char by[DEW_SURVEY_BY][DEW_SURVEY_COLUMN]; /* columns of the table       */
    struct dew_survey_group *groups;           /* [count]  as in the table   */
};

/*
 * The groups of a survey that is whole, from its march.sqlite.
 *
 * by      "place,option": columns of the table that say which house it is, or
 *         keys of the scenario that are varied, DEW_SURVEY_BY at most.
 * Owner   on DEW_OK *show is the caller's, for dew_survey_show_close; else
 *         NULL.
 * Errors  DEW_EUNKNOWN for a word that is no such column, with those there are;
 *         DEW_EMISSING while not all is marched; DEW_EIO, DEW_EMEM.
 */
enum dew_status dew_survey_show(struct dew_survey_show **show,
                                const char *folder, const char *by,
                                struct dew_error *err);
void dew_survey_show_close(struct dew_survey_show *show); /* NULL is allowed */

/* The words of a group: "Fargo ND, now". */
void dew_survey_group_words(const struct dew_survey_show *show, size_t group,
                            char *out, size_t size);

/* Its hours as a chart, an SVG file by itself; DEW_SURVEY_BARS groups at most,
   else DEW_ERANGE. */
enum dew_status dew_survey_chart(const struct dew_survey_show *show, FILE *out,
                                 struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
