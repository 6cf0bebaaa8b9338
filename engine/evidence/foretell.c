/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hours as told, how surely, and how well they were met. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "evidence/evidence.h"

static const double BAND80 = 1.2816; /* of an sd, to both sides            */
static const double NUDGE = 1e-3;    /* of an sd, for slopes                */

/* What a season not seen adds, by coverage: share of the curve, hours. */
static const double UNSEEN = 0.15, UNSEEN_OVER = 60.0 * 24.0;

/* ---- the hours ---------------------------------------------------------------- */

/* From one state of the habits to another, in so many steps. */
static struct evidence__state slope_of(const struct evidence__state *from,
                                       const struct evidence__state *to)
{
    return (struct evidence__state){.slow = (to->slow - from->slow) / NUDGE,
                                    .quick = (to->quick - from->quick) / NUDGE};
}

/*
 * What a nudge of the unknowns, to the house in e->rest, adds to e->again.
 * Where the house is wetter the habits at the end of the log are drier by what
 * the log holds of both: soon after the end only their sum counts, and that is
 * known.
 */
static void open_along(struct dew_evidence *e, const double *rh)
{
    struct dew_evidence_noise noise = evidence__noise_of(e->ln);
    size_t until = e->series.until;
    struct evidence__state end;
    double unused;

    for (size_t h = 0; h < e->series.count; h++)
        e->rest[h] = (e->rest[h] - rh[h]) / NUDGE;
    for (size_t h = 0; h < until; h++) {
        e->again[h] += e->rest[h] * e->rest[h];
        e->rest[h] = rh[h] + NUDGE * e->rest[h];
    }
    end = evidence__end(e, e->series.hours, e->rest);
    end = slope_of(&e->white.end, &end);
    for (size_t h = until; h < e->series.count; h++) {
        double slope =
            e->rest[h] +
            evidence__later(&noise, &end, (double)(h - until) + 1.0, &unused);

        e->again[h] += slope * slope;
    }
}

/* Variance by hour of what the unknowns leave open, into e->again: slopes
   along each column of the root of their covariance. */
static enum dew_status open_variance(struct dew_evidence *e, const double *rh,
                                     struct dew_error *err)
{
    size_t n = e->prior.count, count = e->series.count;
    double root[EVIDENCE__MOST * EVIDENCE__MOST], u[EVIDENCE__MOST],
        q[EVIDENCE__MOST];
    enum dew_status status;

    memcpy(root, e->cu, n * n * sizeof *root);
    status = core__cholesky(root, n, err);
    memset(e->again, 0, count * sizeof *e->again);
    for (size_t k = 0; k < n && status == DEW_OK; k++) {
        for (size_t i = 0; i < n; i++)
            u[i] = e->u[i] + NUDGE * root[i * n + k];
        evidence__unknowns(&e->prior, u, q);
        evidence__house(&e->series, q, count, e->rest);
        open_along(e, rh);
    }
    return status;
}

double evidence__unseen(const struct evidence__step *step, const double *q,
                        double far)
{
    return UNSEEN * fabs(evidence__curve(step, q)) * step->slope *
           sqrt(1.0 - exp(-2.0 * far / UNSEEN_OVER));
}

static void tell(struct dew_evidence *e, const double q[EVIDENCE__MOST],
                 size_t h)
{
    const struct evidence__step *step = &e->series.steps[h];
    struct dew_evidence_noise noise = evidence__noise_of(e->ln);
    struct dew_evidence_told *t = &e->told[h];
    double far = (double)h - (double)e->series.until + 1.0, unseen = 0.0,
           habits, open = e->again[h];

    t->rh = t->model;
    if (far > 0.0) {
        t->rh += evidence__later(&noise, &e->white.end, far, &habits);
        unseen = evidence__unseen(step, q, far);
    } else {
        habits = noise.slow * noise.slow + noise.quick * noise.quick +
                 noise.white * noise.white;
        if (evidence__learned_from(e, h)) /* it was drawn towards them */
            open = -open;
    }
    t->sd = sqrt(habits + open + unseen * unseen);
}

enum dew_status evidence__foretell(struct dew_evidence *e,
                                   struct dew_error *err)
{
    size_t count = e->series.count;
    double q[EVIDENCE__MOST], *rh = e->model;
    enum dew_status status;

    evidence__unknowns(&e->prior, e->u, q);
    evidence__house(&e->series, q, count, rh);
    status = open_variance(e, rh, err);
    for (size_t h = 0; h < count && status == DEW_OK; h++) {
        e->told[h].model = rh[h];
        tell(e, q, h);
    }
    return status;
}

/* ---- how well ------------------------------------------------------------------ */

/* Hours from .. to - 1 of a series of % RH held to the log; told is NULL where
   there is no band. */
static struct dew_evidence_score held(const struct evidence__series *s,
                                      const double *rh,
                                      const struct dew_evidence_told *told,
                                      size_t from, size_t to)
{
    struct dew_evidence_score k = {0};
    double squares = 0, bias = 0, vapour = 0, inside = 0;

    for (size_t h = from; h < to; h++) {
        double gap = rh[h] - 100.0 * s->hours[h].rh;

        if (isnan(gap))
            continue;
        k.hours++;
        bias += gap;
        squares += gap * gap;
        vapour += gap * gap / (s->steps[h].slope * s->steps[h].slope);
        inside += told != NULL && fabs(gap) <= BAND80 * told[h].sd;
    }
    k.days = (double)k.hours / 24.0;
    k.bias_rh = bias / (double)k.hours;
    k.rmse_rh = sqrt(squares / (double)k.hours);
    k.rmse_pv = sqrt(vapour / (double)k.hours);
    k.band80 = told != NULL ? inside / (double)k.hours : NAN;
    return k;
}

/* The yardstick into line[count]: the excess a straight line of the outdoor
   temperature, by least squares on the hours learned from. */
static enum dew_status yardstick(const struct evidence__series *s, double *line,
                                 struct dew_error *err)
{
    double *a = malloc((4 * s->until + 2) * sizeof *a), x[2];
    double *b = a + 2 * s->until, *work = b + s->until;
    struct core__lines lines = {.columns = 2, .a = a, .b = b};
    enum dew_status status;

    if (a == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a line");
    for (size_t h = 0; h < s->until; h++) {
        const struct evidence__step *step = &s->steps[h];

        if (isnan(s->hours[h].rh + step->base))
            continue;
        a[2 * lines.rows] = 1.0;
        a[2 * lines.rows + 1] = s->hours[h].t_out;
        b[lines.rows++] = (100.0 * s->hours[h].rh - step->base) / step->slope;
    }
    status = core__least_squares(&lines, work, x, NULL, err);
    for (size_t h = 0; h < s->count && status == DEW_OK; h++)
        line[h] = s->steps[h].base +
                  s->steps[h].slope * (x[0] + x[1] * s->hours[h].t_out);
    free(a);
    return status;
}

enum dew_status evidence__score(struct dew_evidence *e, struct dew_error *err)
{
    const struct evidence__series *s = &e->series;
    struct dew_evidence_learned *l = &e->learned;
    enum dew_status status;

    for (size_t h = 0; h < s->count; h++)
        e->rest[h] = e->told[h].rh;
    l->fit = held(s, e->rest, e->told, 0, s->until);
    l->rest = held(s, e->rest, e->told, s->until, s->count);
    status = yardstick(s, e->rest, err);
    l->line_fit = held(s, e->rest, NULL, 0, s->until);
    l->line = held(s, e->rest, NULL, s->until, s->count);
    return status;
}
