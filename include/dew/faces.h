/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the inside surfaces went through in a year: mould index and the older
 * criteria, from the temperature and humidity that each felt hour by hour.
 */
#ifndef DEW_FACES_H
#define DEW_FACES_H

#include <stddef.h>

#include "dew/house.h"
#include "dew/mould.h"
#include "dew/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

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

#ifdef __cplusplus
}
#endif
#endif
