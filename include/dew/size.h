/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much is enough: of one option, with its own core and with typical ones,
 * a figure at a time is varied over marched years of houses drawn from the
 * ranges, until the least that keeps a target is found.
 *
 *     dew_size_open       the option, its cores, the draws
 *     dew_size_step       ... until done is 1
 *     dew_size_curve      what each figure came to
 *
 * The figures hang on the seed and the number of draws, never on the threads.
 */
#ifndef DEW_SIZE_H
#define DEW_SIZE_H

#include "dew/rates.h"
#include "dew/spread.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What is varied: name, the key it is.  The rest stands as told; the later
   ones stand at the airflow of dew_size_curve.at_flow, and together is no
   curve but one point: that flow with the dehumidifier and humidifier found. */
#define DEW_SIZE_MAP(X)                                                        \
    X(flow, "ventilator.flow")                                                 \
    X(boost, "ventilator.boost_flow")                                          \
    X(dehumidifier, "dehumidifier.rate")                                       \
    X(set_point, "dehumidifier.set")                                           \
    X(humidifier, "humidifier.set")                                            \
    X(together, "ventilator.flow")

enum dew_size_knob {
#define X(name, key) DEW_SIZE_##name,
    DEW_SIZE_MAP(X)
#undef X
        DEW_SIZE_KNOBS
};

/* With which core: name, kind, word in `ventilator.core` (NULL: as told).
   Those that are not told are the typical ones of dew/library.h; the one of the
   kind that is told is not tried. */
#define DEW_SIZE_CORE_MAP(X)                                                   \
    X(own, "as told", NULL)                                                    \
    X(heat, "a typical heat core", "heat_plate")                               \
    X(enthalpy, "a typical enthalpy core", "enthalpy_plate")

enum dew_size_core {
#define X(name, words, core) DEW_SIZE_CORE_##name,
    DEW_SIZE_CORE_MAP(X)
#undef X
        DEW_SIZE_CORES
};

/* Limits that a figure is judged by: the first of DEW_DRAWN_MAP, to wet glass. */
enum { DEW_SIZE_DRAWS = 32, DEW_SIZE_LIMITS = DEW_DRAWN_glass_wet + 1 };

struct dew_size_ask {
    const struct dew_run_ask *from; /* one option, or none: the first with a
                                       core, else the first; with and job are
                                       not read                              */
    size_t draws; /* 0: the house as told alone                        */
    unsigned long seed;
    size_t threads; /* at most; 0: as many as processors                     */
    double share;   /* 0 < .. 1   of the houses drawn that are to keep the
                       target                                                */
    double hours;   /* h   a limit may be broken; NaN: the share of the year
                       of dew_verdict_judging                                */
    unsigned knobs; /* 1 << DEW_SIZE_... of those tried; 0: all that help    */
    int years, model; /* 1: the draws go through made years, and carry the
                         model's own error, as dew_spread_ask has it         */
};

/* One figure tried. */
struct dew_size_point {
    double value;                                  /* SI                   */
    struct dew_draws_range hours[DEW_SIZE_LIMITS]; /* p10 .. p90 NaN
                                                         without draws       */
    size_t does;                   /* houses that keep all it is judged by */
    size_t fails[DEW_SIZE_LIMITS]; /* houses that break that limit; of
                                        short_of_air: are not brought it     */
    int enough;                    /* 1: does is the share asked           */
    int halved; /* 1: tried while the size was closed in on, not of the curve */
};

/*
 * What one figure came to.  flow, boost and together are judged by all limits
 * and the fresh air asked for; dehumidifier and set_point by too humid;
 * humidifier by too dry and wet glass.
 */
struct dew_size_curve {
    enum dew_size_core core;
    enum dew_size_knob knob;
    size_t houses, need; /* judged: as many as drawn, 1 where none is; and how
                            many must do                                     */
    const struct dew_size_point *points; /* rising                           */
    size_t count;
    int found; /* 1: some is enough: the size is low, of set_point high      */
    double low, high;      /* ends of the stretch that is: of the first, of
                         set_point of the last                               */
    int at_first, at_last; /* 1: low (high) is the end of the curve          */
    size_t stretches; /* that are enough, apart from each other              */
    double air;       /* m3/s  flow alone: least that brings the air asked for
                         in that share of houses; NaN: none                  */
    size_t nearest;   /* point that is enough in most houses                 */
    enum dew_drawn_what breaks; /* there, the limit broken in most         */
    double at_flow;    /* m3/s  fresh air meanwhile; NaN of flow              */
    double rate;       /* kg/s  of set_point: of the dehumidifier meanwhile   */
    char stopped[160]; /* why some were not tried: they make no house; or "" */
};

struct dew_size; /* opaque */

/*
 * On DEW_OK *size is the caller's, for dew_size_close; else NULL.  ask and what
 * it borrows may go then.
 * Errors: those of dew_run_open and dew_spread_open; DEW_ERANGE for a share or
 * hours that are none; DEW_EAMBIGUOUS for more than one option.
 */
enum dew_status dew_size_open(struct dew_size **size,
                              const struct dew_size_ask *ask,
                              struct dew_faults *faults);
void dew_size_close(struct dew_size *size); /* NULL is allowed */

/*
 * Try one more figure; *done is about the share of them, 1 at the end, and then
 * a step is DEW_OK and does nothing.  Errors: those of dew_spread_step.
 */
enum dew_status dew_size_step(struct dew_size *size, double *done,
                              struct dew_error *err);

/* Curve i, of those finished; NULL after the last.  Borrowed. */
const struct dew_size_curve *dew_size_curve(const struct dew_size *size,
                                            size_t i);

/*
 * Which core is the better one at an airflow: in how many of the houses drawn
 * each is outside the limits (too humid, too dry, wet glass) for the fewest
 * hours; houses in which the best two are less than a day apart are alike (our
 * own).  Airflows of the first grid, with the draws that the cores share.
 */
struct dew_size_best {
    double flow;                 /* m3/s                                     */
    size_t houses;               /* best[] and alike sum to it               */
    size_t best[DEW_SIZE_CORES]; /* 0 of one that was not tried there        */
    size_t alike;
};

/* Airflow i, rising, 1; 0 past the last, and where there are no two cores with
   draws to compare.  Whole once done is 1. */
int dew_size_best(const struct dew_size *size, size_t i,
                  struct dew_size_best *best);

/* That of a core and knob, or NULL. */
const struct dew_size_curve *dew_size_find(const struct dew_size *size,
                                           enum dew_size_core core,
                                           enum dew_size_knob knob);

/* Value of a flow from which on more air is damper (what: too humid) or drier
   (too dry) by the middle house; NaN where it never is. */
double dew_size_turn(const struct dew_size_curve *curve,
                     enum dew_drawn_what what);

/* The houses of a core, for dew_spread_give and dew_spread_mend before the first
   step; NULL where it is not tried or nothing is drawn. */
struct dew_spread *dew_size_spread(struct dew_size *size,
                                   enum dew_size_core core);

/* The run with a core: its scenario, weather and case; NULL where there is no
   such core to try, and then *why says so, "" where none was told. */
const struct dew_run *dew_size_run(const struct dew_size *size,
                                   enum dew_size_core core, const char **why);

/* What was asked, as it was taken. */
struct dew_size_target {
    size_t draws; /* 0: nothing here is told in a range                */
    int years;    /* that the draws go through                         */
    double model; /* -   the model's own error, at most; 0: not drawn  */
    double share;
    double hours; /* h   a limit may be broken                         */
    double asked; /* m3/s  fresh air asked for; by ASHRAE 62.2 of 2013 where
                     none is                                                 */
    struct dew_dwelling home; /* for dew_house_rate                          */
};
struct dew_size_target dew_size_target(const struct dew_size *size);

/* h   in which outdoor air, brought to the nearest temperature that the
   thermostat keeps, is itself above or below the limits. */
struct dew_size_outdoors {
    double too_humid, too_dry, hours;
};
struct dew_size_outdoors dew_size_outdoors(const struct dew_size *size);

#ifdef __cplusplus
}
#endif
#endif
