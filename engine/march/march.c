/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hourly march.  Read dew_march_step first. */
#include "march/march.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/leakage.h"

/* Before the first step there is no prediction: begin from the state itself. */
static void begin(struct dew_march *m, struct march__hour *h)
{
    struct march__duty none = {0};
    double worst;

    if (m->begun)
        return;
    h->now.mid = *h->end;
    march__mix_of(m, h, &m->x, &none, &h->mix);
    march__equip(m, h, &m->x, &none);
    m->blend =
        march__blend_all(&m->c, &h->mix, m->lane.rho,
                         march__natural(&m->lane, m->x.t_air, h->end), &worst);
    h->now.blend = m->blend;
    m->terms = march__settle(&h->now, &m->x, &none, 0.0, 1.0 / h->dt);
    m->begun = 1;
}

/* Water beyond what a film can hold runs off and is wiped. */
static double wipe(double *film, double most)
{
    double over = *film > most ? *film - most : 0.0;

    *film -= over;
    return over;
}

static void wipe_all(struct dew_march *m, struct march__hour *h)
{
    const struct dew_surface *s = m->c.house.surfaces;

    h->wiped += wipe(&m->x.film_glass, s[DEW_GLASS].film_max);
    h->wiped += wipe(&m->x.film_edge, s[DEW_EDGE].film_max);
    h->wiped += wipe(&m->x.film_corner, s[DEW_CORNER].film_max);
}

/* What a step comes to, before it is taken. */
struct trial {
    struct march__terms terms;
    struct dew_state end;
    struct march__sum sum;
    double worst; /* m3/s most negative supply less exhaust          */
};

/* Predict, weigh the air paths, settle the terms, two stages. */
static void try_step(const struct dew_march *m, struct march__hour *h,
                     double middle, struct trial *s)
{
    struct march__now *now = &h->now;
    struct dew_state at;
    struct march__terms guess;
    struct march__duty duty;
    double owed = m->x.owed_q / h->dt, natural;

    now->mid = dew_hour_between(&h->start, h->end, middle);
    now->blend = m->blend;
    guess = march__sources(now, &m->terms, owed);
    at = march__predict(now, &guess, &m->x, h->dt, &duty);
    march__mix_of(m, h, &at, &duty, &h->mix);
    march__equip(m, h, &at, &duty);
    natural = march__natural(&m->lane, at.t_air, &now->mid);
    now->blend =
        march__blend_all(&m->c, &h->mix, m->lane.rho, natural, &s->worst);
    now->blend.fresh += m->lane.rho * m->c.plant.dryer.outdoor * duty.dry;
    s->terms = march__settle(now, &at, &duty, owed, 1.0 / h->dt);
    s->end = march__finish(now, &s->terms, &m->x, h->dt, &s->sum);
}

/* The coefficients of a trial: the next prediction is made with them. */
static void learn(struct dew_march *m, const struct march__hour *h,
                  const struct trial *s)
{
    m->terms = s->terms;
    m->blend = h->now.blend;
    memcpy(m->stage, h->stage, sizeof m->stage);
    memcpy(m->off, h->off, sizeof m->off);
}

static void take_step(struct dew_march *m, struct march__hour *h,
                      const struct trial *s, struct dew_result *r)
{
    struct dew_state from = m->x;

    learn(m, h, s);
    m->x = s->end;
    m->acts = s->sum.acts;
    h->worst = fmin(h->worst, s->worst);
    wipe_all(m, h);
    march__drain(m, h, &s->sum);
    march__remember(m, h, &s->sum.duty);
    march__tell_step(m, h, &from, &s->sum, r);
    m->x_p = h->now.mid.p;
}

/* Air changes in a step by which its exchange may differ from the last's. */
static const double most_change = 0.015;

/* kg/kg by which coils may give back what they never took, for a step that was
   predicted to cool more or less than it did: 0.03 points of RH; and how much
   the water that stays on them counts beside what they give back. */
static const double most_missed = 5e-6, stays = 0.1;

/* 1 where they do more: evaporation may then take over the cooling, or the
   cooling it, and in which of the two a house is shows for hours. */
static int is_missed(const struct dew_march *m, const struct march__hour *h,
                     const struct trial *s)
{
    double meant = 0.0, back = 0.0, there = 0.0;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++) {
        meant += h->wet[k].condensed;
        back += h->wet[k].reevaporated;
        there += h->wet[k].reevaporated + stays * h->wet[k].m;
    }
    return fabs(meant + s->sum.water.coil) * back >
           most_missed * m->lane.mass_air * there;
}

/* 1 where a machine has changed its stage, and not followed the load a bit. */
static int is_shifted(const struct dew_march *m, const struct march__hour *h)
{
    const double most = 0.2;
    int shifted = 0;

    for (int k = 0; k < m->c.plant.handler_count && k < DEW_HANDLERS; k++)
        shifted |= fabs(h->stage[k] - m->stage[k]) > most;
    return shifted;
}

/* 1 where a face's film has dried, or nearly, and so its evaporation stops. */
static int dries(double from, double to)
{
    const double seen = 1e-9, nearly = 0.25; /* kg, - */

    return (from > seen) & (to < nearly * from);
}

static int is_dried(const struct dew_state *from, const struct dew_state *to)
{
    return dries(from->film_glass, to->film_glass) |
           dries(from->film_edge, to->film_edge) |
           dries(from->film_corner, to->film_corner);
}

/* 1 where one step is too coarse: heating or cooling has come or gone in it,
   which its two stages see at the wrong moment, or the wind swings. */
static int is_coarse(const struct dew_march *m, const struct march__hour *h,
                     const struct trial *s)
{
    double change =
        fabs(march__exchange(&h->now.blend) - march__exchange(&m->blend));

    return s->sum.acts != m->acts || is_shifted(m, h) || is_missed(m, h, s) ||
           is_dried(&m->x, &s->end) ||
           change * h->dt > most_change * m->lane.mass_air;
}

/* A part of a step; predicted anew from its own end, once, where what the coils
   give back was predicted for other water. */
static void one_part(struct dew_march *m, struct march__hour *h, double middle,
                     struct dew_result *r)
{
    struct trial s;

    try_step(m, h, middle, &s);
    if (is_missed(m, h, &s)) {
        learn(m, h, &s);
        try_step(m, h, middle, &s);
    }
    take_step(m, h, &s, r);
}

/* One step, done again in halves where it is too coarse. */
static void one_step(struct dew_march *m, struct march__hour *h, double middle,
                     struct dew_result *r)
{
    double quarter = 0.25 * h->per_steps;
    struct trial s;

    try_step(m, h, middle, &s);
    if (!is_coarse(m, h, &s)) {
        take_step(m, h, &s, r);
        return;
    }
    learn(m, h, &s);
    h->dt *= 0.5;
    h->per_steps *= 0.5;
    one_part(m, h, middle - quarter, r);
    one_part(m, h, middle + quarter, r);
    h->dt *= 2.0;
    h->per_steps *= 2.0;
}

/* Moist air is known from -60 to 60 degC; what leaves that has no books. */
static enum dew_status ran_away(const struct dew_state *from,
                                struct dew_error *err)
{
    return core__fail(err, DEW_EBALANCE,
                      "the air indoors left what is known of moist air, -60 to "
                      "60 degC: an hour before it had %.1f degC and %.1f g/kg. "
                      "Walls and air cannot carry off what heats and wets this "
                      "house: see its size, people, moisture, windows and "
                      "insulation",
                      from->t_air, 1e3 * from->w);
}

/* The books of the hour, or what is wrong with them. */
static enum dew_status audit(const struct dew_march *m,
                             const struct dew_state *from,
                             const struct march__hour *h,
                             const struct dew_result *r, struct dew_error *err)
{
    struct march__books books = {.lane = &m->lane,
                                 .before = from,
                                 .after = &m->x,
                                 .water = &r->water,
                                 .heat = &r->heat,
                                 .wiped = h->wiped,
                                 .drained = r->coil_drained};
    struct march__gaps gaps = march__ledger_gaps(&books);

    int finite = isfinite(r->rh) && isfinite(m->x.t_mass);

    if (finite && march__ledger_closes(&gaps))
        return DEW_OK;
    if (err != NULL && err->status == DEW_OK)
        err->hour = m->hour;
    if (!finite)
        return ran_away(from, err);
    return core__fail(err, DEW_EBALANCE,
                      "the books do not close: water %.1e (stores %.1e, "
                      "surfaces %.1e, coils %.1e), heat %.1e of the hour's "
                      "inflow, at %g degC and w %g; 1e-9 is allowed",
                      gaps.air, gaps.stores, gaps.films, gaps.coils, gaps.heat,
                      m->x.t_air, m->x.w);
}

/* The first prediction of an hour has the equipment of the last step. */
static void keep_equipment(struct march__drive *drive,
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
static double hold(struct dew_march *m, struct march__drive *drive)
{
    size_t at = (size_t)m->hour;
    double before = m->x.t_air;

    if (at >= m->prescribed_count || isnan(m->prescribed[at]))
        return 0.0;
    drive->given = 1.0;
    drive->set_heat = m->prescribed[at];
    m->x.t_air = m->prescribed[at];
    return m->lane.c_air * (m->x.t_air - before);
}

static struct dew_lit *lit_of(struct dew_march *m)
{
    return (size_t)m->hour < m->lit_count ? &m->lit[m->hour] : NULL;
}

static struct march__hour hour_of(struct dew_march *m,
                                  const struct dew_hour *hour,
                                  const struct dew_date *date)
{
    struct march__hour h = {
        .start = m->before,
        .end = hour,
        .date = dew_weather_by_clock(date, m->c.clock, m->c.site.utc_offset),
        .per_steps = 1.0 / m->c.steps_per_hour,
        .dt = 3600.0 / m->c.steps_per_hour};

    h.now = m->now;
    h.now.lane = m->lane;
    h.now.drive =
        march__drive_of(&m->c, m->planes, &m->clock, hour, date, lit_of(m));
    march__mind_windows(&m->c, &m->x, &m->before, hour, &h.now.drive);
    keep_equipment(&h.now.drive, &m->now.drive);
    return h;
}

enum dew_status dew_march_step(struct dew_march *m, const struct dew_hour *hour,
                               const struct dew_date *date,
                               struct dew_result *out, struct dew_error *err)
{
    struct march__hour h = hour_of(m, hour, date);
    struct dew_state from = m->x;
    struct dew_result r = {0};
    enum dew_status status = march__one_hour(hour, err);

    if (status != DEW_OK) {
        if (err != NULL)
            err->hour = m->hour + 1;
        return status;
    }
    r.heat.prescribed = hold(m, &h.now.drive);
    h.rh = air__rh(m->x.t_air, m->x.w, m->x_p);
    m->hour++;
    begin(m, &h);
    for (int i = 0; i < m->c.steps_per_hour; i++)
        one_step(m, &h, (i + 0.5) * h.per_steps, &r);
    march__tell_hour(m, &h, &r);
    m->now = h.now;
    march__clock_turn(&m->clock, hour->t, r.duty.cool);
    m->before = *hour;
    status = audit(m, &from, &h, &r, err);
    if (status == DEW_OK)
        *out = r;
    return status;
}

/* Stores and nodes where a house of its set point and 45 % would have them. */
static struct dew_state first_state(const struct dew_case *c,
                                    const struct march__lane *l,
                                    const struct dew_hour *before)
{
    struct dew_state x = {0};
    double rh = 0.45;

    x.t_air = c->house.comfort.heat[0];
    x.t_mass = x.t_air;
    x.w = dew_air_w(x.t_air, rh, before->p);
    x.w_surface = rh * l->cap_surface;
    x.w_mid = rh * l->cap_mid;
    x.w_deep = rh * l->cap_deep;
    x.co2 = c->house.co2_outdoors;
    return x;
}

static double pressure_of_all(const struct dew_case *c)
{
    double worst = 0.0, local = 0.0;

    for (int e = 0; e < DEW_LOCALS; e++)
        local += c->plant.exhausts[e].flow;
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++) {
            struct march__moved all = march__moved_by(&c->paths[v][b], local);

            worst = fmin(worst, all.in - all.out);
        }
    return dew_house_pressure(&c->house.leakage, 0.0, -worst);
}

static int tied(const struct dew_case *c)
{
    double all = 0.0;

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++)
            all += c->paths[v][b].at_coil + c->paths[v][b].idle_at_coil;
    return all > 0.0;
}

/* 1: the ducts have something to lose. */
static int ducted(const struct dew_duct_watch *w)
{
    double all =
        w->supply_full + w->supply_low + w->return_full + w->return_low;

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int k = 0; k < DEW_HANDLERS; k++)
            for (int full = 0; full < 2; full++)
                all += w->leaks[v][k][full].drawn + w->leaks[v][k][full].lost;
    return all > 0.0;
}

/* Resolve the coils; a handler without capacity only blows. */
static enum dew_status open_coils(struct dew_march *m, struct dew_error *err)
{
    for (int k = 0; k < m->c.plant.handler_count; k++) {
        const struct dew_handler *handler = &m->c.plant.handlers[k];
        enum dew_status status;

        m->stage[k] = 1.0;
        m->stages[k] = plant__stages_of(handler);
        if (!(handler->capacity > 0.0))
            continue;
        status = dew_plant_coil_open(handler, &m->coils[k], err);
        if (status != DEW_OK)
            return status;
        m->stores[k] = dew_plant_coil_store_of(handler, &m->coils[k]);
    }
    return DEW_OK;
}

enum dew_status dew_march_open(struct dew_march **march,
                               const struct dew_case *c,
                               const struct dew_hour *before,
                               struct dew_error *err)
{
    enum dew_status status = march__check(c, err);
    struct dew_march *m;

    *march = NULL;
    if (status == DEW_OK)
        status = march__numbers(c, err);
    if (status == DEW_OK)
        status = march__one_hour(before, err);
    if (status != DEW_OK)
        return status;
    m = calloc(1, sizeof *m);
    if (m == NULL)
        return core__fail(err, DEW_EMEM, "no memory for the march");
    m->c = *c;
    m->lane = march__lane_of(c);
    march__planes(c, m->planes);
    m->before = *before;
    m->clock = march__clock_set(before->t);
    m->x = first_state(c, &m->lane, before);
    m->x_p = before->p;
    m->alike = march__paths_alike(c);
    m->tied = tied(c);
    m->ducted = ducted(&c->watch);
    m->pressure_all = pressure_of_all(c);
    status = open_coils(m, err);
    if (status != DEW_OK) {
        free(m);
        return status;
    }
    *march = m;
    return DEW_OK;
}

/* How far two states lie apart, in the stores that are slow. */
static double apart(const struct dew_march *m, const struct dew_state *a,
                    const struct dew_state *b)
{
    double surface = fabs(a->w_surface - b->w_surface) / m->lane.cap_surface;
    double mid = fabs(a->w_mid - b->w_mid) / m->lane.cap_mid;
    double deep = fabs(a->w_deep - b->w_deep) / m->lane.cap_deep;

    return fmax(fmax(surface, fmax(mid, deep)),
                fabs(a->t_mass - b->t_mass) / 20.0);
}

/* Repeat the first weeks until the stores repeat. */
static enum dew_status settle_in(struct dew_march *m,
                                 const struct dew_hour *hours,
                                 const struct dew_date *dates, size_t count,
                                 int *turns, struct dew_error *err)
{
    const size_t weeks = 24 * 28;
    const double settled = 1e-4; /* 0.01 point of RH                        */
    const int most = 40;
    size_t length = count < weeks ? count : weeks;
    struct march__clock clock = m->clock;
    struct dew_hour before = m->before;
    struct dew_result out;
    int done = 0;

    while (!done && *turns < most) {
        struct dew_state last = m->x;

        m->hour = 0;
        for (size_t h = 0; h < length; h++) {
            enum dew_status status;

            m->clock.idle = 1;
            status = dew_march_step(m, &hours[h], &dates[h], &out, err);
            if (status != DEW_OK)
                return status;
        }
        ++*turns;
        done = apart(m, &last, &m->x) < settled;
        m->before = before;
        m->clock.day = clock.day;
    }
    m->clock.mild = clock.mild;
    return DEW_OK;
}

enum { YEAR = 8760, DAY = 24, LEAD = 22 * 7 * DAY, FINE = 6 * 7 * DAY }; /* h */

/* Hours until the day of the year comes round; 0: not in these hours. */
static size_t first_year(const struct dew_date *dates, size_t count)
{
    if (count < YEAR)
        return 0;
    if (count >= YEAR + DAY && (dates[YEAR].month != dates[0].month ||
                                dates[YEAR].day != dates[0].day))
        return YEAR + DAY;
    return YEAR;
}

/* Once through the last weeks of a year, but the very last in few steps: the
   stores forget what they were opened with, and the year begins as it ends. */
static enum dew_status lead_in(struct dew_march *m,
                               const struct dew_hour *hours,
                               const struct dew_date *dates, size_t end,
                               struct dew_error *err)
{
    const int steps = m->c.steps_per_hour;
    const int few = 2; /* one leaves 0.03 point where controls switch     */
    const double day = m->clock.day;
    enum dew_status status = DEW_OK;
    struct dew_result out;

    m->before = hours[end - LEAD - 1];
    m->hour = (int)(end - LEAD);
    for (size_t h = end - LEAD; h < end && status == DEW_OK; h++) {
        m->c.steps_per_hour = h < end - FINE && few < steps ? few : steps;
        m->clock.idle = 1;
        status = dew_march_step(m, &hours[h], &dates[h], &out, err);
    }
    m->c.steps_per_hour = steps;
    m->clock.day = day;
    return status;
}

enum dew_status dew_march_warm_up(struct dew_march *m,
                                  const struct dew_hour *hours,
                                  const struct dew_date *dates, size_t count,
                                  int *turns, struct dew_error *err)
{
    size_t end = first_year(dates, count);
    enum dew_status status;
    int turn = end > 0;

    if (end > 0)
        status = lead_in(m, hours, dates, end, err);
    else
        status = settle_in(m, hours, dates, count, &turn, err);
    if (status != DEW_OK)
        return status;
    m->clock.idle = 0;
    m->hour = 0;
    if (turns != NULL)
        *turns = turn;
    return DEW_OK;
}

void dew_march_prescribe_t(struct dew_march *m, const double *t, size_t count)
{
    m->prescribed = t;
    m->prescribed_count = t != NULL ? count : 0;
}

void dew_march_share_sun(struct dew_march *m, struct dew_lit *lit, size_t count)
{
    m->lit = lit;
    m->lit_count = lit != NULL ? count : 0;
}

void dew_march_close(struct dew_march *march)
{
    free(march);
}
