/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs that do not touch one another, on as many processors.  Private. */
#ifndef DEW_CORE_PARALLEL_H
#define DEW_CORE_PARALLEL_H

#include <stddef.h>

/* Processors that this process may use, at least 1. */
size_t core__processors(void);

/*
 * job(of, i) for each i below count, in any order, on at most so many threads,
 * the caller's own among them; returns when all are done.  Where a thread is
 * not to be had, fewer do the work: nothing fails.
 */
void core__parallel(size_t threads, size_t count,
                    void (*job)(void *of, size_t i), void *of);

#endif
