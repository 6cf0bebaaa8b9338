/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The owner's log laid over the model, hour by hour. */
#include <math.h>

#include "draw/charts.h"
#include "report/log_sums.h"
#include "report/markup.h"
#include "report/words.h"

enum { DAY = DEW_DAY_HOURS, FEW_DAYS = 12, MANY_DAYS = 80, YEARS = 400 };

/* The hours from the first to the last that was logged. */
struct span {
    size_t first, count;
};

static struct span span_of(const struct draw__chart *c, const double *logged)
{
    size_t count = draw__chart_outcome(c, 0)->count, last = 0;
    struct span s = {0, 0};

    for (size_t h = 0; h < count; h++)
        if (isfinite(logged[h])) {
            if (s.count == 0)
                s.first = h;
            s.count = 1;
            last = h;
        }
    s.count = s.count ? last - s.first + 1 : 0;
    return s;
}

static double shown(const struct draw__chart *c, enum dew_chart kind, double x)
{
    return kind == DEW_CHART_log_rh
               ? 100 * x
               : report__shown(x, DEW_TEMPERATURE, c->r->system);
}

static void line(const struct draw__plot *p, const struct draw__chart *c,
                 enum dew_chart kind, const double *values, const char *look)
{
    size_t from = (size_t)p->x0, to = (size_t)p->x1;
    int down = 0;

    draw__svg_path_open(p, look);
    for (size_t h = from; h < to; h++)
        down = draw__svg_path_to(p, (double)h, shown(c, kind, values[h]), down);
    draw__svg_path_close(p);
}

/* Make room for values in the frame. */
static void stretch(struct draw__plot *p, const struct draw__chart *c,
                    enum dew_chart kind, const double *values)
{
    for (size_t h = (size_t)p->x0; h < (size_t)p->x1; h++) {
        double y = shown(c, kind, values[h]);

        if (isfinite(y)) {
            p->y0 = fmin(p->y0, y);
            p->y1 = fmax(p->y1, y);
        }
    }
}

void draw__chart_dates(const struct draw__plot *p, const struct dew_date *dates)
{
    double days = (p->x1 - p->x0) / DAY;
    int count = 0, written = 0;
    char words[24];

    for (size_t h = (size_t)p->x0; h < (size_t)p->x1; h++) {
        const struct dew_date *d = &dates[h];
        int due = days > YEARS       ? d->day == 1 && d->month % 2 == 1
                  : days > MANY_DAYS ? d->day == 1
                  : days > FEW_DAYS  ? count % 7 == 0
                                     : 1;

        if (d->hour != 1)
            continue;
        count++;
        if (!due)
            continue;
        snprintf(words, sizeof words, "%d %s", d->day,
                 report__month_short(d->month - 1));
        draw__svg_below(p, (double)h, 0, written++ % 3 ? "along odd" : "along",
                        words);
    }
}

/* What a chart of the log is drawn from. */
struct lines {
    const double *read, *model, *out; /* out: NULL = none */
    const char *name, *unit;
    int decimals;
};

static struct lines lines_of(const struct draw__chart *c, enum dew_chart kind)
{
    const struct dew_series *model = &draw__chart_outcome(c, 0)->series;
    const struct dew_report_log *log = c->r->laid;
    const double *out = log->dew_point_out ? log->dew_point_out
                        : log->same_hours  ? model->dew_point_out
                                           : NULL;

    if (kind == DEW_CHART_log_rh)
        return (struct lines){log->rh, model->rh, NULL, "RH", "%", 0};
    return (struct lines){log->dew_point,
                          model->dew_point,
                          out,
                          "dew point",
                          report__unit(DEW_TEMPERATURE, c->r->system)->name,
                          1};
}

/* Mean of the hours of a day that have a value. */
static double mean_of(const double *values, size_t from, size_t to)
{
    double sum = 0, n = 0;

    for (size_t h = from; h < to; h++)
        if (isfinite(values[h])) {
            sum += values[h];
            n += 1;
        }
    return sum / n;
}

static void days_spoken(const struct draw__plot *p, const struct draw__chart *c,
                        enum dew_chart kind, const struct lines *l)
{
    size_t end = (size_t)p->x1;
    char words[200];

    for (size_t h = (size_t)p->x0; h < end; h += DAY) {
        size_t to = h + DAY < end ? h + DAY : end;
        const struct dew_date *d = &c->r->dates[h];

        snprintf(
            words, sizeof words,
            "%d %s: %s of the log %.20s, of the model "
            "%.20s %.20s",
            d->day, report__month_short(d->month - 1), l->name,
            report__number(shown(c, kind, mean_of(l->read, h, to)), l->decimals)
                .text,
            report__number(shown(c, kind, mean_of(l->model, h, to)),
                           l->decimals)
                .text,
            l->unit);
        draw__svg_zone(p, (double)h, (double)to, words);
    }
}

static void log_words(const struct draw__chart *c, struct draw__figure *f,
                      const struct lines *l)
{
    struct report__log_sum sum = report__log_sum_of(c->r, -1);

    snprintf(f->heading, sizeof f->heading, "Your log: %s", l->name);
    snprintf(f->note, sizeof f->note,
             "Hour by hour, the log over the model of \"%.120s\".%s",
             report__option(c->r, 0).text,
             c->r->laid->same_hours
                 ? ""
                 : " The weather is of another year: compare levels, not "
                   "days.");
    snprintf(f->words, sizeof f->words, "%.20s hours logged beside the model.",
             report__number(sum.hours, 0).text);
    draw__figure_key(f, 0, DRAW__LOGGED, "your log");
    draw__figure_key(f, 0, DRAW__THICK, "the model, indoors");
    if (l->out != NULL)
        draw__figure_key(f, 0, DRAW__THIN, "outdoors");
}

static void table(const struct draw__chart *c, enum dew_chart kind,
                  const struct lines *l)
{
    report__html_heads(c->out, "Month|hours|log, %s|model, %s", l->unit,
                       l->unit);
    for (int m = 0; m < DEW_MONTHS; m++) {
        struct report__log_sum s = report__log_sum_of(c->r, m);
        int rh = kind == DEW_CHART_log_rh;

        if ((rh ? s.rh_hours : s.hours) == 0)
            continue;
        report__html_row(
            c->out, "%s|%s|%s|%s", report__month(m),
            report__number(rh ? s.rh_hours : s.hours, 0).text,
            report__number(shown(c, kind, rh ? s.rh_read : s.dew_read),
                           l->decimals)
                .text,
            report__number(shown(c, kind, rh ? s.rh_model : s.dew_model),
                           l->decimals)
                .text);
    }
    fputs("</tbody>", c->out);
}

static struct draw__plot frame(const struct draw__chart *c, enum dew_chart kind,
                               const struct lines *l)
{
    struct span s = span_of(c, l->read);
    struct draw__plot p = {.out = c->out,
                           .x0 = (double)s.first,
                           .x1 = (double)(s.first + s.count),
                           .y0 = INFINITY,
                           .y1 = -INFINITY};

    stretch(&p, c, kind, l->read);
    stretch(&p, c, kind, l->model);
    if (l->out != NULL)
        stretch(&p, c, kind, l->out);
    if (!(p.y1 > p.y0)) {
        p.y0 = isfinite(p.y0) ? p.y0 - 1 : 0;
        p.y1 = p.y0 + 2;
    }
    if (!(p.x1 > p.x0))
        p.x1 = p.x0 + 1;
    p.y0 -= 0.03 * (p.y1 - p.y0);
    p.y1 += 0.03 * (p.y1 - p.y0);
    return p;
}

static void draw(const struct draw__chart *c, enum dew_chart kind)
{
    struct lines l = lines_of(c, kind);
    struct draw__figure f = draw__chart_figure(c);
    struct draw__plot p = frame(c, kind, &l);

    log_words(c, &f, &l);
    f.zooms = f.plain = 1;
    draw__figure_open(&f, &p, "%s, %.40s", l.name, l.unit);
    draw__svg_upright(&p);
    draw__chart_dates(&p, c->r->dates);
    draw__svg_marks_open(&p);
    if (l.out != NULL)
        line(&p, c, kind, l.out, "thin");
    line(&p, c, kind, l.model, "thick");
    line(&p, c, kind, l.read, "logged");
    if (!c->alone)
        days_spoken(&p, c, kind, &l);
    if (draw__figure_table(&f, &p, "Means by month"))
        table(c, kind, &l);
    draw__figure_close(&f);
}

void draw__chart_log_dew(const struct draw__chart *c)
{
    draw(c, DEW_CHART_log_dew);
}

void draw__chart_log_rh(const struct draw__chart *c)
{
    draw(c, DEW_CHART_log_rh);
}
