/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of suggestions share.  Private to engine/run/. */
#ifndef DEW_RUN_SUGGEST_H
#define DEW_RUN_SUGGEST_H

#include "dew/suggest.h"
#include "run/run.h"

/* Options are sums of parts: bit of each. */
/* clang-format off */
#define RUN__PART_MAP(X)                                                       \
    X(windows) X(exhaust) X(heat) X(enthalpy) X(dehumidifier) X(control)       \
    X(humidifier) X(return_tie) X(supply_tie) X(mix)
/* clang-format on */

enum run__part {
#define X(name) RUN__PART_##name,
    RUN__PART_MAP(X)
#undef X
        RUN__PARTS
};

enum { RUN__SUGGEST_MOST = 40, RUN__SUGGEST_NAME = 60 };

/* The parts of list entry i that suit the house, 0 past the end; the name. */
unsigned run__suggest_parts(const struct dew_run *house, size_t i);
void run__suggest_name(unsigned parts, char name[RUN__SUGGEST_NAME + 1]);

/*
 * The text of the house's scenario with other options: the house as it stands
 * and those parts, count of them; to be freed.  NULL on an error: DEW_EMEM, and
 * DEW_ESYNTAX where the text has no place for them.
 */
char *run__suggest_write(const struct dew_run *house, const unsigned *parts,
                         size_t count, size_t *length, struct dew_error *err);

#endif
