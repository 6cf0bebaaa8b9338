/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cooling coil: label, curves, state, part load. */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/coil.h"
#include "plant/coil_step.h"

static const double ton = 12000.0 * 1055.05585262 / 3600.0;
static const double cfm = 0.3048 * 0.3048 * 0.3048 / 60.0;

static double celsius(double f)
{
    return (f - 32.0) / 1.8;
}

static struct dew_handler handler_of(double tons, double shr, double per_ton)
{
    return (struct dew_handler){.capacity = tons * ton,
                                .shr = shr,
                                .air = tons * per_ton * cfm,
                                .cop = 3.7};
}

static struct dew_coil coil_of(double tons, double shr, double per_ton)
{
    struct dew_handler h = handler_of(tons, shr, per_ton);
    struct dew_coil c;

    assert_int_equal(dew_plant_coil_open(&h, &c, NULL), DEW_OK);
    return c;
}

/* ---- rating ------------------------------------------------------------- */

/* Regression, worked apart: 80 / 67 degF, 400 cfm per ton of the entering air
   itself, 0.8643 m3/kg, sea level. */
static const struct adp_row {
    const char *name;
    double shr, leaving, adp, bypass;
} adp_rows[] = {
    {"rated SHR 0.70", 0.70, 15.65, 11.79, 0.259},
    {"rated SHR 0.73", 0.73, 15.18, 12.58, 0.184},
    {"rated SHR 0.75", 0.75, 14.87, 13.01, 0.136},
    {"rated SHR 0.80", 0.80, 14.09, 13.86, 0.018},
};

static void rating_gives_adp_and_bypass(void **state)
{
    const struct adp_row *r = *state;
    double w = dew_air_w_wet(celsius(80), celsius(67), 101325.0);
    double own = 1.0 / (1.2041 * dew_air_v(celsius(80), w, 101325.0));
    struct dew_coil c = coil_of(3.0, r->shr, 400.0 * own);

    assert_near(c.adp, r->adp, 0.005);
    assert_near(c.bypass, r->bypass, 0.001);
    assert_near(c.adp + c.bypass * (celsius(80) - c.adp), r->leaving, 0.015);
}

TEST(at_rating_the_coil_does_what_the_label_says)
{
    for (double shr = 0.66; shr < 0.82; shr += 0.0371) {
        struct dew_coil c = coil_of(2.5, shr, 387.0);
        struct dew_coil_air a = {celsius(80), 0, 101325.0, 35.0, 1.0};
        struct dew_coil_work o;

        a.w = dew_air_w_wet(a.t, celsius(67), a.p);
        dew_plant_coil_at(&c, &a, &o);
        assert_near(o.total / c.capacity, 1.0, 1e-4);
        assert_near(o.sensible / o.total, shr, 6e-4);
        assert_near(o.water / c.latent, 1.0, 2e-3);
        assert_near(o.power / c.power, 1.0, 1e-4);
        assert_near(o.sensible + o.water * (2501e3 + 1860.0 * a.t), o.total,
                    1e-9);
        assert_near(o.held, 0.0, 0.0);
    }
}

TEST(above_the_dry_share_there_is_no_water)
{
    struct dew_coil c = coil_of(3.0, 0.87, 400.0);
    struct dew_coil_air a = {25.3, 0.0121, 98400.0, 33.7, 1.0};
    struct dew_coil_work o;

    assert_near(c.shr_dry, 0.8254, 0.0005); /* regression */
    assert_near(c.dry, 1.0, 0.0);
    dew_plant_coil_at(&c, &a, &o);
    assert_near(o.water, 0.0, 0.0);
    assert_near(o.sensible, o.total, 0.0);
    assert_true(o.w_adp > a.w);
}

/* ---- state -------------------------------------------------------------- */

/* The same coil by bisection: wet bulb, apparatus dew point, dry limit. */
static double adp_of(double h, double p)
{
    double low = -4.0, high = 45.0;

    for (int i = 0; i < 60; i++) {
        double t = 0.5 * (low + high);

        if (dew_air_h(t, dew_air_w_sat(t, p)) < h)
            low = t;
        else
            high = t;
    }
    return low;
}

static double total_of(const struct dew_coil *c, const struct dew_coil_air *a,
                       double w)
{
    double t_wet = dew_air_wet(a->t, w, a->p);

    return c->capacity * c->by_capacity *
           dew_plant_cooling_capacity(fmax(t_wet, 25.0 / 1.8), a->t_out) *
           dew_plant_cooling_capacity_flow(a->flow);
}

static double gap_of(const struct dew_coil *c, const struct dew_coil_air *a,
                     double m_bf, double w)
{
    double h = dew_air_h(a->t, w) - total_of(c, a, w) / m_bf;

    return dew_air_w_sat(adp_of(h, a->p), a->p) - w;
}

TEST(agrees_with_iteration)
{
    static const double t[] = {21.7, 24.3, 27.9}, p[] = {101325, 98400, 83100},
                        rh[] = {0.31, 0.47, 0.62, 0.78},
                        out[] = {22.3, 34.7, 43.1}, flow[] = {0.7, 1.07};
    struct dew_coil c = coil_of(3.0, 0.752, 391.0);
    int compared = 0;

    for (int i = 0; i < 3 * 3 * 4 * 3 * 2; i++) {
        struct dew_coil_air a = {.t = t[i % 3],
                                 .p = p[i / 3 % 3],
                                 .t_out = out[i / 36 % 3],
                                 .flow = flow[i / 108]};
        struct dew_coil_work o;
        double m, m_bf, low, high;

        a.w = dew_air_w(a.t, rh[i / 9 % 4], a.p);
        m = c.m * a.flow * a.p / 101325.0;
        m_bf = m * (1.0 - exp(-c.units / m));
        low = a.w;
        high = fmin(dew_air_w_sat(a.t, a.p), 0.02);
        if (gap_of(&c, &a, m_bf, low) > 0.0)
            for (int k = 0; k < 50; k++) {
                double w = 0.5 * (low + high);

                if (gap_of(&c, &a, m_bf, w) > 0.0)
                    low = w;
                else
                    high = w;
            }
        dew_plant_coil_at(&c, &a, &o);
        double want = total_of(&c, &a, low);
        double h = dew_air_h(a.t, low) - want / m_bf;
        double water =
            m_bf * fmax(a.w - dew_air_w_sat(adp_of(h, a.p), a.p), 0.0);

        if (isnan(want) || o.t_adp < 0.0)
            continue; /* beyond the curves, or iced: not compared */
        compared++;
        assert_near(o.total / want, 1.0, 2e-4);
        if (low > a.w) /* dry */
            water = 0.0;
        assert_near(o.water, water, 1e-7);
        assert_near(o.t_wet, dew_air_wet(a.t, a.w, a.p), 2e-3);
    }
    assert_true(compared > 180);
}

/* One call a step is enough, at any height, and a trial state that lay far off
   is forgotten soon. */
TEST(the_last_steps_roots_lead_to_the_next_ones)
{
    static const double p[] = {101325, 83100, 70300};
    struct dew_coil c = coil_of(3.0, 0.752, 391.0);

    for (size_t i = 0; i < COUNT_OF(p); i++) {
        struct plant__off off = {11.3, -12.7};
        struct dew_coil_air a = {24.3, 0.0113, p[i], 33.1, 1.0}, b = a;
        struct dew_coil_work now, want;

        for (int k = 0; k < 4; k++)
            now = plant__coil(&c, &a, &off);
        assert_near(now.t_wet, dew_air_wet(a.t, a.w, a.p), 1e-6);
        b.t += 0.4;
        b.w += 0.0003;
        b.t_out += 0.7;
        now = plant__coil(&c, &b, &off);
        for (int k = 0; k < 3; k++)
            want = plant__coil(&c, &b, &off);
        assert_near(now.t_wet, want.t_wet, 1e-4);
        assert_near(now.t_adp, want.t_adp, 1e-4);
        assert_near(now.w_adp, want.w_adp, 7e-8);
    }
}

TEST(lower_air_per_ton_dries_more)
{
    struct dew_coil c = coil_of(3.0, 0.75, 400.0);
    double before = 1.0;

    for (double f = 0.6; f < 1.15; f += 0.093) {
        struct dew_coil_air a = {24.1, 0.0107, 100300.0, 32.9, f};
        struct dew_coil_work o;

        dew_plant_coil_at(&c, &a, &o);
        assert_true(o.water / o.total < before);
        before = o.water / o.total;
    }
}

TEST(a_low_stage_runs_nearer_saturation)
{
    struct dew_coil c = coil_of(3.0, 0.75, 400.0);
    struct dew_coil low = dew_plant_coil_stage(&c, 0.68, 0.68);
    struct dew_coil_air a = {24.1, 0.0107, 100300.0, 32.9, 1.0};
    struct dew_coil_work full, part;

    dew_plant_coil_at(&c, &a, &full);
    dew_plant_coil_at(&low, &a, &part);
    assert_near(part.total / full.total, 0.68, 1e-9);
    assert_near(part.power / full.power, 0.68, 1e-9);
    assert_true(low.bypass < c.bypass);
    assert_true(part.t_adp > full.t_adp);
}

/* 75 % of the air at 70 % of the capacity: 1 - (1 - s) 0.25 / 0.30, by hand. */
TEST(air_follows_the_stage)
{
    struct dew_handler h = {
        .low_stage = 0.70, .turndown = 1.0, .low_air = 0.75};

    assert_near(dew_plant_stage_air(&h, 1.0), 1.0, 1e-12);
    assert_near(dew_plant_stage_air(&h, 0.70), 0.75, 1e-12);
    assert_near(dew_plant_stage_air(&h, 0.85), 0.875, 1e-12);
    h.low_air = 0.0; /* not known: as the capacity */
    assert_near(dew_plant_stage_air(&h, 0.70), 0.70, 1e-12);
    h = (struct dew_handler){.low_stage = 1.0, .turndown = 0.4, .low_air = 0.5};
    assert_near(dew_plant_stage_air(&h, 0.4), 0.5, 1e-12);
    assert_near(dew_plant_stage_air(&h, 0.7), 0.75, 1e-12);
    h.low_air = 0.1; /* an odd answer never stops the air */
    h.turndown = 0.9;
    assert_near(dew_plant_stage_air(&h, 0.3), 0.15, 1e-12);
}

/* Through both of its points; half the flow at a quarter is the square. */
TEST(a_blower_uses_less_for_less_air)
{
    struct dew_handler h = {
        .blower_w = 480.0, .blower_low = 0.7, .blower_low_w = 360.0};

    assert_near(dew_plant_blower_w(&h, 1.0), 480.0, 1e-9);
    assert_near(dew_plant_blower_w(&h, 0.7), 360.0, 1e-9);
    assert_near(dew_plant_blower_w(&h, 0.49), 270.0, 1e-9);
    h.blower_low = 0.0;
    assert_near(dew_plant_blower_w(&h, 0.75), 480.0 * 0.5625, 1e-9);
    h.blower_w = 0.0;
    assert_near(dew_plant_blower_w(&h, 0.75), 0.0, 0.0);
}

/* The same capacity into more air: a warmer coil, less water. */
TEST(more_air_at_the_low_stage_dries_less)
{
    struct dew_coil c = coil_of(3.0, 0.75, 400.0);
    struct dew_coil_air a = {24.1, 0.0107, 100300.0, 32.9, 1.0};
    double water = 1.0, adp = 0.0;

    for (double air = 0.60; air < 0.95; air += 0.05) {
        struct dew_coil low = dew_plant_coil_stage(&c, 0.70, air);
        struct dew_coil_work o;

        dew_plant_coil_at(&low, &a, &o);
        assert_near(low.m, air * c.m, 1e-12);
        assert_true(o.water < water && o.t_adp > adp);
        water = o.water;
        adp = o.t_adp;
    }
}

TEST(outside_is_held_and_said)
{
    struct dew_coil c = coil_of(3.0, 0.75, 400.0);
    struct dew_coil_air a = {24.1, 0.0107, 100300.0, 49.0, 1.0};
    struct dew_coil_work o, edge;

    dew_plant_coil_at(&c, &a, &o);
    a.t_out = 83.0 / 1.8;
    dew_plant_coil_at(&c, &a, &edge);
    assert_near(o.held, 1.0, 0.0);
    assert_near(edge.held, 0.0, 0.0);
    assert_near(o.total, edge.total, 1e-9);
    a.t = 51.0;
    dew_plant_coil_at(&c, &a, &o);
    assert_nan(o.total);
}

/* ---- curves ------------------------------------------------------------- */

/* [NREL-56354], evaluated by hand from its coefficients. */
static const struct curve_row {
    const char *name;
    double wet, out, capacity, eir;
} curve_rows[] = {
    {"curves at 67 / 82 degF", 67, 82, 1.0595, .8051},
    {"curves at 67 / 95 degF", 67, 95, .9939, 1.0092},
    {"curves at 67 / 105 degF", 67, 105, .9399, 1.2155},
    {"curves at 63 / 82 degF", 63, 82, 1.0003, .8508},
    {"curves at 63 / 95 degF", 63, 95, .9416, 1.0624},
    {"curves at 63 / 105 degF", 63, 105, .8928, 1.2746},
    {"curves at 72 / 82 degF", 72, 82, 1.1765, NAN},
    {"curves at 72 / 95 degF", 72, 95, 1.1024, NAN},
    {"curves at 72 / 105 degF", 72, 105, 1.0417, NAN},
};

static void cooling_curve(void **state)
{
    const struct curve_row *r = *state;
    double wet = celsius(r->wet), out = celsius(r->out);

    assert_near(dew_plant_cooling_capacity(wet, out), r->capacity, 2e-4);
    if (!isnan(r->eir))
        assert_near(dew_plant_cooling_eir(wet, out), r->eir, 2e-4);
}

static const struct flow_row {
    const char *name;
    double flow, capacity, eir;
} flow_rows[] = {
    {"0.8 of rated air", 0.8, .9643, 1.0398},
    {"0.9 of rated air", 0.9, .9834, 1.0184},
    {"1.1 of rated air", 1.1, 1.0140, .9847},
};

static void flow_curve(void **state)
{
    const struct flow_row *r = *state;

    assert_near(dew_plant_cooling_capacity_flow(r->flow), r->capacity, 1e-4);
    assert_near(dew_plant_cooling_eir_flow(r->flow), r->eir, 1e-4);
}

static const struct heat_row {
    const char *name;
    double out, capacity, eir;
} heat_rows[] = {
    {"heating at 47 degF", 47, .9958, .9937},
    {"heating at 35 degF", 35, .8387, 1.1047},
    {"heating at 17 degF", 17, .6304, 1.3472},
    {"heating at 5 degF", 5, .5097, 1.5596},
    {"heating at 0 degF", 0, .4638, 1.6601},
};

static void heating_curve(void **state)
{
    const struct heat_row *r = *state;

    assert_near(dew_plant_heating_capacity(celsius(70), celsius(r->out)),
                r->capacity, 2e-4);
    assert_near(dew_plant_heating_eir(celsius(70), celsius(r->out)), r->eir,
                2e-4);
}

TEST(heat_pump_meets_both_labels)
{
    struct dew_heater h = {.cop_warm = 3.71, .cop_cold = 2.47};

    assert_near(dew_plant_heat_pump_cop(&h, celsius(47)), 3.71, 1e-12);
    assert_near(dew_plant_heat_pump_cop(&h, celsius(17)), 2.47, 1e-12);
    assert_near(dew_plant_heat_pump_capacity(celsius(47)), 1.0, 1e-12);
    h.cop_cold = 1.3;
    assert_near(dew_plant_heat_pump_cop(&h, -29.0), 1.0, 0.0);
}

TEST(curves_end_in_nan)
{
    assert_nan(dew_plant_cooling_capacity(13.0, 35.0));
    assert_nan(dew_plant_cooling_eir(19.4, 47.0));
    assert_nan(dew_plant_cooling_capacity_flow(0.4));
    assert_nan(dew_plant_heating_capacity(21.0, -31.0));
}

/* They reach from 57 to 75 degF wet bulb and from 65 to 115 degF outdoors, the
   ends included, of heating from 10 to 27 and from -30 to 20 degC. */
TEST(curves_hold_at_their_ends)
{
    for (int i = 0; i < 4; i++) {
        double wet = celsius(i % 2 ? 57 : 75), out = celsius(i / 2 ? 65 : 115);
        double in = i % 2 ? 10 : 27, cold = i / 2 ? -30 : 20;

        assert_true(dew_plant_cooling_capacity(wet, out) > 0.5);
        assert_true(dew_plant_cooling_eir(wet, out) > 0.3);
        assert_true(dew_plant_heating_capacity(in, cold) > 0.1);
        assert_true(dew_plant_heating_eir(in, cold) > 0.3);
        wet += i % 2 ? -0.001 : 0.001;
        in += i % 2 ? -0.001 : 0.001;
        assert_nan(dew_plant_cooling_capacity(wet, out));
        assert_nan(
            dew_plant_cooling_eir(celsius(67), celsius(i / 2 ? 64 : 116)));
        assert_nan(dew_plant_heating_eir(in, cold));
        assert_nan(dew_plant_heating_capacity(21, i / 2 ? -30.001 : 20.001));
    }
    assert_near(dew_plant_cooling_capacity_flow(1.2),
                dew_plant_cooling_capacity_flow(1.2 - 1e-9), 1e-8);
    assert_near(dew_plant_cooling_eir_flow(0.5),
                dew_plant_cooling_eir_flow(0.5 + 1e-9), 1e-8);
}

/* ---- label -------------------------------------------------------------- */

TEST(net_and_gross_differ_by_the_blower)
{
    struct dew_coil_label l = {.capacity = 3 * ton,
                               .is_net = 1,
                               .shr = 0.737,
                               .air = NAN,
                               .blower_w = NAN,
                               .eer = 3.39,
                               .seer = NAN,
                               .cop = NAN,
                               .cycling = NAN};
    struct dew_handler h = {0};

    assert_int_equal(dew_plant_coil_gross(&l, &h, NULL), DEW_OK);
    assert_near(h.air, 1200 * cfm, 1e-12);
    assert_near(h.blower_w, 438.0, 1e-9);
    assert_near(h.capacity - h.blower_w, 3 * ton, 1e-9);
    assert_near((1 - h.shr) * h.capacity, (1 - 0.737) * 3 * ton, 1e-9);
    /* all power by EER: compressor and blower together */
    assert_near(h.capacity / h.cop + h.blower_w, 3 * ton / 3.39, 1e-9);
}

TEST(seer_goes_back_to_eer_by_test_b)
{
    struct dew_coil_label l = {.capacity = 2 * ton,
                               .is_net = 1,
                               .shr = 0.75,
                               .air = NAN,
                               .blower_w = NAN,
                               .eer = NAN,
                               .seer = 4.103,
                               .cop = NAN,
                               .cycling = 0.07};
    struct dew_handler h = {0};
    double eer = 4.103 / (1 - 0.035) * .8051 / 1.0092; /* rows above */

    assert_int_equal(dew_plant_coil_gross(&l, &h, NULL), DEW_OK);
    assert_near(2 * ton / (h.capacity / h.cop + h.blower_w), eer, 1e-3);
}

TEST(wrong_labels_are_refused)
{
    struct dew_coil_label l = {.capacity = 3 * ton,
                               .shr = 74,
                               .air = NAN,
                               .blower_w = NAN,
                               .eer = NAN,
                               .seer = 4.1,
                               .cop = NAN,
                               .cycling = NAN};
    struct dew_handler h = handler_of(3, 0.75, 400);
    struct dew_coil c;
    struct dew_error err = {0};

    assert_int_equal(dew_plant_coil_gross(&l, &h, &err), DEW_ERANGE);
    assert_string_equal(err.path, "shr");
    assert_string_equal(err.text, "74 is outside 0.5 .. 1");
    err = (struct dew_error){0};
    l.seer = NAN;
    l.shr = 0.74;
    assert_int_equal(dew_plant_coil_gross(&l, &h, &err), DEW_EMISSING);
    assert_string_equal(err.text, "a cooling unit needs a capacity and one of "
                                  "SEER, EER and COP");
    err = (struct dew_error){0};
    h.cop = 0.31;
    assert_int_equal(dew_plant_coil_open(&h, &c, &err), DEW_ERANGE);
    assert_string_equal(err.path, "cop");
}

/* A little beyond each end; one that is not printed, 0 here, is not there. */
static const struct label_row {
    const char *text;
    double capacity, shr, eer, seer, cop;
} label_rows[] = {
    {"capacity: 499 is outside 500 .. 100000", 499, 0.74, 3.3, 0, 0},
    {"capacity: 100001 is outside 500 .. 100000", 100001, 0.74, 3.3, 0, 0},
    {"shr: 0.49 is outside 0.5 .. 1", 9000, 0.49, 3.3, 0, 0},
    {"shr: 1.01 is outside 0.5 .. 1", 9000, 1.01, 3.3, 0, 0},
    {"eer: 0.99 is outside 1 .. 9", 9000, 0.74, 0.99, 0, 0},
    {"eer: 9.01 is outside 1 .. 9", 9000, 0.74, 9.01, 0, 0},
    {"seer: 1.49 is outside 1.5 .. 15", 9000, 0.74, 0, 1.49, 0},
    {"seer: 15.01 is outside 1.5 .. 15", 9000, 0.74, 0, 15.01, 0},
    {"cop: 0.99 is outside 1 .. 12", 9000, 0.74, 0, 0, 0.99},
    {"cop: 12.01 is outside 1 .. 12", 9000, 0.74, 0, 0, 12.01},
    {"capacity: a cooling unit needs a capacity and one of SEER, EER and COP",
     NAN, 0.74, 3.3, 0, 0},
    {"seer: a cooling unit needs a capacity and one of SEER, EER and COP", 9000,
     0.74, 0, 0, 0},
};

static double if_printed(double x)
{
    return x == 0 ? NAN : x;
}

static void label_is_refused(void **state)
{
    const struct label_row *r = *state;
    struct dew_coil_label l = {.capacity = r->capacity,
                               .shr = r->shr,
                               .air = NAN,
                               .blower_w = NAN,
                               .eer = if_printed(r->eer),
                               .seer = if_printed(r->seer),
                               .cop = if_printed(r->cop),
                               .cycling = NAN};
    struct dew_handler h = {.cop = 3.25};
    struct dew_error err = {0};
    char line[300];

    assert_true(dew_plant_coil_gross(&l, &h, &err) != DEW_OK);
    assert_string_equal(dew_error_line(&err, line, sizeof line), r->text);
    assert_near(h.cop, 3.25, 0.0);
}

TEST(run_time_at_part_load)
{
    assert_near(dew_plant_part_load(0.37, 0.2), 1 - 0.2 * 0.63, 1e-15);
    assert_near(dew_plant_run_time(0.37, 0.2), 0.37 / 0.874, 1e-15);
    assert_near(dew_plant_run_time(1.0, 0.2), 1.0, 0.0);
    assert_nan(dew_plant_run_time(1.1, 0.2));
}

ROWS(label_rows, label_is_refused);
ROWS(adp_rows, rating_gives_adp_and_bypass);
ROWS(curve_rows, cooling_curve);
ROWS(flow_rows, flow_curve);
ROWS(heat_rows, heating_curve);
RUN_TESTS("plant, coil");
