/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The controls of a step, of one house or several.  Private. */
#ifndef DEW_MARCH_MIX_H
#define DEW_MARCH_MIX_H

#include "march/march.h"
#include "plant/control_step.h"
#include "plant/heat_step.h"
#include "plant/store_step.h"

/* A heat pump gives less the colder it is; its resistance heat is beside it. */
static inline double march__pump_of(const struct dew_heater *heater,
                                    double t_out)
{
    core__truth pumps = core__not(heater->efficiency > 0.0);

    if (!core__any(pumps))
        return CORE__OF(0.0);
    return core__pick(pumps, heater->capacity * plant__pump_capacity(t_out),
                      0.0);
}

/* Share of the time that a heater runs at that share of all it can give: a
   heat pump's resistance heat comes in only when the pump runs on.  pump: most
   heat of it, W, as cold as it is; 0 for what is no heat pump. */
static inline double march__heat_run(const struct dew_heater *heater,
                                     double pump, double duty)
{
    core__truth pumps = pump > 0.0;
    double longer;

    if (!core__any(pumps))
        return duty;
    longer = 1.0 + heater->backup / core__pick(pumps, pump, 1.0);
    return core__pick(pumps, core__min(duty * longer, CORE__OF(1.0)), duty);
}

/* The winter target holds only in winter, and comes in over this much RH. */
#define MARCH__WINTER_BELOW 10.0
#define MARCH__WINTER_WIDTH 0.04

static inline double march__on_share(const struct dew_case *c,
                                     const struct dew_date *date)
{
    const struct dew_control *k = &c->plant.control;

    return date->weekday < 5 ? k->on_weekday[date->hour - 1]
                             : k->on_weekend[date->hour - 1];
}

/* Share of the rest of the hour that a blower idles at low flow. */
static inline double march__idle_share(const struct dew_handler *h, double full,
                                       int vent)
{
    if (h->mode == DEW_BLOWER_ON)
        return CORE__OF(1.0);
    if (h->mode == DEW_BLOWER_INTERLOCK)
        return CORE__OF(vent ? 1.0 : 0.0);
    if (h->mode == DEW_BLOWER_MINUTES) {
        core__truth left = (h->minutes > full) & (full < 1.0);

        return core__pick(
            left, (h->minutes - full) / core__pick(left, 1.0 - full, 1.0), 0.0);
    }
    return CORE__OF(0.0);
}

/* Share of time left to the ventilator by the winter target. */
static inline double march__in_winter(const struct dew_control *k,
                                      const struct march__hour *h, double rh)
{
    double target = plant__winter_rh(k, h->now.mid.t);
    double dry = 1.0 - plant__ramp(rh, target, CORE__OF(MARCH__WINTER_WIDTH));
    core__truth asks =
        (k->winter_rh[0] > 0.0) & (h->now.mid.t < MARCH__WINTER_BELOW);

    return core__pick(asks, 1.0 - dry * (1.0 - k->lockout_least), 1.0);
}

/* And by lockout; what no house has is left out, here and below. */
static inline double march__kept(const struct march__body *m,
                                 const struct march__hour *h,
                                 const struct dew_state *at, double rh)
{
    const struct dew_control *k = &m->c.plant.control;
    double keep = CORE__OF(1.0);

    if (core__any(k->lockout_w > 0.0))
        keep *= plant__lockout(k, h->now.mid.w, at->w);
    if (core__any(k->winter_rh[0] > 0.0))
        keep *= march__in_winter(k, h, rh);
    return keep;
}

static inline double march__frost_share(const struct march__body *m,
                                        const struct march__hour *h,
                                        const struct dew_state *at)
{
    const struct dew_frost_rule *rule = &m->c.plant.frost;

    if (rule->strategy == DEW_FROST_NONE ||
        !core__any(h->now.mid.t < rule->start))
        return CORE__OF(0.0);
    return plant__frost(rule, h->now.mid.t, air__dew(at->w, h->now.mid.p));
}

static inline double march__boost_share(const struct march__body *m,
                                        const struct march__hour *h, double rh)
{
    const struct dew_control *k = &m->c.plant.control;

    double events = k->event_boost * k->events[h->date.hour - 1];

    if (!core__any(k->boost_rh > 0.0))
        return march__over(events);
    return core__max(plant__boost(k, rh), events);
}

static inline void march__mix_vent(const struct march__body *m,
                                   const struct march__hour *h,
                                   const struct dew_state *at,
                                   struct march__mixing *mix)
{
    double rh = air__rh(at->t_air, at->w, h->now.mid.p);
    double boost = march__boost_share(m, h, rh);
    double on = march__on_share(&m->c, &h->date) * march__kept(m, h, at, rh);
    double run = on + (1.0 - on) * boost, frost = march__frost_share(m, h, at);
    const struct dew_control *c = &m->c.plant.control;

    mix->vent[DEW_VENT_OFF] = 1.0 - run;
    mix->vent[DEW_VENT_ON] = (run - boost) * (1.0 - frost);
    mix->vent[DEW_VENT_BOOST] = boost * (1.0 - frost);
    mix->vent[DEW_VENT_DEFROST] = run * frost;
    mix->bypass = CORE__OF(0.0);
    if (core__any(c->bypass_low == c->bypass_low)) /* not NaN */
        mix->bypass = plant__bypass(c, h->now.mid.t, at->t_air);
}

/* Outdoor air of the ventilator is brought up to where frost begins. */
static inline void march__mix_core(const struct march__body *m,
                                   const struct march__hour *h,
                                   const struct dew_state *at,
                                   struct march__mixing *mix)
{
    const struct dew_frost_rule *rule = &m->c.plant.frost;
    double out = h->now.mid.t, p = h->now.mid.p;

    mix->core = (struct march__core_airs){
        .t_in = at->t_air, .w = at->w, .p = p, .t_out = out};
    if (rule->strategy == DEW_FROST_PREHEAT)
        mix->core.preheat = march__over(rule->start - out);
    mix->core.t_out += mix->core.preheat;
}

static inline void march__mix_locals(const struct march__body *m,
                                     const struct march__hour *h,
                                     struct march__mixing *mix)
{
    mix->local[0] = CORE__OF(1.0);
    for (int e = 0; e < DEW_LOCALS; e++) {
        const struct dew_exhaust *fan = &m->c.plant.exhausts[e];

        mix->local[1 + e] =
            core__pick(fan->flow > 0.0, fan->hours[h->date.hour - 1], 0.0);
        mix->local[0] -= mix->local[1 + e];
    }
}

/* A blower whose running was measured is on for that long, with its coil at
   least: at full flow while its coil, its delay and its heat have it so, at its
   low flow else. */
static inline void march__tell_blower(const struct march__body *m, int k,
                                      struct march__mixing *mix)
{
    core__truth told = (m->held == m->held) & (m->fan == m->fan);
    double own = mix->full[k], fan, full, rest, low;

    mix->cut[k] = CORE__OF(0.0);
    if (!core__any(told))
        return;
    fan = core__pick(told, m->fan, own);
    full = core__max(mix->run[k], core__min(own, fan));
    rest = 1.0 - full;
    low = march__over(fan - full) / core__pick(rest > 0.0, rest, 1.0);
    mix->full[k] = core__pick(told, full, own);
    mix->cut[k] = core__pick(told, own - full, 0.0);
    mix->low_off[k] = core__pick(told, low, mix->low_off[k]);
    mix->low_on[k] = core__pick(told, low, mix->low_on[k]);
}

static inline void march__mix_blowers(const struct march__body *m,
                                      const struct march__duty *duty,
                                      struct march__mixing *mix)
{
    double cool[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    const struct dew_heater *heater = &m->c.plant.heater;
    double heat = heater->by_air
                      ? march__heat_run(heater, mix->pump, duty->heat)
                      : CORE__OF(0.0);

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        const struct dew_handler *handler = &m->c.plant.handlers[k];

        mix->run[k] = plant__run_time(cool[k], handler->cycling);
        mix->full[k] = core__share(
            mix->run[k] + plant__off_delay(handler, mix->run[k]) + heat);
        mix->low_off[k] = march__idle_share(handler, mix->full[k], 0);
        mix->low_on[k] = march__idle_share(handler, mix->full[k], 1);
        march__tell_blower(m, k, mix);
    }
    mix->handlers = m->alike ? 0 : m->c.plant.handler_count;
}

/* Shares of the ventilator and the blowers for the step now predicted. */
static inline void march__mix_of(const struct march__body *m,
                                 const struct march__hour *h,
                                 const struct dew_state *at,
                                 const struct march__duty *duty,
                                 struct march__mixing *mix)
{
    march__mix_vent(m, h, at, mix);
    march__mix_core(m, h, at, mix);
    march__mix_locals(m, h, mix);
    mix->pump = march__pump_of(&m->c.plant.heater, h->now.mid.t);
    march__mix_blowers(m, duty, mix);
}

#endif
