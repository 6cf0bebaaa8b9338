/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things stand in a sketch of air paths. */
#include "draw/ducts_plan.h"

#include <math.h>

/* Which block of rows a grille stands in: its air handler's, else its own
   ventilator's. */
static int block_of(const struct dew_duct_layout *l, int g)
{
    const struct dew_duct_grille *at = &l->grilles[g];

    if (at->handler >= 0)
        return at->handler;
    return l->vent_count > 1 && at->vent >= 0 ? at->vent : 0;
}

/* Rooms without supply air first, then those with it, then the return. */
static double rows(const struct dew_duct_layout *l, int block, double y,
                   struct draw__plan *p)
{
    for (int supplied = 0; supplied <= 1; supplied++)
        for (int g = 0; g < l->grille_count; g++) {
            if (block_of(l, g) != block ||
                (l->grilles[g].handler >= 0) != supplied)
                continue;
            p->room[g] = y + 0.5 * DRAW__PLAN_ROW;
            y += DRAW__PLAN_ROW;
        }
    return y;
}

static void handler(double least, double *y, int k, struct draw__plan *p)
{
    const double apart = 46; /* supply over return */

    *y = fmax(*y, least);
    p->grilles[k] = p->back[k] = *y + 0.5 * DRAW__PLAN_ROW;
    p->supply[k] = p->back[k] - apart;
    *y += DRAW__PLAN_ROW;
}

void draw__plan_make(const struct dew_duct_layout *l, struct draw__plan *p)
{
    const double first = 26, under = 78;
    /* room for what goes straight back, under a return trunk */
    int back = l->kind == DEW_LAYOUT_return_tie ||
               l->kind == DEW_LAYOUT_return_to_supply;
    const double between = back ? 32 : 12;
    int blocks =
        l->handler_count > l->vent_count ? l->handler_count : l->vent_count;
    double y = DRAW__PLAN_TOP + first;

    *p = (struct draw__plan){.floor = 0};
    for (int b = 0; b < blocks; b++) {
        double top = y, least = top + under;

        if (b < l->vent_count) {
            p->vent[b] = top - 6;
            p->ceiling[b] = top - 12;
            least = top + DRAW__VENT_H + under + 14;
        }
        y = rows(l, b, y, p);
        if (b < l->handler_count)
            handler(least - DRAW__PLAN_ROW, &y, b, p);
        else
            y = fmax(y, top + DRAW__VENT_H + between);
        y += b + 1 < l->vent_count ? 32 : b + 1 < blocks ? between : 12;
    }
    p->floor = y + (back ? 22 : 4);
}
