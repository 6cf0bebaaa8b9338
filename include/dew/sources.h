/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Water set free in the house: published amounts, people and their habits,
 * hours of the day, and the ways they become struct dew_water.
 *
 * Sources disagree: a shower is 0.24 to 2.6 kg between them.  Every row keeps
 * its range and where it is from; likely is what we take when nothing else is
 * known.  Habits and hourly shapes are ours (invented), and are ways to spread
 * a day, not statistics.
 */
#ifndef DEW_SOURCES_H
#define DEW_SOURCES_H

#include <stddef.h>

#include "dew/house.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- published amounts -------------------------------------------------- */

/* What an amount is for. */
enum dew_per {
    DEW_PER_EVENT, /* kg   each shower, load, meal, cycle                   */
    DEW_PER_HOUR,  /* kg/h while it goes on                                 */
    DEW_PER_STAY   /* kg/day while it is there                              */
};

struct dew_amount {
    const char *name;       /* "shower"                                     */
    const char *each;       /* of what: "shower of 5 minutes"               */
    enum dew_source source; /* the row of the books                         */
    enum dew_per per;
    double likely, low, high;
    const char *origin; /* label in docs/references.md, or from memory  */
};

/* All rows; *count of them.  Static. */
const struct dew_amount *dew_house_amounts(size_t *count);

/* The row of a name, or NULL. */
const struct dew_amount *dew_house_amount(const char *name);

/* ---- people ------------------------------------------------------------- */

enum dew_activity { DEW_ASLEEP, DEW_REST, DEW_ACTIVE, DEW_ACTIVITIES };

/* What one grown person gives off. */
struct dew_body {
    const char *name;
    double water, low, high; /* kg/h                                        */
    double sensible;         /* W                                           */
    double met;              /* -       for carbon dioxide                  */
    const char *origin;
};

/* The row of an activity, or NULL.  Static. */
const struct dew_body *dew_house_body(enum dew_activity activity);

/* ---- hours of the day --------------------------------------------------- */

/*
 * A shape by name: "all_day", "morning", "meals", "evening", "daytime",
 * "nights", "waking".  Every day of it sums to 1.
 * Errors: DEW_EUNKNOWN.
 */
enum dew_status dew_house_shape(const char *name, struct dew_shape *out,
                                struct dew_error *err);
/* Name of row i, NULL past the last. */
const char *dew_house_shape_name(size_t i);

/* When people are there and what they do, Monday to Friday and weekend. */
struct dew_habit {
    const char *name, *words;
    const double *present[2]; /* 24 each: share of the people               */
    const double *asleep[2];  /* 24 each: share of those present            */
    const double *active[2];  /* 24 each: share of those present, awake     */
};

/* "all_day", "work_and_school", "home_office", "retired", "night_shift",
   "weekends_only"; or NULL. */
const struct dew_habit *dew_house_habit(const char *name);
/* Row i, NULL past the last. */
const struct dew_habit *dew_house_habit_at(size_t i);

/*
 * count persons of one habit: presence, heat and CO2 each when present (means
 * over the hours present) into *people, whose gains stay as they are, and
 * their water into *water.
 *
 * Limits     the day's water is the week's mean, since a shape cannot say
 *            that weekends have more of it; children count as grown.
 * Errors     DEW_ERANGE for count outside 0 .. 40.
 */
enum dew_status dew_house_people(double count, const struct dew_habit *habit,
                                 struct dew_people *people,
                                 struct dew_water *water,
                                 struct dew_error *err);

/* Appliances and light, W, by floor area: 3 W/m2, from memory and judgment. */
double dew_house_gains(double floor_area);

/* ---- from amounts to struct dew_water ----------------------------------- */

/* per_day kg on a shape; latent heat from the air for what dries by itself
   (laundry, plants), else from hot water, stove, body or ground. */
struct dew_water dew_house_scheduled(enum dew_source source, double per_day,
                                     const struct dew_shape *shape);

/*
 * The same water given by vapour pressure: kg/(s Pa) that comes to per_day
 * from a surface of 20 degC in a room of 20 degC and 50 %.  Form of [TP07],
 * which prints no figure we could read; the normal state is ours.
 */
struct dew_water dew_house_felt(enum dew_source source, double per_day);

/* kg/day of a source in that normal state, by schedule and felt. */
double dew_house_told(const struct dew_water *water);

/*
 * kg of building water at start_day of the run, drying with a half-life in
 * days: per_day is the first day's rate, kg ln 2 / half_life.
 */
struct dew_water dew_house_drying(double kg, double half_life,
                                  double start_day);

/* kg that have come out from start to end (days of the run). */
double dew_house_dried(const struct dew_water *drying, double start,
                       double end);

/*
 * Make the sources given by schedule sum to total, kg/day, in the shares they
 * have; with none given, all of it becomes "other" on the shape.
 * Errors: DEW_ERANGE for total outside 0 .. 500.
 */
enum dew_status dew_house_spread_total(double total,
                                       const struct dew_shape *shape,
                                       struct dew_water water[DEW_SOURCES],
                                       struct dew_error *err);

/* ---- carbon dioxide that people breathe out ------------------------------ */

/* Pure functions; an argument outside its range gives NaN. */

enum dew_sex { DEW_FEMALE, DEW_MALE };

/* Basal metabolism, MJ/day; mass kg > 0, age 3 .. 120 years.  [SCHO85], from
   memory. */
double dew_house_basal(enum dew_sex sex, double age, double mass);

/*
 * Generation, m3/s at t and p: RQ BMR M (T/p) 0.000211 L/s, RQ 0.85.
 *
 *     basal  MJ/day > 0    met  -  0.7 .. 10
 *     t      degC  -20 .. 60        p  Pa  50e3 .. 110e3
 *
 * Equation   [PJ17], from memory.
 * Checked    test_co2.c: 0.0048 L/s for a man of 21 - 30 at 1.2 met, 273 K.
 */
double dew_house_co2(double basal, double met, double t, double p);

/* Mean of a man and a woman of 21 - 30 years, 84.9 and 71.9 kg, [PJ17]; m3/s
   at 20 degC and 101.325 kPa. */
double dew_house_co2_adult(double met);

/* Steady rise over outdoors, ppm: 1e6 generation / flow (m3/s both). */
double dew_house_co2_rise(double generation, double flow);

/* A well mixed room. */
struct dew_co2_room {
    double volume;     /* m3    > 0                                          */
    double generation; /* m3/s                                               */
    double flow;       /* m3/s  >= 0   of outdoor air                        */
    double outdoors;   /* ppm                                                */
};

/*
 * ppm at the end of time, s > 0, by one implicit (backward Euler) step of
 *
 *     volume dC/dt = 1e6 generation + flow (outdoors - C)
 *
 * from start, ppm.  It never overshoots; of much time it gives the steady
 * state.  A stage of the march is one such step, by the same formula from
 * engine/house/co2_step.h.
 * Checked    test_co2.c: against the balance's closed form.
 */
double dew_house_co2_step(const struct dew_co2_room *room, double start,
                          double time);

#ifdef __cplusplus
}
#endif
#endif
