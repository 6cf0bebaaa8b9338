/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Built as WebAssembly: each option of the demo in each lane, beside the same
 * option alone, through its lead-in and the first 1,500 hours, to the last bit.
 * (tests/march/test_bundle.c asks more of lanes, where there is a cmocka.)
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/run.h"
#include "march/bundle.h"

enum { HOURS = 1500 };

static struct dew_result alone[HOURS];

static void must(enum dew_status status, const char *what)
{
    if (status == DEW_OK)
        return;
    printf("not ok %s: status %d\n", what, (int)status);
    exit(EXIT_FAILURE);
}

static void march_alone(const struct dew_case *c, const struct dew_weather *w)
{
    struct dew_march *m;

    must(dew_march_open(&m, c, &w->hours[0], NULL), "open");
    must(dew_march_warm_up(m, w->hours, w->dates, w->count, NULL, NULL),
         "lead-in");
    for (size_t h = 0; h < HOURS; h++)
        must(dew_march_step(m, &w->hours[h], &w->dates[h], &alone[h], NULL),
             "step");
    dew_march_close(m);
}

static int all_same(const struct dew_bundle *b, size_t lanes, size_t h)
{
    struct dew_result r;

    for (size_t i = 0; i < lanes; i++) {
        dew_bundle_result(b, i, &r);
        if (memcmp(&r, &alone[h], sizeof r) != 0)
            return 0;
    }
    return 1;
}

/* The hours through which each lane is what the house is alone. */
static size_t march_in_lanes(const struct dew_case *c,
                             const struct dew_weather *w, size_t lanes)
{
    const struct dew_case *cases[DEW_BUNDLE_MOST];
    struct dew_weather weather[DEW_BUNDLE_MOST];
    struct dew_bundle *b;
    size_t h = 0;
    int same = 1;

    for (size_t i = 0; i < lanes; i++) {
        cases[i] = c;
        weather[i] = *w;
    }
    must(dew_bundle_open(&b, cases, weather, lanes, 0, NULL), "open a bundle");
    must(dew_bundle_warm_up(b, NULL, NULL), "lead-in of a bundle");
    while (h < HOURS && same) {
        must(dew_bundle_step(b, h, NULL, NULL), "step of a bundle");
        same = all_same(b, lanes, h);
        h += same ? 1 : 0;
    }
    dew_bundle_close(b);
    return h;
}

int main(void)
{
    const struct dew_run_ask ask = {.name = "scenarios/demo.yaml"};
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    size_t lanes = (size_t)dew_bundle_lanes(), count;
    struct dew_weather w = {0};
    struct dew_run *run;
    int bad = 0;

    must(dew_run_open(&run, &ask, &faults), ask.name);
    w.hours = dew_year_hours(dew_run_year(run), &w.count);
    w.dates = dew_year_dates(dew_run_year(run), &count);
    for (size_t i = 0; i < dew_run_count(run); i++) {
        size_t same;

        march_alone(dew_run_case(run, i), &w);
        same = march_in_lanes(dew_run_case(run, i), &w, lanes);
        printf("%s option %zu in %zu lanes and alone: %zu hours the same\n",
               same == HOURS ? "ok" : "not ok", i + 1, lanes, same);
        bad |= same != HOURS;
    }
    dew_run_close(run);
    return bad;
}
