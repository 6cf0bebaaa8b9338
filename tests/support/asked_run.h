/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scenario run: by its text, or by its path from the root of the tree. */
#ifndef DEW_TESTS_ASKED_RUN_H
#define DEW_TESTS_ASKED_RUN_H

#include <string.h>

#include "dew/run.h"
#include "support/rows.h"

/* text NULL: the file at name. */
static inline struct dew_run *asked_with(const char *name, const char *text,
                                         const char *const *sets, size_t count)
{
    struct dew_error list[2] = {{0}};
    struct dew_faults faults = {list, 2, 0};
    const struct dew_run_ask ask = {.name = name,
                                    .text = text,
                                    .length = text != NULL ? strlen(text) : 0,
                                    .sets = sets,
                                    .set_count = count};
    struct dew_run *run;
    char line[512];

    if (dew_run_open(&run, &ask, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return run;
}

/* set: one "key=value", or NULL. */
static inline struct dew_run *asked_run(const char *name, const char *text,
                                        const char *set)
{
    return asked_with(name, text, &set, set != NULL);
}

static inline struct dew_run *marched_run(const char *name, const char *text)
{
    struct dew_run *run = asked_run(name, text, NULL);
    struct dew_error err = {0};
    double done = 0;

    while (done < 1)
        assert_int_equal(dew_run_step(run, 8760, &done, &err), DEW_OK);
    return run;
}

#endif
