/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plain inputs of a study, beside the case. */
#include <math.h>
#include <stdio.h>

#include "scenario/case.h"
#include "scenario/scenario.h"

static const double year_s = 365.0 * 86400.0, day_s = 86400.0;

struct dew_safety dew_scenario_safety(const struct dew_scenario *scenario)
{
    const struct dew_value *v = scenario->base;
    struct dew_safety s = {
#define X(name, words) .name = (enum dew_answer)WORD(v, safety_##name),
        DEW_SAFETY_MAP(X)
#undef X
    };

    s.house_age = SI_OR(v, safety_house_age, NAN);
    return s;
}

static struct dew_estimate estimate(const struct dew_value *v)
{
    if (!v->given)
        return (struct dew_estimate){NAN, NAN, NAN};
    return (struct dew_estimate){v->amount.si, v->amount.low, v->amount.high};
}

static void copy_text(char *to, size_t size, const struct dew_value *v)
{
    snprintf(to, size, "%s", v->given ? v->text : "");
}

static int by_month(const struct dew_value *list, struct dew_estimate out[12])
{
    for (size_t m = 0; list->given && m < 12; m++) {
        const struct dew_measure *price = &list->items[m].amount;

        out[m] = (struct dew_estimate){price->si, price->low, price->high};
    }
    return list->given;
}

struct dew_prices dew_scenario_prices(const struct dew_scenario *scenario)
{
    const struct dew_value *v = scenario->base;
    struct dew_prices p = {
        .electricity = estimate(&v[KEY_prices_electricity]),
        .gas = estimate(&v[KEY_prices_gas]),
        .oil = estimate(&v[KEY_prices_oil]),
        .propane = estimate(&v[KEY_prices_propane]),
        .wood = estimate(&v[KEY_prices_wood]),
        .wage = estimate(&v[KEY_prices_own_hour]),
        .too_humid = SI(v, prices_hour_too_humid),
        .too_dry = SI(v, prices_hour_too_dry),
        .short_of_air = SI(v, prices_hour_short_of_air),
        .interest = SI(v, prices_interest),
        .years = SI(v, prices_years) / year_s,
        .currency = "$",
    };

    copy_text(p.date, sizeof p.date, &v[KEY_prices_date]);
    p.electricity_seasonal =
        by_month(&v[KEY_prices_electricity_by_month], p.electricity_by_month);
    p.gas_seasonal = by_month(&v[KEY_prices_gas_by_month], p.gas_by_month);
    return p;
}

/* Nothing is bought for the house as it stands; of others what is not told is
   not known. */
static struct dew_estimate install_of(const struct dew_value *v, size_t option)
{
    if (option == 0 && !GIVEN(v, costs_install))
        return (struct dew_estimate){0, 0, 0};
    return estimate(&v[KEY_costs_install]);
}

/* Of the second stage: as told, else what the option costs that follows. */
static struct dew_estimate later_of(const struct dew_scenario *s,
                                    const struct dew_value *v)
{
    size_t next = s->count;

    if (GIVEN(v, costs_later))
        return estimate(&v[KEY_costs_later]);
    if (GIVEN(v, costs_next_option))
        next = dew_scenario_find(s, v[KEY_costs_next_option].text);
    if (next == s->count)
        return (struct dew_estimate){0, 0, 0};
    return install_of(s->options[next].values, next);
}

struct dew_costs dew_scenario_costs(const struct dew_scenario *scenario,
                                    size_t option)
{
    const struct dew_value *v = scenario->options[option].values;
    struct dew_costs c = {
        .install = install_of(v, option),
        .upkeep = estimate(&v[KEY_costs_upkeep]),
        .own_hours = estimate(&v[KEY_costs_own_work]),
        .later = later_of(scenario, v),
        .later_after = SI(v, costs_later_after) / year_s,
        .reading = (enum dew_reading_kind)WORD(v, costs_reading),
        .later_chance = SI(v, costs_later_chance),
        .life = SI_OR(v, costs_life, SI(scenario->base, prices_years)) / year_s,
    };

    copy_text(c.date, sizeof c.date, &v[KEY_costs_date]);
    copy_text(c.next, sizeof c.next, &v[KEY_costs_next_option]);
    return c;
}

static unsigned exhausts_told(const struct dew_value *v)
{
    return (unsigned)GIVEN(v, bath_fan_flow) << DEW_LOCAL_BATH |
           (unsigned)GIVEN(v, range_hood_flow) << DEW_LOCAL_KITCHEN |
           (unsigned)GIVEN(v, clothes_dryer_flow) << DEW_LOCAL_DRYER;
}

struct dew_option_facts dew_scenario_facts(const struct dew_scenario *scenario,
                                           size_t option)
{
    const struct dew_value *v = scenario->options[option].values;
    int blower = WORD(v, cooling_blower);

    return (struct dew_option_facts){
        .core = (enum dew_core_kind)WORD(v, ventilator_core),
        .layout = (enum dew_layout)WORD(v, layout),
        .flow = WORD(v, ventilator_core) == DEW_CORE_none
                    ? 0
                    : scenario__vent_flow(v) * SI(v, ventilator_found),
        .rated_flow = WORD(v, ventilator_core) == DEW_CORE_none
                          ? 0
                          : scenario__vent_flow(v),
        .damper = (enum dew_answer)WORD(v, ventilator_damper),
        .interlock = blower == DEW_BLOWER_INTERLOCK || blower == DEW_BLOWER_ON
                         ? DEW_ANSWER_YES
                         : DEW_ANSWER_NO,
        .handlers = scenario__handlers(v),
        .storeys = SI(v, house_storeys),
        .exhausts_told = exhausts_told(v),
        .label_open =
            GIVEN(v, dehumidifier_rate) && !GIVEN(v, dehumidifier_observed) &&
            !SAID(v, dehumidifier_rating) && WORD(v, dehumidifier_typical) == 0,
        .half_life = {SI(v, moisture_drying_half_life) / day_s,
                      v[KEY_moisture_drying_half_life].amount.low / day_s,
                      v[KEY_moisture_drying_half_life].amount.high / day_s},
    };
}
