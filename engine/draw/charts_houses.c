/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charts of the houses drawn: how far their hours too humid go apart, by
   option, and month by month. */
#include <math.h>

#include "draw/charts.h"
#include "report/markup.h"
#include "report/words.h"

static const struct dew_draws *draws(const struct draw__chart *c)
{
    return c->r->question->draws;
}

static struct dew_draws_range of_year(const struct draw__chart *c, size_t i)
{
    return dew_draws_range(draws(c), i, DEW_DRAWN_too_humid);
}

static struct report__word hours(double h)
{
    return report__number(h, 0);
}

/* A bar from one in ten to nine in ten, a stroke at the middle of them. */
static void range_bar(const struct draw__plot *p,
                      const struct dew_draws_range *r, const double x[2],
                      int tone, const char *words)
{
    const double corner[4] = {x[0], r->p10, x[1], r->p90};
    const double mid[2] = {r->p50, r->p50};

    draw__svg_bar(p, corner, tone, words);
    draw__svg_line(p, x, mid, 2, "thick");
}

static void keys(struct draw__figure *f)
{
    draw__figure_key(f, 0, DRAW__THICK, "half of the houses have less");
}

/* ---- by option ------------------------------------------------------------------- */

static void option_bar(const struct draw__plot *p, const struct draw__chart *c,
                       size_t i)
{
    struct dew_draws_range r = of_year(c, i);
    const double x[2] = {(double)i + 0.2, (double)i + 0.8};
    char words[400];

    snprintf(words, sizeof words,
             "%.100s: %.30s to %.30s h too humid, half below %.30s; as told "
             "%.30s",
             report__option(c->r, (int)i).text, hours(r.p10).text,
             hours(r.p90).text, hours(r.p50).text, hours(r.told).text);
    range_bar(p, &r, x, draw__svg_option(i), words);
}

/* What still keeps the limit. */
static double allowed(const struct draw__chart *c)
{
    return study__allowed(c->r->question, draw__chart_outcome(c, 0));
}

static void option_words(const struct draw__chart *c, struct draw__figure *f)
{
    size_t other = dew_report_beside_today(c->r);
    struct dew_draws_range r = of_year(c, other);

    snprintf(f->heading, sizeof f->heading,
             "Hours too humid in houses like yours");
    snprintf(f->note, sizeof f->note,
             "Of %zu houses drawn: each bar holds 8 of 10. One for each "
             "option, numbered as in the table.",
             draws(c)->count);
    snprintf(f->words, sizeof f->words,
             "With \"%.160s\" from %.30s to %.30s hours in 8 of 10 houses; "
             "%.30s keep the limit.",
             report__option(c->r, (int)other).text, hours(r.p10).text,
             hours(r.p90).text, hours(allowed(c)).text);
    keys(f);
    draw__figure_key(f, 0, DRAW__EDGE, "up to here the limit is kept");
}

static void option_table(const struct draw__chart *c)
{
    fputs("<thead><tr><th scope=\"col\">Option</th><th scope=\"col\">low</th>"
          "<th scope=\"col\">middle</th><th scope=\"col\">high</th>"
          "<th scope=\"col\">as told</th></tr></thead><tbody>\n",
          c->out);
    for (size_t i = 0; i < c->r->question->count; i++) {
        struct dew_draws_range r = of_year(c, i);

        report__html(c->out, "<tr><th scope=\"row\">%s</th>",
                     report__numbered(c->r, i).text);
        report__html(c->out, "<td>%s</td><td>%s</td><td>%s</td><td>%s</td>",
                     hours(r.p10).text, hours(r.p50).text, hours(r.p90).text,
                     hours(r.told).text);
        fputs("</tr>\n", c->out);
    }
    fputs("</tbody>", c->out);
}

void draw__chart_houses(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    size_t count = c->r->question->count;
    struct draw__plot p = {.out = c->out, .x1 = (double)count};
    const double across[2] = {0, (double)count};
    const double limit[2] = {allowed(c), allowed(c)};

    p.y1 = 2 * limit[0];
    for (size_t i = 0; i < count; i++)
        p.y1 = fmax(p.y1, 1.05 * of_year(c, i).p90);
    option_words(c, &f);
    f.plain = draw__chart_crowded(c);
    draw__figure_open(&f, &p, "hours too humid in the %s",
                      report__span(c->r).text);
    draw__svg_upright(&p);
    for (size_t i = 0; i < count; i++)
        draw__chart_below(&p, c, i);
    draw__svg_marks_open(&p);
    for (size_t i = 0; i < count; i++)
        option_bar(&p, c, i);
    draw__svg_line(&p, across, limit, 2, "edge");
    if (draw__figure_table(&f, &p, "Hours too humid in houses like yours"))
        option_table(c);
    draw__figure_close(&f);
}

/* ---- by month -------------------------------------------------------------------- */

/* Today, and the option beside it: how many of the two there are. */
static size_t pair(const struct draw__chart *c, size_t which[2])
{
    which[0] = 0;
    which[1] = dew_report_beside_today(c->r);
    return which[1] > 0 ? 2 : 1;
}

static void month_bar(const struct draw__plot *p, const struct draw__chart *c,
                      size_t option, size_t k, int m)
{
    struct dew_draws_range r = dew_draws_month(draws(c), option, m);
    const double x[2] = {m + 0.12 + 0.4 * (double)k,
                         m + 0.48 + 0.4 * (double)k};
    char words[400];

    snprintf(words, sizeof words, "%.20s, %.100s: %.30s to %.30s h too humid",
             report__month(m), report__option(c->r, (int)option).text,
             hours(r.p10).text, hours(r.p90).text);
    range_bar(p, &r, x, draw__svg_option(option), words);
}

static void month_rows(const struct draw__chart *c, const size_t *which,
                       size_t count)
{
    draw__chart_month_heads(c->out, "Option, low to high");
    for (size_t k = 0; k < count; k++) {
        struct dew_draws_range y = of_year(c, which[k]);

        report__html(c->out, "<tr><th scope=\"row\">%s</th>",
                     report__numbered(c->r, which[k]).text);
        for (int m = 0; m < DEW_MONTHS; m++) {
            struct dew_draws_range r = dew_draws_month(draws(c), which[k], m);

            report__html(c->out, "<td>%s to %s</td>", hours(r.p10).text,
                         hours(r.p90).text);
        }
        report__html(c->out, "<td>%s to %s</td></tr>\n", hours(y.p10).text,
                     hours(y.p90).text);
    }
    fputs("</tbody>", c->out);
}

static void month_words(const struct draw__chart *c, struct draw__figure *f,
                        const size_t *which, size_t count)
{
    int worst = 0;

    for (int m = 1; m < DEW_MONTHS; m++)
        if (dew_draws_month(draws(c), 0, m).p90 >
            dew_draws_month(draws(c), 0, worst).p90)
            worst = m;
    snprintf(f->heading, sizeof f->heading,
             "Houses like yours, month by month");
    snprintf(f->note, sizeof f->note,
             "Hours too humid; each bar holds 8 of 10 houses drawn.");
    snprintf(f->words, sizeof f->words,
             "Widest today in %.20s: %.30s to %.30s hours in 8 of 10 houses.",
             report__month(worst),
             hours(dew_draws_month(draws(c), 0, worst).p10).text,
             hours(dew_draws_month(draws(c), 0, worst).p90).text);
    for (size_t k = 0; k < count; k++)
        draw__figure_key(f, draw__svg_option(which[k]), DRAW__AREA,
                         report__numbered(c->r, which[k]).text);
    keys(f);
}

void draw__chart_houses_months(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    struct draw__plot p = {.out = c->out, .x1 = DEW_MONTHS, .y1 = 24};
    size_t which[2], count = pair(c, which);

    for (size_t k = 0; k < count; k++)
        for (int m = 0; m < DEW_MONTHS; m++)
            p.y1 =
                fmax(p.y1, 1.05 * dew_draws_month(draws(c), which[k], m).p90);
    month_words(c, &f, which, count);
    f.plain = 1;
    draw__figure_open(&f, &p, "hours too humid in the month");
    draw__svg_upright(&p);
    draw__svg_months(&p);
    draw__svg_marks_open(&p);
    for (int m = 0; m < DEW_MONTHS; m++)
        for (size_t k = 0; k < count; k++)
            month_bar(&p, c, which[k], k, m);
    if (draw__figure_table(&f, &p, "Hours too humid by month, low to high"))
        month_rows(c, which, count);
    draw__figure_close(&f);
}
