/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing pages and drawings.  Private to the report. */
#ifndef DEW_REPORT_MARKUP_H
#define DEW_REPORT_MARKUP_H

#include <stdio.h>

#include "dew/status.h"

enum { REPORT__ESCAPED = 9000 }; /* bytes of one text at most */

/* Text, escaped for HTML, XML and attributes. */
void report__escape(FILE *out, const char *text);

/* As printf of %s, %d, %zu, %.1f and %%, with what %s brings escaped; %-s
   brings markup of our own. */
void report__html(FILE *out, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The same as a row of a table, "name|%s|%s" with a heading first; as the
   heads of its columns, with the body then open. */
void report__html_row(FILE *out, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void report__html_heads(FILE *out, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* From the start of a page into its body; css: sheets of looks up to NULL. */
void report__html_open(FILE *out, const char *before, const char *title,
                       const char *const *css);

/* Let fill write of, numbers with a point; what, "the page", is blamed. */
enum dew_status report__filled(const char *what,
                               void (*fill)(const void *of, FILE *out),
                               const void *of, FILE *out,
                               struct dew_error *err);

#endif
