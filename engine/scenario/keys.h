/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One place number for each key, made from the same rows as the table.
 * Private to engine/scenario/.
 *
 *     K(group, name, kind, quantity, low, high, why, preset, source, start,
 *       help, further members...)      key group.name
 *     T(name, ...)                     key at the top
 */
#ifndef DEW_SCENARIO_KEYS_H
#define DEW_SCENARIO_KEYS_H

#include "dew/scenario.h"
#include "scenario/columns_ducts.h"
#include "scenario/columns_readings.h"
#include "scenario/words.h"

/* A further air handler: the keys that may differ from cooling's. */
#define HANDLER(group)                                                         \
    HANDLER_KEY(group, capacity, NUMBER, POWER, 500, 60e3,                     \
                "one household's machine",                                     \
                "total cooling of this air handler at its rating")             \
    HANDLER_KEY(group, shr, NUMBER, PURE, 0.5, 1,                              \
                "the sensible share of cooling",                               \
                "sensible share of the capacity at its rating")                \
    HANDLER_KEY(group, airflow, NUMBER, FLOW_PER_CAPACITY, 2.5e-5, 9e-5,       \
                "200 to 700 cfm per ton are coils that work",                  \
                "air through the coil at its rating")                          \
    HANDLER_KEY(group, blower_power, NUMBER, POWER, 0, 3000,                   \
                "one household's blower",                                      \
                "electricity of the blower at full flow")
#define HANDLER_KEY(group, name, kind, quantity, low, high, why, help)         \
    K(group, name, kind, quantity, low, high, why, "=as cooling", NULL, NULL,  \
      help, SURE(FOLLOWS))

/* A fan that draws local air out.  Each usual figure is followed by its range,
   what is caught by its source and its doubt. */
#define EXHAUST(group, asked, watts, some_watts, daily, after, some_after,     \
                caught, caught_source, doubt)                                  \
    K(group, flow, NUMBER, FLOW, 0, 0.5, "one household's fan", "", NULL,      \
      asked,                                                                   \
      "air it draws out while running; 0 cfm says that there is none, "        \
      "and no pressure of the house is told while it is not given",            \
      SURE(UNTOLD))                                                            \
    K(group, power, NUMBER, POWER, 0, 1000, "one household's fan", watts,      \
      "common practice, no source", NULL, "electricity while running",         \
      RANGE(some_watts, "our guess"))                                          \
    K(group, run, NUMBER, SHARE_OF_TIME, 0, 1, "no more than all the time",    \
      daily, "common practice, no source", NULL,                               \
      "time it runs in a day, run-on included", TIMES(0.5, 2, "our guess"))    \
    K(group, run_on, NUMBER, TIME, 0, 7200, "fans' timers", after,             \
      "common practice, no source", NULL,                                      \
      "time it runs on after each event, where run is not given",              \
      RANGE(some_after, "our guess"))                                          \
    K(group, capture, NUMBER, PURE, 0, 1, "a share of its event's water",      \
      caught, caught_source, NULL,                                             \
      "water of its own events that it takes before that mixes", doubt)

/* Most rows of ducts.points and ducts.runs. */
enum { SCENARIO__POINTS = 60, SCENARIO__RUNS = 90 };

enum scenario__key {
#define K(group, name, ...) KEY_##group##_##name,
#define T(name, ...)        KEY_##name,
#include "scenario/rows_house.h"
#include "scenario/rows_plant.h"
#undef K
#undef T
    SCENARIO__KEYS
};

/* The columns of readings. */
extern const struct dew_field
    scenario__reading_columns[SCENARIO__READING_COLUMNS];

/* Columns of ventilator.ratings, in the order of struct dew_core_row. */
enum scenario__rating {
    RATING_flow,
    RATING_power,
    RATING_pressure,
    RATING_outdoor,
    RATING_indoor,
    RATING_sre,
    RATING_ase,
    RATING_asre,
    RATING_sensible,
    RATING_tre,
    RATING_lrmt,
    RATING_moisture,
    RATING_cross_leakage,
    SCENARIO__RATING_COLUMNS
};

#endif
