/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer as a picture: what is wrong, what to do, what it costs, and today
   beside the option to look at. */
#include "draw/charts_tint.h"
#include "report/answer.h"
#include "report/markup.h"
#include "report/option_columns.h"

/* Places in the units of the view box. */
enum {
    LEFT = DRAW__FIGURE_EDGE,
    RIGHT = DRAW__SVG_WIDE - DRAW__FIGURE_EDGE,
    SAID = LEFT + 66, /* behind "Wrong:"                                   */
    LETTERS = 104,    /* of a line of it                                   */
    STEP = 18,        /* between its lines                                 */
    GAP = 10,
    ROW = 22,
    LINE = 15, /* of a row                                                 */
    TODAY = 400,
    OTHER = 580
};

/* ---- the sentences ---------------------------------------------------------------- */

static int lines_of(const char *text)
{
    int lines = 0;

    for (const char *s = text; *s != '\0'; lines++) {
        s += draw__figure_line(s, LETTERS);
        s += *s == ' ';
    }
    return lines;
}

static double say(const struct draw__chart *c, enum report__answer which,
                  double y)
{
    char text[REPORT__ANSWER], line[LETTERS + 1];

    report__answer(c->r, which, text, sizeof text);
    fprintf(c->out, "<text class=\"strong\" x=\"%d\" y=\"%.0f\">%s</text>\n",
            LEFT + 8, y + LINE, report__answer_head(which));
    for (const char *s = text; *s != '\0'; y += STEP) {
        size_t length = draw__figure_line(s, LETTERS);

        snprintf(line, sizeof line, "%.*s", (int)length, s);
        report__html(c->out, "<text x=\"%d\" y=\"%.0f\">%s</text>\n", SAID,
                     y + LINE, line);
        s += length;
        s += *s == ' ';
    }
    return y + 0.5 * GAP;
}

static double said_high(const struct draw__chart *c)
{
    char text[REPORT__ANSWER];
    double high = GAP;

    for (int k = 0; k < REPORT__ANSWERS; k++) {
        report__answer(c->r, (enum report__answer)k, text, sizeof text);
        high += STEP * lines_of(text) + 0.5 * GAP;
    }
    return high;
}

/* In a box that looks unlike a good answer where none will do. */
static double sentences(const struct draw__chart *c, double y)
{
    int none =
        report__found(c->r, DEW_FINDING_best_none, DEW_NO_OPTION) != NULL;
    double high = said_high(c);

    fprintf(c->out,
            "<g class=\"answer%s\"><rect x=\"%d\" y=\"%.0f\" width=\"%d\" "
            "height=\"%.0f\"/></g>\n",
            none ? " none" : "", LEFT, y, RIGHT - LEFT, high);
    y += 0.5 * GAP;
    for (int k = 0; k < REPORT__ANSWERS; k++)
        y = say(c, (enum report__answer)k, y);
    return y + 0.5 * GAP + GAP;
}

/* ---- today beside it ---------------------------------------------------------------- */

static void line(const struct draw__chart *c, double y, const char *class,
                 const char *const cell[4])
{
    static const int at[4] = {LEFT + 8, TODAY, OTHER, RIGHT};

    for (int k = 0; k < 4; k++)
        report__html(c->out,
                     "<text class=\"%s%s\" x=\"%d\" y=\"%.0f\">%s</text>",
                     k > 0 ? "up " : "", class, at[k], y + LINE, cell[k]);
    fprintf(c->out, "<path class=\"grid\" d=\"M%d %.1fH%d\"/>\n", LEFT,
            y + ROW - 0.5, RIGHT);
}

static int is_shown(const struct draw__chart *c,
                    const struct report__column *row)
{
    return row->head[1] == NULL || c->r->question->prices != NULL;
}

static size_t rows_shown(const struct draw__chart *c)
{
    size_t count, shown = 1;
    const struct report__column *row =
        report__columns(REPORT__TABLE_GLANCE, &count);

    for (size_t k = 0; k < count; k++)
        shown += (size_t)is_shown(c, &row[k]);
    return shown;
}

static double glance(const struct draw__chart *c, size_t other, double y)
{
    size_t count;
    const struct report__column *row =
        report__columns(REPORT__TABLE_GLANCE, &count);
    char head[40] = "";

    if (other > 0)
        snprintf(head, sizeof head, "option %zu", other + 1);
    line(c, y, "strong",
         (const char *const[]){"In the year", "today", head, "limit"});
    for (size_t k = 0; k < count; k++) {
        if (!is_shown(c, &row[k]))
            continue;
        y += ROW;
        line(c, y, "",
             (const char *const[]){
                 row[k].head[0], row[k].cell(c->r, 0).text,
                 other > 0 ? row[k].cell(c->r, other).text : "",
                 row[k].limit != NULL ? row[k].limit(c->r).text : ""});
    }
    return y + ROW + GAP;
}

/* ---- all ---------------------------------------------------------------------------- */

void draw__chart_answer(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    size_t other = report__beside_today(c->r);
    const size_t both[] = {0, other};
    size_t count = other > 0 ? 2 : 1;
    double y = DRAW__FIGURE_TOP;

    snprintf(f.heading, sizeof f.heading, "%s", report__title(c->r->title));
    snprintf(f.words, sizeof f.words,
             "What is wrong, what to do, what it costs, and today beside the "
             "option to look at.");
    f.high = (int)(y + said_high(c) + GAP + ROW * (double)rows_shown(c) +
                   2 * GAP + DRAW__TINT_ROW * (double)(count + 1));
    draw__figure_begin(&f);
    y = sentences(c, y);
    y = glance(c, other, y);
    fprintf(
        c->out,
        "<text class=\"strong\" x=\"%d\" y=\"%.0f\">Hours too humid</text>\n",
        LEFT, y + LINE);
    draw__tint_rows(c, &draw__tint_humid, both, count, y);
    draw__figure_end(&f);
}
