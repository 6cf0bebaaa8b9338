/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules about new-house water: what it does, and what stays without it. */
#include <math.h>

#include "dew/drying.h"
#include "study/rules.h"

enum { MOST = 64 };

static int base_dries(const struct dew_question *q)
{
    return q->choices[0].settled != NULL;
}

/* The same question of the house once dry. */
static struct dew_question once_dry(const struct dew_question *q,
                                    struct dew_choice room[MOST])
{
    struct dew_question dry = *q;

    for (size_t i = 0; i < q->count && i < MOST; i++) {
        room[i] = q->choices[i];
        if (room[i].settled != NULL)
            room[i].outcome = room[i].settled;
    }
    dry.choices = room;
    return dry;
}

void dew__rule_drying_ends(const struct dew_question *q, struct dew_verdict *v)
{
    const struct dew_choice *base = &q->choices[0];
    struct dew_drying_ask ask;
    struct dew_drying d;
    struct dew_finding *f;

    if (!base_dries(q))
        return;
    ask = (struct dew_drying_ask){base->outcome, base->settled,
                                  &base->c->house.water[DEW_SOURCE_drying],
                                  base->facts->half_life};
    d = dew_drying_of(&ask);
    f = dew__find(v, DEW_FINDING_drying_ends, 0);
    f->value[0] = d.agree.likely;
    f->value[1] = d.agree.low;
    f->value[2] = d.agree.high;
}

/* The house as it stands leaves its limits now and keeps them once dry. */
void dew__rule_wait(const struct dew_question *q, struct dew_verdict *v)
{
    struct dew_choice room[MOST];
    struct dew_question dry = once_dry(q, room);
    struct dew_finding *f;

    if (!base_dries(q) || dew_verdict_keeps(q, 0) ||
        !dew_verdict_keeps(&dry, 0))
        return;
    f = dew__find(v, DEW_FINDING_wait, 0);
    dew__mind_limit(f, &dry, dew__base(&dry), dew__base(&dry)->year.too_humid);
    dew__mind_limit(f, &dry, dew__base(&dry), dew__base(&dry)->year.too_dry);
    f->value[0] = dew__base(&dry)->year.too_humid;
    f->value[1] = dew__base(q)->year.too_humid;
    f->value[2] = dew__base(&dry)->year.too_dry;
    f->value[3] = dew__base(q)->year.too_dry;
}

/* What lasting equipment is chosen by. */
void dew__rule_settled(const struct dew_question *q, struct dew_verdict *v)
{
    struct dew_choice room[MOST];
    struct dew_question dry = once_dry(q, room);
    struct dew_finding *f;
    int best;

    if (!base_dries(q) || q->count < 2)
        return;
    best = dew__cheapest(&dry, DEW_NO_OPTION);
    f = dew__find(v, DEW_FINDING_settled, best);
    f->other = dew__cheapest(q, DEW_NO_OPTION);
    f->value[1] = dew__best_open(&dry);
    if (best != DEW_NO_OPTION)
        f->value[0] = dew__outcome(&dry, (size_t)best)->year.too_humid;
}
