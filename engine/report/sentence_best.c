/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words: which is best, and what it costs. */
#include <math.h>

#include "report/telling.h"

SENTENCE(best)
{
    if (n->only)
        report__say(
            t,
            "Best of these: \"%s\". It alone brings the fresh air asked for "
            "and keeps the limits: ",
            OPTION);
    else
        report__say(
            t,
            "Best of these: \"%s\". It brings the fresh air asked for, keeps "
            "the limits and %s: ",
            OPTION, isnan(n->money) ? "uses least energy" : "costs least");
    if (!isnan(n->money))
        report__say(t, "%s over %s years, in today's money.", MONEY(n->money),
                    YEARS);
    else if (!isnan(n->running))
        report__say(
            t,
            "%s a year to run and keep. What it costs to install is not "
            "told (costs.install).",
            MONEY(n->running));
    else
        report__say(t, "%s a year.", ENERGY(n->energy));
}

SENTENCE(best_close)
{
    report__say(
        t,
        "Best is a close call between \"%s\" and \"%s\": both bring the fresh "
        "air asked for and keep the limits, and ",
        OPTION, OTHER);
    if (!isnan(n->money))
        report__say(t, "%s against %s over %s years", MONEY(n->money),
                    MONEY(n->next_money), YEARS);
    else
        report__say(t, "%s against %s a year", ENERGY(n->energy),
                    ENERGY(n->next_energy));
    report__say(t, " is inside the doubt of the inputs.");
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
        report__say(t, "%s\"%s\"", named++ > 0 ? ", " : "",
                    report__option(t->r, (int)list[i]).text);
    }
    if (more > 0)
        report__say(t, " and %zu more", more);
}

SENTENCE(best_open)
{
    const struct dew_question *q = t->r->question;
    size_t list[64], count = dew_verdict_passing(q, list);

    (void)n; /* more of them are told */
    report__say(t,
                "%zu options will do: they bring the fresh air asked for and "
                "keep the limits. The cheapest to run first: ",
                count);
    for (size_t i = 0; i < count && i < NAMED; i++)
        report__say(t, "%s\"%s\" %s a year (%s h outside the limits)",
                    i > 0 ? ", " : "", report__option(t->r, (int)list[i]).text,
                    MONEY(dew_verdict_bill(q, list[i]).yearly.likely),
                    report__number(dew_verdict_outside(q, list[i]), 0).text);
    if (count > NAMED)
        report__say(t, " and %zu more", count - NAMED);
    report__say(t,
                ". Which is best by money cannot be told: no price to install "
                "is given for ");
    say_without_price(t, list, count);
    report__say(t, ". Give what they cost (costs.install; 0 $ where nothing is "
                   "bought).");
}

SENTENCE(best_none)
{
    if (t->f->option == DEW_NO_OPTION)
        report__say(
            t, "None of these will do: none brings the fresh air asked for.");
    else
        report__say(
            t,
            "None of these will do: none both brings the fresh air asked for "
            "and keeps the limits. The nearest is \"%s\": %s h too humid, %s h "
            "too dry, %s h of wet glass.",
            OPTION, HOURS(n->humid), HOURS(n->dry), HOURS(n->glass_wet));
}

SAY(under_ventilated, "UNDER-VENTILATED: \"%s\" brings %s of the %s asked for.",
    OPTION, FLOW(n->fresh), FLOW(n->required))

SENTENCE(pays_back)
{
    report__say(t, "\"%s\" pays for itself in %s years", OPTION,
                report__number(n->likely, 1).text);
    if (n->high > n->low)
        report__say(t,
                    isinf(n->high) ? " (%s or more; at worst never%s)"
                                   : " (%s to %s)",
                    report__number(n->low, 1).text,
                    isinf(n->high) ? "" : report__number(n->high, 1).text);
    report__say(t, ".");
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
        report__say(t, " It buys %s%s%s.", air ? "air" : "",
                    air && dry ? " and " : "", dry ? "dryness" : "");
}

SENTENCE(never_pays)
{
    report__say(t, "\"%s\" does not pay back on energy", OPTION);
    if (fabs(n->saved) < 0.5)
        report__say(t, ": it saves nothing.");
    else if (n->saved > 0)
        report__say(
            t, " within %s years: it saves %s a year and costs %s to install.",
            YEARS, MONEY(n->saved), MONEY(n->install));
    else
        report__say(t, ": it costs %s a year more to run.", MONEY(-n->saved));
    say_what_it_buys(t);
}

SENTENCE(staged)
{
    report__say(
        t,
        "In two stages: \"%s\" now for %s, and \"%s\" later for %s if it must "
        "follow (%s likely): %s expected over %s years, against %s for \"%s\" "
        "at once",
        OPTION, MONEY(n->now), OTHER, MONEY(n->later), SHARE(n->chance),
        MONEY(n->both), YEARS, MONEY(n->at_once), OTHER);
    if (n->even_chance >= 1)
        report__say(t, ". The stages cost less even if both are needed.");
    else if (n->even_chance <= 0)
        report__say(t,
                    ". The stages cost more whether or not both are needed.");
    else
        report__say(t, ". They cost the same at a chance of %s.",
                    SHARE(n->even_chance));
}

SENTENCE(reading)
{
    report__say(t, "The reading that decides on \"%s\": ", OTHER);
    if (n->what == DEW_READING_humidity)
        report__say(
            t,
            "relative humidity where people sleep, hour by hour through %s "
            "(%s days): go on if it passes %s in more than %s h (%s h "
            "expected%s).",
            MONTHS, report__number(n->days, 0).text,
            SHARE(report__limits(t)->too_humid), HOURS(n->humid_limit),
            HOURS(n->humid),
            n->humid > n->humid_limit ? ", so it is likely" : "");
    else if (n->what == DEW_READING_air_flow)
        report__say(
            t,
            "the sum of the supply grilles, blower on and blower off, on one "
            "day: go on if either is below %s (%s expected%s).",
            FLOW(n->air_limit), FLOW(n->air),
            n->air < n->air_limit ? ", so it is likely" : "");
    else
        report__say(
            t,
            "carbon dioxide where people sleep, %s nights with the door shut: "
            "go on if it passes %s ppm by morning (%s ppm is the mean of the "
            "year and the whole house).",
            report__number(n->days, 0).text,
            report__number(n->co2_limit, 0).text,
            report__number(n->co2, 0).text);
}

SAY_AS(unpriced, none,
       "Not every price is given: options are ranked by the energy they "
       "use, and no payback is told.")
