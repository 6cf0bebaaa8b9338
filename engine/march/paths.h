/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which states of the air paths a step visits, and for what share.  Private. */
#ifndef DEW_MARCH_PATHS_H
#define DEW_MARCH_PATHS_H

#include "march/lane.h"

/* The two airs that meet in a recovery core at the predicted state. */
struct march__core_airs {
    double t_in, w, p; /* degC, kg/kg, Pa   house air                      */
    double t_out;      /* degC   outdoor air, preheated                    */
    double preheat;    /* K      by which it was                           */
};

/*
 * Shares of one step.  A blower is at full flow while its coil runs, for its
 * delay after that, and while it carries heat; of the rest it
 * is at low flow for one share while the ventilator is off and another while
 * it runs (nested when interlocked).  Everything else overlaps by chance.
 */
struct march__mixing {
    double vent[DEW_VENT_STATES]; /* -   sum to 1                         */
    double run[DEW_HANDLERS];     /* -   of the compressors               */
    double full[DEW_HANDLERS];    /* -                                    */
    double cut[DEW_HANDLERS];     /* -   less of full than it has by itself,
                                         as measured                      */
    double low_off[DEW_HANDLERS]; /* -   of the rest, ventilator off      */
    double low_on[DEW_HANDLERS];  /* -   of the rest, ventilator running  */
    double local[1 + DEW_LOCALS]; /* -   none, bath, kitchen, dryer; sum 1 */
    double bypass;                /* -   share of recovery switched off   */
    double pump;                  /* W   most heat of a heat pump, as cold as
                                     it is now                            */
    struct march__core_airs core;
    int handlers; /* 0 when all blower states are alike   */
};

/* 1 when no blower state differs from all off. */
int march__paths_alike(const struct dew_case *c);

#endif
