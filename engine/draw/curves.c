/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/curves.h"

#include <math.h>

#include <string.h>

static double most(const struct draw__curves *c, int along)
{
    double top = along ? 0 : 1.2 * c->limit;

    for (int i = 0; i < c->count; i++)
        for (int k = 0; k < c->list[i].count; k++) {
            const struct draw__curve *l = &c->list[i];

            top = fmax(top, along ? l->x[k] : fmax(l->mid[k], l->high[k]));
        }
    return fmax(top, 1);
}

static void one(const struct draw__plot *p, const struct draw__curve *l, int i)
{
    const double *const ends[2] = {l->low, l->high};

    draw__svg_band(p, l->x, ends, l->count, (size_t)i);
    draw__svg_line(p, l->x, l->mid, l->count, draw__svg_kind((size_t)i));
}

static void legend(struct draw__figure *f, const struct draw__curves *c)
{
    snprintf(f->heading, sizeof f->heading, "%.200s", c->heading);
    snprintf(f->note, sizeof f->note, "%.400s", c->note);
    snprintf(f->words, sizeof f->words, "%.400s", c->words);
    for (int i = 0; i < c->count; i++)
        draw__figure_key(f, i, DRAW__LINE, c->list[i].words);
    if (!isnan(c->limit))
        draw__figure_key(f, 0, DRAW__EDGE, c->limit_words);
    if (!isnan(c->mark))
        draw__figure_key(f, 0, DRAW__THIN, c->mark_words);
}

void draw__curves(FILE *out, const struct draw__curves *c,
                  struct draw__figure *f)
{
    struct draw__plot p = {
        .out = out, .x1 = 1.02 * most(c, 1), .y1 = 1.05 * most(c, 0)};
    const double ends[2] = {0, p.x1}, limit[2] = {c->limit, c->limit};

    memset(f, 0, sizeof *f);
    f->out = out;
    f->alone = 1;
    legend(f, c);
    draw__figure_open(f, &p, "%.100s", c->up);
    draw__svg_upright(&p);
    draw__svg_level(&p, p.x1, c->along);
    draw__svg_marks_open(&p);
    for (int i = 0; i < c->count; i++)
        one(&p, &c->list[i], i);
    if (!isnan(c->limit))
        draw__svg_line(&p, ends, limit, 2, "edge");
    if (!isnan(c->mark))
        draw__svg_upstroke(&p, c->mark, "thin", c->mark_words);
    (void)draw__figure_table(f, &p, c->heading);
    draw__figure_close(f);
}
