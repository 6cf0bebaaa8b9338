/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sun's place in an hour, and the split of global into its parts. */
#include "dew/sun.h"

#include <math.h>

#include "weather/calendar.h"
#include "weather/sun.h"

#define RAD (3.14159265358979323846 / 180.0) /* rad per deg */

/* W/m2 at 1 au: the value [ERBS82], [PEREZ90] and [TMY3] were made with; the
   present best is 1361 [KL11], and ratios to it are what the first two use. */
#define SOLAR_CONSTANT 1367.0

/* Days from 1970-01-01 00:00 to 2000-01-01 12:00. */
#define EPOCH 10957.5

struct weather__sun_place weather__sun_place(double days)
{
    double T = days / 36525.0; /* Julian centuries; the minute between UTC and
                                  dynamical time moves the sun 0.0007 deg */
    /* [MEEUS98] 25.2, 25.3, 25.4 and the equation of the centre, p. 164 */
    double L = 280.46646 + T * (36000.76983 + T * 0.0003032);
    double M = RAD * (357.52911 + T * (35999.05029 - T * 0.0001537));
    double e = 0.016708634 - T * (0.000042037 + T * 0.0000001267);
    double C = (1.914602 - T * (0.004817 + T * 0.000014)) * sin(M) +
               (0.019993 - T * 0.000101) * sin(2.0 * M) +
               0.000289 * sin(3.0 * M);
    /* nutation and aberration, p. 164; obliquity 22.2 and 25.8 */
    double node = RAD * (125.04 - 1934.136 * T);
    double nutation = -0.00478 * sin(node);
    double lambda = RAD * (L + C - 0.00569 + nutation);
    double tilt = RAD * (23.4392911 - T * 0.0130042 + 0.00256 * cos(node));
    /* 12.4, made apparent */
    double sidereal = 280.46061837 + 360.98564736629 * days +
                      T * T * 0.000387933 + nutation * cos(tilt);

    return (struct weather__sun_place){
        .ascension = atan2(cos(tilt) * sin(lambda), cos(lambda)),
        .declination = asin(sin(tilt) * sin(lambda)),
        .distance = 1.000001018 * (1.0 - e * e) /
                    (1.0 + e * cos(M + RAD * C)), /* 25.5 */
        .sidereal = RAD * fmod(sidereal, 360.0),
    };
}

/* Hour angles of the sunlit part of an hour, rad; several parts near the
   midnight sun: the longest, and the sum over all. */
struct lit {
    double length, middle; /* of the longest part                           */
    double total;          /* of all parts                                  */
    double sines;          /* integral of the sine of the elevation over all */
};

/* Sine of the elevation at hour angle h is a + b cos h. */
static struct lit sunlit(double from, double to, double a, double b)
{
    struct lit s = {0.0, 0.5 * (from + to), 0.0, 0.0};
    double half = acos(fmax(-1.0, fmin(1.0, -a / b))); /* rise to noon */

    if (a >= b) { /* up the whole day: no seam at midnight */
        s.length = s.total = to - from;
        s.sines = a * s.total + b * (sin(to) - sin(from));
        return s;
    }
    for (int turn = -1; turn <= 1; turn++) {
        double shift = 360.0 * RAD * turn;
        double low = fmax(from, shift - half);
        double high = fmin(to, shift + half);

        if (high <= low)
            continue;
        s.total += high - low;
        s.sines += a * (high - low) + b * (sin(high) - sin(low));
        if (high - low > s.length) {
            s.length = high - low;
            s.middle = 0.5 * (low + high);
        }
    }
    return s;
}

/* The sun for nobody knows where. */
static struct dew_sun nowhere(void)
{
    return (struct dew_sun){NAN, NAN, NAN, NAN, NAN, NAN, {NAN, NAN, NAN}};
}

/* Direction at hour angle h from latitude phi: [MEEUS98] 13.5 and 13.6. */
static void look(struct dew_sun *s, double h, double phi, double delta)
{
    s->toward[0] = -cos(delta) * sin(h);
    s->toward[1] = sin(delta) * cos(phi) - cos(delta) * cos(h) * sin(phi);
    s->toward[2] = sin(phi) * sin(delta) + cos(phi) * cos(delta) * cos(h);
    s->elevation = atan2(s->toward[2], hypot(s->toward[0], s->toward[1])) / RAD;
    s->azimuth = atan2(s->toward[0], s->toward[1]) / RAD;
    if (s->azimuth < 0.0)
        s->azimuth += 360.0;
}

/* [KASTEN65] */
static double air_mass(const struct dew_sun *s)
{
    double sine = fmax(0.0, s->toward[2]);

    return 1.0 / (sine + 0.15 * pow(s->elevation + 3.885, -1.253));
}

struct dew_sun dew_weather_sun(const struct dew_site *site,
                               const struct dew_date *date)
{
    const double step = 15.0 * RAD; /* hour angle in an hour */
    double phi = RAD * site->latitude;
    double days, angle, a, b;
    struct weather__sun_place place;
    struct dew_sun s;
    struct lit lit;

    if (!(fabs(site->latitude) <= 90.0) || !(fabs(site->longitude) <= 180.0) ||
        isnan(site->utc_offset) ||
        (date->year != 0 && (date->year < 1950 || date->year > 2050)))
        return nowhere();
    days = (double)weather__moment_of(date) / WEATHER__DAY - EPOCH -
           (0.5 + site->utc_offset) / 24.0;
    place = weather__sun_place(days);
    angle = remainder(place.sidereal + RAD * site->longitude - place.ascension,
                      360.0 * RAD);
    a = sin(phi) * sin(place.declination);
    b = fmax(cos(phi), 1e-9) * cos(place.declination); /* a pole has noons */
    lit = sunlit(angle - 0.5 * step, angle + 0.5 * step, a, b);
    s.normal = SOLAR_CONSTANT / (place.distance * place.distance);
    s.up = lit.total > step * (1.0 - 1e-9) ? 1.0 : lit.total / step;
    s.horizontal = fmax(0.0, s.normal * lit.sines / step);
    look(&s, lit.middle, phi, place.declination);
    s.mass = s.up > 0.0 ? air_mass(&s) : NAN;
    return s;
}

/* Diffuse over global at clearness k: [ERBS82], [DB13] eq. 2.10.1. */
static double erbs(double k)
{
    if (k <= 0.22)
        return 1.0 - 0.09 * k;
    if (k > 0.80)
        return 0.165;
    return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

void dew_weather_split(const struct dew_sun *sun, double global, double *direct,
                       double *diffuse)
{
    /* below 3 deg a clearness is noise: all of it diffuse */
    const double low = 0.05;
    double sine = sun->horizontal / sun->normal; /* mean over the hour */
    double beam = 0.0 * sine * global;           /* 0, or NaN */

    if (sun->up > 0.0 && sine > low * sun->up)
        beam = global * (1.0 - erbs(global / sun->horizontal)) / sine;
    *direct = beam > sun->normal ? sun->normal : beam;
    *diffuse = global - *direct * sine;
}
