/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A study: several options of one house marched through one year of weather,
 * side by side.  The caller owns the loop, and with it progress and stopping:
 *
 *     dew_study_open(&study, options, count, &weather, &err);
 *     while (dew_study_step(study, 24, &share, &err) == DEW_OK && share < 1)
 *         draw(share);
 *     const struct dew_outcome *o = dew_study_outcomes(study, &count);
 *     ...
 *     dew_study_close(study);
 *
 * dew_study_open is the only call here that allocates, apart from the march
 * that each option opens when its turn comes.
 */
#ifndef DEW_STUDY_H
#define DEW_STUDY_H

#include "dew/cost.h"
#include "dew/kept.h"
#include "dew/march.h"
#include "dew/surface.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what a study is told beside the cases ------------------------------- */

/* Not asked and not known are the same, and both call for caution. */
enum dew_answer { DEW_ANSWER_UNKNOWN, DEW_ANSWER_NO, DEW_ANSWER_YES };

/* One row per question: member (and key safety.member), what it asks. */
#define DEW_SAFETY_MAP(X)                                                      \
    X(natural_draft_appliance,                                                 \
      "a furnace, boiler, water heater, stove or fireplace that draws its "    \
      "air from the rooms and sends its smoke up a chimney by draught")        \
    X(unvented_heater, "a fuel heater or stove without a flue")                \
    X(attached_garage, "a garage that shares a wall or ceiling with the "      \
                       "house")                                                \
    X(carbon_monoxide_alarm, "a working carbon monoxide alarm on each floor")  \
    X(visible_mould, "mould that can be seen, about 10 ft2 or more in all")    \
    X(sewage_or_flood, "water from a drain or a flood in the past year")       \
    X(illness, "asthma, immune trouble or symptoms laid to the house")         \
    X(bulk_water, "a leak, a wet cellar, a wet crawl space or rain coming in") \
    X(radon_tested, "a radon test since the last change of house or "          \
                    "ventilation")                                             \
    X(foamed_roof_deck, "foam sprayed under the roof boards")                  \
    X(recent_foam, "foam sprayed in the past year, or a smell of it")          \
    X(old_insulation, "duct wrap or insulation from before 1985 that may "     \
                      "hold asbestos")                                         \
    X(ducts_outside, "ducts in an attic, garage or crawl space")               \
    X(dryer_vented_outdoors, "a clothes dryer whose duct ends outdoors")       \
    X(hood_into_ventilator, "a kitchen hood or clothes dryer ducted into the " \
                            "ventilator")

#define DEW_ANSWER_MEMBER(name, words) enum dew_answer name;
struct dew_safety {
    DEW_SAFETY_MAP(DEW_ANSWER_MEMBER)
    double house_age; /* s    since it was finished; NaN unknown             */
};

/* What the ventilator is. */
#define DEW_CORE_MAP(X)                                                        \
    X(none, "no ventilator")                                                   \
    X(supply_only, "supply fan, no recovery")                                  \
    X(exhaust_only, "exhaust fan, no recovery")                                \
    X(balanced, "supply and exhaust fans, no recovery")                        \
    X(heat_plate, "plate core, heat only")                                     \
    X(enthalpy_plate, "plate core, heat and moisture")                         \
    X(enthalpy_wheel, "wheel, heat and moisture")

enum dew_core_kind {
#define X(name, words) DEW_CORE_##name,
    DEW_CORE_MAP(X)
#undef X
        DEW_CORE_KINDS
};

/*
 * What an option's figures leave open, read another way: the lower and the
 * higher core that its spec sheet allows (the fan terms of TRE, what LRMT,
 * SRE and ASRE have had taken out), and the other way of running two or more
 * air handlers, which one zone cannot know; and a cooling coil that is as dry
 * between runs, or as wet, as its figures' ranges allow.
 */
enum dew_otherwise {
    DEW_CORE_READ_LOW,
    DEW_CORE_READ_HIGH,
    DEW_HANDLERS_OTHER,
    DEW_COIL_DRY,
    DEW_COIL_WET,
    DEW_OTHERWISES
};

/* What cautions and words about one option hang on, beside its case. */
struct dew_option_facts {
    enum dew_core_kind core;
    enum dew_layout layout;
    double flow;               /* m3/s   asked of the ventilator            */
    double rated_flow;         /* m3/s   before the as-found derate         */
    enum dew_answer damper;    /* motorised damper on a tied-in duct        */
    enum dew_answer interlock; /* blower runs whenever the ventilator does  */
    int handlers;              /* air handlers that heat or cool by air     */
    struct dew_estimate half_life; /* d  of construction water              */
    double storeys;                /* -  1 .. 3                             */
    unsigned exhausts_told; /* bit e of enum dew_local: its flow was given, 0
                               too, which says there is none                */
    int label_open; /* 1: a dehumidifier by its label, whose test is not told */
};

/* The words of the lists; never NULL. */
const char *dew_layout_text(enum dew_layout layout);
const char *dew_core_text(enum dew_core_kind core);
/* "unknown", "no" or "yes". */
const char *dew_answer_text(enum dew_answer answer);

/* ---- what the inside surfaces went through in a year --------------------- */

enum { DEW_FACE_YEARS = 10, DEW_FACE_MEAN_DAYS = 30 };

/* Above it a surface fails [ASH-160] of 2016 (from memory). */
#define DEW_MOULD_LIMIT 3.0

/* One surface through one year.  Plain. */
struct dew_face {
    double mould;        /* -   highest index, from a clean surface on      */
    double mould_years;  /* -   highest once the same year came ten times   */
    double mould_1999;   /* -   highest, by the form for resawn pine [HV99] */
    double mean_80;      /* h   in which the mean RH of the last 30 days was
                                 80 % or more and their mean temperature 5 ..
                                 40 degC; the year taken as a ring.  NaN for a
                                 run shorter than 30 days  [ASH-160] of 2009 */
    double month_rh[12]; /* -   mean by month, NaN without an hour          */
    unsigned months_80;  /* bit 0 = January: mean above 80 %  [ISO13788]    */
};

/* What it felt.  Borrowed arrays of count values. */
struct dew_face_hours {
    const double *t;  /* degC                                               */
    const double *rh; /* -     at the surface; may pass 1                   */
    const struct dew_date *dates;
    size_t count;
};

/*
 * The rule of growth on a surface of the march, by sensitivity class: glass is
 * resistant, the frame and the painted board of a corner are sensitive.  Index
 * lost in dry times by the slowest decline, 0.1, as [ASH-160] has it where
 * nothing better is known (from memory).
 */
struct dew_mould_rule dew_faces_rule(enum dew_surface_kind kind);

/*
 * Go through the hours.  index receives the index at the end of each hour of
 * the first year; NULL is allowed.
 *
 * Limit   a wall's inside and what stands against it are not seen; each
 *         surface is clean when the year begins.
 */
struct dew_face dew_faces_of(enum dew_surface_kind kind,
                             const struct dew_face_hours *hours, double *index);

/* ---- the study ----------------------------------------------------------- */

/* One option to march: a name and a complete case.  Borrowed. */
struct dew_option {
    const char *name;
    const struct dew_case *c;
    double required; /* m3/s   0 ..   fresh air asked for, 0 = not stated   */
    const double
        *prescribed_t; /* degC  one an hour of the weather, NaN free, borrowed
                           until close: for dew_march_prescribe_t; NULL = none     */
    int counts_only;   /* 1: its hours are counted and not kept: the outcome's
                        series are NULL                                     */
};

/*
 * What is kept of every hour: member, heading with its unit, factor from SI
 * to that unit, decimals.  A row makes the array and the column of the table
 * of hours.
 */
#define DEW_SERIES_MAP(X)                                                      \
    X(t, "indoor_c", 1, 2)                                                     \
    X(rh, "indoor_rh_pct", 100, 4)                                             \
    X(dew_point, "indoor_dew_point_c", 1, 2)                                   \
    X(t_out, "outdoor_c", 1, 2)                                                \
    X(dew_point_out, "outdoor_dew_point_c", 1, 2)                              \
    X(fresh, "fresh_air_l_s", 1000, 2)                                         \
    X(leak, "leakage_l_s", 1000, 2)                                            \
    X(co2, "co2_ppm", 1, 0)                                                    \
    X(glass_rh, "glass_rh_pct", 100, 2)                                        \
    X(supply_t, "supply_air_c", 1, 2)                                          \
    X(cool, "cooling_duty_pct", 100, 2)                                        \
    X(heat, "heating_duty_pct", 100, 2)                                        \
    X(vent, "ventilator_duty_pct", 100, 2)                                     \
    X(blower, "blower_duty_pct", 100, 2)                                       \
    X(dehumidify, "dehumidifier_duty_pct", 100, 2)                             \
    X(window, "window_duty_pct", 100, 2)                                       \
    X(condensate, "coil_condensate_kg", 1, 4)                                  \
    X(power, "electricity_w", 1, 1)                                            \
    X(glass_t, "glass_c", 1, 2)                                                \
    X(frame_t, "frame_c", 1, 2)                                                \
    X(frame_rh, "frame_rh_pct", 100, 2)                                        \
    X(corner_t, "corner_c", 1, 2)                                              \
    X(corner_rh, "corner_rh_pct", 100, 2)                                      \
    X(glass_mould, "glass_mould_index", 1, 3)                                  \
    X(frame_mould, "frame_mould_index", 1, 3)                                  \
    X(corner_mould, "corner_mould_index", 1, 3)                                \
    X(drawn, "drawn_by_exhaust_fan_l_s", 1000, 2)                              \
    X(humid, "counted_too_humid", 1, 0)                                        \
    X(dry, "counted_too_dry", 1, 0)

/* Arrays of the study, each of struct dew_outcome.count values, SI. */
struct dew_series {
#define X(name, heading, factor, decimals) const double *name;
    DEW_SERIES_MAP(X)
#undef X
};

enum { DEW_MONTHS = 12, DEW_DAY_HOURS = 24, DEW_DURATION = 101 };

/* What one option did in its year.  Plain; the arrays belong to the study. */
struct dew_outcome {
    const char *name; /* of the study, copied                   */
    double required;  /* m3/s   fresh air asked for             */
    size_t count;     /* hours marched                          */
    int turns; /* of the lead-in or the first weeks, until stores settled */
    struct dew_tally year; /* all hours                              */
    struct dew_tally month[DEW_MONTHS];
    struct dew_series series;
    double rh_5, rh_50, rh_95;     /* -   percentiles of the hourly RH       */
    double duration[DEW_DURATION]; /* -  RH exceeded in i % of the hours    */
    /* mean RH by month and hour of the day (0 ends at 01:00); NaN = no hour */
    double rh_map[DEW_MONTHS][DEW_DAY_HOURS];
    struct dew_face faces[DEW_SURFACES]; /* mould and damp               */
    double water_residual; /* -   of the turnover, year's water books */
    double heat_residual;  /* -   of the turnover, year's heat books  */
    double water_turnover; /* kg  inflows to the zone's air           */
    double heat_turnover;  /* J   inflows to the zone's nodes         */
};

struct dew_study; /* opaque */

/*
 * Make a study of count options (1 .. 256).  Names and cases are copied,
 * weather and what is held are borrowed until close.  On DEW_OK *study is the
 * caller's, for dew_study_close; else NULL.
 * Errors: DEW_EMEM; DEW_ERANGE when there is no option or no hour.
 */
enum dew_status dew_study_open(struct dew_study **study,
                               const struct dew_option *options, size_t count,
                               const struct dew_weather *weather,
                               struct dew_error *err);

/*
 * March on so many threads at most, 0 for as many as there are processors,
 * which is so unless told.  The figures do not depend on it.
 */
void dew_study_threads(struct dew_study *study, size_t threads);

/*
 * Before the first step: what kept has of the options is theirs, unmarched; what
 * the others come to is put there.  kept is borrowed until close; NULL: none.
 * The figures do not depend on it.  Errors: DEW_EMEM.
 */
enum dew_status dew_study_keep(struct dew_study *study,
                               const struct dew_kept *kept,
                               struct dew_error *err);

/*
 * March at most hours hours of the options that are in the air: those that
 * branch alike side by side, several such on threads.  *done is the share of
 * the whole study finished, 1 when every option is.  The first step of an
 * option opens its march and warms it up.  A step after the end is DEW_OK
 * and does nothing.
 * Errors: those of dew_march_open, _warm_up and _step, the option's name in
 * err->path when no member is named.  A study that failed stays failed.
 */
enum dew_status dew_study_step(struct dew_study *study, size_t hours,
                               double *done, struct dew_error *err);

/* Options finished; not always the first ones. */
size_t dew_study_turn(const struct dew_study *study);

/*
 * The outcomes of the options, in their order: *count, up to the first that is
 * not finished.  Borrowed, until close.
 */
const struct dew_outcome *dew_study_outcomes(const struct dew_study *study,
                                             size_t *count);

/* Free a study; NULL is allowed. */
void dew_study_close(struct dew_study *study);

/*
 * The share (0 .. 1) quantile of count values in ascending order, linear
 * between neighbours; NaN when count is 0.  [HYNDMAN96] definition 7.
 */
double dew_study_quantile(const double *sorted, size_t count, double share);

/* ---- measured beside modelled -------------------------------------------- */

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
