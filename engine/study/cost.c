/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bills, present values and paybacks. */
#include <math.h>

#include "dew/cost.h"

#define YEAR_HOURS 8760.0

double dew_cost_present_worth(double interest, double years)
{
    if (!(interest > -1) || !(years >= 0))
        return NAN;
    return exp(-years * log1p(interest));
}

double dew_cost_annuity_worth(double interest, double years)
{
    if (!(interest > -1) || !(years >= 0))
        return NAN;
    if (interest == 0)
        return years;
    return -expm1(-years * log1p(interest)) / interest;
}

/* Nothing used costs nothing, whatever the price. */
static struct dew_estimate priced(double joules, struct dew_estimate price)
{
    if (joules == 0)
        return (struct dew_estimate){0, 0, 0};
    return (struct dew_estimate){joules * price.likely, joules * price.low,
                                 joules * price.high};
}

static struct dew_estimate sum(struct dew_estimate a, struct dew_estimate b)
{
    return (struct dew_estimate){a.likely + b.likely, a.low + b.low,
                                 a.high + b.high};
}

static struct dew_estimate times(struct dew_estimate a, double by)
{
    return (struct dew_estimate){a.likely * by, a.low * by, a.high * by};
}

static struct dew_estimate fuel_price(const struct dew_prices *p, int fuel)
{
    const struct dew_estimate none = {NAN, NAN, NAN};

    switch (fuel) {
    case 0:
        return p->electricity;
    case 1:
        return p->gas;
    case 2:
        return p->oil;
    case 3:
        return p->propane;
    case 4:
        return p->wood;
    default:
        return none;
    }
}

static void use_energy(struct dew_bill *b, const struct dew_energy *energy,
                       struct dew_estimate electricity,
                       struct dew_estimate fuel)
{
    struct dew_energy electric = *energy;

    electric.heating_fuel = 0;
#define X(name, words)                                                         \
    b->name = sum(b->name, priced(electric.name, electricity));
    DEW_ENERGY_MAP(X)
#undef X
    b->heating_fuel = sum(b->heating_fuel, priced(energy->heating_fuel, fuel));
}

static void sum_energy(struct dew_bill *b)
{
#define X(name, words) b->energy = sum(b->energy, b->name);
    DEW_ENERGY_MAP(X)
#undef X
}

/* Own hours cost what the owner says an hour is worth. */
static struct dew_estimate installed(const struct dew_costs *c,
                                     const struct dew_prices *p)
{
    struct dew_estimate own = {0, 0, 0};

    if (c->own_hours.high > 0)
        own = (struct dew_estimate){c->own_hours.likely * p->wage.likely,
                                    c->own_hours.low * p->wage.low,
                                    c->own_hours.high * p->wage.high};
    return sum(c->install, own);
}

/* Worth now of buying the same again every life years, the first apart. */
static double renewals(double life, const struct dew_prices *p)
{
    double worth = 0;

    if (!(life > 0))
        return 0;
    for (int n = 1; n * life < p->years; n++)
        worth += dew_cost_present_worth(p->interest, n * life);
    return worth;
}

static struct dew_estimate second_stage(const struct dew_costs *c,
                                        const struct dew_prices *p)
{
    double worth = dew_cost_present_worth(p->interest, c->later_after);

    if (!(c->later_chance > 0))
        return (struct dew_estimate){0, 0, 0};
    return (struct dew_estimate){c->later.likely * c->later_chance * worth,
                                 c->later_chance < 1 ? 0 : c->later.low * worth,
                                 c->later.high * worth};
}

static void over_the_years(struct dew_bill *b, const struct dew_costs *c,
                           const struct dew_prices *p)
{
    b->present =
        sum(times(b->install, 1 + renewals(c->life, p)),
            times(b->yearly, dew_cost_annuity_worth(p->interest, p->years)));
    b->present = sum(b->present, second_stage(c, p));
}

/* What the energy is part of. */
static void rest_of_bill(struct dew_bill *b, const struct dew_prices *prices,
                         const struct dew_costs *costs)
{
    const struct dew_costs nothing = {.life = 0};
    const struct dew_costs *c = costs ? costs : &nothing;

    sum_energy(b);
    b->upkeep = c->upkeep;
    b->yearly = sum(b->energy, b->upkeep);
    b->install = installed(c, prices);
    over_the_years(b, c, prices);
}

struct dew_bill dew_cost_bill(const struct dew_energy *energy, int fuel,
                              double hours, const struct dew_prices *prices,
                              const struct dew_costs *costs)
{
    double scale = YEAR_HOURS / hours;
    struct dew_bill b = {.energy = {0, 0, 0}};

    use_energy(&b, energy, times(prices->electricity, scale),
               times(fuel_price(prices, fuel), scale));
    rest_of_bill(&b, prices, costs);
    return b;
}

struct dew_bill dew_cost_bill_months(const struct dew_tally months[12],
                                     int fuel, const struct dew_prices *p,
                                     const struct dew_costs *costs)
{
    struct dew_bill b = {.energy = {0, 0, 0}};
    double hours = 0;

    for (int m = 0; m < 12; m++)
        hours += months[m].hours;
    for (int m = 0; m < 12; m++) {
        struct dew_prices now = *p;

        if (p->electricity_seasonal)
            now.electricity = p->electricity_by_month[m];
        if (p->gas_seasonal)
            now.gas = p->gas_by_month[m];
        use_energy(&b, &months[m].energy,
                   times(now.electricity, YEAR_HOURS / hours),
                   times(fuel_price(&now, fuel), YEAR_HOURS / hours));
    }
    rest_of_bill(&b, p, costs);
    return b;
}

/* ---- two stages ------------------------------------------------------------- */

struct dew_staged dew_cost_staged(const struct dew_bill *first,
                                  const struct dew_bill *next,
                                  const struct dew_costs *c,
                                  const struct dew_prices *p)
{
    double after = fmin(c->later_after, p->years);
    double before = dew_cost_annuity_worth(p->interest, after);
    double rest = dew_cost_annuity_worth(p->interest, p->years) - before;
    double begin = first->install.likely * (1 + renewals(c->life, p)) +
                   first->yearly.likely * before;
    double stays = first->yearly.likely * rest;
    double goes = c->later.likely * dew_cost_present_worth(p->interest, after) +
                  next->yearly.likely * rest;
    struct dew_staged s = {.now = first->install.likely,
                           .later = c->later.likely,
                           .at_once = next->present.likely};

    s.both = begin + (1 - c->later_chance) * stays + c->later_chance * goes;
    s.break_even = (s.at_once - begin - stays) / (goes - stays);
    return s;
}

/* ---- payback ---------------------------------------------------------------- */

static double years_to_pay(double more, double saved)
{
    if (isnan(more) || isnan(saved))
        return NAN;
    if (saved <= 0)
        return INFINITY;
    return more > 0 ? more / saved : 0;
}

/* Prices move both options together; what is bought does not. */
struct dew_estimate dew_cost_payback(const struct dew_bill *base,
                                     const struct dew_bill *option)
{
    const struct dew_estimate *b = &base->yearly, *y = &option->yearly;
    double much = fmax(b->high - y->high, b->low - y->low);
    double little = fmin(b->high - y->high, b->low - y->low);
    struct dew_estimate out;

    out.likely = years_to_pay(option->install.likely - base->install.likely,
                              b->likely - y->likely);
    out.low = years_to_pay(option->install.low - base->install.low, much);
    out.high = years_to_pay(option->install.high - base->install.high, little);
    return out;
}
