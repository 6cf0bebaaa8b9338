/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rates against every cell of the printed tables. */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "dew/rates.h"

static const double ft2 = 0.3048 * 0.3048;
static const double cfm = 0.3048 * 0.3048 * 0.3048 / 60.0;

/* clang-format off */
/* [IRC21-WA] table M1505.4.3(1), cfm by bedrooms 0-1, 2, 3, 4, 5 and more. */
static const struct cells { const char *source; double top; double cfm[5]; } irc_wa_rows[] = {
    {"[IRC21-WA] table M1505.4.3(1), below 500 ft2",  500,  {30, 30, 35, 45, 50}},
    {"[IRC21-WA] table M1505.4.3(1), 501 - 1000",     1000, {30, 35, 40, 50, 55}},
    {"[IRC21-WA] table M1505.4.3(1), 1001 - 1500",    1500, {30, 40, 45, 55, 60}},
    {"[IRC21-WA] table M1505.4.3(1), 1501 - 2000",    2000, {35, 45, 50, 60, 65}},
    {"[IRC21-WA] table M1505.4.3(1), 2001 - 2500",    2500, {40, 50, 55, 65, 70}},
    {"[IRC21-WA] table M1505.4.3(1), 2501 - 3000",    3000, {45, 55, 60, 70, 75}},
    {"[IRC21-WA] table M1505.4.3(1), 3001 - 3500",    3500, {50, 60, 65, 75, 80}},
    {"[IRC21-WA] table M1505.4.3(1), 3501 - 4000",    4000, {55, 65, 70, 80, 85}},
    {"[IRC21-WA] table M1505.4.3(1), 4001 - 4500",    4500, {60, 70, 75, 85, 90}},
    {"[IRC21-WA] table M1505.4.3(1), 4501 - 5000",    5000, {65, 75, 80, 90, 95}},
};

/* [IRC-M1505] table M1505.4.3(1), cfm by bedrooms 0-1, 2-3, 4-5, 6-7, more; the row
   to 3000 ft2 is quoted, the others from memory. */
static const struct cells model_rows[] = {
    {"[IRC-M1505] table M1505.4.3(1), below 1500 ft2, from memory", 1500, {30, 45, 60, 75, 90}},
    {"[IRC-M1505] table M1505.4.3(1), 1501 - 3000",                 3000, {45, 60, 75, 90, 105}},
    {"[IRC-M1505] table M1505.4.3(1), 3001 - 4500, from memory",    4500, {60, 75, 90, 105, 120}},
    {"[IRC-M1505] table M1505.4.3(1), 4501 - 6000, from memory",    6000, {75, 90, 105, 120, 135}},
    {"[IRC-M1505] table M1505.4.3(1), 6001 - 7500, from memory",    7500, {90, 105, 120, 135, 150}},
    {"[IRC-M1505] table M1505.4.3(1), above 7500, from memory",     9000, {105, 120, 135, 150, 165}},
};

/* [ASH-622] 2013 table 4.1a by [UPC-E]. */
static const struct cells table_rows[] = {
    {"[ASH-622] table 4.1a, below 500 ft2",  500,  {30, 38, 45, 53, 60}},
    {"[ASH-622] table 4.1a, 501 - 1000",     1000, {45, 53, 60, 68, 75}},
    {"[ASH-622] table 4.1a, 1001 - 1500",    1500, {60, 68, 75, 83, 90}},
    {"[ASH-622] table 4.1a, 1501 - 2000",    2000, {75, 83, 90, 98, 105}},
    {"[ASH-622] table 4.1a, 2001 - 2500",    2500, {90, 98, 105, 113, 120}},
    {"[ASH-622] table 4.1a, 2501 - 3000",    3000, {105, 113, 120, 128, 135}},
    {"[ASH-622] table 4.1a, 3001 - 3500",    3500, {120, 128, 135, 143, 150}},
    {"[ASH-622] table 4.1a, 3501 - 4000",    4000, {135, 143, 150, 158, 165}},
    {"[ASH-622] table 4.1a, 4001 - 4500",    4500, {150, 158, 165, 173, 180}},
    {"[ASH-622] table 4.1a, 4501 - 5000",    5000, {165, 173, 180, 188, 195}},
};

static const struct asked { const char *source; enum dew_rate_rule rule; struct dew_dwelling home; double flow, unit, tol; } asked_rows[] = {
    {"2400 ft2, 3 bedrooms: 102 cfm",  DEW_RATE_622_2013, {2400 * 0.09290304, 0, 3, 0}, 102, 4.719474432e-4, 1e-9},
    {"2400 ft2, 3 bedrooms: 54 cfm",   DEW_RATE_622_2010, {2400 * 0.09290304, 0, 3, 0}, 54,  4.719474432e-4, 1e-9},
    {"2150 ft2, 4 bedrooms: 102 cfm",  DEW_RATE_622_2013, {2150 * 0.09290304, 0, 4, 0}, 102, 4.719474432e-4, 1e-9},
    {"2150 ft2, 4 bedrooms: 59 cfm",   DEW_RATE_622_2010, {2150 * 0.09290304, 0, 4, 0}, 59,  4.719474432e-4, 1e-9},
    {"[UPC-E] at least one bedroom",   DEW_RATE_622_2013, {2400 * 0.09290304, 0, 0, 0}, 87, 4.719474432e-4, 1e-9},
    {"[UPC-E] the same, metric",       DEW_RATE_622_2013_METRIC, {157, 0, 0, 0}, 30.55, 1e-3, 1e-9},
    {"[ASH-F17] worked house 43 L/s",  DEW_RATE_622_2013_METRIC, {195.3, 0, 3, 0}, 43, 1e-3, 0.5},
    {"[ADF21] one habitable room",     DEW_RATE_ADF_2021, {29, 0, 0, 0}, 13, 1e-3, 1e-9},
    {"[ADF21] table 1.3, 1 bedroom",   DEW_RATE_ADF_2021, {50, 0, 1, 0}, 19, 1e-3, 1e-9},
    {"[ADF21] table 1.3, 2 bedrooms",  DEW_RATE_ADF_2021, {50, 0, 2, 0}, 25, 1e-3, 1e-9},
    {"[ADF21] table 1.3, 3 bedrooms",  DEW_RATE_ADF_2021, {50, 0, 3, 0}, 31, 1e-3, 1e-9},
    {"[ADF21] table 1.3, 4 bedrooms",  DEW_RATE_ADF_2021, {50, 0, 4, 0}, 37, 1e-3, 1e-9},
    {"[ADF21] table 1.3, 5 bedrooms",  DEW_RATE_ADF_2021, {50, 0, 5, 0}, 43, 1e-3, 1e-9},
    {"[ADF21] 6 more each bedroom",    DEW_RATE_ADF_2021, {50, 0, 7, 0}, 55, 1e-3, 1e-9},
    {"[ADF21] by floor, 0.3 L/s m2",   DEW_RATE_ADF_2021, {211, 0, 3, 0}, 63.3, 1e-3, 1e-9},
    {"edition 2010, no bedroom",       DEW_RATE_ADF_2010, {29, 0, 0, 0}, 13, 1e-3, 1e-9},
    {"edition 2010, 4 bedrooms",       DEW_RATE_ADF_2010, {50, 0, 4, 0}, 25, 1e-3, 1e-9},
    {"[EN16798] category II",          DEW_RATE_EN16798_II, {137, 0, 3, 0}, 57.54, 1e-3, 1e-9},
    {"0.35 changes of 460 m3",         DEW_RATE_ACH_035, {170, 460, 3, 2}, 0.35 * 460 / 3.6, 1e-3, 1e-9},
    {"15 cfm for 9 persons",           DEW_RATE_ACH_035, {170, 460, 3, 9}, 135, 4.719474432e-4, 1e-9},
};

/* Same mean concentration from a steady source (exact, worked out apart). */
static const struct effect { const char *source; double share; double turns[7]; double value[7]; } effectiveness_rows[] = {
    {"on a tenth of the time",    0.10, {.25, .5, 1, 1.5, 2, 2.5, 3}, {.9958, .9829, .9287, .8254, .6293, NAN, NAN}},
    {"on a quarter of the time",  0.25, {.25, .5, 1, 1.5, 2, 2.5, 3}, {.9971, .9882, .9516, .8863, .7831, .6204, .3563}},
    {"on half of the time",       0.50, {.25, .5, 1, 1.5, 2, 2.5, 3}, {.9987, .9948, .9791, .9527, .9155, .8672, .8083}},
    {"on three quarters",         0.75, {.25, .5, 1, 1.5, 2, 2.5, 3}, {.9997, .9987, .9949, .9886, .9801, .9696, .9576}},
};
/* clang-format on */

static void every_cell(const struct cells *row, enum dew_rate_rule rule)
{
    for (int b = 0; b < 5; b++) {
        struct dew_dwelling top = {row->top * ft2, 0, b + 1, 0};
        struct dew_dwelling low = {(row->top - 380.7) * ft2, 0, b + 1, 0};

        assert_near(dew_house_rate(rule, &top) / cfm, row->cfm[b], 1e-9);
        assert_near(dew_house_rate(rule, &low) / cfm, row->cfm[b], 1e-9);
    }
}

static void washington_table_is_the_printed(void **state)
{
    const struct cells *row = *state;
    struct dew_dwelling none = {row->top * ft2, 0, 0, 0};
    struct dew_dwelling many = {row->top * ft2, 0, 9, 0};

    every_cell(row, DEW_RATE_IRC_2021_WA_TABLE);
    assert_near(dew_house_rate(DEW_RATE_IRC_2021_WA_TABLE, &none) / cfm,
                row->cfm[0], 1e-9);
    assert_near(dew_house_rate(DEW_RATE_IRC_2021_WA_TABLE, &many) / cfm,
                row->cfm[4], 1e-9);
}

/* Both ends of each step of floor, both counts of bedrooms of each column. */
static void model_table_is_the_printed(void **state)
{
    const struct cells *row = *state;

    for (int bedrooms = 0; bedrooms <= 9; bedrooms++) {
        int column = bedrooms > 7 ? 4 : bedrooms / 2;
        struct dew_dwelling top = {row->top * ft2, 0, bedrooms, 0};
        struct dew_dwelling low = {(row->top - 1380.7) * ft2, 0, bedrooms, 0};

        assert_near(dew_house_rate(DEW_RATE_IRC_TABLE, &top) / cfm,
                    row->cfm[column], 1e-9);
        assert_near(dew_house_rate(DEW_RATE_IRC_TABLE, &low) / cfm,
                    row->cfm[column], 1e-9);
    }
}

static void ashrae_table_is_the_printed(void **state)
{
    every_cell(*state, DEW_RATE_622_2013_TABLE);
}

static void rule_asks_the_printed(void **state)
{
    const struct asked *row = *state;

    assert_near(dew_house_rate(row->rule, &row->home) / row->unit, row->flow,
                row->tol);
}

static void effectiveness_is_the_exact_one(void **state)
{
    const struct effect *row = *state;

    for (int i = 0; i < 7; i++) {
        double got = dew_house_effectiveness(row->share, row->turns[i]);

        if (isnan(row->value[i]))
            assert_nan(got);
        else
            assert_near(got, row->value[i], 5.1e-5);
    }
}

/* A steady flow turned into a fan in pauses, and back. */
TEST(a_steady_flow_comes_back)
{
    static const double share[] = {0.17, 0.41, 0.83, 1.0};

    for (int i = 0; i < 4; i++) {
        double volume = 413.0, cycle = 5.7 * 3600.0, flow = 0.031;
        double turns = flow * cycle / volume;
        double on =
            flow / (dew_house_effectiveness(share[i], turns) * share[i]);

        assert_near(dew_house_steady(on, share[i], cycle, volume), flow, 1e-12);
    }
    assert_nan(dew_house_steady(0.0, 0.5, 3600.0, 400.0));
}

TEST(rules_end_where_they_end)
{
    struct dew_dwelling large = {5001 * ft2, 900, 3, 4};
    struct dew_dwelling small = {9.9, 30, 1, 1};
    struct dew_dwelling larger = {17000 * ft2, 900, 3, 4};

    assert_nan(dew_house_rate(DEW_RATE_IRC_2021_WA_TABLE, &large));
    assert_nan(dew_house_rate(DEW_RATE_622_2013_TABLE, &large));
    assert_nan(dew_house_rate(DEW_RATE_622_2013, &small));
    assert_near(dew_house_rate(DEW_RATE_IRC_TABLE, &larger) / cfm, 120, 1e-9);
    assert_string_equal(dew_house_rate_words(DEW_RATE_IRC_2021_WA_TABLE),
                        "IRC 2021 as amended by Washington State: table "
                        "M1505.4.3(1)");
    assert_nan(dew_house_rate(DEW_RATE_RULES, &large));
    assert_null(dew_house_rate_key(DEW_RATE_RULES));
    assert_string_equal(dew_house_rate_key(DEW_RATE_ADF_2021), "adf-2021");
    assert_non_null(strstr(dew_house_rate_words(DEW_RATE_622_2010), "0.01"));
}

TEST(credit_lowers_the_fan)
{
    assert_near(dew_house_fan_rate(DEW_CREDIT_NONE, 48.1, 17.3, 0), 48.1, 0.0);
    assert_near(dew_house_fan_rate(DEW_CREDIT_2013, 48.1, 17.3, 0), 30.8,
                1e-13);
    /* "can be fully subtracted" [NREL-SWS]; 2/3 at most in a new house */
    assert_near(dew_house_fan_rate(DEW_CREDIT_2013, 48.1, 45.0, 0), 3.1, 1e-13);
    assert_near(dew_house_fan_rate(DEW_CREDIT_2013, 48.1, 53.0, 0), 0.0, 0.0);
    assert_near(dew_house_fan_rate(DEW_CREDIT_2013_NEW, 48.1, 45.0, 0),
                48.1 / 3.0, 1e-13);
    assert_near(dew_house_fan_rate(DEW_CREDIT_2013_NEW, 48.1, 17.3, 0), 30.8,
                1e-13);
    assert_near(dew_house_fan_rate(DEW_CREDIT_2016, 48.1, 17.3, 1), 30.8,
                1e-13);
    assert_near(dew_house_fan_rate(DEW_CREDIT_2016, 48.1, 17.3, 0),
                48.1 - 17.3 * 17.3 / 48.1, 1e-13);
    assert_near(dew_house_fan_rate(DEW_CREDIT_2016, 48.1, 50.0, 1), 0.0, 0.0);
}

TEST(local_rows_are_found)
{
    const struct dew_exhaust_rule *rules;
    size_t count;

    rules = dew_house_locals(&count);
    assert_int_equal(count, 22);
    assert_near(rules[0].flow, 100 * cfm, 1e-15); /* 62.2, kitchen */
    assert_near(rules[1].changes, 5.0, 0.0);
}

ROWS(irc_wa_rows, washington_table_is_the_printed);
ROWS(model_rows, model_table_is_the_printed);
ROWS(table_rows, ashrae_table_is_the_printed);
ROWS(asked_rows, rule_asks_the_printed);
ROWS(effectiveness_rows, effectiveness_is_the_exact_one);
RUN_TESTS("house, rates");
