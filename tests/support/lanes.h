/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sixteen houses in lanes: the march's own step, with one air path and no
 * equipment but heating, over arrays made from the same lists.  Every copy
 * goes member by member: gcc 12 gives up a vector loop over a struct that it
 * cannot take apart.
 */
#ifndef DEW_TESTS_LANES_H
#define DEW_TESTS_LANES_H

#include "march/step.h"

enum { LANES = 16 };

#define LANE_ARRAY(name) double name[LANES];
#define LANE_STRUCT(tag, MAP)                                                  \
    struct tag {                                                               \
        MAP(LANE_ARRAY)                                                        \
    }
LANE_STRUCT(lanes, DEW_LANE_MAP);
LANE_STRUCT(drives, DEW_DRIVE_MAP);
LANE_STRUCT(blends, DEW_BLEND_MAP);
LANE_STRUCT(states, DEW_STATE_MAP);
LANE_STRUCT(terms, DEW_TERMS_MAP);

struct bundle {
    struct lanes lane;
    struct drives drive;
    struct blends blend;
    struct states x;
    struct terms k;
};

#define LANE_GET(name) y->name = from->name[i];
#define LANE_PUT(name) to->name[i] = y->name;
#define LANE_PAIR(tag, one, MAP)                                               \
    DEW_LANE void get_##tag(const struct tag *from, int i, struct one *y){     \
        MAP(LANE_GET)} DEW_LANE void put_##tag(struct tag *to, int i,          \
                                               const struct one *y)            \
    {                                                                          \
        MAP(LANE_PUT)                                                          \
    }
LANE_PAIR(lanes, march__lane, DEW_LANE_MAP)
LANE_PAIR(drives, march__drive, DEW_DRIVE_MAP)
LANE_PAIR(blends, march__blend, DEW_BLEND_MAP)
LANE_PAIR(states, dew_state, DEW_STATE_MAP)
LANE_PAIR(terms, march__terms, DEW_TERMS_MAP)

#define LANE_ZERO_COIL(name)  n->c1.name = n->c2.name = n->c3.name = 0.0;
#define LANE_ZERO_BLEND(name) n->blend.name = 0.0;

/* One whole step of one house: the same text for both. */
DEW_LANE struct dew_state lane_step(struct march__now *n,
                                    struct march__terms *k,
                                    const struct dew_state *x,
                                    const struct dew_path *path, double dt)
{
    struct march__terms guess = march__sources(n, k, x->owed_q / dt);
    struct march__duty duty;
    struct dew_state at = march__predict(n, &guess, x, dt, &duty);
    struct march__sum sum;

    DEW_BLEND_MAP(LANE_ZERO_BLEND)
    march__blend_state(&n->blend, path, n->lane.rho, 1.0, 0.0,
                       march__natural(&n->lane, at.t_air, &n->mid));
    *k = march__settle(n, &at, &duty, x->owed_q / dt, 1.0 / dt);
    return march__finish(n, k, x, dt, &sum);
}

/* One step of lane i.  A function of its own: what a simd loop's own body
   declares gcc keeps in memory, and then it does not vectorise. */
DEW_LANE void bundle_lane(struct bundle *b, int i, const struct dew_hour *mid,
                          const struct dew_path *path, double dt)
{
    struct march__now now, *n = &now;
    struct dew_state x, y;
    struct march__terms k;

    n->bundled = 1;
    n->mid.t = mid->t;
    n->mid.w = mid->w;
    n->mid.p = mid->p;
    n->mid.wind = mid->wind;
    DEW_COIL_MAP(LANE_ZERO_COIL)
    get_lanes(&b->lane, i, &n->lane);
    get_drives(&b->drive, i, &n->drive);
    get_blends(&b->blend, i, &n->blend);
    get_states(&b->x, i, &x);
    get_terms(&b->k, i, &k);
    y = lane_step(n, &k, &x, path, dt);
    put_states(&b->x, i, &y);
    put_terms(&b->k, i, &k);
    put_blends(&b->blend, i, &n->blend);
}

/* One step of all sixteen. */
DEW_LANE void bundle_step(struct bundle *restrict b, const struct dew_hour *mid,
                          const struct dew_path *path, double dt)
{
#pragma omp simd
    for (int i = 0; i < LANES; i++)
        bundle_lane(b, i, mid, path, dt);
}

#endif
