/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * More water, by any key that sets water free, never means fewer hours too
 * humid: a house held at its temperature, or by its thermostat without a
 * dehumidifier or a boost by humidity, in three climates; steps of an hour.
 *
 * At a given temperature this can be proved: the rate at which the air's
 * vapour pressure rises grows with every source, each of which is >= 0, and
 * what furnishings, leaks and coils do follows that pressure alone; of two
 * such equations the one that is everywhere steeper stays above.  Latent heat
 * taken from the air lengthens heating and shortens cooling: the same sign.
 */
#include "support/rows.h"

#include <stdio.h>

#include "support/asked_run.h"

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

static void march_house(int p, int house)
{
    static char text[20000];
    struct dew_run *run;
    int n = snprintf(
        text, sizeof text,
        "weather: {place: %s}\nrun: {steps_per_hour: 1}\nhouse: {floor_area: 1900 ft2, bedrooms: 3, "
        "airtightness: 2 ach50}\nwindows: {unshaded: 40 %%}\nventilator: "
        "{core: heat_plate, sensible: 74 %% at 95 cfm}\n%soptions:\n",
        places[p], houses[house]);

    for (int i = 0; i < OPTIONS; i++)
        n += snprintf(text + n, sizeof text - (size_t)n,
                      "  - {name: \"%d\", moisture: {%s}}\n", i,
                      i % 2 ? pairs[i / 2].more : pairs[i / 2].less);
    run = marched_run("made.yaml", text);
    assert_int_equal(dew_run_count(run), OPTIONS);
    for (int i = 0; i < OPTIONS; i++)
        too_humid[p][house][i] =
            dew_run_outcome(run, (size_t)i)->year.too_humid;
    dew_run_close(run);
}

/* One house in each place, the one that is held where it is hot; EVERY=1: both. */
static int is_marched(int p, int house)
{
    return getenv("EVERY") != NULL || house == (p > 0);
}

static int march_all(void **state)
{
    (void)state;
    for (int p = 0; p < PLACES; p++)
        for (int h = 0; h < HOUSES; h++)
            if (is_marched(p, h))
                march_house(p, h);
    return 0;
}

static void more_water_never_means_fewer_humid_hours(void **state)
{
    int i = (int)((const struct pair *)*state - pairs), rises = 0, all = 0;

    for (int p = 0; p < PLACES; p++)
        for (int h = 0; h < HOUSES; h++) {
            double less = too_humid[p][h][2 * i];
            double more = too_humid[p][h][2 * i + 1];

            if (!is_marched(p, h))
                continue;
            if (more < less - grace)
                fail_msg("%s, house %d: %g h with less, %g with more",
                         places[p], h, less, more);
            rises += more > less + grace;
            all++;
        }
    assert_true(2 * rises >= all && rises >= 2); /* the key does something */
}

ROWS(pairs, more_water_never_means_fewer_humid_hours);
RUN_TESTS_IN("more water", march_all, NULL);
