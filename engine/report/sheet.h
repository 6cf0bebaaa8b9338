/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets: small tables with notes that stand beside the verdict, the same in
 * text and page.  A sheet is filled from the study and knows no layout.
 */
#ifndef DEW_REPORT_SHEET_H
#define DEW_REPORT_SHEET_H

#include "report/words.h"

enum {
    DEW__SHEET_CELLS = 8,
    DEW__SHEET_ROWS = 64,
    DEW__SHEET_NOTES = 32,
    DEW__SHEET_NOTE = 700
};

struct dew__sheet {
    const char *id, *title;
    size_t columns, rows, notes; /* columns 0: notes alone                  */
    struct dew__word head[DEW__SHEET_CELLS];
    int width[DEW__SHEET_CELLS]; /* in text; the first is set to the left   */
    struct dew__word cell[DEW__SHEET_ROWS][DEW__SHEET_CELLS];
    char note[DEW__SHEET_NOTES][DEW__SHEET_NOTE];
};

/* Add a column, a row of cells still empty, a note; NULL when full. */
void dew__sheet_column(struct dew__sheet *s, const char *head, int width);
struct dew__word *dew__sheet_row(struct dew__sheet *s);
void dew__sheet_note(struct dew__sheet *s, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A cell of words, cut to a cell's room. */
struct dew__word dew__words(const char *text);

/* Fill a sheet; 0 when it has nothing to tell of this report. */
typedef int dew__sheet_maker(const struct dew_report *r, struct dew__sheet *s);

/* Every sheet that has something to tell, in order. */
void dew__sheets_text(const struct dew_report *r, FILE *out);
void dew__sheets_html(const struct dew_report *r, FILE *out);

/* sheets.c, and sheet_<name>.c */
dew__sheet_maker dew__sheet_log, dew__sheet_install, dew__sheet_yearly,
    dew__sheet_air, dew__sheet_rates, dew__sheet_local, dew__sheet_people,
    dew__sheet_surfaces, dew__sheet_windows, dew__sheet_ducts,
    dew__sheet_drying, dew__sheet_thumbs, dew__sheet_gear;

#endif
