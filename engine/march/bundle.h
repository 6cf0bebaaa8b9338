/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bundles of a width that is asked for: dew_bundle_open takes the widest.
   Private. */
#ifndef DEW_MARCH_BUNDLE_H
#define DEW_MARCH_BUNDLE_H

#include "dew/bundle.h"
#include "march/kernel.h"

/* The i-th of the kernels that this processor runs, the widest first; NULL
   after the last. */
const struct march__kernel *march__kernel(size_t i);

/* What a bundle is made with. */
struct march__making {
    const struct march__kernel *kernel;
    size_t tallies;
};

/* As dew_bundle_open, of 1 .. kernel->lanes houses. */
enum dew_status march__bundle_open(struct dew_bundle **bundle,
                                   const struct march__making *making,
                                   const struct dew_case *const *cases,
                                   const struct dew_weather *weather,
                                   size_t count, struct dew_error *err);

/* Tries of steps so far; each is one of every house. */
long march__bundle_tries(const struct dew_bundle *bundle);

#endif
