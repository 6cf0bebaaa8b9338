/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/thermal.h"

#include <math.h>

#include "air/air_step.h"
#include "core/fail.h"
#include "core/range.h"

static const double pi = 3.14159265358979323846;
static const double year_days = 365.0;
static const double surface_coefficient = 3.45; /* W/(m2 K)  [ISO13790] h_is */
static const double mass_coefficient = 9.1;     /* W/(m2 K)  [ISO13790] h_ms */
static const double surface_ratio = 4.5; /* m2 per m2 floor  [ISO13790] A_t */
static const double outside_film = 0.04; /* m2K/W  [ISO6946] R_se */
static const double radiant_film = 4.5;  /* W/(m2 K)  [ISO13790] h_r, 5 x 0.9 */
static const double down_film = 0.17;    /* m2K/W  [ISO6946] R_si, downward */
static const double across_film = 0.13;  /* m2K/W  [ISO6946] R_si, level */
static const double furnishings = 10000.0; /* J/(m2 K)  [ISO52016], memory */
static const double air_density = 1.2;     /* kg/m3  of room air */

static enum dew_status outside(struct dew_error *err, const char *member,
                               double x, const char *range)
{
    core__in(err, member);
    return core__fail(err, DEW_ERANGE, "%g is outside %s", x, range);
}

enum dew_status dew_house_losses(const struct dew_part *parts, size_t count,
                                 struct dew_losses *out, struct dew_error *err)
{
    double sum[3] = {0.0, 0.0, 0.0};

    for (size_t i = 0; i < count; i++) {
        double loss = parts[i].area * parts[i].u;

        core__in(err, "parts");
        if (!(parts[i].area >= 0.0 && parts[i].u >= 0.0 && isfinite(loss)))
            return core__fail(err, DEW_ERANGE,
                              "part %zu: %g m2 at %g W/(m2 K) is no loss", i,
                              parts[i].area, parts[i].u);
        if ((unsigned)parts[i].kind > DEW_PART_GROUND)
            return core__fail(err, DEW_EUNKNOWN, "part %zu: no such kind", i);
        sum[parts[i].kind] += loss;
    }
    *out = (struct dew_losses){.opaque = sum[DEW_PART_OPAQUE],
                               .glazed = sum[DEW_PART_GLAZED],
                               .ground = sum[DEW_PART_GROUND]};
    return DEW_OK;
}

/* clang-format off */
/* [ISO13790] table 12, from memory: J/(m2 K) and m2 per m2 of floor. */
static const struct fabric {
    double capacity, area;
} fabrics[DEW_FABRICS] = {
    { 80e3, 2.5}, /* very light */
    {110e3, 2.5}, /* light      */
    {165e3, 2.5}, /* medium     */
    {260e3, 3.0}, /* heavy      */
    {370e3, 3.5}, /* very heavy */
};

/* [ISO13370] table 1, from memory: W/(m K) and J/(m3 K). */
static const struct soil {
    double conductivity, heat;
} soils[DEW_SOILS] = {
    {1.5, 3.0e6}, /* clay or silt   */
    {2.0, 2.0e6}, /* sand or gravel */
    {3.5, 2.0e6}, /* rock           */
};
/* clang-format on */

double dew_house_fabric_capacity(enum dew_fabric fabric, double floor_area)
{
    if ((unsigned)fabric >= DEW_FABRICS)
        return NAN;
    return fabrics[fabric].capacity * floor_area;
}

double dew_house_fabric_area(enum dew_fabric fabric, double floor_area)
{
    if ((unsigned)fabric >= DEW_FABRICS)
        return NAN;
    return fabrics[fabric].area * floor_area;
}

double dew_house_contents(double volume, double floor_area)
{
    return air_density * AIR__CP * volume + furnishings * floor_area;
}

static enum dew_status check_nodes(const struct dew_fabric_nodes *in,
                                   struct dew_error *err)
{
    double out = in->loss.opaque + in->loss.ground;
    double h_ms = mass_coefficient * in->mass_area;

    if (!core__within(in->floor_area, 10.0, 4000.0))
        return outside(err, "floor_area", in->floor_area, "10 .. 4000 m2");
    if (!(in->capacity > 0.0 && isfinite(in->capacity)))
        return outside(err, "capacity", in->capacity, "the numbers above 0");
    if (!(in->contents > 0.0 && isfinite(in->contents)))
        return outside(err, "contents", in->contents, "the numbers above 0");
    if (!(in->mass_area > 0.0 &&
          in->mass_area <= surface_ratio * in->floor_area))
        return outside(err, "mass_area", in->mass_area,
                       "0 .. 4.5 x floor_area");
    if (!(in->loss.opaque >= 0.0 && in->loss.ground >= 0.0 && out < h_ms)) {
        core__in(err, "loss");
        return core__fail(err, DEW_ERANGE,
                          "%.0f W/K through walls, roof and ground is outside "
                          "0 .. %.0f W/K, 9.1 for each m2 of the fabric's "
                          "inside: too little insulation, or too much wall "
                          "and roof for the floor",
                          out, h_ms);
    }
    if (!core__within(in->loss.glazed, 0.0,
                      mass_coefficient *
                          (surface_ratio * in->floor_area - in->mass_area)))
        return outside(err, "loss.glazed", in->loss.glazed,
                       "0 .. 9.1 x (4.5 x floor_area - mass_area) W/K");
    return DEW_OK;
}

enum dew_status dew_house_thermal(const struct dew_fabric_nodes *in,
                                  struct dew_thermal *out,
                                  struct dew_error *err)
{
    double total_area = surface_ratio * in->floor_area;
    double h_ms = mass_coefficient * in->mass_area;
    double loss = in->loss.opaque + in->loss.ground;
    double beyond = h_ms / (h_ms - loss); /* 1/(1/H - 1/h_ms) = H x this */
    enum dew_status status = check_nodes(in, err);

    if (status != DEW_OK)
        return status;
    *out = (struct dew_thermal){
        .h_is = surface_coefficient * total_area,
        .h_ms = h_ms,
        .h_em = in->loss.opaque * beyond,
        .h_w = in->loss.glazed,
        .h_ground = in->loss.ground * beyond,
        .c_air = in->contents,
        .c_mass = in->capacity,
        .mass_share = in->mass_area / total_area,
        .lost_share = in->loss.glazed / (mass_coefficient * total_area),
    };
    return DEW_OK;
}

double dew_house_aperture(double glass, double frame_share, double g)
{
    if (!(glass >= 0.0) || !core__within(frame_share, 0.0, 1.0) ||
        !core__within(g, 0.0, 1.0))
        return NAN;
    return glass * frame_share * g;
}

double dew_house_absorbing(double opaque, double absorptance, double u)
{
    if (!(opaque >= 0.0 && u >= 0.0) || !core__within(absorptance, 0.0, 1.0))
        return NAN;
    return opaque * absorptance * u * outside_film;
}

double dew_house_sky(double area, double u, double view)
{
    if (!(area >= 0.0 && u >= 0.0) || !core__within(view, 0.0, 1.0))
        return NAN;
    return view * outside_film * u * area * radiant_film;
}

enum dew_status dew_house_add_facade(struct dew_thermal *thermal,
                                     const struct dew_facade *facade,
                                     struct dew_error *err)
{
    if (thermal->facade_count >= DEW_FACADES)
        return outside(err, "facade_count", thermal->facade_count + 1,
                       "0 .. 6");
    if (!core__within(facade->azimuth, 0.0, 360.0))
        return outside(err, "azimuth", facade->azimuth, "0 .. 360 deg");
    if (!core__within(facade->tilt, 0.0, 180.0))
        return outside(err, "tilt", facade->tilt, "0 .. 180 deg");
    if (!core__within(facade->shade, 0.0, 1.0))
        return outside(err, "shade", facade->shade, "0 .. 1");
    if (!(facade->aperture >= 0.0 && isfinite(facade->aperture)))
        return outside(err, "aperture", facade->aperture, "the numbers from 0");
    if (!(facade->absorbing >= 0.0 && isfinite(facade->absorbing)))
        return outside(err, "absorbing", facade->absorbing,
                       "the numbers from 0");
    thermal->facades[thermal->facade_count++] = *facade;
    return DEW_OK;
}

struct dew_wave dew_house_yearly_wave(const double monthly[12])
{
    /* a mean over 1/12 of the wave is flatter than the wave */
    const double flattening = sin(pi / 12.0) / (pi / 12.0);
    double mean = 0.0, real = 0.0, imaginary = 0.0, phase;

    for (int m = 0; m < 12; m++) {
        double angle = 2.0 * pi * (m + 0.5) / 12.0;

        mean += monthly[m] / 12.0;
        real += monthly[m] * cos(angle) / 6.0;
        imaginary += monthly[m] * sin(angle) / 6.0;
    }
    phase = atan2(-imaginary, -real) / (2.0 * pi); /* of the coldest day */
    return (struct dew_wave){
        .mean = mean,
        .swing = hypot(real, imaginary) / flattening,
        .coldest = year_days * (phase - floor(phase)),
    };
}

static enum dew_status check_slab(const struct dew_slab *slab,
                                  struct dew_error *err)
{
    if (!(slab->area > 0.0 && isfinite(slab->area)))
        return outside(err, "area", slab->area, "the numbers above 0");
    if (!(slab->perimeter > 0.0 && isfinite(slab->perimeter)))
        return outside(err, "perimeter", slab->perimeter,
                       "the numbers above 0");
    if (!core__within(slab->wall, 0.0, 1.0))
        return outside(err, "wall", slab->wall, "0 .. 1 m");
    if (!core__within(slab->resistance, 0.0, 20.0))
        return outside(err, "resistance", slab->resistance, "0 .. 20 m2K/W");
    if (!core__within(slab->depth, 0.0, 6.0))
        return outside(err, "depth", slab->depth, "0 .. 6 m");
    if (!core__within(slab->wall_resistance, 0.0, 20.0))
        return outside(err, "wall_resistance", slab->wall_resistance,
                       "0 .. 20 m2K/W");
    if ((unsigned)slab->soil < DEW_SOILS)
        return DEW_OK;
    core__in(err, "soil");
    return core__fail(err, DEW_EUNKNOWN, "%d is no kind of soil",
                      (int)slab->soil);
}

/* [ISO13370]: soil, characteristic width, equivalent thicknesses of floor and
   wall, depth that the yearly wave reaches. */
struct soiled {
    double lambda, width, floor, wall, depth, wave;
};

static struct soiled soil_of(const struct dew_slab *slab)
{
    const struct soil *soil = &soils[slab->soil];
    double lambda = soil->conductivity;

    return (struct soiled){
        .lambda = lambda,
        .width = slab->area / (0.5 * slab->perimeter),
        .floor =
            slab->wall + lambda * (down_film + slab->resistance + outside_film),
        .wall = lambda * (across_film + slab->wall_resistance + outside_film),
        .depth = slab->depth,
        .wave = sqrt(86400.0 * year_days * lambda / (pi * soil->heat)),
    };
}

static double floor_u(const struct soiled *s)
{
    double d = s->floor + 0.5 * s->depth;

    if (d < s->width)
        return 2.0 * s->lambda / (pi * s->width + d) *
               log(pi * s->width / d + 1.0);
    return s->lambda / (0.457 * s->width + d);
}

/* Of the walls below the ground, W/K per m of perimeter: U_w z. */
static double wall_loss(const struct soiled *s)
{
    double thinner = fmin(s->floor, s->wall);

    if (!(s->depth > 0.0))
        return 0.0;
    return 2.0 * s->lambda / pi * (1.0 + 0.5 * thinner / (thinner + s->depth)) *
           log1p(s->depth / s->wall);
}

/* Of the outdoors' yearly swing, W/K per m of perimeter. */
static double swing_loss(const struct soiled *s)
{
    double reaches = exp(-s->depth / s->wave);

    return 0.37 * s->lambda *
           (2.0 * (1.0 - reaches) * log1p(s->wave / s->wall) +
            reaches * log1p(s->wave / s->floor));
}

enum dew_status dew_house_slab(const struct dew_slab *slab,
                               const struct dew_wave *outdoors,
                               struct dew_earth *out, struct dew_error *err)
{
    enum dew_status status = check_slab(slab, err);
    struct soiled s;
    double floor, walls, steady, periodic;

    if (status != DEW_OK)
        return status;
    s = soil_of(slab);
    floor = slab->area * floor_u(&s);
    walls = slab->perimeter * wall_loss(&s);
    steady = floor + walls;
    periodic = slab->perimeter * swing_loss(&s);
    *out = (struct dew_earth){
        .loss = steady,
        .wave = {outdoors->mean, outdoors->swing * periodic / steady,
                 fmod(outdoors->coldest + year_days / 12.0, year_days)},
        .lean = (floor * down_film + walls * across_film) /
                (slab->area + slab->perimeter * slab->depth),
    };
    return DEW_OK;
}

void dew_house_set_ground(struct dew_thermal *thermal,
                          const struct dew_earth *earth)
{
    thermal->ground_mean = earth->wave.mean;
    thermal->ground_swing = earth->wave.swing;
    thermal->ground_lag = earth->wave.coldest;
    thermal->floor_lean = earth->lean;
}

double dew_house_ground_t(const struct dew_thermal *thermal, double day)
{
    double angle = 2.0 * pi * (day - thermal->ground_lag) / year_days;

    return thermal->ground_mean - thermal->ground_swing * cos(angle);
}
