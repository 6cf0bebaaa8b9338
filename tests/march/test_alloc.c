/* SPDX-License-Identifier: GPL-3.0-or-later */
/* No allocation in the hour, and a clean refusal when there is no memory. */
#include "support/rows.h"

#include <stdlib.h>

#include "support/lively.h"

/*
 * glibc lets a program supply the allocator, for shared libraries too.  These
 * count every call and, on demand, refuse it.  AddressSanitizer brings its own
 * allocator, so `make SAN=1 check` leaves this file out.
 */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);
static long calls;
static long refuse_from = -1; /* the call number from which they refuse */

static int refused(void)
{
    return calls++ >= refuse_from && refuse_from >= 0;
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

TEST(march_allocates_nothing_in_a_year)
{
    struct dew_case c = lively_case();
    struct lively run;
    long before;

    lively_open(&run, &c);
    before = calls;
    while (lively_step(&run)) {
    }
    assert_int_equal(calls, before);
    lively_close(&run);
}

TEST(march_open_survives_no_memory)
{
    struct dew_case c = lively_case();
    struct dew_hour first = lively_weather(0);
    struct dew_march *m = (void *)1;
    struct dew_error err = {0};

    refuse_from = calls;
    assert_int_equal(dew_march_open(&m, &c, &first, &err), DEW_EMEM);
    refuse_from = -1;
    assert_null(m);
}

RUN_TESTS("march, memory");
