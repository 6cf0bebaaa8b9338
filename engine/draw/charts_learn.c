/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of a house before and after its log, a row each: the pale bar is
   what was thought, the dark one what is left of it. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "draw/charts_fit.h"
#include "draw/figure.h"
#include "report/markup.h"

/* Places in the units of the view box. */
enum {
    LEFT = DRAW__FIGURE_EDGE,
    BARS = 470, /* where the bars begin                                      */
    RIGHT = DRAW__SVG_WIDE - DRAW__FIGURE_EDGE,
    ROW = 44,
    FIRST = 15, /* lines of a row                                            */
    SECOND = 31,
    MIDDLE = 19, /* of its bars                                              */
    PALE = 16,
    DARK = 8
};
static const double WIDE = 2.6, /* deviations to both ends of the bars       */
    TENTH = 1.2816;             /* of what one in ten is beyond              */

static double place(double score)
{
    double share = 0.5 * (1 + fmin(fmax(score / WIDE, -1), 1));

    return BARS + share * (RIGHT - BARS);
}

static void bar(FILE *out, double y, int high, const char *kind, double from,
                double to)
{
    fprintf(out,
            "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
            "height=\"%d\"/>\n",
            kind, place(from), y + MIDDLE - 0.5 * high,
            fmax(place(to) - place(from), 1), high);
}

static void row(FILE *out, const struct draw__input *x, double y)
{
    double middle = place(x->score[1]);

    report__html(out,
                 "<text class=\"strong\" x=\"%d\" y=\"%.0f\">%s</text>"
                 "<text class=\"note\" x=\"%d\" y=\"%.0f\">now %s, thought "
                 "%s</text>\n",
                 LEFT, y + FIRST, x->name, LEFT, y + SECOND, x->after,
                 x->before);
    bar(out, y, PALE, "m3", -TENTH, TENTH);
    bar(out, y, DARK, "m5", x->score[0], x->score[2]);
    fprintf(out, "<path class=\"thick\" d=\"M%.1f %.1fV%.1f\"/>\n", middle,
            y + MIDDLE - 0.7 * DARK, y + MIDDLE + 0.7 * DARK);
    fprintf(out, "<path class=\"grid\" d=\"M%d %.1fH%d\"/>\n", LEFT,
            y + ROW - 4.5, RIGHT);
}

static void heads(FILE *out, double y)
{
    report__html(out,
                 "<text class=\"unit\" x=\"%d\" y=\"%.0f\">lower</text>"
                 "<text class=\"mid\" x=\"%.1f\" y=\"%.0f\">as thought</text>"
                 "<text class=\"unit up\" x=\"%d\" y=\"%.0f\">higher</text>\n",
                 BARS, y + FIRST, place(0), y + FIRST, RIGHT, y + FIRST);
}

enum dew_status draw__fit_inputs(FILE *out, const struct draw__input *inputs,
                                 size_t count)
{
    struct draw__figure *g = calloc(1, sizeof *g);
    double y = DRAW__FIGURE_TOP;

    if (g == NULL)
        return DEW_EMEM;
    g->out = out;
    g->alone = 1;
    snprintf(g->heading, sizeof g->heading,
             count > 0 ? "What was learned of the house"
                       : "Nothing was learned of the house's figures");
    snprintf(g->note, sizeof g->note, "%s",
             count > 0 ? "Pale: what was thought, 8 chances in 10. Dark: what "
                         "is left, likewise, with its middle marked. A short "
                         "dark bar is known well; one beyond the pale wants a "
                         "look at the house."
                       : "Every house of the description can do it.");
    snprintf(g->words, sizeof g->words,
             "%zu figures, each with its range before and after.", count);
    draw__figure_key(g, 3, DRAW__SHADE, "thought before");
    draw__figure_key(g, 5, DRAW__SHADE, "left after");
    g->high = (int)(y + ROW * (double)(count + 1));
    draw__figure_begin(g);
    heads(out, y);
    y += 0.6 * ROW;
    for (size_t i = 0; i < count; i++, y += ROW)
        row(out, &inputs[i], y);
    draw__figure_end(g);
    free(g);
    return DEW_OK;
}

/* ---- in a page ---------------------------------------------------------------- */

enum { PAGE_WIDE = 140, PAGE_HIGH = 20 };

static double across(double score)
{
    return PAGE_WIDE * 0.5 * (1 + fmin(fmax(score / WIDE, -1), 1));
}

static void page_bar(FILE *out, const char *kind, double high, double from,
                     double to)
{
    fprintf(out,
            "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
            "height=\"%.1f\"/>",
            kind, across(from), 0.5 * (PAGE_HIGH - high),
            fmax(across(to) - across(from), 1), high);
}

static void page_row(FILE *out, const struct draw__input *x)
{
    int group = (int)strcspn(x->name, ".");
    char lead[100];

    group += x->name[group] == '.';
    snprintf(lead, sizeof lead, "%.*s", group, x->name);
    report__html(
        out,
        "<tr><th scope=\"row\"><code>%s<wbr/>%s</code>%s</th><td>%s</td>"
        "<td>%s</td><td><svg viewBox=\"0 0 %d %d\" width=\"%d\" "
        "height=\"%d\" aria-hidden=\"true\">",
        lead, x->name + group, x->usual ? " *" : "", x->before, x->after,
        PAGE_WIDE, PAGE_HIGH, PAGE_WIDE, PAGE_HIGH);
    page_bar(out, "m3", PAGE_HIGH - 2, -TENTH, TENTH);
    page_bar(out, "m5", DARK, x->score[0], x->score[2]);
    fprintf(out, "<path class=\"thick\" d=\"M%.1f 2V%d\"/></svg></td></tr>\n",
            across(x->score[1]), PAGE_HIGH - 2);
}

void draw__fit_inputs_page(FILE *out, const struct draw__input *inputs,
                           size_t count)
{
    if (count == 0)
        return;
    fputs("<figure><h3>What was learned of the house</h3><p>Pale: what was "
          "thought, 8 chances in 10. Dark: what is left, likewise, with its "
          "middle marked. A short dark bar is known well; one beyond the pale "
          "wants a look at the house.</p>\n<div class=\"wide\"><table "
          "class=\"inputs\">",
          out);
    report__html_heads(out, "Figure|thought|now|lower, as thought, higher");
    for (size_t i = 0; i < count; i++)
        page_row(out, &inputs[i]);
    fputs("</tbody></table></div></figure>\n", out);
}
