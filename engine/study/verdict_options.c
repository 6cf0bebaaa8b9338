/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules that set the options beside the house as it stands. */
#include <math.h>
#include <stddef.h>

#include "study/rules.h"

#define MEMBER(name) offsetof(struct dew_tally, name)

/* A blower that uses this much more than today is told apart, J a year.
   100 kWh, our own choice, no source. */
static const double BLOWER_MATTERS = 100 * CORE__KWH;

enum { NONE = DEW_NO_OPTION };

static double humid(const struct dew_question *q, int i)
{
    return study__outcome(q, (size_t)i)->year.too_humid;
}

static double dry(const struct dew_question *q, int i)
{
    return study__outcome(q, (size_t)i)->year.too_dry;
}

/* The option of fewest humid hours among those that pass; NONE when none. */
static int fewest(const struct dew_question *q, size_t from,
                  int (*pass)(const struct dew_question *q, size_t i))
{
    int best = NONE;

    for (size_t i = from; i < q->count; i++)
        if (pass(q, i) && (best == NONE || humid(q, (int)i) < humid(q, best)))
            best = (int)i;
    return best;
}

static int air_only(const struct dew_question *q, size_t i)
{
    return study__has_ventilator(q, i) && !study__has_dryer(q, i);
}

static int air_only_enough(const struct dew_question *q, size_t i)
{
    return air_only(q, i) && dew_verdict_ventilates(q, i);
}

static int base_is_humid(const struct dew_question *q)
{
    const struct dew_outcome *o = study__base(q);

    return o->year.too_humid > study__allowed(q, o);
}

/* Hours too dry of an option, where they pass the limit; else NaN. */
static double too_dry(const struct dew_question *q, int i)
{
    return dry(q, i) > study__allowed(q, study__outcome(q, (size_t)i))
               ? dry(q, i)
               : NAN;
}

/* An option that starves the house of air never speaks for ventilation.  The
   house as it stands is one of them where it has a ventilator. */
void study__rule_air_alone(const struct dew_question *q, struct dew_verdict *v)
{
    int enough = fewest(q, 0, air_only_enough), i = enough;
    const struct dew_outcome *o;
    struct dew_finding *f;
    int fixes;

    if (i == NONE)
        i = fewest(q, 0, air_only);
    if (!base_is_humid(q) || i == NONE || q->count < 2)
        return;
    o = study__outcome(q, (size_t)i);
    fixes = o->year.too_humid <= study__allowed(q, o);
    if (fixes && enough == NONE)
        return;
    f = fixes ? FIND(v, air_fixes, i, .humid = o->year.too_humid,
                     .today = humid(q, 0), .dry = too_dry(q, i))
              : FIND(v, air_fails, i, .humid = o->year.too_humid,
                     .today = humid(q, 0));
    DOUBT(f, q, (size_t)i, too_humid);
    f->months = study__months_above(q, o, MEMBER(too_humid));
}

/* Months whose hours grow by more than the month's allowance. */
static unsigned months_grown(const struct dew_question *q,
                             const struct dew_outcome *o, double *added)
{
    const struct dew_outcome *base = study__base(q);
    unsigned mask = 0;

    *added = 0;
    for (int m = 0; m < DEW_MONTHS; m++) {
        double more = o->month[m].too_humid - base->month[m].too_humid;

        if (more <= study__allowed_month(q, o, m))
            continue;
        mask |= 1U << m;
        *added += more;
    }
    return mask;
}

void study__rule_air_worsens(const struct dew_question *q,
                             struct dew_verdict *v)
{
    for (size_t i = 1; i < q->count; i++) {
        double added;
        unsigned mask = months_grown(q, study__outcome(q, i), &added);

        if (mask == 0 || !study__has_ventilator(q, i))
            continue;
        FIND(v, air_worsens, (int)i, .humid = humid(q, (int)i),
             .today = humid(q, 0), .added = added)
            ->months = mask;
    }
}

/* What is named first of those that will do: the best, or the cheapest to run
   where no best can be told. */
static int first_named(const struct dew_question *q,
                       const struct dew_verdict *v)
{
    if (v->best != NONE)
        return v->best;
    return study__best_open(q) ? study__cheapest(q, NONE) : NONE;
}

static int dryer_enough(const struct dew_question *q, size_t i)
{
    return study__has_dryer(q, i) && dew_verdict_ventilates(q, i);
}

static int no_dryer_enough(const struct dew_question *q, size_t i)
{
    return !study__has_dryer(q, i) && dew_verdict_ventilates(q, i);
}

static int keeps_humid(const struct dew_question *q, int i)
{
    const struct dew_outcome *o;

    if (i == NONE)
        return 0;
    o = study__outcome(q, (size_t)i);
    return o->year.too_humid <= study__allowed(q, o);
}

static int any_dryer(const struct dew_question *q)
{
    for (size_t i = 0; i < q->count; i++)
        if (study__has_dryer(q, i))
            return 1;
    return 0;
}

/* Needed, not needed, not enough or not tried: at most one of them. */
void study__rule_dryer(const struct dew_question *q, struct dew_verdict *v)
{
    int without = fewest(q, 0, no_dryer_enough);
    int first = first_named(q, v);
    int with = first != NONE && dryer_enough(q, (size_t)first)
                   ? first
                   : fewest(q, 0, dryer_enough);
    double none = without == NONE ? NAN : humid(q, without);
    double some = with == NONE ? NAN : humid(q, with);
    struct study__side side[2];
    struct dew_finding *f;
    size_t sides = 0;

    if (keeps_humid(q, without)) {
        f = FIND(v, dryer_not_needed, without, .humid = none);
        with = NONE;
    } else if (keeps_humid(q, with))
        f = FIND(v, dryer_needed, with, .humid = some, .humid_without = none);
    else if (with != NONE)
        f = FIND(v, dryer_short, with, .humid = some);
    else if (without != NONE && !any_dryer(q))
        f = FIND(v, dryer_untried, NONE, .humid_without = none);
    else
        return;
    /* the answer hangs on the hours without one, and with it */
    if (with != NONE)
        side[sides++] = (struct study__side){(size_t)with, DEW_DRAWN_too_humid};
    if (without != NONE)
        side[sides++] =
            (struct study__side){(size_t)without, DEW_DRAWN_too_humid};
    study__doubt(f, q, side, sides);
}

static int dryer_alone(const struct dew_question *q, size_t i)
{
    return study__has_dryer(q, i) && !dew_verdict_ventilates(q, i);
}

/* A dehumidifier in place of ventilation: the air is still wanting. */
void study__rule_dryer_alone(const struct dew_question *q,
                             struct dew_verdict *v)
{
    int i = fewest(q, 0, dryer_alone);

    if (i != NONE)
        FIND(v, dryer_alone, i, .humid = humid(q, i),
             .fresh = dew_verdict_fresh(q, (size_t)i),
             .required = study__outcome(q, (size_t)i)->required);
}

static int dryer_for_air(const struct dew_question *q, size_t i)
{
    return study__has_dryer(q, i) && !study__has_ventilator(q, i) &&
           dew_verdict_ventilates(q, i);
}

/* No ventilator, and no fresh air wanting: none is asked for, or it draws
   enough in itself. */
void study__rule_dryer_instead(const struct dew_question *q,
                               struct dew_verdict *v)
{
    int i = fewest(q, 1, dryer_for_air);
    struct dew_finding *f;

    if (!base_is_humid(q) || !keeps_humid(q, i))
        return;
    f = FIND(v, dryer_instead, i, .humid = humid(q, i),
             .energy = study__outcome(q, (size_t)i)->year.energy.dehumidifier);
    DOUBT(f, q, (size_t)i, too_humid);
}

/* Options with enough air that are too humid in just so many hours. */
static int alike(const struct dew_question *q, double hours)
{
    int count = 0;

    for (size_t i = 0; i < q->count; i++)
        count += dew_verdict_ventilates(q, i) && humid(q, (int)i) == hours;
    return count;
}

/* Not told where it is the best, or as good: one winner was named already. */
void study__rule_least_humid(const struct dew_question *q,
                             struct dew_verdict *v)
{
    int i = fewest(q, 0, dew_verdict_ventilates), first = first_named(q, v);

    if (i == NONE || q->count < 2 || !base_is_humid(q))
        return;
    if (first != NONE && humid(q, first) <= humid(q, i))
        return;
    FIND(v, least_humid, i, .humid = humid(q, i), .today = humid(q, 0),
         .alike = alike(q, humid(q, i)));
}

static int passes_water(enum dew_core_kind core)
{
    return core == DEW_CORE_enthalpy_plate || core == DEW_CORE_enthalpy_wheel;
}

/* Two options that differ in the kind of core, as near as the file has it. */
static int core_twin(const struct dew_question *q, size_t heat)
{
    const struct dew_option_facts *a = q->choices[heat].facts;
    int best = NONE;
    double nearest = INFINITY;

    for (size_t j = 0; j < q->count; j++) {
        const struct dew_option_facts *b = q->choices[j].facts;
        double gap = fabs(a->flow - b->flow);

        if (!passes_water(b->core) || a->layout != b->layout ||
            study__has_dryer(q, heat) != study__has_dryer(q, j) ||
            gap >= nearest)
            continue;
        nearest = gap;
        best = (int)j;
    }
    return best;
}

/* Which core is told to be the better, and in how many houses it is. */
static void core_of(struct dew_finding *f, const struct dew_question *q,
                    int heat, int enthalpy)
{
    double share = study__more_outside(q, (size_t)heat, (size_t)enthalpy);
    int sure = study__sure(q, share);

    f->kind = sure > 0   ? DEW_FINDING_core_enthalpy
              : sure < 0 ? DEW_FINDING_core_heat
                         : DEW_FINDING_core_close;
    if (q->draws == NULL || f->kind == DEW_FINDING_core_close)
        return;
    f->drawn = q->draws->count;
    share = f->kind == DEW_FINDING_core_heat ? 1 - share : share;
    f->so = (size_t)lround(share * (double)f->drawn);
}

void study__rule_core(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        int j = q->choices[i].facts->core == DEW_CORE_heat_plate
                    ? core_twin(q, i)
                    : NONE;
        struct dew_finding *f;

        if (j == NONE)
            continue;
        f = FIND(v, core_heat, (int)i, .heat_humid = humid(q, (int)i),
                 .heat_dry = dry(q, (int)i), .enthalpy_humid = humid(q, j),
                 .enthalpy_dry = dry(q, j));
        core_of(f, q, (int)i, j);
        f->other = j;
        return; /* one pair answers the question */
    }
}

void study__rule_grows_dry(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 1; i < q->count; i++) {
        const struct dew_outcome *o = study__outcome(q, i);

        if (o->year.too_dry <= study__allowed(q, o) ||
            !study__worse(q, i, 0, DEW_DRAWN_too_dry))
            continue;
        FIND(v, grows_dry, (int)i, .dry = o->year.too_dry, .today = dry(q, 0))
            ->months = study__months_above(q, o, MEMBER(too_dry));
    }
}

/* Whether an option wets the air of winter, or brings less of it in. */
static int wets(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;

    return p->humidifier.rate > 0 || p->control.winter_rh[0] > 0;
}

/* All that bring enough air are too dry, and nothing was tried against it. */
void study__rule_wetter_untried(const struct dew_question *q,
                                struct dew_verdict *v)
{
    int least = NONE;

    for (size_t i = 0; i < q->count; i++) {
        if (wets(q, i))
            return;
        if (dew_verdict_ventilates(q, i) &&
            (least == NONE || dry(q, (int)i) < dry(q, least)))
            least = (int)i;
    }
    if (least != NONE && too_dry(q, least) > 0)
        FIND(v, wetter_untried, least, .dry = dry(q, least));
}

/* Whether a blower runs for more than heat and cold. */
static int blower_helps(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;

    for (int k = 0; k < p->handler_count; k++)
        if (p->handlers[k].mode != DEW_BLOWER_AUTO)
            return 1;
    return 0;
}

/* A tie-in is run by the blower: its watts, and the water it puts back. */
void study__rule_blower(const struct dew_question *q, struct dew_verdict *v)
{
    const struct dew_tally *base = &study__base(q)->year;

    for (size_t i = 1; i < q->count; i++) {
        const struct dew_tally *y = &study__outcome(q, i)->year;

        if (!study__has_ventilator(q, i) || !blower_helps(q, i) ||
            y->energy.blower - base->energy.blower < BLOWER_MATTERS)
            continue;
        FIND(v, blower_cost, (int)i,
             .blower = y->energy.blower - base->energy.blower,
             .own_fans = y->energy.ventilator,
             .reevaporation =
                 y->water.reevaporation - base->water.reevaporation);
    }
}

void study__rule_under(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++)
        if (!dew_verdict_ventilates(q, i))
            FIND(v, under_ventilated, (int)i, .fresh = dew_verdict_fresh(q, i),
                 .required = study__outcome(q, i)->required);
}
