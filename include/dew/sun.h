/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sun of an hour, and what it sends onto a facade and through its glass.
 * Pure functions, no allocation:
 *
 *     plane = dew_weather_plane(90.0, 180.0, DEW_GROUND, DEW_PANES);  once
 *     sun = dew_weather_sun(&site, &date);                     each hour
 *     solar = dew_weather_facade(&sun, &hour, &plane);         each facade
 *
 * All angles are degrees; azimuth runs clockwise from north (180 = south).
 */
#ifndef DEW_SUN_H
#define DEW_SUN_H

#include "dew/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Where the sun stands in the middle of the sunlit part of an hour.  Plain. */
struct dew_sun {
    double elevation;  /* deg   -90 .. 90    of the centre, no refraction   */
    double azimuth;    /* deg     0 .. 360                                  */
    double up;         /* -       0 .. 1     share of the hour it is up     */
    double normal;     /* W/m2  beyond the air, normal to the beam          */
    double horizontal; /* W/m2  beyond the air, on the level, hour mean     */
    double mass;       /* -       1 .. 38    air mass of the beam; dark NaN  */
    double toward[3];  /* -     unit vector to the sun: east, north, up     */
};

/*
 * The sun of the hour that ends at date, which is local standard time.  An
 * hour in which the sun rises or sets is judged in the middle of its sunlit
 * part; a dark hour in its middle, with up and horizontal 0.
 *
 *     site  latitude, longitude, utc_offset; the rest is not looked at
 *     date  year 1950 .. 2050; 0 (a typical year) is computed as 2001
 *
 * Returns    NaN in every field when the site's place is not known, or when
 *            the year is outside its range.
 * Equation   [MEEUS98] chapter 25 (low accuracy), 12.4, 13.5 and 13.6; air
 *            mass [KASTEN65], without the site's pressure, as [PEREZ90].
 * Accuracy   0.02 deg of direction, 1950 to 2050 (tests/weather/test_sun.c).
 */
struct dew_sun dew_weather_sun(const struct dew_site *site,
                               const struct dew_date *date);

/*
 * Direct and diffuse out of global, where a file has only global.
 *
 *     global   W/m2   on the level, hour mean, 0 or more
 *     direct   W/m2   out: normal to the beam, hour mean
 *     diffuse  W/m2   out: on the level, hour mean
 *
 * The three agree: global = diffuse + direct * (mean sine of the elevation).
 * A dark hour gives direct 0.  NaN in, NaN out.
 *
 * Equation   [ERBS82] as printed in [DB13] eq. 2.10.1.
 * Accuracy   against the split in six typical years [TMY3], hours with the
 *            sun up, at each: diffuse off by 25 W/m2 or less in half of the
 *            hours, bias within 12 and root mean square within 55 W/m2; direct
 *            55 and 120 W/m2 (tests/made/test_made_real.c; docs/weather.md
 *            has the figures).
 */
void dew_weather_split(const struct dew_sun *sun, double global, double *direct,
                       double *diffuse);

/* A flat surface with glass in it.  Plain; from dew_weather_plane. */
struct dew_plane {
    double outward[3]; /* -  unit vector off the plane: east, north, up     */
    double slope_sine; /* -  sine of the tilt                               */
    double sky;        /* -  0 .. 1  share of the view that is sky          */
    double ground;     /* -  0 .. 1  share that is ground, times reflectance */
    double sky_glass;  /* -  0 .. 1  passed of sky light, over that at 0 deg */
    double ground_glass; /* -  0 .. 1  passed of ground light, the same     */
    double clear;        /* -  0 .. 1  passed of a beam at 0 deg              */
    int panes;           /* -  1 .. 4                                         */
};

/* Common ground: grass and soil.  [DB13] section 2.15 */
#define DEW_GROUND 0.2
/* Panes of the usual sealed unit. */
#define DEW_PANES 2

/*
 * Prepare a plane.
 *
 *     tilt     deg   0 .. 180   0 = facing up, 90 = wall
 *     azimuth  deg   0 .. 360   it faces; of no effect at tilt 0
 *     ground   -     0 .. 1     reflectance of the ground: 0.2, snow 0.7
 *     panes    -     1 .. 4     of clear glass
 *
 * Returns    NaN in every field for a value outside its range.
 * Equation   equivalent angles of sky and ground light, [BB80].
 */
struct dew_plane dew_weather_plane(double tilt, double azimuth, double ground,
                                   int panes);

/* What falls on a plane in an hour.  Plain. */
struct dew_solar {
    double on;    /* W/m2   on the plane from outside, hour mean            */
    double glass; /* W/m2   the part of it that counts behind glass: times
                            g-value (at 0 deg) times area = heat gained     */
};

/*
 * Beam, sky and ground light on a plane, and the same weighted with what the
 * glass passes at their angles.  A simple overhang or neighbour is one factor
 * on both, the caller's.
 *
 *     sun    of the same hour
 *     hour   global, direct, diffuse; NaN in any gives NaN
 *
 * Equation   sky after [PEREZ90]; glass by Fresnel's equations and internal
 *            absorption for panes of n 1.526, [DB13] 5.1 to 5.3.
 * Limits     transmitted light only: heat absorbed in the panes and passed
 *            inwards is taken to fall with angle as transmission does.
 *            Uncoated clear glass; a coating changes the curve by less than
 *            the doubt in a window's shading.
 */
struct dew_solar dew_weather_facade(const struct dew_sun *sun,
                                    const struct dew_hour *hour,
                                    const struct dew_plane *plane);

/* ---- the sky, as what a roof or a wall radiates to ----------------------- */

/*
 * Emissivity of the sky.
 *
 *     dew_point  degC   at the ground
 *     cloud      -      0 .. 1   share of the sky under low, dense cloud
 *
 * Equation   clear: 0.711 + 0.56 (t_d/100) + 0.73 (t_d/100)^2 [BM84]; cloud
 *            takes away 0.8 of what is left to 1: our own rounding of
 *            exp(-2/8.2) = 0.78, cloud whose base is at 2 km [MB84].  Both
 *            from memory.
 */
double dew_weather_sky_emissivity(double dew_point, double cloud);

/* K by which a sky of that emissivity lies below air of t, degC. */
double dew_weather_sky_below(double t, double emissivity);

/* The same for a sky that sends infrared, W/m2, down on the level:
   5.670374e-8 W/(m2 K4), CODATA 2018. */
double dew_weather_sky_infrared(double t, double infrared);
double dew_weather_infrared(double t, double below); /* back: W/m2 */

/*
 * Share of cloud from how much of a clear day's light came.
 *
 *     global  kWh/m2 or any unit of both, over one stretch of time
 *     clear   what a clear sky would have sent then: the sum of
 *             dew_weather_clear_sky, sine: of the sun's elevation; W/m2
 *
 * Equation   [KC80], from memory: clear 910 sine - 30; cloud cuts it by
 *            0.75 cloud^3.4.  Solved for the cloud; for a day's sums that is
 *            our own use of it.  Above clear 0, below a quarter 1.
 */
double dew_weather_clear_sky(double sine);
double dew_weather_cloud(double global, double clear);

/*
 * K that the standard takes all year: 9 in subpolar zones, 13 in the tropics,
 * 11 between [ISO13790] 11.4.6.  Subpolar is taken from 60 deg on, the tropics
 * to 23.4 deg (ours: the standard draws no line).  NaN latitude: 11.
 */
double dew_weather_sky_standard(double latitude);

/* Where a year's sky comes from; what a file has comes first, and its gaps are
   bridged by light.  words */
#define DEW_SKY_MAP(X)                                                         \
    X(LIGHT, "from each day's sunlight and each hour's dew point")             \
    X(STANDARD, "the standard's, the same all year, for want of sunlight")     \
    X(BOTH, "from each day's sunlight, the standard's on days without")        \
    X(INFRARED, "from the infrared that the weather file has")                 \
    X(CLOUD, "from the weather file's cloud and each hour's dew point")

enum dew_sky_by {
#define X(code, words) DEW_SKY_##code,
    DEW_SKY_MAP(X)
#undef X
        DEW_SKY_COUNT
};

/* By which of them the hours' sky was set; words for a report. */
enum dew_sky_by dew_year_sky(const struct dew_year *year);
const char *dew_sky_words(enum dew_sky_by by);

#ifdef __cplusplus
}
#endif
#endif
