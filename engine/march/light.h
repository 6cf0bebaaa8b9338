/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who shares the sun's light.  Private. */
#ifndef DEW_MARCH_LIGHT_H
#define DEW_MARCH_LIGHT_H

#include "march/drive.h"

/* 1 where the same sun meets so many facades at the same angles. */
int march__stand_alike(const struct dew_site *a, const struct dew_facade *f,
                       const struct dew_site *b, const struct dew_facade *g,
                       int facades);

/* The light of the weather's hours on the case's facades, a row an hour; NULL
   where none was made for a house that stands so. */
const struct dew_solar *march__light_for(const struct dew_case *c,
                                         const struct dew_weather *weather);

#endif
