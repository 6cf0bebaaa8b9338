/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to measure first, and where the doubt comes from.  Private to
   engine/cli/. */
#ifndef DEW_CLI_SPREAD_WORTH_H
#define DEW_CLI_SPREAD_WORTH_H

#include "cli/spread.h"
#include "dew/effects.h"
#include "dew/worth.h"

/* Columns of the draws that become known together. */
struct cli__known {
    const char *measure; /* "A blower-door test"; NULL: a figure by itself   */
    size_t column[DEW_WORTH_TOGETHER], count;
    size_t to; /* the option most often chosen in place of the best          */
    struct dew_worth_gain gain;
    struct dew_worth_saved saved;
};

struct cli__worth {
    enum dew_worth_of_what of;
    size_t best; /* the option that is chosen while nothing more is known    */
    double perfect;
    struct cli__known *each;    /* [each_count]  column by column            */
    struct cli__known *measure; /* [measure_count]  most worth first         */
    size_t each_count, measure_count;
};

/* Whether there is something to choose and draws enough to tell. */
int cli__worth_tells(const struct cli__spread *s);

/* Fill *w, zeroed; what it holds is freed by _close, on an error too. */
enum dew_status cli__worth_of(const struct cli__spread *s, struct cli__worth *w,
                              struct dew_error *err);
void cli__worth_close(struct cli__worth *w);

void cli__worth_print(const struct cli__spread *s, const struct cli__worth *w);
json_t *cli__worth_json(const struct cli__spread *s,
                        const struct cli__worth *w);

/* "house.airtightness", and the next two */
const char *cli__spread_column(const struct cli__spread *s, size_t column);
extern const char cli__weather_column[], cli__model_column[];

/* ---- spread_narrow.c ------------------------------------------------------------- */

/*
 * h   of a year: by how much knowing a column would narrow the range in which
 * 8 of 10 houses lie; the most of hours too humid and too dry, of the house as
 * it stands and the option that is best in most houses.  NaN for fewer than
 * DEW_WORTH_LEAST draws.
 */
double cli__spread_narrows(const struct cli__spread *s, size_t column);

/* ---- spread_effects.c ------------------------------------------------------------ */

struct cli__effects {
    size_t points; /* asked for                                              */
    struct dew_effects *effects;
    size_t option[2], options; /* the house as it stands, the best           */
    struct dew_effect of[2][DEW_EFFECTS_GROUPS];
};

/* March what is wanted for it, and fill *x, zeroed but for points; then as
   cli__worth_of. */
enum dew_status cli__effects_of(const struct cli__spread *s,
                                struct cli__effects *x, struct dew_error *err);
void cli__effects_close(struct cli__effects *x);
void cli__effects_print(const struct cli__spread *s,
                        const struct cli__effects *x);
json_t *cli__effects_json(const struct cli__spread *s,
                          const struct cli__effects *x);

#endif
