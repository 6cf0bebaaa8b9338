/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/study.h"

#include <math.h>

/* Sums first; finish makes means of them. */
static void add(struct dew_gap *g, double measured, double modelled)
{
    if (isnan(measured) || isnan(modelled))
        return;
    g->hours++;
    g->measured += measured;
    g->modelled += modelled;
    g->rms += (modelled - measured) * (modelled - measured);
}

static void finish(struct dew_gap *g)
{
    double n = g->hours > 0.0 ? g->hours : NAN;

    g->measured /= n;
    g->modelled /= n;
    g->bias = g->modelled - g->measured;
    g->rms = sqrt(g->rms / n);
}

struct dew_beside dew_study_beside(const struct dew_outcome *o,
                                   const struct dew_date *dates,
                                   const struct dew_measured *measured)
{
    struct dew_beside b = {.rh = {.hours = 0.0}};

    for (size_t h = 0; h < o->count && h < measured->count; h++) {
        add(&b.rh, measured->rh[h], o->series.rh[h]);
        add(&b.t, measured->t[h], o->series.t[h]);
        add(&b.month[dates[h].month - 1], measured->rh[h], o->series.rh[h]);
    }
    finish(&b.rh);
    finish(&b.t);
    for (int m = 0; m < DEW_MONTHS; m++)
        finish(&b.month[m]);
    return b;
}
