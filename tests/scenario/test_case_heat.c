/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demo's shell, its windows at 2.0 W/m2K: what the sun gives it and the sky takes from it. */
#include "support/rows.h"

#include <stdio.h>

#include "scenario/case_open.h"

#define DEMO                                                                   \
    "weather: {place: 1}\n"                                                    \
    "house: {floor_area: 1900 ft2, ceiling_height: 8.5 ft, storeys: 1, "       \
    "bedrooms: 3, airtightness: 1.1 ach50}\nwindows: {u: 2.0 W/m2K}\n"         \
    "insulation: {walls: 21 R, roof: 38 R%s}\n"

static struct dew_case demo(const char *more)
{
    char text[600];

    snprintf(text, sizeof text, DEMO, more);
    return case_of(text);
}

/* [ISO13790] 11.3.5 by hand on 176.5 m2 of roof, 111.2 of walls and 26.5 of
   windows: W at the standard's three temperatures. */
static const struct sky_row {
    const char *name;
    double k, opaque, all;
} sky_rows[] = {
    {"intermediate, 11 K: 52.2 + 29.8 + 52.4 = 134.4 W", 11, 82.0, 134.4},
    {"subpolar, 9 K: 110.0 W", 9, 67.1, 110.0},
    {"tropics, 13 K: 158.9 W", 13, 96.9, 158.9},
};

static void the_sky_takes_the_standards_watts(void **state)
{
    const struct sky_row *row = *state;
    struct dew_case c = demo("");
    double opaque = row->k * c.house.thermal.sky_opaque;

    assert_near(opaque, row->opaque, 0.1);
    assert_near(opaque + row->k * c.house.thermal.sky_glazed, row->all, 0.1);
}

/* Hour by hour unless one temperature is said. */
TEST(the_sky_is_the_weathers_or_as_said)
{
    assert_nan(demo("").house.thermal.sky_given);
    assert_near(demo(", sky: 11 K").house.thermal.sky_given, 11.0, 1e-12);
}

/* R_se 0.04 serves sun and sky: 200 W/m2 on a surface that takes up 60 % lift
   it by 4.8 K [ISO13790] eq. 45, roof and each wall. */
TEST(sun_lifts_roof_and_walls_alike)
{
    const struct dew_thermal t = demo("").house.thermal;
    const double roof = 0.14943 * 176.5, walls = 0.27039 * 111.2;

    assert_int_equal(t.facade_count, 5);
    assert_near(t.facades[4].tilt, 0.0, 0.0);
    assert_near(t.facades[4].shade, 1.0, 0.0);
    assert_near(t.facades[4].absorbing * 200.0, 4.8 * roof, 0.1);
    for (int i = 0; i < 4; i++)
        assert_near(t.facades[i].absorbing * 200.0, 4.8 * walls / 4.0, 0.1);
}

/* 3 W/m2 of floor, from memory and judgment: regression. */
TEST(appliances_are_three_watts_a_square_metre)
{
    struct dew_case c = demo("");

    assert_near(c.house.people.gains_w, 529.5, 0.05);
}

ROWS(sky_rows, the_sky_takes_the_standards_watts);
RUN_TESTS("scenario, shell");
