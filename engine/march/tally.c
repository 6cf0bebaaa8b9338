/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tallies of one house. */
#include "march/tally_step.h"

void dew_tally_add(struct dew_tally *tally, const struct dew_limits *limits,
                   double required, const struct dew_date *date,
                   const struct dew_result *in)
{
    march__tally(tally, limits, required, date, in);
}
