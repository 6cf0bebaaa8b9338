/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light on planes and through glass. */
#include "support/rows.h"

#include "dew/sun.h"
#include "weather/sun.h"

#define RAD (3.14159265358979323846 / 180.0)

static const struct dew_site here = {
    .latitude = 40.0, .longitude = -104.6, .utc_offset = -7.0};

static struct dew_sun sun_at(int month, int day, int hour)
{
    struct dew_date date = {.month = month, .day = day, .hour = hour};

    return dew_weather_sun(&here, &date);
}

/* An hour that agrees with itself. */
static struct dew_hour light(const struct dew_sun *sun, double direct,
                             double diffuse)
{
    struct dew_hour h = {.direct = direct, .diffuse = diffuse};

    h.global = diffuse + direct * sun->toward[2];
    return h;
}

/* One face of glass at 60 deg, [DB13] example 5.1.1: 0.185 and 0.001. */
TEST(a_face_throws_back_what_fresnel_says)
{
    double across, along;

    weather__glass_face(cos(60.0 * RAD), &across, &along);
    assert_near(across, 0.185, 0.0005);
    assert_near(along, 0.001, 0.0005);
    weather__glass_face(1.0, &across, &along);
    assert_near(across, 0.0434, 0.00005);
    assert_near(along, across, 1e-15);
}

static const struct glass_row {
    const char *name;
    double angle;
    int panes;
    double depth, want, within;
} glass_rows[] = {
    {"two clear panes at 0 deg, [DB13] example 5.1.2", 0, 2, 0.0, 0.85, 0.005},
    {"two clear panes at 60 deg, [DB13] example 5.1.2", 60, 2, 0.0, 0.76,
     0.005},
    {"one pane of 2.3 mm, 32 per m, at 60 deg, [DB13] example 5.3.1", 60, 1,
     0.0736, 0.768, 0.001},
    {"one pane at 0 deg, closed form (1 - r)/(1 + r)", 0, 1, 0.0, 0.91688,
     1e-5},
    {"four clear panes at 0 deg, closed form (1 - r)/(1 + 7 r)", 0, 4, 0.0,
     0.73388, 1e-5},
    {"grazing", 90, 2, 0.037, 0.0, 1e-12},
};

static void glass_passes_what_is_printed(void **state)
{
    const struct glass_row *r = *state;

    assert_near(weather__glass_passes(cos(r->angle * RAD), r->panes, r->depth),
                r->want, r->within);
}

/* On the level the sky model must give global back, at any clearness. */
TEST(the_level_gets_global)
{
    struct dew_plane level = dew_weather_plane(0.0, 0.0, 0.2, 2);

    for (int hour = 8; hour <= 16; hour++)
        for (int i = 0; i < 9; i++) {
            struct dew_sun s = sun_at(5, 23, hour);
            struct dew_hour h = light(&s, 113.0 * i, 87.0 + 9.0 * i);
            struct dew_solar got = dew_weather_facade(&s, &h, &level);

            assert_near(got.on, h.global, 1e-9 * h.global);
            assert_true(got.glass < got.on && got.glass > 0.4 * got.on);
        }
}

/* Beam alone is cosine of incidence and nothing else. */
TEST(beam_alone_falls_by_the_cosine)
{
    struct dew_sun s = sun_at(2, 20, 10);
    struct dew_hour h = light(&s, 731.0, 0.0);
    struct dew_plane p = dew_weather_plane(60.0, 180.0, 0.0, 2);
    double z = RAD * (90.0 - s.elevation), a = RAD * (s.azimuth - 180.0);
    /* [DB13] eq. 1.6.3 */
    double facing =
        cos(z) * cos(60.0 * RAD) + sin(z) * sin(60.0 * RAD) * cos(a);

    assert_near(dew_weather_facade(&s, &h, &p).on, 731.0 * facing, 1e-9);
}

/* Under a sky without sun [PEREZ90] is all but even: (1 + cos tilt)/2. */
TEST(an_overcast_sky_is_nearly_even)
{
    struct dew_sun s = sun_at(11, 2, 12);
    struct dew_hour h = light(&s, 0.0, 121.0);
    struct dew_plane wall = dew_weather_plane(90.0, 180.0, 0.2, 2);
    double got = dew_weather_facade(&s, &h, &wall).on;

    assert_near(got, 121.0 * (0.5 + 0.1), 0.12 * 121.0);
}

/* [PEREZ90] by hand: clearness bin 7, wall to the south-west. */
TEST(a_clear_hour_by_hand)
{
    struct dew_sun s = sun_at(3, 14, 14);
    struct dew_hour h = light(&s, 873.0, 131.0);
    struct dew_plane p = dew_weather_plane(90.0, 225.0, 0.2, 2);
    double z = RAD * (90.0 - s.elevation);
    double clear =
        (1.0 + 873.0 / 131.0 + 1.041 * z * z * z) / (1.0 + 1.041 * z * z * z);
    double bright = 131.0 / (s.normal * cos(z)); /* plane air mass, near */
    double f1 = 1.060 - 1.600 * bright - 0.359 * z;
    double f2 = 0.264 - 1.127 * bright + 0.131 * z;
    double facing = sin(z) * cos(RAD * (s.azimuth - 225.0));
    double want = 873.0 * facing +
                  131.0 * (0.5 * (1.0 - f1) + f1 * facing / cos(z) + f2) +
                  0.1 * h.global;

    assert_true(clear > 4.5 && clear < 6.2);
    assert_near(dew_weather_facade(&s, &h, &p).on, want, 0.3);
}

TEST(a_wall_away_from_the_sun_gets_no_beam)
{
    struct dew_sun s = sun_at(12, 21, 12);
    struct dew_plane north = dew_weather_plane(90.0, 0.0, 0.2, 2);
    struct dew_hour h = light(&s, 640.0, 70.0);
    struct dew_solar got = dew_weather_facade(&s, &h, &north);

    assert_true(got.on > 0.0);
    assert_true(got.on < h.diffuse + 0.1 * h.global);
    assert_true(got.glass < got.on);
}

TEST(the_dark_gives_nothing_and_gaps_stay_gaps)
{
    struct dew_sun night = sun_at(1, 9, 2), noon = sun_at(1, 9, 12);
    struct dew_plane wall = dew_weather_plane(90.0, 137.0, 0.2, 2);
    struct dew_hour none = {0}, gap = light(&noon, NAN, 80.0);
    struct dew_solar got = dew_weather_facade(&night, &none, &wall);

    assert_true(got.on == 0.0 && got.glass == 0.0);
    gap.global = 300.0;
    got = dew_weather_facade(&noon, &gap, &wall);
    assert_nan(got.on);
    assert_nan(got.glass);
    gap = light(&night, 0.0, 0.0);
    gap.direct = NAN;
    assert_nan(dew_weather_facade(&night, &gap, &wall).on);
}

TEST(a_plane_out_of_range_is_nan)
{
    struct dew_sun noon = sun_at(1, 9, 12);
    struct dew_hour h = light(&noon, 500.0, 80.0);
    const struct dew_plane bad[] = {
        dew_weather_plane(181.0, 0.0, 0.2, 2),
        dew_weather_plane(90.0, -1.0, 0.2, 2),
        dew_weather_plane(90.0, 0.0, 1.01, 2),
        dew_weather_plane(90.0, 0.0, 0.2, 5),
    };

    for (size_t i = 0; i < COUNT_OF(bad); i++) {
        assert_nan(dew_weather_facade(&noon, &h, &bad[i]).on);
        assert_nan(dew_weather_facade(&noon, &h, &bad[i]).glass);
    }
}

ROWS(glass_rows, glass_passes_what_is_printed);
RUN_TESTS("weather, tilt");
