/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets: small tables with notes that stand beside the verdict, the same in
 * text and page.  A sheet is filled from the study and knows no layout.
 */
#ifndef DEW_REPORT_SHEET_H
#define DEW_REPORT_SHEET_H

#include "report/words.h"

enum {
    REPORT__SHEET_CELLS = 10,
    REPORT__SHEET_ROWS = 96,
    REPORT__SHEET_TEXT = 24000,
    REPORT__SHEET_NOTES = 32,
    REPORT__SHEET_NOTE = 700
};

struct report__sheet {
    const char *id, *title;
    size_t columns, rows, used,
        notes; /* columns 0: notes alone                  */
    struct report__word head[REPORT__SHEET_CELLS];
    int width[REPORT__SHEET_CELLS]; /* in text; the first, and those below 0,
                                    are set to the left                     */
    const char
        *row[REPORT__SHEET_ROWS]; /* in text, cells parted by tabs      */
    char text[REPORT__SHEET_TEXT];
    char
        caption[REPORT__SHEET_NOTE]; /* of a table that is no section         */
    char note[REPORT__SHEET_NOTES][REPORT__SHEET_NOTE];
};

/* Add columns, "22 option\t9 cold h": the width in text and the head, whose
   line may be broken; a row, its cells parted by tabs; a note.  What does not
   fit is left out. */
void report__sheet_columns(struct report__sheet *s, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void report__sheet_row(struct report__sheet *s, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void report__sheet_note(struct report__sheet *s, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Fill a sheet; 0 when it has nothing to tell of this report. */
typedef int report__sheet_maker(const struct dew_report *r,
                                struct report__sheet *s);

/* A sheet without a section of its own: title, caption, table, notes.  A cell
   that ends in " !" is marked, one of "_" alone is left blank to write in. */
void report__sheet_table_text(const struct report__sheet *s, FILE *out);
void report__sheet_table_html(const struct report__sheet *s, FILE *out);

/* Every sheet that has something to tell, in order. */
void report__sheets_text(const struct dew_report *r, FILE *out);
void report__sheets_html(const struct dew_report *r, FILE *out);

/* sheet_<name>.c and gear.c */
report__sheet_maker report__sheet_log, report__sheet_install,
    report__sheet_yearly, report__sheet_air, report__sheet_rates,
    report__sheet_local, report__sheet_people, report__sheet_surfaces,
    report__sheet_windows, report__sheet_ducts, report__sheet_drying,
    report__sheet_thumbs, report__sheet_gear;

#endif
