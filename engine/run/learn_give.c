/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The houses that a log leaves in the place of a spread's draws. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/learn.h"

enum { SPARE = 512 }; /* a power of two */

size_t run__learn_pick(const struct dew_learn *l, size_t cause, double weight,
                       size_t count, size_t *draws)
{
    double below = 0;
    size_t n = 0;

    for (size_t d = 0; d < l->draws; d++) {
        if (run__learn_has(l, d, cause))
            below += l->rounds->weights[d] / weight;
        while (n < count && ((double)n + 0.5) / (double)count < below)
            draws[n++] = d;
    }
    return n;
}

/* ---- a share of one range in another ------------------------------------------------ */

/* A column of the spread and what was learned of its key; learned NULL: nothing. */
struct column {
    const struct dew_spread_input *learned, *to;
    size_t at;
    double times, plus; /* from a figure of learned to one of to             */
    int same;           /* 1: they have one range                            */
    double low, high;   /* of to                                             */
};

static const struct dew_spread_input *learned_of(const struct dew_learn *l,
                                                 size_t key)
{
    const struct dew_spread *s = l->doubts;

    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].key == key && s->inputs[k].why == DEW_SPREAD_DRAWN)
            return &s->inputs[k];
    return NULL;
}

static int alike(const struct dew_learn *l, const struct dew_spread *to,
                 const struct column *c)
{
    for (int k = 0; k <= 2; k++) {
        double share = 0.5 * k,
               off = run__spread_at(l->doubts, c->learned, 0, share) -
                     run__spread_at(to, c->to, 0, share);

        if (fabs(off) > 0)
            return 0;
    }
    return 1;
}

/* A figure that was worked out is written as a range of its own. */
static int meet(const struct dew_learn *l, const struct dew_spread *to,
                struct column *c)
{
    enum dew_doubt how = run__spread_how(l->doubts, c->learned, 0),
                   there = run__spread_how(to, c->to, 0);
    double usual = dew_scenario_worked(
        dew_scenario_values(l->run->scenario, l->run->options[0].at),
        c->learned->key);

    c->times = 1;
    c->plus = 0;
    c->same = how == there && (how == DEW_DOUBT_WORDS || alike(l, to, c));
    c->low = run__spread_at(to, c->to, 0, 0);
    c->high = run__spread_at(to, c->to, 0, 1);
    if (how == there)
        return 1;
    if (there != DEW_DOUBT_RANGE || !isfinite(usual))
        return 0;
    if (how == DEW_DOUBT_TIMES)
        c->times = usual;
    else
        c->plus = usual;
    return how == DEW_DOUBT_TIMES || how == DEW_DOUBT_STEP;
}

static double within(double share)
{
    const double least = 1e-12;

    return fmin(fmax(share, least), 1 - least);
}

enum { HALVINGS = 40 };

/* The share of to's range at which the figure of a share of learned's is; one
   beyond it is at its end. */
static double share_in(const struct dew_learn *l, const struct dew_spread *to,
                       const struct column *c, double share, size_t *beyond)
{
    double low = 0, high = 1, figure;

    if (c->same)
        return share;
    figure =
        c->plus + c->times * run__spread_at(l->doubts, c->learned, 0, share);
    *beyond += figure < c->low || figure > c->high;
    for (int i = 0; i < HALVINGS; i++) {
        double mid = 0.5 * (low + high);

        if (run__spread_at(to, c->to, 0, mid) < figure)
            low = mid;
        else
            high = mid;
    }
    return within(0.5 * (low + high));
}

/* ---- houses ------------------------------------------------------------------------- */

struct giving {
    const struct dew_learn *l;
    struct dew_spread *to;
    struct column *columns;
    size_t count;
    size_t *draws;            /* [to->draws] that are given                   */
    size_t *others, at, step; /* [spare] in the place of such as break a rule */
    size_t spare;
    struct dew_change *list;
    size_t *beyond;
};

static void pick_all(const struct dew_learn *l, size_t count, size_t *draws)
{
    size_t n = run__learn_pick(l, RUN__LEARN_CAUSES, 1, count, draws);

    while (n < count) /* the last, where rounding left it out */
        draws[n++] = l->draws - 1;
}

static void list_columns(struct giving *g)
{
    for (size_t c = 0; c < dew_spread_columns(g->to); c++) {
        struct column *x = &g->columns[g->count];

        *x = (struct column){.to = dew_spread_column(g->to, c).input, .at = c};
        if (x->to != NULL)
            x->learned = learned_of(g->l, x->to->key);
        if (x->learned != NULL && meet(g->l, g->to, x))
            g->count++;
    }
}

/* The house of a draw in the place of another; what was not learned stays. */
static void put(const struct giving *g, size_t place, size_t draw)
{
    const double *z = evidence__rounds_at(g->l->rounds, draw);

    for (size_t c = 0; c < g->count; c++) {
        const struct column *x = &g->columns[c];

        g->to->u[place * g->to->columns + x->at] = share_in(
            g->l, g->to, x, run__learn_share(z[x->learned->column]), g->beyond);
    }
}

/* Another, from all over the weights: a step of near the golden section that
   has no divisor in common with their number, a power of two. */
static size_t another(struct giving *g)
{
    g->step++;
    g->at = (g->at + 5 * g->spare / 8 + 1) % g->spare;
    return g->others[g->at];
}

/* In the place of a house that breaks a rule in some option others until one
   keeps them all. */
static enum dew_status keep_rules(struct giving *g, size_t place,
                                  size_t *broken, struct dew_error *err)
{
    struct dew_error rule = {0};
    enum dew_status status =
        run__spread_agrees(g->to, 1 + place, g->list, &rule);

    if (status != DEW_ERANGE)
        return status == DEW_OK ? DEW_OK : (*err = rule, status);
    ++*broken;
    run__spread_note(g->to, &rule);
    while (status == DEW_ERANGE && g->step < g->spare) {
        put(g, place, another(g));
        status = run__spread_agrees(g->to, 1 + place, g->list, &rule);
    }
    return status == DEW_ERANGE ? run__spread_too_many(g->to, *broken, err)
                                : status;
}

static enum dew_status give(struct giving *g, struct dew_error *err)
{
    size_t broken = 0;
    enum dew_status status = DEW_OK;

    pick_all(g->l, g->to->draws, g->draws);
    pick_all(g->l, g->spare, g->others);
    list_columns(g);
    memset(g->to->anew, 0, sizeof g->to->anew); /* of the draws by seed */
    g->to->anew_count = 0;
    for (size_t i = 0; i < g->to->draws; i++)
        put(g, i, g->draws[i]);
    for (size_t i = 0; i < g->to->draws && status == DEW_OK; i++)
        status = keep_rules(g, i, &broken, err);
    return status == DEW_OK && 2 * broken > g->to->draws
               ? run__spread_too_many(g->to, broken, err)
               : status;
}

const struct dew_run *dew_learn_run(const struct dew_learn *l)
{
    return l->run;
}

enum dew_status dew_learn_give(const struct dew_learn *l, struct dew_spread *to,
                               size_t *beyond, struct dew_error *err)
{
    size_t unused = 0;
    struct giving g = {.l = l,
                       .to = to,
                       .spare = SPARE,
                       .columns = calloc(to->columns + 1, sizeof *g.columns),
                       .draws = calloc(to->draws + SPARE, sizeof *g.draws),
                       .list = calloc(run__spread_room(to), sizeof *g.list),
                       .beyond = beyond != NULL ? beyond : &unused};
    enum dew_status status;

    *g.beyond = 0;
    if (g.columns == NULL || g.draws == NULL || g.list == NULL)
        status = core__fail(err, DEW_EMEM, "no memory for draws");
    else if (!l->done || !l->learned.told)
        status = core__fail(err, DEW_EMISSING,
                            "nothing was learned: no house to give");
    else if (to->marched > 0)
        status = core__fail(err, DEW_ERANGE,
                            "draws that are marched are not to be changed");
    else {
        g.others = g.draws + to->draws;
        status = give(&g, err);
    }
    free(g.columns);
    free(g.draws);
    free(g.list);
    return status;
}
