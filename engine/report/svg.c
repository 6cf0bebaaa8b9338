/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawing charts as SVG. */
#include "report/svg.h"

#include <math.h>

#include "report/words.h"

void dew__escape(FILE *out, const char *text)
{
    char clean[2048];

    for (const char *s = dew__clean(text, clean, sizeof clean); *s; s++)
        switch (*s) {
        case '&':
            fputs("&amp;", out);
            break;
        case '<':
            fputs("&lt;", out);
            break;
        case '>':
            fputs("&gt;", out);
            break;
        case '"':
            fputs("&quot;", out);
            break;
        default:
            fputc(*s, out);
        }
}

double dew__svg_x(const struct dew__plot *p, double x)
{
    return DEW__SVG_LEFT + (x - p->x0) / (p->x1 - p->x0) *
                               (DEW__SVG_WIDE - DEW__SVG_LEFT - DEW__SVG_RIGHT);
}

double dew__svg_y(const struct dew__plot *p, double y)
{
    return DEW__SVG_HIGH - DEW__SVG_FOOT -
           (y - p->y0) / (p->y1 - p->y0) *
               (DEW__SVG_HIGH - DEW__SVG_TOP - DEW__SVG_FOOT);
}

double dew__svg_step(double low, double high, int count)
{
    double rough = (high - low) / count, ten;

    if (!(rough > 0))
        return 1;
    ten = pow(10, floor(log10(rough)));
    rough /= ten;
    return ten * (rough > 5 ? 10 : rough > 2 ? 5 : rough > 1 ? 2 : 1);
}

static int decimals(double step)
{
    return step < 0.095 ? 2 : step < 0.95 ? 1 : 0;
}

/* Of a step: a value this near an edge stands on it. */
static const double TOUCH = 1e-6;

static int first_tick(double low, double step)
{
    return (int)ceil(low / step - TOUCH);
}

void dew__svg_open(const struct dew__plot *p, const char *unit)
{
    fprintf(p->out, "<svg viewBox=\"0 0 %d %d\" role=\"img\" aria-label=\"",
            DEW__SVG_WIDE, DEW__SVG_HIGH);
    dew__escape(p->out, p->title);
    fprintf(p->out, "\"><text class=\"unit\" x=\"4\" y=\"15\">%s</text>\n",
            unit);
}

void dew__svg_close(const struct dew__plot *p)
{
    fprintf(p->out, "<path class=\"frame\" d=\"M%d %dV%dH%d\"/></svg>\n",
            DEW__SVG_LEFT, DEW__SVG_TOP, DEW__SVG_HIGH - DEW__SVG_FOOT,
            DEW__SVG_WIDE - DEW__SVG_RIGHT);
}

void dew__svg_upright(const struct dew__plot *p)
{
    double step = dew__svg_step(p->y0, p->y1, 6);

    for (int k = first_tick(p->y0, step); k * step <= p->y1 + step * TOUCH;
         k++) {
        double y = k * step;

        fprintf(p->out,
                "<path class=\"grid\" d=\"M%d %.1fH%d\"/><text class=\"up\" "
                "x=\"%d\" y=\"%.1f\">%s</text>\n",
                DEW__SVG_LEFT, dew__svg_y(p, y), DEW__SVG_WIDE - DEW__SVG_RIGHT,
                DEW__SVG_LEFT - 6, dew__svg_y(p, y) + 4,
                dew__number(y, decimals(step)).text);
    }
}

void dew__svg_level(const struct dew__plot *p, const char *unit)
{
    double step = dew__svg_step(p->x0, p->x1, 10);

    for (int k = first_tick(p->x0, step); k * step <= p->x1 + step * TOUCH;
         k++) {
        double x = k * step;

        fprintf(p->out, "<text class=\"along\" x=\"%.1f\" y=\"%d\">%s</text>\n",
                dew__svg_x(p, x), DEW__SVG_HIGH - DEW__SVG_FOOT + 16,
                dew__number(x, decimals(step)).text);
    }
    fprintf(p->out, "<text class=\"along\" x=\"%d\" y=\"%d\">%s</text>\n",
            (DEW__SVG_WIDE + DEW__SVG_LEFT) / 2, DEW__SVG_HIGH - 4, unit);
}

void dew__svg_months(const struct dew__plot *p)
{
    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(p->out, "<text class=\"along\" x=\"%.1f\" y=\"%d\">%s</text>\n",
                dew__svg_x(p, m + 0.5), DEW__SVG_HIGH - DEW__SVG_FOOT + 16,
                dew__month_short(m));
}

void dew__svg_bar(const struct dew__plot *p, const double corner[4], int tone,
                  const char *words)
{
    double x = dew__svg_x(p, fmin(corner[0], corner[2]));
    double y = dew__svg_y(p, fmax(corner[1], corner[3]));
    double wide = dew__svg_x(p, fmax(corner[0], corner[2])) - x;
    double high = dew__svg_y(p, fmin(corner[1], corner[3])) - y;

    if (!(wide > 0 && high > 0))
        return;
    fprintf(p->out,
            "<rect class=\"t%d\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
            "height=\"%.1f\" data-v=\"",
            tone % DEW__TONES, x, y, wide, high);
    dew__escape(p->out, words);
    fputs("\"><title>", p->out);
    dew__escape(p->out, words);
    fputs("</title></rect>\n", p->out);
}

void dew__svg_line(const struct dew__plot *p, const double *x, const double *y,
                   int count, int tone)
{
    int down = 0;

    fprintf(p->out, "<path class=\"l%d\" d=\"", tone % DEW__TONES);
    for (int i = 0; i < count; i++) {
        if (isnan(x[i]) || isnan(y[i])) {
            down = 0;
            continue;
        }
        fprintf(p->out, "%c%.1f %.1f", down ? 'L' : 'M', dew__svg_x(p, x[i]),
                dew__svg_y(p, y[i]));
        down = 1;
    }
    fputs("\"/>\n", p->out);
}
