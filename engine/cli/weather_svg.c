/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A year of daily temperature and dew point, drawn plainly. */
#include <math.h>
#include <stdlib.h>

#include "cli/weather.h"
#include "core/out.h"
#include "draw/svg.h"
#include "report/markup.h"

enum {
    WIDTH = 860,
    HEIGHT = 360,
    LEFT = 56,
    RIGHT = 16,
    TOP = 40,
    BOTTOM = 40,
    DAYS_MOST = 366 * 3
};

/* Blue for water, brown for warmth: told apart without colour by the dash. */
static const char T_COLOUR[] = "#a04000", TD_COLOUR[] = "#1060a0";

struct drawing {
    FILE *out;
    const struct cli__weather_sum *days;
    size_t count;
    double low, high; /* degC, the ends of the scale */
    int us;
};

static double x_of(const struct drawing *d, size_t day)
{
    return LEFT +
           (WIDTH - LEFT - RIGHT) * ((double)day + 0.5) / (double)d->count;
}

static double y_of(const struct drawing *d, double t)
{
    return TOP + (HEIGHT - TOP - BOTTOM) * (d->high - t) / (d->high - d->low);
}

static void scale(struct drawing *d)
{
    d->low = INFINITY;
    d->high = -INFINITY;
    for (size_t i = 0; i < d->count; i++) {
        d->low = fmin(d->low, fmin(d->days[i].td.mean, d->days[i].t.low));
        d->high = fmax(d->high, d->days[i].t.high);
    }
    d->low = isinf(d->low) ? 0.0 : 5.0 * floor(d->low / 5.0);
    d->high = isinf(d->high) ? 10.0 : 5.0 * ceil(d->high / 5.0 + 1e-9);
}

static void axes(const struct drawing *d)
{
    static const char names[] = "JFMAMJJASOND";
    double step = d->high - d->low > 40.0 ? 10.0 : 5.0;

    for (int i = (int)ceil(d->low / step); i * step <= d->high; i++) {
        double t = i * step;

        fprintf(d->out,
                "<line x1='%d' x2='%d' y1='%.1f' y2='%.1f' stroke='%s'/>\n"
                "<text x='%d' y='%.1f' text-anchor='end'>%.0f</text>\n",
                LEFT, WIDTH - RIGHT, y_of(d, t), y_of(d, t),
                t == 0.0 ? "#888" : "#ddd", LEFT - 6, y_of(d, t) + 4.0,
                d->us ? t * 1.8 + 32.0 : t);
    }
    for (size_t i = 0; i < d->count; i++)
        if (d->days[i].day == 1 || i == 0)
            fprintf(d->out,
                    "<line x1='%.1f' x2='%.1f' y1='%d' y2='%d' "
                    "stroke='#ddd'/>\n<text x='%.1f' y='%d'>%c</text>\n",
                    x_of(d, i), x_of(d, i), TOP, HEIGHT - BOTTOM,
                    x_of(d, i) + 6.0, HEIGHT - BOTTOM + 16,
                    names[d->days[i].month - 1]);
}

/* A line through the daily means; it breaks where a day has none. */
static void curve(const struct drawing *d, int dew, const char *style)
{
    int pen = 0;

    fprintf(d->out, "<path fill='none' %s d='", style);
    for (size_t i = 0; i < d->count; i++) {
        double t = dew ? d->days[i].td.mean : d->days[i].t.mean;

        if (isnan(t)) {
            pen = 0;
            continue;
        }
        fprintf(d->out, "%c%.1f %.1f", pen ? 'L' : 'M', x_of(d, i), y_of(d, t));
        pen = 1;
    }
    fputs("'/>\n", d->out);
}

static void legend(const struct drawing *d, const struct dew_site *site)
{
    const char *unit = d->us ? "degF" : "degC";

    fprintf(d->out, "<text x='%d' y='18' font-weight='bold'>", LEFT);
    report__escape(d->out, site->name[0] ? site->name : site->id);
    fprintf(d->out,
            "</text>\n<text x='%d' y='34' fill='%s'>temperature, daily mean, "
            "%s</text>\n<text x='%d' y='34' fill='%s'>dew point, daily mean, "
            "%s (dashed)</text>\n",
            LEFT, T_COLOUR, unit, LEFT + 260, TD_COLOUR, unit);
}

static void draw(const struct cli__weather_file *f, FILE *out,
                 struct cli__weather_sum *days)
{
    struct drawing d = {.out = out, .days = days};
    char style[96];

    d.count = cli__weather_days(f->year, days, DAYS_MOST);
    d.us = cli__weather_system(&f->common) == 1;
    scale(&d);
    fprintf(out,
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 %d %d' "
            "font-family='sans-serif' font-size='12'>\n"
            "<title>Daily temperature and dew point</title>\n"
            "<rect width='%d' height='%d' fill='white'/>\n",
            WIDTH, HEIGHT, WIDTH, HEIGHT);
    axes(&d);
    snprintf(style, sizeof style, "stroke='%s' stroke-width='1.5'", T_COLOUR);
    curve(&d, 0, style);
    snprintf(style, sizeof style,
             "stroke='%s' stroke-width='1.5' stroke-dasharray='4 2'",
             TD_COLOUR);
    curve(&d, 1, style);
    legend(&d, dew_year_site(f->year));
    fputs("</svg>\n", out);
}

int cli__weather_picture(const struct cli__weather_file *f)
{
    struct cli__weather_sum *days = calloc(DAYS_MOST, sizeof *days);
    struct dew_error err = {0};
    struct core__out out;

    if (days == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (core__out_open(&out, f->svg, CORE__OUT_OVER, &err) == DEW_OK) {
        draw(f, out.file, days);
        core__out_close(&out, &err);
    }
    free(days);
    return err.status == DEW_OK ? CLI__DONE : cli__error(&err);
}
