/* SPDX-License-Identifier: GPL-3.0-or-later */
/* More options than bars can show: a table of months, tinted by its figures. */
#include "draw/charts_tint.h"

#include <math.h>

#include "report/markup.h"
#include "report/words.h"

enum { TINTS = 4 };

int draw__tinted(const struct draw__chart *c)
{
    return c->r->question->count > DRAW__BARS;
}

static double shown(const struct draw__chart *c, const struct draw__tint *t,
                    size_t option, int month)
{
    return nearbyint(t->of(&draw__chart_outcome(c, option)->month[month]));
}

static double most(const struct draw__chart *c, const struct draw__tint *t)
{
    double found = 0;

    for (size_t i = 0; i < c->r->question->count; i++)
        for (int m = 0; m < DEW_MONTHS; m++)
            found = fmax(found, shown(c, t, i, m));
    return found;
}

/* 0 of nothing, else the quarter of the most that the printed figure is in. */
static int tint(double figure, double highest)
{
    return figure > 0 ? (int)ceil(TINTS * figure / highest) : 0;
}

static void row(const struct draw__chart *c, const struct draw__tint *t,
                size_t i, double highest)
{
    int best = c->r->verdict->best == (int)i;

    report__html(c->out, "<tr%-s><th scope=\"row\">%s</th>",
                 best ? " class=\"best\"" : "", report__numbered(c->r, i).text);
    for (int m = 0; m < DEW_MONTHS; m++) {
        double figure = shown(c, t, i, m);

        report__html(c->out, "<td class=\"h%d\">%s</td>", tint(figure, highest),
                     report__number(figure, 0).text);
    }
    report__html(
        c->out, "<td>%s</td></tr>\n",
        report__number(t->of(&draw__chart_outcome(c, i)->year), 0).text);
}

static void explain(const struct draw__tint *t, double highest, char *out,
                    size_t size)
{
    snprintf(out, size,
             "%s The darker, the more: in quarters of %.30s, the most of a "
             "month.",
             t->note, report__number(highest, 0).text);
}

void draw__tint_open(const struct draw__chart *c, const struct draw__tint *t)
{
    double highest = most(c, t);
    char note[DRAW__FIGURE_TEXT];

    explain(t, highest, note, sizeof note);
    report__html(c->out,
                 "<figure class=\"%s\"><h3>%s</h3><p>%s</p>\n<div "
                 "class=\"wide\"><table><caption>%s</caption>\n",
                 t->class, t->heading, note, t->heading);
    draw__chart_month_heads(c->out, "Option");
    for (size_t i = 0; i < c->r->question->count; i++)
        row(c, t, i, highest);
    fputs("</tbody></table></div>\n", c->out);
}

/* ---- alone ------------------------------------------------------------------------ */

/* Places in the units of the view box: names, months, the year. */
enum {
    NAMES = DRAW__FIGURE_EDGE,
    NAMES_WIDE = 236,
    MONTHS = NAMES + NAMES_WIDE + 4,
    MONTH_WIDE = 36,
    YEAR = DRAW__SVG_WIDE - DRAW__FIGURE_EDGE,
    BASE_LINE = 15 /* of a row */
};

static void heads_alone(FILE *out, double y)
{
    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(out, "<text class=\"cell\" x=\"%.1f\" y=\"%.1f\">%s</text>",
                MONTHS + MONTH_WIDE * (m + 0.5), y + BASE_LINE,
                report__month_short(m));
    fprintf(out, "<text class=\"up\" x=\"%d\" y=\"%.1f\">year</text>\n", YEAR,
            y + BASE_LINE);
}

static void cell_alone(FILE *out, int m, double y, double figure, int shade)
{
    double x = MONTHS + MONTH_WIDE * m;

    if (shade > 0)
        fprintf(out,
                "<rect class=\"h%d\" x=\"%.1f\" y=\"%.1f\" width=\"%d\" "
                "height=\"%d\"/>",
                shade, x, y, MONTH_WIDE - 1, DRAW__TINT_ROW - 1);
    fprintf(out, "<text class=\"cell%s\" x=\"%.1f\" y=\"%.1f\">%s</text>",
            shade > 0 ? " on" : "", x + 0.5 * (MONTH_WIDE - 1), y + BASE_LINE,
            report__number(figure, 0).text);
}

/* A name that is too long is cut at the edge of its column. */
static void row_alone(const struct draw__chart *c, const struct draw__tint *t,
                      size_t i, double highest, double y)
{
    report__html(c->out,
                 "<svg x=\"%d\" y=\"%.1f\" width=\"%d\" height=\"%d\"><text "
                 "%-sy=\"%d\">%s</text></svg>",
                 NAMES, y, NAMES_WIDE, DRAW__TINT_ROW,
                 c->r->verdict->best == (int)i ? "class=\"strong\" " : "",
                 BASE_LINE, report__numbered(c->r, i).text);
    for (int m = 0; m < DEW_MONTHS; m++) {
        double figure = shown(c, t, i, m);

        cell_alone(c->out, m, y, figure, tint(figure, highest));
    }
    fprintf(c->out, "<text class=\"up\" x=\"%d\" y=\"%.1f\">%s</text>\n", YEAR,
            y + BASE_LINE,
            report__number(t->of(&draw__chart_outcome(c, i)->year), 0).text);
}

double draw__tint_rows(const struct draw__chart *c, const struct draw__tint *t,
                       const size_t *options, size_t count, double y)
{
    double highest = most(c, t);

    fprintf(c->out, "<g class=\"%s\">\n", t->class);
    heads_alone(c->out, y);
    for (size_t k = 0; k < count; k++)
        row_alone(c, t, options != NULL ? options[k] : k, highest,
                  y += DRAW__TINT_ROW);
    fputs("</g>\n", c->out);
    return y + DRAW__TINT_ROW;
}

void draw__tint_alone(const struct draw__chart *c, const struct draw__tint *t)
{
    struct draw__figure f = draw__chart_figure(c);
    size_t count = c->r->question->count;

    snprintf(f.heading, sizeof f.heading, "%s", t->heading);
    explain(t, most(c, t), f.note, sizeof f.note);
    snprintf(f.words, sizeof f.words, "%s", f.note);
    f.high = DRAW__FIGURE_TOP + DRAW__TINT_ROW * (int)(count + 1);
    draw__figure_begin(&f);
    draw__tint_rows(c, t, NULL, count, DRAW__FIGURE_TOP);
    draw__figure_end(&f);
}
