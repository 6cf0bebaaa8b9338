/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Water held on a coil: steady cycles, single events, mass. */
#include "support/rows.h"

#include "dew/coil.h"
#include "plant/store_step.h"

static struct dew_coil_store store_of(double t_wet, double gamma)
{
    const double latent = 1.037e-3; /* kg/s, three tons at SHR 0.75 */

    return (struct dew_coil_store){.latent = latent,
                                   .most = latent * t_wet,
                                   .gamma = gamma,
                                   .cycles_max = 3.0};
}

/* Net water per water of a coil without a store, after it has settled. */
static double ratio(const struct dew_coil_store *s, double run, double blower,
                    double seconds)
{
    struct dew_coil_store_in in = {.m = 0.31 * s->most,
                                   .seconds = seconds,
                                   .run = run,
                                   .blower = blower,
                                   .water = s->latent,
                                   .depression = 1.0,
                                   .soak = 1.0};
    struct dew_coil_store_out o = {0};
    double net = 0.0, gross = 0.0;

    for (double t = 0.0; t < 200 * 3600.0; t += seconds) {
        dew_plant_coil_store_step(s, &in, &o);
        in.m = o.m;
        if (t < 100 * 3600.0)
            continue;
        net += o.condensed - o.reevaporated;
        gross += o.condensed;
    }
    return net / gross;
}

/* [HR96], from memory, evaluated by hand: N_max 3, tau 45 s. */
static const struct part_row {
    const char *name;
    double t_wet, gamma, run, ratio;
} part_rows[] = {
    {"1000 s, 1.5, X 0.5", 1000, 1.5, .50, 0},
    {"1000 s, 1.5, X 0.6", 1000, 1.5, .60, .1356},
    {"1000 s, 1.5, X 0.7", 1000, 1.5, .70, .4350},
    {"1000 s, 1.5, X 0.8", 1000, 1.5, .80, .6678},
    {"1000 s, 1.5, X 0.9", 1000, 1.5, .90, .8519},
    {"1000 s, 1.5, X 0.95", 1000, 1.5, .95, .9299},
    {"720 s, 1.0, X 0.5", 720, 1.0, .50, .1441},
    {"720 s, 1.0, X 0.6", 720, 1.0, .60, .4139},
    {"720 s, 1.0, X 0.7", 720, 1.0, .70, .6180},
    {"720 s, 1.0, X 0.8", 720, 1.0, .80, .7758},
    {"720 s, 1.0, X 0.9", 720, 1.0, .90, .9003},
    {"720 s, 1.0, X 0.95", 720, 1.0, .95, .9528},
    {"1500 s, 1.5, X 0.5", 1500, 1.5, .50, 0},
    {"1500 s, 1.5, X 0.6", 1500, 1.5, .60, .0691},
    {"1500 s, 1.5, X 0.7", 1500, 1.5, .70, .3990},
    {"1500 s, 1.5, X 0.8", 1500, 1.5, .80, .6496},
    {"1500 s, 1.5, X 0.9", 1500, 1.5, .90, .8449},
    {"1500 s, 1.5, X 0.95", 1500, 1.5, .95, .9267},
};

static void steady_ratio(void **state)
{
    static const double seconds[] = {300.0, 1800.0, 3600.0};
    const struct part_row *r = *state;
    struct dew_coil_store s = store_of(r->t_wet, r->gamma);

    for (size_t i = 0; i < COUNT_OF(seconds); i++)
        assert_near(ratio(&s, r->run, 1.0, seconds[i]), r->ratio, 0.002);
}

TEST(nothing_is_removed_below_the_break_even_run_time)
{
    struct dew_coil_store a = store_of(1000, 1.5), b = store_of(720, 1.0);

    /* [HR96] by hand: 0.56 and 0.46 */
    assert_near(ratio(&a, 0.55, 1.0, 1800), 0.0, 0.002);
    assert_true(ratio(&a, 0.575, 1.0, 1800) > 0.004);
    assert_near(ratio(&b, 0.45, 1.0, 1800), 0.0, 0.002);
    assert_true(ratio(&b, 0.475, 1.0, 1800) > 0.004);
}

/* ---- blower AUTO ----------------------------------------------------------- */

/* Share of each cycle's water that an off-delay puts back, by hand, d 0.85,
   gamma 1.25, t_wet 1000 s, N_max 3, tau 45 s:
       1000 (1 - (1 - 1.25 0.85 s / 2000)^2) / (t_on - 45 (1 - exp(-t_on / 45)))
   with t_on = 300 / (1 - X). */
static const struct delay_row {
    const char *name;
    double run, seconds, back;
} delay_rows[] = {
    {"delay: X 0.05, 30 s", .05, 30, .117},
    {"delay: X 0.05, 45 s", .05, 45, .174},
    {"delay: X 0.05, 60 s", .05, 60, .232},
    {"delay: X 0.05, 90 s", .05, 90, .345},
    {"delay: X 0.10, 30 s", .10, 30, .110},
    {"delay: X 0.10, 45 s", .10, 45, .164},
    {"delay: X 0.10, 60 s", .10, 60, .218},
    {"delay: X 0.10, 90 s", .10, 90, .324},
    {"delay: X 0.20, 30 s", .20, 30, .096},
    {"delay: X 0.20, 45 s", .20, 45, .143},
    {"delay: X 0.20, 60 s", .20, 60, .190},
    {"delay: X 0.20, 90 s", .20, 90, .283},
    {"delay: X 0.30, 30 s", .30, 30, .082},
    {"delay: X 0.30, 45 s", .30, 45, .123},
    {"delay: X 0.30, 60 s", .30, 60, .164},
    {"delay: X 0.30, 90 s", .30, 90, .243},
    {"delay: X 0.50, 30 s", .50, 30, .057},
    {"delay: X 0.50, 45 s", .50, 45, .085},
    {"delay: X 0.50, 60 s", .50, 60, .113},
    {"delay: X 0.50, 90 s", .50, 90, .168},
};

/* What comes back, of what is condensed, blower AUTO. */
static double back(double run, double off_delay, double still)
{
    struct dew_coil_store s = store_of(1000, 1.25);
    struct dew_handler h = {.cycles_max = 3.0, .off_delay = off_delay};
    struct dew_coil_store_in in = {.m = s.most,
                                   .seconds = 1800.0,
                                   .run = run,
                                   .blower = run + dew_plant_off_delay(&h, run),
                                   .water = s.latent,
                                   .depression = 0.85,
                                   .soak = 1.5 * s.latent};
    struct dew_coil_store_out o = {0};
    double given = 0.0, gross = 0.0;

    s.still = still;
    for (int i = 0; i < 200; i++) {
        dew_plant_coil_store_step(&s, &in, &o);
        in.m = o.m;
        given += i >= 100 ? o.reevaporated : 0.0;
        gross += i >= 100 ? o.condensed : 0.0;
    }
    return given / gross;
}

static void delay_puts_back(void **state)
{
    const struct delay_row *r = *state;

    assert_near(back(r->run, r->seconds, 0.0), r->back, 0.0006);
}

/* What drifts is no part of what a blower moves. */
TEST(a_blower_that_never_stops_leaves_nothing_to_drift)
{
    struct dew_coil_store s = store_of(1000, 1.25);
    double plain = ratio(&s, 0.7, 1.0, 1800);

    s.still = 0.1;
    assert_near(ratio(&s, 0.7, 1.0, 1800), plain, 1e-12);
    assert_true(ratio(&s, 0.7, 0.7, 1800) < 1.0 - 0.001);
}

TEST(without_delay_and_drift_nothing_comes_back)
{
    for (double run = 0.03; run < 1.0; run += 0.097)
        assert_near(back(run, 0.0, 0.0), 0.0, 0.0);
}

TEST(a_busier_machine_puts_back_less)
{
    double before = 1.0;

    for (double run = 0.03; run < 1.0; run += 0.097) {
        double now = back(run, 60.0, 0.004);

        assert_true(now < before);
        before = now;
    }
}

/* A delay never reaches into the next cycle, whatever the board says. */
TEST(a_delay_ends_with_the_rest)
{
    struct dew_handler h = {.cycles_max = 6.0, .off_delay = 300.0};

    for (double run = 0.0; run <= 1.0; run += 0.0625) {
        double delay = dew_plant_off_delay(&h, run);

        assert_true(delay >= 0.0 && delay <= 1.0 - run);
    }
    assert_near(dew_plant_off_delay(&h, 0.25), 0.25 * 0.75 * 2.0, 1e-12);
    assert_near(dew_plant_off_delay(&h, 0.75), 0.25, 1e-12);
}

/* 2.5 tons at SHR 0.74 in a house of 24 degC and 55 %, by hand: L 0.9315 g/s,
   0.569 kg/s of air, w* - w 2.564 g/kg, 6.15 K of 7.22. */
static double night(double still, double humid)
{
    struct dew_coil_store s = {.latent = 0.9315e-3,
                               .most = 0.9315,
                               .gamma = 1.5,
                               .cycles_max = 3.0,
                               .still = still};
    struct dew_coil_store_in in = {.m = s.most,
                                   .seconds = 900.0,
                                   .depression = (1 - humid) * 6.15 / 7.22,
                                   .soak = (1 - humid) * 0.569 * 2.564e-3};
    struct dew_coil_store_out o;
    double given = 0.0;

    for (int i = 0; i < 32; i++) {
        dew_plant_coil_store_step(&s, &in, &o);
        in.m = o.m;
        given += o.reevaporated;
    }
    return given;
}

/* 1.4 L/s drifts through: 15.5 g/h is all it can take up; by hand. */
TEST(an_idle_night_gives_back_what_drifting_air_can_carry)
{
    double most = 8 * 3600 * 0.004 * 0.68 * 0.569 * 2.564e-3;

    assert_near(most, 0.115, 0.001);
    assert_true(night(0.004, 0.0) <= 0.13);
    assert_true(night(0.004, 0.0) > 0.09 && night(0.004, 0.0) <= most);
    assert_near(night(0.0, 0.0), 0.0, 0.0);
    assert_near(night(0.004, 1.0), 0.0, 0.0); /* saturated all around */
}

TEST(a_wet_coil_dries_by_the_square_root_law)
{
    struct dew_coil_store s = store_of(1000, 1.5);
    struct dew_coil_store_in in = {.m = 0.83 * s.most,
                                   .seconds = 430.0,
                                   .run = 0,
                                   .blower = 1,
                                   .water = s.latent,
                                   .depression = 0.87};
    struct dew_coil_store_out o;
    double root = sqrt(0.83) - 1.5 * 0.87 * 430.0 / 2000.0;

    /* closed form: sqrt(m) is straight in time */
    dew_plant_coil_store_step(&s, &in, &o);
    assert_near(o.m / s.most, root * root, 1e-12);
    assert_near(o.condensed, 0.0, 0.0);
    in.seconds = 3600.0; /* long enough: all of it, at most t_wet x L */
    dew_plant_coil_store_step(&s, &in, &o);
    assert_near(o.reevaporated, 0.83 * s.most, 1e-12);
    assert_near(o.m, 0.0, 0.0);
}

TEST(a_dry_coil_fills_before_it_drains)
{
    struct dew_coil_store s = store_of(1000, 1.5);
    struct dew_coil_store_in in = {.m = 0,
                                   .seconds = 700.0,
                                   .run = 1,
                                   .blower = 1,
                                   .water = 1.1 * s.latent,
                                   .depression = 1};
    struct dew_coil_store_out o;

    dew_plant_coil_store_step(&s, &in, &o);
    assert_near(o.drained, 0.0, 0.0);
    assert_near(o.m, 700 * 1.1 * s.latent, 1e-12);
    in.seconds = 1400.0;
    dew_plant_coil_store_step(&s, &in, &o);
    assert_near(o.m, s.most, 1e-12);
    assert_near(o.drained, 1400 * 1.1 * s.latent - s.most, 1e-12);
}

/* Twelve cycles an hour: t_on 107 s is not long beside tau; closed form. */
TEST(a_short_start_loses_less)
{
    struct dew_coil_store s = store_of(1000, 1.5);
    struct dew_coil_store_in in = {.seconds = 600.0,
                                   .run = 0.3,
                                   .blower = 0.3,
                                   .water = s.latent,
                                   .depression = 1.0};
    struct dew_coil_store_out o;
    double on = 900.0 / (12.0 * 0.7), cycles = 48.0 * 0.3 * 0.7 / 6.0;

    s.cycles_max = 12.0;
    dew_plant_coil_store_step(&s, &in, &o);
    assert_near(o.condensed / s.latent,
                180.0 + cycles * 45.0 * expm1(-on / 45.0), 1e-9);
}

TEST(mass_closes)
{
    struct dew_coil_store s = store_of(870, 1.31);
    double worst = 0.0;

    s.still = 0.06;
    for (double run = 0.0; run <= 1.0; run += 0.0625)
        for (double more = 0.0; more <= 1.0; more += 0.25)
            for (double m = 0.0; m < 1.2; m += 0.237) {
                struct dew_coil_store_in in = {.m = m * s.most,
                                               .seconds = 1800.0,
                                               .run = run,
                                               .blower = run + more * (1 - run),
                                               .water = 0.83 * s.latent,
                                               .depression = 1.13,
                                               .soak = s.latent};
                struct dew_coil_store_out o;

                dew_plant_coil_store_step(&s, &in, &o);
                assert_true(o.m >= 0.0 && o.m <= s.most * (1 + 1e-15));
                assert_true(o.reevaporated >= 0.0 && o.drained >= 0.0);
                worst = fmax(worst, fabs(in.m + o.condensed - o.reevaporated -
                                         o.drained - o.m));
            }
    assert_near(worst / s.most, 0.0, 1e-14);
}

/* What a coil of 7.9 kW sensible gives back in a minute, kg, its blower always
   on, as it ran and had run of late. */
static double minute(double m, double run, double lately)
{
    struct dew_coil_store s = store_of(1000, 1.5);
    struct dew_coil_store_in in = {.m = m * s.most,
                                   .seconds = 60.0,
                                   .run = run,
                                   .blower = 1.0,
                                   .water = s.latent,
                                   .depression = 0.9,
                                   .soak = 1.5 * s.latent,
                                   .lately = lately - run};
    struct dew_coil_store_out o;

    dew_plant_coil_store_step(&s, &in, &o);
    return o.reevaporated;
}

/* Running a little less must not be answered by evaporation that cools more
   than that: the house would stop cooling at once.  2.45 MJ/kg. */
TEST(evaporation_never_takes_over_by_itself)
{
    const double sensible = 7900.0 * 60.0, step = 0.01;

    for (double m = 0.01; m < 0.5; m += 0.03)
        for (double run = 0.0; run < 0.5; run += step) {
            double more = run + step, late = run + 0.5 * step;

            assert_true((minute(m, run, run) - minute(m, more, more)) * 2.45e6 <
                        sensible * step);
            assert_true((minute(m, run, late) - minute(m, more, late)) *
                            2.45e6 <
                        0.35 * sensible * step);
        }
}

/* The cycles' memory alone: a step as long as this is one step of many. */
TEST(a_steps_length_does_not_show_in_a_coil_that_dries)
{
    struct dew_coil_store s = store_of(1000, 1.5);

    for (double m = 0.01; m < 1.0; m *= 1.7)
        for (double run = 0.0; run < 0.2; run += 0.03) {
            struct dew_coil_store_in in = {.m = m * s.most,
                                           .seconds = 900.0,
                                           .run = run,
                                           .blower = run + 0.4 * (1.0 - run),
                                           .water = s.latent,
                                           .depression = 0.9,
                                           .soak = s.latent};
            struct dew_coil_store_out one, many = {.m = in.m};

            dew_plant_coil_store_step(&s, &in, &one);
            in.seconds = 60.0;
            for (int i = 0; i < 15; i++) {
                in.m = many.m;
                dew_plant_coil_store_step(&s, &in, &many);
            }
            assert_near(one.m / s.most, many.m / s.most, 0.006);
        }
}

TEST(more_blower_never_dries_the_house)
{
    struct dew_coil_store s = store_of(1000, 1.5);
    double before = 1.0 + 1e-9;

    for (double blower = 0.63; blower <= 1.0; blower += 0.037) {
        double r = ratio(&s, 0.63, blower, 1800);

        assert_true(r <= before);
        before = r;
    }
}

TEST(outside_gives_nan)
{
    struct dew_coil_store s = store_of(1000, 1.5);
    struct dew_coil_store_in in = {.m = 0,
                                   .seconds = 1800.0,
                                   .run = 0.7,
                                   .blower = 0.6,
                                   .water = 1e-3,
                                   .depression = 1};
    struct dew_coil_store_out o;

    /* a blower that stands while the compressor runs */
    dew_plant_coil_store_step(&s, &in, &o);
    assert_nan(o.m);
}

/* Of most, what evaporates in half an hour taken in so many steps. */
static double back_in(const struct dew_coil_store *s, double run, double stood,
                      int steps)
{
    struct dew_coil_store_in in = {.m = stood * s->most,
                                   .seconds = 1800.0 / steps,
                                   .run = run,
                                   .blower = 1.0,
                                   .water = 4e-4,
                                   .depression = 1.0};
    struct dew_coil_store_out o;
    double sum = 0.0;

    for (int i = 0; i < steps; i++) {
        dew_plant_coil_store_step(s, &in, &o);
        sum += o.reevaporated;
        in.m = o.m;
    }
    return sum / s->most;
}

/* Full, near dry and dry; the compressor off, seldom and often, in a draught
   that turns most of the water over.  A regression: 0.023 at worst. */
TEST(one_step_gives_back_what_a_thousand_do)
{
    struct dew_coil_store s = store_of(1000, 1.5);

    for (double run = 0.0; run <= 0.91; run += 0.13)
        for (double stood = 0.0; stood <= 1.0; stood += 0.25)
            assert_near(back_in(&s, run, stood, 1),
                        back_in(&s, run, stood, 1000), 0.025);
}

/* Without a cycle sqrt(u) falls at the rate that is given: closed form; two
   stages of the second order come near. */
TEST(what_stands_still_dries_by_its_root)
{
    for (double fall = 0.0; fall <= 0.4; fall += 0.1) {
        struct plant__store_way way = plant__store_way_of(0.0, 0.0, fall);
        double left = 0.64 - plant__store_gone(&way, 0.64);

        assert_near(left, (0.8 - fall) * (0.8 - fall), 1e-12);
    }
}

/* The two laws of a stage meet where a cycle just dries the coil. */
TEST(a_stage_is_of_one_piece)
{
    struct plant__store_way way = plant__store_way_of(1.6, 0.0, 0.8);
    double h = 0.3, q = 0.25 * (1.0 + h * 1.6); /* s = F / K = 1/2 there */
    struct plant__stored below = plant__store_stage(&way, q - 1e-9, h);
    struct plant__stored above = plant__store_stage(&way, q + 1e-9, h);

    assert_near(below.u, 0.25, 1e-8);
    assert_near(above.u, 0.25, 1e-8);
    assert_near(below.gone, 0.4, 1e-8); /* 2 F s - K s^2 = 2 F s - F^2 / K */
    assert_near(above.gone, 0.4, 1e-8);
}

ROWS(part_rows, steady_ratio);
ROWS(delay_rows, delay_puts_back);
RUN_TESTS("plant, coil store");
