/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules about tie-ins and dehumidifiers, on books written by hand. */
#include "study/judged.h"

#include "dew/air.h"
#include "dew/dryer.h"

/* Option 1 has own ducts, option 2 the same core tied in.  Both run all year
   and draw in 47 l/s, of which 46 and as many as given reach the rooms. */
static void tie(double reaches)
{
    scene_open(&s, 3);
    s.outcomes[1].year.fresh_sum = 0.046 * 8760;
    s.outcomes[2].year.fresh_sum = reaches * 8760;
    for (int i = 1; i < 3; i++) {
        s.facts[i].core = DEW_CORE_enthalpy_plate;
        s.facts[i].rated_flow = 0.047;
        s.cases[i].paths[DEW_VENT_ON][0].supply = 0.047;
        s.cases[i].paths[DEW_VENT_ON][0].exhaust = 0.047;
        s.outcomes[i].year.duty.vent = 8760;
    }
    s.facts[2].layout = DEW_LAYOUT_mix;
}

/* What speaks against a tie-in. */
static const char *against(int option)
{
    static char text[80];
    const struct dew_finding *f = FIND(tie_harmful, option);
    const struct dew_numbers_tie_fine *n =
        &must(f ? f : FIND(tie_fine, option))->number.tie_fine;

    snprintf(text, sizeof text, "%s%s%s%s%s%s",
             n->short_circuits ? "short circuit, " : "",
             n->lacks_air ? "air, " : "", n->damper ? "damper, " : "",
             n->wet ? "wet, " : "", n->dear ? "dear, " : "",
             n->puts_back ? "puts back, " : "");
    return text;
}

TEST(a_tie_in_as_good_as_own_ducts_is_fine)
{
    tie(0.045);
    s.outcomes[2].year.energy.blower = 100 * KWH;
    judge();
    assert_int_equal(must(FIND(tie_fine, 2))->other, 1);
    assert_string_equal(against(2), "");
    assert_null(FIND(tie_harmful, ANY));
    assert_null(FIND(tie_fine, 1));
}

/* 300 kWh more of the blower: fine still, and dear. */
TEST(a_dear_tie_in_is_fine_at_a_price)
{
    tie(0.045);
    s.outcomes[2].year.energy.blower = 300 * KWH;
    s.outcomes[2].year.water.reevaporation = 131;
    judge();
    assert_string_equal(against(2), "dear, puts back, ");
    assert_near(NUMBERS(tie_fine, 2).blower_more, 300 * KWH, 0);
    assert_near(NUMBERS(tie_fine, 2).putback_more, 131, 0);
}

/* 175.2 h are allowed; beyond them a trunk that drips is harm, own ducts or
   not. */
TEST(a_wet_trunk_does_harm)
{
    tie(0.045);
    s.outcomes[2].year.ducts[DEW_SPOT_trunk] = 175;
    judge();
    assert_non_null(FIND(tie_fine, 2));
    s.outcomes[2].year.ducts[DEW_SPOT_trunk] = 176;
    judge();
    assert_non_null(FIND(tie_harmful, 2));
    assert_string_equal(against(2), "wet, ");
    assert_near(NUMBERS(tie_harmful, 2).trunk_wet, 176, 0);
    s.outcomes[2].year.ducts[DEW_SPOT_outside] = 301;
    judge();
    assert_near(NUMBERS(tie_harmful, 2).trunk_wet, 301, 0);
    s.facts[1].core = DEW_CORE_heat_plate; /* no own ducts to hold it to */
    judge();
    assert_non_null(FIND(tie_harmful, 2));
    assert_string_equal(against(2), "wet, ");
}

/* 80 % of it short-circuits: of 47 l/s, 9.4 reach the rooms. */
TEST(a_short_circuit_does_harm)
{
    tie(0.2 * 0.047);
    judge();
    assert_non_null(FIND(tie_harmful, 2));
    assert_string_equal(against(2), "short circuit, air, ");
    assert_near(NUMBERS(tie_harmful, 2).drawn, 0.047, 0);
    assert_near(NUMBERS(tie_harmful, 2).reaching, 0.0094, 1e-12);
    s.facts[1].core = DEW_CORE_heat_plate; /* no own ducts to hold it to */
    judge();
    assert_int_equal(must(FIND(tie_harmful, 2))->other, DEW_NO_OPTION);
    assert_true(isnan(NUMBERS(tie_harmful, 2).humid_more));
    assert_true(isnan(NUMBERS(tie_harmful, 2).blower_more));
    assert_true(isnan(NUMBERS(tie_harmful, 2).putback_more));
    tie(0.045);
    s.facts[1].core = DEW_CORE_heat_plate;
    judge();
    assert_null(FIND(tie_fine, ANY));
    assert_null(FIND(tie_harmful, ANY));
}

/* 175.2 h are let pass.  Of 20 houses drawn the tie-in is the damper one in so
   many; -1: none was drawn. */
static const struct humid_row {
    const char *name;
    double own, tied;
    int damper;
    int harm;
} humid_rows[] = {
    {"both keep the limit", 100, 175, -1, 0},
    {"it passes the limit that own ducts keep", 100, 176, -1, 1},
    {"as many more as a limit lets pass are none", 1000, 1175, -1, 0},
    {"176 h more are harm", 1000, 1176, -1, 1},
    {"fewer hours are no harm", 1000, 300, -1, 0},
    {"in 16 of 20 houses", 1000, 1400, 16, 1},
    {"not in 15", 1000, 1400, 15, 0},
};

static void a_damper_house_is_harm(void **state)
{
    const struct humid_row *r = *state;

    tie(0.045);
    scene_humid(&s, 1, JULY, r->own);
    scene_humid(&s, 2, JULY, r->tied);
    if (r->damper >= 0) {
        scene_draw(&s);
        SCENE_DRAWN(&s, 2, (size_t)r->damper, SCENE_DRAWS - (size_t)r->damper,
                    too_humid, 900);
    }
    judge();
    assert_int_equal(FIND(tie_harmful, 2) != NULL, r->harm);
    assert_int_equal(FIND(tie_fine, 2) != NULL, !r->harm);
    if (r->harm)
        assert_near(NUMBERS(tie_harmful, 2).humid_more, r->tied - r->own, 0);
    assert_string_equal(against(2), r->harm ? "damper, " : "");
}

/* ---- dehumidifiers ------------------------------------------------------------ */

/* A dehumidifier in place of ventilation, where no fresh air is asked for. */
TEST(a_dryer_instead_of_air)
{
    scene_open(&s, 2);
    scene_humid(&s, 0, JULY, 900);
    scene_humid(&s, 1, JULY, 60);
    s.cases[1].plant.dryer.rate = 3e-4;
    s.outcomes[0].required = s.outcomes[1].required = 0;
    s.outcomes[1].year.energy.dehumidifier = 811 * KWH;
    judge();
    assert_near(NUMBERS(dryer_instead, 1).humid, 60, 0);
    assert_near(NUMBERS(dryer_instead, 1).energy, 811 * KWH, 0);
    s.facts[1].core = DEW_CORE_heat_plate; /* ventilates too */
    judge();
    assert_null(FIND(dryer_instead, ANY));
    s.facts[1].core = DEW_CORE_none;
    s.outcomes[1].required = 0.035;
    s.outcomes[1].year.fresh_sum = 0; /* asked for and wanting */
    judge();
    assert_null(FIND(dryer_instead, ANY));
}

static double t[SCENE_HOURS], rh[SCENE_HOURS], duty[SCENE_HOURS];

/* Half of each hour of one day, a tenth of the rest; 23.1 degC and 54 %. */
TEST(the_labels_figure_is_taken_to_the_house)
{
    const double p = 99120;
    struct dew_dryer_work work;
    const struct dew_finding *f;

    scene_open(&s, 2);
    for (int h = 0; h < SCENE_HOURS; h++) {
        t[h] = 23.1;
        rh[h] = 0.54;
        duty[h] = h / 24 == 200 ? 0.5 : 0.1;
    }
    s.outcomes[1].count = SCENE_HOURS;
    s.outcomes[1].series.t = t;
    s.outcomes[1].series.rh = rh;
    s.outcomes[1].series.dehumidify = duty;
    s.outcomes[1].year.energy.dehumidifier = 511 * KWH;
    s.cases[1].pressure = p;
    s.cases[1].plant.dryer = (struct dew_dryer){
        .rate = 3.8e-4, .factor = 5e-7, .rating_t = 26.7, .rating_rh = 0.6};
    judge();
    dew_plant_dryer_at(&s.cases[1].plant.dryer, 23.1, dew_air_w(23.1, 0.54, p),
                       p, &work);
    f = must(FIND(dryer_size, 1));
    assert_near(f->number.dryer_size.label, 3.8e-4, 0);
    assert_near(f->number.dryer_size.here, work.rate, 1e-12);
    assert_near(f->number.dryer_size.busiest, 0.5 * work.rate, 1e-12);
    assert_near(f->number.dryer_size.energy, 511 * KWH, 0);
    assert_near(f->number.dryer_size.runs, 0.1 * 8736 + 12, 1e-9);
    for (int h = 0; h < SCENE_HOURS; h++)
        duty[h] = 0;
    judge();
    assert_null(FIND(dryer_size, ANY));
}

/*
 * 70 pints at 65 degF are an old label's 70 x 0.6589 there, by the published
 * fit of [NREL-52791] at 60 %.  One question for machines of one figure; none
 * for a label whose test is told.
 */
TEST(a_label_of_no_test_is_asked_about)
{
    const double pints = 0.473176473 / 86400;

    scene_open(&s, 5);
    for (int i = 1; i < 5; i++) {
        s.cases[i].plant.dryer.rate = (i == 4 ? 50 : 70) * pints;
        s.facts[i].label_open = i != 1;
    }
    judge();
    assert_null(FIND(dryer_label, 1));
    assert_near(NUMBERS(dryer_label, 2).label, 70 * pints, 1e-12);
    assert_near(NUMBERS(dryer_label, 2).if_old, 46.1 * pints, 0.05 * pints);
    assert_null(FIND(dryer_label, 3));
    assert_near(NUMBERS(dryer_label, 4).if_old, 32.9 * pints, 0.05 * pints);
}

ROWS(humid_rows, a_damper_house_is_harm);
RUN_TESTS("study, tie-ins");
