/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The layouts of a scenario's options, solved.  Private to engine/cli/. */
#ifndef DEW_CLI_LAYOUTS_H
#define DEW_CLI_LAYOUTS_H

#include "cli/job.h"
#include "dew/ducts_report.h"

struct dew__layouts {
    struct dew_duct_layout *layouts, *designs;
    struct dew_ducts_option *options;
    size_t count;
    struct dew_report_ducts *report;
};

/*
 * Solve the layouts of the count options at which, as the scenario numbers
 * them; for_run: those in which none is written down are quiet.  Returns an exit
 * code; close in any case.
 */
int dew__layouts_open(struct dew__layouts *l, const struct dew__job *job,
                      const size_t *which, size_t count, int for_run);
void dew__layouts_close(struct dew__layouts *l);

#endif
