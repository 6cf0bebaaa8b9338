/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Steps of half an hour against an 8(9) integrator at 1e-10 on the same
 * right-hand side: ten days of each season of a made-up year.  The study
 * does the whole of six real years.
 */
#include "support/rows.h"

#include "support/lively.h"

#include "support/converge.h"

enum { DAYS = 10, HOURS = 24 * DAYS };

struct row {
    const char *name;
    int from;
    double band, cool;
    double rms;  /* points allowed; below 0.03 a regression: 0.08 and 0.10
                    where steps are never halved                            */
    double gust; /* m/s more wind in one hour of six, on a leaky house      */
};

static const struct row rows[] = {
    {"winter, 1 K band", 300, 1.0, 0.0, 0.03, 0.0},
    {"spring, 1 K band, cooling", 2500, 1.0, 7500.0, 0.03, 0.0},
    {"summer, 1 K band, cooling", 4500, 1.0, 7500.0, 0.03, 0.0},
    {"summer, 0.2 K band, cooling", 4500, 0.2, 7500.0, 0.03, 0.0},
    {"autumn, 0.2 K band", 6700, 0.2, 7500.0, 0.03, 0.0},
    {"spring, 0.2 K band, leaky, gusts", 2500, 0.2, 7500.0, 0.0148, 11.0},
    {"summer, 0.2 K band, leaky, gusts", 4500, 0.2, 7500.0, 0.013, 11.0},
};

static struct dew_case case_of(const struct row *row)
{
    struct dew_case c = lively_case();

    lively_cool(&c, row->band);
    if (!(row->cool > 0.0))
        c.plant.handler_count = 0;
    if (row->gust > 0.0) {
        c.steps_per_hour = 4; /* what a scenario has unless it says otherwise */
        c.house.volume = 240.0;
        c.house.leakage.wind_k = 0.0024;
    }
    return c;
}

static void half_hours_follow_the_integrator(void **state)
{
    static struct dew_hour hours[HOURS];
    static struct dew_date dates[HOURS];
    const struct row *row = *state;
    struct dew_case c = case_of(row);
    struct converge_year year = {hours, dates, HOURS, 0};
    struct dew_hour before = lively_weather(row->from);
    struct dew_march *m;
    struct converge got;

    for (int h = 0; h < HOURS; h++) {
        hours[h] = lively_weather(row->from + h + 1);
        hours[h].wind += h % 6 == 3 ? row->gust : 0.0;
        dates[h] = date_of(row->from + h);
    }
    assert_int_equal(dew_march_open(&m, &c, &before, NULL), DEW_OK);
    got = converge_run(m, &year, ODE_RK8PD, 1e-10);
    dew_march_close(m);
    print_message("%s: RH rms %.4f, max %.4f point, %g against %g h humid, "
                  "%ld calls\n",
                  row->name, got.rms, got.max, got.humid_a, got.humid_b,
                  got.calls);
    assert_true(got.rms <= row->rms);
    assert_true(got.max <= 0.15);
    assert_true(fabs(got.humid_a - got.humid_b) <= 1.0);
}

ROWS(rows, half_hours_follow_the_integrator);
RUN_TESTS("march, convergence");
