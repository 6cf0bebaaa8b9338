/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The unknowns by Levenberg-Marquardt on the whitened rest, and the noise by
 * its likelihood, in turns; the covariance is that at the end (Laplace).
 */
#include <math.h>
#include <string.h>

#include "core/num.h"
#include "evidence/evidence.h"

enum {
    UNLEARNED = 24, /* h: the stores find themselves                        */
    STEPS = 15,     /* of Levenberg-Marquardt                               */
    TURNS = 400     /* of the simplex                                       */
};
/* Less of the sum of squares is no better fit: a likelihood's ratio of 1.005. */
static const double BETTER = 0.01;
static const double SIMPLEX = 0.3, SIMPLEX_END = 1e-3; /* of ln noise      */

/* rh becomes measured less rh, NaN where there is nothing to learn from. */
static void less(const struct dew_evidence_hour *hours, size_t until,
                 double *rh)
{
    for (size_t h = 0; h < until; h++)
        rh[h] = h < UNLEARNED ? NAN : 100.0 * hours[h].rh - rh[h];
}

static void rest(struct dew_evidence *e, const double *u)
{
    double q[EVIDENCE__MOST];

    evidence__unknowns(&e->prior, u, q);
    evidence__house(&e->series, q, e->series.until, e->rest);
    less(e->series.hours, e->series.until, e->rest);
}

int evidence__learned_from(const struct dew_evidence *e, size_t h)
{
    const struct evidence__series *s = &e->series;

    return h >= UNLEARNED && !isnan(s->hours[h].rh + s->steps[h].base);
}

struct evidence__state evidence__end(const struct dew_evidence *e,
                                     const struct dew_evidence_hour *hours,
                                     double *rh)
{
    struct dew_evidence_noise noise = evidence__noise_of(e->ln);

    less(hours, e->series.until, rh);
    return evidence__whiten(&noise, rh, e->series.until, NULL).end;
}

static int residuals(const double *u, double *out, void *with)
{
    struct dew_evidence *e = with;
    struct dew_evidence_noise noise = evidence__noise_of(e->ln);

    rest(e, u);
    e->white = evidence__whiten(&noise, e->rest, e->series.until, out);
    memcpy(out + e->white.count, u, e->prior.count * sizeof *u);
    return 0;
}

/* How many hours there are to learn from. */
static size_t learnable(struct dew_evidence *e)
{
    size_t n = 0;

    rest(e, e->u);
    for (size_t h = 0; h < e->series.until; h++)
        n += (size_t)!isnan(e->rest[h]);
    return n;
}

/* The covariance of u at noise as given: core's is scaled by the residuals'
   variance. */
static void keep(struct dew_evidence *e, const struct core__fit *fit,
                 size_t count)
{
    size_t n = e->prior.count;
    double scale = core__fit_squares(fit) / (double)(count - n);

    memcpy(e->u, core__fit_x(fit), n * sizeof *e->u);
    core__fit_covariance(fit, e->cu);
    for (size_t i = 0; i < n * n; i++)
        e->cu[i] /= scale;
}

static enum dew_status house(struct dew_evidence *e, struct dew_error *err)
{
    struct core__residuals r = {.count = learnable(e) + e->prior.count,
                                .unknowns = e->prior.count,
                                .f = residuals,
                                .with = e};
    struct core__fit *fit;
    enum dew_status status = core__fit_open(&fit, &r, e->u, err);
    double before = INFINITY, now;
    int done = 0;

    for (int i = 0; i < STEPS && !done && status == DEW_OK; i++) {
        status = core__fit_step(fit, &done, err);
        now = core__fit_squares(fit);
        done |= before - now < BETTER;
        before = now;
    }
    if (status == DEW_OK)
        keep(e, fit, r.count);
    core__fit_close(fit);
    return status;
}

/* Twice the negative logarithm of the likelihood times the prior. */
static double unlikely(const double *ln, void *with)
{
    struct dew_evidence *e = with;
    struct dew_evidence_noise noise = evidence__noise_of(ln);
    struct evidence__white w =
        evidence__whiten(&noise, e->rest, e->series.until, NULL);
    double sum = w.squares + w.log_det;

    for (int i = 0; i < EVIDENCE__NOISES; i++) {
        double far = (ln[i] - evidence__noise_mean[i]) / evidence__noise_sd[i];

        sum += far * far;
    }
    return sum;
}

static enum dew_status habits(struct dew_evidence *e, struct dew_error *err)
{
    struct core__valley v = {.unknowns = EVIDENCE__NOISES,
                             .f = unlikely,
                             .with = e,
                             .step = SIMPLEX,
                             .tolerance = SIMPLEX_END,
                             .turns = TURNS};

    rest(e, e->u);
    return core__search_valley(&v, e->ln, err);
}

enum dew_status evidence__learn(struct dew_evidence *e, struct dew_error *err)
{
    enum dew_status status = DEW_OK;
    struct dew_evidence_noise noise;

    memcpy(e->ln, evidence__noise_mean, sizeof e->ln);
    for (int turn = 0; turn < 2 && status == DEW_OK; turn++) {
        status = house(e, err);
        if (status == DEW_OK)
            status = habits(e, err);
    }
    if (status == DEW_OK)
        status = house(e, err);
    if (status != DEW_OK)
        return status;
    noise = evidence__noise_of(e->ln);
    rest(e, e->u);
    e->white = evidence__whiten(&noise, e->rest, e->series.until, NULL);
    return DEW_OK;
}
