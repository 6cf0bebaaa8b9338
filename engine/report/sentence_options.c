/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words: what the options do. */
#include <math.h>

#include "dew/dryer.h"
#include "report/gear.h"
#include "report/telling.h"

SENTENCE(air_fixes)
{
    if (!isnan(n->dry))
        report__say(
            t,
            "Ventilation alone cures the damp but dries too far: with \"%s\" "
            "the house is too humid in %s, today in %s, and too dry in %s.",
            OPTION, HRS(n->humid), HOURS(n->today), HRS(n->dry));
    else
        report__say(
            t,
            "Ventilation alone cures the damp: with \"%s\" the house is too "
            "humid in %s, today in %s.",
            OPTION, HRS(n->humid), HOURS(n->today));
}

SAY_AS(coil_option, coil_today,
       "\"%s\" could be too humid in %s to %s instead of %s: how much water "
       "the blower takes back from the wet coil is not well known.%s",
       OPTION, HOURS(n->low), HRS(n->high), HOURS(n->likely),
       n->decides ? " Whether it keeps the limits hangs on that." : "")

SENTENCE(air_fails)
{
    if (t->f->option == 0)
        report__say(
            t,
            "Ventilation alone does not cure the damp: no option with it "
            "alone is too humid for fewer hours than today (%s).",
            HOURS(n->humid));
    else
        report__say(
            t,
            "Ventilation alone does not cure the damp: with \"%s\" the house "
            "is still too humid in %s%s (today %s)%s.",
            OPTION, HRS(n->humid), BY_3(t->f->option), HOURS(n->today), MOST);
}

SENTENCE(air_worsens)
{
    double net = n->humid - n->today;
    double rest = net - n->added;

    report__say(t, "\"%s\" is too humid in %s, today in %s: ", OPTION,
                HRS(n->humid), HOURS(n->today));
    if (rest <= -0.5)
        report__say(t, "%s more in %s, %s fewer in the other months.",
                    HOURS(n->added), MONTHS, HOURS(-rest));
    else
        report__say(t, "%s more%s.", HOURS(net), MOST);
}

SAY(dryer_not_needed,
    "A dehumidifier is not needed to stay below %s: \"%s\" has none and is "
    "too humid in %s.",
    SHARE(report__limits(t)->too_humid), OPTION, HRS(n->humid))

SENTENCE(dryer_needed)
{
    report__say(t,
                "A dehumidifier is needed to stay below %s: \"%s\" is too "
                "humid in %s; ",
                SHARE(report__limits(t)->too_humid), OPTION, HRS(n->humid));
    if (isnan(n->humid_without))
        report__say(t, "no option without one brings the fresh air asked for.");
    else
        report__say(t, "the best that brings enough air without one, in %s.",
                    HOURS(n->humid_without));
}

SAY(dryer_alone,
    "A dehumidifier does not replace fresh air: \"%s\" is too humid in %s "
    "but brings %s of the %s asked for.",
    OPTION, HRS(n->humid), FLOW(n->fresh), FLOW(n->required))

SAY(dryer_instead,
    "A dehumidifier instead of ventilation keeps the humidity: \"%s\" is "
    "too humid in %s, for %s a year. Fresh air is no part of that.",
    OPTION, HRS(n->humid), ENERGY(n->energy))

static struct report__word pints(const struct telling *t, double rate)
{
    const struct dew_unit *u = dew_unit_find("pint/day", 8, DEW_WATER_RATE);
    struct report__word w, n;

    if (t->r->system != DEW_SYSTEM_US || u == NULL)
        return report__amount(rate, DEW_WATER_RATE, t->r->system, 1);
    n = report__number(rate / u->factor, 0);
    snprintf(w.text, sizeof w.text, "%.40s pints/day", n.text);
    return w;
}

SENTENCE(dryer_size)
{
    struct report__word seen;
    int small = n->busiest < 0.5 * n->here;

    report__say(t, small ? "A smaller dehumidifier would do: in" : "In");
    report__say(t, " this house's air that of \"%s\" (", OPTION);
    if (report__gear_seen(t->r, (size_t)t->f->option, &seen))
        report__say(t, "seen to take out %s)", seen.text);
    else
        report__say(t, "%s on its label)", pints(t, n->label).text);
    report__say(t, " could take out %s, and the wettest day needs %s",
                pints(t, n->here).text, pints(t, n->busiest).text);
    report__say(t, n->busiest > 0.95 * n->here ? ", all it can" : "");
    report__say(t, ". It runs %s and uses %s a year.", HRS(n->runs),
                ENERGY(n->energy));
}

static struct report__word air_of(const struct telling *t,
                                  enum dew_dryer_test test)
{
    return report__amount(dew_plant_dryer_test_t(test), DEW_TEMPERATURE,
                          t->r->system, 0);
}

SAY(dryer_label,
    "Is the label of the dehumidifier of \"%s\" older than June 2019? "
    "Its %s is taken as of today's test, at %s; an old label is of %s, "
    "and its machine takes out only %s at %s. Look, and say "
    "dehumidifier.rating.",
    OPTION, pints(t, n->label).text, air_of(t, DEW_TEST_PORTABLE).text,
    air_of(t, DEW_TEST_OLD).text, pints(t, n->if_old).text,
    air_of(t, DEW_TEST_PORTABLE).text)

SAY(dryer_short,
    "\"%s\" has a dehumidifier and is still too humid in %s: a larger one "
    "or a lower set point is worth trying.",
    OPTION, HRS(n->humid))

SAY(dryer_untried,
    "No option tries a dehumidifier; the best with enough air is too humid "
    "in %s without one.",
    HRS(n->humid_without))

/* All that bring enough fresh air and are too humid in just so many hours. */
static void say_alike(struct telling *t, double humid)
{
    const struct dew_question *q = t->r->question;
    int list[64] = {t->f->option};
    size_t count = 1;

    for (size_t i = 0; i < q->count; i++)
        if ((int)i != t->f->option && dew_verdict_ventilates(q, i) &&
            study__year(q, i)->too_humid == humid)
            list[count++] = (int)i;
    report__say_names(t, list, count);
}

SENTENCE(least_humid)
{
    if (t->f->option == 0) {
        report__say(
            t,
            "No option with enough fresh air is too humid for fewer hours "
            "than today (%s).",
            HOURS(n->humid));
        return;
    }
    report__say(t, "Fewest hours too humid with enough fresh air: ");
    say_alike(t, n->humid);
    report__say(t, ", %s (today %s).", HRS(n->humid), HOURS(n->today));
}

static void say_cores(struct telling *t, const char *answer,
                      const struct dew_numbers_core_heat *n)
{
    report__say(t,
                "%s: %s too humid with \"%s\" (heat and moisture), %s with "
                "\"%s\" (heat only); ",
                answer, HRS(n->enthalpy_humid), OTHER, HOURS(n->heat_humid),
                OPTION);
    if (n->heat_dry < 0.5 && n->enthalpy_dry < 0.5)
        report__say(t, "neither gets too dry.");
    else
        report__say(t, "too dry in %s and %s.", HRS(n->enthalpy_dry),
                    HOURS(n->heat_dry));
}

#define CORES(kind, answer)                                                    \
    SENTENCE_AS(kind, core_heat)                                               \
    {                                                                          \
        say_cores(t, answer, n);                                               \
    }
CORES(core_heat, "Choose a heat-only core")
CORES(core_enthalpy, "Choose a core that passes moisture")
CORES(core_close, "Either core will do, they are too close to tell")

SAY(grows_dry, "\"%s\" dries the house too far: too dry in %s (today %s)%s.",
    OPTION, HRS(n->dry), HOURS(n->today), MOST)

SAY(wetter_untried,
    "No option tries a humidifier, or less fresh air while it is cold "
    "(control.winter_target): with enough air the least dry is \"%s\", too "
    "dry in %s.",
    OPTION, HRS(n->dry))

SENTENCE(blower_cost)
{
    report__say(
        t,
        "\"%s\" has the air handler's blower run for the fresh air too: %s a "
        "year more than today, beside %s for the ventilator's own fans",
        OPTION, ENERGY(n->blower), ENERGY(n->own_fans));
    if (n->reevaporation > 1)
        report__say(
            t,
            ", and it blows %s more water a year from the wet cooling coil "
            "back into the rooms",
            report__amount(n->reevaporation, DEW_WATER, t->r->system, 0).text);
    report__say(t, ".");
}

void report__say_tie_faults(struct telling *t, const char *join,
                            const struct dew_numbers_tie_fine *n)
{
    if (n->short_circuits || n->lacks_air) {
        report__say(t, "%sof the %s it draws in, %s reach the rooms%s", join,
                    FLOW(n->drawn), FLOW(n->reaching),
                    n->lacks_air ? ", less than asked for" : "");
        join = "; ";
    }
    if (n->damper) {
        report__say(t, "%s%s more too humid", join, HRS(n->humid_more));
        join = "; ";
    }
    if (n->wet) {
        report__say(t, "%sits supply trunk is wet in %s", join,
                    HRS(n->trunk_wet));
        join = "; ";
    }
    if (n->dear) {
        report__say(t, "%s%s a year more for the blower", join,
                    ENERGY(n->blower_more));
        join = "; ";
    }
    if (n->puts_back)
        report__say(
            t, "%sthe coil puts %s more water back", join,
            report__amount(n->putback_more, DEW_WATER, t->r->system, 0).text);
}

SENTENCE(tie_fine)
{
    report__say(t, "\"%s\" does as well as the own ducts of \"%s\"", OPTION,
                OTHER);
    if (n->dear || n->puts_back)
        report__say(t, ", at a price");
    report__say_tie_faults(t, ": ", n);
    report__say(t, ".");
}

SENTENCE_AS(tie_harmful, tie_fine)
{
    report__say(t, "The tie-in of \"%s\" does harm", OPTION);
    if (t->f->other != DEW_NO_OPTION)
        report__say(t, " beside the own ducts of \"%s\"", OTHER);
    report__say_tie_faults(t, ": ", n);
    report__say(t, ".");
}
