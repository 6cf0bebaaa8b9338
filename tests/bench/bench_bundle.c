/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Houses side by side against houses alone, whole years with their lead-in, and
 * ten thousand different houses of one place.  BENCH_HOUSES sets their number.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/parallel.h"
#include "dew/run.h"
#include "march/bundle.h"
#include "support/drawn.h"

enum { ROUNDS = 3 };

static double now_of(clockid_t clock)
{
    struct timespec t;

    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void must(enum dew_status status, const char *what)
{
    if (status == DEW_OK)
        return;
    fprintf(stderr, "%s: status %d\n", what, (int)status);
    exit(EXIT_FAILURE);
}

/* The demo's place and its options' cases. */
struct place {
    struct dew_run *run;
    struct dew_weather weather;
    struct dew_light *light;
    size_t options;
};

static struct place open_place(const char *name)
{
    const struct dew_run_ask ask = {.name = name};
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct place p;
    size_t count;

    must(dew_run_open(&p.run, &ask, &faults), name);
    p.weather.hours = dew_year_hours(dew_run_year(p.run), &p.weather.count);
    p.weather.dates = dew_year_dates(dew_run_year(p.run), &count);
    p.weather.light = NULL;
    must(dew_light_open(&p.light, dew_run_case(p.run, 0), &p.weather, NULL),
         "light");
    p.weather.light = p.light;
    p.options = dew_run_count(p.run);
    return p;
}

/* A factor of 0.7 .. 1.3. */
static double any(uint64_t *seed)
{
    return 0.7 + 0.6 * drawn_share(seed);
}

/* House i: an option of the demo's, larger, leakier, damper, fuller or less. */
static struct dew_case house(const struct place *p, size_t i, int steps)
{
    struct dew_case c = *dew_run_case(p->run, i % p->options);
    uint64_t seed = i;
    double leaky = any(&seed), coil = any(&seed);

    any(&seed);
    c.steps_per_hour = steps;
    c.house.volume *= any(&seed);
    c.house.leakage.c *= leaky;
    c.house.leakage.stack_k *= leaky;
    c.house.leakage.wind_k *= leaky;
    c.house.thermal.h_em *= any(&seed);
    c.house.thermal.h_w *= any(&seed);
    c.house.thermal.c_mass *= any(&seed);
    c.house.buffer.surface_kg *= any(&seed);
    c.house.buffer.deep_kg *= any(&seed);
    c.house.people.count *= any(&seed);
    c.house.people.gains_w *= any(&seed);
    for (int s = 0; s < DEW_SOURCES; s++)
        c.house.water[s].per_day *= any(&seed);
    for (int k = 0; k < c.plant.handler_count; k++) {
        c.plant.handlers[k].capacity *= coil;
        c.plant.handlers[k].air *= coil;
    }
    return c;
}

static double one_alone(const struct place *p, size_t i, int steps)
{
    struct dew_case c = house(p, i, steps);
    const struct dew_weather *w = &p->weather;
    struct dew_tally sum = {0};
    struct dew_result r;
    struct dew_march *m;

    must(dew_march_open(&m, &c, &w->hours[0], NULL), "open");
    must(dew_march_warm_up(m, w->hours, w->dates, w->count, NULL, NULL),
         "lead-in");
    for (size_t h = 0; h < w->count; h++) {
        must(dew_march_step(m, &w->hours[h], &w->dates[h], &r, NULL), "step");
        dew_tally_add(&sum, &c.limits, 0.0, &w->dates[h], &r);
    }
    dew_march_close(m);
    return sum.too_humid;
}

/* What a bundle's lead-in and year took: processor time, s, and tries. */
struct took {
    double lead, year;
    long led, tried;
};

/* Houses first .. first + n of like branches, side by side. */
static void some_together(const struct march__kernel *kernel,
                          const struct place *p, const size_t *which, size_t n,
                          int steps, double *humid, struct took *took)
{
    const struct march__making making = {kernel, 1};
    struct dew_case cases[DEW_BUNDLE_MOST];
    const struct dew_case *c[DEW_BUNDLE_MOST];
    struct dew_weather w[DEW_BUNDLE_MOST];
    struct dew_bundle *b;
    struct dew_tally sum;

    for (size_t k = 0; k < n; k++) {
        cases[k] = house(p, which[k], steps);
        c[k] = &cases[k];
        w[k] = p->weather;
    }
    must(march__bundle_open(&b, &making, c, w, n, NULL), "open a bundle");
    took->lead = now_of(CLOCK_THREAD_CPUTIME_ID);
    must(dew_bundle_warm_up(b, NULL, NULL), "lead-in of a bundle");
    took->led = march__bundle_tries(b);
    took->year = now_of(CLOCK_THREAD_CPUTIME_ID);
    took->lead = took->year - took->lead;
    for (size_t h = 0; h < p->weather.count; h++) {
        must(dew_bundle_step(b, h, NULL, NULL), "step of a bundle");
        dew_bundle_tally(b, 0);
    }
    took->year = now_of(CLOCK_THREAD_CPUTIME_ID) - took->year;
    took->tried = march__bundle_tries(b) - took->led;
    for (size_t k = 0; k < n; k++) {
        dew_bundle_total(b, k, 0, &sum);
        humid[which[k]] = sum.too_humid;
    }
    dew_bundle_close(b);
}

/* Bundles of houses that branch alike: list[from .. from + n), one each. */
struct batch {
    size_t which[DEW_BUNDLE_MOST], n;
};

static size_t deal(const struct place *p, size_t houses, struct batch *out)
{
    size_t lanes = (size_t)dew_bundle_lanes(), batches = 0;

    for (size_t kind = 0; kind < p->options; kind++) {
        struct batch *b = NULL;

        for (size_t i = kind; i < houses; i += p->options) {
            if (b == NULL || b->n == lanes) {
                b = &out[batches++];
                b->n = 0;
            }
            b->which[b->n++] = i;
        }
    }
    return batches;
}

/* What one_batch is to do. */
struct all {
    const struct place *place;
    const struct batch *batches;
    int steps;
    double *humid;
};

static void one_batch(void *of, size_t i)
{
    const struct all *a = of;
    struct took took;

    some_together(march__kernel(0), a->place, a->batches[i].which,
                  a->batches[i].n, a->steps, a->humid, &took);
}

static double all_together(const struct place *p, size_t houses, int steps,
                           size_t threads, double *humid)
{
    struct batch *batches = calloc(houses, sizeof *batches);
    size_t n = batches != NULL ? deal(p, houses, batches) : 0;
    struct all all = {p, batches, steps, humid};
    double begun = now_of(CLOCK_MONOTONIC);

    core__parallel(threads, n, one_batch, &all);
    begun = now_of(CLOCK_MONOTONIC) - begun;
    free(batches);
    return begun;
}

/* Processor time of one house alone and of one lane of that width, s. */
struct pair {
    double alone, lane, year; /* year: without its lead-in                  */
    double tries, led;        /* in an hour of the year, of the lead-in     */
};

static struct pair one_against_many(const struct march__kernel *kernel,
                                    const struct place *p, int steps)
{
    size_t which[DEW_BUNDLE_MOST];
    struct pair t = {INFINITY, INFINITY, INFINITY, 0.0, 0.0};
    struct took took;
    double *humid = calloc(DEW_BUNDLE_MOST * (p->options + 1), sizeof *humid);

    if (humid == NULL)
        exit(EXIT_FAILURE);
    for (size_t k = 0; k < (size_t)kernel->lanes; k++)
        which[k] = p->options - 1 + k * p->options;
    for (int round = 0; round < ROUNDS; round++) {
        double begun = now_of(CLOCK_PROCESS_CPUTIME_ID), hours;

        hours = one_alone(p, which[0], steps);
        t.alone = fmin(t.alone, now_of(CLOCK_PROCESS_CPUTIME_ID) - begun);
        some_together(kernel, p, which, (size_t)kernel->lanes, steps, humid,
                      &took);
        t.lane = fmin(t.lane, (took.lead + took.year) / kernel->lanes);
        t.year = fmin(t.year, took.year / kernel->lanes);
        t.tries = (double)took.tried / 8760.0;
        t.led = (double)took.led / (22.0 * 168.0);
        if (humid[which[0]] != hours) {
            fprintf(stderr, "%g hours alone, %g in a lane\n", hours,
                    humid[which[0]]);
            exit(EXIT_FAILURE);
        }
    }
    free(humid);
    return t;
}

static void widths(const struct place *p)
{
    const struct march__kernel *kernel;

    for (size_t k = 0; (kernel = march__kernel(k)) != NULL; k++) {
        struct pair t = one_against_many(kernel, p, 4);

        printf("a year of a house with its lead-in: %.1f ms alone, %.2f ms in "
               "one of %d lanes (%.1f times); %.2f ms without the lead-in; "
               "%.2f tries of a step an hour, %.2f in the lead-in\n",
               1e3 * t.alone, 1e3 * t.lane, kernel->lanes, t.alone / t.lane,
               1e3 * t.year, t.tries, t.led);
    }
}

static void ten_thousand(const struct place *p)
{
    const char *told = getenv("BENCH_HOUSES");
    size_t houses = told != NULL ? (size_t)atol(told) : 10000;
    double *humid = calloc(houses, sizeof *humid), *again, wall, one;
    size_t threads = core__processors();

    again = calloc(houses, sizeof *again);
    if (humid == NULL || again == NULL)
        exit(EXIT_FAILURE);
    wall = all_together(p, houses, 4, threads, humid);
    printf("%zu different houses of one place, a year and its lead-in each, "
           "books closed, %zu threads: %.1f s\n",
           houses, threads, wall);
    houses /= 10;
    wall = all_together(p, houses, 4, threads, humid);
    one = all_together(p, houses, 4, 1, again);
    for (size_t i = 0; i < houses; i++)
        if (humid[i] != again[i])
            exit(EXIT_FAILURE);
    printf("%zu of them: %.2f times as fast on %zu threads as on one, the same "
           "hours\n",
           houses, one / wall, threads);
    free(humid);
    free(again);
}

int main(void)
{
    struct place p = open_place("scenarios/demo.yaml");

    widths(&p);
    ten_thousand(&p);
    dew_light_close(p.light);
    dew_run_close(p.run);
    return 0;
}
