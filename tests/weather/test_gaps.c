/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a file lacks: from another year's same hour, or refused in words. */
#include "dew/air.h"
#include "dew/made.h"
#include "dew/sun.h"
#include "weather/files.h"

/* Two days of January with a gap of 20 h, RH lost for 8 h more, no wind, and
   global light alone. */
static void write_days(char *path, const char *site)
{
    char text[8000];
    size_t n = (size_t)snprintf(text, sizeof text,
                                "%stime,t (degC),rh (%%),ghi (W/m2)\n", site);

    for (int h = 1; h <= 48; h++) {
        double up = fmax(0.0, 340.0 - 17.0 * (h % 24 - 12) * (h % 24 - 12));

        if (h >= 10 && h < 30)
            continue;
        n += (size_t)snprintf(
            text + n, sizeof text - n, "2021-01-%02d %02d:00,%.1f,%s,%.0f\n",
            h <= 24 ? 4 : 5, h <= 24 ? h : h - 24, -3.1 - 0.1 * h,
            h >= 30 && h < 38 ? "NA" : "71", up);
    }
    write_file(path, text, n);
}

#define HERE                                                                   \
    "# latitude: 44.9\n# longitude: -93.2\n"                                   \
    "# utc offset: -6\n# elevation: 255\n"
static const char here[] = HERE;
#define SUNNY                                                                  \
    "time,t (degC),rh (%),wind (m/s),ghi (W/m2),dni (W/m2),dhi (W/m2)\n"       \
    "2021-01-04 12:00,1,71,2,300,400,90\n"

static struct dew_year *made(void)
{
    struct dew_climate place;
    struct dew_made how = {.seed = 1};
    struct dew_year *year;

    assert_int_equal(dew_climate_find("726580", &place, NULL), DEW_OK);
    assert_int_equal(dew_made_open(&place, &how, &year, NULL), DEW_OK);
    return year;
}

static void open_days(struct reading *r, const char *site)
{
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    char path[32];

    ask.keep_gaps = 1;
    write_days(path, site);
    read_file(r, path, &ask);
    unlink(path);
    assert_int_equal(r->status, DEW_OK);
    assert_int_equal(r->count, 48);
}

TEST(gaps_are_the_other_year_s_hours)
{
    struct dew_year *from = made();
    struct dew_year_filled filled;
    const struct dew_hour *other;
    struct reading r;
    size_t n;

    open_days(&r, here);
    assert_nan(r.hours[15].t);
    assert_int_equal(dew_year_complete(r.year, from, &filled, NULL), DEW_OK);
    assert_int_equal(dew_year_whole(r.year, NULL), DEW_OK);
    other = dew_year_hours(from, &n) + 3 * 24; /* 4 January, hour 1 */
    assert_near(r.hours[15].t, other[15].t, 0.0);
    assert_near(r.hours[15].w, fmin(other[15].w, r.hours[15].w), 0.0);
    assert_near(r.hours[15].global, other[15].global, 0.0);
    assert_near(r.hours[2].wind, other[2].wind, 0.0);
    assert_int_equal(filled.wind, 48);
    /* 20 h without a row; the line reaches no further than its limit of 3 h,
       and then 8 h with a temperature alone */
    assert_int_equal(filled.air, 28);
    assert_int_equal(filled.longest, 28);
    assert_int_equal(filled.sun, 20);
    dew_year_close(r.year);
    dew_year_close(from);
}

TEST(a_measured_temperature_stays)
{
    struct dew_year *from = made();
    struct dew_year_filled filled;
    const struct dew_hour *other;
    struct reading r;
    size_t n;

    open_days(&r, here);
    assert_near(r.hours[33].t, -3.1 - 3.4, 1e-12);
    assert_nan(r.hours[33].w);
    assert_int_equal(dew_year_complete(r.year, from, &filled, NULL), DEW_OK);
    other = dew_year_hours(from, &n) + 3 * 24 + 33;
    assert_near(r.hours[33].t, -3.1 - 3.4, 1e-12);
    assert_near(dew_air_rh_liquid(r.hours[33].t, r.hours[33].w, r.hours[33].p),
                dew_air_rh_liquid(other->t, other->w, other->p), 1e-6);
    dew_year_close(r.year);
    dew_year_close(from);
}

TEST(global_light_is_parted_as_published)
{
    struct dew_year *from = made();
    struct dew_year_filled filled;
    double direct, diffuse;
    struct dew_sun sun;
    struct reading r;

    open_days(&r, here);
    sun = dew_weather_sun(dew_year_site(r.year), &r.dates[10 - 3]);
    dew_weather_split(&sun, r.hours[7].global, &direct, &diffuse);
    assert_int_equal(dew_year_complete(r.year, from, &filled, NULL), DEW_OK);
    assert_near(r.hours[7].direct, direct, 0.0);
    assert_near(r.hours[7].diffuse, diffuse, 0.0);
    assert_true(filled.split >= 8 && filled.split <= 12);
    dew_year_close(r.year);
    dew_year_close(from);
}

TEST(what_was_filled_is_said)
{
    struct dew_year *from = made();
    struct dew_year_filled filled;
    struct reading r;
    char want[400];

    open_days(&r, here);
    assert_int_equal(dew_year_complete(r.year, from, &filled, NULL), DEW_OK);
    snprintf(want, sizeof want,
             "28 hours of temperature or humidity, 48 hours of wind, 20 hours "
             "of sunlight filled from the year %s; direct and diffuse light of "
             "%ld hours parted from global",
             dew_year_provenance(from), filled.split);
    assert_non_null(strstr(dew_year_provenance(r.year), want));
    dew_year_close(r.year);
    dew_year_close(from);
}

TEST(a_file_without_a_place_stands_where_it_is_filled_from)
{
    struct dew_year *from = made();
    struct dew_year_filled filled;
    struct reading r;

    open_days(&r, "");
    assert_nan(dew_year_site(r.year)->latitude);
    assert_int_equal(dew_year_complete(r.year, from, &filled, NULL), DEW_OK);
    assert_near(dew_year_site(r.year)->latitude, dew_year_site(from)->latitude,
                0.0);
    dew_year_close(r.year);
    dew_year_close(from);
}

/* Without another year: the whole message. */
static const struct refusal {
    const char *name, *text, *path, *message;
    int gaps;
} refusals[] = {
    {"no wind",
     HERE "time,t (degC),rh (%),ghi (W/m2)\n2021-01-04 05:00,1,71,0\n",
     "wind speed",
     "none in hour 1, which ends on 2021-01-04 at 05:00; name a place to fill "
     "it from, or mend the file",
     0},
    {"no light",
     HERE "time,t (degC),rh (%),wind (m/s)\n2021-01-04 05:00,1,71,2\n",
     "global solar",
     "none in hour 1, which ends on 2021-01-04 at 05:00; name a place to fill "
     "it from, or mend the file",
     0},
    {"light and no place",
     "time,t (degC),rh (%),wind (m/s),ghi (W/m2)\n2021-01-04 05:00,1,71,2,0\n",
     "site",
     "the file does not say latitude and longitude and the offset of standard "
     "time from UTC: the sun cannot be followed without",
     0},
    {"all three lights, the latitude alone", "# latitude: 45\n" SUNNY, "site",
     "the file does not say longitude and the offset of standard time from "
     "UTC: the sun cannot be followed without",
     0},
    {"all three lights, latitude and longitude",
     "# latitude: 45\n# longitude: 8\n" SUNNY, "site",
     "the file does not say the offset of standard time from UTC: the sun "
     "cannot be followed without",
     0},
    {"all three lights, latitude and offset",
     "# latitude: 45\n# utc offset: 1\n" SUNNY, "site",
     "the file does not say longitude: the sun cannot be followed without", 0},
    {"a long gap that was kept",
     HERE "time,t (degC),rh (%),wind (m/s)\n2021-01-04 05:00,1,71,2\n"
          "2021-01-04 15:00,1,71,2\n",
     "wind speed", NULL, 1},
};

static void what_is_missing_is_refused(void **state)
{
    const struct refusal *b = *state;
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct dew_year_filled filled;
    struct dew_error err = {0};
    struct reading r;

    ask.keep_gaps = b->gaps;
    read_text(&r, b->text, strlen(b->text), &ask);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(dew_year_complete(r.year, NULL, &filled, &err),
                     DEW_EMISSING);
    if (b->message != NULL) {
        assert_string_equal(err.path, b->path);
        assert_string_equal(err.text, b->message);
    }
    dew_year_close(r.year);
}

TEST(two_of_three_lights_give_the_third)
{
    static const char text[] =
        "# latitude: 44.9\n# longitude: -93.2\n# utc offset: -6\n"
        "time,t (degC),rh (%),wind (m/s),ghi (W/m2),dni (W/m2)\n"
        "2021-06-04 11:00,21,71,2,700,600\n2021-06-04 12:00,21,71,2,720,610\n";
    struct dew_year_filled filled;
    struct dew_sun sun;
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(dew_year_complete(r.year, NULL, &filled, NULL), DEW_OK);
    sun = dew_weather_sun(dew_year_site(r.year), &r.dates[1]);
    assert_near(r.hours[1].diffuse + 610.0 * sun.horizontal / sun.normal, 720.0,
                1e-9);
    assert_int_equal(filled.split, 2);
    dew_year_close(r.year);
}

TEST(the_leap_day_is_like_the_day_before)
{
    static const char text[] =
        "# latitude: 44.9\n# longitude: -93.2\n# utc offset: -6\n"
        "time,t (degC),rh (%)\n2020-02-29 11:00,1,71\n2020-02-29 12:00,1,71\n";
    struct dew_year *from = made();
    struct dew_year_filled filled;
    struct reading r;
    size_t n;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(dew_year_complete(r.year, from, &filled, NULL), DEW_OK);
    assert_near(r.hours[0].wind,
                dew_year_hours(from, &n)[(31 + 27) * 24 + 10].wind, 0.0);
    dew_year_close(r.year);
    dew_year_close(from);
}

ROWS(refusals, what_is_missing_is_refused);
RUN_TESTS("weather, filling");
