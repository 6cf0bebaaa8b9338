/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ventilation in pauses: the march against the exact single zone. */
#include "support/rows.h"

#include "dew/rates.h"
#include "support/cases.h"

/*
 * Effectiveness of a fan on a share of each cycle, constant source, no flow
 * between, equal mean concentration; turns: equal steady flow x cycle /
 * volume.  Exact, worked apart.
 */
static const struct pause {
    const char *name;
    int cycle, on; /* h */
    double turns[7], effectiveness[7];
} pauses[] = {
    {"on 1 h of 10",
     10,
     1,
     {.25, .5, 1, 1.5, 2, 0, 0},
     {.9958, .9829, .9287, .8254, .6293, 0, 0}},
    {"on 1 h of 4",
     4,
     1,
     {.25, .5, 1, 1.5, 2, 2.5, 3},
     {.9971, .9882, .9516, .8863, .7831, .6204, .3563}},
    {"on 2 h of 4",
     4,
     2,
     {.25, .5, 1, 1.5, 2, 2.5, 3},
     {.9987, .9948, .9791, .9527, .9155, .8672, .8083}},
    {"on 3 h of 4",
     4,
     3,
     {.25, .5, 1, 1.5, 2, 2.5, 3},
     {.9997, .9987, .9949, .9886, .9801, .9696, .9576}},
};

static const double volume = 413.0;

/* Mean carbon dioxide over outdoors, ppm, once cycles repeat. */
static double excess(const struct pause *row, double on, int steps)
{
    struct dew_case c = bare_case(volume, 21.0);
    struct dew_path path = {.supply = on, .exhaust = on, .fresh = on};
    struct dew_hour out = {.t = 21.0, .w = 0.005, .p = 101325.0};
    int settled = row->cycle * 150;
    struct dew_march *m;
    double sum = 0.0;

    c.house.leakage.c = 1e-9;
    c.house.people = (struct dew_people){.count = 1.0, .co2 = 5.3e-6};
    all_day(c.house.people.present_weekday, 1.0);
    for (int h = 0; h < 24; h++)
        c.plant.control.on_weekday[h] = h < row->on ? 1.0 : 0.0;
    c.steps_per_hour = steps;
    set_path(&c, DEW_VENT_ON, &path);
    assert_int_equal(dew_march_open(&m, &c, &out, NULL), DEW_OK);
    for (int h = 0; h < settled + row->cycle; h++) {
        struct dew_date date = {.month = 1, .day = 1, .yearday = 1};
        struct dew_result r;

        date.hour = 1 + h % row->cycle; /* a day of so many hours */
        assert_int_equal(dew_march_step(m, &out, &date, &r, NULL), DEW_OK);
        sum += h < settled ? 0.0 : (r.co2 - 420.0) / row->cycle;
    }
    dew_march_close(m);
    return sum;
}

static void the_march_keeps_the_mean_of_a_steady_flow(void **state)
{
    const struct pause *row = *state;
    double share = (double)row->on / row->cycle;

    for (int i = 0; i < 7 && row->turns[i] > 0.0; i++) {
        double equal = row->turns[i] * volume / (3600.0 * row->cycle);
        double on = equal / (row->effectiveness[i] * share);
        double shown = 1e6 * 5.3e-6 / excess(row, on, 60);

        assert_near(shown / (on * share), row->effectiveness[i],
                    0.005 * row->effectiveness[i]);
    }
}

/* At four steps an hour the edges still fall on steps. */
static void four_steps_an_hour_are_enough(void **state)
{
    const struct pause *row = *state;
    double share = (double)row->on / row->cycle, turns = 1.0;
    double equal = turns * volume / (3600.0 * row->cycle);
    double on = equal / (dew_house_effectiveness(share, turns) * share);

    assert_near(1e6 * 5.3e-6 / excess(row, on, 4), equal, 0.005 * equal);
}

int main(void)
{
    struct CMUnitTest tests[16] = {0};
    size_t n = 0;

    ADD_ROWS(tests, n, pauses, the_march_keeps_the_mean_of_a_steady_flow);
    ADD_ROWS(tests, n, pauses, four_steps_an_hour_are_enough);
    return _cmocka_run_group_tests("march, pauses", tests, n, NULL, NULL);
}
