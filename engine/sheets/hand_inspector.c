/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inspector's sheet: what was told of the house, what was answered, what
   was computed against what is asked. */
#include "report/caution.h"
#include "report/markup.h"
#include "report/words.h"
#include "sheets/hand.h"

static void house(const struct dew_report *r, FILE *out)
{
    static const struct told {
        const char *name, *key;
    } told[] = {
        {"floor area", "house.floor_area"},
        {"storeys", "house.storeys"},
        {"bedrooms", "house.bedrooms"},
        {"people", "people.count"},
        {"airtightness", "house.airtightness"},
        {"foundation", "house.foundation"},
        {"heating", "heating.kind"},
        {"cooling", "cooling.capacity"},
        {"rule for fresh air", "limits.fresh_air_rule"},
    };
    size_t option = report__hand_option(r);
    const struct dew_house *h = &r->question->choices[option].c->house;

    fputs("<table class=\"dense pairs\"><tbody>\n", out);
    for (size_t i = 0; i < sizeof told / sizeof *told; i++)
        report__html_row(out, "%s|%s", told[i].name,
                         report__hand_input(r, option, told[i].key).text);
    report__html_row(out, "volume|%s",
                     report__amount(h->volume, DEW_VOLUME, r->system, 0).text);
    fputs("</tbody></table>\n", out);
}

/* One figure: computed, and what it is held against. */
static void figure(FILE *out, const char *name, const char *value,
                   const char *against)
{
    report__html(
        out,
        "<tr><th scope=\"row\">%s</th><td class=\"n\">%s</td><td>%s</td>"
        "<td></td></tr>\n",
        name, value, against);
}

static void air_figures(const struct dew_report *r, const struct dew_outcome *o,
                        FILE *out)
{
    size_t option = report__hand_option(r);
    struct report__word asked = {"none asked for"};

    if (o->required > 0)
        snprintf(asked.text, sizeof asked.text, "%.60s asked for",
                 report__amount(o->required, DEW_FLOW, r->system, 0).text);
    figure(out, "fresh air that counts, mean",
           report__amount(dew_verdict_fresh(r->question, option), DEW_FLOW,
                          r->system, 0)
               .text,
           asked.text);
    figure(out, "hours below that", report__number(o->year.fresh_short, 0).text,
           "0 h");
    figure(out, "CO2, mean, ppm",
           report__number(study__mean(o->year.co2_sum, o->year.hours), 0).text,
           "no limit of health; shows stale air");
    figure(out, "hours above 1000 ppm",
           report__number(o->year.co2_high, 0).text,
           "our own mark; no current standard holds a limit");
}

/* The worst surface, as in the table of options, and which it is. */
static void mould_figure(const struct dew_outcome *o, FILE *out)
{
    static const char *const names[DEW_SURFACES] = {
        "mould index, worst surface (glass)",
        "mould index, worst surface (frame)",
        "mould index, worst surface (corner)"};
    int worst = DEW_CORNER;

    for (int s = 0; s < DEW_SURFACES; s++)
        if (o->faces[s].mould > o->faces[worst].mould)
            worst = s;
    figure(out, names[worst], report__number(o->faces[worst].mould, 1).text,
           "3 of 6 can be seen");
}

static void damp_figures(const struct dew_report *r,
                         const struct dew_outcome *o, FILE *out)
{
    const struct dew_limits *l =
        &r->question->choices[report__hand_option(r)].c->limits;
    char limit[80];

    snprintf(limit, sizeof limit, "above %.20s %%",
             report__number(100 * l->too_humid, 0).text);
    figure(out, "hours too humid", report__number(o->year.too_humid, 0).text,
           limit);
    snprintf(limit, sizeof limit, "below %.20s %%",
             report__number(100 * l->too_dry, 0).text);
    figure(out, "hours too dry", report__number(o->year.too_dry, 0).text,
           limit);
    figure(out, "hours of wet glass",
           report__number(o->year.sweat[DEW_GLASS], 0).text, "0 h");
    mould_figure(o, out);
}

static void pressure_figures(const struct dew_report *r,
                             const struct dew_outcome *o, FILE *out)
{
    size_t option = report__hand_option(r);
    unsigned untold = dew_cautions_suction(r->question, option).untold;
    char against[120] = "test under the worst case [BPI-1200]";

    if (untold != 0)
        snprintf(against, sizeof against, "%.90s not given",
                 report__fans(untold).text);
    figure(out, "pressure by the fans given, Pa",
           report__number(o->year.pressure_min, 1).text,
           "computed, never a proof of safety");
    figure(out, "with every fan at once",
           untold != 0 ? "not computed" : report__suction(r, option).text,
           against);
}

static void figures(const struct dew_report *r, FILE *out)
{
    const struct dew_outcome *o =
        r->question->choices[report__hand_option(r)].outcome;

    fputs("<table class=\"dense\"><thead><tr><th scope=\"col\">computed for "
          "the year</th><th class=\"n\" scope=\"col\">value</th><th "
          "scope=\"col\">against</th><th class=\"fill\" "
          "scope=\"col\">measured</th></tr>"
          "</thead><tbody>\n",
          out);
    air_figures(r, o, out);
    damp_figures(r, o, out);
    pressure_figures(r, o, out);
    fputs("</tbody></table>\n", out);
}

static void question(FILE *out, const char *asks, enum dew_answer answer)
{
    int open = answer == DEW_ANSWER_UNKNOWN;

    report__html(
        out,
        "<tr><td>%s</td><td>%-s%s%-s</td><td class=\"box\">&#9744;</td>"
        "</tr>\n",
        asks, open ? "<strong>" : "", dew_answer_text(answer),
        open ? "</strong>" : "");
}

static void answers(const struct dew_report *r, FILE *out)
{
    const struct dew_safety *s = r->question->safety;

    fputs("<table class=\"dense\"><thead><tr><th scope=\"col\">is there "
          "...</th><th scope=\"col\">answered</th><th class=\"box\" "
          "scope=\"col\">seen</th></tr></thead><tbody>\n",
          out);
#define X(name, asks) question(out, asks, s->name);
    DEW_SAFETY_MAP(X)
#undef X
    fputs("</tbody></table>\n", out);
}

static void sheet(const struct dew_report *r, FILE *out)
{
    sheets__hand_cautions(r, DEW_STOP, SHEETS__OF_HOUSE | SHEETS__OF_OPTION,
                          out);
    fputs("<h2>The house as given, and what was computed</h2>\n<div "
          "class=\"two third\">\n",
          out);
    house(r, out);
    figures(r, out);
    fputs("</div>\n<h2>Answers to the questions of safety; \"unknown\" is "
          "treated like the worse answer</h2>\n",
          out);
    answers(r, out);
    sheets__hand_blanks(
        out,
        "<h2>Found on site</h2>\n<p>Airtightness ______________ &#160; "
        "worst-case depressurization __________ Pa &#160; spillage after "
        "________ s &#160; CO ________ ppm</p>\n<p>Radon __________ &#160; "
        "inspected by ______________________ on ______________ &#160; result "
        "____________________</p>\n");
}

enum dew_status dew_report_inspector(const struct dew_report *report, FILE *out,
                                     struct dew_error *err)
{
    const struct sheets__hand h = {report, "For the inspector", sheet};

    return sheets__hand_write(&h, out, err);
}
