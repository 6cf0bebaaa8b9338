/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of layouts, cores and answers. */
#include "support/rows.h"

#include <string.h>

#include "dew/study.h"

TEST(every_layout_has_its_own_words)
{
    for (int i = 0; i < DEW_LAYOUTS; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(dew_layout_text((enum dew_layout)i),
                                    dew_layout_text((enum dew_layout)k));
    assert_string_equal(dew_layout_text(DEW_LAYOUT_mix),
                        "fresh air into the return duct, stale air by own "
                        "ducts");
    assert_string_equal(dew_layout_text(DEW_LAYOUTS), "no such layout");
}

TEST(every_core_has_its_own_words)
{
    for (int i = 0; i < DEW_CORE_KINDS; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(dew_core_text((enum dew_core_kind)i),
                                    dew_core_text((enum dew_core_kind)k));
    assert_string_equal(dew_core_text(DEW_CORE_enthalpy_wheel),
                        "wheel, heat and moisture");
    assert_string_equal(dew_core_text(DEW_CORE_KINDS), "no such core");
}

TEST(an_answer_not_given_is_unknown)
{
    struct dew_safety safety = {0};

    assert_string_equal(dew_answer_text(safety.attached_garage), "unknown");
    assert_string_equal(dew_answer_text(DEW_ANSWER_NO), "no");
    assert_string_equal(dew_answer_text(DEW_ANSWER_YES), "yes");
}

RUN_TESTS("study, inputs");
