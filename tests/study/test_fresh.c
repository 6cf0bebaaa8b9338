/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fresh air beside the rules, credit for leaks, local exhaust, breath. */
#include "support/rows.h"

#include <string.h>

#include "dew/fresh.h"
#include "study/scene.h"

static struct scene s;
static double fresh[SCENE_HOURS], drawn[SCENE_HOURS];

static const double cfm = 0.3048 * 0.3048 * 0.3048 / 60, ft2 = 0.09290304;

/* 2,400 ft2 of 8 ft, three bedrooms: 102 cfm by one rule, 54 by the other. */
static void house(void)
{
    struct dew_house *h;

    scene_open(&s, 2);
    h = &s.cases[0].house;
    h->floor_area = 2400 * ft2;
    h->volume = 2400 * 8 * 0.3048 * 0.3048 * 0.3048;
    h->bedrooms = 3;
    h->people.count = 4;
    h->people.co2 = 5.2e-6;
    h->co2_outdoors = 420;
    h->leakage.n = 0.65;
    h->leakage.c = 1500 * cfm / pow(50, 0.65);
    for (int i = 0; i < 2; i++) {
        s.outcomes[i].count = SCENE_HOURS;
        s.outcomes[i].series.fresh = fresh;
        s.outcomes[i].series.drawn = drawn;
    }
    for (int k = 0; k < SCENE_HOURS; k++) {
        drawn[k] = 0;
        fresh[k] = (k < 1000 ? 40 : k < 3000 ? 60 : 102) * cfm;
    }
}

static const struct below_row {
    const char *name;
    enum dew_rate_rule rule;
    double hours;
} below_rows[] = {
    {"102 cfm by [ASH-622] 2013: 3,000 h below", DEW_RATE_622_2013, 3000},
    {"54 cfm by its older form: 1,000 h below", DEW_RATE_622_2010, 1000},
    {"66.9 L/s by [ADF21], 0.3 L/s m2: always below", DEW_RATE_ADF_2021, 8760},
};

static void hours_below_each_rule(void **state)
{
    const struct below_row *r = *state;
    struct dew_dwelling home;

    house();
    home = dew_fresh_dwelling(&s.question);
    assert_near(
        dew_fresh_hours_below(&s.question, 0, dew_house_rate(r->rule, &home)),
        r->hours, 0);
}

/* What an exhaust fan draws in counts: 50 cfm more while it runs.  That a
   ventilator is out of balance does not. */
TEST(drawn_in_air_counts)
{
    house();
    for (int k = 0; k < SCENE_HOURS; k++)
        drawn[k] = 50 * cfm;
    assert_near(dew_fresh_hours_below(&s.question, 0, 100 * cfm), 1000, 0);
    for (int k = 0; k < 500; k++)
        drawn[k] = 0;
    assert_near(dew_fresh_hours_below(&s.question, 0, 85 * cfm), 500, 0);
    house();
    s.cases[0].paths[DEW_VENT_ON][0].exhaust = 50 * cfm;
    assert_near(dew_fresh_hours_below(&s.question, 0, 100 * cfm), 3000, 0);
}

/*
 * 1,500 cfm at 50 Pa, two storeys: 0.052 x 1500 x 1.32 x wsf cfm, [NREL-SWS];
 * 61.1 to 61.5 cfm at 0.6 by both forms of [ASH-622].
 */
TEST(leaks_are_credited_by_the_formula)
{
    struct dew_fresh_credit c;
    const double middle = 0.052 * 1500 * 1.3195 * (0.37 + 1.0) / 2;

    house();
    s.outcomes[0].year.leak_sum = 23 * cfm * 8760;
    c = dew_fresh_credit_of(&s.question, 2);
    assert_near(c.low / cfm, 0.052 * 1500 * 1.3195 * 0.37, 0.02);
    assert_near(c.high / cfm, 0.052 * 1500 * 1.3195, 0.05);
    assert_near(c.low / 0.37 * 0.6 / cfm, 61.5, 0.5);
    assert_near(c.model / cfm, 23, 1e-9);
    assert_near(c.left_2013 / cfm, 102 - middle, 0.05);  /* all of it counts */
    assert_near(c.left_2013_new / cfm, 102.0 / 3, 1e-9); /* 2/3 at most */
    assert_near(c.left_2016 / cfm, 102 - middle, 0.05);
    assert_near(c.left_2016_one_sided / cfm, 102 - middle * middle / 102, 0.05);
}

static const struct local_row {
    const char *name, *rule;
    enum dew_room room;
    double needed, continuous, changes; /* cfm, cfm, 1/h; NAN = none        */
} local_rows[] = {
    {"62.2 kitchen: 100 cfm, or 5 changes", "62.2", DEW_KITCHEN, 100, NAN, 5},
    {"62.2 bath: 50 or 20 cfm", "62.2", DEW_BATH, 50, 20, NAN},
    {"IRC kitchen: 100 or 25 cfm", "irc", DEW_KITCHEN, 100, 25, NAN},
    {"[IRC21-WA] Washington kitchen: 250 cfm for gas", "irc-2021-wa",
     DEW_KITCHEN, 250, NAN, 5},
    {"[ADF21] kitchen: 60 L/s without a hood, or 13", "adf-2021", DEW_KITCHEN,
     60e-3 / (0.3048 * 0.3048 * 0.3048 / 60),
     13e-3 / (0.3048 * 0.3048 * 0.3048 / 60), NAN},
};

static void alike(double got, double want)
{
    if (isnan(want))
        assert_nan(got);
    else
        assert_near(got, want, 1e-9);
}

static void local_exhaust_is_the_rules(void **state)
{
    const struct local_row *r = *state;
    struct dew_fresh_local out[DEW_FRESH_LOCALS];
    const struct dew_fresh_local *found = NULL;
    size_t count;

    house();
    s.cases[1].plant.exhausts[DEW_LOCAL_KITCHEN].flow = 0.07;
    s.cases[1].plant.exhausts[DEW_LOCAL_BATH].flow = 0.03;
    count = dew_fresh_locals(&s.question, 1, out);
    for (size_t i = 0; i < count; i++)
        if (strcmp(out[i].rule, r->rule) == 0 && out[i].room == r->room)
            found = &out[i];
    assert_non_null(found);
    alike(found->needed / cfm, r->needed);
    alike(found->continuous / cfm, r->continuous);
    alike(found->changes, r->changes);
    assert_near(found->here, r->room == DEW_KITCHEN ? 0.07 : 0.03, 0);
}

/* Four of 5.2e-6 m3/s in 35 l/s: 20.8 / 0.035 = 594 ppm above 420. */
TEST(breath_comes_to_its_steady_rise)
{
    house();
    assert_near(dew_fresh_co2(&s.question), 420 + 20.8 / 0.035, 1e-9);
    s.outcomes[0].required = 0;
    assert_nan(dew_fresh_co2(&s.question));
}

ROWS(below_rows, hours_below_each_rule);
ROWS(local_rows, local_exhaust_is_the_rules);
RUN_TESTS("study, fresh air");
