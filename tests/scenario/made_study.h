/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scenario's options marched through the made year of its place. */
#ifndef DEW_TESTS_MADE_STUDY_H
#define DEW_TESTS_MADE_STUDY_H

#include <string.h>

#include "dew/made.h"
#include "dew/scenario.h"
#include "dew/study.h"

enum { MADE_OPTIONS = 40 };

static inline struct dew_scenario *made_scenario(const char *text)
{
    struct dew_error list[2] = {{0}};
    struct dew_faults faults = {list, 2, 0};
    struct dew_scenario *s = NULL;
    struct dew_scenario_source from = {text, strlen(text), "made.yaml", NULL,
                                       0};
    char line[400];

    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return s;
}

/* The years of all options, in their order; out has room for them. */
static inline size_t made_march(const struct dew_scenario *s,
                                const struct dew_year *year,
                                struct dew_tally *out)
{
    static struct dew_case cases[MADE_OPTIONS];
    struct dew_option options[MADE_OPTIONS];
    struct dew_outdoors outdoors;
    struct dew_weather weather;
    struct dew_error err = {0};
    struct dew_study *study;
    double done = 0;
    size_t count = dew_scenario_count(s), dates;

    assert_true(count <= MADE_OPTIONS);
    assert_int_equal(dew_scenario_outdoors(year, &outdoors, &err), DEW_OK);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(
            dew_scenario_case(s, i, &outdoors, NULL, &cases[i], &err), DEW_OK);
        options[i] = (struct dew_option){.name = dew_scenario_name(s, i),
                                         .c = &cases[i]};
    }
    weather.hours = dew_year_hours(year, &weather.count);
    weather.dates = dew_year_dates(year, &dates);
    assert_int_equal(dew_study_open(&study, options, count, &weather, &err),
                     DEW_OK);
    while (done < 1)
        assert_int_equal(dew_study_step(study, 8760, &done, &err), DEW_OK);
    for (size_t i = 0; i < count; i++)
        out[i] = dew_study_outcomes(study, &dates)[i].year;
    dew_study_close(study);
    return count;
}

/* Scenario text, whose weather.place is one of the table of climates. */
static inline size_t made_years(const char *text, struct dew_tally *out)
{
    struct dew_made how = {.seed = DEW_MADE_SEED};
    struct dew_scenario *s = made_scenario(text);
    struct dew_climate climate;
    struct dew_error err = {0};
    struct dew_year *year;
    size_t count;

    assert_int_equal(
        dew_climate_find(dew_scenario_weather(s).place, &climate, &err),
        DEW_OK);
    assert_int_equal(dew_made_open(&climate, &how, &year, &err), DEW_OK);
    count = made_march(s, year, out);
    dew_year_close(year);
    dew_scenario_close(s);
    return count;
}

#endif
