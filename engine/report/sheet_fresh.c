/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fresh air by the rules, local exhaust, and what people breathe out. */
#include <math.h>
#include <string.h>

#include "dew/fresh.h"
#include "dew/sources.h"
#include "report/sheet.h"

static struct dew__word flow(const struct dew_report *r, double x)
{
    return dew__number(dew__shown(x, DEW_FLOW, r->system), 0);
}

/* "ASHRAE 62.2, 2013 and later" of the rule's words, up to the colon. */
static struct dew__word rule_name(enum dew_rate_rule rule)
{
    struct dew__word w = dew__words(dew_house_rate_words(rule));

    w.text[strcspn(w.text, ":")] = '\0';
    return w;
}

/* ---- where outdoor air comes in ---------------------------------------------- */

static void air_row(const struct dew_report *r, size_t i, struct dew__sheet *s)
{
    struct dew_fresh_air a = dew_verdict_air(r->question, i);
    double asked = r->question->choices[i].outcome->required;
    struct dew__word *cell = dew__sheet_row(s);

    if (cell == NULL)
        return;
    snprintf(cell[0].text, sizeof cell[0].text, "%zu %.100s", i + 1,
             dew__option(r, (int)i).text);
    cell[1] = flow(r, a.rooms);
    cell[2] = flow(r, a.drawn);
    cell[3] = flow(r, a.leaks);
    cell[4] = flow(r, a.counted);
    cell[5] = flow(r, asked > 0 ? asked : NAN);
}

int dew__sheet_air(const struct dew_report *r, struct dew__sheet *s)
{
    s->id = "air";
    s->title = "Where outdoor air comes in, and what of it counts";
    dew__sheet_column(s, "option", 26);
    dew__sheet_column(s, "to rooms", 10);
    dew__sheet_column(s, "drawn in", 10);
    dew__sheet_column(s, "all leaks", 11);
    dew__sheet_column(s, "counts", 8);
    dew__sheet_column(s, "asked for", 11);
    for (size_t i = 0; i < r->question->count; i++)
        air_row(r, i, s);
    dew__sheet_note(
        s,
        "Means of the %s, %s. To rooms: by the ventilator. Drawn in: by an "
        "exhaust fan alone, through leaks. All leaks: everything that comes "
        "through them. What counts is the first two, less where pauses are "
        "long; a ventilator that draws air through leaks because it is out of "
        "balance gets nothing for it.",
        dew__span(r).text, dew__unit(DEW_FLOW, r->system)->name);
    return 1;
}

/* The option that rules are held to is the one to look at, or the last. */
static size_t shown(const struct dew_report *r)
{
    return dew__picked(r) >= 0 ? (size_t)dew__picked(r)
                               : r->question->count - 1;
}

static void rate_row(const struct dew_report *r, enum dew_rate_rule rule,
                     struct dew__sheet *s)
{
    struct dew_dwelling home = dew_fresh_dwelling(r->question);
    double asked = dew_house_rate(rule, &home);
    struct dew__word *cell;

    if (isnan(asked))
        return;
    cell = dew__sheet_row(s);
    cell[0] = rule_name(rule);
    cell[1] = flow(r, asked);
    cell[2] = dew__number(dew_fresh_hours_below(r->question, 0, asked), 0);
    cell[3] =
        dew__number(dew_fresh_hours_below(r->question, shown(r), asked), 0);
}

static void credit_note(const struct dew_report *r, struct dew__sheet *s)
{
    double storeys = r->question->choices[0].facts->storeys;
    struct dew_fresh_credit c =
        dew_fresh_credit_of(r->question, storeys >= 1 ? storeys : 1);
    const char *unit = dew__unit(DEW_FLOW, r->system)->name;

    dew__sheet_note(
        s,
        "No rule above counts leaks. ASHRAE 62.2 (2016 form) would credit %s "
        "to %s %s of them, by the place's weather factor of 0.37 to 1.0 (from "
        "memory); this year they let in %s %s on the mean. With the middle "
        "of that credit its fan would be left %s %s by the edition of 2013 (%s "
        "in a new house), and by that of 2016 %s balanced and %s one-sided.",
        flow(r, c.low).text, flow(r, c.high).text, unit, flow(r, c.model).text,
        unit, flow(r, c.left_2013).text, unit, flow(r, c.left_2013_new).text,
        flow(r, c.left_2016).text, flow(r, c.left_2016_one_sided).text);
}

int dew__sheet_rates(const struct dew_report *r, struct dew__sheet *s)
{
    char head[2][24];

    s->id = "rates";
    s->title = "Fresh air by the rules, and hours below each";
    snprintf(head[0], sizeof head[0], "option 1 h");
    snprintf(head[1], sizeof head[1], "option %zu h", shown(r) + 1);
    dew__sheet_column(s, "rule and edition", 48);
    dew__sheet_column(s, dew__unit(DEW_FLOW, r->system)->name, 7);
    dew__sheet_column(s, head[0], 12);
    dew__sheet_column(s, head[1], 12);
    for (int rule = 0; rule < DEW_RATE_RULES; rule++)
        rate_row(r, (enum dew_rate_rule)rule, s);
    if (s->rows == 0)
        return 0;
    credit_note(r, s);
    return 1;
}

/* ---- local exhaust --------------------------------------------------------------- */

static struct dew__word continuous(const struct dew_report *r,
                                   const struct dew_fresh_local *l)
{
    struct dew__word w = flow(r, l->continuous);

    if (!isnan(l->changes))
        snprintf(w.text, sizeof w.text, "%.20s/h of the room",
                 dew__number(l->changes, 0).text);
    return w;
}

int dew__sheet_local(const struct dew_report *r, struct dew__sheet *s)
{
    struct dew_fresh_local list[DEW_FRESH_LOCALS];
    size_t count = dew_fresh_locals(r->question, shown(r), list);

    s->id = "local";
    s->title = "Local exhaust by the rules";
    dew__sheet_column(s, "rule", 16);
    dew__sheet_column(s, "room", 9);
    dew__sheet_column(s, "when needed", 13);
    dew__sheet_column(s, "all the time", 18);
    dew__sheet_column(s, "fan here", 10);
    for (size_t i = 0; i < count; i++) {
        struct dew__word *cell = dew__sheet_row(s);

        cell[0] = dew__words(list[i].rule);
        cell[1] = dew__words(list[i].room == DEW_KITCHEN ? "kitchen" : "bath");
        cell[2] = flow(r, list[i].needed);
        cell[3] = continuous(r, &list[i]);
        cell[4] =
            list[i].here > 0 ? flow(r, list[i].here) : dew__words("none told");
    }
    dew__sheet_note(s,
                    "%s; where a rule has two figures (with or without a "
                    "hood, gas or electric) the larger.",
                    dew__unit(DEW_FLOW, r->system)->name);
    return count > 0;
}

/* ---- people ---------------------------------------------------------------------- */

int dew__sheet_people(const struct dew_report *r, struct dew__sheet *s)
{
    const struct dew_people *p = &r->question->choices[0].c->house.people;
    double co2 = dew_fresh_co2(r->question);

    s->id = "people";
    s->title = "What people give off";
    dew__sheet_column(s, "each grown person", 20);
    dew__sheet_column(s, "water g/h", 11);
    dew__sheet_column(s, "from", 7);
    dew__sheet_column(s, "to", 6);
    dew__sheet_column(s, "heat W", 8);
    dew__sheet_column(s, "CO2 L/s", 9);
    for (int a = 0; a < DEW_ACTIVITIES; a++) {
        const struct dew_body *b = dew_house_body((enum dew_activity)a);
        struct dew__word *cell = dew__sheet_row(s);

        cell[0] = dew__words(b->name);
        cell[1] = dew__number(1000 * b->water, 0);
        cell[2] = dew__number(1000 * b->low, 0);
        cell[3] = dew__number(1000 * b->high, 0);
        cell[4] = dew__number(b->sensible, 0);
        cell[5] = dew__number(1000 * dew_house_co2_adult(b->met), 4);
    }
    if (p->count > 0 && isfinite(co2))
        dew__sheet_note(
            s,
            "%s people at home for long, in the fresh air asked for and evenly "
            "mixed: %s ppm of CO2. A bedroom with its door shut has less air "
            "and more.",
            dew__number(p->count, p->count == floor(p->count) ? 0 : 1).text,
            dew__number(co2, 0).text);
    return 1;
}
