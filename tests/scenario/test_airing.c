/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Windows opened by two habits through made years: who goes by warmth lets
 * water into a house that is kept drier than the outdoors; who looks at the
 * dew point lets none in, and never has more hours too humid than with windows
 * shut.  (Where the temperature is given this can be proved: the air let in is
 * drier than that indoors, so that the vapour pressure is never above what it
 * would be.)
 */
#include "support/rows.h"

#include <stdio.h>

#include "support/asked_run.h"

enum { SHUT, WARM, LOOKS, HABITS };

static const struct lived_in {
    const char *name, *place, *house;
    double least; /* kg a year that the careless let in, or -INFINITY */
} lived_in[] = {
    {"humid coast, given temperature, dehumidified", "722020",
     "temperature: {given: 24 degC}\ndehumidifier: {rate: 90 pint/day}\n", 500},
    {"humid coast, given temperature", "722020",
     "temperature: {given: 24 degC}\n", -INFINITY},
    {"humid coast, cooled a little", "722020",
     "temperature: {cool: 27 degC}\ncooling: {capacity: 2 ton}\n", -INFINITY},
    {"warm and humid, cooled", "723170",
     "cooling: {capacity: 2 ton}\nheating: {kind: gas}\n", -INFINITY},
    {"warm and humid, cooled and dehumidified", "723170",
     "cooling: {capacity: 2 ton}\nheating: {kind: gas}\n"
     "dehumidifier: {rate: 50 pint/day}\n",
     -INFINITY},
    {"cold winters, not cooled", "726580", "heating: {kind: gas}\n", -INFINITY},
    {"mild and damp, not cooled", "727930", "heating: {kind: gas}\n",
     -INFINITY},
    {"mild and damp, given temperature", "727930",
     "temperature: {given: 21 degC}\n", -INFINITY},
};

static void the_dew_point_keeps_water_out(void **state)
{
    const struct lived_in *row = *state;
    struct dew_tally y[HABITS];
    struct dew_run *run;
    char text[2000];

    snprintf(text, sizeof text,
             "weather: {place: %s}\nhouse: {floor_area: 1900 ft2, bedrooms: 3, "
             "airtightness: 2 ach50}\nventilator: {core: exhaust_only, flow: "
             "60 cfm}\nairing: {flow: 200 cfm}\n%soptions:\n"
             "  - {name: shut, airing: {flow: 0 cfm}}\n"
             "  - {name: warm, airing: {habit: warm_weather}}\n"
             "  - {name: looks, airing: {habit: dew_point}}\n",
             row->place, row->house);
    run = marched_run("made.yaml", text);
    assert_int_equal(dew_run_count(run), HABITS);
    for (size_t i = 0; i < HABITS; i++)
        y[i] = dew_run_outcome(run, i)->year;
    dew_run_close(run);
    assert_near(y[SHUT].water.windows, 0.0, 0.0);
    assert_true(y[WARM].water.windows > row->least);
    assert_true(y[LOOKS].water.windows < 0.0);
    assert_true(y[LOOKS].too_humid <= y[SHUT].too_humid + 2.0);
    if (row->least > 0)
        assert_true(y[WARM].too_humid > y[SHUT].too_humid + 1000.0);
}

ROWS(lived_in, the_dew_point_keeps_water_out);
RUN_TESTS("windows opened");
