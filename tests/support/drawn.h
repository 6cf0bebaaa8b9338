/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as if drawn, the same on every machine. */
#ifndef DEW_TESTS_DRAWN_H
#define DEW_TESTS_DRAWN_H

#include <stdint.h>

/* The next of a linear congruential walk; its high bits are the good
   ones. */
static inline uint64_t drawn_next(uint64_t *seed)
{
    return *seed = *seed * 6364136223846793005u + 1442695040888963407u;
}

/* The next as a share, 0 .. 1, of its 24 highest bits. */
static inline double drawn_share(uint64_t *seed)
{
    return (double)(drawn_next(seed) >> 40) / (double)(1 << 24);
}

#endif
