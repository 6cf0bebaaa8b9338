/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A case piece by piece, for a name of it.  Private. */
#ifndef DEW_MARCH_PIECES_H
#define DEW_MARCH_PIECES_H

#include <stddef.h>

#include "dew/march.h"

typedef void march__piece(void *of, const void *bytes, size_t length);

/* Every number of a case in the order of case_map.h, and nothing that lies
   between them: two cases that march alike give the same bytes. */
void march__case_pieces(const struct dew_case *c, march__piece *piece,
                        void *of);

#endif
