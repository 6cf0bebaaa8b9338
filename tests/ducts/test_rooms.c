/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms of a house whose grilles were not told, and the split of their air. */
#include "support/rows.h"

#include <string.h>

#include "dew/ducts.h"

static struct dew_duct_layout filled(int bedrooms, int handlers, int vents)
{
    struct dew_duct_layout l;
    struct dew_error err = {0};

    dew_ducts_layout_blank(&l);
    l.bedrooms = bedrooms;
    l.handler_count = handlers;
    l.vent_count = vents;
    for (int k = 0; k < handlers; k++)
        l.handlers[k].flow = .317;
    for (int j = 0; j < vents; j++)
        l.vents[j].set[DEW_VENT_ON] = .0473 / vents;
    if (dew_ducts_layout_fill(&l, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    return l;
}

static const struct dew_duct_grille *room(const struct dew_duct_layout *l,
                                          const char *name)
{
    for (int g = 0; g < l->grille_count; g++)
        if (strcmp(l->grilles[g].name, name) == 0)
            return &l->grilles[g];
    return NULL;
}

/* [F326] 10 L/s to the main bedroom, 5 to each other; living room 2, ours. */
TEST(fresh_air_is_split_by_rooms)
{
    struct dew_duct_layout l = filled(4, 1, 1);

    assert_near(room(&l, "main bedroom")->fresh, 2.0 / 7, 1e-12);
    assert_near(room(&l, "living room")->fresh, 2.0 / 7, 1e-12);
    assert_near(room(&l, "bedroom 2")->fresh, 1.0 / 7, 1e-12);
    assert_near(room(&l, "bedroom 4")->fresh, 1.0 / 7, 1e-12);
    assert_near(room(&l, "kitchen")->fresh, 0, 0);
    assert_near(room(&l, "kitchen")->stale, 2.0 / 4, 1e-12);
    assert_near(room(&l, "bath")->stale, 1.0 / 4, 1e-12);
    assert_near(room(&l, "second bath")->stale, 1.0 / 4, 1e-12);
    assert_null(room(&l, "bedroom 5"));
    assert_near(room(&l, "bedroom 4")->share, 1.0 / 6, 1e-12);
}

TEST(rooms_are_those_of_the_house)
{
    static const struct {
        int bedrooms, rooms;
    } rows[] = {{0, 3}, {1, 4}, {2, 5}, {3, 7}, {4, 8}, {12, 16}};

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_int_equal(filled(rows[i].bedrooms, 1, 1).grille_count,
                         rows[i].rooms);
}

/* However few rooms: every air handler blows, every ventilator has both. */
TEST(each_air_handler_reaches_a_room)
{
    for (int bedrooms = 0; bedrooms <= 12; bedrooms++)
        for (int n = 1; n <= DEW_DUCT_HANDLERS; n++) {
            struct dew_duct_layout l = filled(bedrooms, n, n);

            for (int k = 0; k < n; k++) {
                double supply = 0, fresh = 0, stale = 0;

                for (int g = 0; g < l.grille_count; g++) {
                    const struct dew_duct_grille *at = &l.grilles[g];

                    supply += at->handler == k ? at->share : 0;
                    fresh += at->vent == k ? at->fresh : 0;
                    stale += at->vent == k ? at->stale : 0;
                }
                assert_near(supply, 1, 1e-12);
                assert_near(fresh, 1, 1e-12);
                assert_near(stale, 1, 1e-12);
            }
        }
}

TEST(more_bedrooms_than_rooms_are_refused)
{
    struct dew_duct_layout l;
    struct dew_error err = {0};

    dew_ducts_layout_blank(&l);
    l.vents[0].set[DEW_VENT_ON] = .0473;
    l.bedrooms = 13;
    assert_int_equal(dew_ducts_layout_fill(&l, &err), DEW_ERANGE);
    assert_string_equal(err.path, "bedrooms");
    assert_string_equal(err.text, "is outside 0 .. 12");
}

RUN_TESTS("ducts/rooms");
