/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer in a few lines: what is wrong, what to do, what it costs.
   Private to the report. */
#ifndef DEW_REPORT_ANSWER_H
#define DEW_REPORT_ANSWER_H

#include "report/words.h"

enum { DEW__ANSWER = 900 };

enum dew__answer { DEW__WRONG, DEW__DO, DEW__COST, DEW__ANSWERS };

/* "What is wrong"; never NULL. */
const char *dew__answer_head(enum dew__answer which);

/* Its sentences.  Returns out, of DEW__ANSWER bytes or more. */
char *dew__answer(const struct dew_report *report, enum dew__answer which,
                  char *out, size_t size);

#endif
