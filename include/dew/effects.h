/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the doubt in the hours too humid comes from: how much of their
 * variance over houses like the one told each doubted figure brings.
 *
 *     dew_effects_open    of a spread that is marched
 *     dew_effects_step    ... until done is 1
 *     dew_effects_of      an option's
 *     dew_effects_close
 *
 * Twelve columns of the spread are told one by one, those that explain most by
 * themselves; the rest together.
 *
 * Design     two sets of points and, for each group, the first set with the
 *            group taken from the second: points x (2 + groups) houses an
 *            option                                              [SALTELLI10]
 * Quantity   hours too humid in the year, as struct dew_drawn
 */
#ifndef DEW_EFFECTS_H
#define DEW_EFFECTS_H

#include "dew/spread.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    DEW_EFFECTS_POINTS = 512,
    DEW_EFFECTS_LEAST = 16,  /* points                                       */
    DEW_EFFECTS_MOST = 8192, /* points                                       */
    DEW_EFFECTS_ALONE = 12,  /* groups of one column                         */
    DEW_EFFECTS_GROUPS = DEW_EFFECTS_ALONE + 1
};

struct dew_effects; /* opaque */

struct dew_effects_ask {
    size_t points;         /* DEW_EFFECTS_LEAST .. _MOST, a power of two best */
    const size_t *options; /* which are marched                              */
    size_t option_count;   /* 1 ..                                           */
};

/* With the interval that holds it in 95 of 100 bootstrap samples. */
struct dew_effect_share {
    double is, low, high; /* of the variance; NaN where there is none        */
};

struct dew_effect {
    struct dew_effect_share alone; /* what knowing it takes away             */
    struct dew_effect_share total; /* what stays where all else is known     */
};

/*
 * spread is borrowed until close, marched, of DEW_WORTH_LEAST draws or more.
 * Errors: DEW_ERANGE for what is asked, or a spread that is not marched;
 * DEW_ESOLVE; DEW_EMEM; *effects is then NULL.
 */
enum dew_status dew_effects_open(struct dew_effects **effects,
                                 const struct dew_spread *spread,
                                 const struct dew_effects_ask *ask,
                                 struct dew_error *err);
void dew_effects_close(struct dew_effects *effects); /* NULL is allowed      */

/* As dew_spread_step, with its errors. */
enum dew_status dew_effects_step(struct dew_effects *effects, double *done,
                                 struct dew_error *err);

/* Groups, most telling first; and the column of one, dew_spread_columns of the
   spread for the rest together. */
size_t dew_effects_groups(const struct dew_effects *effects);
size_t dew_effects_column(const struct dew_effects *effects, size_t group);

/* An option's that was asked for, once all is marched; effect: a row each
   group.  Errors: DEW_ERANGE, DEW_EMEM. */
enum dew_status dew_effects_of(const struct dew_effects *effects, size_t option,
                               struct dew_effect *effect,
                               struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
