/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts drawn from the hours: dew points, glass and the map of RH. */
#include <math.h>

#include "dew/air.h"
#include "report/charts.h"
#include "report/svg.h"
#include "report/words.h"

enum { DAYS = 366, DAY = 24 };

static const struct dew_outcome *outcome(const struct dew_report *r, size_t i)
{
    return r->question->choices[i].outcome;
}

static double degrees(const struct dew_report *r, double t)
{
    return dew__shown(t, DEW_TEMPERATURE, r->system);
}

/* ---- dew points through the year ------------------------------------------------ */

/* Means of days. */
struct days {
    int count;
    double x[DAYS], in[DAYS], out[DAYS];
    int humid[DAYS]; /* hours */
};

static double day_mean(const double *hours, size_t day)
{
    double sum = 0;

    for (int h = 0; h < DAY; h++)
        sum += hours[day * DAY + (size_t)h];
    return sum / DAY;
}

/* Place of an hour between 0 and 12 along the months. */
static double place(const struct dew_date *d)
{
    return d->month - 1 + (d->day - 0.5) / 31;
}

static void days_of(const struct dew_report *r, const struct dew_outcome *o,
                    double limit, struct days *d)
{
    d->count = (int)(o->count / DAY < DAYS ? o->count / DAY : DAYS);
    for (int k = 0; k < d->count; k++) {
        size_t day = (size_t)k;

        d->x[k] = place(&r->dates[day * DAY]);
        d->in[k] = degrees(r, day_mean(o->series.dew_point, day));
        d->out[k] = degrees(r, day_mean(o->series.dew_point_out, day));
        d->humid[k] = 0;
        for (size_t h = 0; h < DAY; h++)
            d->humid[k] += o->series.rh[day * DAY + h] > limit + 0.0005;
    }
}

static void span_of(const struct days *d, double *low, double *high)
{
    *low = INFINITY;
    *high = -INFINITY;
    for (int k = 0; k < d->count; k++) {
        *low = fmin(*low, fmin(d->in[k], d->out[k]));
        *high = fmax(*high, fmax(d->in[k], d->out[k]));
    }
    if (!(*high > *low)) {
        *low = 0;
        *high = 1;
    }
}

/* Days on which the house is too humid for half the day or more, dark; for an
   hour or more, light. */
static void shade(const struct dew__plot *p, const struct days *d)
{
    double top = dew__svg_y(p, p->y1), high = dew__svg_y(p, p->y0) - top;

    for (int k = 0; k < d->count; k++)
        if (d->humid[k] > 0)
            fprintf(p->out,
                    "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"2\" "
                    "height=\"%.1f\"/>\n",
                    d->humid[k] >= DAY / 2 ? "much" : "some",
                    dew__svg_x(p, d->x[k]) - 1, top, high);
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

static void month_words(const struct dew_report *r, const struct dew_outcome *o,
                        const struct days *d, int m, char *out, size_t size)
{
    snprintf(out, size,
             "%s: indoor dew point %.20s, outdoor %.20s %s, %s h too humid",
             dew__month(m), dew__number(month_mean(d, d->in, m), 1).text,
             dew__number(month_mean(d, d->out, m), 1).text,
             dew__unit(DEW_TEMPERATURE, r->system)->name,
             dew__number(o->month[m].too_humid, 0).text);
}

/* Clear bands over the months, for who points at them. */
static void month_bands(const struct dew__plot *p, const struct dew_report *r,
                        const struct dew_outcome *o, const struct days *d)
{
    char words[400];

    for (int m = 0; m < DEW_MONTHS; m++) {
        month_words(r, o, d, m, words, sizeof words);
        fprintf(p->out,
                "<rect class=\"clear\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
                "height=\"%.1f\" data-v=\"%s\"><title>%s</title></rect>\n",
                dew__svg_x(p, m), dew__svg_y(p, p->y1),
                dew__svg_x(p, m + 1) - dew__svg_x(p, m),
                dew__svg_y(p, p->y0) - dew__svg_y(p, p->y1), words, words);
    }
}

static void dew_point_table(const struct dew_outcome *o, const struct days *d,
                            const char *unit, FILE *out)
{
    fprintf(out,
            "<thead><tr><th scope=\"col\">Month</th><th scope=\"col\">indoor "
            "dew point, %s</th><th scope=\"col\">outdoor dew point, "
            "%s</th><th scope=\"col\">too humid, h</th><th scope=\"col\">"
            "outdoor air could dry, h</th></tr></thead><tbody>\n",
            unit, unit);
    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(out,
                "<tr><th scope=\"row\">%s</th><td>%s</td><td>%s</td><td>%s"
                "</td><td>%s</td></tr>\n",
                dew__month(m), dew__number(month_mean(d, d->in, m), 1).text,
                dew__number(month_mean(d, d->out, m), 1).text,
                dew__number(o->month[m].too_humid, 0).text,
                dew__number(o->month[m].could_dry, 0).text);
    fputs("</tbody>", out);
}

void dew__chart_dew_points(const struct dew_report *r, size_t option, FILE *out)
{
    const struct dew_outcome *o = outcome(r, option);
    const char *unit = dew__unit(DEW_TEMPERATURE, r->system)->name;
    struct dew__plot p = {.out = out,
                          .x1 = 12,
                          .title = "Daily mean dew point indoors and outdoors "
                                   "through the year"};
    struct days d;
    char heading[240];

    days_of(r, o, r->question->choices[option].c->limits.too_humid, &d);
    span_of(&d, &p.y0, &p.y1);
    snprintf(heading, sizeof heading, "Dew points of \"%.120s\"",
             dew__option(r, (int)option).text);
    dew__figure_open(out, heading,
                     "Daily means. Outdoor air dries the house where its line "
                     "runs below. Shaded: days too humid for an hour or more; "
                     "darker, for half the day or more.");
    dew__svg_open(&p, unit);
    shade(&p, &d);
    dew__svg_upright(&p);
    dew__svg_months(&p);
    dew__svg_line(&p, d.x, d.out, d.count, 1);
    dew__svg_line(&p, d.x, d.in, d.count, 0);
    month_bands(&p, r, o, &d);
    dew__svg_close(&p);
    dew__legend_open(out);
    dew__legend(out, 0, 1, "indoors");
    dew__legend(out, 1, 1, "outdoors");
    dew__legend_close(out);
    dew__figure_table(out, "Monthly means");
    dew_point_table(o, &d, unit, out);
    dew__figure_close(out);
}

/* ---- glass ---------------------------------------------------------------------- */

enum { LINE = 40, STEP = 5 /* K, rows of the table */ };

/* RH at which glass of that factor wets; 1 at the most. */
static double wets_at(double factor, double t_in, double t_out)
{
    double ts = t_out + factor * (t_in - t_out);

    return fmin(dew_air_pws(ts) / dew_air_pws(t_in), 1);
}

struct glass {
    double factor, t_in, coldest, warmest;
};

static struct glass glass_of(const struct dew_report *r, size_t option)
{
    const struct dew_outcome *o = outcome(r, option);
    const struct dew_surface *s =
        &r->question->choices[option].c->house.surfaces[DEW_GLASS];
    struct glass g = {s->factor, o->year.t_sum / o->year.hours, INFINITY,
                      -INFINITY};

    for (size_t h = 0; h < o->count; h++) {
        g.coldest = fmin(g.coldest, o->series.t_out[h]);
        g.warmest = fmax(g.warmest, o->series.t_out[h]);
    }
    g.coldest = STEP * floor(g.coldest / STEP);
    g.warmest = STEP * ceil(g.warmest / STEP);
    if (!(g.warmest > g.coldest))
        g.warmest = g.coldest + STEP;
    return g;
}

static void glass_line(const struct dew__plot *p, const struct dew_report *r,
                       const struct glass *g)
{
    double x[LINE], y[LINE];

    for (int i = 0; i < LINE; i++) {
        double t = g->coldest + (g->warmest - g->coldest) * i / (LINE - 1);

        x[i] = degrees(r, t);
        y[i] = 100 * wets_at(g->factor, g->t_in, t);
    }
    dew__svg_line(p, x, y, LINE, 3);
}

/* One dot for every day. */
static void dots(const struct dew__plot *p, const struct dew_report *r,
                 const struct dew_outcome *o)
{
    fputs("<path class=\"dots\" d=\"", p->out);
    for (size_t day = 0; (day + 1) * DAY <= o->count; day++) {
        double t = day_mean(o->series.t_out, day);
        double rh = day_mean(o->series.rh, day);

        if (isfinite(t) && isfinite(rh))
            fprintf(p->out, "M%.1f %.1fh0", dew__svg_x(p, degrees(r, t)),
                    dew__svg_y(p, 100 * rh));
    }
    fputs("\"/>\n", p->out);
}

static void glass_row(const struct dew_report *r, const struct dew_outcome *o,
                      const struct glass *g, double low, FILE *out)
{
    double n = 0, sum = 0,
           limit = wets_at(g->factor, g->t_in, low + STEP / 2.0);

    for (size_t h = 0; h < o->count; h++)
        if (o->series.t_out[h] >= low && o->series.t_out[h] < low + STEP) {
            n += 1;
            sum += o->series.rh[h];
        }
    if (n == 0)
        return;
    fprintf(out,
            "<tr><th scope=\"row\">%s to %s</th><td>%s</td><td>%s</td><td>%s"
            "</td></tr>\n",
            dew__number(degrees(r, low), 0).text,
            dew__number(degrees(r, low + STEP), 0).text, dew__number(n, 0).text,
            dew__number(100 * sum / n, 0).text,
            limit < 1 ? dew__number(100 * limit, 0).text : "never");
}

static void glass_table(const struct dew_report *r, const struct dew_outcome *o,
                        const struct glass *g, FILE *out)
{
    fprintf(out,
            "<thead><tr><th scope=\"col\">outdoors, %s</th><th scope=\"col\">"
            "hours</th><th scope=\"col\">mean indoor RH, %%</th><th "
            "scope=\"col\">glass wets at, %%</th></tr></thead><tbody>\n",
            dew__unit(DEW_TEMPERATURE, r->system)->name);
    for (int k = 0; g->coldest + STEP * k < g->warmest; k++)
        glass_row(r, o, g, g->coldest + STEP * k, out);
    fputs("</tbody>", out);
}

void dew__chart_glass(const struct dew_report *r, size_t option, FILE *out)
{
    const struct dew_outcome *o = outcome(r, option);
    struct glass g = glass_of(r, option);
    struct dew__plot p = {.out = out,
                          .x0 = degrees(r, g.coldest),
                          .x1 = degrees(r, g.warmest),
                          .y1 = 100,
                          .title = "Outdoor temperature against indoor RH, and "
                                   "the line above which the glass wets"};
    char heading[240];

    snprintf(heading, sizeof heading, "When the glass of \"%.110s\" wets",
             dew__option(r, (int)option).text);
    dew__figure_open(out, heading,
                     "A dot is one day's mean. Above the line the middle of "
                     "the glass is wet; edges and frames are colder.");
    dew__svg_open(&p, "indoor RH, %");
    dew__svg_upright(&p);
    dew__svg_level(&p, dew__unit(DEW_TEMPERATURE, r->system)->name);
    dots(&p, r, o);
    if (g.factor > 0)
        glass_line(&p, r, &g);
    dew__svg_close(&p);
    dew__legend_open(out);
    dew__legend(out, 3, 1, "the glass wets above");
    dew__legend_close(out);
    dew__figure_table(out, "Indoor RH by outdoor temperature");
    glass_table(r, o, &g, out);
    dew__figure_close(out);
}

/* ---- the map ------------------------------------------------------------------------ */

/* Five shades between the limits of the house. */
static int shade_of(double rh, const struct dew_limits *l)
{
    double part = (rh - l->too_dry) / (l->too_humid - l->too_dry);

    if (isnan(rh))
        return 0;
    return part < 0 ? 1 : part < 0.5 ? 2 : part <= 1 ? 3 : part < 1.2 ? 4 : 5;
}

void dew__chart_map(const struct dew_report *r, size_t option, FILE *out)
{
    const struct dew_outcome *o = outcome(r, option);
    const struct dew_limits *l = &r->question->choices[option].c->limits;

    fputs("<figure><h3>Mean RH by month and hour of the day, ", out);
    dew__escape(out, dew__option(r, (int)option).text);
    fputs("</h3><div class=\"wide\" role=\"region\" tabindex=\"0\" "
          "aria-label=\"Mean RH by month and hour\"><table class=\"map\">"
          "<caption>RH in %. Bold: above the limit; in italics: below it. The "
          "hour ends at the figure above.</caption><thead><tr><th "
          "scope=\"col\">Month</th>",
          out);
    for (int h = 1; h <= DAY; h++)
        fprintf(out, "<th scope=\"col\">%d</th>", h);
    fputs("</tr></thead><tbody>\n", out);
    for (int m = 0; m < DEW_MONTHS; m++) {
        fprintf(out, "<tr><th scope=\"row\">%s</th>", dew__month_short(m));
        for (int h = 0; h < DAY; h++)
            fprintf(out, "<td class=\"m%d\">%s</td>",
                    shade_of(o->rh_map[m][h], l),
                    dew__number(100 * o->rh_map[m][h], 0).text);
        fputs("</tr>\n", out);
    }
    fputs("</tbody></table></div></figure>\n", out);
}
