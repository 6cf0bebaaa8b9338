/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The books of one hour: what came in, what went out, what stayed.  Private. */
#ifndef DEW_MARCH_LEDGER_H
#define DEW_MARCH_LEDGER_H

#include "march/lane.h"

/* Everything a ledger looks at; the flows were integrated on their own. */
struct march__books {
    const struct march__lane *lane;
    const struct dew_state *before, *after;
    const struct dew_water_flows *water; /* kg                              */
    const struct dew_heat_flows *heat;   /* J                               */
    double wiped;                        /* kg   off the surfaces           */
    double drained;                      /* kg   off the coils              */
};

/* Residuals relative to the hour's inflows. */
struct march__gaps {
    double air, stores, films, coils; /* of water                           */
    double heat;
};

struct march__gaps march__ledger_gaps(const struct march__books *b);

/* 1 when every gap is within 1e-9. */
int march__ledger_closes(const struct march__gaps *g);

#endif
