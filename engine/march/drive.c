/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules, sun and decay of one hour. */
#include "march/drive.h"

#include <math.h>

#include "dew/air.h"
#include "dew/leakage.h"
#include "dew/thermal.h"
#include "plant/control_step.h"

static const double hour_s = 3600.0;

/* Windows stay shut for a day after cooling last ran: common practice, no
   source.  Without such a memory they would open in every idle hour. */
static const double shut_after = 24.0; /* h */

/* Cooling of less than half a minute of the hour is not noticed; ours. */
static const double least_cool = 0.01;

struct march__clock march__clock_set(double t)
{
    return (struct march__clock){.mild = t, .uncooled = shut_after};
}

void march__clock_turn(struct march__clock *clock, double t, double cool)
{
    clock->mild = dew_house_running_mean(clock->mild, t, 1.0);
    clock->uncooled = cool > least_cool ? 0.0 : clock->uncooled + 1.0;
    clock->day += 1.0 / 24.0;
}

/* Share of the day that falls in this hour. */
static double share(const struct dew_shape *shape, const struct dew_date *date)
{
    const double *day = date->weekday < 5 ? shape->weekday : shape->weekend;

    return day[date->hour - 1];
}

static double here(const struct dew_people *people, const struct dew_date *date)
{
    return date->weekday < 5 ? people->present_weekday[date->hour - 1]
                             : people->present_weekend[date->hour - 1];
}

/* What is left of a source that decays by halves. */
static double left(const struct dew_water *water, const struct march__clock *k)
{
    double age = k->idle ? 0.0 : k->day - water->start_day;

    if (!(water->half_life > 0.0))
        return 1.0;
    return age < 0.0 ? 0.0 : exp2(-age / water->half_life);
}

/* Share of an event's water that mixes with the room's air. */
static double mixed(const struct dew_case *c, enum dew_source source,
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

        if (fan->hours[date->hour - 1] > 0.0)
            rest *= 1.0 - fan->caught;
    }
    return rest;
}

static double source_rate(const struct dew_case *c, enum dew_source source,
                          const struct march__clock *clock,
                          const struct dew_date *date)
{
    const struct dew_water *water = &c->house.water[source];

    return water->per_day * share(&water->shape, date) / hour_s *
           left(water, clock) * mixed(c, source, date);
}

/* Sun through glass, W, and onto opaque walls, W, over all facades. */
static struct dew_lit sun_in(const struct dew_case *c,
                             const struct dew_plane *planes,
                             const struct dew_hour *hour,
                             const struct dew_date *date)
{
    const struct dew_thermal *thermal = &c->house.thermal;
    struct dew_sun sun;
    struct dew_lit lit = {0.0, 0.0};

    if (hour->global <= 0.0 || thermal->facade_count == 0)
        return lit;
    sun = dew_weather_sun(&c->site, date);
    for (int i = 0; i < thermal->facade_count; i++) {
        const struct dew_facade *f = &thermal->facades[i];
        struct dew_solar in = dew_weather_facade(&sun, hour, &planes[i]);

        lit.solar += f->aperture * f->shade * in.glass;
        lit.sunlit += f->absorbing * f->shade * in.on;
    }
    return lit;
}

/* Heat that walls, roof and windows lose to the sky, W. */
static void sky_out(const struct dew_thermal *t, const struct dew_hour *hour,
                    struct march__drive *d)
{
    double below = isnan(t->sky_given) ? hour->sky : t->sky_given;

    d->sky_opaque = t->sky_opaque * below;
    d->sky_glazed = t->sky_glazed * below;
}

#define SOURCE(name, words)                                                    \
    d.name = source_rate(c, DEW_SOURCE_##name, clock, &wall);

struct march__drive march__drive_of(const struct dew_case *c,
                                    const struct dew_plane *planes,
                                    const struct march__clock *clock,
                                    const struct dew_hour *hour,
                                    const struct dew_date *date,
                                    struct dew_lit *known)
{
    const struct dew_house *h = &c->house;
    const struct dew_comfort *comfort = &h->comfort;
    const struct dew_date wall =
        dew_weather_by_clock(date, c->clock, c->site.utc_offset);
    struct march__drive d = {0};
    struct dew_lit lit = {NAN, NAN};

    DEW_SOURCE_MAP(SOURCE)
    d.bodies = h->people.count * h->people.sensible_w * here(&h->people, &wall);
    d.gains = h->people.gains_w * 24.0 * share(&h->people.gains_shape, &wall);
    d.co2_in = h->people.count * h->people.co2 * here(&h->people, &wall);
    if (known != NULL)
        lit = *known;
    if (isnan(lit.solar))
        lit = sun_in(c, planes, hour, date);
    if (known != NULL)
        *known = lit;
    d.solar = lit.solar;
    d.sunlit = lit.sunlit;
    sky_out(&h->thermal, hour, &d);
    d.set_heat = comfort->heat[wall.hour - 1];
    d.set_cool = comfort->cool[wall.hour - 1];
    d.given = comfort->given ? 1.0 : 0.0;
    d.t_ground = dew_house_ground_t(&h->thermal, date->yearday - 0.5);
    d.wet_t = h->thermal.floor_lean * d.t_ground;
    d.window =
        h->windows.flow * dew_house_window_share(&h->windows, clock->mild,
                                                 clock->uncooled < shut_after);
    return d;
}

void march__mind_windows(const struct dew_case *c, const struct dew_state *x,
                         const struct dew_hour *start,
                         const struct dew_hour *end, struct march__drive *d)
{
    if (c->house.windows.by_dew_point &&
        !dew_house_window_dries(fmax(start->w, end->w), x->w, x->t_air,
                                c->limits.too_humid, end->p))
        d->window = 0.0;
}

void march__planes(const struct dew_case *c, struct dew_plane *planes)
{
    for (int i = 0; i < c->house.thermal.facade_count; i++) {
        const struct dew_facade *f = &c->house.thermal.facades[i];

        planes[i] =
            dew_weather_plane(f->tilt, f->azimuth, DEW_GROUND, DEW_PANES);
    }
}

/* Film on a face: 2e-8 kg/(s m2 Pa), the Lewis relation at a convective
   film of 2.9 W/m2K, as for porous surfaces [WWC13]. */
static const double film_beta = 2e-8;

static void lane_faces(const struct dew_case *c, struct march__lane *l)
{
    const struct dew_surface *s = c->house.surfaces;

    l->face_glass = s[DEW_GLASS].factor;
    l->face_edge = s[DEW_EDGE].factor;
    l->face_corner = s[DEW_CORNER].factor;
    l->film_rate_glass = film_beta * s[DEW_GLASS].area;
    l->film_rate_edge = film_beta * s[DEW_EDGE].area;
    l->film_rate_corner = film_beta * s[DEW_CORNER].area;
}

#define SAME(name) l->name = t->name;

static void lane_heat(const struct dew_case *c, struct march__lane *l)
{
    const struct dew_thermal *t = &c->house.thermal;

    DEW_THERMAL_MAP(SAME)
    l->convective = c->house.people.gains_convective;
    l->band = c->house.comfort.band;
    l->lead_lag = c->plant.lead_lag ? 1.0 : 0.0;
}

static void lane_water(const struct dew_case *c, struct march__lane *l)
{
    const struct dew_buffer *b = &c->house.buffer;
    const struct dew_water *w = c->house.water;

    l->cap_surface = b->surface_kg > 0.0 ? b->surface_kg : 1.0;
    l->cap_mid = b->mid_kg > 0.0 ? b->mid_kg : 1.0;
    l->cap_deep = b->deep_kg > 0.0 ? b->deep_kg : 1.0;
    l->per_surface = 1.0 / l->cap_surface;
    l->per_mid = 1.0 / l->cap_mid;
    l->per_deep = 1.0 / l->cap_deep;
    l->rate_surface = b->surface_kg > 0.0 ? b->surface_rate : 0.0;
    l->rate_mid = b->surface_kg > 0.0 && b->mid_kg > 0.0 ? b->mid_rate : 0.0;
    l->rate_deep = b->mid_kg > 0.0 && b->deep_kg > 0.0 ? b->deep_rate : 0.0;
    l->evap_plants = w[DEW_SOURCE_plants].rate;
    l->evap_laundry = w[DEW_SOURCE_laundry].rate;
    l->evap_ground = w[DEW_SOURCE_ground].rate;
    l->wet_follow = 1.0 - c->house.thermal.floor_lean;
    l->cool_plants = w[DEW_SOURCE_plants].heat_share;
    l->cool_laundry = w[DEW_SOURCE_laundry].heat_share;
    l->cool_ground = w[DEW_SOURCE_ground].heat_share;
}

static void lane_humidistats(const struct dew_case *c, struct march__lane *l)
{
    struct plant__band dry = plant__dry_band(&c->plant.dryer);
    struct plant__band wet = plant__wet_band(&c->plant.humidifier);

    l->dry_low = dry.end;
    l->dry_width = dry.width;
    l->dry_per = dry.per;
    l->wet_high = wet.end;
    l->wet_width = wet.width;
    l->wet_per = wet.per;
    l->wet_heat = c->plant.humidifier.heat;
}

struct march__lane march__lane_of(const struct dew_case *c)
{
    const struct dew_leakage *leak = &c->house.leakage;
    struct march__lane l = {0};

    l.rho = dew_air_density_run(c->pressure);
    l.volume = c->house.volume;
    l.mass_air = l.rho * l.volume;
    l.stack_k = leak->stack_k;
    l.stack_n = leak->stack_n;
    l.wind_k = leak->wind_k;
    l.wind_n = leak->wind_n;
    l.leak_constant = leak->constant;
    l.co2_out = c->house.co2_outdoors;
    lane_heat(c, &l);
    lane_water(c, &l);
    lane_faces(c, &l);
    lane_humidistats(c, &l);
    return l;
}
