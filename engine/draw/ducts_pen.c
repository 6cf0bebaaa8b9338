/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes and words of a sketch of air paths. */
#include "draw/ducts_pen.h"

#include <math.h>
#include <string.h>

#include "draw/svg.h"
#include "report/markup.h"

static const char *const classes[] = {"d-fresh", "d-stale", "d-trunk",
                                      "d-astray"};

/* ---- flows --------------------------------------------------------------- */

/* A run by its name, "return trunk 1"; -1 when there is none. */
int draw__pen_run_named(const struct draw__pen *p, const char *name, int of)
{
    struct dew_duct_written w = dew_ducts_as_written(p->t->ducts);
    char whole[80];

    snprintf(whole, sizeof whole, "%s %d", name, of + 1);
    for (size_t i = 0; i < w.run_count; i++)
        if (strcmp(w.runs[i].branch.name, whole) == 0)
            return (int)i;
    return -1;
}

int draw__pen_run(const struct draw__pen *p, enum dew_duct_role role, int of)
{
    struct dew_duct_written w = dew_ducts_as_written(p->t->ducts);

    for (size_t i = 0; i < w.run_count; i++)
        if (w.runs[i].role == role && w.runs[i].of == of)
            return (int)i;
    return -1;
}

struct draw__flow draw__pen_air(const struct draw__pen *p, int run)
{
    double q, share;

    if (run < 0)
        return (struct draw__flow){0, 0};
    q = dew_ducts_run_flow(p->t->ducts, (size_t)run);
    share = dew_ducts_run_fresh(p->t->ducts, (size_t)run);
    return (struct draw__flow){q, fabs(q) * share};
}

/* ---- strokes ------------------------------------------------------------- */

double draw__pen_width(const struct draw__pen *p, double q)
{
    const double least = 1.6, root = 13;

    return least + root * sqrt(fabs(q) / p->most);
}

void draw__pen_path(const struct draw__pen *p, const struct draw__spot *at,
                    int n, const char *class, double width)
{
    if (p->words)
        return;
    fprintf(p->out, "<polyline class=\"%s\" stroke-width=\"%.1f\" points=\"",
            class, width);
    for (int i = 0; i < n; i++)
        fprintf(p->out, "%s%.1f,%.1f", i > 0 ? " " : "", at[i].x, at[i].y);
    fputs("\"/>\n", p->out);
}

void draw__pen_words(const struct draw__pen *p, struct draw__spot at,
                     const char *class, const char *text)
{
    if (!p->words)
        return;
    fprintf(p->out, "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\">", class, at.x,
            at.y);
    report__escape(p->out, text);
    fputs("</text>\n", p->out);
}

/* A head that points along the flow, at the middle of a to b. */
static void head(const struct draw__pen *p, struct draw__spot a,
                 struct draw__spot b, double q, double width)
{
    double sign = q < 0 ? -1 : 1, length = hypot(b.x - a.x, b.y - a.y);
    double ux = sign * (b.x - a.x) / length, uy = sign * (b.y - a.y) / length;
    double size = 3.6 + 0.45 * width;
    struct draw__spot m = {0.5 * (a.x + b.x), 0.5 * (a.y + b.y)};

    fprintf(p->out,
            "<polygon class=\"d-head\" points=\"%.1f,%.1f %.1f,%.1f "
            "%.1f,%.1f\"/>\n",
            m.x + size * ux, m.y + size * uy, m.x - 0.7 * size * ux - size * uy,
            m.y - 0.7 * size * uy + size * ux,
            m.x - 0.7 * size * ux + size * uy,
            m.y - 0.7 * size * uy - size * ux);
}

/* The longest part of a line of corners. */
static int longest(const struct draw__spot *at, int n)
{
    int best = 0;

    for (int i = 1; i + 1 < n; i++)
        if (hypot(at[i + 1].x - at[i].x, at[i + 1].y - at[i].y) >
            hypot(at[best + 1].x - at[best].x, at[best + 1].y - at[best].y))
            best = i;
    return best;
}

/* A duct through corners, its flow positive along them. */
void draw__pen_duct(const struct draw__pen *p, const struct draw__spot *at,
                    int n, struct draw__flow air, enum draw__stroke stroke)
{
    double w = draw__pen_width(p, air.q);
    int i = longest(at, n);

    if (p->words || fabs(air.q) < DRAW__NO_FLOW)
        return;
    draw__pen_path(p, at, n, "d-halo", fmax(w, 3) + 4);
    draw__pen_path(p, at, n, classes[stroke], w);
    if (stroke == DRAW__STALE)
        draw__pen_path(p, at, n, "d-rungs", 0.45 * w);
    if (stroke == DRAW__TRUNK && air.fresh > DRAW__NO_FLOW)
        draw__pen_path(p, at, n,
                       p->s->vent == DEW_VENT_OFF ? "d-part d-lost" : "d-part",
                       fmax(w * fmin(air.fresh / fabs(air.q), 1), 1.2));
    head(p, at[i], at[i + 1], air.q, w);
}

/* How much flows, beside a place. */
void draw__pen_amount(const struct draw__pen *p, struct draw__spot at, double q,
                      const char *class)
{
    if (fabs(q) >= DRAW__NO_FLOW)
        draw__pen_words(p, at, class,
                        report__air_figure(fabs(q), p->system).text);
}
