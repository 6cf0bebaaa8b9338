/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws in rounds and their weights. */
#include "evidence/rounds.h"

#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/num.h"
#include "core/parallel.h"

static const double LN_2PI = 1.8378770664093454836;

/* Eighths of the draws that each round has, and with those that follow: our
   own. */
static const size_t eighths[EVIDENCE__ALL_ROUNDS] = {1, 1, 1, 1, 2,
                                                     2, 2, 2, 2, 2};

size_t evidence__rounds_least(size_t unknowns)
{
    return 8 * (2 * unknowns + 16);
}

/* ---- opening ------------------------------------------------------------------ */

static int spot_open(struct evidence__spot *s, size_t n)
{
    s->axes = calloc(n * n, sizeof *s->axes);
    s->middle = calloc(n, sizeof *s->middle);
    s->sd = calloc(n, sizeof *s->sd);
    s->known = calloc(n, sizeof *s->known);
    return s->axes != NULL && s->middle != NULL && s->sd != NULL &&
           s->known != NULL;
}

/* What is known beforehand. */
static void spot_prior(struct evidence__spot *s, size_t n)
{
    for (size_t k = 0; k < n; k++) {
        s->axes[k * n + k] = 1;
        s->sd[k] = 1;
    }
}

static int make_room(struct evidence__rounds *r)
{
    const struct evidence__rounds_ask *a = &r->ask;
    size_t n = a->unknowns, wide = n + 1;
    int had = 1;

    r->z = calloc(r->most * n, sizeof *r->z);
    r->fits = calloc(r->most, sizeof *r->fits);
    r->weights = calloc(r->most, sizeof *r->weights);
    r->products = calloc(wide * wide, sizeof *r->products);
    r->slopes = calloc(wide * a->misfits, sizeof *r->slopes);
    for (int k = 0; k < EVIDENCE__ALL_ROUNDS; k++)
        had &= spot_open(&r->spots[k], n);
    return had && r->z != NULL && r->fits != NULL && r->weights != NULL &&
           r->products != NULL && r->slopes != NULL;
}

enum dew_status evidence__rounds_open(struct evidence__rounds **rounds,
                                      const struct evidence__rounds_ask *ask,
                                      struct dew_error *err)
{
    struct evidence__rounds *r;

    *rounds = NULL;
    if (ask->unknowns < 1 || ask->misfits < 1 ||
        ask->draws < evidence__rounds_least(ask->unknowns))
        return core__fail(err, DEW_ERANGE,
                          "%zu houses are too few to learn %zu figures from: "
                          "%zu at least",
                          ask->draws, ask->unknowns,
                          evidence__rounds_least(ask->unknowns));
    r = calloc(1, sizeof *r);
    if (r == NULL)
        return core__fail(err, DEW_EMEM, "no memory for rounds of draws");
    r->ask = *ask;
    r->round = EVIDENCE__ALL_ROUNDS; /* none yet */
    for (int k = 0; k < EVIDENCE__ALL_ROUNDS; k++)
        r->first[k + 1] = r->first[k] + eighths[k] * (ask->draws / 8);
    r->draws = r->first[EVIDENCE__ROUNDS];
    r->most = ask->enough > 0 ? r->first[EVIDENCE__ALL_ROUNDS] : r->draws;
    if (!make_room(r) ||
        core__random_open(&r->random, ask->seed, NULL) != DEW_OK) {
        evidence__rounds_close(r);
        return core__fail(err, DEW_EMEM, "no memory for rounds of draws");
    }
    for (size_t i = 0; i < r->most; i++)
        r->fits[i] = -INFINITY;
    *rounds = r;
    return DEW_OK;
}

void evidence__rounds_close(struct evidence__rounds *r)
{
    if (r == NULL)
        return;
    for (int k = 0; k < EVIDENCE__ALL_ROUNDS; k++) {
        free(r->spots[k].axes);
        free(r->spots[k].middle);
        free(r->spots[k].sd);
        free(r->spots[k].known);
    }
    free(r->z);
    free(r->fits);
    free(r->weights);
    free(r->products);
    free(r->slopes);
    core__random_close(r->random);
    free(r);
}

/* ---- drawing ------------------------------------------------------------------ */

/* By how much the axes that are known of are stretched together: what makes a
   Student t of Gaussians. */
static double stretch(struct evidence__rounds *r)
{
    double squares = 0;

    for (int k = 0; k < EVIDENCE__TAIL; k++) {
        double g = core__random_gaussian(r->random);

        squares += g * g;
    }
    return sqrt(EVIDENCE__TAIL / squares);
}

static void draw(struct evidence__rounds *r, const struct evidence__spot *s,
                 double *z)
{
    size_t n = r->ask.unknowns;
    double far = stretch(r);

    for (size_t i = 0; i < n; i++)
        z[i] = 0;
    for (size_t k = 0; k < n; k++) {
        double g = core__random_gaussian(r->random);
        double y = s->known[k] ? s->middle[k] + s->sd[k] * far * g : g;

        for (size_t i = 0; i < n; i++)
            z[i] += s->axes[i * n + k] * y;
    }
}

/* Logarithm of the density of a spot at z. */
static double density(const struct evidence__spot *s, size_t n, const double *z)
{
    const double tail = EVIDENCE__TAIL, d = (double)s->knowns;
    double out = 0, far = 0;

    for (size_t k = 0; k < n; k++) {
        double y = 0, u;

        for (size_t i = 0; i < n; i++)
            y += s->axes[i * n + k] * z[i];
        if (!s->known[k]) {
            out -= 0.5 * (y * y + LN_2PI);
            continue;
        }
        u = (y - s->middle[k]) / s->sd[k];
        far += u * u;
        out -= log(s->sd[k]);
    }
    if (s->knowns > 0)
        out += lgamma(0.5 * (tail + d)) - lgamma(0.5 * tail) -
               0.5 * d * (log(tail) + LN_2PI - log(2)) -
               0.5 * (tail + d) * log1p(far / tail);
    return out;
}

static void forget(struct evidence__rounds *r)
{
    size_t wide = r->ask.unknowns + 1;

    for (size_t i = 0; i < wide * wide; i++)
        r->products[i] = 0;
    for (size_t i = 0; i < wide * r->ask.misfits; i++)
        r->slopes[i] = 0;
    r->squares = 0;
    r->told = 0;
}

/* 1 where a round follows that was drawn. */
static int goes_on(struct evidence__rounds *r, size_t next)
{
    if (next < EVIDENCE__ROUNDS)
        return 1;
    if (next == EVIDENCE__ALL_ROUNDS || !(r->ask.enough > 0))
        return 0;
    evidence__rounds_end(r);
    return r->effective < r->ask.enough;
}

/* Where a round draws.  One that follows and cannot be placed is left out: what
   was drawn stands. */
static enum dew_status place(struct evidence__rounds *r, size_t next,
                             int *placed, struct dew_error *err)
{
    struct dew_error own = {0};
    enum dew_status status;

    *placed = 1;
    if (next == 0) {
        spot_prior(&r->spots[0], r->ask.unknowns);
        return DEW_OK;
    }
    status = evidence__aim(r, &r->spots[next], &r->power[next], &own);
    if (status == DEW_ESOLVE && next >= EVIDENCE__ROUNDS) {
        *placed = 0;
        return DEW_OK;
    }
    if (status != DEW_OK && err != NULL && err->status == DEW_OK)
        *err = own;
    return status;
}

enum dew_status evidence__rounds_next(struct evidence__rounds *r, size_t *count,
                                      struct dew_error *err)
{
    size_t next = r->round == EVIDENCE__ALL_ROUNDS ? 0 : r->round + 1;
    enum dew_status status;
    int placed;

    *count = 0;
    if (!goes_on(r, next))
        return DEW_OK;
    status = place(r, next, &placed, err);
    if (status != DEW_OK || !placed)
        return status;
    r->round = next;
    if (r->first[next + 1] > r->draws)
        r->draws = r->first[next + 1];
    forget(r);
    for (size_t i = r->first[next]; i < r->first[next + 1]; i++)
        draw(r, &r->spots[next], &r->z[i * r->ask.unknowns]);
    *count = r->first[next + 1] - r->first[next];
    return DEW_OK;
}

const double *evidence__rounds_at(const struct evidence__rounds *r, size_t draw)
{
    return &r->z[draw * r->ask.unknowns];
}

/* ---- what the draws came to ----------------------------------------------------- */

/* Some misfits of some draws, to be summed on a thread. */
struct sums {
    struct evidence__rounds *r;
    size_t first, count;
    const double *const *misfits;
};

enum { CHUNK = 512 }; /* misfits that are summed at once */

static void sum_chunk(void *of, size_t chunk)
{
    const struct sums *s = of;
    struct evidence__rounds *r = s->r;
    size_t n = r->ask.misfits, from = chunk * CHUNK,
           end = from + CHUNK < n ? from + CHUNK : n;

    for (size_t i = 0; i < s->count; i++) {
        const double *z = evidence__rounds_at(r, s->first + i);
        const double *x = s->misfits[i];

        for (size_t j = 0; j <= r->ask.unknowns && x != NULL; j++) {
            double *to = &r->slopes[j * n], at = j > 0 ? z[j - 1] : 1;

            for (size_t h = from; h < end; h++)
                to[h] += at * x[h];
        }
    }
}

static void sum_products(struct evidence__rounds *r, const double *z)
{
    size_t wide = r->ask.unknowns + 1;

    for (size_t i = 0; i < wide; i++)
        for (size_t j = 0; j < wide; j++)
            r->products[i * wide + j] +=
                (i > 0 ? z[i - 1] : 1) * (j > 0 ? z[j - 1] : 1);
}

void evidence__rounds_told(struct evidence__rounds *r, size_t first,
                           size_t count, const double *const *misfits)
{
    struct sums s = {r, first, count, misfits};

    for (size_t i = 0; i < count; i++) {
        double squares = 0;

        if (misfits[i] == NULL)
            continue;
        for (size_t h = 0; h < r->ask.misfits; h++)
            squares += misfits[i][h] * misfits[i][h];
        r->fits[first + i] = -0.5 * squares;
        r->squares += squares;
        r->told++;
        sum_products(r, evidence__rounds_at(r, first + i));
    }
    core__parallel(r->ask.threads, (r->ask.misfits + CHUNK - 1) / CHUNK,
                   sum_chunk, &s);
}

/* ---- weights ------------------------------------------------------------------- */

static double log_prior(const double *z, size_t n)
{
    double out = 0;

    for (size_t k = 0; k < n; k++)
        out -= 0.5 * (z[k] * z[k] + LN_2PI);
    return out;
}

/* Logarithm of the mixture of the rounds so far at a draw. */
static double log_mixture(const struct evidence__rounds *r, size_t i)
{
    size_t n = r->ask.unknowns, rounds = r->round + 1;
    double at[EVIDENCE__ALL_ROUNDS], most = -INFINITY, sum = 0;

    for (size_t k = 0; k < rounds; k++) {
        double share =
            (double)(r->first[k + 1] - r->first[k]) / (double)r->first[rounds];

        at[k] = log(share) + density(&r->spots[k], n, &r->z[i * n]);
        most = fmax(most, at[k]);
    }
    for (size_t k = 0; k < rounds; k++)
        sum += exp(at[k] - most);
    return most + log(sum);
}

void evidence__rounds_weigh(const struct evidence__rounds *r, double *log_w)
{
    size_t n = r->ask.unknowns;

    for (size_t i = 0; i < r->first[r->round + 1]; i++) {
        log_w[i] = r->fits[i];
        if (log_w[i] > -INFINITY)
            log_w[i] += log_prior(&r->z[i * n], n) - log_mixture(r, i);
    }
}

void evidence__rounds_end(struct evidence__rounds *r)
{
    size_t draws = r->draws;
    double most = -INFINITY, sum = 0, squares = 0;

    evidence__rounds_weigh(r, r->weights);
    for (size_t i = 0; i < draws; i++)
        most = fmax(most, r->weights[i]);
    for (size_t i = 0; i < draws; i++) {
        r->weights[i] = most > -INFINITY ? exp(r->weights[i] - most) : 0;
        sum += r->weights[i];
    }
    for (size_t i = 0; i < draws && sum > 0; i++) {
        r->weights[i] /= sum;
        squares += r->weights[i] * r->weights[i];
    }
    r->effective = squares > 0 ? 1 / squares : 0;
    r->log_evidence = most + log(sum / (double)draws);
}
