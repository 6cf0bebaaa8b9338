/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict as a list of rules, and what the rules share. */
#include "dew/verdict.h"

#include <math.h>

#include "dew/plant.h"
#include "dew/rates.h"
#include "study/rules.h"

#define X(kind, rule, ...) study__rule_##rule,
static study__rule *const rules[] = {DEW_FINDING_MAP(X, X, , , )};
#undef X

void dew_verdict_of(const struct dew_question *question,
                    struct dew_verdict *out)
{
    out->count = 0;
    out->best = DEW_NO_OPTION;
    for (int k = 0; k < DEW_FINDING_KINDS; k++)
        if (k == 0 || rules[k] != rules[k - 1])
            rules[k](question, out);
}

const char *dew_verdict_key(enum dew_finding_kind kind)
{
#define X(kind, ...) #kind,
    static const char *const key[] = {DEW_FINDING_MAP(X, X, , , )};
#undef X

    return (unsigned)kind < DEW_FINDING_KINDS ? key[kind] : "unknown";
}

enum dew_finding_group dew_verdict_group(enum dew_finding_kind kind)
{
#define X(kind, rule, group, ...) DEW_GROUP_##group,
    static const enum dew_finding_group groups[] = {
        DEW_FINDING_MAP(X, X, , , )};
#undef X

    return groups[kind];
}

struct dew_judging dew_verdict_judging(void)
{
    return (struct dew_judging){.kept_share = 0.02,
                                .month_share = 0.05,
                                .fresh_share = 0.95,
                                .sure_share = 0.80};
}

struct dew_finding *study__find(struct dew_verdict *v,
                                const struct dew_finding *f)
{
    if (v->count < DEW_FINDINGS)
        v->count++;
    v->list[v->count - 1] = *f;
    return &v->list[v->count - 1];
}

const struct dew_outcome *study__outcome(const struct dew_question *q, size_t i)
{
    return q->choices[i].outcome;
}

const struct dew_outcome *study__base(const struct dew_question *q)
{
    return q->choices[0].outcome;
}

double study__allowed_month(const struct dew_question *q,
                            const struct dew_outcome *o, int m)
{
    return q->judging.month_share * o->month[m].hours;
}

static double member_of(const struct dew_tally *tally, size_t member)
{
    return *(const double *)(const void *)((const char *)tally + member);
}

unsigned study__months_above(const struct dew_question *q,
                             const struct dew_outcome *o, size_t member)
{
    unsigned mask = 0;

    for (int m = 0; m < DEW_MONTHS; m++)
        if (member_of(&o->month[m], member) > study__allowed_month(q, o, m))
            mask |= 1U << m;
    return mask;
}

double study__worst_month(const struct dew_outcome *o, size_t member)
{
    double worst = 0;

    for (int m = 0; m < DEW_MONTHS; m++)
        worst = fmax(worst, member_of(&o->month[m], member));
    return worst;
}

int study__has_dryer(const struct dew_question *q, size_t i)
{
    return q->choices[i].c->plant.dryer.rate > 0;
}

int study__has_ventilator(const struct dew_question *q, size_t i)
{
    return q->choices[i].facts->core != DEW_CORE_none;
}

int study__has_cooling(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;

    for (int k = 0; k < p->handler_count; k++)
        if (p->handlers[k].capacity > 0)
            return 1;
    return 0;
}

/* Share of a mean flow that counts, given the pauses of its schedule. */
static double counts(const struct dew_case *c, double flow)
{
    const double day = 86400;
    struct dew_schedule s = dew_plant_schedule(&c->plant.control);
    double on = flow / s.mean, steady;

    if (!(s.mean > 0) || !(flow > 0) || s.least >= s.mean * (1 - 1e-9))
        return 1;
    steady = dew_house_steady(on, s.mean, day, c->house.volume);
    return fmin(fmax(s.least, steady / on) / s.mean, 1);
}

struct dew_fresh_air dew_verdict_air(const struct dew_question *q,
                                     size_t option)
{
    const struct dew_tally *y = &study__outcome(q, option)->year;
    double hours = y->hours > 0 ? y->hours : INFINITY, by_fan;
    struct dew_fresh_air a = {.rooms = y->fresh_sum / hours,
                              .drawn = y->drawn_sum / hours,
                              .leaks = y->leak_sum / hours};

    by_fan = a.rooms + a.drawn;
    a.counted = by_fan * counts(q->choices[option].c, by_fan);
    return a;
}

double dew_verdict_fresh(const struct dew_question *q, size_t option)
{
    return dew_verdict_air(q, option).counted;
}

int dew_verdict_ventilates(const struct dew_question *q, size_t option)
{
    double required = study__outcome(q, option)->required;

    return required <= 0 ||
           dew_verdict_fresh(q, option) >= q->judging.fresh_share * required;
}

int study__keeps(const struct dew_question *q, const struct dew_outcome *o)
{
    double allowed = study__allowed(q, o);

    return o->year.too_humid <= allowed && o->year.too_dry <= allowed &&
           o->year.sweat[DEW_GLASS] <= allowed;
}

int dew_verdict_keeps(const struct dew_question *q, size_t option)
{
    return study__keeps(q, study__outcome(q, option));
}

struct dew_bill dew_verdict_bill(const struct dew_question *q, size_t option)
{
    const struct dew_choice *x = &q->choices[option];
    const struct dew_estimate none = {NAN, NAN, NAN};
    const struct dew_prices unpriced = {.electricity = none,
                                        .gas = none,
                                        .oil = none,
                                        .propane = none,
                                        .wood = none,
                                        .wage = none,
                                        .interest = NAN,
                                        .years = NAN};

    if (q->prices &&
        (q->prices->electricity_seasonal || q->prices->gas_seasonal))
        return dew_cost_bill_months(x->outcome->month, x->c->plant.heater.fuel,
                                    q->prices, x->costs);
    return dew_cost_bill(&x->outcome->year.energy, x->c->plant.heater.fuel,
                         x->outcome->year.hours,
                         q->prices ? q->prices : &unpriced, x->costs);
}
