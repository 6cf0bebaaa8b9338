/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The log that a scenario lays beside its model. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "cli/job.h"
#include "core/fail.h"

enum { FAULTS = 50 };

/* A year that mixes years has no hour of the log: month, day and hour do. */
static const struct dew_log_hour *alike(const struct dew_log *log,
                                        const struct dew_date *d)
{
    size_t count;
    const struct dew_date *dates = dew_log_dates(log, &count);
    const struct dew_log_hour *hours = dew_log_hours(log, &count);

    for (size_t k = count; k-- > 0;)
        if (dates[k].month == d->month && dates[k].day == d->day &&
            dates[k].hour == d->hour && !isnan(hours[k].rh))
            return &hours[k];
    return NULL;
}

/* The log's hours where the year has them: how many there are. */
static size_t align(struct dew__job *job, double *t, double *rh)
{
    size_t count, found = 0;
    const struct dew_date *dates = dew_year_dates(job->year, &count);

    for (size_t h = 0; h < count; h++) {
        const struct dew_log_hour *at = dates[h].year != 0
                                            ? dew_log_at(job->log, &dates[h])
                                            : alike(job->log, &dates[h]);

        t[h] = at != NULL ? at->t : NAN;
        rh[h] = at != NULL ? at->rh : NAN;
        found += isnan(rh[h]) ? 0 : 1;
    }
    job->measured = (struct dew_measured){t, rh, count};
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

int dew__job_log(struct dew__job *job, const char *path)
{
    const struct dew_log_request ask = dew_scenario_log(job->scenario);
    struct dew_log_report report = {.hours = 0};
    struct dew_error err = {0};
    char found[DEW__PATH];
    double *t, *rh;
    size_t count;
    int code;

    if (ask.file[0] == '\0')
        return DEW__DONE;
    code = dew__job_find(job, path, "log.file", ask.file, found);
    if (code == DEW__DONE)
        code = read_log(job, found, &ask.ask, &report);
    if (code != DEW__DONE)
        return code;
    (void)dew_year_hours(job->year, &count);
    t = calloc(count, sizeof *t);
    rh = calloc(count, sizeof *rh);
    job->measured = (struct dew_measured){t, rh, count};
    job->held = ask.held;
    if (t == NULL || rh == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    if (align(job, t, rh) > 0)
        return dew__job_lay(job, found, &ask.ask, &report);
    dew__job_about(job, path, "log.file", &err);
    dew__fail(&err, DEW_EMISSING,
              "no hour of the log is among the hours of the weather: a log "
              "wants the weather of its own days, in weather.file");
    return dew__cli_error(&err);
}

void dew__job_log_close(struct dew__job *job)
{
    dew_log_close(job->log);
    free((void *)(uintptr_t)job->measured.t);
    free((void *)(uintptr_t)job->measured.rh);
    free(job->dew_points);
    job->log = NULL;
    job->dew_points = NULL;
    job->measured = (struct dew_measured){NULL, NULL, 0};
}
