/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The weather that a scenario asks for: a place, a file, monthly figures. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/made.h"
#include "dew/sun.h"
#include "run/run.h"

enum { FAULTS = 50 };

/* A question about a file is answered beside its name. */
static enum dew_status hint(struct dew_run *r, enum dew_status status)
{
    struct dew_error err = {0};

    if (status != DEW_EAMBIGUOUS && status != DEW_EUNIT &&
        status != DEW_EMISSING)
        return status;
    core__fail(&err, status,
               "the answer belongs in the scenario: weather.order, "
               "weather.clock, weather.station, weather.units, "
               "weather.latitude, weather.longitude, weather.utc, weather.fill "
               "... (see `dewledger explain weather`)");
    return run__fault(r, &err);
}

/* ---- what the scenario answers of its weather file --------------------------- */

struct answers {
    struct dew_weather_ask ask;
    struct run__said said;
    char units[RUN__ANSWER], columns[RUN__ANSWER];
};

static struct dew_column_said *said_of(struct run__said *said,
                                       const char *header)
{
    for (size_t i = 0; i < said->count; i++)
        if (strcmp(said->row[i].header, header) == 0)
            return &said->row[i];
    if (said->count == RUN__SAID)
        return NULL;
    said->row[said->count] = (struct dew_column_said){.header = header};
    return &said->row[said->count++];
}

_Static_assert(RUN__SAID == 32, "as the message says");

const char *run__say(struct run__said *said, char *word, int is_unit)
{
    char *equals = strrchr(word, '=');
    struct dew_column_said *row;

    if (equals == NULL || equals == word || equals[1] == '\0')
        return is_unit ? "write HEADER=UNIT" : "write HEADER=MEANING";
    *equals = '\0';
    row = said_of(said, word);
    if (row == NULL)
        return "more than 32 columns";
    *(is_unit ? &row->unit : &row->meaning) = equals + 1;
    return NULL;
}

enum dew_status run__say_all(struct dew_run *r, const char *key,
                             const char *text, char room[RUN__ANSWER],
                             struct run__said *said)
{
    int is_unit = strstr(key, ".units") != NULL;
    struct dew_error err = {0};
    char *rest, *word;

    run__about(r, key, &err);
    if (snprintf(room, RUN__ANSWER, "%s", text) >= RUN__ANSWER) {
        core__fail(&err, DEW_ERANGE, "longer than %d letters", RUN__ANSWER - 1);
        return run__fault(r, &err);
    }
    for (word = room; *word != '\0'; word = rest) {
        const char *wrong;

        rest = word + strcspn(word, ",");
        if (*rest == ',')
            *rest++ = '\0';
        word += strspn(word, " ");
        wrong = run__say(said, word, is_unit);
        if (wrong == NULL)
            continue;
        core__fail(&err, DEW_ESYNTAX, "%s: %s, several with commas between",
                   word, wrong);
        return run__fault(r, &err);
    }
    return DEW_OK;
}

static enum dew_status take_answers(struct dew_run *r,
                                    const struct dew_weather_request *request,
                                    struct answers *out)
{
    enum dew_status status = run__say_all(r, "weather.units", request->units,
                                          out->units, &out->said);

    out->ask = request->ask;
    out->ask.keep_gaps = request->fill[0] != '\0';
    if (status == DEW_OK)
        status = run__say_all(r, "weather.columns", request->columns,
                              out->columns, &out->said);
    out->ask.said = out->said.row;
    out->ask.said_count = out->said.count;
    return status;
}

/* ---- a file of hours ---------------------------------------------------------- */

enum dew_status run__fill(struct dew_year *year, const char *place,
                          unsigned long seed, struct dew_year_filled *filled,
                          struct dew_error *err)
{
    const struct dew_made how = {.seed = seed};
    struct dew_climate found;
    struct dew_year *from = NULL;
    enum dew_status status = DEW_OK;

    if (place != NULL && place[0] != '\0') {
        status = dew_climate_find(place, &found, err);
        if (status == DEW_OK)
            status = dew_made_open(&found, &how, &from, err);
    }
    if (status == DEW_OK)
        status = dew_year_complete(year, from, filled, err);
    dew_year_close(from);
    return status;
}

static enum dew_status parse(struct dew_run *r, const struct run__file *f,
                             const struct dew_weather_ask *ask,
                             struct dew_weather_report *report)
{
    const struct dew_text text = {f->name, f->bytes, f->length};
    struct dew_faults faults = run__room(r, FAULTS);

    if (dew_weather_parse(&r->year, &text, ask, report, &faults) == DEW_OK)
        return DEW_OK;
    run__faults(r, &faults);
    return hint(r, r->list[0].status);
}

/* lost: of a place to fill from that is not known. */
static enum dew_status of_file(struct dew_run *r, const struct run__file *f,
                               const struct dew_weather_request *request,
                               enum dew_status lost)
{
    struct answers answers = {.said = {.count = 0}};
    struct dew_weather_report report = {.rows = 0};
    struct dew_error err = {0};
    struct dew_year_filled filled;
    enum dew_status status = take_answers(r, request, &answers);

    if (status == DEW_OK)
        status = parse(r, f, &answers.ask, &report);
    if (status != DEW_OK || lost != DEW_OK)
        return status != DEW_OK ? status : lost;
    core__at(&err, f->name, 0, 0);
    if (run__fill(r->year, request->fill, request->seed, &filled, &err) !=
        DEW_OK) {
        run__fault(r, &err);
        return hint(r, err.status);
    }
    r->note_count = dew_weather_notes(&report, r->notes, DEW_NOTES_MOST);
    return DEW_OK;
}

enum dew_status run__weather_air(struct dew_run *r)
{
    const struct dew_weather_request q = dew_scenario_weather(r->scenario);
    struct answers *answers = calloc(1, sizeof *answers);
    struct run__file *f = calloc(1, sizeof *f);
    struct dew_weather_report report = {.rows = 0};
    enum dew_status status = DEW_EMEM;

    if (f == NULL || answers == NULL)
        run__memory(r);
    else if ((status = run__file(r, "weather.file", q.file, r->hashes[1], f)) ==
                 DEW_OK &&
             (status = take_answers(r, &q, answers)) == DEW_OK) {
        answers->ask.keep_gaps = 1;
        status = parse(r, f, &answers->ask, &report);
    }
    if (f != NULL)
        free(f->bytes);
    free(f);
    free(answers);
    return status;
}

/* ---- a made year --------------------------------------------------------------- */

static enum dew_status make(struct dew_run *r, unsigned long seed)
{
    const struct dew_made how = {.seed = seed};
    struct dew_error err = {0};

    return dew_made_open(&r->place, &how, &r->year, &err) == DEW_OK
               ? DEW_OK
               : run__fault(r, &err);
}

static enum dew_status find_place(struct dew_run *r, const char *key,
                                  const char *words, struct dew_climate *place)
{
    struct dew_error err = {0};

    run__about(r, key, &err);
    return dew_climate_find(words, place, &err) == DEW_OK ? DEW_OK
                                                          : run__fault(r, &err);
}

static enum dew_status read_months(struct dew_run *r, struct run__file *f)
{
    struct dew_faults faults = run__room(r, FAULTS);
    struct dew_error err = {0};

    core__at(&err, f->name, 0, 0);
    if (run__unpack(&f->bytes, &f->length, &err) != DEW_OK)
        return run__fault(r, &err);
    return dew_climate_read(f->bytes, f->length, f->name, &r->place, &faults) ==
                   DEW_OK
               ? DEW_OK
               : run__faults(r, &faults);
}

/* ---- which of them -------------------------------------------------------------- */

static enum dew_status named(struct dew_run *r, const char *key,
                             const char *name,
                             const struct dew_weather_request *request,
                             enum dew_status lost)
{
    struct run__file *f = calloc(1, sizeof *f);
    enum dew_status status;

    if (f == NULL)
        return run__memory(r);
    status = run__file(r, key, name, r->hashes[1], f);
    if (status == DEW_OK && request->file[0] != '\0')
        status = of_file(r, f, request, lost);
    else if (status == DEW_OK)
        status = read_months(r, f);
    if (status == DEW_OK && request->file[0] == '\0')
        status = make(r, request->seed);
    free(f->bytes);
    free(f);
    return status;
}

/* Which sky the house loses heat to. */
static void say_sky(struct dew_run *r)
{
    snprintf(r->notes[r->note_count++], sizeof r->notes[0],
             "the sky's temperature %s, unless insulation.sky gives it",
             dew_sky_words(dew_year_sky(r->year)));
    for (size_t i = 0; i < r->note_count; i++)
        r->note[i] = r->notes[i];
}

static enum dew_status read_it(struct dew_run *r,
                               const struct dew_weather_request *q)
{
    enum dew_status lost = DEW_OK;
    struct dew_climate fill;

    if (q->file[0] == '\0' && q->monthly[0] == '\0')
        return find_place(r, "weather.place", q->place, &r->place) == DEW_OK
                   ? make(r, q->seed)
                   : r->status;
    if (q->fill[0] != '\0')
        lost = find_place(r, "weather.fill", q->fill, &fill);
    return q->file[0] != '\0'
               ? named(r, "weather.file", q->file, q, lost)
               : named(r, "weather.monthly", q->monthly, q, lost);
}

/* All that run__weather would come to. */
static enum dew_status share(struct dew_run *r, const struct dew_run *of)
{
    r->place = of->place;
    r->year = of->year;
    r->lent = 1;
    r->outdoors = of->outdoors;
    r->note_count = of->note_count;
    memcpy(r->notes, of->notes, sizeof r->notes);
    memcpy(r->hashes[1], of->hashes[1], sizeof r->hashes[1]);
    for (size_t i = 0; i < r->note_count; i++)
        r->note[i] = r->notes[i];
    return DEW_OK;
}

enum dew_status run__weather(struct dew_run *r)
{
    const struct dew_weather_request q = dew_scenario_weather(r->scenario);
    struct dew_error err = {0};
    enum dew_status status;

    if (r->ask->weather_of != NULL)
        return share(r, r->ask->weather_of);

    if (r->job == DEW_RUN_YEARS && q.file[0] != '\0') {
        run__about(r, "weather.file", &err);
        core__fail(&err, DEW_EMISSING,
                   "a file has its own years: name weather.place or "
                   "weather.monthly, as with --set weather.place=726580");
        return run__fault(r, &err);
    }
    status = read_it(r, &q);
    if (status != DEW_OK)
        return status;
    if (dew_scenario_outdoors(r->year, &r->outdoors, &err) != DEW_OK)
        return run__fault(r, &err);
    say_sky(r);
    return DEW_OK;
}
