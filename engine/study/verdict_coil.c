/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is not known of the wet coil: its options were marched too with a coil
 * that stays dry between runs and with one as wet as it may be.
 */
#include <math.h>

#include "study/rules.h"

int dew_verdict_coil(const struct dew_question *q, size_t option,
                     struct dew_estimate *out)
{
    const struct dew_choice *x = &q->choices[option];
    double now = x->outcome->year.too_humid, a, b;

    if (x->coil_dry == NULL || x->coil_wet == NULL)
        return 0;
    a = x->coil_dry->year.too_humid;
    b = x->coil_wet->year.too_humid;
    *out = (struct dew_estimate){now, fmin(now, fmin(a, b)),
                                 fmax(now, fmax(a, b))};
    return 1;
}

/* 1 where a reader would see two numbers, and not a rounding between them. */
static int shows(const struct dew_estimate *hours)
{
    return round(hours->high) > round(hours->low) + 1;
}

/* 1 where a coil that stays dry and one as wet as may be part at the limits. */
static int turns(const struct dew_question *q, const struct dew_choice *x)
{
    return study__keeps(q, x->coil_dry) != study__keeps(q, x->coil_wet);
}

static struct dew_finding *tell(const struct dew_question *q,
                                struct dew_verdict *v, size_t i,
                                const struct dew_estimate *hours)
{
    return FIND(v, coil_today, (int)i, .likely = hours->likely,
                .low = hours->low, .high = hours->high,
                .decides = turns(q, &q->choices[i]));
}

void study__rule_coil_today(const struct dew_question *q, struct dew_verdict *v)
{
    struct dew_estimate hours;

    if (dew_verdict_coil(q, 0, &hours) && shows(&hours))
        tell(q, v, 0, &hours);
}

/* 1 where a finding before names it as the best there is, or as the least
   humid. */
static int named(const struct dew_verdict *v, size_t option)
{
    for (size_t i = 0; i < v->count; i++) {
        const struct dew_finding *f = &v->list[i];

        if (f->option == (int)option &&
            (dew_verdict_group(f->kind) == DEW_GROUP_best ||
             f->kind == DEW_FINDING_least_humid))
            return 1;
    }
    return 0;
}

/* The best and the least humid, and each whose limits hang on it. */
void study__rule_coil_option(const struct dew_question *q,
                             struct dew_verdict *v)
{
    for (size_t i = 1; i < q->count; i++) {
        struct dew_estimate hours;

        if (!dew_verdict_coil(q, i, &hours) || !shows(&hours))
            continue;
        if (turns(q, &q->choices[i]) || named(v, i))
            tell(q, v, i, &hours)->kind = DEW_FINDING_coil_option;
    }
}
