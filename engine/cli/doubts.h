/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the options leave open, marched the other ways. */
#ifndef DEW_CLI_DOUBTS_H
#define DEW_CLI_DOUBTS_H

#include "cli/job.h"

enum { DEW__DOUBTS = 128 }; /* as many as a study holds */

struct dew__doubts {
    struct dew_another *cases;
    struct dew_report_doubt list[DEW__DOUBTS];
    size_t count;
    struct dew_study *study;
};

/*
 * March every other reading of the count options which, whose figures leave
 * something open; the first DEW__DOUBTS of them.  Returns DEW__DONE, or the
 * exit code after saying what went wrong.  *d is zero before, and to be closed
 * after, whatever comes back.
 */
int dew__doubts_march(struct dew__doubts *d, const struct dew__job *job,
                      const size_t *which, size_t count);

/* What option i of them, from 0, comes to read so; NULL: that is not open. */
const struct dew_outcome *dew__doubts_of(const struct dew__doubts *d, size_t i,
                                         enum dew_otherwise how);

void dew__doubts_close(struct dew__doubts *d);

#endif
