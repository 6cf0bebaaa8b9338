/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A scenario and its weather, read for a command.  What goes wrong is told on
 * stderr as it is met.
 */
#ifndef DEW_CLI_JOB_H
#define DEW_CLI_JOB_H

#include "cli/cli.h"
#include "dew/report.h"
#include "dew/scenario.h"

struct dew__job {
    struct dew_scenario *scenario;
    struct dew_year *year;
    struct dew_outdoors outdoors;
    char scenario_hash[DEW_SHA256_TEXT];
    char weather_hash[DEW_SHA256_TEXT]; /* of its file; "" for a place     */
    char notes[DEW_NOTES_MOST][DEW_NOTE_TEXT]; /* of its reading            */
    const char *note[DEW_NOTES_MOST];
    size_t note_count;
};

/*
 * Read the scenario at path, with the --set of c, and its weather.  Returns
 * DEW__DONE, and then the job is the caller's, for dew__job_close; else the
 * exit code, with nothing to close.
 */
int dew__job_open(struct dew__job *job, const char *path,
                  const struct dew__cli *c);

/* The part of it that reads or makes the weather that job->scenario names. */
int dew__job_weather(struct dew__job *job, const char *path);

void dew__job_close(struct dew__job *job);

#endif
