/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts of ducts as text, JSON and cautions. */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/ducts_report.h"
#include "dew/parts.h"
#include "report/nested.h"
#include "report/read.h"

static const double cfm = 4.719474432e-4; /* m3/s, exact */

static struct dew_duct_layout filled(enum dew_layout kind, int handlers)
{
    struct dew_duct_layout l;
    struct dew_error err = {0};

    dew_ducts_layout_blank(&l);
    l.kind = kind;
    l.handler_count = handlers;
    for (int k = 0; k < handlers; k++) {
        l.handlers[k].flow = (780 + 110 * k) * cfm;
        l.handlers[k].watts = 412;
    }
    l.vents[0].set[DEW_VENT_ON] = 87 * cfm;
    if (dew_ducts_layout_fill(&l, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    return l;
}

static struct dew_report_ducts *opened(const struct dew_ducts_option *options,
                                       size_t count)
{
    struct dew_report_ducts *d;
    struct dew_error err = {0};

    if (dew_report_ducts_open(&d, options, count, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    return d;
}

typedef enum dew_status writer(const struct dew_report_ducts *ducts,
                               const struct dew_ducts_frame *frame, FILE *out,
                               struct dew_error *err);

static char *written(writer *write, const struct dew_report_ducts *d,
                     enum dew_system system)
{
    static char text[400000];
    struct dew_ducts_frame frame = {.title = "A house that is made up",
                                    .version = "0.0",
                                    .sha256 = "",
                                    .currency = "$",
                                    .system = system};
    struct dew_error err = {0};
    FILE *out = tmpfile();
    size_t length;

    assert_non_null(out);
    assert_int_equal(write(d, &frame, out, &err), DEW_OK);
    rewind(out);
    length = fread(text, 1, sizeof text - 1, out);
    text[length] = '\0';
    assert_true(length < sizeof text - 1);
    fclose(out);
    return text;
}

static struct dew_ducts_option option(const struct dew_duct_layout *l)
{
    return (struct dew_ducts_option){.name = "tied",
                                     .layout = l,
                                     .required = 102 * cfm,
                                     .interlock = DEW_ANSWER_NO,
                                     .hood = DEW_ANSWER_NO};
}

/* ---- cautions ------------------------------------------------------------- */

/* clang-format off */
static const struct caution_row {
    const char *name;
    enum dew_layout kind;
    enum dew_duct_fit damper;
    enum dew_answer interlock, hood;
    const char *keys; /* as they stand, in order */
} caution_rows[] = {
    {"own ducts", DEW_LAYOUT_own_ducts, DEW_DUCT_UNSAID, DEW_ANSWER_NO, DEW_ANSWER_NO, ""},
    {"own ducts, a dryer joined", DEW_LAYOUT_own_ducts, DEW_DUCT_UNSAID, DEW_ANSWER_NO, DEW_ANSWER_YES, "hood_joined "},
    {"own ducts, a dryer not ruled out", DEW_LAYOUT_own_ducts, DEW_DUCT_UNSAID, DEW_ANSWER_NO, DEW_ANSWER_UNKNOWN, "hood_joined "},
    {"return tie", DEW_LAYOUT_return_tie, DEW_DUCT_UNSAID, DEW_ANSWER_NO, DEW_ANSWER_NO, "return_tie no_damper imbalance "},
    {"return tie, not asked", DEW_LAYOUT_return_tie, DEW_DUCT_NONE, DEW_ANSWER_UNKNOWN, DEW_ANSWER_NO, "return_tie no_damper imbalance interlock "},
    {"return tie, interlock and damper", DEW_LAYOUT_return_tie, DEW_DUCT_FITTED, DEW_ANSWER_YES, DEW_ANSWER_NO, "imbalance interlock "},
    {"supply tie, damper", DEW_LAYOUT_supply_tie, DEW_DUCT_FITTED, DEW_ANSWER_NO, DEW_ANSWER_NO, "imbalance "},
    {"mix", DEW_LAYOUT_mix, DEW_DUCT_NONE, DEW_ANSWER_NO, DEW_ANSWER_NO, "no_damper imbalance "},
};
/* clang-format on */

static void caution_row(void **state)
{
    const struct caution_row *r = *state;
    struct dew_duct_layout l = filled(r->kind, 1);
    struct dew_ducts_option o = option(&l);
    struct dew_report_ducts *d;
    char keys[200] = "";
    json_t *root, *list, *c;
    size_t i, stops = 0;

    l.damper = r->damper;
    o.interlock = r->interlock;
    o.hood = r->hood;
    d = opened(&o, 1);
    root = read_json(written(dew_report_ducts_json, d, DEW_SYSTEM_SI));
    list = at(root, "layouts.0.cautions");
    json_array_foreach(list, i, c)
    {
        snprintf(keys + strlen(keys), sizeof keys - strlen(keys), "%s ",
                 text_at(c, "key"));
        if (strcmp(text_at(c, "key"), "hood_joined") == 0) {
            assert_string_equal(text_at(c, "answer"), dew_answer_text(r->hood));
            assert_string_equal(text_at(c, "question_key"),
                                "safety.hood_into_ventilator");
        }
        stops += strcmp(text_at(c, "level"), "STOP") == 0;
    }
    assert_string_equal(keys, r->keys);
    assert_int_equal(dew_report_ducts_stops(d), stops);
    json_decref(root);
    dew_report_ducts_close(d);
}

/* ---- JSON ----------------------------------------------------------------- */

/* Every state stands there, with the ducts' own figures in litres a second. */
TEST(json_has_every_state)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_return_to_supply, 2);
    struct dew_ducts_option o = option(&l);
    struct dew_report_ducts *d = opened(&o, 1);
    struct dew_duct_state s[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    json_t *root = read_json(written(dew_report_ducts_json, d, DEW_SYSTEM_US));
    json_t *states = at(root, "layouts.0.states");
    struct dew_error err = {0};
    int blowers;

    assert_int_equal(dew_ducts_states(&l, s, &blowers, &err), DEW_OK);
    assert_int_equal(json_array_size(states), 18); /* off, on; no boost */
    for (int i = 0; i < 18; i++) {
        const struct dew_duct_state *want = &s[i / 9][i % 9];
        json_t *got = json_array_get(states, (size_t)i);
        json_t *hands = json_object_get(got, "handlers");

        assert_string_equal(text_at(got, "ventilator"), i < 9 ? "off" : "on");
        assert_int_equal(json_array_size(hands), 2);
        assert_near(number_at(got, "fresh_delivered_l_s"),
                    1e3 * want->fresh_delivered, 1e-6);
        assert_near(number_at(got, "stale_drawn_l_s"), 1e3 * want->stale_drawn,
                    1e-6);
        assert_near(number_at(got, "imbalance_l_s"), 1e3 * want->imbalance,
                    1e-6);
        assert_near(number_at(got, "backflow_l_s"), 1e3 * want->backflow, 1e-6);
        assert_near(number_at(got, "fan_w"), want->fan_w, 1e-6);
        if (i < 9)
            assert_true(
                json_is_null(json_object_get(got, "short_circuit_share")));
        else
            assert_near(number_at(got, "short_circuit_share"),
                        want->short_circuit_share, 1e-8);
    }
    json_decref(root);
    dew_report_ducts_close(d);
}

/* ---- text ----------------------------------------------------------------- */

TEST(no_line_is_wider_than_a_page)
{
    for (int kind = 0; kind < DEW_LAYOUTS; kind++)
        for (int n = kind == DEW_LAYOUT_own_ducts ? 0 : 1; n <= 3; n++)
            for (int system = 1; system <= 2; system++) {
                struct dew_duct_layout l = filled((enum dew_layout)kind, n);
                struct dew_ducts_option o = option(&l);
                struct dew_report_ducts *d = opened(&o, 1);
                char *text =
                    written(dew_report_ducts_text, d, (enum dew_system)system);

                for (const char *line = text; *line != '\0';
                     line += strcspn(line, "\n") + 1)
                    if (strcspn(line, "\n") > 80)
                        fail_msg("%d, %d: %.90s", kind, n, line);
                dew_report_ducts_close(d);
            }
}

/* The sentences carry the states' own figures. */
TEST(sentences_hold_their_figures)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_mix, 1);
    struct dew_ducts_option o = option(&l);
    struct dew_report_ducts *d = opened(&o, 1);
    struct dew_duct_state s[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    struct dew_error err = {0};
    char *text = written(dew_report_ducts_text, d, DEW_SYSTEM_US), want[200];
    int blowers;

    for (char *c = text; *c != '\0'; c++) /* unwrap */
        if (c[0] == '\n' && c[1] == ' ' && c[2] == ' ' && c[3] != ' ') {
            memmove(c + 1, c + 3, strlen(c + 3) + 1);
            *c = ' ';
        }
    assert_int_equal(dew_ducts_states(&l, s, &blowers, &err), DEW_OK);
    snprintf(want, sizeof want,
             "blower at full flow: %.0f cfm of outdoor air is drawn in and "
             "%.0f cfm of it reaches the rooms",
             s[1][2].fresh_gross / cfm, s[1][2].fresh_delivered / cfm);
    assert_non_null(strstr(text, want));
    snprintf(want, sizeof want, "trunk and grilles resist %.1f Pa",
             s[1][0].trunk_resists[0]);
    assert_non_null(strstr(text, want));
    snprintf(want, sizeof want,
             "holds the fresh tap at %.0f Pa against the rooms, which helps "
             "the supply fan: %.0f cfm instead of %.0f cfm",
             s[1][2].tap_fresh[0], s[1][2].fresh_gross / cfm,
             s[1][0].fresh_gross / cfm);
    assert_non_null(strstr(text, want));
    snprintf(want, sizeof want,
             "Ventilator off, blower at full flow: %.0f cfm "
             "of outdoor air comes in",
             s[0][2].unplanned / cfm);
    assert_non_null(strstr(text, want));
    assert_non_null(strstr(text,
                           "412 W, which is 3,609 kWh a year if always on "
                           "and 1,203 at 20 minutes of each hour"));
    dew_report_ducts_close(d);
}

/* Job 6: 400 W all year is 3,504 kWh, 20 minutes an hour 1,168. */
TEST(the_blower_has_its_price)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_supply_tie, 1);
    struct dew_ducts_option o = option(&l);
    struct dew_report_ducts *d;

    l.handlers[0].watts = 400;
    d = opened(&o, 1);
    assert_non_null(
        strstr(written(dew_report_ducts_text, d, DEW_SYSTEM_US), "3,504 kWh"));
    assert_non_null(strstr(written(dew_report_ducts_text, d, DEW_SYSTEM_US),
                           "1,168 at 20"));
    dew_report_ducts_close(d);
}

/* ---- the page and its sketches --------------------------------------------- */

static enum dew_status svg_writer(const struct dew_report_ducts *ducts,
                                  const struct dew_ducts_frame *frame,
                                  FILE *out, struct dew_error *err)
{
    return dew_report_ducts_svg(ducts, 0, frame->system, out, err);
}

TEST(pages_and_sketches_are_whole)
{
    for (int kind = 0; kind < DEW_LAYOUTS; kind++)
        for (int n = kind == DEW_LAYOUT_own_ducts ? 0 : 1; n <= 3; n++) {
            struct dew_duct_layout l = filled((enum dew_layout)kind, n);
            struct dew_ducts_option o = option(&l);
            struct dew_report_ducts *d;
            const char *text;

            o.name = "one & <two>";
            d = opened(&o, 1);
            text = written(dew_report_ducts_html, d, DEW_SYSTEM_US);
            assert_nested(text);
            assert_null(strstr(text, "nan"));
            assert_null(strstr(text, "http"));
            assert_null(strstr(text, "\\x")); /* no line's end was escaped */
            text = written(svg_writer, d, DEW_SYSTEM_SI);
            assert_nested(text);
            assert_null(strstr(text, "nan"));
            assert_non_null(strstr(text, "one &amp; &lt;two&gt;"));
            assert_null(strstr(text, "\\x"));
            dew_report_ducts_close(d);
        }
}

/* Blower off: an arrow straight back; on: none.  Idle: astray, both sides. */
TEST(a_sketch_shows_what_the_states_do)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_return_tie, 1);
    struct dew_ducts_option o = option(&l);
    struct dew_report_ducts *d = opened(&o, 1);
    const char *text = written(svg_writer, d, DEW_SYSTEM_US);
    const char *on = strstr(text, "Ventilator on, blower full");
    const char *off = strstr(text, "Ventilator off, blower full");
    const char *back = strstr(text, "straight back");

    assert_true(on != NULL && off != NULL && back != NULL);
    assert_true(back < on);
    assert_int_equal(times(text, "straight back"), 1);
    assert_true(strstr(text, "class=\"d-astray\"") > off);
    assert_int_equal(times(off, "class=\"d-astray\""), 5); /* and the key */
    /* in each panel its unit, at each tap too; nothing where nothing flows */
    assert_int_equal(times(text, ">air in cfm</text>"),
                     times(text, ">Ventilator o"));
    assert_int_equal(times(text, "class=\"d-pascal"),
                     times(text, " Pa</text>"));
    assert_true(times(text, " Pa</text>") > 0);
    assert_null(strstr(text, "stroke-width=\"1.6\""));
    assert_null(strstr(text, ">0</text>"));
    /* words stand on lines */
    assert_null(strstr(strstr(off, ">outside<"), "class=\"d-halo\""));
    dew_report_ducts_close(d);
}

/* ---- commissioning --------------------------------------------------------- */

TEST(measured_grilles_are_judged)
{
    struct dew_duct_layout l;
    struct dew_ducts_option o;
    struct dew_report_ducts *d;
    struct dew_error err = {0};
    const char *text;

    dew_ducts_layout_blank(&l);
    l.vents[0].set[DEW_VENT_ON] = 90 * cfm;
    l.grille_count = 3;
    l.grilles[0].name = "den";
    l.grilles[0].vent = 0;
    l.grilles[0].stale = 0;
    l.grilles[0].fresh = 1;
    l.grilles[0].found_fresh = 85 * cfm;
    l.grilles[1].name = "bath";
    l.grilles[1].vent = 0;
    l.grilles[1].fresh = 0;
    l.grilles[1].stale = .5;
    l.grilles[1].found_stale = 30 * cfm;
    l.grilles[2] = l.grilles[1];
    l.grilles[2].name = "kitchen";
    assert_int_equal(dew_ducts_layout_fill(&l, &err), DEW_OK);
    o = option(&l);
    d = opened(&o, 1);
    text = written(dew_report_ducts_text, d, DEW_SYSTEM_US);
    assert_int_equal(times(text, "        good\n"), 1);
    assert_int_equal(times(text, "33 % low !\n"), 2);
    assert_non_null(strstr(text, "81 to 99"));
    text = written(dew_report_ducts_html, d, DEW_SYSTEM_US);
    assert_int_equal(times(text, "<td>good</td>"), 1);
    assert_int_equal(times(text, "<td class=\"bad\">33 % low !</td>"), 2);
    assert_true(times(text, "<td class=\"blank\"></td>") > 4);
    dew_report_ducts_close(d);
}

/* Parts, hours and sizes are the layout's own, in text, page and JSON. */
TEST(parts_and_sizes_are_listed)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_mix, 2);
    struct dew_ducts_option o = option(&l);
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t n = dew_ducts_parts(&l, rows, DEW_DUCT_PARTS);
    struct dew_report_ducts *d;
    json_t *root, *part;
    size_t i;
    const char *page;

    l.vents[0].intake.duct.diameter = .1016; /* too small by far */
    d = opened(&o, 1);
    root = read_json(written(dew_report_ducts_json, d, DEW_SYSTEM_SI));
    assert_int_equal(json_array_size(at(root, "layouts.0.sizes")), 4 + 3);
    assert_true(json_is_true(at(root, "layouts.0.sizes.0.too_small")));
    assert_true(json_array_size(at(root, "layouts.0.parts")) >= n);
    json_array_foreach(at(root, "layouts.0.parts"), i,
                       part) if (strcmp(text_at(part, "part"),
                                        "take-off cut into a trunk") == 0)
        assert_near(number_at(part, "amount"), 2, 1e-9);
    json_decref(root);
    page = written(dew_report_ducts_text, d, DEW_SYSTEM_US);
    assert_non_null(strstr(page, "To buy and fit"));
    assert_non_null(strstr(page, "take-off cut into a trunk"));
    assert_non_null(strstr(page, " 4 in !\n"));
    page = written(dew_report_ducts_html, d, DEW_SYSTEM_SI);
    assert_non_null(strstr(page, "<h3>To buy and fit</h3>"));
    assert_non_null(strstr(page, "class=\"bad\">102 mm !<"));
    dew_report_ducts_close(d);
}

/* Two layouts: what is asked of both is asked once, of which it is said. */
TEST(cautions_stand_once_for_all_layouts)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_return_tie, 1);
    struct dew_ducts_option o[2] = {option(&l), option(&l)};
    struct dew_report_ducts *d;
    const char *text, *told, *asked;

    o[1].name = "tied, <again>";
    o[0].hood = o[1].hood = DEW_ANSWER_UNKNOWN;
    o[1].interlock = DEW_ANSWER_UNKNOWN;
    d = opened(o, 2);
    assert_int_equal(dew_report_ducts_stops(d), 4);
    text = written(dew_report_ducts_text, d, DEW_SYSTEM_US);
    told = strstr(text, "STOP   Fresh and stale air are both tied");
    asked = strstr(text, "You have not said whether ...");
    assert_true(told && asked && told < asked);
    assert_int_equal(times(text, "STOP   a kitchen hood or a clothes"), 1);
    assert_true(strstr(text, "STOP   a kitchen hood") > asked);
    assert_int_equal(times(text, "STOP   the blower runs whenever"), 1);
    assert_non_null(strstr(text, "Of \"tied\", \"tied, <again>\"."));
    assert_non_null(strstr(text, "safety.hood_into_ventilator."));
    assert_non_null(strstr(text, "Cautions, told above: STOP return_tie"));
    text = written(dew_report_ducts_html, d, DEW_SYSTEM_US);
    assert_nested(text);
    assert_int_equal(times(text, "STOP</span>a kitchen hood or a clothes"), 1);
    assert_non_null(strstr(text, "&quot;tied, &lt;again&gt;&quot;."));
    dew_report_ducts_close(d);
}

TEST(options_without_two_fans_are_named)
{
    struct dew_duct_layout none, l = filled(DEW_LAYOUT_own_ducts, 0);
    struct dew_ducts_option o[2];
    struct dew_report_ducts *d;

    dew_ducts_layout_blank(&none);
    none.vent_count = 0;
    o[0] = option(&none);
    o[0].name = "bath fan \x1b alone";
    o[1] = option(&l);
    d = opened(o, 2);
    assert_non_null(
        strstr(written(dew_report_ducts_text, d, DEW_SYSTEM_US),
               "bath fan \\x1b alone: no ventilator with two fans"));
    dew_report_ducts_close(d);
}

ROWS(caution_rows, caution_row);
RUN_TESTS("sheets, ducts");
