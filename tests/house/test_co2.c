/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/rows.h"

#include "dew/sources.h"

/* clang-format off */
static const struct person { const char *source; enum dew_sex sex; double age, mass, basal, met, litres, tol; } person_rows[] = {
    {"[PJ17] man of 21 - 30, 1.2 met: 0.0048 L/s", DEW_MALE,   25, 84.9, 8.245, 1.2, 0.0048,  5e-5},
    {"man of 21 - 30, 1.0 met (regression)",       DEW_MALE,   25, 84.9, 8.245, 1.0, 0.00399, 5e-6},
    {"man of 21 - 30, 2.0 met (regression)",       DEW_MALE,   25, 84.9, 8.245, 2.0, 0.00797, 5e-6},
    {"man of 21 - 30, 1.4 met (regression)",       DEW_MALE,   25, 84.9, 8.245, 1.4, 0.00558, 5e-6},
    {"man of 21 - 30, 1.6 met (regression)",       DEW_MALE,   25, 84.9, 8.245, 1.6, 0.00638, 5e-6},
    {"man of 21 - 30, 3.0 met (regression)",       DEW_MALE,   25, 84.9, 8.245, 3.0, 0.01196, 5e-6},
    {"woman of 21 - 30, 1.0 met (regression)",     DEW_FEMALE, 25, 71.9, 6.494, 1.0, 0.00314, 5e-6},
    {"woman of 21 - 30, 1.4 met (regression)",     DEW_FEMALE, 25, 71.9, 6.494, 1.4, 0.00440, 5e-6},
    {"woman of 21 - 30, 1.6 met (regression)",     DEW_FEMALE, 25, 71.9, 6.494, 1.6, 0.00502, 5e-6},
    {"woman of 21 - 30, 2.0 met (regression)",     DEW_FEMALE, 25, 71.9, 6.494, 2.0, 0.00628, 5e-6},
    {"woman of 21 - 30, 1.2 met (regression)",     DEW_FEMALE, 25, 71.9, 6.494, 1.2, 0.00377, 5e-6},
    {"woman of 21 - 30, 3.0 met (regression)",     DEW_FEMALE, 25, 71.9, 6.494, 3.0, 0.00942, 5e-6},
};

static const struct rise { const char *source; double generation, flow, ppm, tol; } rise_rows[] = {
    /* 15 cfm a person, about 700 ppm above outdoors: common trade figure */
    {"0.0052 L/s in 7.5 L/s: 693 ppm", 0.0052, 7.5, 693, 0.5},
    {"0.0048 L/s in 10 L/s: 480 ppm",  0.0048, 10,  480, 1e-9},
    {"0.0035 L/s in 5 L/s: 700 ppm",   0.0035, 5,   700, 1e-9},
};

static const struct night { const char *source; double flow, ppm, tol; } night_rows[] = {
    /* two asleep, 30 m3, 400 ppm outdoors, 8 h (closed form) */
    {"bedroom at 7.5 L/s: 1332.6 ppm after 8 h", 7.5, 1332.6, 0.05},
    {"bedroom at 5 L/s: 1788.5 ppm after 8 h",   5.0, 1788.5, 0.05},
};
/* clang-format on */

static void person_is_the_quoted(void **state)
{
    const struct person *row = *state;
    double basal = dew_house_basal(row->sex, row->age, row->mass);

    assert_near(basal, row->basal, 5e-4);
    assert_near(1e3 * dew_house_co2(basal, row->met, 0.0, 101325.0),
                row->litres, row->tol);
}

static void rise_is_generation_over_flow(void **state)
{
    const struct rise *row = *state;

    assert_near(dew_house_co2_rise(1e-3 * row->generation, 1e-3 * row->flow),
                row->ppm, row->tol);
}

/* Steps of a length, s, and of half of it: the error halves, so that twice the
   second less the first is nearer by one order. */
static double after_night(const struct dew_co2_room *room, double step)
{
    double one = 400.0, two = 400.0;

    for (double t = 0.0; t < 8 * 3600.0; t += step) {
        one = dew_house_co2_step(room, one, step);
        two = dew_house_co2_step(room, two, 0.5 * step);
        two = dew_house_co2_step(room, two, 0.5 * step);
    }
    return 2.0 * two - one;
}

static void night_builds_up(void **state)
{
    const struct night *row = *state;
    struct dew_co2_room room = {.volume = 30.0,
                                .generation = 2 * 0.0035e-3,
                                .flow = 1e-3 * row->flow,
                                .outdoors = 400.0};

    assert_near(after_night(&room, 30.0), row->ppm, row->tol);
    /* of endless time, what the flow alone tells */
    assert_near(dew_house_co2_step(&room, 400.0, 1e15),
                400.0 + dew_house_co2_rise(room.generation, room.flow), 1e-6);
}

/* A shut room takes all that is breathed: 1e6 x 7 ml/s x 3600 s / 30 m3. */
TEST(shut_room_fills)
{
    struct dew_co2_room room = {
        .volume = 30.0, .generation = 0.007e-3, .outdoors = 400.0};

    assert_near(dew_house_co2_step(&room, 417.0, 3600.0), 417.0 + 840.0, 1e-9);
    assert_nan(dew_house_co2_step(&room, 417.0, 0.0));
    room.flow = -0.001;
    assert_nan(dew_house_co2_step(&room, 417.0, 3600.0));
    room.flow = room.volume = 0.0;
    assert_nan(dew_house_co2_step(&room, 417.0, 3600.0));
}

TEST(adult_is_the_mean_and_warm)
{
    assert_near(1e3 * dew_house_co2_adult(1.2),
                0.5 * (0.00478 + 0.00377) * 293.15 / 273.15, 1e-5);
    assert_nan(dew_house_basal(DEW_MALE, 2.9, 14.0));
    assert_nan(dew_house_co2_rise(1e-6, 0.0));
}

ROWS(person_rows, person_is_the_quoted);
ROWS(rise_rows, rise_is_generation_over_flow);
ROWS(night_rows, night_builds_up);
RUN_TESTS("house, co2");
