/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light on a tilted plane, and the part that its glass passes. */
#include <math.h>

#include "dew/sun.h"
#include "weather/sun.h"

#define RAD (3.14159265358979323846 / 180.0) /* rad per deg */

#define GLASS_INDEX 1.526 /* -   [DB13] table 5.1.1                        */
#define GLASS_DEPTH                                                            \
    0.0370 /* -   absorbed along the normal in a 3 mm pane of
                                  clear float, [DB13] figure 5.3.1's middle */

/*
 * Circumsolar and horizon brightening by sky clearness.  All sites together,
 * [PEREZ90] table 6.
 */
/* clang-format off */
static const struct bin {
    double below;         /* clearness up to here */
    double f11, f12, f13; /* circumsolar          */
    double f21, f22, f23; /* horizon              */
} bins[] = {
    /* below    f11     f12     f13     f21     f22     f23 */
    {1.065,   -0.008,  0.588, -0.062, -0.060,  0.072, -0.022},
    {1.230,    0.130,  0.683, -0.151, -0.019,  0.066, -0.029},
    {1.500,    0.330,  0.487, -0.221,  0.055, -0.064, -0.026},
    {1.950,    0.568,  0.187, -0.295,  0.109, -0.152, -0.014},
    {2.800,    0.873, -0.392, -0.362,  0.226, -0.462,  0.001},
    {4.500,    1.132, -1.237, -0.412,  0.288, -0.823,  0.056},
    {6.200,    1.060, -1.600, -0.359,  0.264, -1.127,  0.131},
    {INFINITY, 0.678, -0.327, -0.250,  0.156, -1.377,  0.251},
};
/* clang-format on */
enum { COUNT = sizeof bins / sizeof bins[0] };

/* Fresnel, [DB13] eqs 5.1.1 and 5.1.2. */
void weather__glass_face(double cosine, double *across, double *along)
{
    double c = cosine;
    double n = GLASS_INDEX;
    double inner = sqrt(1.0 - (1.0 - c * c) / (n * n)); /* behind the face */
    double s = (c - n * inner) / (c + n * inner);
    double p = (n * c - inner) / (n * c + inner);

    *across = s * s;
    *along = p * p;
}

/* Panes in series for one polarisation: r at each face, a passed within. */
static double series(double r, double a, int panes)
{
    /* one pane, [DB13] eqs 5.3.1 and 5.3.2 */
    double t1 = a * (1.0 - r) * (1.0 - r) / (1.0 - r * r * a * a);
    double r1 = r * (1.0 + a * t1);
    double t = t1, back = r1;

    for (int i = 1; i < panes; i++) {
        double between = 1.0 / (1.0 - back * r1);

        back = r1 + t1 * t1 * back * between;
        t *= t1 * between;
    }
    return t;
}

double weather__glass_passes(double cosine, int panes, double depth)
{
    const double grazing = 1e-9; /* closer, two faces of 1 divide 0 by 0 */
    double c = cosine > 1.0 ? 1.0 : cosine;
    double across, along, a;

    if (!(c > grazing))
        return 0.0 * c;
    weather__glass_face(c, &across, &along);
    a = exp(-depth / sqrt(1.0 - (1.0 - c * c) / (GLASS_INDEX * GLASS_INDEX)));
    return 0.5 * (series(across, a, panes) + series(along, a, panes));
}

/* Passed at a cosine, over that at 0 deg. */
static double passes(double cosine, int panes)
{
    return weather__glass_passes(cosine, panes, GLASS_DEPTH) /
           weather__glass_passes(1.0, panes, GLASS_DEPTH);
}

struct dew_plane dew_weather_plane(double tilt, double azimuth, double ground,
                                   int panes)
{
    int good = tilt >= 0.0 && tilt <= 180.0 && azimuth >= 0.0 &&
               azimuth <= 360.0 && ground >= 0.0 && ground <= 1.0 &&
               panes >= 1 && panes <= 4;
    double b = good ? RAD * tilt : NAN;
    double g = RAD * azimuth;
    /* [BB80] stops at a wall; turned over, what was sky is ground. */
    double steep = fmin(tilt, 180.0 - tilt);
    double wide = 59.7 + steep * (-0.1388 + steep * 0.001497);
    double narrow = 90.0 + steep * (-0.5788 + steep * 0.002693);
    double sky = good ? RAD * (tilt <= 90.0 ? wide : narrow) : NAN;
    double ground_angle = good ? RAD * (tilt <= 90.0 ? narrow : wide) : NAN;

    return (struct dew_plane){
        .outward = {sin(b) * sin(g), sin(b) * cos(g), cos(b)},
        .slope_sine = sin(b),
        .sky = 0.5 * (1.0 + cos(b)),
        .ground = ground * 0.5 * (1.0 - cos(b)),
        .sky_glass = passes(cos(sky), panes),
        .ground_glass = passes(cos(ground_angle), panes),
        .clear = weather__glass_passes(1.0, panes, GLASS_DEPTH),
        .panes = panes,
    };
}

/* How the sky's light is spread: shares of the diffuse light. */
struct sky {
    double circumsolar, horizon;
};

static struct sky sky_of(const struct dew_sun *sun, const struct dew_hour *hour)
{
    const double kappa = 1.041; /* per rad3, [PEREZ90] eq. 1 */
    double z = RAD * (90.0 - sun->elevation);
    double z3 = kappa * z * z * z;
    double bright = hour->diffuse * sun->mass / sun->normal; /* eq. 2 */
    double clear =
        (1.0 + hour->direct / hour->diffuse + z3) / (1.0 + z3); /* eq. 1 */
    const struct bin *b = bins;

    while (clear >= b->below && b < &bins[COUNT - 1])
        b++;
    return (struct sky){
        fmax(0.0, b->f11 + b->f12 * bright + b->f13 * z),
        b->f21 + b->f22 * bright + b->f23 * z,
    };
}

struct dew_solar dew_weather_facade(const struct dew_sun *sun,
                                    const struct dew_hour *hour,
                                    const struct dew_plane *plane)
{
    const double lowest = 0.08715574274765817; /* cos 85 deg, [PEREZ90] eq. 9 */
    const double *u = sun->toward, *o = plane->outward;
    double facing = u[0] * o[0] + u[1] * o[1] + u[2] * o[2];
    double beam = 0.0 * hour->direct * facing; /* 0, or NaN */
    double sky = hour->diffuse * plane->sky;
    double ground = hour->global * plane->ground;
    double through = beam;

    if (sun->up > 0.0 && hour->diffuse > 0.0) {
        struct sky s = sky_of(sun, hour);

        sky += hour->diffuse *
               (s.horizon * plane->slope_sine - s.circumsolar * plane->sky);
        if (facing > 0.0)
            beam += hour->diffuse * s.circumsolar * facing / fmax(lowest, u[2]);
        sky = sky < 0.0 ? 0.0 : sky;
    }
    if (sun->up > 0.0 && facing > 0.0) {
        beam += hour->direct * facing;
        through = beam / plane->clear *
                  weather__glass_passes(facing, plane->panes, GLASS_DEPTH);
    }
    return (struct dew_solar){
        beam + sky + ground,
        through + sky * plane->sky_glass + ground * plane->ground_glass,
    };
}
