/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A made-up house on a layout, marched through one weather. */
#ifndef DEW_TESTS_DUCT_MARCH_H
#define DEW_TESTS_DUCT_MARCH_H

#include "support/marched.h"

#include "dew/ducts.h"

/* ---- a house on a layout ----------------------------------------------------- */

struct house {
    struct dew_duct_layout layout;
    struct dew_duct_state states[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    struct dew_case c;
};

static inline void lay(struct house *h, int handlers)
{
    const struct dew_duct_core core = {.713, .0, .5, 0};
    int blowers;

    assert_int_equal(dew_ducts_layout_fill(&h->layout, NULL), DEW_OK);
    assert_int_equal(dew_ducts_states(&h->layout, h->states, &blowers, NULL),
                     DEW_OK);
    for (int v = 0; v < DEW_DUCT_VENT_STATES; v++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++)
            h->c.paths[v][b] =
                dew_ducts_path(&h->states[v][b % blowers], &core);
    h->c.plant.handler_count = handlers;
}

static inline void house_of(struct house *h, enum dew_layout kind, int handlers)
{
    dew_ducts_layout_blank(&h->layout);
    h->layout.kind = kind;
    h->layout.handler_count = handlers;
    for (int k = 0; k < handlers; k++)
        h->layout.handlers[k].flow = .453 + .071 * k;
    h->layout.vents[0].set[DEW_VENT_ON] = .0437;
    h->c = bare_case(391.0, 23.7);
    h->c.house.leakage.c = 0.0091;
    h->c.plant.control.boost_band = .04;
    for (int k = 0; k < handlers; k++)
        h->c.plant.handlers[k] = (struct dew_handler){.air = .453 + .071 * k,
                                                      .blower_w = 293,
                                                      .blower_low = .5,
                                                      .blower_low_w = 83};
    lay(h, handlers);
}

/* The last of 50 hours of one weather. */
static inline struct dew_result last_hour(const struct dew_case *c, double t,
                                          double rh)
{
    struct dew_hour out = outdoors(t, rh);

    return run(c, &out, 50, NULL);
}

static inline void cool(struct house *h, int handlers)
{
    for (int k = 0; k < handlers; k++) {
        h->c.plant.handlers[k].capacity = 9100.0;
        h->c.plant.handlers[k].shr = .74;
        h->c.plant.handlers[k].cop = 3.7;
        h->c.plant.handlers[k].cycles_max = 3.0;
        h->c.plant.handlers[k].hold_s = 1000.0;
        h->c.plant.handlers[k].gamma = 1.5;
    }
    h->c.house.comfort.given = 0;
    all_day(h->c.house.comfort.heat, 15.0);
    h->c.house.people.gains_w = 2900.0;
    h->c.house.people.gains_convective = 1.0;
}

#endif
