/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scenario from the command line.  Private to engine/cli/. */
#ifndef DEW_CLI_LOAD_H
#define DEW_CLI_LOAD_H

#include "cli/cli.h"
#include "dew/run.h"

/*
 * Open a run of the scenario at path ("-" for stdin, gzipped or not) with the
 * --set and --option of c.  Every fault goes to stderr.  Returns CLI__DONE and
 * gives *run to the caller, or another exit code and NULL.
 */
int cli__open(struct dew_run **run, const char *path, const struct cli__cli *c,
              enum dew_run_job job, unsigned with);

/* The same of a text in memory, as if read from the file of that name; read
   from it where text is NULL. */
struct cli__text {
    const char *name, *text;
    size_t length;
    const struct dew_files *files; /* as of struct dew_run_ask */
};
int cli__open_text(struct dew_run **run, const struct cli__text *from,
                   const struct cli__cli *c, enum dew_run_job job,
                   unsigned with);

/*
 * The words of a command that takes one scenario file, kept in *path: what
 * its parser does with the keys that are not its own.
 */
error_t cli__one(int key, char *word, struct argp_state *state,
                 const char **path);

#endif
