/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules about a path in two stages, and the reading that decides. */
#include <math.h>
#include <string.h>

#include "dew/sources.h"
#include "study/rules.h"

enum { NONE = DEW_NO_OPTION };

/* The option that i becomes, or NONE. */
static int next_of(const struct dew_question *q, size_t i)
{
    const struct dew_costs *c = q->choices[i].costs;

    if (c == NULL || c->next[0] == '\0')
        return NONE;
    for (size_t j = 0; j < q->count; j++)
        if (j != i && strcmp(study__outcome(q, j)->name, c->next) == 0)
            return (int)j;
    return NONE;
}

void study__rule_staged(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        int next = next_of(q, i);
        struct dew_bill first, then;
        struct dew_staged s;

        if (next == NONE || q->prices == NULL)
            continue;
        first = dew_verdict_bill(q, i);
        then = dew_verdict_bill(q, (size_t)next);
        s = dew_cost_staged(&first, &then, q->choices[i].costs, q->prices);
        if (isnan(s.both) || isnan(s.at_once))
            continue;
        FIND(v, staged, (int)i, .now = s.now, .later = s.later,
             .chance = q->choices[i].costs->later_chance, .both = s.both,
             .at_once = s.at_once, .even_chance = s.break_even)
            ->other = next;
    }
}

/* The month in which an option is too humid longest. */
static int worst_month(const struct dew_outcome *o)
{
    int worst = 0;

    for (int m = 1; m < DEW_MONTHS; m++)
        if (o->month[m].too_humid > o->month[worst].too_humid)
            worst = m;
    return worst;
}

static void by_humidity(const struct dew_question *q, struct dew_finding *f)
{
    const struct dew_outcome *o = study__outcome(q, (size_t)f->option);
    int m = worst_month(o);

    f->months = 1U << m;
    f->number.reading.days = o->month[m].hours / 24;
    f->number.reading.humid_limit = study__allowed_month(q, o, m);
    f->number.reading.humid = o->month[m].too_humid;
}

static void by_air(const struct dew_question *q, struct dew_finding *f)
{
    const struct dew_outcome *o = study__outcome(q, (size_t)f->option);

    f->number.reading.days = 1;
    f->number.reading.air_limit = q->judging.fresh_share * o->required;
    f->number.reading.air = dew_verdict_fresh(q, (size_t)f->option);
}

/* What all the people would come to in the fresh air asked for. */
static void by_breath(const struct dew_question *q, struct dew_finding *f)
{
    const struct dew_outcome *o = study__outcome(q, (size_t)f->option);
    const struct dew_house *h = &q->choices[f->option].c->house;
    double breath = h->people.count * h->people.co2;

    f->number.reading.days = 7;
    f->number.reading.co2_limit =
        h->co2_outdoors + dew_house_co2_rise(breath, o->required);
    f->number.reading.co2 = study__mean(o->year.co2_sum, o->year.hours);
}

void study__rule_reading(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        int next = next_of(q, i);
        enum dew_reading_kind kind;
        struct dew_finding *f;

        if (next == NONE)
            continue;
        kind = q->choices[i].costs->reading;
        if (kind != DEW_READING_humidity &&
            !(study__outcome(q, i)->required > 0))
            continue; /* nothing to hold air or breath against */
        f = FIND(v, reading, (int)i, .what = kind, .humid_limit = NAN,
                 .humid = NAN, .air_limit = NAN, .air = NAN, .co2_limit = NAN,
                 .co2 = NAN);
        f->other = next;
        if (kind == DEW_READING_humidity)
            by_humidity(q, f);
        else if (kind == DEW_READING_air_flow)
            by_air(q, f);
        else
            by_breath(q, f);
    }
}
