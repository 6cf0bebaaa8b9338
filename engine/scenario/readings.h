/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row of readings, beyond its cells.  Private to engine/scenario/. */
#ifndef DEW_SCENARIO_READINGS_H
#define DEW_SCENARIO_READINGS_H

#include "scenario/value.h"

/*
 * What is wrong with a row that was read into cells, where no fault of a cell
 * was said: returns 1 where nothing is.  A when that is no time is not given
 * any more.
 */
int scenario__reading_agrees(struct scenario__reading *r,
                             const struct scenario__node *row,
                             struct dew_value *cells);

#endif
