/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The log that a scenario lays beside its model. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/job.h"
#include "core/fail.h"

enum { FAULTS = 50 };

/* Hours by month, day and hour, + 1; 0 where the log has none. */
enum { MONTHS = 12, DAYS = 31, HOURS = 24 };
typedef size_t calendar[MONTHS][DAYS][HOURS];

static size_t *place(calendar places, const struct dew_date *d)
{
    return &places[d->month - 1][d->day - 1][d->hour - 1];
}

/* The last hour logged of each place. */
static void enter(calendar places, const struct dew_log *log)
{
    size_t count;
    const struct dew_date *dates = dew_log_dates(log, &count);
    const struct dew_log_hour *hours = dew_log_hours(log, &count);

    memset(places, 0, sizeof(calendar));
    for (size_t k = 0; k < count; k++)
        if (!isnan(hours[k].rh))
            *place(places, &dates[k]) = k + 1;
}

/* The log's hours where the year has them: how many there are.  A year that
   mixes years has none of them: month, day and hour have to do. */
static size_t align(struct dew__job *job, double *t, double *rh)
{
    size_t count, logged, found = 0;
    const struct dew_date *dates = dew_year_dates(job->year, &count);
    const struct dew_log_hour *hours = dew_log_hours(job->log, &logged);
    calendar places;

    enter(places, job->log);
    for (size_t h = 0; h < count; h++) {
        size_t k = dates[h].year == 0 ? *place(places, &dates[h]) : 0;
        const struct dew_log_hour *at =
            k > 0 ? &hours[k - 1] : dew_log_at(job->log, &dates[h]);

        t[h] = at != NULL ? at->t : NAN;
        rh[h] = at != NULL ? at->rh : NAN;
        found += isnan(rh[h]) ? 0 : 1;
    }
    return found;
}

static int read_log(struct dew__job *job, const char *path,
                    const struct dew_log_ask *ask,
                    struct dew_log_report *report)
{
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};

    if (dew_log_read(&job->log, path, ask, report, &faults) != DEW_OK)
        return dew__cli_input_faults(&faults);
    return dew__job_sum(path, job->log_hash);
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

static int no_humidity(const char *found, const struct dew_weather_report *file)
{
    struct dew_error err = {0};
    const char *unread = file->unread;

    dew__at(&err, found, file->header_line, 1);
    dew__in(&err, "humidity");
    if (has_humidity(file))
        dew__fail(&err, DEW_EMISSING, "its column has no value in any hour");
    else
        dew__fail(&err, DEW_EMISSING,
                  "no column is known as a humidity%s%.120s%s: name one "
                  "\"relative humidity (%%)\" or \"dew point (degC)\"",
                  unread[0] ? " (not understood: " : "", unread,
                  unread[0] ? ")" : "");
    return dew__cli_error(&err);
}

static int no_hour(const struct dew__job *job, const char *path)
{
    struct dew_error err = {0};

    dew__job_about(job, path, "log.file", &err);
    dew__fail(&err, DEW_EMISSING,
              "no hour of the log is among the hours of the weather: a log "
              "wants the weather of its own days, in weather.file");
    return dew__cli_error(&err);
}

int dew__job_log(struct dew__job *job, const char *path)
{
    const struct dew_log_request ask = dew_scenario_log(job->scenario);
    struct dew_log_report report = {.hours = 0};
    char found[DEW__PATH];
    size_t count;
    int code;

    if (ask.file[0] == '\0')
        return DEW__DONE;
    code = dew__job_find(job, path, "log.file", ask.file, found);
    if (code == DEW__DONE)
        code = read_log(job, found, &ask.ask, &report);
    if (code != DEW__DONE)
        return code;
    if (report.without_rh == report.hours)
        return no_humidity(found, &report.file);
    if (job->year == NULL)
        return DEW__DONE;
    (void)dew_year_hours(job->year, &count);
    job->hours = calloc(4 * count, sizeof *job->hours);
    if (job->hours == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    job->measured =
        (struct dew_measured){job->hours, job->hours + count, count};
    job->held = ask.held;
    if (align(job, job->hours, job->hours + count) > 0) {
        dew__job_lay(job, found, &ask.ask, &report);
        return DEW__DONE;
    }
    return no_hour(job, path);
}

void dew__job_log_close(struct dew__job *job)
{
    dew_log_close(job->log);
    free(job->hours);
    job->log = NULL;
    job->hours = NULL;
    job->measured = (struct dew_measured){NULL, NULL, 0};
}
