/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Surfaces through a year: steady climates, means over a ring, months. */
#include "support/rows.h"

#include "dew/study.h"

enum { YEAR = 8760, MONTH_HOURS = 730 };

static double t[YEAR], rh[YEAR], index_of[YEAR];
static struct dew_date dates[YEAR];

/* Twelve months of 730 h, all at one climate. */
static struct dew_face_hours steady(double celsius, double share, size_t count)
{
    for (size_t h = 0; h < count; h++) {
        t[h] = celsius;
        rh[h] = share;
        dates[h] = (struct dew_date){.month = 1 + (int)(h / MONTH_HOURS)};
    }
    return (struct dew_face_hours){t, rh, dates, count};
}

/*
 * Hours until the class form passes 1 and 3, as tests/house/test_mould.c has
 * them worked out apart; 1999 form: 1314 h to 3 at 20 degC and 90 %, [HV99].
 */
static const struct growth_row {
    const char *name;
    enum dew_surface_kind kind;
    double t, rh;
    int to_one, to_three; /* h, 0 = not in the year                         */
    double most_1999;     /* after 8760 h                                   */
} growth_rows[] = {
    {"corner, 20 degC, 90 %, sensitive", DEW_CORNER, 20, 0.90, 1226, 6720,
     3.995},
    {"corner, 20 degC, 97 %, sensitive", DEW_CORNER, 20, 0.97, 432, 1729,
     5.5039},
    {"frame, 20 degC, 90 %, sensitive", DEW_EDGE, 20, 0.90, 1226, 6720, 3.995},
    {"glass, 20 degC, 97 %, resistant", DEW_GLASS, 20, 0.97, 8123, 0, 5.5039},
};

static int hours_to(double goal)
{
    for (int h = 0; h < YEAR; h++)
        if (index_of[h] >= goal)
            return h + 1;
    return 0;
}

static void grows_by_its_class(void **state)
{
    const struct growth_row *r = *state;
    const struct dew_face_hours hours = steady(r->t, r->rh, YEAR);
    struct dew_face f = dew_faces_of(r->kind, &hours, index_of);

    assert_int_equal(hours_to(1), r->to_one);
    assert_int_equal(hours_to(3), r->to_three);
    assert_near(f.mould, index_of[YEAR - 1], 0);
    assert_near(f.mould_1999, r->most_1999, 5.1e-5);
    assert_true(f.mould_years >= f.mould);
    assert_near(f.mean_80, YEAR, 0);
    assert_int_equal(f.months_80, 0xfff);
}

/* 1000 h at 20 degC and 97 %, the rest dry: 7736 h of decline at 0.1. */
TEST(a_dry_year_takes_back_little)
{
    struct dew_face_hours hours = steady(20, 0.97, 1000);
    struct dew_face wet = dew_faces_of(DEW_CORNER, &hours, index_of), year;
    double lost = 0.1 * (6 * 0.032 + 7736 * 0.016) / 24;

    for (int h = 1000; h < YEAR; h++) {
        t[h] = 21.3;
        rh[h] = 0.44;
        dates[h] = (struct dew_date){.month = 1 + h / MONTH_HOURS};
    }
    hours.count = YEAR;
    year = dew_faces_of(DEW_CORNER, &hours, index_of);
    assert_near(year.mould, wet.mould, 0);
    assert_near(index_of[YEAR - 1], wet.mould - lost, 1e-12);
    assert_true(year.mould_years > year.mould + 1);
    assert_int_equal(year.months_80, 1); /* 270 of 730 h wet: a mean of 64 % */
}

/* 400 h at 97 % among 70 %: 720 h have a mean of 80 % from 267 wet hours on
   (0.27 x 266.7 = 720 x 0.10), so from the 267th hour of the block to the
   853rd, when 133 have left again. */
TEST(thirty_days_run_round_the_year)
{
    struct dew_face_hours hours = steady(17.3, 0.70, YEAR);

    for (int h = 0; h < 200; h++) /* across new year */
        rh[h] = rh[YEAR - 1 - h] = 0.97;
    assert_near(dew_faces_of(DEW_EDGE, &hours, NULL).mean_80, 853 - 267 + 1, 0);
}

static const struct cold_row {
    const char *name;
    double t, hours;
} cold_rows[] = {
    {"30-day mean of 4.9 degC is not judged, [ASH-160]", 4.9, 0},
    {"30-day mean of 5.1 degC is, [ASH-160]", 5.1, YEAR},
    {"30-day mean of 39.9 degC is, [ASH-160]", 39.9, YEAR},
    {"30-day mean of 40.1 degC is not, [ASH-160]", 40.1, 0},
};

static void cold_and_hot_months_are_not_judged(void **state)
{
    const struct cold_row *r = *state;
    const struct dew_face_hours hours = steady(r->t, 0.83, YEAR);

    assert_near(dew_faces_of(DEW_CORNER, &hours, NULL).mean_80, r->hours, 0);
}

TEST(a_short_run_has_no_running_mean)
{
    const struct dew_face_hours hours = steady(20, 0.9, 719);
    struct dew_face f = dew_faces_of(DEW_CORNER, &hours, NULL);

    assert_nan(f.mean_80);
    assert_near(f.month_rh[0], 0.9, 1e-12);
    assert_nan(f.month_rh[1]);
}

ROWS(growth_rows, grows_by_its_class);
ROWS(cold_rows, cold_and_hot_months_are_not_judged);
RUN_TESTS("study, faces");
