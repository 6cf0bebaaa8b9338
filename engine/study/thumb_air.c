/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of thumb about air, water and windows. */
#include <math.h>

#include "core/factors.h"
#include "dew/leakage.h"
#include "dew/rates.h"
#include "dew/wetting.h"
#include "study/rules.h"
#include "study/thumb.h"

static double per_hour(double sum, double hours)
{
    return hours > 0 ? sum / hours : NAN;
}

/* Air below the limit is no proof, and air above it no harm by itself.  Mites
   fall only where it is kept below 51 % [ARLIAN01]. */
int study__thumb_humid_60(const struct dew_question *q, struct dew_thumb *t)
{
    size_t i = study__thumb_option(q);
    const struct dew_outcome *o = study__outcome(q, i);
    double humid = 0, damp = 0;

    for (size_t h = 0; h < o->count; h++)
        humid += o->series.rh[h] > 0.60 + DEW_BEYOND;
    for (int s = 0; s < DEW_SURFACES; s++)
        damp = fmax(damp, fmax(o->year.sweat[s], o->faces[s].mean_80));
    t->option = (int)i;
    t->unit = DEW_THUMB_HOURS;
    study__thumb_set(t, 0, 0, humid, 0);
    t->says =
        humid > study__allowed(q, o) ? DEW_THUMB_DIFFERS : DEW_THUMB_AGREES;
    if (t->says == DEW_THUMB_AGREES && damp > study__allowed(q, o)) {
        t->says = DEW_THUMB_DIFFERS;
        return study__thumb_why(t,
                                "the air keeps it, yet a cold surface is wet "
                                "or damp: surfaces decide, not the air");
    }
    if (t->says == DEW_THUMB_DIFFERS && damp <= study__allowed(q, o))
        return study__thumb_why(t,
                                "the air passes it, yet no surface stays "
                                "damp: mites and smell remain, mould does not "
                                "follow by itself");
    t->why = t->says == DEW_THUMB_DIFFERS
                 ? "surfaces are damp too: both call for drier air"
             : humid > 0 ? "so few hours count as kept: our own choice"
                         : "";
    t->says = DEW_THUMB_AGREES; /* both say well, or both say damp */
    return 1;
}

int study__thumb_winter_ceiling(const struct dew_question *q,
                                struct dew_thumb *t)
{
    struct dew_wet_row rows[DEW_WET_ROWS];
    const struct dew_wet_row *cold = NULL;

    dew_wetting_of(study__base(q), q->choices[0].c, rows);
    for (int i = 0; i < DEW_WET_ROWS; i++)
        if (rows[i].hours > 0)
            cold = &rows[i];
    if (cold == NULL)
        return 0;
    t->option = 0;
    t->unit = DEW_THUMB_SHARE;
    study__thumb_set(t, cold->trade, cold->trade, cold->frame, 0);
    t->says = fabs(cold->frame - cold->trade) > 0.055 ? DEW_THUMB_DIFFERS
                                                      : DEW_THUMB_AGREES;
    return study__thumb_why(t,
                            cold->frame > cold->trade
                                ? "the table is made for edges and frames of "
                                  "plain double glazing; these are warmer"
                                : "these frames are colder than those the "
                                  "table is made for");
}

static struct dew_dwelling dwelling(const struct dew_question *q)
{
    const struct dew_house *h = &q->choices[0].c->house;

    return (struct dew_dwelling){h->floor_area, h->volume, h->bedrooms,
                                 h->people.count};
}

static const char not_delivered[] =
    "less reaches the rooms, or another rate was asked for: see the table";

static int by_rule(const struct dew_question *q, struct dew_thumb *t,
                   double rate)
{
    size_t i = study__thumb_option(q);

    if (isnan(rate))
        return 0;
    t->option = (int)i;
    t->unit = DEW_THUMB_FLOW;
    study__thumb_set(t, rate, rate, dew_verdict_fresh(q, i),
                     1 - q->judging.fresh_share);
    return study__thumb_why(
        t, t->found > rate
               ? "this rule lets leaks bring the rest, or was not the one "
                 "asked for"
               : not_delivered);
}

int study__thumb_rate_now(const struct dew_question *q, struct dew_thumb *t)
{
    struct dew_dwelling home = dwelling(q);

    return by_rule(q, t, dew_house_rate(DEW_RATE_622_2013, &home));
}

int study__thumb_rate_old(const struct dew_question *q, struct dew_thumb *t)
{
    struct dew_dwelling home = dwelling(q);

    return by_rule(q, t, dew_house_rate(DEW_RATE_622_2010, &home));
}

/* 20 cfm for the main bedroom; 10 for the others and for living room, kitchen,
   bath and one more. */
int study__thumb_rate_rooms(const struct dew_question *q, struct dew_thumb *t)
{
    int others = q->choices[0].c->house.bedrooms - 1 + 4;

    if (q->choices[0].c->house.bedrooms < 1)
        return 0;
    return by_rule(q, t, CORE__CFM * (20 + 10.0 * others));
}

/* The same mean concentration in one mixed zone; 12 h on, 12 h off. */
int study__thumb_half_time(const struct dew_question *q, struct dew_thumb *t)
{
    const double half = 0.5, cycle = 86400;
    const struct dew_house *h = &q->choices[0].c->house;
    double asked = study__base(q)->required;
    const double absurd = 20; /* times the flow: as good as none */
    double works = dew_house_effectiveness(half, asked * cycle / h->volume);
    double times = isnan(works) ? INFINITY : 1 / (half * works);

    if (!(asked > 0) || !(h->volume > 0))
        return 0;
    t->unit = DEW_THUMB_PLAIN;
    study__thumb_set(t, 2, 2, times > absurd ? INFINITY : times, 0.05);
    return study__thumb_why(t,
                            "the rule holds while a pause is short beside the "
                            "time in which the air changes; a pause of half "
                            "a day is not");
}

/* The trade's line is about air outdoors; ASHRAE 62.1 has the same 60 degF as a
   limit of air indoors, cooled and no dwelling [ASH-621E]. */
int study__thumb_dew_60(const struct dew_question *q, struct dew_thumb *t)
{
    const double limit = 28 / 1.8; /* degC, 60 degF */
    const struct dew_outcome *o = study__base(q);
    double same = 0;

    for (size_t h = 0; h < o->count; h++) {
        double out = o->series.dew_point_out[h];

        same += (out > limit) == (out > o->series.dew_point[h]);
    }
    t->option = 0;
    t->unit = DEW_THUMB_SHARE;
    study__thumb_set(t, 0.9, 1, per_hour(same, (double)o->count), 0);
    return study__thumb_why(t,
                            "the house's own dew point is the true limit and "
                            "moves with the season");
}

int study__thumb_family_water(const struct dew_question *q, struct dew_thumb *t)
{
    const double lb_day = CORE__LB / 86400; /* kg/s */
    const struct dew_tally *y = &study__base(q)->year;
    double people = q->choices[0].c->house.people.count;
    double house = dew_wetting_sources(y);

    if (!(people > 0))
        return 0;
    if (y->hours > 0)
        house -= (y->water.ground + y->water.drying) / (3600 * y->hours);
    t->option = 0;
    t->unit = DEW_THUMB_WATER_RATE;
    study__thumb_set(t, 11.0 / 3 * people * lb_day, 14.6 / 3 * people * lb_day,
                     house, 0.1);
    return study__thumb_why(t, "showers, laundry, cooking and hours at home "
                               "differ between families more than the rule "
                               "allows: measure if you can");
}

int study__thumb_first_year(const struct dew_question *q, struct dew_thumb *t)
{
    const struct dew_choice *c = &q->choices[0];
    double more;

    if (c->settled == NULL)
        return 0;
    more = c->outcome->year.too_humid - c->settled->year.too_humid;
    t->option = 0;
    t->unit = DEW_THUMB_HOURS;
    study__thumb_set(t, study__allowed(q, c->outcome), NAN, more, 0);
    return study__thumb_why(t,
                            "the water of building is small beside the rest, "
                            "or the house is not damp for it");
}

int study__thumb_tight_3(const struct dew_question *q, struct dew_thumb *t)
{
    const struct dew_house *h = &q->choices[0].c->house;
    const struct dew_tally *y = &study__base(q)->year;
    double changes =
        dew_house_flow_at(h->leakage.c, h->leakage.n, 50) / h->volume * 3600;
    double asked = study__base(q)->required;
    double leaks = per_hour(y->leak_sum, y->hours);

    if (!(asked > 0) || !(h->volume > 0) || !(h->leakage.c > 0))
        return 0;
    t->option = 0;
    t->unit = DEW_THUMB_FLOW;
    if (changes <= 3)
        study__thumb_set(t, NAN, asked, leaks, 0);
    else
        study__thumb_set(t, asked, NAN, leaks, 0);
    return study__thumb_why(t, changes <= 3
                                   ? "wind and cold drive as much air through "
                                     "these few leaks as is asked for"
                                   : "leakier than the rule's line, and still "
                                     "too little air in calm, mild weather");
}
