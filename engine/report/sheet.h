/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets: small tables with notes that stand beside the verdict, the same in
 * text and page.  A sheet is filled from the study and knows no layout.
 */
#ifndef DEW_REPORT_SHEET_H
#define DEW_REPORT_SHEET_H

#include "report/words.h"

enum {
    DEW__SHEET_CELLS = 10,
    DEW__SHEET_ROWS = 96,
    DEW__SHEET_TEXT = 24000,
    DEW__SHEET_NOTES = 32,
    DEW__SHEET_NOTE = 700
};

struct dew__sheet {
    const char *id, *title;
    size_t columns, rows, used,
        notes; /* columns 0: notes alone                  */
    struct dew__word head[DEW__SHEET_CELLS];
    int width[DEW__SHEET_CELLS];      /* in text; the first, and those below 0,
                                    are set to the left                     */
    const char *row[DEW__SHEET_ROWS]; /* in text, cells parted by tabs      */
    char text[DEW__SHEET_TEXT];
    char caption[DEW__SHEET_NOTE]; /* of a table that is no section         */
    char note[DEW__SHEET_NOTES][DEW__SHEET_NOTE];
};

/* Add columns, "22 option\t9 cold h": the width in text and the head, whose
   line may be broken; a row, its cells parted by tabs; a note.  What does not
   fit is left out. */
void dew__sheet_columns(struct dew__sheet *s, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void dew__sheet_row(struct dew__sheet *s, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void dew__sheet_note(struct dew__sheet *s, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Fill a sheet; 0 when it has nothing to tell of this report. */
typedef int dew__sheet_maker(const struct dew_report *r, struct dew__sheet *s);

/* A sheet without a section of its own: title, caption, table, notes.  A cell
   that ends in " !" is marked, one of "_" alone is left blank to write in. */
void dew__sheet_table_text(const struct dew__sheet *s, FILE *out);
void dew__sheet_table_html(const struct dew__sheet *s, FILE *out);

/* Every sheet that has something to tell, in order. */
void dew__sheets_text(const struct dew_report *r, FILE *out);
void dew__sheets_html(const struct dew_report *r, FILE *out);

/* sheet_<name>.c and gear.c */
dew__sheet_maker dew__sheet_log, dew__sheet_install, dew__sheet_yearly,
    dew__sheet_air, dew__sheet_rates, dew__sheet_local, dew__sheet_people,
    dew__sheet_surfaces, dew__sheet_windows, dew__sheet_ducts,
    dew__sheet_drying, dew__sheet_thumbs, dew__sheet_gear;

#endif
