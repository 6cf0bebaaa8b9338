/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report as one page that opens without a network. */
#include <math.h>
#include <string.h>

#include "core/fail.h"
#include "core/numeric.h"
#include "report/charts.h"
#include "report/columns.h"
#include "report/page_style.h"
#include "report/sheet.h"
#include "report/svg.h"

static void head(const struct dew_report *r, FILE *out)
{
    fputs("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, "
          "initial-scale=1\">\n<title>",
          out);
    dew__escape(out, r->title && r->title[0] ? r->title : "Untitled");
    fprintf(out, "</title>\n<style>\n%s</style></head>\n<body>\n<header><h1>",
            dew__page_style);
    dew__escape(out, r->title && r->title[0] ? r->title : "Untitled");
    fputs("</h1>\n<nav aria-label=\"Parts of this page\"><ul>"
          "<li><a href=\"#says\">What the year says</a></li>"
          "<li><a href=\"#options\">The options</a></li>"
          "<li><a href=\"#charts\">Through the year</a></li>"
          "<li><a href=\"#cautions\">Cautions</a></li>"
          "<li><a href=\"#inputs\">What was put in</a></li>"
          "<li><a href=\"#method\">How it was worked out</a></li>"
          "</ul></nav></header>\n<main>\n",
          out);
}

/* ---- cautions --------------------------------------------------------------- */

static void caution_options(const struct dew_report *r,
                            const struct dew_caution *c, FILE *out)
{
    int any = 0;

    for (size_t i = 0; i < r->question->count && i < 64; i++)
        if (c->options >> i & 1) {
            fputs(any++ ? ", " : "<strong>", out);
            dew__escape(out, dew__option(r, (int)i).text);
        }
    if (any)
        fputs(":</strong> ", out);
}

static void caution(const struct dew_report *r, const struct dew_caution *c,
                    FILE *out)
{
    fprintf(out, "<li><span class=\"level\">%s</span>",
            dew_cautions_level(c->level));
    caution_options(r, c, out);
    dew__escape(out, c->text);
    if (isfinite(c->pressure))
        fprintf(out, " Computed, every exhaust at once: %s Pa.",
                dew__number(c->pressure, 1).text);
    fputs(" <small>(", out);
    dew__escape(out, c->source);
    fputs(")</small></li>\n", out);
}

static void cautions(const struct dew_report *r, int stop, FILE *out)
{
    fputs("<ul class=\"cautions\">\n", out);
    for (size_t i = 0; i < r->caution_count; i++)
        if ((r->cautions[i].level == DEW_STOP) == stop)
            caution(r, &r->cautions[i], out);
    fputs("</ul>\n", out);
}

static void stops(const struct dew_report *r, FILE *out)
{
    if (r->caution_count == 0 || r->cautions[0].level != DEW_STOP)
        return;
    fputs("<section class=\"stop\"><h2>Before anything else</h2>\n", out);
    cautions(r, 1, out);
    fputs("</section>\n", out);
}

/* ---- verdict and options ------------------------------------------------------ */

static void verdict(const struct dew_report *r, FILE *out)
{
    char text[DEW_SENTENCE];

    fputs("<section id=\"says\"><h2>What the year says</h2>\n<ol "
          "class=\"says\">\n",
          out);
    for (size_t i = 0; i < r->verdict->count; i++) {
        fputs("<li>", out);
        dew__escape(out, dew_report_sentence(r, &r->verdict->list[i], text,
                                             sizeof text));
        fputs("</li>\n", out);
    }
    fputs("</ol></section>\n", out);
}

static void table_head(const struct dew_report *r,
                       const struct dew__column *columns, size_t count,
                       FILE *out)
{
    fputs("<thead><tr><th scope=\"col\">Option</th>", out);
    for (size_t k = 0; k < count; k++) {
        fputs("<th scope=\"col\">", out);
        for (int line = 0; line < 3; line++) {
            dew__escape(out, dew__column_head(r, columns[k].head[line]));
            fputs(line < 2 ? "<br>" : "</th>", out);
        }
    }
    fputs("</tr></thead><tbody>\n", out);
}

static void table(const struct dew_report *r, enum dew__table which,
                  const char *caption, FILE *out)
{
    size_t count;
    const struct dew__column *columns = dew__columns(which, &count);

    fprintf(out, "<div class=\"wide\"><table><caption>%s</caption>\n", caption);
    table_head(r, columns, count, out);
    for (size_t i = 0; i < r->question->count; i++) {
        fprintf(out, "<tr%s><th scope=\"row\">%zu ",
                r->verdict->best == (int)i ? " class=\"best\"" : "", i + 1);
        dew__escape(out, dew__option(r, (int)i).text);
        fputs("</th>", out);
        for (size_t k = 0; k < count; k++)
            fprintf(out, "<td>%s</td>", columns[k].cell(r, i).text);
        fputs("</tr>\n", out);
    }
    fputs("</tbody></table></div>\n", out);
}

static void options(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"options\"><h2>The options</h2>\n", out);
    table(r, DEW__TABLE_AIR, "Humidity and fresh air", out);
    fputs("<p>* UNDER-VENTILATED: less fresh air than asked for; never the "
          "best option.</p>\n",
          out);
    table(r, DEW__TABLE_MORE, "Air quality, surfaces and frost", out);
    if (r->question->prices != NULL)
        table(r, DEW__TABLE_MONEY, "Money", out);
    dew__chart_energy(r, out);
    fputs("</section>\n", out);
}

/* ---- charts ------------------------------------------------------------------ */

/* The option set beside the house as it stands: the best, or the one of
   fewest humid hours. */
static size_t beside(const struct dew_report *r)
{
    size_t least = 0;

    if (r->verdict->best > 0)
        return (size_t)r->verdict->best;
    for (size_t i = 1; i < r->question->count; i++)
        if (dew_verdict_ventilates(r->question, i) &&
            (least == 0 ||
             r->question->choices[i].outcome->year.too_humid <
                 r->question->choices[least].outcome->year.too_humid))
            least = i;
    return least;
}

static void charts_of(const struct dew_report *r, size_t option, FILE *out)
{
    dew__chart_dew_points(r, option, out);
    dew__chart_water(r, option, out);
    dew__chart_glass(r, option, out);
    dew__chart_map(r, option, out);
}

static void charts(const struct dew_report *r, FILE *out)
{
    size_t other = beside(r);

    fputs("<section id=\"charts\"><h2>Through the year</h2>\n", out);
    dew__chart_humid_months(r, out);
    charts_of(r, 0, out);
    if (other != 0)
        charts_of(r, other, out);
    fputs("</section>\n", out);
}

/* ---- inputs, method, provenance ------------------------------------------------- */

static void input_row(const struct dew_report_input *in, FILE *out)
{
    int preset = strcmp(in->origin, "default") == 0;

    fprintf(out, "<tr%s><td>", preset ? " class=\"preset\"" : "");
    dew__escape(out, in->option[0] ? in->option : "every option");
    fputs("</td><td><code>", out);
    dew__escape(out, in->key);
    fputs("</code></td><td>", out);
    dew__escape(out, in->value);
    fputs("</td><td>", out);
    dew__escape(out, in->origin);
    if (in->source[0] != '\0') {
        fputs(", ", out);
        dew__escape(out, in->source);
    }
    fputs("</td></tr>\n", out);
}

static void inputs(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"inputs\"><h2>What was put in</h2>\n<details><summary>"
          "Every value as it was understood; defaults are marked</summary><div "
          "class=\"wide\"><table class=\"inputs\"><thead><tr><th "
          "scope=\"col\">Option</th><th scope=\"col\">Key</th><th "
          "scope=\"col\">Value</th><th scope=\"col\">From</th></tr></thead>"
          "<tbody>\n",
          out);
    for (size_t i = 0; i < r->input_count; i++)
        input_row(&r->inputs[i], out);
    fputs("</tbody></table></div></details></section>\n", out);
}

static void judging(const struct dew_report *r, FILE *out)
{
    const struct dew_judging *j = &r->question->judging;

    fprintf(out,
            "<p>A limit counts as kept when it is passed in at most %s %% of "
            "the year; a month stands out at %s %% of its hours; fresh air "
            "counts as delivered from %s %% of what is asked for; a difference "
            "below %s %% or %s h is a close call. These shares are our own "
            "choice.</p>\n",
            dew__number(100 * j->kept_share, 0).text,
            dew__number(100 * j->month_share, 0).text,
            dew__number(100 * j->fresh_share, 0).text,
            dew__number(100 * j->close_share, 0).text,
            dew__number(j->close_hours, 0).text);
}

static void closure(const struct dew_report *r, FILE *out)
{
    double worst = 0;
    char text[40];

    for (size_t i = 0; i < r->question->count; i++) {
        const struct dew_outcome *o = r->question->choices[i].outcome;

        worst = fmax(worst, fmax(o->water_residual, o->heat_residual));
    }
    dew_number_print(worst, 2, text, sizeof text);
    fprintf(out,
            "<p>The books of water and heat are closed every hour; over the "
            "year they close to %s of what went through them.</p>\n",
            text);
}

static void method(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"method\"><h2>How it was worked out</h2>\n<p>The house "
          "is one mixed zone: one temperature, one humidity. Each hour of the "
          "weather is marched through its leakage, ventilator, cooling coil, "
          "dehumidifier, people and the water that furnishings hold. Rooms "
          "behind shut doors, walls and roofs are not seen. The sources of "
          "every equation and preset are in the project's manual.</p>\n",
          out);
    judging(r, out);
    closure(r, out);
    fputs("<p>Weather: ", out);
    dew__escape(out, r->weather ? r->weather : "not told");
    fputs("</p>\n<p>Made by dewledger ", out);
    dew__escape(out, r->version);
    fputs(" from</p><ul>\n", out);
    for (size_t i = 0; i < r->file_count; i++)
        fprintf(out, "<li>%s, SHA-256 <code>%s</code></li>\n", r->files[i].role,
                r->files[i].sha256);
    fputs("</ul></section>\n", out);
}

static void page(const struct dew_report *r, FILE *out)
{
    head(r, out);
    dew__chart_patterns(out);
    stops(r, out);
    verdict(r, out);
    options(r, out);
    dew__sheets_html(r, out);
    charts(r, out);
    fputs("<section id=\"cautions\"><h2>Cautions</h2>\n", out);
    cautions(r, 0, out);
    fputs("</section>\n", out);
    inputs(r, out);
    method(r, out);
    fprintf(out, "</main>\n<script>\n%s</script>\n</body></html>\n",
            dew__page_script);
}

enum dew_status dew_report_html(const struct dew_report *report, FILE *out,
                                struct dew_error *err)
{
    struct dew__numeric n;

    if (!dew__numeric_c(&n))
        return dew__fail(err, DEW_EMEM, "no memory for the page");
    page(report, out);
    dew__numeric_back(&n);
    if (fflush(out) != 0 || ferror(out))
        return dew__fail(err, DEW_EIO, "the page could not be written");
    return DEW_OK;
}
