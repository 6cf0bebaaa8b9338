/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tallies: what a run is judged by. */
#include <math.h>

#include "dew/march.h"

static const double beyond = DEW_BEYOND;

static void add_humidity(struct dew_tally *t, const struct dew_limits *limits,
                         const struct dew_date *date,
                         const struct dew_result *in)
{
    int humid = in->rh > limits->too_humid + beyond;
    int first = t->hours == 0.0;

    t->too_humid += humid;
    for (int k = 0; k < DEW_POINTS; k++)
        t->humid_by[k] += in->rh > limits->too_humid + 0.01 * (k + 1);
    t->too_dry += in->rh < limits->too_dry - beyond;
    t->run = humid ? t->run + 1.0 : 0.0;
    t->longest_too_humid = fmax(t->longest_too_humid, t->run);
    t->could_dry += in->w_out < in->w;
    t->could_wet += in->w_out > in->w;
    t->saturated += in->water.fog < 0.0;
    t->idle_humid += humid && in->duty.cool <= 0.0;
    t->rh_sum += in->rh;
    t->rh_min = first ? in->rh : fmin(t->rh_min, in->rh);
    t->rh_max = first ? in->rh : fmax(t->rh_max, in->rh);
    t->by_hour[date->hour - 1] += in->rh;
    t->by_hour_count[date->hour - 1] += 1.0;
}

static void add_air(struct dew_tally *t, double required,
                    const struct dew_result *in)
{
    int first = t->hours == 0.0;

    t->t_sum += in->t;
    t->t_min = first ? in->t : fmin(t->t_min, in->t);
    t->t_max = first ? in->t : fmax(t->t_max, in->t);
    t->fresh_sum += in->fresh;
    t->drawn_sum += in->drawn;
    t->leak_sum += in->leak;
    t->fresh_short += in->fresh + in->drawn < required * (1.0 - 1e-9);
    /* fmin passes over the NaN of an hour in which the unit stood still */
    t->supply_t_min =
        first ? in->supply_t : fmin(t->supply_t_min, in->supply_t);
    t->short_heat += in->short_heat;
    t->frost_hours += in->duty.defrost;
    t->co2_sum += in->co2;
    t->co2_max = first ? in->co2 : fmax(t->co2_max, in->co2);
    t->co2_high += in->co2 > DEW_CO2_MARK;
    t->pressure_min = fmin(t->pressure_min, in->pressure);
    t->pressure_all_min = fmin(t->pressure_all_min, in->pressure_all);
}

#define ADD_WATER(name, words)  t->water.name += in->water.name;
#define ADD_HEAT(name, words)   t->heat.name += in->heat.name;
#define ADD_ENERGY(name, words) t->energy.name += in->energy.name;

static void add_books(struct dew_tally *t, const struct dew_result *in)
{
    DEW_WATER_MAP(ADD_WATER)
    DEW_HEAT_MAP(ADD_HEAT)
    DEW_ENERGY_MAP(ADD_ENERGY)
    t->coil_drained += in->coil_drained;
    t->core_drained += in->core_drained;
    t->wiped += in->wiped;
}

static void add_duty(struct dew_duty *sum, const struct dew_duty *in)
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
static void add_ducts(struct dew_tally *t, const struct dew_result *in)
{
    double cold = in->duty.heat > 0.0 ? in->mixed_t : NAN;

    for (int s = 0; s < DEW_DUCT_SPOTS; s++)
        t->ducts[s] += in->ducts[s];
    t->mixed_t_min = t->hours == 0.0 ? cold : fmin(t->mixed_t_min, cold);
}

/* The air that a dehumidifier ran in. */
static void add_dryer(struct dew_tally *t, const struct dew_result *in)
{
    t->dryer_t += in->duty.dehumidify * in->t;
    t->dryer_rh += in->duty.dehumidify * in->rh;
}

void dew_tally_add(struct dew_tally *tally, const struct dew_limits *limits,
                   double required, const struct dew_date *date,
                   const struct dew_result *in)
{
    add_humidity(tally, limits, date, in);
    add_air(tally, required, in);
    add_books(tally, in);
    add_duty(&tally->duty, &in->duty);
    add_dryer(tally, in);
    add_ducts(tally, in);
    for (int s = 0; s < DEW_SURFACES; s++) {
        tally->sweat[s] += in->sweat[s];
        tally->surface_80[s] += in->surface_rh[s] > 0.8;
    }
    tally->hours += 1.0;
}
