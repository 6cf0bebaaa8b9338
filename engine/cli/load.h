/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scenario from the command line.  Private to engine/cli/. */
#ifndef DEW_CLI_LOAD_H
#define DEW_CLI_LOAD_H

#include "cli/cli.h"
#include "dew/scenario.h"

/*
 * The bytes of a file ("-" for stdin, gzipped or not), one more than 1 MiB at
 * most, so that too long is seen; to be freed.  NULL: told on stderr.
 */
char *dew__cli_text(const char *path, size_t *length);

/*
 * Read the scenario at path ("-" for stdin, gzipped or not), with --set laid
 * over it.  Every fault goes to stderr.  Returns DEW__DONE and gives *s to
 * the caller, or another exit code and NULL.
 */
int dew__cli_scenario(const char *path, const struct dew__cli *common,
                      struct dew_scenario **s);

/*
 * The same by dew_scenario_look.  Which groups of keys have a fault: groups,
 * names with a comma behind each ("weather,house,"), cut to size.
 */
int dew__cli_look(const char *path, const struct dew__cli *common,
                  struct dew_scenario **s, char *groups, size_t size);

/*
 * The options that --option picks, all when it names none: picked[i] is 1 for
 * those.  An unknown name is a fault.  Returns an exit code.
 */
int dew__cli_picks(const struct dew__cli *common, const struct dew_scenario *s,
                   unsigned char *picked);

/* The same as their numbers, in order; more than most are a fault. */
int dew__cli_chosen(const struct dew__cli *common, const struct dew_scenario *s,
                    size_t *which, size_t most, size_t *count);

/*
 * The words of a command that takes one scenario file, kept in *path: what
 * its parser does with the keys that are not its own.
 */
error_t dew__cli_one(int key, char *word, struct argp_state *state,
                     const char **path);

/* --units, or the system the scenario's own units used most. */
int dew__cli_system(const struct dew__cli *common,
                    const struct dew_scenario *s);

#endif
