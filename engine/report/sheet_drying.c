/* SPDX-License-Identifier: GPL-3.0-or-later */
/* New-house water: options with and without it, and why drying is slow. */
#include <math.h>

#include "dew/air.h"
#include "dew/drying.h"
#include "dew/wetting.h"
#include "report/sheet.h"

static struct report__word span(const struct dew_estimate *hours)
{
    const double month = 8760.0 / 12;
    struct report__word w;

    snprintf(w.text, sizeof w.text, "%.20s (%.20s to %.20s)",
             report__number(hours->likely / month, 0).text,
             report__number(hours->low / month, 0).text,
             report__number(hours->high / month, 0).text);
    return w;
}

static struct dew_drying drying_of(const struct dew_choice *c)
{
    const struct dew_drying_ask ask = {c->outcome, c->settled,
                                       &c->c->house.water[DEW_SOURCE_drying],
                                       c->facts->half_life};

    return dew_drying_of(&ask);
}

static void drying_row(const struct dew_report *r, size_t i,
                       struct report__sheet *s)
{
    const struct dew_choice *c = &r->question->choices[i];
    struct dew_drying d = drying_of(c);

    report__sheet_row(
        s, "%s\t%s\t%s\t%s\t%s\t%s\t%s", report__numbered(r, i).text,
        report__number(c->outcome->year.too_humid, 0).text,
        report__number(c->settled->year.too_humid, 0).text,
        report__number(c->outcome->year.too_dry, 0).text,
        report__number(c->settled->year.too_dry, 0).text,
        report__number(100 * d.more, 1).text, span(&d.agree).text);
}

static struct report__word water(const struct dew_report *r, double kg)
{
    const struct dew_unit *u = r->system == DEW_SYSTEM_US
                                   ? dew_unit_find("lb", 2, DEW_WATER)
                                   : report__unit(DEW_WATER, r->system);
    struct report__word w, n = report__number(kg / u->factor, 1);

    snprintf(w.text, sizeof w.text, "%.40s %.20s", n.text, u->name);
    return w;
}

/* From 60 to 50 % at 75 degF, the owners' own example; 5 g/kg outdoors. */
static void slow_drying(const struct dew_report *r, struct report__sheet *s)
{
    const struct dew_choice *c = &r->question->choices[0];
    const struct dew_falling_ask ask = {
        .t = 43.0 / 1.8,
        .from = 0.60,
        .to = 0.50,
        .flow = c->outcome->required > 0 ? c->outcome->required : 0.040,
        .w_out = 0.005};
    struct dew_falling f = dew_drying_falling(c->c, &ask);

    report__sheet_note(
        s,
        "Why a house dries slowly: from 60 to 50 %% at 75 degF (23.9 degC) its "
        "air gives up %s, the surfaces of furnishings and fabric %s, what lies "
        "deeper %s. With %s of outdoor air at 5 g/kg the air alone would take "
        "%s hours, all of it %s at the least. A slow fall is the contents "
        "drying, not a ventilator that fails.",
        water(r, f.air).text, water(r, f.day).text, water(r, f.deep).text,
        report__amount(ask.flow, DEW_FLOW, r->system, 0).text,
        report__number(f.hours[0], 1).text, report__number(f.hours[1], 0).text);
}

static void drying_notes(const struct dew_report *r, struct report__sheet *s)
{
    struct dew_drying d = drying_of(&r->question->choices[0]);

    report__sheet_note(
        s,
        "Building materials give off %s in this year and still hold %s at "
        "its end. Agree: months from the start of the year until they make "
        "less than 1 point of humidity over a week, likely (low to high by the "
        "half-life's doubt); 0: an option that controls its humidity hides "
        "them.",
        water(r, d.given_off).text, water(r, d.left).text);
}

int report__sheet_drying(const struct dew_report *r, struct report__sheet *s)
{
    s->id = "drying";
    s->title = "New-house water, and how fast a house dries";
    report__sheet_columns(
        s,
        "24 option\t8 humid h\t10 once dry\t10 too dry h\t9 once dry\t5 RH +\t14 agree");
    for (size_t i = 0; i < r->question->count; i++)
        if (r->question->choices[i].settled != NULL)
            drying_row(r, i, s);
    if (s->rows > 0)
        drying_notes(r, s);
    slow_drying(r, s);
    return 1;
}
