/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The contractor's sheet: what to fit, how much air where, and blanks for
   what was measured. */
#include <math.h>
#include <string.h>

#include "report/ducts.h"
#include "report/markup.h"
#include "report/words.h"
#include "sheets/hand.h"

/* ---- what to fit ------------------------------------------------------------------- */

/* Every blower off, and every one of count at full: see layout.h. */
static int blowers_full(int count)
{
    int state = 0;

    for (int i = 0; i < count; i++)
        state = 3 * state + 2;
    return state;
}

static struct report__word runs(const struct dew_case *c)
{
    const struct dew_control *k = &c->plant.control;
    double hours = 0;
    struct report__word w;

    for (int h = 0; h < 24; h++)
        hours += (5 * k->on_weekday[h] + 2 * k->on_weekend[h]) / 7;
    if (hours > 23.99)
        snprintf(w.text, sizeof w.text, "always on");
    else
        snprintf(w.text, sizeof w.text, "%.20s h a day",
                 report__number(hours, 1).text);
    return w;
}

static const char *frost_words(enum dew_frost strategy)
{
    static const char *const words[] = {
        "none", "recirculates while it defrosts",
        "supply stops while it defrosts", "preheats the air from outdoors"};

    return words[strategy];
}

static void controls(const struct dew_report *r, const struct dew_case *c,
                     FILE *out)
{
    const struct dew_control *k = &c->plant.control;

    report__html_row(out, "runs|%s", runs(c).text);
    if (k->boost_rh > 0)
        report__html_row(out, "boost|above %s %% RH",
                         report__number(100 * k->boost_rh, 0).text);
    if (k->lockout_w > 0)
        report__html_row(
            out, "held low on humid days|%s",
            report__hand_input(r, report__hand_option(r), "control.lockout")
                .text);
    if (c->plant.frost.strategy != DEW_FROST_NONE)
        report__html_row(out, "frost|%s", frost_words(c->plant.frost.strategy));
}

static void drier(const struct dew_report *r, const struct dew_case *c,
                  FILE *out)
{
    const struct dew_dryer *d = &c->plant.dryer;

    if (d->rate > 0)
        report__html_row(
            out, "dehumidifier|%s as labelled, set to %s %% RH",
            report__hand_input(r, report__hand_option(r), "dehumidifier.rate")
                .text,
            report__number(100 * d->set, 0).text);
}

static struct report__word flow(const struct dew_report *r, double si)
{
    return report__amount(si, DEW_FLOW, r->system, 0);
}

/* To a tenth of a litre a second: nearer than anyone measures. */
static int alike(double a, double b)
{
    return fabs(a - b) < 1e-4;
}

static void hood_row(const struct dew_report *r, const char *name,
                     const struct dew_path *path, FILE *out)
{
    report__html_row(out, "%s|%s in, %s out", name, flow(r, path->supply).text,
                     flow(r, path->exhaust).text);
}

static void air_rows(const struct dew_report *r, const struct dew_case *c,
                     FILE *out)
{
    const struct dew_path *off = &c->paths[DEW_VENT_ON][0];
    const struct dew_path *on =
        &c->paths[DEW_VENT_ON][blowers_full(c->plant.handler_count)];
    double asked =
        r->question->choices[report__hand_option(r)].outcome->required;

    if (asked > 0)
        report__html_row(out, "fresh air asked for|%s", flow(r, asked).text);
    hood_row(r, "at the hoods, blower off", off, out);
    if (!alike(off->supply, on->supply) || !alike(off->exhaust, on->exhaust))
        hood_row(r, "at the hoods, blower on", on, out);
    report__html_row(out, "fresh air to the rooms|%s, blower off; %s, on",
                     flow(r, off->fresh).text, flow(r, on->fresh).text);
    report__html_row(out, "fans draw|%s W", report__number(off->fan_w, 0).text);
}

static void what_to_fit(const struct dew_report *r, FILE *out)
{
    const struct dew_choice *c = &r->question->choices[report__hand_option(r)];
    const struct dew_option_facts *f = c->facts;

    fputs("<h2>What to fit</h2>\n<div class=\"two\"><table "
          "class=\"dense pairs\"><tbody>\n",
          out);
    report__html_row(out, "ventilator|%s", dew_core_text(f->core));
    if (f->core != DEW_CORE_none) {
        report__html_row(out, "ducts|%s", dew_layout_text(f->layout));
        controls(r, c->c, out);
    }
    drier(r, c->c, out);
    fputs("</tbody></table><table class=\"dense pairs\"><tbody>\n", out);
    if (f->core != DEW_CORE_none)
        air_rows(r, c->c, out);
    if (f->core != DEW_CORE_none && f->layout != DEW_LAYOUT_own_ducts) {
        report__html_row(out, "motorised damper|%s",
                         dew_answer_text(f->damper));
        report__html_row(out, "blower interlocked|%s",
                         dew_answer_text(f->interlock));
    }
    fputs("</tbody></table></div>\n", out);
}

/* ---- air by room -------------------------------------------------------------------- */

/* One line to set: its name, and its flow in m3/s. */
struct line {
    const char *name;
    double flow;
};

enum { LINES = DEW_DUCT_GRILLES + 1 };

struct lines {
    struct line list[LINES];
    size_t count;
    double sum; /* m3/s  at the hood                                       */
};

static void add(struct lines *l, const char *name, double flow)
{
    if (l->count < LINES && flow > 0)
        l->list[l->count++] = (struct line){name, flow};
}

/* As `dewledger ducts` has them: the same layout, the same targets. */
static void from_layout(const struct report__told *t, int fresh,
                        struct lines *l)
{
    struct report__point points[REPORT__POINTS_MOST];
    size_t n = report__commissioning_points(t, points);

    for (size_t i = 0; i < n; i++) {
        const struct report__point *p = &points[i];

        if (strcmp(p->what, fresh ? "fresh in" : "stale out") == 0)
            l->sum = p->off;
        if (strcmp(p->what, fresh ? "fresh" : "stale") == 0)
            add(l, p->name, p->off);
    }
}

/* Where no layout is there: a fan of one side has no ducts to draw. */
static void from_rooms(const struct dew_choice *c, int fresh, struct lines *l)
{
    const struct dew_path *on = &c->c->paths[DEW_VENT_ON][0];
    struct dew_duct_room rooms[DEW_DUCT_GRILLES];
    size_t n = dew_ducts_rooms(c->c->house.bedrooms, rooms);
    enum dew_layout tie = c->facts->layout;
    double parts = 0;

    l->sum = fresh ? on->supply : on->exhaust;
    if (fresh ? tie != DEW_LAYOUT_own_ducts
              : tie == DEW_LAYOUT_return_tie ||
                    tie == DEW_LAYOUT_return_to_supply)
        return;
    for (size_t i = 0; i < n; i++)
        parts += fresh ? rooms[i].fresh : rooms[i].stale;
    for (size_t i = 0; i < n; i++)
        add(l, rooms[i].name,
            l->sum * (fresh ? rooms[i].fresh : rooms[i].stale) / parts);
}

static struct lines lines_of(const struct dew_report *r, int fresh)
{
    size_t option = report__hand_option(r);
    const struct dew_choice *c = &r->question->choices[option];
    const struct report__told *t = report__told_of(r->ducts, c->outcome->name);
    struct lines l = {.count = 0, .sum = 0};

    if (t != NULL)
        from_layout(t, fresh, &l);
    else
        from_rooms(c, fresh, &l);
    return l;
}

/* What a room is asked to get, and a tenth of it to either side. */
static const double TENTH = 0.1;

static void asked_row(const struct dew_report *r, const char *name, double si,
                      FILE *out)
{
    report__html(out,
                 "<tr><th scope=\"row\">%s</th><td class=\"n\">%s</td><td "
                 "class=\"n\">%s to %s</td><td class=\"fill\"></td><td "
                 "class=\"fill\"></td></tr>\n",
                 name, report__air_figure(si, r->system).text,
                 report__air_figure((1 - TENTH) * si, r->system).text,
                 report__air_figure((1 + TENTH) * si, r->system).text);
}

static void line_rows(const struct dew_report *r, const struct lines *l,
                      const char *tie, FILE *out)
{
    if (l->count == 0)
        asked_row(r, tie, l->sum, out);
    for (size_t i = 0; i < l->count; i++)
        asked_row(r, l->list[i].name, l->list[i].flow, out);
    asked_row(r, "together, at the hood", l->sum, out);
}

enum { FEW = 7 }; /* rooms whose rows leave room to write on one sheet */

static void room_table(const struct dew_report *r, int fresh, FILE *out)
{
    struct lines l = lines_of(r, fresh);

    if (!(l.sum > 0))
        return;
    fprintf(out,
            "<table class=\"dense%s\"><thead><tr><th scope=\"col\">%s</th><th "
            "class=\"n\" scope=\"col\">%s</th><th class=\"n\" "
            "scope=\"col\">+/- 10 %%</th><th class=\"fill\" "
            "scope=\"col\">blower off</th><th class=\"fill\" "
            "scope=\"col\">on</th></tr></thead><tbody>\n",
            l.count <= FEW ? " write" : "",
            fresh ? "fresh air to" : "stale air from",
            report__unit(DEW_FLOW, r->system)->name);
    line_rows(r, &l,
              fresh ? "the duct it is tied to" : "the return it is tied to",
              out);
    fputs("</tbody></table>\n", out);
}

static void air_by_room(const struct dew_report *r, FILE *out)
{
    const struct dew_choice *c = &r->question->choices[report__hand_option(r)];
    const struct dew_path *on = &c->c->paths[DEW_VENT_ON][0];

    if (!(on->supply > 0) && !(on->exhaust > 0))
        return;
    fputs("<h2>Air by room, to be measured with the blower off and on</h2>\n"
          "<div class=\"two\">\n",
          out);
    room_table(r, 1, out);
    room_table(r, 0, out);
    fputs("</div>\n<p><small>Figures are those with the blower off: the rooms "
          "and shares of ducts.grilles; where they are not given, a split by a "
          "rule of the trade (CSA F326: two parts to the main bedroom, one to "
          "each other room), not a duct design. Cross out rooms that are not "
          "there. A pickup in the kitchen stands away from the cooktop. In and "
          "out should balance within 10 % in both states.</small></p>\n",
          out);
}

/* ---- commissioning ------------------------------------------------------------------- */

static const char *const checks[] = {
    "flows set and dampers locked, blower off and on",
    "power drawn, W",
    "pressure across the unit, fresh and stale, Pa",
    "cold ducts insulated and sealed up to the collars",
    "trap filled, condensate runs, pan and float switch",
    "intake and exhaust hoods: distances, screen, above snow",
    "controls, boost and interlock tried",
    "filters: size and where they are",
    "owner shown how to switch off, clean and drain",
};

static void commissioning(FILE *out)
{
    fputs("<h2>When it runs</h2>\n<div class=\"two\">\n", out);
    for (size_t i = 0, n = sizeof checks / sizeof *checks; i < n; i++) {
        if (i == 0 || i == (n + 1) / 2)
            fputs("<table class=\"dense write\"><tbody>\n", out);
        fprintf(out, "<tr><td>&#9744; %s</td><td>", checks[i]);
        sheets__hand_blanks(out, "______________</td></tr>\n");
        if (i + 1 == (n + 1) / 2 || i + 1 == n)
            fputs("</tbody></table>\n", out);
    }
    sheets__hand_blanks(out,
                        "</div>\n<p>Measured with ________________________ by "
                        "________________________ on ______________</p>\n");
}

static int is_fitted(const struct dew_report *r)
{
    const struct dew_choice *c = &r->question->choices[report__hand_option(r)];

    return c->facts->core != DEW_CORE_none || c->c->plant.dryer.rate > 0;
}

static void sheet(const struct dew_report *r, FILE *out)
{
    sheets__hand_cautions(r, DEW_STOP, SHEETS__OF_HOUSE | SHEETS__OF_OPTION,
                          out);
    if (is_fitted(r)) {
        what_to_fit(r, out);
        air_by_room(r, out);
        commissioning(out);
    } else {
        fputs("<h2>What to fit</h2>\n<p>Nothing: this option has neither a "
              "ventilator nor a dehumidifier.</p>\n",
              out);
    }
    fputs("<h2>To check in this option</h2>\n", out);
    sheets__hand_cautions(r, DEW_CHECK, SHEETS__OF_OPTION, out);
}

enum dew_status dew_report_contractor(const struct dew_report *report,
                                      FILE *out, struct dew_error *err)
{
    const struct sheets__hand h = {report, "For the contractor", sheet};

    return sheets__hand_write(&h, out, err);
}
