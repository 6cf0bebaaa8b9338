/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every option of every shipped scenario, its year in steps as shipped beside
   sixty an hour. */
#include "support/rows.h"

#include <glob.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "support/asked_run.h"
#include "support/exact.h"

/* Options that are near enough. */
static size_t whole_file(const char *path, size_t *count)
{
    struct dew_run *run = asked_run(path, NULL, NULL);
    struct exact_hours y = {.whole = 1};
    size_t good = 0;

    y.hours = dew_year_hours(dew_run_year(run), &y.count);
    y.dates = dew_year_dates(dew_run_year(run), &y.count);
    *count = dew_run_count(run);
    for (size_t i = 0; i < *count; i++) {
        struct exact e = exact_run(dew_run_case(run, i), &y);

        printf("  %-44s RH rms %.4f, max %.4f point; %5.0f against %5.0f h "
               "humid\n",
               dew_scenario_name(dew_run_scenario(run), i), e.rms, e.max,
               e.humid[0], e.humid[1]);
        fflush(stdout);
        good += (size_t)exact_enough(&e);
    }
    dew_run_close(run);
    return good;
}

TEST(shipped_scenarios)
{
    size_t good = 0, done = 0;
    glob_t files;

    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &files), 0);
    for (size_t f = 0; f < files.gl_pathc; f++) {
        size_t count;

        printf("%s\n", files.gl_pathv[f]);
        good += whole_file(files.gl_pathv[f], &count);
        done += count;
    }
    globfree(&files);
    assert_true(done > 90);
    assert_int_equal(good, done);
}

RUN_TESTS("study, exact");
