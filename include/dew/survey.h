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
    DEW_SURVEY_KEYS = 64         /* varied at most                           */
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

/* Who looks on.  Called by one worker at a time. */
struct dew_survey_watch {
    void *of;
    double (*seconds)(void *of); /* a clock that only goes on; may be NULL   */
    /* after each item; other than 0: finish what is in hand, and stop */
    int (*look)(void *of, const struct dew_survey_state *state);
};

struct dew_survey; /* opaque */

/*
 * folder: made where it is not there; NULL: nothing is kept, to see how fast
 * it goes.  resume: go on in a folder that has some of this plan's results.
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
                                const char *folder, int resume,
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

/*
 * "march.csv", "march.sqlite" and, where houses were at fault, "faults.csv" in
 * the folder, once all items are done.  Errors: DEW_EMISSING before;
 * DEW_EIO, DEW_EMEM.
 */
enum dew_status dew_survey_write(struct dew_survey *survey,
                                 struct dew_error *err);

/*
 * How far the survey in a folder is, by what is on the disk; *worker is the
 * process at work there, 0 where none is seen.
 * Errors: DEW_EUNKNOWN where there is no survey; DEW_EIO, DEW_EMEM.
 */
enum dew_status dew_survey_look(const char *folder,
                                struct dew_survey_state *state, long *worker,
                                struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
