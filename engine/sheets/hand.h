/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets to hand over: one page of paper each, A4 or letter, about the option
 * that was chosen.  Private to the report.
 */
#ifndef DEW_SHEETS_HAND_H
#define DEW_SHEETS_HAND_H

#include "report/words.h"

/* Write a page headed whom around what fill writes. */
enum dew_status dew__hand_write(const struct dew_report *r, const char *whom,
                                void (*fill)(const struct dew_report *r,
                                             FILE *out),
                                FILE *out, struct dew_error *err);

/* The cautions of a level: of the house, of the option, or both. */
enum dew__hand_scope { DEW__OF_HOUSE = 1, DEW__OF_OPTION = 2 };
void dew__hand_cautions(const struct dew_report *r,
                        enum dew_caution_level level, int scope, FILE *out);

/* A row of a table of two columns: name and value, both escaped. */
void dew__hand_row(FILE *out, const char *name, const char *value);

/* A blank to write on, of so many letters. */
void dew__hand_blank(FILE *out, int letters);

#endif
