/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat through duct walls, leaks, and what the march watches. */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/ducts.h"
#include "support/duct_house.h"

static const double rho = 1.187;

static struct dew_duct_line line_of(double r)
{
    return (struct dew_duct_line){
        .duct = {.diameter = .2, .length = 9.3, .roughness = 9e-5},
        .outside = .61,
        .r = r};
}

/* very much insulation: U tends to 1 / R; none: below the outer film */
TEST(u_is_bounded_by_its_parts)
{
    struct dew_duct_line thick = line_of(31.0), bare = line_of(0.0);

    assert_near(dew_ducts_u(&thick, rho, .113) * 31.0, 1.0, .01);
    assert_true(dew_ducts_u(&bare, rho, .113) < 1 / .13);
    /* by hand: 3.60 m/s, Re 46.9e3 with the viscosity of [ASH-F21] eq. 21,
       Nu 109.9 of Dittus and Boelter, film 14.12 W/m2K */
    assert_near(1 / dew_ducts_u(&bare, rho, .113) - .13, 1 / 14.12, 5e-4);
}

/* temperature falls by the same factor over equal lengths; the whole heat is
   U A times the logarithmic mean difference */
TEST(air_along_a_duct_is_the_closed_form)
{
    struct dew_duct_line l = line_of(1.41);
    struct dew_duct_passage half = {4.7, 12.9, 43.1}, whole = {9.4, 12.9, 43.1};
    double q = .0871, t1 = dew_ducts_along(&l, rho, q, &half), t2, gained, mean;

    half.t = t1;
    t2 = dew_ducts_along(&l, rho, q, &half);
    assert_near(t2, dew_ducts_along(&l, rho, q, &whole), 1e-12);
    gained = rho * q * 1006.0 * (t2 - 12.9);
    mean = (t2 - 12.9) / log((43.1 - 12.9) / (43.1 - t2));
    assert_near(gained,
                dew_ducts_u(&l, rho, q) * 3.14159265358979 * .2 * 9.4 * mean,
                1e-9);
}

/* ---- one hour -------------------------------------------------------------------- */

static struct dew_duct_layout house(enum dew_layout kind, double share,
                                    double r)
{
    struct dew_duct_layout l;

    dew_ducts_layout_blank(&l);
    l.kind = kind;
    l.handler_count = 1;
    l.handlers[0].flow = .571;
    l.handlers[0].supply_trunk.outside = share;
    l.handlers[0].supply_trunk.r = r;
    l.vents[0].set[DEW_VENT_ON] = .0473;
    l.vents[0].intake.r = r;
    assert_int_equal(dew_ducts_layout_fill(&l, NULL), DEW_OK);
    return l;
}

/* the watch keeps of each duct what its skin keeps of the air: what of the
   resistance lies in the film outside, 0.13 m2K/W [ISO6946] */
TEST(a_watch_follows_the_skin)
{
    struct dew_duct_layout l = house(DEW_LAYOUT_supply_tie, .41, .7);
    struct dew_duct_watch w;
    double u = dew_ducts_u(&l.vents[0].intake, l.density, .0473);

    dew_ducts_watch_of(&l, &w);
    assert_near(w.intake_follows, .13 * u, 1e-12);
    assert_int_equal(w.trunk, 1);
    assert_true(w.outside_follows > 0);
    l.vents[0].intake.outside = 1;
    l.handlers[0].supply_trunk.outside = 0;
    dew_ducts_watch_of(&l, &w);
    assert_near(w.intake_follows, 0, 0);
    assert_near(w.outside_follows, 0, 0);
    assert_string_equal(dew_ducts_spot_text(DEW_SPOT_intake),
                        "skin of the intake duct in the house");
    assert_string_equal(dew_ducts_spot_text(DEW_DUCT_SPOTS), "no such place");
}

/* Two handlers that are alike are watched as one; at low flow air is longer in
   the trunk. */
TEST(two_alike_are_watched_as_one)
{
    struct dew_duct_layout one = house(DEW_LAYOUT_own_ducts, .41, .7), two;
    struct dew_duct_watch a, b;

    one.handlers[0].return_trunk.outside = .27;
    one.handlers[0].low = .6;
    two = one;
    two.handler_count = 2;
    two.handlers[1] = two.handlers[0];
    dew_ducts_watch_of(&one, &a);
    dew_ducts_watch_of(&two, &b);
    assert_near(b.supply_full, a.supply_full, 1e-15);
    assert_near(b.supply_low, a.supply_low, 1e-15);
    assert_near(b.return_full, a.return_full, 1e-15);
    assert_near(b.return_low, a.return_low, 1e-15);
    assert_near(b.outside_follows, a.outside_follows, 1e-15);
    assert_true(a.supply_full > 0.001 && a.supply_low > a.supply_full);
    assert_true(a.return_full > 0.001 && a.return_low > a.return_full);
    two.handlers[1].flow *= 2; /* by their flows */
    two.handlers[1].return_trunk.outside = 0;
    dew_ducts_watch_of(&two, &b);
    assert_near(b.return_full, a.return_full / 3, 1e-15);
    assert_near(b.return_low, a.return_low / 3, 1e-15);
}

/* ---- leaks and walls together --------------------------------------------- */

/*
 * A handler of .472 m3/s (m c 569.8 W/K), R-6 trunks of 30 and 9 m2: the
 * closed form of [ASH-152] for heat, and the balance of the same ducts for
 * cooling by 8800 W, of it 26 % latent, room 24 degC and 10.5 g/kg, space
 * around 33 or 45 degC and 18 g/kg.  Worked by hand; W.
 */
static const double mc = .472 * 1.2 * 1006, b_s = .9514, b_r = .9852;

static const struct cooled {
    const char *name;
    double a_s, a_r, around, sensible, latent, share;
} cooled[] = {
    /* clang-format off */
    {"walls alone, 33 degC", 1, 1, 33, 5874, 2288, .9275},
    {"supply leak, 33 degC", .9, 1, 33, 5286, 2059, .8347},
    {"return leak, 33 degC", 1, .9, 33, 5393, 1246, .7544},
    {"both, 33 degC", .9, .9, 33, 4854, 1121, .6790},
    {"supply leak, 45 degC", .9, 1, 45, 4900, 2059, .7909},
    {"return leak, 45 degC", 1, .9, 45, 4323, 1246, .6328},
    {"both, 45 degC", .9, .9, 45, 3891, 1121, .5696},
    /* clang-format on */
};

static void cooled_row(void **state)
{
    const struct cooled *r = *state;
    struct dew_duct_leaking leak = {1 - r->a_r, 1 - r->a_s};
    struct dew_duct_delivery d = dew_ducts_delivery(&leak, 1 - b_s, 1 - b_r);
    double drawn = d.kept * leak.drawn, gap = r->around - 24, m = .472 * 1.2;
    double sensible = 8800 * .74 * (1 - leak.lost - d.wall_effect) -
                      mc * gap * (drawn + d.wall);
    double latent = 8800 * .26 * d.kept - 2.454e6 * m * drawn * 7.5e-3;

    assert_near(sensible, r->sensible, 1);
    assert_near(latent, r->latent, 1);
    assert_near((sensible + latent) / 8800, r->share, 1e-4);
}

/* heat: DE .6557, 5245 of 8000 W, from 20 degC to 0 degC */
TEST(delivery_is_the_closed_form)
{
    struct dew_duct_leaking leak = {.1, .1};
    struct dew_duct_delivery d = dew_ducts_delivery(&leak, 1 - b_s, 1 - b_r);
    double rise = 8000 / mc;

    assert_near(rise, 14.04, .005);
    assert_near(1 - leak.lost - d.wall_effect -
                    (d.kept * leak.drawn + d.wall) * 20 / rise,
                .6557, 1e-4);
}

/* leaks of a layout: shares of its air, and nothing where there are none */
TEST(a_watch_has_the_leaks)
{
    struct dew_duct_state states[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    struct dew_duct_layout l = house(DEW_LAYOUT_own_ducts, 0, 1.4);
    struct dew_duct_watch w = {0};
    const struct dew_duct_state *s = &states[DEW_VENT_OFF][2];
    int blowers;

    l.handlers[0].leak_return = .13;
    l.handlers[0].leak_supply = .08;
    assert_int_equal(dew_ducts_states(&l, states, &blowers, NULL), DEW_OK);
    dew_ducts_watch_leaks(states, blowers, 1, &w);
    assert_near(w.leaks[DEW_VENT_OFF][0][1].drawn, s->leak_in / s->coil_flow[0],
                1e-9);
    assert_near(w.leaks[DEW_VENT_OFF][0][1].lost, s->leak_out / s->coil_flow[0],
                1e-9);
    assert_near(w.leaks[DEW_VENT_DEFROST][0][0].lost,
                states[DEW_VENT_OFF][1].leak_out /
                    states[DEW_VENT_OFF][1].coil_flow[0],
                1e-9);
    assert_near(s->leak_lost, s->leak_in * s->leak_out / s->coil_flow[0], 1e-9);
}

/* a ventilator that defrosts stands: a supply tie shifts the leaks of one that
   runs */
TEST(defrosting_leaks_as_off)
{
    struct dew_duct_state states[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    struct dew_duct_layout l = house(DEW_LAYOUT_supply_tie, 0, 1.4);
    struct dew_duct_watch w = {0};
    int blowers;

    l.handlers[0].leak_supply = .08;
    assert_int_equal(dew_ducts_states(&l, states, &blowers, NULL), DEW_OK);
    dew_ducts_watch_leaks(states, blowers, 1, &w);
    assert_near(w.leaks[DEW_VENT_DEFROST][0][1].lost,
                w.leaks[DEW_VENT_OFF][0][1].lost, 0);
    assert_true(fabs(w.leaks[DEW_VENT_ON][0][1].lost -
                     w.leaks[DEW_VENT_OFF][0][1].lost) > 1e-4);
}

/* of two handlers each loses and draws in by its own leaks */
TEST(two_handlers_have_leaks_of_their_own)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_own_ducts, 2, 0);
    struct dew_duct_state s;
    struct dew_ducts *d;

    l.handlers[0].leak_supply = .11;
    l.handlers[1].leak_supply = .05;
    l.handlers[1].leak_return = .09;
    d = open_layout(&l);
    s = at(d, DEW_VENT_OFF, 8);
    assert_near(s.coil_lost[0], .11, .001);
    assert_near(s.coil_lost[1], .05, .001);
    assert_near(s.coil_lost[0] * s.coil_flow[0] +
                    s.coil_lost[1] * s.coil_flow[1],
                s.leak_out, 1e-9);
    assert_near(s.coil_drawn[0], 0, 1e-12);
    assert_near(s.coil_drawn[1] * s.coil_flow[1], s.leak_in, 1e-9);
    dew_ducts_close(d);
}

/* a handler without a ventilator leaks as beside one that is shut off */
TEST(a_handler_alone_leaks_all_the_same)
{
    struct dew_duct_layout l, alone;
    struct dew_duct_state a, b;
    struct dew_ducts *d;

    l = house(DEW_LAYOUT_own_ducts, 0, 1.4);
    l.handlers[0].leak_return = .13;
    l.handlers[0].leak_supply = .08;
    alone = l;
    alone.vent_count = 0;
    for (int g = 0; g < alone.grille_count; g++)
        alone.grilles[g].vent = -1;
    assert_int_equal(dew_ducts_layout_fill(&alone, NULL), DEW_OK);
    assert_int_equal(dew_ducts_open(&d, &l, NULL), DEW_OK);
    assert_int_equal(dew_ducts_state(d, DEW_VENT_OFF, 2, &a, NULL), DEW_OK);
    dew_ducts_close(d);
    assert_int_equal(dew_ducts_open(&d, &alone, NULL), DEW_OK);
    assert_int_equal(dew_ducts_state(d, DEW_VENT_OFF, 2, &b, NULL), DEW_OK);
    dew_ducts_close(d);
    assert_near(b.leak_in, a.leak_in, 1e-9);
    assert_near(b.leak_out, a.leak_out, 1e-9);
    assert_near(b.coil_lost[0], a.coil_lost[0], 1e-9);
    assert_true(b.leak_in > .05);
}

ROWS(cooled, cooled_row);
RUN_TESTS("air in ducts");
