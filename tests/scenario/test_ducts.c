/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From keys of ducts to layouts, and from layouts to the paths of a case. */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "dew/air.h"
#include "dew/bundle.h"
#include "dew/scenario.h"

static const double cfm = 4.719474432e-4; /* m3/s, exact */

static const struct dew_outdoors place = {
    .site = {.latitude = 41.3, .longitude = -81.9, .utc_offset = -5},
    .pressure = 98512,
    .monthly = {5, 7, 11, 16, 22, 26, 28, 28, 24, 18, 11, 7},
};

#define HOUSE                                                                  \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 2400 ft2, bedrooms: 3}\n"
#define COOLED HOUSE "cooling: {capacity: 3 ton, blower_power: 400 W}\n"
#define UNIT                                                                   \
    "ventilator: {core: enthalpy_plate, flow: 95 cfm, sensible: 74 % at 95 "   \
    "cfm, moisture: 52 % at 95 cfm, power: 58 W}\n"

static struct dew_scenario *opened(const char *text)
{
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_scenario_source from = {text, strlen(text), "h.yaml", NULL, 0};
    struct dew_scenario *s = NULL;
    char line[400];

    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return s;
}

static struct dew_case case_of(const char *text)
{
    struct dew_scenario *s = opened(text);
    struct dew_error err = {0};
    struct dew_case c;

    if (dew_scenario_case(s, 0, &place, NULL, &c, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    dew_scenario_close(s);
    return c;
}

static struct dew_duct_layout layout_of(struct dew_scenario *s)
{
    struct dew_error err = {0};
    struct dew_duct_layout l;

    if (dew_scenario_layout(s, 0, &place, &l, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    return l;
}

/* ---- presets -------------------------------------------------------------- */

#define SAME(member) assert_near(a.member, b.member, 1e-9)

/* The table's presets are those of the ducts' own filling. */
TEST(presets_are_those_of_the_ducts)
{
    struct dew_scenario *s = opened(COOLED UNIT "layout: return_tie\n");
    struct dew_duct_layout a = layout_of(s), b;
    struct dew_error err = {0};

    dew_ducts_layout_blank(&b);
    b.kind = DEW_LAYOUT_return_tie;
    b.handler_count = 1;
    b.handlers[0].flow = a.handlers[0].flow;
    b.handlers[0].watts = 400;
    b.vents[0].set[DEW_VENT_ON] = 95 * cfm / 0.99;
    b.density = a.density;
    assert_int_equal(dew_ducts_layout_fill(&b, &err), DEW_OK);
    SAME(handlers[0].low);
    SAME(handlers[0].external);
    SAME(handlers[0].inside);
    SAME(handlers[0].free);
    SAME(handlers[0].watts_low);
    SAME(handlers[0].return_share);
    SAME(handlers[0].between);
    SAME(handlers[0].before);
    SAME(handlers[0].after);
    SAME(handlers[0].leak_return);
    SAME(handlers[0].leak_supply);
    SAME(vents[0].set[DEW_VENT_ON]);
    SAME(vents[0].set_stale[DEW_VENT_BOOST]);
    SAME(vents[0].flow);
    SAME(vents[0].pressure);
    SAME(vents[0].core);
    SAME(vents[0].eatr);
    SAME(vents[0].intake.duct.diameter);
    SAME(vents[0].intake.duct.loss);
    SAME(damper_leak);
    SAME(mixing.low);
    SAME(mixing.likely);
    SAME(mixing.high);
    assert_int_equal(a.length, b.length);
    assert_int_equal(a.reference, b.reference);
    assert_int_equal(a.grille_count, b.grille_count);
    assert_int_equal(a.vents[0].serves, b.vents[0].serves);
    dew_scenario_close(s);
}

/* ---- keys to members ------------------------------------------------------ */

TEST(rows_describe_ducts_and_grilles)
{
    struct dew_scenario *s = opened(
        COOLED UNIT
        "layout: own_ducts\nair_handlers: 2\n"
        "ducts:\n"
        "  ventilators: one_each\n"
        "  lines:\n"
        "    - {line: intake, diameter: 7 in, length: 11 ft, elbows: 3}\n"
        "    - {line: supply_trunk, of: 2, width: 22 in, height: 9 in, length: "
        "23 ft, wall: lined, outside: 40 %}\n"
        "  grilles:\n"
        "    - {room: den, fresh: 100 %, supply: 100 %, stale: 99 %}\n"
        "    - {room: attic room, handler: 2, fresh: 1, stale: 100 %}\n"
        "    - {room: bath, stale: 1 %, diameter: 4 in, length: 9 ft}\n");
    struct dew_duct_layout l = layout_of(s);

    assert_int_equal(l.vent_count, 2);
    assert_near(l.vents[1].intake.duct.diameter, 7 * .0254, 1e-12);
    assert_near(l.vents[1].intake.duct.length, 11 * .3048, 1e-12);
    assert_near(l.vents[1].intake.duct.loss, 3.35 + .75, 1e-12);
    assert_near(l.vents[0].set[DEW_VENT_ON], 95 * cfm / .99 / 2, 1e-9);
    assert_near(l.handlers[1].supply_trunk.duct.width, 22 * .0254, 1e-12);
    assert_near(l.handlers[1].supply_trunk.duct.roughness, 1.52e-3, 1e-12);
    assert_near(l.handlers[1].supply_trunk.outside, .4, 0);
    assert_true(l.handlers[0].supply_trunk.duct.diameter > 0);
    assert_string_equal(l.grilles[0].name, "den");
    assert_near(l.grilles[0].fresh, 1, 0); /* alone on ventilator 1 */
    assert_int_equal(l.grilles[1].vent, 1);
    assert_int_equal(l.grilles[1].handler, -1);
    assert_near(l.grilles[2].line.duct.diameter, 4 * .0254, 1e-12);
    assert_near(l.grilles[2].line.duct.length, 9 * .3048, 1e-12);
    /* the second handler blows somewhere */
    assert_int_equal(l.grille_count, 4);
    assert_string_equal(l.grilles[3].name, "rooms of air handler 2");
    dew_scenario_close(s);
}

TEST(flags_and_answers_are_carried_over)
{
    struct dew_scenario *s = opened(
        COOLED "ventilator: {core: balanced, flow: 83 cfm, damper: yes, "
               "fan_pressure: 0.41 inwg, fan: [{flow: 30 cfm, pressure: 190 "
               "Pa}, {flow: 90 cfm, pressure: 120 Pa}, {flow: 140 cfm, "
               "pressure: 20 Pa}]}\n"
               "layout: mix\nair_handlers: 3\n"
               "ducts: {tied_to: third, backdraft: no, open_end: yes, "
               "own_branches: yes, set_while: full, shower_caught: 33 % (11 to "
               "47), short_circuit: 17 %, short_circuit_full: 5 %, found: "
               "[{blower: full, fresh: 61 cfm}]}\n");
    struct dew_duct_layout l = layout_of(s);

    assert_int_equal(l.vents[0].serves, 4);
    assert_int_equal(l.damper, DEW_DUCT_FITTED);
    assert_int_equal(l.backdraft, DEW_DUCT_NONE);
    assert_true(l.gap && l.also_own);
    assert_int_equal(l.reference, 26);
    assert_near(l.pickup[DEW_DUCT_SHOWER].high, .47, 1e-12);
    assert_near(l.short_circuit[0], .17, 0);
    assert_near(l.short_circuit[2], .05, 0);
    assert_near(l.found[2].fresh, 61 * cfm, 1e-12);
    assert_true(isnan(l.found[1].fresh));
    assert_int_equal(l.vents[0].row_count, 3);
    assert_near(l.vents[0].rows[1].flow, 90 * cfm, 1e-12);
    assert_near(l.vents[0].eatr, 0, 0);
    dew_scenario_close(s);
}

TEST(a_lone_fan_has_no_layout)
{
    struct dew_scenario *s = opened(COOLED "ventilator: {core: exhaust_only}\n"
                                           "layout: return_tie\n");

    assert_int_equal(layout_of(s).vent_count, 0);
    dew_scenario_close(s);
}

/* ---- paths ---------------------------------------------------------------- */

enum { OFF, LOW, FULL }; /* of one air handler */

/* Own ducts set by a fitter give what was typed, whatever the blower does. */
TEST(own_ducts_give_what_was_typed)
{
    struct dew_case a = case_of(COOLED UNIT);
    struct dew_case b = case_of(COOLED UNIT "layout: own_ducts\n");
    const struct dew_path *plain = &a.paths[DEW_VENT_ON][OFF];

    for (int k = OFF; k <= FULL; k++) {
        const struct dew_path *p = &b.paths[DEW_VENT_ON][k];

        assert_near(p->supply, plain->supply, 1e-9);
        assert_near(p->exhaust, plain->exhaust, 1e-9);
        assert_near(p->fresh, plain->fresh, 1e-9);
        assert_near(p->sensible, plain->sensible, 1e-6);
        assert_near(p->latent, plain->latent, 1e-6);
        assert_near(p->fan_w, 58, 1e-6);
        assert_near(p->fan_heat, plain->fan_heat, 1e-6);
        assert_near(b.paths[DEW_VENT_OFF][k].unplanned, 0, 1e-9);
    }
}

/* The signs of the makers' manuals [TIE-MANUALS]. */
TEST(ties_shift_with_the_blower)
{
    struct dew_case ret = case_of(COOLED UNIT "layout: return_tie\n");
    struct dew_case sup = case_of(COOLED UNIT "layout: supply_tie\n");
    struct dew_case mix = case_of(COOLED UNIT "layout: mix\n");
    const struct dew_path *on = ret.paths[DEW_VENT_ON];

    assert_true(on[OFF].fresh < 0.5 * on[FULL].fresh);
    assert_true(on[FULL].at_coil > 0.9 * on[FULL].fresh);
    on = sup.paths[DEW_VENT_ON];
    assert_true(on[FULL].supply < on[OFF].supply - 0.05 * on[OFF].supply);
    assert_near(on[FULL].exhaust, on[OFF].exhaust, 1e-9);
    assert_true(sup.paths[DEW_VENT_OFF][FULL].spill > 1e-3);
    on = mix.paths[DEW_VENT_ON];
    assert_true(on[FULL].supply > 1.05 * on[OFF].supply);
    assert_true(mix.paths[DEW_VENT_OFF][FULL].unplanned > 1e-3);
    assert_near(mix.paths[DEW_VENT_OFF][OFF].unplanned, 0, 1e-9);
}

TEST(typed_figures_hold_in_place_of_computed_ones)
{
    struct dew_case c = case_of(
        COOLED UNIT "layout: return_tie\n"
                    "ducts: {short_circuit: 21 %, short_circuit_full: 8 %, "
                    "past_coil: 60 %, found: [{blower: off, fresh: 50 cfm, "
                    "stale: 61 cfm}, {blower: full, fresh: 71 cfm}]}\n");
    const struct dew_path *on = c.paths[DEW_VENT_ON];

    assert_near(on[OFF].supply, 50 * cfm, 1e-9);
    assert_near(on[OFF].exhaust, 61 * cfm, 1e-9);
    assert_near(on[OFF].fresh, .79 * .99 * 50 * cfm, 1e-9);
    assert_near(on[FULL].fresh, .92 * .99 * 71 * cfm, 1e-9);
    assert_near(on[FULL].at_coil, .6 * on[FULL].fresh, 1e-12);
}

TEST(measured_grilles_hold_in_place_of_the_set_flow)
{
    struct dew_case c = case_of(
        COOLED UNIT "layout: own_ducts\nducts: {grilles: [{room: den, "
                    "fresh_found: 31 cfm, fresh_found_full: 29 cfm}, {room: "
                    "hall, fresh_found: 23 cfm}, {room: bath, stale_found: 67 "
                    "cfm}]}\n");

    assert_near(c.paths[DEW_VENT_ON][OFF].supply, 54 * cfm, 1e-9);
    assert_near(c.paths[DEW_VENT_ON][OFF].exhaust, 67 * cfm, 1e-9);
    assert_near(c.paths[DEW_VENT_ON][FULL].supply, 52 * cfm, 1e-9);
}

TEST(a_damper_stops_the_idle_unit)
{
    struct dew_case open = case_of(
        COOLED "ventilator: {core: balanced, flow: 95 cfm}\nlayout: mix\n");
    struct dew_case shut =
        case_of(COOLED "ventilator: {core: balanced, flow: 95 cfm, damper: "
                       "yes}\nlayout: mix\n");
    double without = open.paths[DEW_VENT_OFF][FULL].unplanned;

    assert_true(shut.paths[DEW_VENT_OFF][FULL].unplanned > 0);
    assert_true(shut.paths[DEW_VENT_OFF][FULL].unplanned < 0.2 * without);
}

/* its own control: only the watts tell of the blower */
TEST(a_ventilator_may_hold_its_flow)
{
    struct dew_case c = case_of(
        COOLED "layout: supply_tie\n"
               "ventilator: {core: balanced, flow: 95 cfm, power: 58 W, "
               "fan_pressure: 250 Pa, holds_flow: yes}\n");
    const struct dew_path *on = c.paths[DEW_VENT_ON];

    assert_near(on[2].supply, on[0].supply, 1e-8);
    assert_near(on[2].supply, 95 * cfm, 1e-4);
    assert_true(on[2].fan_w > 1.2 * on[0].fan_w);
}

TEST(a_pickup_catches_less_what_the_core_hands_back)
{
    struct dew_case c =
        case_of(COOLED UNIT "layout: own_ducts\nducts: {shower_caught: 40 %, "
                            "cooking_caught: 10 %}\n");
    double kept = 1 - c.paths[DEW_VENT_ON][OFF].latent;

    assert_near(c.house.water[DEW_SOURCE_showers].caught, .4 * kept, 1e-9);
    assert_near(c.house.water[DEW_SOURCE_cooking].caught, .1 * kept, 1e-9);
    c = case_of(COOLED UNIT);
    assert_near(c.house.water[DEW_SOURCE_showers].caught, 0, 0);
}

/* Two units of half the flow recover at their own flows, not at the sum. */
TEST(two_ventilators_are_two_cores)
{
    struct dew_case one =
        case_of(COOLED UNIT "air_handlers: 2\nlayout: own_ducts\n");
    struct dew_case two =
        case_of(COOLED UNIT "air_handlers: 2\nlayout: own_ducts\nducts: "
                            "{ventilators: one_each}\n");

    assert_near(two.paths[DEW_VENT_ON][0].fresh,
                one.paths[DEW_VENT_ON][0].fresh, 1e-9);
    assert_true(two.paths[DEW_VENT_ON][0].sensible >
                one.paths[DEW_VENT_ON][0].sensible + .05);
    assert_near(two.paths[DEW_VENT_ON][0].fan_w, 58, 1e-6);
}

/* ---- leaks and trunks outside, with any ventilator --------------------------- */

#define EXHAUST "ventilator: {core: exhaust_only, flow: 60 cfm, power: 12 W}\n"
#define SUPPLY  "ventilator: {core: supply_only, flow: 60 cfm, power: 12 W}\n"
#define LEAKS   "ducts: {leak_return: 10 %, leak_supply: 6 %}\n"

/* the same air is drawn in and lost whatever the ventilator: its share of the
   blower's, which the leaks let run a little easier */
TEST(leaks_count_with_any_ventilator)
{
    static const char *const texts[] = {COOLED LEAKS, COOLED EXHAUST LEAKS,
                                        COOLED SUPPLY LEAKS, COOLED UNIT LEAKS};

    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct dew_case c = case_of(texts[i]);

        for (int v = 0; v < DEW_VENT_STATES; v++) {
            const struct dew_path *full = &c.paths[v][FULL];
            const struct dew_duct_leaking *l = &c.watch.leaks[v][0][1];

            assert_near(full->leak_in, .1 * c.plant.handlers[0].air, .002);
            assert_near(full->leak_out, .06 * c.plant.handlers[0].air, .002);
            assert_near(full->leak_lost, l->lost * full->leak_in, 1e-9);
            assert_near(l->drawn, .1, .001);
            assert_near(l->lost, .06, .001);
            assert_true(c.paths[v][LOW].leak_in < .6 * full->leak_in);
            assert_near(c.paths[v][OFF].leak_in, 0, 1e-4);
        }
    }
}

/* a fan's own flows stay its own */
TEST(a_lone_fan_keeps_its_flows)
{
    static const char *const fans[][2] = {
        {COOLED EXHAUST, COOLED EXHAUST LEAKS},
        {COOLED SUPPLY, COOLED SUPPLY LEAKS}};

    for (int i = 0; i < 2; i++) {
        struct dew_case a = case_of(fans[i][0]), b = case_of(fans[i][1]);

        for (int v = 0; v < DEW_VENT_STATES; v++)
            for (int k = 0; k < DEW_BLOWER_STATES; k++) {
                b.paths[v][k].leak_in = b.paths[v][k].leak_out =
                    b.paths[v][k].leak_lost = 0;
                assert_memory_equal(&a.paths[v][k], &b.paths[v][k],
                                    sizeof a.paths[v][k]);
            }
    }
}

#define TRUNK                                                                  \
    "  - {line: supply_trunk, diameter: 16 in, length: 40 ft, outside: %s, "   \
    "insulation: 6 R}\n"

/* trunks outside alone will do; inside, or without an air handler, nothing */
TEST(trunks_outside_count_too)
{
    const char *const told[] = {"50 %", "0 %"};

    for (int i = 0; i < 2; i++) {
        char text[500];
        struct dew_case c;

        snprintf(text, sizeof text, COOLED "ducts:\n lines:\n" TRUNK, told[i]);
        c = case_of(text);
        assert_int_equal(c.watch.supply_full > 0, i == 0);
        assert_int_equal(c.house.around.air > 0, i == 0);
    }
    assert_near(
        case_of(HOUSE "heating: {by_air: no}\n" LEAKS).paths[0][FULL].leak_in,
        0, 0);
}

/* where they lie is a matter of the key, and means nothing by itself */
TEST(the_place_is_where_leaks_lie)
{
    struct dew_case attic = case_of(COOLED LEAKS);
    struct dew_case deck = case_of(
        COOLED "ducts: {leak_return: 10 %, deck_insulation: 38 R, place_air: "
               "0.5 per hour}\n");
    struct dew_case crawl =
        case_of(COOLED "ducts: {leak_return: 10 %, place: crawl_space}\n");
    struct dew_case open =
        case_of(COOLED "ducts: {leak_return: 10 %, place: outdoors}\n");
    struct dew_case alone = case_of(COOLED UNIT "ducts: {place: outdoors}\n");
    struct dew_case plain = case_of(COOLED UNIT);

    assert_near(attic.house.around.absorptance, .6, 1e-12);
    assert_near(attic.house.around.air, 1206 * 6.5 / 3600, 1e-6);
    assert_near(attic.house.around.rooms, 5.678263 / 38, 1e-5);
    assert_near(deck.house.around.rooms, 2.5, 1e-9);
    assert_true(deck.house.around.roof < .06 * attic.house.around.roof);
    assert_true(crawl.house.around.ground > 0 && crawl.house.around.roof == 0);
    assert_near(open.house.around.air, 0, 0);
    assert_true(dew_bundle_same(&alone, &plain));
}

/* showers and cooking are caught where pickups are told of, leaks or none */
TEST(leaks_catch_no_shower)
{
    struct dew_case c = case_of(COOLED UNIT LEAKS), told, too;

    assert_near(c.house.water[DEW_SOURCE_showers].caught, 0, 0);
    assert_near(c.house.water[DEW_SOURCE_cooking].caught, 0, 0);
    told = case_of(COOLED UNIT "layout: own_ducts\n");
    too = case_of(COOLED UNIT "layout: own_ducts\n" LEAKS);
    assert_true(told.house.water[DEW_SOURCE_showers].caught > .1);
    assert_near(too.house.water[DEW_SOURCE_showers].caught,
                told.house.water[DEW_SOURCE_showers].caught, 1e-3);
}

RUN_TESTS("scenario, ducts");
