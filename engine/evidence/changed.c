/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The house as it was, drawn through the weather of the days after a change. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "evidence/evidence.h"

struct drawing {
    struct dew_evidence *e;
    const struct dew_evidence_change_ask *ask;
    struct core__random *random;
    double root[EVIDENCE__MOST * EVIDENCE__MOST]; /* of cu                  */
    double *rh, *pv, *humid;                      /* draws each             */
};

/* An hour that both the log and the house have. */
static int compared(const struct drawing *d, size_t h)
{
    const struct dew_evidence_hour *x = &d->ask->hours[h];

    return !isnan(x->rh + d->e->series.steps[h].base);
}

static void draw_unknowns(const struct drawing *d, double q[EVIDENCE__MOST])
{
    size_t n = d->e->prior.count;
    double z[EVIDENCE__MOST], u[EVIDENCE__MOST];

    for (size_t i = 0; i < n; i++) {
        z[i] = core__random_gaussian(d->random);
        u[i] = d->e->u[i];
        for (size_t k = 0; k <= i; k++)
            u[i] += d->root[i * n + k] * z[k];
    }
    evidence__unknowns(&d->e->prior, u, q);
}

/* The habits at the last hour learned from, where they were s. */
static void draw_habits(const struct drawing *d,
                        const struct evidence__state *s, double *slow,
                        double *quick)
{
    double a = sqrt(s->ss), b = s->sq / a, c = sqrt(fmax(s->qq - b * b, 0.0)),
           z = core__random_gaussian(d->random);

    *slow = s->slow + a * z;
    *quick = s->quick + b * z + c * core__random_gaussian(d->random);
}

/* Sums over the hours compared. */
struct sums {
    double n, rh, pv, humid;
};

static void compare(const struct drawing *d, size_t h, double was,
                    struct sums *s)
{
    double gap = 100.0 * d->ask->hours[h].rh - was;

    s->n += 1;
    s->rh += gap;
    s->pv += gap / d->e->series.steps[h].slope;
    s->humid += was > 100.0 * d->ask->too_humid;
}

static void draw(const struct drawing *d, size_t k)
{
    const struct dew_evidence *e = d->e;
    struct dew_evidence_noise n = evidence__noise_of(e->ln);
    double q[EVIDENCE__MOST], slow, quick,
        keep = exp(-1 / n.slow_hours), pass = exp(-1 / n.quick_hours), season;
    struct sums s = {0, 0, 0, 0};
    struct evidence__state end;

    draw_unknowns(d, q);
    evidence__house(&e->series, q, e->series.count, e->rest);
    end = evidence__end(e, d->ask->hours, e->rest);
    draw_habits(d, &end, &slow, &quick);
    season = core__random_gaussian(d->random);
    for (size_t h = e->series.until; h < e->series.count; h++) {
        double far = (double)(h - e->series.until) + 1.0;

        slow = keep * slow + n.slow * sqrt(1 - keep * keep) *
                                 core__random_gaussian(d->random);
        quick = pass * quick + n.quick * sqrt(1 - pass * pass) *
                                   core__random_gaussian(d->random);
        if (h >= d->ask->from && compared(d, h))
            compare(d, h,
                    e->rest[h] + slow + quick +
                        n.white * core__random_gaussian(d->random) +
                        season * evidence__unseen(&e->series.steps[h], q, far),
                    &s);
    }
    d->rh[k] = s.rh / s.n;
    d->pv[k] = s.pv / s.n;
    d->humid[k] = s.humid;
}

static void tell(const struct drawing *d, size_t hours,
                 struct dew_evidence_change *out)
{
    size_t n = d->ask->draws;

    memset(out, 0, sizeof *out);
    out->days = (double)hours / 24.0;
    for (size_t k = 0; k < n; k++)
        out->drier += (d->rh[k] < 0.0) / (double)n;
    for (size_t h = d->ask->from; h < d->e->series.count; h++)
        out->humid_logged +=
            compared(d, h) && d->ask->hours[h].rh > d->ask->too_humid;
    out->rh = evidence__range(d->rh, n);
    out->pv = evidence__range(d->pv, n);
    out->humid = evidence__range(d->humid, n);
}

static enum dew_status check(const struct drawing *d, size_t *hours,
                             struct dew_error *err)
{
    const struct dew_evidence_change_ask *a = d->ask;

    if (a->draws < 10 || a->draws > 10000 || a->from < d->e->series.until ||
        !(a->too_humid >= 0 && a->too_humid <= 1))
        return core__fail(err, DEW_ERANGE, "a change is asked out of range");

    for (size_t h = a->from; h < d->e->series.count; h++)
        *hours += (size_t)compared(d, h);
    if (*hours < DEW_EVIDENCE_LEAST)
        return core__fail(err, DEW_EMISSING,
                          "%.1f days to compare after the change and the time "
                          "it takes to show: less than %d tell nothing",
                          (double)*hours / 24.0, DEW_EVIDENCE_LEAST / 24);
    return DEW_OK;
}

enum dew_status dew_evidence_changed(struct dew_evidence *evidence,
                                     const struct dew_evidence_change_ask *ask,
                                     struct dew_evidence_change *out,
                                     struct dew_error *err)
{
    struct drawing d = {.e = evidence, .ask = ask};
    size_t hours = 0, n = evidence->prior.count;
    enum dew_status status = check(&d, &hours, err);

    if (status != DEW_OK)
        return status;
    memcpy(d.root, evidence->cu, n * n * sizeof *d.root);
    d.rh = calloc(3 * ask->draws, sizeof *d.rh);
    if (d.rh == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu draws", ask->draws);
    d.pv = d.rh + ask->draws;
    d.humid = d.pv + ask->draws;
    status = core__cholesky(d.root, n, err);
    if (status == DEW_OK)
        status = core__random_open(&d.random, ask->seed, err);
    for (size_t k = 0; k < ask->draws && status == DEW_OK; k++)
        draw(&d, k);
    if (status == DEW_OK)
        tell(&d, hours, out);
    core__random_close(d.random);
    free(d.rh);
    return status;
}
