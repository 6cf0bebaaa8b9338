/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One figure tried over a curve, and closed in on by halving. */
#include <math.h>
#include <string.h>

#include "core/fail.h"
#include "run/size.h"

#define COUNTS DEW_SIZE_LIMITS

/* By what a figure is judged, how near it is told, and which end is the size. */
static const struct knob {
    unsigned breaks;      /* bit of each enum dew_drawn_what               */
    double near, percent; /* SI, or so many percent of it, the wider         */
    int most;             /* 1: the greatest that will do                    */
} knobs[DEW_SIZE_KNOBS] = {
    [DEW_SIZE_flow] = {(1u << COUNTS) - 1, 1 * RUN__CFM, 3, 0},
    [DEW_SIZE_boost] = {(1u << COUNTS) - 1, 1 * RUN__CFM, 3, 0},
    [DEW_SIZE_dehumidifier] = {1u << DEW_DRAWN_too_humid, RUN__PINT_A_DAY, 0,
                               0},
    [DEW_SIZE_set_point] = {1u << DEW_DRAWN_too_humid, 0.01, 0, 1},
    [DEW_SIZE_together] = {(1u << COUNTS) - 1, 1 * RUN__CFM, 3, 0},
    [DEW_SIZE_humidifier] = {1u << DEW_DRAWN_too_dry |
                                 1u << DEW_DRAWN_glass_wet,
                             0.01, 0, 0},
};

/* ---- judging a figure --------------------------------------------------------- */

static unsigned broken(const struct dew_size *s, const struct dew_drawn *h)
{
    unsigned bits = h->ventilates ? 0 : 1u << DEW_DRAWN_short_of_air;

    for (int k = 0; k < COUNTS; k++)
        if (k != DEW_DRAWN_short_of_air &&
            dew_drawn_figure(h, (enum dew_drawn_what)k) > s->target.hours)
            bits |= 1u << k;
    return bits;
}

static void judge(const struct dew_size *s, const struct run__size_curve *c,
                  struct dew_size_point *p)
{
    struct dew_spread *spread = s->cores[c->told.core].spread;
    const struct dew_draws *draws = dew_spread_draws(spread);

    for (size_t i = 0; i < c->told.houses; i++) {
        unsigned bits = broken(s, dew_spread_house(spread, i, 0));

        for (int k = 0; k < COUNTS; k++)
            p->fails[k] += bits >> k & 1;
        p->does += (bits & knobs[c->told.knob].breaks) == 0;
    }
    for (int k = 0; k < COUNTS; k++)
        p->hours[k] = dew_draws_range(draws, 0, (enum dew_drawn_what)k);
    p->enough = p->does >= c->told.need;
}

static void put(struct run__size_curve *c, const struct dew_size_point *p)
{
    size_t at = c->told.count++;

    while (at > 0 && c->points[at - 1].value > p->value) {
        c->points[at] = c->points[at - 1];
        at--;
    }
    c->points[at] = *p;
}

enum dew_status run__size_try(struct dew_size *s, struct run__size_curve *c,
                              double value, struct dew_error *err)
{
    struct dew_spread *spread = s->cores[c->told.core].spread;
    const struct dew_changes held = run__size_changes(s, c, value);
    struct dew_size_point p = {.value = value,
                               .halved = c->tried >= c->grid_count};
    enum dew_status status = DEW_OK;
    double done = 0;

    dew_spread_fix(spread, &held);
    while (done < 1 && status == DEW_OK)
        status = dew_spread_step(spread, &done, err);
    if (status == DEW_OK) {
        judge(s, c, &p);
        put(c, &p);
        if (c->told.knob == DEW_SIZE_flow && !p.halved)
            run__size_keep(s, c->told.core, c->tried);
    }
    dew_spread_fix(spread, NULL); /* the list is the curve's */
    return status;
}

/* ---- what the points say ------------------------------------------------------- */

/* The first point that brings the air asked for; count where none does. */
static size_t first_with_air(const struct run__size_curve *c)
{
    size_t i = 0;

    while (i < c->told.count &&
           c->told.houses - c->points[i].fails[DEW_DRAWN_short_of_air] <
               c->told.need)
        i++;
    return i;
}

/* The stretch that holds the size: points from .. to, 0 where none is. */
static int stretch(const struct run__size_curve *c, size_t *from, size_t *to)
{
    size_t n = c->told.count;
    int found = 0;

    for (size_t i = 0; i < n; i++) {
        if (!c->points[i].enough || (i > 0 && c->points[i - 1].enough))
            continue;
        *from = i;
        for (*to = i; *to + 1 < n && c->points[*to + 1].enough;)
            ++*to;
        found = 1;
        if (!knobs[c->told.knob].most)
            break;
    }
    return found;
}

/* The middle between points i - 1 and i, where they are not near. */
static int between(const struct run__size_curve *c, size_t i, double *value)
{
    const struct knob *k = &knobs[c->told.knob];
    double low, high;

    if (i == 0 || i >= c->told.count)
        return 0;
    low = c->points[i - 1].value;
    high = c->points[i].value;
    if (high - low <= fmax(k->near, 0.01 * k->percent * high) * (1 + 1e-9))
        return 0;
    *value = 0.5 * (low + high);
    return 1;
}

int run__size_next(const struct run__size_curve *c, double *value)
{
    size_t from, to;

    if (c->tried < c->grid_count) {
        *value = c->grid[c->tried];
        return 1;
    }
    if (c->told.count == RUN__SIZE_POINTS)
        return 0;
    if (stretch(c, &from, &to) &&
        (between(c, from, value) || between(c, to + 1, value)))
        return 1;
    return c->told.knob == DEW_SIZE_flow &&
           between(c, first_with_air(c), value);
}

/* ---- telling --------------------------------------------------------------------- */

static size_t stretches(const struct run__size_curve *c)
{
    size_t count = 0;

    for (size_t i = 0; i < c->told.count; i++)
        count += c->points[i].enough && (i == 0 || !c->points[i - 1].enough);
    return count;
}

static size_t all_fails(const struct run__size_curve *c,
                        const struct dew_size_point *p)
{
    size_t sum = 0;

    for (int k = 0; k < COUNTS; k++)
        if (knobs[c->told.knob].breaks >> k & 1)
            sum += p->fails[k];
    return sum;
}

/* Most houses; of as many, fewest limits broken; of as many, the lesser one. */
static size_t nearest(const struct run__size_curve *c)
{
    const struct dew_size_point *p = c->points;
    size_t best = 0;

    for (size_t i = 1; i < c->told.count; i++)
        if (p[i].does > p[best].does ||
            (p[i].does == p[best].does &&
             all_fails(c, &p[i]) < all_fails(c, &p[best])))
            best = i;
    return best;
}

static enum dew_drawn_what most_broken(const struct run__size_curve *c,
                                       const struct dew_size_point *p)
{
    unsigned judged = knobs[c->told.knob].breaks;
    int worst = 0;

    while (!(judged >> worst & 1))
        worst++;
    for (int k = worst + 1; k < COUNTS; k++)
        if (judged >> k & 1 && p->fails[k] > p->fails[worst])
            worst = k;
    return (enum dew_drawn_what)worst;
}

void run__size_tell(struct run__size_curve *c)
{
    struct dew_size_curve *t = &c->told;
    size_t from = 0, to = 0, air = first_with_air(c);

    t->points = c->points;
    t->found = stretch(c, &from, &to);
    t->low = t->found ? c->points[from].value : NAN;
    t->high = t->found ? c->points[to].value : NAN;
    t->at_first = t->found && from == 0;
    t->at_last = t->found && to + 1 == t->count;
    t->stretches = stretches(c);
    t->air =
        t->knob == DEW_SIZE_flow && air < t->count ? c->points[air].value : NAN;
    t->nearest = nearest(c);
    t->breaks = t->count > 0 ? most_broken(c, &c->points[t->nearest])
                             : DEW_DRAWN_too_humid;
}

/* The hours of the middle house, or of the one as told. */
static double middle(const struct dew_size_point *p, enum dew_drawn_what what)
{
    return isnan(p->hours[what].p50) ? p->hours[what].told : p->hours[what].p50;
}

double dew_size_turn(const struct dew_size_curve *c, enum dew_drawn_what what)
{
    const double seen = 24; /* h   less is no turn: our own */
    size_t least = 0;

    for (size_t i = 1; i < c->count; i++)
        if (middle(&c->points[i], what) < middle(&c->points[least], what))
            least = i;
    return c->count > 0 && middle(&c->points[c->count - 1], what) >
                               middle(&c->points[least], what) + seen
               ? c->points[least].value
               : NAN;
}
