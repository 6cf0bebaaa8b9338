/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words: what the options do. */
#include <math.h>

#include "dew/dryer.h"
#include "report/gear.h"
#include "report/telling.h"

void dew__say_air_fixes(struct telling *t)
{
    if (t->f->value[2] > 0)
        dew__say(
            t,
            "Ventilation alone cures the damp and dries the house too far: "
            "with \"%s\" it is too humid in %s h, today in %s h, and too dry in "
            "%s h.",
            OPTION, HOURS(0), HOURS(1), HOURS(2));
    else
        dew__say(
            t,
            "Ventilation alone fixes it: with \"%s\" the house is too humid in "
            "%s h, today in %s h.",
            OPTION, HOURS(0), HOURS(1));
}

void dew__say_coil_option(struct telling *t)
{
    dew__say(t,
             "\"%s\" could be too humid in %s to %s h instead of %s: how much "
             "water the blower takes back from the wet coil is not well known.",
             OPTION, HOURS(1), HOURS(2), HOURS(0));
    if (t->f->value[3] > 0)
        dew__say(t, " Whether it keeps the limits hangs on that.");
}

void dew__say_air_fails(struct telling *t)
{
    if (t->f->option == 0) {
        dew__say(t,
                 "Ventilation alone does not fix it: no option with it alone "
                 "is too humid for fewer hours than today (%s h).",
                 HOURS(0));
        return;
    }
    dew__say(
        t,
        "Ventilation alone does not fix it: \"%s\" is still too humid in %s h "
        "(today %s h)",
        OPTION, HOURS(0), HOURS(1));
    dew__say_most(t);
    dew__say(t, ".");
}

void dew__say_air_worsens(struct telling *t)
{
    double net = t->f->value[0] - t->f->value[1];
    double rest = net - t->f->value[2];

    dew__say(t, "\"%s\" is too humid in %s h, today in %s h: ", OPTION,
             HOURS(0), HOURS(1));
    if (rest <= -0.5)
        dew__say(t, "%s h more in %s, %s h fewer in the other months.",
                 HOURS(2), MONTHS, dew__number(-rest, 0).text);
    else {
        dew__say(t, "%s h more", dew__number(net, 0).text);
        dew__say_most(t);
        dew__say(t, ".");
    }
}

void dew__say_dryer_not_needed(struct telling *t)
{
    dew__say(
        t,
        "A dehumidifier is not needed: \"%s\" has none and is too humid in %s "
        "h.",
        OPTION, HOURS(0));
}

void dew__say_dryer_needed(struct telling *t)
{
    dew__say(t, "A dehumidifier is needed: \"%s\" is too humid in %s h; ",
             OPTION, HOURS(0));
    if (isnan(t->f->value[1]))
        dew__say(t, "no option without one brings the fresh air asked for.");
    else
        dew__say(t, "the best that brings enough air without one, in %s h.",
                 HOURS(1));
}

void dew__say_dryer_alone(struct telling *t)
{
    dew__say(
        t,
        "A dehumidifier does not replace fresh air: \"%s\" is too humid in %s "
        "h but brings %s of the %s asked for.",
        OPTION, HOURS(0), FLOW(1), FLOW(2));
}

void dew__say_dryer_instead(struct telling *t)
{
    dew__say(
        t,
        "A dehumidifier instead of ventilation keeps the humidity: \"%s\" is "
        "too humid in %s h, for %s a year. Fresh air is no part of that.",
        OPTION, HOURS(0), ENERGY(1));
}

static struct dew__word pints(const struct telling *t, double rate)
{
    const struct dew_unit *u = dew_unit_find("pint/day", 8, DEW_WATER_RATE);
    struct dew__word w, n;

    if (t->r->system != DEW_SYSTEM_US || u == NULL)
        return dew__amount(rate, DEW_WATER_RATE, t->r->system, 1);
    n = dew__number(rate / u->factor, 0);
    snprintf(w.text, sizeof w.text, "%.40s pints/day", n.text);
    return w;
}

void dew__say_dryer_size(struct telling *t)
{
    const double *x = t->f->value;
    struct dew__word seen;

    dew__say(t, "The dehumidifier of \"%s\", ", OPTION);
    if (dew__gear_seen(t->r, (size_t)t->f->option, &seen))
        dew__say(t, "seen to take out %s,", seen.text);
    else
        dew__say(t, "%s on its label,", pints(t, x[0]).text);
    dew__say(
        t, " takes out %s in this house's own air; its busiest day asks for %s",
        pints(t, x[1]).text, pints(t, x[2]).text);
    dew__say(t, x[2] > 0.95 * x[1]   ? ", all it can"
                : x[2] < 0.33 * x[1] ? ", so a smaller one would do"
                                     : "");
    dew__say(t, ". It runs %s h and uses %s a year.", HOURS(4), ENERGY(3));
}

static struct dew__word air_of(const struct telling *t,
                               enum dew_dryer_test test)
{
    return dew__amount(dew_plant_dryer_test_t(test), DEW_TEMPERATURE,
                       t->r->system, 0);
}

void dew__say_dryer_label(struct telling *t)
{
    const double *x = t->f->value;

    dew__say(
        t,
        "Is the label of the dehumidifier of \"%s\" older than June 2019? "
        "Its %s is taken as of today's test, at %s; an old label is of %s, "
        "and its machine takes out only %s at %s. Look, and say "
        "dehumidifier.rating.",
        OPTION, pints(t, x[0]).text, air_of(t, DEW_TEST_PORTABLE).text,
        air_of(t, DEW_TEST_OLD).text, pints(t, x[1]).text,
        air_of(t, DEW_TEST_PORTABLE).text);
}

void dew__say_dryer_short(struct telling *t)
{
    dew__say(
        t,
        "\"%s\" has a dehumidifier and is still too humid in %s h: a larger "
        "one or a lower set point is worth trying.",
        OPTION, HOURS(0));
}

void dew__say_dryer_untried(struct telling *t)
{
    dew__say(
        t,
        "No option tries a dehumidifier; the best with enough air is too humid "
        "in %s h without one.",
        HOURS(0));
}

void dew__say_least_humid(struct telling *t)
{
    double more = t->f->value[2] - 1;

    if (t->f->option == 0) {
        dew__say(t,
                 "No option with enough fresh air is too humid for fewer hours "
                 "than today (%s h).",
                 HOURS(0));
        return;
    }
    dew__say(t, "Fewest hours too humid with enough fresh air: \"%s\"", OPTION);
    if (more > 0)
        dew__say(t, " and %s more alike", dew__number(more, 0).text);
    dew__say(t, ", %s h (today %s h).", HOURS(0), HOURS(1));
}

static void say_both_cores(struct telling *t)
{
    dew__say(
        t,
        "Which core: \"%s\" (heat only) is too humid in %s h and too dry in %s "
        "h, \"%s\" (heat and moisture) in %s h and %s h: ",
        OPTION, HOURS(0), HOURS(1), OTHER, HOURS(2), HOURS(3));
}

void dew__say_core_heat(struct telling *t)
{
    say_both_cores(t);
    dew__say(t, "the heat-only core suits this house better.");
}

void dew__say_core_enthalpy(struct telling *t)
{
    say_both_cores(t);
    dew__say(t, "the core that passes moisture suits this house better.");
}

void dew__say_core_close(struct telling *t)
{
    say_both_cores(t);
    dew__say(t, "a close call, inside the doubt of the inputs.");
}

void dew__say_grows_dry(struct telling *t)
{
    dew__say(t, "\"%s\" dries the house too far: too dry in %s h (today %s h)",
             OPTION, HOURS(0), HOURS(1));
    dew__say_most(t);
    dew__say(t, ".");
}

void dew__say_wetter_untried(struct telling *t)
{
    dew__say(
        t,
        "No option tries a humidifier, or less fresh air while it is cold "
        "(control.winter_target): with enough air the least dry is \"%s\", too "
        "dry in %s h.",
        OPTION, HOURS(0));
}

void dew__say_blower_cost(struct telling *t)
{
    dew__say(
        t,
        "\"%s\" leans on the blower: %s a year more for the blower, beside %s "
        "for the ventilator's own fans",
        OPTION, ENERGY(0), ENERGY(1));
    if (t->f->value[2] > 1)
        dew__say(t, ", and the coil puts %s more water back",
                 dew__amount(t->f->value[2], DEW_WATER, t->r->system, 0).text);
    dew__say(t, ".");
}

/* What speaks against a tie-in, in its order; parted by commas. */
static void say_tie_faults(struct telling *t)
{
    unsigned why = (unsigned)t->f->value[0];
    const char *join = ": ";

    if (why & (DEW_TIE_SHORT | DEW_TIE_AIR)) {
        dew__say(t, "%sof the %s it draws in, %s reach the rooms%s", join,
                 FLOW(4), FLOW(5),
                 why & DEW_TIE_AIR ? ", less than asked for" : "");
        join = "; ";
    }
    if (why & DEW_TIE_HUMID) {
        dew__say(t, "%s%s h more too humid", join, HOURS(1));
        join = "; ";
    }
    if (why & DEW_TIE_WET) {
        dew__say(t, "%sits supply trunk is wet in %s h", join, HOURS(6));
        join = "; ";
    }
    if (why & DEW_TIE_BLOWER) {
        dew__say(t, "%s%s a year more for the blower", join, ENERGY(2));
        join = "; ";
    }
    if (why & DEW_TIE_PUTBACK)
        dew__say(t, "%sthe coil puts %s more water back", join,
                 dew__amount(t->f->value[3], DEW_WATER, t->r->system, 0).text);
}

void dew__say_tie_fine(struct telling *t)
{
    dew__say(t, "The tie-in of \"%s\" keeps up with the own ducts of \"%s\"",
             OPTION, OTHER);
    if (t->f->value[0] > 0)
        dew__say(t, ", at a price");
    say_tie_faults(t);
    dew__say(t, ".");
}

void dew__say_tie_harmful(struct telling *t)
{
    dew__say(t, "The tie-in of \"%s\" does harm", OPTION);
    if (t->f->other != DEW_NO_OPTION)
        dew__say(t, " beside the own ducts of \"%s\"", OTHER);
    say_tie_faults(t);
    dew__say(t, ".");
}
