/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flows as they are set, held, and in balance or not. */
#include "support/duct_house.h"

/*
 * Within 10 % or not [TIE-MANUALS], flows set with the blower off: what a tie
 * pressure of 12 Pa at low flow and 50 Pa at full does to fans that make about
 * 70 Pa.  Stale from the return and fresh to the supply lose alike.
 */
static const struct balance {
    const char *name;
    enum dew_layout kind;
    int blower, balanced;
} balances[] = {
    {"own ducts, blower off", DEW_LAYOUT_own_ducts, 0, 1},
    {"own ducts, low", DEW_LAYOUT_own_ducts, 1, 1},
    {"own ducts, full", DEW_LAYOUT_own_ducts, 2, 1},
    {"return tie, off", DEW_LAYOUT_return_tie, 0, 1},
    {"return tie, low", DEW_LAYOUT_return_tie, 1, 0},
    {"return tie, full", DEW_LAYOUT_return_tie, 2, 0},
    {"supply tie, off", DEW_LAYOUT_supply_tie, 0, 1},
    {"supply tie, low", DEW_LAYOUT_supply_tie, 1, 0},
    {"supply tie, full", DEW_LAYOUT_supply_tie, 2, 0},
    {"return to supply, off", DEW_LAYOUT_return_to_supply, 0, 1},
    {"return to supply, low", DEW_LAYOUT_return_to_supply, 1, 1},
    {"return to supply, full", DEW_LAYOUT_return_to_supply, 2, 1},
    {"mix, off", DEW_LAYOUT_mix, 0, 1},
    {"mix, low", DEW_LAYOUT_mix, 1, 1},
    {"mix, full", DEW_LAYOUT_mix, 2, 0},
};

static void balance_row(void **state)
{
    const struct balance *r = *state;
    struct dew_duct_layout l = said(r->kind, 1, 1);
    struct dew_ducts *d = open_layout(&l);
    struct dew_duct_state s = at(d, DEW_VENT_ON, r->blower);

    assert_int_equal(s.balanced, r->balanced);
    assert_int_equal(fabs(s.imbalance_share) <= .1, r->balanced);
    dew_ducts_close(d);
}

/* a fitter who sets the flows with the blower on finds them so then, and not
   with the blower off */
static const struct reference {
    const char *name;
    enum dew_layout kind;
    int blower;
} references[] = {
    {"return tie set at full", DEW_LAYOUT_return_tie, 2},
    {"return tie set at low", DEW_LAYOUT_return_tie, 1},
    {"supply tie set at full", DEW_LAYOUT_supply_tie, 2},
    {"return to supply set at full", DEW_LAYOUT_return_to_supply, 2},
    {"mix set at full", DEW_LAYOUT_mix, 2},
};

static void reference_row(void **state)
{
    const struct reference *r = *state;
    struct dew_duct_layout l = said(r->kind, 1, 1);
    struct dew_duct_state s;
    struct dew_ducts *d;

    l.vents[0].pressure = 260; /* strong enough against the blower */
    l.vents[0].set_stale[DEW_VENT_ON] = .0451;
    l.reference = r->blower;
    d = open_layout(&l);
    s = at(d, DEW_VENT_ON, r->blower);
    assert_near(s.fresh_gross, .0473, 1e-8);
    assert_near(s.stale_drawn, .0451, 1e-8);
    assert_int_equal(s.units[0].at_limit, 0);
    assert_true(fabs(at(d, DEW_VENT_ON, 0).fresh_gross - .0473) > .002);
    dew_ducts_close(d);
}

/* a ventilator that holds its flows by itself: no state moves them, and
   only its watts tell of the blower; its idle unit is as open as any */
TEST(flows_that_are_held_stay)
{
    for (int kind = 0; kind < DEW_LAYOUTS; kind++) {
        struct dew_duct_layout l = said((enum dew_layout)kind, 1, 1);
        struct dew_ducts *d;

        l.vents[0].pressure = 260;
        l.holds_flow = 1;
        d = open_layout(&l);
        for (int b = 0; b < 3; b++) {
            struct dew_duct_state s = at(d, DEW_VENT_ON, b);

            assert_near(s.fresh_gross, .0473, 1e-8);
            assert_near(s.stale_drawn, .0473, 1e-8);
            assert_int_equal(s.balanced, 1);
        }
        if (kind == DEW_LAYOUT_supply_tie)
            assert_true(at(d, DEW_VENT_ON, 2).fan_w >
                        1.2 * at(d, DEW_VENT_ON, 0).fan_w);
        if (kind == DEW_LAYOUT_mix)
            assert_true(at(d, DEW_VENT_OFF, 2).unplanned > .02);
        dew_ducts_close(d);
    }
}

TEST(held_flows_end_where_the_fan_does)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_supply_tie, 1, 1);
    struct dew_duct_state s;
    struct dew_ducts *d;

    l.vents[0].pressure = 60;
    l.holds_flow = 1;
    d = open_layout(&l);
    s = at(d, DEW_VENT_ON, 2);
    assert_int_equal(s.units[0].at_limit, 1);
    assert_true(s.fresh_gross < .04);
    assert_near(s.stale_drawn, .0473, 1e-8);
    assert_near(at(d, DEW_VENT_ON, 0).fresh_gross, .0473, 1e-8);
    dew_ducts_close(d);
}

TEST(a_fan_too_weak_says_so)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_supply_tie, 1, 1);
    struct dew_duct_state s;
    struct dew_ducts *d;

    l.vents[0].pressure = 60;
    l.reference = 2;
    d = open_layout(&l);
    s = at(d, DEW_VENT_ON, 2);
    assert_int_equal(s.units[0].at_limit, 1);
    assert_true(s.fresh_gross < .04);
    dew_ducts_close(d);
}

ROWS(balances, balance_row);
ROWS(references, reference_row);
/* All states at once are those one by one, the boost's too. */
static void all_states_are_those_alone(double boost)
{
    static struct dew_duct_state all[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    struct dew_duct_layout l = said(DEW_LAYOUT_return_tie, 1, 1);
    struct dew_ducts *d;
    int blowers;

    l.vents[0].set[DEW_VENT_BOOST] = boost * l.vents[0].set[DEW_VENT_ON];
    d = open_layout(&l);
    assert_int_equal(dew_ducts_states(&l, all, &blowers, NULL), DEW_OK);
    assert_int_equal(blowers, 3);
    for (int v = 0; v < DEW_DUCT_VENT_STATES; v++)
        for (int b = 0; b < blowers; b++) {
            struct dew_duct_state one = at(d, (enum dew_vent_state)v, b);

            assert_int_equal(all[v][b].vent, v);
            assert_int_equal(all[v][b].blower, b);
            assert_near(all[v][b].fresh_gross, one.fresh_gross, 1e-9);
            assert_near(all[v][b].stale_drawn, one.stale_drawn, 1e-9);
            assert_near(all[v][b].fan_w, one.fan_w, 1e-6);
        }
    assert_near(all[DEW_VENT_BOOST][0].fresh_gross /
                    all[DEW_VENT_ON][0].fresh_gross,
                boost, 1e-6);
    dew_ducts_close(d);
}

TEST(all_states_at_once_are_those_alone)
{
    all_states_are_those_alone(1);
    all_states_are_those_alone(1.2);
}

/* A ventilator tied to two trunks gives each half, and to three a third: a
   trunk alone, with as much to pass, resists alike. */
TEST(a_trunk_passes_its_part)
{
    const enum dew_layout kinds[2] = {DEW_LAYOUT_mix, DEW_LAYOUT_supply_tie};

    for (int i = 0; i < 4; i++) {
        int ties = 2 + i / 2;
        struct dew_duct_layout alone = said(kinds[i % 2], 1, 1), l = alone;
        struct dew_ducts *d;
        double want;

        d = open_layout(&alone);
        want = at(d, DEW_VENT_ON, 0).trunk_resists[0];
        dew_ducts_close(d);
        alone.vents[0].set[DEW_VENT_ON] *= ties;
        l.handler_count = ties;
        l.vents[0].set[DEW_VENT_ON] *= ties;
        for (int k = 0; k < ties; k++)
            l.handlers[k] = alone.handlers[0];
        d = open_layout(&l);
        for (int k = 0; k < ties; k++)
            assert_near(at(d, DEW_VENT_ON, 0).trunk_resists[k] / want, 1, 1e-6);
        dew_ducts_close(d);
    }
}

/* The same fans at the same flows, twice the watts. */
TEST(watts_go_by_the_rated_watts)
{
    double w[2];

    for (int i = 0; i < 2; i++) {
        struct dew_duct_layout l = said(DEW_LAYOUT_own_ducts, 1, 1);
        struct dew_ducts *d;

        l.vents[0].watts = i ? 130 : 65;
        d = open_layout(&l);
        w[i] = at(d, DEW_VENT_ON, 0).fan_w;
        dew_ducts_close(d);
    }
    assert_true(w[0] > 5 && w[0] < 66);
    assert_near(w[1] / w[0], 2, 1e-9);
}

RUN_TESTS("ducts: flows set");
