/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a house is off by, at an hour and by readings, on figures laid out. */
#include "support/rows.h"

#include <math.h>

#include "dew/air.h"
#include "run/learn.h"

static struct dew_learn *laid_out(void)
{
    struct dew_learn *l = calloc(1, sizeof *l);

    assert_non_null(l);
    return l;
}

/* ---- an hour ----------------------------------------------------------------- */

enum { P = 98512 };

/* Saturated at t. */
static struct dew_result wet_at(double t)
{
    return (struct dew_result){.t = t, .w = dew_air_w(t, 1, P)};
}

TEST(a_house_is_as_humid_as_its_vapour_at_the_temperature_of_the_log)
{
    struct dew_hour weather[] = {{.p = 101325}, {.p = P}};
    double t[] = {30, 25};
    struct run__learn_hours hours = {.weather = weather, .t = t, .count = 2};
    const struct dew_result out = wet_at(20);
    double there =
        100 * dew_air_pws_liquid(20) / dew_air_pws_liquid(25); /* 74 % */

    assert_near(run__learn_rh(&hours, 1, &out), there, 1e-6);
    hours.t = NULL;
    assert_near(run__learn_rh(&hours, 1, &out), 100, 1e-6);
}

/* ---- readings ---------------------------------------------------------------- */

TEST(a_reading_takes_its_hours_at_its_temperature)
{
    struct dew_learn *l = laid_out();
    struct dew_hour weather[] = {{.p = 101325}, {.p = P}};
    unsigned of[] = {7, 6}; /* the second hour is of readings 1 and 2 */
    struct run__learn_sums sums = {.rh = {1, 2, 3}, .wet = {4, 5, 6}};
    struct dew_result out = wet_at(20);

    out.sweat[DEW_GLASS] = 0.25;
    out.sweat[DEW_GLASS + 1] = 0.5;
    l->hours.weather = weather;
    l->seen.of = of;
    l->seen.count = 3;
    l->seen.list[1].t = NAN;
    l->seen.list[2].t = 25;
    run__learn_seen_hour(l, 1, &out, &sums);
    assert_near(sums.rh[0], 1, 0);
    assert_near(sums.rh[1], 2 + 100, 1e-6);
    assert_near(sums.rh[2],
                3 + 100 * dew_air_pws_liquid(20) / dew_air_pws_liquid(25),
                1e-6);
    assert_near(sums.wet[0], 4, 0);
    assert_near(sums.wet[1], 5.25, 0);
    assert_near(sums.wet[2], 6.25, 0);
    free(l);
}

/* The root times the misfits is what readings are above the house. */
TEST(readings_together_are_weighed_by_the_root_of_their_spread)
{
    struct dew_learn *l = laid_out();
    const struct run__learn_sums sums = {.rh = {100, 90, 240}};
    const double root[] = {2, 0, 0, 3, 4, 0, 1, -1, 5};
    struct dew_learn_near near;
    double r[3];

    l->seen.count = l->seen.read = 3;
    for (int i = 0; i < 9; i++)
        l->seen.root[i] = root[i];
    for (int i = 0; i < 3; i++) {
        l->seen.hours[i] = i + 2; /* 50, 30, 60 % */
        l->seen.list[i].glass = -1;
    }
    l->seen.list[0].rh.si = 0.54;
    l->seen.list[1].rh.si = 0.40;
    l->seen.list[2].rh.si = 0.50;
    near = run__learn_seen_end(l, &sums, r);
    assert_near(2 * r[0], 4, 1e-9);
    assert_near(3 * r[0] + 4 * r[1], 10, 1e-9);
    assert_near(r[0] - r[1] + 5 * r[2], -10, 1e-9);
    assert_near(near.bias, -(4 + 10 - 10) / 3.0, 1e-9);
    assert_near(near.rmse, sqrt((16 + 100 + 100) / 3.0), 1e-9);
    free(l);
}

/* Wet in half of its hours, dry in nine of ten, a fifth either way: our guess. */
TEST(glass_lacks_hours_wet_or_has_too_many)
{
    static const struct {
        int glass;
        double share, misfit;
    } rows[] = {{1, 0.5, 0}, {1, 0.9, 0}, {1, 0.2, 1.5},
                {0, 0.1, 0}, {0, 0, 0},   {0, 0.4, 1.5}};
    struct dew_learn *l = laid_out();
    struct run__learn_sums sums = {{0}, {0}};
    double r[2];

    l->seen.count = 2; /* a humidity without glass; glass alone */
    l->seen.read = 1;
    l->seen.root[0] = 1;
    l->seen.list[0].glass = -1;
    l->seen.hours[0] = l->seen.hours[1] = 10;
    for (size_t k = 0; k < COUNT_OF(rows); k++) {
        l->seen.list[1].glass = rows[k].glass;
        sums.wet[1] = 10 * rows[k].share;
        (void)run__learn_seen_end(l, &sums, r);
        assert_near(r[0], 0, 1e-12);
        assert_near(r[1], rows[k].misfit, 1e-9);
    }
    free(l);
}

RUN_TESTS("a house against what was seen");
