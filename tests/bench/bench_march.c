/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The march beside GSL's integrators: cost at equal error, on one right-hand
 * side, in one run.  Figures are ratios; absolute ones hold on this machine.
 */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>

#include "support/lively.h"

#include "support/converge.h"

/* A scenario's steps unless it says otherwise, and those that come to an RH
   within 0.01 point, rms. */
enum { HOURS = 8760, STEPS = 4, MORE_STEPS = 8 };

static struct dew_hour hours[HOURS];
static struct dew_date dates[HOURS];
static double truth[HOURS]; /* RH at the ends of hours, 8(9) at 1e-10       */
static struct march__clock
    clocks[HOURS]; /* of the march, for both sides      */

static double seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static struct dew_march *opened(int steps)
{
    struct dew_case c = lively_case();
    struct dew_hour before = lively_weather(0);
    struct dew_march *m;

    lively_cool(&c, 1.0);
    c.steps_per_hour = steps;
    if (dew_march_open(&m, &c, &before, NULL))
        exit(EXIT_FAILURE);
    return m;
}

/* The march alone; RH rms against truth, points, and tries of steps. */
static double march_year(int steps, double *rms, long *tries)
{
    struct dew_march *m = opened(steps);
    double begun = seconds(), sum = 0.0, spent;

    for (int h = 0; h < HOURS; h++) {
        struct dew_result r;
        double gap = 0.0;

        clocks[h] = m->body.clock;
        if (dew_march_step(m, &hours[h], &dates[h], &r, NULL))
            exit(EXIT_FAILURE);
        if (rms != NULL)
            gap = dew_air_rh(r.end.t_air, r.end.w, hours[h].p) - truth[h];
        sum += gap * gap;
    }
    spent = seconds() - begun;
    *tries = m->body.tries;
    if (rms != NULL)
        *rms = 100.0 * sqrt(sum / HOURS);
    dew_march_close(m);
    return spent;
}

/* One integrator through the year; fills truth when rms is NULL. */
static double ode_year(enum ode_kind kind, double tolerance, double *rms)
{
    struct dew_march *m = opened(STEPS);
    struct reference ref = {0};
    struct ode_system system = {converge_f, &ref, REFERENCE_SIZE};
    struct ode *ode = ode_open(kind, &system, 60.0, tolerance, 0.0);
    double y[REFERENCE_SIZE], t = 0.0, begun = seconds(), sum = 0.0;

    converge_load(&m->body.at.x, y);
    converge_scale(y, 1.0);
    for (int h = 0; h < HOURS && isfinite(sum); h++) {
        double rh;

        m->body.clock = clocks[h];
        reference_begin(&ref, m, &hours[h], &dates[h], h);
        ode_restart(ode);
        if (!ode_to(ode, &t, 3600.0 * (h + 1), y))
            sum = NAN;
        m->body.before = hours[h];
        rh = converge_rh(y, hours[h].p);
        if (rms == NULL)
            truth[h] = rh;
        sum += (rh - truth[h]) * (rh - truth[h]);
    }
    begun = seconds() - begun;
    if (rms != NULL)
        *rms = 100.0 * sqrt(sum / HOURS);
    ode_close(ode);
    dew_march_close(m);
    return begun;
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

static double median_year(int steps, double *rms, long *tries)
{
    double t[7];

    for (int i = 0; i < 7; i++)
        t[i] = march_year(steps, i == 0 ? rms : NULL, tries);
    qsort(t, 7, sizeof t[0], ascending);
    return t[3];
}

/* Each method from loose to tight until it is as good as the march. */
static void ladder(double ours, double rms)
{
    static const struct {
        const char *name;
        enum ode_kind kind;
    } kinds[] = {{"rk2", ODE_RK2},
                 {"rkck", ODE_RKCK},
                 {"rk8pd", ODE_RK8PD},
                 {"msbdf", ODE_MSBDF}};
    static const double tolerances[] = {1e-1, 3e-2, 2e-2, 1e-2, 5e-3,
                                        3e-3, 1e-3, 5e-4, 3e-4};

    for (size_t k = 0; k < COUNT_OF(kinds); k++)
        for (size_t i = 0; i < COUNT_OF(tolerances); i++) {
            double got, spent = ode_year(kinds[k].kind, tolerances[i], &got);

            printf("  %-6s at %-7g %8.2f ms   rms %.4f point   %6.1f x%s\n",
                   kinds[k].name, tolerances[i], 1e3 * spent, got, spent / ours,
                   got <= rms ? "   reaches ours" : "");
            if (got <= rms)
                break;
        }
}

/* Time of a house-year of so many steps an hour, s; it is printed. */
static double told(int steps, double *rms)
{
    long tries;
    double ours = median_year(steps, rms, &tries);

    printf("march, %d steps an hour: %.2f ms a house-year, %.2f tries of a "
           "step an hour, %.0f ns each, rms %.4f point\n",
           steps, 1e3 * ours, (double)tries / HOURS, 1e9 * ours / (double)tries,
           *rms);
    return ours;
}

int main(void)
{
    struct rusage use;
    double rms, ours;
    long tries;

    for (int h = 0; h < HOURS; h++) {
        hours[h] = lively_weather(h + 1);
        dates[h] = date_of(h);
    }
    march_year(STEPS, NULL, &tries); /* the clocks */
    printf("truth: rk8pd at 1e-10, %.2f s\n", ode_year(ODE_RK8PD, 1e-10, NULL));
    ours = told(MORE_STEPS, &rms);
    ladder(ours, rms);
    ours = told(STEPS, &rms);
    ladder(ours, rms);
    getrusage(RUSAGE_SELF, &use);
    printf("peak memory %.1f MiB\n", (double)use.ru_maxrss / 1024.0);
    return 0;
}
