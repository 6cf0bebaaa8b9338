/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tallies: two hours written by hand, and what of each is added up. */
#include "support/rows.h"

#include "dew/march.h"

static const struct dew_limits limits = {0.60, 0.30};

/* All members of a struct of doubles: from, from + 0.01, ... */
static void number(void *all, size_t bytes, double from)
{
    double *x = all;

    for (size_t i = 0; i < bytes / sizeof *x; i++)
        x[i] = from + 0.01 * (double)i;
}

static void sums(const void *sum, const void *one, const void *two,
                 size_t bytes)
{
    const double *s = sum, *a = one, *b = two;

    for (size_t i = 0; i < bytes / sizeof *s; i++)
        assert_near(s[i], a[i] + b[i], 1e-12);
}

static struct dew_result first, second;

/* A damp hour at 3 o'clock that cooling rests in, and a dry one at 14. */
static struct dew_tally both(void)
{
    const struct dew_date night = {0, 7, 14, 3, 0, 1},
                          day = {0, 7, 14, 14, 0, 1};
    struct dew_tally t = {0};

    number(&first, sizeof first, 0.137);
    number(&second, sizeof second, 0.731);
    first.rh = 0.613;
    first.duty.cool = 0;
    first.w = 0.012;
    first.w_out = 0.009;
    first.fresh = 0.021;
    first.drawn = 0.004;
    first.co2 = 1013;
    first.water.fog = -0.02;
    second.rh = 0.287;
    second.w = 0.007;
    second.w_out = 0.008;
    second.fresh = 0.031;
    second.drawn = 0.005;
    second.co2 = 987;
    second.water.fog = 0;
    dew_tally_add(&t, &limits, 0.035, &night, &first);
    dew_tally_add(&t, &limits, 0.035, &day, &second);
    return t;
}

TEST(flows_energy_and_running_are_sums)
{
    struct dew_tally t = both();

    sums(&t.water, &first.water, &second.water, sizeof t.water);
    sums(&t.heat, &first.heat, &second.heat, sizeof t.heat);
    sums(&t.energy, &first.energy, &second.energy, sizeof t.energy);
    sums(&t.duty, &first.duty, &second.duty, sizeof t.duty);
    sums(t.ducts, first.ducts, second.ducts, sizeof t.ducts);
    sums(t.sweat, first.sweat, second.sweat, sizeof t.sweat);
    sums(&t.coil_drained, &first.coil_drained, &second.coil_drained, 8);
    sums(&t.core_drained, &first.core_drained, &second.core_drained, 8);
    sums(&t.wiped, &first.wiped, &second.wiped, 8);
    sums(&t.short_heat, &first.short_heat, &second.short_heat, 8);
    sums(&t.leak_sum, &first.leak, &second.leak, 8);
    sums(&t.t_sum, &first.t, &second.t, 8);
    sums(&t.frost_hours, &first.duty.defrost, &second.duty.defrost, 8);
    assert_near(t.rh_sum, 0.613 + 0.287, 1e-12);
    assert_near(t.fresh_sum, 0.052, 1e-12);
    assert_near(t.drawn_sum, 0.009, 1e-12);
    assert_near(t.co2_sum, 2000, 1e-9);
    assert_near(t.hours, 2, 0);
}

TEST(hours_are_counted_where_it_is_so)
{
    struct dew_tally t = both();

    assert_near(t.too_humid, 1, 0);
    assert_near(t.longest_too_humid, 1, 0);
    assert_near(t.idle_humid, 1, 0);
    assert_near(t.humid_by[0], 1, 0);
    assert_near(t.humid_by[1], 0, 0);
    assert_near(t.too_dry, 1, 0);
    assert_near(t.could_dry, 1, 0);
    assert_near(t.could_wet, 1, 0);
    assert_near(t.saturated, 1, 0);
    assert_near(t.co2_high, 1, 0);
    assert_near(t.fresh_short, 1, 0); /* 25 of 35 L/s; then 36 */
    for (int s = 0; s < DEW_SURFACES; s++)
        assert_near(t.surface_80[s],
                    (first.surface_rh[s] > 0.8) + (second.surface_rh[s] > 0.8),
                    0);
}

TEST(the_day_keeps_its_hours)
{
    struct dew_tally t = both();

    for (int h = 0; h < 24; h++) {
        assert_near(t.by_hour[h], h == 2 ? 0.613 : h == 13 ? 0.287 : 0, 0);
        assert_near(t.by_hour_count[h], h == 2 || h == 13, 0);
    }
}

TEST(extremes_are_those_of_the_hours)
{
    struct dew_tally t = both();

    assert_near(t.rh_min, 0.287, 0);
    assert_near(t.rh_max, 0.613, 0);
    assert_near(t.t_min, first.t, 0);
    assert_near(t.t_max, second.t, 0);
    assert_near(t.co2_max, 1013, 0);
    assert_near(t.supply_t_min, first.supply_t, 0);
    assert_near(t.pressure_all_min, 0, 0); /* no hour pulls */
    assert_near(t.mixed_t_min, first.mixed_t, 0);
}

/* The air it ran in, weighed by its running. */
TEST(a_dehumidifiers_air_is_weighed)
{
    struct dew_tally t = both();

    assert_near(t.dryer_t,
                first.duty.dehumidify * first.t +
                    second.duty.dehumidify * second.t,
                1e-12);
    assert_near(t.dryer_rh,
                first.duty.dehumidify * 0.613 + second.duty.dehumidify * 0.287,
                1e-12);
}

/* 0.04 point past the limit is none; the longer of two runs is kept. */
TEST(a_run_of_damp_hours_ends_with_a_dry_one)
{
    const double rh[] = {0.61, 0.62, 0.6004, 0.64, 0.61, 0.63, 0.59, 0.66};
    const struct dew_date date = {0, 7, 14, 3, 0, 1};
    struct dew_tally t = {0};

    for (size_t i = 0; i < COUNT_OF(rh); i++) {
        struct dew_result r = {.rh = rh[i], .duty.cool = i == 1 ? 0.3 : 0};

        dew_tally_add(&t, &limits, 0, &date, &r);
    }
    assert_near(t.longest_too_humid, 3, 0);
    assert_near(t.too_humid, 6, 0);
    assert_near(t.idle_humid, 5, 0);
    assert_near(t.by_hour_count[2], 8, 0);
}

/* A controller that holds the limit itself is not told off for it. */
TEST(the_limit_itself_is_neither_damp_nor_dry)
{
    const double rh[] = {0.2993, 0.2997, 0.3003, 0.5997, 0.6003, 0.6007};
    const struct dew_date date = {0, 7, 14, 3, 0, 1};
    struct dew_tally t = {0};

    for (size_t i = 0; i < COUNT_OF(rh); i++) {
        struct dew_result r = {.rh = rh[i]};

        dew_tally_add(&t, &limits, 0, &date, &r);
        assert_near(t.too_dry, 1, 0);
        assert_near(t.too_humid, i == 5, 0);
    }
}

RUN_TESTS("march, tallies");
