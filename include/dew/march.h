/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The march: one hour, one year, the ledgers and the tallies.  The whole
 * program, in six lines:
 *
 *     struct dew_march *m;
 *     dew_march_open(&m, &house_case, &weather[0], &err);
 *     for (size_t h = 0; h < count; h++)
 *         if (dew_march_step(m, &weather[h], &date[h], &out, &err))
 *             break;
 *     dew_march_close(m);
 *
 * dew_march_open is the only call here that allocates.
 */
#ifndef DEW_MARCH_H
#define DEW_MARCH_H

#include "dew/ducts.h"
#include "dew/house.h"
#include "dew/plant.h"
#include "dew/status.h"
#include "dew/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Limits of a good indoor climate. */
struct dew_limits {
    double too_humid; /* -   RH above it is too humid                       */
    double too_dry;   /* -   RH below it is too dry                         */
};

/* One complete case: plain, copyable; no prices (study), no files. */
struct dew_case {
    struct dew_house house;
    struct dew_plant plant;
    /* [ventilator state][blower state]; all blower states alike until a duct
       network fills them */
    struct dew_path paths[DEW_VENT_STATES][DEW_BLOWER_STATES];
    struct dew_duct_watch watch; /* of the layout; zero = nothing watched    */
    struct dew_limits limits;
    struct dew_site site; /* of the weather, for the sun                 */
    enum dew_clock clock; /* that people's hours, set points and timers go by */
    double pressure;      /* Pa   site mean, fixes the dry-air density   */
    int steps_per_hour;   /* 1 .. 60; of an even number from 4 to 12 a quiet
                             hour takes half, of 4, 8 and 12 a quarter   */
};

/*
 * The lists.  A row makes the scalar member, the lane array, the JSON key and
 * the ledger row.  Nobody counts them by hand.
 */
/* clang-format off */
#define DEW_STATE_MAP(X)                                                       \
    X(t_air) X(t_mass) X(w) X(w_surface) X(w_mid) X(w_deep) X(co2) X(owed_q)   \
    X(film_glass) X(film_edge) X(film_corner)                                  \
    X(coil_1) X(coil_2) X(coil_3)
/* clang-format on */

/* Water into the zone's air, kg: + in, - out.  name, words */
#define DEW_WATER_MAP(X)                                                       \
    DEW_SOURCE_MAP(X)                                                          \
    X(humidifier, "humidifier")                                                \
    X(leakage, "leakage through the envelope")                                 \
    X(windows, "opened windows")                                               \
    X(fresh, "fresh air by the ventilator")                                    \
    X(recovered, "kept or brought by the core")                                \
    X(unplanned, "outdoor air through an idle unit")                           \
    X(ductleak, "outdoor air by duct leaks")                                   \
    X(ductlost, "dry air lost by leaks of supply ducts")                       \
    X(coil, "condensed on the cooling coil")                                   \
    X(reevaporation, "put back by the coil")                                   \
    X(dehumidifier, "dehumidifier")                                            \
    X(glass, "sweating surfaces")                                              \
    X(fog, "fallen out of saturated air")                                      \
    X(store, "furnishings and fabric")

/* Heat into the zone's nodes, J: + in, - out.  name, words */
#define DEW_HEAT_MAP(X)                                                        \
    X(bodies, "people")                                                        \
    X(gains, "appliances and light")                                           \
    X(solar, "sun")                                                            \
    X(dropped, "gains the node method leaves out")                             \
    X(opaque, "walls and roof")                                                \
    X(glazing, "windows and doors")                                            \
    X(earth, "ground")                                                         \
    X(sky, "lost to the sky")                                                  \
    X(infiltration, "leakage through the envelope")                            \
    X(airing, "opened windows")                                                \
    X(freshair, "fresh air by the ventilator")                                 \
    X(recovery, "kept or brought by the core")                                 \
    X(ductair, "idle unit and duct leaks")                                     \
    X(fans, "ventilator fans and preheat")                                     \
    X(blowers, "blowers")                                                      \
    X(heating, "heating")                                                      \
    X(cooling, "cooling, sensible")                                            \
    X(drier, "dehumidifier and humidifier")                                    \
    X(evaporation, "evaporation and sorption")                                 \
    X(ductwall, "through walls of ducts outside the envelope")                 \
    X(ductlost, "warm or cool air lost by leaks of supply ducts")              \
    X(prescribed, "held by the given temperature")

#define DEW_MEMBER_OF(name, words) double name;

struct dew_state {
    DEW_STATE_MAP(DEW_MEMBER)
};

struct dew_water_flows {
    DEW_WATER_MAP(DEW_MEMBER_OF)
};

struct dew_heat_flows {
    DEW_HEAT_MAP(DEW_MEMBER_OF)
};

/* Electricity and fuel used, J.  name, words */
#define DEW_ENERGY_MAP(X)                                                      \
    X(ventilator, "ventilator fans")                                           \
    X(preheat, "ventilator preheat")                                           \
    X(blower, "air handler blowers")                                           \
    X(cooling, "cooling compressor")                                           \
    X(heating_power, "heating, electricity")                                   \
    X(heating_fuel, "heating, fuel")                                           \
    X(dehumidifier, "dehumidifier")                                            \
    X(humidifier, "humidifier")                                                \
    X(exhausts, "local exhaust fans")

struct dew_energy {
    DEW_ENERGY_MAP(DEW_MEMBER_OF)
};

/* 0 .. 1 of the hour */
struct dew_duty {
    double cool, heat, vent, boost, defrost, blower, dehumidify, humidify,
        window;
};

/* What one hour did.  Plain. */
struct dew_result {
    struct dew_state end;         /* at the end of the hour                */
    struct dew_water_flows water; /* kg                                    */
    struct dew_heat_flows heat;   /* J                                     */
    struct dew_energy energy;     /* J                                     */
    struct dew_duty duty;         /* mean over the hour                    */
    double t, w;                  /* degC, kg/kg   means over the hour     */
    double rh;                    /* -             mean over the hour      */
    double dew_point;             /* degC          of the mean w           */
    double w_out;                 /* kg/kg         mean outdoors           */
    double t_out;                 /* degC          mean outdoors           */
    double fresh;                 /* m3/s   delivered to the rooms         */
    double drawn;                 /* m3/s   by a lone exhaust fan, in leak */
    double leak;                  /* m3/s   natural and driven leakage in  */
    double supply_t;              /* degC   of the ventilator, running     */
    double pressure;              /* Pa     house over outdoors, worst state */
    double pressure_all;          /* Pa     with every exhaust running     */
    double co2;                   /* ppm    mean over the hour             */
    double surface_rh[DEW_SURFACES]; /* -    at each surface, mean          */
    double surface_t[DEW_SURFACES];  /* degC mean                           */
    double sweat[DEW_SURFACES];      /* -    share of the hour it is seen wet:
                                   DEW_FILM_SEEN, or saturated air where the
                                   surface has no area                     */
    double ducts[DEW_DUCT_SPOTS];    /* -    share of the hour wet or cold   */
    double mixed_t;                  /* degC coldest air that would reach the
                                   heaters with outdoor air in it; NaN none */
    double short_heat;               /* -    share of the hour in which heating
                                   at its full leaves the air more than 0.5 K
                                   below its band                          */
    double coil_drained;             /* kg   of condensate, to the drain    */
    double core_drained;             /* kg   condensed in the core          */
    double wiped;                    /* kg   run off or wiped from surfaces */
};

struct dew_march; /* opaque: owns its workspace */

/*
 * Make a march for *c, which is copied.  before is the weather at the start
 * of the first hour (the stamp before it; the first hour itself when there is
 * none).  On DEW_OK *march is the caller's, for dew_march_close; else NULL.
 * Errors: DEW_EMEM; DEW_ERANGE with the member's name in err->path, and where
 * the case, its site or *before holds a NaN, other than the members that are
 * said to be NaN where nothing is meant.
 */
enum dew_status dew_march_open(struct dew_march **march,
                               const struct dew_case *c,
                               const struct dew_hour *before,
                               struct dew_error *err);

/*
 * Hold the indoor temperature at t[h], degC, in hour h from the start, as it
 * was measured: no heating or cooling equipment acts then, and what keeps it
 * there is the flow "prescribed" of the heat books.  Where t[h] is NaN, and from
 * count on, the case's own thermostat rules.  t is borrowed until close, or
 * the next call; NULL holds no more.
 */
void dew_march_prescribe_t(struct dew_march *march, const double *t,
                           size_t count);

/*
 * Advance one hour.  Allocates nothing.  *out is written only on DEW_OK.
 * Errors: DEW_ERANGE with err->hour and the member's name in err->path when
 * *hour holds a NaN, what is infinite, a t outside -100 .. 90 degC, a w
 * outside 0 .. 1, a wind below 0 or no pressure, or *date a part outside its
 * range; nothing has then been done.  DEW_EBALANCE with err->hour when a ledger
 * does not close within 1e-9 of the hour's inflows, or a value is not finite, as
 * when the air indoors leaves -60 .. 60 degC.
 */
enum dew_status dew_march_step(struct dew_march *march,
                               const struct dew_hour *hour,
                               const struct dew_date *date,
                               struct dew_result *out, struct dew_error *err);

enum { DEW_MARCH_YEAR = 8760 }; /* h  a whole year of weather, at least    */

/*
 * Bring a march just opened to where hour 0 finds the house.  Hours of a whole
 * year or more: once through the last 22 weeks of the first twelve months, one
 * step an hour, never halved, and in the last four weeks the case's own, so that
 * the year begins as it ends; also the running mean outdoors and the rest of the windows are then those of that end.  Fewer
 * hours: the first four weeks again and again until the stores repeat to 0.01
 * point, at most 40 times.  Water of construction neither begins nor fades
 * meanwhile; temperatures held are those of the hours marched.  The state and
 * the clock stand at the start of hour 0 afterwards; the weather before it is
 * that of the hour led in with last, else what dew_march_open was given.
 * Returns the turns taken in *turns (may be NULL).  Errors: as dew_march_step.
 */
enum dew_status dew_march_warm_up(struct dew_march *march,
                                  const struct dew_hour *hours,
                                  const struct dew_date *dates, size_t count,
                                  int *turns, struct dew_error *err);

/* Free a march; NULL is allowed. */
void dew_march_close(struct dew_march *march);

/* ppm   hours above it are counted.  Our own mark: "no current ASHRAE standard
   contains an indoor CO2 limit" [PERSILY20]. */
#define DEW_CO2_MARK 1000.0

enum { DEW_POINTS = 3 };

/* Tallies of a run, by month and over all.  Plain; needs no march. */
struct dew_tally {
    double hours;                  /* counted                             */
    double too_humid, too_dry;     /* h                                   */
    double longest_too_humid;      /* h                                   */
    double humid_by[DEW_POINTS];   /* h   1, 2, 3 points of RH past the limit */
    double could_dry;              /* h   outdoor air could dry the house */
    double could_wet;              /* h   outdoor w above indoor w        */
    double idle_humid;             /* h   too humid while cooling is idle */
    double rh_sum, rh_min, rh_max; /* -                                   */
    double t_sum, t_min, t_max;    /* degC                                */
    double fresh_sum, leak_sum;    /* m3/s x h                            */
    double short_heat;             /* h   see struct dew_result           */
    double drawn_sum;              /* m3/s x h                            */
    double fresh_short;            /* h   fresh and drawn below required  */
    double supply_t_min;           /* degC                                */
    double frost_hours;            /* h of defrost                        */
    double saturated;              /* h in which water fell out of the air */
    double co2_sum, co2_max;       /* ppm                                 */
    double co2_high;               /* h above DEW_CO2_MARK                */
    double sweat[DEW_SURFACES];    /* h                                   */
    double surface_80[DEW_SURFACES]; /* h   surface RH above 80 %           */
    double ducts[DEW_DUCT_SPOTS];    /* h   wet or cold                     */
    double mixed_t_min;              /* degC coldest while heating; NaN none */
    double pressure_min;             /* Pa  worst state                     */
    double pressure_all_min;         /* Pa  every exhaust at once           */
    double by_hour[24];              /* -   RH sum by hour of the day       */
    double by_hour_count[24];
    double run;                   /* h   private to dew_tally_add        */
    struct dew_water_flows water; /* kg  */
    struct dew_heat_flows heat;   /* J   */
    struct dew_energy energy;     /* J   */
    struct dew_duty duty;         /* h   */
    double coil_drained, core_drained, wiped; /* kg */
    double dryer_t, dryer_rh; /* degC x h, h   sums over its running        */
};

/* An hour counts only beyond a limit of RH by this, so that a controller
   holding the limit itself is not counted; 0.05 point.  Our own. */
#define DEW_BEYOND 0.0005

/*
 * Add an hour.  An hour is too humid when its mean RH exceeds the limit by
 * more than DEW_BEYOND, too dry likewise below.  required is the
 * fresh air rate asked for, m3/s.
 */
void dew_tally_add(struct dew_tally *tally, const struct dew_limits *limits,
                   double required, const struct dew_date *date,
                   const struct dew_result *in);

#ifdef __cplusplus
}
#endif
#endif
