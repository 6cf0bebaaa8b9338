/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What makes an hour take two steps and not one, of a house in which all else
 * stands still: each by the steps that are tried in that hour.  Bounds are ours.
 */
#include "dew/air.h"
#include "march/open.h"
#include "support/marched.h"

#include "support/lively.h"

static const double pressure = 101325.0, mild = 20.0;

struct row {
    const char *name;
    double rh;                         /* indoors, at rest                    */
    void (*change)(struct dew_case *); /* as the hour begins; NULL: nothing  */
    long tries;
};

/* A leak of two air changes an hour, a pane, and no heat lost but by air. */
static struct dew_case still_house(void)
{
    struct dew_case c = bare_case(300.0, mild);

    c.house.comfort.given = 0;
    all_day(c.house.comfort.cool, 55.0);
    c.house.leakage.constant = 2.0 * 300.0 / 3600.0;
    c.house.surfaces[DEW_GLASS] = (struct dew_surface){0.64, 10.0, 0.5};
    c.house.water[DEW_SOURCE_other].per_day = 5.0;
    c.steps_per_hour = 4;
    return c;
}

/* 0.25 g/kg of 360 kg of air an hour are 2.2 kg a day */
static void pour_more(struct dew_case *c)
{
    c->house.water[DEW_SOURCE_other].per_day += 2.6;
}

static void pour_a_little(struct dew_case *c)
{
    c->house.water[DEW_SOURCE_other].per_day += 1.7;
}

/* 4 K of 1 MJ/K an hour are 1.1 kW */
static void heat_more(struct dew_case *c)
{
    c->house.people.gains_w = 1300.0;
}

static void heat_less(struct dew_case *c)
{
    c->house.people.gains_w = 900.0;
}

static void heat_a_little(struct dew_case *c)
{
    c->house.people.gains_w = 100.0;
}

static void cool_lower(struct dew_case *c)
{
    all_day(c->house.comfort.cool, 54.0);
}

static void ask_for_six(struct dew_case *c)
{
    c->steps_per_hour = 6;
}

static const struct row rows[] = {
    {"nothing", 0.50, NULL, 1},
    {"more water", 0.50, pour_more, 2},
    {"a little more water", 0.50, pour_a_little, 1},
    {"more heat", 0.50, heat_more, 2},
    {"heat that shows in the air: one, and its halves", 0.50, heat_less, 3},
    {"a little more heat", 0.50, heat_a_little, 1},
    {"another set point", 0.50, cool_lower, 2},
    {"six steps asked for, of which half", 0.50, ask_for_six, 3},
    {"air below the limit", 0.592, NULL, 2},
    {"air above the limit", 0.608, NULL, 2},
    {"air well below the limit", 0.588, NULL, 1},
    {"air well above the limit", 0.612, NULL, 1},
    {"a pane nearly wet", 0.91, NULL, 2},
    {"a pane dry by far", 0.89, NULL, 1},
};

static void an_hour_takes_its_steps(void **state)
{
    const struct row *row = *state;
    struct dew_case c = still_house();
    double kg_s = c.house.water[DEW_SOURCE_other].per_day / 86400.0;
    double flow = c.house.leakage.constant * dew_air_density_run(pressure);
    struct dew_hour out = {.t = mild,
                           .w =
                               dew_air_w(mild, row->rh, pressure) - kg_s / flow,
                           .p = pressure};
    struct dew_march *m = opened(&c, &out);
    long before;
    int h = 0;

    for (; h < 24 * 30; h++)
        step(m, &out, h);
    before = m->body.tries;
    if (row->change != NULL)
        row->change(&m->body.c);
    step(m, &out, h);
    assert_int_equal(m->body.tries - before, row->tries);
    dew_march_close(m);
}

ROWS(rows, an_hour_takes_its_steps);
RUN_TESTS("march, pace");
