/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the numbers of a march's body stand, for one house or several; see
   case_map.h.  Private. */
#ifndef DEW_MARCH_BODY_MAP_H
#define DEW_MARCH_BODY_MAP_H

#include "march/case_map.h"
#include "march/march.h"

/* clang-format off */
#define MARCH__WHOLE(at, type, times)                                          \
    {"", offsetof(struct march__body, at), sizeof(type) / sizeof(double),      \
     times, sizeof(type), 0}

#define MARCH__NUMBERS(at, times)                                              \
    {"", offsetof(struct march__body, at), 1, times, sizeof(double), 0}

/* All of a body but its case. */
#define MARCH__BODY_SPANS                                                      \
    MARCH__WHOLE(lane, struct march__lane, 1),                                 \
    MARCH__WHOLE(coils, struct dew_coil, DEW_HANDLERS),                        \
    MARCH__WHOLE(stores, struct dew_coil_store, DEW_HANDLERS),                 \
    MARCH__WHOLE(stages, struct plant__stages, DEW_HANDLERS),                  \
    MARCH__NUMBERS(by_removal, 1),                                       \
    MARCH__NUMBERS(by_efficiency, 1),                                    \
    MARCH__NUMBERS(switches, 1),                                         \
    MARCH__NUMBERS(pressure_all, 1),                                     \
    MARCH__WHOLE(clock, struct march__clock, 1),                       \
    {"", offsetof(struct march__body, now),                                    \
     offsetof(struct march__now, kinds) / sizeof(double), 1, 0, 0},            \
    MARCH__WHOLE(before, struct dew_hour, 1),                                  \
    MARCH__WHOLE(at.x, struct dew_state, 1),                                   \
    MARCH__NUMBERS(at.x_p, 1),                                           \
    MARCH__WHOLE(at.terms, struct march__terms, 1),                            \
    MARCH__WHOLE(at.blend, struct march__blend, 1),                            \
    MARCH__NUMBERS(at.stage, DEW_HANDLERS),                              \
    MARCH__WHOLE(at.off, struct plant__off, DEW_HANDLERS),                     \
    MARCH__NUMBERS(at.ahead, DEW_HANDLERS),                              \
    MARCH__NUMBERS(at.lowered, 1),                                       \
    MARCH__NUMBERS(at.ran, DEW_HANDLERS),
/* clang-format on */

#endif
