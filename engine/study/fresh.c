/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/fresh.h"

#include <math.h>
#include <string.h>

#include "dew/leakage.h"
#include "dew/sources.h"
#include "study/rules.h"

static const struct dew_house *house(const struct dew_question *q)
{
    return &q->choices[0].c->house;
}

struct dew_dwelling dew_fresh_dwelling(const struct dew_question *q)
{
    const struct dew_house *h = house(q);

    return (struct dew_dwelling){h->floor_area, h->volume, h->bedrooms,
                                 h->people.count};
}

double dew_fresh_hours_below(const struct dew_question *q, size_t option,
                             double asked)
{
    const struct dew_outcome *o = study__outcome(q, option);
    double hours = 0;

    for (size_t h = 0; h < o->count; h++)
        hours += o->series.fresh[h] + o->series.drawn[h] < asked * (1 - 1e-9);
    return hours;
}

struct dew_fresh_credit dew_fresh_credit_of(const struct dew_question *q,
                                            double storeys)
{
    const struct dew_leakage *l = &house(q)->leakage;
    const struct dew_tally *y = &study__base(q)->year;
    struct dew_dwelling home = dew_fresh_dwelling(q);
    double flow50 = dew_house_flow_at(l->c, l->n, 50);
    double factor = dew_house_storey_factor(storeys);
    double total = dew_house_rate(DEW_RATE_622_2013, &home), middle;
    struct dew_fresh_credit c;

    c.low = dew_house_credit_flow50(flow50, factor, DEW_FRESH_WSF_LOW);
    c.high = dew_house_credit_flow50(flow50, factor, DEW_FRESH_WSF_HIGH);
    c.model = y->hours > 0 ? y->leak_sum / y->hours : NAN;
    middle = 0.5 * (c.low + c.high);
    c.left_2013 = dew_house_fan_rate(DEW_CREDIT_2013, total, middle, 1);
    c.left_2013_new = dew_house_fan_rate(DEW_CREDIT_2013_NEW, total, middle, 1);
    c.left_2016 = dew_house_fan_rate(DEW_CREDIT_2016, total, middle, 1);
    c.left_2016_one_sided =
        dew_house_fan_rate(DEW_CREDIT_2016, total, middle, 0);
    return c;
}

/* ---- local exhaust ------------------------------------------------------------ */

static double fan_of(const struct dew_question *q, size_t option,
                     enum dew_room room)
{
    const struct dew_exhaust *e = q->choices[option].c->plant.exhausts;

    return e[room == DEW_KITCHEN ? DEW_LOCAL_KITCHEN : DEW_LOCAL_BATH].flow;
}

/* The row of rule and room, made when it is not there yet. */
static struct dew_fresh_local *row_of(struct dew_fresh_local *rows,
                                      size_t *count,
                                      const struct dew_exhaust_rule *rule)
{
    for (size_t i = 0; i < *count; i++)
        if (rows[i].room == rule->room && strcmp(rows[i].rule, rule->rule) == 0)
            return &rows[i];
    if (*count == DEW_FRESH_LOCALS)
        return NULL;
    rows[*count] = (struct dew_fresh_local){.rule = rule->rule,
                                            .room = rule->room,
                                            .needed = NAN,
                                            .continuous = NAN,
                                            .changes = NAN};
    return &rows[(*count)++];
}

/* Where a rule has two figures for one room, the larger is kept. */
static void put(struct dew_fresh_local *row,
                const struct dew_exhaust_rule *rule)
{
    if (rule->running == DEW_WHEN_NEEDED)
        row->needed = fmax(row->needed, rule->flow);
    else if (rule->flow > 0)
        row->continuous = fmax(row->continuous, rule->flow);
    else
        row->changes = rule->changes;
}

size_t dew_fresh_locals(const struct dew_question *q, size_t option,
                        struct dew_fresh_local out[DEW_FRESH_LOCALS])
{
    size_t count = 0, all;
    const struct dew_exhaust_rule *rules = dew_house_locals(&all);

    for (size_t i = 0; i < all; i++) {
        struct dew_fresh_local *row;

        if (rules[i].room != DEW_KITCHEN && rules[i].room != DEW_BATH)
            continue;
        row = row_of(out, &count, &rules[i]);
        if (row != NULL)
            put(row, &rules[i]);
    }
    for (size_t i = 0; i < count; i++)
        out[i].here = fan_of(q, option, out[i].room);
    return count;
}

double dew_fresh_co2(const struct dew_question *q)
{
    const struct dew_house *h = house(q);

    return h->co2_outdoors + dew_house_co2_rise(h->people.count * h->people.co2,
                                                study__base(q)->required);
}
