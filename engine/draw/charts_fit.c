/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/charts_fit.h"

#include <math.h>
#include <stdlib.h>

#include "dew/air.h"
#include "draw/charts.h"
#include "report/markup.h"
#include "report/words.h"

enum { DAY = 24, MANY_DAYS = 60, CURVE_STEPS = 60 };
static const double BAND80 = 1.2816; /* of an sd, to both sides             */

/* What is drawn of hours from .. to - 1. */
enum line {
    LOGGED,
    TOLD,
    LOW,
    HIGH,
    OUTDOORS,
    REST,
    REST_LOW,
    REST_HIGH,
    EXCESS
};

static double of_hour(const struct draw__fit *f, enum line line, size_t h)
{
    const struct dew_evidence_told *t = &f->of->told[h];
    const struct dew_evidence_hour *x = &f->of->hours[h];

    switch (line) {
    case LOGGED:
        return 100.0 * x->rh;
    case TOLD:
        return t->rh;
    case LOW:
        return t->rh - BAND80 * t->sd;
    case HIGH:
        return t->rh + BAND80 * t->sd;
    case OUTDOORS:
        return x->t_out;
    case REST:
        return 100.0 * x->rh - t->rh;
    case REST_LOW:
        return -BAND80 * t->sd;
    case REST_HIGH:
        return BAND80 * t->sd;
    default:
        return x->rh * dew_air_pws_liquid(x->t_in) - x->pv_out;
    }
}

/* The mean of the hours that have a value; NaN where none does. */
static double mean_of(const struct draw__fit *f, enum line line, size_t from,
                      size_t step)
{
    double sum = 0, n = 0;

    for (size_t h = from; h < from + step && h < f->of->count; h++) {
        double x = of_hour(f, line, h);

        if (isfinite(x)) {
            sum += x;
            n += 1;
        }
    }
    return sum / n;
}

/* ---- the log over the model ----------------------------------------------------- */

static size_t step_of(const struct draw__fit *f)
{
    return f->of->count > (size_t)MANY_DAYS * DAY ? DAY : 1;
}

static void path(const struct draw__plot *p, const struct draw__fit *f,
                 enum line line, const char *look)
{
    size_t step = step_of(f);
    int down = 0;

    draw__svg_path_open(p, look);
    for (size_t h = 0; h < f->of->count; h += step)
        down = draw__svg_path_to(p, (double)h + (double)step / 2,
                                 mean_of(f, line, h, step), down);
    draw__svg_path_close(p);
}

/* The band from a line to the one after it, a strip for each stretch without a
   gap. */
static void strip(const struct draw__plot *p, const struct draw__fit *f,
                  enum line low, size_t from, size_t to)
{
    enum line high = low + 1;
    size_t step = step_of(f);
    int down = 0;

    draw__svg_path_open(p, "b0");
    for (size_t h = from; h < to; h += step)
        down = draw__svg_path_to(p, (double)h + (double)step / 2,
                                 mean_of(f, low, h, step), down);
    for (size_t h = to; h > from; h -= step)
        down = draw__svg_path_to(p, (double)h - (double)step / 2,
                                 mean_of(f, high, h - step, step), down);
    draw__svg_path_close(p);
}

static void band(const struct draw__plot *p, const struct draw__fit *f,
                 enum line low)
{
    size_t step = step_of(f), from = 0, h = 0;

    for (; h < f->of->count; h += step)
        if (isnan(mean_of(f, low, h, step))) {
            strip(p, f, low, from, h);
            from = h + step;
        }
    strip(p, f, low, from, h);
}

static void stretch(struct draw__plot *p, double y)
{
    if (!isfinite(y))
        return;
    p->y0 = fmin(p->y0, y);
    p->y1 = fmax(p->y1, y);
}

/* A figure, for free; NULL without memory.  It is large. */
static struct draw__figure *figure(const struct draw__fit *f)
{
    struct draw__figure *g = calloc(1, sizeof *g);

    if (g != NULL) {
        g->out = f->out;
        g->alone = !f->page;
    }
    return g;
}

static void log_words(const struct draw__fit *f, struct draw__figure *g)
{
    int kept = f->of->until < f->of->count;

    snprintf(g->heading, sizeof g->heading,
             "Your log and what was learned of it");
    snprintf(g->note, sizeof g->note,
             "%s of relative humidity indoors. %s The band is meant to hold 8 "
             "hours in 10.",
             step_of(f) == DAY ? "Daily means" : "Hours",
             kept ? "Right of the upright line the log was kept back: what "
                    "stands there was foretold."
                  : "All of the log was learned from.");
    snprintf(g->words, sizeof g->words,
             "Curve and memory meet the hours learned from within %.20s "
             "points%s%.20s%s.",
             report__number(f->of->learned->fit.rmse_rh, 1).text,
             kept ? ", those kept back within " : "",
             kept ? report__number(f->of->learned->rest.rmse_rh, 1).text : "",
             kept ? " points" : "");
    draw__figure_key(g, 0, DRAW__LOGGED, "your log");
    draw__figure_key(g, 0, DRAW__THICK,
                     kept ? "learned, then foretold" : "learned");
}

/* Room for a line, and for the band from another to the one after it. */
static void reach(struct draw__plot *p, const struct draw__fit *f,
                  enum line line, enum line low)
{
    enum line high = low + 1;
    size_t step = step_of(f);

    for (size_t h = 0; h < f->of->count; h += step) {
        stretch(p, mean_of(f, line, h, step));
        stretch(p, mean_of(f, low, h, step));
        stretch(p, mean_of(f, high, h, step));
    }
}

static void begin(struct draw__figure *g, struct draw__plot *p,
                  const struct draw__fit *f, const char *unit)
{
    g->plain = 1;
    draw__figure_open(g, p, "%s", unit);
    draw__svg_upright(p);
    draw__chart_dates(p, f->of->dates);
    draw__svg_marks_open(p);
}

/* A month of the log from an hour on, and the hour after it. */
static size_t month_end(const struct draw__fit *f, size_t from)
{
    size_t h = from;

    while (h < f->of->count &&
           f->of->dates[h].month == f->of->dates[from].month)
        h++;
    return h;
}

/* "2011", without a mark at the thousand. */
static struct report__word year_of(int year)
{
    struct report__word w;

    snprintf(w.text, sizeof w.text, "%d", year);
    return w;
}

/* Means by month of two lines, signed where they are differences. */
static void table(const struct draw__fit *f, enum line a, enum line b,
                  const char *heads)
{
    report__html_heads(f->out, "%s", heads);
    for (size_t h = 0; h < f->of->count;) {
        size_t to = month_end(f, h);

        report__html_row(f->out, "%s %s|%s|%s",
                         report__month(f->of->dates[h].month - 1),
                         year_of(f->of->dates[h].year).text,
                         report__number(mean_of(f, a, h, to - h), 1).text,
                         report__number(mean_of(f, b, h, to - h), 1).text);
        h = to;
    }
    fputs("</tbody>", f->out);
}

/* Where the log was kept back. */
static void kept_back(const struct draw__plot *p, const struct draw__fit *f)
{
    if (f->of->until < f->of->count)
        draw__svg_upstroke(p, (double)f->of->until, "edge", NULL);
}

enum dew_status draw__fit_log(const struct draw__fit *f)
{
    struct draw__figure *g = figure(f);
    struct draw__plot p = {.out = f->out,
                           .x1 = (double)f->of->count,
                           .y0 = INFINITY,
                           .y1 = -INFINITY};

    if (g == NULL)
        return DEW_EMEM;
    log_words(f, g);
    reach(&p, f, LOGGED, LOW);
    begin(g, &p, f, "RH, %");
    band(&p, f, LOW);
    path(&p, f, TOLD, "thick");
    path(&p, f, LOGGED, "logged");
    kept_back(&p, f);
    if (draw__figure_table(g, &p, "Means by month, % RH"))
        table(f, LOGGED, TOLD, "Month|log|learned");
    draw__figure_close(g);
    free(g);
    return DEW_OK;
}

/* ---- what is left ----------------------------------------------------------------- */

static void rest_words(const struct draw__fit *f, struct draw__figure *g)
{
    int kept = f->of->until < f->of->count;

    snprintf(g->heading, sizeof g->heading,
             "What your log has above and below what was learned");
    snprintf(g->note, sizeof g->note,
             "%s, points of relative humidity: habits, showers, open windows, "
             "and what the model has not. A stretch that stays outside the "
             "band is a time when the house was another.%s",
             step_of(f) == DAY ? "Daily means" : "Hours",
             kept ? " Right of the upright line the log was kept back." : "");
    snprintf(g->words, sizeof g->words,
             "The log lies within %.20s points (root mean square) of what was "
             "learned from it.",
             report__number(f->of->learned->fit.rmse_rh, 1).text);
    draw__figure_key(g, 0, DRAW__LOGGED, "your log, less what was learned");
}

enum dew_status draw__fit_rest(const struct draw__fit *f)
{
    struct draw__figure *g = figure(f);
    struct draw__plot p = {
        .out = f->out, .x1 = (double)f->of->count, .y0 = -1, .y1 = 1};
    const double ends[] = {0, (double)f->of->count}, zero[] = {0, 0};

    if (g == NULL)
        return DEW_EMEM;
    rest_words(f, g);
    reach(&p, f, REST, REST_LOW);
    p.y0 *= 1.05;
    p.y1 *= 1.05;
    begin(g, &p, f, "points of RH");
    band(&p, f, REST_LOW);
    draw__svg_line(&p, ends, zero, 2, "zero");
    path(&p, f, REST, "logged");
    kept_back(&p, f);
    if (draw__figure_table(g, &p, "Means by month, points of RH"))
        table(f, REST, REST_HIGH,
              "Month|log less learned|the band, to each side");
    draw__figure_close(g);
    free(g);
    return DEW_OK;
}

/* ---- the excess -------------------------------------------------------------------- */

static double degrees(const struct draw__fit *f, double t)
{
    return report__shown(t, DEW_TEMPERATURE, f->system);
}

static void dots(const struct draw__plot *p, const struct draw__fit *f)
{
    draw__svg_path_open(p, "dots");
    for (size_t h = 0; h < f->of->until; h += DAY) {
        double x = mean_of(f, OUTDOORS, h, DAY), y = mean_of(f, EXCESS, h, DAY);

        if (isfinite(x) && isfinite(y))
            fprintf(f->out, "M%.1f %.1fh0", draw__svg_x(p, degrees(f, x)),
                    draw__svg_y(p, y));
    }
    draw__svg_path_close(p);
}

static void curve(const struct draw__plot *p, const struct draw__fit *f,
                  double from, double to)
{
    double x[CURVE_STEPS + 1], low[CURVE_STEPS + 1], high[CURVE_STEPS + 1],
        mid[CURVE_STEPS + 1];
    const double *ends[] = {low, high};

    for (int i = 0; i <= CURVE_STEPS; i++) {
        double t = from + (to - from) * i / CURVE_STEPS;
        struct dew_evidence_figure e = dew_evidence_excess(f->of->learned, t);

        x[i] = degrees(f, t);
        mid[i] = e.value;
        low[i] = e.value - BAND80 * e.sd;
        high[i] = e.value + BAND80 * e.sd;
    }
    draw__svg_band(p, x, ends, CURVE_STEPS + 1, 0);
    draw__svg_line(p, x, mid, CURVE_STEPS + 1, "thick");
}

enum { EVERY = 5 }; /* K */

static void curve_table(const struct draw__fit *f, double from, double to)
{
    report__html_heads(f->out, "outdoors|adds|8 times in 10: from|to");
    for (int i = (int)ceil(from / EVERY); i * EVERY <= to; i++) {
        double t = i * EVERY;
        struct dew_evidence_figure e = dew_evidence_excess(f->of->learned, t);

        report__html_row(f->out, "%s|%s|%s|%s",
                         report__amount(t, DEW_TEMPERATURE, f->system, 0).text,
                         report__number(e.value, 0).text,
                         report__number(e.value - BAND80 * e.sd, 0).text,
                         report__number(e.value + BAND80 * e.sd, 0).text);
    }
    fputs("</tbody>", f->out);
}

static void curve_words(const struct draw__fit *f, struct draw__figure *g)
{
    snprintf(g->heading, sizeof g->heading,
             "What the house adds to the air outdoors");
    snprintf(
        g->note, sizeof g->note,
        "Vapour pressure indoors less that outdoors. A dot is a day of the "
        "log as it stands: the house remembers other days, so dots lie "
        "beside the curve. The band holds the curve 8 times in 10.");
    snprintf(
        g->words, sizeof g->words, "At %.20s outdoors the house adds %.20s Pa.",
        report__amount(0, DEW_TEMPERATURE, f->system, 0).text,
        report__number(dew_evidence_excess(f->of->learned, 0).value, 0).text);
    draw__figure_key(g, 0, DRAW__DOTS, "a day of the log");
    draw__figure_key(g, 0, DRAW__THICK, "the curve learned");
}

enum dew_status draw__fit_curve(const struct draw__fit *f)
{
    double from = f->of->learned->t_least, to = f->of->learned->t_most;
    struct draw__figure *g = figure(f);
    struct draw__plot p = {.out = f->out,
                           .x0 = degrees(f, floor(from - 1)),
                           .x1 = degrees(f, ceil(to + 1)),
                           .y0 = 0,
                           .y1 = 0};
    char level[80];

    if (g == NULL)
        return DEW_EMEM;
    curve_words(f, g);
    for (size_t h = 0; h < f->of->until; h += DAY)
        stretch(&p, mean_of(f, EXCESS, h, DAY));
    stretch(&p, dew_evidence_excess(f->of->learned, from).value);
    stretch(&p, dew_evidence_excess(f->of->learned, to).value);
    p.y1 += 0.05 * (p.y1 - p.y0);
    draw__figure_open(g, &p, "Pa");
    draw__svg_upright(&p);
    snprintf(level, sizeof level, "outdoor temperature, %s",
             report__unit(DEW_TEMPERATURE, f->system)->name);
    draw__svg_level(&p, p.x1, level);
    draw__svg_marks_open(&p);
    dots(&p, f);
    curve(&p, f, from, to);
    if (draw__figure_table(g, &p, "What the house adds, Pa"))
        curve_table(f, from, to);
    draw__figure_close(g);
    free(g);
    return DEW_OK;
}

void draw__fit_page(const struct draw__fit *f)
{
    draw__fit_log(f);
    draw__fit_curve(f);
    draw__fit_rest(f);
}
