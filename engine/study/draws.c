/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Counting what many houses came to. */
#include "dew/draws.h"

#include <math.h>

#include "core/num.h"
#include "dew/study.h"

double dew_drawn_figure(const struct dew_drawn *d, enum dew_drawn_what what)
{
#define X(name, unit, words) d->name,
    const double figure[] = {DEW_DRAWN_MAP(X)};
#undef X

    return figure[what];
}

static const struct dew_drawn *at(const struct dew_draws *d, size_t draw,
                                  size_t option)
{
    return &d->each[draw * d->options + option];
}

/* Of the figures in d->room. */
static struct dew_draws_range range_of(const struct dew_draws *d, double told)
{
    for (size_t i = 0; i < d->count; i++)
        if (isnan(d->room[i]))
            return (struct dew_draws_range){NAN, NAN, NAN, told};
    core__sort(d->room, d->count);
    return (struct dew_draws_range){dew_study_quantile(d->room, d->count, 0.1),
                                    dew_study_quantile(d->room, d->count, 0.5),
                                    dew_study_quantile(d->room, d->count, 0.9),
                                    told};
}

struct dew_draws_range dew_draws_range(const struct dew_draws *d, size_t option,
                                       enum dew_drawn_what what)
{
    for (size_t i = 0; i < d->count; i++)
        d->room[i] = dew_drawn_figure(at(d, i, option), what);
    return range_of(d, dew_drawn_figure(&d->told[option], what));
}

struct dew_draws_range dew_draws_month(const struct dew_draws *d, size_t option,
                                       int month)
{
    for (size_t i = 0; i < d->count; i++)
        d->room[i] = (double)at(d, i, option)->humid_month[month];
    return range_of(d, d->told[option].humid_month[month]);
}

struct dew_draws_shares dew_draws_shares(const struct dew_draws *d,
                                         size_t option)
{
    struct dew_draws_shares sum = {0};

    for (size_t i = 0; i < d->count; i++) {
        const struct dew_drawn *x = at(d, i, option);

        sum.keeps += (size_t)x->keeps;
        sum.ventilates += (size_t)x->ventilates;
        sum.best += (size_t)x->best;
    }
    return sum;
}

size_t dew_draws_none(const struct dew_draws *d)
{
    size_t some_best = 0;

    for (size_t i = 0; i < d->options; i++)
        some_best += dew_draws_shares(d, i).best;
    return d->count - some_best;
}

size_t dew_draws_best(const struct dew_draws *d)
{
    size_t best = 0;

    for (size_t i = 1; i < d->options; i++)
        if (dew_draws_shares(d, i).best > dew_draws_shares(d, best).best)
            best = i;
    return best;
}

struct dew_draws_interval dew_draws_interval(size_t count, size_t draws)
{
    const double z = 1.959963984540054;
    double n = (double)draws, p = (double)count / n;
    double middle = p + z * z / (2 * n);
    double half = z * sqrt(p * (1 - p) / n + z * z / (4 * n * n));
    double whole = 1 + z * z / n;

    if (draws == 0 || count > draws)
        return (struct dew_draws_interval){NAN, NAN};
    return (struct dew_draws_interval){fmax(0, (middle - half) / whole),
                                       fmin(1, (middle + half) / whole)};
}
