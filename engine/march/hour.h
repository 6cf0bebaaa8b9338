/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One hour of one house or several: march__run_hour reads like contents.
   Private. */
#ifndef DEW_MARCH_HOUR_H
#define DEW_MARCH_HOUR_H

#include <string.h>

#include "march/drive_step.h"
#include "march/equip.h"
#include "march/pace.h"
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
        march__settle(&h->now, &m->at.x, &none, CORE__OF(0.0), h->per_dt);
    m->begun = 1;
}

/* Water beyond what a film can hold runs off and is wiped; where no step was
   taken it stays to the last digit. */
static inline double march__wipe(double *film, double most, core__truth takes)
{
    double over = core__pick(takes, march__over(*film - most), 0.0);

    *film -= over;
    return over;
}

static inline void march__wipe_all(struct march__body *m, struct march__hour *h,
                                   core__truth takes)
{
    const struct dew_surface *s = m->c.house.surfaces;
    struct dew_state *x = &m->at.x;

    h->wiped += march__wipe(&x->film_glass, s[DEW_GLASS].film_max, takes);
    h->wiped += march__wipe(&x->film_edge, s[DEW_EDGE].film_max, takes);
    h->wiped += march__wipe(&x->film_corner, s[DEW_CORNER].film_max, takes);
}

/* A prediction knows the flows of the step before, so that the cooling it
   foretells, and with it what blowers move, is late: by as much as in the last
   try, where it ran for a part of the time.  s->ahead is that of this one, once
   march__see has what came of it. */
static inline void march__foresee(const struct march__body *m,
                                  struct march__duty *duty,
                                  struct march__trial *s)
{
    double *const load[DEW_HANDLERS] = {&duty->cool, &duty->cool_2,
                                        &duty->cool_3};

    for (int k = 0; k < DEW_HANDLERS; k++) {
        double said = *load[k];

        s->ahead[k] = CORE__OF(0.0);
        if (!march__follows(m, k))
            continue;
        s->ahead[k] = -said;
        *load[k] =
            core__pick(said > 0.0, core__share(said + m->at.ahead[k]), said);
    }
}

static inline void march__see(const struct march__body *m, double per_dt,
                              struct march__trial *s)
{
    const double load[DEW_HANDLERS] = {s->sum.duty.cool, s->sum.duty.cool_2,
                                       s->sum.duty.cool_3};

    for (int k = 0; k < DEW_HANDLERS; k++) {
        double share = load[k] * per_dt;

        if (march__follows(m, k))
            s->ahead[k] = core__pick((share > 0.0) & (share < 1.0 - 1e-9),
                                     s->ahead[k] + share, 0.0);
    }
}

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
    const struct march__span_of span = {
        h->dt, h->per_dt, h->per_steps * (h->end->t - h->start.t),
        h->per_steps * (h->end->w - h->start.w)};
    double owed = x->owed_q * span.per_dt, natural;

    now->mid = weather__between(&h->start, h->end, middle);
    now->blend = m->at.blend;
    guess = march__sources(now, &m->at.terms, owed);
    at = march__predict(now, &guess, x, &span, &duty);
    march__foresee(m, &duty, s);
    march__mix_of(m, h, &at, &duty, &h->mix);
    march__equip(m, h, &at, &duty);
    natural = march__natural(&m->lane, at.t_air, &now->mid);
    now->blend =
        march__blend_all(&m->c, &h->mix, m->lane.rho, natural, &s->worst);
    now->blend.fresh += m->lane.rho * m->c.plant.dryer.outdoor * duty.dry;
    s->terms = march__settle(now, &at, &duty, owed, span.per_dt);
    s->end = march__finish(now, &s->terms, x, &span, &s->sum);
    march__see(m, span.per_dt, s);
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
        m->at.ahead[k] = s->ahead[k];
    }
}

/* Nothing has flowed in a step where it is not taken. */
static inline void march__still(struct march__sum *sum, core__truth takes)
{
    march__only(takes, sum, sizeof *sum);
}

static inline void march__take_step(struct march__body *m,
                                    struct march__hour *h,
                                    struct march__trial *s, core__truth takes,
                                    struct dew_result *r)
{
    if (!core__every(takes))
        march__still(&s->sum, takes);
    h->told = core__pick(takes, h->per_steps, 0.0);
    h->told_dt = core__pick(takes, h->dt, 0.0);
    march__where(takes, &m->at.x, &s->end, sizeof m->at.x);
    m->at.heats = (takes & s->sum.heats) | (core__not(takes) & m->at.heats);
    m->at.cools = (takes & s->sum.cools) | (core__not(takes) & m->at.cools);
    h->worst = core__min(h->worst, core__pick(takes, s->worst, h->worst));
    march__wipe_all(m, h, takes);
    march__drain(m, h, &s->sum, takes);
    march__remember(m, h, &s->sum.duty, takes);
    march__tell_step(m, h, &s->sum, r);
    m->at.x_p = core__pick(takes, h->now.mid.p, m->at.x_p);
}

/* A step's machines and the weights of its air: what a house whose hour is over
   keeps of its last, while others go on. */
struct march__kept {
    struct march__now now;
    struct march__mixing mix;
};

static inline void march__keep(struct march__hour *h, struct march__kept *kept)
{
    memcpy(march__machines(&kept->now), march__machines(&h->now),
           MARCH__MACHINES_SIZE);
    kept->mix = h->mix;
}

static inline void march__give_back(struct march__hour *h, core__truth so,
                                    struct march__kept *kept)
{
    march__where(so, march__machines(&h->now), march__machines(&kept->now),
                 MARCH__MACHINES_SIZE);
    march__where(so, &h->mix, &kept->mix,
                 offsetof(struct march__mixing, handlers));
}

/* A step's own length. */
static inline void march__set_length(struct march__hour *h, double length)
{
    h->length = length;
    h->per_steps = length * (1.0 / h->units);
    h->dt = 3600.0 * h->per_steps;
    h->per_dt = 1.0 / h->dt;
}

/* Whether x is a whole number. */
static inline core__truth march__is_whole(double x)
{
    const core__plain beyond = 6755399441055744.0; /* 1.5 x 2^52: no half is */

    return (x + beyond) - beyond == x;
}

/* The step to come. */
static inline void march__go_on(struct march__hour *h, core__truth goes,
                                const struct march__verdict *v)
{
    core__truth takes = goes & v->takes;
    double length = core__pick(goes & v->halves, 0.5 * h->length, h->length);
    double done = core__pick(takes, h->done + h->length, h->done);
    core__truth fits = (length + length <= h->most) &
                       march__is_whole(done / (length + length));

    length = core__pick(takes & fits, length + length, length);
    h->done = done;
    h->tried = core__pick(goes & v->again, 1.0, 0.0);
    march__set_length(h, length);
}

/* What is learnt of a try where so, taken or not. */
static inline void march__learn_where(struct march__body *m,
                                      const struct march__hour *h,
                                      const struct march__trial *s,
                                      core__truth so)
{
    if (core__every(so)) {
        march__learn(m, h, s);
        return;
    }
    march__where(so, &m->at.terms, &s->terms, sizeof s->terms);
    march__where(so, &m->at.blend, &h->now.blend, sizeof h->now.blend);
    march__where(so, &m->at.stage, &h->stage, sizeof h->stage);
    march__where(so, &m->at.off, &h->off, sizeof h->off);
    march__where(so, &m->at.ahead, &s->ahead, sizeof s->ahead);
}

/* One try of the step to come, in the houses whose hour is not over; the others
   are led along, and keep what they have. */
static inline void march__one_try(struct march__body *m, struct march__hour *h,
                                  struct dew_result *r)
{
    double middle = (h->done + 0.5 * h->length) * (1.0 / h->units);
    core__truth goes = h->done < h->units, takes;
    const int waits = !core__every(goes);
    struct march__kept kept;
    struct march__verdict v;
    struct march__trial s;

    m->tries++;
    if (waits)
        march__keep(h, &kept);
    march__try_step(m, h, middle, &s);
    v = march__judge(m, h, &s);
    takes = goes & v.takes;
    march__learn_where(m, h, &s, goes);
    if (core__any(takes))
        march__take_step(m, h, &s, takes, r);
    if (waits)
        march__give_back(h, core__not(goes), &kept);
    march__go_on(h, goes, &v);
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

    drive->told_cool = core__pick(
        so & (m->run == m->run),
        plant__run_load(m->run, m->c.plant.handlers[0].cycling), 0.0);
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
    const int steps = m->c.steps_per_hour;

    memset(&h->mix, 0, sizeof h->mix);
    memset(&h->wet, 0,
           sizeof *h - offsetof(struct march__hour, wet)); /* machines */
    h->wiped = h->worst = h->drained = CORE__OF(0.0);
    h->start = m->before;
    h->end = hour;
    h->date = *wall;
    h->units = 4.0 * steps;
    h->done = h->tried = CORE__OF(0.0);
    h->now.lane = &m->lane;
    h->now.kinds = m->kinds;
    march__drive_of(&m->c, &m->clock, m->way != MARCH__LIVED, sun,
                    &(const struct march__when){hour, wall}, &h->now.drive);
    march__mind_windows(&m->c, &m->at.x, &m->before, hour, &h->now.drive);
    /* the first prediction of an hour has the machines of the last step */
    memcpy(march__machines(&h->now), march__machines(&m->now),
           MARCH__MACHINES_SIZE);
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

/* In the rough weeks before a year, coils may give back what they never took, and
   would stay dry until that was made up, weeks into the year: in the last weeks
   before it they owe nothing. */
static inline void march__forgive(struct dew_state *x)
{
    x->coil_1 = march__over(x->coil_1);
    x->coil_2 = march__over(x->coil_2);
    x->coil_3 = march__over(x->coil_3);
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
    struct dew_state from;

    if (m->way == MARCH__IDLE)
        march__forgive(&m->at.x);
    from = m->at.x;
    march__hour_of(m, hour, sun, wall, &h);
    *r = (struct dew_result){0};
    r->heat.prescribed = march__hold(m, &h.now.drive);
    h.most = march__most(m, &h);
    march__set_length(&h, h.most);
    march__begin(m, &h);
    while (core__any(h.done < h.units))
        march__one_try(m, &h, r);
    march__tell_hour(m, &h, r);
    memcpy(march__machines(&m->now), march__machines(&h.now),
           MARCH__MACHINES_SIZE);
    memcpy(&m->now.drive, &h.now.drive,
           offsetof(struct march__drive, heat_cap));
    march__clock_turn(&m->clock, hour->t, r->duty.cool);
    m->before = *hour;
    return march__audit(m, &from, &h, r, gaps);
}

#endif
