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

/* In how many of the houses drawn; of those where none will do. */
static void say_best_in(struct telling *t)
{
    const struct dew_draws *d = t->r->question->draws;
    size_t none = d != NULL ? dew_draws_none(d) : 0;

    if (d == NULL || t->f->drawn == 0)
        return;
    report__say(t, " It is the best in %s like yours%s",
                report__houses(t->f->so, t->f->drawn).text,
                report__interval(t->f->so, t->f->drawn).text);
    if (none > 0)
        report__say(t, "; in %s no option will do",
                    report__of_100(none, d->count).text);
    report__say(t, ".");
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
    say_best_in(t);
}

/* What is best in so many of the houses drawn that it is no sure second. */
static size_t rivals(const struct telling *t, int out[OPTIONS])
{
    const struct dew_question *q = t->r->question;
    size_t count = 0;

    out[count++] = t->f->option;
    if (q->draws == NULL) {
        out[count++] = t->f->other;
        return count;
    }
    for (size_t i = 0; i < q->count && count < OPTIONS; i++) {
        double share = (double)dew_draws_shares(q->draws, i).best /
                       (double)q->draws->count;

        if ((int)i != t->f->option && share >= 1 - q->judging.sure_share - 1e-9)
            out[count++] = (int)i;
    }
    return count;
}

SENTENCE(best_close)
{
    const struct dew_draws *d = t->r->question->draws;
    int list[OPTIONS];
    size_t count = rivals(t, list);

    report__say(t, "Best is a close call between ");
    report__say_names(t, list, count);
    report__say(t, ". As you told the house it is \"%s\"", OPTION);
    if (isnan(n->money))
        report__say(t, " (%s a year)", ENERGY(n->energy));
    else
        report__say(t, " (%s over %s years)", MONEY(n->money), YEARS);
    report__say(t, d != NULL ? "; of 100 houses like it " : ".");
    for (size_t i = 0; d != NULL && i < count && i < NAMED; i++) {
        size_t best = dew_draws_shares(d, (size_t)list[i]).best;

        report__say(t, "%s\"%s\" is the best in %s", i > 0 ? ", " : "",
                    report__option(t->r, list[i]).text,
                    report__of_100(best, d->count).text);
    }
    if (d != NULL)
        report__say(t, ".");
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

/* What would do in some of the houses drawn. */
static void say_none_in(struct telling *t)
{
    const struct dew_draws *d = t->r->question->draws;
    size_t best;

    if (d == NULL || t->f->drawn == 0)
        return;
    report__say(t, " So it is in %s like yours%s",
                report__houses(t->f->so, t->f->drawn).text,
                report__interval(t->f->so, t->f->drawn).text);
    best = dew_draws_best(d);
    if (t->f->so < t->f->drawn)
        report__say(
            t, "; in the others \"%s\" is most often the best, in %s",
            report__option(t->r, (int)best).text,
            report__of_100(dew_draws_shares(d, best).best, d->count).text);
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
    say_none_in(t);
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
