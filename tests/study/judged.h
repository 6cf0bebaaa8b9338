/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scene and what the verdict says of it. */
#ifndef DEW_TESTS_STUDY_JUDGED_H
#define DEW_TESTS_STUDY_JUDGED_H

#include "support/rows.h"

#include "study/scene.h"

enum {
    ANY = -2,
    JANUARY = 0,
    FEBRUARY = 1,
    MAY = 4,
    JUNE = 5,
    JULY = 6,
    AUGUST = 7
};

static struct scene s;
static struct dew_verdict v;

static inline void judge(void)
{
    dew_verdict_of(&s.question, &v);
}

static inline const struct dew_finding *must(const struct dew_finding *f)
{
    assert_non_null(f);
    return f;
}

/* The finding of a kind about an option, or NULL; its numbers, which must be
   there. */
#define FIND(kind, option)    scene_find(&v, DEW_FINDING_##kind, (option))
#define NUMBERS(kind, option) must(FIND(kind, option))->number.kind

#endif
