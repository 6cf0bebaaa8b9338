/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/surface.h"

#include <math.h>
#include <stddef.h>

static const double week_h = 168.0;

/* clang-format off */
/* [OV11]: rate below and above index 1, and A, B, C of the highest index. */
static const struct row {
    double start, beyond, a, b, c, least;
} classes[DEW_MOULD_CLASSES] = {
    {1.000, 2.000, 1.0, 7.0, 2.0, 80.0},
    {0.578, 0.386, 0.3, 6.0, 1.0, 80.0},
    {0.072, 0.097, 0.0, 5.0, 1.5, 85.0},
    {0.033, 0.014, 0.0, 3.0, 1.0, 85.0},
};
/* clang-format on */

/* The 1999 form is the very sensitive row with a rate of its own beyond 1. */
static const struct row *row_of(const struct dew_mould_rule *rule)
{
    return &classes[rule->by_class ? rule->which : DEW_MOULD_VERY_SENSITIVE];
}

static int wood(const struct dew_mould_rule *rule, int what)
{
    return !rule->by_class && what;
}

/* Critical humidity, %. */
static double critical(const struct row *row, double t)
{
    double rh;

    if (t <= 0.0)
        return 100.0;
    if (t > 20.0)
        return row->least;
    rh = 100.0 + t * (-3.13 + t * (0.160 + t * -0.00267)); /* [HV99] */
    return fmax(rh, row->least);
}

static int grows(const struct row *row, double t, double percent)
{
    return t > 0.0 && t < 50.0 && percent >= critical(row, t);
}

double dew_house_mould_critical(const struct dew_mould_rule *rule, double t)
{
    return isnan(t) ? NAN : critical(row_of(rule), t) / 100.0;
}

/* [HV99], weeks; a hundred times the share is the regression's rh. */
static double weeks_to_one(const struct dew_mould_rule *rule, double t,
                           double percent)
{
    double dryness = wood(rule, rule->spruce) ? 0.14 : 0.0;
    double surface = wood(rule, rule->kiln_dried) ? 0.33 : 0.0;

    return exp(-0.68 * log(t) - 13.9 * log(percent) + dryness - surface +
               66.02);
}

static double weeks_to_three(const struct dew_mould_rule *rule, double t,
                             double percent)
{
    double dryness = wood(rule, rule->spruce) ? 0.06 : 0.0;

    return exp(-0.74 * log(t) - 12.72 * log(percent) + dryness + 61.50);
}

double dew_house_mould_start(const struct dew_mould_rule *rule, double t,
                             double rh)
{
    double percent = 100.0 * fmin(rh, 1.0);

    return grows(row_of(rule), t, percent) ? weeks_to_one(rule, t, percent)
                                           : NAN;
}

double dew_house_mould_seen(const struct dew_mould_rule *rule, double t,
                            double rh)
{
    double percent = 100.0 * fmin(rh, 1.0);

    return grows(row_of(rule), t, percent) ? weeks_to_three(rule, t, percent)
                                           : NAN;
}

static double most(const struct row *row, double t, double percent)
{
    double least = critical(row, t);
    double r = (least - percent) / (least - 100.0);

    return row->a + r * (row->b - r * row->c);
}

double dew_house_mould_most(const struct dew_mould_rule *rule, double t,
                            double rh)
{
    double percent = 100.0 * fmin(rh, 1.0);

    if (!grows(row_of(rule), t, percent))
        return NAN;
    return most(row_of(rule), t, percent);
}

/* Growth an hour, from index m. */
static double growth(const struct dew_mould_rule *rule, double t,
                     double percent, double m)
{
    const struct row *row = row_of(rule);
    double one = weeks_to_one(rule, t, percent), rate = row->start;
    double slow = -expm1(2.3 * (m - most(row, t, percent)));

    if (m >= 1.0)
        rate = rule->by_class
                   ? row->beyond
                   : 2.0 / (weeks_to_three(rule, t, percent) / one - 1.0);
    return rate * fmax(slow, 0.0) / (week_h * one);
}

/* Loss an hour after some hours without growth. */
static double loss(double dry_hours)
{
    if (dry_hours < 6.0)
        return 0.032 / 24.0;
    return dry_hours < 24.0 ? 0.0 : 0.016 / 24.0;
}

void dew_house_mould_hour(const struct dew_mould_rule *rule, double t,
                          double rh, struct dew_mould *state)
{
    double percent = 100.0 * fmin(rh, 1.0);

    if (isnan(t) || isnan(rh)) {
        state->index = NAN;
        return;
    }
    if (grows(row_of(rule), t, percent)) {
        state->index += growth(rule, t, percent, state->index);
        state->dry_hours = 0.0;
        return;
    }
    state->index -= rule->decline * loss(state->dry_hours);
    if (state->index < 0.0)
        state->index = 0.0;
    state->dry_hours += 1.0;
}
