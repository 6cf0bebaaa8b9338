/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * More water, by any key that sets water free, never means fewer hours too
 * humid: a house held at its temperature, or by its thermostat without a
 * dehumidifier or a boost by humidity, in three climates.
 *
 * At a given temperature this can be proved: the rate at which the air's
 * vapour pressure rises grows with every source, each of which is >= 0, and
 * what furnishings, leaks and coils do follows that pressure alone; of two
 * such equations the one that is everywhere steeper stays above.  Latent heat
 * taken from the air lengthens heating and shortens cooling: the same sign.
 */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/made.h"
#include "dew/scenario.h"
#include "dew/study.h"

/* Less and more of one key, all else alike. */
static const struct pair {
    const char *name, *less, *more;
} pairs[] = {
    {"moisture.total", "total: 7 L/day", "total: 13 L/day"},
    {"moisture.showers", "showers: 1 per day", "showers: 7 per day"},
    {"moisture.shower_water", "shower_water: 0.2 kg", "shower_water: 1.1 kg"},
    {"moisture.baths", "baths: 1 per day", "baths: 20 per day"},
    {"moisture.bath_water", "baths: 4 per day, bath_water: 0.05 kg",
     "baths: 4 per day, bath_water: 1 kg"},
    {"moisture.cooking_water", "cooking_water: 0.3 kg/day",
     "cooking_water: 3.1 kg/day"},
    {"moisture.dishes", "dishes: 0.2 kg/day", "dishes: 1.9 kg/day"},
    {"moisture.laundry_dried_indoors", "laundry_dried_indoors: 0.3 per day",
     "laundry_dried_indoors: 1.7 per day"},
    {"moisture.laundry_water", "laundry_dried_indoors: 1 per day",
     "laundry_dried_indoors: 1 per day, laundry_water: 5 kg"},
    {"moisture.plants", "plants: 2", "plants: 60"},
    {"moisture.plant_water", "plants: 20, plant_water: 1 g/h",
     "plants: 20, plant_water: 9 g/h"},
    {"moisture.plants, not felt", "felt: no, plants: 2",
     "felt: no, plants: 60"},
    {"moisture.pets", "pets: 3 kg", "pets: 93 kg"},
    {"moisture.aquarium", "aquarium: 0.2 m2", "aquarium: 3 m2"},
    {"moisture.ground", "ground: 0 L/day", "ground: 5 L/day"},
    {"moisture.ground, a spring", "ground: 5 L/day", "ground: 40 L/day"},
    {"moisture.ground, not felt", "felt: no, ground: 1 L/day",
     "felt: no, ground: 5 L/day"},
    {"moisture.burning", "burning: 0 kg/day", "burning: 3 kg/day"},
    {"moisture.other", "other: 0 kg/day", "other: 4 kg/day"},
    {"moisture.drying", "drying: 100 kg", "drying: 1500 kg"},
};
enum { PAIRS = sizeof pairs / sizeof pairs[0], OPTIONS = 2 * PAIRS };

static const char *const houses[] = {
    "temperature: {given: 21 degC}\n",
    "temperature: {heat: 20 degC, cool: 24 degC}\n"
    "heating: {kind: gas}\ncooling: {capacity: 2 ton}\n",
};
enum { HOUSES = 2 };

/* Hot and humid, cold, mild and damp. */
static const char *const places[] = {"722020", "726580", "727930"};
enum { PLACES = 3 };

static const double grace = 2.0; /* h   of a year: the step's own accuracy */

static double too_humid[PLACES][HOUSES][OPTIONS];
static int marched;

static struct dew_scenario *scenario_of(const char *place, const char *house)
{
    static char text[20000];
    struct dew_error list[2] = {{0}};
    struct dew_faults faults = {list, 2, 0};
    struct dew_scenario *s = NULL;
    struct dew_scenario_source from = {text, 0, "more.yaml", NULL, 0};
    char line[400];
    int n = snprintf(
        text, sizeof text,
        "weather: {place: %s}\nhouse: {floor_area: 1900 ft2, bedrooms: 3, "
        "airtightness: 2 ach50}\nwindows: {unshaded: 40 %%}\nventilator: "
        "{core: heat_plate, sensible: 74 %% at 95 cfm}\n%soptions:\n",
        place, house);

    for (int i = 0; i < OPTIONS; i++)
        n += snprintf(text + n, sizeof text - (size_t)n,
                      "  - {name: \"%d\", moisture: {%s}}\n", i,
                      i % 2 ? pairs[i / 2].more : pairs[i / 2].less);
    from.length = (size_t)n;
    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return s;
}

static void march_options(const struct dew_scenario *s,
                          const struct dew_year *year, double hours[OPTIONS])
{
    static struct dew_case cases[OPTIONS];
    struct dew_option options[OPTIONS];
    struct dew_outdoors outdoors;
    struct dew_weather weather;
    struct dew_error err = {0};
    struct dew_study *study;
    double done = 0;
    size_t count;

    assert_int_equal(dew_scenario_outdoors(year, &outdoors, &err), DEW_OK);
    for (size_t i = 0; i < OPTIONS; i++) {
        assert_int_equal(
            dew_scenario_case(s, i, &outdoors, NULL, &cases[i], &err), DEW_OK);
        options[i] = (struct dew_option){.name = dew_scenario_name(s, i),
                                         .c = &cases[i]};
    }
    weather.hours = dew_year_hours(year, &weather.count);
    weather.dates = dew_year_dates(year, &count);
    assert_int_equal(dew_study_open(&study, options, OPTIONS, &weather, &err),
                     DEW_OK);
    while (done < 1)
        assert_int_equal(dew_study_step(study, 8760, &done, &err), DEW_OK);
    for (size_t i = 0; i < OPTIONS; i++)
        hours[i] = dew_study_outcomes(study, &count)[i].year.too_humid;
    dew_study_close(study);
}

static void march_place(int p)
{
    struct dew_made how = {.seed = DEW_MADE_SEED};
    struct dew_climate climate;
    struct dew_year *year;
    struct dew_error err = {0};

    assert_int_equal(dew_climate_find(places[p], &climate, &err), DEW_OK);
    assert_int_equal(dew_made_open(&climate, &how, &year, &err), DEW_OK);
    for (int h = 0; h < HOUSES; h++) {
        struct dew_scenario *s = scenario_of(places[p], houses[h]);

        march_options(s, year, too_humid[p][h]);
        dew_scenario_close(s);
    }
    dew_year_close(year);
}

static int march_all(void **state)
{
    const char *kind = getenv("DEW_KIND");

    (void)state;
    if (kind != NULL && strcmp(kind, "gcc") != 0)
        return 0; /* 240 years: in one build only */
    for (int p = 0; p < PLACES; p++)
        march_place(p);
    marched = 1;
    return 0;
}

static void more_water_never_means_fewer_humid_hours(void **state)
{
    int i = (int)((const struct pair *)*state - pairs), rises = 0;

    if (!marched)
        skip();
    for (int p = 0; p < PLACES; p++)
        for (int h = 0; h < HOUSES; h++) {
            double less = too_humid[p][h][2 * i];
            double more = too_humid[p][h][2 * i + 1];

            if (more < less - grace)
                fail_msg("%s, house %d: %g h with less, %g with more",
                         places[p], h, less, more);
            rises += more > less + grace;
        }
    assert_true(rises >= 3); /* the key does something */
}

int main(void)
{
    struct CMUnitTest tests[PAIRS];
    size_t n = 0;

    ADD_ROWS(tests, n, pairs, more_water_never_means_fewer_humid_hours);
    return _cmocka_run_group_tests("more water", tests, n, march_all, NULL);
}
