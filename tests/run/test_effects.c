/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns of draws, and what of the doubt each brings. */
#include "dew/effects.h"

#include <stddef.h>
#include <string.h>

#include "core/indices.h"
#include "core/num.h"
#include "dew/worth.h"
#include "support/asked_run.h"
#include "support/rows.h"

/* Held at one temperature, without sun or stores: hundreds of it are marched. */
#define STILL                                                                  \
    "weather: {place: 727930}\n"                                               \
    "run: {steps_per_hour: 1}\n"                                               \
    "limits: {too_humid: 65 %}\n"                                              \
    "temperature: {given: 75 degF}\n"                                          \
    "buffering: {class: none}\n" DARK
#define DARK "windows: {north: 0 m2, east: 0 m2, south: 0 m2, west: 0 m2}\n"

/* One range that matters, one that hardly does, one of a machine not there. */
#define HOUSE                                                                  \
    STILL                                                                      \
    "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}\n"    \
    "people: {count: 4 (1 to 8)}\n"                                            \
    "moisture: {drying_half_life: 90 day (60 to 120), dishes: 0.4 kg/day (0.399 to 0.401)}\n"
#define FAN "ventilator: {core: exhaust_only, flow: 60 cfm, power: 20 W}\n"
#define TWO                                                                    \
    HOUSE "options:\n"                                                         \
          "  - name: as it stands\n"                                           \
          "  - name: an exhaust fan\n"                                         \
          "    " FAN

/* More than are told one by one. */
#define MANY                                                                     \
    STILL                                                                        \
    "house: {floor_area: 1830 ft2 (1800 to 1860), bedrooms: 3, "                 \
    "ceiling_height: 8 ft (7.9 to 8.1), airtightness: 1.3 ach50 (1.2 to 1.4)}\n" \
    "people: {count: 4 (1 to 8), water_each: 1.2 kg/day (1.15 to 1.25)}\n"       \
    "moisture: {showers: 4 per day (3.9 to 4.1), dishes: 0.4 kg/day (0.3 to "    \
    "0.5), cooking_water: 1 kg/day (0.9 to 1.1), baths: 1 per day (0.5 to "      \
    "1.5), bath_water: 0.1 kg (0.05 to 0.15), shower_water: 0.25 kg (0.24 to "   \
    "0.26), plants: 5 (4 to 6), other: 0.2 kg/day (0.15 to 0.25), "              \
    "aquarium: 0.1 m2 (0.09 to 0.11)}\n"

enum { DRAWS = 51, POINTS = 16 };

static struct dew_run *run_of(const char *text)
{
    return asked_run("house.yaml", text, NULL);
}

static struct dew_spread *open_spread(const struct dew_run *run, int beside)
{
    const struct dew_spread_ask ask = {.draws = DRAWS,
                                       .seed = 3,
                                       .threads = 2,
                                       .told_only = 1,
                                       .years = beside,
                                       .model = beside};
    struct dew_error err = {0};
    struct dew_spread *s;
    char line[400];

    if (dew_spread_open(&s, run, &ask, &err) != DEW_OK)
        fail_msg("%s", dew_error_line(&err, line, sizeof line));
    return s;
}

static void march(struct dew_spread *s)
{
    double done = 0;

    while (done < 1)
        assert_int_equal(dew_spread_step(s, &done, NULL), DEW_OK);
}

static struct dew_effects *effects_of(const struct dew_spread *s,
                                      const size_t *options, size_t count)
{
    const struct dew_effects_ask ask = {POINTS, options, count};
    struct dew_error err = {0};
    struct dew_effects *e;
    double done = 0;
    char line[400];

    if (dew_effects_open(&e, s, &ask, &err) != DEW_OK)
        fail_msg("%s", dew_error_line(&err, line, sizeof line));
    while (done < 1)
        assert_int_equal(dew_effects_step(e, &done, NULL), DEW_OK);
    return e;
}

static struct dew_run *run;
static struct dew_spread *spread;
static struct dew_effects *effects; /* of the second option alone */

static int open_all(void **state)
{
    static const size_t second[] = {1};

    (void)state;
    run = run_of(TWO);
    spread = open_spread(run, 0);
    march(spread);
    effects = effects_of(spread, second, 1);
    return 0;
}

static int close_all(void **state)
{
    (void)state;
    dew_effects_close(effects);
    dew_spread_close(spread);
    dew_run_close(run);
    return 0;
}

static const char *path_of(const struct dew_spread *s, size_t column)
{
    const struct dew_spread_column c = dew_spread_column(s, column);
    size_t keys;

    return c.of == DEW_SPREAD_OF_INPUT
               ? dew_scenario_fields(&keys)[c.input->key].path
               : "";
}

/* ---- columns --------------------------------------------------------------------- */

TEST(columns_stand_for_what_is_drawn)
{
    struct dew_spread *s = open_spread(run, 1);

    assert_int_equal(dew_spread_columns(spread), 2);
    assert_string_equal(path_of(spread, 0), "people.count");
    assert_int_equal(dew_spread_column(spread, 2).of, DEW_SPREAD_OF_NOTHING);
    assert_near(dew_spread_known(spread, 2, 5), 0, 0);
    assert_string_equal(path_of(spread, 1), "moisture.dishes");
    assert_int_equal(dew_spread_columns(s), 4);
    assert_int_equal(dew_spread_column(s, 2).of, DEW_SPREAD_OF_YEAR);
    assert_int_equal(dew_spread_column(s, 3).of, DEW_SPREAD_OF_MODEL);
    assert_null(dew_spread_column(s, 3).input);
    assert_near(dew_spread_known(s, 2, 7), dew_spread_year(s, 7), 0);
    assert_near(dew_spread_known(s, 3, 7), dew_spread_off(s, 7), 0);
    assert_near(dew_spread_known(s, 1, 7),
                dew_spread_figure(s, dew_spread_column(s, 1).input, 7, 0), 0);
    dew_spread_close(s);
}

/* The same shares make the same houses, whatever the seed was and how many. */
TEST(shares_given_are_taken)
{
    enum { SOME = 9 };
    const struct dew_spread_ask ask = {
        .draws = SOME, .seed = 9, .threads = 1, .told_only = 1};
    struct dew_spread *s;
    double share[SOME];

    assert_int_equal(dew_spread_open(&s, run, &ask, NULL), DEW_OK);
    assert_true(dew_spread_share(s, 0, 3) != dew_spread_share(spread, 0, 3));
    for (size_t c = 0; c < dew_spread_columns(s); c++) {
        for (size_t i = 0; i < SOME; i++)
            share[i] = dew_spread_share(spread, c, i);
        assert_int_equal(dew_spread_give(s, c, share, NULL), DEW_OK);
    }
    march(s);
    for (size_t i = 0; i < SOME; i++)
        for (size_t k = 0; k < 2; k++)
            assert_memory_equal(dew_spread_house(s, i, k),
                                dew_spread_house(spread, i, k),
                                offsetof(struct dew_drawn, keeps));
    dew_spread_close(s);
}

TEST(shares_that_are_none_are_refused)
{
    struct dew_spread *s = open_spread(run, 0);
    double share[DRAWS], before = dew_spread_share(s, 0, 0);
    struct dew_error err = {0};

    for (size_t i = 0; i < DRAWS; i++)
        share[i] = 0.25;
    share[6] = 1;
    assert_int_equal(dew_spread_give(s, 0, share, &err), DEW_ERANGE);
    assert_string_equal(err.text,
                        "the share of draw 7 is outside 0 .. 1, ends apart");
    share[6] = 0;
    assert_int_equal(dew_spread_give(s, 0, share, NULL), DEW_ERANGE);
    assert_near(dew_spread_share(s, 0, 0), before, 0);
    share[6] = 0.5;
    assert_int_equal(dew_spread_give(spread, 0, share, NULL), DEW_ERANGE);
    dew_spread_close(s);
}

/* ---- effects --------------------------------------------------------------------- */

/* All the variance comes by the one: 1 of it, and nothing of the other. */
TEST(what_matters_brings_it_all)
{
    struct dew_effect x[DEW_EFFECTS_GROUPS];

    assert_int_equal(dew_effects_groups(effects), 2);
    assert_int_equal(dew_effects_column(effects, 0), 0);
    assert_int_equal(dew_effects_column(effects, 1), 1);
    assert_int_equal(dew_effects_of(effects, 1, x, NULL), DEW_OK);
    assert_near(x[0].total.is, 1, 0.5);
    assert_near(x[0].alone.is, 1, 0.5);
    assert_near(x[1].total.is, 0, 0.02);
    assert_near(x[1].alone.is, 0, 0.05);
    assert_true(x[1].total.is > 0);
    assert_true(x[0].total.low < x[0].total.is &&
                x[0].total.is < x[0].total.high);
}

TEST(options_not_asked_for_are_not_marched)
{
    struct dew_effect x[DEW_EFFECTS_GROUPS];
    struct dew_error err = {0};

    assert_int_equal(dew_effects_of(effects, 0, x, &err), DEW_ERANGE);
    assert_string_equal(err.text, "option 1 is not marched");
    assert_int_equal(dew_effects_of(effects, 2, x, NULL), DEW_ERANGE);
}

/* Houses of the points laid out here, on one thread: the first set, the second,
   and the first with one column of the second. */
enum { ROWS_LAID = 4 * POINTS };

static struct dew_spread *laid_out(const struct dew_run *r)
{
    const struct dew_spread_ask ask = {
        .draws = ROWS_LAID, .seed = 8, .threads = 1, .told_only = 1};
    const struct core__draws drawn = {ROWS_LAID, 4, 3};
    double v[ROWS_LAID][4], share[ROWS_LAID];
    struct dew_spread *s;

    assert_int_equal(core__draw(&drawn, v[0], NULL), DEW_OK);
    assert_int_equal(dew_spread_open(&s, r, &ask, NULL), DEW_OK);
    for (size_t c = 0; c < 2; c++) {
        for (size_t i = 0; i < ROWS_LAID; i++) {
            size_t set = i / POINTS;

            share[i] = v[i % POINTS][set == 1 || set == 2 + c ? 2 + c : c];
        }
        assert_int_equal(dew_spread_give(s, c, share, NULL), DEW_OK);
    }
    march(s);
    return s;
}

static void shares_are(const struct dew_effect_share *got,
                       const struct core__effect *want)
{
    assert_near(got->is, want->is, 0);
    assert_near(got->low, want->low, 0);
    assert_near(got->high, want->high, 0);
}

TEST(points_are_two_sets_and_the_first_with_each_column_of_the_second)
{
    struct dew_run *r = run_of(HOUSE FAN);
    struct dew_spread *s = laid_out(r);
    struct dew_effect x[DEW_EFFECTS_GROUPS];
    struct core__index index[2];
    double humid[ROWS_LAID];
    const struct core__results laid = {POINTS, 2, humid, humid + POINTS,
                                       humid + (size_t)2 * POINTS};

    for (size_t i = 0; i < ROWS_LAID; i++)
        humid[i] = dew_spread_house(s, i, 0)->too_humid;
    assert_int_equal(core__indices(&laid, index, NULL), DEW_OK);
    assert_int_equal(dew_effects_of(effects, 1, x, NULL), DEW_OK);
    for (size_t g = 0; g < 2; g++) {
        shares_are(&x[g].alone, &index[g].first);
        shares_are(&x[g].total, &index[g].total);
    }
    dew_spread_close(s);
    dew_run_close(r);
}

/* Fourteen doubted: twelve by themselves, two together, which tell least. */
TEST(the_rest_is_told_together)
{
    static const size_t one[] = {0};
    struct dew_run *r = run_of(MANY);
    struct dew_spread *s = open_spread(r, 0);
    struct dew_effect x[DEW_EFFECTS_GROUPS];
    struct dew_effects *e;
    double sum = 0;

    march(s);
    e = effects_of(s, one, 1);
    assert_int_equal(dew_spread_columns(s), 14);
    assert_int_equal(dew_effects_groups(e), DEW_EFFECTS_GROUPS);
    assert_int_equal(dew_effects_column(e, 12), 14);
    assert_string_equal(path_of(s, dew_effects_column(e, 0)), "people.count");
    assert_int_equal(dew_effects_of(e, 0, x, NULL), DEW_OK);
    for (size_t g = 0; g < DEW_EFFECTS_GROUPS; g++) {
        assert_true(x[g].total.is >= 0);
        sum += x[g].total.is;
    }
    assert_true(x[0].total.is > 0.5 * sum);
    /* 1 but for chance: 16 squares, a third off */
    assert_true(sum > 0.3 && sum < 1.7);
    /* our own figures, by which columns of the rest and their places show */
    assert_near(x[0].total.is, 0.6557, 0.002);
    assert_near(x[12].total.is, 0.000263, 0.00002);
    assert_near(x[12].alone.is, 0.00111, 0.0001);
    dew_effects_close(e);
    dew_spread_close(s);
    dew_run_close(r);
}

/* Rooms that may be too low to stand in: points that break the rule are left out,
   and none of the houses marched does. */
TEST(points_that_are_no_house_are_left_out)
{
    static const size_t one[] = {0};
    struct dew_run *r = run_of(
        STILL "house: {floor_area: 170 m2 (130 to 210), volume: 340 m3 (250 to "
              "500), bedrooms: 3, airtightness: 1.3 ach50}\n");
    struct dew_spread *s = open_spread(r, 0);
    struct dew_effect x[DEW_EFFECTS_GROUPS];
    struct dew_effects *e;
    size_t anew;

    march(s);
    (void)dew_spread_anew(s, &anew);
    assert_true(anew > 0);
    e = effects_of(s, one, 1);
    assert_int_equal(dew_effects_of(e, 0, x, NULL), DEW_OK);
    assert_true(x[0].total.is > 0);
    dew_effects_close(e);
    dew_spread_close(s);
    dew_run_close(r);
}

TEST(what_cannot_be_told_is_refused)
{
    static const size_t bad[] = {2};
    struct dew_effects_ask ask = {POINTS, bad, 1};
    struct dew_spread *s = open_spread(run, 0);
    struct dew_effects *e = NULL;
    struct dew_error err = {0};

    assert_int_equal(dew_effects_open(&e, spread, &ask, &err), DEW_ERANGE);
    assert_string_equal(err.text, "there is no option 3");
    ask.option_count = 0;
    assert_int_equal(dew_effects_open(&e, spread, &ask, NULL), DEW_ERANGE);
    err = (struct dew_error){0};
    assert_int_equal(dew_effects_open(&e, s, &ask, &err), DEW_ERANGE);
    assert_string_equal(err.text,
                        "what counts is told by 50 draws or more, all "
                        "marched");
    ask.points = 8;
    err = (struct dew_error){0};
    assert_int_equal(dew_effects_open(&e, spread, &ask, &err), DEW_ERANGE);
    assert_string_equal(err.text, "8 points are outside 16 .. 8192");
    assert_null(e);
    dew_effects_close(NULL);
    dew_spread_close(s);
}

RUN_TESTS_IN("where doubt comes from", open_all, close_all);
