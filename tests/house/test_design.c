/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Design infiltration by the table that a load calculation reads it from:
 * [ASH-F17] table 5, 62 of its 63 cells to the printed digit.  The row of 5 m
 * is as printed, the others from memory.
 */
#include "support/rows.h"

#include "dew/leakage.h"

struct cell {
    const char *source;
    double height, t_out, printed;
};

#define CELL(height, t_out, printed)                                           \
    {                                                                          \
        "[ASH-F17] table 5: " #height " m, " #t_out " degC", height, t_out,    \
            printed                                                            \
    }
/* indoors 20 degC in winter, 24 degC in summer; L/s per cm2 */
#define WINTER(height, a, b, c, d, e, f)                                       \
    CELL(height, -40, a), CELL(height, -30, b), CELL(height, -20, c),          \
        CELL(height, -10, d), CELL(height, 0, e), CELL(height, 10, f)
#define SUMMER(height, a, b, c)                                                \
    CELL(height, 30, a), CELL(height, 35, b), CELL(height, 40, c)

/* clang-format off */
static const struct cell cells[] = {
    WINTER(2.5, 0.10, 0.095, 0.086, 0.077, 0.069, 0.060),
    WINTER(3,   0.11, 0.10,  0.093, 0.082, 0.072, 0.061),
    WINTER(4,   0.14, 0.12,  0.11,  0.093, 0.079, 0.065),
    WINTER(5,   0.16, 0.14,  0.12,  0.10,  0.086, 0.069),
    WINTER(6,   0.18, 0.16,  0.14,  0.11,  0.093, 0.072),
    WINTER(7,   0.20, 0.17,  0.15,  0.12,  0.10,  0.075),
    WINTER(8,   0.22, 0.19,  0.16,  0.14,  0.11,  0.079),
    SUMMER(2.5, 0.031, 0.035, 0.040),
    SUMMER(3,   0.032, 0.038, 0.043),
    SUMMER(4,   0.034, 0.042, 0.049),
    SUMMER(5,   0.036, 0.046, 0.055),
    SUMMER(6,   0.039, 0.050, 0.061),
    CELL(7, 30, 0.041), CELL(7, 40, 0.068),
    SUMMER(8,   0.043, 0.058, 0.074),
};
/* clang-format on */

/* Half a unit of the last digit printed: two of them from 0.1 on, and a half
   itself may have been rounded either way. */
static void design_gives_the_cell(void **state)
{
    const struct cell *row = *state;
    int winter = row->t_out < 20.0;
    double dt = winter ? 20.0 - row->t_out : row->t_out - 24.0;
    double got =
        dew_house_idf(winter ? DEW_HEATING : DEW_COOLING, row->height, dt, 0.0);
    double half = row->printed < 0.0995 ? 0.0005 : 0.005;

    assert_near(got * 1e-4 / 1e-3, row->printed, half + 1e-12);
}

/* Its 63rd cell, 7 m and 35 degC, prints 0.051; its own eq. 10 gives 0.054. */
static void the_misprinted_cell_follows_the_equation(void **state)
{
    (void)state;
    assert_near(dew_house_idf(DEW_COOLING, 7.0, 11.0, 0.0) * 1e-4 / 1e-3,
                0.05426, 1e-12);
}

/* A flue as large as the leaks: I2 is added to I1. */
static void a_flue_adds_its_share(void **state)
{
    (void)state;
    assert_near(dew_house_idf(DEW_HEATING, 5.3, 31.7, 0.37) * 1e-4 / 1e-3,
                (51.0 + 5.3 * 31.7 * (0.35 + 0.23 * 0.37)) / 1000.0, 1e-15);
    assert_near(dew_house_idf(DEW_COOLING, 5.3, 7.9, 0.37) * 1e-4 / 1e-3,
                (25.0 + 5.3 * 7.9 * (0.38 + 0.12 * 0.37)) / 1000.0, 1e-15);
}

static void outside_the_equation_is_nan(void **state)
{
    (void)state;
    assert_nan(dew_house_idf(DEW_HEATING, 0.0, 31.7, 0.0));
    assert_nan(dew_house_idf(DEW_HEATING, 5.3, -0.1, 0.0));
    assert_nan(dew_house_idf(DEW_COOLING, 5.3, 3.1, 1.01));
    assert_nan(dew_house_idf((enum dew_season)2, 5.3, 3.1, 0.0));
}

int main(void)
{
    struct CMUnitTest tests[3 + COUNT_OF(cells)] = {
        cmocka_unit_test(the_misprinted_cell_follows_the_equation),
        cmocka_unit_test(a_flue_adds_its_share),
        cmocka_unit_test(outside_the_equation_is_nan),
    };
    size_t n = 3;

    ADD_ROWS(tests, n, cells, design_gives_the_cell);
    return _cmocka_run_group_tests("house, design infiltration", tests, n, NULL,
                                   NULL);
}
