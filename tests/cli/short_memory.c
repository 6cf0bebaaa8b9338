/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Loaded before the C library (LD_PRELOAD): the allocation number SHORT_AT is
 * refused; without it, how many there were goes to the file SHORT_TOLD.
 */
#include <errno.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

enum { LONGEST = 20 }; /* seconds: none waits for ever */

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

static long at = -1, made;

static int refused(void)
{
    if (at < 0) {
        const char *asked = getenv("SHORT_AT");

        at = asked != NULL ? strtol(asked, NULL, 10) : 0;
    }
    if (++made != at)
        return 0;
    errno = ENOMEM;
    return 1;
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

__attribute__((constructor)) static void begin(void)
{
    alarm(LONGEST);
}

__attribute__((destructor)) static void tell(void)
{
    const char *name = at == 0 ? getenv("SHORT_TOLD") : NULL;
    long count = made;
    FILE *file = name != NULL ? fopen(name, "w") : NULL;

    if (file == NULL)
        return;
    fprintf(file, "%ld\n", count);
    fclose(file);
}
