/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where a year begins: its second march must repeat the first.  Every shipped
 * scenario without construction water, ducts or a weather file of its own.
 */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "march/open.h"
#include "support/asked_run.h"

enum { YEAR = 8760, MOST = 2 * YEAR };

static struct dew_hour hours[MOST];
static struct dew_date dates[MOST];

struct two {
    double rms;      /* points of RH, second year against first             */
    double humid[2]; /* h too humid                                         */
};

/* March count hours of a year, then the same again; leads in with both. */
static struct two twice(const struct dew_case *c)
{
    static double first[YEAR];
    struct dew_error err = {0};
    struct two two = {0};
    struct dew_march *m;

    assert_int_equal(dew_march_open(&m, c, &hours[0], &err), DEW_OK);
    assert_int_equal(dew_march_warm_up(m, hours, dates, MOST, NULL, &err),
                     DEW_OK);
    for (int h = 0; h < MOST; h++) {
        struct dew_result r;
        int at = h % YEAR, year = h / YEAR;

        if (dew_march_step(m, &hours[h], &dates[h], &r, &err) != DEW_OK)
            fail_msg("hour %d: %s", err.hour, err.text);
        if (year == 0)
            first[at] = r.rh;
        two.rms += year * (r.rh - first[at]) * (r.rh - first[at]);
        two.humid[year] += r.rh > c->limits.too_humid + 0.0005;
    }
    dew_march_close(m);
    two.rms = 100.0 * sqrt(two.rms / YEAR);
    return two;
}

/* Goals: 0.003 point, one hour. */
static void repeats(const char *name, const struct dew_case *c)
{
    struct two got = twice(c);

    if (got.rms > 0.003 || fabs(got.humid[0] - got.humid[1]) > 1.0)
        fail_msg("%s: rms %.4f point, %g then %g h too humid", name, got.rms,
                 got.humid[0], got.humid[1]);
}

static void take_year(const struct dew_year *year)
{
    size_t count;

    memcpy(hours, dew_year_hours(year, &count), YEAR * sizeof *hours);
    memcpy(dates, dew_year_dates(year, &count), YEAR * sizeof *dates);
    assert_int_equal(count, YEAR);
    memcpy(hours + YEAR, hours, YEAR * sizeof *hours);
    memcpy(dates + YEAR, dates, YEAR * sizeof *dates);
}

struct shipped {
    const char *name; /* of the file, without its end                       */
    int options;      /* of them without construction water                 */
};

static const struct shipped shipped[] = {
    {"demo", 5},         {"cores_cold", 9},   {"cores_dry", 9},
    {"cores_humid", 10}, {"dry_mountain", 4}, {"cold_winter", 4},
    {"tutorial", 4},     {"blower_modes", 7},
};

static void a_second_year_repeats_the_first(void **state)
{
    const struct shipped *row = *state;
    struct dew_run *run;
    char path[80], name[160];
    int done = 0;

    snprintf(path, sizeof path, "scenarios/%s.yaml", row->name);
    run = asked_run(path, NULL, NULL);
    take_year(dew_run_year(run));
    for (size_t i = 0; i < dew_run_count(run); i++) {
        const struct dew_case *c = dew_run_case(run, i);

        if (c->house.water[DEW_SOURCE_drying].per_day > 0.0)
            continue;
        snprintf(name, sizeof name, "%s, %s", row->name,
                 dew_scenario_name(dew_run_scenario(run), i));
        repeats(name, c);
        done++;
    }
    dew_run_close(run);
    assert_int_equal(done, row->options);
}

ROWS(shipped, a_second_year_repeats_the_first);
RUN_TESTS("march, a second year");
