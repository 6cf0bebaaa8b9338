/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Blowers in the march: off-delay, drift, run time and what they cost. */
#include "dew/coil.h"
#include "support/cooled.h"

static const double wet_s = 1000.0, gamma_1 = 1.5, tau = 45.0;

struct delay {
    const char *name;
    double gains, off_delay; /* W, s */
};

static const struct delay delays[] = {
    {"30 s, seldom running", 700.0, 30.0},
    {"60 s, seldom running", 700.0, 60.0},
    {"90 s, a quarter of the time", 1700.0, 90.0},
    {"60 s, half of the time", 3600.0, 60.0},
    {"90 s, half of the time", 3600.0, 90.0},
};

/* The square root law over the delay, against the water of a cycle: the same
   closed form as in tests/plant/test_coil_store.c, d = 1. */
static void the_march_puts_back_what_the_delay_dries(void **state)
{
    const struct delay *row = *state;
    struct dew_hour out;
    struct dew_case c = pinned(row->gains, &out);
    struct dew_handler *h = &c.plant.handlers[0];
    struct dew_result r;
    double on, left, back;

    h->cycling = h->still = 0.0;
    h->off_delay = row->off_delay;
    r = run(&c, &out, 24 * 20, NULL);
    on = 3600.0 / (4.0 * h->cycles_max * (1.0 - r.duty.cool));
    left = 1.0 - gamma_1 * row->off_delay / (2.0 * wet_s);
    back = wet_s * (1.0 - left * left) / (on + tau * expm1(-on / tau));
    assert_true(r.duty.cool > 0.05 && r.duty.cool < 0.7);
    assert_near(r.water.reevaporation / -r.water.coil, back, 0.02 * back);
    /* and the blower runs on: its hours and its electricity */
    assert_near(r.duty.blower,
                r.duty.cool * (1.0 + 12.0 * (1.0 - r.duty.cool) *
                                         row->off_delay / 3600.0),
                1e-6);
    assert_near(r.energy.blower, h->blower_w * r.duty.blower * 3600.0,
                1e-6 * r.energy.blower);
}

/* ---- run time ------------------------------------------------------------- */

/* X = PLR / (1 - C_d (1 - PLR)) [NREL-56354]: at PLR 0.2 0.2000, 0.2119 and
   0.2500, that is 0, 5.9 and 25 % more; by hand. */
static const struct cycling_row {
    const char *name;
    double c_d, run, more;
} cycling_rows[] = {
    {"C_d 0 at PLR 0.2", 0.00, .2000, 0.000},
    {"C_d 0.07 at PLR 0.2", 0.07, .2119, 0.059},
    {"C_d 0.25 at PLR 0.2", 0.25, .2500, 0.250},
};

/* Gains that make PLR 0.2 of this coil; the blower's own heat is in it. */
static struct dew_result at_a_fifth(double c_d, struct dew_handler *machine)
{
    struct dew_result r = {0};
    double gains = 1200.0;

    for (int i = 0; i < 12; i++) {
        struct dew_hour out;
        struct dew_case c = pinned(gains, &out);

        c.plant.handlers[0].cycling = c_d;
        c.plant.handlers[0].off_delay = c.plant.handlers[0].still = 0.0;
        r = run(&c, &out, 24 * 10, NULL);
        gains += 6600.0 * (0.2 - r.duty.cool);
        *machine = c.plant.handlers[0];
    }
    return r;
}

/* Water let through at run time x of load plr, over that of no lost start. */
static double let_through(double plr, double x)
{
    double on = 3600.0 / (12.0 * (1.0 - x));
    double lost = 12.0 * x * (1.0 - x) / 3600.0 * -tau * expm1(-on / tau);

    return plr / x * (x - lost);
}

static void blower_and_compressor_run_alike(void **state)
{
    const struct cycling_row *row = *state;
    struct dew_handler h;
    struct dew_result ideal = at_a_fifth(0.0, &h), r = at_a_fifth(row->c_d, &h);
    double watts = ideal.energy.cooling / (3600.0 * ideal.duty.cool);

    assert_near(ideal.duty.cool, 0.2, 1e-5);
    assert_near(r.duty.cool, 0.2, 1e-5);
    assert_near(r.duty.blower, row->run, 0.00006);
    assert_near(r.energy.blower / (h.blower_w * 3600.0), row->run, 0.00006);
    assert_near(r.energy.cooling / (watts * 3600.0), row->run, 0.00006);
    assert_near(r.energy.blower / ideal.energy.blower - 1.0, row->more, 0.0006);
    assert_near(r.heat.blowers, r.energy.blower, 1e-9 * r.energy.blower);
    /* it takes out what its load is worth, however long it runs */
    assert_near(r.heat.cooling, ideal.heat.cooling,
                1e-4 * fabs(r.heat.cooling));
    assert_near(r.water.coil / ideal.water.coil,
                let_through(0.2, row->run) / let_through(0.2, 0.2), 0.0005);
    assert_near(r.water.reevaporation, 0.0, 1e-12);
}

/* By the clock for 48 minutes an hour: what cooling leaves of them is at low
   flow, closed form. */
TEST(the_rest_of_its_minutes_is_at_low_flow)
{
    struct dew_hour out;
    struct dew_case c = pinned(3600.0, &out);
    struct dew_handler *h = &c.plant.handlers[0];
    struct dew_result r;

    h->mode = DEW_BLOWER_MINUTES;
    h->minutes = 0.8;
    h->off_delay = h->still = 0.0;
    r = run(&c, &out, 24 * 20, NULL);
    assert_true(r.duty.blower > 0.4 && r.duty.blower < 0.7);
    assert_near(r.energy.blower / 3600.0,
                h->blower_w * r.duty.blower +
                    h->blower_low_w * (0.8 - r.duty.blower),
                1e-3);
}

/* ---- a damp day with its night ------------------------------------------- */

enum { DAYS = 6, HOURS = 24 * DAYS };

static struct dew_hour hour_at(int h)
{
    double swing = cos((h % 24 - 15.0) * 0.2617993877991494);

    return outdoors(26.0 + 5.0 * swing, 0.75 - 0.2 * swing);
}

static void march_days(const struct dew_case *c, struct dew_result r[HOURS])
{
    struct dew_hour before = hour_at(23);
    struct dew_march *m = opened(c, &before);

    for (int h = 0; h < HOURS; h++) {
        struct dew_hour out = hour_at(h);

        r[h] = step(m, &out, h);
    }
    dew_march_close(m);
}

static struct dew_case damp(enum dew_blower_mode mode, double off_delay,
                            double still)
{
    struct dew_case c = cooled();

    c.plant.handlers[0].mode = mode;
    c.plant.handlers[0].off_delay = off_delay;
    c.plant.handlers[0].still = still;
    return c;
}

static double sum_rh(const struct dew_result r[HOURS])
{
    double sum = 0.0;

    for (int h = 24; h < HOURS; h++)
        sum += r[h].rh;
    return sum;
}

static double sum_back(const struct dew_result r[HOURS])
{
    double sum = 0.0;

    for (int h = 0; h < HOURS; h++)
        sum += r[h].water.reevaporation;
    return sum;
}

/* Hour by hour through days that are never steady: as long as the compressor
   runs, the blower does. */
TEST(their_hours_are_equal_in_weather_too)
{
    static const double c_d[] = {0.0, 0.07, 0.25};
    static struct dew_result r[HOURS];
    double before = 0.0;

    for (size_t i = 0; i < COUNT_OF(c_d); i++) {
        struct dew_case c = damp(DEW_BLOWER_AUTO, 0.0, 0.0);
        double blower = 0.0, run = 0.0;

        c.plant.handlers[0].cycling = c_d[i];
        march_days(&c, r);
        for (int h = 24; h < HOURS; h++) {
            blower += r[h].energy.blower / c.plant.handlers[0].blower_w;
            run += 3600.0 * dew_plant_run_time(r[h].duty.cool, c_d[i]);
        }
        assert_near(blower / run, 1.0, 0.003);
        assert_true(blower > before);
        before = blower;
    }
}

TEST(on_gives_back_more_than_auto_in_every_hour_with_a_cycle)
{
    struct dew_case autos = damp(DEW_BLOWER_AUTO, 90.0, 0.02);
    struct dew_case on = damp(DEW_BLOWER_ON, 90.0, 0.02);
    static struct dew_result a[HOURS], b[HOURS];
    int cycles = 0;

    march_days(&autos, a);
    march_days(&on, b);
    for (int h = 1; h < HOURS; h++) {
        if (!(a[h].duty.cool > 0.02 && b[h].duty.cool > 0.02))
            continue;
        cycles++;
        assert_true(b[h].water.reevaporation > a[h].water.reevaporation);
    }
    assert_true(cycles > HOURS / 3);
}

/* Longer delays and more drift put more water back and make the house damper;
   ON above all of them. */
TEST(wetter_readings_are_wetter_in_order)
{
    static const double delay[] = {0.0, 30.0, 60.0, 90.0, 90.0};
    static const double still[] = {0.0, 0.0, 0.004, 0.004, 0.02};
    static struct dew_result r[HOURS];
    double rh = 0.0, back = -1.0;

    for (int i = 0; i < 6; i++) {
        struct dew_case c = i < 5 ? damp(DEW_BLOWER_AUTO, delay[i], still[i])
                                  : damp(DEW_BLOWER_ON, 60.0, 0.004);

        march_days(&c, r);
        assert_true(sum_back(r) > back && sum_rh(r) > rh);
        back = sum_back(r);
        rh = sum_rh(r);
    }
}

/* 8 h without a cycle: at most what drifting air can carry, 0.13 kg for 2.5
   tons; this coil is 9 kW.  By hand, see tests/plant/test_coil_store.c. */
TEST(a_night_without_a_cycle_gives_little_back)
{
    struct dew_case c = damp(DEW_BLOWER_AUTO, 60.0, 0.004);
    static struct dew_result r[HOURS];
    double back = 0.0, held;
    int idle = 0;

    c.house.people.gains_w = 0.0;
    march_days(&c, r);
    for (int h = HOURS - 24; h < HOURS; h++) {
        held = r[h - 1].end.coil_1;
        if (r[h].duty.cool > 0.0 || r[h - 1].duty.cool > 0.0)
            continue;
        idle++;
        back += r[h].water.reevaporation;
        assert_true(r[h].water.reevaporation <= held);
    }
    assert_true(idle >= 5);
    assert_true(back > 0.0 && back / idle <= 0.13 / 8.0);
}

/* At its low stage all day: the blower's share of air is what its use says,
   and more air for the same capacity takes out less water. */
TEST(the_low_stage_moves_the_air_it_is_told)
{
    static const double air[] = {0.6, 0.75, 0.9};
    double dry = 1.0;

    for (size_t i = 0; i < COUNT_OF(air); i++) {
        struct dew_hour out = outdoors(29.0, 0.72);
        struct dew_case c = cooled();
        struct dew_handler *h = &c.plant.handlers[0];
        struct dew_result r;
        double watts;

        h->low_stage = 0.7;
        h->low_air = air[i];
        h->off_delay = h->still = h->cycling = 0.0;
        h->blower_low = 0.5;
        h->blower_low_w = 0.25 * h->blower_w;
        r = run(&c, &out, 24 * 25, NULL);
        watts = r.energy.blower / (3600.0 * r.duty.blower);
        assert_true(r.duty.cool > 0.1 && r.duty.cool < 0.95);
        assert_near(watts, h->blower_w * air[i] * air[i], 0.5);
        assert_true(r.water.coil / r.heat.cooling < 0.97 * dry);
        dry = r.water.coil / r.heat.cooling;
    }
}

ROWS(cycling_rows, blower_and_compressor_run_alike);
ROWS(delays, the_march_puts_back_what_the_delay_dries);
RUN_TESTS("march, blowers");
