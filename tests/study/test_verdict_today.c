/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is said of today, and of what was not told, on books by hand. */
#include "support/rows.h"

#include "study/scene.h"

enum { ANY = -2, JANUARY = 0, JUNE = 5, JULY = 6, AUGUST = 7 };

static struct scene s;
static struct dew_verdict v;

#define FIND(kind, option) scene_find(&v, DEW_FINDING_##kind, (option))

static const struct dew_finding *must(const struct dew_finding *f)
{
    assert_non_null(f);
    return f;
}

static void judge(void)
{
    dew_verdict_of(&s.question, &v);
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
    int bits; /* 0 = not told of */
} untold_rows[] = {
    {"all is told", all_told, 0},
    {"no bath fan", no_bath_fan, DEW_NO_BATH_FAN},
    {"no hood, windows shut", no_hood, DEW_NO_HOOD | DEW_WINDOWS_SHUT},
    {"no clothes dryer", no_clothes_dryer, DEW_NO_CLOTHES_DRYER},
    {"a blower, no cooling", no_cooling, DEW_NO_COOLING},
    {"temperatures given, no cooling", temperature_measured, 0},
    {"windows shut by themselves", windows_shut, 0},
    {"nothing", nothing, 31},
};

static void what_was_not_told_is_said(void **state)
{
    const struct untold_row *r = *state;

    scene_open(&s, 1);
    all_told(&s.cases[0]);
    r->leave(&s.cases[0]);
    judge();
    if (r->bits == 0)
        assert_null(FIND(today_assumes, ANY));
    else
        assert_near(must(FIND(today_assumes, 0))->value[0], r->bits, 0);
}

/* ---- cooling ------------------------------------------------------------------- */

/* 35 hours above half of 8,760 are 0.4 % of them; 36 are more [ASH-F14]. */
static void cooling_that_never_needs_half_is_too_large(void **state)
{
    static double cool[SCENE_HOURS];
    struct dew_outcome *o = &s.outcomes[0];

    (void)state;
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
    assert_near(must(FIND(cool_large, 0))->value[0], 35, 0);
    assert_near(FIND(cool_large, 0)->value[1], 0.30, 1e-12);
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

int main(void)
{
    struct CMUnitTest tests[40] = {
        cmocka_unit_test(cooling_that_never_needs_half_is_too_large),
    };
    size_t n = 1;

    ADD_ROWS(tests, n, untold_rows, what_was_not_told_is_said);
    return _cmocka_run_group_tests("study, verdict, today", tests, n, NULL,
                                   NULL);
}
