/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The march on water: closed forms, published rooms, books. */
#include "dew/buffer.h"
#include "support/marched.h"

/*
 * The isothermal room of IEA Annex 41, common exercise 1, case 0A: 129.6 m3,
 * 20 degC, outdoors 30 %, 0.5 air changes, 500 g/h from 9 to 17 h.  Inputs
 * from memory; the answers are exact mathematics on them.
 *
 * The printed answers take vapour pressure as linear in the water held; the
 * march does not, by 1 % at these humidities.  The room is linear, so that a
 * hundredth of its water answers a hundredth: there the two agree to 0.01 %.
 */
static const double scale = 0.01;

static struct dew_case annex_room(void)
{
    struct dew_case c = bare_case(129.6, 20.0);
    struct dew_water *w = &c.house.water[DEW_SOURCE_other];

    c.house.leakage.constant = 0.5 * 129.6 / 3600.0;
    w->per_day = 4.0 * scale;
    all_day(w->shape.weekday, 0.0);
    for (int h = 9; h < 17; h++)
        w->shape.weekday[h] = 1.0 / 8.0;
    for (int h = 0; h < 24; h++)
        w->shape.weekend[h] = w->shape.weekday[h];
    /* 60 steps an hour take out the step's error */
    c.steps_per_hour = 60;
    return c;
}

/* RH at the end of an hour by vapour density, as the closed form counts. */
static double density_rh(const struct dew_case *c, const struct dew_result *r)
{
    double p_ws = dew_air_pws(20.0), rv = 461.52, t = 293.15;
    double kg = r->end.w * dew_air_density_run(c->pressure) * c->house.volume;

    return 100.0 * kg * rv * t / c->house.volume / p_ws / scale;
}

struct swing {
    double low, high, mean;
};

static struct swing last_day(const struct dew_case *c, int days)
{
    double outside = scale * 0.30 * dew_air_pws(20.0) / (461.52 * 293.15) /
                     dew_air_density_run(p0);
    struct dew_hour out = {.t = 20.0, .w = outside, .p = p0};
    struct swing s = {1e9, -1e9, 0.0};
    struct dew_march *m = opened(c, &out);

    for (int h = 0; h < 24 * days; h++) {
        struct dew_result r = step(m, &out, h);
        double rh = density_rh(c, &r);

        if (h < 24 * (days - 1))
            continue;
        s.low = rh < s.low ? rh : s.low;
        s.high = rh > s.high ? rh : s.high;
        s.mean += density_rh(c, &(struct dew_result){.end.w = r.w}) / 24.0;
    }
    dew_march_close(m);
    return s;
}

/* Closed form: excess (G/nV)(1-e^-8n)/(1-e^-24n) of 7.5748 g/m3. */
TEST(unbuffered_room_swings_as_the_closed_form)
{
    struct dew_case c = annex_room();
    struct swing s = last_day(&c, 10);

    assert_near(s.low, 30.015, 0.01);
    assert_near(s.high, 73.818, 0.01);
    assert_near(s.mean, 44.879, 0.01);
}

/* Aerated concrete, 171.6 m2, no end to it: [IEA-A41], from memory. */
static struct dew_case lined_room(void)
{
    const double psat = dew_air_pws(20.0);
    double b = sqrt(3e-11 * 650.0 * 0.0661 / psat); /* [RODE05] */
    struct dew_case c = annex_room();

    assert_int_equal(dew_house_buffer_mbv(dew_house_buffer_value(b, psat),
                                          171.6, DEW_BUFFER_FILM, psat,
                                          &c.house.buffer, NULL),
                     DEW_OK);
    return c;
}

/* Its stores' own figures, worked apart by RK4 on RH (regression). */
TEST(lined_room_swings_as_its_stores)
{
    struct dew_case c = lined_room();
    struct swing s = last_day(&c, 400);

    assert_near(s.low, 41.926, 0.02);
    assert_near(s.high, 49.762, 0.02);
    assert_near(s.mean, 44.879, 0.02); /* no buffer moves the mean */
}

/* Hour by hour beside the exact wall (Fourier series, ours), % at the end of
   each. */
TEST(lined_room_follows_the_exact_wall)
{
    static const double exact[24] = {
        43.063, 42.866, 42.689, 42.526, 42.376, 42.237, 42.107, 41.986,
        41.885, 45.744, 46.789, 47.518, 48.094, 48.578, 48.996, 49.367,
        49.688, 46.025, 45.158, 44.592, 44.165, 43.821, 43.532, 43.283};
    struct dew_case c = lined_room();
    double outside = scale * 0.30 * dew_air_pws(20.0) / (461.52 * 293.15) /
                     dew_air_density_run(p0);
    struct dew_hour out = {.t = 20.0, .w = outside, .p = p0};
    struct dew_march *m = opened(&c, &out);

    for (int h = 0; h < 24 * 400; h++) {
        struct dew_result r = step(m, &out, h);

        if (h >= 24 * 399)
            assert_near(density_rh(&c, &r), exact[h % 24], 0.20);
    }
    dew_march_close(m);
}

/* ---- uptake after a step, through the march ---- */

/* Exact, kg per m2 and Pa of the step, behind a film of beta: [CJ59] 2.7, a
   half-space with a surface resistance. */
static double exact_uptake(double b, double beta, double t)
{
    const double root_pi = 1.77245385090551602730;
    double h = beta / b, x = h * sqrt(t);
    double left =
        x < 5.0 ? exp(x * x) * erfc(x) : (1.0 - 0.5 / (x * x)) / (x * root_pi);

    return b * (2.0 * sqrt(t) / root_pi - (1.0 - left) / h);
}

static const struct stepped {
    const char *name;
    double value; /* kg/m2 */
    int hours;
} stepped_rows[] = {
    {"0.05 kg/m2, 2 h within 10 %", 0.05, 2},
    {"0.05 kg/m2, 6 h", 0.05, 6},
    {"0.05 kg/m2, a day", 0.05, 24},
    {"0.08 kg/m2, 2 h", 0.08, 2},
    {"0.08 kg/m2, 6 h", 0.08, 6},
    {"0.08 kg/m2, a day", 0.08, 24},
    {"0.08 kg/m2, a week", 0.08, 168},
    {"0.08 kg/m2, three weeks", 0.08, 504},
    {"0.15 kg/m2, 2 h", 0.15, 2},
    {"0.15 kg/m2, a day", 0.15, 24},
    {"0.15 kg/m2, three weeks", 0.15, 504},
};

/* A room whose air leaks so fast that it has the outdoors' RH, at rest at
   45 % (where a march begins), then stepped to 60 %. */
static void a_step_is_taken_up_as_by_the_half_space(void **state)
{
    const struct stepped *row = *state;
    struct dew_case c = bare_case(100.0, 20.0);
    double psat = dew_air_pws(20.0), taken = 0.0, want;
    struct dew_hour dry = outdoors(20.0, 0.45), damp = outdoors(20.0, 0.60);
    struct dew_march *m;

    c.house.leakage.constant = 5.0;
    assert_int_equal(dew_house_buffer_mbv(row->value, 50.0, DEW_BUFFER_FILM,
                                          psat, &c.house.buffer, NULL),
                     DEW_OK);
    m = opened(&c, &dry);
    for (int h = 0; h < row->hours + 1; h++)
        taken -= step(m, h == 0 ? &dry : &damp, h).water.store;
    dew_march_close(m);
    /* the step is a ramp of an hour: half an hour's start */
    want = 50.0 * 0.15 * psat *
           exact_uptake(dew_house_buffer_effusivity(row->value, psat),
                        DEW_BUFFER_FILM, 3600.0 * (row->hours - 0.5));
    assert_near(taken / want, 1.0, 0.10);
}

/* Steady cases by hand; cfm of standard air.  Ours, closed form. */
struct steady {
    const char *name;
    double t_out, rh_out, vent, latent, want;
};

static const struct steady steady_rows[] = {
    {"20 degF 80 %, no ventilation: 64 %", 20.0, 0.80, 0.0, 0.0, 64.0},
    {"20 degF 80 %, 60 cfm heat only: 25 %", 20.0, 0.80, 60.0, 0.0, 25.0},
    {"20 degF 80 %, 60 cfm half the moisture kept: 33 %", 20.0, 0.80, 60.0, 0.5,
     33.0},
    {"35 degF 85 %, no ventilation: 76 %", 35.0, 0.85, 0.0, 0.0, 76.0},
    {"35 degF 85 %, 60 cfm heat only: 37 %", 35.0, 0.85, 60.0, 0.0, 37.0},
    {"35 degF 85 %, 60 cfm half the moisture kept: 45 %", 35.0, 0.85, 60.0, 0.5,
     45.0},
};

static double degf(double f)
{
    return (f - 32.0) / 1.8;
}

static void steady_house_settles_by_hand(void **state)
{
    const struct steady *row = *state;
    struct dew_case c = bare_case(400.0, degf(70.0));
    struct dew_hour out = outdoors(degf(row->t_out), row->rh_out);
    struct dew_path vent = {.supply = cfm(row->vent, p0),
                            .exhaust = cfm(row->vent, p0),
                            .fresh = cfm(row->vent, p0),
                            .latent = row->latent};
    struct dew_result r;
    double w;

    c.house.leakage.constant = cfm(20.0, p0);
    c.house.water[DEW_SOURCE_other].per_day = 18.0 * 0.45359237;
    set_path(&c, DEW_VENT_ON, &vent);
    r = run(&c, &out, 24 * 60, NULL);
    w = out.w +
        18.0 * 0.45359237 / 86400.0 /
            (CFM * STANDARD_AIR * (20.0 + row->vent * (1.0 - row->latent)));
    assert_near(r.w, w, 1e-9);
    assert_near(100.0 * r.rh, row->want, 0.5);
}

/* Gallons a day that ventilation adds or takes; [calc] by hand, ours. */
struct gallons {
    const char *name;
    double t_in, rh_in, w_dew_f, t_out, rh_out, flow, latent, want;
};

static const struct gallons gallon_rows[] = {
    {"60 cfm, 75 degF 50 %, dew point 75 degF outside: +7.4 gal/day", 75, 0.5,
     75, 85, 0, 60, 0.0, 7.4},
    {"the same, half the moisture kept: +3.7 gal/day", 75, 0.5, 75, 85, 0, 60,
     0.5, 3.7},
    {"102 cfm heat only: +12.6 gal/day", 75, 0.5, 75, 85, 0, 102, 0.0, 12.6},
    {"60 cfm, 70 degF 50 %, 20 degF 80 % outside: -4.7 gal/day", 70, 0.5, -1,
     20, 0.8, 60, 0.0, -4.7},
    {"the same, half the moisture kept: -2.4 gal/day", 70, 0.5, -1, 20, 0.8, 60,
     0.5, -2.4},
};

static void ventilation_moves_gallons_a_day(void **state)
{
    const struct gallons *row = *state;
    struct dew_case c = bare_case(1e5, degf(row->t_in)); /* w hardly moves */
    double w_out = row->w_dew_f > 0.0
                       ? dew_air_w_dew(degf(row->w_dew_f), p0)
                       : dew_air_w(degf(row->t_out), row->rh_out, p0);
    struct dew_hour out = {.t = degf(row->t_out), .w = w_out, .p = p0};
    struct dew_path vent = {.supply = cfm(row->flow, p0),
                            .exhaust = cfm(row->flow, p0),
                            .fresh = cfm(row->flow, p0),
                            .latent = row->latent};
    double w_in = dew_air_w(degf(row->t_in), row->rh_in, p0);
    struct dew_result r;
    double gallons;

    set_path(&c, DEW_VENT_ON, &vent);
    r = run(&c, &out, 1, NULL);
    /* scale the first hour's flow to the asked indoor state */
    gallons = (r.water.fresh + r.water.recovered) * 24.0 / 3.785411784 *
              (out.w - w_in) / (out.w - r.w);
    assert_near(gallons, row->want, 0.05);
}

/* Eq. 51 by whole states: a 90 cfm exhaust a third of the time over 30 cfm of
   nature gives 51.6 cfm on average, not 42.4 from the mean flow. */
TEST(duty_weighs_whole_states)
{
    struct dew_case c = bare_case(400.0, 21.0);
    struct dew_hour out = outdoors(21.0, 0.26);
    struct dew_path fan = {.exhaust = 90.0 * CFM};
    struct dew_result r;

    c.house.leakage.constant = 30.0 * CFM;
    set_path(&c, DEW_VENT_ON, &fan);
    all_day(c.plant.control.on_weekday, 1.0 / 3.0);
    all_day(c.plant.control.on_weekend, 1.0 / 3.0);
    r = run(&c, &out, 1, NULL);
    assert_near(r.leak / CFM, 51.6, 0.05);
    assert_near(sqrt(30.0 * 30.0 + 30.0 * 30.0), 42.4, 0.05);
}

ROWS(steady_rows, steady_house_settles_by_hand);
ROWS(stepped_rows, a_step_is_taken_up_as_by_the_half_space);
ROWS(gallon_rows, ventilation_moves_gallons_a_day);
RUN_TESTS("march, water");
