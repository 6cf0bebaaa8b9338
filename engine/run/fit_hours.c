/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hours of a log's files beside each other and the outdoors. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "dew/air.h"
#include "run/fit.h"
#include "weather/calendar.h"

enum { FAULTS = 8 };
static const size_t YEARS_MOST = 20; /* our own: a wrong year in a file    */

static enum dew_status no_outdoors(struct dew_run *r, const char *log)
{
    struct dew_error err = {0};

    core__at(&err, log, 0, 0);
    core__fail(&err, DEW_EMISSING,
               "no outdoor temperature and humidity beside the indoor ones: "
               "give the weather of the log's own days as weather.file, in the "
               "scenario or with --set weather.file=FILE");
    return run__fault(r, &err);
}

/* ---- the hours that there are ------------------------------------------------ */

static const struct dew_log *log_of(const struct dew_fit *f, size_t k)
{
    return k > 0 ? f->joined[k] : f->run->log;
}

/* From the first hour of any file to the last. */
static enum dew_status span(struct dew_fit *f, const char *name)
{
    int64_t first = INT64_MAX, last = INT64_MIN;
    struct dew_error err = {0};

    for (size_t k = 0; k < f->logs; k++) {
        size_t count;
        const struct dew_date *d = dew_log_dates(log_of(f, k), &count);
        int64_t a = weather__moment_of(&d[0]),
                b = weather__moment_of(&d[count - 1]);

        first = a < first ? a : first;
        last = b > last ? b : last;
    }
    f->first = first;
    f->count = (size_t)((last - first) / WEATHER__HOUR) + 1;
    if (f->count <= YEARS_MOST * 8784)
        return DEW_OK;
    core__at(&err, name, 0, 0);
    core__fail(&err, DEW_ERANGE, "more than %zu years from first to last",
               YEARS_MOST);
    return run__fault(f->run, &err);
}

/* Where an hour stands, or f->count. */
static size_t place(const struct dew_fit *f, const struct dew_date *date)
{
    int64_t k = date->year == 0
                    ? -1
                    : (weather__moment_of(date) - f->first) / WEATHER__HOUR;

    return k < 0 || k >= (int64_t)f->count ? f->count : (size_t)k;
}

/* A log's figures at its hours, where there are none yet. */
static void lay(const struct dew_fit *f, const struct dew_log *log, double *t,
                double *rh)
{
    size_t count;
    const struct dew_log_hour *of = dew_log_hours(log, &count);
    const struct dew_date *dates = dew_log_dates(log, &count);

    for (size_t h = 0; h < count; h++) {
        size_t k = place(f, &dates[h]);

        if (k == f->count)
            continue;
        if (isnan(t[k]))
            t[k] = of[h].t;
        if (isnan(rh[k]))
            rh[k] = of[h].rh;
    }
}

static double co2_of(const struct dew_log_hour *h)
{
    return h->co2;
}

static double cool_of(const struct dew_log_hour *h)
{
    return h->cool;
}

static double fan_of(const struct dew_log_hour *h)
{
    return h->fan;
}

/* A figure beside, of the first file that has it; 1 where one does. */
static int lay_beside(const struct dew_fit *f,
                      double of(const struct dew_log_hour *h), double *to)
{
    int has = 0;

    for (size_t k = 0; k < f->count; k++)
        to[k] = NAN;
    for (size_t i = f->logs; i-- > 0;) {
        size_t count;
        const struct dew_log_hour *hours = dew_log_hours(log_of(f, i), &count);
        const struct dew_date *dates = dew_log_dates(log_of(f, i), &count);

        for (size_t h = 0; h < count; h++)
            if (!isnan(of(&hours[h]))) {
                to[place(f, &dates[h])] = of(&hours[h]);
                has = 1;
            }
    }
    return has;
}

/* The outdoor columns of a file, which may have none; a unit of theirs is asked
   for where there is no other outdoors. */
static struct dew_log *outdoors_of(const struct dew_fit *f, const char *name,
                                   const struct dew_log_ask *how,
                                   struct dew_log_report *read)
{
    const struct dew_text text = {.name = name};
    struct dew_log_ask outside = *how;
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_log *log;

    outside.outdoors = 1;
    if (dew_log_parse(&log, &text, &outside, read, &faults) == DEW_EMEM)
        run__memory(f->run);
    else if (log == NULL && list[0].status == DEW_EUNIT &&
             dew_scenario_weather(f->run->scenario).file[0] == '\0')
        run__faults(f->run, &faults);
    return log;
}

static void lay_outdoors(struct dew_fit *f, const struct dew_fit_ask *ask,
                         const struct dew_log_ask *how,
                         struct dew_log_report *read, double *t, double *rh)
{
    for (size_t k = 0; k < ask->log_count; k++) {
        struct dew_log *log = outdoors_of(f, ask->logs[k], how, read);

        if (log != NULL)
            lay(f, log, t, rh);
        dew_log_close(log);
    }
}

enum dew_status run__fit_say_units(struct dew_run *r)
{
    int told = r->faults != NULL && r->faults->room > 0;
    struct dew_error err = {0};

    core__fail(&err, DEW_EUNIT,
               "answer with --set \"log.units=%s=degC\", several with commas "
               "between, or in the scenario",
               told ? r->faults->list[0].path : "NAME");
    return run__fault(r, &err);
}

void run__fit_outdoor_units(struct dew_fit *f, const char *name,
                            const struct dew_log_ask *how)
{
    struct dew_log_report *read = calloc(1, sizeof *read);

    if (read == NULL)
        run__memory(f->run);
    else
        dew_log_close(outdoors_of(f, name, how, read));
    free(read);
}

static void lay_weather(struct dew_fit *f)
{
    size_t count;
    const struct dew_hour *out = dew_year_hours(f->run->year, &count);
    const struct dew_date *dates = dew_year_dates(f->run->year, &count);

    for (size_t h = 0; h < count; h++) {
        size_t k = place(f, &dates[h]);

        if (k == f->count)
            continue;
        f->hours[k].t_out = out[h].t;
        f->hours[k].pv_out = dew_air_pv(out[h].w, out[h].p);
    }
}

/* Indoors, all files together; t and rh of the outdoors NaN. */
static void lay_indoors(struct dew_fit *f, const struct dew_log_ask *ask,
                        double *t, double *rh)
{
    for (size_t k = 0; k < f->count; k++)
        t[k] = rh[k] = NAN;
    for (size_t i = 0; i < f->logs; i++)
        lay(f, log_of(f, i), t, rh);
    for (size_t k = 0; k < f->count; k++) {
        struct dew_date clock;

        weather__date_of(f->first + (int64_t)k * WEATHER__HOUR, 0,
                         &f->dates[k]);
        clock = dew_weather_by_clock(&f->dates[k], ask->clock, ask->utc_offset);

        f->hours[k] = (struct dew_evidence_hour){.t_in = t[k],
                                                 .rh = rh[k],
                                                 .t_out = NAN,
                                                 .pv_out = NAN,
                                                 .clock = clock.hour % 24};
        t[k] = rh[k] = NAN;
    }
}

static enum dew_status no_hour(struct dew_fit *f, const char *name)
{
    const struct dew_date *d = f->dates, *last = &d[f->count - 1];
    struct dew_error err = {0};

    core__at(&err, name, 0, 0);
    core__fail(&err, DEW_EMISSING,
               "no hour of the log has temperature, humidity and weather: the "
               "log runs from %d-%02d-%02d to %d-%02d-%02d, and the weather "
               "must be of these days",
               d->year, d->month, d->day, last->year, last->month, last->day);
    return run__fault(f->run, &err);
}

/* The outdoors: the logs' own, where both t and rh are had, else the weather. */
static enum dew_status take_outdoors(struct dew_fit *f, const double *t,
                                     const double *rh, const char *name)
{
    for (size_t k = 0; k < f->count; k++) {
        f->hours[k].t_out = t[k];
        f->hours[k].pv_out = rh[k] * dew_air_pws_liquid(t[k]);
        f->own |= !isnan(t[k] + rh[k]);
    }
    if (f->own)
        return DEW_OK;
    if (dew_scenario_weather(f->run->scenario).file[0] == '\0')
        return no_outdoors(f->run, name);
    if (run__weather_air(f->run) == DEW_OK)
        lay_weather(f);
    return f->run->status;
}

static enum dew_status make_room(struct dew_fit *f)
{
    f->hours = calloc(f->count, sizeof *f->hours);
    f->dates = calloc(f->count, sizeof *f->dates);
    f->co2 = calloc(3 * f->count, sizeof *f->co2);
    f->cool = f->co2 != NULL ? f->co2 + f->count : NULL;
    f->fan = f->co2 != NULL ? f->cool + f->count : NULL;
    return f->hours != NULL && f->dates != NULL && f->co2 != NULL
               ? DEW_OK
               : run__memory(f->run);
}

/* t: room for two figures an hour. */
static enum dew_status fill(struct dew_fit *f, const struct dew_fit_ask *ask,
                            const struct dew_log_ask *how, double *t)
{
    struct dew_log_report *read = calloc(1, sizeof *read);
    double *rh = t + f->count;

    if (read == NULL)
        return run__memory(f->run);
    lay_indoors(f, how, t, rh);
    f->has_co2 = lay_beside(f, co2_of, f->co2);
    f->has_cool = lay_beside(f, cool_of, f->cool);
    f->has_fan = lay_beside(f, fan_of, f->fan);
    lay_outdoors(f, ask, how, read, t, rh);
    free(read);
    if (f->run->status == DEW_EUNIT)
        return run__fit_say_units(f->run);
    if (f->run->status != DEW_OK)
        return f->run->status;
    if (take_outdoors(f, t, rh, ask->logs[0]) == DEW_OK &&
        dew_evidence_whole(f->hours, f->count) == 0)
        return no_hour(f, ask->logs[0]);
    return f->run->status;
}

enum dew_status run__fit_hours(struct dew_fit *f, const struct dew_fit_ask *ask,
                               const struct dew_log_ask *how)
{
    enum dew_status status = span(f, ask->logs[0]);
    double *t;

    if (status == DEW_OK)
        status = make_room(f);
    if (status != DEW_OK)
        return status;
    t = calloc(2 * f->count, sizeof *t);
    if (t == NULL)
        return run__memory(f->run);
    status = fill(f, ask, how, t);
    free(t);
    return status;
}
