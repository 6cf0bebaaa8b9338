/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts: where the air goes, state by state. */
#include "support/duct_house.h"

#include "ducts/build.h"

/* ---- every layout, every state ------------------------------------------- */

/* What holds in any network: mass at each point, and fresh air accounted for. */
static void books_close(const struct dew_ducts *d,
                        const struct dew_duct_layout *l,
                        const struct dew_duct_state *s)
{
    struct dew_duct_written w = dew_ducts_as_written(d);
    double sum[128] = {0}, net = 0.0, house = 0.0;

    assert_true(w.point_count <= COUNT_OF(sum));
    for (size_t i = 0; i < w.run_count; i++) {
        double q = dew_ducts_run_flow(d, i);

        sum[w.runs[i].branch.from] -= q;
        sum[w.runs[i].branch.to] += q;
    }
    for (size_t i = 0; i < w.point_count; i++) {
        if (w.points[i].place == DEW_PLACE_DUCT)
            assert_near(sum[i], 0.0, 1e-9);
        if (w.points[i].place == DEW_PLACE_HOUSE)
            house += sum[i];
    }
    assert_near(house,
                s->fresh_gross + s->unplanned + s->leak_in - s->stale_drawn -
                    s->spill - s->leak_out,
                1e-9);
    for (int j = 0; j < l->vent_count; j++)
        net += s->units[j].supply * (1 - l->vents[j].eatr);
    if (s->vent != DEW_VENT_OFF)
        assert_near(s->fresh_delivered / net,
                    1 - s->short_circuit_share - s->lost_share, 1e-9);
}

static void stays_within_bounds(const struct dew_duct_state *s)
{
    double at_grilles = 0.0;

    for (int g = 0; g < DEW_DUCT_GRILLES; g++) {
        assert_true(s->fresh_at[g] >= 0.0);
        at_grilles += s->fresh_at[g];
    }
    for (int k = 0; k < DEW_DUCT_HANDLERS; k++)
        at_grilles += s->fresh_at_return[k];
    assert_near(at_grilles, s->fresh_delivered, 1e-9);
    assert_true(s->fresh_delivered <= s->fresh_gross + 1e-12);
    assert_true(s->at_coil <= s->fresh_delivered + 1e-12);
    assert_true(s->at_coil >= 0.0);
    assert_true(s->backflow >= 0.0 && s->unplanned >= 0.0 && s->spill >= 0.0);
}

/* clang-format off */
static const struct shape {
    const char *name;
    enum dew_layout kind;
    int handlers, vents;
} shapes[] = {
    {"own ducts, no handler", DEW_LAYOUT_own_ducts, 0, 1},
    {"own ducts, one handler", DEW_LAYOUT_own_ducts, 1, 1},
    {"own ducts, two handlers, one each", DEW_LAYOUT_own_ducts, 2, 2},
    {"own ducts, three handlers, shared", DEW_LAYOUT_own_ducts, 3, 1},
    {"return tie, one handler", DEW_LAYOUT_return_tie, 1, 1},
    {"return tie, two handlers, shared", DEW_LAYOUT_return_tie, 2, 1},
    {"return tie, two handlers, one each", DEW_LAYOUT_return_tie, 2, 2},
    {"return tie, three handlers, shared", DEW_LAYOUT_return_tie, 3, 1},
    {"return tie, three handlers, one each", DEW_LAYOUT_return_tie, 3, 3},
    {"supply tie, one handler", DEW_LAYOUT_supply_tie, 1, 1},
    {"supply tie, two handlers, shared", DEW_LAYOUT_supply_tie, 2, 1},
    {"supply tie, two handlers, one each", DEW_LAYOUT_supply_tie, 2, 2},
    {"supply tie, three handlers, shared", DEW_LAYOUT_supply_tie, 3, 1},
    {"return to supply, one handler", DEW_LAYOUT_return_to_supply, 1, 1},
    {"return to supply, two handlers, shared", DEW_LAYOUT_return_to_supply, 2, 1},
    {"return to supply, two handlers, one each", DEW_LAYOUT_return_to_supply, 2, 2},
    {"return to supply, three handlers, one each", DEW_LAYOUT_return_to_supply, 3, 3},
    {"mix, one handler", DEW_LAYOUT_mix, 1, 1},
    {"mix, two handlers, shared", DEW_LAYOUT_mix, 2, 1},
    {"mix, two handlers, one each", DEW_LAYOUT_mix, 2, 2},
    {"mix, three handlers, shared", DEW_LAYOUT_mix, 3, 1},
};
/* clang-format on */

static void shape_row(void **state)
{
    const struct shape *r = *state;
    struct dew_duct_layout l = said(r->kind, r->handlers, r->vents);
    struct dew_ducts *d;
    int states = 1;

    for (int k = 0; k < r->handlers; k++) {
        l.handlers[k].leak_return = .047;
        l.handlers[k].leak_supply = .061;
        states *= 3;
    }
    d = open_layout(&l);
    for (int v = DEW_VENT_OFF; v <= DEW_VENT_BOOST; v++)
        for (int b = 0; b < states; b++) {
            struct dew_duct_state s = at(d, (enum dew_vent_state)v, b);

            books_close(d, &l, &s);
            stays_within_bounds(&s);
        }
    dew_ducts_close(d);
}

/* ---- what the physics must show ------------------------------------------- */

/* Signs and sizes of one handler's states, ventilator on or off. */
enum sign { MINUS = -1, NONE, PLUS };
/* clang-format off */
static const struct behaviour {
    const char *name;
    enum dew_layout kind;
    enum dew_duct_fit backdraft, damper;
    enum dew_vent_state vent;
    int blower;
    enum sign imbalance, unplanned, spill;
    double short_low, short_high;
} behaviours[] = {
    {"own ducts, blower on: nothing moves", DEW_LAYOUT_own_ducts, 0, 0, DEW_VENT_ON, 2, NONE, NONE, NONE, 0, 1e-12},
    {"own ducts, off, blower on: nothing moves", DEW_LAYOUT_own_ducts, 0, 0, DEW_VENT_OFF, 2, NONE, NONE, NONE, NAN, NAN},
    {"supply tie, blower on: exhaust wins", DEW_LAYOUT_supply_tie, 0, 0, DEW_VENT_ON, 2, MINUS, NONE, NONE, 0, 1e-12},
    {"fresh to return, blower on: supply wins", DEW_LAYOUT_mix, 0, 0, DEW_VENT_ON, 2, PLUS, NONE, NONE, 0, 1e-12},
    {"return to return, blower on: supply wins twice", DEW_LAYOUT_return_tie, 0, 0, DEW_VENT_ON, 2, PLUS, NONE, NONE, 0, .01},
    {"return to return, blower off: straight back", DEW_LAYOUT_return_tie, 0, 0, DEW_VENT_ON, 0, NONE, NONE, NONE, .9, 1},
    {"return to supply, blower off: back through the handler", DEW_LAYOUT_return_to_supply, 0, 0, DEW_VENT_ON, 0, NONE, NONE, NONE, .3, .8},
    {"return to supply, blower on: no short way", DEW_LAYOUT_return_to_supply, 0, 0, DEW_VENT_ON, 2, NONE, NONE, NONE, 0, 1e-12},
    {"supply tie, off, no damper: house air blown out", DEW_LAYOUT_supply_tie, 0, 0, DEW_VENT_OFF, 2, NONE, NONE, PLUS, NAN, NAN},
    {"supply tie, off, backdraft damper: held", DEW_LAYOUT_supply_tie, DEW_DUCT_FITTED, 0, DEW_VENT_OFF, 2, NONE, NONE, NONE, NAN, NAN},
    {"fresh to return, off, no damper: outdoor air drawn", DEW_LAYOUT_mix, 0, 0, DEW_VENT_OFF, 2, NONE, PLUS, NONE, NAN, NAN},
    {"the same at low flow", DEW_LAYOUT_mix, 0, 0, DEW_VENT_OFF, 1, NONE, PLUS, NONE, NAN, NAN},
    {"the same, a backdraft damper opens that way", DEW_LAYOUT_mix, DEW_DUCT_FITTED, 0, DEW_VENT_OFF, 2, NONE, PLUS, NONE, NAN, NAN},
    {"the same, a motorised damper shuts", DEW_LAYOUT_mix, 0, DEW_DUCT_FITTED, DEW_VENT_OFF, 2, NONE, NONE, NONE, NAN, NAN},
    {"return to return, off, no damper: drawn both ways", DEW_LAYOUT_return_tie, 0, 0, DEW_VENT_OFF, 2, NONE, PLUS, NONE, NAN, NAN},
    {"return to supply, off: through the core both ways", DEW_LAYOUT_return_to_supply, 0, 0, DEW_VENT_OFF, 2, NONE, PLUS, PLUS, NAN, NAN},
};
/* clang-format on */

/* A sign counts from 2 L/s; a shut damper lets less than that through. */
static void has_sign(double x, enum sign sign)
{
    const double enough = .002;

    if (sign == NONE)
        assert_near(x, 0.0, enough);
    else
        assert_true(x * (double)sign > enough);
}

static void behaviour_row(void **state)
{
    const struct behaviour *r = *state;
    struct dew_duct_layout l = said(r->kind, 1, 1);
    struct dew_duct_state s;
    struct dew_ducts *d;

    l.backdraft = r->backdraft;
    l.damper = r->damper;
    d = open_layout(&l);
    s = at(d, r->vent, r->blower);
    has_sign(s.imbalance, r->imbalance);
    has_sign(s.unplanned, r->unplanned);
    has_sign(s.spill, r->spill);
    if (isnan(r->short_low))
        assert_nan(s.short_circuit_share);
    else
        assert_true(s.short_circuit_share >= r->short_low &&
                    s.short_circuit_share <= r->short_high);
    dew_ducts_close(d);
}

/*
 * Closed form: a fan p0 (1 - (q/qmax)^2) against a tie pressure P through
 * ducts of fixed loss, q = sqrt((p0 - P) / (a + k)); and the criterion of
 * 10 %: a tie pressure of 50 Pa moves the small fan by more than that.
 */
TEST(flow_against_the_trunk_is_the_closed_form)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_supply_tie, 1, 1);
    struct dew_duct_line *lines[] = {&l.vents[0].intake, &l.vents[0].discharge,
                                     &l.vents[0].fresh, &l.vents[0].stale};
    struct dew_duct_state off, on;
    struct dew_ducts *d;
    double p0;

    /* wide, so that what they lose goes by the square: their loss alone */
    for (int i = 0; i < 4; i++)
        lines[i]->duct = (struct dew_duct){
            .diameter = .125, .length = 1e-6, .roughness = 1e-5, .loss = 4.1};
    d = open_layout(&l);
    off = at(d, DEW_VENT_ON, 0);
    on = at(d, DEW_VENT_ON, 2);
    /* p0 s^2 from the two states themselves: p0 = P + (a + k) q^2 in both */
    p0 = (on.tap_fresh[0] * off.fresh_gross * off.fresh_gross -
          off.tap_fresh[0] * on.fresh_gross * on.fresh_gross) /
         (off.fresh_gross * off.fresh_gross - on.fresh_gross * on.fresh_gross);
    on = at(d, DEW_VENT_ON, 1);
    assert_near(on.fresh_gross,
                off.fresh_gross *
                    sqrt((p0 - on.tap_fresh[0]) / (p0 - off.tap_fresh[0])),
                2e-6);
    assert_near(off.fresh_gross, .0473, 1e-8);
    assert_int_equal(off.balanced, 1);
    assert_int_equal(at(d, DEW_VENT_ON, 2).balanced, 0);
    dew_ducts_close(d);
}

/* 100 cfm of which 80 % goes straight back are 20 cfm */
TEST(a_said_short_circuit_gives_the_effective_flow)
{
    const double cfm = 4.719474432e-4;
    struct dew_duct_layout l = said(DEW_LAYOUT_return_tie, 1, 1);
    struct dew_duct_state s;
    struct dew_ducts *d;

    l.vents[0].set[DEW_VENT_ON] = 100 * cfm;
    l.vents[0].eatr = 0;
    l.short_circuit[0] = .8;
    d = open_layout(&l);
    s = at(d, DEW_VENT_ON, 0);
    assert_near(s.fresh_gross, 100 * cfm, 1e-8);
    assert_near(s.fresh_delivered, 20 * cfm, 1e-8);
    dew_ducts_close(d);
}

/* the share that goes straight back tends to 1 as the taps come together */
TEST(short_circuit_falls_with_the_distance_of_taps)
{
    double last = 1.0;

    for (int i = 0; i < 5; i++) {
        struct dew_duct_layout l = said(DEW_LAYOUT_return_tie, 1, 1);
        struct dew_ducts *d;
        double now;

        l.handlers[0].between = .001 * pow(13.0, i);
        d = open_layout(&l);
        now = at(d, DEW_VENT_ON, 0).short_circuit_share;
        if (i == 0)
            assert_near(now, 1.0, 1e-3);
        assert_true(now < last);
        last = now;
        dew_ducts_close(d);
    }
}

/* air stirred between the taps only adds to it, and most while the blower is
   slow */
TEST(mixing_adds_to_the_short_circuit)
{
    double last = -1.0;

    for (int i = 0; i < 3; i++) {
        static const enum dew_duct_reading reading[] = {
            DEW_DUCT_LOW, DEW_DUCT_LIKELY, DEW_DUCT_HIGH};
        struct dew_duct_layout l = said(DEW_LAYOUT_return_tie, 1, 1);
        struct dew_ducts *d;
        double low;

        l.reading = reading[i];
        d = open_layout(&l);
        low = at(d, DEW_VENT_ON, 1).short_circuit_share;
        assert_true(low > last);
        assert_true(i == 0 || low > at(d, DEW_VENT_ON, 2).short_circuit_share);
        if (i == 0)
            assert_near(low, 0.0, 1e-12);
        last = low;
        dew_ducts_close(d);
    }
}

/* A grille takes its share at 8 Pa, the usual allowance; common practice. */
TEST(grilles_take_their_shares_at_the_usual_allowance)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_own_ducts, 0, 1);
    struct dew_ducts *d;
    struct dew_duct_written w;
    int seen = 0;

    l.vents[0].set_stale[DEW_VENT_ON] = .0451;
    d = open_layout(&l);
    w = dew_ducts_as_written(d);
    for (size_t i = 0; i < w.run_count; i++) {
        const struct dew_duct_run *r = &w.runs[i];

        if (r->role == DEW_ROLE_GRILLE)
            assert_near(r->branch.flow * sqrt(8.0),
                        l.grilles[r->of].fresh * .0473, 1e-9);
        if (r->role == DEW_ROLE_PICKUP)
            assert_near(r->branch.flow * sqrt(8.0),
                        l.grilles[r->of].stale * .0451, 1e-9);
        seen += r->role == DEW_ROLE_GRILLE || r->role == DEW_ROLE_PICKUP;
    }
    assert_int_equal(seen, 7);
    dew_ducts_close(d);
}

/* Every kind with all handlers, ventilators, grilles and dampers there can be,
   each ventilator tied to each handler, has room, and its network is solved. */
TEST(the_largest_layout_has_room)
{
    for (int kind = 0; kind < DEW_LAYOUTS; kind++) {
        struct dew_duct_layout l =
            said((enum dew_layout)kind, DEW_DUCT_HANDLERS, DEW_DUCT_VENTS);
        struct dew_duct_written w;
        struct dew_ducts *d;

        l.backdraft = l.damper = DEW_DUCT_FITTED;
        for (int j = 0; j < l.vent_count; j++)
            l.vents[j].serves = (1 << l.handler_count) - 1;
        fill(&l);
        l.grille_count = DEW_DUCT_GRILLES;
        for (int g = 0; g < l.grille_count; g++) {
            l.grilles[g] = l.grilles[0];
            l.grilles[g].vent = g % l.vent_count;
            l.grilles[g].handler = g % l.handler_count;
            l.grilles[g].share = 3. / 16;
            l.grilles[g].fresh = l.grilles[g].stale = 3. / 16;
        }
        d = open_layout(&l);
        w = dew_ducts_as_written(d);
        assert_true(w.point_count <= DUCTS__POINTS);
        assert_true(w.run_count <= DUCTS__RUNS);
        at(d, DEW_VENT_ON, 1);
        dew_ducts_close(d);
    }
}

/* a large trunk at a small flow resists next to nothing */
TEST(a_trunk_hardly_resists_the_small_flow)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 1, 1);
    struct dew_ducts *d = open_layout(&l);
    struct dew_duct_state s = at(d, DEW_VENT_ON, 0);

    assert_true(s.trunk_resists[0] > 0.0 && s.trunk_resists[0] < 1.0);
    /* two ways out of it, grilles and handler, lose less than the one */
    assert_true(s.tap_fresh[0] > 0.0 && s.tap_fresh[0] < s.trunk_resists[0]);
    dew_ducts_close(d);
}

static double drop_along(const struct dew_duct *trunk, double length, double q)
{
    struct dew_duct d = *trunk;

    d.length = length;
    d.extra = d.loss = 0;
    return dew_ducts_drop(&d, DEW_DUCTS_DENSITY, q, NULL);
}

/* At the blower's own flow all of the external static is lost: by the trunk,
   its grilles and the piece between tie and handler.  Grilles go by the square
   of the flow. */
TEST(a_trunk_and_its_grilles_lose_the_external_static)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 1, 1);
    const struct dew_duct_handler *h = &l.handlers[0];
    double q, grilles, at_supply, at_return;

    fill(&l);
    q = h->flow;
    at_supply = h->external * (1 - h->return_share) -
                drop_along(&h->supply_trunk.duct, h->after, q);
    at_return = h->external * h->return_share -
                drop_along(&h->return_trunk.duct, h->before, q);
    assert_near(ducts__supply_resists(h, q), at_supply, 1e-9);
    assert_near(ducts__return_resists(h, 1, q), at_return, 1e-6);
    assert_near(ducts__return_resists(h, 1, q) - ducts__return_resists(h, 0, q),
                drop_along(&h->return_trunk.duct, h->between, q), 1e-9);
    grilles = at_supply -
              dew_ducts_drop(&h->supply_trunk.duct, DEW_DUCTS_DENSITY, q, NULL);
    assert_true(grilles > 1);
    assert_near(
        ducts__supply_resists(h, q / 2),
        dew_ducts_drop(&h->supply_trunk.duct, DEW_DUCTS_DENSITY, q / 2, NULL) +
            grilles / 4,
        1e-9);
}

TEST(measured_flows_override)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_own_ducts, 1, 1);
    double fresh = 0, stale = 0;
    struct dew_duct_state s;
    struct dew_ducts *d;

    l.vents[0].set[DEW_VENT_ON] = .0283;
    l.found[0] = (struct dew_duct_found){.0118, .0231};
    d = open_layout(&l);
    s = at(d, DEW_VENT_ON, 2);
    assert_near(s.fresh_gross, .0118, 1e-12);
    assert_near(s.fresh_delivered, .0118 * .99, 1e-9);
    assert_near(s.stale_drawn, .0231, 1e-12);
    assert_near(s.imbalance, .0118 - .0231, 1e-12);
    assert_int_equal(s.balanced, 0);
    assert_near(s.units[0].supply, .0118, 1e-9);
    assert_near(s.units[0].exhaust, .0231, 1e-9);
    for (int g = 0; g < DEW_DUCT_GRILLES; g++) {
        fresh += s.fresh_at[g];
        stale += s.stale_at[g];
    }
    assert_near(fresh, s.fresh_delivered, 1e-9);
    assert_near(stale, .0231, 1e-9);
    dew_ducts_close(d);
}

/* a gap beside the return grille: the blower does not pull at the fan, yet
   its air is what the coil meets */
TEST(a_gap_keeps_the_flow_whatever_the_blower_does)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 1, 1);
    struct dew_ducts *d;

    l.gap = 1;
    d = open_layout(&l);
    for (int b = 0; b < 3; b++)
        assert_near(at(d, DEW_VENT_ON, b).fresh_gross, .0473, 1e-8);
    assert_near(at(d, DEW_VENT_ON, 2).at_coil, .0473 * .99, 1e-8);
    assert_near(at(d, DEW_VENT_ON, 0).at_coil, 0, 1e-12);
    assert_near(at(d, DEW_VENT_OFF, 2).unplanned, 0, 1e-12);
    dew_ducts_close(d);
}

/* Fresh air tied to the return passes the coil, all of it but what the tie's own
   leak brings back as stale; tied to the supply, none. */
TEST(only_a_return_tie_meets_the_coil)
{
    for (int kind = 0; kind < DEW_LAYOUTS; kind++) {
        struct dew_duct_layout l = said((enum dew_layout)kind, 1, 1);
        struct dew_duct_state s;
        struct dew_ducts *d;

        l.vents[0].eatr = 0;
        d = open_layout(&l);
        s = at(d, DEW_VENT_ON, 2);
        assert_near(s.coil_fresh[0] / s.fresh_gross,
                    ducts__return_fresh(&l) ? 1 : 0, 0.02);
        assert_near(s.coil_idle[0], 0, 0);
        s = at(d, DEW_VENT_OFF, 2);
        assert_near(s.coil_fresh[0], 0, 0);
        if (ducts__return_fresh(&l))
            assert_true(s.coil_idle[0] > .5 * s.unplanned);
        dew_ducts_close(d);
    }
}

/* two handlers on one header, one blower running: it takes nearly all */
TEST(the_running_handler_robs_the_other)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 2, 1);
    struct dew_duct_state one, both;
    struct dew_ducts *d = open_layout(&l);

    one = at(d, DEW_VENT_ON, 2);
    both = at(d, DEW_VENT_ON, 8);
    assert_true(one.coil_fresh[0] > .99 * one.fresh_delivered);
    assert_true(one.coil_flow[1] < -.01); /* backwards through the idle one */
    assert_near(both.coil_fresh[0] / both.fresh_delivered, .5, .05);
    dew_ducts_close(d);
    l.backdraft = DEW_DUCT_FITTED;
    d = open_layout(&l);
    one = at(d, DEW_VENT_ON, 2);
    assert_true(one.coil_flow[1] > -.001); /* and not with dampers */
    dew_ducts_close(d);
}

TEST(a_state_becomes_a_path)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 1, 1);
    struct dew_ducts *d = open_layout(&l);
    struct dew_duct_state s = at(d, DEW_VENT_ON, 2);
    struct dew_duct_core core = {.713, .487, .31, 2.7};
    struct dew_path p = dew_ducts_path(&s, &core);

    assert_near(p.supply, s.fresh_gross, 0);
    assert_near(p.exhaust, s.stale_drawn, 0);
    assert_near(p.fresh, s.fresh_delivered, 0);
    assert_near(p.at_coil, s.fresh_delivered, 1e-9);
    assert_near(p.sensible, .713, 0);
    assert_near(p.latent, .487, 0);
    assert_near(p.fan_heat, .31 * s.fan_w, 1e-12);
    assert_near(p.condensing, 2.7, 0);
    dew_ducts_close(d);
}

/* ---- what is refused -------------------------------------------------------- */

static void refused(struct dew_duct_layout *l, enum dew_status status,
                    const char *path, const char *text)
{
    struct dew_duct_layout before = *l;
    struct dew_error err = {0};

    assert_int_equal(dew_ducts_layout_fill(l, &err), status);
    assert_string_equal(err.path, path);
    assert_string_equal(err.text, text);
    assert_int_equal(l->vents[0].serves, before.vents[0].serves);
    assert_int_equal(l->grille_count, before.grille_count);
}

TEST(faults_name_the_member)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 0, 1);

    refused(&l, DEW_ERANGE, "handler_count", "a tie needs an air handler");
    l = said(DEW_LAYOUT_mix, 3, 2);
    refused(&l, DEW_ERANGE, "vent_count",
            "is neither 0, 1 nor the number of air handlers");
    l = said(DEW_LAYOUT_own_ducts, 0, 0);
    refused(&l, DEW_ERANGE, "vent_count", "no ventilator and no air handler");
    l = said(DEW_LAYOUT_mix, 1, 0);
    refused(&l, DEW_ERANGE, "vent_count", "a tie needs a ventilator");
    l = said(DEW_LAYOUT_mix, 2, 1);
    l.handlers[1].flow = NAN;
    refused(&l, DEW_EMISSING, "handlers[1].flow",
            "a blower's full flow is needed, 0.05 .. 3 m3/s");
    l.handlers[1].flow = 0.047;
    refused(&l, DEW_ERANGE, "handlers[1].flow",
            "a blower's full flow is 0.05 .. 3 m3/s (106 .. 6360 cfm), and its "
            "machine's is 0.047 m3/s");
    l = said(DEW_LAYOUT_mix, 1, 1);
    l.vents[0].set[DEW_VENT_ON] = NAN;
    refused(&l, DEW_EMISSING, "vents[0].set",
            "a ventilator needs a flow to be set to");
    l = said(DEW_LAYOUT_mix, 1, 1);
    l.handlers[0].external = 1240;
    refused(&l, DEW_ERANGE, "handlers[0].external",
            "1240 is outside 10 .. 500");
    l = said(DEW_LAYOUT_supply_tie, 1, 1);
    l.grilles[0] = (struct dew_duct_grille){.name = "hall",
                                            .handler = 0,
                                            .share = NAN,
                                            .vent = 0,
                                            .fresh = 0,
                                            .stale = 0};
    l.grille_count = 1;
    refused(&l, DEW_EMISSING, "vents[0].grilles",
            "has no grille for its stale air");
}

/* One count too few or too many is never followed. */
TEST(counts_outside_a_layout_are_refused)
{
    struct dew_duct_layout whole = said(DEW_LAYOUT_mix, 1, 1);

    fill(&whole);
    for (int i = 0; i < 6; i++) {
        struct dew_duct_layout l = whole;
        int *count = i < 2   ? &l.handler_count
                     : i < 4 ? &l.vent_count
                             : &l.grille_count;
        const int most[] = {DEW_DUCT_HANDLERS, DEW_DUCT_VENTS,
                            DEW_DUCT_GRILLES};
        struct dew_error err = {0};
        struct dew_ducts *d;

        *count = i % 2 ? most[i / 2] + 1 : i < 4 ? -1 : 0;
        assert_int_equal(dew_ducts_open(&d, &l, &err), DEW_ERANGE);
        assert_null(d);
        assert_string_equal(err.text, "the layout was not filled in");
    }
}

TEST(a_layout_not_filled_in_is_refused)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 1, 1);
    struct dew_error err = {0};
    struct dew_ducts *d;

    assert_int_equal(dew_ducts_open(&d, &l, &err), DEW_ERANGE);
    assert_null(d);
    assert_string_equal(err.text, "the layout was not filled in");
}

TEST(a_trunk_too_small_is_named)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_mix, 1, 1);
    struct dew_error err = {0};
    struct dew_ducts *d;

    l.handlers[0].return_trunk.duct =
        (struct dew_duct){.diameter = .2, .length = 9, .roughness = 9e-5};
    fill(&l);
    assert_int_equal(dew_ducts_open(&d, &l, &err), DEW_ERANGE);
    assert_null(d);
    assert_string_equal(err.path, "handlers[0].return_trunk");
    assert_string_equal(err.text, "loses 235 Pa at full flow; the external "
                                  "static leaves 62 Pa for it and its grilles");
}

ROWS(shapes, shape_row);
ROWS(behaviours, behaviour_row);
RUN_TESTS("ducts: layouts");
