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

/* How far two states lie apart, in the stores that are slow. */
static double apart(const struct dew_march *m, const struct dew_state *a,
                    const struct dew_state *b)
{
    double surface =
        fabs(a->w_surface - b->w_surface) / m->body.lane.cap_surface;
    double mid = fabs(a->w_mid - b->w_mid) / m->body.lane.cap_mid;
    double deep = fabs(a->w_deep - b->w_deep) / m->body.lane.cap_deep;

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
    struct march__clock clock = m->body.clock;
    struct dew_hour before = m->body.before;
    struct dew_result out;
    int done = 0;

    while (!done && *turns < most) {
        struct dew_state last = m->body.at.x;

        m->hour = 0;
        for (size_t h = 0; h < length; h++) {
            enum dew_status status;

            m->body.way = MARCH__IDLE;
            status = dew_march_step(m, &hours[h], &dates[h], &out, err);
            if (status != DEW_OK)
                return status;
        }
        ++*turns;
        done = apart(m, &last, &m->body.at.x) < settled;
        m->body.before = before;
        m->body.clock.day = clock.day;
    }
    m->body.clock.mild = clock.mild;
    return DEW_OK;
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
