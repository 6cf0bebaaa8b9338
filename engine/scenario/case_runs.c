/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Networks written out in full, point by point and run by run. */
#include <math.h>
#include <string.h>

#include "dew/network.h"
#include "scenario/case.h"
#include "scenario/tree.h"

static enum dew_duct_role role_of(const struct dew_value *v, int i)
{
    return (enum dew_duct_role)RUN(v, i, role)->choice;
}

/* ---- what a run is built as ---------------------------------------------- */

enum dew_duct_kind scenario__run_kind(const struct dew_value *v, int i)
{
    static const enum dew_duct_kind of[] = {[RUN_IS_duct] = DEW_BRANCH_DUCT,
                                            [RUN_IS_fitting] = DEW_BRANCH_FIXED,
                                            [RUN_IS_backdraft] =
                                                DEW_BRANCH_BACKDRAFT,
                                            [RUN_IS_damper] = DEW_BRANCH_DAMPER,
                                            [RUN_IS_fan] = DEW_BRANCH_FAN};
    const struct dew_value *kind = RUN(v, i, kind);

    if (kind->given)
        return of[kind->choice];
    switch (role_of(v, i)) {
    case DEW_ROLE_BLOWER:
    case DEW_ROLE_FRESH_FAN:
    case DEW_ROLE_STALE_FAN:
        return DEW_BRANCH_FAN;
    case DEW_ROLE_FRESH_UNIT:
    case DEW_ROLE_STALE_UNIT:
    case DEW_ROLE_SHUT:
        return DEW_BRANCH_DAMPER;
    default:
        return RUN(v, i, pressure)->given ? DEW_BRANCH_FIXED : DEW_BRANCH_DUCT;
    }
}

size_t scenario__point_row(const struct dew_value *v, const char *name)
{
    size_t i = 0;

    while (i < v[KEY_ducts_points].count &&
           strcmp(POINT(v, i, name)->text, name) != 0)
        i++;
    return i;
}

/* ---- rooms --------------------------------------------------------------- */

static int opens_in_room(const struct dew_value *v, int i)
{
    return role_of(v, i) == DEW_ROLE_GRILLE || role_of(v, i) == DEW_ROLE_PICKUP;
}

/* The first run that opens in the room of run i. */
static int first_of(const struct dew_value *v, int i)
{
    const char *name = RUN(v, i, name)->text;
    int k = 0;

    while (!opens_in_room(v, k) || strcmp(RUN(v, k, name)->text, name) != 0)
        k++;
    return k;
}

/* Rooms are counted in the order of their first runs. */
static int room_of(const struct dew_value *v, int i)
{
    int rooms = 0;

    for (int k = 0; k < first_of(v, i); k++)
        rooms += opens_in_room(v, k) && first_of(v, k) == k;
    return rooms;
}

int scenario__written_rooms(const struct dew_value *v,
                            struct dew_duct_layout *l)
{
    int rooms = 0;

    for (int i = 0; i < (int)v[KEY_ducts_runs].count; i++) {
        int room = opens_in_room(v, i) ? room_of(v, i) : -1;

        if (role_of(v, i) == DEW_ROLE_SHUT)
            l->damper = DEW_DUCT_FITTED;
        rooms = room + 1 > rooms ? room + 1 : rooms;
        if (room < l->grille_count || room >= DEW_DUCT_GRILLES)
            continue;
        l->grilles[room].name = RUN(v, i, name)->text;
        l->grilles[room].handler = l->grilles[room].vent = -1;
        l->grilles[room].share = 0;
        l->grilles[room].fresh = l->grilles[room].stale = 0;
        l->grille_count = room + 1;
    }
    return rooms;
}

/* ---- the network --------------------------------------------------------- */

static struct dew_duct duct_of(const struct dew_value *v, int i)
{
    return (struct dew_duct){
        .diameter = scenario__cell_or(RUN(v, i, diameter), 0),
        .width = scenario__cell_or(RUN(v, i, width), 0),
        .height = scenario__cell_or(RUN(v, i, height), 0),
        .length = scenario__cell_or(RUN(v, i, length), 0),
        .roughness = scenario__wall(RUN(v, i, wall)->choice),
        .loss = scenario__cell_or(RUN(v, i, loss), 0) +
                dew_ducts_fitting_named("elbow 90 smooth")->loss *
                    scenario__cell_or(RUN(v, i, elbows), 0)};
}

/* A fitting given by its size is a duct without length. */
static struct dew_duct_run run_of(const struct dew_value *v, int i)
{
    const double leak = 0.01; /* ours, as the column's preset says */
    const struct dew_value *at = RUN(v, i, flow);
    const struct dew_value *pressure = RUN(v, i, pressure);
    struct dew_duct_run r = {
        .branch = {.name = RUN(v, i, name)->text,
                   .from = scenario__point_row(v, RUN(v, i, from)->text),
                   .to = scenario__point_row(v, RUN(v, i, to)->text),
                   .kind = scenario__run_kind(v, i)},
        .role = role_of(v, i),
        .of = (int)scenario__cell_or(RUN(v, i, of), 1) - 1};

    if (opens_in_room(v, i))
        r.of = room_of(v, i);
    if (r.branch.kind == DEW_BRANCH_FIXED && !pressure->given)
        r.branch.kind = DEW_BRANCH_DUCT;
    if (r.branch.kind == DEW_BRANCH_DUCT)
        r.branch.duct = duct_of(v, i);
    if (pressure->given && at->given) {
        r.branch.flow = at->amount.si / sqrt(pressure->amount.si);
        r.branch.power = 0.5;
    }
    if (r.branch.kind == DEW_BRANCH_BACKDRAFT)
        r.branch.leak = scenario__cell_or(RUN(v, i, leak), leak);
    return r;
}

int scenario__written_make(struct scenario__arena *arena,
                           const struct dew_value *v,
                           const struct dew_duct_written **out)
{
    size_t n = v[KEY_ducts_points].count, m = v[KEY_ducts_runs].count;
    struct dew_duct_written *w = scenario__arena_take(arena, sizeof *w);
    struct dew_duct_point *points =
        scenario__arena_take(arena, (n + 1) * sizeof *points);
    struct dew_duct_run *runs = scenario__arena_take(arena, m * sizeof *runs);

    if (w == NULL || points == NULL || runs == NULL)
        return 0;
    for (size_t i = 0; i < n; i++)
        points[i] = (struct dew_duct_point){
            POINT(v, i, name)->text,
            (enum dew_duct_place)POINT(v, i, place)->choice};
    for (size_t i = 0; i < m; i++)
        runs[i] = run_of(v, (int)i);
    *w = (struct dew_duct_written){points, n, runs, m};
    *out = w;
    return 1;
}
