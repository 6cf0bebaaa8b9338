/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One hour of one house or several: march__run_hour reads like contents.
   Private. */
#ifndef DEW_MARCH_HOUR_H
#define DEW_MARCH_HOUR_H

#include <string.h>

#include "march/drive_step.h"
#include "march/equip.h"
#include "march/tell.h"
#include "weather/hour_step.h"

/* Before the first step there is no prediction: begin from the state itself. */
static inline void march__begin(struct march__body *m, struct march__hour *h)
{
    struct march__duty none = {0};
    double worst;

    if (m->begun)
        return;
    h->now.mid = *h->end;
    march__mix_of(m, h, &m->at.x, &none, &h->mix);
    march__equip(m, h, &m->at.x, &none);
    m->at.blend = march__blend_all(
        &m->c, &h->mix, m->lane.rho,
        march__natural(&m->lane, m->at.x.t_air, h->end), &worst);
    h->now.blend = m->at.blend;
    m->at.terms =
        march__settle(&h->now, &m->at.x, &none, CORE__OF(0.0), 1.0 / h->dt);
    m->begun = 1;
}

/* Water beyond what a film can hold runs off and is wiped. */
static inline double march__wipe(double *film, double most)
{
    double over = march__over(*film - most);

    *film -= over;
    return over;
}

static inline void march__wipe_all(struct march__body *m, struct march__hour *h)
{
    const struct dew_surface *s = m->c.house.surfaces;
    struct dew_state *x = &m->at.x;

    h->wiped += march__wipe(&x->film_glass, s[DEW_GLASS].film_max);
    h->wiped += march__wipe(&x->film_edge, s[DEW_EDGE].film_max);
    h->wiped += march__wipe(&x->film_corner, s[DEW_CORNER].film_max);
}

/* What a step comes to, before it is taken. */
struct march__trial {
    struct march__terms terms;
    struct dew_state end;
    struct march__sum sum;
    double worst; /* m3/s most negative supply less exhaust          */
};

/* Predict, weigh the air paths, settle the terms, two stages. */
static inline void march__try_step(const struct march__body *m,
                                   struct march__hour *h, double middle,
                                   struct march__trial *s)
{
    struct march__now *now = &h->now;
    const struct dew_state *x = &m->at.x;
    struct dew_state at;
    struct march__terms guess;
    struct march__duty duty;
    double owed = x->owed_q / h->dt, natural;

    now->mid = weather__between(&h->start, h->end, middle);
    now->blend = m->at.blend;
    guess = march__sources(now, &m->at.terms, owed);
    at = march__predict(now, &guess, x, h->dt, &duty);
    march__mix_of(m, h, &at, &duty, &h->mix);
    march__equip(m, h, &at, &duty);
    natural = march__natural(&m->lane, at.t_air, &now->mid);
    now->blend =
        march__blend_all(&m->c, &h->mix, m->lane.rho, natural, &s->worst);
    now->blend.fresh += m->lane.rho * m->c.plant.dryer.outdoor * duty.dry;
    s->terms = march__settle(now, &at, &duty, owed, 1.0 / h->dt);
    s->end = march__finish(now, &s->terms, x, h->dt, &s->sum);
}

/* The coefficients of a trial: the next prediction is made with them. */
static inline void march__learn(struct march__body *m,
                                const struct march__hour *h,
                                const struct march__trial *s)
{
    m->at.terms = s->terms;
    m->at.blend = h->now.blend;
    for (int k = 0; k < DEW_HANDLERS; k++) {
        m->at.stage[k] = h->stage[k];
        m->at.off[k] = h->off[k];
    }
}

static inline void march__take_step(struct march__body *m,
                                    struct march__hour *h,
                                    const struct march__trial *s,
                                    struct dew_result *r)
{
    struct dew_state from = m->at.x;

    march__learn(m, h, s);
    m->at.x = s->end;
    m->at.heats = s->sum.heats;
    m->at.cools = s->sum.cools;
    h->worst = core__min(h->worst, s->worst);
    march__wipe_all(m, h);
    march__drain(m, h, &s->sum);
    march__remember(m, h, &s->sum.duty);
    march__tell_step(m, h, &from, &s->sum, r);
    m->at.x_p = h->now.mid.p;
}

/* Air changes in a step by which its exchange may differ from the last's. */
#define MARCH__MOST_CHANGE 0.015

/* kg/kg by which coils may give back what they never took, for a step that was
   predicted to cool more or less than it did: 0.03 points of RH; and how much
   the water that stays on them counts beside what they give back. */
#define MARCH__MOST_MISSED 5e-6
#define MARCH__STAYS       0.1

/* Where they do more: evaporation may then take over the cooling, or the
   cooling it, and in which of the two a house is shows for hours. */
static inline core__truth march__is_missed(const struct march__body *m,
                                           const struct march__hour *h,
                                           const struct march__trial *s)
{
    double meant = CORE__OF(0.0), back = meant, there = meant;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        meant += h->wet[k].condensed;
        back += h->wet[k].reevaporated;
        there += h->wet[k].reevaporated + MARCH__STAYS * h->wet[k].m;
    }
    return core__abs(meant + s->sum.water.coil) * back >
           MARCH__MOST_MISSED * m->lane.mass_air * there;
}

/* Where a machine has changed its stage, and not followed the load a bit. */
static inline core__truth march__is_shifted(const struct march__body *m,
                                            const struct march__hour *h)
{
    const core__plain most = 0.2;
    core__truth shifted = {0};

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        shifted = shifted | (core__abs(h->stage[k] - m->at.stage[k]) > most);
    return shifted;
}

/* Where a face's film has dried, or nearly, and so its evaporation stops. */
static inline core__truth march__dries(double from, double to)
{
    const core__plain seen = 1e-9, nearly = 0.25; /* kg, - */

    return (from > seen) & (to < nearly * from);
}

static inline core__truth march__is_dried(const struct dew_state *from,
                                          const struct dew_state *to)
{
    return march__dries(from->film_glass, to->film_glass) |
           march__dries(from->film_edge, to->film_edge) |
           march__dries(from->film_corner, to->film_corner);
}

/* Where one step is too coarse: heating or cooling has come or gone in it,
   which its two stages see at the wrong moment, or the wind swings. */
static inline core__truth march__is_coarse(const struct march__body *m,
                                           const struct march__hour *h,
                                           const struct march__trial *s)
{
    double change = core__abs(march__exchange(&h->now.blend) -
                              march__exchange(&m->at.blend));

    return (s->sum.heats != m->at.heats) | (s->sum.cools != m->at.cools) |
           march__is_shifted(m, h) | march__is_dried(&m->at.x, &s->end) |
           (change * h->dt > MARCH__MOST_CHANGE * m->lane.mass_air);
}

/* What weighs a step's air and machines, as it was, where so. */
static inline void march__keep_weights(struct march__hour *h, core__truth so,
                                       const struct march__now *now,
                                       const struct march__mixing *mix)
{
    march__where(so, &h->now, now, offsetof(struct march__now, kinds));
    march__where(so, &h->mix, mix, offsetof(struct march__mixing, handlers));
}

/* A trial again, from its own end, where it missed. */
static inline void march__try_again(struct march__body *m,
                                    struct march__hour *h, double middle,
                                    core__truth missed, struct march__trial *s)
{
    struct march__trial first = *s;
    struct march__hour kept = *h;

    march__learn(m, h, s);
    march__try_step(m, h, middle, s);
    if (core__every(missed))
        return;
    march__where(core__not(missed), s, &first, sizeof *s);
    march__keep_weights(h, core__not(missed), &kept.now, &kept.mix);
    march__where(core__not(missed), &h->wet, &kept.wet,
                 offsetof(struct march__hour, rh) -
                     offsetof(struct march__hour, wet)); /* its machines */
}

/* A part of a step; predicted anew, once, where what the coils give back was
   predicted for other water. */
static inline void march__one_part(struct march__body *m, struct march__hour *h,
                                   double middle, struct dew_result *r)
{
    struct march__trial s;
    core__truth missed;

    march__try_step(m, h, middle, &s);
    missed = march__is_missed(m, h, &s);
    if (core__any(missed))
        march__try_again(m, h, middle, missed, &s);
    march__take_step(m, h, &s, r);
}

/* The step again, in halves. */
static inline void march__in_halves(struct march__body *m,
                                    struct march__hour *h, double middle,
                                    const struct march__trial *s,
                                    struct dew_result *r)
{
    double quarter = 0.25 * h->per_steps;

    march__learn(m, h, s);
    h->dt *= 0.5;
    h->seconds *= 0.5;
    h->per_steps *= 0.5;
    march__one_part(m, h, middle - quarter, r);
    march__one_part(m, h, middle + quarter, r);
    h->dt *= 2.0;
    h->seconds *= 2.0;
    h->per_steps *= 2.0;
}

/* All that a step writes. */
struct march__written {
    struct march__course at;
    struct march__now now;
    struct march__mixing mix;
    double wiped, worst, drained, rh;
    struct dew_result r;
};

static inline void march__note(const struct march__body *m,
                               const struct march__hour *h,
                               const struct dew_result *r,
                               struct march__written *w)
{
    w->at = m->at;
    w->now = h->now;
    w->mix = h->mix;
    w->wiped = h->wiped;
    w->worst = h->worst;
    w->drained = h->drained;
    w->rh = h->rh;
    w->r = *r;
}

static inline void march__go_back(struct march__body *m, struct march__hour *h,
                                  struct dew_result *r,
                                  const struct march__written *w)
{
    m->at = w->at;
    h->now = w->now;
    h->mix = w->mix;
    h->wiped = w->wiped;
    h->worst = w->worst;
    h->drained = w->drained;
    h->rh = w->rh;
    *r = w->r;
}

/* What was noted takes the place of what stands, in the houses where so. */
static inline void march__recall(struct march__body *m, struct march__hour *h,
                                 struct dew_result *r, core__truth so,
                                 const struct march__written *w)
{
    march__where(so, &m->at, &w->at, sizeof m->at);
    march__keep_weights(h, so, &w->now, &w->mix);
    h->wiped = core__pick(so, w->wiped, h->wiped);
    h->worst = core__pick(so, w->worst, h->worst);
    h->drained = core__pick(so, w->drained, h->drained);
    h->rh = core__pick(so, w->rh, h->rh);
    march__where(so, r, &w->r, sizeof *r);
}

/* One step, done again in halves where it is too coarse. */
static inline void march__one_step(struct march__body *m, struct march__hour *h,
                                   double middle, struct dew_result *r)
{
    struct march__trial s;
    struct march__written before, whole;
    core__truth coarse, missed;

    march__try_step(m, h, middle, &s);
    coarse = march__is_coarse(m, h, &s);
    missed = march__is_missed(m, h, &s);
    coarse = coarse | (missed & (m->switches > 0.0));
    missed = missed & core__not(coarse);
    if (core__any(missed)) {
        march__try_again(m, h, middle, missed, &s);
        coarse = coarse | march__is_missed(m, h, &s);
    }
    if (!core__any(coarse)) {
        march__take_step(m, h, &s, r);
    } else if (core__every(coarse)) {
        march__in_halves(m, h, middle, &s, r);
    } else {
        struct march__trial again = s;

        march__note(m, h, r, &before);
        march__take_step(m, h, &s, r);
        march__note(m, h, r, &whole);
        march__go_back(m, h, r, &before);
        march__in_halves(m, h, middle, &again, r);
        march__recall(m, h, r, core__not(coarse), &whole);
    }
}

/* The first prediction of an hour has the equipment of the last step. */
static inline void march__keep_equipment(struct march__drive *drive,
                                         const struct march__drive *last)
{
    drive->heat_cap = last->heat_cap;
    drive->dry_rate = last->dry_rate;
    drive->dry_power = last->dry_power;
    drive->wet_rate = last->wet_rate;
    drive->blower_idle = last->blower_idle;
    drive->blower_cool = last->blower_cool;
    drive->blower_heat = last->blower_heat;
    drive->duct_g = last->duct_g;
    drive->duct_heat = last->duct_heat;
    drive->duct_cool = last->duct_cool;
    drive->place_t = last->place_t;
    drive->place_w = last->place_w;
    drive->lost_heat = last->lost_heat;
    drive->lost_cool = last->lost_cool;
    drive->lost_rest = last->lost_rest;
    drive->reevaporation = last->reevaporation;
}

/*
 * An indoor temperature that was measured stands above the thermostat, from
 * the hour's beginning on.  Returns the heat that brings the air there, J.
 */
static inline double march__hold(struct march__body *m,
                                 struct march__drive *drive)
{
    core__truth so = m->held == m->held; /* not NaN */
    double before = m->at.x.t_air;

    drive->given = core__pick(so, 1.0, drive->given);
    drive->set_heat = core__pick(so, m->held, drive->set_heat);
    m->at.x.t_air = core__pick(so, m->held, before);
    return m->lane.c_air * (m->at.x.t_air - before);
}

static inline void march__hour_of(struct march__body *m,
                                  const struct dew_hour *hour,
                                  const struct march__sun *sun,
                                  const struct dew_date *wall,
                                  struct march__hour *h)
{
    core__plain per = 1.0 / m->c.steps_per_hour;

    memset(&h->mix, 0, sizeof h->mix);
    memset(&h->wet, 0,
           sizeof *h - offsetof(struct march__hour, wet)); /* machines, rh */
    h->wiped = h->worst = h->drained = CORE__OF(0.0);
    h->start = m->before;
    h->end = hour;
    h->date = *wall;
    h->per_steps = CORE__OF(per);
    h->seconds = 3600.0 / m->c.steps_per_hour;
    h->dt = CORE__OF(h->seconds);
    h->now = m->now;
    h->now.lane = &m->lane;
    h->now.kinds = m->kinds;
    h->now.drive = march__drive_of(&m->c, &m->clock, m->idle, sun, hour, wall);
    march__mind_windows(&m->c, &m->at.x, &m->before, hour, &h->now.drive);
    march__keep_equipment(&h->now.drive, &m->now.drive);
}

/* The gaps in the hour's books; returns where they close and the air is still
   within what is known of it, which what runs away is not. */
static inline core__truth march__audit(const struct march__body *m,
                                       const struct dew_state *from,
                                       const struct march__hour *h,
                                       const struct dew_result *r,
                                       struct march__gaps *gaps)
{
    struct march__books books = {0};
    double sum = r->rh + m->at.x.t_mass;

    books.lane = &m->lane;
    books.before = from;
    books.after = &m->at.x;
    books.water = &r->water;
    books.heat = &r->heat;
    books.wiped = h->wiped;
    books.drained = r->coil_drained;
    *gaps = march__ledger_gaps(&books);
    return march__ledger_closes(gaps) & (sum - sum == 0.0);
}

/* One hour.  wall: its date by the clock on it.  Returns where the books
   close. */
static inline core__truth march__run_hour(struct march__body *m,
                                          const struct dew_hour *hour,
                                          const struct march__sun *sun,
                                          const struct dew_date *wall,
                                          struct dew_result *r,
                                          struct march__gaps *gaps)
{
    struct march__hour h;
    struct dew_state from = m->at.x;

    march__hour_of(m, hour, sun, wall, &h);
    *r = (struct dew_result){0};
    r->heat.prescribed = march__hold(m, &h.now.drive);
    h.rh = air__rh(m->at.x.t_air, m->at.x.w, m->at.x_p);
    march__begin(m, &h);
    for (int i = 0; i < m->c.steps_per_hour; i++)
        march__one_step(m, &h, (i + 0.5) * h.per_steps, r);
    march__tell_hour(m, &h, r);
    m->now = h.now;
    march__clock_turn(&m->clock, hour->t, r->duty.cool);
    m->before = *hour;
    return march__audit(m, &from, &h, r, gaps);
}

#endif
