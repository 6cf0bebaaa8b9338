/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where a year begins: its second march must repeat the first.  Every shipped
 * scenario without construction water, ducts or a weather file of its own.
 */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "dew/bundle.h"
#include "support/asked_run.h"

enum { YEAR = 8760, MOST = 2 * YEAR, OPTIONS = 16 };

static struct dew_hour hours[MOST];
static struct dew_date dates[MOST];

/* Options of a run that march side by side, and where they are of it. */
struct some {
    const struct dew_case *cases[OPTIONS];
    size_t option[OPTIONS], count;
};

struct two {
    double squares;  /* of RH, second year less the first                   */
    double humid[2]; /* h too humid                                         */
};

/* Hour h of house i, whose RH of the first year is kept. */
static void count_hour(struct two *two, double *first, const struct dew_case *c,
                       const struct dew_result *r, int h)
{
    int at = h % YEAR, year = h / YEAR;
    double gap = year > 0 ? r->rh - first[at] : 0;

    if (year == 0)
        first[at] = r->rh;
    two->squares += gap * gap;
    two->humid[year] += r->rh > c->limits.too_humid + 0.0005;
}

/* March hours of a year, then the same again; leads in with both. */
static void twice(const struct some *some, struct two *two)
{
    static double first[OPTIONS][YEAR];
    struct dew_weather weather[OPTIONS];
    struct dew_error err = {0};
    struct dew_bundle *b;

    for (size_t i = 0; i < some->count; i++)
        weather[i] =
            (struct dew_weather){.hours = hours, .dates = dates, .count = MOST};
    assert_int_equal(
        dew_bundle_open(&b, some->cases, weather, some->count, 1, &err),
        DEW_OK);
    assert_int_equal(dew_bundle_warm_up(b, NULL, &err), DEW_OK);
    for (int h = 0; h < MOST; h++) {
        if (dew_bundle_step(b, (size_t)h, NULL, &err) != DEW_OK)
            fail_msg("hour %d: %s", err.hour, err.text);
        for (size_t i = 0; i < some->count; i++) {
            struct dew_result r;

            dew_bundle_result(b, i, &r);
            count_hour(&two[i], first[i], some->cases[i], &r, h);
        }
    }
    dew_bundle_close(b);
}

/* Goals: 0.003 point, one hour. */
static void repeats(const char *name, const struct two *got)
{
    double rms = 100.0 * sqrt(got->squares / YEAR);

    if (!(rms <= 0.003) || fabs(got->humid[0] - got->humid[1]) > 1.0)
        fail_msg("%s: rms %.4f point, %g then %g h too humid", name, rms,
                 got->humid[0], got->humid[1]);
}

/* The next that are alike; 0 where all are taken. */
static int next(struct dew_run *run, unsigned char *taken, struct some *some)
{
    size_t lanes = (size_t)dew_bundle_lanes();

    *some = (struct some){.count = 0};
    for (size_t i = 0; i < dew_run_count(run) && some->count < lanes; i++) {
        const struct dew_case *c = dew_run_case(run, i);

        if (taken[i] ||
            (some->count > 0 && !dew_bundle_alike(some->cases[0], c)))
            continue;
        taken[i] = 1;
        if (c->house.water[DEW_SOURCE_drying].per_day > 0.0)
            continue;
        some->cases[some->count] = c;
        some->option[some->count++] = i;
    }
    return some->count > 0;
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
    unsigned char taken[OPTIONS] = {0};
    struct dew_run *run;
    struct some some;
    char path[80], name[160];
    int done = 0;

    if (dew_bundle_lanes() == 0)
        skip();
    snprintf(path, sizeof path, "scenarios/%s.yaml", row->name);
    run = asked_run(path, NULL, NULL);
    assert_true(dew_run_count(run) <= OPTIONS);
    take_year(dew_run_year(run));
    while (next(run, taken, &some)) {
        struct two two[OPTIONS] = {{0}};

        twice(&some, two);
        for (size_t i = 0; i < some.count; i++) {
            snprintf(name, sizeof name, "%s, %s", row->name,
                     dew_scenario_name(dew_run_scenario(run), some.option[i]));
            repeats(name, &two[i]);
            done++;
        }
    }
    dew_run_close(run);
    assert_int_equal(done, row->options);
}

ROWS(shipped, a_second_year_repeats_the_first);
RUN_TESTS("march, a second year");
