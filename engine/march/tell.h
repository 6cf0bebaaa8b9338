/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a step and an hour have to tell, of one house or several.  Private. */
#ifndef DEW_MARCH_TELL_H
#define DEW_MARCH_TELL_H

#include "dew/surface.h"
#include "march/blend.h"
#include "march/mix.h"
#include "march/spots.h"

/* A face is wet while its film can be seen; one without a film while its air
   is saturated. */
static inline core__truth march__is_wet(const struct dew_surface *face,
                                        double film, double rh)
{
    core__truth filmed = face->area > 0.0;

    return (filmed & (film >= DEW_FILM_SEEN * face->area)) |
           (core__not(filmed) & (rh >= 1.0));
}

/* Inside faces in a step: t, RH there, and whether they end wet. */
static inline void march__tell_faces(const struct march__body *m,
                                     const struct march__hour *h,
                                     const struct march__sum *sum,
                                     struct dew_result *r)
{
    const double film[DEW_SURFACES] = {m->at.x.film_glass, m->at.x.film_edge,
                                       m->at.x.film_corner};
    double outside = h->now.mid.t;

    for (int s = 0; s < DEW_SURFACES; s++) {
        double f = m->c.house.surfaces[s].factor;
        double t = house__surface_t(f, sum->t, outside);
        double rh = air__rh_pv(t, m->at.terms.per_w * sum->w);

        r->surface_t[s] += h->told * t;
        r->surface_rh[s] += h->told * rh;
        r->sweat[s] += core__pick(
            march__is_wet(&m->c.house.surfaces[s], film[s], rh), h->told, 0.0);
    }
}

/* Compressor and condenser fan, by run time. */
static inline void march__tell_cooling(const struct march__body *m,
                                       const struct march__hour *h,
                                       const struct march__sum *sum,
                                       struct dew_result *r)
{
    const double power[DEW_HANDLERS] = {h->now.c1.power, h->now.c2.power,
                                        h->now.c3.power};
    const double load[DEW_HANDLERS] = {sum->duty.cool, sum->duty.cool_2,
                                       sum->duty.cool_3};

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        r->energy.cooling += power[k] * load[k] * h->longer[k];
}

/* A heat pump carries what it can, its resistance heat the rest. */
static inline double march__pump_energy(const struct march__body *m,
                                        const struct march__hour *h,
                                        const struct march__sum *sum)
{
    double given = core__min(sum->heat.heating, h->mix.pump * h->dt);

    return given / plant__pump_cop(&m->c.plant.heater, h->now.mid.t) +
           sum->heat.heating - given;
}

/* Air so far below its band is cold, and no matter of rounding; ours. */
#define MARCH__COLD 0.5 /* K */

static inline void march__tell_short(const struct march__body *m,
                                     const struct march__hour *h,
                                     const struct march__sum *sum,
                                     struct dew_result *r)
{
    double least = h->now.drive.set_heat - m->lane.band - MARCH__COLD;

    core__truth lacks =
        (sum->duty.heat >= h->dt * (1.0 - 1e-9)) & (m->at.x.t_air < least);

    r->short_heat += core__pick(lacks, h->told, 0.0);
}

static inline void march__tell_heating(const struct march__body *m,
                                       const struct march__hour *h,
                                       const struct march__sum *sum,
                                       struct dew_result *r)
{
    const struct dew_heater *heater = &m->c.plant.heater;
    core__truth burns = heater->efficiency > 0.0;
    core__truth pumps = core__not(burns) & (heater->capacity > 0.0);
    double used =
        sum->heat.heating / core__pick(burns, heater->efficiency, 1.0);

    used = core__pick(burns, used, 0.0);
    if (core__any(pumps & (sum->heat.heating > 0.0))) /* a block: else 0 */
        r->energy.heating_power +=
            core__pick(pumps, march__pump_energy(m, h, sum), 0.0);
    if (heater->fuel > 0)
        r->energy.heating_fuel += used;
    else
        r->energy.heating_power += used;
}

static inline void march__tell_energy(const struct march__body *m,
                                      const struct march__hour *h,
                                      const struct march__sum *sum,
                                      struct dew_result *r)
{
    r->energy.ventilator += h->now.blend.fan_w * h->told_dt;
    r->energy.blower += sum->heat.blowers;
    r->energy.preheat += h->now.blend.preheat_use * h->told_dt;
    r->energy.dehumidifier += h->now.drive.dry_power * sum->duty.dry;
    r->energy.humidifier +=
        plant__humidifier_power(&m->c.plant.humidifier, CORE__OF(1.0)) *
        sum->duty.wet;
    march__tell_cooling(m, h, sum, r);
    march__tell_heating(m, h, sum, r);
    for (int e = 0; e < DEW_LOCALS; e++)
        r->energy.exhausts +=
            m->c.plant.exhausts[e].watts * h->mix.local[1 + e] * h->told_dt;
}

/* 0 where there is no ventilator to run, whatever its schedule says. */
static inline double march__ventilator(const struct dew_case *c)
{
    double moved = CORE__OF(0.0);

    for (int v = DEW_VENT_ON; v <= DEW_VENT_BOOST; v++)
        moved += c->paths[v][0].supply + c->paths[v][0].exhaust;
    return core__pick(moved > 0.0, 1.0, 0.0);
}

static inline void march__tell_duty(const struct march__body *m,
                                    const struct march__hour *h,
                                    const struct march__sum *sum,
                                    struct dew_result *r)
{
    const core__plain per_hour = 1.0 / 3600.0;
    double there = march__ventilator(&m->c) * h->told;

    r->duty.cool += sum->duty.cool * per_hour;
    r->duty.heat += march__heat_run(&m->c.plant.heater, h->mix.pump,
                                    sum->duty.heat * h->per_dt) *
                    h->told;
    r->duty.dehumidify += sum->duty.dry * per_hour;
    r->duty.humidify += sum->duty.wet * per_hour;
    r->duty.vent += (1.0 - h->mix.vent[DEW_VENT_OFF]) * there;
    r->duty.boost += h->mix.vent[DEW_VENT_BOOST] * there;
    r->duty.defrost += h->mix.vent[DEW_VENT_DEFROST] * there;
    r->duty.blower += h->mix.full[0] * h->told;
}

/* Add what a step did to the hour's result. */
static inline void march__tell_step(const struct march__body *m,
                                    struct march__hour *h,
                                    const struct march__sum *sum,
                                    struct dew_result *r)
{
    const struct march__blend *b = &h->now.blend;
    double share = h->told / m->lane.rho;

    march__add_water(&r->water, sum->water, CORE__OF(1.0));
    march__add_heat(&r->heat, sum->heat, CORE__OF(1.0));
    r->t += h->told * sum->t;
    r->w += h->told * sum->w;
    r->rh += h->told * sum->rh;
    r->co2 += h->told * sum->co2;
    r->w_out += h->told * h->now.mid.w;
    r->t_out += h->told * h->now.mid.t;
    r->fresh += share * b->fresh;
    r->drawn += share * b->drawn;
    r->leak += share * b->leak;
    r->core_drained += b->drained * h->told_dt;
    march__tell_faces(m, h, sum, r);
    march__tell_energy(m, h, sum, r);
    march__tell_duty(m, h, sum, r);
    march__tell_short(m, h, sum, r);
}

/* Supply air of the ventilator at its normal flow, at the hour's end. */
static inline double march__supply_t(const struct march__body *m,
                                     const struct march__hour *h,
                                     const struct dew_result *r)
{
    const struct dew_path *p = &m->c.paths[DEW_VENT_ON][0];
    core__truth blows = (p->supply > 0.0) & (r->duty.vent > 0.0);
    double gained, out = h->end->t + h->mix.core.preheat, eps;
    double water, mass = core__pick(blows, p->supply * m->lane.rho, 1.0);

    eps = p->sensible +
          march__path_condenses(p, &h->mix.core, m->lane.rho, &water);
    eps *= 1.0 - h->mix.bypass;
    gained = p->fan_heat / (mass * AIR__CP);
    return core__pick(blows, out + eps * (m->at.x.t_air - out) + gained,
                      (core__plain)NAN);
}

/* Close the hour's result: means, air, pressures. */
static inline void march__tell_hour(const struct march__body *m,
                                    const struct march__hour *h,
                                    struct dew_result *r)
{
    r->end = m->at.x;
    r->dew_point = air__dew(r->w, h->end->p);
    r->supply_t = march__supply_t(m, h, r);
    r->pressure = house__pressure(&m->c.house.leakage, h->worst);
    r->pressure_all = m->pressure_all;
    r->wiped = h->wiped;
    r->coil_drained = h->drained;
    r->duty.window = march__ratio(h->now.drive.window, m->c.house.windows.flow);
    march__tell_ducts(m, h, r);
}

#endif
