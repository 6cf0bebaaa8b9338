/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A made-up scene asked for its cautions.  Needs support/rows.h before it. */
#ifndef DEW_TESTS_ASKED_H
#define DEW_TESTS_ASKED_H

#include <string.h>

#include "study/scene.h"

static struct scene s;
static struct dew_caution list[DEW_CAUTIONS];
static size_t count;

static inline void ask(void)
{
    count = dew_cautions_of(&s.question, list, DEW_CAUTIONS);
    assert_true(count <= DEW_CAUTIONS);
}

static inline const struct dew_caution *find(const char *key)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i].key, key) == 0)
            return &list[i];
    return NULL;
}

/* Every question answered so that nothing stands but what always does. */
static inline void answered(size_t options)
{
    scene_open(&s, options);
#define X(name, words) s.safety.name = DEW_ANSWER_NO;
    DEW_SAFETY_MAP(X)
#undef X
    s.safety.carbon_monoxide_alarm = DEW_ANSWER_YES;
    s.safety.radon_tested = DEW_ANSWER_YES;
    s.safety.dryer_vented_outdoors = DEW_ANSWER_YES;
}

#endif
