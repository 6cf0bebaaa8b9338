/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes for flows, and the list of parts. */
#include "support/rows.h"

#include <string.h>

#include "dew/parts.h"

/*
 * [ASH-F21] table 13, spiral duct of 0.12 mm: sizes in mm at a friction rate.
 * Sizes are the table's steps; a rate is good to 4.5 %, so a diameter to 1 %.
 */
static const struct sized {
    const char *name;
    double litres, rate, mm;
} sizes[] = {
    {"[ASH-F21] table 13, 240 L/s at 0.4 Pa/m", 240, .4, 312},
    {"[ASH-F21] table 13, 240 L/s at 0.8 Pa/m", 240, .8, 270},
    {"[ASH-F21] table 13, 240 L/s at 1.0 Pa/m", 240, 1.0, 258},
    {"[ASH-F21] table 13, 240 L/s at 1.2 Pa/m", 240, 1.2, 248},
    {"[ASH-F21] table 13, 240 L/s at 1.6 Pa/m", 240, 1.6, 234},
    {"[ASH-F21] table 13, 470 L/s at 0.4 Pa/m", 470, .4, 402},
    {"[ASH-F21] table 13, 470 L/s at 0.8 Pa/m", 470, .8, 348},
    {"[ASH-F21] table 13, 470 L/s at 1.0 Pa/m", 470, 1.0, 332},
    {"[ASH-F21] table 13, 470 L/s at 1.2 Pa/m", 470, 1.2, 320},
    {"[ASH-F21] table 13, 470 L/s at 1.6 Pa/m", 470, 1.6, 302},
    {"[ASH-F21] table 13, 940 L/s at 0.4 Pa/m", 940, .4, 520},
    {"[ASH-F21] table 13, 940 L/s at 0.8 Pa/m", 940, .8, 452},
    {"[ASH-F21] table 13, 940 L/s at 1.0 Pa/m", 940, 1.0, 432},
    {"[ASH-F21] table 13, 940 L/s at 1.2 Pa/m", 940, 1.2, 416},
    {"[ASH-F21] table 13, 940 L/s at 1.6 Pa/m", 940, 1.6, 394},
};

static void sized_row(void **state)
{
    const struct sized *r = *state;
    double d = dew_ducts_diameter(r->litres / 1000, r->rate, .12e-3);
    struct dew_duct back = {.diameter = d, .length = 1, .roughness = .12e-3};

    assert_near(1000 * d, r->mm, .01 * r->mm);
    assert_near(dew_ducts_drop(&back, 1.204, r->litres / 1000, NULL), r->rate,
                1e-9);
}

TEST(no_size_is_nan)
{
    assert_nan(dew_ducts_diameter(0, .65, 9e-5));
    assert_nan(dew_ducts_diameter(.03, 0, 9e-5));
    assert_nan(dew_ducts_diameter(.03, .65, .006));
    assert_nan(dew_ducts_diameter(49, .011, 9e-5)); /* beyond 3 m */
    assert_nan(dew_ducts_diameter(51, 49, 9e-5));
    assert_nan(dew_ducts_diameter(.9e-4, .011, 9e-5));
    assert_nan(dew_ducts_diameter(.03, .009, 9e-5));
    assert_nan(dew_ducts_diameter(.03, 51, 9e-5));
    assert_nan(dew_ducts_diameter(.03, .65, -9e-5));
    assert_nan(dew_ducts_diameter(1e-4, 50, 9e-5)); /* below 0.02 m */
    assert_true(dew_ducts_diameter(.03, 50, 0) > .02);
}

static struct dew_duct_layout filled(enum dew_layout kind, int handlers)
{
    struct dew_duct_layout l;

    dew_ducts_layout_blank(&l);
    l.kind = kind;
    l.handler_count = handlers;
    for (int k = 0; k < handlers; k++)
        l.handlers[k].flow = .317;
    l.vents[0].set[DEW_VENT_ON] = .0473;
    assert_int_equal(dew_ducts_layout_fill(&l, NULL), DEW_OK);
    return l;
}

TEST(runs_filled_in_carry_their_flows)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_own_ducts, 1);
    struct dew_duct_sizing s[DEW_DUCT_SIZINGS];
    size_t n = dew_ducts_sizings(&l, DEW_DUCTS_USUAL_RATE, s, COUNT_OF(s));

    assert_int_equal(n, 4 + 7); /* four fresh rooms, three stale */
    for (size_t i = 0; i < n; i++) {
        assert_int_equal(s[i].small, 0);
        assert_true(s[i].least <= s[i].common);
        assert_near(s[i].now, s[i].common, 1e-12);
        assert_true(s[i].speed > .3 && s[i].speed < 5);
    }
    l.vents[0].intake.duct.diameter = .1;
    n = dew_ducts_sizings(&l, DEW_DUCTS_USUAL_RATE, s, 1);
    assert_int_equal(n, 11);
    assert_int_equal(s[0].small, 1);
    assert_string_equal(s[0].name, "intake duct");
}

static const double hours_each[] = {
#define X(name, words, unit, hours) hours,
    DEW_DUCT_PART_MAP(X)
#undef X
};

static double amount(const struct dew_duct_layout *l,
                     enum dew_duct_part_kind kind)
{
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t n = dew_ducts_parts(l, rows, DEW_DUCT_PARTS);
    double sum = 0;

    for (size_t i = 0; i < n; i++) {
        assert_near(rows[i].hours, rows[i].amount * hours_each[rows[i].kind],
                    1e-9);
        if (i > 0)
            assert_true(rows[i].kind >= rows[i - 1].kind);
        if (rows[i].kind == kind)
            sum += rows[i].amount;
    }
    return sum;
}

/* counted by hand from the layout as filled: medium lengths */
TEST(lists_are_those_counted_by_hand)
{
    struct dew_duct_layout own = filled(DEW_LAYOUT_own_ducts, 1);
    struct dew_duct_layout tied = filled(DEW_LAYOUT_return_tie, 2);
    struct dew_duct_layout mix = filled(DEW_LAYOUT_mix, 2);

    /* two mains of 6 m, two ducts outdoors of 4 m, seven branches of 5 m */
    assert_near(amount(&own, DEW_PART_duct), 2 * 6 + 2 * 4 + 7 * 5, 1e-9);
    assert_near(amount(&own, DEW_PART_elbow), 2 * 3 + 2 * 2 + 7 * 3, 1e-9);
    assert_near(amount(&own, DEW_PART_tee), 3 + 2, 1e-9);
    assert_near(amount(&own, DEW_PART_grille), 7, 1e-9);
    assert_near(amount(&own, DEW_PART_take_off), 0, 0);
    assert_near(amount(&own, DEW_PART_interlock), 0, 0);
    /* both airs to two handlers */
    assert_near(amount(&tied, DEW_PART_duct), 4 * 6 + 2 * 4, 1e-9);
    assert_near(amount(&tied, DEW_PART_take_off), 4, 1e-9);
    assert_near(amount(&tied, DEW_PART_tee), 2, 1e-9);
    assert_near(amount(&tied, DEW_PART_grille), 0, 0);
    assert_near(amount(&tied, DEW_PART_interlock), 2, 1e-9);
    /* fresh to two handlers, stale from three rooms */
    assert_near(amount(&mix, DEW_PART_duct), 2 * 6 + 2 * 4 + 6 + 3 * 5, 1e-9);
    assert_near(amount(&mix, DEW_PART_take_off), 2, 1e-9);
    assert_near(amount(&mix, DEW_PART_grille), 3, 1e-9);
    mix.damper = mix.backdraft = DEW_DUCT_FITTED;
    assert_near(amount(&mix, DEW_PART_motorised), 2, 1e-9);
    assert_near(amount(&mix, DEW_PART_backdraft), 2, 1e-9);
    mix.gap = 1;
    assert_near(amount(&mix, DEW_PART_take_off), 0, 0);
}

/* around both ducts to outdoors, and what of a main lies outside */
TEST(insulation_is_the_skin_of_cold_ducts)
{
    struct dew_duct_layout l = filled(DEW_LAYOUT_own_ducts, 1);
    const double pi = 3.14159265358979323846;
    double in = l.vents[0].intake.duct.diameter;
    double out = l.vents[0].discharge.duct.diameter;

    assert_near(amount(&l, DEW_PART_insulation), pi * (in + out) * 4, 1e-9);
    l.vents[0].fresh.outside = .37;
    assert_near(
        amount(&l, DEW_PART_insulation),
        pi * ((in + out) * 4 + .37 * 6 * l.vents[0].fresh.duct.diameter), 1e-9);
}

TEST(words_for_every_kind)
{
    for (int i = 0; i < DEW_DUCT_PART_KINDS; i++) {
        enum dew_duct_part_kind kind = (enum dew_duct_part_kind)i;

        assert_true(strlen(dew_ducts_part_text(kind)) > 0);
    }
    assert_string_equal(dew_ducts_part_unit(DEW_PART_duct), "m");
    assert_string_equal(dew_ducts_part_text(DEW_DUCT_PART_KINDS),
                        "no such part");
}

ROWS(sizes, sized_row);
RUN_TESTS("ducts: parts");
