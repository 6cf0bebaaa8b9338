/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Laying a sheet out, as text and as part of a page. */
#include "report/sheet.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "report/lay.h"
#include "report/markup.h"

/* In the order they are told. */
static report__sheet_maker *const makers[] = {
    report__sheet_log,    report__sheet_install,  report__sheet_yearly,
    report__sheet_air,    report__sheet_rates,    report__sheet_local,
    report__sheet_people, report__sheet_surfaces, report__sheet_windows,
    report__sheet_ducts,  report__sheet_gear,     report__sheet_drying,
    report__sheet_thumbs,
};
enum { MAKERS = sizeof makers / sizeof *makers };

/* ---- filling ---------------------------------------------------------------- */

/* A row's cells, parted by tabs; returns how many. */
static size_t split(const char *row,
                    struct report__word cells[REPORT__SHEET_CELLS])
{
    size_t n = 0;

    for (; n < REPORT__SHEET_CELLS; n++) {
        size_t length = strcspn(row, "\t");

        snprintf(cells[n].text, sizeof cells[n].text, "%.*s", (int)length, row);
        if (row[length] == '\0')
            return n + 1;
        row += length + 1;
    }
    return n;
}

void report__sheet_columns(struct report__sheet *s, const char *format, ...)
{
    char text[REPORT__SHEET_CELLS * sizeof(struct report__word)];
    struct report__word heads[REPORT__SHEET_CELLS];
    size_t n;
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    n = split(text, heads);
    for (size_t k = 0; k < n && s->columns < REPORT__SHEET_CELLS; k++) {
        char *head;

        s->width[s->columns] = (int)strtol(heads[k].text, &head, 10);
        memmove(s->head[s->columns++].text, head + 1, strlen(head));
    }
}

void report__sheet_row(struct report__sheet *s, const char *format, ...)
{
    size_t room = sizeof s->text - s->used;
    char *row = s->text + s->used;
    va_list args;
    int length;

    va_start(args, format);
    length = vsnprintf(row, room, format, args);
    va_end(args);
    if (s->rows == REPORT__SHEET_ROWS || length < 0 || (size_t)length >= room)
        return;
    s->row[s->rows++] = row;
    s->used += (size_t)length + 1;
}

void report__sheet_note(struct report__sheet *s, const char *format, ...)
{
    va_list args;

    if (s->notes == REPORT__SHEET_NOTES)
        return;
    va_start(args, format);
    vsnprintf(s->note[s->notes++], REPORT__SHEET_NOTE, format, args);
    va_end(args);
}

/* ---- text -------------------------------------------------------------------- */

static void cell_text(const struct report__sheet *s, size_t k, const char *text,
                      FILE *out)
{
    if (k == 0 || s->width[k] < 0)
        report__left(out, text, abs(s->width[k]));
    else
        report__right(out, text, s->width[k]);
}

/* Heads of two lines, or of one. */
static void heads_text(const struct report__sheet *s, FILE *out)
{
    int two = 0;

    for (size_t k = 0; k < s->columns; k++)
        two |= strchr(s->head[k].text, '\n') != NULL;
    for (int line = two ? 0 : 1; line < 2; line++) {
        for (size_t k = 0; k < s->columns; k++) {
            struct report__word w = s->head[k];
            char *end = strchr(w.text, '\n');

            if (end != NULL)
                *end = '\0';
            cell_text(s, k,
                      line == 1 ? (end != NULL ? end + 1 : w.text)
                                : (end != NULL ? w.text : ""),
                      out);
        }
        fputc('\n', out);
    }
}

static void rows_text(const struct report__sheet *s, FILE *out)
{
    if (s->rows > 0)
        heads_text(s, out);
    for (size_t i = 0; i < s->rows; i++) {
        struct report__word cell[REPORT__SHEET_CELLS] = {{""}};

        split(s->row[i], cell);
        for (size_t k = 0; k < s->columns; k++)
            cell_text(s, k, cell[k].text, out);
        fputc('\n', out);
    }
}

static void sheet_text(const struct report__sheet *s, FILE *out)
{
    report__heading(out, s->title);
    rows_text(s, out);
    for (size_t i = 0; i < s->notes; i++)
        report__wrap(out, "* ", s->note[i]);
}

void report__sheet_table_text(const struct report__sheet *s, FILE *out)
{
    char text[REPORT__SHEET_NOTE + 100];

    fputc('\n', out);
    snprintf(text, sizeof text, "%s%s%s", s->title != NULL ? s->title : "",
             s->title != NULL ? ". " : "", s->caption);
    report__wrap(out, "", text);
    rows_text(s, out);
    for (size_t i = 0; i < s->notes; i++)
        report__wrap(out, "", s->note[i]);
}

/* ---- page -------------------------------------------------------------------- */

static void cell_html(const struct report__sheet *s, size_t k, const char *text,
                      FILE *out)
{
    size_t n = strlen(text);
    const char *class = s->width[k] < 0 ? " class=\"words\"" : "";

    if (n > 0 && strspn(text, "_") == n)
        fputs("<td class=\"blank\"></td>", out);
    else
        report__html(out, "<td%-s>%s</td>",
                     n > 2 && strcmp(text + n - 2, " !") == 0 ? " class=\"bad\""
                                                              : class,
                     text);
}

/* "vent-", "ilator" is one word, "fresh -", "stale" are three. */
static void one_line(char *head)
{
    char *end = strchr(head, '\n');

    if (end == NULL)
        return;
    *end = ' ';
    if (end - head > 1 && end[-1] == '-' && end[-2] != ' ')
        memmove(end - 1, end + 1, strlen(end));
}

static void rows_html(const struct report__sheet *s, FILE *out)
{
    fputs("<thead><tr>", out);
    for (size_t k = 0; k < s->columns; k++) {
        struct report__word w = s->head[k];

        one_line(w.text);
        report__html(out, "<th scope=\"col\"%-s>%s</th>",
                     s->width[k] < 0 ? " class=\"words\"" : "", w.text);
    }
    fputs("</tr></thead><tbody>\n", out);
    for (size_t i = 0; i < s->rows; i++) {
        struct report__word cell[REPORT__SHEET_CELLS] = {{""}};

        split(s->row[i], cell);
        report__html(out, "<tr><th scope=\"row\">%s</th>", cell[0].text);
        for (size_t k = 1; k < s->columns; k++)
            cell_html(s, k, cell[k].text, out);
        fputs("</tr>\n", out);
    }
    fputs("</tbody></table></div>\n", out);
}

static void sheet_html(const struct report__sheet *s, FILE *out)
{
    report__html(out, "<section id=\"%s\"><h2>%s</h2>\n", s->id, s->title);
    if (s->rows > 0) {
        fputs("<div class=\"wide\"><table>", out);
        rows_html(s, out);
    }
    if (s->notes > 0)
        fputs("<ul>\n", out);
    for (size_t i = 0; i < s->notes; i++)
        report__html(out, "<li>%s</li>\n", s->note[i]);
    fputs(s->notes > 0 ? "</ul></section>\n" : "</section>\n", out);
}

void report__sheet_table_html(const struct report__sheet *s, FILE *out)
{
    if (s->title != NULL)
        report__html(out, "<h3>%s</h3>\n", s->title);
    report__html(out,
                 "<div class=\"wide\"><table class=\"sheet\"><caption>%s"
                 "</caption>\n",
                 s->caption);
    rows_html(s, out);
    for (size_t i = 0; i < s->notes; i++)
        report__html(out, "<p>%s</p>\n", s->note[i]);
}

/* ---- all --------------------------------------------------------------------- */

static void all(const struct dew_report *r,
                void (*lay)(const struct report__sheet *s, FILE *out),
                FILE *out)
{
    struct report__sheet s;

    for (size_t i = 0; i < MAKERS; i++) {
        memset(&s, 0, sizeof s);
        if (makers[i](r, &s))
            lay(&s, out);
    }
}

void report__sheets_text(const struct dew_report *r, FILE *out)
{
    all(r, sheet_text, out);
}

void report__sheets_html(const struct dew_report *r, FILE *out)
{
    all(r, sheet_html, out);
}
