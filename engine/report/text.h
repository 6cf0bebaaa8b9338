/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces of the report as text.  Private to the report. */
#ifndef DEW_REPORT_TEXT_H
#define DEW_REPORT_TEXT_H

#include "report/option_columns.h"

/* A table of options, one a line. */
void report__text_table(const struct dew_report *r, enum report__table which,
                        FILE *out);

/* Names that the tables cut, in full. */
void report__text_names(const struct dew_report *r, FILE *out);

/* Hours too humid of each option, by month. */
void report__text_months(const struct dew_report *r, FILE *out);

/* 1 where an option has less fresh air than asked for. */
int report__text_under(const struct dew_report *r);

#endif
