/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outdoor temperature against indoor RH, and where the glass wets. */
#include <math.h>
#include <string.h>

#include "dew/surface.h"
#include "draw/charts.h"
#include "report/markup.h"
#include "report/words.h"

enum { LINE = 60, STEP = 5 /* K, rows of the table */ };

static double degrees(const struct draw__chart *c, double t)
{
    return report__shown(t, DEW_TEMPERATURE, c->r->system);
}

/* What the chart spans, and the glass of its option. */
struct glass {
    double factor, t_in, coldest, warmest, driest;
};

static struct glass glass_of(const struct draw__chart *c)
{
    const struct dew_outcome *o = draw__chart_outcome(c, c->option);
    const struct dew_case *house = c->r->question->choices[c->option].c;
    struct glass g = {house->house.surfaces[DEW_GLASS].factor,
                      o->year.t_sum / o->year.hours, INFINITY, -INFINITY, 1};

    for (size_t i = 0; i < c->r->question->count; i++) {
        const struct dew_outcome *each = draw__chart_outcome(c, i);

        for (size_t h = 0; h < each->count; h++) {
            g.coldest = fmin(g.coldest, each->series.t_out[h]);
            g.warmest = fmax(g.warmest, each->series.t_out[h]);
            g.driest = fmin(g.driest, each->series.rh[h]);
        }
    }
    g.coldest = STEP * floor(g.coldest / STEP);
    g.warmest = STEP * ceil(g.warmest / STEP);
    if (!(g.warmest > g.coldest))
        g.warmest = g.coldest + STEP;
    return g;
}

static void glass_line(const struct draw__plot *p, const struct draw__chart *c,
                       const struct glass *g)
{
    double x[LINE], y[LINE];

    for (int i = 0; i < LINE; i++) {
        double t = g->coldest + (g->warmest - g->coldest) * i / (LINE - 1);
        double rh = dew_house_wets_at(g->factor, g->t_in, t);

        x[i] = degrees(c, t);
        y[i] = rh <= 1 ? 100 * rh : NAN;
    }
    draw__svg_line(p, x, y, LINE, "edge");
}

/* Places that hold a dot already, a bit each, on a grid finer than a dot. */
enum { GRID = 2, ACROSS = DRAW__SVG_WIDE / GRID, DOWN = DRAW__SVG_HIGH / GRID };
typedef unsigned char grid[ACROSS][(DOWN + 7) / 8];

/* Takes a place; 0 where it is outside, or was taken. */
static int take(grid taken, double x, double y)
{
    unsigned char *at, bit;

    if (!(x >= 0 && x < ACROSS && y >= 0 && y < DOWN))
        return 0;
    at = &taken[(int)x][(int)y / 8];
    bit = (unsigned char)(1U << ((int)y % 8));
    if (*at & bit)
        return 0;
    *at |= bit;
    return 1;
}

/* A dot for every hour; one where many fall on the same place. */
static void dots(const struct draw__plot *p, const struct draw__chart *c)
{
    const struct dew_outcome *o = draw__chart_outcome(c, c->option);
    grid taken;

    memset(taken, 0, sizeof taken);
    fputs("<path class=\"dots\" d=\"", p->out);
    for (size_t h = 0; h < o->count; h++) {
        double x = draw__svg_x(p, degrees(c, o->series.t_out[h])) / GRID;
        double y = draw__svg_y(p, 100 * o->series.rh[h]) / GRID;

        if (take(taken, x, y))
            fprintf(p->out, "M%.1f %.1fh0", GRID * x, GRID * y);
    }
    fputs("\"/>\n", p->out);
}

static void glass_row(const struct draw__chart *c, const struct glass *g,
                      double low)
{
    const struct dew_outcome *o = draw__chart_outcome(c, c->option);
    double n = 0, sum = 0, most = 0;
    double limit = dew_house_wets_at(g->factor, g->t_in, low + STEP / 2.0);

    for (size_t h = 0; h < o->count; h++)
        if (o->series.t_out[h] >= low && o->series.t_out[h] < low + STEP) {
            n += 1;
            sum += o->series.rh[h];
            most = fmax(most, o->series.rh[h]);
        }
    if (n == 0)
        return;
    report__html_row(
        c->out, "%s to %s|%s|%s|%s|%s", report__number(degrees(c, low), 0).text,
        report__number(degrees(c, low + STEP), 0).text,
        report__number(n, 0).text, report__number(100 * sum / n, 0).text,
        report__number(100 * most, 0).text,
        limit < 1 ? report__number(100 * limit, 0).text : "never");
}

static void glass_table(const struct draw__chart *c, const struct glass *g)
{
    report__html_heads(
        c->out,
        "outdoors, %s|hours|mean indoor RH, %%|highest, %%|glass "
        "wets at, %%",
        report__unit(DEW_TEMPERATURE, c->r->system)->name);
    for (int k = 0; g->coldest + STEP * k < g->warmest; k++)
        glass_row(c, g, g->coldest + STEP * k);
    fputs("</tbody>", c->out);
}

static void glass_words(const struct draw__chart *c, struct draw__figure *f)
{
    const struct dew_tally *y = &draw__chart_outcome(c, c->option)->year;

    snprintf(f->heading, sizeof f->heading, "When the glass wets: %.120s",
             report__option(c->r, (int)c->option).text);
    snprintf(f->note, sizeof f->note,
             "A dot is an hour. Above the line, drawn for the mean temperature "
             "indoors, the middle of the glass is wet; edges and frames are "
             "colder and wet sooner.");
    snprintf(f->words, sizeof f->words,
             "The glass is wet in %.20s hours of the year, its edge in %.20s.",
             report__number(y->sweat[DEW_GLASS], 0).text,
             report__number(y->sweat[DEW_EDGE], 0).text);
    draw__figure_key(f, 0, DRAW__DOTS, "an hour of the year");
    draw__figure_key(f, 0, DRAW__EDGE, "the glass wets above");
}

void draw__chart_glass(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    struct glass g = glass_of(c);
    struct draw__plot p = {.out = c->out,
                           .x0 = degrees(c, g.coldest),
                           .x1 = degrees(c, g.warmest),
                           .y0 = 10 * floor(10 * g.driest),
                           .y1 = 100};
    char level[80];

    glass_words(c, &f);
    f.zooms = 1;
    draw__figure_open(&f, &p, "indoor RH, %%");
    draw__svg_upright(&p);
    snprintf(level, sizeof level, "outdoor temperature, %s",
             report__unit(DEW_TEMPERATURE, c->r->system)->name);
    draw__svg_level(&p, p.x1, level);
    draw__svg_marks_open(&p);
    dots(&p, c);
    if (g.factor > 0)
        glass_line(&p, c, &g);
    if (draw__figure_table(&f, &p, "Indoor RH by outdoor temperature"))
        glass_table(c, &g);
    draw__figure_close(&f);
}
