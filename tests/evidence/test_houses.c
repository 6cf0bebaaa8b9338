/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The measured houses: regressions, by an implementation of the method apart
 * from this one.  It counted the outdoor humidity over ice below 0 degC, began
 * at another prior and stopped its search where the sum of squares fell by
 * less than about 1: so do the hours, the prior and the tolerances here.  The
 * files are not in the tree; where they are absent these tests are skipped.
 */
#include "support/rows.h"

#include <stdlib.h>
#include <unistd.h>

#include "dew/air.h"
#include "dew/fit.h"

static const char SCENARIO[] = "house:\n  floor_area: 1500 ft2\n";

struct house_row {
    const char *name, *file;
    size_t from, days;
    double curve[DEW_EVIDENCE_NODES], sd[DEW_EVIDENCE_NODES]; /* 0: unsaid */
    double fit, line, rest, band; /* 0: unsaid                             */
};
static const struct house_row houses[] = {
    {"house 2, 60 days: regression",
     "finland_house_2_hourly.csv",
     0,
     60,
     {965.6, 724.1, 463.1, 255.3, 76.2},
     {70.8, 41.6, 44.4, 63.1, 75.6},
     2.371,
     6.068,
     3.746,
     0.852},
    {"house 2, 60 days from day 180: regression",
     "finland_house_2_hourly.csv",
     180,
     60,
     {0, 0, 304.6, 0, 0},
     {0, 0, 80.5, 0, 0},
     0,
     7.773,
     3.145,
     0},
    {"Belgium, 30 days: regression",
     "belgium_low_energy_house_2016_jan_mar_hourly.csv",
     0,
     30,
     {0, 0, 251.6, 0, 0},
     {0, 0, 47.9, 0, 0},
     1.891,
     0,
     0,
     0},
};

static struct dew_fit *opened(const char *name)
{
    const char *root = getenv("DEW_DATA"), *sets[] = {"log.sensor=all"};
    char path[400], scenario[] = "/tmp/dew-evidence-XXXXXX";
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_fit *fit;
    const char *logs[] = {path};
    const struct dew_fit_ask ask = {.name = scenario,
                                    .logs = logs,
                                    .log_count = 1,
                                    .sets = sets,
                                    .set_count = 1};
    int fd;

    snprintf(path, sizeof path, "%s/houses/%s",
             root != NULL ? root : "../shared/data", name);
    if (access(path, R_OK) != 0)
        return NULL;
    fd = mkstemp(scenario);
    assert_true(fd >= 0);
    assert_int_equal(write(fd, SCENARIO, sizeof SCENARIO - 1),
                     sizeof SCENARIO - 1);
    close(fd);
    assert_int_equal(dew_fit_open(&fit, &ask, &faults), DEW_OK);
    unlink(scenario);
    return fit;
}

/* Over ice below 0 degC by WMO-8's Magnus forms, over liquid above. */
static double as_there(double t)
{
    return t < 0 ? 611.15 * exp(22.452 * t / (272.55 + t))
                 : 611.2 * exp(17.62 * t / (243.12 + t));
}

/* rest: days after those learned from; 0: all. */
static struct dew_evidence *learned(const struct house_row *row,
                                    const struct dew_fit *fit, size_t rest)
{
    size_t count;
    const struct dew_evidence_hour *read = dew_fit_hours(fit, &count);
    struct dew_evidence_hour *hours = calloc(count, sizeof *hours);
    struct dew_evidence_ask ask = {.hours = hours + 24 * row->from,
                                   .count = count - 24 * row->from,
                                   .until = 24 * row->days,
                                   .prior = {.level = 330, .zero = 27}};
    struct dew_evidence *e;

    assert_non_null(hours);
    if (rest > 0)
        ask.count = 24 * (row->days + rest);
    for (size_t h = 0; h < count; h++) {
        hours[h] = read[h];
        hours[h].pv_out *=
            as_there(hours[h].t_out) / dew_air_pws_liquid(hours[h].t_out);
    }
    assert_int_equal(dew_evidence_open(&e, &ask, NULL), DEW_OK);
    free(hours);
    return e;
}

static void near_where_said(double got, double want, double tolerance)
{
    if (want > 0)
        assert_near(got, want, tolerance);
}

static void a_measured_house(void **state)
{
    const struct house_row *row = *state;
    struct dew_fit *fit = opened(row->file);
    struct dew_evidence *e;
    const struct dew_evidence_learned *l;

    if (fit == NULL)
        skip();
    e = learned(row, fit, 0);
    l = dew_evidence_learned(e);
    for (int i = 0; i < DEW_EVIDENCE_NODES; i++) {
        near_where_said(l->curve[i].value, row->curve[i], 0.1 * row->sd[i]);
        near_where_said(l->curve[i].sd, row->sd[i], 0.02 * row->sd[i]);
    }
    near_where_said(l->fit.rmse_rh, row->fit, 0.03);
    near_where_said(l->rest.rmse_rh, row->rest, 0.05);
    near_where_said(l->rest.band80, row->band, 0.01);
    near_where_said(l->line.rmse_rh, row->line, 0.02);
    dew_evidence_close(e);
    dew_fit_close(fit);
}
ROWS(houses, a_measured_house);

/* The rest of the first row. */
TEST(house_2_in_all_its_unknowns)
{
    struct dew_fit *fit = opened(houses[0].file);
    struct dew_evidence *e;
    const struct dew_evidence_learned *l;

    if (fit == NULL)
        skip();
    e = learned(&houses[0], fit, 0);
    l = dew_evidence_learned(e);
    assert_near(l->z[0].value, 1.32, 0.3 * l->z[0].sd);
    assert_near(l->z[1].value, 3.45, 0.3 * l->z[1].sd);
    assert_near(l->day_cos.value, 36.0, 0.15 * l->day_cos.sd);
    assert_near(l->day_sin.value, -1.3, 0.15 * l->day_sin.sd);
    assert_near(l->weight[0], 0.027, 0.003);
    assert_near(l->weight[2], 0.870, 0.02);
    assert_near(l->noise.slow, 1.97, 0.02);
    assert_near(l->noise.slow_hours / 24, 22.5, 0.3);
    assert_near(l->noise.quick, 2.08, 0.02);
    assert_near(l->noise.quick_hours, 11.7, 0.2);
    assert_near(l->noise.white, 0.08, 0.01);
    assert_near(l->rest.bias_rh, 2.035, 0.03);
    dew_evidence_close(e);
    dew_fit_close(fit);
}

TEST(house_2_in_the_60_days_after)
{
    struct dew_fit *fit = opened(houses[0].file);
    struct dew_evidence *e;

    if (fit == NULL)
        skip();
    e = learned(&houses[0], fit, 60);
    assert_near(dew_evidence_learned(e)->rest.rmse_rh, 3.282, 0.05);
    dew_evidence_close(e);
    dew_fit_close(fit);
}

RUN_TESTS("evidence: the measured houses");
