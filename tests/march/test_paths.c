/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air paths weighed whole: shares sum to one, and no air is lost or doubled. */
#include "support/marched.h"

#include "march/blend.h"

/* Three handlers that run by chance; the ventilator on for .2 + .3 + .1. */
static const struct march__mixing mixing = {.vent = {.4, .2, .3, .1},
                                            .full = {.6, .3, .8},
                                            .low_off = {.5, .2, .7},
                                            .low_on = {.9, .4, .1},
                                            .local = {.85, .15},
                                            .handlers = 3,
                                            .bypass = .25};
/* Any of them at full: 1 - .4 .7 .2, closed form. */
static const double any = .944;

static struct dew_case alike(const struct dew_path *path)
{
    struct dew_case c = bare_case(310.0, 21.0);

    for (int v = 0; v < DEW_VENT_STATES; v++)
        set_path(&c, (enum dew_vent_state)v, path);
    c.plant.handler_count = 3;
    c.plant.exhausts[0].flow = .019;
    return c;
}

/* What meets the coils in all is what comes while one of them runs. */
TEST(coils_share_the_air_that_meets_them)
{
    const struct dew_path path = {
        .at_coil = .041, .idle_at_coil = .013, .sensible = .7, .latent = .4};
    struct dew_case c = alike(&path);
    struct march__inlet sum = {0};

    for (int k = 0; k < 3; k++) {
        struct march__inlet in = march__coil_inlet(&c, &mixing, k);

        sum.all += mixing.full[k] * in.all;
        sum.sensible += mixing.full[k] * in.sensible;
        sum.latent += mixing.full[k] * in.latent;
    }
    assert_near(sum.all, any * .054, 1e-15);
    assert_near(sum.sensible, any * (.041 * (1 - .75 * .7) + .013), 1e-15);
    assert_near(sum.latent, any * (.041 * (1 - .75 * .4) + .013), 1e-15);
}

/* Paths of one blower state alone have its share of the time. */
TEST(states_have_their_shares)
{
    static const struct {
        int blower;
        double share;
    } rows[] = {
        {0,
         .4 * .4 * .5 * .7 * .8 * .2 * .3 + .6 * .4 * .1 * .7 * .6 * .2 * .9},
        {1,
         .4 * .4 * .5 * .7 * .8 * .2 * .3 + .6 * .4 * .9 * .7 * .6 * .2 * .9},
        {2 + 3 * 1 + 9 * 2, .4 * .6 * .7 * .2 * .8 + .6 * .6 * .7 * .4 * .8},
        {26, .6 * .3 * .8},
    };
    const struct dew_path none = {0};

    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct dew_case c = alike(&none);
        struct march__blend b;
        double worst;

        for (int v = 0; v < DEW_VENT_STATES; v++)
            c.paths[v][rows[i].blower].fan_w = 1.0;
        b = march__blend_all(&c, &mixing, 1.2, .01, &worst);
        assert_near(b.fan_w, rows[i].share, 1e-15);
    }
}

/* Every flow of a path that is always the same, by its name; eq. 51 of
   [ASH-F16] with the local fan and without. */
TEST(flows_of_one_state_are_its_own)
{
    const struct dew_path path = {.supply = .050,
                                  .exhaust = .031,
                                  .fresh = .047,
                                  .drawn = .003,
                                  .sensible = .7,
                                  .latent = .4,
                                  .unplanned = .002,
                                  .spill = .005,
                                  .leak_in = .007,
                                  .leak_out = .011,
                                  .leak_lost = .001,
                                  .fan_w = 61.0,
                                  .fan_heat = 33.0,
                                  .preheat_w = 40.0};
    struct dew_case c = alike(&path);
    struct march__mixing mix = mixing;
    struct march__blend b;
    double worst, in = .059, out = .047, nature = .017;
    double plain = hypot(in - out, nature) - (in - out);
    double local = hypot(out + .019 - in, nature);

    mix.core.preheat = 3.0;
    b = march__blend_all(&c, &mix, 1.2, nature, &worst);
    assert_near(b.leak, 1.2 * (.85 * plain + .15 * local), 1e-15);
    assert_near(worst, in - out - .019, 1e-15);
    assert_near(b.fresh, 1.2 * .047, 1e-15);
    assert_near(b.drawn, 1.2 * .003, 1e-15);
    assert_near(b.fresh_sensible, 1.2 * .047 * .75 * .7, 1e-15);
    assert_near(b.fresh_latent, 1.2 * .047 * .75 * .4, 1e-15);
    assert_near(b.unplanned, 1.2 * .002, 1e-15);
    assert_near(b.ductleak, 1.2 * .006, 1e-15);
    assert_near(b.fan_w, 61.0, 1e-12);
    assert_near(b.fan_heat, 33.0, 1e-12);
    assert_near(b.preheat_use, 120.0, 1e-12);
    assert_near(b.preheat, 120.0 * (1 - .75 * .7), 1e-12);
    assert_near(b.drained, 0.0, 0.0);
}

RUN_TESTS("march, paths");
