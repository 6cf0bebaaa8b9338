/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text in 80 columns: wrapped paragraphs and tables.  Private to the report. */
#ifndef DEW_REPORT_LAY_H
#define DEW_REPORT_LAY_H

#include <stdio.h>

enum { REPORT__COLUMNS = 80 };

/*
 * Write text wrapped to 80 columns; head stands before the first line, the
 * others are indented to its width.  A word longer than a line is broken.
 */
void report__wrap(FILE *out, const char *head, const char *text);

/*
 * Write text, UTF-8, padded or cut to width columns; a cut text ends in "~".
 */
void report__left(FILE *out, const char *text, int width);
void report__right(FILE *out, const char *text, int width);

/* A heading and the line under it. */
void report__heading(FILE *out, const char *text);

#endif
