/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Made houses whose trouble is known, and what their logs tell of it. */
#include "run/learn_made.h"

#define DAMP                                                                   \
    "title: made up\n"                                                         \
    "weather: {place: 726580}\n"                                               \
    "run: {steps_per_hour: 1}\n"                                               \
    "house:\n"                                                                 \
    "  floor_area: 1500 ft2\n"                                                 \
    "  bedrooms: 3\n"                                                          \
    "  airtightness: 4 ach50 (3.5 to 4.6)\n"                                   \
    "people: {count: \"3 (2.5 to 3.5)\"}\n"                                    \
    "moisture: {plants: 4, laundry_dried_indoors: 0 per day, drying: 0 kg}\n"  \
    "limits: {too_humid: 40 %}\n"                                              \
    "options:\n"                                                               \
    "  - name: as it stands\n"

static const struct dew_learn_cause *cause_of(const struct dew_learn *l,
                                              const char *key)
{
    size_t count;
    const struct dew_learn_cause *c = dew_learn_causes(l, &count);

    for (size_t i = 0; i < count; i++)
        if (strcmp(c[i].key, key) == 0)
            return &c[i];
    return NULL;
}

enum { DRAWS = 304, WITHOUT = 160 }; /* as few as there may be */

/* What a log of the house with one thing otherwise tells of its causes. */
static struct dew_learn *causes_of(const char *set, size_t draws, int causes)
{
    struct dew_run *r;

    make_folder(DAMP);
    r = run_of(&set, set != NULL);
    make_log(r, 61);
    dew_run_close(r);
    return learn_by(&(struct dew_learn_ask){
        .draws = draws, .seed = 4, .told_only = 1, .causes = causes});
}

/* Draws of a cause stand for all that have it, as often as they weigh. */
static void draws_are_picked_by_weight(const struct dew_learn *l)
{
    size_t picked[RUN__LEARN_PAIRED], n, count;
    const struct dew_learn_cause *c = dew_learn_causes(l, &count);

    for (size_t i = 0; i < count; i++) {
        n = run__learn_pick(l, i, c[i].after, RUN__LEARN_PAIRED, picked);
        assert_between(n, RUN__LEARN_PAIRED - 1, RUN__LEARN_PAIRED);
        for (size_t k = 0, d = 0; d < l->draws; d++) {
            double often =
                RUN__LEARN_PAIRED * l->rounds->weights[d] / c[i].after;
            size_t from = k;

            while (k < n && picked[k] == d)
                k++;
            assert_near((double)(k - from), run__learn_has(l, d, i) ? often : 0,
                        1);
            assert_true(k == from || run__learn_has(l, d, i));
        }
    }
    /* few have it, so that other houses would lose nothing */
    c = cause_of(l, "moisture.shower_water");
    assert_true(c->after < 0.3 && c->timed && c->hours.p10 > 0);
}

/* What is told is no cause, nor what changes nothing: no fan, no coil. */
static void causes_are_of_what_nobody_told(const struct dew_learn *l)
{
    static const char *const none[] = {
        "moisture.plants",  "moisture.laundry_dried_indoors",
        "moisture.drying",  "bath_fan.run",
        "ventilator.found", "cooling.blower"};

    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        assert_null(cause_of(l, none[i]));
    assert_non_null(cause_of(l, "moisture.shower_water"));
}

TEST(a_house_on_wet_ground_is_known_by_its_log)
{
    struct dew_learn *wet = causes_of("moisture.ground=9 kg/day", DRAWS, 1);
    const struct dew_learn_cause *c = cause_of(wet, "moisture.ground"), *other;

    assert_true(dew_learn_learned(wet)->told);
    assert_near(c->before, 0.2, 0);
    assert_true(c->after > 0.75);
    assert_true(c->timed && c->hours.p10 > 200);
    assert_true(c->hours.p10 < c->hours.p50 && c->hours.p50 < c->hours.p90);
    assert_true(c->hours.p90 <= c->humid);
    /* what would do the same stands beside it */
    other = cause_of(wet, "moisture.burning");
    assert_true(c->together > 0 && c->together == other->together);
    assert_true(c->any_after >= c->after && c->any_after <= 1);
    assert_true(c->any_before > 1 - 0.8 * 0.95 - 1e-9 && c->any_before < 0.7);
    /* a log in the cold tells nothing of windows in warm weather */
    other = cause_of(wet, "airing.flow");
    assert_true(other == NULL || fabs(other->after - other->before) < 0.15);
    draws_are_picked_by_weight(wet);
    causes_are_of_what_nobody_told(wet);
    dew_learn_close(wet);
}

TEST(a_dry_house_has_no_wet_ground)
{
    struct dew_learn *l = causes_of(NULL, DRAWS, 1);
    const struct dew_learn_cause *c = cause_of(l, "moisture.ground");

    assert_true(dew_learn_learned(l)->told);
    assert_true(c->after < 0.1);
    assert_true(cause_of(l, "moisture.burning")->after < 0.1);
    dew_learn_close(l);
}

TEST(where_none_are_asked_for_there_are_no_causes)
{
    struct dew_learn *l = causes_of(NULL, WITHOUT, 0);
    size_t count;

    dew_learn_causes(l, &count);
    assert_int_equal(count, 0);
    dew_learn_close(l);
}

RUN_TESTS("why a house is as damp as it is");
