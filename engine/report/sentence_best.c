/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words: which is best, and what it costs. */
#include <math.h>

#include "report/telling.h"

enum { OPTIONS = 64, NAMED = 4 }; /* named before the rest are counted */

void report__say_names(struct telling *t, const int *options, size_t count)
{
    size_t named = count < NAMED ? count : NAMED;

    for (size_t i = 0; i < named; i++)
        report__say(t, "%s\"%s\"",
                    i == 0                             ? ""
                    : i + 1 == count && count == named ? " and "
                                                       : ", ",
                    report__option(t->r, options[i]).text);
    if (count > named)
        report__say(t, " and %zu more", count - named);
}

/* "$9,200 to install, $607 a year more to run than today, ". */
static void say_price(struct telling *t, int option)
{
    struct dew_bill base = dew_verdict_bill(t->r->question, 0);
    struct dew_bill bill = dew_verdict_bill(t->r->question, (size_t)option);
    double more = bill.yearly.likely - base.yearly.likely;

    if (option == 0)
        return;
    report__say(t, "%s to install, ", MONEY(bill.install.likely));
    if (fabs(more) < 0.5)
        report__say(t, "as much to run as today, ");
    else
        report__say(t, "%s a year %s to run than today, ", MONEY(fabs(more)),
                    more < 0 ? "less" : "more");
}

/* "Best of the 5 options" or, of one, that it will do. */
static void say_lead(struct telling *t)
{
    if (t->r->question->count > 1)
        report__say(t, "Best of the %zu options: \"%s\"", t->r->question->count,
                    OPTION);
    else
        report__say(t, "This will do: \"%s\"", OPTION);
}

/* "enough fresh air (87 cfm)"; nothing in brackets where none is asked for. */
static void say_enough(struct telling *t)
{
    double asked = t->r->question->choices[t->f->option].outcome->required;

    report__say(t, "brings enough fresh air");
    if (asked > 0)
        report__say(t, " (%s)", FLOW(asked));
}

SENTENCE(best)
{
    int alone = n->only && t->r->question->count > 1;

    say_lead(t);
    report__say(t, alone ? ". It alone " : ". It ");
    say_enough(t);
    report__say(
        t, n->only ? " and keeps the limits: " : ", keeps the limits and %s: ",
        isnan(n->money) ? "uses least energy" : "costs least");
    if (!isnan(n->money)) {
        say_price(t, t->f->option);
        report__say(t, "%s over %s years in today's money.", MONEY(n->money),
                    YEARS);
    } else if (!isnan(n->running))
        report__say(
            t,
            "%s a year to run and keep. What it costs to install is not "
            "given (costs.install).",
            MONEY(n->running));
    else
        report__say(t, "%s a year.", ENERGY(n->energy));
}

/* What options are told to differ by: money over the years, or energy. */
static double worth(const struct telling *t, size_t i, int by_money)
{
    return by_money ? dew_verdict_bill(t->r->question, i).present.likely
                    : study__energy(study__year(t->r->question, i));
}

/* All that will do and cost no more than a close call beside the first. */
static size_t close_ones(const struct telling *t, int by_money,
                         int out[OPTIONS])
{
    const struct dew_question *q = t->r->question;
    size_t list[OPTIONS], passing = dew_verdict_passing(q, list), count = 0;

    for (size_t i = 0; i < passing; i++) {
        double it = worth(t, list[i], by_money);

        if (it - worth(t, list[0], by_money) <=
            q->judging.close_share * fabs(it))
            out[count++] = (int)list[i];
    }
    return count;
}

SENTENCE(best_close)
{
    int by_money = !isnan(n->money), list[OPTIONS] = {t->f->option};
    size_t count = close_ones(t, by_money, list);

    if (count < 2) {
        list[0] = t->f->option;
        list[1] = t->f->other;
        count = 2;
    }
    report__say(t, "Best is a close call between ");
    report__say_names(t, list, count);
    report__say(t, ": %s bring enough fresh air and keep the limits, and ",
                count > 2 ? "all" : "both");
    if (by_money)
        report__say(t, "%s against %s over %s years", MONEY(n->money),
                    MONEY(n->next_money), YEARS);
    else
        report__say(t, "%s against %s a year", ENERGY(n->energy),
                    ENERGY(n->next_energy));
    report__say(t, " is less than %s apart, too little to tell.",
                SHARE(t->r->question->judging.close_share));
}

/* Those of the list that have no price to install. */
static void say_without_price(struct telling *t, const size_t *list,
                              size_t count)
{
    int without[OPTIONS];
    size_t wanting = 0;

    for (size_t i = 0; i < count; i++)
        if (isnan(dew_verdict_bill(t->r->question, list[i]).install.likely))
            without[wanting++] = (int)list[i];
    report__say_names(t, without, wanting);
}

SENTENCE(best_open)
{
    const struct dew_question *q = t->r->question;
    size_t list[OPTIONS], count = dew_verdict_passing(q, list);

    (void)n; /* more of them are told */
    report__say(t,
                "%zu options will do: they bring enough fresh air and keep the "
                "limits. The cheapest to run first: ",
                count);
    for (size_t i = 0; i < count && i < NAMED; i++)
        report__say(t, "%s\"%s\" %s a year (%s outside the limits)",
                    i > 0 ? ", " : "", report__option(t->r, (int)list[i]).text,
                    MONEY(dew_verdict_bill(q, list[i]).yearly.likely),
                    HRS(dew_verdict_outside(q, list[i])));
    if (count > NAMED)
        report__say(t, " and %zu more", count - NAMED);
    report__say(t,
                ". Which is best by money cannot be told: no price to install "
                "is given for ");
    say_without_price(t, list, count);
    report__say(t, ". Give what they cost (costs.install; 0 $ where nothing is "
                   "bought).");
}

/* A remedy after ": " or "; ". */
static void say_remedy(struct telling *t, const char **join, const char *what)
{
    report__say(t, "%s%s", *join, what);
    *join = "; ";
}

void report__say_try(struct telling *t, int option)
{
    const struct dew_question *q = t->r->question;
    const struct dew_choice *c = &q->choices[option < 0 ? 0 : option];
    const struct dew_tally *y = &c->outcome->year;
    double allowed = study__allowed(q, c->outcome);
    const char *join = " Try next: ";

    if (option < 0) {
        say_remedy(t, &join, "a larger flow of fresh air (ventilator.flow)");
    } else {
        if (y->too_humid > allowed)
            say_remedy(t, &join,
                       c->c->plant.dryer.rate > 0
                           ? "a larger dehumidifier, or a lower set point"
                           : "the same with a dehumidifier");
        if (y->too_dry > allowed)
            say_remedy(t, &join,
                       c->c->plant.humidifier.rate > 0
                           ? "a larger humidifier"
                           : "a humidifier, a lower flow, or less air in "
                             "winter (control.winter_target)");
        if (y->sweat[DEW_GLASS] > allowed)
            say_remedy(t, &join, "drier air in winter, or warmer glass");
    }
    if (join[0] == ';')
        report__say(t, ".");
}

SENTENCE(best_none)
{
    if (t->f->option == DEW_NO_OPTION)
        report__say(t, "None of these will do: none brings the fresh air "
                       "asked for.");
    else
        report__say(
            t,
            "None of these will do: none both brings the fresh air asked for "
            "and keeps the limits. The nearest is \"%s\": %s too humid, %s "
            "too dry, %s of wet glass.",
            OPTION, HRS(n->humid), HOURS(n->dry), HOURS(n->glass_wet));
    report__say_try(t, t->f->option);
}

SAY(under_ventilated,
    "Too little fresh air: \"%s\" brings %s of the %s asked for.", OPTION,
    FLOW(n->fresh), FLOW(n->required))

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

SENTENCE(never_pays)
{
    if (n->saved < -0.5) {
        report__say_dearer(t, &t->f, 1);
        return;
    }
    report__say(t, "\"%s\" does not pay back", OPTION);
    if (n->saved < 0.5)
        report__say(t, ": it saves nothing.");
    else
        report__say(
            t, " within %s years: it saves %s a year and costs %s to install.",
            YEARS, MONEY(n->saved), MONEY(n->install));
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
            "(%s days): go on if it passes %s in more than %s (%s "
            "expected%s).",
            MONTHS, report__number(n->days, 0).text,
            SHARE(report__limits(t)->too_humid), HRS(n->humid_limit),
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
