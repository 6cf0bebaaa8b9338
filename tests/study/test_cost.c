/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Interest factors, the degree-day rule, bills and paybacks. */
#include "support/rows.h"

#include "dew/cost.h"

#define CFM   (0.3048 * 0.3048 * 0.3048 / 60) /* exact */
#define MMBTU 1.05505585262e9                 /* J, international table */
#define KWH   3.6e6
#define ONCE(x)                                                                \
    {                                                                          \
        (x), (x), (x)                                                          \
    }

/*
 * Interest tables of a standard text, four decimals; [BLANK-TARQUIN], the
 * values from memory.
 */
static const struct factor_row {
    const char *name;
    double (*function)(double interest, double years);
    double interest, years, want, tolerance;
} factor_rows[] = {
    {"P/F, 5 %, 20 years, [BLANK-TARQUIN]", dew_cost_present_worth, 0.05, 20,
     0.3769, 5e-5},
    {"P/F, 8 %, 12 years, [BLANK-TARQUIN]", dew_cost_present_worth, 0.08, 12,
     0.3971, 5e-5},
    {"P/A, 10 %, 10 years, [BLANK-TARQUIN]", dew_cost_annuity_worth, 0.10, 10,
     6.1446, 5e-5},
    {"P/A, 5 %, 20 years, [BLANK-TARQUIN]", dew_cost_annuity_worth, 0.05, 20,
     12.4622, 5e-5},
    {"P/A, 8 %, 25 years, of A/P 0.09368, [BLANK-TARQUIN]",
     dew_cost_annuity_worth, 0.08, 25, 1 / 0.09368, 5.7e-4},
    {"P/A without interest is the count of years", dew_cost_annuity_worth, 0,
     17.5, 17.5, 0},
    {"P/A nears the count of years as interest goes to 0",
     dew_cost_annuity_worth, 1e-12, 17.5, 17.5, 1e-8},
};

static void interest_factor(void **state)
{
    const struct factor_row *r = *state;

    assert_near(r->function(r->interest, r->years), r->want, r->tolerance);
}

TEST(annuity_is_the_sum_of_its_payments)
{
    double sum = 0;

    for (int n = 1; n <= 23; n++)
        sum += dew_cost_present_worth(0.0371, n);
    assert_near(dew_cost_annuity_worth(0.0371, 23), sum, 1e-12);
}

TEST(factors_outside_their_range_are_nan)
{
    assert_nan(dew_cost_present_worth(-1, 5));
    assert_nan(dew_cost_annuity_worth(0.03, -2));
}

static const struct dew_prices prices = {
    .electricity = {0.16 / KWH, 0.13 / KWH, 0.21 / KWH},
    .gas = {1.35 / 105.505585e6, 1.1 / 105.505585e6, 1.8 / 105.505585e6},
    .oil = ONCE(NAN),
    .propane = ONCE(NAN),
    .wood = ONCE(NAN),
    .wage = ONCE(25.0 / 3600),
    .interest = 0.03,
    .years = 20,
};

static const struct dew_energy used = {
    .ventilator = 412.7 * KWH,
    .blower = 233 * KWH,
    .cooling = 1871 * KWH,
    .heating_fuel = 37.4 * 105.505585e6,
};

TEST(bill_prices_each_end_use)
{
    struct dew_bill b = dew_cost_bill(&used, 1, 8760, &prices, NULL);

    assert_near(b.ventilator.likely, 412.7 * 0.16, 1e-9);
    assert_near(b.blower.high, 233 * 0.21, 1e-9);
    assert_near(b.heating_fuel.low, 37.4 * 1.1, 1e-9);
    assert_near(b.preheat.likely, 0, 0);
    assert_near(b.energy.likely, (412.7 + 233 + 1871) * 0.16 + 37.4 * 1.35,
                1e-9);
    assert_near(b.install.likely, 0, 0);
}

TEST(a_short_run_is_scaled_to_a_year)
{
    struct dew_bill b = dew_cost_bill(&used, 1, 2190, &prices, NULL);

    assert_near(b.ventilator.likely, 4 * 412.7 * 0.16, 1e-9);
}

TEST(a_price_not_given_is_nan_only_where_used)
{
    struct dew_bill gas = dew_cost_bill(&used, 1, 8760, &prices, NULL);
    struct dew_bill oil = dew_cost_bill(&used, 2, 8760, &prices, NULL);

    assert_true(gas.present.likely > 0);
    assert_nan(oil.heating_fuel.likely);
    assert_nan(oil.energy.likely);
    assert_near(oil.cooling.likely, 1871 * 0.16, 1e-9);
}

/* 3,200 now, again after 12 years of 20; 40 h at 25; 85 a year. */
TEST(present_value_by_hand)
{
    const struct dew_energy none = {.ventilator = 500 * KWH};
    const struct dew_costs costs = {.install = ONCE(3200),
                                    .upkeep = ONCE(85),
                                    .own_hours = ONCE(40 * 3600.0),
                                    .life = 12};
    struct dew_bill b = dew_cost_bill(&none, 0, 8760, &prices, &costs);
    double again = pow(1.03, -12), yearly = (1 - pow(1.03, -20)) / 0.03;

    assert_near(b.install.likely, 4200, 1e-9);
    assert_near(b.yearly.likely, 165, 1e-9);
    assert_near(b.present.likely, 4200 * (1 + again) + 165 * yearly, 1e-8);
}

TEST(a_second_stage_weighs_by_its_chance)
{
    const struct dew_energy none = {.ventilator = 0};
    const struct dew_costs costs = {.install = ONCE(1000),
                                    .later = {2600, 2100, 3300},
                                    .later_chance = 0.3,
                                    .later_after = 1};
    struct dew_bill b = dew_cost_bill(&none, 0, 8760, &prices, &costs);

    assert_near(b.present.likely, 1000 + 0.3 * 2600 / 1.03, 1e-9);
    assert_near(b.present.low, 1000, 1e-9);
    assert_near(b.present.high, 1000 + 3300 / 1.03, 1e-9);
}

/* Half of the year at one price, half at another; gas has its own season. */
TEST(a_season_is_priced_month_by_month)
{
    struct dew_prices p = prices;
    struct dew_tally months[12] = {{0}};
    struct dew_bill b;

    p.electricity_seasonal = p.gas_seasonal = 1;
    for (int m = 0; m < 12; m++) {
        int summer = m >= 3 && m < 9;

        months[m].hours = 730;
        months[m].energy.cooling = summer ? 310 * KWH : 0;
        months[m].energy.ventilator = 40 * KWH;
        months[m].energy.heating_fuel = m == 0 ? 12e9 : 0;
        p.electricity_by_month[m] =
            summer ? (struct dew_estimate){0.28 / KWH, 0.22 / KWH, 0.31 / KWH}
                   : (struct dew_estimate)ONCE(0.11 / KWH);
        p.gas_by_month[m] = (struct dew_estimate)ONCE((10.0 - m) * 1e-9);
    }
    b = dew_cost_bill_months(months, 1, &p, NULL);
    assert_near(b.cooling.likely, 6 * 310 * 0.28, 1e-9);
    assert_near(b.cooling.low, 6 * 310 * 0.22, 1e-9);
    assert_near(b.ventilator.likely, 40 * 6 * (0.28 + 0.11), 1e-9);
    assert_near(b.heating_fuel.likely, 120, 1e-9);
    assert_near(b.energy.likely, 6 * 310 * 0.28 + 240 * 0.39 + 120, 1e-9);
    p.electricity_seasonal = 0; /* then the one price holds all year */
    b = dew_cost_bill_months(months, 1, &p, NULL);
    assert_near(b.cooling.likely, 6 * 310 * 0.16, 1e-9);
    for (int m = 0; m < 12; m++)
        months[m].hours = 365; /* half a year is scaled to one */
    b = dew_cost_bill_months(months, 1, &p, NULL);
    assert_near(b.cooling.likely, 12 * 310 * 0.16, 1e-9);
}

/* 3,200 now at 950 a year; 4,100 more after two years in four of ten cases,
   then 938 a year; or 6,900 at once.  20 years at 3 %, summed year by year. */
TEST(two_stages_by_hand)
{
    const struct dew_costs costs = {
        .later = ONCE(4100), .later_chance = 0.4, .later_after = 2};
    struct dew_bill first = {.install = ONCE(3200), .yearly = ONCE(950)};
    struct dew_bill next = {.yearly = ONCE(938), .present = ONCE(20855)};
    struct dew_staged s = dew_cost_staged(&first, &next, &costs, &prices);
    double stays = 3200, goes = 3200 + 4100 / 1.03 / 1.03, even;

    for (int n = 1; n <= 20; n++) {
        stays += 950 / pow(1.03, n);
        goes += (n <= 2 ? 950 : 938) / pow(1.03, n);
    }
    even = (20855 - stays) / (goes - stays);
    assert_near(s.now, 3200, 0);
    assert_near(s.both, 0.6 * stays + 0.4 * goes, 1e-8);
    assert_near(s.at_once, 20855, 0);
    assert_near(s.break_even, even, 1e-12);
}

/*
 * The manual's worked comparison of two designs, 20 years at 3 %: purchase,
 * a renewal in year 12, what is left in year 20, energy and upkeep a year.
 * Its factors are rounded, energy has one of its own for the fuel prices then
 * forecast.  [NIST-HB135], all figures from memory.
 */
static const struct design_row {
    const char *name;
    double purchase, renewal, left, energy, upkeep, cost;
} design_rows[] = {
    {"conventional design: $516,233, [NIST-HB135]", 103000, 12000, 3500, 20000,
     7000, 516233},
    {"energy-saving design: $432,443, [NIST-HB135]", 110000, 12500, 3700, 13000,
     8000, 432443},
};

static double rounded(double x, double to)
{
    return floor(x / to + 0.5) * to;
}

static void a_published_life_cycle(void **state)
{
    const struct design_row *r = *state;
    const double fuel = 15.13; /* the manual's own, for its forecast */
    double again = rounded(dew_cost_present_worth(0.03, 12), 1e-3);
    double end = rounded(dew_cost_present_worth(0.03, 20), 1e-3);
    double yearly = rounded(dew_cost_annuity_worth(0.03, 20), 1e-2);

    assert_near(again, 0.701, 1e-12);
    assert_near(end, 0.554, 1e-12);
    assert_near(yearly, 14.88, 1e-12);
    assert_near(r->purchase + r->renewal * again - r->left * end +
                    r->energy * fuel + r->upkeep * yearly,
                r->cost, 0.5);
}

static const struct payback_row {
    const char *name;
    double base_yearly, yearly, base_install, install, want;
} payback_rows[] = {
    {"3,600 more, 240 a year saved: 15 years", 890, 650, 200, 3800, 15},
    {"costs more to run: never", 650, 690.5, 0, 3800, INFINITY},
    {"saves nothing: never", 650, 650, 0, 3800, INFINITY},
    {"costs no more and saves: at once", 650, 600, 900, 700, 0},
    {"no price: not known", 650, NAN, 0, 3800, NAN},
};

static void payback(void **state)
{
    const struct payback_row *r = *state;
    struct dew_bill base = {.yearly = ONCE(r->base_yearly),
                            .install = ONCE(r->base_install)};
    struct dew_bill option = {.yearly = ONCE(r->yearly),
                              .install = ONCE(r->install)};
    double got = dew_cost_payback(&base, &option).likely;

    if (isnan(r->want))
        assert_nan(got);
    else
        assert_true(got == r->want);
}

TEST(payback_range_holds_the_likely)
{
    struct dew_bill base = {.yearly = {900, 800, 1100},
                            .install = {300, 200, 500}};
    struct dew_bill option = {.yearly = {600, 540, 700},
                              .install = {3000, 2500, 4000}};
    struct dew_estimate p = dew_cost_payback(&base, &option);

    assert_near(p.likely, 2700.0 / 300, 1e-12);
    assert_near(p.low, 2300.0 / 400, 1e-12);
    assert_near(p.high, 3500.0 / 260, 1e-12);
}

ROWS(factor_rows, interest_factor);
ROWS(payback_rows, payback);
ROWS(design_rows, a_published_life_cycle);
RUN_TESTS("study, cost");
