/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charts of the year: dew points day by day, and RH by month and hour. */
#include <math.h>

#include "draw/charts.h"
#include "report/markup.h"
#include "report/words.h"

enum { DAYS = 366, DAY = DEW_DAY_HOURS };

static double degrees(const struct draw__chart *c, double t)
{
    return report__shown(t, DEW_TEMPERATURE, c->r->system);
}

static const struct dew_limits *limits(const struct draw__chart *c)
{
    return &c->r->question->choices[c->option].c->limits;
}

/* ---- dew points -------------------------------------------------------------------- */

/* Means of days. */
struct days {
    int count;
    double x[DAYS], in[DAYS], out[DAYS];
    int humid[DAYS]; /* hours */
};

static double day_mean(const double *hours, size_t day)
{
    double sum = 0; /* NaN where an hour is */

    for (int h = 0; h < DAY; h++)
        sum += hours[day * DAY + (size_t)h];
    return sum / DAY;
}

/* Place of a day between 0 and 12 along the months. */
static double place(const struct dew_date *d)
{
    static const double length[DEW_MONTHS] = {31, 29, 31, 30, 31, 30,
                                              31, 31, 30, 31, 30, 31};

    return d->month - 1 + (d->day - 0.5) / length[d->month - 1];
}

static void days_of(const struct draw__chart *c, size_t option, struct days *d)
{
    const struct dew_outcome *o = draw__chart_outcome(c, option);
    double limit = limits(c)->too_humid;

    d->count = (int)(o->count / DAY < DAYS ? o->count / DAY : DAYS);
    for (int k = 0; k < d->count; k++) {
        size_t day = (size_t)k;

        d->x[k] = place(&c->r->dates[day * DAY]);
        d->in[k] = degrees(c, day_mean(o->series.dew_point, day));
        d->out[k] = degrees(c, day_mean(o->series.dew_point_out, day));
        d->humid[k] = 0;
        for (size_t h = 0; h < DAY; h++)
            d->humid[k] += o->series.rh[day * DAY + h] > limit + 0.0005;
    }
}

/* The same scale for every option, so that charts can be compared. */
static void span_of(const struct draw__chart *c, struct draw__plot *p)
{
    struct days d = {.count = 0};

    p->y0 = INFINITY;
    p->y1 = -INFINITY;
    for (size_t i = 0; i < c->r->question->count; i++) {
        days_of(c, i, &d);
        for (int k = 0; k < d.count; k++) {
            p->y0 = fmin(p->y0, fmin(d.in[k], d.out[k]));
            p->y1 = fmax(p->y1, fmax(d.in[k], d.out[k]));
        }
    }
    for (int k = 0; c->r->laid != NULL && k < d.count; k++) {
        double t = degrees(c, day_mean(c->r->laid->dew_point, (size_t)k));

        p->y0 = fmin(p->y0, t);
        p->y1 = fmax(p->y1, t);
    }
    if (!(p->y1 > p->y0)) {
        p->y0 = 0;
        p->y1 = 1;
    }
    p->y0 -= 0.03 * (p->y1 - p->y0);
    p->y1 += 0.03 * (p->y1 - p->y0);
}

/* Days on which the house is too humid for half the day or more, dark; for an
   hour or more, light. */
static void shade(const struct draw__plot *p, const struct days *d)
{
    for (int k = 0; k < d->count; k++)
        if (d->humid[k] > 0)
            draw__svg_upstroke(p, d->x[k],
                               d->humid[k] >= DAY / 2 ? "much" : "some", NULL);
}

/* A clear stroke for each day, for who points at it. */
static void days_spoken(const struct draw__plot *p, const struct draw__chart *c,
                        const struct days *d)
{
    const char *unit = report__unit(DEW_TEMPERATURE, c->r->system)->name;
    char words[200];

    for (int k = 0; k < d->count; k++) {
        const struct dew_date *date = &c->r->dates[k * DAY];

        snprintf(words, sizeof words,
                 "%d %s: dew point indoors %.20s, outdoors %.20s %.20s; %d h "
                 "too humid",
                 date->day, report__month_short(date->month - 1),
                 report__number(d->in[k], 1).text,
                 report__number(d->out[k], 1).text, unit, d->humid[k]);
        draw__svg_upstroke(p, d->x[k], "day", words);
    }
}

static double month_mean(const struct days *d, const double *values, int month)
{
    double sum = 0, n = 0;

    for (int k = 0; k < d->count; k++)
        if ((int)d->x[k] == month) {
            sum += values[k];
            n += 1;
        }
    return n > 0 ? sum / n : NAN;
}

static void dew_point_table(const struct draw__chart *c, const struct days *d)
{
    const struct dew_outcome *o = draw__chart_outcome(c, c->option);
    const char *unit = report__unit(DEW_TEMPERATURE, c->r->system)->name;

    report__html_heads(c->out,
                       "Month|indoor dew point, %s|outdoor dew point, %s|too "
                       "humid, h|outdoor air could dry, h",
                       unit, unit);
    for (int m = 0; m < DEW_MONTHS; m++)
        report__html_row(c->out, "%s|%s|%s|%s|%s", report__month(m),
                         report__number(month_mean(d, d->in, m), 1).text,
                         report__number(month_mean(d, d->out, m), 1).text,
                         report__number(o->month[m].too_humid, 0).text,
                         report__number(o->month[m].could_dry, 0).text);
    fputs("</tbody>", c->out);
}

static void dew_point_words(const struct draw__chart *c, struct draw__figure *f,
                            const struct days *d)
{
    const struct dew_tally *y = &draw__chart_outcome(c, c->option)->year;
    int below = 0;

    for (int k = 0; k < d->count; k++)
        below += d->out[k] < d->in[k];
    snprintf(f->heading, sizeof f->heading, "Dew points: %.120s",
             report__option(c->r, (int)c->option).text);
    snprintf(f->note, sizeof f->note,
             "Means of days. Outdoor air dries the house where its line runs "
             "below the indoor one.");
    snprintf(f->words, sizeof f->words,
             "Outdoor air is the drier one on %d of %d days; the house is "
             "above its limit in %.20s hours.",
             below, d->count, report__number(y->too_humid, 0).text);
    draw__figure_key(f, 0, DRAW__THICK, "indoors");
    draw__figure_key(f, 0, DRAW__THIN, "outdoors");
    if (c->option == 0 && c->r->laid != NULL)
        draw__figure_key(f, 0, DRAW__LOGGED, "your log");
    draw__figure_key(f, 0, DRAW__SOME,
                     "too humid for an hour or more of the day");
    draw__figure_key(f, 0, DRAW__MUCH, "for half the day or more");
}

/* The owner's log, of whole days. */
static void log_line(const struct draw__plot *p, const struct draw__chart *c,
                     const struct days *d)
{
    int down = 0;

    draw__svg_path_open(p, "logged");
    for (int k = 0; k < d->count; k++) {
        double t = day_mean(c->r->laid->dew_point, (size_t)k);

        down = draw__svg_path_to(p, d->x[k], degrees(c, t), down);
    }
    draw__svg_path_close(p);
}

void draw__chart_dew_points(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    struct draw__plot p = {.out = c->out, .x1 = DEW_MONTHS};
    struct days d;

    days_of(c, c->option, &d);
    span_of(c, &p);
    dew_point_words(c, &f, &d);
    f.zooms = 1;
    f.plain = 1;
    draw__figure_open(&f, &p, "dew point, %.40s",
                      report__unit(DEW_TEMPERATURE, c->r->system)->name);
    draw__svg_months(&p);
    draw__svg_upright(&p);
    draw__svg_marks_open(&p);
    shade(&p, &d);
    for (int m = 1; m < DEW_MONTHS; m++)
        draw__svg_upstroke(&p, m, "grid", NULL);
    draw__svg_line(&p, d.x, d.out, d.count, "thin");
    draw__svg_line(&p, d.x, d.in, d.count, "thick");
    if (c->option == 0 && c->r->laid != NULL)
        log_line(&p, c, &d);
    if (!c->alone)
        days_spoken(&p, c, &d);
    if (draw__figure_table(&f, &p, "Monthly means"))
        dew_point_table(c, &d);
    draw__figure_close(&f);
}

/* ---- the map ------------------------------------------------------------------------- */

enum { BLANK, DRY, LOWER, UPPER, HUMID, WET, SHADES };

/* Parts of the way from too dry to too humid at which a shade begins. */
static const double MIDDLE = 0.5, FAR = 1.2;

static double shade_from(const struct dew_limits *l, double part)
{
    return l->too_dry + part * (l->too_humid - l->too_dry);
}

/* The shade is that of the figure printed, a whole per cent: figures alike are
   coloured alike. */
static int shade_of(double mean, const struct dew_limits *l)
{
    double rh = nearbyint(100 * mean) / 100; /* as it is printed */

    if (isnan(rh))
        return BLANK;
    if (rh < l->too_dry)
        return DRY;
    if (rh < shade_from(l, MIDDLE))
        return LOWER;
    if (rh <= l->too_humid)
        return UPPER;
    return rh < shade_from(l, FAR) ? HUMID : WET;
}

static void cell(const struct draw__plot *p, const struct draw__chart *c, int m,
                 int h)
{
    double rh = draw__chart_outcome(c, c->option)->rh_map[m][h];
    double x = draw__svg_x(p, h), y = draw__svg_y(p, DEW_MONTHS - m);
    double wide = draw__svg_x(p, h + 1) - x;
    double high = draw__svg_y(p, DEW_MONTHS - m - 1) - y;
    struct report__word text = report__number(100 * rh, 0);

    fprintf(p->out,
            "<rect class=\"m%d\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
            "height=\"%.1f\" data-v=\"%s, hour ending %d:00: %s %% RH\"/><text "
            "class=\"cell\" x=\"%.1f\" y=\"%.1f\">%s</text>\n",
            shade_of(rh, limits(c)), x, y, wide, high, report__month(m), h + 1,
            text.text, x + wide / 2, y + high / 2 + 4, text.text);
}

/* "30 to 45 %": from, or to, is NaN where the shade has no end there. */
static void map_key(struct draw__figure *f, int shade, double from, double to,
                    const char *words)
{
    struct report__word low = report__number(100 * from, 0);
    struct report__word high = report__number(100 * to, 0);
    char text[100];

    if (isnan(from))
        snprintf(text, sizeof text, "below %.20s %%%s", high.text, words);
    else if (isnan(to))
        snprintf(text, sizeof text, "above %.20s %%%s", low.text, words);
    else
        snprintf(text, sizeof text, "%.20s to %.20s %%%s", low.text, high.text,
                 words);
    draw__figure_key(f, shade, DRAW__SHADE, text);
}

static void map_keys(const struct dew_limits *l, struct draw__figure *f)
{
    double middle = shade_from(l, MIDDLE), far = shade_from(l, FAR);

    map_key(f, DRY, NAN, l->too_dry, ", too dry");
    map_key(f, LOWER, l->too_dry, middle, "");
    map_key(f, UPPER, middle, l->too_humid, "");
    map_key(f, HUMID, l->too_humid, far, ", too humid");
    map_key(f, WET, far, NAN, ", far too humid");
}

static void map_words(const struct draw__chart *c, struct draw__figure *f)
{
    const struct dew_outcome *o = draw__chart_outcome(c, c->option);
    int month = 0, hour = 0;

    for (int m = 0; m < DEW_MONTHS; m++)
        for (int h = 0; h < DAY; h++)
            if (o->rh_map[m][h] > o->rh_map[month][hour]) {
                month = m;
                hour = h;
            }
    snprintf(f->heading, sizeof f->heading, "RH by month and hour: %.120s",
             report__option(c->r, (int)c->option).text);
    snprintf(f->note, sizeof f->note,
             "Mean RH of the air indoors, %%. The hour of the day ends at the "
             "figure below it.");
    snprintf(f->words, sizeof f->words,
             "Highest in %s in the hour that ends at %d:00, %.20s %%.",
             report__month(month), hour + 1,
             report__number(100 * o->rh_map[month][hour], 0).text);
    map_keys(limits(c), f);
}

static void map_table(const struct draw__chart *c)
{
    const struct dew_outcome *o = draw__chart_outcome(c, c->option);

    fputs("<thead><tr><th scope=\"col\">Month</th>", c->out);
    for (int h = 1; h <= DAY; h++)
        fprintf(c->out, "<th scope=\"col\">%d</th>", h);
    fputs("</tr></thead><tbody>\n", c->out);
    for (int m = 0; m < DEW_MONTHS; m++) {
        fprintf(c->out, "<tr><th scope=\"row\">%s</th>",
                report__month_short(m));
        for (int h = 0; h < DAY; h++)
            fprintf(c->out, "<td>%s</td>",
                    report__number(100 * o->rh_map[m][h], 0).text);
        fputs("</tr>\n", c->out);
    }
    fputs("</tbody>", c->out);
}

static void map_sides(const struct draw__plot *p)
{
    char hour[16];

    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(p->out, "<text class=\"up%s\" x=\"%d\" y=\"%.1f\">%s</text>\n",
                m % 2 ? " odd" : "", DRAW__SVG_LEFT - 6,
                draw__svg_y(p, DEW_MONTHS - m - 0.5) + 4,
                report__month_short(m));
    for (int h = 1; h <= DAY; h++) {
        snprintf(hour, sizeof hour, "%d", h);
        draw__svg_below(p, h - 0.5, 0, h % 3 ? "along odd" : "along", hour);
    }
    fprintf(p->out,
            "<text class=\"mid\" x=\"%d\" y=\"%d\">hour of the day</text>\n",
            (DRAW__SVG_WIDE + DRAW__SVG_LEFT) / 2, DRAW__SVG_HIGH - 16);
}

void draw__chart_map(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    struct draw__plot p = {.out = c->out, .x1 = DAY, .y1 = DEW_MONTHS};

    map_words(c, &f);
    draw__figure_open(&f, &p, "month");
    map_sides(&p);
    draw__svg_marks_open(&p);
    for (int m = 0; m < DEW_MONTHS; m++)
        for (int h = 0; h < DAY; h++)
            cell(&p, c, m, h);
    if (draw__figure_table(&f, &p, "Mean RH, %, by month and hour"))
        map_table(c);
    draw__figure_close(&f);
}
