/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Mould index at steady climates.  The equations are those of [HV99] and
 * [OV11]; the figures are worked out from them apart from this code, hour by
 * hour, so that they are regressions of the arithmetic and not measurements.
 */
#include "support/rows.h"

#include "dew/surface.h"

static const struct dew_mould_rule pine = {.decline = 1.0};

/* clang-format off */
/* 1999 form, resawn pine; 0 hours = never. */
static const struct steady { const char *source; double t, rh, critical, one, three, beyond, most; int to_one, to_three; double m30, m90, m365; } steady_rows[] = {
    {"20 degC, 97 %",    20, 97,    80.04,  1.4835,  2.9827,  1.9791, 5.5039, 250,  502,  4.6673, 5.5039, 5.5039},
    {"20 degC, 90 %",    20, 90,    80.04,  4.2019,  7.7336,  2.3796, 3.995,  707,  1314, 1.0449, 3.9897, 3.995},
    {"20 degC, 85 %",    20, 85,    80.04,  9.3003,  16.0007, 2.7761, 2.616,  1578, 0,    0.4588, 1.9416, 2.616},
    {"20 degC, 80.04 %", 20, 80.04, 80.04,  21.4513, 34.3781, 3.3189, 1.0,    0,    0,    0.1751, 0.4861, 0.9857},
    {"10 degC, 97 %",    10, 97,    82.03,  2.3768,  4.9817,  1.8249, 5.4434, 400,  838,  2.4638, 5.4433, 5.4434},
    {"10 degC, 90 %",    10, 90,    82.03,  6.7321,  12.9165, 2.1771, 3.7112, 1132, 2220, 0.6363, 2.9058, 3.7112},
    {"5 degC, 97 %",     5,  97,    88.016, 3.808,   8.3202,  1.6878, 5.1236, 640,  1400, 1.2114, 4.7625, 5.1236},
    {"5 degC, 95 %",     5,  95,    88.016, 5.087,   10.845,  1.767,  4.4001, 855,  1831, 0.8424, 3.6198, 4.4001},
    {"25 degC, 90 %",    25, 90,    80.0,   3.6104,  6.5565,  2.4509, 4.0,    607,  1114, 1.4562, 3.9998, 4.0},
    {"25 degC, 85 %",    25, 85,    80.0,   7.991,   13.5652, 2.8671, 2.625,  1356, 0,    0.5338, 2.3726, 2.625},
    {"30 degC, 95 %",    30, 95,    80.0,   1.5043,  2.88,    2.1868, 5.125,  253,  485,  4.7817, 5.125,  5.125},
    {"20 degC, 100 %",   20, 100,   80.04,  0.9715,  2.0246,  1.8448, 6.0,    164,  341,  5.979,  6.0,    6.0},
};

/* Class form at 20 degC (regression); 0 = never in 10 years. */
static const struct graded { const char *source; enum dew_mould_class which; double rh, most; int to_one, to_three; } graded_rows[] = {
    {"very sensitive, 90 %: 1429 h to index 3", DEW_MOULD_VERY_SENSITIVE, 0.90, 3.9950, 707, 1429},
    {"very sensitive, 97 %",                    DEW_MOULD_VERY_SENSITIVE, 0.97, 5.5039, 250, 500},
    {"sensitive, 90 %",                         DEW_MOULD_SENSITIVE,      0.90, 3.0450, 1226, 6720},
    {"sensitive, 97 %",                         DEW_MOULD_SENSITIVE,      0.97, 4.6762, 432, 1729},
    {"medium resistant, 90 %",                  DEW_MOULD_MEDIUM,         0.90, 1.5000, 11290, 0},
    {"medium resistant, 97 %",                  DEW_MOULD_MEDIUM,         0.97, 3.0400, 3475, 11319},
    {"resistant, 90 %",                         DEW_MOULD_RESISTANT,      0.90, 0.8889, 0, 0},
    {"resistant, 97 %",                         DEW_MOULD_RESISTANT,      0.97, 1.7600, 8123, 0},
};

static const struct critical { const char *source; double t, rh; } critical_rows[] = {
    {"[HV99] critical at 0 degC",  0,  1.0},     {"[HV99] critical at 1 degC",  1,  0.97027},
    {"[HV99] critical at 5 degC",  5,  0.88016}, {"[HV99] critical at 10 degC", 10, 0.82030},
    {"[HV99] critical at 15 degC", 15, 0.80039}, {"[HV99] critical at 20 degC", 20, 0.80040},
    {"[HV99] critical at 25 degC", 25, 0.80},    {"never below 0.80, 17 degC",  17, 0.80},
    {"frozen: 1",                  -4, 1.0},
};
/* clang-format on */

static double index_after(const struct dew_mould_rule *rule, double t,
                          double rh, int hours)
{
    struct dew_mould m = {0.0, 0.0};

    for (int h = 0; h < hours; h++)
        dew_house_mould_hour(rule, t, rh, &m);
    return m.index;
}

/* Hours until the index is at goal; 0 = not within most. */
static int hours_to(const struct dew_mould_rule *rule, double t, double rh,
                    double goal, int most)
{
    struct dew_mould m = {0.0, 0.0};

    for (int h = 1; h <= most; h++) {
        dew_house_mould_hour(rule, t, rh, &m);
        if (m.index >= goal)
            return h;
    }
    return 0;
}

static void steady_climate_grows_as_worked_out(void **state)
{
    const struct steady *row = *state;
    double rh = row->rh / 100.0, one, three;

    one = dew_house_mould_start(&pine, row->t, rh);
    three = dew_house_mould_seen(&pine, row->t, rh);
    assert_near(100 * dew_house_mould_critical(&pine, row->t), row->critical,
                5e-4);
    assert_near(one, row->one, 5.1e-5);
    assert_near(three, row->three, 5.1e-5);
    assert_near(2.0 / (three / one - 1.0), row->beyond, 5.1e-5);
    assert_near(dew_house_mould_most(&pine, row->t, rh), row->most, 5.1e-5);
    assert_int_equal(hours_to(&pine, row->t, rh, 1.0, 8760), row->to_one);
    assert_int_equal(hours_to(&pine, row->t, rh, 3.0, 8760), row->to_three);
    assert_near(index_after(&pine, row->t, rh, 720), row->m30, 5.1e-5);
    assert_near(index_after(&pine, row->t, rh, 2160), row->m90, 5.1e-5);
    assert_near(index_after(&pine, row->t, rh, 8760), row->m365, 5.1e-5);
}

static void class_grows_as_worked_out(void **state)
{
    const struct graded *row = *state;
    struct dew_mould_rule rule = {
        .by_class = 1, .which = row->which, .decline = 0.5};

    assert_near(dew_house_mould_most(&rule, 20.0, row->rh), row->most, 5.1e-5);
    assert_int_equal(hours_to(&rule, 20.0, row->rh, 1.0, 87600), row->to_one);
    assert_int_equal(hours_to(&rule, 20.0, row->rh, 3.0, 87600), row->to_three);
}

static void critical_is_the_published(void **state)
{
    const struct critical *row = *state;

    assert_near(dew_house_mould_critical(&pine, row->t), row->rh, 1e-5);
}

/* Original kiln-dried surface 1.0665 weeks, spruce 1.7065 at 20 degC, 97 %. */
TEST(wood_and_surface_change_the_start)
{
    struct dew_mould_rule kiln = {.kiln_dried = 1}, spruce = {.spruce = 1};
    struct dew_mould_rule graded = {.by_class = 1, .spruce = 1};

    assert_near(dew_house_mould_start(&kiln, 20, 0.97), 1.0665, 5e-5);
    assert_near(dew_house_mould_start(&spruce, 20, 0.97), 1.7065, 5e-5);
    assert_near(dew_house_mould_start(&graded, 20, 0.97), 1.4835, 5.1e-5);
    assert_nan(dew_house_mould_start(&pine, 20, 0.79));
}

/* From 1 after 30 dry days: 1 - 0.032/4 - 0.016 x 29 = 0.528 (closed form). */
TEST(dry_days_take_it_back)
{
    struct dew_mould m = {1.0, 0.0}, slow = {1.0, 0.0}, low = {0.005, 0.0};
    struct dew_mould_rule quarter = {.decline = 0.25};

    for (int h = 0; h < 720; h++) {
        dew_house_mould_hour(&pine, 21.0, 0.43, &m);
        dew_house_mould_hour(&quarter, 21.0, 0.43, &slow);
        dew_house_mould_hour(&pine, -7.0, 0.99, &low);
        assert_true(h != 5 || fabs(m.index - 0.992) < 1e-12);
        assert_true(h != 23 || fabs(m.index - 0.992) < 1e-12);
    }
    assert_near(m.index, 0.528, 1e-12);
    assert_near(slow.index, 1.0 - 0.25 * 0.472, 1e-12);
    assert_near(low.index, 0.0, 0.0);
}

TEST(one_wet_hour_starts_the_clock_again)
{
    struct dew_mould m = {2.0, 0.0};
    double before;

    for (int h = 0; h < 13; h++)
        dew_house_mould_hour(&pine, 21.0, 0.43, &m);
    dew_house_mould_hour(&pine, 21.0, 0.97, &m);
    assert_near(m.dry_hours, 0.0, 0.0);
    before = m.index;
    dew_house_mould_hour(&pine, 21.0, 0.43, &m);
    assert_near(before - m.index, 0.032 / 24.0, 1e-15);
}

TEST(nothing_grows_past_its_most)
{
    struct dew_mould m = {4.7, 0.0};

    dew_house_mould_hour(&pine, 20.0, 0.90, &m); /* most 3.995 */
    assert_near(m.index, 4.7, 0.0);
    dew_house_mould_hour(&pine, NAN, 0.90, &m);
    assert_nan(m.index);
    assert_near(dew_house_mould_most(&pine, 20, 1.07), 6.0, 1e-12);
}

ROWS(steady_rows, steady_climate_grows_as_worked_out);
ROWS(graded_rows, class_grows_as_worked_out);
ROWS(critical_rows, critical_is_the_published);
RUN_TESTS("house, mould");
