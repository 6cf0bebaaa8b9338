/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules about the house as it stands and the air outdoors. */
#include <math.h>
#include <stddef.h>

#include "study/rules.h"

#define MEMBER(name) offsetof(struct dew_tally, name)

enum { ALL_MONTHS = (1 << DEW_MONTHS) - 1 };

/* Construction water above this share of the inflow is worth waiting for.
   Our own choice, no source. */
static const double DRYING_MATTERS = 0.10;
/* Share of a month's hours: outdoor air mostly, or hardly, dries the house.
   Our own choice, no source. */
static const double MOSTLY = 0.50, HARDLY = 0.10;

static void keep_largest(struct dew_finding *f, const char *name, double kg)
{
    for (int i = 0; i < DEW_FINDING_SOURCES; i++) {
        const char *moved_name = f->source[i];
        double moved_kg = f->source_kg[i];

        if (!(kg > moved_kg))
            continue;
        f->source[i] = name;
        f->source_kg[i] = kg;
        name = moved_name;
        kg = moved_kg;
    }
}

/* What the core keeps or brings belongs to the fresh air that it treats. */
static double with_core(const struct dew_water_flows *f)
{
    return f->fresh + f->recovered;
}

static void add_flows(struct dew_water_flows *sum,
                      const struct dew_water_flows *f)
{
#define X(name, words) sum->name += f->name;
    DEW_WATER_MAP(X)
#undef X
}

void study__sources(struct dew_finding *f, const struct dew_outcome *o,
                    unsigned months, double sign)
{
    struct dew_water_flows sum = {0};
    double days = 0;

    for (int m = 0; m < DEW_MONTHS; m++)
        if (months & 1U << m) {
            add_flows(&sum, &o->month[m].water);
            days += o->month[m].hours / 24;
        }
    if (days == 0)
        return;
    sum.fresh = with_core(&sum);
    sum.recovered = 0;
    sum.coil += sum.reevaporation; /* what it puts back it took before */
    sum.reevaporation = 0;
    sum.store = 0;
#define X(name, words) keep_largest(f, words, sign *sum.name / days);
    DEW_WATER_MAP(X)
#undef X
}

double study__inflow(const struct dew_water_flows *flows)
{
    double sum = 0;

#define X(name, words) sum += fmax(flows->name, 0);
    DEW_WATER_MAP(X)
#undef X
    return sum - fmax(flows->store, 0);
}

/* Too little fresh air, or carbon dioxide past our own mark. */
void study__rule_today_stale(const struct dew_question *q,
                             struct dew_verdict *v)
{
    const struct dew_outcome *o = study__base(q);
    int short_of = !dew_verdict_ventilates(q, 0);
    double co2 = study__mean(o->year.co2_sum, o->year.hours);

    if (short_of || co2 > DEW_CO2_MARK)
        FIND(v, today_stale, 0, .fresh = dew_verdict_fresh(q, 0),
             .leaks = dew_verdict_air(q, 0).leaks, .required = o->required,
             .co2 = co2, .co2_outdoors = q->choices[0].c->house.co2_outdoors,
             .short_of_air = short_of);
}

void study__rule_today_humid(const struct dew_question *q,
                             struct dew_verdict *v)
{
    const struct dew_outcome *o = study__base(q);
    struct dew_finding *f;

    if (o->year.too_humid <= study__allowed(q, o))
        return;
    f = FIND(v, today_humid, 0, .humid = o->year.too_humid,
             .worst_month = study__worst_month(o, MEMBER(too_humid)),
             .longest = o->year.longest_too_humid, .by_1 = o->year.humid_by[0],
             .by_2 = o->year.humid_by[1], .by_3 = o->year.humid_by[2]);
    DOUBT(f, q, 0, too_humid);
    f->months = study__months_above(q, o, MEMBER(too_humid));
    study__sources(f, o, f->months ? f->months : ALL_MONTHS, 1);
}

void study__rule_today_dry(const struct dew_question *q, struct dew_verdict *v)
{
    const struct dew_outcome *o = study__base(q);
    struct dew_finding *f;

    if (o->year.too_dry <= study__allowed(q, o))
        return;
    f = FIND(v, today_dry, 0, .dry = o->year.too_dry,
             .worst_month = study__worst_month(o, MEMBER(too_dry)));
    DOUBT(f, q, 0, too_dry);
    f->months = study__months_above(q, o, MEMBER(too_dry));
    study__sources(f, o, f->months ? f->months : ALL_MONTHS, -1);
}

void study__rule_today_fine(const struct dew_question *q, struct dew_verdict *v)
{
    const struct dew_outcome *o = study__base(q);
    double allowed = study__allowed(q, o);
    struct dew_finding *f;

    if (o->year.too_humid > allowed || o->year.too_dry > allowed)
        return;
    f = FIND(v, today_fine, 0, .humid = o->year.too_humid,
             .dry = o->year.too_dry);
    study__doubt(f, q,
                 (const struct study__side[]){{0, DEW_DRAWN_too_humid},
                                              {0, DEW_DRAWN_too_dry}},
                 2);
}

static void short_of_heat(const struct dew_question *q, struct dew_verdict *v,
                          size_t i)
{
    const struct dew_tally *y = &study__outcome(q, i)->year;

    FIND(v, short_heat, (int)i, .short_of_heat = y->short_heat,
         .coldest = y->t_min);
}

/* Of today, and of the option with most such hours if clearly more. */
void study__rule_short_heat(const struct dew_question *q, struct dew_verdict *v)
{
    double today = study__base(q)->year.short_heat;
    size_t worst = 0;

    for (size_t i = 1; i < q->count; i++)
        if (study__outcome(q, i)->year.short_heat >
            study__outcome(q, worst)->year.short_heat)
            worst = i;
    if (today >= 1)
        short_of_heat(q, v, 0);
    if (study__worse(q, worst, 0, DEW_DRAWN_short_heat))
        short_of_heat(q, v, worst);
}

void study__rule_today_sweat(const struct dew_question *q,
                             struct dew_verdict *v)
{
    const struct dew_outcome *o = study__base(q);
    size_t glass = MEMBER(sweat) + DEW_GLASS * sizeof(double);

    if (o->year.sweat[DEW_GLASS] > study__allowed(q, o))
        FIND(v, today_sweat, 0, .glass_wet = o->year.sweat[DEW_GLASS])->months =
            study__months_above(q, o, glass);
}

/* Air as full as it can be, in any option and any hour. */
void study__rule_saturated(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        const struct dew_tally *year = &study__outcome(q, i)->year;

        if (year->saturated > 0.0)
            FIND(v, saturated, (int)i, .saturated = year->saturated,
                 .fog = -year->water.fog);
    }
}

/* One that was told to be absent is not asked for. */
static int untold(const struct dew_choice *c, enum dew_local e)
{
    return !(c->c->plant.exhausts[e].flow > 0) &&
           !(c->facts->exhausts_told >> e & 1U);
}

/* Told where anything that most houses have is wanting; shut windows are told
   with it and do not ask by themselves. */
void study__rule_today_assumes(const struct dew_question *q,
                               struct dew_verdict *v)
{
    const struct dew_choice *today = &q->choices[0];
    const struct dew_house *h = &today->c->house;
    int bath = untold(today, DEW_LOCAL_BATH);
    int kitchen = untold(today, DEW_LOCAL_KITCHEN);
    int dryer = untold(today, DEW_LOCAL_DRYER);
    int cooling = !study__has_cooling(q, 0) && !h->comfort.given;

    if (bath || kitchen || dryer || cooling)
        FIND(v, today_assumes, 0, .no_bath_fan = bath, .no_hood = kitchen,
             .no_clothes_dryer = dryer, .no_cooling = cooling,
             .windows_shut = !(h->windows.flow > 0));
}

/* Surfaces whose index passes the limit, in this year or when it comes ten
   times; the worst of each option. */
void study__rule_mould(const struct dew_question *q, struct dew_verdict *v)
{
    for (size_t i = 0; i < q->count; i++) {
        const struct dew_face *faces = study__outcome(q, i)->faces;
        int worst = 0;

        for (int s = 1; s < DEW_SURFACES; s++)
            if (faces[s].mould_years > faces[worst].mould_years)
                worst = s;
        if (!(faces[worst].mould_years > DEW_MOULD_LIMIT))
            continue;
        FIND(v, mould, (int)i, .surface = (enum dew_surface_kind)worst,
             .index = faces[worst].mould,
             .after_ten_years = faces[worst].mould_years)
            ->months = faces[worst].months_80;
    }
}

void study__rule_drying(const struct dew_question *q, struct dew_verdict *v)
{
    const struct dew_outcome *o = study__base(q);
    double inflow = study__inflow(&o->year.water);
    double part = inflow > 0 ? o->year.water.drying / inflow : 0;

    if (part >= DRYING_MATTERS)
        FIND(v, drying, 0, .share_of_inflow = part,
             .per_day = o->year.water.drying / (o->year.hours / 24));
}

void study__rule_idle(const struct dew_question *q, struct dew_verdict *v)
{
    const struct dew_tally *y = &study__base(q)->year;

    if (study__has_cooling(q, 0) && y->too_humid != 0)
        FIND(v, idle, 0, .humid_while_idle = y->idle_humid,
             .humid = y->too_humid);
}

/* Whether the share of the time that cooling runs says how much of it is
   needed: machines of one speed, running alike. */
static int runs_tell(const struct dew_plant *p)
{
    for (int k = 0; k < p->handler_count; k++) {
        const struct dew_handler *h = &p->handlers[k];

        if ((h->low_stage > 0 && h->low_stage < 1) ||
            (h->turndown > 0 && h->turndown < 1))
            return 0;
    }
    return p->handler_count == 1 || !p->lead_lag;
}

static int busiest_month(const struct dew_outcome *o)
{
    int most = 0;

    for (int m = 1; m < DEW_MONTHS; m++)
        if (o->month[m].duty.cool * o->month[most].hours >
            o->month[most].duty.cool * o->month[m].hours)
            most = m;
    return most;
}

/*
 * Twice too large: half of it would carry all hours but as few as a cooling
 * design leaves out, 0.4 % of the year [ASH-F14].  What it must carry in an
 * hour is the share of the hour that it runs; that measure is our own.
 */
void study__rule_cool_large(const struct dew_question *q, struct dew_verdict *v)
{
    const double left_out = 0.004;
    const struct dew_outcome *o = study__base(q);
    const struct dew_plant *p = &q->choices[0].c->plant;
    double above = 0;
    int m;

    if (!study__has_cooling(q, 0) || !(o->year.duty.cool > 0) || !runs_tell(p))
        return;
    for (size_t h = 0; h < o->count; h++)
        above += o->series.cool[h] > 0.5;
    if (above > left_out * o->year.hours)
        return;
    m = busiest_month(o);
    FIND(v, cool_large, 0, .above_half = above,
         .runs = o->month[m].duty.cool / o->month[m].hours)
        ->months = 1U << m;
}

static unsigned months_of_share(const struct dew_outcome *o, double low,
                                double high)
{
    unsigned mask = 0;

    for (int m = 0; m < DEW_MONTHS; m++) {
        const struct dew_tally *t = &o->month[m];

        if (t->hours > 0 && t->could_dry >= low * t->hours &&
            t->could_dry < high * t->hours)
            mask |= 1U << m;
    }
    return mask;
}

static void cannot(struct dew_verdict *v, const struct dew_outcome *o,
                   unsigned months)
{
    double dry = 0, all = 0;

    for (int m = 0; m < DEW_MONTHS; m++)
        if (months & 1U << m) {
            dry += o->month[m].could_dry;
            all += o->month[m].hours;
        }
    FIND(v, outdoor_cannot, 0, .could_dry = dry / all, .cannot_dry = all - dry,
         .all = all)
        ->months = months;
}

void study__rule_outdoor(const struct dew_question *q, struct dew_verdict *v)
{
    const struct dew_outcome *o = study__base(q);
    unsigned hardly = months_of_share(o, 0, HARDLY);

    FIND(v, outdoor_dries, 0, .could_dry = o->year.could_dry,
         .all = o->year.hours)
        ->months = months_of_share(o, MOSTLY, INFINITY);
    if (hardly != 0)
        cannot(v, o, hardly);
}
