/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Networks written out in full: keys to runs, runs to paths, and faults. */
#include "support/rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/case_open.h"

#define HOUSE                                                                  \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 2400 ft2, bedrooms: 3}\n"                             \
    "ventilator: {core: enthalpy_plate, flow: 97 cfm, sensible: 74 % at 95 "   \
    "cfm, moisture: 52 % at 95 cfm, power: 58 W}\n"
#define COOLED HOUSE "cooling: {capacity: 3 ton, blower_power: 400 W}\n"
#define WHERE                                                                  \
    "ducts:\n"                                                                 \
    "  points: [{name: in, place: house}, {name: out, place: outdoors}, "      \
    "{name: a}, {name: b}, {name: c}, {name: d}]\n"                            \
    "  runs:\n"
#define FRESH                                                                  \
    "    - {name: fan 1, from: out, to: a, role: fresh_fan}\n"                 \
    "    - {name: core 1, from: a, to: b, role: fresh_unit}\n"
#define ROOMS                                                                  \
    "    - {name: den, from: b, to: in, role: grille, pressure: 5 Pa, flow: "  \
    "43 cfm}\n"                                                                \
    "    - {name: attic, from: b, to: in, role: grille, pressure: 20 Pa, "     \
    "flow: 31 cfm}\n"
#define BATH                                                                   \
    "    - {name: bath, from: in, to: c, role: pickup, kind: fitting, "        \
    "diameter: 5 in, loss: 2.3}\n"
#define STALE                                                                  \
    "    - {name: core 2, from: c, to: d, role: stale_unit}\n"                 \
    "    - {name: fan 2, from: d, to: out, role: stale_fan}\n"
#define WHOLE WHERE FRESH ROOMS BATH STALE

static struct dew_duct_layout layout_of(const struct dew_scenario *s,
                                        size_t option)
{
    struct dew_error err = {0};
    struct dew_duct_layout l;

    if (dew_scenario_layout(s, option, &place, &l, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    return l;
}

/* ---- keys to runs --------------------------------------------------------- */

TEST(cells_become_runs)
{
    struct dew_scenario *s = opened(
        HOUSE WHOLE
        "    - {name: leak, from: b, to: c, width: 9 in, height: 4 in, "
        "length: 7 ft, elbows: 3, loss: 1.7, wall: flexible}\n"
        "    - {name: den, from: c, to: in, role: pickup, kind: backdraft, "
        "pressure: 9 Pa, flow: 30 cfm, leak: 3 %}\n",
        NULL, 0);
    struct dew_duct_layout l = layout_of(s, 0);
    const struct dew_duct_written *w = l.written;
    const struct dew_duct_run *r;

    assert_non_null(w);
    assert_int_equal(w->point_count, 6);
    assert_int_equal(w->run_count, 9);
    assert_string_equal(w->points[1].name, "out");
    assert_int_equal(w->points[1].place, DEW_PLACE_OUTDOORS);
    assert_int_equal(w->points[5].place, DEW_PLACE_DUCT);
    r = w->runs;
    assert_int_equal(r[0].branch.kind, DEW_BRANCH_FAN);
    assert_int_equal(r[1].branch.kind, DEW_BRANCH_DAMPER);
    assert_int_equal(r[1].branch.from, 2);
    assert_int_equal(r[1].branch.to, 3);
    assert_int_equal(r[2].branch.kind, DEW_BRANCH_FIXED);
    assert_near(r[2].branch.flow, 43 * cfm / sqrt(5), 1e-12);
    /* a fitting with a size is a duct without length */
    assert_int_equal(r[4].branch.kind, DEW_BRANCH_DUCT);
    assert_near(r[4].branch.duct.diameter, 5 * .0254, 1e-12);
    assert_near(r[4].branch.duct.loss, 2.3, 0);
    assert_near(r[4].branch.duct.length, 0, 0);
    assert_near(r[7].branch.duct.width, 9 * .0254, 1e-12);
    assert_near(r[7].branch.duct.height, 4 * .0254, 1e-12);
    assert_near(r[7].branch.duct.length, 7 * .3048, 1e-12);
    assert_near(r[7].branch.duct.loss, 1.7 + 3 * .25, 1e-12);
    assert_true(r[7].branch.duct.roughness > r[4].branch.duct.roughness);
    assert_int_equal(r[8].branch.kind, DEW_BRANCH_BACKDRAFT);
    assert_near(r[8].branch.leak, .03, 0);
    assert_near(r[8].branch.flow, 10 * cfm, 1e-12);
    /* rooms in the order in which they come, each once */
    assert_int_equal(l.grille_count, 3);
    assert_string_equal(l.grilles[1].name, "attic");
    assert_string_equal(l.grilles[2].name, "bath");
    assert_int_equal(r[4].of, 2);
    assert_int_equal(r[8].of, 0);
    dew_scenario_close(s);
}

/* ---- runs to paths -------------------------------------------------------- */

/* Two grilles on one tee lose the same: q1 / q2 = (43/sqrt 5) / (31/sqrt 20) */
TEST(grilles_share_by_their_pressure)
{
    struct dew_scenario *s = opened(HOUSE WHOLE, NULL, 0);
    struct dew_duct_layout l = layout_of(s, 0);
    struct dew_duct_state on;
    struct dew_error err = {0};
    struct dew_ducts *d;

    assert_int_equal(dew_ducts_open(&d, &l, &err), DEW_OK);
    assert_int_equal(dew_ducts_state(d, DEW_VENT_ON, 0, &on, &err), DEW_OK);
    assert_near(on.fresh_at[0] / on.fresh_at[1], 2 * 43 / 31., 1e-6);
    assert_near(on.fresh_at[0] + on.fresh_at[1], 97 * cfm, 1e-7);
    assert_near(on.stale_at[2], on.stale_drawn, 1e-9);
    assert_near(on.fan_w, 58, 1e-6);
    dew_ducts_close(d);
    dew_scenario_close(s);
}

TEST(the_case_has_its_paths)
{
    struct dew_case typed = case_of(HOUSE);
    struct dew_case whole = case_of(HOUSE WHOLE);
    struct dew_case holed =
        case_of(HOUSE WHOLE "    - {name: hole, from: b, to: c, kind: fitting, "
                            "diameter: 2 in, loss: 2.5}\n");
    const struct dew_path *a = &typed.paths[DEW_VENT_ON][0];
    const struct dew_path *b = &whole.paths[DEW_VENT_ON][0];
    const struct dew_path *c = &holed.paths[DEW_VENT_ON][0];

    assert_near(b->supply, a->supply, 1e-9);
    assert_near(b->exhaust, a->exhaust, 1e-9);
    assert_near(b->fresh, a->fresh, 1e-9);
    assert_near(c->supply, a->supply, 1e-9);
    assert_true(c->fresh < .95 * b->fresh);
}

/* A tie to the return: the blower draws, and the coil meets the fresh air. */
TEST(a_blower_helps_the_fan_on_its_return)
{
    struct dew_case c = case_of(
        COOLED
        "ducts:\n"
        "  points: [{name: in, place: house}, {name: out, place: outdoors}, "
        "{name: a}, {name: b}, {name: c}, {name: d}, {name: return}, {name: "
        "supply}]\n"
        "  runs:\n" FRESH
        "    - {name: tie, from: b, to: return, role: fresh_tie, diameter: 6 "
        "in, length: 9 ft}\n"
        "    - {name: return grilles, from: in, to: return, role: return, "
        "kind: fitting, pressure: 40 Pa, flow: 1200 cfm}\n"
        "    - {name: blower, from: return, to: supply, role: blower}\n"
        "    - {name: rooms, from: supply, to: in, role: grille, pressure: 60 "
        "Pa, flow: 1200 cfm}\n" BATH STALE);
    const struct dew_path *on = c.paths[DEW_VENT_ON];

    assert_true(on[2].supply > 1.05 * on[0].supply);
    assert_near(on[2].exhaust, on[0].exhaust, 1e-9);
    assert_true(on[2].at_coil > .9 * on[2].fresh);
    assert_true(c.paths[DEW_VENT_OFF][2].unplanned > 1e-3);
}

TEST(an_option_writes_or_drops_it)
{
    struct dew_scenario *s =
        opened(HOUSE WHOLE "options:\n"
                           "  - {name: as drawn}\n"
                           "  - {name: none, ducts: {points: none, runs: "
                           "none}}\n",
               NULL, 0);

    assert_non_null(layout_of(s, 0).written);
    assert_null(layout_of(s, 1).written);
    assert_true(dew_scenario_layout_written(s, 0));
    assert_false(dew_scenario_layout_written(s, 1));
    dew_scenario_close(s);
}

/* ---- faults --------------------------------------------------------------- */

static const struct fault_row {
    const char *name, *text, *want;
} fault_rows[] = {
#include "scenario/fault_runs.h"
};

static void faults_word_for_word(void **state)
{
    enum { ROOM = 8 };
    const struct fault_row *row = *state;
    struct dew_error list[ROOM] = {{0}};
    struct dew_faults faults = {list, ROOM, 0};
    struct dew_scenario_source from = {row->text, strlen(row->text), "h.yaml",
                                       NULL, 0};
    struct dew_scenario *s = NULL;
    char all[2000] = "", line[400];

    assert_int_not_equal(dew_scenario_open(&s, &from, &faults), DEW_OK);
    assert_null(s);
    for (size_t i = 0; i < faults.count && i < ROOM; i++) {
        size_t at = strlen(all);

        snprintf(all + at, sizeof all - at, "%s\n",
                 dew_error_line(&list[i], line, sizeof line));
    }
    assert_string_equal(all, row->want);
}

ROWS(fault_rows, faults_word_for_word);
RUN_TESTS("scenario, runs");
