/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A scenario and its weather, read for a command.  What goes wrong is told on
 * stderr as it is met.
 */
#ifndef DEW_CLI_JOB_H
#define DEW_CLI_JOB_H

#include "cli/cli.h"
#include "dew/climate.h"
#include "dew/report.h"
#include "dew/scenario.h"

struct dew__job {
    struct dew_scenario *scenario;
    struct dew_year *year;
    struct dew_outdoors outdoors;
    struct dew_log *log; /* NULL when the scenario names none              */
    struct dew_measured measured; /* of it, an hour of the year each         */
    int held;                     /* 1: the house is held at measured.t     */
    struct dew_report_log laid;   /* the same, with dew points              */
    double *hours; /* owned: t, RH, dew point in and out, a year each   */
    char scenario_hash[DEW_SHA256_TEXT];
    char weather_hash[DEW_SHA256_TEXT]; /* of its file; "" for a place     */
    char notes[DEW_NOTES_MOST + 1][DEW_NOTE_TEXT]; /* of its reading and sky */
    const char *note[DEW_NOTES_MOST + 1];
    size_t note_count;
    char log_hash[DEW_SHA256_TEXT]; /* "" for none                     */
};

/*
 * Read the scenario at path, with the --set of c, and its weather.  Returns
 * DEW__DONE, and then the job is the caller's, for dew__job_close; else the
 * exit code, with nothing to close.
 */
int dew__job_open(struct dew__job *job, const char *path,
                  const struct dew__cli *c);

/*
 * The same without stopping at the first thing that is wrong: everything for
 * which `run` would refuse the scenario is told in one pass.
 */
int dew__job_check(struct dew__job *job, const char *path,
                   const struct dew__cli *c);

/* The part of it that reads or makes the weather that job->scenario names. */
int dew__job_weather(struct dew__job *job, const char *path);

/* The part of it that reads its log; beside the weather where that is there. */
int dew__job_log(struct dew__job *job, const char *path);
void dew__job_log_close(struct dew__job *job);

/* Its last step: job->laid from job->measured and, where the log at path has
   outdoor columns, from those. */
void dew__job_lay(struct dew__job *job, const char *path,
                  const struct dew_log_ask *ask,
                  const struct dew_log_report *read);

/*
 * What the two parts share: the file as found beside the scenario or where
 * the command was given, else a fault told about key; and its SHA-256.
 */
enum { DEW__PATH = 4096 };
int dew__job_find(const struct dew__job *job, const char *scenario,
                  const char *key, const char *file, char found[DEW__PATH]);
int dew__job_sum(const char *path, char hash[DEW_SHA256_TEXT]);
void dew__job_about(const struct dew__job *job, const char *scenario,
                    const char *key, struct dew_error *err);

/*
 * The monthly figures of the place that job->scenario names, or a message that
 * it names a file of hours.  Returns an exit code.
 */
int dew__job_place(const struct dew__job *job, const char *path,
                   struct dew_climate *place);

void dew__job_close(struct dew__job *job);

#endif
