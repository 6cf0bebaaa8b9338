/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spelling distance.  Private to engine/. */
#ifndef DEW_CORE_NEAR_H
#define DEW_CORE_NEAR_H

#include <stddef.h>

/*
 * Letters to insert, drop, change or swap with a neighbour to make b of a,
 * looking at the first 63 of each.  Case and "-" for "_" cost nothing.
 */
size_t core__distance(const char *a, const char *b);

#endif
