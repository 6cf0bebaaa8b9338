/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions and pressures in text, page, sheets and JSON. */
#include "support/rows.h"

#include "report/page.h"
#include "report/read.h"

TEST(every_caution_is_in_the_text)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text = page_written(dew_report_text, &report, NULL);
    size_t lines = 0;

    for (const char *s = text; s != NULL; s = strchr(s + 1, '\n'))
        lines += strncmp(s, "\nSTOP ", 6) == 0 ||
                 strncmp(s, "\nCHECK ", 7) == 0 ||
                 strncmp(s, "\nNOTE ", 6) == 0;
    /* and one line for all STOP questions, above the verdict */
    assert_int_equal(lines, report.caution_count + 1);
    free(text);
}

/* What was told stands first and in full; what was not, in one list. */
TEST(told_first_and_questions_once)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    const char *told, *says, *asked, *alarm;
    char *text;

    page_scene.safety.attached_garage = DEW_ANSWER_YES;
    report.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    text = page_written(dew_report_text, &report, NULL);
    told = strstr(text, "STOP   You told us that a garage shares a wall");
    says = strstr(text, "What the year says");
    asked = strstr(text, "\nYou have not said whether ...\n");
    alarm = strstr(text, "CHECK  a working carbon monoxide alarm");
    assert_true(told && says && asked && alarm);
    assert_true(told < says && says < asked && asked < alarm);
    assert_non_null(strstr(alarm, "Answer:"));
    assert_non_null(strstr(alarm, "safety.carbon_monoxide_alarm."));
    assert_int_equal(times(text, "\nYou have not said whether ...\n"), 1);
    assert_int_equal(times(text, "STOP   a fuel heater or stove without"), 1);
    assert_true(strstr(text, "STOP   a fuel heater") > asked);
    assert_null(strstr(text, "ruled out"));
    free(text);
}

/* Fans told of option 1: all, none; hours of suction by hand. */
static const struct suction_row {
    const char *name;
    unsigned told;
    double hood, pressure;
    const char *want, *never;
} suction_rows[] = {
    {"no fan told", 0, 0, -7.6,
     "Not computed: kitchen hood, bath fans, dryer not given. Give "
     "range_hood.flow, bath_fan.flow, clothes_dryer.flow; 0 cfm where there is "
     "none.",
     "-7.6"},
    {"the dryer not told", 3, 0.09, -31.2,
     "Not computed: dryer not given. Give clothes_dryer.flow; 0", "-31.2"},
    {"a hood, the others told absent", 7, 0.09, -31.2,
     "Computed, kitchen hood at once: -31.2 Pa.", "Not computed"},
    {"none of them", 7, 0, 0,
     "Computed, no fan there (hood, bath fans, dryer given as absent): 0.0 Pa.",
     "Not computed"},
    {"more than 50 Pa", 7, 0.09, -107.5,
     "Computed, kitchen hood at once, more than 50 Pa: these fans would not "
     "deliver their rated air.",
     "107"},
};

/* Lines joined: every run of blanks is one. */
static void unwrap(char *text)
{
    char *to = text;

    for (const char *s = text; *s != '\0'; s++) {
        int blank = *s == ' ' || *s == '\n';

        if (!blank || (to > text && to[-1] != ' '))
            *to++ = blank ? ' ' : *s;
    }
    *to = '\0';
}

static void suction_in_words(void **state)
{
    const struct suction_row *r = *state;
    struct dew_report report = page_open(1, DEW_SYSTEM_SI);
    struct scene *s = &page_scene;
    char *text;

    s->facts[0].exhausts_told = r->told;
    s->cases[0].plant.exhausts[DEW_LOCAL_KITCHEN].flow = r->hood;
    s->outcomes[0].year.pressure_all_min = r->pressure;
    report.caution_count =
        dew_cautions_of(&s->question, page_cautions, DEW_CAUTIONS);
    text = page_written(dew_report_text, &report, NULL);
    unwrap(text);
    if (strstr(text, r->want) == NULL)
        fail_msg("no \"%s\"", r->want);
    assert_null(strstr(text, r->never));
    free(text);
}

/* ---- the page ------------------------------------------------------------- */

TEST(the_page_has_one_list_of_questions)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    const char *stop, *says, *list;
    char *text;

    page_scene.safety.attached_garage = DEW_ANSWER_YES;
    report.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    text = page_written(dew_report_html, &report, NULL);
    stop =
        strstr(text, "STOP</span>A garage adjoins: no duct, intake or unit in "
                     "it; seal it off first.</summary><p>You told us that a "
                     "garage shares");
    says = strstr(text, "id=\"answer\"");
    list = strstr(text, "<h3 id=\"questions\">You have not said whether ...");
    assert_true(stop && says && list);
    assert_true(stop < says && says < list);
    assert_non_null(strstr(
        list, "Not computed: kitchen hood, bath fans, dryer not given."));
    assert_non_null(
        strstr(list, "Answer: <code>safety.natural_draft_appliance</code>."));
    assert_int_equal(times(text, "id=\"questions\""), 1);
    assert_int_equal(
        times(text, "carbon monoxide back into the rooms. Before any"), 1);
    assert_null(strstr(text, "ruled out"));
    free(text);
}

/* ---- the sheets ------------------------------------------------------------- */

TEST(the_inspector_reads_no_pressure_untold)
{
    struct dew_report report = page_open(1, DEW_SYSTEM_US);
    char *text;

    page_scene.outcomes[0].year.pressure_all_min = -7.6;
    text = page_written(dew_report_inspector, &report, NULL);
    assert_null(strstr(text, "-7.6"));
    assert_non_null(strstr(text,
                           "with every fan at once</th><td class=\"n\">"
                           "not computed</td><td>kitchen hood, bath fans, "
                           "dryer not given<"));
    free(text);
    page_scene.facts[0].exhausts_told = 7;
    text = page_written(dew_report_inspector, &report, NULL);
    assert_non_null(strstr(text, "at once</th><td class=\"n\">-7.6 Pa<"));
    free(text);
    page_scene.outcomes[0].year.pressure_all_min = -79.4;
    text = page_written(dew_report_inspector, &report, NULL);
    assert_null(strstr(text, "79.4"));
    assert_non_null(strstr(text, ">more than 50 Pa<"));
    free(text);
}

/* ---- JSON ------------------------------------------------------------------- */

static json_t *summary(const struct dew_report *report)
{
    char *text = page_written(dew_report_json, report, NULL);
    json_t *o = json_loads(text, 0, NULL);

    assert_non_null(o);
    free(text);
    return o;
}

static const json_t *caution_of(const json_t *o, const char *key)
{
    json_t *c;
    size_t i;

    json_array_foreach(json_object_get(o, "cautions"), i, c)
    {
        if (strcmp(json_string_value(json_object_get(c, "key")), key) == 0)
            return c;
    }
    fail_msg("no caution %s", key);
    return NULL;
}

static void is_word(const json_t *c, const char *key, const char *want)
{
    assert_string_equal(json_string_value(json_object_get(c, key)), want);
}

TEST(json_tells_answer_and_key)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    json_t *o;

    page_scene.safety.attached_garage = DEW_ANSWER_YES;
    report.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    o = summary(&report);
    is_word(caution_of(o, "garage"), "answer", "yes");
    is_word(caution_of(o, "garage"), "question_key", "safety.attached_garage");
    is_word(caution_of(o, "combustion"), "answer", "unknown");
    is_word(caution_of(o, "planning_aid"), "answer", "yes");
    assert_true(json_is_null(
        json_object_get(caution_of(o, "planning_aid"), "question_key")));
    assert_true(json_is_null(
        json_object_get(caution_of(o, "garage"), "pressure_not_told")));
    json_decref(o);
}

TEST(json_lists_what_was_not_told)
{
    struct dew_report report = page_open(1, DEW_SYSTEM_SI);
    const json_t *option, *list;
    json_t *o;

    page_scene.outcomes[0].year.pressure_all_min = -107.5;
    page_scene.facts[0].exhausts_told = 1U << DEW_LOCAL_BATH;
    report.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    o = summary(&report);
    list = json_object_get(caution_of(o, "combustion"), "pressure_not_told");
    assert_int_equal(json_array_size(list), 2);
    assert_string_equal(json_string_value(json_array_get(list, 0)),
                        "range_hood.flow");
    assert_string_equal(json_string_value(json_array_get(list, 1)),
                        "clothes_dryer.flow");
    assert_true(json_is_null(
        json_object_get(caution_of(o, "combustion"), "pressure_pa")));
    option = json_array_get(json_object_get(o, "options"), 0);
    assert_true(
        json_is_null(json_object_get(option, "pressure_all_exhausts_min_pa")));
    assert_true(json_equal(json_object_get(option, "pressure_not_told"), list));
    json_decref(o);
    page_scene.facts[0].exhausts_told = 7;
    report.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    o = summary(&report);
    assert_near(json_number_value(json_object_get(caution_of(o, "combustion"),
                                                  "pressure_pa")),
                -107.5, 1e-9);
    option = json_array_get(json_object_get(o, "options"), 0);
    assert_near(json_number_value(
                    json_object_get(option, "pressure_all_exhausts_min_pa")),
                -107.5, 1e-9);
    json_decref(o);
}

ROWS(suction_rows, suction_in_words);
RUN_TESTS("sheets, cautions");
