/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the verdict says of a wet coil that nobody knows well. */
#include "study/judged.h"

/* The coil read dry and wet: 8760 h, of which 175.2 keep the limit. */
static struct dew_outcome dry_coil[SCENE_MOST], wet_coil[SCENE_MOST];

static void read_coil(size_t i, double dry, double now, double wet)
{
    scene_humid(&s, i, JULY, now);
    dry_coil[i] = wet_coil[i] = s.outcomes[i];
    dry_coil[i].year.too_humid = dry;
    wet_coil[i].year.too_humid = wet;
    s.choices[i].coil_dry = &dry_coil[i];
    s.choices[i].coil_wet = &wet_coil[i];
}

TEST(what_the_coil_leaves_open_is_told)
{
    const struct dew_finding *f;

    scene_open(&s, 5);
    read_coil(0, 0, 81, 708);      /* today */
    read_coil(1, 400, 700, 900);   /* neither best nor in doubt */
    read_coil(2, 113, 1036, 2609); /* its limits hang on it */
    read_coil(3, 3, 12, 29);       /* best, and least humid */
    judge();
    f = must(FIND(coil_today, 0));
    assert_near(f->number.coil_today.likely, 81, 0);
    assert_near(f->number.coil_today.low, 0, 0);
    assert_near(f->number.coil_today.high, 708, 0);
    assert_near(f->number.coil_today.decides, 1,
                0); /* 0 h keep the limits, 708 h do not */
    assert_null(FIND(coil_option, 1));
    f = must(FIND(coil_option, 2));
    assert_near(f->number.coil_option.low, 113, 0);
    assert_near(f->number.coil_option.high, 2609, 0);
    assert_true(f->number.coil_option.decides);
    assert_null(FIND(coil_option, 4)); /* not marched otherwise */
}

TEST(the_best_is_told_with_its_coil_and_alike_ones_are_not)
{
    scene_open(&s, 3);
    read_coil(0, 501, 500.2, 500.4);
    read_coil(1, 3, 12, 29);
    read_coil(2, 480, 490, 520);
    judge();
    assert_null(FIND(coil_today, ANY));
    assert_false(NUMBERS(coil_option, 1).decides);
    assert_near(NUMBERS(coil_option, 1).likely, 12, 0);
    assert_null(FIND(coil_option, 2));
}

RUN_TESTS("study, verdict, coil");
