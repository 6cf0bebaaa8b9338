/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an option loses in a house that was drawn. */
#include <math.h>

#include "dew/worth.h"

static const double HOUR = 3600.0;

static double hours_at(const struct dew_drawn *d, const struct dew_prices *p)
{
    return HOUR * (d->too_humid * p->too_humid + d->too_dry * p->too_dry +
                   d->short_of_air * p->short_of_air);
}

static int all_priced(const struct dew_draws *d)
{
    for (size_t k = 0; k < d->count * d->options; k++)
        if (isnan(d->each[k].present))
            return 0;
    return 1;
}

enum dew_worth_of_what dew_worth_losses(const struct dew_draws *d,
                                        const struct dew_prices *p,
                                        double *loss)
{
    double years = dew_cost_annuity_worth(p->interest, p->years);
    int money = all_priced(d);

    for (size_t k = 0; k < d->count * d->options; k++)
        loss[k] = money ? d->each[k].present + years * hours_at(&d->each[k], p)
                        : hours_at(&d->each[k], p);
    return money ? DEW_WORTH_MONEY : DEW_WORTH_HOURS;
}

struct dew_worth_saved dew_worth_saved(const struct dew_worth *w,
                                       const struct dew_draws *d)
{
    const size_t *choice = dew_worth_choice(w);
    struct dew_worth_saved sum = {0};
    double n = (double)d->count;

    for (size_t i = 0; i < d->count; i++) {
        const struct dew_drawn *of = &d->each[i * d->options];
        const struct dew_drawn *best = &of[dew_worth_best(w)];
        const struct dew_drawn *chosen = &of[choice[i]];

        sum.money += (best->present - chosen->present) / n;
        sum.too_humid += (best->too_humid - chosen->too_humid) / n;
        sum.too_dry += (best->too_dry - chosen->too_dry) / n;
        sum.short_of_air += (best->short_of_air - chosen->short_of_air) / n;
    }
    return sum;
}
