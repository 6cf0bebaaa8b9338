/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules about tied-in ventilators and the size of a dehumidifier. */
#include <math.h>

#include "dew/air.h"
#include "dew/dryer.h"
#include "study/rules.h"

enum { NONE = DEW_NO_OPTION, DAY = 24 };

/* A tie-in is told dear from this much more of the blower on, J a year, and
   wet from this much more put back, kg a year; short-circuited from this share
   of what it draws in.  100 kWh, 100 kg, 20 %: our own choice, no source. */
static const double DEAR = 100 * 3.6e6, WET = 100, SHORT = 0.20;

static const struct dew_tally *year_of(const struct dew_question *q, size_t i)
{
    return &dew__outcome(q, i)->year;
}

static int tied(const struct dew_question *q, size_t i)
{
    return dew__has_ventilator(q, i) &&
           q->choices[i].facts->layout != DEW_LAYOUT_own_ducts;
}

/* The option of own ducts that is nearest in all else; NONE when none. */
static int own_twin(const struct dew_question *q, size_t tie)
{
    const struct dew_option_facts *a = q->choices[tie].facts;
    int best = NONE;
    double nearest = INFINITY;

    for (size_t j = 0; j < q->count; j++) {
        const struct dew_option_facts *b = q->choices[j].facts;
        double gap = fabs(a->rated_flow - b->rated_flow);

        if (!dew__has_ventilator(q, j) || tied(q, j) || b->core != a->core ||
            dew__has_dryer(q, tie) != dew__has_dryer(q, j) || gap >= nearest)
            continue;
        nearest = gap;
        best = (int)j;
    }
    return best;
}

/* Fresh air that reaches the rooms while the ventilator runs, m3/s. */
static double reaches(const struct dew_question *q, size_t i)
{
    const struct dew_tally *y = year_of(q, i);

    return y->duty.vent > 0 ? y->fresh_sum / y->duty.vent : 0;
}

static double draws(const struct dew_question *q, size_t i)
{
    return q->choices[i].c->paths[DEW_VENT_ON][0].supply;
}

/* Hours in which the supply trunk is wet, inside or out, the longer. */
static double trunk_wet(const struct dew_tally *y)
{
    return fmax(y->ducts[DEW_SPOT_trunk], y->ducts[DEW_SPOT_outside]);
}

/* What is wrong with a tie-in, beside own ducts where an option has them. */
static unsigned faults(const struct dew_question *q, size_t i, int own)
{
    unsigned why = 0;
    const struct dew_tally *y = year_of(q, i), *o;

    if (reaches(q, i) < (1 - SHORT) * draws(q, i))
        why |= DEW_TIE_SHORT;
    if (!dew_verdict_ventilates(q, i) &&
        (own == NONE || dew_verdict_ventilates(q, (size_t)own)))
        why |= DEW_TIE_AIR;
    if (trunk_wet(y) > dew__allowed(q, dew__outcome(q, i)))
        why |= DEW_TIE_WET;
    if (own == NONE)
        return why;
    o = year_of(q, (size_t)own);
    if (y->too_humid - o->too_humid > dew__close(q, o->too_humid))
        why |= DEW_TIE_HUMID;
    if (y->energy.blower - o->energy.blower > DEAR)
        why |= DEW_TIE_BLOWER;
    if (y->water.putback - o->water.putback > WET)
        why |= DEW_TIE_PUTBACK;
    return why;
}

static void tell_tie(struct dew_finding *f, const struct dew_question *q,
                     unsigned why)
{
    size_t i = (size_t)f->option;
    const struct dew_tally *y = year_of(q, i), *o;

    f->value[0] = why;
    f->value[4] = draws(q, i);
    f->value[5] = reaches(q, i);
    f->value[6] = trunk_wet(y);
    if (f->other == NONE)
        return;
    o = year_of(q, (size_t)f->other);
    f->value[1] = y->too_humid - o->too_humid;
    f->value[2] = y->energy.blower - o->energy.blower;
    f->value[3] = y->water.putback - o->water.putback;
}

/* Harmful: less air, a damper house or a wet trunk.  Dear and no more is told
   as fine. */
void dew__rule_ties(const struct dew_question *q, struct dew_verdict *v)
{
    const unsigned harm =
        DEW_TIE_SHORT | DEW_TIE_AIR | DEW_TIE_HUMID | DEW_TIE_WET;

    for (size_t i = 0; i < q->count; i++) {
        int own = tied(q, i) ? own_twin(q, i) : NONE;
        struct dew_finding *f;
        unsigned why;

        if (!tied(q, i))
            continue;
        why = faults(q, i, own);
        if ((why & harm) == 0 && own == NONE)
            continue; /* nothing to hold it against */
        f = dew__find(
            v, why & harm ? DEW_FINDING_tie_harmful : DEW_FINDING_tie_fine,
            (int)i);
        f->other = own;
        tell_tie(f, q, why);
    }
}

/* ---- a dehumidifier's size ---------------------------------------------------- */

/* Rate at the air of hour h, kg/s. */
static double rate_at(const struct dew_choice *c, size_t h)
{
    const struct dew_series *s = &c->outcome->series;
    double w = dew_air_w(s->t[h], fmin(s->rh[h], 1), c->c->pressure);
    struct dew_dryer_work work;

    dew_plant_dryer_at(&c->c->plant.dryer, s->t[h], w, c->c->pressure, &work);
    return work.rate;
}

struct drying {
    double time, taken; /* h of running, kg/s x h taken                     */
    double busiest;     /* kg/s   mean of its busiest day                   */
};

static struct drying work_of(const struct dew_choice *c)
{
    const struct dew_series *s = &c->outcome->series;
    struct drying d = {0};

    for (size_t day = 0; day + DAY <= c->outcome->count; day += DAY) {
        double sum = 0;

        for (size_t h = day; h < day + DAY; h++) {
            double duty = s->dehumidify[h];

            if (duty <= 0)
                continue;
            sum += duty * rate_at(c, h);
            d.time += duty;
        }
        d.taken += sum;
        d.busiest = fmax(d.busiest, sum / DAY);
    }
    return d;
}

static int label_open(const struct dew_question *q, size_t i)
{
    return dew__has_dryer(q, i) && q->choices[i].facts->label_open;
}

/* Whether an option before i asks about a label of the same figure. */
static int asked_before(const struct dew_question *q, size_t i)
{
    double rate = q->choices[i].c->plant.dryer.rate;

    for (size_t j = 0; j < i; j++)
        if (label_open(q, j) &&
            fabs(q->choices[j].c->plant.dryer.rate - rate) < 1e-9 * rate)
            return 1;
    return 0;
}

/* Today's label or that of before June 2019, which is of warmer air? */
void dew__rule_dryer_label(const struct dew_question *q, struct dew_verdict *v)
{
    const double rh = 0.60;
    double now =
        dew_plant_dryer_removal(dew_plant_dryer_test_t(DEW_TEST_PORTABLE), rh);
    double old =
        dew_plant_dryer_removal(dew_plant_dryer_test_t(DEW_TEST_OLD), rh);

    for (size_t i = 0; i < q->count; i++) {
        struct dew_finding *f;

        if (!label_open(q, i) || asked_before(q, i))
            continue;
        f = dew__find(v, DEW_FINDING_dryer_label, (int)i);
        f->value[0] = q->choices[i].c->plant.dryer.rate;
        f->value[1] = f->value[0] * now / old;
    }
}

/* What the label's figure comes to in this house. */
void dew__rule_dryer_size(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        const struct dew_choice *c = &q->choices[i];
        struct dew_finding *f;
        struct drying d;

        if (!dew__has_dryer(q, i))
            continue;
        d = work_of(c);
        if (d.time <= 0)
            continue;
        f = dew__find(v, DEW_FINDING_dryer_size, (int)i);
        f->value[0] = c->c->plant.dryer.rate;
        f->value[1] = d.taken / d.time;
        f->value[2] = d.busiest;
        f->value[3] = year_of(q, i)->energy.dehumidifier;
        f->value[4] = d.time;
    }
}
