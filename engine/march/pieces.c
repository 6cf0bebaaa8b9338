/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "march/pieces.h"

#include "march/case_map.h"

static const struct march__span spans[] = {MARCH__CASE_SPANS};

#define PIECE(member) piece(of, &c->member, sizeof c->member);
void march__case_pieces(const struct dew_case *c, march__piece *piece, void *of)
{
    for (size_t s = 0; s < sizeof spans / sizeof spans[0]; s++) {
        const char *at = (const char *)c + spans[s].offset;

        for (size_t i = 0; i < spans[s].times; i++, at += spans[s].stride)
            piece(of, at, spans[s].count * sizeof(double));
    }
    MARCH__CASE_FORKS(PIECE)
    MARCH__CASE_IDLE(PIECE)
}
