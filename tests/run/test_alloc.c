/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A run from open to report with each allocation refused in turn: a status and
   a fault each time, and every block given back. */
#include <string.h>

#include "dew/run.h"
#include "support/rows.h"

static long refuse_at = -1, calls, blocks;

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);
void __libc_free(void *block);

static void *counted(void *block)
{
    blocks += block != NULL;
    return block;
}
static int refused(void)
{
    return refuse_at >= 0 && calls++ == refuse_at;
}
void *malloc(size_t size)
{
    return refused() ? NULL : counted(__libc_malloc(size));
}
void *calloc(size_t count, size_t size)
{
    return refused() ? NULL : counted(__libc_calloc(count, size));
}
void *realloc(void *old, size_t size)
{
    void *block = refused() ? NULL : __libc_realloc(old, size);

    blocks += old == NULL && block != NULL;
    return block;
}
void free(void *block)
{
    blocks -= block != NULL;
    __libc_free(block);
}

static const char house[] = "weather: {file: w.csv}\n"
                            "house: {floor_area: 1830 ft2, bedrooms: 3}\n"
                            "moisture: {drying: 300 kg}\n"
                            "cooling: {capacity: 2.5 ton}\n"
                            "log: {file: l.csv}\n";
static const char weather[] =
    "# latitude: 36.1\n# longitude: -79.9\n# utc offset: -5\ntime,temperature "
    "(degC),dew point (degC),wind speed (m/s),global solar (W/m2)\n"
    "2021-07-03 05:00,22.1,19.3,2.3,0\n2021-07-03 06:00,23.7,19.1,2.1,90\n"
    "2021-07-03 07:00,25.1,19.9,1.7,210\n";
static const char rooms[] = "time,t_hall (C),rh_hall (%)\n"
                            "2021-07-03 06:00,23.1,57\n"
                            "2021-07-03 07:00,23.3,58\n";

static enum dew_status hand_over(void *of, const char *name, char **bytes,
                                 size_t *length, struct dew_error *err)
{
    const char *text = name[0] == 'w' ? weather : rooms;

    (void)of;
    (void)err;
    *length = strlen(text);
    *bytes = malloc(*length);
    if (*bytes == NULL)
        return DEW_EMEM;
    memcpy(*bytes, text, *length);
    return DEW_OK;
}

static enum dew_status run_it(void)
{
    const struct dew_files files = {NULL, hand_over};
    const struct dew_run_ask ask = {.name = "h.yaml",
                                    .text = house,
                                    .length = sizeof house - 1,
                                    .with = DEW_RUN_WHOLE,
                                    .threads = 1, /* calls are counted */
                                    .files = &files};
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_run *run;
    enum dew_status status = dew_run_open(&run, &ask, &faults);
    double done = 0;

    assert_true((status == DEW_OK) == (faults.count == 0));
    while (status == DEW_OK && done < 1)
        status = dew_run_step(run, 2, &done, NULL);
    assert_true(status != DEW_OK || dew_run_report(run, 0) != NULL);
    dew_run_close(run);
    return status;
}

TEST(a_run_survives_each_refusal)
{
    enum dew_status status = DEW_EMEM;
    long refusals = 0;

    for (long n = 0; status != DEW_OK; n++) {
        long before = blocks;

        calls = 0;
        refuse_at = n;
        status = run_it();
        refuse_at = -1;
        assert_int_equal(blocks, before);
        refusals += status != DEW_OK;
        assert_true(n < 100000);
    }
    assert_true(refusals > 50);
}

RUN_TESTS("a run, memory");
