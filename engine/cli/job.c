/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a scenario and its weather for a command. */
#include "cli/job.h"

#include <errno.h>
#include <sha2.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <zlib.h>

#include "dew/climate.h"
#include "dew/made.h"
#include "dew/weather.h"

/* A scenario is at most 1 MiB; a byte more is read to see that it is. */
enum { TEXT_ROOM = (1 << 20) + 1, FAULTS = 50, PATH_ROOM = 4096 };

/* ---- the scenario ---------------------------------------------------------- */

static int unreadable(const char *path)
{
    return dew__cli_fail(errno == ENOMEM ? DEW__FAILED : DEW__BAD_INPUT,
                         "%s: could not be read: %s", path, strerror(errno));
}

/* The bytes of a file, plain or gzipped; the caller frees them. */
static char *read_file(const char *path, size_t *length)
{
    char *text = malloc(TEXT_ROOM);
    gzFile file;
    int got;

    if (text == NULL)
        return NULL;
    file = gzopen(path, "rb");
    got = file ? gzread(file, text, TEXT_ROOM) : -1;
    if (file)
        gzclose(file);
    if (got >= 0) {
        *length = (size_t)got;
        return text;
    }
    if (errno == 0)
        errno = EIO;
    free(text);
    return NULL;
}

static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? slash + 1 : path;
}

int dew__job_open_scenario(struct dew__job *job, const char *path,
                           const struct dew__cli *c)
{
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_scenario_source from = {
        .name = name_of(path), .sets = c->sets, .set_count = c->set_count};
    enum dew_status status;
    char *text;

    memset(job, 0, sizeof *job);
    errno = 0;
    text = read_file(path, &from.length);
    if (text == NULL)
        return unreadable(path);
    from.text = text;
    status = dew_scenario_open(&job->scenario, &from, &faults);
    dew_report_sha256(text, from.length, job->scenario_hash);
    free(text);
    if (status != DEW_OK)
        return dew__cli_faults(&faults);
    return DEW__DONE;
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
    struct dew_weather_report report = {{0}};
    char path[PATH_ROOM];

    if (!weather_path(scenario, file, path))
        return dew__cli_fail(DEW__BAD_INPUT, "weather.file: too long a path");
    if (dew_weather_read(&job->year, path, &ask, &report, &faults) != DEW_OK)
        return dew__cli_faults(&faults);
    if (SHA256File(path, job->weather_hash) == NULL)
        return unreadable(path);
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
    int code = dew__job_open_scenario(job, path, c);

    if (code != DEW__DONE)
        return code;
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

enum dew_system dew__job_system(const struct dew__job *job,
                                const struct dew__cli *c)
{
    int system = c->units ? c->units : dew_scenario_system(job->scenario);

    return system == 1 ? DEW_SYSTEM_US : DEW_SYSTEM_SI;
}
