/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What lanes.c, compiled for one width of vector, gives to bundle.c, which is
 * compiled for none.  Numbers pass in runs of plain doubles, house by house, in
 * the order of the spans that both have.  Private.
 *
 * No other header may come in here: in lanes.c a double is already a vector.
 */
#ifndef DEW_MARCH_KERNEL_H
#define DEW_MARCH_KERNEL_H

#include <stddef.h>

#include "core/many.h"

/* clang-format off */
/* An hour's weather, sun and held temperature, a row each, a house a column. */
#define MARCH__FEED_MAP(X)                                                     \
    X(t) X(w) X(p) X(wind) X(global) X(direct) X(diffuse) X(sky)               \
    X(solar) X(sunlit) X(t_ground) X(held) X(run) X(fan)

enum march__feed_row {
#define X(name) MARCH__FEED_##name,
    MARCH__FEED_MAP(X)
#undef X
    MARCH__FEEDS
};
/* clang-format on */

enum { MARCH__MOST_LANES = 16 };

struct march__feed {
    core__plain row[MARCH__FEEDS][MARCH__MOST_LANES];
};

/* What the houses of a bundle branch on: numbers of their cases in the order
   of MARCH__CASE_FORKS, and the members of their bodies that bear these
   names. */
enum { MARCH__MOST_FORKS = 32 };

struct march__forks {
    int of_case[MARCH__MOST_FORKS];
    int alike, tied, ducted, kinds;
};

struct march__kernel {
    int lanes;    /* houses at once                                         */
    size_t align; /* bytes, of the memory of a bundle                       */
    /* bytes of a bundle with so many tallies */
    size_t (*size)(size_t tallies);
    /* A house's numbers into a lane. */
    void (*put)(void *bundle, int lane, const core__plain *in);
    /* What the houses branch on. */
    void (*fork)(void *bundle, const struct march__forks *forks);
    /* Back to day 0; feed: the weather before the next hour, or NULL for that
       of the last. */
    void (*begin)(void *bundle, const struct march__feed *feed);
    /* One hour of struct dew_date *wall; a bit for each house whose books do
       not close. */
    unsigned (*hour)(void *bundle, const struct march__feed *feed,
                     const void *wall, int steps, int way);
    /* The hour's result added to a tally, of struct dew_date *date. */
    void (*tally)(void *bundle, size_t which, const void *date);
    void (*required)(void *bundle, int lane, core__plain flow);
    long (*tries)(const void *bundle); /* of steps, so far                  */
    /* A result or a tally of one house, as its plain struct. */
    void (*result)(const void *bundle, int lane, core__plain *out);
    void (*total)(const void *bundle, size_t which, int lane, core__plain *out);
};

/* Those of 4 and 8 are built where MARCH__WIDE is defined. */
extern const struct march__kernel march__kernel_2, march__kernel_4,
    march__kernel_8;

#endif
