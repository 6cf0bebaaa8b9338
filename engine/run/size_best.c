/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which core is the better one at each airflow, house by house. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "run/size.h"
#include "run/spread.h"

static const double seen = 24; /* h   less is no difference: our own */

/* ---- the same draws ---------------------------------------------------------- */

/* What a column stands for is the same of both: the key, the year, the model. */
static int same_column(const struct dew_spread *a, size_t i,
                       const struct dew_spread *b, size_t k)
{
    const struct dew_spread_column x = dew_spread_column(a, i);
    const struct dew_spread_column y = dew_spread_column(b, k);

    return x.of == y.of &&
           (x.of != DEW_SPREAD_OF_INPUT || x.input->key == y.input->key);
}

/* Column k of another core takes what the first has drawn for the same figure;
   one that it alone has keeps its own. */
static void take_column(const struct dew_spread *first, struct dew_spread *s,
                        size_t k)
{
    for (size_t i = 0; i < first->columns; i++)
        if (same_column(first, i, s, k))
            for (size_t d = 0; d < s->draws; d++)
                s->u[d * s->columns + k] = first->u[d * first->columns + i];
}

/* Where draws broke a rule between keys, and others stand in their place, the
   two sets are left as they are. */
static void share_draws(const struct dew_spread *first, struct dew_spread *s)
{
    if (first->draws != s->draws || first->anew_count + s->anew_count > 0)
        return;
    for (size_t k = 0; k < s->columns; k++)
        take_column(first, s, k);
}

enum dew_status run__size_pair(struct dew_size *s, struct dew_error *err)
{
    const struct dew_spread *first = NULL;

    for (int k = 0; k < DEW_SIZE_CORES; k++) {
        struct run__size_core *core = &s->cores[k];
        size_t room = RUN__SIZE_GRID * core->draws;

        if (core->run == NULL || core->draws == 0)
            continue;
        core->outside = malloc(room * sizeof *core->outside);
        if (core->outside == NULL)
            return core__fail(err, DEW_EMEM, "out of memory");
        for (size_t i = 0; i < room; i++)
            core->outside[i] = NAN;
        if (first == NULL)
            first = core->spread;
        else
            share_draws(first, core->spread);
    }
    return DEW_OK;
}

/* ---- what is kept -------------------------------------------------------------- */

void run__size_keep(struct dew_size *s, enum dew_size_core which, size_t i)
{
    struct run__size_core *core = &s->cores[which];

    for (size_t d = 0; d < core->draws; d++) {
        const struct dew_drawn *h = dew_spread_house(core->spread, d, 0);

        core->outside[i * core->draws + d] =
            h->too_humid + h->too_dry + h->glass_wet;
    }
}

/* ---- which is better ------------------------------------------------------------- */

static int has(const struct dew_size *s, int k, size_t draws)
{
    return s->cores[k].outside != NULL && s->cores[k].draws == draws;
}

/* One house at airflow i: into best or alike. */
static void weigh(const struct dew_size *s, size_t i, size_t d, size_t draws,
                  struct dew_size_best *out)
{
    double least = INFINITY, next = INFINITY;
    int who = 0;

    for (int k = 0; k < DEW_SIZE_CORES; k++) {
        double h = has(s, k, draws) ? s->cores[k].outside[i * draws + d] : NAN;

        if (h < least) {
            next = least;
            least = h;
            who = k;
        } else if (h < next) {
            next = h;
        }
    }
    if (!(next < INFINITY))
        return;
    out->houses++;
    if (next - least < seen)
        out->alike++;
    else
        out->best[who]++;
}

int dew_size_best(const struct dew_size *s, size_t i, struct dew_size_best *out)
{
    double flows[RUN__SIZE_GRID];
    size_t count = run__size_flows(s, flows), draws = s->target.draws;

    for (size_t at = 0; at < count; at++) {
        *out = (struct dew_size_best){.flow = flows[at]};
        for (size_t d = 0; d < draws; d++)
            weigh(s, at, d, draws, out);
        if (out->houses > 0 && i-- == 0)
            return 1;
    }
    return 0;
}
