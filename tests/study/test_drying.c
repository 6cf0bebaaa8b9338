/* SPDX-License-Identifier: GPL-3.0-or-later */
/* With and without construction water, and what contents give up. */
#include "support/rows.h"

#include <string.h>

#include "dew/air.h"
#include "dew/drying.h"
#include "dew/sources.h"

enum { HOURS = 8760 };

static double with_rh[HOURS], without_rh[HOURS];
static struct dew_outcome with, without;
static struct dew_water water;

/* A house whose RH rises by per_rate for each kg/day that is given off. */
static struct dew_drying_ask dried(double kg, double half_life, double per_rate)
{
    water = dew_house_drying(kg, half_life, 0);
    for (int h = 0; h < HOURS; h++) {
        without_rh[h] = 0.47;
        with_rh[h] =
            0.47 + per_rate * water.per_day * exp2(-h / 24.0 / half_life);
    }
    with = without = (struct dew_outcome){.count = HOURS};
    with.series.rh = with_rh;
    without.series.rh = without_rh;
    with.year.too_humid = 731;
    without.year.too_humid = 112;
    return (struct dew_drying_ask){
        &with, &without, &water, {half_life, half_life, half_life}};
}

/* The week's mean passes 1 point about half a week after the hour itself. */
TEST(within_the_year_it_is_the_hour_found)
{
    struct dew_drying_ask ask = dried(900, 80, 0.01);
    struct dew_drying d = dew_drying_of(&ask);
    double days = 80 * log2(900 * log(2) / 80 * 0.01 / 0.01);

    assert_near(d.agree.likely / 24, days + 3.5, 0.1);
    assert_near(d.humid_more, 619, 0);
    assert_near(d.given_off + d.left, 900, 1e-9);
    assert_near(d.left, 900 * exp2(-365.0 / 80), 1e-9);
}

TEST(past_the_year_it_is_worked_out)
{
    struct dew_drying_ask ask = dried(3100, 300, 0.01);
    struct dew_drying d = dew_drying_of(&ask);
    double days = 300 * log2(3100 * log(2) / 300);

    assert_true(days > 365);
    assert_near(d.agree.likely / 24, days, 0.1);
}

/* The doubt of the half-life alone: the same kg, the same rate at the end. */
TEST(the_half_lifes_doubt_makes_the_range)
{
    struct dew_drying_ask ask = dried(3100, 300, 0.01);
    struct dew_drying d;

    ask.half_life.low = 150;
    ask.half_life.high = 500;
    d = dew_drying_of(&ask);
    assert_near(d.agree.low / 24, 150 * log2(3100 * log(2) / 150), 0.3);
    assert_near(d.agree.high / 24, 500 * log2(3100 * log(2) / 500), 0.3);
}

TEST(a_house_that_hides_it_agrees_from_the_start)
{
    struct dew_drying_ask ask = dried(900, 80, 0.0009);
    struct dew_drying d = dew_drying_of(&ask);

    assert_near(d.agree.likely, 0, 0);
    assert_near(d.agree.high, 0, 0);
}

TEST(a_settled_case_has_no_such_water)
{
    struct dew_case c, dry;

    memset(&c, 0, sizeof c);
    c.house.volume = 417;
    assert_false(dew_drying_matters(&c));
    c.house.water[DEW_SOURCE_drying] = dew_house_drying(900, 80, 0);
    assert_true(dew_drying_matters(&c));
    dry = dew_drying_settled(&c);
    assert_false(dew_drying_matters(&dry));
    assert_near(dry.house.volume, 417, 0);
}

/* 19,200 ft3 from 60 to 50 % at 75 degF: the air gives up 2.7 lb (users'
   example, ideal psychrometrics at sea level). */
TEST(the_air_of_a_house_gives_up_little)
{
    struct dew_case c;
    const struct dew_falling_ask ask = {43 / 1.8, 0.60, 0.50, 0.048, 0.005};
    struct dew_falling f;

    memset(&c, 0, sizeof c);
    c.pressure = 101325;
    c.house.volume = 19200 * 0.3048 * 0.3048 * 0.3048;
    c.house.buffer.surface_kg = 21;
    c.house.buffer.mid_kg = 32;
    c.house.buffer.deep_kg = 243;
    f = dew_drying_falling(&c, &ask);
    assert_near(f.air / 0.45359237, 2.7, 0.05);
    assert_near(f.day, 5.3, 1e-12);
    assert_near(f.deep, 24.3, 1e-12);
}

/* Stepped through: a store of M kg of dry air flushed by m kg/s. */
TEST(the_hours_are_those_of_flushing)
{
    struct dew_case c;
    const struct dew_falling_ask ask = {23, 0.60, 0.50, 0.048, 0.0061};
    struct dew_falling_ask wet = ask;
    double w, flow, hours = 0, mass;
    struct dew_falling f;

    memset(&c, 0, sizeof c);
    c.pressure = 98700;
    c.house.volume = 431;
    c.house.buffer.surface_kg = 41;
    f = dew_drying_falling(&c, &ask);
    w = dew_air_w(23, 0.60, c.pressure);
    flow = dew_air_density_run(c.pressure) * 0.048;
    mass = dew_air_density_run(c.pressure) * 431 +
           4.1 / (w - dew_air_w(23, 0.50, c.pressure));
    for (; w > dew_air_w(23, 0.50, c.pressure); hours += 1e-3)
        w -= 3.6 * flow * (w - 0.0061) / mass;
    assert_near(f.hours[1], hours, 0.01);
    /* the air alone: its volume over the flow, for each e-fold */
    w = dew_air_w(23, 0.60, c.pressure);
    assert_near(
        f.hours[0],
        431 / 0.048 / 3600 *
            log((w - 0.0061) / (dew_air_w(23, 0.50, c.pressure) - 0.0061)),
        1e-9);
    wet.w_out = 0.0099;
    assert_nan(dew_drying_falling(&c, &wet).hours[1]);
}

RUN_TESTS("study, drying");
