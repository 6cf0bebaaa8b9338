/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cases with figures put in the place of those read. */
#include "support/rows.h"

#include "dew/bundle.h"
#include "scenario/case_open.h"

/* A figure changed is the figure set, in whatever hangs on it. */
static const struct changed_row {
    const char *name, *set;
    double si;
} changed_rows[] = {
    {"house.floor_area", "house.floor_area=210.3 m2", 210.3},
    {"house.airtightness", "house.airtightness=1.9 ach50", 1.9},
    {"temperature.cool", "temperature.cool=25.3 degC", 25.3},
    {"ventilator.flow", "ventilator.flow=41.7 L/s", 0.0417},
    {"ventilator.sensible", "ventilator.sensible=63.5 % at 100 cfm", 0.635},
};

static void a_change_is_a_set(void **state)
{
    static const char text[] =
        BASE "cooling: {capacity: 2 ton}\noptions:\n"
             "  - name: a core\n"
             "    ventilator: {core: enthalpy_plate, sensible: 75 % at 100 "
             "cfm, moisture: 50 % at 100 cfm, power: 60 W}\n";
    const struct changed_row *row = *state;
    const struct dew_change one = {.path = row->name, .si = row->si};
    const struct dew_changes changes = {&one, 1};
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_scenario *typed = opened(text, &row->set, 1);
    struct dew_case plain, set, c;
    double required = 0;

    make(s, 0, &plain);
    make(typed, 0, &set);
    assert_int_equal(dew_scenario_case(s, 0, &place, &changes, &c, NULL),
                     DEW_OK);
    assert_true(dew_bundle_same(&c, &set));
    assert_false(dew_bundle_same(&c, &plain));
    assert_int_equal(
        dew_scenario_required_with(s, 0, &changes, &required, NULL), DEW_OK);
    assert_near(required, dew_scenario_required(typed, 0), 1e-15);
    make(s, 0, &c); /* what was read stays as it was */
    assert_true(dew_bundle_same(&c, &plain));
    dew_scenario_close(typed);
    dew_scenario_close(s);
}
ROWS(changed_rows, a_change_is_a_set);

TEST(a_change_of_no_figure_is_refused)
{
    struct dew_scenario *s = opened(BASE, NULL, 0);
    const struct dew_change at = {.path = "ventilator.sensible", .si = 0.5};
    const struct dew_changes changes = {&at, 1};
    struct dew_error err = {0};
    struct dew_case c;
    double required = 27.3;

    assert_int_equal(dew_scenario_case(s, 0, &place, &changes, &c, &err),
                     DEW_EUNKNOWN);
    assert_string_equal(err.path, "ventilator.sensible");
    assert_int_equal(
        dew_scenario_required_with(s, 0, &changes, &required, NULL),
        DEW_EUNKNOWN);
    assert_near(required, 27.3, 0);
    dew_scenario_close(s);
}

TEST(a_change_keeps_the_rules_between_keys)
{
    struct dew_scenario *s = opened(BASE, NULL, 0);
    const struct dew_change dry = {.path = "limits.too_dry", .si = 0.7};
    const struct dew_changes changes = {&dry, 1};
    struct dew_error err = {0};
    struct dew_case c;

    assert_int_equal(dew_scenario_case(s, 0, &place, &changes, &c, &err),
                     DEW_ERANGE);
    assert_string_equal(err.path, "limits.too_dry");
    assert_string_equal(
        err.text, "is not below limits.too_humid: no humidity would be right");
    dew_scenario_close(s);
}

RUN_TESTS("changes");
