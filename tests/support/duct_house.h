/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A made-up house whose ducts a ventilator is tied to; for tests of layouts. */
#ifndef DEW_TESTS_DUCT_HOUSE_H
#define DEW_TESTS_DUCT_HOUSE_H

#include "support/rows.h"

#include "dew/ducts.h"

static inline struct dew_duct_layout said(enum dew_layout kind, int handlers,
                                          int vents)
{
    struct dew_duct_layout l;

    dew_ducts_layout_blank(&l);
    l.kind = kind;
    l.handler_count = handlers;
    l.vent_count = vents;
    for (int k = 0; k < handlers; k++)
        l.handlers[k].flow = .571 / handlers * (1 + .1 * k);
    for (int j = 0; j < vents; j++)
        l.vents[j].set[DEW_VENT_ON] = .0473 / vents;
    return l;
}

static inline void fill(struct dew_duct_layout *l)
{
    struct dew_error err = {0};

    if (dew_ducts_layout_fill(l, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
}

static inline struct dew_ducts *open_layout(struct dew_duct_layout *l)
{
    struct dew_error err = {0};
    struct dew_ducts *d;

    fill(l);
    if (dew_ducts_open(&d, l, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    return d;
}

static inline struct dew_duct_state at(struct dew_ducts *d,
                                       enum dew_vent_state vent, int blower)
{
    struct dew_duct_state s;
    struct dew_error err = {0};

    if (dew_ducts_state(d, vent, blower, &s, &err) != DEW_OK)
        fail_msg("%s", err.text);
    return s;
}

#endif
