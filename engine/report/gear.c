/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The equipment as it is in this house, and what its figures leave open. */
#include "report/gear.h"

#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "dew/air.h"
#include "dew/dryer.h"
#include "report/sheet.h"
#include "report/words.h"

enum { LINE = 2000 };

static const struct dew_report_doubt *doubt(const struct dew_report *r,
                                            size_t i, enum dew_otherwise how)
{
    for (size_t k = 0; k < r->doubt_count; k++)
        if (r->doubts[k].option == i && r->doubts[k].how == how)
            return &r->doubts[k];
    return NULL;
}

/* ---- dehumidifier --------------------------------------------------------- */

/* The air it ran in (or the house's, when it never did), and what it can
   take out there without a stop. */
struct here {
    double t, rh;
    struct dew_dryer_work work;
};

static struct here dryer_here(const struct dew_choice *c)
{
    const struct dew_tally *y = &c->outcome->year;
    double ran = y->duty.dehumidify;
    struct here h = {.t = y->t_sum / y->hours, .rh = y->rh_sum / y->hours};

    if (ran > 0) {
        h.t = y->dryer_t / ran;
        h.rh = y->dryer_rh / ran;
    }
    dew_plant_dryer_at(&c->c->plant.dryer, h.t,
                       dew_air_w(h.t, h.rh, c->c->pressure), c->c->pressure,
                       &h.work);
    return h;
}

int report__gear_seen(const struct dew_report *r, size_t i,
                      struct report__word *seen)
{
    *seen = report__hand_input(r, i, "dehumidifier.observed");
    return seen->text[0] >= '0' && seen->text[0] <= '9';
}

/* What the owner saw, beside what the year comes to. */
static void say_seen(const struct dew_report *r, size_t i, char *out,
                     size_t size)
{
    const struct dew_tally *y = &report__choice(r, i)->outcome->year;
    struct report__word seen;

    out[0] = '\0';
    if (report__gear_seen(r, i, &seen))
        snprintf(out, size,
                 " Its owner saw it take out %s, and its size follows from "
                 "that measured load; over the %s it takes out %s on average.",
                 seen.text, report__span(r).text,
                 report__amount(fabs(y->water.dehumidifier) / (3600 * y->hours),
                                DEW_WATER_RATE, r->system, 1)
                     .text);
}

static int dryer_body(const struct dew_report *r, size_t i, char *out,
                      size_t size)
{
    const struct dew_choice *c = report__choice(r, i);
    const struct dew_dryer *d = &c->c->plant.dryer;
    struct here h;
    char seen[520];

    if (!(d->rate > 0) || !(c->outcome->year.hours > 0))
        return 0;
    h = dryer_here(c);
    say_seen(r, i, seen, sizeof seen);
    snprintf(out, size,
             "its dehumidifier takes out %s at %s %s and %s %%, "
             "and %s in the air it runs in here, %s and %s %% on average%s. It "
             "runs %s hours of the %s.%s",
             report__amount(d->rate, DEW_WATER_RATE, r->system, 1).text,
             seen[0] != '\0' ? "a label's" : "its label's",
             report__amount(d->rating_t, DEW_TEMPERATURE, r->system, 0).text,
             report__number(100 * d->rating_rh, 0).text,
             report__amount(h.work.rate, DEW_WATER_RATE, r->system, 1).text,
             report__amount(h.t, DEW_TEMPERATURE, r->system, 0).text,
             report__number(100 * h.rh, 0).text,
             h.work.held > 0 ? " (beyond the published fit, held at its end)"
                             : "",
             report__number(c->outcome->year.duty.dehumidify, 0).text,
             report__span(r).text, seen);
    return 1;
}

json_t *report__gear_dryer(struct maker *m, size_t i)
{
    const struct dew_dryer *d = &report__choice(m->r, i)->c->plant.dryer;
    const double kg_day = 86400;
    struct here h;
    json_t *o;

    if (!(d->rate > 0))
        return json_null();
    h = dryer_here(report__choice(m->r, i));
    o = OF_REALS(m, {"label_kg_per_day", d->rate * kg_day},
                 {"label_kg_per_kwh", d->factor * CORE__KWH},
                 {"label_c", d->rating_t}, {"label_rh_pct", 100 * d->rating_rh},
                 {"here_kg_per_day", h.work.rate * kg_day},
                 {"here_kg_per_kwh", h.work.rate / h.work.power * CORE__KWH},
                 {"here_c", h.t}, {"here_rh_pct", 100 * h.rh});
    put(m, o, "beyond_the_fit", json_boolean(h.work.held > 0));
    return o;
}

/* ---- what a core's rating leaves open -------------------------------------- */

/* Low, likely and high; where one end leaves nothing open it is the likely. */
struct range {
    const struct dew_case *c[3];
    const struct dew_outcome *o[3];
};

static int core_range(const struct dew_report *r, size_t i, struct range *out)
{
    const struct dew_report_doubt *low = doubt(r, i, DEW_CORE_READ_LOW);
    const struct dew_report_doubt *high = doubt(r, i, DEW_CORE_READ_HIGH);
    const struct dew_choice *c = report__choice(r, i);

    *out = (struct range){
        {low ? low->c : c->c, c->c, high ? high->c : c->c},
        {low ? low->outcome : c->outcome, c->outcome,
         high ? high->outcome : c->outcome},
    };
    return low != NULL || high != NULL;
}

static double sensible(const struct dew_case *c)
{
    return 100 * c->paths[DEW_VENT_ON][0].sensible;
}

static double moisture(const struct dew_case *c)
{
    return 100 * c->paths[DEW_VENT_ON][0].latent;
}

static double energy(const struct dew_outcome *o)
{
    return study__energy(&o->year) / CORE__KWH;
}

static double humid(const struct dew_outcome *o)
{
    return o->year.too_humid;
}

static double dry(const struct dew_outcome *o)
{
    return o->year.too_dry;
}

static int core_body(const struct dew_report *r, size_t i, char *out,
                     size_t size)
{
    struct range x;

    if (!core_range(r, i, &x))
        return 0;
    snprintf(
        out, size,
        "its rating leaves open what the core passes: heat %s to "
        "%s %%, moisture %s to %s %%. Read low it is too humid in %s hours "
        "and too dry in %s, read high in %s and %s; the figures "
        "above take %s %% and %s %%.",
        report__number(sensible(x.c[0]), 0).text,
        report__number(sensible(x.c[2]), 0).text,
        report__number(moisture(x.c[0]), 0).text,
        report__number(moisture(x.c[2]), 0).text,
        report__number(humid(x.o[0]), 0).text,
        report__number(dry(x.o[0]), 0).text,
        report__number(humid(x.o[2]), 0).text,
        report__number(dry(x.o[2]), 0).text,
        report__number(sensible(x.c[1]), 0).text,
        report__number(moisture(x.c[1]), 0).text);
    return 1;
}

static void put_range(struct maker *m, json_t *o, const char *key, double low,
                      double likely, double high)
{
    put(m, o, key,
        OF_REALS(m, {"low", low}, {"likely", likely}, {"high", high}));
}

json_t *report__gear_core(struct maker *m, size_t i)
{
    struct range x;
    json_t *o;

    if (!core_range(m->r, i, &x))
        return json_null();
    o = json_object();
    put_range(m, o, "sensible_pct", sensible(x.c[0]), sensible(x.c[1]),
              sensible(x.c[2]));
    put_range(m, o, "moisture_pct", moisture(x.c[0]), moisture(x.c[1]),
              moisture(x.c[2]));
    put_range(m, o, "too_humid_h", humid(x.o[0]), humid(x.o[1]), humid(x.o[2]));
    put_range(m, o, "too_dry_h", dry(x.o[0]), dry(x.o[1]), dry(x.o[2]));
    put_range(m, o, "energy_kwh", energy(x.o[0]), energy(x.o[1]),
              energy(x.o[2]));
    return o;
}

/* ---- several air handlers --------------------------------------------------- */

/* Both ways, even split first. */
struct ways {
    const struct dew_outcome *even, *lead;
};

static int both_ways(const struct dew_report *r, size_t i, struct ways *out)
{
    const struct dew_report_doubt *d = doubt(r, i, DEW_HANDLERS_OTHER);
    const struct dew_choice *c = report__choice(r, i);

    if (d == NULL)
        return 0;
    *out = c->c->plant.lead_lag ? (struct ways){d->outcome, c->outcome}
                                : (struct ways){c->outcome, d->outcome};
    return 1;
}

static struct report__word gave_back(const struct dew_report *r,
                                     const struct dew_outcome *o)
{
    return report__amount(o->year.water.reevaporation, DEW_WATER, r->system, 0);
}

static int handlers_body(const struct dew_report *r, size_t i, char *out,
                         size_t size)
{
    const struct dew_choice *c = report__choice(r, i);
    struct ways w;

    if (!both_ways(r, i, &w))
        return 0;
    snprintf(
        out, size,
        "one zone cannot know which of its %d air handlers runs. "
        "Both alike, it is too humid in %s hours and the coils put back %s; "
        "one leading, %s hours and %s. The figures above are of %s.",
        c->c->plant.handler_count, report__number(humid(w.even), 0).text,
        gave_back(r, w.even).text, report__number(humid(w.lead), 0).text,
        gave_back(r, w.lead).text,
        c->c->plant.lead_lag ? "one leading" : "both alike");
    return 1;
}

static int handlers_brief(const struct dew_report *r, size_t i, char *out,
                          size_t size)
{
    struct ways w;

    if (!both_ways(r, i, &w))
        return 0;
    snprintf(out, size, "%s (%s) or %s (%s)",
             report__number(humid(w.even), 0).text, gave_back(r, w.even).text,
             report__number(humid(w.lead), 0).text, gave_back(r, w.lead).text);
    return 1;
}

static json_t *one_way(struct maker *m, const struct dew_outcome *o)
{
    return OF_REALS(m, {"too_humid_h", humid(o)}, {"too_dry_h", dry(o)},
                    {"reevaporated_kg", o->year.water.reevaporation},
                    {"put_back_kg", o->year.water.reevaporation}, /* to 0.2 */
                    {"energy_kwh", energy(o)});
}

json_t *report__gear_handlers(struct maker *m, size_t i)
{
    int lead = report__choice(m->r, i)->c->plant.lead_lag;
    struct ways w;
    json_t *o;

    if (!both_ways(m->r, i, &w))
        return json_null();
    o = OF_TEXTS(m, {"run", lead ? "lead_lag" : "even_split"});
    put(m, o, "even_split", one_way(m, w.even));
    put(m, o, "lead_lag", one_way(m, w.lead));
    return o;
}

/* ---- the section ------------------------------------------------------------ */

typedef int body(const struct dew_report *r, size_t i, char *out, size_t size);

/* What is told of each option, and of many: their figures behind one lead. */
static const struct kind {
    body *tell, *brief;
    const char *lead;
} kinds[] = {
    {dryer_body, NULL, NULL},
    {report__gear_frost_body, NULL, NULL},
    {core_body, NULL, NULL},
    {report__gear_coil_body, report__gear_coil_brief, report__gear_coil_lead},
    {handlers_body, handlers_brief,
     "One zone cannot know which of several air handlers runs. Hours too humid, "
     "and the water that the coils put back: both alike, or one leading:"},
};
enum { KINDS = sizeof kinds / sizeof kinds[0], APART = 3 };

/* Options whose text is that of option i, from 0; none when one before it is. */
static uint64_t alike(const struct dew_report *r, size_t i, body *tell,
                      const char *text)
{
    uint64_t mask = 0;
    char other[LINE];

    for (size_t k = 0; k < r->question->count && k < 64; k++) {
        if (!tell(r, k, other, sizeof other) || strcmp(other, text) != 0)
            continue;
        if (k < i)
            return 0;
        mask |= UINT64_C(1) << k;
    }
    return mask;
}

/* The text of option i and whose it is; 0 where one before it has told it. */
static int fresh_text(const struct dew_report *r, size_t i, body *tell,
                      char *text, char *names, size_t size)
{
    uint64_t mask;

    if (!tell(r, i, text, LINE))
        return 0;
    mask = alike(r, i, tell, text);
    report__which(mask, names, size);
    return mask != 0;
}

static void tell_apart(const struct dew_report *r, body *tell,
                       struct report__sheet *s)
{
    char text[LINE], names[320];

    for (size_t i = 0; i < r->question->count; i++)
        if (fresh_text(r, i, tell, text, names, sizeof names))
            report__sheet_note(s, "%s: %s", names, text);
}

static void tell_together(const struct dew_report *r, const struct kind *k,
                          struct report__sheet *s)
{
    char all[LINE] = "", text[LINE], names[320];
    size_t at = 0;

    for (size_t i = 0; i < r->question->count && at < sizeof all; i++)
        if (fresh_text(r, i, k->brief, text, names, sizeof names))
            at += (size_t)snprintf(all + at, sizeof all - at, "%s%s: %s",
                                   at > 0 ? "; " : " ", names, text);
    report__sheet_note(s, "%s%s.", k->lead, all);
}

static int count_apart(const struct dew_report *r, body *tell)
{
    char text[LINE], names[320];
    int count = 0;

    for (size_t i = 0; i < r->question->count; i++)
        count += fresh_text(r, i, tell, text, names, sizeof names);
    return count;
}

int report__sheet_gear(const struct dew_report *r, struct report__sheet *s)
{
    s->id = "gear";
    s->title = "Labels and what they leave open";
    for (int k = 0; k < KINDS; k++)
        if (kinds[k].brief != NULL && count_apart(r, kinds[k].tell) > APART)
            tell_together(r, &kinds[k], s);
        else
            tell_apart(r, kinds[k].tell, s);
    return s->notes > 0;
}
