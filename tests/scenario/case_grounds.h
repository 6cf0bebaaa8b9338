/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scenarios in one of which each key must have an effect. */
#ifndef DEW_TESTS_CASE_GROUNDS_H
#define DEW_TESTS_CASE_GROUNDS_H

#define BASE                                                                   \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 2400 ft2, bedrooms: 3, ceiling_height: 8.5 ft,\n"     \
    "  airtightness: 1.1 ach50 (0.7 to 2)}\n"

/* A network written out, with a leak to somewhere. */
#define POINTS(where)                                                          \
    "[{name: in, place: house}, {name: out, place: outdoors}, {name: a}, "     \
    "{name: b}, {name: c}, {name: d}, {name: e, place: " where "}]"
#define RUNS(leak)                                                             \
    "[{name: f, from: out, to: a, role: fresh_fan}, "                          \
    "{name: g, from: a, to: b, role: fresh_unit}, "                            \
    "{name: den, from: b, to: in, role: grille, pressure: 9 Pa, flow: 90 "     \
    "cfm}, {name: leak, from: b, to: e, kind: fitting, diameter: " leak        \
    ", loss: 2}, {name: bath, from: in, to: c, role: pickup, pressure: 9 Pa, " \
    "flow: 90 cfm}, {name: h, from: c, to: d, role: stale_unit}, "             \
    "{name: k, from: d, to: out, role: stale_fan}]"

static const char *const grounds[] = {
    BASE "ventilator: {core: enthalpy_plate, sensible: 74 % at 95 cfm, "
         "moisture: 52 % at 95 cfm}\n"
         "air_handlers: 3\ncooling: {capacity: 3 ton, blower: minutes}\n"
         "heating: {kind: heat_pump}\n"
         "control: {boost_above: 55 %, lockout_dew_point: 15 degC, "
         "winter_target: 35 %, bypass_above: 14 degC}\n"
         "dehumidifier: {rate: 50 pint/day}\n"
         "bath_fan: {flow: 80 cfm}\nrange_hood: {flow: 200 cfm}\n"
         "clothes_dryer: {flow: 140 cfm}\n"
         "moisture: {baths: 1 per day, laundry_dried_indoors: 1 per day, "
         "drying: 200 kg, ground: 1 L/day}\n"
         "temperature: {heat_setback: 17 degC, setback_hours: 22 to 6}\n"
         "buffering: {value: 0.1 kg/m2}\nairing: {flow: 200 cfm}\n",
    BASE "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm, damper: "
         "yes}\n"
         "air_handlers: 2\ncooling: {capacity: 1.5 ton}\n"
         "layout: return_tie\nducts: {leak_return: 3 %}\n",
    BASE "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm}\n"
         "cooling: {capacity: 3 ton}\nlayout: supply_tie\n"
         "moisture: {laundry_dried_indoors: 1 per day}\n",
    BASE "heating: {kind: gas}\ncooling: {capacity: 3 ton}\n"
         "temperature: {given: 21 degC}\n"
         "house: {infiltration: constant, constant_leakage: 20 cfm}\n"
         "humidifier: {rate: 1 L/h}\n"
         "dehumidifier: {observed: 2 gal/day}\n"
         "control: {boost_for_events: 50 %}\n",
    BASE "heating: {kind: gas}\nventilator: {core: heat_plate, ratings: "
         "[{flow: 64 cfm, sre: 0.7, power: 40 W}]}\n"
         "house: {infiltration: basic, foundation: basement}\n",
    BASE "options:\n  - name: as it stands\n  - name: another\n"
         "    costs: {install: 900 $}\n",
    "weather: {file: a.csv}\nlog: {file: l.csv}\nhouse: {floor_area: 2400 ft2, bedrooms: 3}\n",
    "weather: {monthly: m.csv}\nhouse: {floor_area: 2400 ft2, bedrooms: 3}\n",
    BASE "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm}\n"
         "ducts: {points: " POINTS("buffer") ", runs: " RUNS("3 in") "}\n",
};

#endif
