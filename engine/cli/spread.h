/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of dewledger spread share.  Private to engine/cli/. */
#ifndef DEW_CLI_SPREAD_H
#define DEW_CLI_SPREAD_H

#include "cli/load.h"
#include "dew/spread.h"

/* of cli/spread_worth.h */
struct cli__worth;
struct cli__effects;

/* A spread that is marched, to be told. */
struct cli__spread {
    const struct dew_run *run;
    const struct dew_spread *spread;
    const struct dew_draws *told; /* of it                                   */
    size_t draws, options;
    unsigned long seed;
    int told_only;
    const char *from; /* the file that the draws are of, or NULL             */
    const struct cli__effects *effects; /* NULL: not to be told              */
    const struct cli__worth *worth; /* NULL: not to be told                  */
    int units; /* 0 as typed, 1 us, 2 si                                     */
};

const char *cli__spread_name(const struct cli__spread *s, size_t option);

/* The value of an input as the first option that has it was told. */
char *cli__spread_value(const struct cli__spread *s,
                        const struct dew_spread_input *input, char *out,
                        size_t size);

/* spread_still.c: ranges that change nothing, by reason; none, nothing. */
void cli__spread_print_still(const struct cli__spread *s);

/* Houses that could not be, of so many, by the rule that they broke; none,
   nothing. */
void cli__anew_print(FILE *out, const struct dew_spread *s, size_t draws);
/* Rule i of them in words; 0 after the last. */
int cli__anew_words(const struct dew_spread *s, size_t draws, size_t i,
                    char *out, size_t size);
json_t *cli__anew_json(const struct dew_spread *s);

/* spread_print.c and spread_json.c */
void cli__spread_print(const struct cli__spread *s);
json_t *cli__spread_json(const struct cli__spread *s);

#endif
