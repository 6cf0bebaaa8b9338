/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Figures that hardly anybody publishes (how far days stray, how they hang
 * together) from the place of the table whose months are most like those that
 * are known.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "dew/air.h"
#include "dew/sun.h"
#include "made/climate.h"

/* What counts as much as 2 K in every month: our own choice. */
static const double LATITUDE_LIKE = 8.0; /* deg */

/* The month of the table that has the same season. */
static int same_season(const struct dew_climate *c, int month)
{
    return c->site.latitude < 0.0 ? (month + 6) % 12 : month;
}

static double square(double x)
{
    return x * x;
}

static double unlikeness(const struct dew_climate *c,
                         const struct dew_climate *other)
{
    double sum =
        12.0 * square((fabs(c->site.latitude) - fabs(other->site.latitude)) /
                      LATITUDE_LIKE);

    for (int m = 0; m < 12; m++) {
        const struct dew_normal *a = &c->month[m];
        const struct dew_normal *b = &other->month[same_season(c, m)];

        sum += square((a->t - b->t) / 2.0) + square((a->td - b->td) / 2.0) +
               square((a->t_max - a->t_min - b->t_max + b->t_min) / 2.0);
    }
    return sum;
}

static void most_alike(const struct dew_climate *c, struct dew_climate *best)
{
    struct dew_climate other;
    double least = INFINITY;

    for (size_t at = 0; dew_climate_next(&at, &other);) {
        double far = unlikeness(c, &other);

        if (far >= least)
            continue;
        least = far;
        *best = other;
    }
}

/* Light beyond the air on the middle day of a month, W/m2. */
static double beyond(const struct dew_site *site, int month)
{
    double sum = 0.0;

    for (int h = 1; h <= 24; h++) {
        struct dew_date date = {.month = month + 1, .day = 15, .hour = h};

        sum += dew_weather_sun(site, &date).horizontal / 24.0;
    }
    return sum;
}

/* As clear a sky at another latitude. */
static double clearness_ratio(const struct dew_climate *c, int m,
                              const struct dew_climate *other, int n)
{
    double there = beyond(&other->site, n);

    return there > 0.0 ? beyond(&c->site, m) / there : 1.0;
}

static int is_light(size_t figure)
{
    return made__figures[figure].offset == offsetof(struct dew_normal, solar) ||
           made__figures[figure].offset ==
               offsetof(struct dew_normal, solar_sd);
}

void made__climate_lend(struct dew_climate *c, const unsigned char *given)
{
    struct dew_climate other;
    int lent = 0;

    most_alike(c, &other);
    for (int m = 0; m < 12; m++) {
        int n = same_season(c, m);
        double ratio = clearness_ratio(c, m, &other, n);

        for (size_t f = 0; f < made__figure_count; f++) {
            if (given[f])
                continue;
            *made__figure_at(&c->month[m], f) =
                *made__figure_at(&other.month[n], f) *
                (is_light(f) ? ratio : 1.0);
            lent = 1;
        }
        if (!given[made__figure_of("pressure_hpa")])
            c->month[m].pressure = dew_air_std_pressure(c->site.elevation);
    }
    if (lent)
        snprintf(c->lent, sizeof c->lent, "%.8s %.50s", other.site.id,
                 other.shown);
}
