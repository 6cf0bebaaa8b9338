/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a scenario and its weather for a command. */
#include "cli/job.h"

#include <errno.h>
#include <sha2.h>
#include <string.h>
#include <unistd.h>

#include "cli/load.h"
#include "dew/climate.h"
#include "dew/made.h"
#include "dew/weather.h"

enum { FAULTS = 50, PATH_ROOM = 4096 };

static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? slash + 1 : path;
}

/* ---- the weather ----------------------------------------------------------- */

/* Beside the scenario first, else where the command was given. */
static int weather_path(const char *scenario, const char *file, char *out)
{
    int folder = (int)(name_of(scenario) - scenario);
    int length = snprintf(out, PATH_ROOM, "%.*s%s", file[0] == '/' ? 0 : folder,
                          scenario, file);

    if (length >= PATH_ROOM)
        return 0;
    if (access(out, R_OK) != 0)
        length = snprintf(out, PATH_ROOM, "%s", file);
    return length < PATH_ROOM;
}

static int weather_of_file(struct dew__job *job, const char *scenario,
                           const char *file)
{
    const struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_weather_report report = {.rows = 0};
    char path[PATH_ROOM];

    if (!weather_path(scenario, file, path))
        return dew__cli_fail(DEW__BAD_INPUT, "weather.file: too long a path");
    if (dew_weather_read(&job->year, path, &ask, &report, &faults) != DEW_OK)
        return dew__cli_faults(&faults);
    if (SHA256File(path, job->weather_hash) == NULL)
        return dew__cli_fail(DEW__BAD_INPUT, "%s: %s", path, strerror(errno));
    return DEW__DONE;
}

static int weather_of_place(struct dew__job *job, const char *words)
{
    const struct dew_made how = {.seed = 1};
    struct dew_error err = {0};
    struct dew_climate place;

    if (dew_climate_find(words, &place, &err) != DEW_OK ||
        dew_made_open(&place, &how, &job->year, &err) != DEW_OK)
        return dew__cli_error(&err);
    return DEW__DONE;
}

int dew__job_open(struct dew__job *job, const char *path,
                  const struct dew__cli *c)
{
    struct dew_error err = {0};
    struct dew_weather_request ask;
    const char *text;
    size_t length;
    int code;

    memset(job, 0, sizeof *job);
    code = dew__cli_scenario(path, c, &job->scenario);
    if (code != DEW__DONE)
        return code;
    text = dew_scenario_text(job->scenario, &length);
    dew_report_sha256(text, length, job->scenario_hash);
    ask = dew_scenario_weather(job->scenario);
    code = ask.file[0] != '\0' ? weather_of_file(job, path, ask.file)
                               : weather_of_place(job, ask.place);
    if (code == DEW__DONE &&
        dew_scenario_outdoors(job->year, &job->outdoors, &err) != DEW_OK)
        code = dew__cli_error(&err);
    if (code != DEW__DONE)
        dew__job_close(job);
    return code;
}

void dew__job_close(struct dew__job *job)
{
    dew_year_close(job->year);
    dew_scenario_close(job->scenario);
    job->year = NULL;
    job->scenario = NULL;
}
