/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an hour works on, of one house or several.  Private. */
#ifndef DEW_MARCH_MARCH_H
#define DEW_MARCH_MARCH_H

#include "dew/coil.h"
#include "march/drive.h"
#include "march/ledger.h"
#include "march/paths.h"
#include "march/step.h"
#include "plant/coil_step.h"

/* How an hour is marched: lived; or before a year begins, when time stands still
   for what decays, and at first in even steps whatever happens in them. */
enum march__way { MARCH__LIVED, MARCH__IDLE, MARCH__ROUGH };

/* What a step changes and the next begins with. */
struct march__course {
    struct dew_state x;
    double x_p;                 /* Pa   at which x was solved               */
    struct march__terms terms;  /* the next step's prediction               */
    struct march__blend blend;  /* likewise                                 */
    double stage[DEW_HANDLERS]; /* -    of capacity                         */
    struct plant__off off[DEW_HANDLERS]; /* of the coils                    */
    double ahead[DEW_HANDLERS]; /* -    cooling: more than was predicted     */
    double lowered;           /* K   the set point, while too humid          */
    double ran[DEW_HANDLERS]; /* -   of the time, the compressors of late    */
    core__truth heats, cools; /* as the step ended                        */
};

/* A march's houses: what is fixed, and where they stand. */
struct march__body {
    struct dew_case c;
    struct march__lane lane;
    struct dew_coil coils[DEW_HANDLERS];
    struct dew_coil_store stores[DEW_HANDLERS];
    struct plant__stages stages[DEW_HANDLERS];
    double by_removal, by_efficiency; /* -   of the dryer's fits at rating  */
    double switches; /* 1: the lead machine has stages, or overcools        */
    double pressure_all; /* Pa  every exhaust at once          */
    int tied;   /* 1: outdoor air meets a coil before the house             */
    int ducted; /* 1: ducts leak or lie outside                             */
    int alike;  /* 1: no blower state differs in its paths                   */
    int begun;  /* 1: terms and blend are there                              */
    int kinds;  /* of kinks that there are: enum march__kind                 */
    int way;    /* of enum march__way                                        */
    long tries; /* of steps, so far                                          */
    struct march__clock clock;
    struct march__now now;  /* of the last step: coils, blowers, dryers  */
    struct dew_hour before; /* weather at the start of the hour          */
    double held;            /* degC  indoor t measured; NaN none         */
    double run;             /* -     of the coils with it; NaN none      */
    double fan;             /* -     of the blowers with it; NaN none    */
    struct march__course at;
};

/* One hour's work in hand. */
struct march__hour {
    struct march__now now;
    struct march__mixing mix;
    struct dew_hour start;
    const struct dew_hour *end;
    struct dew_date date; /* by the clock on the wall: what schedules read   */
    double dt, per_dt;    /* s, 1 / s: of the step in hand                  */
    double per_steps;     /* share of the hour: likewise                    */
    double told, told_dt; /* those, 0 in a house that does not take the step */
    double done, length;  /* units of the hour: gone, and of that step      */
    double tried;         /* 1: it was tried once already                   */
    double most;          /* units of the longest step                      */
    core__plain units;    /* in the hour                                    */
    double wiped;         /* kg   off the surfaces this hour                 */
    double worst;         /* m3/s most negative supply less exhaust          */
    double drained;       /* kg   off the coils this hour                    */
    /* from here on: the machines of the step in hand */
    struct dew_coil_store_out wet[DEW_HANDLERS]; /* as predicted            */
    double stage[DEW_HANDLERS];                  /* -    of capacity        */
    double longer[DEW_HANDLERS];         /* -    run time over load         */
    struct plant__off off[DEW_HANDLERS]; /* of the coils                    */
    double lowered;                      /* K    as the course's, after it   */
    double half_left; /* -    of what is remembered, after half of it        */
};

/* Refuse a case that the step cannot march. */
enum dew_status march__check(const struct dew_case *c, struct dew_error *err);

/* finite.c: refuse a case, and an hour of weather, that hold a NaN where none
   may stand or what cannot be; DEW_ERANGE with the member in err->path. */
enum dew_status march__numbers(const struct dew_case *c, struct dew_error *err);
enum dew_status march__one_hour(const struct dew_hour *h,
                                struct dew_error *err);
enum dew_status march__one_date(const struct dew_date *d,
                                struct dew_error *err);

#endif
