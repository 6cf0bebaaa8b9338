/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Typical equipment: sound, sourced, and within the law's caps. */
#include "support/rows.h"

#include <string.h>

#include "dew/library.h"

static const double per_cfm = 2118.8800032893155;

static void in_order(struct dew_range r, double least, double most)
{
    assert_true(r.low >= least && r.low <= r.likely);
    assert_true(r.likely <= r.high && r.high <= most);
}

/* A label in brackets, or said to be remembered or only practice. */
static void sourced(const char *source)
{
    assert_true(strstr(source, "from memory") || strstr(source, "no source") ||
                source[0] == '[');
}

TEST(every_row_is_sound_and_sourced)
{
    const struct dew_typical_core *c;
    const struct dew_typical_blower *b;
    const struct dew_typical_cooler *k;
    const struct dew_typical_dryer *d;
    const struct dew_typical_store *s;
    const struct dew_typical_fan *f;
    size_t rows = 0;

    for (size_t i = 0; (c = dew_plant_typical_core(i)); i++, rows++) {
        in_order(c->sensible, 0.4, 0.95);
        in_order(c->latent, 0.0, 0.9);
        in_order(c->eatr, 0.0, 0.1);
        assert_true(c->passes_water == (c->latent.high > 0.0));
        sourced(c->source);
    }
    for (size_t i = 0; (b = dew_plant_typical_blower(i)); i++, rows++) {
        in_order(b->power, 0.1 * per_cfm, 0.7 * per_cfm);
        /* by the fan laws watts fall at most as the cube of flow */
        assert_true(b->low_power >= pow(b->low_flow, 3) && b->low_power < 1);
        sourced(b->source);
    }
    for (size_t i = 0; (k = dew_plant_typical_cooler(i)); i++, rows++) {
        in_order(k->seer, 2.0, 7.0);
        in_order(k->shr, 0.65, 0.85);
        sourced(k->source);
    }
    for (size_t i = 0; (d = dew_plant_typical_dryer(i)); i++, rows++) {
        in_order(d->factor, 1.0 / 3.6e6, 4.0 / 3.6e6);
        sourced(d->source);
    }
    for (size_t i = 0; (s = dew_plant_typical_store(i)); i++, rows++) {
        in_order(s->value, 0.0, 3600.0);
        sourced(s->source);
    }
    for (size_t i = 0; (f = dew_plant_typical_fan(i)); i++, rows++)
        sourced(f->source);
    assert_int_equal(rows, 28);
}

TEST(typical_ventilators_meet_the_least_efficacy)
{
    const struct dew_typical_core *c;

    /* [CFR460]: 1.2 cfm per W */
    for (size_t i = 0; (c = dew_plant_typical_core(i)); i++)
        assert_true(1.0 / c->power.likely >= dew_plant_typical_fan(0)->least);
    assert_near(dew_plant_typical_fan(0)->least * per_cfm, 1.2, 1e-12);
}

/* cfm per W: [CFR460] table 1, and the hood's of [WAC-R403]. */
TEST(fans_have_the_laws_least)
{
    static const struct {
        const char *key;
        double least;
    } want[] = {{"ventilator", 1.2},
                {"in_line", 3.8},
                {"bath_small", 2.8},
                {"bath_large", 3.5},
                {"hood", 2.8}};

    for (size_t i = 0; i < COUNT_OF(want); i++) {
        assert_string_equal(dew_plant_typical_fan(i)->key, want[i].key);
        assert_near(dew_plant_typical_fan(i)->least * per_cfm, want[i].least,
                    1e-12);
    }
    assert_null(dew_plant_typical_fan(COUNT_OF(want)));
}

/* W per cfm, SEER in Btu/Wh and L/kWh, as their sources print them; the SEER
   from memory. */
TEST(rows_are_in_the_units_of_their_sources)
{
    static const double watts[][3] = {
        {.36, .50, .60}, {.25, .365, .45}, {.14, .30, .40}};
    static const double seer[][3] = {
        {8, 10, 12}, {13, 14, 16}, {15, 17, 19}, {17, 19, 23}};
    static const double litres[][3] = {{1.30, 1.57, 1.70}, {1.60, 1.80, 2.00},
                                       {2.80, 3.30, 3.30}, {1.20, 1.60, 1.85},
                                       {1.77, 2.09, 2.20}, {2.41, 3.30, 3.30}};
    const double btu_wh = 1055.05585262 / 3600.0;

    for (size_t i = 0; i < COUNT_OF(watts); i++) {
        struct dew_range r = dew_plant_typical_blower(i)->power;

        assert_near(r.low / per_cfm, watts[i][0], 1e-12);
        assert_near(r.likely / per_cfm, watts[i][1], 1e-12);
        assert_near(r.high / per_cfm, watts[i][2], 1e-12);
    }
    for (size_t i = 0; i < COUNT_OF(seer); i++) {
        struct dew_range r = dew_plant_typical_cooler(i)->seer;

        assert_near(r.low / btu_wh, seer[i][0], 1e-12);
        assert_near(r.likely / btu_wh, seer[i][1], 1e-12);
        assert_near(r.high / btu_wh, seer[i][2], 1e-12);
    }
    for (size_t i = 0; i < COUNT_OF(litres); i++) {
        struct dew_range r = dew_plant_typical_dryer(i)->factor;

        assert_near(r.low * 3.6e6, litres[i][0], 1e-12);
        assert_near(r.likely * 3.6e6, litres[i][1], 1e-12);
        assert_near(r.high * 3.6e6, litres[i][2], 1e-12);
    }
}

RUN_TESTS("plant, library");
