/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of walls and fittings, and what the air makes of them. */
#include "support/rows.h"

#include "dew/network.h"

TEST(every_row_stands)
{
    const struct dew_duct_fitting *f;
    const struct dew_duct_wall *w;
    size_t n = 0, m = 0;

    for (; (w = dew_ducts_wall(n)) != NULL; n++) {
        assert_true(w->roughness >= w->lowest && w->roughness <= w->highest);
        assert_true(w->source[0] == '[');
        assert_ptr_equal(dew_ducts_wall_named(w->name), w);
    }
    for (; (f = dew_ducts_fitting(m)) != NULL; m++) {
        assert_true(isnan(f->loss) != isnan(f->equivalent));
        assert_true(f->source[0] == '[');
        assert_ptr_equal(dew_ducts_fitting_named(f->name), f);
    }
    assert_int_equal(n, 12);
    assert_int_equal(m, 32);
    assert_null(dew_ducts_wall_named("spiral"));
    assert_null(dew_ducts_fitting_named(""));
}

/* flexible duct, pulled out, loses about half as much again as spiral duct
   [ASH-F21]; its table 2 prints 11.4 Pa and 7.7 Pa, 48 % */
TEST(flexible_loses_half_as_much_again)
{
    struct dew_duct duct = {.diameter = .25, .length = 1.8};
    double spiral;

    duct.roughness = dew_ducts_wall_named("galvanized, spiral")->roughness;
    spiral = dew_ducts_drop(&duct, 1.204, 0.47, NULL);
    duct.roughness = dew_ducts_wall_named("flexible")->roughness;
    assert_near(dew_ducts_drop(&duct, 1.204, 0.47, NULL) / spiral, 1.48, 0.02);
}

/* a length counted by code is no less than what a sharp elbow loses */
TEST(a_counted_length_is_an_allowance)
{
    struct dew_duct counted = {.diameter = .1016, .roughness = .09e-3};
    struct dew_duct real = counted;

    counted.extra = dew_ducts_fitting_named("elbow 90, by code")->equivalent;
    assert_near(counted.extra, 4.572, 1e-12);
    real.loss = dew_ducts_fitting_named("elbow 90 tight")->loss;
    assert_true(dew_ducts_drop(&counted, 1.204, 0.0236, NULL) >
                dew_ducts_drop(&real, 1.204, 0.0236, NULL));
}

RUN_TESTS("fittings");
