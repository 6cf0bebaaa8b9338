/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answers by place, as bytes. */
#ifndef DEW_MADE_ATLAS_H
#define DEW_MADE_ATLAS_H

#include "core/embed.h"
#include "dew/atlas.h"

/* weather/answers.csv, from a comment line to a NUL. */
CORE__EMBEDDED(answers_csv);

/* The row of station in such a text, whose rows follow a line of names; returns
   0, *out untouched, where there is none, or it is not whole. */
int made__atlas_find(const char *text, const char *station,
                     struct dew_atlas *out);

#endif
