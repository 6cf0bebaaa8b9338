/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words: which is best, and what it costs. */
#include <math.h>

#include "report/telling.h"

void dew__say_best(struct telling *t)
{
    enum { ENERGY_USED, OVER_YEARS, TO_RUN }; /* values of value[2] */
    int only = t->f->value[3] > 0, by = (int)t->f->value[2];

    if (only)
        dew__say(
            t,
            "Best of these: \"%s\". It alone brings the fresh air asked for "
            "and keeps the limits: ",
            OPTION);
    else
        dew__say(
            t,
            "Best of these: \"%s\". It brings the fresh air asked for, keeps "
            "the limits and %s: ",
            OPTION, by == OVER_YEARS ? "costs least" : "uses least energy");
    if (by == OVER_YEARS)
        dew__say(t, "%s over %s years, in today's money.",
                 MONEY(t->f->value[0]), YEARS);
    else if (by == TO_RUN)
        dew__say(t,
                 "%s a year to run and keep. What it costs to install is not "
                 "told (costs.install).",
                 MONEY(t->f->value[0]));
    else
        dew__say(t, "%s a year.", ENERGY(0));
}

void dew__say_best_close(struct telling *t)
{
    dew__say(
        t,
        "Best is a close call between \"%s\" and \"%s\": both bring the fresh "
        "air asked for and keep the limits, and ",
        OPTION, OTHER);
    if (t->f->value[2] > 0)
        dew__say(t, "%s against %s over %s years", MONEY(t->f->value[0]),
                 MONEY(t->f->value[1]), YEARS);
    else
        dew__say(t, "%s against %s a year", ENERGY(0), ENERGY(1));
    dew__say(t, " is inside the doubt of the inputs.");
}

/* Options told by name before the rest are counted. */
enum { NAMED = 4 };

/* "a", "a and 2 more": those of the list that have no price to install. */
static void say_without_price(struct telling *t, const size_t *list,
                              size_t count)
{
    const struct dew_question *q = t->r->question;
    size_t named = 0, more = 0;

    for (size_t i = 0; i < count; i++) {
        if (!isnan(dew_verdict_bill(q, list[i]).install.likely))
            continue;
        if (named == NAMED) {
            more++;
            continue;
        }
        dew__say(t, "%s\"%s\"", named++ > 0 ? ", " : "",
                 dew__option(t->r, (int)list[i]).text);
    }
    if (more > 0)
        dew__say(t, " and %zu more", more);
}

void dew__say_best_open(struct telling *t)
{
    const struct dew_question *q = t->r->question;
    size_t list[64], count = dew_verdict_passing(q, list);

    dew__say(t,
             "%zu options will do: they bring the fresh air asked for and "
             "keep the limits. The cheapest to run first: ",
             count);
    for (size_t i = 0; i < count && i < NAMED; i++)
        dew__say(t, "%s\"%s\" %s a year (%s h outside the limits)",
                 i > 0 ? ", " : "", dew__option(t->r, (int)list[i]).text,
                 MONEY(dew_verdict_bill(q, list[i]).yearly.likely),
                 dew__number(dew_verdict_outside(q, list[i]), 0).text);
    if (count > NAMED)
        dew__say(t, " and %zu more", count - NAMED);
    dew__say(t, ". Which is best by money cannot be told: no price to install "
                "is given for ");
    say_without_price(t, list, count);
    dew__say(t, ". Give what they cost (costs.install; 0 $ where nothing is "
                "bought).");
}

void dew__say_best_none(struct telling *t)
{
    if (t->f->option == DEW_NO_OPTION)
        dew__say(t,
                 "None of these will do: none brings the fresh air asked for.");
    else
        dew__say(
            t,
            "None of these will do: none both brings the fresh air asked for "
            "and keeps the limits. The nearest is \"%s\": %s h too humid, %s h "
            "too dry, %s h of wet glass.",
            OPTION, HOURS(0), HOURS(1), HOURS(2));
}

void dew__say_under_ventilated(struct telling *t)
{
    dew__say(t, "UNDER-VENTILATED: \"%s\" brings %s of the %s asked for.",
             OPTION, FLOW(0), FLOW(1));
}

void dew__say_pays_back(struct telling *t)
{
    dew__say(t, "\"%s\" pays for itself in %s years", OPTION,
             dew__number(t->f->value[0], 1).text);
    if (t->f->value[2] > t->f->value[1])
        dew__say(t,
                 isinf(t->f->value[2]) ? " (%s or more; at worst never%s)"
                                       : " (%s to %s)",
                 dew__number(t->f->value[1], 1).text,
                 isinf(t->f->value[2]) ? ""
                                       : dew__number(t->f->value[2], 1).text);
    dew__say(t, ".");
}

/* What is bought instead, as far as the tallies show it. */
static void say_what_it_buys(struct telling *t)
{
    const struct dew_choice *c = t->r->question->choices;
    const struct dew_tally *base = &c[0].outcome->year;
    const struct dew_tally *y = &c[t->f->option].outcome->year;
    int air = dew_verdict_fresh(t->r->question, (size_t)t->f->option) >
              dew_verdict_fresh(t->r->question, 0);
    double allowed = t->r->question->judging.kept_share * y->hours;
    int dry = y->too_humid < base->too_humid && y->too_dry <= allowed;

    if (air || dry)
        dew__say(t, " It buys %s%s%s.", air ? "air" : "",
                 air && dry ? " and " : "", dry ? "dryness" : "");
}

void dew__say_never_pays(struct telling *t)
{
    double saved = t->f->value[0];

    dew__say(t, "\"%s\" does not pay back on energy", OPTION);
    if (fabs(saved) < 0.5)
        dew__say(t, ": it saves nothing.");
    else if (saved > 0)
        dew__say(
            t, " within %s years: it saves %s a year and costs %s to install.",
            YEARS, MONEY(saved), MONEY(t->f->value[1]));
    else
        dew__say(t, ": it costs %s a year more to run.", MONEY(-saved));
    say_what_it_buys(t);
}

void dew__say_staged(struct telling *t)
{
    const double *x = t->f->value;
    struct dew__word chance, even;

    dew__say(
        t,
        "In two stages: \"%s\" now for %s, and \"%s\" later for %s if it must "
        "follow (%s likely): %s expected over %s years, against %s for \"%s\" "
        "at once",
        OPTION, MONEY(x[0]), OTHER, MONEY(x[1]), dew__in_percent(x[2], &chance),
        MONEY(x[3]), YEARS, MONEY(x[4]), OTHER);
    if (x[5] >= 1)
        dew__say(t, ". The stages cost less even if both are needed.");
    else if (x[5] <= 0)
        dew__say(t, ". The stages cost more whether or not both are needed.");
    else
        dew__say(t, ". They cost the same at a chance of %s.",
                 dew__in_percent(x[5], &even));
}

void dew__say_reading(struct telling *t)
{
    const double *x = t->f->value;
    struct dew__word limit;

    dew__say(t, "The reading that decides on \"%s\": ", OTHER);
    if (x[0] == DEW_READING_humidity)
        dew__say(
            t,
            "relative humidity where people sleep, hour by hour through %s "
            "(%s days): go on if it passes %s in more than %s h (%s h "
            "expected%s).",
            MONTHS, HOURS(1),
            dew__in_percent(dew__limits(t)->too_humid, &limit), HOURS(2),
            HOURS(3), x[3] > x[2] ? ", so it is likely" : "");
    else if (x[0] == DEW_READING_air_flow)
        dew__say(
            t,
            "the sum of the supply grilles, blower on and blower off, on one "
            "day: go on if either is below %s (%s expected%s).",
            FLOW(2), FLOW(3), x[3] < x[2] ? ", so it is likely" : "");
    else
        dew__say(
            t,
            "carbon dioxide where people sleep, %s nights with the door shut: "
            "go on if it passes %s ppm by morning (%s ppm is the mean of the "
            "year and the whole house).",
            HOURS(1), HOURS(2), HOURS(3));
}

void dew__say_unpriced(struct telling *t)
{
    dew__say(t,
             "Not every price is given: options are ranked by the energy they "
             "use, and no payback is told.");
}
