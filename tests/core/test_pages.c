/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A block in few pages: told to the system, of this block alone, and no more
 * than a hint. */
#include "core/pages.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/rows.h"

#define BYTES ((size_t)16 << 20)

/* Whether the system was told of the page at an address: 1, 0, or -1 where it
 * does not say. */
static int told(const void *at)
{
    FILE *maps = fopen("/proc/self/smaps", "r");
    char line[512];
    unsigned long long from, to;
    int in = 0, answer = -1;

    while (maps != NULL && answer < 0 && fgets(line, sizeof line, maps)) {
        if (sscanf(line, "%llx-%llx ", &from, &to) == 2)
            in = from <= (uintptr_t)at && (uintptr_t)at < to;
        else if (in && strncmp(line, "VmFlags:", 8) == 0)
            answer = strstr(line, " hg") != NULL;
    }
    if (maps != NULL)
        fclose(maps);
    return answer;
}

static int has_large_pages(void)
{
    return access("/sys/kernel/mm/transparent_hugepage/enabled", R_OK) == 0;
}

static void the_system_is_told_of_the_block_alone(void **state)
{
    size_t page = (size_t)sysconf(_SC_PAGESIZE);
    unsigned char *block = malloc(BYTES), *part = block + 4 * page + 17;

    (void)state;
    assert_non_null(block);
    if (!has_large_pages() || told(part) < 0) {
        free(block);
        skip();
    }
    core__few_pages(part, 8 * page);
    assert_int_equal(told(part), 0); /* a page that it shares */
    assert_int_equal(told(part + page), 1);
    assert_int_equal(told(part + 7 * page), 1);
    assert_int_equal(told(part + 8 * page), 0); /* and another */
    free(block);
}

static void what_is_in_it_stays(void **state)
{
    unsigned char *block = malloc(BYTES);

    (void)state;
    assert_non_null(block);
    for (size_t i = 0; i < BYTES; i++)
        block[i] = (unsigned char)(i * 7 + i / 4096);
    core__few_pages(block, BYTES);
    core__few_pages(block + 1, 1);
    core__few_pages(block, 0);
    core__few_pages(NULL, BYTES);
    for (size_t i = 0; i < BYTES; i++)
        assert_true(block[i] == (unsigned char)(i * 7 + i / 4096));
    free(block);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_system_is_told_of_the_block_alone),
        cmocka_unit_test(what_is_in_it_stays),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
