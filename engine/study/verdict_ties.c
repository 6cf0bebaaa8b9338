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
static const double DEAR = 100 * CORE__KWH, WET = 100, SHORT = 0.20;

static int tied(const struct dew_question *q, size_t i)
{
    return study__has_ventilator(q, i) &&
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

        if (!study__has_ventilator(q, j) || tied(q, j) || b->core != a->core ||
            study__has_dryer(q, tie) != study__has_dryer(q, j) ||
            gap >= nearest)
            continue;
        nearest = gap;
        best = (int)j;
    }
    return best;
}

/* Fresh air that reaches the rooms while the ventilator runs, m3/s. */
static double reaches(const struct dew_question *q, size_t i)
{
    const struct dew_tally *y = study__year(q, i);

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
static struct dew_numbers_tie_fine faults(const struct dew_question *q,
                                          size_t i, int own)
{
    const struct dew_tally *y = study__year(q, i), *o;
    struct dew_numbers_tie_fine n = {.humid_more = NAN,
                                     .blower_more = NAN,
                                     .putback_more = NAN,
                                     .drawn = draws(q, i),
                                     .reaching = reaches(q, i),
                                     .trunk_wet = trunk_wet(y)};

    n.short_circuits = n.reaching < (1 - SHORT) * n.drawn;
    n.lacks_air = !dew_verdict_ventilates(q, i) &&
                  (own == NONE || dew_verdict_ventilates(q, (size_t)own));
    n.wet = n.trunk_wet > study__allowed(q, study__outcome(q, i));
    if (own == NONE)
        return n;
    o = study__year(q, (size_t)own);
    n.humid_more = y->too_humid - o->too_humid;
    n.damper = study__worse(q, i, (size_t)own, DEW_DRAWN_too_humid);
    n.blower_more = y->energy.blower - o->energy.blower;
    n.dear = n.blower_more > DEAR;
    n.putback_more = y->water.reevaporation - o->water.reevaporation;
    n.puts_back = n.putback_more > WET;
    return n;
}

/* Harmful: less air, a damper house or a wet trunk.  Dear and no more is told
   as fine. */
void study__rule_ties(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        int own = tied(q, i) ? own_twin(q, i) : NONE, harm;
        struct dew_numbers_tie_fine n;

        if (!tied(q, i))
            continue;
        n = faults(q, i, own);
        harm = n.short_circuits || n.lacks_air || n.damper || n.wet;
        if (!harm && own == NONE)
            continue; /* nothing to hold it against */
        study__find(v,
                    &(struct dew_finding){.kind = harm ? DEW_FINDING_tie_harmful
                                                       : DEW_FINDING_tie_fine,
                                          .option = (int)i,
                                          .other = own,
                                          .number.tie_fine = n});
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
    return study__has_dryer(q, i) && q->choices[i].facts->label_open;
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
void study__rule_dryer_label(const struct dew_question *q,
                             struct dew_verdict *v)
{
    const double rh = 0.60;
    double now =
        dew_plant_dryer_removal(dew_plant_dryer_test_t(DEW_TEST_PORTABLE), rh);
    double old =
        dew_plant_dryer_removal(dew_plant_dryer_test_t(DEW_TEST_OLD), rh);

    for (size_t i = 0; i < q->count; i++) {
        double label = q->choices[i].c->plant.dryer.rate;

        if (label_open(q, i) && !asked_before(q, i))
            FIND(v, dryer_label, (int)i, .label = label,
                 .if_old = label * now / old);
    }
}

/* What the label's figure comes to in this house. */
void study__rule_dryer_size(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        const struct dew_choice *c = &q->choices[i];
        struct drying d;

        if (!study__has_dryer(q, i))
            continue;
        d = work_of(c);
        if (d.time <= 0)
            continue;
        FIND(v, dryer_size, (int)i, .label = c->c->plant.dryer.rate,
             .here = d.taken / d.time, .busiest = d.busiest,
             .energy = study__year(q, i)->energy.dehumidifier, .runs = d.time);
    }
}
