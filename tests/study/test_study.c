/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Options marched side by side: order, sums, closure, percentiles. */
#include "support/rows.h"

#include <stdlib.h>

#include "dew/study.h"
#include "support/lively.h"

enum { YEAR = 8760, SHORT = 400 };

static struct dew_hour hours[YEAR];
static struct dew_date dates[YEAR];
static struct dew_case lively, quiet;
static const struct dew_option options[] = {
    {"lively house", &lively, 0.037, NULL, 0},
    {"quiet house", &quiet, 0, NULL, 0}};

static void fill(void)
{
    lively = lively_case();
    lively.limits = (struct dew_limits){0.38, 0.365};
    quiet = lively_case();
    quiet.house.water[DEW_SOURCE_showers].per_day *= 0.5;
    for (int h = 0; h < YEAR; h++) {
        hours[h] = lively_weather(h + 1);
        dates[h] = date_of(h);
    }
}

/* Both options to the end, in steps of at most step hours. */
static struct dew_study *marched(size_t count, size_t step)
{
    const struct dew_weather weather = {hours, dates, count, NULL};
    struct dew_error err = {0};
    struct dew_study *study;
    double done = 0, before = 0;

    fill();
    assert_int_equal(dew_study_open(&study, options, 2, &weather, &err),
                     DEW_OK);
    while (done < 1) {
        if (dew_study_step(study, step, &done, &err) != DEW_OK)
            fail_msg("%s: %s", err.path, err.text);
        assert_true(done > before);
        before = done;
    }
    return study;
}

TEST(a_year_sums_its_months_and_closes)
{
    struct dew_study *study = marched(YEAR, 1000);
    const struct dew_outcome *o;
    size_t count;

    o = dew_study_outcomes(study, &count);
    assert_int_equal(count, 2);
    for (size_t i = 0; i < count; i++) {
        double people = 0, n = 0;

        for (int m = 0; m < DEW_MONTHS; m++) {
            people += o[i].month[m].water.people;
            n += o[i].month[m].hours;
        }
        assert_near(n, YEAR, 0);
        assert_near(people, o[i].year.water.people, 1e-9);
        assert_near(people, 365 * 0.31, 1e-9);
        assert_true(o[i].water_residual < 1e-9);
        assert_true(o[i].heat_residual < 1e-9);
        assert_true(o[i].water_turnover > people);
    }
    dew_study_close(study);
}

/* An option's sun, J, as the last of count that are marched. */
static double sun_of_last(size_t from, double aperture)
{
    const struct dew_weather weather = {hours, dates, SHORT, NULL};
    struct dew_error err = {0};
    struct dew_study *study;
    double done = 0, sun;
    size_t count;

    fill();
    quiet.house.thermal.facades[0].aperture *= aperture;
    assert_int_equal(
        dew_study_open(&study, options + from, 2 - from, &weather, &err),
        DEW_OK);
    while (done < 1)
        assert_int_equal(dew_study_step(study, SHORT, &done, &err), DEW_OK);
    sun = dew_study_outcomes(study, &count)[1 - from].year.heat.solar;
    dew_study_close(study);
    return sun;
}

/* The option before leaves its sun to one with the same facades alone. */
TEST(a_house_has_its_own_sun)
{
    double alone = sun_of_last(1, 1.0), wider = sun_of_last(1, 1.7);

    assert_true(alone > 0.0 && wider > 1.2 * alone);
    assert_near(sun_of_last(0, 1.0), alone, 0.0);
    assert_near(sun_of_last(0, 1.7), wider, 0.0);
}

TEST(less_water_is_seen)
{
    struct dew_study *study = marched(YEAR, 5000);
    const struct dew_outcome *o;
    size_t count;

    o = dew_study_outcomes(study, &count);
    assert_near(o[1].year.water.showers, 0.5 * o[0].year.water.showers, 1e-9);
    assert_true(o[1].rh_50 < o[0].rh_50);
    assert_string_equal(o[1].name, "quiet house");
    assert_near(o[0].required, 0.037, 0);
    dew_study_close(study);
}

TEST(series_and_tally_tell_the_same)
{
    struct dew_study *study = marched(SHORT, 64);
    const struct dew_outcome *o;
    double sum = 0, fresh = 0, humid = 0, dry = 0;
    size_t count;

    o = dew_study_outcomes(study, &count);
    for (int h = 0; h < SHORT; h++) {
        sum += o[0].series.rh[h];
        fresh += o[0].series.fresh[h];
        humid += o[0].series.humid[h];
        dry += o[0].series.dry[h];
        assert_true(o[0].series.dew_point[h] <= o[0].series.t[h]);
    }
    assert_near(sum, o[0].year.rh_sum, 1e-9);
    assert_near(fresh, o[0].year.fresh_sum, 1e-9);
    assert_near(humid, o[0].year.too_humid, 0);
    assert_near(dry, o[0].year.too_dry, 0);
    assert_true(humid > 0 && dry > 0 && humid + dry < SHORT);
    assert_near(o[0].duration[0], o[0].year.rh_max, 0);
    assert_near(o[0].duration[DEW_DURATION - 1], o[0].year.rh_min, 0);
    assert_near(o[0].duration[50], o[0].rh_50, 1e-15);
    assert_true(o[0].rh_5 <= o[0].rh_50 && o[0].rh_50 <= o[0].rh_95);
    assert_nan(o[0].rh_map[11][0]);
    assert_near(o[0].rh_map[0][7],
                o[0].month[0].by_hour[7] / o[0].month[0].by_hour_count[7], 0);
    dew_study_close(study);
}

/* Outdoor dew point from w and p, against the air it came from. */
TEST(outdoor_dew_point_is_that_of_the_weather)
{
    struct dew_study *study = marched(SHORT, SHORT);
    const struct dew_outcome *o;
    size_t count;

    o = dew_study_outcomes(study, &count);
    for (int h = 1; h < SHORT; h++) {
        double low = fmin(hours[h - 1].w, hours[h].w);
        double high = fmax(hours[h - 1].w, hours[h].w);
        double w = dew_air_w_dew(o[0].series.dew_point_out[h], hours[h].p);

        assert_true(w > low - 1e-9 && w < high + 1e-9);
    }
    dew_study_close(study);
}

TEST(the_size_of_a_step_changes_nothing)
{
    struct dew_study *one = marched(SHORT, 1), *all = marched(SHORT, 10000);
    const struct dew_outcome *a, *b;
    size_t count;

    a = dew_study_outcomes(one, &count);
    b = dew_study_outcomes(all, &count);
    for (int h = 0; h < SHORT; h++)
        assert_near(a[1].series.rh[h], b[1].series.rh[h], 0);
    dew_study_close(one);
    dew_study_close(all);
}

/* An option whose hours are not kept has all its counts all the same: alone,
   and side by side with others. */
static void counts_without_hours(size_t many)
{
    const struct dew_weather weather = {hours, dates, YEAR, NULL};
    struct dew_option alike[5];
    const struct dew_outcome *o;
    struct dew_study *study;
    double done = 0;
    size_t count;

    fill();
    for (size_t i = 0; i < many; i++) {
        alike[i] = options[0];
        alike[i].counts_only = i > 0;
    }
    assert_int_equal(dew_study_open(&study, alike, many, &weather, NULL),
                     DEW_OK);
    while (done < 1)
        assert_int_equal(dew_study_step(study, 2000, &done, NULL), DEW_OK);
    o = dew_study_outcomes(study, &count);
    assert_int_equal(count, many);
    assert_non_null(o[0].series.rh);
    for (size_t i = 1; i < many; i++) {
        assert_memory_equal(&o[0].year, &o[i].year, sizeof o->year);
        for (int f = 0; f < DEW_SURFACES; f++) {
            assert_near(o[0].faces[f].mould, o[i].faces[f].mould, 0.0);
            assert_near(o[0].faces[f].mean_80, o[i].faces[f].mean_80, 0.0);
        }
        assert_near(o[0].rh_95, o[i].rh_95, 0.0);
        assert_null(o[i].series.rh);
    }
    dew_study_close(study);
}

TEST(counts_need_no_hours_kept)
{
    counts_without_hours(2);
    counts_without_hours(5);
}

/* Flights land one after another where there is one thread. */
TEST(outcomes_come_as_they_are_finished)
{
    const struct dew_weather weather = {hours, dates, SHORT, NULL};
    struct dew_study *study;
    double done = -1;
    size_t count;

    fill();
    dew_study_open(&study, options, 2, &weather, NULL);
    dew_study_threads(study, 1);
    assert_int_equal(dew_study_step(study, SHORT / 2, &done, NULL), DEW_OK);
    assert_near(done, 0.25, 1e-12);
    dew_study_outcomes(study, &count);
    assert_int_equal(count, 0);
    dew_study_step(study, SHORT, &done, NULL);
    assert_near(done, 0.5, 1e-12);
    dew_study_outcomes(study, &count);
    assert_int_equal(count, 1);
    assert_int_equal(dew_study_turn(study), 1);
    dew_study_step(study, SHORT, &done, NULL);
    assert_int_equal(dew_study_step(study, SHORT, &done, NULL), DEW_OK);
    assert_near(done, 1, 0);
    assert_int_equal(dew_study_turn(study), 2);
    dew_study_close(study);
}

/* Two by two: the third is alone, and none is marched again beside it. */
TEST(three_options_in_two_threads_are_marched_once)
{
    const struct dew_weather weather = {hours, dates, SHORT, NULL};
    struct dew_option three[] = {options[0], options[1], options[0]};
    const struct dew_outcome *o;
    struct dew_study *study;
    double done = 0;
    size_t count;

    fill();
    assert_int_equal(dew_study_open(&study, three, 3, &weather, NULL), DEW_OK);
    dew_study_threads(study, 2);
    while (done < 1)
        assert_int_equal(dew_study_step(study, SHORT, &done, NULL), DEW_OK);
    o = dew_study_outcomes(study, &count);
    assert_int_equal(count, 3);
    for (size_t i = 0; i < count; i++)
        assert_near(o[i].year.hours, SHORT, 0);
    assert_memory_equal(&o[0].year, &o[2].year, sizeof o->year);
    dew_study_close(study);
}

TEST(a_failed_option_is_named_and_stays_failed)
{
    const struct dew_weather weather = {hours, dates, SHORT, NULL};
    struct dew_error err = {0}, again = {0};
    struct dew_study *study;
    double done = 7;

    fill();
    hours[17].t = NAN;
    dew_study_open(&study, options, 2, &weather, NULL);
    assert_int_equal(dew_study_step(study, SHORT, &done, &err), DEW_ERANGE);
    assert_string_equal(err.path, "weather.t");
    assert_near(done, 7, 0);
    assert_int_equal(dew_study_step(study, SHORT, &done, &again), DEW_ERANGE);
    assert_string_equal(again.text, "this study has failed before");
    dew_study_close(study);
}

TEST(nothing_to_march_is_refused)
{
    const struct dew_weather none = {hours, dates, 0, NULL},
                             some = {hours, dates, 9, NULL};
    struct dew_error err = {0}, other = {0};
    struct dew_study *study = (void *)hours;

    assert_int_equal(dew_study_open(&study, options, 2, &none, &err),
                     DEW_ERANGE);
    assert_null(study);
    assert_string_equal(err.text, "the weather has no hour");
    assert_int_equal(dew_study_open(&study, options, 0, &some, &other),
                     DEW_ERANGE);
    assert_string_equal(other.text, "0 options: a study compares 1 to 256");
    dew_study_close(NULL);
}

/* ---- quantiles -------------------------------------------------------------- */

/* Definition 7 by hand: place = share (n - 1) */
static const struct quantile_row {
    const char *name;
    size_t count;
    double share, want;
} quantile_rows[] = {
    {"the middle of four lies between two, [HYNDMAN96] 7", 4, 0.5, 3.55},
    {"a quarter of five is the second, [HYNDMAN96] 7", 5, 0.25, 2.3},
    {"95 % of five, place 3.8, [HYNDMAN96] 7", 5, 0.95, 7.78},
    {"the least", 5, 0, 1.7},
    {"the most", 5, 1, 8.5},
    {"of one", 1, 0.37, 1.7},
    {"of none", 0, 0.5, NAN},
    {"a share above 1", 5, 1.01, NAN},
};

static void quantile(void **state)
{
    static const double sorted[] = {1.7, 2.3, 4.8, 4.9, 8.5};
    const struct quantile_row *r = *state;
    double got = dew_study_quantile(sorted, r->count, r->share);

    if (isnan(r->want))
        assert_nan(got);
    else
        assert_near(got, r->want, 1e-14);
}

ROWS(quantile_rows, quantile);
RUN_TESTS("study, march");
