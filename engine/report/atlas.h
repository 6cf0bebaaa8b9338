/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the atlas has of a place, in words. */
#ifndef DEW_REPORT_ATLAS_H
#define DEW_REPORT_ATLAS_H

#include <stddef.h>

#include "dew/atlas.h"

/* Two sentences at most, the first to follow "in places like yours"; 480 bytes
   hold them. */
void report__atlas_words(const struct dew_atlas *a, char *out, size_t size);

#endif
