/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawing charts as SVG. */
#include "draw/svg.h"

#include <math.h>

#include "report/markup.h"
#include "report/words.h"

enum {
    FRAME_WIDE = DRAW__SVG_WIDE - DRAW__SVG_LEFT - DRAW__SVG_RIGHT,
    FRAME_HIGH = DRAW__SVG_HIGH - DRAW__SVG_TOP - DRAW__SVG_FOOT,
    BASE = DRAW__SVG_HIGH - DRAW__SVG_FOOT,
    LINE_STEP = 15 /* between lines of text below the axis */
};

/* ---- the frame ----------------------------------------------------------------- */

double draw__svg_x(const struct draw__plot *p, double x)
{
    return DRAW__SVG_LEFT + (x - p->x0) / (p->x1 - p->x0) * FRAME_WIDE;
}

double draw__svg_y(const struct draw__plot *p, double y)
{
    return BASE - (y - p->y0) / (p->y1 - p->y0) * FRAME_HIGH;
}

double draw__svg_step(double low, double high, int count)
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

void draw__svg_open(const struct draw__plot *p, const char *unit)
{
    fputs("<text class=\"unit\" x=\"12\" y=\"18\">", p->out);
    report__escape(p->out, unit);
    fputs("</text>\n", p->out);
}

void draw__svg_close(const struct draw__plot *p)
{
    fprintf(p->out, "<path class=\"frame\" d=\"M%d %dV%dH%d\"/>\n",
            DRAW__SVG_LEFT, DRAW__SVG_TOP, BASE,
            DRAW__SVG_WIDE - DRAW__SVG_RIGHT);
}

void draw__svg_marks_open(const struct draw__plot *p)
{
    fprintf(p->out,
            "<svg class=\"marks\" x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" "
            "viewBox=\"%d %d %d %d\" preserveAspectRatio=\"none\">\n",
            DRAW__SVG_LEFT, DRAW__SVG_TOP, FRAME_WIDE, FRAME_HIGH,
            DRAW__SVG_LEFT, DRAW__SVG_TOP, FRAME_WIDE, FRAME_HIGH);
}

void draw__svg_marks_close(const struct draw__plot *p)
{
    fputs("</svg>\n", p->out);
}

void draw__svg_upright(const struct draw__plot *p)
{
    double step = draw__svg_step(p->y0, p->y1, 6);

    for (int k = first_tick(p->y0, step); k * step <= p->y1 + step * TOUCH;
         k++) {
        double y = k * step;

        fprintf(p->out,
                "<path class=\"%s\" d=\"M%d %.1fH%d\"/><text class=\"up\" "
                "x=\"%d\" y=\"%.1f\">%s</text>\n",
                k == 0 && p->y0 < 0 ? "zero" : "grid", DRAW__SVG_LEFT,
                draw__svg_y(p, y), DRAW__SVG_WIDE - DRAW__SVG_RIGHT,
                DRAW__SVG_LEFT - 6, draw__svg_y(p, y) + 4,
                report__number(y, decimals(step)).text);
    }
}

void draw__svg_below(const struct draw__plot *p, double x, int line,
                     const char *kind, const char *words)
{
    fprintf(p->out, "<text class=\"%s\" x=\"%.1f\" y=\"%d\">", kind,
            draw__svg_x(p, x), BASE + 16 + LINE_STEP * line);
    report__escape(p->out, words);
    fputs("</text>\n", p->out);
}

void draw__svg_level(const struct draw__plot *p, double most, const char *unit)
{
    double step = draw__svg_step(p->x0, most, 10);

    for (int k = first_tick(p->x0, step); k * step <= most + step * TOUCH; k++)
        draw__svg_below(p, k * step, 0, "along",
                        report__number(k * step, decimals(step)).text);
    fprintf(p->out, "<text class=\"mid\" x=\"%d\" y=\"%d\">",
            DRAW__SVG_LEFT + FRAME_WIDE / 2, DRAW__SVG_HIGH - 16);
    report__escape(p->out, unit);
    fputs("</text>\n", p->out);
}

void draw__svg_months(const struct draw__plot *p)
{
    for (int m = 0; m < DEW_MONTHS; m++)
        draw__svg_below(p, m + 0.5, 0, m % 2 ? "along odd" : "along",
                        report__month_short(m));
}

/* ---- marks -------------------------------------------------------------------------- */

/* What the page's script shows, and a browser without it. */
static void spoken(FILE *out, const char *words)
{
    fputs(" data-v=\"", out);
    report__escape(out, words);
    fputs("\"><title>", out);
    report__escape(out, words);
    fputs("</title>", out);
}

void draw__svg_bar(const struct draw__plot *p, const double corner[4], int tone,
                   const char *words)
{
    double x = draw__svg_x(p, fmin(corner[0], corner[2]));
    double y = draw__svg_y(p, fmax(corner[1], corner[3]));
    double wide = draw__svg_x(p, fmax(corner[0], corner[2])) - x;
    double high = draw__svg_y(p, fmin(corner[1], corner[3])) - y;

    if (!(wide > 0 && high > 0))
        return;
    fprintf(p->out,
            "<rect class=\"t%d\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
            "height=\"%.1f\"",
            tone, x, y, wide, high);
    spoken(p->out, words);
    fputs("</rect>\n", p->out);
}

void draw__svg_number(const struct draw__plot *p, double x, double y,
                      int number)
{
    fprintf(p->out, "<text class=\"end\" x=\"%.1f\" y=\"%.1f\">%d</text>\n",
            draw__svg_x(p, x), draw__svg_y(p, y) - 4, number);
}

void draw__svg_path_open(const struct draw__plot *p, const char *kind)
{
    fprintf(p->out, "<path class=\"%s\" d=\"", kind);
}

int draw__svg_path_to(const struct draw__plot *p, double x, double y, int down)
{
    if (!isfinite(x) || !isfinite(y))
        return 0;
    fprintf(p->out, "%c%.1f %.1f", down ? 'L' : 'M', draw__svg_x(p, x),
            draw__svg_y(p, y));
    return 1;
}

void draw__svg_path_close(const struct draw__plot *p)
{
    fputs("\"/>\n", p->out);
}

int draw__svg_option(size_t i)
{
    return (int)(i % DRAW__TONES);
}

const char *draw__svg_kind(size_t i)
{
    static const char *const kinds[DRAW__TONES] = {
        "l0", "l1", "l2", "l3", "l4", "l5", "l6", "l7", "l8", "l9"};

    return kinds[i % DRAW__TONES];
}

void draw__svg_line(const struct draw__plot *p, const double *x,
                    const double *y, int count, const char *kind)
{
    int down = 0;

    draw__svg_path_open(p, kind);
    for (int i = 0; i < count; i++)
        down = draw__svg_path_to(p, x[i], y[i], down);
    draw__svg_path_close(p);
}

void draw__svg_band(const struct draw__plot *p, const double *x,
                    const double *const y[2], int count, size_t option)
{
    int down = 0;

    for (int i = 0; i < count; i++)
        if (!isfinite(x[i]) || !isfinite(y[0][i]) || !isfinite(y[1][i]))
            return;
    fprintf(p->out, "<path class=\"b%d\" d=\"", draw__svg_option(option));
    for (int i = 0; i < count; i++)
        down = draw__svg_path_to(p, x[i], y[0][i], down);
    for (int i = count; i-- > 0;)
        down = draw__svg_path_to(p, x[i], y[1][i], down);
    fputs("Z\"/>\n", p->out);
}

void draw__svg_zone(const struct draw__plot *p, double x0, double x1,
                    const char *words)
{
    fprintf(p->out,
            "<rect class=\"zone\" x=\"%.1f\" y=\"%d\" width=\"%.1f\" "
            "height=\"%d\" data-v=\"",
            draw__svg_x(p, x0), DRAW__SVG_TOP,
            draw__svg_x(p, x1) - draw__svg_x(p, x0), FRAME_HIGH);
    report__escape(p->out, words);
    fputs("\"/>\n", p->out);
}

void draw__svg_upstroke(const struct draw__plot *p, double x, const char *kind,
                        const char *words)
{
    fprintf(p->out, "<path class=\"%s\" d=\"M%.1f %dV%d\"", kind,
            draw__svg_x(p, x), DRAW__SVG_TOP, BASE);
    if (words != NULL) {
        fputs(" data-v=\"", p->out);
        report__escape(p->out, words);
        fputs("\"", p->out);
    }
    fputs("/>\n", p->out);
}

/* ---- tones ------------------------------------------------------------------------ */

/*
 * Ground colour, and a pattern in dark ink on light grounds, in white on dark
 * ones: neighbours differ in lightness too, for grey paper.
 */
static const struct tone {
    const char *ground, *stroke, *pattern;
} tones[DRAW__EVERY] = {
    {"#274690", "none", ""},
    {"#e0b04e", "#3a2a00", "M-2 2L2 -2M0 8L8 0M6 10L10 6"},
    {"#3f8f6b", "#ffffff", "M0 2H8M0 6H8"},
    {"#d5dde6", "#16202b", "M2 0V8M6 0V8"},
    {"#8e3a7c", "#ffffff", "M-2 6L2 10M0 0L8 8M6 -2L10 2"},
    {"#f0e3c2", "#16202b", "M1.5 2h1.5M5.5 6h1.5"},
    {"#5d5a88", "#ffffff", "M0 4H8M4 0V8"},
    {"#9fc0dc", "#16202b", "M0 0L8 8M0 8L8 0"},
    {"#8a8f94", "none", ""},
    {"#ffffff", "#16202b", "M-2 2L2 -2M0 8L8 0M6 10L10 6"},
    [DRAW__ENERGY] = {"#5b3a1e", "none", ""},
    {"#c98b4b", "#3a2a00", "M-2 2L2 -2M0 8L8 0M6 10L10 6"},
    {"#7d6f47", "#ffffff", "M0 2H8M0 6H8"},
    {"#efd9b4", "#5b3a1e", "M2 0V8M6 0V8"},
    {"#b4532a", "#ffffff", "M-2 6L2 10M0 0L8 8M6 -2L10 2"},
    {"#f8efdf", "#5b3a1e", "M1.5 2h1.5M5.5 6h1.5"},
    {"#8a6d55", "#ffffff", "M0 4H8M4 0V8"},
    {"#dcb98a", "#5b3a1e", "M0 0L8 8M0 8L8 0"},
    {"#3f3a36", "none", ""},
    {"#e8cfc4", "#5b3a1e", "M-2 2L2 -2M0 8L8 0M6 10L10 6"},
    [DRAW__WATER] = {"#0e4f57", "none", ""},
    {"#7fc4c0", "#0b3b41", "M-2 2L2 -2M0 8L8 0M6 10L10 6"},
    {"#2f7f86", "#ffffff", "M0 2H8M0 6H8"},
    {"#d3ebe6", "#0b3b41", "M2 0V8M6 0V8"},
    {"#8fa83c", "#ffffff", "M-2 6L2 10M0 0L8 8M6 -2L10 2"},
    {"#eef6ee", "#0b3b41", "M1.5 2h1.5M5.5 6h1.5"},
    {"#34615a", "#ffffff", "M0 4H8M4 0V8"},
    {"#a8d3b9", "#0b3b41", "M0 0L8 8M0 8L8 0"},
};

void draw__svg_patterns(FILE *out)
{
    fputs("<defs>\n", out);
    for (int i = 0; i < DRAW__EVERY; i++)
        fprintf(out,
                "<pattern id=\"p%d\" width=\"8\" height=\"8\" "
                "patternUnits=\"userSpaceOnUse\"><rect width=\"8\" "
                "height=\"8\" fill=\"%s\"/><path d=\"%s\" stroke=\"%s\" "
                "stroke-opacity=\".75\" fill=\"none\"/></pattern>\n",
                i, tones[i].ground, tones[i].pattern, tones[i].stroke);
    fputs("</defs>\n", out);
}
