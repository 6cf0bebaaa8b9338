/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Logs of indoor temperature and humidity, each family of files in a small
 * made-up sample under samples/: what its hours are, worked out by hand, or the
 * whole message that refuses it.
 */
#include <zlib.h>

#include "weather/logs.h"

/* ---- answers ----------------------------------------------------------------- */

static const struct dew_column_said second_rh[] = {
    {"column 2", "relative humidity", "%"}};
static const struct dew_column_said porch[] = {
    {"sensor.porch", "temperature", "degC"}};

static void bedroom(struct dew_log_ask *a)
{
    a->sensor = "bedroom";
}
static void bedroom_here(struct dew_log_ask *a)
{
    a->sensor = "bedroom";
    a->utc_offset = 2.0;
}
static void attic(struct dew_log_ask *a)
{
    a->sensor = "attic";
}
static void current(struct dew_log_ask *a)
{
    a->sensor = "current";
}
static void all(struct dew_log_ask *a)
{
    a->sensor = "all";
}
static void two_named(struct dew_log_ask *a)
{
    a->sensor = "t1, 2";
}
static void in_degc(struct dew_log_ask *a)
{
    a->sensor = "2";
    a->degrees = "degC";
}
static void in_nothing(struct dew_log_ask *a)
{
    a->degrees = "furlong";
}
static void said_rh(struct dew_log_ask *a)
{
    a->said = second_rh;
    a->said_count = 1;
}
static void said_porch(struct dew_log_ask *a)
{
    a->said = porch;
    a->said_count = 1;
}
static void held(struct dew_log_ask *a)
{
    a->method = DEW_LOG_HOLD;
}
static void held_two_hours(struct dew_log_ask *a)
{
    a->method = DEW_LOG_HOLD;
    a->hold_limit = 2.0;
}
static void no_bridge(struct dew_log_ask *a)
{
    a->gap_limit = 0.0;
}
static void us_clock(struct dew_log_ask *a)
{
    a->clock = DEW_CLOCK_US;
}

/* ---- files that are read -------------------------------------------------------- */

/*
 * Hour at of the sample and its figures; by hand from the rows around it:
 * means are trapezoids of the line between rows, or levels held.  NaN: none.
 */
static const struct good {
    const char *name, *file; /* in samples/                                  */
    answer say;
    size_t hours, at;
    int month, day, hour;
    double t, rh, co2, tolerance;
} goods[] = {
    /* rows 70.7 71.6 72.5 of 15 min from 9:22, then 8 of 15 min towards the
       row at 10:07, which is 72.5 too: (71.15 + 72.05) 15 + 72.5 8 over 38 */
    {"one app: BOM, a doubled word, degF in the header", "log_app_interval.csv",
     NULL, 2, 0, 8, 6, 10,
     (72.5 * 8 + (71.15 + 72.05) * 15) / 38 / 1.8 - 160.0 / 9,
     (53.9 * 15 + 54.0 * 15 + 53.74 * 8) / 3800, NAN, 1e-6},
    /* rises 0.013 K a row of 97 s on average: the mean of a full hour is the
       reading at its middle, 30 min = row 20 */
    {"another app: quoted cells, one-character degree, jitter",
     "log_app_quoted.csv", NULL, 2, 0, 1, 14, 8, 19.9600, 0.46880, 632.0, 0.02},
    /* hourly rows on the half hour: half way between two at the hour's end */
    {"a stick: Latin-1, the device's name at the head of row numbers",
     "log_stick.txt", NULL, 7, 0, 2, 3, 5, 12.75, 0.705, NAN, 1e-9},
    {"a research logger: title, offset in the header, 12-hour clock, events",
     "log_research.csv", NULL, 3, 1, 7, 29, 12, 26.0, 0.571, NAN, 1e-9},
    {"a history: held from change to change", "log_history.csv", bedroom, 12, 3,
     4, 24, 4, 20.0, 0.52, NAN, 1e-9},
    {"a history, humidity changing within the hour", "log_history.csv", bedroom,
     12, 2, 4, 24, 3, 19.5, (48.0 * 50 + 52.0 * 10) / 6000, NAN, 1e-9},
    {"a history: a short outage is bridged", "log_history.csv", bedroom, 12, 4,
     4, 24, 5, 20.5, 0.52, NAN, 1e-9},
    {"a history: a long outage is not", "log_history.csv", bedroom, 12, 9, 4,
     24, 10, 21.5, NAN, NAN, 1e-9},
    {"a history: UTC moved to local standard time", "log_history.csv",
     bedroom_here, 12, 3, 4, 24, 6, 20.0, 0.52, NAN, 1e-9},
    /* 0.05 K a row: the middle of hour 2 is at row 18, 22.9 degC */
    {"a thermostat: date and time apart, mixed units, blanks",
     "log_thermostat.csv", current, 2, 1, 6, 19, 2, 22.9, 0.47, NAN, 1e-9},
    {"a weather station's indoor side: decimal comma, -- and junk",
     "log_station.csv", NULL, 6, 3, 2, 29, 2, 21.0, 0.424, NAN, 1e-9},
};

static void sample_is_read(void **state)
{
    const struct good *g = *state;
    char path[96], line[400];
    const struct dew_log_hour *h;
    struct logged r;

    snprintf(path, sizeof path, "tests/weather/samples/%s", g->file);
    read_log(&r, path, g->say);
    if (r.status != DEW_OK)
        fail_msg("%s", message(&r, line, sizeof line));
    assert_int_equal(r.count, g->hours);
    h = &r.hours[g->at];
    assert_int_equal(r.dates[g->at].month, g->month);
    assert_int_equal(r.dates[g->at].day, g->day);
    assert_int_equal(r.dates[g->at].hour, g->hour);
    assert_near(h->t, g->t, g->tolerance);
    if (isnan(g->rh))
        assert_nan(h->rh);
    else
        assert_near(h->rh, g->rh, g->tolerance / 10.0);
    if (isnan(g->co2))
        assert_nan(h->co2);
    else
        assert_near(h->co2, g->co2, 1.5);
    assert_ptr_equal(dew_log_at(r.log, &r.dates[g->at]), h);
    dew_log_close(r.log);
}

/* ---- files that are refused --------------------------------------------------------- */

static const char rooms[] = "time,T1,RH_1,T2,RH_2,T_out (C)\n"
                            "2020-03-04 05:00,20.5,41,17.3,52,3\n"
                            "2020-03-04 06:00,20.7,42,17.5,53,3\n";

static const struct bad {
    const char *name, *text;
    answer say;
    enum dew_status status;
    const char *fault;
} bads[] = {
    {"two sensors and none asked for", rooms, NULL, DEW_EAMBIGUOUS,
     "1:1: sensor: several sensors (1, 2): say which, or all"},
    {"a sensor that is not there", rooms, attic, DEW_EUNKNOWN,
     "1:1: sensor: no sensor \"attic\"; the file has 1, 2"},
    {"no unit", rooms, two_named, DEW_EUNIT,
     "1:2: T1: its unit is not said; say one of degF, degC, K"},
    {"a unit for all that is none", rooms, in_nothing, DEW_EUNIT,
     "0:0: degrees: \"furlong\" is no unit of temperature; degC, degF or K "
     "would be"},
    {"degF read as degC is outside the range",
     "time,temp (C)\n2020-03-04 05:00,70.1\n2020-03-04 06:00,71.3\n", NULL,
     DEW_EUNIT,
     "1:2: temp (C): 2 of 2 values are outside -70 .. 60 degC: is the unit degF?"},
    {"beside a good humidity",
     "time,temp (C),rh\n2020-03-04 05:00,70.1,41\n2020-03-04 06:00,70,42\n",
     NULL, DEW_EUNIT,
     "1:2: temp (C): 2 of 2 values are outside -70 .. 60 degC: is the unit "
     "degF?"},
    {"every day up to 12", "time,temp (C),rh\n3/4/2020 05:00,20.1,41\n", NULL,
     DEW_EAMBIGUOUS,
     "2:1: time: \"3/4/2020 05:00\" can be read in two ways and no row tells: "
     "say whether the month or the day comes first"},
    {"the doubled hour of autumn and no clock said",
     "time,temp (C)\n2020-11-01 00:30,20.5\n2020-11-01 01:30,20.6\n"
     "2020-11-01 01:30,20.7\n2020-11-01 02:30,20.8\n",
     NULL, DEW_EAMBIGUOUS,
     "4:1: time: an hour is doubled or left out where summer time of the "
     "United States changes: say whether the clock is standard time all year "
     "or follows that rule"},
    {"outdoor columns only", "time,outdoor temp (C)\n2020-03-04 05:00,3\n",
     NULL, DEW_EMISSING,
     "1:1: sensor: no column of an indoor temperature or humidity; one named "
     "\"temperature (degC)\" would do"},
    {"no header and nothing said", "1489017527\t47\n1489018733\t48\n", NULL,
     DEW_EMISSING,
     "1:1: header: no header: say what \"column 2\" and the others are, or put "
     "one such as \"time,temperature (degC),relative humidity (%)\" on top"},
    {"a history of doors",
     "entity_id,state,last_changed\ndoor,on,2026-04-24T10:00:00Z\n", NULL,
     DEW_EMISSING,
     "1:1: sensor: no sensor's id of an indoor temperature or humidity; one "
     "named \"temperature (degC)\" would do"},
    {"a history without a unit",
     "entity_id,state,last_changed\n"
     "sensor.hall_temperature,20.5,2026-04-24T10:00:00Z\n"
     "sensor.hall_temperature,20.7,2026-04-24T12:00:00Z\n",
     NULL, DEW_EUNIT,
     "1:2: sensor.hall_temperature: its unit is not said; say one of degF, "
     "degC, K"},
    {"one row covers nothing", "time,temp (C)\n2020-03-04 05:10,20.1\n", NULL,
     DEW_EMISSING, "0:0: rows: the rows cover not half an hour"},
};

static void sample_is_refused(void **state)
{
    const struct bad *b = *state;
    struct logged r;
    char line[400];

    read_log_text(&r, b->text, b->say);
    assert_int_equal(r.status, b->status);
    assert_string_equal(message(&r, line, sizeof line), b->fault);
}

/* ---- the rest -------------------------------------------------------------------------- */

TEST(all_sensors_are_a_mean)
{
    static const char text[] = "time,t_hall_c,rh_hall_pct,t_den_c\n"
                               "2020-03-04 05:00,20.5,41,17.3\n"
                               "2020-03-04 06:00,20.7,42,NA\n";
    struct logged r;

    read_log_text(&r, text, all);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.taken_count, 2);
    assert_string_equal(r.report.sensors, "hall, den");
    assert_near(r.hours[0].t, 18.9, 1e-12);
    assert_near(r.hours[1].t, 20.7, 1e-12);
    assert_near(r.hours[1].rh, 0.42, 1e-12);
    assert_int_equal(r.report.file.rows, 2);
    dew_log_close(r.log);
}

/* Those that fit, whole: "A", "B". */
TEST(columns_that_are_not_understood_are_told)
{
    char text[400], long_one[151] = "", line[400];
    struct logged r;

    memset(long_one, 'x', 150);
    snprintf(text, sizeof text,
             "time,temp (C),Fukt,%s,Tryck\n2020-03-04 05:00,20.5,1,2,3\n",
             long_one);
    read_log_text(&r, text, NULL);
    if (r.status != DEW_OK)
        fail_msg("%s", message(&r, line, sizeof line));
    assert_string_equal(r.report.file.unread, "\"Fukt\", \"Tryck\"");
    dew_log_close(r.log);
}

TEST(a_unit_may_be_said_for_all)
{
    struct logged r;

    read_log_text(&r, rooms, in_degc);
    assert_int_equal(r.status, DEW_OK);
    assert_near(r.hours[1].t, 17.5, 1e-12);
    assert_near(r.hours[1].rh, 0.53, 1e-12);
    assert_int_equal(r.report.columns_left, 3);
    dew_log_close(r.log);
}

TEST(the_units_of_all_sensors_are_asked_for_at_once)
{
    struct logged r;

    read_log_text(&r, rooms, all);
    assert_int_equal(r.status, DEW_EUNIT);
    assert_int_equal(r.faults.count, 2);
    assert_int_equal(r.faults.list[0].column, 2);
    assert_int_equal(r.faults.list[1].column, 4);
    assert_null(r.log);
}

TEST(a_file_without_a_header_is_told)
{
    /* 1489017600 is 2017-03-09 00:00 UTC */
    static const char text[] = "1489017600\t47\n1489019400\t48\n"
                               "1489021200\t49\n1489024800\t53\n";
    struct logged r;

    read_log_text(&r, text, said_rh);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 2);
    assert_int_equal(r.dates[0].hour, 1);
    assert_near(r.hours[0].rh, 0.48, 1e-12);
    assert_near(r.hours[1].rh, 0.51, 1e-12);
    assert_nan(r.hours[0].t);
    assert_int_equal(r.report.without_t, 2);
    dew_log_close(r.log);
}

TEST(an_id_may_be_said)
{
    static const char text[] = "entity_id,state,last_changed\n"
                               "sensor.porch,20.5,2026-04-24T10:00:00Z\n"
                               "sensor.porch,20.7,2026-04-24T12:00:00Z\n";
    struct logged r;

    read_log_text(&r, text, said_porch);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 2);
    assert_near(r.hours[1].t, 20.5, 1e-12);
    dew_log_close(r.log);
}

static const char sparse[] = "time,temp (C),rh\n2020-03-04 05:00,20,41\n"
                             "2020-03-04 05:30,21,41\n2020-03-04 06:00,20,41\n"
                             "2020-03-04 10:00,24,45\n2020-03-04 10:30,24,45\n"
                             "2020-03-04 11:00,24,45\n";

TEST(a_line_bridges_up_to_its_limit)
{
    struct logged r;

    read_log_text(&r, sparse, NULL); /* 4 h is above 3 h and the usual step */
    assert_int_equal(r.count, 6);
    assert_near(r.hours[0].t, 20.5, 1e-12);
    assert_nan(r.hours[2].t);
    assert_int_equal(r.report.without_t, 4);
    assert_near(r.report.longest_gap, 4.0, 0.0);
    assert_string_equal(r.report.longest_at, "2020-03-04 07:00");
    dew_log_close(r.log);
    read_log_text(&r, sparse, no_bridge);
    assert_near(r.hours[0].t, 20.5, 1e-12);
    dew_log_close(r.log);
}

TEST(a_value_is_held_up_to_its_limit)
{
    struct logged r;

    read_log_text(&r, sparse, held);
    assert_near(r.hours[0].t, 20.5, 1e-12);
    assert_near(r.hours[4].t, 20.0, 1e-12);
    assert_int_equal(r.report.without_t, 0);
    assert_int_equal(r.report.file.notices[DEW_NOTICE_HELD].count, 3);
    dew_log_close(r.log);
    read_log_text(&r, sparse, held_two_hours);
    assert_near(r.hours[2].t, 20.0, 1e-12);
    assert_nan(r.hours[3].t);
    dew_log_close(r.log);
}

TEST(summer_time_is_taken_off)
{
    static const char text[] =
        "time,temp (C)\n2020-11-01 00:00,20\n2020-11-01 01:00,21\n"
        "2020-11-01 01:00,22\n2020-11-01 02:00,23\n";
    struct logged r;

    read_log_text(&r, text, us_clock);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 4);
    assert_int_equal(r.dates[2].hour, 1);
    assert_near(r.hours[2].t, 22.0, 1e-12);
    dew_log_close(r.log);
}

TEST(humidity_may_be_a_dew_point_or_a_ratio)
{
    /* 9.27 degC is the dew point of 20 degC and 50 % [ASH-F1] to 0.01 K: 0.05
       points; 7.262 g/kg that of the same at 101325 Pa */
    static const char dew[] = "time,temp (C),dew point (C)\n"
                              "2020-03-04 05:00,20,9.27\n";
    static const char ratio[] = "time,temp (C),humidity ratio (g/kg)\n"
                                "2020-03-04 05:00,20,7.262\n";
    struct logged r;

    read_log_text(&r, dew, NULL);
    assert_near(r.hours[0].rh, 0.5, 5e-4);
    dew_log_close(r.log);
    read_log_text(&r, ratio, NULL);
    assert_near(r.hours[0].rh, 0.5, 1e-4);
    dew_log_close(r.log);
}

TEST(a_hot_room_is_suspected)
{
    static const char text[] = "time,temp (C)\n2020-03-04 05:00,55.1\n"
                               "2020-03-04 06:00,56.3\n";
    static const char cold[] = "time,temp (F)\n2020-03-04 05:00,20.1\n"
                               "2020-03-04 06:00,21.3\n";
    struct logged r;

    read_log_text(&r, text, NULL);
    assert_string_equal(
        r.report.file.suspicion,
        "rooms as hot as this: temperatures look like degF read as degC");
    dew_log_close(r.log);
    read_log_text(&r, cold, NULL);
    assert_string_equal(r.report.file.suspicion,
                        "rooms as cold as this: temperatures look like degC "
                        "read as degF, or the sensor is outdoors");
    dew_log_close(r.log);
}

TEST(a_stuck_sensor_and_a_doubled_row_are_counted)
{
    char text[4000] = "time,temp (C),rh\n";
    size_t n = strlen(text);
    struct logged r;

    for (int i = 0; i < 30; i++)
        n += (size_t)snprintf(text + n, sizeof text - n,
                              "2020-03-%02d %02d:00,20.3,41.7\n", 4 + i / 24,
                              i % 24);
    snprintf(text + n, sizeof text - n,
             "2020-03-05 05:00,21,42\n2020-03-05 08:00,140,41.7\n");
    read_log_text(&r, text, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.file.notices[DEW_NOTICE_STUCK].count, 30);
    assert_int_equal(r.report.file.notices[DEW_NOTICE_DOUBLED].count, 1);
    assert_int_equal(r.report.file.notices[DEW_NOTICE_DOUBLED].line, 32);
    assert_int_equal(r.report.file.notices[DEW_NOTICE_RANGE].count, 1);
    assert_int_equal(r.report.file.notices[DEW_NOTICE_RANGE].line, 33);
    dew_log_close(r.log);
}

TEST(gzip_is_read)
{
    char path[32];
    struct logged r;
    gzFile gz;

    write_file(path, "", 0);
    gz = gzopen(path, "wb");
    assert_true(gzputs(gz, sparse) > 0);
    gzclose(gz);
    read_log(&r, path, NULL);
    unlink(path);
    assert_int_equal(r.status, DEW_OK);
    assert_near(r.hours[0].t, 20.5, 1e-12);
    dew_log_close(r.log);
}

TEST(where_it_comes_from_is_said)
{
    struct logged r;

    read_log(&r, "tests/weather/samples/log_history.csv", bedroom);
    assert_string_equal(
        dew_log_provenance(r.log),
        "file log_history.csv, bedroom; the mean over the hour of values held "
        "up to the next row; 0 hours bridged by a line, 8 held; 0 of 12 hours "
        "without a temperature, 4 without a humidity");
    assert_int_equal(r.report.file.notices[DEW_NOTICE_MISSING].count, 2);
    assert_int_equal(r.report.file.notices[DEW_NOTICE_MISSING].line, 7);
    dew_log_close(r.log);
}

/* ---- houses, where their files are there ------------------------------------------------- */

static void two(struct dew_log_ask *a)
{
    a->sensor = "in 1, in 2";
}
static void rooms_of_eight(struct dew_log_ask *a)
{
    a->sensor = "1, 2, 3, 4, 5, 7, 8, 9";
    a->degrees = "degC";
}
static void hourly_rooms(struct dew_log_ask *a)
{
    a->sensor = "all";
}
static void dining(struct dew_log_ask *a)
{
    a->sensor = "dining";
}
static void thermostat(struct dew_log_ask *a)
{
    a->sensor = "thermostat";
}

/* Means over the file, by another program straight from its columns. */
static const struct house {
    const char *name;
    answer say;
    size_t hours;
    double t, rh, tolerance;
} houses[] = {
    {"houses/finland_house_2_hourly.csv", two, 13921, 22.190035, 0.41049944,
     1e-4},
    {"houses/finland_house_1_unoccupied_hourly.csv", NULL, 3561, 13.877262,
     0.36757936, 1e-4},
    {"houses/belgium_low_energy_house_2016_jan_mar_hourly.csv", hourly_rooms,
     1927, 19.726904, 0.41656694, 1e-4},
    {"houses/belgium_low_energy_house_2016_jan_mar_10min.csv", rooms_of_eight,
     1927, 19.726902, 0.41656694, 0.01},
    {"houses/valencia_test_house_2012_hourly.csv", dining, 1197, 20.491181,
     0.42388257, 1e-4},
    {"houses/us_thermostat_5min_2023.csv", thermostat, 759, 23.253736,
     0.52319626, 0.02},
};

static void house_is_read(void **state)
{
    const struct house *h = *state;
    double t = 0.0, rh = 0.0;
    int nt = 0, nrh = 0;
    char path[512], line[400];
    struct logged r;

    if (data_path(path, sizeof path, h->name) == NULL)
        skip();
    read_log(&r, path, h->say);
    if (r.status != DEW_OK)
        fail_msg("%s", message(&r, line, sizeof line));
    assert_int_equal(r.count, h->hours);
    for (size_t i = 0; i < r.count; i++) {
        if (!isnan(r.hours[i].t)) {
            t += r.hours[i].t;
            nt++;
        }
        if (!isnan(r.hours[i].rh)) {
            rh += r.hours[i].rh;
            nrh++;
        }
    }
    assert_near(t / nt, h->t, h->tolerance);
    assert_near(rh / nrh, h->rh, h->tolerance / 10.0);
    dew_log_close(r.log);
}

ROWS(goods, sample_is_read);
ROWS(bads, sample_is_refused);
ROWS(houses, house_is_read);
RUN_TESTS("weather, logs");
