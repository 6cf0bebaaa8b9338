/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a log, and the message of one that is refused, in one line. */
#ifndef DEW_TESTS_WEATHER_LOGS_H
#define DEW_TESTS_WEATHER_LOGS_H

#include "dew/log.h"
#include "weather/files.h"

typedef void (*answer)(struct dew_log_ask *ask);

struct logged {
    enum dew_status status;
    struct dew_log *log;
    struct dew_log_report report;
    struct dew_error list[FAULTS_KEPT];
    struct dew_faults faults;
    const struct dew_log_hour *hours;
    const struct dew_date *dates;
    size_t count;
};

static inline void read_log(struct logged *r, const char *path, answer say)
{
    struct dew_log_ask ask = DEW_LOG_ASK;

    if (say != NULL)
        say(&ask);
    memset(r, 0, sizeof *r);
    r->faults.list = r->list;
    r->faults.room = FAULTS_KEPT;
    r->status = dew_log_read(&r->log, path, &ask, &r->report, &r->faults);
    if (r->status != DEW_OK) {
        assert_null(r->log);
        assert_true(r->faults.count > 0);
        return;
    }
    r->hours = dew_log_hours(r->log, &r->count);
    r->dates = dew_log_dates(r->log, &r->count);
    assert_int_equal(r->count, r->report.hours);
}

static inline void read_log_text(struct logged *r, const char *text, answer say)
{
    char path[32];

    write_file(path, text, strlen(text));
    read_log(r, path, say);
    unlink(path);
}

static inline const char *message(const struct logged *r, char *out,
                                  size_t size)
{
    const struct dew_error *e = &r->list[0];

    snprintf(out, size, "%d:%d: %s: %s", e->line, e->column, e->path, e->text);
    return out;
}

#endif
