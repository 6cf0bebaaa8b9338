/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report in brief: what a reader of one screen must know, the STOPs and
   the answer first. */
#include <string.h>

#include "report/answer.h"
#include "report/caution.h"
#include "report/lay.h"
#include "report/markup.h"
#include "report/text.h"

enum { WORDS = 30, CELL = 20, LIMIT = 10 };

/* ---- what says STOP --------------------------------------------------------- */

static int is_stop(const struct dew_caution *c)
{
    return c->level == DEW_STOP;
}

static void stops(const struct dew_report *r, FILE *out)
{
    struct report__word open = report__open_stops_brief(r);

    for (size_t i = 0; i < r->caution_count; i++) {
        const struct dew_caution *c = &r->cautions[i];

        if (is_stop(c) && !report__open(c))
            fprintf(out, "STOP  %s\n", c->brief);
    }
    if (open.text[0] != '\0')
        fprintf(out, "STOP  %s\n", open.text);
}

/* ---- the answer ------------------------------------------------------------- */

static void answer(const struct dew_report *r, FILE *out)
{
    char text[REPORT__ANSWER], head[16];

    fputc('\n', out);
    for (int k = 0; k < REPORT__ANSWERS; k++) {
        enum report__answer which = (enum report__answer)k;

        snprintf(head, sizeof head, "%-8s", report__answer_head(which));
        report__wrap(out, head, report__answer(r, which, text, sizeof text));
    }
}

/* Cells at their columns; what is blank at the end is not written. */
static void glance_line(const char *const cell[4], FILE *out)
{
    static const int width[4] = {WORDS, CELL, CELL, LIMIT};
    int last = 3;

    while (cell[last][0] == '\0')
        last--;
    report__left(out, cell[0], WORDS);
    for (int k = 1; k <= last; k++)
        report__right(out, cell[k], width[k]);
    fputc('\n', out);
}

/* Today beside the option to look at, or beside the next; what the table of
   options has as well is left to it. */
static void glance(const struct dew_report *r, FILE *out)
{
    size_t count, other = report__beside_today(r);
    const struct report__column *row =
        report__columns(REPORT__TABLE_GLANCE, &count);
    char head[40] = "";

    if (other == 0 && r->question->count > 1)
        other = 1;
    if (other > 0)
        snprintf(head, sizeof head, "option %zu", other + 1);
    fputc('\n', out);
    glance_line(
        (const char *const[]){"In the year", "today (1)", head, "limit"}, out);
    for (size_t k = 0; k < count && row[k].limit != NULL; k++) {
        if (r->question->draws != NULL && report__says_how_near(&row[k]))
            continue; /* the table of options has the houses drawn */
        glance_line(
            (const char *const[]){row[k].head[0], row[k].cell(r, 0).text,
                                  other > 0 ? row[k].cell(r, other).text : "",
                                  row[k].limit(r).text},
            out);
    }
}

/* ---- what is still open ----------------------------------------------------- */

static void questions(const struct dew_report *r, FILE *out)
{
    size_t shown = 0, more = 0, told = 0;

    for (size_t i = 0; i < r->caution_count; i++) {
        const struct dew_caution *c = &r->cautions[i];

        told += !report__open(c) && !is_stop(c);
        if (!report__asks(r, i))
            continue;
        if (shown == REPORT__QUESTIONS)
            more++;
        else
            report__ask(c, shown++ == 0, out);
    }
    if (more + told > 0)
        fprintf(out, "And %zu more questions, %zu cautions: --full\n", more,
                told);
}

/* ---- what comes next -------------------------------------------------------- */

static void files(const char *directory, FILE *out)
{
    char text[600];

    snprintf(text, sizeof text,
             "%.200s/report.html (open this), summary.json; contractor.html, "
             "inspector.html, calendar.html to hand over; hours and charts.",
             directory);
    report__wrap(out, "Files:  ", text);
}

static void next(const struct dew_report *r, const char *directory, FILE *out)
{
    int stop = r->caution_count > 0 && is_stop(&r->cautions[0]);

    fputs(stop ? "Next:   settle the STOPs, answer by the keys above, and run "
                 "it again.\n"
          : directory == NULL
              ? "Next:   run it with --out DIR for the page and the sheets to "
                "hand over.\n"
              : "Next:   read the page; have the sheets checked before you "
                "buy.\n",
          out);
}

/* A report, and where its files are. */
struct written {
    const struct dew_report *r;
    const char *directory;
};

/* What the marks and columns of the table of options mean. */
static void below_table(const struct dew_report *r, FILE *out)
{
    int under = report__text_under(r);

    if (r->question->draws != NULL)
        fprintf(
            out,
            "From, to: 8 in 10 houses like yours; limits, best: of 100.%s\n",
            under ? " * too little air" : "");
    else if (under)
        fputs("* less fresh air than asked for; never the best option\n", out);
}

static void all(const void *of, FILE *out)
{
    const struct dew_report *r = ((const struct written *)of)->r;
    const char *directory = ((const struct written *)of)->directory;
    char title[2000], span[200];

    core__clean(report__title(r->title), title, sizeof title);
    report__wrap(out, "", title);
    stops(r, out);
    answer(r, out);
    if (directory != NULL)
        files(directory, out);
    glance(r, out);
    fputc('\n', out);
    report__text_table(r,
                       r->question->draws != NULL ? REPORT__TABLE_SURE
                                                  : REPORT__TABLE_BRIEF,
                       out);
    below_table(r, out);
    report__text_names(r, out);
    fputs("\nHours too humid, by month\n", out);
    report__text_months(r, out);
    dew_report_span(r->question->choices[0].outcome->count, span, sizeof span);
    if (span[0] != '\0')
        report__wrap(out, "", span);
    questions(r, out);
    next(r, directory, out);
}

enum dew_status dew_report_brief(const struct dew_report *report,
                                 const char *directory, FILE *out,
                                 struct dew_error *err)
{
    const struct written w = {report, directory};

    return report__filled("the report", all, &w, out, err);
}
