/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Effectiveness of exchangers against published values, and back again. */
#include "support/rows.h"

#include "dew/core.h"

struct row {
    const char *name;
    enum dew_exchange kind;
    double ntu, c, eps, tolerance;
};

/* clang-format off */
static const struct row rows[] = {
    {"counterflow, N 5, C 0.7 [HT-DOC]",           DEW_COUNTERFLOW, 5,     0.7,     0.920670368605, 1e-12},
    {"crossflow exact, N 5, C 0.7 [HT-DOC]",       DEW_CROSSFLOW,   5,     0.7,     0.84448217997,  1e-11},
    {"counterflow, N 9, C 1 [HT-DOC]",             DEW_COUNTERFLOW, 9,     1,       0.9,            1e-12},
    {"counterflow plates [ASH-F4] example 14",     DEW_COUNTERFLOW, 0.769, 0.998,   0.435,          5e-4},
    {"counterflow tube [ASH-F4] example 13",       DEW_COUNTERFLOW, 4.32,  0.04696, 0.984,          1e-3},
    {"crossflow, UA 75, 50 and 30 W/K, regression", DEW_CROSSFLOW,  2.5,   0.6,     0.7557,         1e-4},
    {"crossflow, N 1, C 1 [KL84], from memory",    DEW_CROSSFLOW,   1,     1,       0.476,          5e-4},
    {"equal capacities meet the general form",     DEW_COUNTERFLOW, 3.217, 1 - 2e-9, 3.217 / 4.217, 1e-8},
};

/* Columns: counterflow C 1, 0.9, 0.75, 0.5; crossflow C 1, 0.75, 0.5.
   Recomputed apart from this code; agree with the tables of [KL84]. */
static const struct grid {
    const char *name;
    double ntu, counterflow[4], crossflow[3];
} grid[] = {
    {"grid, N 0.5", 0.5, {.3333, .3389, .3475, .3623}, {.3263, .3416, .3578}},
    {"grid, N 1",   1,   {.5000, .5126, .5319, .5647}, {.4762, .5103, .5475}},
    {"grid, N 1.5", 1.5, {.6000, .6181, .6454, .6908}, {.5602, .6077, .6597}},
    {"grid, N 2",   2,   {.6667, .6889, .7218, .7746}, {.6142, .6711, .7324}},
    {"grid, N 3",   3,   {.7500, .7777, .8171, .8744}, {.6813, .7494, .8197}},
    {"grid, N 4",   4,   {.8000, .8310, .8730, .9274}, {.7224, .7969, .8697}},
    {"grid, N 5",   5,   {.8333, .8664, .9088, .9572}, {.7509, .8293, .9017}},
    {"grid, N 8",   8,   {.8889, .9246, .9623, .9908}, {.8021, .8857, .9511}},
};
/* clang-format on */

static void effectiveness_row(void **state)
{
    const struct row *r = *state;

    assert_near(dew_plant_effectiveness(r->kind, r->ntu, r->c), r->eps,
                r->tolerance);
}

static void grid_row(void **state)
{
    static const double c4[] = {1, 0.9, 0.75, 0.5}, c3[] = {1, 0.75, 0.5};
    const struct grid *g = *state;

    for (int i = 0; i < 4; i++)
        assert_near(dew_plant_effectiveness(DEW_COUNTERFLOW, g->ntu, c4[i]),
                    g->counterflow[i], 1e-4);
    for (int i = 0; i < 3; i++)
        assert_near(dew_plant_effectiveness(DEW_CROSSFLOW, g->ntu, c3[i]),
                    g->crossflow[i], 1e-4);
}

TEST(example_14_leaves_at_59_6)
{
    double eps = dew_plant_effectiveness(DEW_COUNTERFLOW, 0.769, 0.998);

    /* [ASH-F4]: 90 degC in, 20 degC on the other side; the
                    hot side is the lesser */
    assert_near(90.0 - eps * (90.0 - 20.0), 59.6, 0.05);
}

TEST(inverse_matches_published_n)
{
    /* [EQ-SOLVER] prints 1.341; the exact relation has 1.3417 */
    assert_near(dew_plant_ntu(DEW_CROSSFLOW, 0.61, 0.6), 1.341, 0.001);
    assert_near(dew_plant_ntu(DEW_COUNTERFLOW, 0.9, 1.0), 9.0, 1e-12);
}

TEST(inverse_returns_the_ntu)
{
    static const double ntu[] = {0.0137, 0.631, 2.385, 7.11, 21.3};
    static const double c[] = {0.0, 0.317, 0.873, 1.0};

    for (int kind = DEW_COUNTERFLOW; kind <= DEW_WHEEL; kind++)
        for (size_t i = 0; i < COUNT_OF(ntu); i++)
            for (size_t j = 0; j < COUNT_OF(c); j++) {
                double eps = dew_plant_effectiveness((enum dew_exchange)kind,
                                                     ntu[i], c[j]);

                if (eps > 0.999999) /* no digits left to invert */
                    continue;
                assert_near(dew_plant_ntu((enum dew_exchange)kind, eps, c[j]) /
                                ntu[i],
                            1.0, 2e-8);
            }
}

TEST(series_of_core_and_header)
{
    double a = dew_plant_effectiveness(DEW_COUNTERFLOW, 5, 0.9);
    double b = dew_plant_effectiveness(DEW_CROSSFLOW, 2, 0.9);

    /* [EQ-SOLVER] 0.9039 with its approximate crossflow */
    assert_near(dew_plant_in_series(a, b, 0.9), 0.9036, 1e-4);
    assert_near(dew_plant_effectiveness(DEW_HEADERED, 7, 0.9), 0.9036, 1e-4);
}

TEST(kinds_keep_their_order)
{
    for (double n = 0.3; n < 12; n *= 1.7) {
        double cross = dew_plant_effectiveness(DEW_CROSSFLOW, n, 0.93);
        double ends = dew_plant_effectiveness(DEW_HEADERED, n, 0.93);
        double counter = dew_plant_effectiveness(DEW_COUNTERFLOW, n, 0.93);

        assert_true(cross < ends && ends < counter);
    }
}

TEST(outside_gives_nan)
{
    assert_nan(dew_plant_effectiveness(DEW_CROSSFLOW, -0.1, 0.5));
    assert_nan(dew_plant_effectiveness(DEW_COUNTERFLOW, 3, 1.01));
    assert_nan(dew_plant_ntu(DEW_COUNTERFLOW, 1.0, 0.7));
    assert_nan(dew_plant_ntu(DEW_CROSSFLOW, 0.999, 1.0)); /* never reached */
    assert_nan(dew_plant_rotor(0.9));
}

TEST(rotor_correction)
{
    /* [KL84] by hand: 5^1.93 = 22.337 */
    assert_near(dew_plant_rotor(5.0), 1.0 - 1.0 / (9.0 * 22.337), 1e-6);
}

ROWS(rows, effectiveness_row);
ROWS(grid, grid_row);
RUN_TESTS("plant, exchange");
