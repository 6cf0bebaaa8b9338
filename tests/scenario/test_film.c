/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The film on cold glass, from the scenario through the march. */
#include "support/rows.h"

#include "scenario/case_open.h"

/* Lewis relation at a convective film of 2.9 W/m2K, kg/(s m2 Pa): [WWC13]. */
static const double lewis = 2e-8;

/* A damp, heated house in frost, held at 20 degC; old double glazing. */
static const char damp[] =
    BASE "windows: {u: 2.8 W/m2K}\n"
         "surfaces: {edge_share: 10 %, edge_factor: 0.55}\n"
         "temperature: {heat: 20 degC, cool: 28 degC}\n"
         "moisture: {other: 14 kg/day}\n"
         "heating: {kind: electric, by_air: no}\n";

static struct dew_date date_of(int hour)
{
    return (struct dew_date){.month = 1,
                             .day = 1,
                             .hour = 1 + hour % 24,
                             .weekday = hour / 24 % 7,
                             .yearday = 1};
}

static struct dew_hour outdoors(double t)
{
    return (struct dew_hour){
        .t = t, .w = dew_air_w(t, 0.8, place.pressure), .p = place.pressure};
}

static void hour(struct dew_march *m, const struct dew_hour *out, int h,
                 struct dew_result *r)
{
    struct dew_date date = date_of(h);
    struct dew_error err = {0};

    if (dew_march_step(m, out, &date, r, &err) != DEW_OK)
        fail_msg("hour %d: %s", h, err.text);
}

/* The same every hour: no schedule stirs the film. */
static struct dew_case steady(void)
{
    struct dew_case c = case_of(damp);

    for (int s = 0; s < DEW_SOURCES; s++)
        c.house.water[s].per_day = c.house.water[s].rate = 0;
    c.house.water[DEW_SOURCE_other].per_day = 14.0;
    for (int h = 0; h < 24; h++)
        c.house.water[DEW_SOURCE_other].shape.weekday[h] =
            c.house.water[DEW_SOURCE_other].shape.weekend[h] = 1.0 / 24;
    c.house.people.count = c.house.people.gains_w = 0;
    return c;
}

/* Droplets on upright glass begin to run at 30 to 50 g/m2 [BS5250], from
   memory: the film ends there, and the rest is wiped. */
TEST(upright_glass_holds_a_twentieth_of_a_kilogram)
{
    struct dew_case c = steady();
    struct dew_hour out = outdoors(-9.0);
    const struct dew_surface *glass = &c.house.surfaces[DEW_GLASS];
    struct dew_result r = {0};
    struct dew_march *m;
    double wiped = 0.0;

    assert_near(glass->area, 0.9 * 0.15 * 2400 * ft2, 1e-9);
    assert_int_equal(dew_march_open(&m, &c, &out, NULL), DEW_OK);
    for (int h = 0; h < 24 * 12; h++) {
        hour(m, &out, h, &r);
        assert_true(r.end.film_glass <= 0.05 * glass->area * (1 + 1e-12));
        wiped += r.wiped;
    }
    dew_march_close(m);
    assert_near(r.end.film_glass / glass->area, 0.05, 1e-12);
    assert_true(wiped > 1.0);
}

/* Two faces, so that wiping is in it: what falls on each is beta A (pv - ps),
   at the mean of an hour in which nothing changes any more.  The march takes
   a straight line in w for the drive, 1.2 % above it here. */
TEST(water_falls_on_glass_by_the_lewis_relation)
{
    struct dew_case c = steady();
    struct dew_hour out = outdoors(-9.0);
    struct dew_result r = {0};
    struct dew_march *m;
    double pv, onto = 0.0;

    assert_int_equal(dew_march_open(&m, &c, &out, NULL), DEW_OK);
    for (int h = 0; h < 24 * 150; h++)
        hour(m, &out, h, &r);
    dew_march_close(m);
    pv = r.rh * dew_air_pws(r.t);
    for (int s = DEW_GLASS; s <= DEW_EDGE; s++) {
        const struct dew_surface *face = &c.house.surfaces[s];
        double t = out.t + face->factor * (r.t - out.t);

        assert_near(r.surface_t[s], t, 1e-6);
        onto += lewis * face->area * (pv - dew_air_pws(t)) * 3600.0;
    }
    assert_true(onto > 0.05);
    assert_near(-r.water.glass, onto, 0.015 * onto);
}

RUN_TESTS("scenario, film");
