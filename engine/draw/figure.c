/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A chart with its heading, legend and table; or alone in a file. */
#include "draw/figure.h"

#include <stdarg.h>
#include <string.h>

#include "core/embed.h"
#include "draw/svg.h"
#include "report/markup.h"
#include "report/words.h"

CORE__EMBEDDED(chart_css);

/* Of a file: places in the units of its view box. */
enum {
    HEAD_Y = 26,
    NOTE_Y = 48,
    NOTE_STEP = 16,
    NOTE_LETTERS = 118, /* of a line, at the size of notes */
    PLAIN = 28,         /* spared below months */
    KEY_STEP = 20,
    KEY_MARK = 24,
    EDGE = DRAW__FIGURE_EDGE
};

/* Mean width of a letter of the legend, by eye. */
static const double LETTER = 6.6;

void draw__figure_key(struct draw__figure *f, int tone,
                      enum draw__key_kind kind, const char *words)
{
    struct draw__key *k = &f->keys[f->key_count];

    if (f->key_count == DRAW__KEYS)
        return;
    k->tone = tone;
    k->kind = kind;
    snprintf(k->words, sizeof k->words, "%.99s", words);
    f->key_count++;
}

/* The class that draws a line of the legend. */
static const char *line_of(const struct draw__key *k)
{
    switch (k->kind) {
    case DRAW__THICK:
        return "thick";
    case DRAW__THIN:
        return "thin";
    case DRAW__EDGE:
        return "edge";
    case DRAW__LOGGED:
        return "logged";
    default:
        return draw__svg_kind((size_t)k->tone);
    }
}

static void key_mark(FILE *out, const struct draw__key *k, double x, double y)
{
    switch (k->kind) {
    case DRAW__LINE:
    case DRAW__THICK:
    case DRAW__THIN:
    case DRAW__EDGE:
    case DRAW__LOGGED:
        fprintf(out, "<path class=\"%s\" d=\"M%.1f %.1fh%d\"/>", line_of(k), x,
                y + 6, KEY_MARK);
        return;
    case DRAW__DOTS:
        fprintf(out, "<path class=\"dots\" d=\"M%.1f %.1fh0m6 -3h0m6 4h0\"/>",
                x + 5, y + 6);
        return;
    case DRAW__AREA:
    case DRAW__SHADE:
        fprintf(out,
                "<rect class=\"%c%d\" x=\"%.1f\" y=\"%.1f\" width=\"%d\" "
                "height=\"12\"/>",
                k->kind == DRAW__AREA ? 't' : 'm', k->tone, x, y, KEY_MARK);
        return;
    default:
        fprintf(out,
                "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%d\" "
                "height=\"12\"/>",
                k->kind == DRAW__SOME ? "some" : "much", x, y, KEY_MARK);
    }
}

static int drawing_high(const struct draw__figure *f)
{
    if (f->high > 0)
        return f->high;
    return f->plain ? DRAW__SVG_HIGH - PLAIN : DRAW__SVG_HIGH;
}

/* ---- in the page --------------------------------------------------------------- */

/* page.css draws it higher on a phone, and its text as wide as it was. */
static void open_in_page(const struct draw__figure *f)
{
    report__html(
        f->out,
        "<figure%-s><h3>%s</h3><p>%s</p>\n<svg%-s viewBox=\"0 0 %d %d\" "
        "preserveAspectRatio=\"none\" role=\"img\" "
        "aria-label=\"%s. %s\">\n",
        f->zooms ? " class=\"zooms\"" : "", f->heading, f->note,
        f->plain ? " class=\"plain\"" : "", DRAW__SVG_WIDE, drawing_high(f),
        f->heading, f->words);
}

static void legend_in_page(const struct draw__figure *f)
{
    fputs("<ul class=\"legend\">", f->out);
    for (int i = 0; i < f->key_count; i++) {
        fputs("<li><svg viewBox=\"0 0 26 14\" aria-hidden=\"true\">", f->out);
        key_mark(f->out, &f->keys[i], 1, 1);
        report__html(f->out, "</svg>%s</li>", f->keys[i].words);
    }
    fputs("</ul>\n", f->out);
}

/* ---- alone ------------------------------------------------------------------------ */

static double key_wide(const struct draw__key *k)
{
    return KEY_MARK + 6 + LETTER * report__width(k->words) + 18;
}

size_t draw__figure_line(const char *s, size_t letters)
{
    size_t at = strlen(s);

    if (at <= letters)
        return at;
    at = letters;
    while (at > 0 && s[at] != ' ')
        at--;
    return at > 0 ? at : letters;
}

static size_t note_line(const char *s)
{
    return draw__figure_line(s, NOTE_LETTERS);
}

static int note_lines(const struct draw__figure *f)
{
    int lines = 0;

    for (const char *s = f->note; *s != '\0'; lines++) {
        s += note_line(s);
        s += *s == ' ';
    }
    return lines;
}

static int key_rows(const struct draw__figure *f)
{
    double x = EDGE;
    int rows = f->key_count > 0;

    for (int i = 0; i < f->key_count; i++) {
        double wide = key_wide(&f->keys[i]);

        if (x > EDGE && x + wide > DRAW__SVG_WIDE) {
            x = EDGE;
            rows++;
        }
        x += wide;
    }
    return rows;
}

static void notes_alone(const struct draw__figure *f)
{
    char line[NOTE_LETTERS + 1];
    int y = NOTE_Y;

    for (const char *s = f->note; *s != '\0'; y += NOTE_STEP) {
        size_t length = note_line(s);

        snprintf(line, sizeof line, "%.*s", (int)length, s);
        report__html(f->out,
                     "<text class=\"note\" x=\"%d\" y=\"%d\">%s</text>\n", EDGE,
                     y, line);
        s += length;
        s += *s == ' ';
    }
}

static void open_alone(const struct draw__figure *f)
{
    int top = NOTE_Y + NOTE_STEP * note_lines(f);
    int high = top + drawing_high(f) + KEY_STEP * key_rows(f);

    report__html(f->out,
                 "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" "
                 "height=\"%d\" viewBox=\"0 0 %d %d\" role=\"img\" "
                 "aria-labelledby=\"t d\">\n<title id=\"t\">%s</title>\n<desc "
                 "id=\"d\">%s</desc>\n<style>\n%-s</style>\n",
                 DRAW__SVG_WIDE, high, DRAW__SVG_WIDE, high, f->heading,
                 f->words, core__data_chart_css);
    draw__svg_patterns(f->out);
    report__html(f->out,
                 "<rect class=\"paper\" width=\"%d\" height=\"%d\"/><text "
                 "class=\"head\" x=\"%d\" y=\"%d\">%s</text>\n",
                 DRAW__SVG_WIDE, high, EDGE, HEAD_Y, f->heading);
    notes_alone(f);
    fprintf(f->out, "<g transform=\"translate(0 %d)\">\n", top - EDGE);
}

static void legend_alone(const struct draw__figure *f)
{
    double x = EDGE, y = drawing_high(f) + 4;

    for (int i = 0; i < f->key_count; i++) {
        double wide = key_wide(&f->keys[i]);

        if (x > EDGE && x + wide > DRAW__SVG_WIDE) {
            x = EDGE;
            y += KEY_STEP;
        }
        key_mark(f->out, &f->keys[i], x, y);
        report__html(f->out, "<text x=\"%.1f\" y=\"%.1f\">%s</text>\n",
                     x + KEY_MARK + 6, y + 11, f->keys[i].words);
        x += wide;
    }
    fputs("</g></svg>\n", f->out);
}

void draw__figure_begin(const struct draw__figure *f)
{
    open_alone(f);
}

void draw__figure_end(const struct draw__figure *f)
{
    legend_alone(f);
}

/* ---- either ------------------------------------------------------------------------- */

void draw__figure_open(const struct draw__figure *f, const struct draw__plot *p,
                       const char *unit, ...)
{
    char text[120];
    va_list args;

    if (f->alone)
        open_alone(f);
    else
        open_in_page(f);
    va_start(args, unit);
    vsnprintf(text, sizeof text, unit, args);
    va_end(args);
    draw__svg_open(p, text);
}

int draw__figure_table(const struct draw__figure *f, const struct draw__plot *p,
                       const char *caption)
{
    draw__svg_marks_close(p);
    draw__svg_close(p);
    if (f->alone) {
        legend_alone(f);
        return 0;
    }
    fputs("</svg>\n<output aria-live=\"polite\"></output>\n", f->out);
    legend_in_page(f);
    report__html(f->out,
                 "<details><summary>The same as a table</summary><div "
                 "class=\"wide\"><table><caption>%s</caption>\n",
                 caption);
    return 1;
}

void draw__figure_close(const struct draw__figure *f)
{
    if (!f->alone)
        fputs("</table></div></details></figure>\n", f->out);
}
