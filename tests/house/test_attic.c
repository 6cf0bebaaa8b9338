/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where ducts outside the envelope lie: worked values and field measurements. */
#include "support/rows.h"

#include "dew/thermal.h"

static const double hour = 1 / 3600.0;

/*
 * One node, per m2 of ceiling, rooms at 24 degC, ceiling .15 W/m2K: worked by
 * hand from the equation of the header.  Sol-air is [ASH-F18]'s; deck, height
 * and slope are ours.
 */
static const struct noon {
    const char *name;
    double t_out, sun, absorptance, air, deck, ceiling, t;
} noons[] = {
    /* clang-format off */
    {"dark roof, 5 changes an hour", 33, 900, .9, 5, 0, .15, 60.7},
    {"dark roof, 10", 33, 900, .9, 10, 0, .15, 53.7},
    {"dark roof, without vents", 33, 900, .9, .5, 0, .15, 72.8},
    {"white roof, 5", 33, 900, .3, 5, 0, .15, 40.6},
    {"night, 5", 25, 0, .9, 5, 0, .15, 22.9},
    {"night, without vents", 25, 0, .9, .5, 0, .15, 21.9},
    {"R-38 on the deck, without vents", 33, 900, .9, .5, 6.69 - .3, 2.5, 27.7},
    {"mean of a day, 5", 27, 250, .9, 5, 0, .15, 33.2},
    /* clang-format on */
};

static void noon_row(void **state)
{
    const struct noon *r = *state;
    struct dew_attic attic = {r->absorptance, r->deck, r->ceiling,
                              r->air * hour};
    struct dew_around a = dew_house_attic(&attic);
    struct dew_around_hour h = {r->t_out, r->sun, 24, 15};

    assert_near(dew_house_around_t(&a, &h), r->t, .05);
}

TEST(sol_air_is_the_handbooks)
{
    /* worked: 77.3, 45.6, 21.7, 36.9 degC */
    assert_near(dew_house_sol_air(33, 900, .9), 77.3, .05);
    assert_near(dew_house_sol_air(33, 900, .3), 45.6, .06);
    assert_near(dew_house_sol_air(25, 0, .9), 21.7, .05);
    assert_near(dew_house_sol_air(27, 250, .9), 36.9, .05);
}

/* black shingles, vents of 1:300, outdoors 33.3 degC: 57.2 degC; "40 degF
   above ambient at the peak summer hour" (monitored houses in Florida, from
   memory of their summaries); nights are cooler than outdoors, by a little */
TEST(measured_attics)
{
    struct dew_attic attic = {.9, 0, .15, 6.5 * hour}; /* the preset */
    struct dew_around a = dew_house_attic(&attic);
    struct dew_around_hour peak = {33.3, 900, 24, 15}, night = {25, 0, 24, 15};
    double above = dew_house_around_t(&a, &peak) - 33.3;
    double below = 25 - dew_house_around_t(&a, &night);

    assert_true(above > 20 && above < 27);
    assert_true(below > 0 && below < 4);
}

/* limits: nothing known is the open air; earth and rooms hold a crawl space
   between them; a gale makes any space the outdoors */
TEST(limits)
{
    struct dew_around none = {0}, crawl = dew_house_crawl(2 * hour);
    struct dew_around_hour h = {33.1, 700, 24.3, 17.9};
    struct dew_around still = dew_house_crawl(0);
    struct dew_attic attic = {.6, 0, .15, 1e6 * hour};
    struct dew_around gale = dew_house_attic(&attic);

    assert_near(dew_house_around_t(&none, &h), 33.1, 0);
    assert_near(dew_house_around_t(&still, &h), (24.3 + 17.9) / 2, 1e-9);
    assert_near(dew_house_around_t(&gale, &h), 33.1, .01);
    /* by hand: (24.3 + 17.9 + .536 x 33.1) / 2.536; regression of our guess */
    assert_near(dew_house_around_t(&crawl, &h), 23.64, .01);
}

ROWS(noons, noon_row);
RUN_TESTS("attic");
