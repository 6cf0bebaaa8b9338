/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/leakage.h"

#include <math.h>

#include "core/fail.h"
#include "house/leakage_step.h"

static const double effective_dp = 4.0;    /* Pa  [ASH-F16] */
static const double equivalent_dp = 10.0;  /* Pa  [ASH-F16] */
static const double equivalent_cd = 0.611; /* -   [ASH-F16] */
static const double test_dp = 50.0;        /* Pa  what a blower door reads */

/* One row a storey count, 1 .. 3. */
enum { STOREYS = 3, SHELTERS = 5 };

/* clang-format off */
/* [ASH-F16] table 4: (L/s)2 / (cm4 K), given in m3/s over 1000 cm2. */
static const double basic_stack[STOREYS] = {0.000145, 0.000290, 0.000435};

/* [ASH-F16] table 6, by shelter class 1 .. 5 and storeys. */
static const double basic_wind[SHELTERS][STOREYS] = {
    {0.000319, 0.000420, 0.000494},
    {0.000246, 0.000325, 0.000382},
    {0.000174, 0.000231, 0.000271},
    {0.000104, 0.000137, 0.000161},
    {0.000032, 0.000042, 0.000049},
};

/* [ASH-F16] table 7: wind speed at the eaves over that at the station. */
static const double wind_multiplier[STOREYS] = {0.48, 0.59, 0.67};

/* [ASH-F16] table 8, by flue and storeys. */
static const double enhanced_stack[2][STOREYS] = {
    {0.054, 0.078, 0.098},
    {0.069, 0.089, 0.107},
};

/* [ASH-F16] table 8, by crawl space, flue and storeys. */
static const double enhanced_wind[2][2][STOREYS] = {
    {{0.156, 0.170, 0.170}, {0.142, 0.156, 0.167}},
    {{0.128, 0.142, 0.151}, {0.128, 0.142, 0.154}},
};

/* [ASH-F16] table 9, by shelter class; without a flue alike for all heights. */
static const double shelter_plain[SHELTERS] = {1.00, 0.90, 0.70, 0.50, 0.30};
static const double shelter_flue[SHELTERS][STOREYS] = {
    {1.10, 1.07, 1.06},
    {1.02, 0.98, 0.97},
    {0.86, 0.81, 0.79},
    {0.70, 0.64, 0.61},
    {0.54, 0.47, 0.43},
};
/* clang-format on */

static enum dew_status outside(struct dew_error *err, const char *member,
                               double x, const char *range)
{
    core__in(err, member);
    return core__fail(err, DEW_ERANGE, "%g is outside %s", x, range);
}

double dew_house_flow_at(double c, double n, double dp)
{
    return dp >= 0.0 ? c * pow(dp, n) : NAN;
}

double dew_house_area_at(double c, double n, double dp, double cd,
                         double density)
{
    return dew_house_flow_at(c, n, dp) / cd * sqrt(density / (2.0 * dp));
}

double dew_house_area4(double c, double n, double density)
{
    return dew_house_area_at(c, n, effective_dp, 1.0, density);
}

/* What a leakage area passes at its own pressure, and with it c. */
static double c_of_area(double area, double n, double dp, double cd,
                        double density)
{
    return area * cd * sqrt(2.0 * dp / density) / pow(dp, n);
}

static enum dew_status check_airtight(const struct dew_airtight *in,
                                      struct dew_error *err)
{
    int by_area =
        in->form == DEW_AIRTIGHT_AREA4 || in->form == DEW_AIRTIGHT_AREA10;

    if (!(in->value > 0.0 && isfinite(in->value)))
        return outside(err, "value", in->value, "the numbers above 0");
    if (!core__within(in->n, 0.5, 1.0))
        return outside(err, "n", in->n, "0.5 .. 1");
    if (in->form == DEW_AIRTIGHT_ACH50 &&
        !core__within(in->volume, 20.0, 5000.0))
        return outside(err, "volume", in->volume, "20 .. 5000 m3");
    if (by_area && !core__within(in->density, 0.5, 1.6))
        return outside(err, "density", in->density, "0.5 .. 1.6 kg/m3");
    return DEW_OK;
}

enum dew_status dew_house_airtight_c(const struct dew_airtight *in, double *c,
                                     struct dew_error *err)
{
    double x = in->value, n = in->n;
    enum dew_status status = check_airtight(in, err);

    if (status != DEW_OK)
        return status;
    switch (in->form) {
    case DEW_AIRTIGHT_ACH50:
        *c = x * in->volume / 3600.0 / pow(test_dp, n);
        return DEW_OK;
    case DEW_AIRTIGHT_FLOW50:
        *c = x / pow(test_dp, n);
        return DEW_OK;
    case DEW_AIRTIGHT_AREA4:
        *c = c_of_area(x, n, effective_dp, 1.0, in->density);
        return DEW_OK;
    case DEW_AIRTIGHT_AREA10:
        *c = c_of_area(x, n, equivalent_dp, equivalent_cd, in->density);
        return DEW_OK;
    case DEW_AIRTIGHT_C:
        *c = x;
        return DEW_OK;
    }
    core__in(err, "form");
    return core__fail(err, DEW_EUNKNOWN, "%d is no form of airtightness",
                      (int)in->form);
}

/* A table row between whole storeys. */
static double at_storeys(const double row[STOREYS], double storeys)
{
    int low = storeys < 2.0 ? 0 : 1;
    double share = storeys - 1.0 - low;

    return row[low] + share * (row[low + 1] - row[low]);
}

static enum dew_status check_siting(double c, double n,
                                    const struct dew_siting *siting,
                                    struct dew_error *err)
{
    if (!(c >= 0.0 && isfinite(c)))
        return outside(err, "c", c, "the numbers from 0");
    if (!core__within(n, 0.5, 1.0))
        return outside(err, "n", n, "0.5 .. 1");
    if (!core__within(siting->storeys, 1.0, STOREYS))
        return outside(err, "storeys", siting->storeys, "1 .. 3");
    if (siting->shelter < 1 || siting->shelter > SHELTERS)
        return outside(err, "shelter", siting->shelter, "1 .. 5");
    return DEW_OK;
}

enum dew_status dew_house_leakage_basic(double c, double n, double density,
                                        const struct dew_siting *siting,
                                        struct dew_leakage *out,
                                        struct dew_error *err)
{
    /* eq. 48 divides an area in cm2 by 1000 */
    double area = dew_house_area4(c, n, density) * 1e4 / 1000.0;
    enum dew_status status = check_siting(c, n, siting, err);

    if (status != DEW_OK)
        return status;
    if (!core__within(density, 0.5, 1.6))
        return outside(err, "density", density, "0.5 .. 1.6 kg/m3");
    *out = (struct dew_leakage){
        .c = c,
        .n = n,
        .stack_k = area * sqrt(at_storeys(basic_stack, siting->storeys)),
        .stack_n = 0.5,
        .wind_k = area * sqrt(at_storeys(basic_wind[siting->shelter - 1],
                                         siting->storeys)),
        .wind_n = 1.0,
    };
    return DEW_OK;
}

enum dew_status dew_house_leakage_enhanced(double c, double n,
                                           const struct dew_siting *siting,
                                           struct dew_leakage *out,
                                           struct dew_error *err)
{
    int flue = siting->flue != 0, crawl = siting->crawlspace != 0;
    double high = siting->storeys, shelter, speed;
    enum dew_status status = check_siting(c, n, siting, err);

    if (status != DEW_OK)
        return status;
    shelter = flue ? at_storeys(shelter_flue[siting->shelter - 1], high)
                   : shelter_plain[siting->shelter - 1];
    speed = shelter * at_storeys(wind_multiplier, high);
    *out = (struct dew_leakage){
        .c = c,
        .n = n,
        .stack_k = c * at_storeys(enhanced_stack[flue], high),
        .stack_n = n,
        .wind_k = c * at_storeys(enhanced_wind[crawl][flue], high) *
                  pow(speed, 2.0 * n),
        .wind_n = 2.0 * n,
    };
    return DEW_OK;
}

struct dew_leakage dew_house_leakage_given(double c, double n, double flow)
{
    return (struct dew_leakage){
        .c = c, .n = n, .stack_n = n, .wind_n = 2.0 * n, .constant = flow};
}

double dew_house_leakage_natural(const struct dew_leakage *leakage, double dt,
                                 double wind)
{
    if (!(wind >= 0.0))
        return NAN;
    return house__natural(leakage, dt, wind);
}

static int flows(double natural, double supply, double exhaust)
{
    return natural >= 0.0 && supply >= 0.0 && exhaust >= 0.0;
}

double dew_house_leakage_total(double natural, double supply, double exhaust)
{
    return supply + dew_house_leakage_in(natural, supply, exhaust);
}

double dew_house_leakage_in(double natural, double supply, double exhaust)
{
    if (!flows(natural, supply, exhaust))
        return NAN;
    return house__leak_in(natural, supply, exhaust);
}

double dew_house_pressure(const struct dew_leakage *leakage, double supply,
                          double exhaust)
{
    return leakage->c > 0.0 ? house__pressure(leakage, supply - exhaust) : NAN;
}

double dew_house_storey_factor(double storeys)
{
    return core__within(storeys, 1.0, STOREYS) ? pow(storeys, 0.4) : NAN;
}

double dew_house_credit_flow50(double flow50, double factor, double wsf)
{
    if (!core__within(wsf, 0.0, 2.0) || !(flow50 >= 0.0))
        return NAN;
    return 0.052 * wsf * factor * flow50; /* [NREL-SWS] */
}
