/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the doubt comes from: a spread of its own, of points laid out so. */
#include "dew/effects.h"

#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/indices.h"
#include "core/num.h"
#include "dew/worth.h"
#include "run/spread.h"

_Static_assert((int)DEW_EFFECTS_LEAST == CORE__INDICES_LEAST,
               "points of an index");

struct dew_effects {
    struct dew_spread t; /* its inputs, years and likely house are borrowed  */
    unsigned char only[RUN__MOST];
    size_t points, groups;
    size_t *order; /* [drawn]  columns, most telling first                   */
    size_t drawn;  /* columns that change a house                            */
};

/* ---- which columns ---------------------------------------------------------------- */

/* A column, and the most that it explains of any option's hours. */
struct telling {
    size_t column;
    double share;
};

static int by_share(const void *a, const void *b)
{
    const struct telling *x = a, *y = b;

    if (x->share > y->share || x->share < y->share)
        return x->share > y->share ? -1 : 1;
    return x->column < y->column ? -1 : x->column > y->column;
}

/* room: [2][draws]. */
static struct telling tell(const struct dew_spread *s, size_t column,
                           const struct dew_effects_ask *ask, double *room)
{
    struct telling t = {column, -INFINITY};
    double *x = room, *y = room + s->draws;

    for (size_t i = 0; i < s->draws; i++)
        x[i] = dew_spread_known(s, column, i);
    for (size_t k = 0; k < ask->option_count; k++) {
        for (size_t i = 0; i < s->draws; i++)
            y[i] = dew_spread_house(s, i, ask->options[k])->too_humid;
        t.share = fmax(t.share, dew_worth_explained(x, y, s->draws, NULL));
    }
    return t;
}

static enum dew_status rank(struct dew_effects *e, const struct dew_spread *s,
                            const struct dew_effects_ask *ask,
                            struct dew_error *err)
{
    struct telling *list = calloc(s->columns, sizeof *list);
    double *room = calloc(2 * s->draws, sizeof *room);
    enum dew_status status = DEW_EMEM;

    e->order = calloc(s->columns, sizeof *e->order);
    if (list != NULL && room != NULL && e->order != NULL) {
        for (size_t c = 0; c < s->columns; c++)
            if (dew_spread_column(s, c).of != DEW_SPREAD_OF_NOTHING)
                list[e->drawn++] = tell(s, c, ask, room);
        qsort(list, e->drawn, sizeof *list, by_share);
        for (size_t c = 0; c < e->drawn; c++)
            e->order[c] = list[c].column;
        status = DEW_OK;
    }
    free(list);
    free(room);
    e->groups = e->drawn > DEW_EFFECTS_ALONE ? DEW_EFFECTS_GROUPS : e->drawn;
    return status == DEW_OK ? DEW_OK
                            : core__fail(err, status, "no memory for indices");
}

/* ---- the points ------------------------------------------------------------------- */

static size_t group_of(size_t place)
{
    return place < DEW_EFFECTS_ALONE ? place : DEW_EFFECTS_ALONE;
}

/* Where the first and the second set of a column stand in the points drawn:
   those told one by one come first, for there a sequence is at its most even. */
static size_t place_of(const struct dew_effects *e, size_t place, int second)
{
    size_t alone = e->drawn < DEW_EFFECTS_ALONE ? e->drawn : DEW_EFFECTS_ALONE;
    size_t rest = e->drawn - alone;

    return place < alone ? place + (second ? alone : 0)
                         : place + alone + (second ? rest : 0);
}

/* The rows of point i: of the first set, the second, and then the first with
   each group taken from the second.  v: [2 * drawn]. */
static void lay(struct dew_effects *e, size_t i, const double *v)
{
    for (size_t set = 0; set < 2 + e->groups; set++) {
        double *u = e->t.u + (set * e->points + i) * e->t.columns;

        for (size_t c = 0; c < e->t.columns; c++)
            u[c] = 0.5; /* of what changes nothing                          */
        for (size_t c = 0; c < e->drawn; c++) {
            int second = set == 1 || (set > 1 && group_of(c) == set - 2);

            u[e->order[c]] = v[place_of(e, c, second)];
        }
    }
}

/* Whether all houses of point i keep the rules between keys. */
static enum dew_status stands(const struct dew_effects *e, size_t i,
                              struct dew_change *list, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t set = 0; set < 2 + e->groups && status == DEW_OK; set++)
        status = run__spread_agrees(&e->t, 1 + set * e->points + i, list, err);
    return status;
}

/* Of further points the next that stand, where some do not. */
static enum dew_status lay_all(struct dew_effects *e, const double *v,
                               size_t count, struct dew_change *list,
                               struct dew_error *err)
{
    size_t next = 0;

    for (size_t i = 0; i < e->points; i++) {
        struct dew_error rule = {0};
        enum dew_status status = DEW_ERANGE;

        while (status == DEW_ERANGE && next < count) {
            rule = (struct dew_error){0};
            lay(e, i, v + next++ * 2 * e->drawn);
            status = stands(e, i, list, &rule);
        }
        if (status != DEW_OK) {
            core__in(err, rule.path);
            return core__fail(err, status,
                              "%.150s (so in too many houses: narrow the "
                              "ranges)",
                              rule.text);
        }
    }
    return DEW_OK;
}

static enum dew_status make_points(struct dew_effects *e, struct dew_error *err)
{
    const struct core__draws d = {4 * e->points, 2 * e->drawn, e->t.seed};
    double *v = calloc(d.count * d.columns + 1, sizeof *v);
    struct dew_change *list = calloc(e->t.columns + 1, sizeof *list);
    enum dew_status status;

    e->t.draws = e->points * (2 + e->groups);
    e->t.u = calloc(e->t.draws * e->t.columns, sizeof *e->t.u);
    e->t.figures = calloc(e->t.draws * e->t.columns, sizeof *e->t.figures);
    e->t.houses = calloc((1 + e->t.draws) * e->t.options, sizeof *e->t.houses);
    status = v != NULL && list != NULL && e->t.u != NULL &&
                     e->t.figures != NULL && e->t.houses != NULL
                 ? core__draw(&d, v, err)
                 : core__fail(err, DEW_EMEM, "no memory for indices");
    if (status == DEW_OK)
        status = lay_all(e, v, d.count, list, err);
    free(v);
    free(list);
    return status;
}

/* ---- opening ---------------------------------------------------------------------- */

static enum dew_status check(const struct dew_spread *s,
                             const struct dew_effects_ask *ask,
                             struct dew_error *err)
{
    if (ask->points < DEW_EFFECTS_LEAST || ask->points > DEW_EFFECTS_MOST)
        return core__fail(err, DEW_ERANGE, "%zu points are outside %d .. %d",
                          ask->points, DEW_EFFECTS_LEAST, DEW_EFFECTS_MOST);
    if (s->marched < 1 + s->draws || s->draws < DEW_WORTH_LEAST)
        return core__fail(err, DEW_ERANGE,
                          "what counts is told by %d draws or more, all "
                          "marched",
                          DEW_WORTH_LEAST);
    for (size_t k = 0; k < ask->option_count; k++)
        if (ask->options[k] >= s->options)
            return core__fail(err, DEW_ERANGE, "there is no option %zu",
                              ask->options[k] + 1);
    return ask->option_count > 0
               ? DEW_OK
               : core__fail(err, DEW_ERANGE, "name an option");
}

enum dew_status dew_effects_open(struct dew_effects **effects,
                                 const struct dew_spread *s,
                                 const struct dew_effects_ask *ask,
                                 struct dew_error *err)
{
    enum dew_status status = check(s, ask, err);
    struct dew_effects *e;

    *effects = NULL;
    if (status != DEW_OK)
        return status;
    e = calloc(1, sizeof *e);
    if (e == NULL)
        return core__fail(err, DEW_EMEM, "no memory for indices");
    e->t = *s;
    e->t.u = NULL;
    e->t.figures = NULL;
    e->t.houses = NULL;
    e->t.order = NULL;
    e->t.marched = 1; /* the likely house                                   */
    e->t.only = e->only;
    e->points = ask->points;
    for (size_t k = 0; k < ask->option_count; k++)
        e->only[ask->options[k]] = 1;
    status = rank(e, s, ask, err);
    if (status == DEW_OK)
        status = make_points(e, err);
    if (status == DEW_OK)
        *effects = e;
    else
        dew_effects_close(e);
    return status;
}

void dew_effects_close(struct dew_effects *e)
{
    if (e == NULL)
        return;
    free(e->t.u);
    free(e->t.figures);
    free(e->t.houses);
    free(e->t.order);
    free(e->order);
    free(e);
}

enum dew_status dew_effects_step(struct dew_effects *e, double *done,
                                 struct dew_error *err)
{
    return dew_spread_step(&e->t, done, err);
}

/* ---- what they are ---------------------------------------------------------------- */

size_t dew_effects_groups(const struct dew_effects *e)
{
    return e->groups;
}

size_t dew_effects_column(const struct dew_effects *e, size_t group)
{
    return group < DEW_EFFECTS_ALONE ? e->order[group] : e->t.columns;
}

static struct dew_effect_share share(const struct core__effect *x)
{
    return (struct dew_effect_share){x->is, x->low, x->high};
}

enum dew_status dew_effects_of(const struct dew_effects *e, size_t option,
                               struct dew_effect *effect, struct dew_error *err)
{
    struct core__index index[DEW_EFFECTS_GROUPS];
    struct core__results r = {.n = e->points, .groups = e->groups};
    double *humid;
    enum dew_status status;

    if (option >= e->t.options || !e->only[option] ||
        e->t.marched < 1 + e->t.draws)
        return core__fail(err, DEW_ERANGE, "option %zu is not marched",
                          option + 1);
    humid = calloc(e->t.draws, sizeof *humid);
    if (humid == NULL)
        return core__fail(err, DEW_EMEM, "no memory for indices");
    for (size_t i = 0; i < e->t.draws; i++)
        humid[i] = dew_spread_house(&e->t, i, option)->too_humid;
    r.a = humid;
    r.b = humid + e->points;
    r.ab = humid + 2 * e->points;
    status = core__indices(&r, index, err);
    for (size_t g = 0; g < e->groups && status == DEW_OK; g++)
        effect[g] =
            (struct dew_effect){share(&index[g].first), share(&index[g].total)};
    free(humid);
    return status;
}
