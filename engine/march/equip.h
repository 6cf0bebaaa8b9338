/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The equipment at the predicted state of a step, of one house or several.
   Private. */
#ifndef DEW_MARCH_EQUIP_H
#define DEW_MARCH_EQUIP_H

#include "ducts/delivery_step.h"
#include "house/around_step.h"
#include "march/blend.h"
#include "march/mix.h"

/* Wet bulb depression at rating: 80 degF dry, 67 degF wet, [APP-M]. */
#define MARCH__RATED_DEPRESSION (13.0 / 1.8)

/* Overcooling comes in over this much RH, so that it does not chatter. */
#define MARCH__OVERCOOL_WIDTH CORE__OF(0.02)

/*
 * The stage a machine runs at: two stages run the low one while it carries
 * the load, a variable one follows the load down to its turndown.  need is
 * the last prediction's duty times the stage it was made at.
 */
static inline double march__stage_of(const struct dew_handler *h, double need)
{
    core__truth varies = (h->turndown > 0.0) & (h->turndown < 1.0);
    core__truth two = (h->low_stage > 0.0) & (h->low_stage < 1.0);
    double low = core__pick(need < h->low_stage, h->low_stage, 1.0);
    double along = core__min(core__max(need, h->turndown), CORE__OF(1.0));

    return core__pick(varies, along, core__pick(two, low, 1.0));
}

/* How the apparatus dew point follows the entering humidity ratio: near this
   throughout, see plant__wet_dry. */
#define MARCH__FOLLOWS 0.56

/*
 * The coil as a straight line in w about the predicted state, so that the
 * stage's own w finds nearly the coil's own answer.  wet: share of the water
 * that the coil's start lets through; wetter: entering air over the room's, by
 * fresh air that meets the coil first.
 */
static inline struct march__coil march__line_of(
    const struct dew_coil_work *work, const struct dew_coil_air *air,
    double wet, double wetter, double blower)
{
    double pass = work->m_bf * (1.0 - MARCH__FOLLOWS);
    core__truth dry = work->w_adp >= air->w;

    return (struct march__coil){
        .sensible = work->sensible,
        .pass = wet * pass,
        .w_adp =
            core__pick(dry, work->w_adp, air->w - work->water / pass) - wetter,
        .power = work->power,
        .blower = blower};
}

/* What outdoor air tied in before a coil does to its air: shares of the
   difference to outdoors, 0 .. 1, of temperature and of humidity. */
struct leaning {
    double t, w;
};

static inline struct leaning march__leaning_of(const struct march__body *m,
                                               const struct march__hour *h,
                                               int k)
{
    struct march__inlet in;
    double coil, per;

    if (!m->tied) /* a block: no air, where nothing is tied in */
        return (struct leaning){CORE__OF(0.0), CORE__OF(0.0)};
    in = march__coil_inlet(&m->c, &h->mix, k);
    coil = m->coils[k].m / m->lane.rho;
    per = 1.0 / core__max(in.all, coil); /* at most all of it */

    return (struct leaning){in.sensible * per, in.latent * per};
}

/* The air around ducts outside: a vented space has the outdoors' humidity. */
static inline void march__equip_place(const struct march__body *m,
                                      struct march__hour *h,
                                      const struct dew_state *at)
{
    struct dew_around_hour around = {.t_out = h->now.mid.t,
                                     .sun = march__over(h->end->global),
                                     .t_in = at->t_air,
                                     .t_ground = h->now.drive.t_ground};

    h->now.drive.place_t = house__around_t(&m->c.house.around, &around);
    h->now.drive.place_w = h->now.mid.w;
}

/* Leaks of handler k's ducts, its blower at low or full, as the ventilator
   runs in this step. */
static inline struct dew_duct_leaking march__leaking(
    const struct march__body *m, const struct march__hour *h, int k, int full)
{
    struct dew_duct_leaking sum = {0};

    for (int v = 0; v < DEW_VENT_STATES; v++) {
        const struct dew_duct_leaking *l = &m->c.watch.leaks[v][k][full];

        sum.drawn += h->mix.vent[v] * l->drawn;
        sum.lost += h->mix.vent[v] * l->lost;
    }
    return sum;
}

static inline double march__held_on(const struct march__body *m, int k)
{
    const double held[DEW_HANDLERS] = {m->at.x.coil_1, m->at.x.coil_2,
                                       m->at.x.coil_3};

    return march__over(held[k]);
}

/* Share of the time in which air moves over a coil that does not run. */
static inline double march__low_share(const struct march__hour *h, int k)
{
    double off = h->mix.vent[DEW_VENT_OFF];

    return off * h->mix.low_off[k] + (1.0 - off) * h->mix.low_on[k];
}

/* kg/s of water that its air at full flow could take up. */
static inline double march__soak_of(const struct dew_coil *coil,
                                    const struct dew_coil_air *air,
                                    double t_wet)
{
    return coil->m * march__over(plant__w_sat(t_wet, air->p).value - air->w);
}

/* One coil running, and what its store gives and takes in the step. */
static inline struct march__coil march__coil_at(const struct march__body *m,
                                                struct march__hour *h,
                                                const struct dew_state *at,
                                                int k, double duty)
{
    const struct dew_handler *handler = &m->c.plant.handlers[k];
    struct leaning lean = march__leaning_of(m, h, k);
    struct dew_duct_leaking leak = march__leaking(m, h, k, 1);
    double warmer = lean.t * (h->now.mid.t - at->t_air) +
                    leak.drawn * (h->now.drive.place_t - at->t_air);
    double wetter = lean.w * (h->now.mid.w - at->w) +
                    leak.drawn * (h->now.drive.place_w - at->w);
    struct dew_coil_air air = {.t = at->t_air + warmer,
                               .w = at->w + wetter,
                               .p = h->now.mid.p,
                               .t_out = h->now.mid.t,
                               .flow = CORE__OF(1.0)};
    double share = plant__stage_air(&m->stages[k], h->stage[k]);
    struct dew_coil coil = plant__coil_stage(&m->coils[k], h->stage[k], share);
    struct dew_coil_work work = plant__coil(&coil, &air, &h->off[k]);
    double low = march__low_share(h, k);
    struct dew_coil_store_in in = {
        .m = march__held_on(m, k),
        .seconds = h->dt,
        .run = h->mix.run[k],
        .blower = core__max(h->mix.full[k] + (1.0 - h->mix.full[k]) * low,
                            h->mix.run[k]),
        .water = work.water / h->longer[k],
        .depression =
            march__over((air.t - work.t_wet) / MARCH__RATED_DEPRESSION),
        .soak = march__soak_of(&m->coils[k], &air, work.t_wet),
        .lately = h->half_left * (m->at.ran[k] - h->mix.run[k])};
    double meant = work.water * duty * h->dt, wet;
    core__truth wets = meant > 0.0;

    h->wet[k] = plant__store_step(&m->stores[k], &in);
    wet = core__pick(wets, h->wet[k].condensed / core__pick(wets, meant, 1.0),
                     1.0);
    return march__line_of(&work, &air, wet, wetter,
                          plant__blower_w(handler, &m->stages[k], share));
}

static inline void march__equip_heat(const struct march__body *m,
                                     struct march__hour *h)
{
    const struct dew_heater *heater = &m->c.plant.heater;

    double pump = h->mix.pump;

    h->now.drive.heat_cap =
        core__pick(pump > 0.0, pump + heater->backup, heater->capacity);
}

/* The blower's use at full flow beyond idling, W. */
static inline double march__blower_more(const struct march__body *m,
                                        const struct march__hour *h, int k)
{
    const struct dew_handler *handler = &m->c.plant.handlers[k];
    double share = plant__stage_air(&m->stages[k], h->stage[k]);

    return plant__blower_w(handler, &m->stages[k], share) -
           march__low_share(h, k) * handler->blower_low_w;
}

/* A machine that cycles runs longer than its load, duty / (1 - C_d (1 -
   duty)) [NREL-56354], and its blower with it.  The blower's use for cooling
   at that duty beyond idling, W. */
static inline double march__blows(const struct march__body *m,
                                  const struct march__hour *h, int k,
                                  double duty)
{
    const struct dew_handler *handler = &m->c.plant.handlers[k];
    double run = plant__run_time(duty, handler->cycling);
    double full = run + plant__off_delay(handler, run);

    return full * march__blower_more(m, h, k);
}

/* The same for all of the cooling, as a straight line through the duty now
   predicted: W at full duty.  duty may be 0: the line's slope remains. */
static inline double march__blower_cool(const struct march__body *m,
                                        const struct march__hour *h,
                                        const struct march__duty *duty)
{
    const double run[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    const double sensible[DEW_HANDLERS] = {
        h->now.c1.sensible, h->now.c2.sensible, h->now.c3.sensible};
    double used = CORE__OF(0.0), given = used, all = used;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double now = core__max(run[k], CORE__OF(1e-6));

        used += march__blows(m, h, k, now);
        given += now * sensible[k];
        all += sensible[k];
    }
    return march__ratio(used * all, given);
}

static inline void march__equip_blowers(const struct march__body *m,
                                        struct march__hour *h,
                                        const struct march__duty *duty)
{
    struct march__drive *d = &h->now.drive;
    double full = CORE__OF(0.0), heat = core__max(duty->heat, CORE__OF(1e-6));

    d->blower_idle = CORE__OF(0.0);
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        const struct dew_handler *handler = &m->c.plant.handlers[k];

        d->blower_idle += march__low_share(h, k) * handler->blower_low_w;
        full += handler->blower_w;
    }
    d->blower_cool = march__blower_cool(m, h, duty);
    d->blower_heat =
        m->c.plant.heater.by_air
            ? (full - d->blower_idle) *
                  march__heat_run(&m->c.plant.heater, h->mix.pump, heat) / heat
            : CORE__OF(0.0);
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        if (core__any(h->mix.cut[k] > 0.0))
            d->blower_idle -= h->mix.cut[k] * march__blower_more(m, h, k);
}

/* Air of handler k on its way through ducts outside, of all handlers' air. */
static inline void march__add_ducts(const struct march__body *m,
                                    struct march__hour *h, int k, double all)
{
    const struct dew_duct_watch *w = &m->c.watch;
    const struct dew_handler *at = &m->c.plant.handlers[k];
    struct march__drive *d = &h->now.drive;
    struct dew_duct_leaking leak[2] = {march__leaking(m, h, k, 0),
                                       march__leaking(m, h, k, 1)};
    struct dew_duct_delivery low =
        ducts__delivery(&leak[0], w->supply_low, w->return_low);
    struct dew_duct_delivery full =
        ducts__delivery(&leak[1], w->supply_full, w->return_full);
    double run = h->mix.full[k], rest = (1.0 - run) * march__low_share(h, k);
    double share = march__ratio(at->air, all);

    d->duct_g += m->lane.rho * at->air * AIR__CP *
                 (run * full.wall + rest * at->blower_low * low.wall);
    d->duct_cool += share * full.wall_effect;
    d->lost_cool += share * leak[1].lost;
    d->lost_rest += share * core__pick(rest > 0.0, leak[0].lost, leak[1].lost);
}

static inline void march__equip_ducts(const struct march__body *m,
                                      struct march__hour *h)
{
    struct march__drive *d = &h->now.drive;
    double by_air = CORE__OF(m->c.plant.heater.by_air ? 1.0 : 0.0);
    double all = CORE__OF(0.0);

    d->duct_g = d->duct_cool = d->lost_cool = d->lost_rest = CORE__OF(0.0);
    d->duct_heat = d->lost_heat = CORE__OF(0.0);
    if (!m->ducted) /* a block: all 0 again without such ducts */
        return;
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        all += m->c.plant.handlers[k].air;
    for (int k = 0; k < m->c.plant.handler_count; k++)
        march__add_ducts(m, h, k, all);
    d->duct_heat = by_air * d->duct_cool;
    d->lost_heat = by_air * d->lost_cool;
}

/* duty of the last prediction: a machine that cycles needs more for its
   water, by 0.90 + 0.10 duty, and what it needs warms the room. */
static inline void march__equip_humidity(const struct march__body *m,
                                         struct march__hour *h,
                                         const struct dew_state *at,
                                         double duty)
{
    const struct dew_dryer *dryer = &m->c.plant.dryer;
    struct plant__dryer work = {0};

    if (core__any(dryer->rate > 0.0)) {
        double x = plant__dryer_outdoor(dryer);
        double t = at->t_air + x * (h->now.mid.t - at->t_air);
        double w = at->w + x * (h->now.mid.w - at->w);
        core__truth runs = plant__dryer_works(t) & (dryer->rate > 0.0);
        double rate = dryer->rate * dryer->drained;

        work = plant__dryer(t, air__rh(t, w, h->now.mid.p), m->by_removal,
                            m->by_efficiency);
        work.rate = core__pick(runs, work.rate * rate, 0.0);
        work.power = core__pick(runs, work.power * rate / dryer->factor, 0.0);
    }
    h->now.drive.dry_rate = work.rate;
    h->now.drive.dry_power = work.power / plant__dryer_part_load(duty);
    h->now.drive.wet_rate = m->c.plant.humidifier.rate;
}

/* What is left of how a compressor ran, after so many seconds: as its cycles
   are far apart where they matter, an hour; ours. */
static inline double march__remembers(double seconds)
{
    return air__poly_exp2(seconds * (-AIR__PER_LN_2 / 3600.0));
}

/* Nothing, instead of what fades without end. */
static inline double march__unless_gone(double x)
{
    const core__plain least = 1e-9;

    return core__pick(x > least, x, 0.0);
}

/* K by which the set point is to come down while the house is too humid: while
   its water would be at the set point as it was, as a colder room's RH is
   higher for being colder and would ask for more of the same. */
static inline double march__overcooled(const struct march__body *m,
                                       const struct march__hour *h, double set,
                                       double w)
{
    const struct dew_handler *lead = &m->c.plant.handlers[0];

    if (m->c.plant.handler_count == 0 || !core__any(lead->overcool > 0.0))
        return CORE__OF(0.0); /* a block: 0 again */
    return march__over(lead->overcool) *
           plant__ramp(air__rh(set, w, h->now.mid.p), lead->overcool_rh,
                       MARCH__OVERCOOL_WIDTH);
}

/* It comes down, and up again, as slowly as compressors are remembered: at once
   it would take out so much that the next step would find the house dry. */
static inline void march__overcool(const struct march__body *m,
                                   struct march__hour *h,
                                   const struct dew_state *at)
{
    double set = m->c.house.comfort.cool[h->date.hour - 1];
    double to = march__overcooled(m, h, set, at->w), from = m->at.lowered - to;

    h->now.drive.set_cool = set - to - h->half_left * from;
    h->lowered = march__unless_gone(to + h->half_left * h->half_left * from);
}

/* A coil that will not be asked for, and has no water on it: this far, K, under
   the set point at the predicted state, and none predicted.  A step that cools
   after all is too coarse, see march.c, and predicts it when done again. */
#define MARCH__CLEAR_OF 0.5

static inline core__truth march__rests(const struct march__body *m,
                                       const struct march__hour *h,
                                       const struct dew_state *at, int k,
                                       const struct march__duty *duty)
{
    double cools = duty->cool + duty->cool_2 + duty->cool_3;

    return core__not(march__held_on(m, k) > 0.0) & core__not(cools > 0.0) &
           core__not(h->now.drive.told_cool > 0.0) &
           (at->t_air < h->now.drive.set_cool - MARCH__CLEAR_OF);
}

static inline void march__equip_coil(const struct march__body *m,
                                     struct march__hour *h,
                                     const struct dew_state *at, int k,
                                     const struct march__duty *duty)
{
    const double run[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    struct march__coil *coils[DEW_HANDLERS] = {&h->now.c1, &h->now.c2,
                                               &h->now.c3};
    const struct dew_coil_store_out none = {0};
    struct march__coil now;
    core__truth rests;

    h->stage[k] =
        march__stage_of(&m->c.plant.handlers[k], run[k] * m->at.stage[k]);
    h->longer[k] =
        1.0 / plant__part_load(run[k], m->c.plant.handlers[k].cycling);
    h->off[k] = m->at.off[k];
    h->wet[k] = (struct dew_coil_store_out){0};
    rests = march__rests(m, h, at, k, duty);
    if (m->begun &&
        core__every(rests)) /* a block: keeps its coil and its off */
        return;
    now = march__coil_at(m, h, at, k, run[k]);
    if (m->begun) {
        march__where(rests, &now, coils[k], sizeof now);
        march__where(rests, &h->off[k], &m->at.off[k], sizeof h->off[k]);
        march__where(rests, &h->wet[k], &none, sizeof none);
    }
    *coils[k] = now;
    h->now.drive.reevaporation += h->wet[k].reevaporated * h->per_dt;
}

/* Coils, dryer, humidifier and thermostat of the step now predicted; writes
   h->now.c1 .. c3, the drive's equipment members and h->wet. */
static inline void march__equip(const struct march__body *m,
                                struct march__hour *h,
                                const struct dew_state *at,
                                const struct march__duty *duty)
{
    h->now.drive.reevaporation = CORE__OF(0.0);
    h->half_left = march__remembers(0.5 * h->dt);
    march__equip_place(m, h, at);
    march__overcool(m, h, at);
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        h->stage[k] = CORE__OF(1.0);
        if (core__any(m->coils[k].capacity > 0.0))
            march__equip_coil(m, h, at, k, duty);
    }
    march__equip_heat(m, h);
    march__equip_blowers(m, h, duty);
    march__equip_ducts(m, h);
    march__equip_humidity(m, h, at, core__share(duty->dry));
}

/* How the compressors ran, and where the set point was, with this step. */
static inline void march__remember(struct march__body *m,
                                   const struct march__hour *h,
                                   const struct march__duty *duty,
                                   core__truth takes)
{
    const double load[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    double left = h->half_left * h->half_left;

    m->at.lowered = core__pick(takes, h->lowered, m->at.lowered);
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double run = plant__run_time(core__share(load[k] * h->per_dt),
                                     m->c.plant.handlers[k].cycling);

        m->at.ran[k] = core__pick(
            takes, march__unless_gone(run + left * (m->at.ran[k] - run)),
            m->at.ran[k]);
    }
}

/* The coils' water as it was, shared out as predicted. */
static inline void march__drain(struct march__body *m, struct march__hour *h,
                                const struct march__sum *sum, core__truth takes)
{
    double *held[DEW_HANDLERS] = {&m->at.x.coil_1, &m->at.x.coil_2,
                                  &m->at.x.coil_3};
    double meant = CORE__OF(0.0), caught = -sum->water.coil;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        meant += h->wet[k].condensed;
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double even = CORE__OF(1.0 / m->c.plant.handler_count);
        core__truth wets = meant > 0.0;
        double share = core__pick(
            wets, h->wet[k].condensed / core__pick(wets, meant, 1.0), even);
        double most = m->stores[k].most, over;

        *held[k] +=
            core__pick(takes, caught * share - h->wet[k].reevaporated, 0.0);
        over = core__pick(takes, march__over(*held[k] - most), 0.0);
        *held[k] -= over;
        h->drained += over;
    }
}

#endif
