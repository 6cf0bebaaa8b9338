/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The controls of a step, and what an hour has to tell. */
#include <math.h>

#include "air/air_step.h"
#include "dew/dryer.h"
#include "dew/leakage.h"
#include "dew/plant.h"
#include "dew/surface.h"
#include "march/march.h"

/* The winter target holds only in winter, and comes in over this much RH. */
static const double winter_below = 10.0, winter_width = 0.04;

static double on_share(const struct dew_case *c, const struct dew_date *date)
{
    const struct dew_control *k = &c->plant.control;

    return date->weekday < 5 ? k->on_weekday[date->hour - 1]
                             : k->on_weekend[date->hour - 1];
}

/* Share of the rest of the hour that a blower idles at low flow. */
static double idle_share(const struct dew_handler *h, double full, int vent)
{
    if (h->mode == DEW_BLOWER_ON)
        return 1.0;
    if (h->mode == DEW_BLOWER_INTERLOCK)
        return vent ? 1.0 : 0.0;
    if (h->mode == DEW_BLOWER_MINUTES && h->minutes > full && full < 1.0)
        return (h->minutes - full) / (1.0 - full);
    return 0.0;
}

/* Share of time left to the ventilator by lockout and the winter target. */
static double kept(const struct dew_march *m, const struct march__hour *h,
                   const struct dew_state *at, double rh)
{
    const struct dew_control *k = &m->c.plant.control;
    double keep = dew_plant_lockout(k, h->now.mid.w, at->w);
    double target = dew_plant_winter_rh(k, h->now.mid.t), dry;

    if (isfinite(target) && h->now.mid.t < winter_below) {
        dry = 1.0 - dew_plant_ramp(rh, target, winter_width);
        keep *= 1.0 - dry * (1.0 - k->lockout_least);
    }
    return keep;
}

static double frost_share(const struct dew_march *m,
                          const struct march__hour *h,
                          const struct dew_state *at)
{
    const struct dew_frost_rule *rule = &m->c.plant.frost;

    if (rule->strategy == DEW_FROST_NONE || h->now.mid.t >= rule->start)
        return 0.0;
    return dew_plant_frost_share(rule, h->now.mid.t,
                                 air__dew(at->w, h->now.mid.p));
}

static double boost_share(const struct dew_march *m,
                          const struct march__hour *h, double rh)
{
    const struct dew_control *k = &m->c.plant.control;

    return fmax(dew_plant_boost(k, rh),
                k->event_boost * k->events[h->date.hour - 1]);
}

static void mix_vent(const struct dew_march *m, const struct march__hour *h,
                     const struct dew_state *at, struct march__mixing *mix)
{
    double rh = air__rh(at->t_air, at->w, h->now.mid.p);
    double boost = boost_share(m, h, rh);
    double on = on_share(&m->c, &h->date) * kept(m, h, at, rh);
    double run = on + (1.0 - on) * boost, frost = frost_share(m, h, at);

    mix->vent[DEW_VENT_OFF] = 1.0 - run;
    mix->vent[DEW_VENT_ON] = (run - boost) * (1.0 - frost);
    mix->vent[DEW_VENT_BOOST] = boost * (1.0 - frost);
    mix->vent[DEW_VENT_DEFROST] = run * frost;
    mix->bypass =
        dew_plant_bypass(&m->c.plant.control, h->now.mid.t, at->t_air);
}

/* Outdoor air of the ventilator is brought up to where frost begins. */
static void mix_core(const struct dew_march *m, const struct march__hour *h,
                     const struct dew_state *at, struct march__mixing *mix)
{
    const struct dew_frost_rule *rule = &m->c.plant.frost;
    double out = h->now.mid.t, p = h->now.mid.p;

    mix->core = (struct march__core_airs){
        .t_in = at->t_air, .w = at->w, .p = p, .t_out = out};
    if (rule->strategy == DEW_FROST_PREHEAT)
        mix->core.preheat = fmax(rule->start - out, 0.0);
    mix->core.t_out += mix->core.preheat;
}

static void mix_locals(const struct dew_march *m, const struct march__hour *h,
                       struct march__mixing *mix)
{
    mix->local[0] = 1.0;
    for (int e = 0; e < DEW_LOCALS; e++) {
        mix->local[1 + e] = m->c.plant.exhausts[e].flow > 0.0
                                ? m->c.plant.exhausts[e].hours[h->date.hour - 1]
                                : 0.0;
        mix->local[0] -= mix->local[1 + e];
    }
}

static void mix_blowers(const struct dew_march *m,
                        const struct march__duty *duty,
                        struct march__mixing *mix)
{
    double cool[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    const struct dew_heater *heater = &m->c.plant.heater;
    double heat =
        heater->by_air ? march__heat_run(heater, mix->pump, duty->heat) : 0.0;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        const struct dew_handler *handler = &m->c.plant.handlers[k];

        mix->run[k] = dew_plant_run_time(cool[k], handler->cycling);
        mix->full[k] = core__share(
            mix->run[k] + dew_plant_off_delay(handler, mix->run[k]) + heat);
        mix->low_off[k] = idle_share(handler, mix->full[k], 0);
        mix->low_on[k] = idle_share(handler, mix->full[k], 1);
    }
    mix->handlers = m->alike ? 0 : m->c.plant.handler_count;
}

void march__mix_of(const struct dew_march *m, const struct march__hour *h,
                   const struct dew_state *at, const struct march__duty *duty,
                   struct march__mixing *mix)
{
    mix_vent(m, h, at, mix);
    mix_core(m, h, at, mix);
    mix_locals(m, h, mix);
    mix->pump = march__pump(&m->c.plant.heater, h->now.mid.t);
    mix_blowers(m, duty, mix);
}

/* A face is wet while its film can be seen; one without a film while its air
   is saturated. */
static int is_wet(const struct dew_surface *face, double film, double rh)
{
    return face->area > 0.0 ? film >= DEW_FILM_SEEN * face->area : rh >= 1.0;
}

/* Inside faces at the end of a step: t, RH there, wet or not. */
static void tell_faces(const struct dew_march *m, const struct march__hour *h,
                       struct dew_result *r)
{
    const double film[DEW_SURFACES] = {m->x.film_glass, m->x.film_edge,
                                       m->x.film_corner};
    double outside = h->now.mid.t;

    for (int s = 0; s < DEW_SURFACES; s++) {
        double f = m->c.house.surfaces[s].factor;
        double t = house__surface_t(f, m->x.t_air, outside);
        double rh = air__rh_pv(t, m->terms.per_w * m->x.w);

        r->surface_t[s] += h->per_steps * t;
        r->surface_rh[s] += h->per_steps * rh;
        r->sweat[s] +=
            h->per_steps * is_wet(&m->c.house.surfaces[s], film[s], rh);
    }
}

/* Compressor and condenser fan, by run time. */
static void tell_cooling(const struct dew_march *m, const struct march__hour *h,
                         const struct march__sum *sum, struct dew_result *r)
{
    const double power[DEW_HANDLERS] = {h->now.c1.power, h->now.c2.power,
                                        h->now.c3.power};
    const double load[DEW_HANDLERS] = {sum->duty.cool, sum->duty.cool_2,
                                       sum->duty.cool_3};

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        r->energy.cooling += power[k] * load[k] * h->longer[k];
}

/* A heat pump carries what it can, its resistance heat the rest. */
static double pump_energy(const struct dew_march *m,
                          const struct march__hour *h,
                          const struct march__sum *sum)
{
    double given = fmin(sum->heat.heating, h->mix.pump * h->dt);

    return given / dew_plant_heat_pump_cop(&m->c.plant.heater, h->now.mid.t) +
           sum->heat.heating - given;
}

/* Air so far below its band is cold, and no matter of rounding; ours. */
static const double cold = 0.5; /* K */

static void tell_short(const struct dew_march *m, const struct march__hour *h,
                       const struct march__sum *sum, struct dew_result *r)
{
    double least = h->now.drive.set_heat - m->lane.band - cold;

    if (sum->duty.heat >= h->dt * (1.0 - 1e-9) && m->x.t_air < least)
        r->short_heat += h->per_steps;
}

static void tell_energy(const struct dew_march *m, const struct march__hour *h,
                        const struct march__sum *sum, struct dew_result *r)
{
    const struct dew_heater *heater = &m->c.plant.heater;

    r->energy.ventilator += h->now.blend.fan_w * h->dt;
    r->energy.blower += sum->heat.blowers;
    r->energy.preheat += h->now.blend.preheat_use * h->dt;
    r->energy.dehumidifier += h->now.drive.dry_power * sum->duty.dry;
    r->energy.humidifier +=
        dew_plant_humidifier_at(&m->c.plant.humidifier, 1.0, m->x.t_air).power *
        sum->duty.wet;
    tell_cooling(m, h, sum, r);
    if (!(heater->efficiency > 0.0) && heater->capacity > 0.0)
        r->energy.heating_power += pump_energy(m, h, sum);
    else if (heater->efficiency > 0.0 && heater->fuel > 0)
        r->energy.heating_fuel += sum->heat.heating / heater->efficiency;
    else if (heater->efficiency > 0.0)
        r->energy.heating_power += sum->heat.heating / heater->efficiency;
    for (int e = 0; e < DEW_LOCALS; e++)
        r->energy.exhausts +=
            m->c.plant.exhausts[e].watts * h->mix.local[1 + e] * h->dt;
}

/* 0 where there is no ventilator to run, whatever its schedule says. */
static double ventilator(const struct dew_case *c)
{
    double moved = 0.0;

    for (int v = DEW_VENT_ON; v <= DEW_VENT_BOOST; v++)
        moved += c->paths[v][0].supply + c->paths[v][0].exhaust;
    return moved > 0.0 ? 1.0 : 0.0;
}

static void tell_duty(const struct dew_march *m, const struct march__hour *h,
                      const struct march__sum *sum, struct dew_result *r)
{
    double per_hour = 1.0 / 3600.0;
    double there = ventilator(&m->c) * h->per_steps;

    r->duty.cool += sum->duty.cool * per_hour;
    r->duty.heat += march__heat_run(&m->c.plant.heater, h->mix.pump,
                                    sum->duty.heat / h->dt) *
                    h->per_steps;
    r->duty.dehumidify += sum->duty.dry * per_hour;
    r->duty.humidify += sum->duty.wet * per_hour;
    r->duty.vent += (1.0 - h->mix.vent[DEW_VENT_OFF]) * there;
    r->duty.boost += h->mix.vent[DEW_VENT_BOOST] * there;
    r->duty.defrost += h->mix.vent[DEW_VENT_DEFROST] * there;
    r->duty.blower += h->mix.full[0] * h->per_steps;
}

void march__tell_step(const struct dew_march *m, struct march__hour *h,
                      const struct dew_state *from,
                      const struct march__sum *sum, struct dew_result *r)
{
    const struct march__blend *b = &h->now.blend;
    double half = 0.5 * h->per_steps, share = h->per_steps / m->lane.rho;
    double rh = air__rh(m->x.t_air, m->x.w, h->now.mid.p);

    march__add_water(&r->water, sum->water, 1.0);
    march__add_heat(&r->heat, sum->heat, 1.0);
    r->t += half * (from->t_air + m->x.t_air);
    r->w += half * (from->w + m->x.w);
    r->rh += half * (h->rh + rh);
    h->rh = rh;
    r->co2 += half * (from->co2 + m->x.co2);
    r->w_out += h->per_steps * h->now.mid.w;
    r->t_out += h->per_steps * h->now.mid.t;
    r->fresh += share * b->fresh;
    r->drawn += share * b->drawn;
    r->leak += share * b->leak;
    r->core_drained += b->drained * h->dt;
    tell_faces(m, h, r);
    tell_energy(m, h, sum, r);
    tell_duty(m, h, sum, r);
    tell_short(m, h, sum, r);
}

/* Supply air of the ventilator at its normal flow, at the hour's end. */
static double supply_t(const struct dew_march *m, const struct march__hour *h,
                       const struct dew_result *r)
{
    const struct dew_path *p = &m->c.paths[DEW_VENT_ON][0];
    double gained, out = h->end->t + h->mix.core.preheat, eps;
    double water;

    if (!(p->supply > 0.0) || !(r->duty.vent > 0.0))
        return NAN;
    eps = p->sensible +
          march__path_condenses(p, &h->mix.core, m->lane.rho, &water);
    eps *= 1.0 - h->mix.bypass;
    gained = p->fan_heat / (p->supply * m->lane.rho * AIR__CP);
    return out + eps * (m->x.t_air - out) + gained;
}

void march__tell_hour(const struct dew_march *m, const struct march__hour *h,
                      struct dew_result *r)
{
    r->end = m->x;
    r->dew_point = air__dew(r->w, h->end->p);
    r->supply_t = supply_t(m, h, r);
    r->pressure = dew_house_pressure(&m->c.house.leakage, 0.0, -h->worst);
    r->pressure_all = m->pressure_all;
    r->wiped = h->wiped;
    r->coil_drained = h->drained;
    r->duty.window = m->c.house.windows.flow > 0.0
                         ? h->now.drive.window / m->c.house.windows.flow
                         : 0.0;
    march__tell_ducts(m, h, r);
}
