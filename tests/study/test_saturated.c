/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rule about saturated air, on books written by hand. */
#include "support/rows.h"

#include "study/scene.h"

static struct scene s;
static struct dew_verdict v;

/* Each option with an hour of it, with the water that fell out. */
static void saturated_air_is_told_of_its_option(void **state)
{
    const struct dew_finding *f;

    (void)state;
    scene_open(&s, 2);
    s.outcomes[1].year.saturated = 3;
    s.outcomes[1].year.water.fog = -2.7;
    dew_verdict_of(&s.question, &v);
    assert_null(scene_find(&v, DEW_FINDING_saturated, 0));
    f = scene_find(&v, DEW_FINDING_saturated, 1);
    assert_non_null(f);
    assert_near(f->value[0], 3, 0);
    assert_near(f->value[1], 2.7, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(saturated_air_is_told_of_its_option),
    };

    return cmocka_run_group_tests_name("study, saturated air", tests, NULL,
                                       NULL);
}
