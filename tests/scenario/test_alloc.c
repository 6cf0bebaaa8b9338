/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory refused at call 1, 2, 3 ...: the reader says so and leaks nothing. */
#include "support/rows.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "dew/scenario.h"

/* glibc's own, behind this program's malloc. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *p, size_t size);
void __libc_free(void *p);

static long calls, refuse_at, live;

static int refused(void)
{
    calls++;
    if (calls != refuse_at)
        return 0;
    errno = ENOMEM;
    return 1;
}

void *malloc(size_t size)
{
    void *p = refused() ? NULL : __libc_malloc(size);

    live += p != NULL;
    return p;
}

void *calloc(size_t count, size_t size)
{
    void *p = refused() ? NULL : __libc_calloc(count, size);

    live += p != NULL;
    return p;
}

void *realloc(void *old, size_t size)
{
    void *p = refused() ? NULL : __libc_realloc(old, size);

    live += old == NULL && p != NULL;
    return p;
}

void free(void *p)
{
    live -= p != NULL;
    __libc_free(p);
}

static const char text[] =
    "title: \"Quoted, made up\"\n"
    "weather: {place: 722020}\n"
    "house:\n  floor_area: 2400 ft2\n  bedrooms: 3\n"
    "temperature: {setback_hours: [22 to 6, 9 to 15], heat_setback: 61 degF}\n"
    "people: {weekday: [1, 1, 1, 1, 1, 1, 1, 0.5, 0, 0, 0, 0, 0, 0, 0, 0.5, 1, "
    "1, 1, 1, 1, 1, 1, 1]}\n"
    "options:\n  - name: as it stands\n  - name: core\n"
    "    ventilator: {core: heat_plate, ratings: [{flow: 64 cfm, asre: 0.7, power: 40 W}]}\n"
    "    layout: return_tie\n    cooling: {capacity: 2 ton}\n"
    "    ducts: {grilles: [{room: den, supply: 100 %}], found: [{blower: off, "
    "fresh: 51 cfm}]}\n";

static enum dew_status opens(const char *what, struct dew_scenario **s)
{
    static const char *const sets[] = {"house.volume=20000 ft3",
                                       "options.core.ventilator.flow=64 cfm"};
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_scenario_source from = {what, strlen(what), "h.yaml", sets, 2};

    return dew_scenario_open(s, &from, &faults);
}

TEST(every_refusal_is_said_and_nothing_leaks)
{
    enum dew_status status = DEW_EMEM;
    struct dew_scenario *s = NULL;
    long n = 0;

    while (status != DEW_OK) {
        long before = live;

        refuse_at = ++n;
        calls = 0;
        status = opens(text, &s);
        refuse_at = 0;
        if (status == DEW_OK)
            break;
        assert_int_equal(status, DEW_EMEM);
        assert_null(s);
        assert_int_equal(live, before);
        assert_true(n < 10000);
    }
    assert_true(n > 20); /* the hook was at work */
    dew_scenario_close(s);
}

TEST(a_faulty_file_leaks_nothing)
{
    struct dew_scenario *s = NULL;
    long before = live;

    assert_int_not_equal(opens("house: [1, {a: b", &s), DEW_OK);
    assert_int_not_equal(opens("house: {bedrooms: x}\n", &s), DEW_OK);
    assert_null(s);
    assert_int_equal(live, before);
}

RUN_TESTS("scenario, memory");
