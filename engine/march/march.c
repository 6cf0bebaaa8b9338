/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hourly march.  Read dew_march_step first. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "march/hour.h"
#include "march/open.h"

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

/* What is wrong with the books of the hour. */
static enum dew_status open_books(const struct dew_march *m,
                                  const struct dew_state *from,
                                  const struct dew_result *r,
                                  const struct march__gaps *gaps,
                                  struct dew_error *err)
{
    const struct dew_state *x = &m->body.at.x;

    if (err != NULL && err->status == DEW_OK)
        err->hour = m->hour;
    if (!isfinite(r->rh) || !isfinite(x->t_mass))
        return ran_away(from, err);
    return core__fail(err, DEW_EBALANCE,
                      "the books do not close: water %.1e (stores %.1e, "
                      "surfaces %.1e, coils %.1e), heat %.1e of the hour's "
                      "inflow, at %g degC and w %g; 1e-9 is allowed",
                      gaps->air, gaps->stores, gaps->films, gaps->coils,
                      gaps->heat, x->t_air, x->w);
}

enum dew_status dew_march_step(struct dew_march *m, const struct dew_hour *hour,
                               const struct dew_date *date,
                               struct dew_result *out, struct dew_error *err)
{
    struct march__body *body = &m->body;
    struct dew_state from = body->at.x;
    enum dew_status status = march__one_hour(hour, err);
    size_t at = (size_t)m->hour;
    struct march__gaps gaps;
    struct march__light light;
    struct march__sun sun;
    struct dew_date wall;
    struct dew_result r;

    if (status == DEW_OK)
        status = march__one_date(date, err);
    if (status != DEW_OK) {
        if (err != NULL)
            err->hour = m->hour + 1;
        return status;
    }
    body->held = at < m->prescribed_count ? m->prescribed[at] : NAN;
    body->run = body->fan = NAN;
    m->hour++;
    march__light_of(&body->c, m->planes, hour, date, &light);
    sun = march__sun_of(&body->c, light.on, march__ground_of(&body->c, date));
    wall = dew_weather_by_clock(date, body->c.clock, body->c.site.utc_offset);
    if (!march__run_hour(body, hour, &sun, &wall, &r, &gaps))
        return open_books(m, &from, &r, &gaps, err);
    *out = r;
    return DEW_OK;
}

enum dew_status dew_march_open(struct dew_march **march,
                               const struct dew_case *c,
                               const struct dew_hour *before,
                               struct dew_error *err)
{
    struct dew_march *m = calloc(1, sizeof *m);
    enum dew_status status;

    *march = NULL;
    if (m == NULL)
        return core__fail(err, DEW_EMEM, "no memory for the march");
    status = march__open(&m->body, c, before, err);
    if (status != DEW_OK) {
        free(m);
        return status;
    }
    march__planes(c, m->planes);
    *march = m;
    return DEW_OK;
}

/* What the slow stores hold: water as RH, the building as shares of 20 K. */
enum { DEEP, MID, SURFACE, MASS, SLOW };
struct stores {
    double x[SLOW];
};

static struct stores stores_of(const struct dew_march *m)
{
    const struct dew_state *at = &m->body.at.x;
    const struct march__lane *lane = &m->body.lane;

    return (struct stores){{
        [DEEP] = at->w_deep / lane->cap_deep,
        [MID] = at->w_mid / lane->cap_mid,
        [SURFACE] = at->w_surface / lane->cap_surface,
        [MASS] = at->t_mass / 20.0,
    }};
}

static void fill_stores(struct dew_march *m, const struct stores *s)
{
    struct dew_state *at = &m->body.at.x;
    const struct march__lane *lane = &m->body.lane;

    at->w_deep = s->x[DEEP] * lane->cap_deep;
    at->w_mid = s->x[MID] * lane->cap_mid;
    at->w_surface = s->x[SURFACE] * lane->cap_surface;
    at->t_mass = s->x[MASS] * 20.0;
}

/* What a turn began with, and by how much it changed that. */
struct turn {
    struct stores from, change;
};

static double most_changed(const struct turn *turn)
{
    double most = 0.0;

    for (int k = 0; k < SLOW; k++)
        most = fmax(most, fabs(turn->change.x[k]));
    return most;
}

/* Where a turn would change nothing, by the secant of the last two: what is left
   dies away as the slowest store does, so that its slope is that of all.  Only
   further on the way that the turn went, and to what the stores can hold. */
static void go_ahead(struct dew_march *m, const struct turn *was,
                     const struct turn *now)
{
    const double furthest = 20.0;
    double ahead = (now->from.x[DEEP] - was->from.x[DEEP]) /
                   (was->change.x[DEEP] - now->change.x[DEEP]);
    struct stores to = now->from;

    if (!(ahead > 1.0 && ahead < furthest))
        return;
    for (int k = 0; k < SLOW; k++)
        to.x[k] += ahead * now->change.x[k];
    for (int k = DEEP; k <= SURFACE; k++)
        if (!(to.x[k] > 0.0 && to.x[k] < 1.0))
            return;
    fill_stores(m, &to);
}

static enum dew_status take_turn(struct dew_march *m,
                                 const struct dew_hour *hours,
                                 const struct dew_date *dates, size_t length,
                                 struct turn *turn, struct dew_error *err)
{
    const double day = m->body.clock.day;
    const struct dew_hour before = m->body.before;
    enum dew_status status = DEW_OK;
    struct dew_result out;
    struct stores end;

    turn->from = stores_of(m);
    m->hour = 0;
    m->body.way = MARCH__IDLE;
    for (size_t h = 0; h < length && status == DEW_OK; h++)
        status = dew_march_step(m, &hours[h], &dates[h], &out, err);
    end = stores_of(m);
    for (int k = 0; k < SLOW; k++)
        turn->change.x[k] = end.x[k] - turn->from.x[k];
    m->body.before = before;
    m->body.clock.day = day;
    return status;
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
    const double mild = m->body.clock.mild;
    struct turn now = {0}, was;
    enum dew_status status = DEW_OK;
    int done = 0;

    while (status == DEW_OK && !done && *turns < most) {
        was = now;
        status = take_turn(m, hours, dates, count < weeks ? count : weeks, &now,
                           err);
        ++*turns;
        done = most_changed(&now) < settled;
        if (!done && *turns > 1)
            go_ahead(m, &was, &now);
    }
    m->body.clock.mild = mild;
    return status;
}

/* Once through the last weeks of a year, but the very last in few steps: the
   stores forget what they were opened with, and the year begins as it ends. */
static enum dew_status lead_in(struct dew_march *m,
                               const struct dew_hour *hours,
                               const struct dew_date *dates, size_t end,
                               struct dew_error *err)
{
    const int steps = m->body.c.steps_per_hour;
    const double day = m->body.clock.day;
    enum dew_status status = DEW_OK;
    struct dew_result out;

    m->body.before = hours[end - MARCH__LEAD - 1];
    m->hour = (int)(end - MARCH__LEAD);
    for (size_t h = end - MARCH__LEAD; h < end && status == DEW_OK; h++) {
        m->body.c.steps_per_hour = march__led_steps(h, end, steps);
        m->body.way = march__led_way(h, end);
        status = dew_march_step(m, &hours[h], &dates[h], &out, err);
    }
    m->body.c.steps_per_hour = steps;
    m->body.clock.day = day;
    return status;
}

enum dew_status dew_march_warm_up(struct dew_march *m,
                                  const struct dew_hour *hours,
                                  const struct dew_date *dates, size_t count,
                                  int *turns, struct dew_error *err)
{
    size_t end = march__first_year(dates, count);
    enum dew_status status;
    int turn = end > 0;

    if (end > 0)
        status = lead_in(m, hours, dates, end, err);
    else
        status = settle_in(m, hours, dates, count, &turn, err);
    if (status != DEW_OK)
        return status;
    m->body.way = MARCH__LIVED;
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

void dew_march_close(struct dew_march *march)
{
    free(march);
}
