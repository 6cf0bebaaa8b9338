/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a step may be: what is known before an hour begins, and what shows
   in a step that was tried.  Private; see hour.h. */
#ifndef DEW_MARCH_PACE_H
#define DEW_MARCH_PACE_H

#include "march/drive_step.h"
#include "march/equip.h"

/* What a step comes to, before it is taken. */
struct march__trial {
    struct march__terms terms;
    struct dew_state end;
    struct march__sum sum;
    double worst;               /* m3/s most negative supply less exhaust  */
    double ahead[DEW_HANDLERS]; /* -    of cooling, more than was predicted */
};

/* A blower that runs on to dry its coil has a course of its own. */
static inline int march__follows(const struct march__body *m, int k)
{
    return k < m->c.plant.handler_count &&
           m->c.plant.handlers[k].mode == DEW_BLOWER_AUTO;
}

/* Air changes in a step by which its exchange may differ from the last's. */
#define MARCH__MOST_CHANGE 0.015

/* kg/kg by which coils may give back what they never took, for a step that was
   predicted to cool more or less than it did: 0.03 points of RH, twice that in a
   long one, six times in the longest, ten times that before a year begins; and
   how much the water that stays on them counts beside what they give back. */
#define MARCH__MOST_MISSED 5e-6
#define MARCH__ROUGHLY     10.0
#define MARCH__STAYS       0.1

/* Two steps of those that were asked for in one, or four. */
static inline core__truth march__is_long(const struct march__hour *h)
{
    return h->length > 4.0;
}

static inline core__truth march__is_longest(const struct march__hour *h)
{
    return h->length > 8.0;
}

static inline double march__missable(const struct march__hour *h)
{
    return core__pick(march__is_longest(h), 6.0,
                      core__pick(march__is_long(h), 2.0, 1.0));
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
           march__missable(h) *
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

/* K that the air may become warmer or colder in the longest step. */
#define MARCH__MOST_WARMED 0.25

static inline core__truth march__is_warmed(const struct march__body *m,
                                           const struct march__trial *s)
{
    return core__abs(s->end.t_air - m->at.x.t_air) > MARCH__MOST_WARMED;
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
        (march__is_longest(h) & march__is_warmed(m, s)) |
        (missed & (tried | (m->switches > 0.0)));

    if (m->way == MARCH__ROUGH)
        coarse = (core__truth){0};
    v.halves = coarse & (h->length > march__least(m));
    v.again = missed & core__not(tried) & core__not(v.halves);
    v.takes = core__not(v.halves | v.again);
    return v;
}

/* Steps an hour of which a quiet hour takes half, and one in which all stands
   still a quarter where that goes up: from four, where half an hour is short
   enough, to as many as nobody takes who does not mean them. */
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

/* kg/kg and K by which what people do and the sun may come to move the air in
   an hour, were it all that there is, beside the hour before; and how near to
   saturation on its faces the air may be; ours. */
#define MARCH__MOST_MOISTER 2.5e-4
#define MARCH__MOST_HEATED  4.0
#define MARCH__NEAR_WET     0.9

/* W of heat that schedules and the sun put in. */
static inline double march__heated(const struct march__drive *s)
{
    return s->bodies + s->gains + s->solar + s->sunlit;
}

/* Where water, heat, windows or set points are others than an hour ago. */
static inline core__truth march__stirs(const struct march__body *m,
                                       const struct march__drive *now)
{
    const struct march__drive *last = &m->now.drive;
    double water = march__poured(now) - march__poured(last);
    double heat = march__heated(now) - march__heated(last);
    double set = core__abs(now->set_heat - last->set_heat) +
                 core__abs(now->set_cool - last->set_cool);

    return (core__abs(water) * 3600.0 >
            MARCH__MOST_MOISTER * m->lane.mass_air) |
           (core__abs(heat) * 3600.0 > MARCH__MOST_HEATED * m->lane.c_air) |
           (now->window != last->window) | (set > 0.0) | (now->given > 0.0);
}

/* Where a film may come to stand on a face. */
#define MARCH__NEARS(name)                                                     \
    nears = nears | ((m->lane.film_rate_##name > 0.0) &                        \
                     (m->at.x.w > MARCH__NEAR_WET * m->at.terms.wsat_##name));
static inline core__truth march__nears_wet(const struct march__body *m)
{
    core__truth nears = {0};

    if (!(m->kinds & MARCH__FILMS))
        return nears;
    MARCH__NEARS(glass)
    MARCH__NEARS(edge)
    MARCH__NEARS(corner)
    return nears;
}

/* RH about the limit, within which the hours above it are decided; ours. */
#define MARCH__NEAR_LIMIT 0.01

static inline core__truth march__nears_limit(const struct march__body *m,
                                             const struct march__hour *h)
{
    double rh = air__rh(m->at.x.t_air, m->at.x.w, h->start.p);

    return core__abs(rh - m->c.limits.too_humid) < MARCH__NEAR_LIMIT;
}

/* Of the time; a coil that runs longer is near all that it can give; ours. */
#define MARCH__NEAR_ALL 0.9

static inline core__truth march__nears_all(const struct march__body *m)
{
    core__truth nears = {0};

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        nears = nears | (m->at.ran[k] > MARCH__NEAR_ALL);
    return nears;
}

/* Where a blower goes on when its coil stops, now and then. */
static inline int march__blows_on(const struct march__body *m)
{
    for (int k = 0; k < m->c.plant.handler_count; k++)
        if (!march__follows(m, k))
            return 1;
    return 0;
}

/* Units of the longest step of the hour: four make one that was asked for, and
   a quiet hour, in which nothing is in sight that would show, takes two of
   those in one; where nothing stirs either, four. */
static inline double march__most(const struct march__body *m,
                                 struct march__hour *h)
{
    const struct dew_state *x = &m->at.x;
    int steps = m->c.steps_per_hour;
    double film = x->film_glass + x->film_edge + x->film_corner;
    core__truth busy = (m->switches > 0.0) | (film > 1e-9), stirs;

    if (steps % 2 != 0 || steps < MARCH__LEAST_STEPS ||
        steps > MARCH__MOST_STEPS)
        return CORE__OF(4.0);
    busy = busy | march__turns(m, h) | march__jumps(m, h) | march__swings(m, h);
    if (steps % 4 != 0 || march__blows_on(m))
        return core__pick(busy, 4.0, 8.0);
    stirs = march__stirs(m, &h->now.drive) | march__nears_wet(m) |
            march__nears_limit(m, h) | march__nears_all(m);
    return core__pick(busy, 4.0, core__pick(stirs, 8.0, 16.0));
}

#endif
