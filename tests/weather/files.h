/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files that the weather tests write, and reading them in one line. */
#ifndef DEW_TESTS_WEATHER_FILES_H
#define DEW_TESTS_WEATHER_FILES_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "dew/weather.h"
#include "support/rows.h"

enum { FAULTS_KEPT = 40 };

/* One reading: everything it gives. */
struct reading {
    enum dew_status status;
    struct dew_year *year;
    struct dew_weather_report report;
    struct dew_error list[FAULTS_KEPT];
    struct dew_faults faults;
    const struct dew_hour *hours;
    const struct dew_date *dates;
    size_t count;
};

static inline void read_file(struct reading *r, const char *path,
                             const struct dew_weather_ask *ask)
{
    struct dew_weather_ask usual = DEW_WEATHER_ASK;

    memset(r, 0, sizeof *r);
    r->faults.list = r->list;
    r->faults.room = FAULTS_KEPT;
    r->status = dew_weather_read(&r->year, path, ask != NULL ? ask : &usual,
                                 &r->report, &r->faults);
    if (r->status != DEW_OK) {
        assert_null(r->year);
        assert_true(r->faults.count > 0);
        return;
    }
    r->hours = dew_year_hours(r->year, &r->count);
    r->dates = dew_year_dates(r->year, &r->count);
}

/* A temporary file of this text; its name in path (of at least 32). */
static inline void write_file(char *path, const char *text, size_t length)
{
    FILE *out;
    int fd;

    snprintf(path, 32, "/tmp/dew-weather-XXXXXX");
    fd = mkstemp(path);
    assert_true(fd >= 0);
    out = fdopen(fd, "w");
    assert_non_null(out);
    assert_int_equal(fwrite(text, 1, length, out), length);
    assert_int_equal(fclose(out), 0);
}

static inline void read_text(struct reading *r, const char *text, size_t length,
                             const struct dew_weather_ask *ask)
{
    char path[32];

    write_file(path, text, length);
    read_file(r, path, ask);
    unlink(path);
}

/* "12:4: temperature: ..." of fault i, without the file's name. */
static inline const char *fault_text(const struct reading *r, size_t i,
                                     char *out, size_t size)
{
    const struct dew_error *e = &r->list[i];

    snprintf(out, size, "%d:%d: %s: %s", e->line, e->column, e->path, e->text);
    return out;
}

/* A path below the data folder, or NULL where that folder is not. */
static inline const char *data_path(char *out, size_t size, const char *name)
{
    const char *root = getenv("DEW_DATA");

    snprintf(out, size, "%s/%s", root != NULL ? root : "../shared/data", name);
    return access(out, R_OK) == 0 ? out : NULL;
}

#endif
