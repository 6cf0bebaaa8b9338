/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Houses marched through their year, those that branch alike side by side. */
#include <sched.h>
#include <stdlib.h>

#include "core/fail.h"
#include "run/spread.h"

enum dew_status run__crowd_open(struct run__crowd *c, size_t count,
                                struct dew_error *err)
{
    *c = (struct run__crowd){.cases = calloc(count, sizeof *c->cases),
                             .outcomes = calloc(count, sizeof *c->outcomes),
                             .weather = calloc(count, sizeof *c->weather),
                             .held = calloc(count, sizeof *c->held),
                             .gone = calloc(count, 1)};
    if (c->cases != NULL && c->outcomes != NULL && c->weather != NULL &&
        c->held != NULL && c->gone != NULL)
        return DEW_OK;
    return core__fail(err, DEW_EMEM, "no memory for %zu houses", count);
}

void run__crowd_close(struct run__crowd *c)
{
    free(c->cases);
    free(c->outcomes);
    free(c->weather);
    free(c->held);
    free(c->gone);
}

/* Some of them that branch alike, by their places. */
struct flight {
    size_t count, place[DEW_BUNDLE_MOST];
};

enum { YEAR, MONTHS = 12 }; /* tallies of a house: the year, then months */

static enum dew_status open_flight(const struct run__crowd *c,
                                   const struct flight *f,
                                   struct dew_bundle **bundle, size_t *failed,
                                   struct dew_error *err)
{
    const struct dew_case *cases[DEW_BUNDLE_MOST];
    struct dew_weather weather[DEW_BUNDLE_MOST];
    enum dew_status status;

    for (size_t k = 0; k < f->count; k++) {
        cases[k] = &c->cases[f->place[k]];
        weather[k] = c->weather[f->place[k]];
    }
    status = dew_bundle_open(bundle, cases, weather, f->count, 1 + MONTHS, err);
    for (size_t k = 0; k < f->count && status == DEW_OK; k++) {
        dew_bundle_require(*bundle, k, c->outcomes[f->place[k]].required);
        dew_bundle_prescribe_t(*bundle, k, c->held[f->place[k]],
                               weather[k].count);
    }
    return status == DEW_OK ? dew_bundle_warm_up(*bundle, failed, err) : status;
}

static void land(const struct run__crowd *c, const struct flight *f,
                 const struct dew_bundle *bundle)
{
    for (size_t k = 0; k < f->count; k++) {
        struct dew_outcome *o = &c->outcomes[f->place[k]];

        dew_bundle_total(bundle, k, YEAR, &o->year);
        for (size_t m = 0; m < MONTHS; m++)
            dew_bundle_total(bundle, k, 1 + m, &o->month[m]);
    }
}

static enum dew_status fly(const struct run__crowd *c, const struct flight *f,
                           size_t *failed, struct dew_error *err)
{
    const struct dew_weather *w = &c->weather[f->place[0]]; /* dates of all */
    struct dew_bundle *bundle = NULL;
    size_t lane = 0;
    enum dew_status status = open_flight(c, f, &bundle, &lane, err);

    for (size_t h = 0; h < w->count && status == DEW_OK; h++) {
        status = dew_bundle_step(bundle, h, &lane, err);
        dew_bundle_tally(bundle, YEAR);
        dew_bundle_tally(bundle, (size_t)w->dates[h].month);
    }
    if (status == DEW_OK)
        land(c, f, bundle);
    dew_bundle_close(bundle);
    *failed = f->place[lane];
    return status;
}

enum dew_status run__crowd_march(const struct run__crowd *c, size_t first,
                                 size_t count, size_t *failed,
                                 struct dew_error *err)
{
    struct flight f;
    size_t lanes = (size_t)dew_bundle_lanes();
    enum dew_status status = DEW_OK;

    while (status == DEW_OK &&
           (f.count = dew_bundle_next(&c->cases[first], count, lanes,
                                      &c->gone[first], f.place)) > 0) {
        for (size_t k = 0; k < f.count; k++)
            f.place[k] += first;
        status = fly(c, &f, failed, err);
        sched_yield(); /* the page may be asked to stop */
    }
    return status;
}
