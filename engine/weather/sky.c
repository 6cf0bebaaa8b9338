/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sky's temperature, by the day's light and the hour's dew point. */
#include "dew/sun.h"

#include <math.h>

#include "dew/air.h"
#include "weather/year.h"

static const double kelvin = 273.15;
static const double stefan = 5.670374e-8; /* W/(m2 K4), CODATA 2018 */
static const double degree = 3.14159265358979323846 / 180.0;

double dew_weather_sky_emissivity(double dew_point, double cloud)
{
    double d = dew_point / 100.0;
    double clear = 0.711 + 0.56 * d + 0.73 * d * d;

    return clear + (1.0 - clear) * 0.8 * cloud;
}

double dew_weather_sky_below(double t, double emissivity)
{
    return (t + kelvin) * (1.0 - pow(emissivity, 0.25));
}

double dew_weather_sky_infrared(double t, double infrared)
{
    return t + kelvin - pow(infrared / stefan, 0.25);
}

double dew_weather_infrared(double t, double below)
{
    double sky = t + kelvin - below;

    return stefan * sky * sky * sky * sky;
}

double dew_weather_clear_sky(double sine)
{
    return fmax(910.0 * sine - 30.0, 0.0);
}

double dew_weather_cloud(double global, double clear)
{
    double missing = (1.0 - global / clear) / 0.75;

    return pow(fmin(fmax(missing, 0.0), 1.0), 1.0 / 3.4);
}

double dew_weather_sky_standard(double latitude)
{
    if (fabs(latitude) <= 23.4)
        return 13.0;
    return fabs(latitude) >= 60.0 ? 9.0 : 11.0;
}

const char *dew_sky_words(enum dew_sky_by by)
{
    static const char *const words[DEW_SKY_COUNT] = {
#define X(code, words) words,
        DEW_SKY_MAP(X)
#undef X
    };

    return words[by];
}

enum dew_sky_by dew_year_sky(const struct dew_year *year)
{
    return year->sky;
}

/* ---- a year ------------------------------------------------------------------ */

static size_t end_of_day(const struct dew_year *year, size_t h)
{
    const struct dew_date *first = &year->dates[h];

    while (h < year->count && year->dates[h].yearday == first->yearday &&
           year->dates[h].year == first->year)
        h++;
    return h;
}

/* Cloud of the hours from .. to; last where the sun hardly rose, NaN where
   no light was measured.  suns: of the year's hours, or NULL. */
static double cloud_of(const struct dew_year *year, const struct dew_sun *suns,
                       size_t from, size_t to, double last)
{
    const double least = 300.0; /* Wh/m2 a clear sky would send; ours */
    double global = 0.0, clear = 0.0;

    for (size_t h = from; h < to; h++) {
        struct dew_sun sun =
            suns != NULL ? suns[h]
                         : dew_weather_sun(&year->site, &year->dates[h]);
        double sends =
            sun.up * dew_weather_clear_sky(sin(sun.elevation * degree));

        if (isnan(sends))
            return NAN;
        if (isnan(year->hours[h].global))
            continue;
        global += year->hours[h].global;
        clear += sends;
    }
    if (clear > least)
        return dew_weather_cloud(global, clear);
    return last;
}

/* What the file itself knows, or a sky set before, stays. */
static void set_hour(struct dew_hour *h, double cloud, double standard)
{
    double dew;

    if (isfinite(h->sky))
        return;
    dew = dew_air_dew(h->w, h->p);
    h->sky = standard;
    if (isfinite(cloud) && isfinite(dew))
        h->sky =
            dew_weather_sky_below(h->t, dew_weather_sky_emissivity(dew, cloud));
}

int weather__sky_of_file(const struct dew_year *year)
{
    return year->sky == DEW_SKY_INFRARED || year->sky == DEW_SKY_CLOUD;
}

static int every_hour_known(const struct dew_year *year)
{
    size_t h = 0;

    while (h < year->count && isfinite(year->hours[h].sky))
        h++;
    return h == year->count;
}

void weather__year_sky(struct dew_year *year, const struct dew_sun *suns)
{
    double standard = dew_weather_sky_standard(year->site.latitude);
    double cloud = NAN;
    size_t by_light = 0;

    if (weather__sky_of_file(year) && every_hour_known(year))
        return;
    for (size_t h = 0, end; h < year->count; h = end) {
        end = end_of_day(year, h);
        cloud = cloud_of(year, suns, h, end, cloud);
        by_light += isfinite(cloud) ? end - h : 0;
        for (size_t i = h; i < end; i++)
            set_hour(&year->hours[i], cloud, standard);
    }
    if (weather__sky_of_file(year))
        return;
    year->sky = by_light == 0             ? DEW_SKY_STANDARD
                : by_light == year->count ? DEW_SKY_LIGHT
                                          : DEW_SKY_BOTH;
}
