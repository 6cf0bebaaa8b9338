/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ventilation in pauses: the march against the exact single zone. */
#include "support/rows.h"

#include "dew/rates.h"
#include "support/cases.h"

/* A fan on a share of each cycle, constant source, no flow between, equal mean
   concentration: see the exact values in tests/house/test_rates.c. */
static const struct pause {
    const char *name;
    int cycle, on; /* h */
} pauses[] = {
    {"on 1 h of 10", 10, 1},
    {"on 1 h of 4", 4, 1},
    {"on 2 h of 4", 4, 2},
    {"on 3 h of 4", 4, 3},
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

/* At sixty steps an hour, and at four: the edges still fall on steps. */
static void the_march_keeps_the_mean_of_a_steady_flow(void **state)
{
    static const double turns[] = {.25, .5, 1, 1.5, 2, 2.5, 3};
    const struct pause *row = *state;
    double share = (double)row->on / row->cycle;

    for (size_t i = 0; i < COUNT_OF(turns); i++) {
        double equal = turns[i] * volume / (3600.0 * row->cycle);
        double on = equal / (dew_house_effectiveness(share, turns[i]) * share);

        if (isnan(on)) /* no fan makes so much up in so little time */
            continue;
        assert_near(1e6 * 5.3e-6 / excess(row, on, 60), equal, 0.005 * equal);
        if (turns[i] == 1.0)
            assert_near(1e6 * 5.3e-6 / excess(row, on, 4), equal,
                        0.005 * equal);
    }
}

ROWS(pauses, the_march_keeps_the_mean_of_a_steady_flow);
RUN_TESTS("march, pauses");
