/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What keeping a core from frost costs an option. */
#include <math.h>

#include "dew/leakage.h"
#include "dew/plant.h"
#include "report/gear.h"

/* What is told. */
struct frost {
    enum dew_frost strategy;
    double hours;    /* h    of defrosting                                  */
    double lost;     /* m3   of fresh air in them, at the normal flow       */
    double share;    /* -    that is of the year's                          */
    double unequal;  /* m3/s exhaust over supply meanwhile                  */
    double pressure; /* Pa   of the house meanwhile                         */
    double preheat;  /* J    a year                                         */
    double ice;      /* degC outdoors from which ice can form in this core  */
    double start;    /* degC outdoors from which it is kept off             */
    double supply;   /* degC coldest supply air, running                    */
    double counted;  /* degC the same over a cycle of its defrosting        */
};

static int frosts(const struct dew_report *r, size_t i)
{
    const struct dew_choice *c = report__choice(r, i);

    return c->c->plant.frost.strategy != DEW_FROST_NONE &&
           (c->outcome->year.frost_hours > 0 ||
            c->outcome->year.energy.preheat > 0);
}

/* The hour of the coldest supply air; count when it never ran. */
static size_t coldest(const struct dew_outcome *o)
{
    size_t best = o->count;

    for (size_t h = 0; h < o->count; h++)
        if (isfinite(o->series.supply_t[h]) &&
            (best == o->count ||
             o->series.supply_t[h] < o->series.supply_t[best]))
            best = h;
    return best;
}

/* Recirculating brings house air in for its share of time; exhausting alone
   brings none. */
static double counted(const struct dew_choice *c, size_t h)
{
    const struct dew_frost_rule *rule = &c->c->plant.frost;
    const struct dew_series *s = &c->outcome->series;
    double share = dew_plant_frost_share(rule, s->t_out[h], s->dew_point[h]);

    if (rule->strategy != DEW_FROST_RECIRCULATE)
        share = 0;
    return s->supply_t[h] + share * (s->t[h] - s->supply_t[h]);
}

static struct frost frost_of(const struct dew_choice *c)
{
    const struct dew_tally *y = &c->outcome->year;
    const struct dew_path *on = &c->c->paths[DEW_VENT_ON][0];
    const struct dew_path *off = &c->c->paths[DEW_VENT_DEFROST][0];
    size_t h = coldest(c->outcome);
    int ran = h < c->outcome->count;

    return (struct frost){
        .strategy = c->c->plant.frost.strategy,
        .hours = y->frost_hours,
        .lost = y->frost_hours * 3600 * (on->fresh - off->fresh),
        .share = y->frost_hours * (on->fresh - off->fresh) /
                 (y->fresh_sum + y->frost_hours * (on->fresh - off->fresh)),
        .unequal = off->exhaust - off->supply,
        .pressure =
            dew_house_pressure(&c->c->house.leakage, off->supply, off->exhaust),
        .preheat = y->energy.preheat,
        .ice =
            c->c->plant.core_passes_water
                ? NAN /* the formula is of plates that pass none */
                : dew_plant_frost_threshold(on->sensible, y->t_sum / y->hours),
        .start = c->c->plant.frost.start,
        .supply = ran ? c->outcome->series.supply_t[h] : NAN,
        .counted = ran ? counted(c, h) : NAN,
    };
}

static const char *way(enum dew_frost strategy)
{
    return strategy == DEW_FROST_RECIRCULATE    ? "recirculate"
           : strategy == DEW_FROST_EXHAUST_ONLY ? "exhaust_only"
                                                : "preheat";
}

static struct report__word degrees(const struct dew_report *r, double t)
{
    return report__amount(t, DEW_TEMPERATURE, r->system, 0);
}

/* How it is kept off, and what that costs. */
static void cost(const struct dew_report *r, const struct frost *f, char *out,
                 size_t size)
{
    if (f->strategy == DEW_FROST_PREHEAT)
        snprintf(out, size, "by preheating, with %s kWh a year",
                 report__number(f->preheat / CORE__KWH, 0).text);
    else if (f->strategy == DEW_FROST_RECIRCULATE)
        snprintf(
            out, size,
            "by circulating house air for %s hours of the year, which takes "
            "%s %% of its fresh air",
            report__number(f->hours, 0).text,
            report__number(100 * f->share, 1).text);
    else
        snprintf(
            out, size,
            "by exhausting alone for %s hours of the year, which bring %s less "
            "fresh air and draw the house to %s",
            report__number(f->hours, 0).text,
            report__number(100 * f->share, 1).text,
            report__amount(f->pressure, DEW_PRESSURE, r->system, 1).text);
}

int report__gear_frost_body(const struct dew_report *r, size_t i, char *out,
                            size_t size)
{
    struct frost f;
    char how[600], ice[200] = "";

    if (!frosts(r, i))
        return 0;
    f = frost_of(report__choice(r, i));
    cost(r, &f, how, sizeof how);
    if (isfinite(f.ice))
        snprintf(ice, sizeof ice,
                 "; by its effectiveness damp air could ice it from %s down",
                 degrees(r, f.ice).text);
    snprintf(out, size,
             "its core is kept from frost %s. It acts below %s outdoors%s. "
             "Coldest supply air %s, and %s over a cycle of defrosting.",
             how, degrees(r, f.start).text, ice, degrees(r, f.supply).text,
             degrees(r, f.counted).text);
    return 1;
}

json_t *report__gear_frost(struct maker *m, size_t i)
{
    struct frost f;
    json_t *o;

    if (!frosts(m->r, i))
        return json_null();
    f = frost_of(report__choice(m->r, i));
    o = OF_TEXTS(m, {"strategy", way(f.strategy)});
    return REALS(
        m, o, {"defrost_h", f.hours}, {"fresh_air_lost_m3", f.lost},
        {"fresh_air_lost_pct", 100 * f.share},
        {"imbalance_l_s", 1000 * f.unequal}, {"pressure_pa", f.pressure},
        {"preheat_kwh", f.preheat / CORE__KWH}, {"acts_below_c", f.start},
        {"ice_possible_below_c", f.ice}, {"supply_air_min_c", f.supply},
        {"supply_air_min_over_a_cycle_c", f.counted});
}
