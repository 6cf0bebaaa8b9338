/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of thumb about cores, cooling, ducts, dehumidifiers and their cost. */
#include <math.h>

#include "study/rules.h"
#include "study/thumb.h"
#include "study/year.h"

enum { NONE = DEW_NO_OPTION };

static const struct dew_path *running(const struct dew_question *q, size_t i)
{
    return &q->choices[i].c->paths[DEW_VENT_ON][0];
}

static int passes_water(enum dew_core_kind core)
{
    return core == DEW_CORE_enthalpy_plate || core == DEW_CORE_enthalpy_wheel;
}

static int first_of(const struct dew_question *q,
                    int (*pass)(const struct dew_question *q, size_t i))
{
    for (size_t i = 0; i < q->count; i++)
        if (pass(q, i))
            return (int)i;
    return NONE;
}

/* ---- cores -------------------------------------------------------------------- */

static int enthalpy(const struct dew_question *q, size_t i)
{
    return passes_water(q->choices[i].facts->core);
}

static int heat_only(const struct dew_question *q, size_t i)
{
    return q->choices[i].facts->core == DEW_CORE_heat_plate;
}

int study__thumb_not_dryer(const struct dew_question *q, struct dew_thumb *t)
{
    int i = first_of(q, enthalpy);
    const struct dew_outcome *o;
    double most = 0;

    if (i == NONE)
        return 0;
    o = study__outcome(q, (size_t)i);
    t->found = NAN;
    t->option = i;
    t->unit = DEW_THUMB_WATER;
    for (int m = 0; m < DEW_MONTHS; m++)
        if (o->month[m].hours > 0 && o->month[m].too_humid >= most) {
            most = o->month[m].too_humid;
            t->found = o->month[m].water.fresh + o->month[m].water.recovered;
        }
    if (most <= 0)
        return 0;
    study__thumb_set(t, 0, NAN, t->found, 0);
    return study__thumb_why(t,
                            "outdoor air is the drier in that month, so this "
                            "ventilation dries, as any would");
}

/* Where a heat core would leave the air below 25 % in winter, or outdoor air
   of a dew point above 60 degF meets a cooled house for long. */
int study__thumb_core_choice(const struct dew_question *q, struct dew_thumb *t)
{
    const double sticky = 28 / 1.8, often = 0.10; /* degC; our own share */
    int heat = first_of(q, heat_only), moist = first_of(q, enthalpy);
    const struct dew_outcome *o;
    double damp = 0, parched = 0;

    if (heat == NONE || moist == NONE)
        return 0;
    o = study__outcome(q, (size_t)heat);
    for (size_t h = 0; h < o->count; h++) {
        damp += o->series.dew_point_out[h] > sticky;
        parched += o->series.rh[h] < 0.25;
    }
    damp *= study__has_cooling(q, 0);
    t->unit = DEW_THUMB_CORE;
    t->low = t->high = fmax(damp, parched) > often * (double)o->count;
    t->found = 0.5 * (1 + study__sure(q, study__more_outside(q, (size_t)heat,
                                                             (size_t)moist)));
    t->says = t->found == t->low ? DEW_THUMB_AGREES : DEW_THUMB_DIFFERS;
    return study__thumb_why(
        t, t->found == 0.5
               ? "a close call here: which core leaves fewer hours too "
                 "humid and too dry changes from house to house"
               : "too humid and too dry hours of this house, "
                 "counted together, say the other");
}

int study__thumb_sensible_76(const struct dew_question *q, struct dew_thumb *t)
{
    size_t i = study__thumb_option(q);

    if (q->choices[i].facts->core < DEW_CORE_heat_plate)
        return 0;
    t->option = (int)i;
    t->unit = DEW_THUMB_SHARE;
    study__thumb_set(t, 0.76, NAN, running(q, i)->sensible, 0);
    return study__thumb_why(t,
                            "a screening figure: what a point of it is worth "
                            "is in the energy table, and little in mild "
                            "weather");
}

int study__thumb_fan_15(const struct dew_question *q, struct dew_thumb *t)
{
    size_t i = study__thumb_option(q);
    const struct dew_path *p = running(q, i);

    if (!study__has_ventilator(q, i) || !(p->fan_w > 0))
        return 0;
    t->option = (int)i;
    t->unit = DEW_THUMB_PER_FAN;
    study__thumb_set(t, 1.5 * CORE__CFM, NAN,
                     fmax(p->supply, p->exhaust) / p->fan_w, 0.005);
    return study__thumb_why(t,
                            "a screening figure: the fans' kWh a year are in "
                            "the energy table");
}

/* ---- cooling ------------------------------------------------------------------ */

static int blows_on(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;

    for (int k = 0; k < p->handler_count; k++)
        if (p->handlers[k].mode == DEW_BLOWER_ON)
            return 1;
    return 0;
}

int study__thumb_fan_auto(const struct dew_question *q, struct dew_thumb *t)
{
    int i = first_of(q, blows_on);

    if (i <= 0 || blows_on(q, 0) || !study__has_cooling(q, (size_t)i))
        return 0;
    t->option = i;
    t->unit = DEW_THUMB_WATER;
    study__thumb_set(t, 1, NAN,
                     study__year(q, (size_t)i)->water.reevaporation -
                         study__year(q, 0)->water.reevaporation,
                     0);
    return study__thumb_why(t, "the coil is dry most of the year here, so a "
                               "running blower has little to put back");
}

static double tons(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;
    double capacity = 0;

    for (int k = 0; k < p->handler_count; k++)
        capacity += p->handlers[k].capacity;
    return capacity / CORE__TON;
}

int study__thumb_ton_water(const struct dew_question *q, struct dew_thumb *t)
{
    const struct dew_tally *y = study__year(q, 0);
    double rated = tons(q, 0) * CORE__TON;

    if (!(rated > 0) || !(y->duty.cool > 0))
        return 0;
    t->option = 0;
    t->unit = DEW_THUMB_PER_TON;
    study__thumb_set(t, 3 * CORE__LB / 3600 / CORE__TON,
                     3 * CORE__LB / 3600 / CORE__TON,
                     y->coil_drained / (3600 * y->duty.cool) / rated, 0.3);
    return study__thumb_why(
        t, t->found < t->low
               ? "the rule holds for humid air and long runs; in dry air and "
                 "short cycles little reaches the drain"
               : "more humid air at the coil than the rule has in mind");
}

int study__thumb_cool_half(const struct dew_question *q, struct dew_thumb *t)
{
    const struct dew_outcome *o = study__base(q);
    double sum = 0, n = 0;

    if (!study__has_cooling(q, 0))
        return 0;
    for (size_t h = 0; h < o->count; h++)
        if (o->series.cool[h] > 0 && o->series.rh[h] <= 0.50) {
            sum += o->series.cool[h];
            n += 1;
        }
    if (n < 24)
        return 0;
    t->option = 0;
    t->unit = DEW_THUMB_SHARE;
    study__thumb_set(t, 0.5, NAN, sum / n, 0);
    return study__thumb_why(t, "the house is that dry in these hours for other "
                               "reasons: little water comes in, or outdoor air "
                               "is dry");
}

/* ---- ducts -------------------------------------------------------------------- */

static int tied(const struct dew_question *q, size_t i)
{
    return study__has_ventilator(q, i) &&
           q->choices[i].facts->layout != DEW_LAYOUT_own_ducts;
}

static int own(const struct dew_question *q, size_t i)
{
    return study__has_ventilator(q, i) && !tied(q, i);
}

int study__thumb_own_best(const struct dew_question *q, struct dew_thumb *t)
{
    int a = first_of(q, own), b = NONE;
    double more;

    for (size_t i = 0; a != NONE && i < q->count; i++)
        if (tied(q, i) &&
            q->choices[i].facts->core == q->choices[a].facts->core)
            b = (int)i;
    if (b == NONE)
        return 0;
    more = study__year(q, (size_t)b)->too_humid -
           study__year(q, (size_t)a)->too_humid;
    t->option = b;
    t->unit = DEW_THUMB_HOURS;
    study__thumb_set(t, 0, NAN, more, 0);
    return study__thumb_why(t,
                            "the tie-in leaves fewer hours too humid here: "
                            "its air passes the coil, or less of it arrives");
}

int study__thumb_no_damper(const struct dew_question *q, struct dew_thumb *t)
{
    int i = first_of(q, tied);
    double most = 0;

    if (i == NONE || q->choices[i].facts->damper == DEW_ANSWER_YES)
        return 0;
    for (int b = 0; b < DEW_BLOWER_STATES; b++)
        most = fmax(most, q->choices[i].c->paths[DEW_VENT_OFF][b].unplanned);
    t->option = i;
    t->unit = DEW_THUMB_FLOW;
    study__thumb_set(t, 1e-4, NAN, most, 0);
    return study__thumb_why(t,
                            "no duct network is drawn for this layout, so no "
                            "such air is computed: it is there all the same");
}

int study__thumb_balance(const struct dew_question *q, struct dew_thumb *t)
{
    size_t i = study__thumb_option(q);
    const struct dew_path *p = running(q, i);
    double larger = fmax(p->supply, p->exhaust);

    if (q->choices[i].facts->core < DEW_CORE_balanced || !(larger > 0))
        return 0;
    t->option = (int)i;
    t->unit = DEW_THUMB_SHARE;
    study__thumb_set(t, NAN, 0.10, fabs(p->supply - p->exhaust) / larger,
                     0.005);
    return study__thumb_why(t, "set out of balance: the house takes the rest "
                               "through its leaks, see its pressure");
}

/* ---- dehumidifiers and cost ------------------------------------------------------ */

int study__thumb_dryer_1000(const struct dew_question *q, struct dew_thumb *t)
{
    int i = first_of(q, study__has_dryer);

    if (i == NONE)
        return 0;
    t->option = i;
    t->unit = DEW_THUMB_ENERGY;
    study__thumb_set(t, 1000 * CORE__KWH, 1000 * CORE__KWH,
                     study__year(q, (size_t)i)->energy.dehumidifier, 0.3);
    return study__thumb_why(t,
                            "it runs by this house's water, its set point and "
                            "what cooling takes out already");
}

int study__thumb_dryer_factor(const struct dew_question *q, struct dew_thumb *t)
{
    int i = first_of(q, study__has_dryer);
    const struct dew_tally *y;

    if (i == NONE)
        return 0;
    y = study__year(q, (size_t)i);
    if (!(y->energy.dehumidifier > 0))
        return 0;
    t->option = i;
    t->unit = DEW_THUMB_PER_ENERGY;
    study__thumb_set(t, 1.2 / CORE__KWH, 3.75 / CORE__KWH,
                     -y->water.dehumidifier / y->energy.dehumidifier, 0.005);
    return study__thumb_why(t, "labels are rated in warm, damp air; in cooler, "
                               "drier rooms each litre costs more");
}

int study__thumb_cost_balanced(const struct dew_question *q,
                               struct dew_thumb *t)
{
    size_t i = study__thumb_option(q);
    const struct dew_costs *c = q->choices[i].costs;

    if (q->choices[i].facts->core < DEW_CORE_balanced || c == NULL ||
        !(c->install.likely > 0))
        return 0;
    t->option = (int)i;
    t->unit = DEW_THUMB_MONEY;
    study__thumb_set(t, 6000, 8000, c->install.likely, 0);
    return study__thumb_why(t,
                            "old and local figures; the price put in is "
                            "another year's, another scope or another place's");
}
