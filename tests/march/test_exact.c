/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Steps as shipped beside sixty an hour, where that was hardest: weeks of a
 * summer in which evaporation off the coil and cooling take turns; years of a
 * house so damp that its glass is wet every night, of two controls that switch,
 * which some weeks hit by luck, of a coil foretold dry under a blower that goes
 * on, of one that gave back too much before the year, and of ducts on an air
 * handler, where cooling foretold late moves the air's mean.  The study does every
 * year of every shipped scenario.
 */
#include "support/rows.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "support/asked_run.h"
#include "support/exact.h"

struct row {
    const char *name;
    const char *file;
    int option;
    size_t from, count; /* h of its year; count 0: all                      */
};

enum { MAY = 3000, AUGUST = 5040, OCTOBER = 6500, WEEKS = 6 * 168 };

static const struct row rows[] = {
    {"nothing special", "demo", 0, AUGUST, WEEKS},
    {"dehumidifier", "demo", 4, MAY, WEEKS},
    {"air at the limit", "demo", 3, 0, 0},
    {"blower with the ventilator", "blower_modes", 1, AUGUST, WEEKS},
    {"blower some minutes", "blower_modes", 2, OCTOBER, WEEKS},
    {"blower always", "blower_modes", 3, AUGUST, WEEKS},
    {"two stages", "blower_modes", 4, 0, 0},
    {"overcooling", "blower_modes", 5, 0, 0},
    {"dry coil under a blower", "cores_cold", 7, 0, 0},
    {"coil that owed before the year", "ducts_cold", 2, 0, 0},
    {"return tie", "ducts_humid", 2, OCTOBER, WEEKS},
    {"two handlers, the mix", "ducts_humid", 12, OCTOBER, WEEKS},
    {"films", "dry_mountain", 0, 0, 0},
    {"films that come and go", "cores_humid", 0, 0, 0},
    {"ducts tied, air at the limit", "ducts_humid", 3, 0, 0},
};

static void a_quarter_of_an_hour_is_short_enough(void **state)
{
    const struct row *row = *state;
    char path[80];
    struct exact_hours y = {.whole = row->count == 0};
    struct dew_run *run;
    struct exact e;

    if (getenv("DEW_KIND") != NULL && strcmp(getenv("DEW_KIND"), "gcc") != 0)
        skip();
    snprintf(path, sizeof path, "scenarios/%s.yaml", row->file);
    run = asked_run(path, NULL, NULL);
    y.hours = dew_year_hours(dew_run_year(run), &y.count) + row->from;
    y.dates = dew_year_dates(dew_run_year(run), &y.count) + row->from;
    y.count = y.whole ? y.count : row->count;
    e = exact_run(dew_run_case(run, (size_t)row->option), &y);
    dew_run_close(run);
    print_message("%s: RH rms %.4f, max %.4f point, %g against %g h humid\n",
                  row->name, e.rms, e.max, e.humid[0], e.humid[1]);
    assert_true(exact_enough(&e));
}

ROWS(rows, a_quarter_of_an_hour_is_short_enough);
RUN_TESTS("march, exact");
