/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers with units, ranges and "at".  Private to engine/scenario/. */
#ifndef DEW_SCENARIO_NUMBER_H
#define DEW_SCENARIO_NUMBER_H

#include "scenario/value.h"

/* NUMBER, COUNT, AT, HOURS and the entries of LIST.  1, or 0 after a fault. */
int scenario__number_value(struct scenario__reading *r,
                           const struct dew_field *field, const char *path,
                           const struct scenario__node *node,
                           struct dew_value *out);

#endif
