/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a scenario and its weather for a command. */
#include "cli/job.h"

#include <stdio.h>
#include <string.h>

#include "cli/load.h"
#include "core/fail.h"
#include "dew/sun.h"

enum { GROUPS = 1000 };

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

static int worse(int a, int b)
{
    return a > b ? a : b;
}

/* Each option as a case of this weather. */
static int check_cases(const struct dew__job *job, const char *path)
{
    int code = DEW__DONE;

    for (size_t k = 0; k < dew_scenario_count(job->scenario); k++) {
        struct dew_error err = {0};
        struct dew_case c;

        dew__at(&err, path, 0, 0);
        if (dew_scenario_case(job->scenario, k, &job->outdoors, NULL, &c,
                              &err) != DEW_OK)
            code = worse(code, dew__cli_error(&err));
    }
    return code;
}

/* Whether the scenario names any; where its group is misspelt it does not, and
   that was said. */
static int asks_for_weather(const struct dew__job *job)
{
    const struct dew_weather_request ask = dew_scenario_weather(job->scenario);

    return ask.place[0] != '\0' || ask.file[0] != '\0' ||
           ask.monthly[0] != '\0';
}

static int check_weather(struct dew__job *job, const char *path, int sound)
{
    struct dew_error err = {0};
    int code;

    if (!asks_for_weather(job))
        return DEW__DONE;
    code = dew__job_weather(job, path);
    if (code != DEW__DONE) {
        dew_year_close(job->year); /* as far as it was read */
        job->year = NULL;
        return code;
    }
    if (dew_scenario_outdoors(job->year, &job->outdoors, &err) != DEW_OK)
        return dew__cli_error(&err);
    return sound ? check_cases(job, path) : DEW__DONE;
}

int dew__job_check(struct dew__job *job, const char *path,
                   const struct dew__cli *c)
{
    char groups[GROUPS];
    int code;

    memset(job, 0, sizeof *job);
    code = dew__cli_look(path, c, &job->scenario, groups, sizeof groups);
    if (job->scenario == NULL)
        return code;
    if (strstr(groups, "weather,") == NULL)
        code = worse(code, check_weather(job, path, code == DEW__DONE));
    if (strstr(groups, "log,") == NULL)
        code = worse(code, dew__job_log(job, path));
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
