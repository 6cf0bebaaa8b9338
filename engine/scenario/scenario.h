/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The body of a scenario.  Private to engine/scenario/. */
#ifndef DEW_SCENARIO_SCENARIO_H
#define DEW_SCENARIO_SCENARIO_H

#include "dew/scenario.h"
#include "ducts/seen.h"
#include "scenario/keys.h"
#include "scenario/tree.h"
#include "scenario/value.h"

enum { SCENARIO__OPTIONS = 64, SCENARIO__NAME = 60 };

struct scenario__option {
    const char *name;
    struct dew_value *values;               /* SCENARIO__KEYS */
    const struct dew_duct_written *written; /* of ducts.runs, or NULL */
};

struct dew_scenario {
    struct scenario__arena arena;
    const char *text;
    size_t length;
    struct dew_value *presets, *base; /* SCENARIO__KEYS each */
    struct scenario__option options[SCENARIO__OPTIONS];
    size_t count;
    int bare; /* 1: no options were told, and the one is the house itself */
    size_t systems[3];
    struct ducts__seen *seen; /* layouts that were solved; or NULL         */
};

/* Fill presets, base and options from the source.  Faults go to faults. */
enum dew_status scenario__read(struct dew_scenario *s,
                               const struct dew_scenario_source *from,
                               struct dew_faults *faults);

/* What one key alone cannot show: rules between keys, of every option. */
enum dew_status scenario__agree(const struct dew_scenario *s,
                                const char *source, struct dew_faults *faults);

/* The same beside faults of single keys, so that one pass tells both: rules of
   which no fault touches a key, of options without a fault of their own. */
void scenario__agree_beside(const struct dew_scenario *s, const char *source,
                            struct dew_faults *faults);

#endif
