/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is asked of a log beyond its sensors: what a sensor reads at what the
   humidity is, and the outdoors of the same file. */
#include "weather/logs.h"

static void salted(struct dew_log_ask *a)
{
    a->check[0] = (struct dew_log_check){0.79, 0.753};
    a->checks = 1;
}
static void two_salts(struct dew_log_ask *a)
{
    a->check[0] = (struct dew_log_check){0.79, 0.753};
    a->check[1] = (struct dew_log_check){0.36, 0.328};
    a->checks = 2;
}
static void one_salt_twice(struct dew_log_ask *a)
{
    two_salts(a);
    a->check[1] = (struct dew_log_check){0.71, 0.70};
}

/* By hand; beyond 100 % is without. */
TEST(a_sensor_is_put_right_by_its_checks)
{
    static const char text[] =
        "time,temp (C),rh (%)\n2020-03-04 05:00,20,41\n"
        "2020-03-04 06:00,20,55\n2020-03-04 07:00,20,1\n";
    struct logged r;
    char words[400];

    read_log_text(&r, text, salted);
    assert_near(r.hours[0].rh, 0.41 - 0.037, 1e-12);
    assert_near(r.hours[1].rh, 0.55 - 0.037, 1e-12);
    assert_nan(r.hours[2].rh);
    assert_int_equal(r.report.without_rh, 1);
    dew_log_close(r.log);
    read_log_text(&r, text, two_salts);
    assert_near(r.hours[1].rh, 0.753 + 0.425 / 0.43 * (0.55 - 0.79), 1e-12);
    dew_log_close(r.log);
    read_log_text(&r, text, one_salt_twice);
    assert_int_equal(r.status, DEW_ERANGE);
    assert_string_equal(message(&r, words, sizeof words),
                        "0:0: reads: two checks of a sensor tell a line only "
                        "where they are 10 % RH apart or more");
}

static void outside(struct dew_log_ask *a)
{
    a->outdoors = 1;
    a->sensor = "hall"; /* of the indoor ones: not asked here */
}

TEST(the_outdoors_of_the_same_file)
{
    static const char text[] =
        "time,t_hall_c,rh_hall_pct,t_out_c,rh_out_pct,t_den_c,rh_den_pct\n"
        "2020-03-04 05:00,20.5,41,-3.7,88,17.3,52\n"
        "2020-03-04 06:00,20.7,42,-3.1,NA,17.4,53\n";
    struct logged r;

    read_log_text(&r, text, outside);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.taken_count, 1);
    assert_near(r.hours[0].t, -3.7, 1e-12);
    assert_near(r.hours[0].rh, 0.88, 1e-12);
    assert_near(r.hours[1].t, -3.1, 1e-12);
    assert_nan(r.hours[1].rh);
    dew_log_close(r.log);
}

TEST(beside_indoors_what_says_nothing_is_outdoors)
{
    static const char text[] =
        "Time,Indoor Temperature (degC),Indoor Humidity (%),"
        "Temperature (degC),Humidity (%)\n"
        "2020-03-04 05:00,20.5,41,7.2,88\n2020-03-04 06:00,20.7,42,7.9,84\n";
    struct logged r;

    read_log_text(&r, text, outside);
    assert_int_equal(r.status, DEW_OK);
    assert_near(r.hours[1].t, 7.9, 1e-12);
    assert_near(r.hours[1].rh, 0.84, 1e-12);
    dew_log_close(r.log);
}

TEST(a_file_without_outdoors_says_so)
{
    static const char text[] = "time,t_hall_c,rh_hall_pct,t_den_c,rh_den_pct\n"
                               "2020-03-04 05:00,20.5,41,17.3,50\n"
                               "2020-03-04 06:00,20.7,42,17.1,51\n";
    char words[400];
    struct logged r;

    read_log_text(&r, text, outside);
    assert_int_equal(r.status, DEW_EMISSING);
    assert_string_equal(message(&r, words, sizeof words),
                        "1:1: sensor: no column of an outdoor temperature or "
                        "humidity; one named \"outdoor temperature (degC)\" "
                        "would do");
}

static void den(struct dew_log_ask *a)
{
    a->sensor = "den";
}

TEST(co2_without_a_room_is_the_house_s)
{
    static const char text[] =
        "time,t_hall_c,rh_hall_pct,t_den_c,rh_den_pct,CO2 (ppm)\n"
        "2020-03-04 05:00,20.5,41,17.3,50,733\n"
        "2020-03-04 06:00,20.7,42,17.1,51,691\n";
    struct logged r;

    read_log_text(&r, text, den);
    assert_int_equal(r.status, DEW_OK);
    assert_near(r.hours[0].t, 17.3, 1e-12);
    assert_near(r.hours[1].co2, 691, 1e-12);
    dew_log_close(r.log);
}

/* ---- how long machines ran ------------------------------------------------------- */

TEST(minutes_of_an_hour_are_a_share)
{
    static const char text[] =
        "time,hall temp (C),hall humidity (%),Cooling run time (min),Fan (%)\n"
        "2020-07-04 05:00,25.5,51,0,10\n"
        "2020-07-04 06:00,25.7,52,12,35\n"
        "2020-07-04 07:00,25.6,50,57,95\n"
        "2020-07-04 08:00,25.6,50,,\n";
    struct logged r;

    read_log_text(&r, text, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.sensor_count, 1);
    assert_near(r.hours[0].cool, 0, 0);
    assert_near(r.hours[1].cool, 0.2, 1e-12);
    assert_near(r.hours[2].cool, 0.95, 1e-12);
    assert_nan(r.hours[3].cool);
    assert_near(r.hours[1].fan, 0.35, 1e-12);
    assert_near(r.hours[2].t, 25.6, 1e-12);
    dew_log_close(r.log);
}

/* Rows of 20 min: those that end in the hour. */
TEST(seconds_of_rows_add_up_to_the_hour)
{
    static const char text[] =
        "time,temp_hall_c,rh_hall_pct,temp_den_c,rh_den_pct,Cool Stage 1 (sec)\n"
        "2020-07-04 05:00,25,51,24,50,900\n"
        "2020-07-04 05:20,25,51,24,50,300\n"
        "2020-07-04 05:40,25,51,24,50,0\n"
        "2020-07-04 06:00,25,51,24,50,1200\n"
        "2020-07-04 06:20,25,51,24,50,600\n"
        "2020-07-04 06:40,25,51,24,50,60\n"
        "2020-07-04 07:00,25,51,24,50,0\n";
    struct logged r;

    read_log_text(&r, text, den);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 2);
    assert_near(r.hours[0].cool, 1500 / 3600.0, 1e-12);
    assert_near(r.hours[1].cool, 660 / 3600.0, 1e-12);
    assert_nan(r.hours[0].fan);
    dew_log_close(r.log);
}

/* On from 5:10 to 5:40, and from 6:45 on. */
TEST(states_of_on_and_off_hold_up_to_the_next)
{
    static const char text[] =
        "entity_id,state,last_changed\n"
        "sensor.hall_temperature_degC,25,2020-07-04 04:00\n"
        "sensor.hall_humidity,51,2020-07-04 04:00\n"
        "binary_sensor.compressor_running,off,2020-07-04 04:00\n"
        "binary_sensor.compressor_running,on,2020-07-04 05:10\n"
        "binary_sensor.compressor_running,off,2020-07-04 05:40\n"
        "sensor.hall_humidity,52,2020-07-04 05:45\n"
        "binary_sensor.compressor_running,on,2020-07-04 06:45\n"
        "sensor.hall_temperature_degC,26,2020-07-04 07:00\n"
        "sensor.hall_humidity,53,2020-07-04 08:00\n";
    struct logged r;
    char line[400];

    read_log_text(&r, text, NULL);
    if (r.status != DEW_OK)
        fail_msg("%s", message(&r, line, sizeof line));
    assert_int_equal(r.dates[1].hour, 6);
    assert_near(r.hours[0].cool, 0, 0);
    assert_near(r.hours[1].cool, 0.5, 1e-12);
    assert_near(r.hours[2].cool, 0.25, 1e-12);
    dew_log_close(r.log);
}

static const struct {
    const char *text, *wrong;
} runs[] = {
    {"time,temp (C),rh (%),Cooling (min)\n2020-07-04 05:00,25,51,0\n"
     "2020-07-04 06:00,25,51,75\n2020-07-04 07:00,25,51,10\n",
     "3:4: Cooling (min): it ran longer than rows are apart, 60 min: the unit "
     "is another, or rows are sums of more"},
    {"time,temp (C),rh (%),compressor (%)\n2020-07-04 05:00,25,51,0\n"
     "2020-07-04 06:00,25,51,240\n2020-07-04 07:00,25,51,10\n",
     "3:4: compressor (%): 240 % of the time is more than all of it: the unit "
     "is another"},
    {"time,temp (C),rh (%),Fan (%)\n2020-07-04 05:00,25,51,0\n"
     "2020-07-04 06:00,25,51,103\n2020-07-04 07:00,25,51,10\n",
     "3:4: Fan (%): 103 % of the time is more than all of it: the unit is "
     "another"},
    {"time,temp (C),rh (%),Fan (%)\n2020-07-04 05:00,25,51,0\n"
     "2020-07-04 06:00,25,51,10\n2020-07-04 07:00,25,51,-5\n",
     "4:4: Fan (%): it ran for less than no time: an empty cell is what is "
     "not known"},
    {"entity_id,state,last_changed\nsensor.hall_humidity,51,2020-07-04 04:00\n"
     "sensor.cooling_min,12,2020-07-04 04:00\n"
     "sensor.hall_humidity,51,2020-07-04 06:00\n",
     "1:2: sensor.cooling_min: a run time in rows that come on change is a "
     "share of no time: states of on and off would be"},
};

TEST(a_run_time_that_cannot_be_is_refused)
{
    for (size_t i = 0; i < sizeof runs / sizeof *runs; i++) {
        struct logged r;
        char line[400];

        read_log_text(&r, runs[i].text, NULL);
        assert_int_not_equal(r.status, DEW_OK);
        assert_string_equal(message(&r, line, sizeof line), runs[i].wrong);
    }
}

/* What is named like a machine and is no run time. */
TEST(a_set_point_is_no_run_time)
{
    static const char text[] =
        "time,hall temp (C),hall rh (%),Cool Set (%),Bath Fan (min),Fan "
        "Speed (%),cooling energy (kWh)\n"
        "2020-07-04 05:00,25.5,51,100,77,50,9\n"
        "2020-07-04 06:00,25.7,52,100,77,50,9\n";
    struct logged r;

    read_log_text(&r, text, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_nan(r.hours[0].cool);
    assert_nan(r.hours[0].fan);
    dew_log_close(r.log);
}

static void thermostat(struct dew_log_ask *a)
{
    a->sensor = "thermostat";
}

/* Means over the file, by another program straight from its columns. */
TEST(a_thermostat_s_export_says_how_long_it_ran)
{
    double cool = 0, fan = 0, n = 0;
    struct logged r;
    char path[512];

    if (data_path(path, sizeof path, "houses/us_thermostat_5min_2023.csv") ==
        NULL)
        skip();
    read_log(&r, path, thermostat);
    assert_int_equal(r.status, DEW_OK);
    for (size_t i = 0; i < r.count; i++)
        if (!isnan(r.hours[i].cool)) {
            cool += r.hours[i].cool;
            fan += r.hours[i].fan;
            n += 1;
        }
    assert_near(cool / n, 0.0672622, 5e-4);
    assert_near(fan / n, 0.0717757, 5e-4);
    dew_log_close(r.log);
}

RUN_TESTS("log, asked");
