/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Measured beside modelled: what a logger wrote down in a house, hour by hour,
 * and what the march made of the same hours.
 */
#ifndef DEW_BESIDE_H
#define DEW_BESIDE_H

#include "dew/study.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One figure over the hours that have it measured; NaN where none has. */
struct dew_gap {
    double hours;
    double measured, modelled; /* means over those hours                    */
    double bias;               /* mean of modelled less measured            */
    double rms;                /* root mean square of modelled less measured */
};

/* An option beside the log.  Plain. */
struct dew_beside {
    struct dew_gap rh;                /* -     0 .. 1                        */
    struct dew_gap t;                 /* K                                   */
    struct dew_gap month[DEW_MONTHS]; /* -    of rh, January first          */
};

/* What was measured, an hour of the weather each; NaN where nothing was. */
struct dew_measured {
    const double *t;  /* degC */
    const double *rh; /* -    over liquid water, as loggers give it         */
    size_t count;
};

/*
 * Compare an outcome with what was measured in its hours.  dates are those of
 * the weather, and as many as the outcome and measured count.
 */
struct dew_beside dew_study_beside(const struct dew_outcome *outcome,
                                   const struct dew_date *dates,
                                   const struct dew_measured *measured);

#ifdef __cplusplus
}
#endif
#endif
