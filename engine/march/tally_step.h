/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tallies, of one house or several: what a run is judged by; march.h has the
   contract.  Private. */
#ifndef DEW_MARCH_TALLY_STEP_H
#define DEW_MARCH_TALLY_STEP_H

#include "core/range.h"
#include "dew/march.h"

/* An hour where it is so. */
static CORE__INLINE double march__count(core__truth so)
{
    return core__pick(so, 1.0, 0.0);
}

static inline void march__add_humidity(struct dew_tally *t,
                                       const struct dew_limits *limits,
                                       const struct dew_date *date,
                                       const struct dew_result *in)
{
    core__truth humid = in->rh > limits->too_humid + DEW_BEYOND;
    core__truth first = t->hours == 0.0;

    t->too_humid += march__count(humid);
    for (int k = 0; k < DEW_POINTS; k++)
        t->humid_by[k] +=
            march__count(in->rh > limits->too_humid + 0.01 * (k + 1));
    t->too_dry += march__count(in->rh < limits->too_dry - DEW_BEYOND);
    t->run = core__pick(humid, t->run + 1.0, 0.0);
    t->longest_too_humid = core__max(t->longest_too_humid, t->run);
    t->could_dry += march__count(in->w_out < in->w);
    t->could_wet += march__count(in->w_out > in->w);
    t->saturated += march__count(in->water.fog < 0.0);
    t->idle_humid += march__count(humid & (in->duty.cool <= 0.0));
    t->rh_sum += in->rh;
    t->rh_min = core__pick(first, in->rh, core__min(t->rh_min, in->rh));
    t->rh_max = core__pick(first, in->rh, core__max(t->rh_max, in->rh));
    t->by_hour[date->hour - 1] += in->rh;
    t->by_hour_count[date->hour - 1] += 1.0;
}

static inline void march__add_air(struct dew_tally *t, double required,
                                  const struct dew_result *in)
{
    core__truth first = t->hours == 0.0;

    t->t_sum += in->t;
    t->t_min = core__pick(first, in->t, core__min(t->t_min, in->t));
    t->t_max = core__pick(first, in->t, core__max(t->t_max, in->t));
    t->fresh_sum += in->fresh;
    t->drawn_sum += in->drawn;
    t->leak_sum += in->leak;
    t->fresh_short +=
        march__count(in->fresh + in->drawn < required * (1.0 - 1e-9));
    /* NaN in an hour in which the unit stood still */
    t->supply_t_min = core__pick(first, in->supply_t,
                                 core__lower(t->supply_t_min, in->supply_t));
    t->short_heat += in->short_heat;
    t->frost_hours += in->duty.defrost;
    t->co2_sum += in->co2;
    t->co2_max = core__pick(first, in->co2, core__max(t->co2_max, in->co2));
    t->co2_high += march__count(in->co2 > DEW_CO2_MARK);
    t->pressure_min = core__lower(t->pressure_min, in->pressure);
    t->pressure_all_min = core__lower(t->pressure_all_min, in->pressure_all);
}

#define MARCH__IN_WATER(name, words)  t->water.name += in->water.name;
#define MARCH__IN_HEAT(name, words)   t->heat.name += in->heat.name;
#define MARCH__IN_ENERGY(name, words) t->energy.name += in->energy.name;

static inline void march__add_books(struct dew_tally *t,
                                    const struct dew_result *in)
{
    DEW_WATER_MAP(MARCH__IN_WATER)
    DEW_HEAT_MAP(MARCH__IN_HEAT)
    DEW_ENERGY_MAP(MARCH__IN_ENERGY)
    t->coil_drained += in->coil_drained;
    t->core_drained += in->core_drained;
    t->wiped += in->wiped;
}

static inline void march__add_duty(struct dew_duty *sum,
                                   const struct dew_duty *in)
{
    sum->cool += in->cool;
    sum->heat += in->heat;
    sum->vent += in->vent;
    sum->boost += in->boost;
    sum->defrost += in->defrost;
    sum->blower += in->blower;
    sum->dehumidify += in->dehumidify;
    sum->humidify += in->humidify;
    sum->window += in->window;
}

/* Wet or too cold places in ducts; the coldest mixed air while heating. */
static inline void march__add_spots(struct dew_tally *t,
                                    const struct dew_result *in)
{
    const core__plain none = NAN;
    double cold = core__pick(in->duty.heat > 0.0, in->mixed_t, none);

    for (int s = 0; s < DEW_DUCT_SPOTS; s++)
        t->ducts[s] += in->ducts[s];
    t->mixed_t_min =
        core__pick(t->hours == 0.0, cold, core__lower(t->mixed_t_min, cold));
}

/* The air that a dehumidifier ran in. */
static inline void march__add_dryer(struct dew_tally *t,
                                    const struct dew_result *in)
{
    t->dryer_t += in->duty.dehumidify * in->t;
    t->dryer_rh += in->duty.dehumidify * in->rh;
}

static inline void march__tally(struct dew_tally *tally,
                                const struct dew_limits *limits,
                                double required, const struct dew_date *date,
                                const struct dew_result *in)
{
    march__add_humidity(tally, limits, date, in);
    march__add_air(tally, required, in);
    march__add_books(tally, in);
    march__add_duty(&tally->duty, &in->duty);
    march__add_dryer(tally, in);
    march__add_spots(tally, in);
    for (int s = 0; s < DEW_SURFACES; s++) {
        tally->sweat[s] += in->sweat[s];
        tally->surface_80[s] += march__count(in->surface_rh[s] > 0.8);
    }
    tally->hours += 1.0;
}

#endif
