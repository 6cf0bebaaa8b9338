/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules between keys, in parts.  Private to engine/scenario/. */
#ifndef DEW_SCENARIO_AGREE_H
#define DEW_SCENARIO_AGREE_H

#include "scenario/scenario.h"

/* Of the ducts, of every option; faults go to r. */
void scenario__agree_ducts(const struct dew_scenario *s,
                           struct scenario__reading *r);

/* Of one option's values, but for the ducts': the first rule that is broken. */
enum dew_status scenario__agree_values(const struct dew_value *v,
                                       struct dew_error *err);

#endif
