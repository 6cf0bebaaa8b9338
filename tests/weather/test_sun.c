/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sun's place, against a printed almanac example and ERFA. */
#include "support/rows.h"

#include <erfa.h>
#include <erfam.h>

#include "dew/sun.h"
#include "weather/calendar.h"
#include "weather/sun.h"

#define RAD (3.14159265358979323846 / 180.0)

static double sine_of(double degrees)
{
    return sin(RAD * degrees);
}

static double angle_between(const struct dew_sun *s, double elevation,
                            double azimuth)
{
    double flat = cos(RAD * elevation);
    double x = s->toward[0] - flat * sin(RAD * azimuth);
    double y = s->toward[1] - flat * cos(RAD * azimuth);
    double z = s->toward[2] - sine_of(elevation);

    return 2.0 * asin(0.5 * hypot(hypot(x, y), z)) / RAD;
}

/* [MEEUS98] example 25.a: 1992 October 13, 0 h dynamical time. */
TEST(place_of_the_almanac_example)
{
    struct weather__sun_place p = weather__sun_place(2448908.5 - 2451545.0);

    assert_near(p.ascension / RAD + 360.0, 198.38083, 1e-5);
    assert_near(p.declination / RAD, -7.78507, 1e-5);
    assert_near(p.distance, 0.99766, 1e-5);
}

/* [MEEUS98] example 12.a: 1987 April 10, 0 h UT: 13h 10m 46.1351s apparent. */
TEST(sidereal_time_of_the_almanac_example)
{
    struct weather__sun_place p = weather__sun_place(2446895.5 - 2451545.0);
    double want = 15.0 * (13.0 + 10.0 / 60.0 + 46.1351 / 3600.0);

    assert_near(remainder(p.sidereal / RAD - want, 360.0), 0.0, 5e-4);
}

static const struct place_row {
    const char *name;
    double latitude, longitude, utc_offset;
} place_rows[] = {
    {"within 0.02 deg 1950 to 2050: 25.82 N 80.30 W", 25.817, -80.3, -5.0},
    {"within 0.02 deg 1950 to 2050: 55.32 N 160.52 W", 55.317, -160.517, -9.0},
    {"within 0.02 deg 1950 to 2050: 71.29 N 156.77 W", 71.287, -156.767, -9.0},
    {"within 0.02 deg 1950 to 2050: 33.87 S 151.21 E", -33.867, 151.209, 10.0},
    {"within 0.02 deg 1950 to 2050: 27.72 N 85.32 E", 27.717, 85.324, 5.75},
    {"within 0.02 deg 1950 to 2050: 0.35 S 78.45 W", -0.35, -78.45, -5.0},
};

/*
 * Direction of the sun by ERFA: ephemeris, aberration, precession, nutation
 * and sidereal time to a tenth of an arc second; day counted from 2000-01-01 12:00 UTC.
 */
static void erfa_sun(double day, const struct place_row *r, double *azimuth,
                     double *elevation)
{
    const double light = 499.004782;      /* s per au */
    double tt = day + 64.0 / ERFA_DAYSEC; /* of 2000; 35 s either way */
    double heart[2][3], centre[2][3], v[3], toward[3], seen[3], turned[3];
    double turn[3][3], distance, ascension, declination, hour_angle;

    eraEpv00(ERFA_DJ00, tt, heart, centre);
    distance = sqrt(eraPdp(heart[0], heart[0]));
    for (int i = 0; i < 3; i++) {
        v[i] = centre[1][i] * light / ERFA_DAYSEC;
        toward[i] = -heart[0][i] / distance;
    }
    eraAb(toward, v, distance, sqrt(1.0 - eraPdp(v, v)), seen);
    eraPnm00b(ERFA_DJ00, tt, turn);
    eraRxp(turn, seen, turned);
    eraC2s(turned, &ascension, &declination);
    hour_angle = eraGst00b(ERFA_DJ00, day) + r->longitude * RAD - ascension;
    eraHd2ae(hour_angle, declination, r->latitude * RAD, azimuth, elevation);
    *azimuth /= RAD;
    *elevation /= RAD;
}

/* The middle of an hour that is all light or all dark. */
static void sun_is_within_two_hundredths(void **state)
{
    const struct place_row *r = *state;
    struct dew_site site = {.latitude = r->latitude,
                            .longitude = r->longitude,
                            .utc_offset = r->utc_offset};
    double worst = 0.0;
    int seen = 0;

    for (int64_t d = weather__days(1950, 1, 1); d < weather__days(2051, 1, 1);
         d += 97)
        for (int hour = 1; hour <= 24; hour++) {
            double day = (double)d - 10957.5; /* from 2000-01-01 12:00 */
            double azimuth, elevation;
            struct dew_date date;
            struct dew_sun s;

            weather__date_of(d * WEATHER__DAY + hour * WEATHER__HOUR, 0, &date);
            s = dew_weather_sun(&site, &date);
            if (s.up > 0.0 && s.up < 1.0)
                continue;
            day += (hour - 0.5 - r->utc_offset) / 24.0;
            erfa_sun(day, r, &azimuth, &elevation);
            worst = fmax(worst, angle_between(&s, elevation, azimuth));
            seen++;
        }
    assert_true(seen > 7000);
    assert_near(worst, 0.0, 0.02);
}

/* Two figures of one hour agree, and a sunrise is judged in its light part. */
TEST(an_hour_of_sunrise_is_judged_in_its_light)
{
    struct dew_site site = {
        .latitude = 44.883, .longitude = -93.233, .utc_offset = -6.0};
    int partly = 0;

    for (int day = 1; day <= 31; day++)
        for (int hour = 1; hour <= 24; hour++) {
            struct dew_date date = {
                .year = 0, .month = 3, .day = day, .hour = hour};
            struct dew_sun s = dew_weather_sun(&site, &date);
            double mean = s.normal * s.up * s.toward[2];

            if (s.up > 0.0 && s.up < 1.0) {
                partly++;
                assert_true(s.elevation > 0.0 && s.elevation < 6.0);
                /* the sine is all but straight over a part of an hour */
                assert_near(s.horizontal, mean, 0.02 * mean + 0.2);
            } else if (s.up == 0.0) {
                assert_true(s.elevation < 0.0 && s.horizontal == 0.0);
            }
        }
    assert_int_equal(partly, 62);
}

/* Closed form: the day's light beyond the air, [DB13] eq. 1.10.3. */
TEST(the_day_s_light_is_the_closed_form)
{
    struct dew_site site = {
        .latitude = 43.0, .longitude = -89.4, .utc_offset = -6.0};
    double sum = 0.0, delta = 0.0, normal = 0.0, half, want;

    for (int hour = 1; hour <= 24; hour++) {
        struct dew_date date = {.year = 0, .month = 4, .day = 15, .hour = hour};
        struct dew_sun s = dew_weather_sun(&site, &date);

        sum += s.horizontal;
        if (hour == 12) {
            normal = s.normal;
            delta = weather__sun_place((double)weather__days(2001, 4, 15) -
                                       10957.5 + 0.75)
                        .declination;
        }
    }
    half = acos(-tan(43.0 * RAD) * tan(delta));
    want = 24.0 / (180.0 * RAD) * normal *
           (cos(43.0 * RAD) * cos(delta) * sin(half) +
            half * sine_of(43.0) * sin(delta));
    assert_near(sum, want, 2e-4 * want);
}

TEST(no_place_gives_no_sun)
{
    struct dew_site site = {.latitude = NAN, .longitude = 1.0, .utc_offset = 0};
    struct dew_date date = {.year = 2010, .month = 5, .day = 3, .hour = 12};
    struct dew_sun s = dew_weather_sun(&site, &date);

    assert_nan(s.elevation);
    assert_nan(s.up);
    assert_nan(s.toward[1]);
    site.latitude = 51.3;
    date.year = 1949;
    assert_nan(dew_weather_sun(&site, &date).azimuth);
}

ROWS(place_rows, sun_is_within_two_hundredths);
RUN_TESTS("weather, sun");
