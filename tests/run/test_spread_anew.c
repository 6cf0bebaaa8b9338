/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is drawn in the place of houses that could not be, and of what nobody
 * told.
 */
#include "dew/spread.h"

#include <string.h>

#include "support/asked_run.h"
#include "support/rows.h"

#define HOUSE                                                                  \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1830 ft2 (1700 to 1900), bedrooms: 3, airtightness: " \
    "1.3 ach50 (0.7 to 2.6)}\n"                                                \
    "run: {steps_per_hour: 2}\n"                                               \
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

enum { DRAWS = 18 };

static struct dew_run *run_of(const char *text, const char *const *sets,
                              size_t set_count)
{
    return asked_with("house.yaml", text, sets, set_count);
}

static const struct dew_spread_input *input(const struct dew_spread *s,
                                            const char *path)
{
    size_t count, keys;
    const struct dew_spread_input *x = dew_spread_inputs(s, &count);
    const struct dew_field *f = dew_scenario_fields(&keys);

    for (size_t i = 0; i < count; i++)
        if (strcmp(f[x[i].key].path, path) == 0)
            return &x[i];
    return NULL;
}

/* ---- what breaks a rule between keys ---------------------------------------------- */

#define HEAT "temperature.heat=70 degF (66 to 80)"
#define COOL "temperature.cool=75 degF (71 to 80)"

static struct dew_spread *told_of(const struct dew_run *r, size_t draws)
{
    const struct dew_spread_ask ask = {
        .draws = draws, .seed = 1, .threads = 2, .told_only = 1};
    struct dew_error err = {0};
    struct dew_spread *s;
    char line[400];

    if (dew_spread_open(&s, r, &ask, &err) != DEW_OK)
        fail_msg("%s", dew_error_line(&err, line, sizeof line));
    return s;
}

/* Points of the sequence that no draw of 64 breaks are as they were; those in
   place of others come after them, in order. */
TEST(a_draw_that_is_no_house_makes_room_for_the_next)
{
    const char *const sets[] = {HEAT, COOL};
    const char *const apart[] = {HEAT, "temperature.cool=85 degF (81 to 90)"};
    enum { SOME = 64 };
    struct dew_run *r = run_of(HOUSE, sets, 2),
                   *free_of = run_of(HOUSE, apart, 2);
    struct dew_spread *s = told_of(r, SOME);
    struct dew_spread *all = told_of(free_of, 2 * SOME);
    const struct dew_spread_input *heat, *cool, *heat_all, *cool_all;
    const double k = 5 / 9.0, shift = 10 * k;
    const struct dew_spread_anew *anew;
    size_t count, next = SOME, replaced = 0;

    heat = input(s, "temperature.heat");
    cool = input(s, "temperature.cool");
    heat_all = input(all, "temperature.heat");
    cool_all = input(all, "temperature.cool");
    for (size_t i = 0; i < SOME; i++) {
        size_t from = i;
        double h = dew_spread_figure(all, heat_all, i, 0);
        double c = dew_spread_figure(all, cool_all, i, 0) - shift;

        assert_true(dew_spread_figure(s, heat, i, 0) <=
                    dew_spread_figure(s, cool, i, 0));
        if (h > c) {
            replaced++;
            while (dew_spread_figure(all, heat_all, next, 0) >
                   dew_spread_figure(all, cool_all, next, 0) - shift)
                next++;
            from = next++;
        }
        assert_near(dew_spread_figure(s, heat, i, 0),
                    dew_spread_figure(all, heat_all, from, 0), 1e-9);
        assert_near(dew_spread_figure(s, cool, i, 0),
                    dew_spread_figure(all, cool_all, from, 0) - shift, 1e-9);
    }
    anew = dew_spread_anew(s, &count);
    assert_true(replaced > 0);
    assert_int_equal(count, 1);
    assert_int_equal(anew[0].count, replaced);
    assert_string_equal(anew[0].rule.path, "temperature.heat");
    assert_string_equal(anew[0].rule.text,
                        "heats to above what temperature.cool cools to: the "
                        "lower one is for heating");
    (void)dew_spread_anew(all, &count);
    assert_int_equal(count, 0);
    dew_spread_close(all);
    dew_spread_close(s);
    dew_run_close(free_of);
    dew_run_close(r);
}

/* A symmetrical range about the other's figure: of a power of two draws just
   half break the rule, and just as many further ones keep it. */
TEST(half_of_the_draws_may_be_drawn_anew)
{
    const char *const sets[] = {"temperature.heat=72 degF (66 to 78)",
                                "temperature.cool=72 degF"};
    enum { SOME = 64 };
    struct dew_run *r = run_of(HOUSE, sets, 2);
    struct dew_spread *s = told_of(r, SOME);
    const struct dew_spread_input *heat = input(s, "temperature.heat");
    const struct dew_spread_anew *anew;
    size_t count;

    anew = dew_spread_anew(s, &count);
    assert_int_equal(count, 1);
    assert_int_equal(anew[0].count, SOME / 2);
    for (size_t i = 0; i < SOME; i++)
        assert_true(dew_spread_figure(s, heat, i, 0) <=
                    dew_spread_figure(s, heat, SOME, 0));
    dew_spread_close(s);
    dew_run_close(r);
}

/* Draws given that break the rule become like the next that keeps it, past the
   end like the first. */
TEST(a_draw_given_that_is_no_house_becomes_the_next)
{
    const char *const sets[] = {"temperature.heat=72 degF (66 to 78)",
                                "temperature.cool=72 degF"};
    enum { SOME = 8 };
    static const double given[SOME] = {0.31, 0.7,  0.8, 0.12,
                                       0.44, 0.23, 0.4, 0.9},
                        is[SOME] = {0.31, 0.12, 0.12, 0.12,
                                    0.44, 0.23, 0.4,  0.31};
    struct dew_run *r = run_of(HOUSE, sets, 2);
    struct dew_spread *s = told_of(r, SOME);
    size_t count, at = input(s, "temperature.heat")->column;
    double none[SOME];

    assert_int_equal(dew_spread_give(s, at, given, NULL), DEW_OK);
    assert_int_equal(dew_spread_mend(s, NULL), DEW_OK);
    assert_int_equal(dew_spread_anew(s, &count)[0].count, 3);
    assert_int_equal(count, 1);
    for (size_t i = 0; i < SOME; i++)
        assert_near(dew_spread_share(s, at, i), is[i], 0);
    for (size_t i = 0; i < SOME; i++)
        none[i] = 0.6;
    assert_int_equal(dew_spread_give(s, at, none, NULL), DEW_OK);
    (void)dew_spread_anew(s, &count);
    assert_int_equal(count, 0);
    assert_int_equal(dew_spread_mend(s, NULL), DEW_ERANGE);
    dew_spread_close(s);
    dew_run_close(r);
}

/* ---- what nobody told ---------------------------------------------------------------- */

static const struct usual_row {
    const char *name;
    enum dew_spread_why why;
    int usual;
} usual_rows[] = {
    {"house.floor_area", DEW_SPREAD_DRAWN, 0},
    {"surfaces.edge_factor", DEW_SPREAD_DRAWN, 1},
    {"surfaces.corner_factor", DEW_SPREAD_DRAWN, 1},
    {"people.appliances", DEW_SPREAD_DRAWN, 1},
    {"moisture.showers", DEW_SPREAD_SURE, 0},
    {"ducts.mixing", DEW_SPREAD_STILL, 1},
    {"moisture.drying_half_life", DEW_SPREAD_STILL, 0},
};

TEST(what_nobody_told_is_drawn_from_what_is_usual)
{
    const struct dew_spread_ask ask = {.draws = DRAWS, .seed = 1, .threads = 2};
    struct dew_run *r = run_of(SCENARIO, NULL, 0);
    struct dew_spread *s = NULL, *told = told_of(r, DRAWS);
    const struct dew_spread_input *x;

    assert_int_equal(dew_spread_open(&s, r, &ask, NULL), DEW_OK);
    for (size_t i = 0; i < COUNT_OF(usual_rows); i++) {
        x = input(s, usual_rows[i].name);
        assert_non_null(x);
        assert_int_equal(x->why, usual_rows[i].why);
        assert_int_equal(x->usual, usual_rows[i].usual);
        assert_true((x->still != NULL) == (x->why == DEW_SPREAD_STILL));
    }
    assert_string_equal(input(s, "ducts.mixing")->still,
                        "no layout is written");
    assert_null(input(s, "prices.gas"));
    x = input(s, "surfaces.edge_factor"); /* 55 % (45 to 70) */
    for (size_t i = 0; i < DRAWS; i++) {
        double drawn = dew_spread_figure(s, x, i, 0);

        assert_true(drawn > 0.45 && drawn < 0.70);
    }
    assert_near(dew_spread_figure(s, x, DRAWS, 0), 0.55, 1e-12);
    x = input(s, "people.appliances"); /* factors */
    assert_near(dew_spread_figure(s, x, DRAWS, 1), 1, 0);
    /* what is told is drawn as without the rest */
    x = input(s, "house.floor_area");
    for (size_t i = 0; i < DRAWS; i++)
        assert_near(
            dew_spread_figure(s, x, i, 0),
            dew_spread_figure(told, input(told, "house.floor_area"), i, 0), 0);
    dew_spread_close(told);
    dew_spread_close(s);
    dew_run_close(r);
}

/* ---- words ----------------------------------------------------------------------------- */

/* Half of the houses have each; the likely house has the first. */
TEST(a_word_in_doubt_is_one_or_the_other)
{
    const char *const sets[] = {"people.count=4", "house.floor_area=1830 ft2",
                                "house.airtightness=1.3 ach50",
                                "cooling.cycles=3.4 per hour",
                                "house.construction=light or heavy"};
    struct dew_run *r = run_of(HOUSE, sets, 5);
    struct dew_spread *s = told_of(r, DRAWS);
    const struct dew_spread_input *x = input(s, "house.construction");
    double done = 0, by_word[4] = {-1, -1, -1, -1};
    size_t heavy = 0;

    assert_int_equal(x->why, DEW_SPREAD_DRAWN);
    while (done < 1)
        assert_int_equal(dew_spread_step(s, &done, NULL), DEW_OK);
    for (size_t i = 0; i < DRAWS; i++) {
        int word = (int)dew_spread_figure(s, x, i, 0);
        double h = dew_spread_house(s, i, 0)->too_humid;

        assert_true(word == 1 || word == 3);
        heavy += word == 3;
        if (by_word[word] < 0)
            by_word[word] = h;
        assert_near(h, by_word[word], 0);
    }
    assert_int_equal(heavy, DRAWS / 2);
    assert_true(by_word[1] != by_word[3]);
    assert_near(dew_spread_house(s, DRAWS, 0)->too_humid, by_word[1], 0);
    dew_spread_close(s);
    dew_run_close(r);
}

RUN_TESTS("houses drawn anew");
