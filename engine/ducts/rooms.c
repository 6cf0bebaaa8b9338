/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rooms of a house whose grilles were not told, and who gets how much. */
#include "ducts/build.h"

#include <math.h>
#include <stdio.h>

enum { FIRST, SECOND, LAST, MOST_BEDROOMS = 12 };

size_t dew_ducts_rooms(int bedrooms, struct dew_duct_room *out)
{
    static const char *const others[] = {
        "bedroom 2",  "bedroom 3",  "bedroom 4", "bedroom 5",
        "bedroom 6",  "bedroom 7",  "bedroom 8", "bedroom 9",
        "bedroom 10", "bedroom 11", "bedroom 12"};
    size_t n = 0;

    out[n++] = (struct dew_duct_room){"living room", FIRST, 1, 2, 0};
    out[n++] = (struct dew_duct_room){"kitchen", FIRST, 1, 0, 2};
    if (bedrooms > 0)
        out[n++] = (struct dew_duct_room){"main bedroom", LAST, 1, 2, 0};
    for (int i = 1; i < bedrooms && i < MOST_BEDROOMS; i++)
        out[n++] = (struct dew_duct_room){others[i - 1], SECOND, 1, 1, 0};
    out[n++] = (struct dew_duct_room){"bath", LAST, 0, 0, 1};
    if (bedrooms > 2)
        out[n++] = (struct dew_duct_room){"second bath", SECOND, 0, 0, 1};
    return n;
}

/* Which of count air handlers blows there: the first, the second if there is
   one, the last. */
static int handler_of(int tier, int count)
{
    return tier == LAST ? count - 1 : tier == SECOND && count > 1 ? 1 : 0;
}

/* More air handlers than the rooms reach: each has rooms of its own. */
static void rest(struct dew_duct_layout *l, int k)
{
    static const char *const names[DEW_DUCT_HANDLERS] = {
        "rooms of air handler 1", "rooms of air handler 2",
        "rooms of air handler 3"};
    int blown = 0, fresh = 0, stale = 0, own = k < l->vent_count;
    struct dew_duct_grille *g = &l->grilles[l->grille_count];

    for (int i = 0; i < l->grille_count; i++) {
        const struct dew_duct_grille *at = &l->grilles[i];

        blown |= at->handler == k;
        fresh |= at->vent == k && at->fresh > 0;
        stale |= at->vent == k && at->stale > 0;
    }
    if ((blown && (!own || (fresh && stale))) ||
        l->grille_count == DEW_DUCT_GRILLES || k >= DEW_DUCT_HANDLERS)
        return;
    g->name = names[k];
    g->handler = blown ? -1 : k;
    g->share = blown ? 0 : NAN;
    g->vent = own ? k : l->vent_count - 1;
    g->fresh = own && !fresh;
    g->stale = own && !stale;
    l->grille_count++;
}

void ducts__usual(struct dew_duct_layout *l)
{
    struct dew_duct_room rooms[DEW_DUCT_GRILLES];
    size_t n = dew_ducts_rooms(l->bedrooms, rooms);
    int handlers = l->handler_count > 0 ? l->handler_count : 1;

    for (size_t i = 0; i < n; i++) {
        struct dew_duct_grille *g = &l->grilles[i];
        int k = handler_of(rooms[i].tier, handlers);

        g->name = rooms[i].name;
        g->handler = l->handler_count > 0 && rooms[i].supply ? k : -1;
        g->vent = k < l->vent_count ? k : l->vent_count - 1;
        g->share = rooms[i].supply ? NAN : 0;
        g->fresh = rooms[i].fresh;
        g->stale = rooms[i].stale;
    }
    l->grille_count = (int)n;
    for (int k = 0; k < l->handler_count; k++)
        rest(l, k);
}
