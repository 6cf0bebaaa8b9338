/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the fresh air is in a network whose flows are known. */
#include <math.h>
#include <string.h>

#include "core/num.h"
#include "ducts/opened.h"

static double *cell(struct dew_ducts *d, size_t row, size_t column)
{
    return &d->matrix[row * d->n + column];
}

/* Outdoor air that a unit of an idle ventilator lets in, either side. */
static int lets_in(const struct dew_duct_run *r, double q)
{
    return (r->role == DEW_ROLE_FRESH_UNIT && q > 0.0) ||
           (r->role == DEW_ROLE_STALE_UNIT && q < 0.0);
}

static void arrive(struct dew_ducts *d, const struct dew_duct_run *r, double q)
{
    size_t up = q > 0.0 ? r->branch.from : r->branch.to;
    size_t down = q > 0.0 ? r->branch.to : r->branch.from;
    int running = d->vent != DEW_VENT_OFF;
    double back, amount = fabs(q);

    if (d->points[down].place != DEW_PLACE_DUCT)
        return;
    *cell(d, down, down) += amount;
    if (running && r->role == DEW_ROLE_FRESH_UNIT && q > 0.0) {
        size_t stale = ducts__find(d, DEW_ROLE_STALE_UNIT, r->of);

        back = d->layout.vents[r->of].eatr;
        d->right[down] += amount * (1.0 - back);
        if (stale < d->m && dew_ducts_network_flow(d->network, stale) > 0.0)
            *cell(d, down, d->runs[stale].branch.from) -= amount * back;
    } else if (!running && lets_in(r, q)) {
        d->right[down] += amount;
    } else {
        *cell(d, down, up) -= amount;
    }
}

/* Air mixed back and forth between the two taps of one return duct. */
static void mix_taps(struct dew_ducts *d)
{
    const struct dew_duct_range *r = &d->layout.mixing;
    double share = d->layout.reading == DEW_DUCT_LOW    ? r->low
                   : d->layout.reading == DEW_DUCT_HIGH ? r->high
                                                        : r->likely;

    for (int k = 0; k < d->layout.handler_count; k++) {
        size_t in = ducts__find(d, DEW_ROLE_FRESH_TIE, k);
        size_t out = ducts__find(d, DEW_ROLE_STALE_TIE, k);
        size_t a, b;
        double swap;

        if (in == d->m || out == d->m ||
            d->layout.kind != DEW_LAYOUT_return_tie)
            continue;
        a = d->runs[in].branch.to;
        b = d->runs[out].branch.from;
        swap = share * fmax(dew_ducts_network_flow(d->network, in), 0.0);
        if (d->points[a].place != DEW_PLACE_DUCT)
            continue;
        *cell(d, a, a) += swap;
        *cell(d, a, b) -= swap;
        *cell(d, b, b) += swap;
        *cell(d, b, a) -= swap;
    }
}

/* What arrives at every point, mixed, into out. */
static enum dew_status mixed(struct dew_ducts *d, double *out,
                             struct dew_error *err)
{
    const double nothing = 1e-15; /* m3/s, below what the solver tells apart */

    mix_taps(d);
    for (size_t k = 0; k < d->n; k++)
        if (!(*cell(d, k, k) > nothing)) {
            memset(cell(d, k, 0), 0, d->n * sizeof *d->matrix);
            *cell(d, k, k) = 1.0;
            d->right[k] = 0.0;
        }
    memcpy(out, d->right, d->n * sizeof *out);
    return core__solve(d->matrix, out, d->work, d->n, err);
}

static void begin(struct dew_ducts *d)
{
    memset(d->matrix, 0, d->n * d->n * sizeof *d->matrix);
    memset(d->right, 0, d->n * sizeof *d->right);
}

/*
 * Share of fresh air at every point: what arrives, mixed.  Rooms and outdoors
 * send none: fresh air is counted until it first reaches a room.  With the
 * ventilator off, of unplanned outdoor air instead.
 */
enum dew_status ducts__trace(struct dew_ducts *d, struct dew_error *err)
{
    enum dew_status status;

    begin(d);
    for (size_t i = 0; i < d->m; i++)
        arrive(d, &d->runs[i], dew_ducts_network_flow(d->network, i));
    status = mixed(d, d->fresh, err);
    for (size_t k = 0; k < d->n; k++) /* rounding */
        d->fresh[k] = fmin(fmax(d->fresh[k], 0.0), 1.0);
    return status;
}

/* Share of fresh air in what flows through run i. */
double ducts__share(const struct dew_ducts *d, size_t i)
{
    const struct dew_duct_branch *b = &d->runs[i].branch;
    double q = dew_ducts_network_flow(d->network, i);

    if (d->runs[i].role == DEW_ROLE_FRESH_UNIT && q > 0.0)
        return d->fresh[b->to];
    return d->fresh[q > 0.0 ? b->from : b->to];
}

/* ---- what leaks draw in, and what a handler gives its air ------------------ */

/* What run r adds to each unit of its air, of what is traced. */
static double added(const struct dew_ducts *d, const struct dew_duct_run *r,
                    size_t up, int handler)
{
    if (handler == DUCTS__DRAWN)
        return d->points[up].place == DEW_PLACE_BUFFER;
    return r->role == DEW_ROLE_BLOWER && r->of == handler;
}

enum dew_status ducts__carry(struct dew_ducts *d, int handler,
                             struct dew_error *err)
{
    begin(d);
    for (size_t i = 0; i < d->m; i++) {
        const struct dew_duct_run *r = &d->runs[i];
        double q = dew_ducts_network_flow(d->network, i);
        size_t up = q > 0.0 ? r->branch.from : r->branch.to;
        size_t down = q > 0.0 ? r->branch.to : r->branch.from;

        if (d->points[down].place != DEW_PLACE_DUCT)
            continue;
        *cell(d, down, down) += fabs(q);
        *cell(d, down, up) -= fabs(q);
        d->right[down] += fabs(q) * added(d, r, up, handler);
    }
    return mixed(d, d->carried, err);
}

double ducts__carries(const struct dew_ducts *d, size_t i)
{
    const struct dew_duct_branch *b = &d->runs[i].branch;
    double q = dew_ducts_network_flow(d->network, i);

    return fabs(q) * d->carried[q > 0.0 ? b->from : b->to];
}
