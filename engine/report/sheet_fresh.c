/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fresh air by the rules, local exhaust, and what people breathe out. */
#include <math.h>
#include <string.h>

#include "dew/fresh.h"
#include "dew/sources.h"
#include "report/sheet.h"

static struct report__word flow(const struct dew_report *r, double x)
{
    return report__number(report__shown(x, DEW_FLOW, r->system), 0);
}

/* ---- where outdoor air comes in ---------------------------------------------- */

static void air_row(const struct dew_report *r, size_t i,
                    struct report__sheet *s)
{
    struct dew_fresh_air a = dew_verdict_air(r->question, i);
    double asked = r->question->choices[i].outcome->required;

    report__sheet_row(s, "%s\t%s\t%s\t%s\t%s\t%s", report__numbered(r, i).text,
                      flow(r, a.rooms).text, flow(r, a.drawn).text,
                      flow(r, a.leaks).text, flow(r, a.counted).text,
                      flow(r, asked > 0 ? asked : NAN).text);
}

int report__sheet_air(const struct dew_report *r, struct report__sheet *s)
{
    s->id = "air";
    s->title = "Where outdoor air comes in, and what of it counts";
    report__sheet_columns(
        s,
        "26 option\t10 to rooms\t10 drawn in\t11 all leaks\t8 counts\t11 asked for");
    for (size_t i = 0; i < r->question->count; i++)
        air_row(r, i, s);
    report__sheet_note(
        s,
        "Means of the %s, %s. To rooms: by the ventilator. Drawn in: by an "
        "exhaust fan alone, through leaks. All leaks: everything that comes "
        "through them. What counts is the first two, less where pauses are "
        "long; a ventilator that draws air through leaks because it is out of "
        "balance gets nothing for it.",
        report__span(r).text, report__unit(DEW_FLOW, r->system)->name);
    return 1;
}

/* The option that rules are held to is the one to look at, or the last. */
static size_t shown(const struct dew_report *r)
{
    return report__picked(r) >= 0 ? (size_t)report__picked(r)
                                  : r->question->count - 1;
}

static void rate_row(const struct dew_report *r, enum dew_rate_rule rule,
                     struct report__sheet *s)
{
    struct dew_dwelling home = dew_fresh_dwelling(r->question);
    double asked = dew_house_rate(rule, &home);
    const char *words =
        dew_house_rate_words(rule); /* "ASHRAE 62.2, ...: ..." */

    if (!isnan(asked))
        report__sheet_row(
            s, "%.*s\t%s\t%s\t%s", (int)strcspn(words, ":"), words,
            flow(r, asked).text,
            report__number(dew_fresh_hours_below(r->question, 0, asked), 0)
                .text,
            report__number(dew_fresh_hours_below(r->question, shown(r), asked),
                           0)
                .text);
}

static void credit_note(const struct dew_report *r, struct report__sheet *s)
{
    double storeys = r->question->choices[0].facts->storeys;
    struct dew_fresh_credit c =
        dew_fresh_credit_of(r->question, storeys >= 1 ? storeys : 1);
    const char *unit = report__unit(DEW_FLOW, r->system)->name;

    report__sheet_note(
        s,
        "No rule above counts leaks. ASHRAE 62.2 (2016 form) would credit %s "
        "to %s %s of them, by the place's weather factor of 0.37 to 1.0 (from "
        "memory); this year they let in %s %s on the mean. If the middle "
        "of that credit may be counted, the fan could be %s %s by the edition "
        "of 2013 (%s "
        "in a new house), and by that of 2016 %s (%s if it only blows in or "
        "only draws out).",
        flow(r, c.low).text, flow(r, c.high).text, unit, flow(r, c.model).text,
        unit, flow(r, c.left_2013).text, unit, flow(r, c.left_2013_new).text,
        flow(r, c.left_2016).text, flow(r, c.left_2016_one_sided).text);
}

int report__sheet_rates(const struct dew_report *r, struct report__sheet *s)
{
    s->id = "rates";
    s->title = "Fresh air by the rules, and hours below each";
    report__sheet_columns(
        s, "48 rule and edition\t7 %s\t12 option 1 h\t12 option %zu h",
        report__unit(DEW_FLOW, r->system)->name, shown(r) + 1);
    for (int rule = 0; rule < DEW_RATE_RULES; rule++)
        rate_row(r, (enum dew_rate_rule)rule, s);
    if (s->rows == 0)
        return 0;
    credit_note(r, s);
    return 1;
}

/* ---- local exhaust --------------------------------------------------------------- */

static struct report__word continuous(const struct dew_report *r,
                                      const struct dew_fresh_local *l)
{
    struct report__word w = flow(r, l->continuous);

    if (!isnan(l->changes))
        snprintf(w.text, sizeof w.text, "%.20s room volumes/h",
                 report__number(l->changes, 0).text);
    return w;
}

/* The rule by its name. */
static const char *rule_name(const char *key)
{
    static const char *const names[][2] = {
        {"62.2", "ASHRAE 62.2"},
        {"irc", "IRC model code"},
        {"irc-2021-wa", "IRC 2021, Washington State"},
        {"adf-2021", "England, Document F 2021"},
    };

    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strcmp(key, names[i][0]) == 0)
            return names[i][1];
    return key;
}

int report__sheet_local(const struct dew_report *r, struct report__sheet *s)
{
    struct dew_fresh_local list[DEW_FRESH_LOCALS];
    size_t count = dew_fresh_locals(r->question, shown(r), list);

    s->id = "local";
    s->title = "Local exhaust by the rules";
    report__sheet_columns(
        s, "28 rule\t9 room\t13 when needed\t18 all the time\t10 fan here");
    for (size_t i = 0; i < count; i++)
        report__sheet_row(
            s, "%s\t%s\t%s\t%s\t%s", rule_name(list[i].rule),
            list[i].room == DEW_KITCHEN ? "kitchen" : "bath",
            flow(r, list[i].needed).text, continuous(r, &list[i]).text,
            list[i].here > 0 ? flow(r, list[i].here).text : "not given");
    report__sheet_note(s,
                       "%s; where a rule has two figures (with or without a "
                       "hood, gas or electric) the larger.",
                       report__unit(DEW_FLOW, r->system)->name);
    return count > 0;
}

/* ---- people ---------------------------------------------------------------------- */

int report__sheet_people(const struct dew_report *r, struct report__sheet *s)
{
    const struct dew_people *p = &r->question->choices[0].c->house.people;
    double co2 = dew_fresh_co2(r->question);

    s->id = "people";
    s->title = "What people give off";
    report__sheet_columns(
        s,
        "20 each grown person\t11 water g/h\t7 from\t6 to\t8 heat W\t9 CO2 L/s");
    for (int a = 0; a < DEW_ACTIVITIES; a++) {
        const struct dew_body *b = dew_house_body((enum dew_activity)a);

        report__sheet_row(
            s, "%s\t%s\t%s\t%s\t%s\t%s", b->name,
            report__number(1000 * b->water, 0).text,
            report__number(1000 * b->low, 0).text,
            report__number(1000 * b->high, 0).text,
            report__number(b->sensible, 0).text,
            report__number(1000 * dew_house_co2_adult(b->met), 4).text);
    }
    if (p->count > 0 && isfinite(co2))
        report__sheet_note(
            s,
            "%s people at home for long, in the fresh air asked for and evenly "
            "mixed: %s ppm of CO2. A bedroom with its door shut has less air "
            "and more.",
            report__number(p->count, p->count == floor(p->count) ? 0 : 1).text,
            report__number(co2, 0).text);
    return 1;
}
