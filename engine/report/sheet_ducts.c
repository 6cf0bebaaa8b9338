/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each option's ducts do: air delivered, blower, coil, wet places. */
#include <math.h>

#include "report/sheet.h"

static double wettest(const struct dew_tally *y)
{
    return fmax(fmax(y->ducts[DEW_SPOT_intake], y->ducts[DEW_SPOT_exhaust]),
                fmax(y->ducts[DEW_SPOT_trunk], y->ducts[DEW_SPOT_outside]));
}

/* Quiet where nothing is tied in, wet or cold. */
static int has_ducts(const struct dew_report *r, size_t i)
{
    const struct dew_option_facts *facts = r->question->choices[i].facts;
    const struct dew_tally *y = study__year(r->question, i);

    return (facts->core != DEW_CORE_none &&
            facts->layout != DEW_LAYOUT_own_ducts) ||
           wettest(y) > 0 || y->ducts[DEW_SPOT_heater] > 0 ||
           y->water.unplanned != 0 || y->water.ductleak != 0;
}

static struct report__word water(const struct dew_report *r, double kg)
{
    return report__number(report__shown(kg, DEW_WATER, r->system), 0);
}

static void duct_row(const struct dew_report *r, size_t i,
                     struct report__sheet *s)
{
    const struct dew_tally *y = study__year(r->question, i);

    report__sheet_row(
        s, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s", report__numbered(r, i).text,
        report__number(
            report__shown(y->fresh_sum / y->hours, DEW_FLOW, r->system), 0)
            .text,
        report__number(y->fresh_short, 0).text,
        report__number(y->energy.blower / CORE__KWH, 0).text,
        water(r, y->water.reevaporation).text,
        water(r, y->water.unplanned + y->water.ductleak).text,
        report__number(wettest(y), 0).text,
        report__number(y->ducts[DEW_SPOT_heater], 0).text);
}

/* Each wet place by name, where one was. */
static void say_spots(const struct dew_report *r, size_t i,
                      struct report__sheet *s)
{
    const struct dew_tally *y = study__year(r->question, i);

    for (int k = 0; k < DEW_DUCT_SPOTS; k++)
        if (y->ducts[k] >= 0.5)
            report__sheet_note(s, "%.100s: %s, %s hours.",
                               report__option(r, (int)i).text,
                               dew_ducts_spot_text((enum dew_duct_spot)k),
                               report__number(y->ducts[k], 0).text);
}

int report__sheet_ducts(const struct dew_report *r, struct report__sheet *s)
{
    const char *flow = report__unit(DEW_FLOW, r->system)->name;
    const char *mass = report__unit(DEW_WATER, r->system)->name;
    size_t any = 0;

    s->id = "ducts";
    s->title = "What the ducts do with the air";
    for (size_t i = 0; i < r->question->count; i++)
        any += (size_t)has_ducts(r, i);
    if (any == 0)
        return 0;
    report__sheet_columns(
        s,
        "22 option\t6 fresh\t8 short h\t7 blower\t9 put back\t8 unasked\t6 wet h\t7 cold h");
    for (size_t i = 0; i < r->question->count; i++)
        duct_row(r, i, s);
    report__sheet_note(
        s,
        "Fresh: delivered to the rooms, mean of the year, %s. Short: hours "
        "with less than asked for. Blower: kWh. Put back: water that a wet "
        "coil gave back while the blower ran on, %s. Unasked: water by "
        "outdoor air through an idle unit or leaky ducts, less what it took "
        "away, %s. Wet: the duct that sweats longest. Cold: outdoor air "
        "would bring the air at the heater below 60 degF (15.6 degC), a "
        "usual limit of makers.",
        flow, mass, mass);
    for (size_t i = 0; i < r->question->count; i++)
        say_spots(r, i, s);
    return 1;
}
