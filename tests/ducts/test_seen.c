/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What layouts did that were solved before. */
#include "support/duct_house.h"

#include <string.h>

#include "ducts/seen.h"

typedef struct dew_duct_state states[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];

static struct dew_duct_layout leaky(void)
{
    struct dew_duct_layout l = said(DEW_LAYOUT_return_tie, 2, 1);

    l.handlers[0].leak_return = .053;
    fill(&l);
    return l;
}

/* Of a layout, both ways, to the last bit; x and y are blank beyond its blowers. */
static void same(struct ducts__seen *seen, const struct dew_duct_layout *l)
{
    static states x, y;
    struct dew_duct_state one;
    struct dew_ducts *d;
    int blowers = 0, told = 0;

    memset(x, 0, sizeof x);
    memset(y, 0, sizeof y);
    assert_int_equal(dew_ducts_states(l, x, &blowers, NULL), DEW_OK);
    assert_int_equal(ducts__seen_states(seen, l, y, &told, NULL), DEW_OK);
    assert_int_equal(told, blowers);
    assert_memory_equal(x, y, sizeof x);
    assert_int_equal(dew_ducts_open(&d, l, NULL), DEW_OK);
    x[0][0] = at(d, DEW_VENT_ON, l->reference);
    dew_ducts_close(d);
    assert_int_equal(ducts__seen_running(seen, l, l->reference, &one, NULL),
                     DEW_OK);
    assert_memory_equal(&one, &x[0][0], sizeof one);
}

/* A layout that differs in one figure is another one, whatever was seen. */
TEST(other_figures_are_other_layouts)
{
    struct dew_duct_layout l = leaky();
    struct ducts__seen *seen = ducts__seen_open(40);
    double *const figures[] = {
        &l.handlers[0].flow,        &l.handlers[1].leak_supply,
        &l.handlers[1].between,     &l.vents[0].set[DEW_VENT_BOOST],
        &l.vents[0].eatr,           &l.damper_leak,
        &l.short_circuit[2],        &l.found[1].fresh,
        &l.grilles[0].line.outside, &l.density};

    for (int again = 0; again < 2; again++)
        same(seen, &l);
    for (size_t i = 0; i < COUNT_OF(figures); i++) {
        *figures[i] = isnan(*figures[i]) ? .04 : *figures[i] * 1.01 + .001;
        same(seen, &l);
    }
    l.reference = 4;
    same(seen, &l);
    l.holds_flow = 1;
    same(seen, &l);
    l.handler_count = 1; /* fewer blower states */
    l.vents[0].serves = 1;
    l.reference = 2;
    same(seen, &l);
    ducts__seen_close(seen);
}

/* A network written out that was changed behind its back: what is seen is what
   it did before, and what is not seen what it does now. */
static double flow_of(struct ducts__seen *seen, const struct dew_duct_layout *l)
{
    static states out;
    int blowers;

    assert_int_equal(ducts__seen_states(seen, l, out, &blowers, NULL), DEW_OK);
    return out[DEW_VENT_ON][0].fresh_gross;
}

static double running(struct ducts__seen *seen, const struct dew_duct_layout *l,
                      int blower)
{
    struct dew_duct_state out;

    assert_int_equal(ducts__seen_running(seen, l, blower, &out, NULL), DEW_OK);
    return out.coil_flow[0];
}

TEST(what_was_seen_is_not_solved_again)
{
    static struct dew_duct_run runs[200];
    struct dew_duct_layout l = leaky();
    struct dew_duct_written w;
    struct dew_ducts *d;
    struct ducts__seen *seen = ducts__seen_open(3), *none = ducts__seen_open(0);
    char other[] = "another name";
    double before, full;

    assert_int_equal(dew_ducts_open(&d, &l, NULL), DEW_OK);
    w = dew_ducts_as_written(d);
    memcpy(runs, w.runs, w.run_count * sizeof *runs);
    w.runs = runs;
    l.written = &w;
    before = flow_of(seen, &l);
    full = running(seen, &l, 2);
    for (size_t i = 0; i < w.run_count; i++)
        if (runs[i].branch.kind == DEW_BRANCH_DUCT)
            runs[i].branch.duct.length *= 30;
    l.grilles[0].name = other;
    assert_true(flow_of(seen, &l) == before);
    assert_true(running(seen, &l, 2) == full);
    assert_false(running(seen, &l, 1) == full);
    assert_false(flow_of(NULL, &l) == before); /* no memory: solved */
    assert_false(flow_of(none, &l) == before);
    assert_true(flow_of(seen, &l) == before);
    l.density *= 1.01; /* the fourth: the oldest gives way, and no other */
    (void)running(seen, &l, 2);
    l.density /= 1.01;
    assert_true(running(seen, &l, 2) == full);
    assert_false(flow_of(seen, &l) == before);
    ducts__seen_close(none);
    ducts__seen_close(seen);
    dew_ducts_close(d);
}

/* What fails is told, and not kept. */
TEST(a_fault_is_told_each_time)
{
    static states out;
    struct dew_duct_layout l = leaky();
    struct ducts__seen *seen = ducts__seen_open(4);
    struct dew_error err = {0};
    int blowers = -1;

    l.density = 9;
    for (int again = 0; again < 2; again++) {
        assert_int_equal(ducts__seen_states(seen, &l, out, &blowers, &err),
                         DEW_ERANGE);
        assert_int_equal(ducts__seen_running(seen, &l, 0, &out[0][0], &err),
                         DEW_ERANGE);
        assert_int_equal(blowers, -1);
    }
    ducts__seen_close(seen);
}

RUN_TESTS("seen");
