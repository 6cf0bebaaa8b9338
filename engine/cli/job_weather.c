/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The weather that a scenario asks for: a place, a file, monthly figures. */
#include <errno.h>
#include <sha2.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/job.h"
#include "cli/load.h"
#include "cli/weather.h"
#include "core/fail.h"
#include "core/in.h"
#include "dew/climate.h"
#include "dew/made.h"
#include "dew/weather.h"

enum { FAULTS = 50, ANSWER = 1024 };

static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? slash + 1 : path;
}

/* Beside the scenario first, else where the command was given. */
static int beside(const char *scenario, const char *file, char *out)
{
    int folder = (int)(name_of(scenario) - scenario);
    int length = snprintf(out, DEW__PATH, "%.*s%s", file[0] == '/' ? 0 : folder,
                          scenario, file);

    if (length >= DEW__PATH)
        return 0;
    if (access(out, R_OK) != 0)
        length = snprintf(out, DEW__PATH, "%s", file);
    return length < DEW__PATH;
}

/* An error to come is about this key, where the scenario or --set gave it. */
void dew__job_about(const struct dew__job *job, const char *path,
                    const char *key, struct dew_error *err)
{
    size_t count, i = 0;
    const struct dew_field *f = dew_scenario_fields(&count);
    const struct dew_origin *o;

    while (i + 1 < count && strcmp(f[i].path, key) != 0)
        i++;
    o = &dew_scenario_base(job->scenario)[i].origin;
    dew__at(err, o->by == DEW_BY_SET ? "--set" : path, o->line, o->column);
    dew__in(err, key);
}

int dew__job_sum(const char *path, char hash[DEW_SHA256_TEXT])
{
    const char *why;
    int file = dew__in_open(path, DEW__IN_FILE, &why);

    if (file < 0)
        return dew__cli_fail(DEW__BAD_INPUT, "%s: %s", path, why);
    close(file);
    if (SHA256File(path, hash) == NULL)
        return dew__cli_fail(DEW__BAD_INPUT, "%s: %s", path, strerror(errno));
    return DEW__DONE;
}

/* A question about a file is answered beside its name. */
static int hint(int code, enum dew_status status)
{
    if (status == DEW_EAMBIGUOUS || status == DEW_EUNIT ||
        status == DEW_EMISSING)
        fputs("dewledger: the answer belongs in the scenario: weather.order, "
              "weather.clock, weather.station, weather.units, "
              "weather.latitude, weather.longitude, weather.utc, weather.fill "
              "... (see `dewledger explain weather`)\n",
              stderr);
    return code;
}

/* What the scenario answers of its weather file. */
struct answers {
    struct dew_weather_ask ask;
    struct dew__weather_said said;
    char units[ANSWER], columns[ANSWER];
};

/* Columns said in the text of a key, commas between; room is ANSWER long and
   kept. */
static int say(const struct dew__job *job, const char *scenario, int is_unit,
               const char *text, char *room, struct dew__weather_said *said)
{
    struct dew_error err = {0};
    char *rest, *word;

    dew__job_about(job, scenario, is_unit ? "weather.units" : "weather.columns",
                   &err);
    if (snprintf(room, ANSWER, "%s", text) >= ANSWER) {
        dew__fail(&err, DEW_ERANGE, "longer than %d letters", ANSWER - 1);
        return dew__cli_error(&err);
    }
    for (word = room; *word != '\0'; word = rest) {
        const char *wrong;

        rest = word + strcspn(word, ",");
        if (*rest == ',')
            *rest++ = '\0';
        word += strspn(word, " ");
        wrong = dew__weather_say(said, word, is_unit);
        if (wrong == NULL)
            continue;
        dew__fail(&err, DEW_ESYNTAX, "%s: %s, several with commas between",
                  word, wrong);
        return dew__cli_error(&err);
    }
    return DEW__DONE;
}

static int take_answers(const struct dew__job *job, const char *scenario,
                        const struct dew_weather_request *request,
                        struct answers *out)
{
    int code = say(job, scenario, 1, request->units, out->units, &out->said);

    if (code == DEW__DONE)
        code =
            say(job, scenario, 0, request->columns, out->columns, &out->said);
    out->ask = request->ask;
    out->ask.keep_gaps = request->fill[0] != '\0';
    out->ask.said = out->said.row;
    out->ask.said_count = out->said.count;
    return code;
}

static int make(struct dew__job *job, const struct dew_climate *place,
                unsigned long seed)
{
    const struct dew_made how = {.seed = seed};
    struct dew_error err = {0};

    if (dew_made_open(place, &how, &job->year, &err) != DEW_OK)
        return dew__cli_error(&err);
    return DEW__DONE;
}

static int read_months(const char *path, struct dew_climate *place)
{
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    size_t length;
    char *text = dew__cli_text(path, &length);
    int code = DEW__DONE;

    if (text == NULL)
        return DEW__BAD_INPUT;
    if (dew_climate_read(text, length, path, place, &faults) != DEW_OK)
        code = dew__cli_input_faults(&faults);
    free(text);
    return code;
}

static int find_place(const struct dew__job *job, const char *scenario,
                      const char *key, const char *words,
                      struct dew_climate *place)
{
    struct dew_error err = {0};

    dew__job_about(job, scenario, key, &err);
    if (dew_climate_find(words, place, &err) != DEW_OK)
        return dew__cli_error(&err);
    return DEW__DONE;
}

/* lost: an exit code, of a place to fill from that is not known. */
static int of_file(struct dew__job *job, const char *scenario, const char *path,
                   const struct dew_weather_request *request, int lost)
{
    struct answers answers = {.said = {.count = 0}};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_weather_report report = {.rows = 0};
    struct dew_year_filled filled;
    struct dew_error err = {0};
    int code = take_answers(job, scenario, request, &answers);

    if (code != DEW__DONE)
        return code;
    if (dew_weather_read(&job->year, path, &answers.ask, &report, &faults) !=
        DEW_OK)
        return hint(dew__cli_input_faults(&faults), list[0].status);
    if (lost != DEW__DONE)
        return lost;
    dew__at(&err, path, 0, 0);
    if (dew__weather_fill(job->year, request->fill, request->seed, &filled,
                          &err) != DEW_OK)
        return hint(dew__cli_error(&err), err.status);
    job->note_count = dew_weather_notes(&report, job->notes, DEW_NOTES_MOST);
    for (size_t i = 0; i < job->note_count; i++)
        job->note[i] = job->notes[i];
    return dew__job_sum(path, job->weather_hash);
}

int dew__job_find(const struct dew__job *job, const char *scenario,
                  const char *key, const char *file, char found[DEW__PATH])
{
    struct dew_error err = {0};

    dew__job_about(job, scenario, key, &err);
    if (!beside(scenario, file, found))
        dew__fail(&err, DEW_ERANGE, "too long a path");
    else if (access(found, R_OK) != 0)
        dew__fail(&err, DEW_EUNKNOWN,
                  "%s: %s (looked for beside the scenario, then where the "
                  "command was given)",
                  file, strerror(errno));
    return err.status == DEW_OK ? DEW__DONE : dew__cli_error(&err);
}

/* A year made from the months of a file. */
static int of_months(struct dew__job *job, const char *path, unsigned long seed)
{
    struct dew_climate place;
    int code = read_months(path, &place);

    if (code == DEW__DONE)
        code = make(job, &place, seed);
    return code == DEW__DONE ? dew__job_sum(path, job->weather_hash) : code;
}

int dew__job_place(const struct dew__job *job, const char *path,
                   struct dew_climate *place)
{
    const struct dew_weather_request ask = dew_scenario_weather(job->scenario);
    struct dew_error err = {0};
    char found[DEW__PATH];
    int code;

    if (ask.place[0] != '\0')
        return find_place(job, path, "weather.place", ask.place, place);
    if (ask.monthly[0] == '\0') {
        dew__job_about(job, path, "weather.file", &err);
        dew__fail(&err, DEW_EMISSING,
                  "a file has its own years: name weather.place or "
                  "weather.monthly, as with --set weather.place=726580");
        return dew__cli_error(&err);
    }
    code = dew__job_find(job, path, "weather.monthly", ask.monthly, found);
    return code == DEW__DONE ? read_months(found, place) : code;
}

int dew__job_weather(struct dew__job *job, const char *path)
{
    const struct dew_weather_request ask = dew_scenario_weather(job->scenario);
    int hours = ask.file[0] != '\0', months = ask.monthly[0] != '\0';
    int code, lost = DEW__DONE;
    struct dew_climate place;
    char found[DEW__PATH];

    if (!hours && !months) {
        code = find_place(job, path, "weather.place", ask.place, &place);
        return code == DEW__DONE ? make(job, &place, ask.seed) : code;
    }
    if (ask.fill[0] != '\0')
        lost = find_place(job, path, "weather.fill", ask.fill, &place);
    code = dew__job_find(job, path, hours ? "weather.file" : "weather.monthly",
                         hours ? ask.file : ask.monthly, found);
    if (code == DEW__DONE)
        code = hours ? of_file(job, path, found, &ask, lost)
                     : of_months(job, found, ask.seed);
    return code != DEW__DONE ? code : lost;
}
