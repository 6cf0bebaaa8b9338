/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes: closing in on an edge, and turns, on made-up points. */
#include "dew/size.h"

#include "run/size.h"
#include "support/rows.h"

static const double cfm = 4.719474432e-4;

enum { MOST = 12 };

static const struct shape_row {
    const char *name;
    enum dew_size_knob knob;
    size_t count;
    double value[MOST]; /* cfm, or a share                                  */
    int enough[MOST], air[MOST];
    double next; /* 0: nothing                                              */
    double low, high;
    size_t stretches;
} shape_rows[] = {
    {"none is enough, air from the third",
     DEW_SIZE_flow,
     4,
     {20, 40, 60, 80},
     {0},
     {0, 0, 1, 1},
     50,
     NAN,
     NAN,
     0},
    {"the near edge first",
     DEW_SIZE_flow,
     4,
     {20, 40, 60, 80},
     {0, 1, 1, 0},
     {1, 1, 1, 1},
     30,
     40,
     60,
     1},
    {"then the far one",
     DEW_SIZE_flow,
     4,
     {39.5, 40, 60, 80},
     {0, 1, 1, 0},
     {1, 1, 1, 1},
     70,
     40,
     60,
     1},
    {"near enough on all sides",
     DEW_SIZE_flow,
     4,
     {39.5, 40, 60, 61},
     {0, 1, 1, 0},
     {1, 1, 1, 1},
     0,
     40,
     60,
     1},
    {"3 percent is near",
     DEW_SIZE_flow,
     2,
     {195, 200},
     {0, 1},
     {1, 1},
     0,
     200,
     200,
     1},
    {"4 percent is not",
     DEW_SIZE_flow,
     2,
     {192, 200},
     {0, 1},
     {1, 1},
     196,
     200,
     200,
     1},
    {"the first of two stretches",
     DEW_SIZE_flow,
     5,
     {39.5, 40, 40.5, 80, 120},
     {0, 1, 0, 1, 1},
     {1, 1, 1, 1, 1},
     0,
     40,
     40,
     2},
    {"of a set point the last",
     DEW_SIZE_set_point,
     4,
     {0.40, 0.50, 0.55, 0.60},
     {1, 0, 1, 0},
     {0},
     0.525,
     0.55,
     0.55,
     2},
    {"all are enough",
     DEW_SIZE_humidifier,
     3,
     {0.25, 0.30, 0.35},
     {1, 1, 1},
     {0},
     0,
     0.25,
     0.35,
     1},
};

static void it_closes_in(void **state)
{
    const struct shape_row *row = *state;
    struct run__size_curve *c = calloc(1, sizeof *c);
    double unit = row->knob == DEW_SIZE_flow ? cfm : 1, next = 0;

    c->told = (struct dew_size_curve){
        .knob = row->knob, .houses = 10, .need = 8, .count = row->count};
    for (size_t i = 0; i < row->count; i++) {
        c->points[i].value = unit * row->value[i];
        c->points[i].enough = row->enough[i];
        c->points[i].does = row->enough[i] ? 8 : 3;
        c->points[i].fails[DEW_DRAWN_short_of_air] = row->air[i] ? 2 : 3;
    }
    assert_int_equal(run__size_next(c, &next), row->next > 0);
    assert_near(next, unit * row->next, 1e-12);
    run__size_tell(c);
    assert_int_equal(c->told.stretches, row->stretches);
    assert_int_equal(c->told.found, row->stretches > 0);
    if (row->stretches > 0) {
        assert_near(c->told.low, unit * row->low, 1e-12);
        assert_near(c->told.high, unit * row->high, 1e-12);
        assert_int_equal(c->told.at_last,
                         row->high == row->value[row->count - 1]);
    }
    free(c);
}
ROWS(shape_rows, it_closes_in);

TEST(more_air_is_damper_from_the_least_on)
{
    struct dew_size_point p[3] = {{.value = 1}, {.value = 2}, {.value = 3}};
    const struct dew_size_curve c = {.points = p, .count = 3};
    struct dew_draws_range *r[3];
    static const double hours[] = {300, 120, 143, 145};

    for (int i = 0; i < 3; i++) {
        r[i] = &p[i].hours[DEW_DRAWN_too_humid];
        *r[i] = (struct dew_draws_range){NAN, NAN, NAN, hours[i]};
    }
    assert_nan(dew_size_turn(&c, DEW_DRAWN_too_humid)); /* less than a day */
    r[2]->told = hours[3];
    assert_near(dew_size_turn(&c, DEW_DRAWN_too_humid), 2, 0);
    for (int i = 0; i < 3; i++)
        r[i]->p50 = -i; /* the middle house goes before the one as told */
    assert_nan(dew_size_turn(&c, DEW_DRAWN_too_humid));
}

RUN_TESTS("what points of a size say");
