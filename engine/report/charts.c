/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures: what they share, and the charts by month and by option. */
#include "report/charts.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "report/svg.h"
#include "report/words.h"

void dew__figure_open(FILE *out, const char *heading, const char *note)
{
    fputs("<figure><h3>", out);
    dew__escape(out, heading);
    fputs("</h3><p>", out);
    dew__escape(out, note);
    fputs("</p><div class=\"wide\" role=\"region\" tabindex=\"0\" "
          "aria-label=\"",
          out);
    dew__escape(out, heading);
    fputs("\">\n", out);
}

void dew__figure_table(FILE *out, const char *caption)
{
    fputs("</div><output></output><details><summary>The same as a "
          "table</summary><div class=\"wide\"><table><caption>",
          out);
    dew__escape(out, caption);
    fputs("</caption>\n", out);
}

void dew__figure_close(FILE *out)
{
    fputs("</table></div></details></figure>\n", out);
}

void dew__legend_open(FILE *out)
{
    fputs("<ul class=\"legend\">", out);
}

void dew__legend(FILE *out, int tone, int line, const char *words)
{
    fputs("<li><svg viewBox=\"0 0 26 14\" aria-hidden=\"true\">", out);
    if (line)
        fprintf(out, "<path class=\"l%d\" d=\"M1 7H25\"/>", tone % DEW__TONES);
    else
        fprintf(out,
                "<rect class=\"t%d\" x=\"1\" y=\"1\" width=\"24\" "
                "height=\"12\"/>",
                tone % DEW__TONES);
    fputs("</svg>", out);
    dew__escape(out, words);
    fputs("</li>", out);
}

void dew__legend_close(FILE *out)
{
    fputs("</ul>\n", out);
}

/* Eight tones: colour for the eye, pattern for grey paper. */
void dew__chart_patterns(FILE *out)
{
    static const char *const tone[DEW__TONES][2] = {
        {"#274690", ""},
        {"#d9a441", "M0 8L8 0"},
        {"#3f8f6b", "M0 4H8"},
        {"#a63d57", "M4 0V8"},
        {"#8aa6c1", "M0 0L8 8M0 8L8 0"},
        {"#c7c2b0", "M2 2h2M6 6h2"},
        {"#5d5a88", "M0 0L8 8"},
        {"#e9e4da", "M0 4H8M4 0V8"},
    };

    fputs("<svg class=\"none\" aria-hidden=\"true\"><defs>\n", out);
    for (int i = 0; i < DEW__TONES; i++)
        fprintf(out,
                "<pattern id=\"p%d\" width=\"8\" height=\"8\" "
                "patternUnits=\"userSpaceOnUse\"><rect width=\"8\" "
                "height=\"8\" fill=\"%s\"/><path d=\"%s\" stroke=\"#16202b\" "
                "stroke-width=\"1.2\" fill=\"none\"/></pattern>\n",
                i, tone[i][0], tone[i][1]);
    fputs("</defs></svg>\n", out);
}

static const struct dew_outcome *outcome(const struct dew_report *r, size_t i)
{
    return r->question->choices[i].outcome;
}

static void month_heads(FILE *out, const char *first)
{
    fprintf(out, "<thead><tr><th scope=\"col\">%s</th>", first);
    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(out, "<th scope=\"col\">%s</th>", dew__month_short(m));
    fputs("<th scope=\"col\">Year</th></tr></thead><tbody>\n", out);
}

/* ---- hours too humid by month ----------------------------------------------- */

static double most_humid(const struct dew_report *r)
{
    double most = 24;

    for (size_t i = 0; i < r->question->count; i++)
        for (int m = 0; m < DEW_MONTHS; m++)
            most = fmax(most, outcome(r, i)->month[m].too_humid);
    return most;
}

static void humid_bar(const struct dew__plot *p, const struct dew_report *r,
                      size_t i, int m)
{
    double n = (double)r->question->count, wide = 0.84 / n;
    double from = m + 0.08 + wide * (double)i;
    double hours = outcome(r, i)->month[m].too_humid;
    const double corner[4] = {from, 0, from + 0.94 * wide, hours};
    char words[400];

    snprintf(words, sizeof words, "%s, %.100s: %s h too humid", dew__month(m),
             dew__option(r, (int)i).text, dew__number(hours, 0).text);
    dew__svg_bar(p, corner, (int)i, words);
}

static void humid_rows(const struct dew_report *r, FILE *out)
{
    month_heads(out, "Option");
    for (size_t i = 0; i < r->question->count; i++) {
        fputs("<tr><th scope=\"row\">", out);
        dew__escape(out, dew__option(r, (int)i).text);
        fputs("</th>", out);
        for (int m = 0; m < DEW_MONTHS; m++)
            fprintf(out, "<td>%s</td>",
                    dew__number(outcome(r, i)->month[m].too_humid, 0).text);
        fprintf(out, "<td>%s</td></tr>\n",
                dew__number(outcome(r, i)->year.too_humid, 0).text);
    }
    fputs("</tbody>", out);
}

void dew__chart_humid_months(const struct dew_report *r, FILE *out)
{
    struct dew__plot p = {.out = out,
                          .x1 = 12,
                          .y1 = most_humid(r) * 1.05,
                          .title = "Hours too humid in each month, one bar "
                                   "for each option"};

    dew__figure_open(out, "Hours too humid, month by month",
                     "One bar for each option, in the order of the table.");
    dew__svg_open(&p, "hours");
    dew__svg_upright(&p);
    dew__svg_months(&p);
    for (int m = 0; m < DEW_MONTHS; m++)
        for (size_t i = 0; i < r->question->count; i++)
            humid_bar(&p, r, i, m);
    dew__svg_close(&p);
    dew__legend_open(out);
    for (size_t i = 0; i < r->question->count; i++)
        dew__legend(out, (int)i, 0, dew__option(r, (int)i).text);
    dew__legend_close(out);
    dew__figure_table(out, "Hours too humid");
    humid_rows(r, out);
    dew__figure_close(out);
}

/* ---- water by month ------------------------------------------------------------ */

enum { NAMED = 7, REST = NAMED };

struct flow {
    const char *words;
    size_t offset;
    double size; /* kg moved in a year, in and out alike */
};

static double flow_of(const struct dew_tally *t, size_t offset)
{
    return *(const double *)(const void *)((const char *)t + offset);
}

static void keep_large(struct flow *named, struct flow f)
{
    for (int k = 0; k < NAMED; k++)
        if (f.size > named[k].size) {
            struct flow moved = named[k];

            named[k] = f;
            f = moved;
        }
}

static void find_large(const struct dew_outcome *o, struct flow *named)
{
    struct flow f;

    memset(named, 0, NAMED * sizeof *named);
#define X(name, name_words)                                                    \
    f = (struct flow){name_words, offsetof(struct dew_tally, water.name), 0};  \
    for (int m = 0; m < DEW_MONTHS; m++)                                       \
        f.size += fabs(o->month[m].water.name);                                \
    keep_large(named, f);
    DEW_WATER_MAP(X)
#undef X
}

/* What the named flows leave over, in (sign 1) or out (-1). */
static double rest_of(const struct dew_tally *t, const struct flow *named,
                      double sign)
{
    double sum = 0;

#define X(name, words) sum += fmax(sign * t->water.name, 0);
    DEW_WATER_MAP(X)
#undef X
    for (int k = 0; k < NAMED; k++)
        if (named[k].words != NULL)
            sum -= fmax(sign * flow_of(t, named[k].offset), 0);
    return sign * fmax(sum, 0);
}

struct stack {
    const struct dew__plot *p;
    enum dew_system system;
    int month;
    double up, down; /* where the next piece begins, shown units */
};

static void pile(struct stack *s, double kg, int tone, const char *name)
{
    double x = s->month + 0.14;
    double amount = dew__shown(kg, DEW_WATER, s->system);
    double *end = amount > 0 ? &s->up : &s->down;
    const double corner[4] = {x, *end, x + 0.72, *end + amount};
    char words[400];

    snprintf(words, sizeof words, "%s, %s: %s", dew__month(s->month), name,
             dew__amount(kg, DEW_WATER, s->system, 0).text);
    dew__svg_bar(s->p, corner, tone, words);
    *end += amount;
}

static void pile_month(const struct dew__plot *p, const struct dew_report *r,
                       const struct dew_tally *t, const struct flow *named,
                       int month)
{
    struct stack s = {p, r->system, month, 0, 0};

    for (int k = 0; k < NAMED; k++)
        if (named[k].words != NULL)
            pile(&s, flow_of(t, named[k].offset), k, named[k].words);
    pile(&s, rest_of(t, named, 1), REST, "all other, in");
    pile(&s, rest_of(t, named, -1), REST, "all other, out");
}

/* The largest sum of one month, in or out, in shown units. */
static double most_water(const struct dew_report *r,
                         const struct dew_outcome *o)
{
    double most = 1;

    for (int m = 0; m < DEW_MONTHS; m++) {
        double in = 0, out = 0;

#define X(name, words)                                                         \
    in += fmax(o->month[m].water.name, 0);                                     \
    out += fmax(-o->month[m].water.name, 0);
        DEW_WATER_MAP(X)
#undef X
        most = fmax(most, fmax(in, out));
    }
    return dew__shown(most, DEW_WATER, r->system);
}

static void water_row(const struct dew_report *r, const struct dew_outcome *o,
                      const char *words, size_t offset, FILE *out)
{
    if (fabs(flow_of(&o->year, offset)) < 0.5)
        return;
    fprintf(out, "<tr><th scope=\"row\">%s</th>", words);
    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(out, "<td>%s</td>",
                dew__number(dew__shown(flow_of(&o->month[m], offset), DEW_WATER,
                                       r->system),
                            0)
                    .text);
    fprintf(out, "<td>%s</td></tr>\n",
            dew__number(
                dew__shown(flow_of(&o->year, offset), DEW_WATER, r->system), 0)
                .text);
}

static void water_table(const struct dew_report *r, const struct dew_outcome *o,
                        FILE *out)
{
    month_heads(out, dew__unit(DEW_WATER, r->system)->name);
#define X(name, words)                                                         \
    water_row(r, o, words, offsetof(struct dew_tally, water.name), out);
    DEW_WATER_MAP(X)
#undef X
    fputs("</tbody>", out);
}

void dew__chart_water(const struct dew_report *r, size_t option, FILE *out)
{
    const struct dew_outcome *o = outcome(r, option);
    double most = 1.05 * most_water(r, o);
    struct dew__plot p = {.out = out,
                          .x1 = 12,
                          .y0 = -most,
                          .y1 = most,
                          .title = "Water into and out of the air of the house "
                                   "in each month, stacked by what moves it"};
    struct flow named[NAMED];
    char heading[240];

    find_large(o, named);
    snprintf(heading, sizeof heading, "Water books of \"%.120s\"",
             dew__option(r, (int)option).text);
    dew__figure_open(out, heading,
                     "Above the line what comes into the air of the house, "
                     "below it what leaves.");
    dew__svg_open(&p, dew__unit(DEW_WATER, r->system)->name);
    dew__svg_upright(&p);
    dew__svg_months(&p);
    for (int m = 0; m < DEW_MONTHS; m++)
        pile_month(&p, r, &o->month[m], named, m);
    dew__svg_close(&p);
    dew__legend_open(out);
    for (int k = 0; k < NAMED; k++)
        if (named[k].words != NULL && named[k].size > 0)
            dew__legend(out, k, 0, named[k].words);
    dew__legend(out, REST, 0, "all other");
    dew__legend_close(out);
    dew__figure_table(out, "Water by month, + in, - out");
    water_table(r, o, out);
    dew__figure_close(out);
}

/* ---- energy -------------------------------------------------------------------- */

enum {
    USES = 0
#define X(name, words) +1
    DEW_ENERGY_MAP(X)
#undef X
};

static const struct use {
    const char *words;
    size_t offset;
} uses[USES] = {
#define X(name, words) {words, offsetof(struct dew_tally, energy.name)},
    DEW_ENERGY_MAP(X)
#undef X
};

static double use_of(const struct dew_report *r, size_t i, int k)
{
    return flow_of(&outcome(r, i)->year, uses[k].offset) / 3.6e6;
}

static int is_used(const struct dew_report *r, int k)
{
    for (size_t i = 0; i < r->question->count; i++)
        if (use_of(r, i, k) >= 0.5)
            return 1;
    return 0;
}

static double most_energy(const struct dew_report *r)
{
    double most = 1;

    for (size_t i = 0; i < r->question->count; i++) {
        double sum = 0;

        for (int k = 0; k < USES; k++)
            sum += use_of(r, i, k);
        most = fmax(most, sum);
    }
    return most;
}

static void energy_bar(const struct dew__plot *p, const struct dew_report *r,
                       size_t i)
{
    double at = 0;

    for (int k = 0; k < USES; k++) {
        double kwh = use_of(r, i, k);
        const double corner[4] = {(double)i + 0.2, at, (double)i + 0.8,
                                  at + kwh};
        char words[400];

        snprintf(words, sizeof words, "%.100s, %s: %s kWh",
                 dew__option(r, (int)i).text, uses[k].words,
                 dew__number(kwh, 0).text);
        dew__svg_bar(p, corner, k, words);
        at += kwh;
    }
    fprintf(p->out, "<text class=\"along\" x=\"%.1f\" y=\"%d\">%zu</text>\n",
            dew__svg_x(p, (double)i + 0.5), DEW__SVG_HIGH - DEW__SVG_FOOT + 16,
            i + 1);
}

static void energy_table(const struct dew_report *r, FILE *out)
{
    fputs("<thead><tr><th scope=\"col\">kWh a year</th>", out);
    for (size_t i = 0; i < r->question->count; i++) {
        fprintf(out, "<th scope=\"col\">%zu ", i + 1);
        dew__escape(out, dew__option(r, (int)i).text);
        fputs("</th>", out);
    }
    fputs("</tr></thead><tbody>\n", out);
    for (int k = 0; k < USES; k++) {
        if (!is_used(r, k))
            continue;
        fprintf(out, "<tr><th scope=\"row\">%s</th>", uses[k].words);
        for (size_t i = 0; i < r->question->count; i++)
            fprintf(out, "<td>%s</td>", dew__number(use_of(r, i, k), 0).text);
        fputs("</tr>\n", out);
    }
    fputs("</tbody>", out);
}

void dew__chart_energy(const struct dew_report *r, FILE *out)
{
    struct dew__plot p = {.out = out,
                          .x1 = (double)r->question->count,
                          .y1 = 1.05 * most_energy(r),
                          .title = "Energy used in a year by end use, one bar "
                                   "for each option"};

    dew__figure_open(out, "Energy by end use",
                     "Options are numbered as in the table.");
    dew__svg_open(&p, "kWh a year");
    dew__svg_upright(&p);
    for (size_t i = 0; i < r->question->count; i++)
        energy_bar(&p, r, i);
    dew__svg_close(&p);
    dew__legend_open(out);
    for (int k = 0; k < USES; k++)
        if (is_used(r, k))
            dew__legend(out, k, 0, uses[k].words);
    dew__legend_close(out);
    dew__figure_table(out, "Energy used in a year");
    energy_table(r, out);
    dew__figure_close(out);
}
