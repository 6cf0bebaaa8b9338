/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ducts: no allocation in a state, a clean refusal without memory, no leak. */
#include "support/rows.h"

#include <stdlib.h>

#include "dew/ducts.h"

/* As in tests/march/test_alloc.c: glibc lets a program supply these. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);
void __libc_free(void *old);
static long calls, live;
static long refuse_from = -1; /* the call number from which they refuse */

static int refused(void)
{
    return calls++ >= refuse_from && refuse_from >= 0;
}
static void *given(void *block)
{
    live += block != NULL;
    return block;
}
void *malloc(size_t size)
{
    return refused() ? NULL : given(__libc_malloc(size));
}
void *calloc(size_t count, size_t size)
{
    return refused() ? NULL : given(__libc_calloc(count, size));
}
void *realloc(void *old, size_t size)
{
    void *block = refused() ? NULL : __libc_realloc(old, size);

    live += block != NULL && old == NULL;
    return block;
}
void free(void *old)
{
    live -= old != NULL;
    __libc_free(old);
}

static struct dew_duct_layout two_handlers(void)
{
    struct dew_duct_layout l;

    dew_ducts_layout_blank(&l);
    l.kind = DEW_LAYOUT_return_to_supply;
    l.handler_count = 2;
    l.handlers[0].flow = .283;
    l.handlers[1].flow = .317;
    l.vents[0].set[DEW_VENT_ON] = .0473;
    assert_int_equal(dew_ducts_layout_fill(&l, NULL), DEW_OK);
    return l;
}

TEST(a_state_allocates_nothing)
{
    struct dew_duct_layout l = two_handlers();
    struct dew_duct_state s;
    struct dew_ducts *d;
    long before;

    assert_int_equal(dew_ducts_open(&d, &l, NULL), DEW_OK);
    before = calls;
    for (int b = 0; b < 9; b++)
        assert_int_equal(dew_ducts_state(d, DEW_VENT_ON, b, &s, NULL), DEW_OK);
    assert_int_equal(calls, before);
    dew_ducts_close(d);
}

/* refuse the first call, then only the second and after, until it opens */
TEST(opening_survives_no_memory_at_any_call)
{
    struct dew_duct_layout l = two_handlers();
    enum dew_status status = DEW_EMEM;
    struct dew_ducts *d = NULL;
    long before = live, after;
    int refusals = 0;

    for (int k = 0; status != DEW_OK; k++) {
        struct dew_error err = {0};

        d = (void *)1;
        refuse_from = calls + k;
        status = dew_ducts_open(&d, &l, &err);
        refuse_from = -1;
        if (status == DEW_OK)
            break;
        after = live;
        assert_int_equal(status, DEW_EMEM);
        assert_null(d);
        assert_int_equal(after, before);
        refusals++;
    }
    dew_ducts_close(d);
    after = live;
    assert_int_equal(after, before);
    assert_true(refusals >= 8); /* layout, fans, nodes, branches, network */
}

RUN_TESTS("ducts, memory");
