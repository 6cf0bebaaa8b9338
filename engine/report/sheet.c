/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Laying a sheet out, as text and as part of a page. */
#include "report/sheet.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "report/lay.h"
#include "report/markup.h"

/* In the order they are told. */
static dew__sheet_maker *const makers[] = {
    dew__sheet_log,    dew__sheet_install,  dew__sheet_yearly,
    dew__sheet_air,    dew__sheet_rates,    dew__sheet_local,
    dew__sheet_people, dew__sheet_surfaces, dew__sheet_windows,
    dew__sheet_ducts,  dew__sheet_gear,     dew__sheet_drying,
    dew__sheet_thumbs,
};
enum { MAKERS = sizeof makers / sizeof *makers };

/* ---- filling ---------------------------------------------------------------- */

struct dew__word dew__words(const char *text)
{
    struct dew__word w;

    snprintf(w.text, sizeof w.text, "%s", text);
    return w;
}

void dew__sheet_column(struct dew__sheet *s, const char *head, int width)
{
    if (s->columns == DEW__SHEET_CELLS)
        return;
    s->head[s->columns] = dew__words(head);
    s->width[s->columns++] = width;
}

struct dew__word *dew__sheet_row(struct dew__sheet *s)
{
    return s->rows < DEW__SHEET_ROWS ? s->cell[s->rows++] : NULL;
}

void dew__sheet_note(struct dew__sheet *s, const char *format, ...)
{
    va_list args;

    if (s->notes == DEW__SHEET_NOTES)
        return;
    va_start(args, format);
    vsnprintf(s->note[s->notes++], DEW__SHEET_NOTE, format, args);
    va_end(args);
}

/* ---- text -------------------------------------------------------------------- */

static void line_of(const struct dew__sheet *s, const struct dew__word *cells,
                    FILE *out)
{
    dew__left(out, cells[0].text, s->width[0]);
    for (size_t k = 1; k < s->columns; k++)
        dew__right(out, cells[k].text, s->width[k]);
    fputc('\n', out);
}

static void sheet_text(const struct dew__sheet *s, FILE *out)
{
    dew__heading(out, s->title);
    if (s->rows > 0)
        line_of(s, s->head, out);
    for (size_t i = 0; i < s->rows; i++)
        line_of(s, s->cell[i], out);
    for (size_t i = 0; i < s->notes; i++)
        dew__wrap(out, "* ", s->note[i]);
}

/* ---- page -------------------------------------------------------------------- */

static void cells_html(const struct dew__sheet *s, size_t row, FILE *out)
{
    dew__html(out, "<tr><th scope=\"row\">%s</th>", s->cell[row][0].text);
    for (size_t k = 1; k < s->columns; k++)
        dew__html(out, "<td>%s</td>", s->cell[row][k].text);
    fputs("</tr>\n", out);
}

static void table_html(const struct dew__sheet *s, FILE *out)
{
    fputs("<div class=\"wide\"><table><thead><tr>", out);
    for (size_t k = 0; k < s->columns; k++)
        dew__html(out, "<th scope=\"col\">%s</th>", s->head[k].text);
    fputs("</tr></thead><tbody>\n", out);
    for (size_t i = 0; i < s->rows; i++)
        cells_html(s, i, out);
    fputs("</tbody></table></div>\n", out);
}

static void sheet_html(const struct dew__sheet *s, FILE *out)
{
    dew__html(out, "<section id=\"%s\"><h2>%s</h2>\n", s->id, s->title);
    if (s->rows > 0)
        table_html(s, out);
    if (s->notes > 0)
        fputs("<ul>\n", out);
    for (size_t i = 0; i < s->notes; i++)
        dew__html(out, "<li>%s</li>\n", s->note[i]);
    fputs(s->notes > 0 ? "</ul></section>\n" : "</section>\n", out);
}

/* ---- all --------------------------------------------------------------------- */

static void all(const struct dew_report *r,
                void (*lay)(const struct dew__sheet *s, FILE *out), FILE *out)
{
    struct dew__sheet *s = malloc(sizeof *s);

    for (size_t i = 0; s != NULL && i < MAKERS; i++) {
        memset(s, 0, sizeof *s);
        if (makers[i](r, s))
            lay(s, out);
    }
    free(s);
}

void dew__sheets_text(const struct dew_report *r, FILE *out)
{
    all(r, sheet_text, out);
}

void dew__sheets_html(const struct dew_report *r, FILE *out)
{
    all(r, sheet_html, out);
}
