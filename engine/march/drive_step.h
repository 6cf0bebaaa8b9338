/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules and decay of one hour, for one house or several.  Private. */
#ifndef DEW_MARCH_DRIVE_STEP_H
#define DEW_MARCH_DRIVE_STEP_H

#include "dew/plant.h"
#include "house/window_step.h"
#include "march/drive.h"

/* Windows stay shut for a day after cooling last ran: common practice, no
   source.  Without such a memory they would open in every idle hour. */
#define MARCH__SHUT_AFTER 24.0 /* h */

/* Cooling of less than half a minute of the hour is not noticed; ours. */
#define MARCH__LEAST_COOL 0.01

static inline struct march__clock march__clock_set(double t)
{
    struct march__clock clock = {0};

    clock.mild = t;
    clock.uncooled = CORE__OF(MARCH__SHUT_AFTER);
    return clock;
}

static inline void march__clock_turn(struct march__clock *clock, double t,
                                     double cool)
{
    clock->mild = house__running_mean(clock->mild, t, CORE__OF(1.0));
    clock->uncooled =
        core__pick(cool > MARCH__LEAST_COOL, 0.0, clock->uncooled + 1.0);
    clock->day += 1.0 / 24.0;
}

/* Where time stands, and whether it does: as it is led in. */
struct march__time {
    double day;
    int idle;
};

/* Share of the day that falls in this hour. */
static inline double march__share(const struct dew_shape *shape,
                                  const struct dew_date *date)
{
    const double *day = date->weekday < 5 ? shape->weekday : shape->weekend;

    return day[date->hour - 1];
}

static inline double march__here(const struct dew_people *people,
                                 const struct dew_date *date)
{
    return date->weekday < 5 ? people->present_weekday[date->hour - 1]
                             : people->present_weekend[date->hour - 1];
}

/* What is left of a source that decays by halves. */
static inline double march__left(const struct dew_water *water, double age)
{
    core__truth decays = water->half_life > 0.0;
    double halves;

    if (!core__any(decays))
        return CORE__OF(1.0);
    halves = age / core__pick(decays, water->half_life, 1.0);
    halves = core__hold(halves, 0.0, 1000.0);
    return core__pick(decays,
                      core__pick(age < 0.0, 0.0, air__poly_exp2(-halves)), 1.0);
}

/* Share of an event's water that mixes with the room's air. */
static inline double march__mixed(const struct dew_case *c,
                                  enum dew_source source,
                                  const struct dew_date *date)
{
    static const int local[DEW_SOURCES] = {
        [DEW_SOURCE_showers] = 1 + DEW_LOCAL_BATH,
        [DEW_SOURCE_cooking] = 1 + DEW_LOCAL_KITCHEN,
        [DEW_SOURCE_laundry] = 1 + DEW_LOCAL_DRYER,
    };
    const struct dew_control *control = &c->plant.control;
    const double *on =
        date->weekday < 5 ? control->on_weekday : control->on_weekend;
    double rest = 1.0 - c->house.water[source].caught * on[date->hour - 1];

    if (local[source] > 0) {
        const struct dew_exhaust *fan = &c->plant.exhausts[local[source] - 1];

        rest *= 1.0 -
                core__pick(fan->hours[date->hour - 1] > 0.0, fan->caught, 0.0);
    }
    return rest;
}

static inline double march__source(const struct dew_case *c,
                                   enum dew_source source,
                                   const struct march__time *time,
                                   const struct dew_date *date)
{
    const struct dew_water *water = &c->house.water[source];
    double age = time->idle ? CORE__OF(0.0) : time->day - water->start_day;

    return water->per_day * march__share(&water->shape, date) * (1.0 / 3600.0) *
           march__left(water, age) * march__mixed(c, source, date);
}

/* Heat that walls, roof and windows lose to the sky, W. */
static inline void march__sky_out(const struct dew_thermal *t,
                                  const struct dew_hour *hour,
                                  struct march__drive *d)
{
    core__truth given = t->sky_given == t->sky_given; /* not NaN */
    double below = core__pick(given, t->sky_given, hour->sky);

    d->sky_opaque = t->sky_opaque * below;
    d->sky_glazed = t->sky_glazed * below;
}

#define MARCH__SOURCE(name, words)                                             \
    d->name = march__source(c, DEW_SOURCE_##name, &time, wall);

/* An hour and, by the clock on the wall, its date. */
struct march__when {
    const struct dew_hour *hour;
    const struct dew_date *wall;
};

/* The hour's drive: what schedules, sun and decay say. */
static inline void march__drive_of(const struct dew_case *c,
                                   const struct march__clock *clock, int idle,
                                   const struct march__sun *sun,
                                   const struct march__when *when,
                                   struct march__drive *d)
{
    const struct dew_hour *hour = when->hour;
    const struct dew_date *wall = when->wall;
    const struct dew_house *h = &c->house;
    const struct dew_comfort *comfort = &h->comfort;
    struct march__time time = {clock->day, idle};

    DEW_SOURCE_MAP(MARCH__SOURCE)
    d->bodies =
        h->people.count * h->people.sensible_w * march__here(&h->people, wall);
    d->gains =
        h->people.gains_w * 24.0 * march__share(&h->people.gains_shape, wall);
    d->co2_in = h->people.count * h->people.co2 * march__here(&h->people, wall);
    d->solar = sun->solar;
    d->sunlit = sun->sunlit;
    march__sky_out(&h->thermal, hour, d);
    d->set_heat = comfort->heat[wall->hour - 1];
    d->set_cool = comfort->cool[wall->hour - 1];
    d->given = CORE__OF(comfort->given ? 1.0 : 0.0);
    d->told_cool = CORE__OF(0.0);
    d->t_ground = sun->t_ground;
    d->wet_t = h->thermal.floor_lean * d->t_ground;
    d->window = h->windows.flow *
                house__window_share(&h->windows, clock->mild,
                                    clock->uncooled < MARCH__SHUT_AFTER);
}

/* Shut the windows of one who looks at the dew point, where from start to end
   of the hour the air outdoors is not drier than it should be; x is the house
   then. */
static inline void march__mind_windows(const struct dew_case *c,
                                       const struct dew_state *x,
                                       const struct dew_hour *start,
                                       const struct dew_hour *end,
                                       struct march__drive *d)
{
    core__truth dries;

    if (!c->house.windows.by_dew_point)
        return;
    dries = house__window_dries(core__max(start->w, end->w), x->w, x->t_air,
                                c->limits.too_humid, end->p);
    d->window = core__pick(dries, d->window, 0.0);
}

#endif
