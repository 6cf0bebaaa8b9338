/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Options made for the user, by `run --suggest`.  Private to engine/cli/. */
#ifndef DEW_CLI_MADE_OPTIONS_H
#define DEW_CLI_MADE_OPTIONS_H

#include "cli/load.h"
#include "dew/suggest.h"

/* March the list, of so many draws at most, for the scenario at path, or of that text, with progress on a
   terminal: an exit code, and *suggest to the caller where it is CLI__DONE. */
int cli__suggest(struct dew_suggest **suggest, const struct cli__text *from,
                 const struct cli__cli *c, size_t draws);

/* The same where nobody asked for it, of a scenario that is open: where its
   text takes no options *suggest is NULL, and nothing is said. */
int cli__suggest_unasked(struct dew_suggest **suggest,
                         const struct cli__text *from, const struct cli__cli *c,
                         size_t draws);

/* What was tried and what was left out, in sentences; full: by name. */
void cli__suggest_say(FILE *out, const struct dew_suggest *suggest, int full);

#endif
