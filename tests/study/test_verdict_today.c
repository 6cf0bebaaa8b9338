/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is said of today, and of what was not told, on books by hand. */
#include "study/judged.h"

/* ---- stale air --------------------------------------------------------------- */

static const struct stale_row {
    const char *name;
    double fresh, co2; /* m3/s; ppm */
    int told, short_of_air;
} stale_rows[] = {
    {"air enough, below the mark", 0.034, 1000, 0, 0},
    {"air enough, above the mark", 0.034, 1001, 1, 0},
    {"95 % of the air, below the mark", 0.03326, 900, 0, 0},
    {"less than 95 %, below the mark", 0.0332, 900, 1, 1},
};

static void stale_air_is_told_first(void **state)
{
    const struct stale_row *r = *state;
    struct dew_tally *y;

    scene_open(&s, 1);
    scene_humid(&s, 0, JULY, 512);
    y = &s.outcomes[0].year;
    s.outcomes[0].required = 0.035;
    y->fresh_sum = r->fresh * y->hours;
    y->drawn_sum = 0;
    y->leak_sum = 0.0071 * y->hours;
    y->co2_sum = r->co2 * y->hours;
    s.cases[0].house.co2_outdoors = 424;
    y->humid_by[0] = 411;
    y->humid_by[1] = 302;
    y->humid_by[2] = 203;
    judge();
    assert_near(NUMBERS(today_humid, 0).by_1, 411, 0);
    assert_near(NUMBERS(today_humid, 0).by_2, 302, 0);
    assert_near(NUMBERS(today_humid, 0).by_3, 203, 0);
    if (!r->told) {
        assert_null(FIND(today_stale, ANY));
        return;
    }
    assert_ptr_equal(FIND(today_stale, 0), &v.list[0]);
    assert_near(NUMBERS(today_stale, 0).fresh, r->fresh, 1e-12);
    assert_near(NUMBERS(today_stale, 0).leaks, 0.0071, 1e-12);
    assert_near(NUMBERS(today_stale, 0).required, 0.035, 0);
    assert_near(NUMBERS(today_stale, 0).co2, r->co2, 1e-9);
    assert_near(NUMBERS(today_stale, 0).co2_outdoors, 424, 0);
    assert_int_equal(NUMBERS(today_stale, 0).short_of_air, r->short_of_air);
}

/* ---- what was not told ------------------------------------------------------- */

static void all_told(struct dew_case *c)
{
    for (int e = 0; e < DEW_LOCALS; e++)
        c->plant.exhausts[e].flow = 0.04;
    c->plant.handler_count = 1;
    c->plant.handlers[0].capacity = 9000;
    c->house.windows.flow = 0.2;
}

static void no_bath_fan(struct dew_case *c)
{
    c->plant.exhausts[DEW_LOCAL_BATH].flow = 0;
    c->house.windows.flow = 0;
}

static void no_hood(struct dew_case *c)
{
    c->plant.exhausts[DEW_LOCAL_KITCHEN].flow = 0;
    c->house.windows.flow = 0;
}

static void no_clothes_dryer(struct dew_case *c)
{
    c->plant.exhausts[DEW_LOCAL_DRYER].flow = 0;
}

static void no_cooling(struct dew_case *c)
{
    c->plant.handlers[0].capacity = 0;
    c->plant.handlers[0].blower_w = 300;
}

static void temperature_measured(struct dew_case *c)
{
    no_cooling(c);
    c->house.comfort.given = 1;
}

static void windows_shut(struct dew_case *c)
{
    c->house.windows.flow = 0;
}

static void nothing(struct dew_case *c)
{
    memset(c, 0, sizeof *c);
}

static const struct untold_row {
    const char *name;
    void (*leave)(struct dew_case *c);
    struct dew_numbers_today_assumes want; /* none = not told of */
} untold_rows[] = {
    {"all is told", all_told, {.no_hood = 0}},
    {"no bath fan, windows shut",
     no_bath_fan,
     {.no_bath_fan = 1, .windows_shut = 1}},
    {"no hood, windows shut", no_hood, {.no_hood = 1, .windows_shut = 1}},
    {"no clothes dryer", no_clothes_dryer, {.no_clothes_dryer = 1}},
    {"a blower, no cooling", no_cooling, {.no_cooling = 1}},
    {"temperatures given, no cooling", temperature_measured, {.no_hood = 0}},
    {"windows shut by themselves", windows_shut, {.no_hood = 0}},
    {"nothing",
     nothing,
     {.no_bath_fan = 1,
      .no_hood = 1,
      .no_clothes_dryer = 1,
      .no_cooling = 1,
      .windows_shut = 1}},
};

static void what_was_not_told_is_said(void **state)
{
    const struct dew_numbers_today_assumes none = {.no_hood = 0};
    const struct untold_row *r = *state;

    scene_open(&s, 1);
    all_told(&s.cases[0]);
    r->leave(&s.cases[0]);
    judge();
    if (memcmp(&r->want, &none, sizeof none) == 0)
        assert_null(FIND(today_assumes, ANY));
    else
        assert_memory_equal(&NUMBERS(today_assumes, 0), &r->want,
                            sizeof r->want);
}

/* ---- saturated air ------------------------------------------------------------- */

/* Each option with an hour of it, with the water that fell out. */
TEST(saturated_air_is_told_of_its_option)
{
    scene_open(&s, 2);
    s.outcomes[1].year.saturated = 3;
    s.outcomes[1].year.water.fog = -2.7;
    judge();
    assert_null(FIND(saturated, 0));
    assert_near(NUMBERS(saturated, 1).saturated, 3, 0);
    assert_near(NUMBERS(saturated, 1).fog, 2.7, 0);
}

/* ---- cooling ------------------------------------------------------------------- */

/* 35 hours above half of 8,760 are 0.4 % of them; 36 are more [ASH-F14]. */
TEST(cooling_that_never_needs_half_is_too_large)
{
    static double cool[SCENE_HOURS];
    struct dew_outcome *o = &s.outcomes[0];

    scene_open(&s, 1);
    s.cases[0].plant.handler_count = 1;
    s.cases[0].plant.handlers[0].capacity = 9000;
    for (int h = 0; h < SCENE_HOURS; h++)
        cool[h] = h < 35 ? 0.51 : 0.5;
    o->count = SCENE_HOURS;
    o->series.cool = cool;
    o->year.duty.cool = 1300;
    o->month[1].duty.cool = 0.30 * 672; /* more of fewer hours */
    o->month[JULY].duty.cool = 0.29 * 744;
    judge();
    assert_near(NUMBERS(cool_large, 0).above_half, 35, 0);
    assert_near(NUMBERS(cool_large, 0).runs, 0.30, 1e-12);
    assert_int_equal(FIND(cool_large, 0)->months, 1U << 1);
    cool[35] = 0.51;
    judge();
    assert_null(FIND(cool_large, ANY));
    cool[35] = 0;
    s.cases[0].plant.handlers[0].low_stage = 0.7; /* runs long for another
                                                     reason */
    judge();
    assert_null(FIND(cool_large, ANY));
    s.cases[0].plant.handlers[0].low_stage = 1;
    s.cases[0].plant.handlers[0].turndown = 0.4;
    judge();
    assert_null(FIND(cool_large, ANY));
    s.cases[0].plant.handlers[0].turndown = 1;
    s.cases[0].plant.handler_count = 2;
    s.cases[0].plant.lead_lag = 1;
    judge();
    assert_null(FIND(cool_large, ANY)); /* the second's share is not kept */
    s.cases[0].plant.lead_lag = 0;
    judge();
    assert_non_null(FIND(cool_large, 0));
    o->year.duty.cool = 0;
    judge();
    assert_null(FIND(cool_large, ANY));
}

ROWS(untold_rows, what_was_not_told_is_said);
ROWS(stale_rows, stale_air_is_told_first);
RUN_TESTS("study, verdict, today");
