/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A house of a scenario marched with habits, the log that it leaves, and what is
   learned from that. */
#ifndef DEW_TESTS_LEARN_MADE_H
#define DEW_TESTS_LEARN_MADE_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/num.h"
#include "dew/air.h"
#include "dew/bundle.h"
#include "dew/learning.h"
#include "evidence/evidence.h"
#include "plant/coil_step.h"
#include "run/learn.h"
#include "support/asked_run.h"
#include "support/rows.h"

enum { LEAD = 21 * 24, DAYS = 84, HOURS = 24 * DAYS, FAULTS = 8 };

static char folder[] = "/tmp/dew_learn_XXXXXX";
static char scenario[64], log_file[64];

static inline void write_text(const char *path, const char *text)
{
    FILE *f = fopen(path, "w");

    assert_non_null(f);
    fputs(text, f);
    assert_int_equal(fclose(f), 0);
}

static inline void make_folder(const char *house)
{
    static int made;

    if (!made)
        assert_non_null(mkdtemp(folder));
    made = 1;
    snprintf(scenario, sizeof scenario, "%s/house.yaml", folder);
    snprintf(log_file, sizeof log_file, "%s/log.csv", folder);
    write_text(scenario, house);
}

/* ---- a log ----------------------------------------------------------------------- */

static inline struct dew_run *run_of(const char *const *sets, size_t count)
{
    return asked_with(scenario, NULL, sets, count);
}

/* Slow and quick habits, as a lived-in house has them. */
struct habits {
    struct core__random *random;
    double slow, quick;
};

static inline double habit(struct habits *h)
{
    const double d = exp(-1 / 480.0), g = exp(-1 / 8.0);

    h->slow =
        d * h->slow + 2.2 * sqrt(1 - d * d) * core__random_gaussian(h->random);
    h->quick =
        g * h->quick + 1.8 * sqrt(1 - g * g) * core__random_gaussian(h->random);
    return h->slow + h->quick + 0.3 * core__random_gaussian(h->random);
}

/* run: of the coil, -; NaN: not told. */
static inline void write_row(FILE *f, const struct dew_date *date,
                             const struct dew_result *in,
                             const struct dew_hour *out, double more,
                             double run, double fan)
{
    double t = in->t,
           rh = 100 * dew_air_pv(in->w, out->p) / dew_air_pws_liquid(in->t);

    /* the stamp is the hour's end; 24:00 is written so */
    fprintf(f, "2023-%02d-%02d %02d:00,%.3f,%.3f,%.3f,%.4f", date->month,
            date->day, date->hour, t, rh + more, out->t,
            100 * dew_air_pv(out->w, out->p) / dew_air_pws_liquid(out->t));
    if (!isnan(run))
        fprintf(f, ",%.3f", 60 * run);
    if (!isnan(fan))
        fprintf(f, ",%.3f", 60 * fan);
    fputc('\n', f);
}

/* Pa of excess at each node that habits make from cold to warm, as the weighing
   takes them to: of its spread, and nothing on the mean of the log, where shown
   is the mean of what a Pa of each does. */
static inline void draw_bends(struct core__random *random,
                              const double shown[DEW_EVIDENCE_NODES],
                              double bend[DEW_EVIDENCE_NODES])
{
    enum { N = DEW_EVIDENCE_NODES };
    double c[N * N], root[N * N], z[N], with[N] = {0}, all = 0, on = 0;

    for (size_t i = 0; i < N; i++) {
        z[i] = core__random_gaussian(random);
        for (size_t j = 0; j < N; j++) {
            root[i * N + j] = c[i * N + j] = evidence__bend(i, j);
            with[i] += c[i * N + j] * shown[j];
        }
    }
    assert_int_equal(core__cholesky(root, N, NULL), DEW_OK);
    for (size_t i = 0; i < N; i++) {
        bend[i] = 0;
        for (size_t j = 0; j <= i; j++)
            bend[i] += root[i * N + j] * z[j];
        all += shown[i] * with[i];
        on += shown[i] * bend[i];
    }
    for (size_t i = 0; i < N; i++)
        bend[i] -= with[i] * on / all;
}

/* The same on the hours of a log, through memories of a third each, % RH. */
static inline void bend_hours(unsigned long seed,
                              struct dew_evidence_hour *hours, double *bent)
{
    static struct evidence__step steps[HOURS];
    static double shown[DEW_EVIDENCE_NODES][HOURS];
    struct evidence__series s = {
        .count = HOURS, .until = HOURS, .hours = hours, .steps = steps};
    double mean[DEW_EVIDENCE_NODES] = {0}, bend[DEW_EVIDENCE_NODES];
    struct core__random *random;

    assert_int_equal(core__random_open(&random, seed, NULL), DEW_OK);
    evidence__series(&s);
    for (int i = 0; i < DEW_EVIDENCE_NODES; i++) {
        double q[EVIDENCE__MOST] = {0};

        evidence__house(&s, q, HOURS, bent);
        q[i] = 1;
        evidence__house(&s, q, HOURS, shown[i]);
        for (int h = 0; h < HOURS; h++) {
            shown[i][h] -= bent[h];
            mean[i] += shown[i][h] / HOURS;
        }
    }
    draw_bends(random, mean, bend);
    core__random_close(random);
    for (int h = 0; h < HOURS; h++) {
        bent[h] = 0;
        for (int i = 0; i < DEW_EVIDENCE_NODES; i++)
            bent[h] += bend[i] * shown[i][h];
    }
}

/* How a log comes about. */
struct logged {
    int hold;      /* 1: at a course of temperatures; 0: its own thermostat  */
    double habits; /* so much of them                                        */
    int bent;      /* 1: and what they make of cold and warm                 */
    double export; /* with so much of the run time of its coil; 0: without  */
    int blown;     /* 1: and that of its blower                             */
};

/* The house of the run, marched from the year's first hour on and logged after
   the lead. */
static inline void make_log_so(struct dew_run *run, unsigned long seed,
                               const struct logged *so)
{
    static struct dew_evidence_hour rows[HOURS];
    static struct dew_result results[HOURS];
    static double more[HOURS], bent[HOURS];
    size_t count;
    const struct dew_hour *hours = dew_year_hours(dew_run_year(run), &count);
    const struct dew_weather weather = {
        hours, dew_year_dates(dew_run_year(run), &count), LEAD + HOURS, NULL};
    const struct dew_case *c = dew_run_case(run, 0);
    double held[LEAD + HOURS];
    struct habits h = {NULL, 0, 0};
    struct dew_bundle *b;
    FILE *f = fopen(log_file, "w");

    assert_non_null(f);
    assert_int_equal(core__random_open(&h.random, seed, NULL), DEW_OK);
    h.slow = 2.2 * core__random_gaussian(h.random);
    fputs("time,indoor temperature (degC),indoor humidity (%),outdoor "
          "temperature (degC),outdoor humidity (%)",
          f);
    fputs(so->export > 0 ? ",cooling run time (min)" : "", f);
    fputs(so->blown ? ",fan run time (min)\n" : "\n", f);
    assert_int_equal(dew_bundle_open(&b, &c, &weather, 1, 1, NULL), DEW_OK);
    for (int k = 0; k < LEAD + HOURS; k++)
        held[k] = 20.6 + 0.7 * sin(0.0113 * k) + 0.4 * sin(0.2618 * k);
    dew_bundle_prescribe_t(b, 0, so->hold ? held : NULL, LEAD + HOURS);
    assert_int_equal(dew_bundle_begin(b, 0, 20.6, 0.31, NULL), DEW_OK);
    for (size_t k = 0; k < LEAD + HOURS; k++) {
        struct dew_result r;

        assert_int_equal(dew_bundle_step(b, k, NULL, NULL), DEW_OK);
        dew_bundle_result(b, 0, &r);
        if (k < LEAD)
            continue;
        results[k - LEAD] = r;
        rows[k - LEAD] = (struct dew_evidence_hour){
            .t_in = r.t,
            .rh = 0.4,
            .t_out = hours[k].t,
            .pv_out = dew_air_pv(hours[k].w, hours[k].p),
            .clock = (int)(k % 24)};
        more[k - LEAD] = so->habits * habit(&h);
    }
    dew_bundle_close(b);
    if (so->bent)
        bend_hours(seed + 2, rows, bent);
    for (size_t k = 0; k < HOURS; k++)
        write_row(f, &weather.dates[LEAD + k], &results[k], &hours[LEAD + k],
                  more[k] + (so->bent ? bent[k] : 0),
                  so->export > 0
                      ? so->export *
                            plant__run_time(results[k].duty.cool,
                                            c->plant.handlers[0].cycling)
                      : NAN,
                  so->blown ? results[k].duty.blower : NAN);
    core__random_close(h.random);
    assert_int_equal(fclose(f), 0);
}

static inline void make_log_by(struct dew_run *run, unsigned long seed,
                               int hold, double habits)
{
    make_log_so(run, seed, &(struct logged){hold, habits, 0, 0, 0});
}

static inline void make_log(struct dew_run *run, unsigned long seed)
{
    make_log_by(run, seed, 1, 1);
}

/* ---- learned ----------------------------------------------------------------------- */

static inline struct dew_fit *fit_of(void)
{
    const char *const logs[] = {log_file}, *const sets[] = {
                                               "log.clock=standard"};
    const struct dew_fit_ask ask = {.name = scenario,
                                    .logs = logs,
                                    .log_count = 1,
                                    .sets = sets,
                                    .set_count = 1};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_fit *f;
    char line[400];

    if (dew_fit_open(&f, &ask, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return f;
}

/* Pairs are of those that go together alone, 0.4 or more, the strongest first:
   our own figure. */
static inline void check_pairs(const struct dew_learn *l)
{
    size_t count;
    const struct dew_learn_pair *p = dew_learn_pairs(l, &count);

    for (size_t i = 0; i < count; i++) {
        assert_true(fabs(p[i].r) >= 0.4);
        assert_true(i == 0 || fabs(p[i].r) <= fabs(p[i - 1].r));
    }
}

static inline struct dew_learn *learn_by(const struct dew_learn_ask *ask)
{
    const struct dew_run_ask from = {.name = scenario};
    struct dew_error list[FAULTS] = {{0}}, err = {0};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_fit *f = fit_of();
    struct dew_learn *l;
    double done = 0;
    char line[400];

    if (dew_learn_open(&l, &from, f, ask, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    dew_fit_close(f);
    while (done < 1)
        if (dew_learn_step(l, &done, &err) != DEW_OK)
            fail_msg("%s", dew_error_line(&err, line, sizeof line));
    check_pairs(l);
    return l;
}

#endif
