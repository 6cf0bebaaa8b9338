/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words about a row of the key table.  Private to engine/cli/. */
#ifndef DEW_CLI_EXPLAIN_H
#define DEW_CLI_EXPLAIN_H

#include "cli/cli.h"
#include "dew/scenario.h"

enum { CLI__EXPLAIN = 600 };

/* How a value is written: "number with a unit: cfm, L/s, m3/h, m3/s". */
char *cli__explain_form(const struct dew_field *f, char *out, size_t size);

/* "2.119 cfm to 1059 cfm" in a system (0: both), or "". */
char *cli__explain_range(const struct dew_field *f, int system, char *out,
                         size_t size);

/* The default in words. */
char *cli__explain_preset(const struct dew_field *f, char *out, size_t size);

/* "0.6 to 0.7 (from memory)" of the default, "none: reason", or "";
   v as dew_scenario_show_doubt has it. */
char *cli__explain_doubt(const struct dew_field *f, const struct dew_value *v,
                         int system, char *out, size_t size);

/* docs/scenario.md, on stdout; the same as a manual page. */
void cli__explain_manual(void);
void cli__explain_roff(void);

#endif
