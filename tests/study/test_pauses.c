/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a fan's air counts when it pauses. */
#include "support/rows.h"

#include "study/scene.h"

static struct scene s;

/* Twelve hours of every day at twice the flow is not the same air: 400 m3,
   80 l/s, k = 17.28; mean concentration 0.2118, worked by hand. */
TEST(air_in_long_pauses_counts_for_less)
{
    struct dew_control *k = &s.cases[0].plant.control;
    double per = 17.28, off = 0.5;
    double c =
        1 / per + off * (1 / per + off / expm1(per * 0.5)) + off * off / 2;

    scene_open(&s, 1);
    s.cases[0].house.volume = 400;
    for (int h = 0; h < 24; h++)
        k->on_weekday[h] = k->on_weekend[h] = h % 2 ? 1 : 0;
    assert_near(dew_verdict_fresh(&s.question, 0), 0.040 * 2 / 3, 1e-12);
    for (int h = 0; h < 24; h++)
        k->on_weekday[h] = k->on_weekend[h] = h < 12 ? 1 : 0;
    assert_near(dew_verdict_fresh(&s.question, 0), 400 / 86400.0 / c, 1e-12);
    assert_false(dew_verdict_ventilates(&s.question, 0));
    for (int h = 0; h < 24; h++)
        k->on_weekday[h] = k->on_weekend[h] = 0.31;
    assert_near(dew_verdict_fresh(&s.question, 0), 0.040, 1e-15);
}

RUN_TESTS("study, pauses");
