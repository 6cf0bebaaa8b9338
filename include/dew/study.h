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

#include "dew/faces.h"
#include "dew/march.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One option to march: a name and a complete case.  Borrowed. */
struct dew_option {
    const char *name;
    const struct dew_case *c;
    double required; /* m3/s   0 ..   fresh air asked for, 0 = not stated   */
    const double *held; /* degC  one an hour of the weather, NaN free, borrowed
                           until close: for dew_march_hold; NULL = none     */
};

/* The year, borrowed.  count > 0. */
struct dew_weather {
    const struct dew_hour *hours;
    const struct dew_date *dates;
    size_t count;
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
 * Make a study of count options (1 .. 128).  Names and cases are copied,
 * weather and what is held are borrowed until close.  On DEW_OK *study is the
 * caller's, for dew_study_close; else NULL.
 * Errors: DEW_EMEM; DEW_ERANGE when there is no option or no hour.
 */
enum dew_status dew_study_open(struct dew_study **study,
                               const struct dew_option *options, size_t count,
                               const struct dew_weather *weather,
                               struct dew_error *err);

/*
 * March at most hours hours of the option whose turn it is; *done is the
 * share of the whole study finished, 1 when every option is.  The first step
 * of an option opens its march and spins it up.  A step after the end is DEW_OK
 * and does nothing.
 * Errors: those of dew_march_open, _spin and _step, the option's name in
 * err->path when no member is named.  A study that failed stays failed.
 */
enum dew_status dew_study_step(struct dew_study *study, size_t hours,
                               double *done, struct dew_error *err);

/*
 * The option being marched, from 0; the count of options when all are done.
 */
size_t dew_study_turn(const struct dew_study *study);

/*
 * The outcomes of the options finished so far, in their order; *count of
 * them.  Borrowed, until close.
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

#ifdef __cplusplus
}
#endif
#endif
