/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mould index, 30-day means and monthly means of the inside surfaces. */
#include "dew/study.h"

#include <math.h>

enum { MEAN_HOURS = 24 * DEW_FACE_MEAN_DAYS };

/* [ASH-160] 2009, [ISO13788] */
static const double damp = 0.80;

struct dew_mould_rule dew_faces_rule(enum dew_surface_kind kind)
{
    return (struct dew_mould_rule){
        .by_class = 1,
        .which = kind == DEW_GLASS ? DEW_MOULD_RESISTANT : DEW_MOULD_SENSITIVE,
        .decline = 0.1};
}

/* Highest index of one more year; index may be NULL. */
static double one_year(const struct dew_mould_rule *rule,
                       const struct dew_face_hours *h, struct dew_mould *state,
                       double *index)
{
    double highest = state->index;

    for (size_t i = 0; i < h->count; i++) {
        dew_house_mould_hour(rule, h->t[i], h->rh[i], state);
        highest = fmax(highest, state->index);
        if (index != NULL)
            index[i] = state->index;
    }
    return highest;
}

static void mould(enum dew_surface_kind kind, const struct dew_face_hours *h,
                  double *index, struct dew_face *out)
{
    const struct dew_mould_rule rule = dew_faces_rule(kind);
    const struct dew_mould_rule pine = {.decline = 1.0};
    struct dew_mould state = {0}, check = {0};

    out->mould = one_year(&rule, h, &state, index);
    out->mould_years = out->mould;
    /* a surface on which nothing grew stays clean in the same year again */
    for (int year = 2; out->mould > 0 && year <= DEW_FACE_YEARS; year++)
        out->mould_years =
            fmax(out->mould_years, one_year(&rule, h, &state, NULL));
    out->mould_1999 = one_year(&pine, h, &check, NULL);
}

/* Sums over the 30 days that end with each hour, the year a ring. */
static double hours_of_damp_mean(const struct dew_face_hours *h)
{
    double t = 0, rh = 0, hours = 0;

    if (h->count < MEAN_HOURS)
        return NAN;
    for (size_t i = h->count - MEAN_HOURS; i < h->count; i++) {
        t += h->t[i];
        rh += h->rh[i];
    }
    for (size_t i = 0; i < h->count; i++) {
        size_t out = (i + h->count - MEAN_HOURS) % h->count;

        t += h->t[i] - h->t[out];
        rh += h->rh[i] - h->rh[out];
        hours += rh >= damp * MEAN_HOURS && t >= 5.0 * MEAN_HOURS &&
                 t <= 40.0 * MEAN_HOURS;
    }
    return hours;
}

static void by_month(const struct dew_face_hours *h, struct dew_face *out)
{
    double sum[12] = {0}, count[12] = {0};

    for (size_t i = 0; i < h->count; i++) {
        sum[h->dates[i].month - 1] += h->rh[i];
        count[h->dates[i].month - 1] += 1;
    }
    out->months_80 = 0;
    for (int m = 0; m < 12; m++) {
        out->month_rh[m] = count[m] > 0 ? sum[m] / count[m] : NAN;
        if (out->month_rh[m] > damp) /* false for NaN */
            out->months_80 |= 1U << m;
    }
}

struct dew_face dew_faces_of(enum dew_surface_kind kind,
                             const struct dew_face_hours *hours, double *index)
{
    struct dew_face face;

    mould(kind, hours, index, &face);
    face.mean_80 = hours_of_damp_mean(hours);
    by_month(hours, &face);
    return face;
}
