/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scenario of scenarios/, read from the root of the tree. */
#ifndef DEW_TESTS_SHIPPED_H
#define DEW_TESTS_SHIPPED_H

#include <stdio.h>

#include "dew/scenario.h"

static inline struct dew_scenario *open_shipped(const char *path)
{
    static char text[20000];
    struct dew_error list[2] = {{0}};
    struct dew_faults faults = {list, 2, 0};
    FILE *in = fopen(path, "r");
    struct dew_scenario_source from = {text, 0, path, NULL, 0};
    struct dew_scenario *s = NULL;

    assert_non_null(in);
    from.length = fread(text, 1, sizeof text, in);
    fclose(in);
    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        fail_msg("%s: %s", path, list[0].text);
    return s;
}

#endif
