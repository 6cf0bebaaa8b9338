/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures that a spread holds in every house, and the likely house alone. */
#include "dew/spread.h"

#include <string.h>

#include "run/spread.h"
#include "support/asked_run.h"
#include "support/rows.h"

/* Two options that branch apart; ranges of every kind. */
#define HOUSE                                                                  \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1830 ft2 (1700 to 1900), bedrooms: 3, airtightness: " \
    "1.3 ach50 (0.7 to 2.6)}\n"                                                \
    "run: {steps_per_hour: 1}\n"                                               \
    "cooling: {capacity: 2.5 ton, shr: 74 %, cycles: 3.4 per hour (2 to 6)}\n" \
    "moisture: {showers: 4.2 per day, drying_half_life: 90 day (60 to 120)}\n" \
    "prices: {electricity: 0.18 $/kWh (0.12 to 0.40)}\n"
#define SCENARIO                                                               \
    HOUSE "options:\n"                                                         \
          "  - name: as it stands\n"                                           \
          "  - name: tight, with a core\n"                                     \
          "    house: {airtightness: 0.6 ach50 (0.4 to 1.1)}\n"                \
          "    ventilator: {core: enthalpy_plate, sensible: 71 % (60 to 80) "  \
          "at 95 cfm, moisture: 53 % at 95 cfm, power: 61 W}\n"                \
          "    dehumidifier: {rate: 70 pint/day, set: 61 % (57 to 68)}\n"      \
          "    costs: {install: 5000 $ (4000 to 7000)}\n"
/* No figure with a range. */
#define SURE                                                                   \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}\n"    \
    "run: {steps_per_hour: 1}\n"                                               \
    "options: [{name: as it stands}, {name: tight, house: {airtightness: "     \
    "0.6 ach50}}]\n"

enum { DRAWS = 4 };

static struct dew_run *run_of(const char *text, const char *const *sets,
                              size_t set_count)
{
    return asked_with("house.yaml", text, sets, set_count);
}

static struct dew_spread *spread_of(const struct dew_run *run, size_t threads,
                                    unsigned long seed)
{
    const struct dew_spread_ask ask = {
        .draws = DRAWS, .seed = seed, .threads = threads, .told_only = 1};
    struct dew_error err = {0};
    struct dew_spread *s;
    double done = 0;
    char line[400];

    if (dew_spread_open(&s, run, &ask, &err) != DEW_OK)
        fail_msg("%s", dew_error_line(&err, line, sizeof line));
    while (done < 1)
        if (dew_spread_step(s, &done, &err) != DEW_OK)
            fail_msg("%s", dew_error_line(&err, line, sizeof line));
    return s;
}

static void march_all(struct dew_spread *s)
{
    double done = 0;

    while (done < 1)
        assert_int_equal(dew_spread_step(s, &done, NULL), DEW_OK);
}

TEST(a_figure_held_is_that_of_set_in_every_house)
{
    const char *const sets[] = {"people.count=2",
                                "dehumidifier.rate=31 pint/day"};
    const struct dew_change held[] = {
        {.path = "people.count", .si = 2},
        {.path = "dehumidifier.rate", .si = 31 * 0.473176473 / 86400}};
    const struct dew_changes changes = {held, 2};
    struct dew_run *r = run_of(SCENARIO, sets, 2);
    struct dew_run *plain = run_of(SCENARIO, NULL, 0);
    struct dew_spread *other = spread_of(r, 1, 3);
    struct dew_spread *s = spread_of(plain, 1, 3);
    double before = dew_spread_house(s, 3, 1)->too_humid;

    dew_spread_fix(s, &changes);
    assert_null(dew_spread_house(s, 0, 0)); /* not marched again yet */
    march_all(s);
    for (size_t draw = 0; draw <= DRAWS; draw++)
        for (size_t i = 0; i < 2; i++)
            assert_near(dew_spread_house(s, draw, i)->too_humid,
                        dew_spread_house(other, draw, i)->too_humid, 1e-6);
    dew_spread_fix(s, NULL);
    march_all(s);
    assert_near(dew_spread_house(s, 3, 1)->too_humid, before, 1e-6);
    dew_spread_close(s);
    dew_spread_close(other);
    dew_run_close(plain);
    dew_run_close(r);
}

TEST(a_figure_held_is_not_drawn)
{
    const struct dew_change held = {.path = "house.airtightness", .si = 0.9};
    const struct dew_changes changes = {&held, 1};
    struct dew_run *r = run_of("weather: {place: 722020}\n"
                               "house: {floor_area: 170 m2, bedrooms: 3, "
                               "airtightness: 1.3 ach50 (0.7 to 2.6)}\n"
                               "cooling: {capacity: 2.5 ton}\n"
                               "run: {steps_per_hour: 1}\n",
                               NULL, 0);
    struct dew_spread *s = spread_of(r, 1, 3);

    assert_true(dew_spread_house(s, 0, 0)->too_humid !=
                dew_spread_house(s, 1, 0)->too_humid);
    dew_spread_fix(s, &changes);
    march_all(s);
    for (size_t draw = 0; draw < DRAWS; draw++)
        assert_near(dew_spread_house(s, draw, 0)->too_humid,
                    dew_spread_house(s, DRAWS, 0)->too_humid, 1e-6);
    dew_spread_close(s);
    dew_run_close(r);
}

TEST(no_draw_is_the_likely_house_alone)
{
    const struct dew_spread_ask none = {.seed = 1, .threads = 1};
    struct dew_run *r = run_of("weather: {place: 722020}\n"
                               "house: {floor_area: 170 m2, bedrooms: 3}\n"
                               "run: {steps_per_hour: 1}\n",
                               NULL, 0);
    struct dew_spread *s = NULL;

    assert_int_equal(dew_spread_open(&s, r, &none, NULL), DEW_OK);
    march_all(s);
    assert_true(dew_spread_house(s, 0, 0)->short_of_air > 0);
    assert_nan(
        dew_draws_range(dew_spread_draws(s), 0, DEW_DRAWN_too_humid).p10);
    assert_near(
        dew_draws_range(dew_spread_draws(s), 0, DEW_DRAWN_too_humid).told,
        dew_spread_house(s, 0, 0)->too_humid, 0);
    dew_spread_close(s);
    dew_run_close(r);
}

/* ---- likely houses of several spreads, side by side ----------------------------- */

static const struct dew_spread_ask likely_alone = {.threads = 1,
                                                   .told_only = 1};

static struct dew_spread *not_begun(const struct dew_run *of)
{
    struct dew_spread *s;

    assert_int_equal(dew_spread_open(&s, of, &likely_alone, NULL), DEW_OK);
    return s;
}

static void assert_same_likely(const struct dew_spread *a,
                               const struct dew_spread *b)
{
    for (size_t i = 0; i < 2; i++) {
        const struct dew_drawn *x = dew_spread_house(a, 0, i);
        const struct dew_drawn *y = dew_spread_house(b, 0, i);

        for (int k = 0; k < DEW_DRAWN_FIGURES; k++) {
            double p = dew_drawn_figure(x, (enum dew_drawn_what)k);
            double q = dew_drawn_figure(y, (enum dew_drawn_what)k);

            assert_memory_equal(&p, &q, sizeof p); /* NaN too */
        }
        assert_int_equal(x->best, y->best);
    }
}

enum { SEVERAL = 3 };

struct several {
    struct dew_run *runs[SEVERAL];
    struct dew_spread *spreads[SEVERAL], *alone[SEVERAL];
};

static void open_several(struct several *s, const char *text)
{
    static const char *const sets[SEVERAL] = {
        "people.count=1", "people.count=3", "people.count=6"};

    for (size_t i = 0; i < SEVERAL; i++) {
        s->runs[i] = run_of(text, &sets[i], 1);
        s->spreads[i] = not_begun(s->runs[i]);
        s->alone[i] = not_begun(s->runs[i]);
    }
}

static void close_several(struct several *s)
{
    for (size_t i = 0; i < SEVERAL; i++) {
        dew_spread_close(s->spreads[i]);
        dew_spread_close(s->alone[i]);
        dew_run_close(s->runs[i]);
    }
}

static void assert_side_by_side(const char *text)
{
    struct several s;
    double done = 0;

    open_several(&s, text);
    assert_int_equal(dew_spread_likely(s.spreads, SEVERAL, NULL), DEW_OK);
    for (size_t i = 0; i < SEVERAL; i++) {
        assert_int_equal(dew_spread_step(s.alone[i], &done, NULL), DEW_OK);
        assert_same_likely(s.spreads[i], s.alone[i]);
    }
    /* those have begun */
    assert_int_equal(dew_spread_likely(s.spreads, SEVERAL, NULL), DEW_ERANGE);
    close_several(&s);
}

TEST(likely_houses_side_by_side_are_those_of_each_step)
{
    assert_side_by_side(SCENARIO);
}

TEST(so_are_those_of_which_nothing_is_drawn)
{
    assert_side_by_side(SURE);
}

/* One of them runs away: none has begun, and each may be stepped. */
TEST(where_one_fails_each_goes_by_itself)
{
    struct dew_change hot = {.path = "people.appliances", .si = 5e6};
    const struct dew_changes changes = {&hot, 1};
    struct several s;
    struct dew_error err = {0};
    double done = 0;

    open_several(&s, SCENARIO);
    dew_spread_fix(s.spreads[1], &changes);
    assert_int_equal(dew_spread_likely(s.spreads, SEVERAL, &err), DEW_EBALANCE);
    assert_null(dew_spread_house(s.spreads[0], 0, 0));
    for (size_t i = 0; i < SEVERAL; i++)
        assert_int_equal(dew_spread_step(s.spreads[i], &done, NULL),
                         i == 1 ? DEW_EBALANCE : DEW_OK);
    assert_int_equal(dew_spread_step(s.alone[2], &done, NULL), DEW_OK);
    assert_same_likely(s.spreads[2], s.alone[2]);
    close_several(&s);
}

/* Of the made years those are made that a house is to march in, once one is; the
   run's own is there from the start. */
TEST(years_that_no_house_stands_in_are_not_made)
{
    struct dew_run *r = run_of(HOUSE, NULL, 0);
    const struct dew_spread_ask ask = {
        .draws = DRAWS, .seed = 1, .told_only = 1, .years = 1};
    int stands[DEW_SPREAD_YEARS] = {1};
    struct dew_spread *s;

    assert_int_equal(dew_spread_open(&s, r, &ask, NULL), DEW_OK);
    for (int y = 0; y < DEW_SPREAD_YEARS; y++)
        assert_int_equal(s->years[y].weather.hours != NULL, y == 0);
    march_all(s);
    for (size_t d = 0; d < DRAWS; d++)
        stands[dew_spread_year(s, d)] = 1;
    for (int y = 0; y < DEW_SPREAD_YEARS; y++)
        assert_int_equal(s->years[y].weather.hours != NULL, stands[y]);
    dew_spread_close(s);
    dew_run_close(r);
}

RUN_TESTS("spread held");
