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

void study__rule_drying_ends(const struct dew_question *q,
                             struct dew_verdict *v)
{
    const struct dew_choice *base = &q->choices[0];
    struct dew_drying_ask ask;
    struct dew_drying d;

    if (!base_dries(q))
        return;
    ask = (struct dew_drying_ask){base->outcome, base->settled,
                                  &base->c->house.water[DEW_SOURCE_drying],
                                  base->facts->half_life};
    d = dew_drying_of(&ask);
    FIND(v, drying_ends, 0, .likely = d.agree.likely, .low = d.agree.low,
         .high = d.agree.high);
}

/* The house as it stands leaves its limits now and keeps them once dry. */
void study__rule_wait(const struct dew_question *q, struct dew_verdict *v)
{
    struct dew_choice room[MOST];
    struct dew_question dry = once_dry(q, room);
    const struct dew_tally *now = &study__base(q)->year;
    const struct dew_tally *then = &study__base(&dry)->year;

    if (!base_dries(q) || dew_verdict_keeps(q, 0) ||
        !dew_verdict_keeps(&dry, 0))
        return;
    FIND(v, wait, 0, .humid_once_dry = then->too_humid,
         .humid_now = now->too_humid, .dry_once_dry = then->too_dry,
         .dry_now = now->too_dry);
}

/* What lasting equipment is chosen by. */
void study__rule_settled(const struct dew_question *q, struct dew_verdict *v)
{
    struct dew_choice room[MOST];
    struct dew_question dry = once_dry(q, room);
    int best;

    if (!base_dries(q) || q->count < 2)
        return;
    best = study__cheapest(&dry, DEW_NO_OPTION);
    FIND(v, settled, best,
         .humid_once_dry =
             best == DEW_NO_OPTION
                 ? NAN
                 : study__outcome(&dry, (size_t)best)->year.too_humid,
         .cheapest_to_run = study__best_open(&dry))
        ->other = study__cheapest(q, DEW_NO_OPTION);
}
