/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Several houses marched side by side, an hour at a time: as many as the
 * processor's vectors hold numbers, in about the time of one.  What each comes
 * to is what march.h gives for it alone, to 1e-9 of its state.
 *
 * The houses of a bundle share a calendar and the words of their cases (how
 * many air handlers, how blowers and frost are handled): dew_bundle_alike.
 * Their numbers and their weather may differ.
 */
#ifndef DEW_BUNDLE_H
#define DEW_BUNDLE_H

#include "dew/march.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { DEW_BUNDLE_MOST = 16 }; /* lanes of any processor                    */

struct dew_bundle; /* opaque: owns its memory */

/* Houses that march at once on this processor, up to DEW_BUNDLE_MOST; 0 on one
   that is too old for it. */
int dew_bundle_lanes(void);

/* 1 when the two may march in one bundle. */
int dew_bundle_alike(const struct dew_case *a, const struct dew_case *b);

/* 1 when they march to the same: alike, with the same numbers. */
int dew_bundle_same(const struct dew_case *a, const struct dew_case *b);

/*
 * Who marches together next: the first of count cases that is not taken, and
 * those after it that are alike, at most most in all (at least 1) and
 * DEW_BUNDLE_MOST.  They are marked in taken and listed, in their order;
 * returns how many, 0 when all are taken.
 */
size_t dew_bundle_next(const struct dew_case *cases, size_t count, size_t most,
                       unsigned char *taken, size_t *list);

/*
 * What the sun sends onto the facades of a house that stands as c does, in each
 * hour of the weather, which is borrowed.  Named in dew_weather it spares the
 * bundles that reckoning, where their houses stand so; the figures are the
 * same.  May be read by several threads.  On DEW_OK *light is the caller's, for
 * dew_light_close, after the bundles; else NULL.
 * Errors: DEW_EMEM.
 */
enum dew_status dew_light_open(struct dew_light **light,
                               const struct dew_case *c,
                               const struct dew_weather *weather,
                               struct dew_error *err);

void dew_light_close(struct dew_light *light);

/*
 * Make a bundle of count houses, 1 .. dew_bundle_lanes, which are copied, with
 * so many tallies for each.  weather[i] is house i's, of the same dates for all;
 * the first hour stands for the one before it, as for dew_march_open.  On DEW_OK *bundle is the caller's,
 * for dew_bundle_close; else NULL.
 * Errors: as dew_march_open; DEW_ERANGE where the houses are not alike, or the
 * calendars not of one length.
 */
enum dew_status dew_bundle_open(struct dew_bundle **bundle,
                                const struct dew_case *const *cases,
                                const struct dew_weather *weather, size_t count,
                                size_t tallies, struct dew_error *err);

/* Fresh air that is asked of house i, m3/s, for its tallies; 0 unless set. */
void dew_bundle_require(struct dew_bundle *bundle, size_t i, double required);

/* Hold house i's indoor temperature; as dew_march_prescribe_t. */
void dew_bundle_prescribe_t(struct dew_bundle *bundle, size_t i,
                            const double *t, size_t count);

/*
 * In hours whose temperature is held, the coils of house i run for this share of
 * the hour, - 0 .. 1, as it was measured, and take off what a machine that cycles
 * takes off in that time (plant__run_time): each at its own capacity, one after
 * the other where the case has them so.  What then keeps the temperature is
 * "prescribed" as before.  NaN, and from count on: they rest.  run is borrowed
 * until close, or the next call; NULL: none.
 */
void dew_bundle_prescribe_run(struct dew_bundle *bundle, size_t i,
                              const double *run, size_t count);

/*
 * In hours whose temperature is held, the blowers of house i run for this share
 * of the hour, - 0 .. 1, as it was measured, and no shorter than their coils:
 * at full flow as long as they would by themselves for cooling, its delay and
 * heating, at their low flow for what is beyond.  NaN, and from count on: by
 * themselves.  share is borrowed until close, or the next call; NULL: none.
 */
void dew_bundle_prescribe_blower(struct dew_bundle *bundle, size_t i,
                                 const double *share, size_t count);

/* Let house i begin at this temperature, its air and all its stores at this RH
   (else its heating set point and 45 %).  Before the first hour.
   Errors: DEW_ERANGE for t (-60 .. 60 degC) or rh (0 .. 1), DEW_EMEM. */
enum dew_status dew_bundle_begin(struct dew_bundle *bundle, size_t i, double t,
                                 double rh, struct dew_error *err);

/* To where hour 0 finds the houses; as dew_march_warm_up, of a whole year
   only.  Errors: as dew_bundle_step; DEW_ERANGE for less than a year. */
enum dew_status dew_bundle_warm_up(struct dew_bundle *bundle, size_t *failed,
                                   struct dew_error *err);

/*
 * Hour h of the weather, in turn from 0, for all houses.  Allocates nothing.
 * Errors: DEW_EBALANCE as dew_march_step, with the house in *failed (may be
 * NULL) and the hour in err->hour; the others have marched on.
 */
enum dew_status dew_bundle_step(struct dew_bundle *bundle, size_t h,
                                size_t *failed, struct dew_error *err);

/* Add the hour just marched to each house's tally of that number. */
void dew_bundle_tally(struct dew_bundle *bundle, size_t which);

/* Of house i: the hour just marched, and a tally so far. */
void dew_bundle_result(const struct dew_bundle *bundle, size_t i,
                       struct dew_result *out);
void dew_bundle_total(const struct dew_bundle *bundle, size_t i, size_t which,
                      struct dew_tally *out);

/* Free a bundle; NULL is allowed. */
void dew_bundle_close(struct dew_bundle *bundle);

#ifdef __cplusplus
}
#endif
#endif
