/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheets to hand over: whole, cautious, and adding up. */
#include "support/rows.h"

#include "dew/unit.h"
#include "report/nested.h"
#include "report/page.h"

enum { CHOSEN = 2 };

/* A report whose chosen option is an enthalpy core that brings 44.3 l/s. */
static struct dew_report hand_open(enum dew_system system)
{
    struct dew_report r = page_open(4, system);
    struct dew_case *c = &page_scene.cases[CHOSEN];

    page_verdict.best = CHOSEN;
    page_scene.facts[CHOSEN].core = DEW_CORE_enthalpy_plate;
    page_scene.facts[CHOSEN].layout = DEW_LAYOUT_own_ducts;
    c->house.bedrooms = 3;
    c->paths[DEW_VENT_ON][0] = (struct dew_path){
        .supply = 0.0443, .exhaust = 0.0431, .fresh = 0.0440, .fan_w = 58.4};
    for (int h = 0; h < 24; h++)
        c->plant.control.on_weekday[h] = c->plant.control.on_weekend[h] = 0.5;
    page_scene.outcomes[CHOSEN].month[1].duty.defrost = 17;
    r.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    return r;
}

static const struct sheet_row {
    const char *name;
    page_writer *write;
} sheet_rows[] = {
    {"contractor", dew_report_contractor},
    {"inspector", dew_report_inspector},
    {"calendar", dew_report_calendar},
};

static void sheet_is_whole(void **state)
{
    const struct sheet_row *row = *state;
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text;

    page_scene.outcomes[CHOSEN].name = "core <b>& \"ducts\"</b>";
    text = page_written(row->write, &r, NULL);
    assert_non_null(text);
    assert_nested(text);
    assert_non_null(strstr(text, "core &lt;b&gt;&amp; &quot;ducts&quot;"));
    assert_null(strstr(text, "<b>"));
    assert_null(strstr(text, "nan"));
    assert_null(strstr(text, "http"));
    free(text);
}

/* STOP of the house and of the option; those of other options apart. */
static void sheet_says_stop(void **state)
{
    const struct sheet_row *row = *state;
    struct dew_report r = hand_open(DEW_SYSTEM_SI);
    char *text = page_written(row->write, &r, NULL);
    size_t want = 0, got = 0;

    for (size_t i = 0; i < r.caution_count; i++)
        want += r.cautions[i].level == DEW_STOP &&
                (r.cautions[i].options == 0 ||
                 (r.cautions[i].options >> CHOSEN & 1) != 0);
    for (const char *s = text; (s = strstr(s, ">STOP</span>")) != NULL; s++)
        got++;
    assert_true(want > 0);
    assert_int_equal(got, want);
    free(text);
}

/* Each option has its own worst pressure; a sheet prints that of its own, and
   says which exhausts nobody told. */
static void sheet_has_its_own_pressure(void **state)
{
    const struct sheet_row *row = *state;
    struct dew_report r = hand_open(DEW_SYSTEM_SI);
    char *text;

    page_scene.safety.natural_draft_appliance = DEW_ANSWER_YES;
    for (int i = 0; i < 4; i++) {
        page_scene.outcomes[i].year.pressure_all_min = -41.7 + 7.3 * i;
        page_scene.facts[i].exhausts_told = 7; /* all, some as absent */
    }
    page_scene.cases[CHOSEN].plant.exhausts[DEW_LOCAL_KITCHEN].flow = 0.07;
    r.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    text = page_written(row->write, &r, NULL);
    assert_non_null(strstr(text, "Computed for option 3, kitchen hood and "
                                 "ventilator at once: -27.1 Pa"));
    assert_null(strstr(text, "-41.7"));
    free(text);
    page_scene.facts[CHOSEN].exhausts_told = 1U << DEW_LOCAL_KITCHEN;
    text = page_written(row->write, &r, NULL);
    assert_non_null(strstr(text, "Not computed: bath fans, dryer not given."));
    assert_null(strstr(text, "-27.1"));
    free(text);
    /* 0 Pa of no exhaust at all is no figure beside a flue */
    page_scene.cases[CHOSEN].plant.exhausts[DEW_LOCAL_KITCHEN].flow = 0;
    page_scene.facts[CHOSEN].exhausts_told = 0;
    page_scene.outcomes[CHOSEN].year.pressure_all_min = 0;
    text = page_written(row->write, &r, NULL);
    assert_non_null(strstr(
        text, "Not computed: kitchen hood, bath fans, dryer not given."));
    assert_null(strstr(text, "at once: 0.0 Pa"));
    free(text);
}

static void sheet_is_the_same_twice(void **state)
{
    const struct sheet_row *row = *state;
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *one = page_written(row->write, &r, NULL);
    char *two = page_written(row->write, &r, NULL);

    assert_string_equal(one, two);
    free(one);
    free(two);
}

/* ---- the contractor's -------------------------------------------------------------- */

/* The figure of a room; fails when the room is not there. */
static double room(const char *text, const char *name)
{
    const char *at = strstr(text, name);
    double x = 0;

    if (at == NULL)
        fail_msg("no %s", name);
    at = strstr(at, "\"n\">") + 4;
    assert_true(dew_number_read(at, strlen(at), &x) > 0);
    return x;
}

/* 44.3 l/s in 6 parts: 2 main bedroom, 1 and 1, 2 living room; 43.1 out in 4:
   2 kitchen, 1 each of two baths. */
TEST(rooms_share_the_flow)
{
    struct dew_report r = hand_open(DEW_SYSTEM_SI);
    char *text = page_written(dew_report_contractor, &r, NULL);

    assert_near(room(text, ">main bedroom<"), 44.3 * 2 / 6, 0.5);
    assert_near(room(text, ">bedroom 2<"), 44.3 / 6, 0.5);
    assert_near(room(text, ">bedroom 3<"), 44.3 / 6, 0.5);
    assert_near(room(text, ">living room<"), 44.3 * 2 / 6, 0.5);
    assert_near(room(text, ">together, at the hood<"), 44.3, 0.5);
    assert_near(room(text, ">kitchen<"), 43.1 * 2 / 4, 0.5);
    assert_near(room(text, ">second bath<"), 43.1 / 4, 0.5);
    assert_null(strstr(text, ">bedroom 4<"));
    free(text);
}

TEST(a_tenth_to_either_side)
{
    struct dew_report r = hand_open(DEW_SYSTEM_SI);
    char *text = page_written(dew_report_contractor, &r, NULL);

    assert_non_null(strstr(text, ">7</td><td class=\"n\">7 to 8</td>"));
    assert_non_null(strstr(text, "<td>12.0 h a day</td>"));
    assert_non_null(strstr(text, "<td>58 W</td>"));
    free(text);
}

/* Tied to the return duct there are no rooms to measure. */
TEST(a_tie_is_measured_as_a_whole)
{
    struct dew_report r = hand_open(DEW_SYSTEM_SI);
    char *text;

    page_scene.facts[CHOSEN].layout = DEW_LAYOUT_return_tie;
    text = page_written(dew_report_contractor, &r, NULL);
    assert_null(strstr(text, ">main bedroom<"));
    assert_null(strstr(text, ">kitchen<"));
    assert_non_null(strstr(text, ">the duct it is tied to<"));
    assert_non_null(strstr(text, ">blower interlocked<"));
    free(text);
}

/* ---- the others ---------------------------------------------------------------------- */

TEST(unknown_answers_stand_out)
{
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text;
    size_t unknown = 0;

    page_scene.safety.attached_garage = DEW_ANSWER_YES;
    page_scene.safety.radon_tested = DEW_ANSWER_NO;
    text = page_written(dew_report_inspector, &r, NULL);
    assert_non_null(
        strstr(text, "our own mark; no current standard holds a limit"));
    for (const char *s = text; (s = strstr(s, "<strong>unknown")) != NULL; s++)
        unknown++;
    assert_int_equal(unknown, 15 - 2);
    free(text);
}

/* The index is that of the worst surface, as in the table of options. */
TEST(the_worst_surface_is_told)
{
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text;

    page_scene.outcomes[CHOSEN].faces[DEW_CORNER].mould = 3.9;
    page_scene.outcomes[CHOSEN].faces[DEW_EDGE].mould = 5.3;
    text = page_written(dew_report_inspector, &r, NULL);
    assert_non_null(strstr(text, "mould index, worst surface (frame)</th><td "
                                 "class=\"n\">5.3<"));
    free(text);
}

/* Defrost in February alone: one box, in the second month. */
TEST(ice_is_looked_for_where_it_froze)
{
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text = page_written(dew_report_calendar, &r, NULL);
    const char *row = strstr(text, "ice and snow</th>");

    assert_non_null(row);
    assert_null(strstr(text, "air handler: change"));
    assert_int_equal(
        strncmp(row + 17,
                "<td class=\"box\"></td><td class=\"box\">&#9744;</td>"
                "<td class=\"box\"></td>",
                69),
        0);
    free(text);
}

TEST(each_machine_has_its_task)
{
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text;

    page_scene.facts[CHOSEN].handlers = 1;
    page_scene.outcomes[CHOSEN].month[6].duty.dehumidify = 9;
    text = page_written(dew_report_calendar, &r, NULL);
    assert_non_null(strstr(text,
                           "air handler: change the filter</th><td "
                           "class=\"box\"></td><td class=\"box\">&#9744;"));
    assert_non_null(strstr(text, "dehumidifier: filter and hose"));
    assert_non_null(strstr(text, "drains, traps"));
    free(text);
}

/* A house without ventilator and dehumidifier has neither in its calendar. */
TEST(no_task_without_its_machine)
{
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text;

    page_verdict.best = 0;
    text = page_written(dew_report_calendar, &r, NULL);
    assert_null(strstr(text, "ventilator: clean"));
    assert_null(strstr(text, "air handler: change"));
    assert_null(strstr(text, "dehumidifier: filter"));
    assert_non_null(strstr(text, "alarms: press the button"));
    free(text);
}

/* The house as it stands is best: there is nothing to fit or to measure. */
TEST(nothing_to_fit_is_said)
{
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text;

    page_verdict.best = 0;
    text = page_written(dew_report_contractor, &r, NULL);
    assert_non_null(strstr(text, "<p>Nothing: this option has neither"));
    assert_null(strstr(text, "Measured with"));
    assert_null(strstr(text, "motorised damper"));
    free(text);
}

/* None will do: the nearest is handed over, and marked. */
TEST(the_nearest_is_marked)
{
    struct dew_report r = hand_open(DEW_SYSTEM_US);
    char *text;

    page_verdict.best = DEW_NO_OPTION;
    page_verdict.count = 1;
    page_verdict.list[0] =
        (struct dew_finding){.kind = DEW_FINDING_best_none, .option = 3};
    text = page_written(dew_report_contractor, &r, NULL);
    assert_non_null(strstr(
        text,
        "<strong>with dehumidifier</strong> (none will do; the nearest)"));
    free(text);
}

ROWS(sheet_rows, sheet_is_whole);
ROWS(sheet_rows, sheet_says_stop);
ROWS(sheet_rows, sheet_has_its_own_pressure);
ROWS(sheet_rows, sheet_is_the_same_twice);
RUN_TESTS("sheets, to hand over");
