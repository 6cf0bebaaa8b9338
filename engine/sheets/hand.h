/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets to hand over: one page of paper each, A4 or letter, about the option
 * that was chosen.  Private to the report.
 */
#ifndef DEW_SHEETS_HAND_H
#define DEW_SHEETS_HAND_H

#include "report/words.h"

/* A sheet for whom, with what fill writes in it. */
struct sheets__hand {
    const struct dew_report *r;
    const char *whom;
    void (*fill)(const struct dew_report *r, FILE *out);
};
enum dew_status sheets__hand_write(const struct sheets__hand *hand, FILE *out,
                                   struct dew_error *err);

/* The cautions of a level: of the house, of the option, or both. */
enum sheets__hand_scope { SHEETS__OF_HOUSE = 1, SHEETS__OF_OPTION = 2 };
void sheets__hand_cautions(const struct dew_report *r,
                           enum dew_caution_level level, int scope, FILE *out);

/* Markup, with a blank to write on in place of each row of "_". */
void sheets__hand_blanks(FILE *out, const char *text);

#endif
