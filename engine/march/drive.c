/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sun of an hour, and the constants of a case. */
#include "march/drive.h"

#include <math.h>

#include "dew/air.h"
#include "dew/leakage.h"
#include "dew/thermal.h"
#include "plant/control_step.h"

void march__light_of(const struct dew_case *c, const struct dew_plane *planes,
                     const struct dew_hour *hour, const struct dew_date *date,
                     struct march__light *out)
{
    int facades = c->house.thermal.facade_count;
    struct dew_sun sun;

    *out = (struct march__light){0};
    if (hour->global <= 0.0 || facades == 0)
        return;
    sun = dew_weather_sun(&c->site, date);
    for (int i = 0; i < facades; i++)
        out->on[i] = dew_weather_facade(&sun, hour, &planes[i]);
}

double march__ground_of(const struct dew_case *c, const struct dew_date *date)
{
    return dew_house_ground_t(&c->house.thermal, date->yearday - 0.5);
}

struct march__sun march__sun_of(const struct dew_case *c,
                                const struct dew_solar *on, double t_ground)
{
    const struct dew_thermal *thermal = &c->house.thermal;
    struct march__sun sum = {.t_ground = t_ground};

    for (int i = 0; i < thermal->facade_count; i++) {
        const struct dew_facade *f = &thermal->facades[i];

        sum.solar += f->aperture * f->shade * on[i].glass;
        sum.sunlit += f->absorbing * f->shade * on[i].on;
    }
    return sum;
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
