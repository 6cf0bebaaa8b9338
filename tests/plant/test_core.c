/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spec sheets turned into cores, and cores at other flows. */
#include "support/rows.h"

#include "dew/air.h"
#include "dew/core.h"

/* A sheet of one row: 30 L/s, 60 W, a heating test. */
static struct dew_core_sheet sheet_of(double flow, double watts)
{
    struct dew_core_sheet s;

    dew_plant_core_blank(&s);
    s.count = 1;
    s.rows[0].flow = flow;
    s.rows[0].watts = watts;
    return s;
}

/* ---- one row ------------------------------------------------------------ */

/* By hand from [C439] eq. 12 (from memory): 30 L/s each way, 0 and 22 degC,
   30 W in each air. */
static const struct sre_row {
    const char *name;
    double sre, t2, ase, eps;
} sre_rows[] = {
    {"SRE 0.60 at 30 L/s", 0.60, 14.521, 0.6600, 0.6225},
    {"SRE 0.65 at 30 L/s", 0.65, 15.662, 0.7119, 0.6744},
    {"SRE 0.75 at 30 L/s", 0.75, 17.945, 0.8157, 0.7781},
    {"SRE 0.80 at 30 L/s", 0.80, 19.086, 0.8676, 0.8300},
    {"SRE 0.90 at 30 L/s", 0.90, 21.369, 0.9713, 0.9338},
};

static void fan_heat_comes_out(void **state)
{
    const struct sre_row *r = *state;
    struct dew_core_sheet s = sheet_of(0.030, 60.0);
    struct dew_core_point p;
    struct dew_error err = {0};

    s.rows[0].sre = r->sre;
    assert_int_equal(dew_plant_core_point(&s, 0, NAN, &p, &err), DEW_OK);
    assert_near(p.t_supply, r->t2, 0.001);
    assert_near(p.ase, r->ase, 0.0001);
    assert_near(p.sensible.likely, r->eps, 0.0001);
    assert_near(p.sre, r->sre, 1e-12);
}

TEST(ase_core_and_sre_keep_their_order)
{
    for (double watts = 0.0; watts < 90.0; watts += 22.3)
        for (double sre = 0.513; sre < 0.85; sre += 0.0871) {
            struct dew_core_sheet s = sheet_of(0.0371, watts);
            struct dew_core_point p;

            s.rows[0].sre = sre;
            assert_int_equal(dew_plant_core_point(&s, 0, NAN, &p, NULL), 0);
            assert_true(p.ase >= p.sensible.likely - 1e-12);
            assert_true(p.sensible.likely >= p.sre - 1e-12);
            if (watts == 0.0)
                assert_near(p.ase, sre, 1e-12);
        }
}

TEST(sre_and_ase_alone_give_the_watts)
{
    struct dew_core_sheet s = sheet_of(0.030, NAN);
    struct dew_core_point p;

    /* the 0.75 row above, its watts left out */
    s.rows[0].sre = 0.75;
    s.rows[0].ase = 0.815657;
    assert_int_equal(dew_plant_core_point(&s, 0, NAN, &p, NULL), DEW_OK);
    assert_near(p.sensible.likely, 0.7781, 0.0002);
}

TEST(leak_across_is_not_recovery)
{
    struct dew_core_sheet s = sheet_of(0.0413, 0.0);
    struct dew_core_point p;

    s.rows[0].ase = 0.732;
    s.rows[0].eatr = 0.058;
    assert_int_equal(dew_plant_core_point(&s, 0, NAN, &p, NULL), DEW_OK);
    assert_near(p.sensible.likely, (0.732 - 0.058) / (1 - 0.058), 1e-12);
    assert_near(p.gross, 0.0413 / (1 - 0.058), 1e-15);
}

TEST(what_lrmt_leaves_open_is_a_span)
{
    struct dew_core_sheet s = sheet_of(0.0413, 71.0);
    struct dew_core_point p;

    s.passes_water = 1;
    s.rows[0].sre = 0.69;
    s.rows[0].lrmt = 0.53;
    s.rows[0].eatr = 0.041;
    assert_int_equal(dew_plant_core_point(&s, 0, NAN, &p, NULL), DEW_OK);
    assert_near(p.latent.low, (0.53 - 0.041) / (1 - 0.041), 1e-12);
    assert_near(p.latent.high, 0.53, 1e-12);
}

TEST(tre_gives_water_back)
{
    struct dew_core_sheet s = sheet_of(0.0413, 0.0);
    struct dew_core_point p;

    /* Worked by hand: 35 degC 50 % over 24 degC 50 %, w 0.01777 and
       0.00930, h 80.81 and 47.82; sensible 0.7 and water 0.5 lead to
       27.3 degC, 0.013535, h 62.00: total 0.5701. */
    s.passes_water = 1;
    s.rows[0].tre = 0.5701;
    assert_int_equal(dew_plant_core_point(&s, 0, 0.7, &p, NULL), DEW_OK);
    assert_near(p.latent.likely, 0.5, 0.001);
    assert_near(p.latent.low, p.latent.high, 1e-12); /* no fans, no doubt */
    s.rows[0].watts = 66.0;
    assert_int_equal(dew_plant_core_point(&s, 0, 0.7, &p, NULL), DEW_OK);
    assert_true(p.latent.low < p.latent.likely);
    assert_true(p.latent.likely < p.latent.high);
}

/* ---- refusals ----------------------------------------------------------- */

static const struct bad_row {
    const char *name;
    struct dew_core_row row;
    int water;
    enum dew_status status;
    const char *path, *text;
} bad_rows[] = {
    {"a percentage",
     {.flow = .03, .watts = 60, .sre = 72, .ase = NAN},
     0,
     DEW_ERANGE,
     "sre",
     "72 is above 1: is it a percentage? then write 72 % or 0.72"},
    {"SRE above ASE",
     {.flow = .03, .watts = 60, .sre = .8, .ase = .7},
     0,
     DEW_ERANGE,
     "sre",
     "SRE is above ASE: SRE has the fan's heat taken out and is the lesser; "
     "are the two columns changed over?"},
    {"air power above electrical",
     {.flow = .06, .watts = 20, .pressure = 250, .sre = .7, .ase = NAN},
     0,
     DEW_ERANGE,
     "watts",
     "less than the power of the air the two fans move against that pressure"},
    {"fan heat above the rise",
     {.flow = .01, .watts = 400, .sre = .6, .ase = NAN},
     0,
     DEW_ERANGE,
     "sensible",
     "the core would warm the air above the house: watts, flow and "
     "effectiveness do not fit together"},
    {"water through plates that pass none",
     {.flow = .03, .watts = 60, .sre = .7, .ase = NAN, .lrmt = .4},
     0,
     DEW_ERANGE,
     "lrmt",
     "plates that pass no water transfer none: choose an enthalpy core or "
     "leave it out"},
    {"SRE without watts",
     {.flow = .03, .watts = NAN, .sre = .7, .ase = NAN},
     0,
     DEW_EMISSING,
     "watts",
     "the fan's heat cannot be taken out of SRE or ASE without the watts of "
     "that row"},
    {"no flow",
     {.flow = 0, .watts = 60, .sre = .7, .ase = NAN},
     0,
     DEW_ERANGE,
     "flow",
     "a row needs a flow above 0, below 5 m3/s"},
    {"leak across of 0.7",
     {.flow = .03, .watts = 60, .sre = .7, .ase = NAN, .eatr = .7},
     0,
     DEW_ERANGE,
     "eatr",
     "0.7 is outside 0 .. 0.5"},
};

/* Members that a row above leaves at 0 were not printed. */
static double unless_zero(double x)
{
    return x == 0.0 ? NAN : x;
}

static void absurd_row_is_refused(void **state)
{
    const struct bad_row *b = *state;
    struct dew_core_sheet s = sheet_of(b->row.flow, b->row.watts);
    struct dew_core_row *r = &s.rows[0];
    struct dew_core_point p;
    struct dew_error err = {0};

    s.passes_water = b->water;
    r->pressure = unless_zero(b->row.pressure);
    r->sre = b->row.sre;
    r->ase = b->row.ase;
    r->lrmt = unless_zero(b->row.lrmt);
    r->eatr = unless_zero(b->row.eatr);
    assert_int_equal(dew_plant_core_point(&s, 0, NAN, &p, &err), b->status);
    assert_string_equal(err.path, b->path);
    assert_string_equal(err.text, b->text);
}

/* ---- other flows -------------------------------------------------------- */

static struct dew_core core_of(double eps, double eps_w)
{
    struct dew_core_sheet s = sheet_of(0.0437, 70.0);
    struct dew_core c;

    s.passes_water = eps_w > 0.0;
    s.rows[0].sensible = eps;
    s.rows[0].latent = eps_w > 0.0 ? eps_w : NAN;
    assert_int_equal(dew_plant_core_fit(&s, DEW_READ_LIKELY, &c, NULL), 0);
    return c;
}

/* Balanced counterflow, by hand: N = N0 (q/q0)^(x-1). */
static const struct flow_row {
    const char *name;
    double ratio, laminar, turbulent, water;
} flow_rows[] = {
    {"0.5 of rated flow", 0.5, .8571, .7751, 0.667},
    {"0.75 of rated flow", 0.75, .8000, .7606, 0.571},
    {"1 of rated flow", 1, .7500, .7500, 0.500},
    {"1.25 of rated flow", 1.25, .7059, .7415, 0.444},
    {"1.5 of rated flow", 1.5, .6667, .7345, 0.400},
    {"2 of rated flow", 2, .6000, .7231, 0.333},
};

static void effectiveness_at_flow(void **state)
{
    const struct flow_row *r = *state;
    struct dew_core c = core_of(0.75, 0.5);
    struct dew_core_state at;
    double q = r->ratio * 0.0437;

    dew_plant_core_at(&c, q, q, &at);
    assert_near(at.sensible, r->laminar, 1e-4);
    assert_near(at.latent, r->water, 5e-4);
    assert_int_equal(at.extrapolated, r->ratio != 1.0);
    c.slope = 0.8;
    dew_plant_core_at(&c, q, q, &at);
    assert_near(at.sensible, r->turbulent, 1e-4);
}

/* Exhaust / supply; conductance from 0.75 balanced.  By hand. */
static const struct unbalanced_row {
    const char *name;
    double ratio, lesser, supply;
} unbalanced_rows[] = {
    {"exhaust 1.3 of supply", 1.3, .8122, .8122},
    {"exhaust 1.2 of supply", 1.2, .7956, .7956},
    {"exhaust 1.1 of supply", 1.1, .7752, .7752},
    {"exhaust 0.9 of supply", 0.9, .7982, .7184},
    {"exhaust 0.8 of supply", 0.8, .8481, .6785},
    {"exhaust 0.7 of supply", 0.7, .8972, .6280},
};

static void unbalanced_flow(void **state)
{
    const struct unbalanced_row *r = *state;
    struct dew_core c = core_of(0.75, 0.0);
    struct dew_core_state at;

    dew_plant_core_at(&c, 0.0437, r->ratio * 0.0437, &at);
    assert_near(at.sensible, r->supply, 1e-4);
    assert_near(at.sensible / fmin(1.0, r->ratio), r->lesser, 1e-4);
}

TEST(two_rows_come_back_through_the_fit)
{
    struct dew_core_sheet s = sheet_of(0.0300, 41.0);
    struct dew_core c;
    struct dew_core_state at;

    for (int kind = DEW_COUNTERFLOW; kind <= DEW_WHEEL; kind++) {
        s.kind = (enum dew_exchange)kind;
        s.count = 2;
        s.passes_water = 1;
        s.rows[0].sensible = 0.773;
        s.rows[0].latent = 0.561;
        s.rows[1] = s.rows[0];
        s.rows[1].flow = 0.0512;
        s.rows[1].watts = 97.0;
        s.rows[1].sensible = 0.729;
        s.rows[1].latent = 0.467;
        assert_int_equal(dew_plant_core_fit(&s, DEW_READ_LIKELY, &c, NULL), 0);
        dew_plant_core_at(&c, 0.0300, 0.0300, &at);
        /* the wheel's own correction moves a little with flow */
        assert_near(at.sensible, 0.773, kind == DEW_WHEEL ? 3e-3 : 1e-9);
        assert_near(at.latent, 0.561, kind == DEW_WHEEL ? 3e-3 : 1e-9);
        assert_near(at.watts, 41.0, 1e-9);
        dew_plant_core_at(&c, 0.0512, 0.0512, &at);
        assert_near(at.sensible, 0.729, kind == DEW_WHEEL ? 3e-3 : 1e-9);
        assert_near(at.watts, 97.0, 1e-9);
        assert_near(at.heat, 48.5, 1e-9);
    }
}

/* Of the supply a share eatr was stale air before; of the fans' heat one share is
   in the supply, and of the rest what the core gives back, per unit of supply;
   worked by hand. */
TEST(a_leak_and_the_fans_heat_at_other_flows)
{
    struct dew_core_sheet s = sheet_of(0.0437, 70.0);
    struct dew_core_state at;
    struct dew_core c;

    s.rows[0].sensible = 0.75;
    s.rows[0].eatr = 0.031;
    s.supply_share = 0.4;
    s.before_core = 0.9;
    assert_int_equal(dew_plant_core_fit(&s, DEW_READ_LIKELY, &c, NULL), 0);
    assert_near(c.eatr, 0.031, 1e-15);
    dew_plant_core_at(&c, 0.0437, 0.0371, &at);
    assert_near(at.fresh, 0.0437 * 0.969, 1e-15);
    assert_near(at.watts, 70.0 * pow(0.969, 3.0), 1e-9); /* the fan laws */
    assert_near(at.heat,
                0.4 * at.watts +
                    at.sensible * 0.9 * 0.6 * at.watts * 0.0437 / 0.0371,
                1e-9);
}

/* What the condensing core is given does in dry air what the core does, whatever
   the flows and the kind: the same units, on the supply's capacity. */
TEST(a_core_of_as_many_units_is_alike_when_dry)
{
    for (int i = 0; i < 6; i++) {
        struct dew_core c = core_of(i % 2 ? 0.61 : 0.75, 0.0);
        double exhaust = 0.0437 * (0.75 + 0.25 * (i / 2));
        struct dew_core_meeting m = {
            .t_out = -3.1, .t_in = 20.7, .w = 0.0, .p = 97300.0};
        struct dew_core_state at;
        struct dew_core_wet o;

        c.kind = i % 2 ? DEW_CROSSFLOW : DEW_COUNTERFLOW;
        dew_plant_core_at(&c, 0.0437, exhaust, &at);
        m.ntu = at.condensing;
        m.ratio = exhaust / 0.0437;
        dew_plant_core_wet(&m, &o);
        assert_near(o.sensible, at.sensible, 1e-9);
    }
}

/* 0.98 of equal flows is 49 units, 0.991 is 110: the condensing core has them
   too, and what water adds to such a core does not pass the whole. */
TEST(a_great_core_condenses_as_one)
{
    static const double eps[] = {0.93, 0.953, 0.98, 0.991};

    for (int i = 0; i < 4; i++) {
        struct dew_core c = core_of(eps[i], 0.0);
        struct dew_core_meeting m = {
            .ratio = 1.0, .t_out = -8.3, .t_in = 21.7, .p = 97300.0};
        struct dew_core_state at;
        struct dew_core_wet o;

        c.kind = DEW_COUNTERFLOW;
        dew_plant_core_at(&c, 0.0437, 0.0437, &at);
        m.ntu = at.condensing;
        assert_near(m.ntu, eps[i] / (1.0 - eps[i]), 1e-6);
        m.w = dew_air_w(m.t_in, 0.53, m.p);
        dew_plant_core_wet(&m, &o);
        assert_true(o.water > 1e-4 && o.sensible > o.dry);
        assert_true(at.sensible + o.sensible - o.dry < 1.0);
    }
}

TEST(a_cold_row_does_not_spoil_the_fit)
{
    struct dew_core_sheet s = sheet_of(0.0300, 41.0);
    struct dew_core one, both;

    s.rows[0].sre = 0.74;
    assert_int_equal(dew_plant_core_fit(&s, DEW_READ_LIKELY, &one, NULL), 0);
    s.count = 2;
    s.rows[1] = s.rows[0];
    s.rows[1].t_out = -25.0;
    s.rows[1].sre = 0.61;
    assert_int_equal(dew_plant_core_fit(&s, DEW_READ_LIKELY, &both, NULL), 0);
    assert_near(both.ntu, one.ntu, 1e-12);
}

TEST(rows_changed_over_are_refused)
{
    struct dew_core_sheet s = sheet_of(0.0300, 41.0);
    struct dew_core c;
    struct dew_error err = {0};

    s.count = 2;
    s.rows[0].sensible = 0.62;
    s.rows[1] = s.rows[0];
    s.rows[1].flow = 0.0512;
    s.rows[1].sensible = 0.81;
    assert_int_equal(dew_plant_core_fit(&s, DEW_READ_LIKELY, &c, &err),
                     DEW_ERANGE);
    assert_string_equal(err.text,
                        "recovery rises with flow: are rows changed over?");
}

TEST(readings_keep_their_order)
{
    struct dew_core_sheet s = sheet_of(0.0300, 55.0);
    struct dew_core_state at[DEW_READINGS];

    s.passes_water = 1;
    s.rows[0].sre = 0.71;
    s.rows[0].tre = 0.47;
    s.rows[0].eatr = 0.032;
    for (int r = 0; r < DEW_READINGS; r++) {
        struct dew_core c;

        assert_int_equal(dew_plant_core_fit(&s, (enum dew_reading)r, &c, NULL),
                         DEW_OK);
        dew_plant_core_at(&c, c.flow, c.flow, &at[r]);
    }
    assert_true(at[0].latent < at[1].latent && at[1].latent < at[2].latent);
    assert_true(at[0].sensible < at[2].sensible);
}

ROWS(sre_rows, fan_heat_comes_out);
ROWS(bad_rows, absurd_row_is_refused);
ROWS(flow_rows, effectiveness_at_flow);
ROWS(unbalanced_rows, unbalanced_flow);
RUN_TESTS("plant, core");
