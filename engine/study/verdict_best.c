/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What "best" means: of the options that deliver the fresh air asked for and
 * keep the limits of humid, dry and wet glass, the one of lowest cost; else
 * none.  Without prices, the one that uses least energy.
 */
#include <math.h>

#include "study/rules.h"

enum { NONE = DEW_NO_OPTION };

static double energy_used(const struct dew_question *q, size_t i)
{
    const struct dew_energy *e = &dew__outcome(q, i)->year.energy;
    double sum = 0;

#define X(name, words) sum += e->name;
    DEW_ENERGY_MAP(X)
#undef X
    return sum;
}

static int priced(const struct dew_question *q)
{
    for (size_t i = 0; i < q->count; i++)
        if (isnan(dew_verdict_bill(q, i).present.likely))
            return 0;
    return 1;
}

/* Present value where every option has one, else J a year. */
static double worth(const struct dew_question *q, size_t i, int money)
{
    return money ? dew_verdict_bill(q, i).present.likely : energy_used(q, i);
}

static int eligible(const struct dew_question *q, size_t i)
{
    return dew_verdict_ventilates(q, i) && dew_verdict_keeps(q, i);
}

static int cheapest(const struct dew_question *q, int money, int but)
{
    int best = NONE;

    for (size_t i = 0; i < q->count; i++)
        if ((int)i != but && eligible(q, i) &&
            (best == NONE ||
             worth(q, i, money) < worth(q, (size_t)best, money)))
            best = (int)i;
    return best;
}

int dew__cheapest(const struct dew_question *q, int but)
{
    return cheapest(q, priced(q), but);
}

/* Hours outside the limits, all together. */
static double outside(const struct dew_tally *y)
{
    return y->too_humid + y->too_dry + y->sweat[DEW_GLASS];
}

static int nearest(const struct dew_question *q)
{
    int best = NONE;

    for (size_t i = 0; i < q->count; i++)
        if (dew_verdict_ventilates(q, i) &&
            (best == NONE || outside(&dew__outcome(q, i)->year) <
                                 outside(&dew__outcome(q, (size_t)best)->year)))
            best = (int)i;
    return best;
}

static void mind_limits(struct dew_finding *f, const struct dew_question *q)
{
    const struct dew_outcome *o = dew__outcome(q, (size_t)f->option);

    dew__mind_limit(f, q, o, o->year.too_humid);
    dew__mind_limit(f, q, o, o->year.too_dry);
    dew__mind_limit(f, q, o, o->year.sweat[DEW_GLASS]);
}

static void none_does(const struct dew_question *q, struct dew_verdict *v)
{
    int i = nearest(q);
    struct dew_finding *f = dew__find(v, DEW_FINDING_best_none, i);
    const struct dew_tally *y;

    if (i == NONE)
        return;
    y = &dew__outcome(q, (size_t)i)->year;
    mind_limits(f, q);
    f->value[0] = y->too_humid;
    f->value[1] = y->too_dry;
    f->value[2] = y->sweat[DEW_GLASS];
}

void dew__rule_best(const struct dew_question *q, struct dew_verdict *v)
{
    int money = priced(q);
    int best = cheapest(q, money, NONE), next;
    struct dew_finding *f;
    double low, high;

    if (best == NONE) {
        none_does(q, v);
        return;
    }
    next = cheapest(q, money, best);
    low = worth(q, (size_t)best, money);
    high = next == NONE ? INFINITY : worth(q, (size_t)next, money);
    v->best = best;
    f = dew__find(v, DEW_FINDING_best, best);
    mind_limits(f, q);
    f->value[0] = low;
    f->value[2] = money;
    f->value[3] = next == NONE;
    if (next == NONE || high - low > q->judging.close_share * fabs(high))
        return;
    f->kind = DEW_FINDING_best_close;
    f->other = next;
    f->value[1] = high;
}

static int buys(const struct dew_bill *base, const struct dew_bill *option)
{
    return option->install.likely > base->install.likely;
}

void dew__rule_payback(const struct dew_question *q, struct dew_verdict *v)
{
    struct dew_bill base = dew_verdict_bill(q, 0);

    for (size_t i = 1; q->prices != NULL && i < q->count; i++) {
        struct dew_bill bill = dew_verdict_bill(q, i);
        struct dew_estimate years = dew_cost_payback(&base, &bill);
        struct dew_finding *f;

        if (isnan(years.likely) || !buys(&base, &bill))
            continue;
        if (years.likely <= q->prices->years) {
            f = dew__find(v, DEW_FINDING_pays_back, (int)i);
            f->value[0] = years.likely;
            f->value[1] = years.low;
            f->value[2] = years.high;
        } else {
            f = dew__find(v, DEW_FINDING_never_pays, (int)i);
            f->value[0] = base.yearly.likely - bill.yearly.likely;
            f->value[1] = bill.install.likely - base.install.likely;
        }
    }
}

void dew__rule_unpriced(const struct dew_question *q, struct dew_verdict *v)
{
    if (!priced(q))
        dew__find(v, DEW_FINDING_unpriced, NONE);
}
