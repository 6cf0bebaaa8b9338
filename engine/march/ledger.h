/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The books of one hour: what came in, what went out, what stayed.  Private. */
#ifndef DEW_MARCH_LEDGER_H
#define DEW_MARCH_LEDGER_H

#include "march/lane.h"

/* Everything a ledger looks at; the flows were integrated on their own. */
struct dew__books {
    const struct dew__lane *lane;
    const struct dew_state *before, *after;
    const struct dew_water_flows *water; /* kg                              */
    const struct dew_heat_flows *heat;   /* J                               */
    double wiped;                        /* kg   off the surfaces           */
    double drained;                      /* kg   off the coils              */
};

/* Residuals relative to the hour's inflows. */
struct dew__gaps {
    double air, stores, films, coils; /* of water                           */
    double heat;
};

struct dew__gaps dew__ledger_gaps(const struct dew__books *b);

/* 1 when every gap is within 1e-9. */
int dew__ledger_closes(const struct dew__gaps *g);

#endif
