/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * More of what files really hold, each in a made-up sample: fixed width,
 * every unit, marks for "no value", two clocks in a row, special reports.
 */
#include "weather/files.h"

#include "dew/air.h"

/* ---- every unit of every column --------------------------------------------------- */

/* Factors by hand: 1 inHg 3386.389 Pa, 1 mmHg 133.3224 Pa, 1 mph 0.44704 m/s,
   1 knot 0.514444 m/s, 1 ft/min 0.00508 m/s [SP811]. */
static const struct unit_row {
    const char *name, *header, *cell;
    char lane; /* t, d: dew point, w, p, v: wind, g: global */
    double want, tolerance;
} units[] = {
    {"degF in marks",
     "Air Temperature (\xC2\xB0"
     "F)",
     "45.5", 't', 7.5, 1e-9},
    {"K", "temperature [K]", "280.65", 't', 7.5, 1e-9},
    {"a word of a unit", "Temperature_Fahrenheit", "45.5", 't', 7.5, 1e-9},
    {"dew point in degF", "Dew Point (F)", "41", 'd', 5.0, 1e-6},
    {"humidity ratio in g/kg", "humidity ratio (g/kg)", "4.1", 'w', 0.0041,
     1e-9},
    {"humidity ratio in grains", "humidity ratio (gr/lb)", "28.7", 'w', 0.0041,
     1e-9},
    {"humidity ratio in kg/kg", "mixing ratio (kg/kg)", "0.0041", 'w', 0.0041,
     1e-9},
    {"Pa", "station pressure (Pa)", "97900", 'p', 97900.0, 1e-6},
    {"hPa", "station pressure (hPa)", "979.0", 'p', 97900.0, 1e-6},
    {"kPa", "stn press (kPa)", "97.9", 'p', 97900.0, 1e-6},
    {"mbar", "station pressure mbar", "979", 'p', 97900.0, 1e-6},
    {"inHg", "station pressure (inHg)", "28.91", 'p', 97900.5, 0.1},
    {"mm Hg", "Press_mm_hg", "734.3", 'p', 97898.6, 0.1},
    {"m/s", "wind speed (m/s)", "5.0", 'v', 5.0, 1e-12},
    {"km/h", "wind spd km/h", "18", 'v', 5.0, 1e-12},
    {"mph", "wind speed (mph)", "10", 'v', 4.4704, 1e-9},
    {"knots", "wind speed (knots)", "10", 'v', 5.14444, 1e-5},
    {"ft/min", "wind speed (ft/min)", "1000", 'v', 5.08, 1e-9},
    {"Wh over an hour", "global horizontal (Wh/m^2)", "412", 'g', 412.0, 1e-9},
    {"W in marks", "Solar Radiation (W/m\xC2\xB2)", "412", 'g', 412.0, 1e-9},
};

static double lane_of(const struct dew_hour *h, char lane)
{
    switch (lane) {
    case 't':
        return h->t;
    case 'd':
        return dew_air_dew_liquid(h->w, h->p);
    case 'w':
        return h->w;
    case 'p':
        return h->p;
    case 'v':
        return h->wind;
    default:
        return h->global;
    }
}

static void unit_is_read(void **state)
{
    const struct unit_row *u = *state;
    const char *rest = u->lane == 't' ? "rh (%)" : "t (degC),rh (%)";
    const char *cells = u->lane == 't' ? "71" : "17.3,71";
    char text[400], line[400];
    struct reading r;

    snprintf(text, sizeof text, "time,%s,%s\n2020-03-04 12:00,%s,%s\n",
             u->header, rest, u->cell, cells);
    read_text(&r, text, strlen(text), NULL);
    if (r.status != DEW_OK)
        fail_msg("%s", fault_text(&r, 0, line, sizeof line));
    assert_near(lane_of(&r.hours[0], u->lane), u->want, u->tolerance);
    dew_year_close(r.year);
}

/* ---- marks for "no value" ---------------------------------------------------------- */

static const struct mark_row {
    const char *name, *cell;
    enum dew_notice_code counted;
} marks[] = {
    {"T, a trace", "T", DEW_NOTICE_MISSING},
    {"VRB, a variable wind", "VRB", DEW_NOTICE_MISSING},
    {"NA", "NA", DEW_NOTICE_MISSING},
    {"two dashes", "--", DEW_NOTICE_MISSING},
    {"unavailable", "unavailable", DEW_NOTICE_MISSING},
    {"-9900", "-9900", DEW_NOTICE_MISSING},
    {"9999", "9999", DEW_NOTICE_MISSING},
    {"-9999.0", "-9999.0", DEW_NOTICE_MISSING},
    {"a suspect mark", "7.6s", DEW_NOTICE_FLAGGED},
    {"a star", "7.6*", DEW_NOTICE_FLAGGED},
    {"words", "broken sensor", DEW_NOTICE_NOT_NUMBER},
    {"beyond the earth", "88", DEW_NOTICE_RANGE},
};

static void mark_is_no_value(void **state)
{
    const struct mark_row *m = *state;
    char text[400];
    struct reading r;

    snprintf(text, sizeof text,
             "time,t (degC),td (degC)\n2020-03-04 05:00,7,1\n"
             "2020-03-04 06:00,%s,1\n2020-03-04 07:00,9,1\n",
             m->cell);
    read_text(&r, text, strlen(text), NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_near(r.hours[1].t, 8.0, 1e-12); /* the line over the gap */
    assert_int_equal(r.report.notices[m->counted].count, 1);
    assert_int_equal(r.report.notices[m->counted].line, 3);
    dew_year_close(r.year);
}

TEST(a_marked_wind_leaves_the_row)
{
    static const char text[] =
        "time,t (degC),td (degC),wind speed (kt),precip (in)\n"
        "2020-03-04 05:00,7,1,10,0.06s\n2020-03-04 06:00,8,1,VRB,T\n"
        "2020-03-04 07:00,9,1,12,0.00\n";
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 3);
    assert_near(r.hours[1].wind, 11.0 * 1852.0 / 3600.0, 1e-9);
    dew_year_close(r.year);
}

/* ---- fixed width ----------------------------------------------------------------------- */

TEST(fixed_width_is_read)
{
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;
    char line[400];

    ask.utc_offset = -6.0;
    read_file(&r, "tests/weather/samples/fixed_width.txt", &ask);
    if (r.status != DEW_OK)
        fail_msg("%s", fault_text(&r, 0, line, sizeof line));
    /* 12:00 to 14:00 UTC is 06:00 to 08:00 there; the suspect 99.9 is out */
    assert_int_equal(r.count, 3);
    assert_int_equal(r.dates[0].hour, 6);
    assert_int_equal(r.dates[0].day, 4);
    assert_near(r.hours[0].t, 7.3, 1e-12);
    assert_near(r.hours[1].t, 9.3, 1e-12);
    assert_near(r.hours[2].t, 11.3, 1e-12);
    assert_near(dew_air_dew_liquid(r.hours[2].w, r.hours[2].p), 1.9, 1e-6);
    assert_near(r.hours[0].p, 97900.0, 1e-6);
    assert_near(r.hours[0].wind, 3.1, 1e-12);
    assert_near(dew_year_site(r.year)->latitude, 41.23, 1e-9);
    assert_near(dew_year_site(r.year)->longitude, -93.25, 1e-9);
    assert_near(dew_year_site(r.year)->elevation, 300.0, 1e-9);
    assert_int_equal(r.report.notices[DEW_NOTICE_SUMMARY].count, 1);
    assert_int_equal(r.report.notices[DEW_NOTICE_FLAGGED].count, 1);
    dew_year_close(r.year);
}

/* ---- clocks and reports ------------------------------------------------------------------ */

TEST(a_local_clock_beside_utc_gives_the_offset)
{
    static const char text[] =
        "origin,year,month,day,hour,temp (F),dewp (F),time_hour\n"
        "XYZ,2013,1,1,0,41,32,2013-01-01T05:00:00Z\n"
        "XYZ,2013,1,1,1,43,32,2013-01-01T06:00:00Z\n"
        "XYZ,2013,7,1,2,70,60,2013-07-01T06:00:00Z\n";
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;

    ask.keep_gaps = 1;
    read_text(&r, text, sizeof text - 1, &ask);
    assert_int_equal(r.status, DEW_OK);
    assert_near(dew_year_site(r.year)->utc_offset, -5.0, 0.0);
    /* 06:00 UTC in July is 01:00 in standard time, not the 02:00 written */
    assert_int_equal(r.dates[r.count - 1].month, 7);
    assert_int_equal(r.dates[r.count - 1].hour, 1);
    dew_year_close(r.year);
}

TEST(synoptic_reports_leave_the_hourly_ones)
{
    static const char text[] =
        "DATE,REPORT_TYPE,temp (C),dewp (C)\n"
        "2020-03-04T05:51:00,FM-15,7.3,1.1\n2020-03-04T06:00:00,FM-12,6.0,1.1\n"
        "2020-03-04T06:51:00,FM-15,8.3,1.1\n2020-03-04T07:51:00,FM-15,9.3,1.1\n";
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.notices[DEW_NOTICE_SYNOPTIC].count, 1);
    assert_near(r.hours[0].t, 7.3 + 9.0 / 60.0, 1e-9);
    dew_year_close(r.year);
}

TEST(a_leap_year_keeps_its_day)
{
    char text[80000] = "time,t (degC),td (degC)\n";
    size_t n = strlen(text);
    struct reading r;

    for (int d = 27; d <= 29; d++)
        for (int h = 1; h <= 24; h++)
            n += (size_t)snprintf(text + n, sizeof text - n,
                                  "2024-02-%d %02d:00,%d.3,1\n", d, h, d);
    snprintf(text + n, sizeof text - n, "2024-03-01 01:00,30.3,1\n");
    read_text(&r, text, strlen(text), NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 73);
    assert_int_equal(r.dates[71].day, 29);
    assert_int_equal(r.dates[71].yearday, 60);
    assert_int_equal(r.dates[72].yearday, 61);
    dew_year_close(r.year);
}

TEST(a_line_has_an_end)
{
    enum { LONG = 150000 };
    char *text = malloc(LONG + 200), line[400];
    struct reading r;
    size_t n = (size_t)snprintf(
        text, 200, "time,t (degC),td (degC)\n2020-03-04 05:00,7.3,1\n");

    for (int commas = 0; commas < 2; commas++) {
        memset(text + n, commas ? ',' : 'x', LONG);
        snprintf(text + n + LONG, 100, "\n2020-03-04 06:00,8.3,1\n");
        read_text(&r, text, n + LONG + 25, NULL);
        assert_int_equal(r.status, DEW_ESYNTAX);
        assert_string_equal(
            fault_text(&r, 0, line, sizeof line),
            "3:1: : a line longer than 65536 bytes: not a table of text");
    }
    free(text);
}

/* A gzipped file of nothing but lines would take the machine's memory. */
TEST(lines_are_limited)
{
    static const size_t most = 3000000;
    char *text = malloc(most + 1), line[900];
    struct reading r;

    assert_non_null(text);
    for (size_t i = 0; i < 4;
         i++) { /* one at the limit, one above; both ends */
        memset(text, i < 2 ? '\n' : '\r', most + 1);
        read_text(&r, text, most + i % 2, NULL);
        fault_text(&r, 0, line, sizeof line);
        if (i % 2) {
            assert_int_equal(r.status, DEW_ERANGE);
            assert_string_equal(line,
                                "0:0: : more than 3,000,000 lines: keep the "
                                "years, or the minutes, that are needed");
        } else {
            assert_int_not_equal(r.status, DEW_ERANGE);
        }
    }
    free(text);
}

TEST(lines_may_end_in_returns_alone)
{
    static const char text[] =
        "time,t (degC),td (degC)\r2020-03-04 05:00,7.3,1\r"
        "2020-03-04 06:00,8.3,1\r";
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 2);
    dew_year_close(r.year);
}

ROWS(units, unit_is_read);
ROWS(marks, mark_is_no_value);
RUN_TESTS("weather, samples");
