/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things stand in a sketch of air paths.  Private to the report. */
#ifndef DEW_DRAW_DUCTS_PLAN_H
#define DEW_DRAW_DUCTS_PLAN_H

#include "report/ducts.h"

/* Columns of the drawing, in its own units, from left to right. */
enum {
    DRAW__PLAN_WIDE = 500,
    DRAW__PLAN_WALL = 62,     /* left wall of the house                     */
    DRAW__PLAN_UNIT = 76,     /* left edge of ventilators and air handlers  */
    DRAW__PLAN_UNIT_W = 98,   /* their width                                */
    DRAW__PLAN_FRESH = 226,   /* fresh tie to the first air handler         */
    DRAW__PLAN_STALE = 268,   /* stale tie from the first                   */
    DRAW__PLAN_STEP = 11,     /* between ties                               */
    DRAW__PLAN_RISER = 322,   /* supply trunk up to the rooms               */
    DRAW__PLAN_OWN = 308,     /* own fresh air duct along the rooms         */
    DRAW__PLAN_ROOMS = 342,   /* left edge of rooms                         */
    DRAW__PLAN_ROOMS_W = 124, /* their width                                */
    DRAW__PLAN_BACK = 480,    /* own stale air duct behind the rooms        */
    DRAW__PLAN_RIGHT = 492,   /* right wall                                 */
    DRAW__PLAN_TOP = 74,      /* ceiling                                    */
    DRAW__PLAN_ROW = 25       /* a room                                     */
};

struct draw__plan {
    double room[DEW_DUCT_GRILLES];     /* middle of its row                */
    double grilles[DEW_DUCT_HANDLERS]; /* of the return grilles            */
    double supply[DEW_DUCT_HANDLERS];  /* supply trunk, leaving            */
    double back[DEW_DUCT_HANDLERS];    /* return trunk, arriving           */
    double vent[DEW_DUCT_VENTS];       /* top of its box                   */
    double ceiling[DEW_DUCT_VENTS];    /* of its own stale air duct        */
    double floor;                      /* under the last row               */
};

/* Heights of a unit's box, and of the two ports on each of its sides. */
enum { DRAW__VENT_H = 66, DRAW__VENT_UP = 18, DRAW__VENT_LOW = 48 };

void draw__plan_make(const struct dew_duct_layout *l, struct draw__plan *p);

#endif
