/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A house before and after: the log beside the house as it was, and the air
   change from CO2. */
#include "evidence/made.h"

static struct made made;

/* ---- a change ----------------------------------------------------------------------------- */

TEST(a_change_is_the_log_less_the_house_as_it_was)
{
    enum { FROM = 70 * 24 };
    struct core__random *r;
    struct dew_evidence *e;
    struct dew_evidence_change before, after;
    double humid = 0;

    assert_int_equal(core__random_open(&r, 91, NULL), DEW_OK);
    made_outdoors(&made, r, 130 * 24, 60.0);
    made_log(&made, r, MADE_TRUTH, &MADE_NOISE);
    e = made_learned(&made, 60 * 24);
    before = made_changed(&made, e, FROM, 0.5);
    for (size_t h = 60 * 24; h < made.count; h++) {
        made.hours[h].rh -= 0.08;
        humid += h >= FROM && made.hours[h].rh > 0.5;
    }
    after = made_changed(&made, e, FROM, 0.5);
    assert_near(after.days, 60, 1e-12);
    assert_near(after.rh.p50, before.rh.p50 - 8, 1e-9);
    assert_near(after.rh.p90, before.rh.p90 - 8, 1e-9);
    assert_near(after.pv.p50, before.pv.p50 - 0.08 * dew_air_pws_liquid(21.7),
                8.0);
    assert_near(after.humid_logged, humid, 0);
    assert_near(after.humid.p50, before.humid.p50, 0);
    assert_true(before.humid_logged > before.humid.p10 * 0.5);
    assert_true(before.drier > 0.02 && before.drier < 0.98);
    assert_true(after.drier > 0.99);
    dew_evidence_close(e);
    core__random_close(r);
}

/* Without doubt of the house, the draws go as far apart as the band says. */
TEST(draws_are_as_wide_as_the_band)
{
    struct core__random *r;
    struct dew_evidence *e;
    const struct dew_evidence_told *t;
    struct dew_evidence_change c;
    double sd = 0, n = 0;

    assert_int_equal(core__random_open(&r, 92, NULL), DEW_OK);
    made_outdoors(&made, r, 100 * 24, 60.0);
    made_log(&made, r, MADE_TRUTH, &MADE_NOISE);
    e = made_learned(&made, 60 * 24);
    t = dew_evidence_told(e);
    for (size_t h = 61 * 24; h < 68 * 24 + 1; h++) {
        sd += t[h].sd;
        n += 1;
    }
    /* of the mean of a week: what is slow is in it, what is quick is not */
    for (size_t h = 68 * 24 + 1; h < made.count; h++)
        made.hours[h].rh = NAN;
    c = made_changed(&made, e, 61 * 24, 0.6);
    assert_true((c.rh.p90 - c.rh.p10) / 2 < 1.2816 * sd / n);
    assert_true((c.rh.p90 - c.rh.p10) / 2 > 0.35 * 1.2816 * sd / n);
    dew_evidence_close(e);
    core__random_close(r);
}

TEST(a_change_too_short_is_refused)
{
    struct core__random *r;
    struct dew_evidence *e;
    struct dew_evidence_change c;
    struct dew_evidence_change_ask ask = {
        .hours = made.hours, .from = 95 * 24, .too_humid = 0.6, .draws = 50};
    struct dew_error err = {0};

    assert_int_equal(core__random_open(&r, 93, NULL), DEW_OK);
    made_outdoors(&made, r, 100 * 24, 60.0);
    made_log(&made, r, MADE_TRUTH, &MADE_NOISE);
    e = made_learned(&made, 60 * 24);
    assert_int_equal(dew_evidence_changed(e, &ask, &c, &err), DEW_EMISSING);
    assert_string_equal(err.text,
                        "5.0 days to compare after the change and the time it "
                        "takes to show: less than 7 tell nothing");
    ask.from = 59 * 24; /* learned from */
    assert_int_equal(dew_evidence_changed(e, &ask, &c, NULL), DEW_ERANGE);
    ask.from = 70 * 24;
    ask.draws = 9;
    assert_int_equal(dew_evidence_changed(e, &ask, &c, NULL), DEW_ERANGE);
    dew_evidence_close(e);
    core__random_close(r);
}

/* ---- falls of CO2 --------------------------------------------------------------------------- */

/* Closed form: what falls by exp(-n) an hour has that air change; hours that
   rise, a fall of two hours and a fall from too low are none. */
TEST(falls_of_co2_tell_the_air_change)
{
    double co2[40], x = 900;
    struct dew_evidence_falls f;

    for (int i = 0; i < 40; i++)
        co2[i] = 424 + 10 * i; /* rising */
    for (int i = 0; i < 5; i++, x *= exp(-0.31))
        co2[10 + i] = 424 + x; /* 900 to 260 above */
    co2[15] = 424 + 300;
    for (int i = 0; i < 3; i++)
        co2[20 + i] = 424 + 800 * exp(-0.53 * i);
    co2[23] = 424 + 300;
    co2[26] = 424 + 700; /* one hour, and then too low */
    co2[27] = 424 + 90;
    co2[30] = 424 + 390; /* from too low */
    co2[31] = 424 + 290;
    co2[32] = 424 + 190;
    assert_int_equal(dew_evidence_falls(co2, 40, 424, &f, NULL), DEW_OK);
    assert_int_equal(f.count, 2);
    assert_near(f.rate.p50, 0.5 * (0.31 + 0.53), 1e-9);
    assert_near(f.rate.p10, 0.31 + 0.1 * 0.22, 1e-9);
    co2[12] = NAN; /* a hole ends a fall */
    assert_int_equal(dew_evidence_falls(co2, 40, 424, &f, NULL), DEW_OK);
    assert_int_equal(f.count, 1);
    assert_int_equal(dew_evidence_falls(co2, 5, 424, &f, NULL), DEW_OK);
    assert_int_equal(f.count, 0);
    assert_nan(f.rate.p50);
    assert_int_equal(dew_evidence_falls(co2, 5, 24, &f, NULL), DEW_ERANGE);
}

/* ---- what was not seen ---------------------------------------------------------------------- */

/* Closed form: 0.15 of the curve, our own figure, that grow over 60 days. */
TEST(a_season_not_seen_adds_a_share_of_the_curve)
{
    const struct evidence__step step = {.slope = 0.04, .node = 2, .share = 0.7};
    const double curve = 0.3 * 371 + 0.7 * 214;

    assert_near(evidence__unseen(&step, MADE_TRUTH, 30.0 * 24),
                0.15 * curve * 0.04 * sqrt(1 - exp(-1)), 1e-12);
    assert_near(evidence__unseen(&step, MADE_TRUTH, 1e6), 0.15 * curve * 0.04,
                1e-12);
}

RUN_TESTS("evidence of a change");
