/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reader without memory: each call refused in turn, each a clean end. */
#include "dew/log.h"
#include "weather/files.h"

/* As in the march's test: glibc lets a program supply the allocator. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);
static long calls;
static long refuse_at = -1; /* the one call that is refused */

static int refused(void)
{
    return calls++ == refuse_at;
}
void *malloc(size_t size)
{
    return refused() ? NULL : __libc_malloc(size);
}
void *calloc(size_t count, size_t size)
{
    return refused() ? NULL : __libc_calloc(count, size);
}
void *realloc(void *old, size_t size)
{
    return refused() ? NULL : __libc_realloc(old, size);
}

static const char text[] = "time,t (degC),td (degC)\n"
                           "2020-03-04 06:00,7.3,1.0\n"
                           "2020-03-04 05:00,8.3,1.0\n"
                           "2020-03-04 07:00,9.3,1.0\n";

static const char rooms[] = "time,t_hall (C),rh_hall (%),t_den (C)\n"
                            "2020-03-04 06:00,20.3,41.0,18.1\n"
                            "2020-03-04 05:00,20.4,41.1,18.2\n"
                            "2020-03-05 07:00,20.5,41.2,18.3\n";

TEST(reader_survives_each_refusal)
{
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct dew_weather_report report;
    enum dew_status status = DEW_EMEM;
    struct dew_year *year;
    char path[32];
    long refusals = 0;

    write_file(path, text, sizeof text - 1);
    for (long n = 0; status != DEW_OK; n++) {
        calls = 0;
        refuse_at = n;
        status = dew_weather_read(&year, path, &ask, &report, NULL);
        refuse_at = -1;
        if (status == DEW_OK)
            break;
        refusals++;
        assert_null(year);
        assert_true(status == DEW_EMEM || status == DEW_EIO);
        assert_true(n < 1000);
    }
    unlink(path);
    dew_year_close(year);
    assert_true(refusals >= 6);
}

TEST(log_reader_survives_each_refusal)
{
    struct dew_log_ask ask = DEW_LOG_ASK;
    struct dew_log_report report;
    enum dew_status status = DEW_EMEM;
    struct dew_log *log;
    char path[32];
    long refusals = 0;

    ask.sensor = "all";
    write_file(path, rooms, sizeof rooms - 1);
    for (long n = 0; status != DEW_OK; n++) {
        calls = 0;
        refuse_at = n;
        status = dew_log_read(&log, path, &ask, &report, NULL);
        refuse_at = -1;
        if (status == DEW_OK)
            break;
        refusals++;
        assert_null(log);
        assert_true(status == DEW_EMEM || status == DEW_EIO);
        assert_true(n < 1000);
    }
    unlink(path);
    dew_log_close(log);
    assert_true(refusals >= 8);
}

RUN_TESTS("weather, memory");
