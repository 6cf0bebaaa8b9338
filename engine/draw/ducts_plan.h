/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things stand in a sketch of air paths.  Private to the report. */
#ifndef DEW_DRAW_DUCTS_PLAN_H
#define DEW_DRAW_DUCTS_PLAN_H

#include "report/ducts.h"

/* Columns of the drawing, in its own units, from left to right. */
enum {
    DEW__PLAN_WIDE = 500,
    DEW__PLAN_WALL = 62,     /* left wall of the house                     */
    DEW__PLAN_UNIT = 76,     /* left edge of ventilators and air handlers  */
    DEW__PLAN_UNIT_W = 98,   /* their width                                */
    DEW__PLAN_FRESH = 226,   /* fresh tie to the first air handler         */
    DEW__PLAN_STALE = 268,   /* stale tie from the first                   */
    DEW__PLAN_STEP = 11,     /* between ties                               */
    DEW__PLAN_RISER = 322,   /* supply trunk up to the rooms               */
    DEW__PLAN_OWN = 308,     /* own fresh air duct along the rooms         */
    DEW__PLAN_ROOMS = 342,   /* left edge of rooms                         */
    DEW__PLAN_ROOMS_W = 124, /* their width                                */
    DEW__PLAN_BACK = 480,    /* own stale air duct behind the rooms        */
    DEW__PLAN_RIGHT = 492,   /* right wall                                 */
    DEW__PLAN_TOP = 74,      /* ceiling                                    */
    DEW__PLAN_ROW = 25       /* a room                                     */
};

struct dew__plan {
    double room[DEW_DUCT_GRILLES];     /* middle of its row                */
    double grilles[DEW_DUCT_HANDLERS]; /* of the return grilles            */
    double supply[DEW_DUCT_HANDLERS];  /* supply trunk, leaving            */
    double back[DEW_DUCT_HANDLERS];    /* return trunk, arriving           */
    double vent[DEW_DUCT_VENTS];       /* top of its box                   */
    double ceiling[DEW_DUCT_VENTS];    /* of its own stale air duct        */
    double floor;                      /* under the last row               */
};

/* Heights of a unit's box, and of the two ports on each of its sides. */
enum { DEW__VENT_H = 66, DEW__VENT_UP = 18, DEW__VENT_LOW = 48 };

void dew__plan_make(const struct dew_duct_layout *l, struct dew__plan *p);

#endif
