/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _DEFAULT_SOURCE /* madvise is in no standard */
#include <stdint.h>

#include "core/pages.h"

#ifdef __linux__
#include <sys/mman.h>
#include <unistd.h>
#endif

void core__few_pages(void *block, size_t bytes)
{
#ifdef MADV_HUGEPAGE
    size_t page = (size_t)sysconf(_SC_PAGESIZE);
    size_t before = (page - (uintptr_t)block % page) % page; /* shared */

    if (block != NULL && bytes > before)
        (void)madvise((char *)block + before, (bytes - before) / page * page,
                      MADV_HUGEPAGE);
#else
    (void)block, (void)bytes;
#endif
}
