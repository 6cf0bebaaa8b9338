/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a fit asks of its files: all at once, and how to answer. */
#include "run/learn_made.h"

#include "dew/fit.h"

static const char two_rooms[] = "time,T1,RH_1,T2,RH_2,T_out,RH_out\n"
                                "2020-03-04 05:00,20.5,41,17.3,52,3,80\n"
                                "2020-03-04 06:00,20.7,42,17.5,53,3,81\n";
static const char outdoors[] = "time,outdoor temp (C),outdoor humidity (%)\n"
                               "2020-03-04 05:00,3,80\n"
                               "2020-03-04 06:00,3,81\n";

/* The faults of a fit of these files, with these --set. */
static size_t faults_of(const char *const *logs, size_t log_count,
                        const char *const *sets, size_t set_count,
                        struct dew_error list[FAULTS])
{
    const struct dew_fit_ask ask = {.name = scenario,
                                    .logs = logs,
                                    .log_count = log_count,
                                    .sets = sets,
                                    .set_count = set_count};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_fit *fit;

    memset(list, 0, FAULTS * sizeof *list);
    assert_int_not_equal(dew_fit_open(&fit, &ask, &faults), DEW_OK);
    assert_null(fit);
    assert_true(faults.count <= FAULTS);
    return faults.count;
}

static void set_out(const char *log)
{
    make_folder("house:\n  floor_area: 1500 ft2\n");
    write_text(log_file, log);
}

TEST(units_indoors_and_out_are_asked_for_at_once)
{
    const char *const logs[] = {log_file};
    const char *const sets[] = {"log.sensor=all"};
    static const int columns[] = {2, 4, 6};
    struct dew_error list[FAULTS];

    set_out(two_rooms);
    assert_int_equal(faults_of(logs, 1, sets, 1, list), 4);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(list[i].line, 1);
        assert_int_equal(list[i].column, columns[i]);
        assert_non_null(strstr(list[i].text, "its unit is not said"));
    }
    assert_non_null(strstr(list[3].text, "\"log.units=T1=degC\""));
}

/* One that is not said leaves the outdoors out: not unsaid itself. */
TEST(a_unit_of_the_outdoors_is_asked_for)
{
    const char *const logs[] = {log_file};
    const char *const sets[] = {"log.sensor=1", "log.units=T1=degC"};
    struct dew_error list[FAULTS];

    set_out(two_rooms);
    assert_int_equal(faults_of(logs, 1, sets, 2, list), 2);
    assert_string_equal(list[0].path, "T_out");
    assert_non_null(strstr(list[1].text, "\"log.units=T_out=degC\""));
}

TEST(a_further_file_of_the_outdoors_is_told_where_it_goes)
{
    static char second[80];
    const char *const logs[] = {log_file, second};
    const char *const sets[] = {"log.sensor=1", "log.units=T1=degC,T_out=degC"};
    struct dew_error list[FAULTS];

    set_out(two_rooms);
    snprintf(second, sizeof second, "%s/out.csv", folder);
    write_text(second, outdoors);
    assert_int_equal(faults_of(logs, 2, sets, 2, list), 2);
    assert_int_equal(list[0].status, DEW_EMISSING);
    assert_non_null(strstr(list[1].text, "weather.file="));
}

/* A rule about a key of --set is told; what the scenario lacks is not. */
TEST(a_check_of_a_sensor_that_is_none_is_refused)
{
    const char *const logs[] = {log_file};
    const char *const sets[] = {"log.sensor=1", "log.reads=79 % at 150 %"};
    struct dew_error list[FAULTS];

    set_out(two_rooms);
    assert_int_equal(faults_of(logs, 1, sets, 2, list), 1);
    assert_string_equal(list[0].path, "log.reads");
    assert_non_null(strstr(list[0].text, "79 % at 75.3 %"));
}

RUN_TESTS("what a fit asks of its files");
