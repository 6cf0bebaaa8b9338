/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charts of energy by end use, and of cost over the years. */
#include <math.h>
#include <stddef.h>

#include "draw/charts_tint.h"
#include "report/markup.h"
#include "report/words.h"

/* ---- energy ---------------------------------------------------------------------- */

enum {
    USES = 0
#define X(name, words) +1
    DEW_ENERGY_MAP(X)
#undef X
};

_Static_assert((int)DRAW__ENERGY + USES <= (int)DRAW__WATER, "a tone each");

static const struct use {
    const char *words;
    size_t offset;
} uses[USES] = {
#define X(name, words) {words, offsetof(struct dew_energy, name)},
    DEW_ENERGY_MAP(X)
#undef X
};

static double use_of(const struct draw__chart *c, size_t i, int k)
{
    const char *energy = (const char *)&draw__chart_outcome(c, i)->year.energy;

    return *(const double *)(const void *)(energy + uses[k].offset) / CORE__KWH;
}

static int is_used(const struct draw__chart *c, int k)
{
    for (size_t i = 0; i < c->r->question->count; i++)
        if (use_of(c, i, k) >= 0.5)
            return 1;
    return 0;
}

static double all_uses(const struct draw__chart *c, size_t i)
{
    return study__energy(study__year(c->r->question, i)) / CORE__KWH;
}

static void energy_bar(const struct draw__plot *p, const struct draw__chart *c,
                       size_t i)
{
    double at = 0;
    char words[400];

    for (int k = 0; k < USES; k++) {
        double kwh = use_of(c, i, k);
        const double corner[4] = {(double)i + 0.2, at, (double)i + 0.8,
                                  at + kwh};

        snprintf(words, sizeof words, "%.100s, %s: %s kWh",
                 report__option(c->r, (int)i).text, uses[k].words,
                 report__number(kwh, 0).text);
        draw__svg_bar(p, corner, DRAW__ENERGY + k, words);
        at += kwh;
    }
}

/* Of a line of a name below a bar, and the lines. */
enum { NAME_LETTERS = 20, NAME_MOST = 5 };

static size_t name_line(const char *s)
{
    size_t length = 0, at;

    while (s[length] != '\0')
        length++;
    if (length <= NAME_LETTERS)
        return length;
    for (at = NAME_LETTERS; at > 0 && s[at] != ' '; at--)
        ;
    return at > 0 ? at : length;
}

int draw__chart_crowded(const struct draw__chart *c)
{
    return c->r->question->count > NAME_MOST;
}

/* The number of the option, and while there is room its name in two lines. */
void draw__chart_below(const struct draw__plot *p, const struct draw__chart *c,
                       size_t i)
{
    struct report__word name = report__option(c->r, (int)i);
    size_t first = name_line(name.text);
    char line[160];

    snprintf(line, sizeof line, "%zu", i + 1);
    draw__svg_below(p, (double)i + 0.5, 0, "along", line);
    if (draw__chart_crowded(c))
        return;
    snprintf(line, sizeof line, "%.*s", (int)first, name.text);
    draw__svg_below(p, (double)i + 0.5, 1, "name", line);
    if (name.text[first] == ' ')
        draw__svg_below(p, (double)i + 0.5, 2, "name", name.text + first + 1);
}

static void energy_table(const struct draw__chart *c)
{
    fputs("<thead><tr><th scope=\"col\">kWh a year</th>", c->out);
    for (size_t i = 0; i < c->r->question->count; i++)
        report__html(c->out, "<th scope=\"col\">%s</th>",
                     report__numbered(c->r, i).text);
    fputs("</tr></thead><tbody>\n", c->out);
    for (int k = 0; k < USES; k++) {
        if (!is_used(c, k))
            continue;
        fprintf(c->out, "<tr><th scope=\"row\">%s</th>", uses[k].words);
        for (size_t i = 0; i < c->r->question->count; i++)
            fprintf(c->out, "<td>%s</td>",
                    report__number(use_of(c, i, k), 0).text);
        fputs("</tr>\n", c->out);
    }
    fputs("</tbody><tfoot><tr><th scope=\"row\">all</th>", c->out);
    for (size_t i = 0; i < c->r->question->count; i++)
        fprintf(c->out, "<td>%s</td>", report__number(all_uses(c, i), 0).text);
    fputs("</tr></tfoot>", c->out);
}

static double energy_words(const struct draw__chart *c, struct draw__figure *f)
{
    double most = 0, least = INFINITY;

    for (size_t i = 0; i < c->r->question->count; i++) {
        most = fmax(most, all_uses(c, i));
        least = fmin(least, all_uses(c, i));
    }
    snprintf(f->heading, sizeof f->heading, "Energy by end use");
    snprintf(f->note, sizeof f->note,
             "One bar for each option, numbered as in the table. Heating and "
             "cooling of the house, ventilation and drying; nothing else.");
    snprintf(f->words, sizeof f->words, "From %.30s to %.30s kWh a year.",
             report__number(least, 0).text, report__number(most, 0).text);
    for (int k = 0; k < USES; k++)
        if (is_used(c, k))
            draw__figure_key(f, DRAW__ENERGY + k, DRAW__AREA, uses[k].words);
    return most;
}

static double month_energy(const struct dew_tally *t)
{
    return study__energy(t) / CORE__KWH;
}

/* Where bars would be slivers. */
static void energy_tinted(const struct draw__chart *c)
{
    static const struct draw__tint t = {
        "tint energy", "Energy, month by month",
        "kWh: heating and cooling of the house, ventilation and drying; "
        "nothing else.",
        month_energy};

    if (c->alone) {
        draw__tint_alone(c, &t);
        return;
    }
    draw__tint_open(c, &t);
    fputs("<details><summary>The year by end use</summary><div "
          "class=\"wide\"><table><caption>Energy used in a year</caption>\n",
          c->out);
    energy_table(c);
    fputs("</table></div></details></figure>\n", c->out);
}

static void energy_bars(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    double most = energy_words(c, &f);
    struct draw__plot p = {.out = c->out,
                           .x1 = (double)c->r->question->count,
                           .y1 = 1.05 * fmax(most, 1)};

    f.plain = draw__chart_crowded(c);
    draw__figure_open(&f, &p, "kWh a year");
    draw__svg_upright(&p);
    for (size_t i = 0; i < c->r->question->count; i++)
        draw__chart_below(&p, c, i);
    draw__svg_marks_open(&p);
    for (size_t i = 0; i < c->r->question->count; i++)
        energy_bar(&p, c, i);
    if (draw__figure_table(&f, &p, "Energy used in a year"))
        energy_table(c);
    draw__figure_close(&f);
}

void draw__chart_energy(const struct draw__chart *c)
{
    if (draw__tinted(c))
        energy_tinted(c);
    else
        energy_bars(c);
}

/* ---- cost over the years ------------------------------------------------------------ */

enum { YEARS_MOST = 60 };

/* Money paid up to the end of each year, in today's money. */
struct paid {
    int count; /* points, year 0 first */
    double x[YEARS_MOST + 1], likely[YEARS_MOST + 1], low[YEARS_MOST + 1],
        high[YEARS_MOST + 1];
};

static int last_year(const struct draw__chart *c)
{
    double years = c->r->question->prices->years;

    return years >= 1 ? (int)fmin(floor(years), YEARS_MOST) : 1;
}

static void pay(const struct draw__chart *c, size_t option, struct paid *out)
{
    struct dew_question q = *c->r->question;
    struct dew_prices prices = *q.prices;

    q.prices = &prices;
    out->count = last_year(c) + 1;
    for (int n = 0; n < out->count; n++) {
        struct dew_bill bill;

        prices.years = n;
        bill = dew_verdict_bill(&q, option);
        if (n == 0)
            bill.present = bill.install;
        out->x[n] = n;
        out->likely[n] = bill.present.likely;
        out->low[n] = bill.present.low;
        out->high[n] = bill.present.high;
    }
}

static double most_paid(const struct draw__chart *c)
{
    struct paid paid;
    double most = 1;

    for (size_t i = 0; i < c->r->question->count; i++) {
        pay(c, i, &paid);
        most = fmax(most, paid.high[paid.count - 1]);
        most = fmax(most, paid.likely[paid.count - 1]);
    }
    return most;
}

/* Money is drawn in thousands where it needs five figures. */
static double shown_in(double most)
{
    return most >= 10000 ? 1000 : 1;
}

static void scale(struct paid *paid, double per)
{
    for (int n = 0; n < paid->count; n++) {
        paid->likely[n] /= per;
        paid->low[n] /= per;
        paid->high[n] /= per;
    }
}

/* Near its end, and each line's at a place of its own: lines may meet there. */
static void line_number(const struct draw__plot *p, size_t i,
                        const struct paid *paid)
{
    int last = paid->count - 1;
    double part = fmax(0.97 - 0.035 * (double)i, 0.05), year = part * last;
    int n = (int)year < last ? (int)year : last - 1;
    double y =
        paid->likely[n] + (year - n) * (paid->likely[n + 1] - paid->likely[n]);

    draw__svg_number(p, year, y, (int)i + 1);
}

/* From low to high at the end, beside the frame's right edge: place of so
   many. */
static void reach(const struct draw__plot *p, const struct draw__chart *c,
                  size_t i, const struct paid *paid, double per)
{
    size_t count = c->r->question->count, many = count > DRAW__BARS;
    int last = paid->count - 1;
    double step = 0.1 * last / (double)((many ? 2 : count) + 1);
    double at = last + step * (double)((many && i > 0 ? 1 : i) + 1),
           half = fmin(0.3 * step, 0.008 * last);
    const double x[2] = {at, at};
    const double y[2] = {paid->low[last] / per, paid->high[last] / per};
    const double corner[4] = {at - half, y[0], at + half, y[1]};
    char words[400];

    if (!isfinite(y[0] + y[1]) || !(y[1] > y[0]))
        return;
    snprintf(words, sizeof words, "%.100s, %d years: %.40s (%.40s to %.40s)",
             report__option(c->r, (int)i).text, last,
             report__money(c->r, paid->likely[last]).text,
             report__money(c->r, paid->low[last]).text,
             report__money(c->r, paid->high[last]).text);
    draw__svg_line(p, x, y, 2, draw__svg_kind(i));
    draw__svg_number(p, at, y[1], (int)i + 1);
    draw__svg_bar(p, corner, draw__svg_option(i), words);
}

static void cost_lines(const struct draw__plot *p, const struct draw__chart *c,
                       double per)
{
    size_t beside = report__beside_today(c->r);
    struct paid paid;

    for (size_t i = 0; i < c->r->question->count; i++) {
        const double *const edges[2] = {paid.low, paid.high};

        pay(c, i, &paid);
        if (isnan(paid.likely[0]))
            continue; /* no price to install */
        if (i == 0 || i == beside || c->r->question->count <= DRAW__BARS)
            reach(p, c, i, &paid, per);
        scale(&paid, per);
        if (i == 0 || i == beside)
            draw__svg_band(p, paid.x, edges, paid.count, i);
        draw__svg_line(p, paid.x, paid.likely, paid.count, draw__svg_kind(i));
    }
    for (size_t i = 0; i < c->r->question->count; i++) {
        pay(c, i, &paid);
        scale(&paid, per);
        if (isfinite(paid.likely[0]))
            line_number(p, i, &paid);
    }
}

static void cost_cells(const struct draw__chart *c, const struct paid *paid)
{
    int last = paid->count - 1;

    for (int n = 0; n < last; n += 5)
        fprintf(c->out, "<td>%s</td>",
                report__money(c->r, paid->likely[n]).text);
    fprintf(c->out, "<td>%s</td>",
            report__price(c->r, paid->likely[last]).text);
    if (isnan(paid->likely[last]))
        fputs("<td>-</td></tr>\n", c->out);
    else
        fprintf(c->out, "<td>%s to %s</td></tr>\n",
                report__money(c->r, paid->low[last]).text,
                report__money(c->r, paid->high[last]).text);
}

static void cost_table(const struct draw__chart *c)
{
    int last = last_year(c);
    struct paid paid;

    fputs("<thead><tr><th scope=\"col\">Paid by the end of year</th>", c->out);
    for (int n = 0; n < last; n += 5)
        fprintf(c->out, "<th scope=\"col\">%d</th>", n);
    fprintf(c->out,
            "<th scope=\"col\">%d</th><th scope=\"col\">low to high</th></tr>"
            "</thead><tbody>\n",
            last);
    for (size_t i = 0; i < c->r->question->count; i++) {
        report__html(c->out, "<tr><th scope=\"row\">%s</th>",
                     report__numbered(c->r, i).text);
        pay(c, i, &paid);
        cost_cells(c, &paid);
    }
    fputs("</tbody>", c->out);
}

static void cost_in_words(const struct draw__chart *c, size_t beside,
                          const struct paid *paid, struct draw__figure *f)
{
    int last = paid->count - 1;

    if (isnan(paid->likely[0]))
        snprintf(f->words, sizeof f->words,
                 "What \"%.100s\" costs to install is not given.",
                 report__option(c->r, (int)beside).text);
    else
        snprintf(
            f->words, sizeof f->words,
            "\"%.100s\" has cost %.40s after %d years, low %.40s, high %.40s.",
            report__option(c->r, (int)beside).text,
            report__money(c->r, paid->likely[last]).text, last,
            report__money(c->r, paid->low[last]).text,
            report__money(c->r, paid->high[last]).text);
}

static void cost_words(const struct draw__chart *c, struct draw__figure *f)
{
    const struct dew_prices *p = c->r->question->prices;
    size_t beside = report__beside_today(c->r);
    struct paid paid = {.count = 0};

    snprintf(f->heading, sizeof f->heading, "Cost over the years");
    snprintf(
        f->note, sizeof f->note,
        "All that is paid up to a year, in today's money at %.20s %% "
        "interest. Shaded from low to high for 1 and %zu; bars on the right: "
        "the same%s. An option without a price to install has "
        "no line.",
        report__number(100 * p->interest, 1).text, beside + 1,
        c->r->question->count > DRAW__BARS ? "" : " for each");
    pay(c, beside, &paid);
    cost_in_words(c, beside, &paid, f);
    for (size_t i = 0; i < c->r->question->count; i++)
        draw__figure_key(f, draw__svg_option(i), DRAW__LINE,
                         report__numbered(c->r, i).text);
}

void draw__chart_cost(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    const char *currency = c->r->question->prices->currency;
    double most = most_paid(c), per = shown_in(most);
    struct draw__plot p = {
        .out = c->out, .x1 = 1.1 * last_year(c), .y1 = 1.09 * most / per};

    cost_words(c, &f);
    draw__figure_open(&f, &p, "%s%s, in today's money",
                      per > 1 ? "thousand " : "", currency[0] ? currency : "$");
    draw__svg_upright(&p);
    draw__svg_level(&p, last_year(c), "years from now");
    draw__svg_marks_open(&p);
    cost_lines(&p, c, per);
    if (draw__figure_table(&f, &p, "Cost in today's money"))
        cost_table(c);
    draw__figure_close(&f);
}
