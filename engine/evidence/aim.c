/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where to draw next: a straight line through the misfits of a round,
 *
 *   r(z) = r0 + J z,     r0, J by least squares over its draws,
 *
 * would make the likelihood a Gaussian: with A = J'J and b = J'r0, to the power
 * p, what is known beforehand in it, (1 + p A)^-1 about -(1 + p A)^-1 p b.
 * The chance in J adds to A and b in the mean what is taken off again here.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "evidence/rounds.h"

/* Of the logarithm of the likelihood: how far the line may miss it where half
   the draws are, before it is believed; an axis is known of where the misfits
   leave less than this of its variance; and how much wider than told.  Our own,
   from trials. */
static const double MISS = 3.0, KNOWN = 0.85, WIDER = 1.15, ENOUGH = 8,
                    TRUSTED = 0.2;

/* The line, and room for it. */
struct line {
    size_t n, wide;  /* unknowns, and 1 with them                        */
    double *inverse; /* of the products                                 */
    double *a;       /* of (r0 J)'(r0 J): J'J, J'r0, r0'r0                  */
    double left;     /* r'r that it leaves, of a degree of freedom       */
    double *room;    /* [wide * wide] and more                           */
    double *values, *axes;
};

static int open_line(struct line *l, size_t n)
{
    size_t wide = n + 1;
    double *at = calloc(4 * wide * wide + wide, sizeof *at);

    *l = (struct line){.n = n, .wide = wide, .inverse = at};
    l->room = at + wide * wide;
    l->a = at + 2 * wide * wide; /* [wide][wide], with 1 first */
    l->axes = at + 3 * wide * wide;
    l->values = at + 4 * wide * wide;
    return at != NULL;
}

static enum dew_status invert(const struct evidence__rounds *r, struct line *l,
                              struct dew_error *err)
{
    size_t w = l->wide;

    for (size_t k = 0; k < w; k++) {
        double *x = &l->inverse[k * w];

        memcpy(l->room, r->products, w * w * sizeof *l->room);
        for (size_t i = 0; i < w; i++)
            x[i] = i == k;
        if (core__solve_spd(l->room, x, w, NULL) != DEW_OK)
            return core__fail(err, DEW_ESOLVE,
                              "too few of the houses drawn are houses to "
                              "learn from");
    }
    return DEW_OK;
}

/* a = inverse (slopes slopes') inverse, less what chance adds. */
static void take_slopes(const struct evidence__rounds *r, struct line *l)
{
    size_t w = l->wide, n = r->ask.misfits;
    double met = 0;

    for (size_t i = 0; i < w; i++)
        for (size_t j = 0; j <= i; j++) {
            const double *x = &r->slopes[i * n], *y = &r->slopes[j * n];
            double s = 0;

            for (size_t h = 0; h < n; h++)
                s += x[h] * y[h];
            l->a[i * w + j] = l->a[j * w + i] = s;
            met += (i == j ? 1 : 2) * l->inverse[i * w + j] * s;
        }
    l->left = fmax(r->squares - met, 0) / (double)(r->told - w);
}

static void multiply(const double *x, const double *y, double *out, size_t n)
{
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n; j++) {
            double s = 0;

            for (size_t k = 0; k < n; k++)
                s += x[i * n + k] * y[k * n + j];
            out[i * n + j] = s;
        }
}

static void make_line(const struct evidence__rounds *r, struct line *l)
{
    size_t w = l->wide;

    take_slopes(r, l);
    multiply(l->inverse, l->a, l->room, w);
    multiply(l->room, l->inverse, l->a, w);
    for (size_t i = 0; i < w * w; i++)
        l->a[i] -= l->left * l->inverse[i];
}

/* What the line has for the logarithm of the likelihood at z. */
static double fit_of(const struct line *l, const double *z)
{
    double s = 0;

    for (size_t i = 0; i < l->wide; i++)
        for (size_t j = 0; j < l->wide; j++)
            s += (i > 0 ? z[i - 1] : 1) * (j > 0 ? z[j - 1] : 1) *
                 l->a[i * l->wide + j];
    return -0.5 * s;
}

/* The power: 1 where the line meets the likelihood of the round's draws. */
static double power_of(const struct evidence__rounds *r, const struct line *l,
                       double *miss)
{
    size_t n = 0;
    double wide;

    for (size_t i = r->first[r->round]; i < r->first[r->round + 1]; i++)
        if (r->fits[i] > -INFINITY)
            miss[n++] = r->fits[i] - fit_of(l, evidence__rounds_at(r, i));
    core__sort(miss, n);
    wide =
        0.5 * (core__quantile(miss, n, 0.75) - core__quantile(miss, n, 0.25));
    return wide > MISS ? MISS / wide : 1;
}

/* Axes of J'J: what is known of each, and where. */
static enum dew_status turn(const struct line *l, double power,
                            struct evidence__spot *s, struct dew_error *err)
{
    size_t n = l->n, w = l->wide;
    enum dew_status status;

    for (size_t i = 0; i < n; i++)
        memcpy(&l->room[i * n], &l->a[(i + 1) * w + 1], n * sizeof *l->room);
    status = core__eigen(l->room, l->values, s->axes, n, err);
    s->knowns = 0;
    for (size_t k = 0; k < n && status == DEW_OK; k++) {
        double stiff = 1 + power * fmax(l->values[k], 0), b = 0;

        for (size_t i = 0; i < n; i++)
            b += s->axes[i * n + k] * l->a[(i + 1) * w];
        s->known[k] = 1 / stiff < KNOWN;
        s->knowns += s->known[k];
        s->middle[k] = s->known[k] ? -power * b / stiff : 0;
        s->sd[k] = s->known[k] ? WIDER / sqrt(stiff) : 1;
    }
    return status;
}

/* ---- by the weights -------------------------------------------------------------- */

/* Effective draws of weights to a power. */
static double effective(const double *log_w, size_t count, double most,
                        double power)
{
    double sum = 0, squares = 0;

    for (size_t i = 0; i < count; i++) {
        double w = exp(power * (log_w[i] - most));

        sum += w;
        squares += w * w;
    }
    return sum * sum / squares;
}

/* Weights of 1 to the power that leaves enough effective draws, 1 at most. */
static double temper(double *log_w, size_t count, double enough)
{
    double most = -INFINITY, low = 0, high = 1, sum = 0;

    for (size_t i = 0; i < count; i++)
        most = fmax(most, log_w[i]);
    if (effective(log_w, count, most, 1) < enough)
        for (int turn = 0; turn < 20; turn++) {
            double middle = 0.5 * (low + high);

            if (effective(log_w, count, most, middle) < enough)
                high = middle;
            else
                low = middle;
        }
    for (size_t i = 0; i < count; i++) {
        log_w[i] = exp(high * (log_w[i] - most));
        sum += log_w[i];
    }
    for (size_t i = 0; i < count; i++)
        log_w[i] /= sum;
    return high;
}

/* The known axes of a spot, and the draws along them. */
struct along {
    const struct evidence__rounds *r;
    const double *w; /* [count]                                              */
    size_t count, m; /* draws so far; axes                                   */
    size_t *which;   /* [m]  axes of the spot                                */
    double *y, *mean, *values; /* [m]                                        */
    double *c, *vectors;       /* [m][m]                                     */
    double *axes;              /* [unknowns][m]                              */
};

static int open_along(struct along *a, const struct evidence__spot *s)
{
    size_t n = a->r->ask.unknowns, m = a->m = s->knowns, used = 0;

    a->y = calloc(3 * m + 2 * m * m + n * m, sizeof *a->y);
    a->which = calloc(m, sizeof *a->which);
    if (a->y == NULL || a->which == NULL)
        return 0;
    a->mean = a->y + m;
    a->values = a->mean + m;
    a->c = a->values + m;
    a->vectors = a->c + m * m;
    a->axes = a->vectors + m * m;
    for (size_t k = 0; k < n; k++)
        if (s->known[k])
            a->which[used++] = k;
    return 1;
}

static void take_along(struct along *a, const struct evidence__spot *s,
                       size_t draw)
{
    size_t n = a->r->ask.unknowns;
    const double *z = evidence__rounds_at(a->r, draw);

    for (size_t i = 0; i < a->m; i++) {
        a->y[i] = 0;
        for (size_t j = 0; j < n; j++)
            a->y[i] += s->axes[j * n + a->which[i]] * z[j];
    }
}

/* Mean and covariance along them. */
static void take_moments(struct along *a, const struct evidence__spot *s)
{
    for (size_t d = 0; d < a->count; d++) {
        take_along(a, s, d);
        for (size_t i = 0; i < a->m; i++)
            a->mean[i] += a->w[d] * a->y[i];
    }
    for (size_t d = 0; d < a->count; d++) {
        take_along(a, s, d);
        for (size_t i = 0; i < a->m; i++)
            for (size_t j = 0; j < a->m; j++)
                a->c[i * a->m + j] +=
                    a->w[d] * (a->y[i] - a->mean[i]) * (a->y[j] - a->mean[j]);
    }
}

/* Axis i of the covariance in the place of the spot's. */
static void turn_axis(struct along *a, struct evidence__spot *s, size_t i)
{
    size_t n = a->r->ask.unknowns, m = a->m, k = a->which[i];
    double middle = 0;

    for (size_t b = 0; b < m; b++)
        middle += a->vectors[b * m + i] * a->mean[b];
    for (size_t j = 0; j < n; j++)
        for (size_t b = 0; b < m; b++)
            a->axes[j * m + i] +=
                s->axes[j * n + a->which[b]] * a->vectors[b * m + i];
    s->middle[k] = middle;
    s->sd[k] = WIDER * sqrt(fmax(a->values[i], 1e-8));
}

/* The spot where weighed draws are, along the axes that it knows. */
static enum dew_status follow(const struct evidence__rounds *r,
                              struct evidence__spot *s, const double *w,
                              size_t count, struct dew_error *err)
{
    struct along a = {.r = r, .w = w, .count = count};
    size_t n = r->ask.unknowns;
    enum dew_status status = DEW_OK;

    if (!open_along(&a, s))
        status = core__fail(err, DEW_EMEM, "no memory for rounds of draws");
    if (status == DEW_OK) {
        take_moments(&a, s);
        status = core__eigen(a.c, a.values, a.vectors, a.m, err);
    }
    for (size_t i = 0; i < a.m && status == DEW_OK; i++)
        turn_axis(&a, s, i);
    for (size_t i = 0; i < a.m && status == DEW_OK; i++)
        for (size_t j = 0; j < n; j++)
            s->axes[j * n + a.which[i]] = a.axes[j * a.m + i];
    free(a.y);
    free(a.which);
    return status;
}

/* Where the draws so far have weights that are worth enough of them, these
   know better than the line. */
static enum dew_status by_weights(const struct evidence__rounds *r,
                                  struct evidence__spot *s, double *power,
                                  struct dew_error *err)
{
    size_t count = r->first[r->round + 1];
    double *w = calloc(count, sizeof *w), tempered;
    enum dew_status status = DEW_OK;

    if (w == NULL)
        return core__fail(err, DEW_EMEM, "no memory for rounds of draws");
    evidence__rounds_weigh(r, w);
    tempered = temper(w, count, ENOUGH * (double)s->knowns + 30);
    if (tempered > TRUSTED * *power && s->knowns > 0) {
        *power = tempered;
        status = follow(r, s, w, count, err);
    }
    free(w);
    return status;
}

enum dew_status evidence__aim(struct evidence__rounds *r,
                              struct evidence__spot *spot, double *power,
                              struct dew_error *err)
{
    size_t drawn = r->first[r->round + 1] - r->first[r->round];
    double *miss = calloc(drawn, sizeof *miss);
    struct line l;
    int had = open_line(&l, r->ask.unknowns) && miss != NULL;
    enum dew_status status = DEW_OK;

    if (!had)
        status = core__fail(err, DEW_EMEM, "no memory for rounds of draws");
    else if (r->told < l.wide + 8)
        status = core__fail(err, DEW_ESOLVE,
                            "%zu of %zu houses drawn are houses: too few to "
                            "learn from",
                            r->told, drawn);
    else
        status = invert(r, &l, err);
    if (status == DEW_OK) {
        make_line(r, &l);
        *power = power_of(r, &l, miss);
        status = turn(&l, *power, spot, err);
    }
    if (status == DEW_OK && r->round >= 2)
        status = by_weights(r, spot, power, err);
    free(l.inverse);
    free(miss);
    return status;
}
