/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amounts against the figures they were published in; shapes, habits and
   decay against their own integrals. */
#include "support/rows.h"

#include <string.h>

#include "dew/air.h"
#include "dew/sources.h"

static const double pint = 0.473176473; /* kg of water at 1 kg/L, exact pint */

/* clang-format off */
static const struct published { const char *source; const char *name; double pints, tol; } published_rows[] = {
    /* tolerance: half of the last digit of pints, and of our kilograms */
    {"[AO88] shower 0.5 pint",             "shower",          0.5,  0.03},
    {"[AO88] tub bath 0.1 pint",           "bath",            0.1,  0.03},
    {"[AO88] dinner 1.2 pints",            "dinner_electric", 1.2,  0.03},
    {"[AO88] dinner by gas 2.8 pints",     "dinner_gas",      2.8,  0.03},
    {"[AO88] sauna 2.7 pints an hour",     "sauna",           2.7,  0.08},
    {"[AO88] gas pilot 0.37 pint a day",   "gas_pilot",       0.37, 0.012},
    {"[AO88] new materials 10 pints a day", "new_materials",  10.0, 0.11},
    {"[AO88] plants 0.86 - 0.96 pint",     "house_plants",    0.91, 0.012},
    {"day of meals 0.35 + 0.53 + 1.22 pints, from memory", "cooking_electric", 2.10, 0.012},
    {"the same by gas, + 0.56 + 0.68 + 1.58, from memory", "cooking_gas",      4.92, 0.012},
    {"day of dishes 0.21 + 0.16 + 0.68, from memory",      "dishes_by_hand",   1.05, 0.012},
};

/* Ends of a range, kg. */
static const struct end { const char *source; const char *name; double low, high; } end_rows[] = {
    {"[NZ-MRM] washing, 1.5 a day for 2.5 persons: of one",  "washing_person",  0.20, 1.5 / 2.5},
    {"[NZ-MRM] dishes, 1.0 a day for 2.5 persons: for four", "dishes_by_hand",  0.32, 1.0 / 2.5 * 4},
    {"German tables: a cycle 190 to 360 g",                  "washing_machine", 0.19, 0.36},
    {"[AO88] ground, 0 to 105 pints a day",                  "bare_crawl_space", 0.0, 50.0},
};

/* Grown people [ASH-F18]: W dry, W of latent heat (NaN: ours lies below). */
static const struct body_row { const char *source; enum dew_activity activity; double sensible, latent; } body_rows[] = {
    {"[ASH-F18] seated, very light work 70 and 45 W",        DEW_REST,   70, NAN},
    {"[ASH-F18] moderately active office work 75 and 55 W",  DEW_ACTIVE, 75, 55},
};

/* clang-format on */

static void amount_is_the_published(void **state)
{
    const struct published *row = *state;
    const struct dew_amount *amount = dew_house_amount(row->name);

    assert_non_null(amount);
    assert_near(amount->likely / pint, row->pints, row->tol);
}

static void range_ends_where_the_source_does(void **state)
{
    const struct end *row = *state;
    const struct dew_amount *amount = dew_house_amount(row->name);

    assert_near(amount->low, row->low, 1e-9);
    assert_near(amount->high, row->high, 1e-9);
}

/* 0.4 L of each m2 of bare ground a day [BRANZ14]; 3 lb of 1000 ft2 of slab
   [CD06], 453.6 g and 92.9 m2. */
TEST(bare_ground_is_the_published)
{
    const double slab = 3 * 0.45359237 / 92.90304 * 100;

    assert_near(dew_house_amount("bare_crawl_space")->likely, 0.4 * 100, 1e-9);
    assert_near(dew_house_amount("damp_slab")->likely, slab, 0.05);
}

static void body_is_the_published(void **state)
{
    const struct body_row *row = *state;
    const struct dew_body *body = dew_house_body(row->activity);
    const double heat = 2.43e6 / 3600; /* W h/kg at 30 degC */

    assert_near(body->sensible, row->sensible, 0.5);
    if (!isnan(row->latent)) {
        assert_near(body->water * heat, row->latent, 0.5);
        return;
    }
    /* at rest: no more than 45 W, no less than AO88's family at home */
    assert_near(body->high * heat, 45, 0.5);
    assert_true(body->water < body->high);
    assert_true(body->water > 0.44 * pint / 4);
}

TEST(every_amount_has_source_and_order)
{
    size_t count;
    const struct dew_amount *rows = dew_house_amounts(&count);

    assert_true(count > 25);
    for (size_t i = 0; i < count; i++) {
        assert_true(rows[i].low <= rows[i].likely);
        assert_true(rows[i].likely <= rows[i].high && rows[i].high > 0.0);
        assert_true(rows[i].source < DEW_SOURCES);
        assert_true(strlen(rows[i].origin) > 5);
        assert_ptr_equal(dew_house_amount(rows[i].name), &rows[i]);
    }
    assert_null(dew_house_amount("nothing of the kind"));
}

static double sum_of(const double day[24])
{
    double sum = 0.0;

    for (int h = 0; h < 24; h++)
        sum += day[h];
    return sum;
}

TEST(shapes_sum_to_one)
{
    struct dew_shape shape;
    struct dew_error err = {0};
    char line[300];
    size_t i;

    for (i = 0; dew_house_shape_name(i) != NULL; i++) {
        assert_int_equal(dew_house_shape(dew_house_shape_name(i), &shape, NULL),
                         DEW_OK);
        assert_near(sum_of(shape.weekday), 1.0, 1e-15);
        assert_near(sum_of(shape.weekend), 1.0, 1e-15);
    }
    assert_int_equal(i, 7);
    assert_int_equal(dew_house_shape("brunch", &shape, &err), DEW_EUNKNOWN);
    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "shape: no shape is called \"brunch\"");
}

/* Heat, water and CO2 of a week, summed again hour by hour over activities. */
TEST(habits_give_their_own_sums)
{
    for (size_t i = 0; dew_house_habit_at(i) != NULL; i++) {
        const struct dew_habit *habit = dew_house_habit_at(i);
        struct dew_people people = {.gains_w = 417.0};
        struct dew_water water;
        double heat = 0.0, kg = 0.0, hours = 0.0;

        assert_ptr_equal(dew_house_habit(habit->name), habit);
        assert_int_equal(dew_house_people(2.5, habit, &people, &water, NULL),
                         DEW_OK);
        for (int h = 0; h < 24 * 7; h++) {
            int w = h >= 24 * 5;
            double here = habit->present[w][h % 24];
            double s = habit->asleep[w][h % 24], a = habit->active[w][h % 24];

            assert_true(here >= 0 && here <= 1 && s >= 0 && s <= 1);
            hours += here;
            heat += here * (s * 55 + (1 - s) * (a * 75 + (1 - a) * 70));
            kg += here * (s * .040 + (1 - s) * (a * .081 + (1 - a) * .055));
        }
        assert_near(people.sensible_w, heat / hours, 1e-12);
        assert_near(water.per_day, 2.5 * kg / 7.0, 1e-12);
        assert_near(sum_of(water.shape.weekday), 1.0, 1e-14);
        assert_near(sum_of(water.shape.weekend), 1.0, 1e-14);
        assert_near(people.gains_w, 417.0, 0.0);
        assert_true(people.co2 > 3.2e-6 && people.co2 < 8e-6);
    }
    assert_null(dew_house_habit("hermit"));
}

/* 0.44 pint an hour for four, [AO88]: 1.25 kg a day each, children among
   them; ours are grown and give more, no more than at rest by [ASH-F18] all
   day but for 8 h of sleep. */
TEST(a_person_at_home_gives_about_a_litre)
{
    struct dew_people people = {0};
    struct dew_water water;
    struct dew_error err = {0};
    char line[300];

    assert_int_equal(dew_house_people(1.0, dew_house_habit("all_day"), &people,
                                      &water, NULL),
                     DEW_OK);
    assert_true(water.per_day > 24 * 0.44 * pint / 4);
    assert_true(water.per_day < 16 * 0.067 + 8 * 0.050);
    assert_near(water.per_day, 1.359, 5e-4); /* regression */
    assert_int_equal(dew_house_people(41.0, dew_house_habit("all_day"), &people,
                                      &water, &err),
                     DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "count: 41 is outside 0 .. 40 persons");
}

/* At the state it was told in, a felt source gives its daily figure back. */
TEST(felt_source_gives_its_day)
{
    struct dew_water plants = dew_house_felt(DEW_SOURCE_plants, 0.43);
    struct dew_water slab = dew_house_felt(DEW_SOURCE_ground, 1.7);
    double pv = 0.5 * dew_air_pws(20.0);

    assert_near(plants.rate * pv * 86400.0, 0.43, 1e-14);
    assert_near(plants.heat_share, 1.0, 0.0);
    assert_near(dew_house_told(&plants), 0.43, 1e-14);
    plants.per_day = 0.2;
    assert_near(dew_house_told(&plants), 0.63, 1e-14);
    assert_near(slab.rate * pv * 86400.0, 1.7, 1e-13);
    assert_near(slab.heat_share, 1.0, 0.0);
}

TEST(drying_gives_back_its_water)
{
    struct dew_water d = dew_house_drying(937.0, 171.0, 12.0);
    double steps = 0.0;

    assert_near(dew_house_dried(&d, 12.0, 12.0 + 171.0), 468.5, 1e-10);
    assert_near(dew_house_dried(&d, 0.0, 1e6), 937.0, 1e-9);
    assert_near(dew_house_dried(&d, 0.0, 12.0), 0.0, 0.0);
    for (int i = 0; i < 365; i++)
        steps += dew_house_dried(&d, i, i + 1.0);
    assert_near(steps, dew_house_dried(&d, 0.0, 365.0), 1e-10);
    /* the first day's rate is the scheduled one */
    assert_near(dew_house_dried(&d, 12.0, 12.001) / 0.001, d.per_day, 1e-4);
}

TEST(total_is_spread)
{
    struct dew_water water[DEW_SOURCES] = {{0}};
    struct dew_shape shape;
    struct dew_error err = {0};
    double sum = 0.0;
    char line[300];

    assert_int_equal(dew_house_shape("waking", &shape, NULL), DEW_OK);
    assert_int_equal(dew_house_spread_total(11.3, &shape, water, NULL), DEW_OK);
    assert_near(water[DEW_SOURCE_other].per_day, 11.3, 0.0);
    water[DEW_SOURCE_people] =
        dew_house_scheduled(DEW_SOURCE_people, 4.1, &shape);
    water[DEW_SOURCE_other].per_day = 2.3;
    assert_int_equal(dew_house_spread_total(9.7, &shape, water, NULL), DEW_OK);
    for (int i = 0; i < DEW_SOURCES; i++)
        sum += water[i].per_day;
    assert_near(sum, 9.7, 1e-14);
    assert_near(water[DEW_SOURCE_people].per_day, 9.7 * 4.1 / 6.4, 1e-14);
    assert_int_equal(dew_house_spread_total(-1.0, &shape, water, &err),
                     DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "total: -1 is outside 0 .. 500 kg/day");
}

ROWS(published_rows, amount_is_the_published);
ROWS(end_rows, range_ends_where_the_source_does);
ROWS(body_rows, body_is_the_published);
RUN_TESTS("house, sources");
