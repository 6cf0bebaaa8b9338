/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a scenario and its weather for a command. */
#include "cli/job.h"

#include <stdio.h>
#include <string.h>

#include "cli/load.h"
#include "dew/sky.h"

/* Which sky the house loses heat to. */
static void say_sky(struct dew__job *job)
{
    char *note = job->notes[job->note_count];

    snprintf(note, sizeof job->notes[0],
             "the sky's temperature %s, unless insulation.sky gives it",
             dew_sky_words(dew_year_sky(job->year)));
    job->note[job->note_count++] = note;
}

int dew__job_open(struct dew__job *job, const char *path,
                  const struct dew__cli *c)
{
    struct dew_error err = {0};
    const char *text;
    size_t length;
    int code;

    memset(job, 0, sizeof *job);
    code = dew__cli_scenario(path, c, &job->scenario);
    if (code != DEW__DONE)
        return code;
    text = dew_scenario_text(job->scenario, &length);
    dew_report_sha256(text, length, job->scenario_hash);
    code = dew__job_weather(job, path);
    if (code == DEW__DONE &&
        dew_scenario_outdoors(job->year, &job->outdoors, &err) != DEW_OK)
        code = dew__cli_error(&err);
    if (code == DEW__DONE)
        say_sky(job);
    if (code == DEW__DONE)
        code = dew__job_log(job, path);
    if (code != DEW__DONE)
        dew__job_close(job);
    return code;
}

void dew__job_close(struct dew__job *job)
{
    dew__job_log_close(job);
    dew_year_close(job->year);
    dew_scenario_close(job->scenario);
    job->year = NULL;
    job->scenario = NULL;
}
