/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The report as one page that opens without a network.  It is HTML whose tags
 * all close, so that a reader of XML takes it too.
 */
#include <math.h>
#include <string.h>

#include "core/embed.h"
#include "draw/charts_fit.h"
#include "draw/charts_tint.h"
#include "draw/svg.h"
#include "report/answer.h"
#include "report/ducts.h"
#include "report/markup.h"
#include "report/option_columns.h"
#include "report/sheet.h"
#include "sheets/page_parts.h"

CORE__EMBEDDED(page_css);
CORE__EMBEDDED(chart_css);
CORE__EMBEDDED(ducts_css);
CORE__EMBEDDED(page_js);

enum { FEW_OPTIONS = 5 };

static void head(const struct dew_report *r, FILE *out)
{
    const char *const css[] = {
        core__data_page_css, core__data_chart_css,
        report__told_drawn(r->ducts) > 0 ? core__data_ducts_css : NULL, NULL};

    report__html_open(out, "", report__title(r->title), css);
    fputs("\n<svg class=\"defs\" aria-hidden=\"true\">", out);
    draw__svg_patterns(out);
    fputs("</svg>\n", out);
}

static void top(const struct dew_report *r, FILE *out)
{
    report__html(
        out,
        "<header><a class=\"skip\" href=\"#answer\">To the answer</a>"
        "<h1>%s</h1>\n<p class=\"sub\">%zu option%s through %s%s. Weather: %s"
        "</p></header>\n<main>\n",
        report__title(r->title), r->question->count,
        r->question->count == 1 ? "" : "s",
        strcmp(report__span(r).text, "year") == 0 ? "one " : "the ",
        report__span(r).text, r->weather ? r->weather : "not given");
}

static void contents(const struct dew_report *r, FILE *out)
{
    report__html(
        out,
        "<nav aria-label=\"Parts of this page\"><ul>"
        "<li><a href=\"#options\">The options</a></li>%-s"
        "<li><a href=\"#findings\">What the %s says</a></li>%-s"
        "<li><a href=\"#charts\">Through the year</a></li>"
        "<li><a href=\"#cautions\">Cautions</a></li>"
        "<li><a href=\"#inputs\">What was put in</a></li>"
        "<li><a href=\"#method\">How it was worked out</a></li>"
        "<li><a href=\"#words\">Words</a></li>"
        "<li><a href=\"#sources\">Sources</a></li>"
        "</ul></nav>\n<p class=\"sub\">To hand over, beside this page: "
        "<a href=\"contractor.html\">contractor</a>, "
        "<a href=\"inspector.html\">inspector</a>, "
        "<a href=\"calendar.html\">calendar</a>. One sheet of paper "
        "each.</p>\n",
        r->question->draws != NULL
            ? "<li><a href=\"#houses\">Houses like yours</a></li>"
            : "",
        report__span(r).text,
        report__told_drawn(r->ducts) > 0
            ? "<li><a href=\"#airpaths\">Where the air goes</a></li>"
            : "");
}

/* ---- answer and findings ------------------------------------------------------------------------ */

static const char *const headings[DEW_GROUPS] = {
    [DEW_GROUP_best] = "Which option",
    [DEW_GROUP_today] = "Today",
    [DEW_GROUP_outdoors] = "What outdoor air can do",
    [DEW_GROUP_helps] = "What helps, and what does not",
    [DEW_GROUP_money] = "Money",
};

/* Finding i, unless one before has told it. */
static void sentence(const struct dew_report *r, size_t i, const char *tag,
                     FILE *out)
{
    char text[REPORT__TOLD];

    if (report__told(r, i, text)[0] != '\0')
        report__html(out, "<%s>%s</%s>\n", tag, text, tag);
}

static void answer(const struct dew_report *r, FILE *out)
{
    int none = report__found(r, DEW_FINDING_best_none, DEW_NO_OPTION) != NULL;
    char text[REPORT__ANSWER];

    fprintf(out,
            "<section id=\"answer\"><h2>%s</h2>\n<div class=\"answer%s\">\n",
            none ? "No answer yet: none of these will do" : "The answer",
            none ? " none" : "");
    for (int k = 0; k < REPORT__ANSWERS; k++) {
        enum report__answer which = (enum report__answer)k;

        report__html(out, "<p><strong>%s</strong> %s</p>\n",
                     report__answer_head(which),
                     report__answer(r, which, text, sizeof text));
    }
    fputs("</div>\n", out);
    sheets__part_glance(r, out);
    fputs("</section>\n", out);
}

static void group(const struct dew_report *r, enum dew_finding_group g,
                  FILE *out)
{
    int any = 0;

    for (size_t i = 0; i < r->verdict->count; i++) {
        const struct dew_finding *f = &r->verdict->list[i];

        if (dew_verdict_group(f->kind) != g)
            continue;
        if (any++ == 0)
            fprintf(out, "<div><h3>%s</h3>\n<ul class=\"says\">\n",
                    headings[g]);
        sentence(r, i, "li", out);
    }
    if (any)
        fputs("</ul></div>\n", out);
}

static void findings(const struct dew_report *r, FILE *out)
{
    char span[200];

    dew_report_span(r->question->choices[0].outcome->count, span, sizeof span);
    fprintf(out, "<section id=\"findings\"><h2>What the %s say%s</h2>\n",
            report__span(r).text, span[0] != '\0' ? "" : "s");
    if (span[0] != '\0')
        report__html(out, "<p class=\"span\">%s</p>\n", span);
    for (int g = DEW_GROUP_best; g < DEW_GROUPS; g++)
        group(r, (enum dew_finding_group)g, out);
    fputs("</section>\n", out);
}

/* ---- options ------------------------------------------------------------------------- */

static void table_head(const struct dew_report *r,
                       const struct report__column *columns, size_t count,
                       FILE *out)
{
    fputs("<thead><tr><th scope=\"col\">Option</th>", out);
    for (size_t k = 0; k < count; k++)
        report__html(out, "<th scope=\"col\">%s<br/>%s<br/>%s</th>",
                     report__column_head(r, columns[k].head[0]),
                     report__column_head(r, columns[k].head[1]),
                     report__column_head(r, columns[k].head[2]));
    fputs("</tr></thead><tbody>\n", out);
}

static void table(const struct dew_report *r, enum report__table which,
                  const char *caption, FILE *out)
{
    size_t count;
    const struct report__column *columns = report__columns(which, &count);

    fprintf(out, "<div class=\"wide\"><table><caption>%s</caption>\n", caption);
    table_head(r, columns, count, out);
    for (size_t i = 0; i < r->question->count; i++) {
        int best = r->verdict->best == (int)i;

        report__html(out, "<tr%-s><th scope=\"row\">%zu %s%s</th>",
                     best ? " class=\"best\"" : "", i + 1,
                     report__option(r, (int)i).text, best ? " (best)" : "");
        for (size_t k = 0; k < count; k++)
            fprintf(out, "<td>%s</td>", columns[k].cell(r, i).text);
        fputs("</tr>\n", out);
    }
    fputs("</tbody></table></div>\n", out);
}

static void draw(const struct dew_report *r, enum dew_chart kind, size_t option,
                 FILE *out)
{
    const struct draw__chart c = {r, option, out, 0};

    if (option < dew_report_chart_count(r, kind))
        draw__chart_draw(kind, &c);
}

static void houses(const struct dew_report *r, FILE *out)
{
    if (r->question->draws == NULL)
        return;
    fputs("<section id=\"houses\"><h2>Houses like yours</h2>\n", out);
    report__html(out, "<p>%s</p>\n", report__houses_told);
    draw(r, DEW_CHART_houses, 0, out);
    draw(r, DEW_CHART_houses_months, 0, out);
    table(r, REPORT__TABLE_HOUSES, "Shares, and hours too humid", out);
    table(r, REPORT__TABLE_HOUSE_HOURS, "Other hours", out);
    if (r->question->prices != NULL)
        table(r, REPORT__TABLE_HOUSE_MONEY, "Energy and money", out);
    fputs("</section>\n", out);
}

static void options(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"options\"><h2>The options</h2>\n", out);
    table(r, REPORT__TABLE_AIR, "Humidity and fresh air", out);
    fputs("<p>* less fresh air than asked for; never the "
          "best option.</p>\n",
          out);
    table(r, REPORT__TABLE_MORE, "Air quality, surfaces and frost", out);
    report__html(out, "<p class=\"sub\">%s</p>\n", report__columns_told);
    if (r->question->prices != NULL)
        table(r, REPORT__TABLE_MONEY, "Money", out);
    draw(r, DEW_CHART_humid_months, 0, out);
    fputs(r->question->count <= DRAW__BARS ? "<div class=\"pair\">\n"
                                           : "<div>\n",
          out);
    draw(r, DEW_CHART_energy, 0, out);
    draw(r, DEW_CHART_cost, 0, out);
    fputs("</div>\n", out);
    fputs("</section>\n", out);
}

/* 1, and a sentence, where a chart of wet glass would have nothing to show. */
static int glass_stays_dry(const struct dew_report *r, size_t other, FILE *out)
{
    const struct dew_tally *now = study__year(r->question, 0);
    const struct dew_tally *then = study__year(r->question, other);

    if (now->sweat[DEW_GLASS] >= 0.5 || then->sweat[DEW_GLASS] >= 0.5)
        return 0;
    report__html(out,
                 "<p>No hour wets the middle of the window glass%s%s%s: its "
                 "chart is left out. Its edge is wet in %s hours today",
                 other > 0 ? ", today or with \"" : " today",
                 other > 0 ? report__option(r, (int)other).text : "",
                 other > 0 ? "\"" : "",
                 report__number(now->sweat[DEW_EDGE], 0).text);
    if (other > 0)
        report__html(out, ", in %s with the other",
                     report__number(then->sweat[DEW_EDGE], 0).text);
    fputs(".</p>\n", out);
    return 1;
}

/* What the log tells by itself. */
static void learned(const struct dew_report *r, FILE *out)
{
    const struct draw__fit f = {
        .of = r->learned, .system = r->system, .out = out, .page = 1};

    if (r->learned == NULL)
        return;
    fputs("<h3>What your log tells by itself</h3>\n<p>Learned from the log and "
          "the outdoor air alone, whatever the model makes of the house: "
          "<code>dewledger fit</code> says it in words.</p>\n",
          out);
    draw__fit_page(&f);
}

static void charts(const struct dew_report *r, FILE *out)
{
    static const enum dew_chart kinds[] = {
        DEW_CHART_dew_points, DEW_CHART_water, DEW_CHART_glass, DEW_CHART_map};
    size_t other = report__beside_today(r);

    fputs("<section id=\"charts\"><h2>Through the year</h2>\n", out);
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        if (kinds[k] == DEW_CHART_glass && glass_stays_dry(r, other, out))
            continue;
        fputs("<div class=\"pair\">\n", out);
        draw(r, kinds[k], 0, out);
        if (other != 0)
            draw(r, kinds[k], other, out);
        fputs("</div>\n", out);
    }
    draw(r, DEW_CHART_log_dew, 0, out);
    draw(r, DEW_CHART_log_rh, 0, out);
    learned(r, out);
    fputs("<p class=\"paper\">On paper these charts stand without their "
          "tables: report.html has them, hours-*.csv every hour.</p>\n",
          out);
    fputs("</section>\n", out);
}

static void airpaths(const struct dew_report *r, FILE *out)
{
    const struct dew_choice *shown =
        &r->question->choices[report__beside_today(r)];

    report__ducts_section(r->ducts, shown->outcome->name, r->system, out);
}

/* Sheets in two columns of paper, where a column for each option fits. */
static void books(const struct dew_report *r, FILE *out)
{
    fprintf(out, "<div class=\"books%s\">\n",
            r->question->count <= FEW_OPTIONS ? " few" : "");
    report__sheets_html(r, out);
    fputs("</div>\n", out);
}

/* ---- the page ------------------------------------------------------------------------- */

static void page(const void *of, FILE *out)
{
    const struct dew_report *r = of;

    head(r, out);
    top(r, out);
    sheets__part_stops(r, out);
    answer(r, out);
    contents(r, out);
    options(r, out);
    houses(r, out);
    findings(r, out);
    airpaths(r, out);
    charts(r, out);
    sheets__part_cautions(r, out);
    books(r, out);
    sheets__part_inputs(r, out);
    sheets__part_method(r, out);
    sheets__part_words(out);
    sheets__part_sources(r, out);
    sheets__part_origin(r, out);
    fprintf(out, "</main>\n<script>\n%s</script>\n</body></html>\n",
            core__data_page_js);
}

enum dew_status dew_report_html(const struct dew_report *report, FILE *out,
                                struct dew_error *err)
{
    return report__filled("the page", page, report, out, err);
}
