/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets to hand over: one page of paper each, A4 or letter, about the option
 * that was chosen.  Private to the report.
 */
#ifndef DEW_REPORT_HAND_H
#define DEW_REPORT_HAND_H

#include "report/words.h"

/* Of the options that bring the fresh air asked for, the house as it stands
   apart, that of fewest hours too humid; 0 when there is none. */
size_t dew__hand_least(const struct dew_report *r);

/* The option handed over: the best; else the nearest of those that will not
   do; else as above. */
size_t dew__hand_option(const struct dew_report *r);

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

/* Value of a key as it was understood for an option; "not told". */
struct dew__word dew__hand_input(const struct dew_report *r, size_t option,
                                 const char *key);

/* A blank to write on, of so many letters. */
void dew__hand_blank(FILE *out, int letters);

#endif
