/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sky at night and by day, as what a roof or a wall radiates to: how far
 * its temperature lies below the air's.  Pure functions but for the last two.
 */
#ifndef DEW_SKY_H
#define DEW_SKY_H

#include "dew/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

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
