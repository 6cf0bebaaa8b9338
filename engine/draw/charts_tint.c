/* SPDX-License-Identifier: GPL-3.0-or-later */
/* More options than bars can show: a table of months, tinted by its figures. */
#include "draw/charts_tint.h"

#include <math.h>

#include "report/markup.h"
#include "report/words.h"

enum { TINTS = 4 };

int draw__tinted(const struct draw__chart *c)
{
    return !c->alone && c->r->question->count > DRAW__BARS;
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

void draw__tint_open(const struct draw__chart *c, const struct draw__tint *t)
{
    double highest = most(c, t);

    report__html(c->out,
                 "<figure class=\"%s\"><h3>%s</h3><p>%s The darker, the more: "
                 "in quarters of %s, the most of a month.</p>\n<div "
                 "class=\"wide\"><table><caption>%s</caption>\n",
                 t->class, t->heading, t->note, report__number(highest, 0).text,
                 t->heading);
    draw__chart_month_heads(c->out, "Option");
    for (size_t i = 0; i < c->r->question->count; i++)
        row(c, t, i, highest);
    fputs("</tbody></table></div>\n", c->out);
}
