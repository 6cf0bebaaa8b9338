/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One step of sixteen houses in lanes against sixteen single steps: the same
 * inlined functions, the same houses and weather, the same bits.
 */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "support/lanes.h"
#include "support/lively.h"

enum { STEPS = 8760, RUNS = 9 };

static const double dt = 900.0;
static struct dew_hour mids[STEPS];
static const struct dew_path path = {.supply = 0.041,
                                     .exhaust = 0.043,
                                     .fresh = 0.039,
                                     .sensible = 0.7,
                                     .latent = 0.4,
                                     .fan_heat = 30.0};

static double seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Sixteen singles, and the same sixteen as a bundle. */
struct both {
    struct march__now now[LANES];
    struct march__terms k[LANES];
    struct dew_state x[LANES];
    struct bundle b;
};

static void set_one(struct both *v, int i)
{
    struct dew_case c = lively_case();
    struct march__clock clock = march__clock_set(9.0);
    struct dew_date date = date_of(0);
    struct march__duty none = {0};

    c.house.volume *= 1.0 + 0.037 * i;
    c.house.people.count = 1.0 + 0.3 * i;
    v->now[i] = (struct march__now){.mid = mids[0]};
    v->now[i].lane = march__lane_of(&c);
    v->now[i].drive = march__drive_of(&c, NULL, &clock, &mids[0], &date, NULL);
    v->x[i] = (struct dew_state){.t_air = 20.1,
                                 .t_mass = 19.7,
                                 .w = 0.0071,
                                 .w_surface = 17.0,
                                 .w_mid = 29.0,
                                 .w_deep = 61.0,
                                 .co2 = 611.0};
    v->k[i] = march__settle(&v->now[i], &v->x[i], &none, 0.0, 1.0 / dt);
    put_lanes(&v->b.lane, i, &v->now[i].lane);
    put_drives(&v->b.drive, i, &v->now[i].drive);
    put_blends(&v->b.blend, i, &v->now[i].blend);
    put_states(&v->b.x, i, &v->x[i]);
    put_terms(&v->b.k, i, &v->k[i]);
}

static double singles(struct both *v)
{
    double begun = seconds();

    for (int i = 0; i < LANES; i++)
        for (int h = 0; h < STEPS; h++) {
            v->now[i].mid = mids[h];
            v->x[i] = lane_step(&v->now[i], &v->k[i], &v->x[i], &path, dt);
        }
    return seconds() - begun;
}

/* The widest vectors that the processor has. */
#if defined(__x86_64__) && defined(__gnu_linux__) && !defined(__clang__)
__attribute__((target_clones("avx512f", "avx2", "default")))
#endif
static void
all_steps(struct bundle *b)
{
    for (int h = 0; h < STEPS; h++)
        bundle_step(b, &mids[h], &path, dt);
}

static double lanes(struct both *v)
{
    double begun = seconds();

    all_steps(&v->b);
    return seconds() - begun;
}

static void same_bits(const struct both *v)
{
    for (int i = 0; i < LANES; i++) {
        struct dew_state x;

        get_states(&v->b.x, i, &x);
        if (memcmp(&x, &v->x[i], sizeof x) != 0)
            exit(EXIT_FAILURE);
    }
}

int main(void)
{
    static struct both v;
    double one = INFINITY, many = INFINITY;

    for (int h = 0; h < STEPS; h++)
        mids[h] = lively_weather(h);
    for (int i = 0; i < LANES; i++)
        set_one(&v, i);
    for (int r = 0; r < RUNS; r++) {
        one = fmin(one, singles(&v));
        many = fmin(many, lanes(&v));
        same_bits(&v);
    }
    printf("one step of the kernel: %.0f ns a house alone, %.0f ns in sixteen "
           "lanes, %.1f x, same bits\n",
           1e9 * one / (LANES * STEPS), 1e9 * many / (LANES * STEPS),
           one / many);
    return 0;
}
