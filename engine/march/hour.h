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
    const struct march__span_of span = {h->dt, h->per_dt};
    double owed = x->owed_q * span.per_dt, natural;

    now->mid = weather__between(&h->start, h->end, middle);
    now->blend = m->at.blend;
    guess = march__sources(now, &m->at.terms, owed);
    at = march__predict(now, &guess, x, &span, &duty);
    march__mix_of(m, h, &at, &duty, &h->mix);
    march__equip(m, h, &at, &duty);
    natural = march__natural(&m->lane, at.t_air, &now->mid);
    now->blend =
        march__blend_all(&m->c, &h->mix, m->lane.rho, natural, &s->worst);
    now->blend.fresh += m->lane.rho * m->c.plant.dryer.outdoor * duty.dry;
    s->terms = march__settle(now, &at, &duty, owed, span.per_dt);
    s->end = march__finish(now, &s->terms, x, &span, &s->sum);
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

/* Air changes in a step by which its exchange may differ from the last's. */
#define MARCH__MOST_CHANGE 0.015

/* kg/kg by which coils may give back what they never took, for a step that was
   predicted to cool more or less than it did: 0.03 points of RH, twice that in a
   long one, ten times that before a year begins; and how much the water that
   stays on them counts beside what they give back. */
#define MARCH__MOST_MISSED 5e-6
#define MARCH__ROUGHLY     10.0
#define MARCH__STAYS       0.1

/* Two steps of those that were asked for in one. */
static inline core__truth march__is_long(const struct march__hour *h)
{
    return h->length > 4.0;
}

/* kg that air over an idle coil would take up, of water that is not there yet:
   so little that it counts where nothing else does. */
#define MARCH__IF_WET 1e-9

/* Where they do more: evaporation may then take over the cooling, or the
   cooling it, and in which of the two a house is shows for hours.  A coil that
   was to stay dry under a blower that goes on gives back all that it took. */
static inline core__truth march__is_missed(const struct march__body *m,
                                           const struct march__hour *h,
                                           const struct march__trial *s)
{
    double meant = CORE__OF(0.0), back = meant, there = meant;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double up =
            h->wet[k].reevaporated + core__pick(march__low_share(h, k) > 0.0,
                                                CORE__OF(MARCH__IF_WET), 0.0);

        meant += h->wet[k].condensed;
        back += up;
        there += up + MARCH__STAYS * h->wet[k].m;
    }
    return core__abs(meant + s->sum.water.coil) * back >
           core__pick(march__is_long(h), 2.0, 1.0) *
               (m->way == MARCH__ROUGH ? MARCH__ROUGHLY : 1.0) *
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

/* kg/kg that coils under a blower that goes on give back in a long step, by as
   much as they run otherwise than of late: 0.06 point of RH; ours. */
#define MARCH__MOST_HASTY 1.2e-5

static inline core__truth march__is_hasty(const struct march__body *m,
                                          const struct march__hour *h)
{
    double sum = CORE__OF(0.0);

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        double run = h->mix.run[k], late = m->at.ran[k];

        double gap = march__ratio(core__abs(run - late), run + late);

        sum += core__pick(march__low_share(h, k) > 0.0,
                          gap * h->wet[k].reevaporated, 0.0);
    }
    return sum > MARCH__MOST_HASTY * m->lane.mass_air;
}

/* Of the air's water that may come or go in a long step. */
#define MARCH__MOST_SWING 0.02

static inline core__truth march__is_steep(const struct march__body *m,
                                          const struct march__trial *s)
{
    return core__abs(s->end.w - m->at.x.w) > MARCH__MOST_SWING * m->at.x.w;
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

/* Units of the shortest step: half of one that was asked for; a quarter where a
   set point comes down by the humidity, whose steps show most. */
static inline double march__least(const struct march__body *m)
{
    return core__pick(m->c.plant.handlers[0].overcool > 0.0, 1.0, 2.0);
}

/* What comes of a try, house by house: it is taken, or tried again, or its
   halves are. */
struct march__verdict {
    core__truth takes, again, halves;
};

static inline struct march__verdict march__judge(const struct march__body *m,
                                                 const struct march__hour *h,
                                                 const struct march__trial *s)
{
    struct march__verdict v;
    core__truth missed = march__is_missed(m, h, s), tried = h->tried > 0.0;
    core__truth coarse =
        march__is_coarse(m, h, s) |
        (march__is_long(h) & (march__is_hasty(m, h) | march__is_steep(m, s))) |
        (missed & (tried | (m->switches > 0.0)));

    if (m->way == MARCH__ROUGH)
        coarse = (core__truth){0};
    v.halves = coarse & (h->length > march__least(m));
    v.again = missed & core__not(tried) & core__not(v.halves);
    v.takes = core__not(v.halves | v.again);
    return v;
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

/* Steps an hour of which a quiet hour takes half: from four, where half an hour
   is short enough, to as many as nobody takes who does not mean them. */
enum { MARCH__LEAST_STEPS = 4, MARCH__MOST_STEPS = 12 };

/* Where the ventilator's controls stand otherwise at the hour's end than at its
   beginning. */
static inline core__truth march__turns(const struct march__body *m,
                                       struct march__hour *h)
{
    const core__plain most = 0.05; /* of the time */
    struct march__mixing from, to;
    core__truth turns;

    h->now.mid = h->start;
    march__mix_vent(m, h, &m->at.x, &from);
    h->now.mid = *h->end;
    march__mix_vent(m, h, &m->at.x, &to);
    turns = core__abs(to.bypass - from.bypass) > most;
    for (int v = 0; v < DEW_VENT_STATES; v++)
        turns = turns | (core__abs(to.vent[v] - from.vent[v]) > most);
    return turns;
}

/* Where the ventilator's schedule jumps as the hour begins. */
static inline core__truth march__jumps(const struct march__body *m,
                                       const struct march__hour *h)
{
    const core__plain most = 0.05; /* of the time */
    struct dew_date last = h->date;

    last.hour = last.hour > 1 ? last.hour - 1 : 24;
    return core__abs(march__on_share(&m->c, &h->date) -
                     march__on_share(&m->c, &last)) > most;
}

/* Where wind and stack change so much in it that a step as asked for would be
   halved, were it all at once. */
static inline core__truth march__swings(const struct march__body *m,
                                        const struct march__hour *h)
{
    double t = m->at.x.t_air, step = CORE__OF(3600.0 / m->c.steps_per_hour);
    double change = march__natural(&m->lane, t, h->end) -
                    march__natural(&m->lane, t, &h->start);

    return core__abs(change) * m->lane.rho * step >
           MARCH__MOST_CHANGE * m->lane.mass_air;
}

/* Units of the longest step of the hour: four make one that was asked for, and
   a quiet hour, in which nothing is in sight that would show, takes two of
   those in one. */
static inline double march__most(const struct march__body *m,
                                 struct march__hour *h)
{
    const struct dew_state *x = &m->at.x;
    int steps = m->c.steps_per_hour;
    double film = x->film_glass + x->film_edge + x->film_corner;
    core__truth busy = (m->switches > 0.0) | (film > 1e-9);

    if (steps % 2 != 0 || steps < MARCH__LEAST_STEPS ||
        steps > MARCH__MOST_STEPS)
        return CORE__OF(4.0);
    busy = busy | march__turns(m, h) | march__jumps(m, h) | march__swings(m, h);
    return core__pick(busy, 4.0, 8.0);
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
    march__clock_turn(&m->clock, hour->t, r->duty.cool);
    m->before = *hour;
    return march__audit(m, &from, &h, r, gaps);
}

#endif
