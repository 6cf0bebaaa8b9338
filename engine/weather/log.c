/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/log.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "weather/calendar.h"
#include "weather/log.h"

struct dew_log {
    struct dew_log_hour *hours;
    struct dew_date *dates;
    size_t count;
    int64_t first; /* the end of hour 0 */
    char provenance[400];
};

/* ---- the rows of each sensor ------------------------------------------------- */

enum dew_status weather__log_rewind(struct weather__log *log)
{
    struct dew_error err = {0};
    int more = 1;

    weather__lines_again(&log->in);
    while (more && log->in.line < log->t.header_line)
        if (weather__lines_next(&log->in, &more, &err) != DEW_OK)
            return weather__reader_error(&log->r, &err);
    log->r.report->rows = 0;
    return DEW_OK;
}

/* What rows are is the same for each sensor of a table: counted once. */
static void keep_row_counts(struct dew_weather_report *p,
                            const struct dew_weather_report *first)
{
    static const enum dew_notice_code of_rows[] = {
        DEW_NOTICE_NO_TIME,  DEW_NOTICE_BROKEN,      DEW_NOTICE_DOUBLED,
        DEW_NOTICE_DISORDER, DEW_NOTICE_SUMMER_TIME, DEW_NOTICE_NO_SUCH_TIME};

    for (size_t i = 0; i < sizeof of_rows / sizeof of_rows[0]; i++)
        p->notices[of_rows[i]] = first->notices[of_rows[i]];
}

static enum dew_status read_sensor(struct weather__log *log,
                                   const struct weather__sensor *sensor)
{
    if (weather__log_rewind(log) != DEW_OK ||
        weather__log_take(log, sensor) != DEW_OK)
        return log->r.status;
    if (log->history)
        weather__history_rows(log);
    else
        weather__table_rows(&log->t);
    if (log->r.status != DEW_OK)
        return log->r.status;
    return weather__log_add(log);
}

/* The reader as it was before the first sensor, with its memory. */
static void start_again(struct weather__log *log,
                        const struct weather__reader *fresh)
{
    struct weather__sample *samples = log->r.samples;
    size_t room = log->r.room;

    log->r = *fresh;
    log->r.samples = samples;
    log->r.room = room;
}

/* A unit that is not said is asked for of every sensor in one go. */
static enum dew_status read_sensors(struct weather__log *log)
{
    enum dew_status asked = DEW_OK;
    struct weather__reader fresh = log->r;
    struct dew_weather_report *p = &log->report->file;
    struct dew_weather_report first = *p;
    long used = 0;
    int n = 0;

    for (int i = 0; i < log->sensor_count; i++) {
        if (!log->sensors[i].taken)
            continue;
        start_again(log, &fresh);
        if (read_sensor(log, &log->sensors[i]) == DEW_EUNIT) {
            asked = DEW_EUNIT;
            continue;
        }
        if (log->r.status != DEW_OK)
            return log->r.status;
        if (n++ == 0)
            first = *p;
        else if (!log->history)
            keep_row_counts(p, &first);
        used = log->history ? used + p->used : p->used > used ? p->used : used;
    }
    log->report->taken_count = n;
    p->used = used;
    return log->r.status = asked;
}

static enum dew_status read_text(struct weather__log *log)
{
    struct dew_error err = {0};

    if (weather__lines_open(&log->in, log->r.text, &err) != DEW_OK)
        return weather__reader_error(&log->r, &err);
    if (weather__table_open(&log->t, &log->r, &log->in) != DEW_OK)
        return log->r.status;
    log->history = weather__history_is(log);
    log->r.strict = log->r.typical = 0;
    log->t.cells.wanted = log->t.wanted;
    if (log->history && weather__history_columns(log) != DEW_OK)
        return log->r.status;
    if (weather__log_sensors(log) != DEW_OK)
        return log->r.status;
    return read_sensors(log);
}

/* ---- the log ------------------------------------------------------------------- */

static double mean(double sum, int count)
{
    return count > 0 ? sum / count : NAN;
}

/* ---- sensors put right ----------------------------------------------------------- */

static const double APART = 0.1; /* least between two checks: our own       */

static enum dew_status check_line(struct weather__log *log)
{
    const struct dew_log_check *c = log->ask->check;

    if (log->ask->checks < 2 ||
        ((c[1].reads - c[0].reads) >= APART && (c[1].is - c[0].is) >= APART) ||
        ((c[0].reads - c[1].reads) >= APART && (c[0].is - c[1].is) >= APART))
        return DEW_OK;
    return weather__reader_fault(&log->r, DEW_ERANGE, "reads", 0, 0,
                                 "two checks of a sensor tell a line only "
                                 "where they are 10 %% RH apart or more");
}

static double put_right(double rh, const struct dew_log_ask *ask)
{
    const struct dew_log_check *c = ask->check;
    double slope = ask->checks == 2
                       ? (c[1].is - c[0].is) / (c[1].reads - c[0].reads)
                       : 1.0;
    double x = c[0].is + slope * (rh - c[0].reads);

    if (ask->checks == 0 || ask->outdoors)
        return rh;
    return x >= 0.0 && x <= 1.0 ? x : NAN;
}

/* ---- hours ------------------------------------------------------------------------- */

static void count_hours(const struct dew_log *made, struct dew_log_report *p)
{
    size_t run = 0, longest = 0;

    p->hours = (long)made->count;
    for (size_t i = 0; i < made->count; i++) {
        const struct dew_log_hour *h = &made->hours[i];

        p->without_t += isnan(h->t);
        p->without_rh += isnan(h->rh);
        run = isnan(h->t) && isnan(h->rh) ? run + 1 : 0;
        if (run <= longest)
            continue;
        longest = run;
        weather__moment_text(made->first +
                                 (int64_t)(i + 1 - run) * WEATHER__HOUR,
                             0, p->longest_at, sizeof p->longest_at);
    }
    p->longest_gap = (double)longest;
}

static void say_where_from(struct dew_log *made, const struct weather__log *log)
{
    const char *name = strrchr(log->r.path, '/');
    const struct dew_log_report *p = log->report;
    const struct dew_notice *n = p->file.notices;

    snprintf(made->provenance, sizeof made->provenance,
             "file %s, %s; %s; %ld hours bridged by a line, %ld held; %ld of "
             "%ld hours without a temperature, %ld without a humidity",
             name != NULL ? name + 1 : log->r.path, p->taken, p->file.method,
             n[DEW_NOTICE_FILLED].count, n[DEW_NOTICE_HELD].count, p->without_t,
             p->hours, p->without_rh);
}

static enum dew_status build(struct weather__log *log, struct dew_log **out)
{
    struct dew_log *made = calloc(1, sizeof *made);

    if (made == NULL)
        return weather__reader_fault(&log->r, DEW_EMEM, "", 0, 0, "no memory");
    *out = made;
    made->hours = calloc(log->count, sizeof *made->hours);
    made->dates = calloc(log->count, sizeof *made->dates);
    if (made->hours == NULL || made->dates == NULL)
        return weather__reader_fault(&log->r, DEW_EMEM, "", 0, 0,
                                     "no memory for %zu hours", log->count);
    made->count = log->count;
    made->first = log->first;
    for (size_t i = 0; i < log->count; i++) {
        const struct weather__log_sum *s = &log->hours[i];

        made->hours[i].t = mean(s->t, s->t_count);
        made->hours[i].rh = put_right(mean(s->rh, s->rh_count), log->ask);
        made->hours[i].co2 = mean(s->co2, s->co2_count);
        made->hours[i].cool = mean(s->cool, s->cool_count);
        made->hours[i].fan = mean(s->fan, s->fan_count);
        weather__date_of(made->first + (int64_t)i * WEATHER__HOUR, 0,
                         &made->dates[i]);
    }
    count_hours(made, log->report);
    say_where_from(made, log);
    return DEW_OK;
}

static void set_up(struct weather__log *log, const struct dew_text *text,
                   const struct dew_log_ask *ask, struct dew_faults *faults)
{
    struct dew_weather_ask usual = DEW_WEATHER_ASK;

    log->ask = ask;
    log->as_weather = usual;
    log->as_weather.order = ask->order;
    log->as_weather.clock = ask->clock;
    log->as_weather.utc_offset = ask->utc_offset;
    log->as_weather.said = ask->said;
    log->as_weather.said_count = ask->said_count;
    log->r.path = text->name;
    log->r.text = text;
    log->r.ask = &log->as_weather;
    log->r.report = &log->report->file;
    log->r.faults = faults;
    log->r.log = 1;
    log->r.site.latitude = log->r.site.longitude = NAN;
    log->r.site.elevation = log->r.site.utc_offset = NAN;
}

enum dew_status dew_log_parse(struct dew_log **log, const struct dew_text *text,
                              const struct dew_log_ask *ask,
                              struct dew_log_report *report,
                              struct dew_faults *faults)
{
    struct weather__log *work = calloc(1, sizeof *work);
    struct dew_error err = {.status = DEW_EMEM, .text = "no memory"};
    enum dew_status status;
    struct dew_log *made = NULL;

    *log = NULL;
    memset(report, 0, sizeof *report);
    if (work == NULL)
        return core__fault(faults, &err);
    work->report = report;
    set_up(work, text, ask, faults);
    if (check_line(work) == DEW_OK && read_text(work) == DEW_OK) {
        if (work->count == 0)
            weather__reader_fault(&work->r, DEW_EMISSING, "rows", 0, 0,
                                  "the rows cover not half an hour");
        else
            build(work, &made);
    }
    status = work->r.status;
    weather__table_close(&work->t);
    weather__lines_close(&work->in);
    free(work->r.samples);
    free(work->hours);
    free(work);
    if (status != DEW_OK) {
        dew_log_close(made);
        return status;
    }
    *log = made;
    return DEW_OK;
}

enum dew_status dew_log_read(struct dew_log **log, const char *path,
                             const struct dew_log_ask *ask,
                             struct dew_log_report *report,
                             struct dew_faults *faults)
{
    const struct dew_text text = {.name = path};

    return dew_log_parse(log, &text, ask, report, faults);
}

const struct dew_log_hour *dew_log_hours(const struct dew_log *log,
                                         size_t *count)
{
    *count = log->count;
    return log->hours;
}

const struct dew_date *dew_log_dates(const struct dew_log *log, size_t *count)
{
    *count = log->count;
    return log->dates;
}

const char *dew_log_provenance(const struct dew_log *log)
{
    return log->provenance;
}

const struct dew_log_hour *dew_log_at(const struct dew_log *log,
                                      const struct dew_date *date)
{
    int64_t i;

    if (date->year == 0)
        return NULL;
    i = (weather__moment_of(date) - log->first) / WEATHER__HOUR;
    return weather__moment_of(date) >= log->first && i < (int64_t)log->count
               ? &log->hours[i]
               : NULL;
}

void dew_log_close(struct dew_log *log)
{
    if (log == NULL)
        return;
    free(log->hours);
    free(log->dates);
    free(log);
}
