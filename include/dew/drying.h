/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * New-house water, kept apart from what stays: the same option marched with
 * and without the water its fabric still gives off, and when the two agree.
 * And why a house dries slowly: what its contents hold against its air.
 */
#ifndef DEW_DRYING_H
#define DEW_DRYING_H

#include "dew/study.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Two runs agree once the mean RH of a week differs by less than this, and
   stays so.  Our own choice, no source. */
#define DEW_DRYING_AGREES 0.01

/* The two runs and the water between them.  Borrowed. */
struct dew_drying_ask {
    const struct dew_outcome *with, *without; /* as many hours each         */
    const struct dew_water *water;            /* source "drying" of the first */
    struct dew_estimate half_life; /* d   likely is that of *water          */
};

struct dew_drying {
    double given_off;  /* kg   in the run                                   */
    double left;       /* kg   still in the fabric at its end               */
    double more;       /* -    RH that it adds, mean of the run             */
    double humid_more; /* h    too humid that it adds                       */
    struct dew_estimate agree; /* h   from the first hour of the run until
                                  the two agree; past the end of the run as
                                  the rest decays by its half-life; low and
                                  high by those of the half-life; 0 = they
                                  agree from the start                      */
};

/* The case of an option once the house has dried. */
struct dew_case dew_drying_settled(const struct dew_case *c);

/* 1 when a case still gives off construction water. */
int dew_drying_matters(const struct dew_case *c);

/*
 * Compare the two.  Past the end of the run the RH that the water adds falls
 * in proportion to its rate from what it was in the last four weeks, so the
 * season is not followed; a control that holds the humidity hides the water
 * and the two agree early.
 */
struct dew_drying dew_drying_of(const struct dew_drying_ask *ask);

/* What gives off water when a house goes from one RH to another, kg. */
struct dew_falling {
    double air;      /* kg   the air                                        */
    double day;      /* kg   furnishings and fabric, as deep as a day goes  */
    double deep;     /* kg   what lies deeper                               */
    double hours[2]; /* h    at flow: the air alone; all of it              */
};

/* How it is dried. */
struct dew_falling_ask {
    double t;        /* degC                                                */
    double from, to; /* -      RH, from > to                                */
    double flow;     /* m3/s   of outdoor air                               */
    double w_out;    /* kg/kg  of that air                                  */
};

/*
 * Equation   M ln((w_from - w_out) / (w_to - w_out)) / (rho flow), with M the
 *            kg of dry air that hold as much for the same change: the least
 *            time, all stores keeping up.  NaN where w_out is not below w_to.
 */
struct dew_falling dew_drying_falling(const struct dew_case *c,
                                      const struct dew_falling_ask *ask);

#ifdef __cplusplus
}
#endif
#endif
