/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheets about surfaces and windows. */
#include <math.h>
#include <string.h>

#include "dew/surface.h"
#include "dew/wetting.h"
#include "report/sheet.h"

static const struct dew_outcome *outcome(const struct dew_report *r, size_t i)
{
    return r->question->choices[i].outcome;
}

static struct report__word percent(double share)
{
    struct report__word w = report__number(100 * share, 0);

    if (isfinite(share))
        memcpy(w.text + strlen(w.text), " %", sizeof " %");
    return w;
}

/* ---- surfaces ---------------------------------------------------------------- */

static const char *const face_names[DEW_SURFACES] = {"glass", "frame",
                                                     "corner"};

static void surface_row(const struct dew_report *r, size_t i, int f,
                        struct report__sheet *s)
{
    const struct dew_outcome *o = outcome(r, i);
    const struct dew_face *face = &o->faces[f];

    report__sheet_row(s, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s",
                      report__numbered(r, i).text, face_names[f],
                      report__number(o->year.sweat[f], 0).text,
                      report__number(o->year.surface_80[f], 0).text,
                      report__number(face->mean_80, 0).text,
                      report__number(face->mould, 2).text,
                      report__number(face->mould_years, 2).text,
                      report__number(face->mould_1999, 2).text);
}

/* Quiet where nothing was ever damp. */
static int ever_damp(const struct dew_report *r)
{
    for (size_t i = 0; i < r->question->count; i++)
        for (int f = 0; f < DEW_SURFACES; f++)
            if (outcome(r, i)->year.surface_80[f] > 0 ||
                outcome(r, i)->faces[f].mould > 0)
                return 1;
    return 0;
}

int report__sheet_surfaces(const struct dew_report *r, struct report__sheet *s)
{
    s->id = "surfaces";
    s->title = "What the coldest surfaces feel";
    if (!ever_damp(r))
        return 0;
    report__sheet_columns(
        s,
        "26 option\t7 \t6 wet h\t8 >80 %% h\t7 30 d h\t6 mould\t9 10 years\t6 pine");
    for (size_t i = 0; i < r->question->count; i++)
        for (int f = 0; f < DEW_SURFACES; f++)
            surface_row(r, i, f, s);
    report__sheet_note(
        s,
        "30 d: hours in which the mean of the last 30 days was 80 %% humidity or "
        "more at 5 to 40 degC, which must be none (ASHRAE 160, 2009). "
        "Mould: highest index of the year by sensitivity class, of 6; above "
        "3 it fails (ASHRAE 160, 2016; classes and limit from memory); then "
        "after ten such years, and on bare pine (form of 1999) as a check. "
        "Index 1 is seen under a microscope, 3 by eye.");
    return 1;
}

/* ---- windows ----------------------------------------------------------------- */

static struct report__word band_of(const struct dew_report *r,
                                   const struct dew_wet_row *row)
{
    struct report__word w;
    const char *unit = report__unit(DEW_TEMPERATURE, r->system)->name;
    struct report__word high = report__number(
        report__shown(row->t_high, DEW_TEMPERATURE, r->system), 0);
    struct report__word low = report__number(
        report__shown(row->t_low, DEW_TEMPERATURE, r->system), 0);

    if (isfinite(row->t_low))
        snprintf(w.text, sizeof w.text, "%.20s to %.20s %.20s", low.text,
                 high.text, unit);
    else
        snprintf(w.text, sizeof w.text, "below %.20s %.20s", high.text, unit);
    return w;
}

static void window_row(const struct dew_report *r,
                       const struct dew_wet_row *row, struct report__sheet *s)
{
    report__sheet_row(
        s, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s", band_of(r, row).text,
        percent(row->glass).text, percent(row->frame).text,
        percent(row->trade).text, report__number(row->hours, 0).text,
        report__number(row->above_trade, 0).text,
        report__number(row->wet, 0).text,
        report__number(report__shown(row->keeps_dry, DEW_FLOW, r->system), 0)
            .text);
}

static void window_notes(const struct dew_report *r,
                         const struct dew_wet_row *first,
                         struct report__sheet *s)
{
    double factor = r->question->choices[0].c->house.surfaces[DEW_GLASS].factor;
    double u = (1 - factor) / DEW_FILM_GLASS;
    double trade = dew_house_wets_at(dew_house_factor(u, DEW_FILM_TRADE),
                                     DEW_WET_ROOM, first->t);

    report__sheet_note(
        s,
        "Room at 70 degF (21.1 degC), outdoors at the lower end of the "
        "band. The film inside is 0.13 m2K/W (ISO 13788); with the trade's "
        "0.12 the glass of the first row wets at %s %% instead of %s %%.",
        report__number(100 * trade, 0).text,
        report__number(100 * first->glass, 0).text);
    report__sheet_note(
        s, "The trade's ceiling (Minnesota Department of Public Service, "
           "double glazing) lies below the glass's own limit because it minds "
           "frames and edges, which are colder.");
    report__sheet_note(
        s,
        "Air: outdoor air in all (%s) that carries off what the household "
        "sets free before the frame wets, a core that keeps moisture not "
        "counted.",
        report__unit(DEW_FLOW, r->system)->name);
}

int report__sheet_windows(const struct dew_report *r, struct report__sheet *s)
{
    struct dew_wet_row rows[DEW_WET_ROWS];

    s->id = "windows";
    s->title = "Winter windows: humidity at which they wet, house as it stands";
    dew_wetting_of(outcome(r, 0), r->question->choices[0].c, rows);
    report__sheet_columns(
        s,
        "18 outdoors\t7 glass\t7 frame\t7 trade\t7 hours\t12 over trade\t11 wet glass\t8 air");
    for (int i = 0; i < DEW_WET_ROWS; i++)
        if (rows[i].hours > 0)
            window_row(r, &rows[i], s);
    if (s->rows == 0)
        return 0;
    window_notes(r, &rows[0], s);
    return 1;
}
