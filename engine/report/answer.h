/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer in a few lines: what is wrong, what to do, what it costs.
   Private to the report. */
#ifndef DEW_REPORT_ANSWER_H
#define DEW_REPORT_ANSWER_H

#include "report/words.h"

enum { REPORT__ANSWER = 900 };

enum report__answer {
    REPORT__WRONG,
    REPORT__DO,
    REPORT__COST,
    REPORT__ANSWERS
};

/* "Wrong:"; never NULL. */
const char *report__answer_head(enum report__answer which);

/* Its sentences.  Returns out, of REPORT__ANSWER bytes or more. */
char *report__answer(const struct dew_report *report, enum report__answer which,
                     char *out, size_t size);

#endif
