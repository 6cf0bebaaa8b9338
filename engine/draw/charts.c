/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of charts, and what they share. */
#include "draw/charts.h"

#include "core/fail.h"
#include "report/markup.h"
#include "report/words.h"

static const struct listed {
    const char *file;
    int each;
    void (*draw)(const struct draw__chart *c);
} listed[DEW_CHARTS] = {
#define X(name, file, each) {file, each, draw__chart_##name},
    DEW_CHART_MAP(X)
#undef X
};

void draw__chart_draw(enum dew_chart kind, const struct draw__chart *c)
{
    listed[kind].draw(c);
}

const char *dew_report_chart_file(enum dew_chart kind)
{
    return (unsigned)kind < DEW_CHARTS ? listed[kind].file : "";
}

int dew_report_chart_each(enum dew_chart kind)
{
    return (unsigned)kind < DEW_CHARTS && listed[kind].each;
}

size_t dew_report_chart_count(const struct dew_report *report,
                              enum dew_chart kind)
{
    if ((unsigned)kind >= DEW_CHARTS)
        return 0;
    if (kind == DEW_CHART_cost && report->question->prices == NULL)
        return 0;
    if ((kind == DEW_CHART_houses || kind == DEW_CHART_houses_months) &&
        report->question->draws == NULL)
        return 0;
    if ((kind == DEW_CHART_log_dew || kind == DEW_CHART_log_rh) &&
        report->laid == NULL)
        return 0;
    return listed[kind].each ? report->question->count : 1;
}

/* Which to draw as a file of its own. */
struct alone {
    const struct dew_report *r;
    enum dew_chart kind;
    size_t option;
};

static void alone(const void *of, FILE *out)
{
    const struct alone *a = of;
    const struct draw__chart c = {a->r, a->option, out, 1};

    listed[a->kind].draw(&c);
}

enum dew_status dew_report_chart(const struct dew_report *report,
                                 enum dew_chart kind, size_t option, FILE *out,
                                 struct dew_error *err)
{
    const struct alone a = {report, kind, option};

    if (option >= dew_report_chart_count(report, kind))
        return core__fail(err, DEW_ERANGE, "there is no such chart");
    return report__filled("the chart", alone, &a, out, err);
}

const struct dew_outcome *draw__chart_outcome(const struct draw__chart *c,
                                              size_t option)
{
    return c->r->question->choices[option].outcome;
}

struct draw__figure draw__chart_figure(const struct draw__chart *c)
{
    struct draw__figure f = {.out = c->out, .alone = c->alone};

    return f;
}

void draw__chart_month_heads(FILE *out, const char *first)
{
    fprintf(out, "<thead><tr><th scope=\"col\">%s</th>", first);
    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(out, "<th scope=\"col\">%s</th>", report__month_short(m));
    fputs("<th scope=\"col\">Year</th></tr></thead><tbody>\n", out);
}

static void month_cell(const struct draw__chart *c, const struct dew_tally *t,
                       size_t offset, double unit)
{
    const char *tally = (const char *)t;
    double x = *(const double *)(const void *)(tally + offset);

    report__html(c->out, "<td>%s</td>", report__number(x / unit, 0).text);
}

void draw__chart_month_row(const struct draw__chart *c, size_t option,
                           const char *name, size_t offset, double unit)
{
    const struct dew_outcome *o = draw__chart_outcome(c, option);

    report__html(c->out, "<tr><th scope=\"row\">%s</th>", name);
    for (int m = 0; m < DEW_MONTHS; m++)
        month_cell(c, &o->month[m], offset, unit);
    month_cell(c, &o->year, offset, unit);
    fputs("</tr>\n", c->out);
}
