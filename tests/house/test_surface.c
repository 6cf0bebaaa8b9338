/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/surface.h"

/* clang-format off */
/* U in Btu/(h ft2 F), degF outdoors, 70 degF indoors; limits in whole %. */
static const struct trade { const char *source; double film, u, out, percent; } trade_rows[] = {
    {"film 0.12, U 0.50, 20 degF: 55 %",  DEW_FILM_TRADE, 0.50, 20,  55},
    {"film 0.12, U 0.30, 20 degF: 70 %",  DEW_FILM_TRADE, 0.30, 20,  70},
    {"film 0.12, U 0.50, -10 degF: 37 %", DEW_FILM_TRADE, 0.50, -10, 37},
    {"film 0.12, U 0.30, -10 degF: 56 %", DEW_FILM_TRADE, 0.30, -10, 56},
    {"film 0.13, U 0.50, 20 degF: 52 %",  DEW_FILM_GLASS, 0.50, 20,  52},
    {"film 0.13, U 0.30, 20 degF: 68 %",  DEW_FILM_GLASS, 0.30, 20,  68},
    {"film 0.13, U 0.50, -10 degF: 34 %", DEW_FILM_GLASS, 0.50, -10, 34},
    {"film 0.13, U 0.30, -10 degF: 53 %", DEW_FILM_GLASS, 0.30, -10, 53},
    {"film 0.12, U 0.50, 0 degF: 42 %",   DEW_FILM_TRADE, 0.50, 0,   42},
    {"film 0.12, U 0.50, -20 degF: 33 %", DEW_FILM_TRADE, 0.50, -20, 33},
};

/* [ISO13788] relations, film 0.13 (regression). */
static const struct metric { const char *source; double u, ti, te, ts, factor, limit; } metric_rows[] = {
    {"U 2.8, 20 and -10 degC", 2.8, 20, -10, 9.08,  0.636, 0.494},
    {"U 1.1, 20 and -10 degC", 1.1, 20, -10, 15.71, 0.857, 0.763},
    {"U 1.1, 20 and -20 degC", 1.1, 20, -20, 14.28, 0.857, 0.696},
    {"U 0.7, 20 and -20 degC", 0.7, 20, -20, 16.36, 0.909, 0.796},
    {"U 5.8, 20 and -5 degC",  5.8, 20, -5,  1.15,  0.246, 0.284},
};

static const struct winter { const char *source; double f, limit; } winter_rows[] = {
    {"[MN-DPS] 20 to 40 degF",   30,  0.40}, {"[MN-DPS] 10 to 20 degF",   13,  0.35},
    {"[MN-DPS] 0 to 10 degF",    7,   0.30}, {"[MN-DPS] -10 to 0 degF",   -3,  0.25},
    {"[MN-DPS] -20 to -10 degF", -17, 0.20}, {"[MN-DPS] below -20 degF",  -33, 0.15},
};
/* clang-format on */

static const double btu = 5.678263341113488; /* W/(m2 K) per Btu/(h ft2 F) */

static double celsius(double f)
{
    return (f - 32.0) / 1.8;
}

static void glass_wets_at_the_figure(void **state)
{
    const struct trade *row = *state;
    double factor = dew_house_factor(row->u * btu, row->film);

    assert_near(100.0 *
                    dew_house_wets_at(factor, celsius(70), celsius(row->out)),
                row->percent, 0.5);
}

static void surface_is_the_figure(void **state)
{
    const struct metric *row = *state;
    double factor = dew_house_factor(row->u, DEW_FILM_GLASS);

    assert_near(factor, row->factor, 5.1e-4);
    assert_near(dew_house_surface_t(factor, row->ti, row->te), row->ts, 0.0051);
    assert_near(dew_house_wets_at(factor, row->ti, row->te), row->limit, 5e-4);
}

/* [DIN4108-2]: dew points 9.3 and 12.0 degC at 20 degC and 50 and 60 %; 12.6
   degC and 0.70 for 80 % at the surface, -5 degC outdoors. */
TEST(din_anchors_hold)
{
    double least = 0.705; /* printed 0.70 */

    assert_near(dew_air_t_pws(0.5 * dew_air_pws(20.0)), 9.3, 0.05);
    assert_near(dew_air_t_pws(0.6 * dew_air_pws(20.0)), 12.0, 0.05);
    assert_near(dew_house_surface_t(least, 20.0, -5.0), 12.6, 0.05);
    assert_near(dew_house_surface_rh(least, 20.0, -5.0, 0.5), 0.8, 5e-4);
}

static void winter_limit_is_the_table(void **state)
{
    const struct winter *row = *state;

    assert_near(dew_house_winter_limit(celsius(row->f)), row->limit, 0.0);
}

TEST(trade_limit_stays_below_the_glass)
{
    double factor = dew_house_factor(2.84, DEW_FILM_TRADE);

    for (int i = 0; i < 56; i++) {
        double te = -35.0 + 0.7 * i;

        assert_true(dew_house_winter_limit(te) <
                    dew_house_wets_at(factor, celsius(70), te));
    }
    assert_nan(dew_house_winter_limit(4.5));
    assert_nan(dew_house_winter_limit(NAN));
}

TEST(outside_gives_nan)
{
    assert_nan(dew_house_factor(9.0, DEW_FILM_GLASS));
    assert_nan(dew_house_surface_t(1.01, 20.0, 3.0));
    assert_nan(dew_house_surface_rh(0.7, 20.0, 3.0, 1.2));
    assert_true(dew_house_wets_at(0.6, 20.0, 31.0) > 1.0);
}

TEST(films_before_they_run_off)
{
    struct dew_surface pane = dew_house_surface(DEW_GLASS, 0.64, 13.0);
    struct dew_surface corner = dew_house_surface(DEW_CORNER, 0.7, 2.0);

    assert_near(pane.film_max, 0.65, 1e-15);
    assert_near(corner.film_max, 0.4, 1e-15);
}

ROWS(trade_rows, glass_wets_at_the_figure);
ROWS(metric_rows, surface_is_the_figure);
ROWS(winter_rows, winter_limit_is_the_table);
RUN_TESTS("house, surface");
