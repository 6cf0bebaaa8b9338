/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Steps as shipped beside sixty an hour, where that was hardest: weeks of a
 * summer in which evaporation off the coil and cooling take turns; months of a
 * house so damp that its glass is wet every night, of two controls that switch,
 * which some weeks hit by luck, of a coil foretold dry under a blower that goes
 * on, of one that gave back too much before the year, and of ducts on an air
 * handler, where cooling foretold late moves the air's mean.  EVERY=1
 * does the whole year where a part of it stands for it, the months that were
 * hardest; the study every year of every shipped scenario.
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
    int part;           /* 1: where EVERY=1 does the year                   */
};

enum { MAY = 3000, AUGUST = 5040, OCTOBER = 6500, WEEKS = 6 * 168 };
enum { SPRING = 2190, JULY = 4200, FALL = 5840, MONTH = 730 };

static const struct row rows[] = {
    {"nothing special", "demo", 0, AUGUST, WEEKS, 0},
    {"dehumidifier", "demo", 4, MAY, WEEKS, 0},
    {"air at the limit", "demo", 3, FALL, 4 * MONTH, 1},
    {"blower with the ventilator", "blower_modes", 1, AUGUST, WEEKS, 0},
    {"blower some minutes", "blower_modes", 2, OCTOBER, WEEKS, 0},
    {"blower always", "blower_modes", 3, AUGUST, WEEKS, 0},
    {"two stages", "blower_modes", 4, JULY, 4 * MONTH, 1},
    {"overcooling", "blower_modes", 5, JULY, 4 * MONTH, 1},
    {"dry coil under a blower", "cores_cold", 7, MAY, 3 * MONTH, 1},
    {"coil that owed before the year", "ducts_cold", 2, 0, 0, 0},
    {"return tie", "ducts_humid", 2, OCTOBER, WEEKS, 0},
    {"two handlers, the mix", "ducts_humid", 12, OCTOBER, WEEKS, 0},
    {"films", "dry_mountain", 0, SPRING, 6 * MONTH, 1},
    {"films that come and go", "cores_humid", 0, 0, 4 * MONTH, 1},
    {"ducts tied, air at the limit", "ducts_humid", 3, SPRING, 4 * MONTH, 1},
};

static void a_quarter_of_an_hour_is_short_enough(void **state)
{
    const struct row *row = *state;
    char path[80];
    const int whole = row->count == 0 || (row->part && getenv("EVERY") != NULL);
    struct exact_hours y = {.whole = whole};
    struct dew_run *run;
    struct exact e;

    if (getenv("DEW_KIND") != NULL && strcmp(getenv("DEW_KIND"), "gcc") != 0)
        skip();
    snprintf(path, sizeof path, "scenarios/%s.yaml", row->file);
    run = asked_run(path, NULL, NULL);
    y.hours =
        dew_year_hours(dew_run_year(run), &y.count) + (whole ? 0 : row->from);
    y.dates =
        dew_year_dates(dew_run_year(run), &y.count) + (whole ? 0 : row->from);
    y.count = whole ? y.count : row->count;
    e = exact_run(dew_run_case(run, (size_t)row->option), &y);
    dew_run_close(run);
    print_message("%s: RH rms %.4f, max %.4f point, %g against %g h humid\n",
                  row->name, e.rms, e.max, e.humid[0], e.humid[1]);
    assert_true(exact_enough(&e));
}

ROWS(rows, a_quarter_of_an_hour_is_short_enough);
RUN_TESTS("march, exact");
