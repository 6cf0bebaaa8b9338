/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sky's temperature: formulas, columns of files, the day's light. */
#include "weather/files.h"

#include "dew/air.h"
#include "dew/made.h"
#include "dew/sun.h"

/* ---- formulas ------------------------------------------------------------------ */

/* Depressions worked by hand from the published emissivity [BM84] and 0.8 of
   cloud; 20 over 5 and 0 over -5 to the whole degree. */
static const struct below_row {
    const char *name;
    double t, dew, cloud, want, tolerance;
} below[] = {
    {"27 degC over 23, clear, 9.6 K [BM84]", 27, 23, 0.0, 9.6, 0.05},
    {"27 degC over 23, half cloud, 5.6 K [BM84]", 27, 23, 0.5, 5.6, 0.05},
    {"27 degC over 23, overcast, 1.8 K [BM84]", 27, 23, 1.0, 1.8, 0.05},
    {"20 degC over 5, clear, 21 K [BM84]", 20, 5, 0.0, 21, 0.5},
    {"0 degC over -5, clear, 25 K [BM84]", 0, -5, 0.0, 25, 0.5},
};

static void sky_lies_below_the_air(void **state)
{
    const struct below_row *row = *state;
    double e = dew_weather_sky_emissivity(row->dew, row->cloud);

    assert_near(dew_weather_sky_below(row->t, e), row->want, row->tolerance);
}

/* [KC80]: at 60 deg a clear sky sends 758 W/m2; under n eighths of cloud
   1 - 0.75 (n/8)^3.4 of it. */
static const struct cloud_row {
    const char *name;
    double eighths, share;
} clouds[] = {
    {"2 eighths leave 99.3 % [KC80]", 2, 0.9933},
    {"4 eighths leave 92.9 % [KC80]", 4, 0.9290},
    {"6 eighths leave 71.8 % [KC80]", 6, 0.7180},
    {"8 eighths leave 25.0 % [KC80]", 8, 0.2500},
};

static void light_tells_the_cloud(void **state)
{
    const struct cloud_row *row = *state;

    assert_near(dew_weather_clear_sky(sin(60.0 * 3.14159265358979 / 180.0)),
                758.08, 0.01);
    assert_near(dew_weather_cloud(row->share * 758.08, 758.08),
                row->eighths / 8.0, 2e-3);
}

TEST(cloud_stays_a_share)
{
    assert_near(dew_weather_cloud(1.17, 1.0), 0.0, 0.0);
    assert_near(dew_weather_cloud(0.11, 1.0), 1.0, 0.0);
    assert_near(dew_weather_clear_sky(0.0317), 0.0, 0.0);
}

static const struct zone_row {
    const char *name;
    double latitude, want;
} zones[] = {
    {"subpolar, 9 K [ISO13790]", 64.8, 9.0},
    {"between, 11 K [ISO13790]", 41.7, 11.0},
    {"between in the south, 11 K [ISO13790]", -33.9, 11.0},
    {"tropics, 13 K [ISO13790]", -21.3, 13.0},
    {"place unknown, 11 K", (double)NAN, 11.0},
};

static void standard_has_three_zones(void **state)
{
    const struct zone_row *row = *state;

    assert_near(dew_weather_sky_standard(row->latitude), row->want, 0.0);
}

/* Black body at 11.3 degC by the constant of CODATA: 371.22 W/m2. */
TEST(infrared_is_a_black_sky)
{
    assert_near(dew_weather_sky_infrared(17.9, 371.22), 6.6, 0.002);
    assert_near(dew_weather_infrared(17.9, 6.6), 371.22, 0.01);
}

/* ---- columns -------------------------------------------------------------------- */

/* Two hours; 27.3 degC over 20.9, as written in each unit. */
static const struct column_row {
    const char *name, *header, *cell;
    enum dew_sky_by by;
    double cloud; /* NaN: by infrared of 412 W/m2                           */
} columns[] = {
    {"opaque cloud in tenths", "OpqCld (tenths)", "3", DEW_SKY_CLOUD, 0.3},
    {"cloud in oktas", "cloud cover (oktas)", "6", DEW_SKY_CLOUD, 0.75},
    {"cloud in eighths", "Total Cloud Cover [eighths]", "2", DEW_SKY_CLOUD,
     0.25},
    {"cloud in %", "sky cover (%)", "85", DEW_SKY_CLOUD, 0.85},
    {"infrared in W/m2", "Horizontal Infrared (W/m^2)", "412", DEW_SKY_INFRARED,
     (double)NAN},
    {"cloud without a unit is left", "cloud cover", "3", DEW_SKY_STANDARD, 0.0},
    {"cloud beyond the sky is left", "OpqCld (tenths)", "99", DEW_SKY_STANDARD,
     0.0},
};

static void column_sets_the_sky(void **state)
{
    const struct column_row *row = *state;
    struct reading r;
    char text[400], path[32];
    double want = 11.0;
    int n = snprintf(text, sizeof text,
                     "time,temperature (degC),dew point (degC),station "
                     "pressure (hPa),%s\n2021-05-03 01:00,27.3,20.9,979,%s\n"
                     "2021-05-03 02:00,27.3,20.9,979,%s\n",
                     row->header, row->cell, row->cell);

    write_file(path, text, (size_t)n);
    read_file(&r, path, NULL);
    unlink(path);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(dew_year_sky(r.year), row->by);
    if (row->by == DEW_SKY_CLOUD)
        want = dew_weather_sky_below(
            27.3, dew_weather_sky_emissivity(20.9, row->cloud));
    if (row->by == DEW_SKY_INFRARED)
        want = dew_weather_sky_infrared(27.3, 412.0);
    assert_near(r.hours[1].sky, want, 1e-4);
    dew_year_close(r.year);
}

/* ---- a year ----------------------------------------------------------------------- */

static struct dew_year *made(const char *id)
{
    const struct dew_made how = {.seed = DEW_MADE_SEED};
    struct dew_climate place;
    struct dew_year *year;

    assert_int_equal(dew_climate_find(id, &place, NULL), DEW_OK);
    assert_int_equal(dew_made_open(&place, &how, &year, NULL), DEW_OK);
    return year;
}

/* A day's cloud is one figure, through the night; by hand for one day. */
TEST(made_year_has_the_cloud_of_its_light)
{
    struct dew_year *year = made("722020");
    size_t count;
    const struct dew_hour *h = dew_year_hours(year, &count);
    const struct dew_date *date = dew_year_dates(year, &count);
    double global = 0.0, clear = 0.0;

    assert_int_equal(dew_year_sky(year), DEW_SKY_LIGHT);
    for (int i = 24 * 171; i < 24 * 172; i++) {
        struct dew_sun sun = dew_weather_sun(dew_year_site(year), &date[i]);

        global += h[i].global;
        clear += sun.up * fmax(0.0, 910.0 * sun.toward[2] - 30.0);
    }
    for (int i = 24 * 171; i < 24 * 172; i += 5) {
        double e = dew_weather_sky_emissivity(dew_air_dew(h[i].w, h[i].p),
                                              dew_weather_cloud(global, clear));

        assert_near(h[i].sky, dew_weather_sky_below(h[i].t, e), 1e-9);
    }
    dew_year_close(year);
}

/* What a file knows comes back from our own form; what light told is told by
   light again. */
TEST(the_sky_comes_back)
{
    const char *text = "time,temperature (degC),dew point (degC),station "
                       "pressure (hPa),wind (m/s),ghi (W/m2),dni (W/m2),dhi "
                       "(W/m2),sky infrared (W/m2)\n"
                       "2021-05-03 01:00,27.3,20.9,979,3.1,0,0,0,412.7\n"
                       "2021-05-03 02:00,26.1,20.3,979,2.7,0,0,0,371.3\n";
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r, again;
    char path[32], copy[40];

    ask.utc_offset = -5.0;
    ask.elevation = 120.0;
    write_file(path, text, strlen(text));
    read_file(&r, path, &ask);
    unlink(path);
    assert_int_equal(r.status, DEW_OK);
    snprintf(copy, sizeof copy, "%s.csv", path);
    assert_int_equal(dew_weather_write(r.year, copy, NULL), DEW_OK);
    read_file(&again, copy, NULL);
    unlink(copy);
    assert_int_equal(again.status, DEW_OK);
    assert_int_equal(dew_year_sky(again.year), DEW_SKY_INFRARED);
    for (int i = 0; i < 2; i++)
        assert_near(again.hours[i].sky, r.hours[i].sky, 1e-6);
    assert_near(r.hours[1].sky, dew_weather_sky_infrared(26.1, 371.3), 1e-9);
    dew_year_close(r.year);
    dew_year_close(again.year);
}

/* ---- against what six files know -------------------------------------------------- */

/* Yearly means, K, by the file's opaque cloud and by its light: regressions,
   ours; light is held to 1.5 K of cloud. */
static const struct real_row {
    const char *name, *file;
    double cloud, light;
} real[] = {
    {"Miami", "722020TYA.CSV", 7.7, 7.5},
    {"Greensboro", "723170TYA.CSV", 11.3, 11.3},
    {"Minneapolis", "726580TYA.CSV", 12.1, 12.8},
    {"Seattle", "727930TYA.CSV", 9.6, 9.6},
    {"Phoenix", "722780TYA.CSV", 17.5, 18.9},
    {"Sand Point", "703165TY.csv", 9.7, 8.9},
};

static double mean_sky(const struct reading *r)
{
    double sum = 0.0;

    for (size_t h = 0; h < r->count; h++)
        sum += r->hours[h].sky / (double)r->count;
    return sum;
}

static void light_agrees_with_cloud(void **state)
{
    const struct real_row *row = *state;
    const struct dew_column_said none = {"OpqCld (tenths)", "nothing", NULL};
    const char *data = getenv("DEW_DATA");
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading cloud, light;
    char path[300];

    snprintf(path, sizeof path, "%s/weather/tmy3/%s",
             data != NULL ? data : "../shared/data", row->file);
    if (access(path, R_OK) != 0)
        skip();
    read_file(&cloud, path, NULL);
    ask.said = &none;
    ask.said_count = 1;
    read_file(&light, path, &ask);
    assert_int_equal(dew_year_sky(cloud.year), DEW_SKY_CLOUD);
    assert_int_equal(dew_year_sky(light.year), DEW_SKY_LIGHT);
    assert_near(mean_sky(&cloud), row->cloud, 0.1);
    assert_near(mean_sky(&light), row->light, 0.1);
    assert_near(mean_sky(&light), mean_sky(&cloud), 1.5);
    dew_year_close(cloud.year);
    dew_year_close(light.year);
}

ROWS(below, sky_lies_below_the_air);
ROWS(clouds, light_tells_the_cloud);
ROWS(zones, standard_has_three_zones);
ROWS(columns, column_sets_the_sky);
ROWS(real, light_agrees_with_cloud);
RUN_TESTS("weather, sky");
