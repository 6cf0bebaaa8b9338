/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The body of a march, and the phases of its hour.  Private. */
#ifndef DEW_MARCH_MARCH_H
#define DEW_MARCH_MARCH_H

#include "dew/coil.h"
#include "march/drive.h"
#include "march/ledger.h"
#include "march/paths.h"
#include "march/step.h"
#include "plant/coil_step.h"

struct dew_march {
    struct dew_case c;
    struct march__lane lane;
    struct dew_plane planes[DEW_FACADES];
    struct march__clock clock;
    struct dew_state x;
    double x_p; /* Pa   at which x was solved                            */
    struct march__terms
        terms;             /* of the last step: the next one's prediction  */
    struct march__now now; /* of the last step: coils, blowers, dryers       */
    struct march__blend
        blend; /* of the last step                             */
    struct dew_coil coils[DEW_HANDLERS];
    struct dew_coil_store stores[DEW_HANDLERS];
    struct dew_hour before; /* weather at the start of the hour             */
    double pressure_all;    /* Pa   every exhaust at once                   */
    double stage[DEW_HANDLERS]; /* -   of capacity, last step             */
    struct plant__off off[DEW_HANDLERS]; /* of the coils, last step          */
    double lowered;           /* K   the set point, while too humid     */
    double ran[DEW_HANDLERS]; /* -   of the time, the compressors of late    */
    struct plant__stages stages[DEW_HANDLERS];
    int tied;   /* 1: outdoor air meets a coil before the house */
    int ducted; /* 1: ducts leak or lie outside                */
    int acts;   /* which of heating and cooling act             */
    int alike;  /* 1: no blower state differs in its paths      */
    int begun;  /* 1: terms and blend are there                 */
    int hour;   /* hours done                                   */
    const double *
        prescribed; /* degC  prescribed_count; the indoor t measured, or NULL */
    size_t prescribed_count;
    struct dew_lit *lit; /* of lit_count hours, borrowed, or NULL            */
    size_t lit_count;
};

/* One hour's work in hand. */
struct march__hour {
    struct march__now now;
    struct march__mixing mix;
    struct dew_hour start;
    const struct dew_hour *end;
    struct dew_date date; /* by the clock on the wall: what schedules read   */
    double dt, per_steps; /* s, 1/steps                                     */
    double wiped;         /* kg   off the surfaces this hour                 */
    double worst;         /* m3/s most negative supply less exhaust          */
    struct dew_coil_store_out wet[DEW_HANDLERS]; /* as predicted, this step  */
    double drained; /* kg   off the coils this hour                    */
    double stage[DEW_HANDLERS]; /* -   of capacity, this step             */
    struct plant__off off[DEW_HANDLERS]; /* of the coils, this step          */
    double lowered;   /* K    as m->lowered, after this step             */
    double half_left; /* -    of what is remembered, after half a step   */
    double rh;        /* -   at the end of the last step        */
    double longer[DEW_HANDLERS]; /* -   run time over load, as predicted   */
};

/* Refuse a case that the step cannot march. */
enum dew_status march__check(const struct dew_case *c, struct dew_error *err);

/* finite.c: refuse a case, and an hour of weather, that hold a NaN where none
   may stand; DEW_ERANGE with the member in err->path. */
enum dew_status march__numbers(const struct dew_case *c, struct dew_error *err);
enum dew_status march__one_hour(const struct dew_hour *h,
                                struct dew_error *err);

/* Shares of the ventilator and the blowers for the step now predicted. */
void march__mix_of(const struct dew_march *m, const struct march__hour *h,
                   const struct dew_state *at, const struct march__duty *duty,
                   struct march__mixing *mix);

/* Coils, dryer, humidifier and thermostat of the step now predicted; writes
   h->now.c1 .. c3, the drive's equipment members and h->wet. */
void march__equip(const struct dew_march *m, struct march__hour *h,
                  const struct dew_state *at, const struct march__duty *duty);

/* Share of the time that a heater runs at that share of all it can give: a
   heat pump's resistance heat comes in only when the pump runs on. */
double march__heat_run(const struct dew_heater *heater, double pump,
                       double duty);

/* Most heat of a heat pump at t_out, W: less the colder it is; its resistance
   heat is beside it.  0 for what is no heat pump. */
double march__pump(const struct dew_heater *heater, double t_out);

/* How the compressors ran of late, after a step of that duty, s of each. */
void march__remember(struct dew_march *m, const struct march__hour *h,
                     const struct march__duty *duty);

/* Settle the coil stores after a step; h->drained grows. */
void march__drain(struct dew_march *m, struct march__hour *h,
                  const struct march__sum *sum);

/* Add what a step did to the hour's result. */
void march__tell_step(const struct dew_march *m, struct march__hour *h,
                      const struct dew_state *from,
                      const struct march__sum *sum, struct dew_result *r);

/* Ducts that sweat and cold air at the heaters, from the hour's means. */
void march__tell_ducts(const struct dew_march *m, const struct march__hour *h,
                       struct dew_result *r);

/* Close the hour's result: means, air, pressures. */
void march__tell_hour(const struct dew_march *m, const struct march__hour *h,
                      struct dew_result *r);

#endif
