/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Duct networks written out in full. */
#include "support/rows.h"

#include "dew/ducts.h"

static struct dew_duct_layout two_handlers(void)
{
    struct dew_duct_layout l;

    dew_ducts_layout_blank(&l);
    l.kind = DEW_LAYOUT_return_tie;
    l.handler_count = 2;
    l.handlers[0].flow = .283;
    l.handlers[1].flow = .317;
    l.handlers[0].leak_return = .053;
    l.vents[0].set[DEW_VENT_ON] = .0473;
    assert_int_equal(dew_ducts_layout_fill(&l, NULL), DEW_OK);
    return l;
}

/* A layout written out and read again does the same, in every state. */
TEST(a_layout_written_out_does_the_same)
{
    struct dew_duct_layout l = two_handlers();
    struct dew_duct_written w;
    struct dew_ducts *d, *again;

    assert_int_equal(dew_ducts_open(&d, &l, NULL), DEW_OK);
    w = dew_ducts_as_written(d);
    assert_int_equal(dew_ducts_open_written(&again, &l, &w, NULL), DEW_OK);
    for (int v = DEW_VENT_OFF; v <= DEW_VENT_BOOST; v++)
        for (int b = 0; b < 9; b++) {
            enum dew_vent_state vent = (enum dew_vent_state)v;
            struct dew_duct_state x, y;

            assert_int_equal(dew_ducts_state(d, vent, b, &x, NULL), DEW_OK);
            assert_int_equal(dew_ducts_state(again, vent, b, &y, NULL), DEW_OK);
            assert_near(y.fresh_delivered, x.fresh_delivered, 1e-12);
            assert_near(y.unplanned, x.unplanned, 1e-12);
            assert_near(y.imbalance, x.imbalance, 1e-12);
            assert_near(y.leak_in, x.leak_in, 1e-12);
            assert_near(y.fan_w, x.fan_w, 1e-9);
        }
    dew_ducts_close(again);
    dew_ducts_close(d);
}

/* What its runs leave open comes from handlers and ventilators: a layout's
   network without its fans and figures is the same network. */
TEST(what_is_left_open_is_filled_in)
{
    static struct dew_duct_state x[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES],
        y[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    static struct dew_duct_run runs[200];
    struct dew_duct_layout l = two_handlers();
    struct dew_duct_written w;
    struct dew_ducts *d;
    int blowers, open = 0;

    l.damper = DEW_DUCT_FITTED;
    assert_int_equal(dew_ducts_states(&l, x, &blowers, NULL), DEW_OK);
    assert_int_equal(dew_ducts_open(&d, &l, NULL), DEW_OK);
    w = dew_ducts_as_written(d);
    assert_true(w.run_count <= COUNT_OF(runs));
    for (size_t i = 0; i < w.run_count; i++) {
        enum dew_duct_role role = w.runs[i].role;

        runs[i] = w.runs[i];
        if (role < DEW_ROLE_BLOWER || role > DEW_ROLE_SHUT)
            continue;
        runs[i].branch.fan = NULL;
        runs[i].branch.flow = runs[i].branch.power = runs[i].branch.leak = 0;
        runs[i].idle = 0;
        open++;
    }
    assert_int_equal(open, 2 + 2 + 2 + 2); /* blowers, fans, units, dampers */
    w.runs = runs;
    l.written = &w;
    assert_int_equal(dew_ducts_states(&l, y, &blowers, NULL), DEW_OK);
    for (int v = 0; v < DEW_DUCT_VENT_STATES; v++)
        for (int b = 0; b < blowers; b++) {
            assert_near(y[v][b].fresh_delivered, x[v][b].fresh_delivered,
                        1e-10);
            assert_near(y[v][b].unplanned, x[v][b].unplanned, 1e-10);
            assert_near(y[v][b].coil_flow[1], x[v][b].coil_flow[1], 1e-9);
            assert_near(y[v][b].fan_w, x[v][b].fan_w, 1e-7);
        }
    dew_ducts_close(d);
}

/* ---- a small one by hand ---------------------------------------------------- */

/*
 *     outdoors - supply fan - core - duct - room grille - house
 *     house - pickup - core - exhaust fan - outdoors
 */
enum { HOUSE, OUTDOORS, A, B, C, D };
static const struct dew_duct_point points[] = {
    {"house", DEW_PLACE_HOUSE}, {"outdoors", DEW_PLACE_OUTDOORS},
    {"a", DEW_PLACE_DUCT},      {"b", DEW_PLACE_DUCT},
    {"c", DEW_PLACE_DUCT},      {"d", DEW_PLACE_DUCT}};

struct hand {
    struct dew_fan *fan;
    struct dew_duct_run runs[6];
    struct dew_duct_layout layout;
};

static struct dew_duct_run part(const char *name, size_t from, size_t to,
                                enum dew_duct_kind kind,
                                enum dew_duct_role role)
{
    return (struct dew_duct_run){.branch = {.name = name,
                                            .from = from,
                                            .to = to,
                                            .kind = kind,
                                            .flow = .0113,
                                            .power = .5,
                                            .leak = 1e-4},
                                 .role = role,
                                 .idle = .37};
}

static struct hand by_hand(void)
{
    struct dew_fan_row rest = {.065, 200, 18.5};
    struct hand h;

    assert_int_equal(dew_ducts_fan_shaped(&h.fan, &rest, NULL), DEW_OK);
    h.runs[0] =
        part("supply fan", OUTDOORS, A, DEW_BRANCH_FAN, DEW_ROLE_FRESH_FAN);
    h.runs[1] =
        part("fresh side", A, B, DEW_BRANCH_DAMPER, DEW_ROLE_FRESH_UNIT);
    h.runs[2] = part("bedroom", B, HOUSE, DEW_BRANCH_FIXED, DEW_ROLE_GRILLE);
    h.runs[3] = part("bath", HOUSE, C, DEW_BRANCH_FIXED, DEW_ROLE_PICKUP);
    h.runs[4] =
        part("stale side", C, D, DEW_BRANCH_DAMPER, DEW_ROLE_STALE_UNIT);
    h.runs[5] =
        part("exhaust fan", D, OUTDOORS, DEW_BRANCH_FAN, DEW_ROLE_STALE_FAN);
    h.runs[0].branch.fan = h.runs[5].branch.fan = h.fan;
    h.runs[3].of = 1;
    dew_ducts_layout_blank(&h.layout);
    h.layout.vents[0].set[DEW_VENT_ON] = .0311;
    h.layout.vents[0].set_stale[DEW_VENT_ON] = .0287;
    h.layout.vents[0].eatr = .031;
    h.layout.grille_count = 0;
    assert_int_equal(dew_ducts_layout_fill(&h.layout, NULL), DEW_OK);
    return h;
}

static struct dew_duct_written written(const struct hand *h)
{
    return (struct dew_duct_written){points, COUNT_OF(points), h->runs,
                                     COUNT_OF(h->runs)};
}

TEST(a_hand_made_one_is_set_to_its_flows)
{
    struct hand h = by_hand();
    struct dew_duct_written w = written(&h);
    struct dew_duct_state s;
    struct dew_ducts *d;

    assert_int_equal(dew_ducts_open_written(&d, &h.layout, &w, NULL), DEW_OK);
    assert_int_equal(dew_ducts_state(d, DEW_VENT_ON, 0, &s, NULL), DEW_OK);
    assert_near(s.fresh_gross, .0311, 1e-9);
    assert_near(s.stale_drawn, .0287, 1e-9);
    assert_near(s.fresh_at[0], .0311 * (1 - .031), 1e-9);
    assert_near(s.stale_at[1], .0287, 1e-9);
    assert_near(s.short_circuit_share, 0.0, 1e-12);
    dew_ducts_close(d);
    dew_ducts_fan_close(h.fan);
}

/* a path from the grille's duct to the pickup's: by hand, (q - r) to the room
   and r back, so that the share r / q goes out again */
TEST(a_leak_across_is_a_short_circuit)
{
    struct hand h = by_hand();
    struct dew_duct_run runs[7];
    struct dew_duct_written w = {points, COUNT_OF(points), runs, 7};
    struct dew_duct_state s;
    struct dew_ducts *d;
    double across, net;

    for (int i = 0; i < 6; i++)
        runs[i] = h.runs[i];
    runs[6] = part("hole", B, C, DEW_BRANCH_FIXED, DEW_ROLE_PLAIN);
    runs[6].branch.flow = .0017;
    h.layout.vents[0].eatr = 0;
    assert_int_equal(dew_ducts_open_written(&d, &h.layout, &w, NULL), DEW_OK);
    assert_int_equal(dew_ducts_state(d, DEW_VENT_ON, 0, &s, NULL), DEW_OK);
    across = dew_ducts_run_flow(d, 6);
    assert_true(across > .001);
    assert_near(s.short_circuit_share, across / s.fresh_gross, 1e-12);
    assert_near(dew_ducts_run_fresh(d, 4), across / s.stale_drawn, 1e-12);
    dew_ducts_close(d);
    /* with stale air coming back, c out = (1 - e) + e c in: the same by hand */
    h.layout.vents[0].eatr = .031;
    assert_int_equal(dew_ducts_open_written(&d, &h.layout, &w, NULL), DEW_OK);
    assert_int_equal(dew_ducts_state(d, DEW_VENT_ON, 0, &s, NULL), DEW_OK);
    across = dew_ducts_run_flow(d, 6) / s.stale_drawn;
    net = (1 - .031) / (1 - .031 * across);
    assert_near(dew_ducts_run_fresh(d, 2), net, 1e-12);
    dew_ducts_close(d);
    dew_ducts_fan_close(h.fan);
}

/* ---- what is refused ---------------------------------------------------------- */

static void refused(const struct hand *h, const struct dew_duct_written *w,
                    const char *text)
{
    struct dew_error err = {0};
    struct dew_ducts *d;

    assert_int_not_equal(dew_ducts_open_written(&d, &h->layout, w, &err),
                         DEW_OK);
    assert_null(d);
    assert_string_equal(err.text, text);
}

TEST(bad_networks_are_named)
{
    struct hand h = by_hand();
    struct dew_duct_written w = written(&h);

    w.run_count = 4;
    refused(&h, &w, "no way leads from node 'd' to a known pressure");
    w.run_count = 6;
    h.runs[4].branch.to = OUTDOORS; /* the exhaust fan draws on nothing */
    refused(&h, &w,
            "fan 'exhaust fan' works on nothing: no other branch meets "
            "node 'd'");
    h.runs[4].branch.to = D;
    h.runs[5].role = DEW_ROLE_BLOWER;
    refused(&h, &w,
            "run 'exhaust fan' belongs to number 1, which there is not");
    h.runs[5].role = DEW_ROLE_STALE_FAN;
    h.runs[1].branch.kind = DEW_BRANCH_FIXED;
    refused(&h, &w, "run 'fresh side' has to be a damper");
    h.runs[1].branch.kind = DEW_BRANCH_DAMPER;
    h.runs[0].branch.kind = DEW_BRANCH_FIXED;
    refused(&h, &w, "run 'supply fan' has to be a fan");
    h.runs[0].branch.kind = DEW_BRANCH_FAN;
    h.runs[2].branch.to = 71;
    refused(&h, &w, "branch 'bedroom' does not join two nodes");
    dew_ducts_fan_close(h.fan);
}

TEST(a_state_that_is_not_is_refused)
{
    struct hand h = by_hand();
    struct dew_duct_written w = written(&h);
    struct dew_duct_state s = {.blower = 17};
    struct dew_error err = {0};
    struct dew_ducts *d;

    assert_int_equal(dew_ducts_open_written(&d, &h.layout, &w, NULL), DEW_OK);
    assert_int_equal(dew_ducts_state(d, DEW_VENT_ON, 1, &s, &err), DEW_ERANGE);
    assert_string_equal(err.text, "no such state of the ducts");
    assert_int_equal(s.blower, 17);
    dew_ducts_close(d);
    dew_ducts_fan_close(h.fan);
}

RUN_TESTS("written");
