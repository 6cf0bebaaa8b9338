/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/evidence.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "evidence/evidence.h"

/* sd below which it is no house's and no weather's: our own. */
static const double STUCK_RH = 0.0025, STUCK_T = 0.25; /* -, K */

/* ---- what is refused --------------------------------------------------------- */

static int within(double x, double low, double high)
{
    return isnan(x) || (x >= low && x <= high);
}

static enum dew_status check_hours(const struct dew_evidence_ask *ask,
                                   struct dew_error *err)
{
    for (size_t h = 0; h < ask->count; h++) {
        const struct dew_evidence_hour *x = &ask->hours[h];

        if (within(x->t_in, -70, 60) && within(x->rh, 0, 1) &&
            within(x->t_out, -70, 60) && within(x->pv_out, 0, 20e3) &&
            x->clock >= 0 && x->clock < 24)
            continue;
        if (err != NULL)
            err->hour = (int)h + 1;
        return core__fail(err, DEW_ERANGE, "a figure is out of its range");
    }
    return DEW_OK;
}

/* The standard deviation of a member of the hours before until. */
static double spread(const struct dew_evidence_ask *ask, size_t member)
{
    double n = 0, sum = 0, squares = 0, first = NAN;

    for (size_t h = 0; h < ask->until; h++) {
        double x = *(const double *)((const char *)&ask->hours[h] + member);

        if (isnan(x))
            continue;
        if (isnan(first))
            first = x;
        n += 1;
        sum += x - first;
        squares += (x - first) * (x - first);
    }
    return sqrt(fmax(squares / n - sum / n * (sum / n), 0.0));
}

static enum dew_status stuck(const char *what, struct dew_error *err)
{
    return core__fail(err, DEW_ERANGE,
                      "the %s stays the same throughout: the sensor is stuck, "
                      "or the column is another",
                      what);
}

static enum dew_status check(const struct dew_evidence_ask *ask,
                             struct dew_error *err)
{
    if (!(ask->prior.level >= 50 && ask->prior.level <= 2000) ||
        !(ask->prior.zero >= 5 && ask->prior.zero <= 40))
        return core__fail(err, DEW_ERANGE,
                          "the excess beforehand is outside "
                          "50 to 2000 Pa or 5 to 40 degC");
    if (ask->until > ask->count)
        return core__fail(err, DEW_ERANGE, "more hours to learn from than are");
    if (check_hours(ask, err) != DEW_OK)
        return DEW_ERANGE;
    if (dew_evidence_whole(ask->hours, ask->until) < DEW_EVIDENCE_LEAST)
        return core__fail(err, DEW_EMISSING,
                          "%.1f days of hours with humidity and temperature "
                          "indoors and out: less than %d days tell nothing",
                          (double)dew_evidence_whole(ask->hours, ask->until) /
                              24.0,
                          DEW_EVIDENCE_LEAST / 24);
    if (spread(ask, offsetof(struct dew_evidence_hour, rh)) < STUCK_RH)
        return stuck("humidity", err);
    if (spread(ask, offsetof(struct dew_evidence_hour, t_out)) < STUCK_T)
        return stuck("outdoor temperature", err);
    return DEW_OK;
}

size_t dew_evidence_whole(const struct dew_evidence_hour *hours, size_t count)
{
    size_t n = 0;

    for (size_t h = 0; h < count; h++) {
        const struct dew_evidence_hour *x = &hours[h];

        n += (size_t)!isnan(x->t_in + x->rh + x->t_out + x->pv_out);
    }
    return n;
}

/* ---- what is told ------------------------------------------------------------- */

/* Of q, from that of u by the prior's root. */
static void covariance(const struct dew_evidence *e, double *c)
{
    size_t n = e->prior.count;
    const double *l = e->prior.root;

    memset(c, 0, sizeof(double) * EVIDENCE__MOST * EVIDENCE__MOST);
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n; j++) {
            double sum = 0;

            for (size_t k = 0; k <= i; k++)
                for (size_t m = 0; m <= j; m++)
                    sum += l[i * n + k] * e->cu[k * n + m] * l[j * n + m];
            c[i * EVIDENCE__MOST + j] = sum;
        }
}

static struct dew_evidence_figure figure(const double *q, const double *c,
                                         size_t i)
{
    return (struct dew_evidence_figure){q[i], sqrt(c[i * EVIDENCE__MOST + i])};
}

struct dew_evidence_range evidence__range(double *x, size_t n)
{
    core__sort(x, n);
    return (struct dew_evidence_range){core__quantile(x, n, 0.1),
                                       core__quantile(x, n, 0.5),
                                       core__quantile(x, n, 0.9)};
}

static void reach(struct dew_evidence *e)
{
    const struct evidence__series *s = &e->series;
    double least = INFINITY, most = -INFINITY;

    for (size_t h = 0; h < s->until; h++) {
        if (isnan(s->hours[h].rh + s->steps[h].base))
            continue;
        least = fmin(least, s->steps[h].mean6);
        most = fmax(most, s->steps[h].mean6);
    }
    e->learned.t_least = least;
    e->learned.t_most = most;
}

static void tell(struct dew_evidence *e)
{
    struct dew_evidence_learned *l = &e->learned;
    double q[EVIDENCE__MOST], *c = l->covariance;

    evidence__unknowns(&e->prior, e->u, q);
    covariance(e, c);
    for (size_t i = 0; i < DEW_EVIDENCE_NODES; i++)
        l->curve[i] = figure(q, c, EVIDENCE__CURVE + i);
    for (size_t i = 0; i < 2; i++)
        l->z[i] = figure(q, c, EVIDENCE__Z + i);
    l->day_cos = figure(q, c, EVIDENCE__DAY);
    l->day_sin = figure(q, c, EVIDENCE__DAY + 1);
    l->young = figure(q, c, EVIDENCE__YOUNG);
    evidence__weights(q, l->weight);
    l->noise = evidence__noise_of(e->ln);
    l->innovation = sqrt(e->white.squares / (double)e->white.count);
    reach(e);
}

struct dew_evidence_figure dew_evidence_excess(
    const struct dew_evidence_learned *l, double t_out)
{
    struct evidence__step step;
    double q[DEW_EVIDENCE_NODES], v;
    const double *c;
    size_t i;

    evidence__place(&step, t_out);
    for (i = 0; i < DEW_EVIDENCE_NODES; i++)
        q[i] = l->curve[i].value;
    i = (size_t)step.node;
    c = l->covariance + i * EVIDENCE__MOST + i;
    v = (1 - step.share) * (1 - step.share) * c[0] +
        2 * step.share * (1 - step.share) * c[1] +
        step.share * step.share * c[EVIDENCE__MOST + 1];
    return (struct dew_evidence_figure){evidence__curve(&step, q), sqrt(v)};
}

double dew_evidence_shown(const struct dew_evidence_learned *l, double hours)
{
    double left = 0;

    for (int k = 1; k < DEW_EVIDENCE_MEMORIES; k++)
        left += l->weight[k] * exp(-hours / dew_evidence_memory[k]);
    return 1.0 - left;
}

/* ---- the evidence -------------------------------------------------------------- */

static enum dew_status make_room(struct dew_evidence *e,
                                 const struct dew_evidence_ask *ask,
                                 struct dew_error *err)
{
    size_t n = ask->count;

    e->series = (struct evidence__series){
        .count = n, .until = ask->until, .hours = ask->hours};
    e->series.steps = calloc(n, sizeof *e->series.steps);
    e->told = calloc(n, sizeof *e->told);
    e->rest = calloc(3 * n, sizeof *e->rest);
    if (e->series.steps == NULL || e->told == NULL || e->rest == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu hours", n);
    e->again = e->rest + n;
    e->model = e->again + n;
    return DEW_OK;
}

static enum dew_status learn(struct dew_evidence *e,
                             const struct dew_evidence_ask *ask,
                             struct dew_error *err)
{
    enum dew_status status = make_room(e, ask, err);

    if (status == DEW_OK)
        status = evidence__prior(ask, &e->prior, err);
    if (status != DEW_OK)
        return status;
    evidence__series(&e->series);
    status = evidence__learn(e, err);
    if (status == DEW_OK)
        status = evidence__foretell(e, err);
    if (status == DEW_OK)
        status = evidence__score(e, err);
    if (status != DEW_OK)
        return status;
    tell(e);
    e->series.hours = NULL; /* the caller's */
    return DEW_OK;
}

enum dew_status dew_evidence_open(struct dew_evidence **evidence,
                                  const struct dew_evidence_ask *ask,
                                  struct dew_error *err)
{
    struct dew_evidence *e;
    enum dew_status status = check(ask, err);

    *evidence = NULL;
    if (status != DEW_OK)
        return status;
    e = calloc(1, sizeof *e);
    if (e == NULL)
        return core__fail(err, DEW_EMEM, "no memory for an evidence");
    status = learn(e, ask, err);
    if (status == DEW_OK)
        *evidence = e;
    else
        dew_evidence_close(e);
    return status;
}

const struct dew_evidence_learned *dew_evidence_learned(
    const struct dew_evidence *evidence)
{
    return &evidence->learned;
}

const struct dew_evidence_told *dew_evidence_told(
    const struct dew_evidence *evidence)
{
    return evidence->told;
}

void dew_evidence_close(struct dew_evidence *evidence)
{
    if (evidence == NULL)
        return;
    free(evidence->series.steps);
    free(evidence->told);
    free(evidence->rest);
    free(evidence);
}
