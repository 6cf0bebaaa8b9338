/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The values of a scenario as a report lists them. */
#ifndef DEW_CLI_INPUTS_H
#define DEW_CLI_INPUTS_H

#include "dew/report.h"
#include "dew/scenario.h"

enum { DEW__SHOWN = 192 };

struct dew__inputs {
    struct dew_report_input *list; /* count rows                            */
    char (*values)[DEW__SHOWN];    /* their values                          */
    size_t count;
};

/*
 * Every value that is given or has a default, in the order of the table: once
 * where no option changes it, else for each of the count options at which (as
 * numbered in the scenario).  0 when there is no memory.
 */
int dew__inputs_open(struct dew__inputs *inputs,
                     const struct dew_scenario *scenario, const size_t *which,
                     size_t count, enum dew_system system);
void dew__inputs_close(struct dew__inputs *inputs);

#endif
