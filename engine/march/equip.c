/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The equipment at the predicted state of a step. */
#include <math.h>

#include "dew/air.h"
#include "dew/dryer.h"
#include "dew/plant.h"
#include "dew/thermal.h"
#include "march/march.h"
#include "plant/coil_step.h"
#include "plant/control_step.h"
#include "plant/store_step.h"

/* Wet bulb depression at rating: 80 degF dry, 67 degF wet, [APP-M]. */
static const double rated_depression = 13.0 / 1.8;

/* Overcooling comes in over this much RH, so that it does not chatter. */
static const double overcool_width = 0.02;

/*
 * The stage a machine runs at: two stages run the low one while it carries
 * the load, a variable one follows the load down to its turndown.  need is
 * the last prediction's duty times the stage it was made at.
 */
static double stage_of(const struct dew_handler *h, double need)
{
    if (h->turndown > 0.0 && h->turndown < 1.0)
        return need < h->turndown ? h->turndown : need < 1.0 ? need : 1.0;
    if (h->low_stage > 0.0 && h->low_stage < 1.0)
        return need < h->low_stage ? h->low_stage : 1.0;
    return 1.0;
}

/* How the apparatus dew point follows the entering humidity ratio: near this
   throughout, see plant__wet_dry. */
static const double follows = 0.56;

/*
 * The coil as a straight line in w about the predicted state, so that the
 * stage's own w finds nearly the coil's own answer.  wet: share of the water
 * that the coil's start lets through; wetter: entering air over the room's, by
 * fresh air that meets the coil first.
 */
static struct march__coil line_of(const struct dew_coil_work *work,
                                  const struct dew_coil_air *air, double wet,
                                  double wetter, double blower)
{
    double pass = work->m_bf * (1.0 - follows);
    int dry = work->w_adp >= air->w;

    return (struct march__coil){
        .sensible = work->sensible,
        .pass = wet * pass,
        .w_adp = (dry ? work->w_adp : air->w - work->water / pass) - wetter,
        .power = work->power,
        .blower = blower};
}

/* What outdoor air tied in before a coil does to its air: shares of the
   difference to outdoors, 0 .. 1, of temperature and of humidity. */
struct leaning {
    double t, w;
};

static struct leaning leaning_of(const struct dew_march *m,
                                 const struct march__hour *h, int k)
{
    struct march__inlet in = {0.0, 0.0, 0.0};
    double coil = m->coils[k].m / m->lane.rho;
    double per;

    if (m->tied) /* a block: no air, where nothing is tied in */
        in = march__coil_inlet(&m->c, &h->mix, k);
    per = 1.0 / (in.all > coil ? in.all : coil); /* at most all of it */

    return (struct leaning){in.sensible * per, in.latent * per};
}

/* The air around ducts outside: a vented space has the outdoors' humidity. */
static void equip_place(const struct dew_march *m, struct march__hour *h,
                        const struct dew_state *at)
{
    struct dew_around_hour around = {.t_out = h->now.mid.t,
                                     .sun = march__over(h->end->global),
                                     .t_in = at->t_air,
                                     .t_ground = h->now.drive.t_ground};

    h->now.drive.place_t = dew_house_around_t(&m->c.house.around, &around);
    h->now.drive.place_w = h->now.mid.w;
}

/* Leaks of handler k's ducts, its blower at low or full, as the ventilator
   runs in this step. */
static struct dew_duct_leaking leaking(const struct dew_march *m,
                                       const struct march__hour *h, int k,
                                       int full)
{
    struct dew_duct_leaking sum = {0.0, 0.0};

    for (int v = 0; v < DEW_VENT_STATES; v++) {
        const struct dew_duct_leaking *l = &m->c.watch.leaks[v][k][full];

        sum.drawn += h->mix.vent[v] * l->drawn;
        sum.lost += h->mix.vent[v] * l->lost;
    }
    return sum;
}

static double held_on(const struct dew_march *m, int k)
{
    const double held[DEW_HANDLERS] = {m->x.coil_1, m->x.coil_2, m->x.coil_3};

    return fmax(held[k], 0.0);
}

/* Share of the time in which air moves over a coil that does not run. */
static double low_share(const struct march__hour *h, int k)
{
    double off = h->mix.vent[DEW_VENT_OFF];

    return off * h->mix.low_off[k] + (1.0 - off) * h->mix.low_on[k];
}

/* kg/s of water that its air at full flow could take up. */
static double soak_of(const struct dew_coil *coil,
                      const struct dew_coil_air *air, double t_wet)
{
    return coil->m * fmax(plant__w_sat(t_wet, air->p).value - air->w, 0.0);
}

/* One coil running, and what its store gives and takes in the step. */
static struct march__coil coil_at(const struct dew_march *m,
                                  struct march__hour *h,
                                  const struct dew_state *at, int k,
                                  double duty)
{
    const struct dew_handler *handler = &m->c.plant.handlers[k];
    struct leaning lean = leaning_of(m, h, k);
    struct dew_duct_leaking leak = leaking(m, h, k, 1);
    double warmer = lean.t * (h->now.mid.t - at->t_air) +
                    leak.drawn * (h->now.drive.place_t - at->t_air);
    double wetter = lean.w * (h->now.mid.w - at->w) +
                    leak.drawn * (h->now.drive.place_w - at->w);
    struct dew_coil_air air = {.t = at->t_air + warmer,
                               .w = at->w + wetter,
                               .p = h->now.mid.p,
                               .t_out = h->now.mid.t,
                               .flow = 1.0};
    double share = plant__stage_air(&m->stages[k], h->stage[k]);
    struct dew_coil coil = plant__coil_stage(&m->coils[k], h->stage[k], share);
    struct dew_coil_work work = plant__coil(&coil, &air, &h->off[k]);
    double low = low_share(h, k);
    struct dew_coil_store_in in = {
        .m = held_on(m, k),
        .seconds = h->dt,
        .run = h->mix.run[k],
        .blower =
            fmax(h->mix.full[k] + (1.0 - h->mix.full[k]) * low, h->mix.run[k]),
        .water = work.water / h->longer[k],
        .depression = fmax((air.t - work.t_wet) / rated_depression, 0.0),
        .soak = soak_of(&m->coils[k], &air, work.t_wet),
        .lately = h->half_left * (m->ran[k] - h->mix.run[k])};
    double meant = work.water * duty * h->dt;

    h->wet[k] = plant__store_step(&m->stores[k], &in,
                                  plant__store_passes_of(&m->stores[k], h->dt),
                                  plant__store_fine(h->dt));
    return line_of(&work, &air, meant > 0.0 ? h->wet[k].condensed / meant : 1.0,
                   wetter, plant__blower_w(handler, &m->stages[k], share));
}

double march__pump(const struct dew_heater *heater, double t_out)
{
    return heater->efficiency > 0.0
               ? 0.0
               : heater->capacity * dew_plant_heat_pump_capacity(t_out);
}

double march__heat_run(const struct dew_heater *heater, double pump,
                       double duty)
{
    double run = duty * (1.0 + heater->backup / (pump > 0.0 ? pump : 1.0));

    run = run < 1.0 ? run : 1.0;
    return pump > 0.0 ? run : duty;
}

static void equip_heat(const struct dew_march *m, struct march__hour *h)
{
    const struct dew_heater *heater = &m->c.plant.heater;

    double pump = h->mix.pump;

    h->now.drive.heat_cap =
        pump > 0.0 ? pump + heater->backup : heater->capacity;
}

/* A machine that cycles runs longer than its load, duty / (1 - C_d (1 -
   duty)) [NREL-56354], and its blower with it.  The blower's use for cooling
   at that duty beyond idling, W. */
static double blows(const struct dew_march *m, const struct march__hour *h,
                    int k, double duty)
{
    const struct dew_handler *handler = &m->c.plant.handlers[k];
    double run = plant__run_time(duty, handler->cycling);
    double full = run + plant__off_delay(handler, run);
    double share = plant__stage_air(&m->stages[k], h->stage[k]);

    return full * (plant__blower_w(handler, &m->stages[k], share) -
                   low_share(h, k) * handler->blower_low_w);
}

/* The same for all of the cooling, as a straight line through the duty now
   predicted: W at full duty.  duty may be 0: the line's slope remains. */
static double blower_cool(const struct dew_march *m,
                          const struct march__hour *h,
                          const struct march__duty *duty)
{
    const double run[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    const double sensible[DEW_HANDLERS] = {
        h->now.c1.sensible, h->now.c2.sensible, h->now.c3.sensible};
    double used = 0.0, given = 0.0, all = 0.0;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double now = fmax(run[k], 1e-6);

        used += blows(m, h, k, now);
        given += now * sensible[k];
        all += sensible[k];
    }
    return given > 0.0 ? used * all / given : 0.0;
}

static void equip_blowers(const struct dew_march *m, struct march__hour *h,
                          const struct march__duty *duty)
{
    struct march__drive *d = &h->now.drive;
    double full = 0.0, heat = fmax(duty->heat, 1e-6);

    d->blower_idle = 0.0;
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        const struct dew_handler *handler = &m->c.plant.handlers[k];

        d->blower_idle += low_share(h, k) * handler->blower_low_w;
        full += handler->blower_w;
    }
    d->blower_cool = blower_cool(m, h, duty);
    d->blower_heat =
        m->c.plant.heater.by_air
            ? (full - d->blower_idle) *
                  march__heat_run(&m->c.plant.heater, h->mix.pump, heat) / heat
            : 0.0;
}

/* Air of handler k on its way through ducts outside, of all handlers' air. */
static void add_ducts(const struct dew_march *m, struct march__hour *h, int k,
                      double all)
{
    const struct dew_duct_watch *w = &m->c.watch;
    const struct dew_handler *at = &m->c.plant.handlers[k];
    struct march__drive *d = &h->now.drive;
    struct dew_duct_leaking leak[2] = {leaking(m, h, k, 0),
                                       leaking(m, h, k, 1)};
    struct dew_duct_delivery low =
        dew_ducts_delivery(&leak[0], w->supply_low, w->return_low);
    struct dew_duct_delivery full =
        dew_ducts_delivery(&leak[1], w->supply_full, w->return_full);
    double run = h->mix.full[k], rest = (1.0 - run) * low_share(h, k);
    double share = at->air / all;

    d->duct_g += m->lane.rho * at->air * AIR__CP *
                 (run * full.wall + rest * at->blower_low * low.wall);
    d->duct_cool += share * full.wall_effect;
    d->lost_cool += share * leak[1].lost;
    d->lost_rest += share * leak[rest > 0.0 ? 0 : 1].lost;
}

static void equip_ducts(const struct dew_march *m, struct march__hour *h)
{
    struct march__drive *d = &h->now.drive;
    double by_air = m->c.plant.heater.by_air ? 1.0 : 0.0, all = 0.0;

    d->duct_g = d->duct_cool = d->lost_cool = d->lost_rest = 0.0;
    d->duct_heat = d->lost_heat = 0.0;
    if (!m->ducted) /* a block: all 0 again without such ducts */
        return;
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        all += m->c.plant.handlers[k].air;
    for (int k = 0; k < m->c.plant.handler_count && all > 0.0; k++)
        add_ducts(m, h, k, all);
    d->duct_heat = by_air * d->duct_cool;
    d->lost_heat = by_air * d->lost_cool;
}

/* duty of the last prediction: a machine that cycles needs more for its
   water, by 0.90 + 0.10 duty, and what it needs warms the room. */
static void equip_humidity(const struct dew_march *m, struct march__hour *h,
                           const struct dew_state *at, double duty)
{
    const struct dew_dryer *dryer = &m->c.plant.dryer;
    struct dew_dryer_work work = {0};

    if (dryer->rate > 0.0) {
        struct dew_dryer_inlet in = dew_plant_dryer_inlet(
            dryer, at->t_air, at->w, h->now.mid.t, h->now.mid.w);

        dew_plant_dryer_at(dryer, in.t, in.w, h->now.mid.p, &work);
        if (isnan(work.rate)) /* in air colder or hotter than it works in */
            work = (struct dew_dryer_work){0};
    }
    h->now.drive.dry_rate = work.rate * dryer->drained;
    h->now.drive.dry_power =
        work.power * dryer->drained / dew_plant_dryer_part_load(duty);
    h->now.drive.wet_rate = m->c.plant.humidifier.rate;
}

/* What is left of how a compressor ran, after so many seconds: as its cycles
   are far apart where they matter, an hour; ours. */
static double remembers(double seconds)
{
    return air__poly_exp2(seconds * (-1.4426950408889634 / 3600.0));
}

/* Nothing, instead of what fades without end. */
static double unless_gone(double x)
{
    const double least = 1e-9;

    return x > least ? x : 0.0;
}

/* K by which the set point is to come down while the house is too humid: while
   its water would be at the set point as it was, as a colder room's RH is
   higher for being colder and would ask for more of the same. */
static double overcooled(const struct dew_march *m, const struct march__hour *h,
                         double set, double w)
{
    const struct dew_handler *lead = &m->c.plant.handlers[0];

    if (m->c.plant.handler_count == 0 || !(lead->overcool > 0.0))
        return 0.0; /* a block: 0 again */
    return lead->overcool * plant__ramp(air__rh(set, w, h->now.mid.p),
                                        lead->overcool_rh, overcool_width);
}

/* It comes down, and up again, as slowly as compressors are remembered: at once
   it would take out so much that the next step would find the house dry. */
static void overcool(const struct dew_march *m, struct march__hour *h,
                     const struct dew_state *at)
{
    double set = m->c.house.comfort.cool[h->date.hour - 1];
    double to = overcooled(m, h, set, at->w), from = m->lowered - to;

    h->now.drive.set_cool = set - to - h->half_left * from;
    h->lowered = unless_gone(to + h->half_left * h->half_left * from);
}

/* A coil that will not be asked for, and has no water on it: this far, K, under
   the set point at the predicted state, and none predicted.  A step that cools
   after all is too coarse, see march.c, and predicts it when done again. */
static const double clear_of = 0.5;

static int rests(const struct dew_march *m, const struct march__hour *h,
                 const struct dew_state *at, int k,
                 const struct march__duty *duty)
{
    double cools = duty->cool + duty->cool_2 + duty->cool_3;

    return m->begun && !(held_on(m, k) > 0.0) && !(cools > 0.0) &&
           at->t_air < h->now.drive.set_cool - clear_of;
}

static void equip_coil(const struct dew_march *m, struct march__hour *h,
                       const struct dew_state *at, int k,
                       const struct march__duty *duty)
{
    const double run[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    struct march__coil *coils[DEW_HANDLERS] = {&h->now.c1, &h->now.c2,
                                               &h->now.c3};

    h->stage[k] = stage_of(&m->c.plant.handlers[k], run[k] * m->stage[k]);
    h->longer[k] =
        1.0 / plant__part_load(run[k], m->c.plant.handlers[k].cycling);
    h->off[k] = m->off[k];
    h->wet[k] = (struct dew_coil_store_out){0};
    if (rests(m, h, at, k, duty)) /* a block: keeps its coil and its off */
        return;
    *coils[k] = coil_at(m, h, at, k, run[k]);
    h->now.drive.reevaporation += h->wet[k].reevaporated / h->dt;
}

void march__equip(const struct dew_march *m, struct march__hour *h,
                  const struct dew_state *at, const struct march__duty *duty)
{
    h->now.drive.reevaporation = 0.0;
    h->half_left = remembers(0.5 * h->dt);
    equip_place(m, h, at);
    overcool(m, h, at);
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        h->stage[k] = 1.0;
        if (m->coils[k].capacity > 0.0)
            equip_coil(m, h, at, k, duty);
    }
    equip_heat(m, h);
    equip_blowers(m, h, duty);
    equip_ducts(m, h);
    equip_humidity(m, h, at, core__share(duty->dry));
}

/* How the compressors ran, and where the set point was, with this step. */
void march__remember(struct dew_march *m, const struct march__hour *h,
                     const struct march__duty *duty)
{
    const double load[DEW_HANDLERS] = {duty->cool, duty->cool_2, duty->cool_3};
    double left = h->half_left * h->half_left;

    m->lowered = h->lowered;
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double run = plant__run_time(core__share(load[k] / h->dt),
                                     m->c.plant.handlers[k].cycling);

        m->ran[k] = unless_gone(run + left * (m->ran[k] - run));
    }
}

/* The coils' water as it was, shared out as predicted. */
void march__drain(struct dew_march *m, struct march__hour *h,
                  const struct march__sum *sum)
{
    double *held[DEW_HANDLERS] = {&m->x.coil_1, &m->x.coil_2, &m->x.coil_3};
    double meant = 0.0, caught = -sum->water.coil;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        meant += h->wet[k].condensed;
    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double even = 1.0 / m->c.plant.handler_count;
        double share = meant > 0.0 ? h->wet[k].condensed / meant : even;
        double most = m->stores[k].most, over;

        *held[k] += caught * share - h->wet[k].reevaporated;
        over = fmax(*held[k] - most, 0.0);
        *held[k] -= over;
        h->drained += over;
    }
}
