/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws as a file, and a file as draws.  Private to engine/cli/.
 *
 * A row is one option of one draw.  "share of KEY" is what the draw took of the
 * key's range, 0 .. 1, and all that is read again; the key's figure stands
 * behind it, SI, and then what the option came to.
 */
#ifndef DEW_CLI_SPREAD_CSV_H
#define DEW_CLI_SPREAD_CSV_H

#include "cli/spread_worth.h"

/* Write the draws to a file, whole or not at all. */
enum dew_status cli__draws_write(const struct cli__spread *s, const char *path,
                                 struct dew_error *err);

enum { CLI__DRAWS_COLUMNS = 256, CLI__DRAWS_NAME = 128 };

/* A file of draws. */
struct cli__draws {
    const char *path;
    size_t draws, columns;
    struct cli__draws_column {
        char name[CLI__DRAWS_NAME]; /* behind "share of "                    */
        int cell;                   /* of a line, from 1                     */
    } column[CLI__DRAWS_COLUMNS];
    double *share; /* [draws][CLI__DRAWS_COLUMNS]                            */
    size_t room;   /* draws                                                  */
};

/* Fill *d, zeroed; freed by _close, on faults too.  Returns an exit code, every
   fault told. */
int cli__draws_read(struct cli__draws *d, const char *path);
void cli__draws_close(struct cli__draws *d);

/* Hand them to a spread of as many draws that is not marched.  Likewise. */
int cli__draws_give(const struct cli__draws *d, struct dew_spread *spread);

/* The same where the file may lack columns, which stay as drawn. */
int cli__draws_lend(const struct cli__draws *d, struct dew_spread *spread);
/* And may have others. */
int cli__draws_part(const struct cli__draws *d, struct dew_spread *spread);
/* 1 where the file has a column of that name. */
int cli__draws_have(const struct cli__draws *d, const char *name);

/* houses.c: the houses of a scenario's run.houses, in the place of those asked
   for. */
struct cli__houses {
    struct cli__draws draws; /* draws 0: the scenario names no file          */
    size_t all;              /* that the file has                            */
    char path[4096];         /* as found                                     */
};
/* Fill *h, zeroed, from the file that a run's scenario of that name names, and
   *ask by it; freed by cli__draws_close of its draws, on faults too. */
int cli__houses_read(struct cli__houses *h, const struct dew_run *run,
                     const char *scenario, struct dew_spread_ask *ask);
/* Hand them to the spread of that ask; what the file lacks stays as drawn, and a
   note on stderr says so.  Nothing where there are none. */
int cli__houses_give(const struct cli__houses *h, struct dew_spread *spread);

/* Of twice as many or more every second, third ... is kept, so that most or a
   little more are left. */
void cli__houses_thin(struct cli__houses *h, size_t most);
/* The same of a spread of one option, in another form of it perhaps: what the
   file has of others is left out. */
int cli__houses_part(const struct cli__houses *h, struct dew_spread *spread,
                     int says);

/* Write what a spread, not marched, was given of so many keys, and no more. */
enum dew_status cli__houses_write(const struct cli__spread *s,
                                  const size_t *keys, size_t count,
                                  const char *path, struct dew_error *err);

#endif
