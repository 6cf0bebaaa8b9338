/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What "best" means: of the options that deliver the fresh air asked for and
 * keep the limits of humid, dry and wet glass, the one of lowest cost; else
 * none.  Where one of them has no price to install there is no best among
 * several.  Without prices of energy, the one that uses least of it.
 */
#include <math.h>

#include "study/rules.h"

enum { NONE = DEW_NO_OPTION };

static int eligible(const struct dew_question *q, size_t i)
{
    return dew_verdict_ventilates(q, i) && dew_verdict_keeps(q, i);
}

/* What options are ranked by. */
enum rank { BY_ENERGY, BY_MONEY, BY_RUNNING };

static enum rank rank_of(const struct dew_question *q)
{
    enum rank by = BY_MONEY;

    for (size_t i = 0; i < q->count; i++) {
        struct dew_bill bill = dew_verdict_bill(q, i);

        if (isnan(bill.yearly.likely))
            return BY_ENERGY;
        if (isnan(bill.present.likely) && eligible(q, i))
            by = BY_RUNNING;
    }
    return by;
}

/* Present value, money a year, or J a year. */
static double worth(const struct dew_question *q, size_t i, enum rank by)
{
    return by == BY_MONEY     ? dew_verdict_bill(q, i).present.likely
           : by == BY_RUNNING ? dew_verdict_bill(q, i).yearly.likely
                              : study__energy(study__year(q, i));
}

double dew_verdict_outside(const struct dew_question *q, size_t i)
{
    const struct dew_tally *y = &study__outcome(q, i)->year;

    return y->too_humid + y->too_dry + y->sweat[DEW_GLASS];
}

/* Whether a stands before b.  Years of the same money, as it is printed, are
   told apart by the hours outside the limits. */
static int before(const struct dew_question *q, enum rank by, size_t a,
                  size_t b)
{
    double x = worth(q, a, by), y = worth(q, b, by);

    if (by == BY_RUNNING && round(x) == round(y))
        return dew_verdict_outside(q, a) < dew_verdict_outside(q, b);
    return x < y;
}

static int cheapest(const struct dew_question *q, enum rank by, int but)
{
    int best = NONE;

    for (size_t i = 0; i < q->count; i++)
        if ((int)i != but && eligible(q, i) &&
            (best == NONE || before(q, by, i, (size_t)best)))
            best = (int)i;
    return best;
}

int study__cheapest(const struct dew_question *q, int but)
{
    return cheapest(q, rank_of(q), but);
}

int study__best_open(const struct dew_question *q)
{
    int first = study__cheapest(q, NONE);

    return rank_of(q) == BY_RUNNING && study__cheapest(q, first) != NONE;
}

size_t dew_verdict_passing(const struct dew_question *q, size_t out[64])
{
    enum rank by = rank_of(q);
    size_t count = 0;

    for (size_t i = 0; i < q->count && i < 64; i++) {
        size_t at = count;

        if (!eligible(q, i))
            continue;
        for (; at > 0 && before(q, by, i, out[at - 1]); at--)
            out[at] = out[at - 1];
        out[at] = i;
        count++;
    }
    return count;
}

static int nearest(const struct dew_question *q)
{
    int best = NONE;

    for (size_t i = 0; i < q->count; i++)
        if (dew_verdict_ventilates(q, i) &&
            (best == NONE ||
             dew_verdict_outside(q, i) < dew_verdict_outside(q, (size_t)best)))
            best = (int)i;
    return best;
}

/* So many of the houses drawn. */
static void count_draws(struct dew_finding *f, const struct dew_question *q,
                        size_t so)
{
    f->drawn = q->draws != NULL ? q->draws->count : 0;
    f->so = so;
}

static void none_does(const struct dew_question *q, struct dew_verdict *v)
{
    int i = nearest(q);
    const struct dew_tally *y = i != NONE ? study__year(q, (size_t)i) : NULL;
    struct dew_finding *f =
        y == NULL ? FIND(v, best_none, NONE, .humid = NAN, .dry = NAN,
                         .glass_wet = NAN)
                  : FIND(v, best_none, i, .humid = y->too_humid,
                         .dry = y->too_dry, .glass_wet = y->sweat[DEW_GLASS]);

    count_draws(f, q, q->draws != NULL ? dew_draws_none(q->draws) : 0);
}

/* Several will do, and what one of them costs to install is not told. */
static void leave_open(const struct dew_question *q, struct dew_verdict *v,
                       int first, int next)
{
    FIND(v, best_open, first, .running = worth(q, (size_t)first, BY_RUNNING),
         .next_running = worth(q, (size_t)next, BY_RUNNING))
        ->other = next;
}

static double if_by(enum rank by, enum rank which, double worth)
{
    return by == which ? worth : NAN;
}

/* Another is the best in too many of the houses drawn. */
static struct dew_finding *close_call(const struct dew_question *q,
                                      struct dew_verdict *v, enum rank by,
                                      int best, int rival)
{
    double it = worth(q, (size_t)best, by), other = worth(q, (size_t)rival, by);
    struct dew_finding *f =
        FIND(v, best_close, best, .money = if_by(by, BY_MONEY, it),
             .next_money = if_by(by, BY_MONEY, other),
             .energy = if_by(by, BY_ENERGY, it),
             .next_energy = if_by(by, BY_ENERGY, other),
             .other_so = (double)study__best_in(q, (size_t)rival));

    f->other = rival;
    return f;
}

void study__rule_best(const struct dew_question *q, struct dew_verdict *v)
{
    enum rank by = rank_of(q);
    int best = cheapest(q, by, NONE), next = cheapest(q, by, best), rival;
    double it;

    if (best == NONE) {
        none_does(q, v);
        return;
    }
    if (by == BY_RUNNING && next != NONE) {
        leave_open(q, v, best, next);
        return;
    }
    v->best = best;
    it = worth(q, (size_t)best, by);
    rival = by == BY_RUNNING ? NONE : study__rival(q, (size_t)best);
    count_draws(rival != NONE
                    ? close_call(q, v, by, best, rival)
                    : FIND(v, best, best, .money = if_by(by, BY_MONEY, it),
                           .running = if_by(by, BY_RUNNING, it),
                           .energy = if_by(by, BY_ENERGY, it),
                           .only = next == NONE),
                q, study__best_in(q, (size_t)best));
}

static int buys(const struct dew_bill *base, const struct dew_bill *option)
{
    return option->install.likely > base->install.likely;
}

void study__rule_payback(const struct dew_question *q, struct dew_verdict *v)
{
    struct dew_bill base = dew_verdict_bill(q, 0);

    for (size_t i = 1; q->prices != NULL && i < q->count; i++) {
        struct dew_bill bill = dew_verdict_bill(q, i);
        struct dew_estimate years = dew_cost_payback(&base, &bill);

        if (isnan(years.likely) || !buys(&base, &bill))
            continue;
        if (years.likely <= q->prices->years)
            FIND(v, pays_back, (int)i, .likely = years.likely, .low = years.low,
                 .high = years.high);
        else
            FIND(v, never_pays, (int)i,
                 .saved = base.yearly.likely - bill.yearly.likely,
                 .install = bill.install.likely - base.install.likely);
    }
}

void study__rule_unpriced(const struct dew_question *q, struct dew_verdict *v)
{
    if (rank_of(q) == BY_ENERGY)
        FIND(v, unpriced, NONE, 0);
}
