/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How long a log takes: a year of hours learned from, and houses marched through
 * the log's span and its lead-in and weighed by it, all rounds together.
 *
 *     study_speed [DRAWS]
 *
 * 4,096 by default.  Asked for are 1 s on one processor and 15 s on two.  Told
 * is the time of a processor, which others at work on the machine lengthen less
 * than the clock's; of two it is the half.
 */
#include "run/learn_made.h"

#include <time.h>

#include "dew/evidence.h"

static const char house[] =
    "title: made up\n"
    "weather: {place: 723170}\n"
    "run: {steps_per_hour: 1}\n"
    "house: {floor_area: 1500 ft2, bedrooms: 3, airtightness: \"4 ach50 (1.5 "
    "to 8)\"}\n"
    "people: {count: \"3 (1 to 6)\"}\n"
    "cooling: {capacity: 2.5 ton}\n"
    "prices: {electricity: 0.18 $/kWh}\n";

static double now(void)
{
    struct timespec t;

    assert_int_equal(clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t), 0);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* A year of a house with an excess that the cold raises, and a daily rhythm. */
static double a_year(const struct dew_run *run)
{
    enum { TRIES = 5 };
    size_t count;
    const struct dew_hour *w = dew_year_hours(dew_run_year(run), &count);
    struct dew_evidence_hour *hours = calloc(count, sizeof *hours);
    struct dew_evidence_ask ask = {.hours = hours,
                                   .count = count,
                                   .until = count,
                                   .prior = DEW_EVIDENCE_PRIOR};
    struct habits h = {NULL, 0, 0};
    double best = INFINITY;

    assert_non_null(hours);
    assert_int_equal(core__random_open(&h.random, 1, NULL), DEW_OK);
    for (size_t k = 0; k < count; k++) {
        double pv = dew_air_pv(w[k].w, w[k].p);

        hours[k] = (struct dew_evidence_hour){.t_in = 21,
                                              .t_out = w[k].t,
                                              .pv_out = pv,
                                              .clock = (int)(k % 24),
                                              .rh = (pv + 350 - 15 * w[k].t) /
                                                        dew_air_pws_liquid(21) +
                                                    0.01 * habit(&h)};
        hours[k].rh = fmin(fmax(hours[k].rh, 0.02), 0.98);
    }
    core__random_close(h.random);
    for (int i = 0; i < TRIES; i++) {
        double from = now();
        struct dew_evidence *e;

        assert_int_equal(dew_evidence_open(&e, &ask, NULL), DEW_OK);
        best = fmin(best, now() - from);
        dew_evidence_close(e);
    }
    free(hours);
    return best;
}

int main(int argc, char **argv)
{
    size_t draws = argc > 1 ? strtoul(argv[1], NULL, 10) : DEW_LEARN_DRAWS;
    const struct dew_learned *l;
    struct dew_learn *learn;
    struct dew_run *run;
    double from, took;

    make_folder(house);
    run = run_of(NULL, 0);
    printf("a year of hours learned from: %.2f s of a processor (asked: 1)\n",
           a_year(run));
    make_log_by(run, 1, 0, 1);
    dew_run_close(run);
    from = now();
    learn = learn_by(
        &(struct dew_learn_ask){.draws = draws, .seed = 1, .threads = 2});
    took = now() - from;
    l = dew_learn_learned(learn);
    printf(
        "%zu houses marched through %.0f days and their lead-in: %.1f s of a "
        "processor, %.1f on two (asked: 15)\n",
        l->houses, (double)DAYS, took, took / 2);
    dew_learn_close(learn);
    return 0;
}
