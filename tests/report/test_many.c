/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings of one kind about several options, in one sentence. */
#include "support/rows.h"

#include "report/page.h"
#include "report/words.h"

#define IS(kind_, option_, other_, ...)                                        \
    {                                                                          \
        .kind = DEW_FINDING_##kind_, .option = (option_), .other = (other_),   \
        .number.kind_ = {                                                      \
            __VA_ARGS__                                                        \
        }                                                                      \
    }
enum { MOST = 6 };
#define LIMIT (0.02 * 8760) /* h, that still keep a limit */
#define CFM   0.00047194745

/* Options: as it stands, heat core, enthalpy core, return tie, dehumidifier. */
static const struct many_row {
    const char *name;
    struct dew_finding list[MOST];
    size_t count;
    const char *want[MOST]; /* of each; "" = an earlier one told it */
} many_rows[] = {
    {"damper with two, and a mixed third by itself",
     {IS(air_worsens, 1, -1, .humid = 1653, .today = 189, .added = 1500),
      {.kind = DEW_FINDING_air_worsens,
       .option = 2,
       .other = -1,
       .months = 0x40,
       .number.air_worsens = {.humid = 100, .today = 189, .added = 40}},
      IS(air_worsens, 3, -1, .humid = 816, .today = 189, .added = 800)},
     3,
     {"The house gets damper: too humid in 1,653 hours a year with \"heat "
      "core\" and 816 with \"return tie\", instead of 189 today.",
      "\"enthalpy core\" is too humid in 100 hours, today in 189: 40 more in "
      "July, 129 fewer in the other months.",
      ""}},
    {"damper with many",
     {IS(air_worsens, 1, -1, .humid = 1653, .today = 11, .added = 1500),
      IS(air_worsens, 2, -1, .humid = 816, .today = 11, .added = 800),
      IS(air_worsens, 3, -1, .humid = 8174, .today = 11, .added = 8000),
      IS(air_worsens, 4, -1, .humid = 900, .today = 11, .added = 880),
      IS(air_worsens, 1, -1, .humid = 1001, .today = 11, .added = 880)},
     5,
     {"The house gets damper with 5 of the options: too humid from 816 hours "
      "a year with \"enthalpy core\" to 8,174 with \"return tie\", instead of "
      "11 today.",
      "", "", "", ""}},
    {"too dry",
     {IS(grows_dry, 1, -1, .dry = 5246, .today = 3),
      IS(grows_dry, 2, -1, .dry = 724, .today = 3)},
     2,
     {"The house gets too dry: in 5,246 hours a year with \"heat core\" and "
      "724 with \"enthalpy core\", instead of 3 today.",
      ""}},
    {"fog",
     {IS(saturated, 0, -1, .saturated = 37),
      IS(saturated, 1, -1, .saturated = 9)},
     2,
     {"The rooms' air is as full of water as air can be (100 %) in 37 hours "
      "with \"as it stands\" and 9 with \"heat core\": what comes in beyond "
      "that turns to fog and wet surfaces.",
      ""}},
    {"mould",
     {IS(mould, 0, -1, .surface = DEW_EDGE, .index = 5.3,
         .after_ten_years = 5.4),
      IS(mould, 1, -1, .surface = DEW_CORNER, .index = 1.2,
         .after_ten_years = 3.46)},
     2,
     {"By the model visible mould would grow (mould index of 6 in the year, "
      "and after ten such years; 3 is visible): with \"as it stands\" on the "
      "window frame and glass edge (5.3, 5.4) and with \"heat core\" on the "
      "coldest corner (1.2, 3.5). Look there.",
      ""}},
    {"the coil decides on one of two",
     {IS(coil_option, 1, -1, .likely = 81, .low = 0, .high = 645, .decides = 1),
      IS(coil_option, 2, -1, .likely = 1195, .low = 910, .high = 2750)},
     2,
     {"How much water the blower takes back from the wet coil is not well "
      "known: \"heat core\" could be too humid in 0 to 645 hours instead of 81 "
      "and \"enthalpy core\" 910 to 2,750 instead of 1,195. Whether \"heat "
      "core\" keeps the limits hangs on that.",
      ""}},
    {"the coil decides on both",
     {IS(coil_option, 1, -1, .likely = 81, .low = 0, .high = 645, .decides = 1),
      IS(coil_option, 2, -1, .likely = 119, .low = 91, .high = 275,
         .decides = 1)},
     2,
     {"How much water the blower takes back from the wet coil is not well "
      "known: \"heat core\" could be too humid in 0 to 645 hours instead of 81 "
      "and \"enthalpy core\" 91 to 275 instead of 119. Whether they keep the "
      "limits hangs on that.",
      ""}},
    {"blowers",
     {IS(blower_cost, 1, -1, .blower = 718 * KWH, .own_fans = 543 * KWH,
         .reevaporation = 800 * 3.785411784),
      IS(blower_cost, 3, -1, .blower = 722 * KWH, .own_fans = 543 * KWH,
         .reevaporation = 700 * 3.785411784)},
     2,
     {"With \"heat core\" and \"return tie\" the air handler's blower runs for "
      "the fresh air too: 718 to 722 kWh a year more than today, and it blows "
      "700 to 800 gal more water a year from the wet cooling coil back into "
      "the rooms.",
      ""}},
    {"ties that harm, beside the same and another",
     {IS(tie_harmful, 1, 0, .wet = 1, .trunk_wet = 1765),
      IS(tie_harmful, 2, 0, .damper = 1, .humid_more = 6520),
      IS(tie_harmful, 3, 4, .wet = 1, .trunk_wet = 301)},
     3,
     {"Tied into the air handler's ducts, these do harm beside the own ducts "
      "of \"as it stands\": \"heat core\" (its supply trunk is wet in 1,765 "
      "hours) and \"enthalpy core\" (6,520 hours more too humid).",
      "",
      "The tie-in of \"return tie\" does harm beside the own ducts of "
      "\"dehumidifier\": its supply trunk is wet in 301 hours."}},
    {"ties that do not",
     {IS(tie_fine, 1, 0, .wet = 0),
      IS(tie_fine, 2, 0, .dear = 1, .blower_more = 608 * KWH)},
     2,
     {"\"heat core\" and \"enthalpy core\" (608 kWh a year more for the "
      "blower) do as well as the own ducts of \"as it stands\".",
      ""}},
    {"too little air, today's told before",
     {IS(under_ventilated, 0, -1, .fresh = 0, .required = 100 * CFM),
      IS(under_ventilated, 1, -1, .fresh = 92 * CFM, .required = 100 * CFM),
      IS(under_ventilated, 2, -1, .fresh = 49 * CFM, .required = 100 * CFM),
      IS(under_ventilated, 3, -1, .fresh = 54 * CFM, .required = 120 * CFM)},
     4,
     {"",
      "Too little fresh air: \"heat core\" brings 92 cfm of the 100 cfm asked "
      "for, \"enthalpy core\" brings 49 cfm and \"return tie\" brings 54 cfm "
      "of the 120 cfm asked for.",
      "", ""}},
    {"no savings, one that saves too little by itself",
     {IS(never_pays, 1, -1, .saved = -184, .install = 700),
      IS(never_pays, 2, -1, .saved = 20, .install = 6900),
      IS(never_pays, 3, -1, .saved = -582, .install = 6900)},
     3,
     {"\"heat core\" and \"return tie\" save no money: they cost $184 to $582 "
      "a year more to run than today. What you get is fresh air, and drier "
      "air with \"return tie\".",
      "\"enthalpy core\" does not pay back within 15 years: it saves $20 a "
      "year and costs $6,900 to install.",
      ""}},
    {"none of them saves",
     {IS(never_pays, 1, -1, .saved = -184, .install = 700),
      IS(never_pays, 3, -1, .saved = -184.2, .install = 6900)},
     2,
     {"None of these saves money: they cost $184 a year more to run than "
      "today. What you get is fresh air, and drier air with \"return tie\".",
      ""}},
};

static struct dew_report prepared(const struct many_row *row)
{
    static const char *const names[SCENE_MOST] = {"as it stands", "heat core",
                                                  "enthalpy core", "return tie",
                                                  "dehumidifier"};
    struct dew_report report = page_open(5, DEW_SYSTEM_US);

    for (int i = 0; i < 5; i++)
        page_scene.outcomes[i].name = names[i];
    page_scene.outcomes[0].year.fresh_sum = 0;
    page_scene.outcomes[0].year.drawn_sum = 0;
    /* drier than today, but the first of them too dry */
    page_scene.outcomes[1].year.too_dry = 900;
    memcpy(page_verdict.list, row->list, sizeof row->list);
    page_verdict.count = row->count;
    return report;
}

static void many_in_one(void **state)
{
    const struct many_row *row = *state;
    struct dew_report report = prepared(row);
    char text[REPORT__TOLD];

    for (size_t i = 0; i < row->count; i++)
        assert_string_equal(report__told(&report, i, text), row->want[i]);
}

/* 64 findings of long names fit no buffer: cut, never overrun. */
TEST(what_is_too_long_is_cut)
{
    struct dew_report report = prepared(&many_rows[0]);
    char text[REPORT__TOLD];

    for (int i = 0; i < 64; i++)
        page_verdict.list[i] = (struct dew_finding)IS(
            tie_harmful, 1, 0, .wet = 1, .trunk_wet = 1765, .damper = 1,
            .humid_more = 6520, .dear = 1, .blower_more = 608 * KWH);
    page_verdict.count = 64;
    report__told(&report, 0, text);
    assert_int_equal(strlen(text), REPORT__TOLD - 1);
}

/* Three of the same hours are all named. */
TEST(ties_name_all_winners)
{
    struct dew_report report = prepared(&many_rows[0]);
    char text[REPORT__TOLD];

    for (int i = 1; i < 5; i++)
        page_scene.outcomes[i].year.too_humid = i == 2 ? 900 : 31;
    page_verdict.list[0] = (struct dew_finding)IS(
        least_humid, 1, -1, .humid = 31, .today = 702, .alike = 3);
    assert_string_equal(
        report__told(&report, 0, text),
        "Fewest hours too humid with enough fresh air: \"heat core\", \"return "
        "tie\" and \"dehumidifier\", 31 hours (today 702).");
}

/* The best in 4 of 20 houses or more. */
TEST(a_close_call_names_all)
{
    struct dew_report report = prepared(&many_rows[0]);
    const struct dew_finding *f;
    char text[DEW_SENTENCE];

    for (int i = 0; i < 5; i++) {
        struct dew_tally *y = &page_scene.outcomes[i].year;

        y->too_humid = y->too_dry = y->sweat[DEW_GLASS] = 0;
        page_scene.costs[i].install =
            (struct dew_estimate)SAME(i == 3 ? 90000 : 1000 + i);
    }
    scene_draw(&page_scene);
    SCENE_DRAWN(&page_scene, 1, 0, 9, best, 1);
    SCENE_DRAWN(&page_scene, 2, 9, 4, best, 1);
    SCENE_DRAWN(&page_scene, 4, 13, 5, best, 1);
    dew_verdict_of(&page_scene.question, &page_verdict);
    f = scene_find(&page_verdict, DEW_FINDING_best_close, -2);
    assert_non_null(f);
    dew_report_sentence(&report, f, text, sizeof text);
    assert_non_null(strstr(
        text, "Best is a close call between \"heat core\", \"enthalpy core\" "
              "and \"dehumidifier\". As you told the house it is \"heat core\" "
              "($"));
    assert_non_null(strstr(
        text, "; of 100 houses like it \"heat core\" is the best in 50, "
              "\"enthalpy core\" is the best in 20, \"dehumidifier\" is the "
              "best in 30."));
}

/* ---- what to try next ------------------------------------------------------- */

static const struct try_row {
    const char *name;
    double humid, dry, wet, dryer, humidifier;
    const char *want;
} try_rows[] = {
    {"damp", 900, 0, 0, 0, 0, " Try next: the same with a dehumidifier."},
    {"damp with a dehumidifier", 900, 0, 0, 3e-4, 0,
     " Try next: a larger dehumidifier, or a lower set point."},
    {"dry and wet glass", 0, 900, 900, 0, 0,
     " Try next: a humidifier, a lower flow, or less air in winter "
     "(control.winter_target); drier air in winter, or warmer glass."},
    {"dry with a humidifier", 0, 900, 0, 0, 1e-4,
     " Try next: a larger humidifier."},
    {"at the limit", LIMIT, LIMIT, LIMIT, 0, 0, " of wet glass."},
};

static void what_to_try_next(void **state)
{
    const struct try_row *row = *state;
    struct dew_report report = prepared(&many_rows[0]);
    struct dew_tally *y = &page_scene.outcomes[1].year;
    struct dew_finding f =
        IS(best_none, 1, -1, .humid = 1, .dry = 2, .glass_wet = 3);
    char text[DEW_SENTENCE];
    size_t length, want = strlen(row->want);

    y->too_humid = row->humid;
    y->too_dry = row->dry;
    y->sweat[DEW_GLASS] = row->wet;
    page_scene.cases[1].plant.dryer.rate = row->dryer;
    page_scene.cases[1].plant.humidifier.rate = row->humidifier;
    dew_report_sentence(&report, &f, text, sizeof text);
    length = strlen(text);
    assert_true(length > want);
    assert_string_equal(text + length - want, row->want);
}

ROWS(many_rows, many_in_one);
ROWS(try_rows, what_to_try_next);
RUN_TESTS("report, many in one sentence");
