/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measured beside modelled: by hand, a shift, nothing measured. */
#include "support/rows.h"

#include "dew/study.h"

enum { HOURS = 5 };

static const double t[HOURS] = {20.3, 20.9, 21.4, 22.2, 21.7};
static const double rh[HOURS] = {0.413, 0.437, 0.461, 0.452, 0.448};
static const struct dew_date dates[HOURS] = {
    {.month = 1}, {.month = 1}, {.month = 2}, {.month = 2}, {.month = 12}};

static struct dew_beside compare(const double *seen_t, const double *seen_rh)
{
    const struct dew_outcome o = {.count = HOURS, .series = {.t = t, .rh = rh}};
    const struct dew_measured m = {seen_t, seen_rh, HOURS};

    return dew_study_beside(&o, dates, &m);
}

/* By hand: gaps 0.013, -, 0.021, -0.018, 0.048. */
TEST(gaps_by_hand)
{
    const double seen_t[HOURS] = {20.0, 20.0, 20.0, 20.0, 20.0};
    const double seen[HOURS] = {0.400, NAN, 0.440, 0.470, 0.400};
    struct dew_beside b = compare(seen_t, seen);

    assert_near(b.rh.hours, 4.0, 0.0);
    assert_near(b.rh.measured, 0.4275, 1e-12);
    assert_near(b.rh.modelled, 0.4435, 1e-12);
    assert_near(b.rh.bias, 0.016, 1e-12);
    assert_near(b.rh.rms, sqrt(0.003238 / 4.0), 1e-12);
    assert_near(b.t.bias, 1.3, 1e-12);
    assert_near(b.month[0].bias, 0.013, 1e-12);
    assert_near(b.month[1].bias, 0.0015, 1e-12);
    assert_near(b.month[11].rms, 0.048, 1e-12);
    assert_true(isnan(b.month[5].bias));
}

/* A model that reads its own hours back is right. */
TEST(itself_is_no_gap)
{
    struct dew_beside b = compare(t, rh);

    assert_near(b.rh.bias, 0.0, 0.0);
    assert_near(b.rh.rms, 0.0, 0.0);
    assert_near(b.t.rms, 0.0, 0.0);
}

/* A shift is all bias: rms is its size. */
TEST(a_shift_is_all_bias)
{
    double seen[HOURS];
    struct dew_beside b;

    for (int h = 0; h < HOURS; h++)
        seen[h] = rh[h] + 0.037;
    b = compare(t, seen);
    assert_near(b.rh.bias, -0.037, 1e-12);
    assert_near(b.rh.rms, 0.037, 1e-12);
}

TEST(nothing_measured_is_nothing)
{
    const double none[HOURS] = {NAN, NAN, NAN, NAN, NAN};
    struct dew_beside b = compare(none, none);

    assert_near(b.rh.hours, 0.0, 0.0);
    assert_true(isnan(b.rh.bias) && isnan(b.rh.rms) && isnan(b.t.measured));
}

RUN_TESTS("measured beside modelled");
