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

RUN_TESTS("log, asked");
