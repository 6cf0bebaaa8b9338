/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A question run: a scenario with its weather and its log, its options marched
 * through the year, the verdict.  What the command does between its words and
 * its printing; docs/library.md has a whole program.  Files are read while a
 * run is opened, and then no more.
 */
#ifndef DEW_RUN_H
#define DEW_RUN_H

#include "dew/ducts_report.h"
#include "dew/report.h"
#include "dew/scenario.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * How a file that is named is had.  read gives its bytes as they lie on disk,
 * gzipped or not, from malloc: they become the run's.  On any other status
 * than DEW_OK it gives none, and may write err->text; where the name stands is
 * in err already.
 */
struct dew_files {
    void *of; /* the caller's own */
    enum dew_status (*read)(void *of, const char *name, char **bytes,
                            size_t *length, struct dew_error *err);
};

enum dew_run_job {
    DEW_RUN_MARCH, /* the options asked for through the year                */
    DEW_RUN_CHECK, /* nothing: after a fault the reading goes on to the next */
    DEW_RUN_DUCTS, /* nothing: the layouts of all options asked for, solved */
    DEW_RUN_YEARS  /* the options through made years, without log: the
                      scenario names a place or monthly figures             */
};

enum dew_run_with { /* DEW_RUN_MARCH: what is done beside     */
                    DEW_RUN_TODAY =
                        1 << 0, /* the first option, asked for or not     */
                    DEW_RUN_DRY =
                        1 << 1, /* new houses once more, when they are dry */
                    DEW_RUN_ALTERNATIVES =
                        1 << 2, /* each option whose figures can be read
                                      otherwise, read so                     */
                    DEW_RUN_LAYOUTS =
                        1 << 3, /* layouts of ducts, for their sketches   */
                    DEW_RUN_WHOLE = (1 << 4) - 1,
                    DEW_RUN_NO_LOG =
                        1
                        << 4, /* log.file is not read: it is somebody else's */
                    DEW_RUN_READINGS =
                        1
                        << 5 /* readings are wanted: held to the weather's days */
};

/* What is asked.  Borrowed while it is opened. */
struct dew_run_ask {
    const char *name; /* of the scenario; a file, "-" for standard input,
                         where text is NULL                                  */
    const char *text; /* of the scenario, length bytes                       */
    size_t length;
    const char *const *sets; /* "key=value", over what the text says         */
    size_t set_count;
    const char *const *options; /* names; none: all                          */
    size_t option_count;
    enum dew_run_job job;
    unsigned with;                 /* of enum dew_run_with                   */
    size_t threads;                /* at most; 0: as many as processors      */
    const struct dew_files *files; /* NULL: opened beside the scenario, then
                                      in the working directory               */
    const struct dew_kept *kept;   /* of marches before this one, borrowed until
                                      the close; NULL: none is kept          */
    const struct dew_run *weather_of; /* a run whose scenario asks for the same
                                         weather, to share its year: it is
                                         closed after this one.  NULL: none   */
};

struct dew_run; /* opaque: scenario, weather, log, cases, outcomes, verdict */

/*
 * Owner   on DEW_OK *run is the caller's, for dew_run_close; else NULL.
 * Errors  the status of the first fault; all that were found are in faults,
 *         under the names of their files: those of dew_scenario_open,
 *         dew_weather_parse, dew_climate_read, dew_log_parse,
 *         dew_scenario_case, dew_scenario_layout; DEW_EUNKNOWN for an option
 *         or a file that is not there; DEW_EIO; DEW_EMEM.  A line without a
 *         place is about the ones before it.
 */
enum dew_status dew_run_open(struct dew_run **run,
                             const struct dew_run_ask *ask,
                             struct dew_faults *faults);
void dew_run_close(struct dew_run *run); /* NULL is allowed */

/* Borrowed from the run, as all below; a check may have no year: NULL. */
const struct dew_scenario *dew_run_scenario(const struct dew_run *run);
const struct dew_year *dew_run_year(const struct dew_run *run);

/* The options of the run, and where in the scenario the i-th stands. */
size_t dew_run_count(const struct dew_run *run);
size_t dew_run_option(const struct dew_run *run, size_t i);

/*
 * The case of option i, for reading, or for a change before the first step.
 * Alternatives are of the scenario as read, whatever was changed.
 */
struct dew_case *dew_run_case(struct dew_run *run, size_t i);

/* To the first hour again, with the cases as they are. */
void dew_run_again(struct dew_run *run);

/*
 * To the first hour of made year number (dew_made.number), with cases of its
 * weather: DEW_RUN_YEARS.  Errors: those of dew_made_open and
 * dew_scenario_case.
 */
enum dew_status dew_run_made(struct dew_run *run, int number,
                             struct dew_error *err);

/*
 * March at most hours hours; *done is the share of the whole run, 1 at the
 * end, and then a step is DEW_OK and does nothing.  The first one allocates.
 * Errors: those of dew_study_open and dew_study_step.
 */
enum dew_status dew_run_step(struct dew_run *run, size_t hours, double *done,
                             struct dew_error *err);

/*
 * What its log tells by itself stands in the report from here on: borrowed until
 * the close; NULL: nothing.  The report is made anew.
 */
void dew_run_learned(struct dew_run *run, const struct dew_report_fit *learned);

/*
 * How many houses like the one told a run asks to be drawn (run.draws); where
 * the scenario does not say, so many that DEW_RUN_DRAWN years are marched at
 * most, and 16 at least.
 */
enum { DEW_RUN_DRAWN = 1024 };
size_t dew_run_draws(const struct dew_run *run);

/*
 * Judge by houses drawn too, of dew_spread_draws of a spread of this run, which
 * is borrowed until the close; NULL: by none.  The report is made anew.
 */
void dew_run_judge_by(struct dew_run *run, const struct dew_draws *draws);

/* Which year is being marched, from 0, of *of: options, dry ones and
   alternatives. */
size_t dew_run_turn(const struct dew_run *run, size_t *of);

/* What option i did; NULL until it is marched. */
const struct dew_outcome *dew_run_outcome(const struct dew_run *run, size_t i);

/*
 * The report of a run at its end, NULL before; good until dew_run_again,
 * dew_run_made, the close, or a call with another system.  0: the system the
 * scenario used most.
 */
const struct dew_report *dew_run_report(struct dew_run *run,
                                        enum dew_system system);

/*
 * March the first option and the one that the report looks at through made
 * year number (from 1; dew_made.number) of the place too, for how far years
 * differ: report->years.  After dew_run_report.
 * Errors: DEW_ERANGE where the weather is a file's; those of dew_made_open,
 * dew_scenario_case, dew_study_open and dew_study_step.
 */
enum dew_status dew_run_other_year(struct dew_run *run, int number,
                                   struct dew_error *err);

/* The layouts solved, NULL where none were, and what stands around them. */
const struct dew_report_ducts *dew_run_ducts(const struct dew_run *run);
struct dew_ducts_frame dew_run_frame(const struct dew_run *run,
                                     enum dew_system system);

/* Line i of what a reader of the run should know at once; NULL after the
   last. */
const char *dew_run_note(const struct dew_run *run, size_t i);

#ifdef __cplusplus
}
#endif
#endif
