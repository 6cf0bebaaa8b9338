/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Options made for a house: their text is read back by the reader of all, and
   what is left out is no better than what left it out. */
#include "dew/suggest.h"

#include <math.h>
#include <string.h>

#include "dew/size.h"
#include "run/suggest.h"
#include "support/rows.h"

enum { FAULTS = 8 };
#define CFM (0.3048 * 0.3048 * 0.3048 / 60)

static struct dew_run *run_of(const char *text, size_t length)
{
    const struct dew_run_ask ask = {
        .name = "house.yaml", .text = text, .length = length};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_run *run = NULL;
    char line[400];

    if (dew_run_open(&run, &ask, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return run;
}

static const struct dew_value *value(const struct dew_run *run, size_t option,
                                     const char *key)
{
    size_t keys;
    const struct dew_field *f = dew_scenario_fields(&keys);

    return &dew_scenario_values(dew_run_scenario(run),
                                option)[dew_scenario_field(key) - f];
}

/* ---- the text ------------------------------------------------------------------ */

#define HOUSE                                                                  \
    "# a comment\nweather: {place: 722020}\n"                                  \
    "run: {steps_per_hour: 1}\n"                                               \
    "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}\n"
#define COOLED HOUSE "cooling: {capacity: 2.5 ton}\n"
/* at one temperature, without sun, stores or ducts: soon marched */
#define PLAIN                                                                  \
    HOUSE "heating: {by_air: no}\ntemperature: {given: 75 degF}\n"             \
          "windows: {north: 0 ft2, east: 0 ft2, south: 0 ft2, west: 0 "        \
          "ft2}\nbuffering: {class: none}\n"
#define OLD                                                                    \
    COOLED "ventilator:\n  core: heat_plate\n  sensible: 71 % at 95 cfm\n"     \
           "  power: 60 W\noptions:\n# between\n"                              \
           "- name: now\n  ventilator: {flow: 40 cfm}\n"                       \
           "  people: {count: \"3 (2 to 4)\"}\n"                               \
           "  airing: {flow: 30 cfm}\n  temperature: {setback_hours: [1 to "   \
           "5, 22 to 23]}\n- name: other\n  ventilator: none\n"                \
           "prices: {electricity: 0.2 $/kWh}\n"

static const struct text_row {
    const char *name, *text;
    unsigned parts;
    double flow;
    const char *says;
} text_rows[] = {
    {"a file without options", COOLED,
     1u << RUN__PART_heat | 1u << RUN__PART_control, 0,
     COOLED
     "# Made by dewledger: what is usually tried, prices our guess.\n"
     "options:\n  - name: as it stands\n"
     "  - name: heat core, held back when wet outdoors\n"
     "    ventilator: {core: heat_plate, typical: yes}\n"
     "    control: {lockout_dew_point: 60 degF, lockout_unless_drier: 0 g/kg, "
     "lockout_least: 20 min/h}\n"
     "    costs: {install: 5750 $ (3600 to 9000), upkeep: 60 $, date: our "
     "guess 2025}\n"},
    {"its last line without an end", HOUSE "cooling: {capacity: 3 ton}",
     1u << RUN__PART_windows, 0,
     HOUSE
     "cooling: {capacity: 3 ton}\n"
     "# Made by dewledger: what is usually tried, prices our guess.\n"
     "options:\n  - name: as it stands\n"
     "  - name: windows opened when drier outdoors\n"
     "    airing: {flow: 200 cfm, habit: dew_point}\n"
     "    costs: {install: 0 $ (0 to 0), upkeep: 0 $, date: our guess 2025}\n"},
    {"the first of its options goes with all, their own groups apart", OLD,
     1u << RUN__PART_enthalpy | 1u << RUN__PART_mix, 0,
     COOLED
     "ventilator:\n  core: heat_plate\n  sensible: 71 % at 95 cfm\n"
     "  power: 60 W\nprices: {electricity: 0.2 $/kWh}\n"
     "# Made by dewledger: what is usually tried, prices our guess.\n"
     "options:\n  - name: as it stands\n"
     "    people: {count: \"3 (2 to 4)\"}\n"
     "    temperature: {setback_hours: [1 to 5, 22 to 23]}\n"
     "    airing: {flow: 30 cfm}\n"
     "    ventilator: {flow: 40 cfm}\n"
     "  - name: enthalpy core, fresh air into the return\n"
     "    people: {count: \"3 (2 to 4)\"}\n"
     "    temperature: {setback_hours: [1 to 5, 22 to 23]}\n"
     "    airing: {flow: 30 cfm}\n"
     "    cooling: {blower: interlock}\n"
     "    ventilator: {core: enthalpy_plate, sensible: none, typical: yes, "
     "power: none}\n"
     "    layout: mix\n"
     "    costs: {install: 5000 $ (2500 to 8500), upkeep: 75 $, date: our "
     "guess 2025}\n"},
    {"a core at an airflow", COOLED, 1u << RUN__PART_heat, 135 * CFM,
     COOLED
     "# Made by dewledger: what is usually tried, prices our guess.\n"
     "options:\n  - name: as it stands\n  - name: heat core at 135 cfm\n"
     "    ventilator: {core: heat_plate, flow: 135 cfm, typical: yes}\n"
     "    costs: {install: 5500 $ (3500 to 8500), upkeep: 60 $, date: our "
     "guess 2025}\n"},
    {"in metric units",
     "weather: {place: 722020}\nhouse: {floor_area: 170 m2, bedrooms: 3}\n",
     1u << RUN__PART_heat, 0.064,
     "weather: {place: 722020}\nhouse: {floor_area: 170 m2, bedrooms: 3}\n"
     "# Made by dewledger: what is usually tried, prices our guess.\n"
     "options:\n  - name: as it stands\n  - name: heat core at 64 L/s\n"
     "    ventilator: {core: heat_plate, flow: 64 L/s, typical: yes}\n"
     "    costs: {install: 5500 $ (3500 to 8500), upkeep: 60 $, date: our "
     "guess 2025}\n"},
};

TEST(an_airflow_is_one_that_can_be_set)
{
    struct dew_run *us = run_of(COOLED, sizeof COOLED - 1);

    assert_near(run__suggest_flow(us, 100.0 * CFM), 100 * CFM, 1e-12);
    assert_near(run__suggest_flow(us, 100.1 * CFM), 105 * CFM, 1e-12);
    dew_run_close(us);
}

static void it_is_written(void **state)
{
    const struct text_row *row = *state;
    struct dew_run *run = run_of(row->text, strlen(row->text)), *again;
    struct dew_error err = {0};
    size_t length = 0;
    const struct run__made made = {row->parts, row->flow};
    char *text = run__suggest_write(run, &made, 1, &length, &err), *anew;

    assert_non_null(text);
    assert_string_equal(text, row->says);
    assert_int_equal(length, strlen(row->says));
    again = run_of(text, length);
    assert_int_equal(dew_run_count(again), 2);
    /* once more of what was written: in the place of it, with its own line */
    anew = run__suggest_write(again, &made, 1, &length, &err);
    assert_string_equal(anew, row->says);
    dew_run_close(again);
    free(anew);
    free(text);
    dew_run_close(run);
}
ROWS(text_rows, it_is_written);

static const struct refused_row {
    const char *name, *text, *says;
} refused_rows[] = {
    {"braces around all",
     "{weather: {place: 722020}, house: {floor_area: 170 m2, bedrooms: 3}}\n",
     "the file is written within { }: write its groups line by line to have "
     "options made"},
    {"a value over several lines in the first option",
     COOLED "options:\n  - name: now\n    temperature:\n      setback_hours:\n"
            "        - 1 to 5\n        - 22 to 23\n",
     "the first option gives it over several lines: give it for the house "
     "itself to have options made"},
};

static void it_says_why(void **state)
{
    const struct refused_row *row = *state;
    struct dew_run *run = run_of(row->text, strlen(row->text));
    const struct run__made made = {1u << RUN__PART_heat, 0};
    struct dew_error err = {0};
    size_t length = 0;

    assert_null(run__suggest_write(run, &made, 1, &length, &err));
    assert_int_equal(err.status, DEW_ESYNTAX);
    assert_string_equal(err.text, row->says);
    dew_run_close(run);
}
ROWS(refused_rows, it_says_why);

/* The parts of all options; their text is read back. */
static unsigned all_parts(const char *text)
{
    struct dew_run *run = run_of(text, strlen(text)), *again;
    struct run__made made[RUN__SUGGEST_MOST] = {{0}};
    struct dew_error err = {0};
    unsigned all = 0;
    size_t count = 0, length;
    char *written;

    while ((made[count].parts = run__suggest_parts(run, count)) != 0)
        all |= made[count++].parts;
    written = run__suggest_write(run, made, count, &length, &err);
    assert_non_null(written);
    again = run_of(written, length);
    assert_int_equal(dew_run_count(again), 1 + count);
    dew_run_close(again);
    free(written);
    dew_run_close(run);
    return all;
}

TEST(what_suits_the_house_is_tried)
{
    const unsigned ties = 1u << RUN__PART_return_tie |
                          1u << RUN__PART_supply_tie | 1u << RUN__PART_mix;
    unsigned damp = all_parts(COOLED "heating: {by_air: no}\n");
    unsigned bare = all_parts(HOUSE "heating: {by_air: no}\n");
    unsigned cold = all_parts(
        "weather: {place: 726580}\nhouse: {floor_area: 170 m2, bedrooms: 3}\n");

    assert_int_equal(damp & ties, ties);
    assert_int_equal(bare & ties, 0); /* no air handler */
    assert_false(damp >> RUN__PART_humidifier & 1);
    assert_true(cold >> RUN__PART_humidifier & 1);
}

/* ---- the airflow alone ----------------------------------------------------------- */

TEST(only_what_is_asked_for_is_tried)
{
    const struct dew_run_ask house = {
        .name = "house.yaml", .text = PLAIN, .length = sizeof PLAIN - 1};
    const struct dew_size_ask ask = {.from = &house,
                                     .share = 0.8,
                                     .hours = NAN,
                                     .knobs = 1u << DEW_SIZE_flow};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    const struct dew_size_curve *c;
    struct dew_size *s;
    double done = 0;
    size_t i = 0;

    assert_int_equal(dew_size_open(&s, &ask, &faults), DEW_OK);
    while (done < 1)
        assert_int_equal(dew_size_step(s, &done, NULL), DEW_OK);
    for (; (c = dew_size_curve(s, i)) != NULL; i++)
        assert_int_equal(c->knob, DEW_SIZE_flow);
    assert_true(i > 0);
    dew_size_close(s);
}

TEST(a_core_is_tried_at_the_least_airflow_that_is_enough_or_nearly)
{
    const struct dew_size_point points[] = {{.value = 0.02, .does = 1},
                                            {.value = 0.04, .does = 5},
                                            {.value = 0.06}};
    struct dew_size_curve c = {.points = points,
                               .count = COUNT_OF(points),
                               .found = 1,
                               .low = 0.03,
                               .high = 0.05,
                               .nearest = 1};

    assert_near(run__suggest_best(&c), 0.03, 0);
    c.found = 0;
    assert_near(run__suggest_best(&c), 0.04, 0);
    c.nearest = 2; /* in no house */
    assert_near(run__suggest_best(&c), 0, 0);
}

/* ---- what is left ---------------------------------------------------------------- */

TEST(an_option_is_the_mean_of_its_houses)
{
    const struct dew_drawn houses[] = {
        {.too_humid = 4, .ventilates = 1, .keeps = 1},
        {.too_dry = 40, .ventilates = 1},
        {.glass_wet = 400, .keeps = 1},
        {.ventilates = 1},
    };
    struct dew_suggest_option o = {.by = -1};

    for (size_t k = 0; k < COUNT_OF(houses); k++)
        run__suggest_add(&o, &houses[k], COUNT_OF(houses));
    assert_near(o.outside, 111, 1e-12);
    assert_near(o.air, 0.75, 1e-12);
    assert_near(o.does, 0.25, 1e-12);
}

/* Each of those left is better than "a core" in one thing alone. */
TEST(one_thing_better_is_enough_to_stay)
{
    static const struct dew_suggest_option made[] = {
        {"as it stands", 1000, 0, 0, 0, 0, -1},
        {"worse than one further on", 101, 0.9, 0.5, 5000, 0, 2},
        {"a core", 100, 0.9, 0.5, 5000, 1, -1},
        {"alike in everything", 100, 0.9, 0.5, 5000, 0, 2},
        {"does more", 101, 0.8, 0.6, 5001, 1, -1},
        {"less outside", 99, 0.8, 0.4, 5002, 1, -1},
        {"more air", 102, 1.0, 0.4, 5003, 1, -1},
        {"cheaper", 103, 0.8, 0.4, 4999, 1, -1},
        {"dearer than none", 1000, 0, 0, 1, 0, 0},
    };
    struct dew_suggest_option o[COUNT_OF(made)], stands[2];

    memcpy(o, made, sizeof o);
    run__suggest_leave_out(o, COUNT_OF(made));
    for (size_t i = 1; i < COUNT_OF(made); i++)
        if (o[i].left != made[i].left || o[i].by != made[i].by)
            fail_msg("%s: left %d, by %d", o[i].name, o[i].left, o[i].by);
    /* the house as it stands stays where it is beaten too */
    stands[0] = made[COUNT_OF(made) - 1];
    stands[1] = made[0];
    run__suggest_leave_out(stands, 2);
    assert_true(stands[0].left && stands[0].by == -1 && stands[1].left);
}

/* None is beaten; nine stay beside the house as it stands: what does most, then
   has least outside, then costs least. */
TEST(ten_are_left_at_most)
{
    enum { COUNT = 14, DOES = 12, LEAST = 13, DEAR = 8, CHEAP = 9 };
    struct dew_suggest_option o[COUNT];

    for (int i = 0; i < COUNT; i++)
        o[i] = (struct dew_suggest_option){
            .outside = i, .air = 0.5, .does = 0.5, .cost = 100 - i};
    o[0].cost = 1000;
    o[DOES].does = 1;
    o[LEAST].does = 0.1;
    o[LEAST].outside = 0.5;
    o[LEAST].cost = 150;
    o[DEAR].outside = o[CHEAP].outside;
    o[DEAR].air = 0.6;
    for (int turn = 0; turn < 2; turn++) {
        o[0].does = 0.5 * turn; /* ahead of none; of all but one */
        run__suggest_leave_out(o, COUNT);
        for (int i = 0; i < COUNT; i++) {
            assert_int_equal(o[i].by, -1);
            assert_int_equal(o[i].left, i < DEAR || i == CHEAP || i == DOES);
        }
    }
}

TEST(what_is_left_out_is_no_better)
{
    const struct dew_run_ask ask = {
        .name = "house.yaml", .text = PLAIN, .length = sizeof PLAIN - 1};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_suggest *s = NULL;
    const struct dew_suggest_option *o;
    size_t count, length = 0, left = 0;
    struct dew_run *run;
    const char *text;
    double done = 0;

    assert_int_equal(dew_suggest_open(&s, &ask, 0, &faults), DEW_OK);
    assert_null(dew_suggest_text(s, &length));
    while (done < 1)
        assert_int_equal(dew_suggest_step(s, &done, NULL), DEW_OK);
    assert_int_equal(dew_suggest_step(s, &done, NULL), DEW_OK);
    o = dew_suggest_options(s, &count);
    assert_true(o[0].left && count > 10);
    assert_string_equal(o[0].name, "as it stands");
    text = dew_suggest_text(s, &length);
    run = run_of(text, length);
    for (size_t i = 0; i < count; i++) {
        if (o[i].left) {
            size_t at = dew_scenario_find(dew_run_scenario(run), o[i].name);

            assert_true(at < dew_run_count(run));
            assert_true(at == 0 || value(run, at, "costs.install")->given);
            left++;
        } else if (o[i].by >= 0) {
            const struct dew_suggest_option *b = &o[o[i].by];

            assert_true(b->outside <= o[i].outside && b->air >= o[i].air &&
                        b->does >= o[i].does && b->cost <= o[i].cost);
        }
        for (size_t k = 1; o[i].left && k < count; k++)
            assert_true(k == i || !o[k].left || o[k].outside > o[i].outside ||
                        o[k].air < o[i].air || o[k].cost > o[i].cost ||
                        o[k].does < o[i].does || i == 0);
    }
    assert_int_equal(left, dew_run_count(run));
    assert_true(left <= DEW_SUGGEST_LEFT);
    dew_run_close(run);
    dew_suggest_close(s);
}

RUN_TESTS("suggest");
