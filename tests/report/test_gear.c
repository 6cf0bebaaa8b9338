/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels beside this house, and what they leave open, in text and JSON. */
#include "support/rows.h"

#include "report/page.h"
#include "report/read.h"

static struct dew_report report;
static struct dew_case cases[3];
static struct dew_outcome outcomes[3];
static struct dew_report_doubt doubts[3];

/* Option 2 with a dehumidifier, a rating read three ways and two handlers. */
static void set_up(void)
{
    static const enum dew_otherwise how[] = {
        DEW_CORE_READ_LOW, DEW_CORE_READ_HIGH, DEW_HANDLERS_OTHER};
    struct dew_case *c = &page_scene.cases[1];
    struct dew_outcome *o = &page_scene.outcomes[1];

    report = page_open(2, DEW_SYSTEM_SI);
    c->pressure = 101325;
    c->paths[DEW_VENT_ON][0].sensible = 0.70;
    c->paths[DEW_VENT_ON][0].latent = 0.47;
    c->plant.handler_count = 2;
    c->plant.dryer = (struct dew_dryer){.rate = 24.0 / 86400,
                                        .factor = 1.7 / 3.6e6,
                                        .rating_t = 26.667,
                                        .rating_rh = 0.60};
    o->year.too_humid = 731;
    o->year.too_dry = 12;
    o->year.water.reevaporation = 417;
    o->year.duty.dehumidify = 2000;
    o->year.dryer_t = 2000 * 21.11;
    o->year.dryer_rh = 2000 * 0.50;
    for (int k = 0; k < 3; k++) {
        cases[k] = *c;
        outcomes[k] = *o;
        doubts[k] =
            (struct dew_report_doubt){1, how[k], &cases[k], &outcomes[k]};
        outcomes[k].year.too_humid += 10 * (k + 1);
    }
    cases[0].paths[DEW_VENT_ON][0].latent = 0.41;
    cases[1].paths[DEW_VENT_ON][0].latent = 0.55;
    outcomes[2].year.water.reevaporation = 350;
    report.doubts = doubts;
    report.doubt_count = 3;
}

/* The report as JSON, to be freed. */
static json_t *as_json(void)
{
    char *text = page_written(dew_report_json, &report, NULL);
    json_t *o = read_json(text);

    free(text);
    return o;
}

/* Published: 21.11 degC and 50 % takes .549 of 26.67 degC and 60 %, whose own
   fit is .986 [NREL-52791]. */
TEST(json_has_them_under_their_keys)
{
    json_t *o;

    set_up();
    o = as_json();
    assert_true(json_is_null(at(o, "options.0.dehumidifier")));
    assert_true(json_is_null(at(o, "options.0.core_range")));
    assert_true(json_is_null(at(o, "options.0.handlers")));
    assert_near(number_at(o, "options.1.dehumidifier.label_kg_per_day"), 24,
                1e-9);
    assert_near(number_at(o, "options.1.dehumidifier.here_kg_per_day"),
                24 * 0.549 / 0.986, 0.05);
    assert_near(number_at(o, "options.1.dehumidifier.here_rh_pct"), 50, 1e-9);
    assert_near(number_at(o, "options.1.core_range.moisture_pct.low"), 41,
                1e-9);
    assert_near(number_at(o, "options.1.core_range.moisture_pct.high"), 55,
                1e-9);
    assert_near(number_at(o, "options.1.core_range.too_humid_h.low"), 741, 0);
    assert_near(number_at(o, "options.1.core_range.too_humid_h.likely"), 731,
                0);
    assert_near(number_at(o, "options.1.handlers.even_split.reevaporated_kg"),
                417, 0);
    assert_near(number_at(o, "options.1.handlers.lead_lag.reevaporated_kg"),
                350, 0);
    json_decref(o);
}

/* The coil of option 1 marched dry and wet, that of option 2 not. */
TEST(what_the_coil_leaves_open_is_told)
{
    struct dew_outcome dry, wet;
    char *text;
    json_t *o;

    set_up();
    page_scene.outcomes[0].year.too_humid = 81;
    dry = wet = page_scene.outcomes[0];
    dry.year.too_humid = 0;
    wet.year.too_humid = 708;
    wet.year.water.reevaporation = 2032;
    page_scene.choices[0].coil_dry = &dry;
    page_scene.choices[0].coil_wet = &wet;
    o = as_json();
    assert_near(number_at(o, "options.0.coil_range.too_humid_h.dry"), 0, 0);
    assert_near(number_at(o, "options.0.coil_range.too_humid_h.likely"), 81, 0);
    assert_near(number_at(o, "options.0.coil_range.too_humid_h.wet"), 708, 0);
    assert_near(number_at(o, "options.0.coil_range.reevaporated_kg.wet"), 2032,
                0);
    assert_true(json_is_null(at(o, "options.1.coil_range")));
    json_decref(o);
    text = page_written(dew_report_text, &report, NULL);
    assert_non_null(strstr(text, "too humid in 0 h"));
    assert_non_null(strstr(text, "708; the figures"));
    free(text);
}

/* Of more than three options: one lead, their figures, those alike once. */
TEST(what_the_coils_leave_open_is_told_together)
{
    struct dew_outcome dry[5], wet[5];
    char *text;

    set_up();
    report = page_open(5, DEW_SYSTEM_US);
    for (int i = 0; i < 5; i++) {
        int like = i == 4 ? 1 : i; /* 5 as 2 */

        page_scene.outcomes[i].year.too_humid = 81 + 10 * like;
        dry[i] = wet[i] = page_scene.outcomes[i];
        dry[i].year.too_humid = 11 * like;
        wet[i].year.too_humid = 708 + 1000 * like;
        page_scene.choices[i].coil_dry = &dry[i];
        page_scene.choices[i].coil_wet = &wet[i];
    }
    text = page_written(dew_report_html, &report, NULL);
    assert_non_null(strstr(text, "as wet as it may be: option 1: 0 / 81 / 708; "
                                 "options 2, 5: 11 / 91 / 1,708; option 3: "));
    assert_null(strstr(text, "option 1: how much water"));
    free(text);
}

/* 379 kg are 100 gal, 350 kg 92. */
TEST(what_coils_put_back_is_told_in_the_readers_unit)
{
    char *text;

    set_up();
    page_scene.outcomes[1].year.water.reevaporation = 379;
    report.system = DEW_SYSTEM_US;
    text = page_written(dew_report_html, &report, NULL);
    assert_non_null(strstr(text, "put back 100 gal; one leading"));
    assert_non_null(strstr(text, "and 92 gal."));
    free(text);
}

/* A cold hour: 68 degF inside, 0 degF out, 75 %: 51 degF plain; a fifth of
   the time house air, 54.4 degF over a cycle.  By hand. */
static void frost(enum dew_frost strategy)
{
    struct dew_case *c = &page_scene.cases[1];
    struct dew_outcome *o = &page_scene.outcomes[1];

    set_up();
    c->house.leakage = (struct dew_leakage){.c = 0.01, .n = 0.65};
    c->plant.frost = (struct dew_frost_rule){.strategy = strategy,
                                             .start = -5,
                                             .deep = -15,
                                             .share = 0.1,
                                             .share_deep = 0.2,
                                             .dry_dew = -40};
    c->paths[DEW_VENT_ON][0].sensible = 0.75;
    c->paths[DEW_VENT_ON][0].fresh = 0.040;
    o->year.frost_hours = 300;
    o->year.energy.preheat = 210 * 3.6e6;
    for (size_t h = 0; h < o->count; h++)
        page_series[1][h] = 20;
    o->series.supply_t = page_series[2];
    o->series.t_out = page_series[3];
    for (size_t h = 0; h < o->count; h++) {
        page_series[2][h] = 15;
        page_series[3][h] = 0;
    }
    page_series[2][77] = (51.0 - 32) / 1.8;
    page_series[3][77] = -32 / 1.8;
}

TEST(frost_is_told_with_what_it_costs)
{
    json_t *o;

    frost(DEW_FROST_RECIRCULATE);
    o = as_json();
    assert_near(number_at(o, "options.1.frost.defrost_h"), 300, 0);
    assert_near(number_at(o, "options.1.frost.fresh_air_lost_m3"),
                300 * 3600 * 0.040, 1e-6);
    assert_near(number_at(o, "options.1.frost.supply_air_min_c"), 10.5556,
                1e-3);
    /* 51 + 0.2 x (68 - 51) = 54.4 degF */
    assert_near(number_at(o, "options.1.frost.supply_air_min_over_a_cycle_c"),
                (54.4 - 32) / 1.8, 1e-3);
    assert_near(number_at(o, "options.1.frost.ice_possible_below_c"),
                -0.25 / 1.75 * 22.3, 1e-6);
    json_decref(o);
    frost(DEW_FROST_EXHAUST_ONLY);
    page_scene.cases[1].paths[DEW_VENT_DEFROST][0].exhaust = 0.05;
    o = as_json();
    assert_near(number_at(o, "options.1.frost.imbalance_l_s"), 50, 1e-9);
    /* (0.05 / 0.01) ^ (1 / 0.65) */
    assert_near(number_at(o, "options.1.frost.pressure_pa"), -pow(5, 1 / 0.65),
                1e-3);
    json_decref(o);
}

/* Words of the section, with its line breaks taken out. */
TEST(text_tells_them)
{
    static const char *const told[] = {
        "Labels and what they leave open",
        "option 2: its dehumidifier takes out 24.0 L/day at its label's 27 degC and 60 %, and 13.4 L/day "
        "in the air it runs in here, 21 degC and 50 % on average. It runs 2,000 "
        "hours of the year.",
        "its rating leaves open what the core passes: heat 70 to 70 %, moisture "
        "41 to 55 %. Read low it is too humid in 741 hours and too dry in 12, "
        "read high in 751 and 12; the figures above take 70 % and 47 %.",
        "one zone cannot know which of its 2 air handlers runs. Both alike, it "
        "is too humid in 731 hours and the coils put back 417 L; one leading, 761 "
        "hours and 350 L. The figures above are of both alike."};
    char *text, *flat;
    size_t n = 0;

    set_up();
    text = page_written(dew_report_text, &report, NULL);
    flat = calloc(1, strlen(text) + 1);
    for (const char *p = text; *p != '\0'; p++)
        if (*p != ' ' && *p != '\n')
            flat[n++] = *p;
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        char want[700];
        size_t k = 0;

        for (const char *p = told[i]; *p != '\0'; p++)
            if (*p != ' ')
                want[k++] = *p;
        want[k] = '\0';
        if (strstr(flat, want) == NULL)
            fail_msg("not told: %s", told[i]);
    }
    free(flat);
    free(text);
}

TEST(nothing_open_is_not_told)
{
    char *text;

    report = page_open(2, DEW_SYSTEM_SI);
    text = page_written(dew_report_text, &report, NULL);
    assert_null(strstr(text, "leave open"));
    free(text);
}

RUN_TESTS("report, labels");
