/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of dewledger size share.  Private to engine/cli/. */
#ifndef DEW_CLI_SIZE_H
#define DEW_CLI_SIZE_H

#include "cli/load.h"
#include "dew/size.h"
#include "report/words.h"

/* Sizes that are found, to be told. */
struct cli__size {
    const struct dew_size *size;
    const struct dew_run *run; /* any that was tried                         */
    struct dew_size_target target;
    enum dew_system system;
    unsigned long seed;
    int full; /* 1: every curve                                          */
};

/* What a core is called: "a typical heat core"; the one told by its kind. */
struct report__word cli__size_core(const struct cli__size *s,
                                   enum dew_size_core core);

/* "87 cfm", "22 pint/day", "55 %": whole, up (way 1), down (-1) or nearest. */
struct report__word cli__size_amount(const struct cli__size *s,
                                     enum dew_size_knob knob, double si,
                                     int way);

/* Hours of the middle house, or of the one as told. */
double cli__size_middle(const struct dew_draws_range *hours);

/* The flow of a rule for this house, m3/s; NaN outside its range. */
double cli__size_rate(const struct cli__size *s, enum dew_rate_rule rule);

/* size_words.c, size_print.c, size_json.c and size_svg.c */
void cli__size_say(const struct cli__size *s);
void cli__size_print(const struct cli__size *s);
json_t *cli__size_json(const struct cli__size *s);
int cli__size_svg(const struct cli__size *s, const char *path);
int cli__size_better_svg(const struct cli__size *s, const char *path);
/* Says why there is none; returns the exit code. */
int cli__size_no_better(void);

#endif
