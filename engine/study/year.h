/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The year of an option, as all who tell of it ask for it.  Private. */
#ifndef DEW_STUDY_YEAR_H
#define DEW_STUDY_YEAR_H

#include <math.h>

#include "core/factors.h"
#include "dew/verdict.h"

static inline const struct dew_tally *study__year(const struct dew_question *q,
                                                  size_t i)
{
    return &q->choices[i].outcome->year;
}

/* NaN over no hours. */
static inline double study__mean(double sum, double hours)
{
    return hours > 0 ? sum / hours : NAN;
}

/* h   that may pass a limit in the year and keep it */
static inline double study__allowed(const struct dew_question *q,
                                    const struct dew_outcome *o)
{
    return q->judging.kept_share * o->year.hours;
}

/* J, all that was bought. */
static inline double study__energy(const struct dew_tally *t)
{
    double sum = 0;

#define X(name, words) sum += t->energy.name;
    DEW_ENERGY_MAP(X)
#undef X
    return sum;
}

#endif
