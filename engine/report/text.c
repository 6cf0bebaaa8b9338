/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report as text of 80 columns. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "report/caution.h"
#include "report/lay.h"
#include "report/markup.h"
#include "report/option_columns.h"
#include "report/sheet.h"
#include "report/text.h"
#include "report/words.h"

enum { NAME = 22, BLOCK = 5 }; /* columns of a name, options side by side */

/* ---- cautions ------------------------------------------------------------- */

static void caution(const struct dew_report *r, const struct dew_caution *c,
                    FILE *out)
{
    char whose[320], pressure[REPORT__PRESSURE_LONG];

    report__pressure(r, c, DEW_NO_OPTION, pressure, sizeof pressure);
    report__caution_text(c, report__which(c->options, whose, sizeof whose),
                         pressure, out);
}

/* What was told or computed: those that say STOP, or the others. */
static void cautions(const struct dew_report *r, int stop, FILE *out)
{
    for (size_t i = 0; i < r->caution_count; i++)
        if ((r->cautions[i].level == DEW_STOP) == stop &&
            !report__open(&r->cautions[i]))
            caution(r, &r->cautions[i], out);
}

/* One list of all that was not said, STOP first; 0 where all was. */
static int questions(const struct dew_report *r, FILE *out)
{
    int any = 0;

    for (size_t i = 0; i < r->caution_count; i++) {
        if (!report__open(&r->cautions[i]))
            continue;
        if (any++ == 0) {
            report__heading(out, "You have not said whether ...");
            report__wrap(out, "", report__levels);
        }
        caution(r, &r->cautions[i], out);
    }
    return any;
}

static int has_stop(const struct dew_report *r)
{
    return r->caution_count > 0 && r->cautions[0].level == DEW_STOP;
}

/* ---- verdict -------------------------------------------------------------- */

static void verdict(const struct dew_report *r, FILE *out)
{
    char text[160], span[200], told[REPORT__TOLD];

    dew_report_span(r->question->choices[0].outcome->count, span, sizeof span);
    snprintf(text, sizeof text, "What the %s say%s", report__span(r).text,
             span[0] != '\0' ? "" : "s");
    report__heading(out, text);
    if (span[0] != '\0')
        report__wrap(out, "", span);
    for (size_t i = 0; i < r->verdict->count; i++)
        if (report__told(r, i, told)[0] != '\0')
            report__wrap(out, "* ", told);
    report__wrap(out, "* ", report__sure(r, told, sizeof told));
}

/* ---- tables of options ---------------------------------------------------- */

static void option_cell(const struct dew_report *r, size_t i, FILE *out)
{
    report__left(out, report__numbered(r, i).text, NAME);
}

static void table(const struct dew_report *r,
                  const struct report__column *columns, size_t count, FILE *out)
{
    for (int line = 0; line < 3; line++) {
        report__left(out, line == 2 ? "option" : "", NAME);
        for (size_t k = 0; k < count; k++)
            report__right(out, report__column_head(r, columns[k].head[line]),
                          columns[k].width);
        fputc('\n', out);
    }
    for (size_t i = 0; i < r->question->count; i++) {
        option_cell(r, i, out);
        for (size_t k = 0; k < count; k++)
            report__right(out, columns[k].cell(r, i).text, columns[k].width);
        fputc('\n', out);
    }
}

void report__text_table(const struct dew_report *r, enum report__table which,
                        FILE *out)
{
    size_t count;
    const struct report__column *columns = report__columns(which, &count);

    table(r, columns, count, out);
}

int report__text_under(const struct dew_report *r)
{
    for (size_t i = 0; i < r->question->count; i++)
        if (!dew_verdict_ventilates(r->question, i))
            return 1;
    return 0;
}

/* Names that their column cuts are told in full. */
void report__text_names(const struct dew_report *r, FILE *out)
{
    char head[40];

    for (size_t i = 0; i < r->question->count; i++) {
        struct report__word w = report__option(r, (int)i);

        snprintf(head, sizeof head, "%zu = ", i + 1);
        if (report__width(report__numbered(r, i).text) > NAME)
            report__wrap(out, head, w.text);
    }
}

static void options(const struct dew_report *r, FILE *out)
{
    report__heading(out, "The options");
    report__text_table(r, REPORT__TABLE_AIR, out);
    report__text_names(r, out);
    if (report__text_under(r))
        report__wrap(out, "* ",
                     "less fresh air than asked for; never the best option");
    fputc('\n', out);
    report__text_table(r, REPORT__TABLE_MORE, out);
    report__wrap(out, "* ", report__columns_told);
    if (r->question->prices != NULL) {
        fputc('\n', out);
        report__text_table(r, REPORT__TABLE_MONEY, out);
    }
}

static void houses(const struct dew_report *r, FILE *out)
{
    if (r->question->draws == NULL)
        return;
    report__heading(out, "Houses like yours");
    report__text_table(r, REPORT__TABLE_HOUSES, out);
    fputc('\n', out);
    report__text_table(r, REPORT__TABLE_HOUSE_HOURS, out);
    if (r->question->prices != NULL) {
        fputc('\n', out);
        report__text_table(r, REPORT__TABLE_HOUSE_MONEY, out);
    }
    report__wrap(out, "* ", report__houses_told);
}

void report__text_months(const struct dew_report *r, FILE *out)
{
    report__left(out, "option", NAME);
    for (int m = 0; m < DEW_MONTHS; m++)
        report__right(out, report__month_short(m), 4);
    report__right(out, "year", 6);
    fputc('\n', out);
    for (size_t i = 0; i < r->question->count; i++) {
        const struct dew_outcome *o = r->question->choices[i].outcome;

        option_cell(r, i, out);
        for (int m = 0; m < DEW_MONTHS; m++)
            report__right(out, report__number(o->month[m].too_humid, 0).text,
                          4);
        report__right(out, report__number(o->year.too_humid, 0).text, 6);
        fputc('\n', out);
    }
}

/* ---- books: a row a flow, a column an option ------------------------------- */

enum { FLOW_NAME = 34, FLOW_CELL = 9 };

struct book {
    const struct dew_report *r;
    FILE *out;
    size_t first, last; /* options of this block */
    double factor;      /* SI to shown */
};

/* A member of option i's tally of the year, as shown. */
static double member(const struct book *b, size_t i, size_t offset)
{
    const char *tally = (const void *)study__year(b->r->question, i);

    return *(const double *)(const void *)(tally + offset) * b->factor;
}

static void book_row(struct book *b, const char *words, size_t offset)
{
    int some = 0;

    for (size_t i = b->first; i < b->last; i++)
        some |= fabs(member(b, i, offset)) >= 0.5;
    if (!some)
        return;
    report__left(b->out, words, FLOW_NAME);
    for (size_t i = b->first; i < b->last; i++)
        report__right(b->out, report__number(member(b, i, offset), 0).text,
                      FLOW_CELL);
    fputc('\n', b->out);
}

static void book_heads(const struct book *b, const char *unit)
{
    char head[40];

    report__left(b->out, unit, FLOW_NAME);
    for (size_t i = b->first; i < b->last; i++) {
        snprintf(head, sizeof head, i < 9 ? "option %zu" : "opt. %zu", i + 1);
        report__right(b->out, head, FLOW_CELL);
    }
    fputc('\n', b->out);
}

static void water_rows(struct book *b)
{
#define X(name, words)                                                         \
    book_row(b, words, offsetof(struct dew_tally, water.name));
    DEW_WATER_MAP(X)
#undef X
    book_row(b, "cooling condensate drained",
             offsetof(struct dew_tally, coil_drained));
    book_row(b, "condensed in the core and drained",
             offsetof(struct dew_tally, core_drained));
}

static void energy_rows(struct book *b)
{
#define X(name, words)                                                         \
    book_row(b, words, offsetof(struct dew_tally, energy.name));
    DEW_ENERGY_MAP(X)
#undef X
}

static void book(const struct dew_report *r, const char *unit, double factor,
                 void (*rows)(struct book *b), FILE *out)
{
    for (size_t at = 0; at < r->question->count; at += BLOCK) {
        struct book b = {.r = r,
                         .out = out,
                         .first = at,
                         .last = at + BLOCK < r->question->count
                                     ? at + BLOCK
                                     : r->question->count,
                         .factor = factor};

        if (at > 0)
            fputc('\n', out);
        book_heads(&b, unit);
        rows(&b);
    }
}

static void books(const struct dew_report *r, FILE *out)
{
    const struct dew_unit *u = report__unit(DEW_WATER, r->system);
    char unit[40];

    report__heading(out,
                    "Water through the air of the house, a year (+ in, - out)");
    snprintf(unit, sizeof unit, "%s", u->name);
    book(r, unit, 1 / u->factor, water_rows, out);
    if (r->system == DEW_SYSTEM_US)
        fputs("1 gal = 3.785 kg\n", out);
    report__heading(out, "Energy used, a year");
    book(r, "kWh", 1 / CORE__KWH, energy_rows, out);
}

/* ---- how it was judged ------------------------------------------------------ */

static void method(const struct dew_report *r, FILE *out)
{
    char text[1000], closure[40];

    report__heading(out, "How it was judged");
    report__judged(r, text, sizeof text);
    report__wrap(out, "", text);
    dew_number_print(report__closes_within(r), 2, closure, sizeof closure);
    snprintf(
        text, sizeof text,
        "Over the year the books of water and heat close to within %s of what "
        "went through them.",
        closure);
    report__wrap(out, "", text);
    if (r->weather != NULL && r->weather[0] != '\0') {
        core__clean(r->weather, text, sizeof text);
        report__wrap(out, "Weather: ", text);
    }
    for (size_t i = 0; i < r->weather_note_count; i++) {
        core__clean(r->weather_notes[i], text, sizeof text);
        report__wrap(out, "         ", text);
    }
    for (size_t i = 0; i < r->file_count; i++)
        fprintf(out, "%s: SHA-256\n  %s\n", r->files[i].role,
                r->files[i].sha256);
    fprintf(out, "dewledger %s\n", r->version);
}

static void open_stops(const char *words, FILE *out)
{
    char text[2200];

    snprintf(text, sizeof text,
             "%s What hangs on each, and how to answer, is told below under "
             "\"You have not said whether\".",
             words);
    report__wrap(out, "STOP   ", text);
}

static void title(const struct dew_report *r, FILE *out)
{
    char text[2000];

    core__clean(report__title(r->title), text, sizeof text);
    report__wrap(out, "", text);
    if (!has_stop(r))
        return;
    report__heading(out, "Before anything else");
    cautions(r, 1, out);
    if (report__open_stops(r, text, sizeof text)[0] != '\0')
        open_stops(text, out);
}

static void all(const void *of, FILE *out)
{
    const struct dew_report *r = of;
    int asked;

    title(r, out);
    verdict(r, out);
    options(r, out);
    houses(r, out);
    report__heading(out, "Hours too humid, by month");
    report__text_months(r, out);
    report__sheets_text(r, out);
    books(r, out);
    asked = questions(r, out);
    report__heading(out, "Cautions");
    if (!asked)
        report__wrap(out, "", report__levels);
    cautions(r, 0, out);
    method(r, out);
}

enum dew_status dew_report_text(const struct dew_report *report, FILE *out,
                                struct dew_error *err)
{
    return report__filled("the report", all, report, out, err);
}
