/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fans: their rows, the fan laws, and what is refused. */
#include "support/rows.h"

#include "dew/network.h"

/* an invented small ventilator: 25 Pa steps, W */
static const struct dew_fan_row sheet[] = {
    {.0223, 225, 41.7}, {.0311, 175, 44.3}, {.0377, 125, 46.1},
    {.0421, 75, 47.9},  {.0463, 25, 49.2},
};

static struct dew_fan *open_sheet(void)
{
    struct dew_fan *fan;

    assert_int_equal(dew_ducts_fan_open(&fan, sheet, 5, NULL), DEW_OK);
    return fan;
}

TEST(rows_come_back)
{
    struct dew_fan *fan = open_sheet();

    for (size_t i = 0; i < COUNT_OF(sheet); i++) {
        struct dew_fan_point at =
            dew_ducts_fan_at(fan, 1.0, 1.204, sheet[i].flow);

        assert_near(at.pressure, sheet[i].pressure, 1e-10);
        assert_near(at.watts, sheet[i].watts, 1e-10);
        assert_int_equal(at.outside, 0);
    }
    dew_ducts_fan_close(fan);
}

TEST(pressure_falls_and_slope_is_exact)
{
    struct dew_fan *fan = open_sheet();
    double last = INFINITY;

    for (double q = -.013; q < .06; q += 7.7e-4) {
        struct dew_fan_point at = dew_ducts_fan_at(fan, .83, 1.1, q);
        double up = dew_ducts_fan_at(fan, .83, 1.1, q + 1e-8).pressure;
        double down = dew_ducts_fan_at(fan, .83, 1.1, q - 1e-8).pressure;

        assert_true(at.pressure < last);
        assert_near((up - down) / 2e-8, at.slope, 1e-4 * fabs(at.slope) + .01);
        assert_int_equal(at.outside, q < .83 * .0223 || q > .83 * .0463);
        last = at.pressure;
    }
    dew_ducts_fan_close(fan);
}

/* flow with N, pressure with rho N^2, watts with rho N^3 */
TEST(fan_laws_hold)
{
    struct dew_fan *fan = open_sheet();
    struct dew_fan_point at =
        dew_ducts_fan_at(fan, .7, .5 * 1.204, .7 * sheet[2].flow);

    assert_near(at.pressure, .5 * .49 * 125, 1e-10);
    assert_near(at.watts, .5 * .343 * 46.1, 1e-10);
    assert_near(dew_ducts_fan_at(fan, 0.0, 1.2, .02).pressure, 0.0, 0.0);
    assert_near(dew_ducts_fan_at(fan, 0.0, 1.2, .02).watts, 0.0, 0.0);
    assert_nan(dew_ducts_fan_at(fan, 2.1, 1.2, .02).pressure);
    dew_ducts_fan_close(fan);
}

TEST(shape_and_blower_go_through_their_points)
{
    struct dew_fan_row rest = {.065, 200, 37}, rated = {.5, 124, 310};
    struct dew_fan *fan;

    assert_int_equal(dew_ducts_fan_shaped(&fan, &rest, NULL), DEW_OK);
    assert_near(dew_ducts_fan_at(fan, 1, 1.204, .035).pressure,
                200 * (1 - 35.0 * 35.0 / (65.0 * 65.0)), 1e-12);
    assert_near(dew_ducts_fan_at(fan, 1, 1.204, .07).outside, 1, 0);
    dew_ducts_fan_close(fan);
    assert_int_equal(dew_ducts_blower_open(&fan, &rated, 1.3, NULL), DEW_OK);
    assert_near(dew_ducts_fan_at(fan, 1, 1.204, .5).pressure, 124, 1e-10);
    assert_near(dew_ducts_fan_at(fan, 1, 1.204, .65).pressure, 0, 1e-10);
    assert_near(dew_ducts_fan_at(fan, 1, 1.204, .5).watts, 310, 0);
    dew_ducts_fan_close(fan);
}

static void refused(size_t row, struct dew_fan_row bad, const char *text)
{
    struct dew_fan_row rows[5];
    struct dew_error err = {0};
    struct dew_fan *fan;

    for (size_t i = 0; i < 5; i++)
        rows[i] = i == row ? bad : sheet[i];
    assert_int_equal(dew_ducts_fan_open(&fan, rows, 5, &err), DEW_ERANGE);
    assert_null(fan);
    assert_string_equal(err.text, text);
}

TEST(faults_name_the_row)
{
    struct dew_error err = {0};
    struct dew_fan *fan;

    refused(2, (struct dew_fan_row){.0377, 176, 46},
            "row 3 of a fan: flow must rise and pressure fall");
    refused(1, (struct dew_fan_row){.0311, 175, NAN},
            "row 2 of a fan: watts in all rows or in none");
    refused(4, (struct dew_fan_row){NAN, 25, 49},
            "row 5 of a fan is outside its range");
    assert_int_equal(dew_ducts_fan_open(&fan, sheet, 2, &err), DEW_ERANGE);
    assert_string_equal(err.text, "a fan of 2 rows, not 3 .. 64");
    err = (struct dew_error){0};
    assert_int_equal(dew_ducts_blower_open(&fan, sheet, 1.0, &err), DEW_ERANGE);
    assert_string_equal(err.text, "a blower's free flow of 1 times its rated "
                                  "flow is outside 1.01 .. 3");
}

RUN_TESTS("fan");
