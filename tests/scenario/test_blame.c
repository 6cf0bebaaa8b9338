/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The key to blame for a member of the layout: by its path, never by words. */
#include "support/rows.h"

#include <string.h>

#include "scenario/case.h"

static const struct blamed {
    const char *path;
    enum scenario__key given; /* KEY_title: none */
    const char *key, *line;
} blamed_rows[] = {
    /* clang-format off */
    {"handlers[1].flow", KEY_title, "cooling.capacity", "air handler 2, flow trunk has no grille"},
    {"handlers[0].watts", KEY_title, "cooling.blower_power", "air handler 1, watts trunk has no grille"},
    {"handlers[2].leak_return", KEY_title, "ducts.leak_return", "air handler 3, leak return trunk has no grille"},
    {"handlers[0].return_trunk", KEY_title, "ducts.external_static", "air handler 1, return trunk trunk has no grille"},
    {"handlers[0].return_trunk", KEY_ducts_lines, "ducts.lines", "air handler 1, return trunk trunk has no grille"},
    {"handlers[0].grilles", KEY_title, "ducts.grilles", "air handler 1 trunk has no grille"},
    {"vents[1].grilles", KEY_title, "ducts.grilles", "ventilator 2 trunk has no grille"},
    {"vents[0].watts", KEY_title, "ventilator.power", "ventilator 1, watts trunk has no grille"},
    {"vents[0].set_stale", KEY_ventilator_exhaust_flow, "ventilator.exhaust_flow", "ventilator 1, set stale trunk has no grille"},
    {"vents[0].set_stale", KEY_title, "ventilator.flow", "ventilator 1, set stale trunk has no grille"},
    {"mixing", KEY_title, "ducts.mixing", "trunk has no grille"},
    {"rows[1]", KEY_ventilator_fan, "ventilator.fan", "trunk has no grille"},
    {"branches[13]", KEY_ducts_runs, "ducts.runs", "trunk has no grille"},
    {"branches[13]", KEY_ducts_lines, "ducts.lines", "trunk has no grille"},
    {"branches[13]", KEY_title, "layout", "trunk has no grille"},
    {"nodes[7]", KEY_ducts_runs, "ducts.runs", "trunk has no grille"},
    {"runs[7]", KEY_ducts_runs, "ducts.runs", "trunk has no grille"},
    {"", KEY_ducts_runs, "ducts.runs", "trunk has no grille"},
    {"", KEY_ventilator_fan, "ventilator.fan", "trunk has no grille"},
    {"", KEY_title, "layout", "trunk has no grille"},
    {"density", KEY_title, "layout", "trunk has no grille"},
    /* clang-format on */
};

static void blame_follows_the_path(void **state)
{
    const struct blamed *row = *state;
    struct dew_value v[SCENARIO__KEYS];
    struct dew_error err = {0},
                     inside = {DEW_ERANGE, .text = "trunk has no grille"};
    struct scenario__making m = {.v = v, .err = &err};

    memset(v, 0, sizeof v);
    v[row->given].given = 1;
    strcpy(inside.path, row->path);
    assert_int_equal(scenario__ducts_blame(&m, DEW_ERANGE, &inside),
                     DEW_ERANGE);
    assert_string_equal(err.path, row->key);
    assert_string_equal(err.text, row->line);
}

ROWS(blamed_rows, blame_follows_the_path);
RUN_TESTS("blame");
