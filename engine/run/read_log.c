/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The log that a scenario lays beside its model. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/run.h"

enum { FAULTS = 50 };

size_t *run__place(run__calendar places, const struct dew_date *d)
{
    return &places[d->month - 1][d->day - 1][d->hour - 1];
}

/* The last hour logged of each place, + 1; 0 where the log has none. */
static void enter(run__calendar places, const struct dew_log *log)
{
    size_t count;
    const struct dew_date *dates = dew_log_dates(log, &count);
    const struct dew_log_hour *hours = dew_log_hours(log, &count);

    memset(places, 0, sizeof(run__calendar));
    for (size_t k = 0; k < count; k++)
        if (!isnan(hours[k].rh))
            *run__place(places, &dates[k]) = k + 1;
}

/* The log's hours where the year has them: how many there are.  A year that
   mixes years has none of them: month, day and hour have to do. */
static size_t align(struct dew_run *r, run__calendar places, double *t,
                    double *rh)
{
    size_t count, logged, found = 0;
    const struct dew_date *dates = dew_year_dates(r->year, &count);
    const struct dew_log_hour *hours = dew_log_hours(r->log, &logged);

    enter(places, r->log);
    for (size_t h = 0; h < count; h++) {
        size_t k = dates[h].year == 0 ? *run__place(places, &dates[h]) : 0;
        const struct dew_log_hour *at =
            k > 0 ? &hours[k - 1] : dew_log_at(r->log, &dates[h]);

        t[h] = at != NULL ? at->t : NAN;
        rh[h] = at != NULL ? at->rh : NAN;
        found += isnan(rh[h]) ? 0 : 1;
    }
    return found;
}

static enum dew_status parse(struct dew_run *r, const struct dew_text *text,
                             const struct dew_log_ask *ask,
                             struct dew_log_report *report)
{
    struct dew_faults faults = run__room(r, FAULTS);

    return dew_log_parse(&r->log, text, ask, report, &faults) == DEW_OK
               ? DEW_OK
               : run__faults(r, &faults);
}

static int has_humidity(const struct dew_weather_report *file)
{
    static const char *const meanings[] = {"relative humidity", "dew point",
                                           "humidity ratio"};

    for (int i = 0; i < file->column_count; i++)
        for (size_t k = 0; k < sizeof meanings / sizeof meanings[0]; k++)
            if (strcmp(file->columns[i].meaning, meanings[k]) == 0)
                return 1;
    return 0;
}

enum dew_status run__no_humidity(struct dew_run *r, const char *found,
                                 const struct dew_weather_report *file)
{
    struct dew_error err = {0};
    const char *unread = file->unread;

    core__at(&err, found, file->header_line, 1);
    core__in(&err, "humidity");
    if (has_humidity(file))
        core__fail(&err, DEW_EMISSING, "its column has no value in any hour");
    else
        core__fail(&err, DEW_EMISSING,
                   "no column is known as a humidity%s%.120s%s: name one "
                   "\"relative humidity (%%)\" or \"dew point (degC)\"",
                   unread[0] ? " (not understood: " : "", unread,
                   unread[0] ? ")" : "");
    return run__fault(r, &err);
}

static enum dew_status no_hour(struct dew_run *r)
{
    struct dew_error err = {0};

    run__about(r, "log.file", &err);
    core__fail(&err, DEW_EMISSING,
               "no hour of the log is among the hours of the weather: a log "
               "wants the weather of its own days, in weather.file");
    return run__fault(r, &err);
}

/* The log's hours beside those of the year. */
static enum dew_status beside(struct dew_run *r, const struct dew_text *text,
                              const struct dew_log_ask *ask,
                              const struct dew_log_report *report)
{
    run__calendar *places = malloc(sizeof *places);
    enum dew_status status = DEW_OK;
    size_t count;

    (void)dew_year_hours(r->year, &count);
    r->hours = calloc(4 * count, sizeof *r->hours);
    if (places == NULL || r->hours == NULL) {
        free(places);
        return run__memory(r);
    }
    r->measured = (struct dew_measured){r->hours, r->hours + count, count};
    if (align(r, *places, r->hours, r->hours + count) == 0)
        status = no_hour(r);
    else
        run__lay(r, *places, text, ask, report);
    free(places);
    return status;
}

static enum dew_status of_file(struct dew_run *r, const struct run__file *f,
                               const struct dew_log_ask *ask)
{
    const struct dew_text text = {f->name, f->bytes, f->length};
    struct dew_log_report report = {.hours = 0};
    enum dew_status status = parse(r, &text, ask, &report);

    if (status != DEW_OK)
        return status;
    if (report.without_rh == report.hours)
        return run__no_humidity(r, f->name, &report.file);
    return r->year != NULL ? beside(r, &text, ask, &report) : DEW_OK;
}

enum dew_status run__log_answers(struct dew_run *r,
                                 struct run__log_answers *out)
{
    const struct dew_log_request q = dew_scenario_log(r->scenario);
    enum dew_status status;

    out->ask = q.ask;
    status = run__say_all(r, "log.units", q.units, out->units, &out->said);
    if (status == DEW_OK)
        status =
            run__say_all(r, "log.columns", q.columns, out->columns, &out->said);
    out->ask.said = out->said.row;
    out->ask.said_count = out->said.count;
    return status;
}

enum dew_status run__log(struct dew_run *r)
{
    const struct dew_log_request q = dew_scenario_log(r->scenario);
    struct run__log_answers *answers;
    struct run__file *f;
    enum dew_status status = DEW_EMEM;

    if (q.file[0] == '\0')
        return DEW_OK;
    f = calloc(1, sizeof *f);
    answers = calloc(1, sizeof *answers);
    r->held = q.held;
    if (f == NULL || answers == NULL)
        run__memory(r);
    else if ((status = run__log_answers(r, answers)) == DEW_OK &&
             (status = run__file(r, "log.file", q.file, r->hashes[2], f)) ==
                 DEW_OK)
        status = of_file(r, f, &answers->ask);
    if (f != NULL)
        free(f->bytes);
    free(f);
    free(answers);
    return status;
}
