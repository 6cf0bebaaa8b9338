/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Axes of a drawing. */
#include "support/rows.h"

#include "draw/svg.h"

static const struct step_row {
    const char *name;
    double low, high, want;
    int count;
} step_rows[] = {
    {"0 to 744 in about 6: 200", 0, 744, 200, 6},
    {"0 to 6 in about 6: 1", 0, 6, 1, 6},
    {"-13 to 27 in about 6: 10", -13, 27, 10, 6},
    {"0 to 0.7 in about 6: 0.2", 0, 0.7, 0.2, 6},
    {"nothing to cut: 1", 5, 5, 1, 6},
};

static void step_of_an_axis(void **state)
{
    const struct step_row *r = *state;

    assert_near(draw__svg_step(r->low, r->high, r->count), r->want, 1e-12);
}

TEST(values_land_on_their_places)
{
    const struct draw__plot p = {.x0 = 2, .x1 = 12, .y0 = -5, .y1 = 15};

    assert_near(draw__svg_x(&p, 2), 64, 1e-12);
    assert_near(draw__svg_x(&p, 12), 746, 1e-12);
    assert_near(draw__svg_x(&p, 4.5), 64 + 0.25 * 682, 1e-12);
    assert_near(draw__svg_y(&p, -5), 298, 1e-12);
    assert_near(draw__svg_y(&p, 15), 30, 1e-12);
}

ROWS(step_rows, step_of_an_axis);
RUN_TESTS("draw, svg");
