/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air cannot hold more than it can: what is beyond saturation falls out. */
#include "march/open.h"
#include "support/marched.h"

#include "support/lively.h"

enum { DAYS = 60 };

static const struct dew_hour still = {.t = 15.0, .w = 0.0101, .p = 101325.0};

/* Sealed, unheated, without stores; a source of kg/day. */
static struct dew_case sealed(double per_day)
{
    struct dew_case c = bare_case(380.0, 15.0);

    c.house.comfort.given = 0;
    all_day(c.house.comfort.heat, 15.0);
    all_day(c.house.comfort.cool, 60.0);
    c.house.thermal.h_em = 140.0;
    c.house.water[DEW_SOURCE_other].per_day = per_day;
    return c;
}

/* Never above 100 %; once there, all that the source gives falls out. */
TEST(a_sealed_box_ends_at_saturation)
{
    struct dew_case c = sealed(6.3);
    struct dew_tally tally = {0};
    struct dew_result r = {0};
    struct dew_march *m;
    int wet = 0;

    m = opened(&c, &still);
    for (int h = 0; h < 24 * DAYS; h++) {
        struct dew_date date = date_of(h);

        r = step(m, &still, h);
        assert_true(dew_air_rh_liquid(r.end.t_air, r.end.w, still.p) <=
                    1.0 + 1e-9);
        assert_true(r.water.fog <= 0.0);
        wet += r.water.fog < 0.0;
        dew_tally_add(&tally, &c.limits, 0.0, &date, &r);
    }
    dew_march_close(m);
    assert_near(r.rh, 1.0, 1e-9);
    assert_near(-r.water.fog, 6.3 / 24.0, 1e-9);
    assert_true(wet > 24 * (DAYS - 2) && wet < 24 * DAYS);
    assert_near(tally.saturated, wet, 0.0);
}

/* Pressure that leaps by 25 hPa, as where the months of a typical year join,
   does not tell of more than 100 %. */
TEST(a_leap_of_pressure_tells_no_more)
{
    struct dew_case c = sealed(6.3);
    struct dew_march *m;
    double most = 0.0;

    m = opened(&c, &still);
    for (int h = 0; h < 24 * DAYS; h++) {
        struct dew_hour out = still;

        out.p -= h / 5 % 2 > 0 ? 2500.0 : 0.0;
        most = fmax(most, step(m, &out, h).rh);
    }
    dew_march_close(m);
    assert_near(most, 1.0, 1e-9);
}

/* Its latent heat warms the air: at rest all of it leaves through the wall. */
TEST(what_falls_out_gives_its_heat)
{
    struct dew_case c = sealed(6.3);
    struct dew_result r = run(&c, &still, 24 * DAYS, NULL);
    double watts = 6.3 / 86400.0 * DEW_LATENT;

    assert_near(r.heat.evaporation / 3600.0, watts, 1e-6 * watts);
    assert_near(r.end.t_mass, 15.0 + watts / 140.0, 1e-5);
}

/* 20 degC and 15.5 g/kg, its last 0.8 g/kg given in six hours, in a box without
   walls: by energy, 0.5219 g/kg falls out and warms air and furnishings of
   4,252 J/K per kg of air by 0.30 K (h_fg 2.454 MJ/kg; exact, not the
   tangent's 0.5235). */
TEST(a_moist_box_settles_by_its_energy)
{
    struct dew_case c = sealed(0.0);
    struct dew_water *other = &c.house.water[DEW_SOURCE_other];
    struct dew_march *m;
    double air = c.house.volume * dew_air_density_run(c.pressure), out = 0.0;

    other->per_day = 0.0008 * air;
    for (int h = 0; h < 24; h++)
        other->shape.weekday[h] = h < 6 ? 1.0 / 6.0 : 0.0;
    c.house.thermal.h_em = 0.0;
    c.house.thermal.h_is = 1e-9;
    c.house.thermal.c_air = 4252.0 * air;
    m = opened(&c, &still);
    m->body.at.x.t_air = 20.0;
    m->body.at.x.w = 0.0155 - 0.0008;
    for (int h = 0; h < 24; h++)
        out -= step(m, &still, h).water.fog;
    assert_near(1e3 * out / air, 0.5219, 0.0003);
    assert_near(m->body.at.x.t_air, 20.30, 0.002);
    dew_march_close(m);
}

/* A house too leaky to get there has no such row. */
TEST(dry_air_keeps_its_water)
{
    struct dew_case c = lively_case();
    struct lively run;
    double fog = 0.0;

    lively_open(&run, &c);
    while (lively_step(&run))
        fog += run.r.water.fog;
    lively_close(&run);
    assert_near(fog, 0.0, 0.0);
}

RUN_TESTS("march, saturation");
