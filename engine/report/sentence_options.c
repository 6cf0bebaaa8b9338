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
            "Ventilation alone cures the damp and dries the house too far: "
            "with \"%s\" it is too humid in %s h, today in %s h, and too dry in "
            "%s h.",
            OPTION, HOURS(n->humid), HOURS(n->today), HOURS(n->dry));
    else
        report__say(
            t,
            "Ventilation alone fixes it: with \"%s\" the house is too humid in "
            "%s h, today in %s h.",
            OPTION, HOURS(n->humid), HOURS(n->today));
}

SAY_AS(coil_option, coil_today,
       "\"%s\" could be too humid in %s to %s h instead of %s: how much water "
       "the blower takes back from the wet coil is not well known.%s",
       OPTION, HOURS(n->low), HOURS(n->high), HOURS(n->likely),
       n->decides ? " Whether it keeps the limits hangs on that." : "")

SENTENCE(air_fails)
{
    if (t->f->option == 0)
        report__say(
            t,
            "Ventilation alone does not fix it: no option with it alone "
            "is too humid for fewer hours than today (%s h).",
            HOURS(n->humid));
    else
        report__say(
            t,
            "Ventilation alone does not fix it: \"%s\" is still too humid "
            "in %s h (today %s h)%s.",
            OPTION, HOURS(n->humid), HOURS(n->today), MOST);
}

SENTENCE(air_worsens)
{
    double net = n->humid - n->today;
    double rest = net - n->added;

    report__say(t, "\"%s\" is too humid in %s h, today in %s h: ", OPTION,
                HOURS(n->humid), HOURS(n->today));
    if (rest <= -0.5)
        report__say(t, "%s h more in %s, %s h fewer in the other months.",
                    HOURS(n->added), MONTHS, HOURS(-rest));
    else
        report__say(t, "%s h more%s.", HOURS(net), MOST);
}

SAY(dryer_not_needed,
    "A dehumidifier is not needed: \"%s\" has none and is too humid in %s "
    "h.",
    OPTION, HOURS(n->humid))

SENTENCE(dryer_needed)
{
    report__say(t, "A dehumidifier is needed: \"%s\" is too humid in %s h; ",
                OPTION, HOURS(n->humid));
    if (isnan(n->humid_without))
        report__say(t, "no option without one brings the fresh air asked for.");
    else
        report__say(t, "the best that brings enough air without one, in %s h.",
                    HOURS(n->humid_without));
}

SAY(dryer_alone,
    "A dehumidifier does not replace fresh air: \"%s\" is too humid in %s "
    "h but brings %s of the %s asked for.",
    OPTION, HOURS(n->humid), FLOW(n->fresh), FLOW(n->required))

SAY(dryer_instead,
    "A dehumidifier instead of ventilation keeps the humidity: \"%s\" is "
    "too humid in %s h, for %s a year. Fresh air is no part of that.",
    OPTION, HOURS(n->humid), ENERGY(n->energy))

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

    report__say(t, "The dehumidifier of \"%s\", ", OPTION);
    if (report__gear_seen(t->r, (size_t)t->f->option, &seen))
        report__say(t, "seen to take out %s,", seen.text);
    else
        report__say(t, "%s on its label,", pints(t, n->label).text);
    report__say(
        t, " takes out %s in this house's own air; its busiest day asks for %s",
        pints(t, n->here).text, pints(t, n->busiest).text);
    report__say(t, n->busiest > 0.95 * n->here   ? ", all it can"
                   : n->busiest < 0.33 * n->here ? ", so a smaller one would do"
                                                 : "");
    report__say(t, ". It runs %s h and uses %s a year.", HOURS(n->runs),
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
    "\"%s\" has a dehumidifier and is still too humid in %s h: a larger "
    "one or a lower set point is worth trying.",
    OPTION, HOURS(n->humid))

SAY(dryer_untried,
    "No option tries a dehumidifier; the best with enough air is too humid "
    "in %s h without one.",
    HOURS(n->humid_without))

SENTENCE(least_humid)
{
    double more = n->alike - 1;

    if (t->f->option == 0) {
        report__say(
            t,
            "No option with enough fresh air is too humid for fewer hours "
            "than today (%s h).",
            HOURS(n->humid));
        return;
    }
    report__say(t, "Fewest hours too humid with enough fresh air: \"%s\"",
                OPTION);
    if (more > 0)
        report__say(t, " and %s more alike", report__number(more, 0).text);
    report__say(t, ", %s h (today %s h).", HOURS(n->humid), HOURS(n->today));
}

#define CORES(kind, answer)                                                    \
    SAY_AS(kind, core_heat,                                                    \
           "Which core: \"%s\" (heat only) is too humid in %s h and too dry "  \
           "in %s h, \"%s\" (heat and moisture) in %s h and %s h: " answer,    \
           OPTION, HOURS(n->heat_humid), HOURS(n->heat_dry), OTHER,            \
           HOURS(n->enthalpy_humid), HOURS(n->enthalpy_dry))
CORES(core_heat, "the heat-only core suits this house better.")
CORES(core_enthalpy, "the core that passes moisture suits this house better.")
CORES(core_close, "a close call, inside the doubt of the inputs.")

SAY(grows_dry,
    "\"%s\" dries the house too far: too dry in %s h (today %s h)%s.", OPTION,
    HOURS(n->dry), HOURS(n->today), MOST)

SAY(wetter_untried,
    "No option tries a humidifier, or less fresh air while it is cold "
    "(control.winter_target): with enough air the least dry is \"%s\", too "
    "dry in %s h.",
    OPTION, HOURS(n->dry))

SENTENCE(blower_cost)
{
    report__say(
        t,
        "\"%s\" leans on the blower: %s a year more for the blower, beside %s "
        "for the ventilator's own fans",
        OPTION, ENERGY(n->blower), ENERGY(n->own_fans));
    if (n->reevaporation > 1)
        report__say(
            t, ", and the coil puts %s more water back",
            report__amount(n->reevaporation, DEW_WATER, t->r->system, 0).text);
    report__say(t, ".");
}

/* What speaks against a tie-in, in its order; parted by commas. */
static void say_tie_faults(struct telling *t,
                           const struct dew_numbers_tie_fine *n)
{
    const char *join = ": ";

    if (n->short_circuits || n->lacks_air) {
        report__say(t, "%sof the %s it draws in, %s reach the rooms%s", join,
                    FLOW(n->drawn), FLOW(n->reaching),
                    n->lacks_air ? ", less than asked for" : "");
        join = "; ";
    }
    if (n->damper) {
        report__say(t, "%s%s h more too humid", join, HOURS(n->humid_more));
        join = "; ";
    }
    if (n->wet) {
        report__say(t, "%sits supply trunk is wet in %s h", join,
                    HOURS(n->trunk_wet));
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
    report__say(t, "The tie-in of \"%s\" keeps up with the own ducts of \"%s\"",
                OPTION, OTHER);
    if (n->dear || n->puts_back)
        report__say(t, ", at a price");
    say_tie_faults(t, n);
    report__say(t, ".");
}

SENTENCE_AS(tie_harmful, tie_fine)
{
    report__say(t, "The tie-in of \"%s\" does harm", OPTION);
    if (t->f->other != DEW_NO_OPTION)
        report__say(t, " beside the own ducts of \"%s\"", OTHER);
    say_tie_faults(t, n);
    report__say(t, ".");
}
