/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is known of a house before its log is seen. */
#include <math.h>
#include <string.h>

#include "core/num.h"
#include "evidence/evidence.h"

const double dew_evidence_node[DEW_EVIDENCE_NODES] = {-20, -10, 0, 10, 20};

/*
 * The curve.  Nothing at 20 degC is [ISO13788]'s, the level at 0 degC lies
 * inside its class 2 (270 to 540 Pa, from memory); that it goes on rising
 * below 0 degC, where the standard is flat, is a regression on a lived-in
 * house, and so are all spreads: one of the level, one of the shape, which
 * bends over 18 K, one of each node.
 */
static const double LEAST = 35.0;       /* Pa                              */
static const double LEVEL_SHARE = 0.45; /* of the mean, or of              */
static const double LEVEL_FROM = 80.0;  /* Pa                              */
static const double BEND = 80.0, BEND_OVER = 18.0; /* Pa, K                */
static const double NODE = 20.0;                   /* Pa                   */

static const double Z = 1.2;    /* of z: vague                             */
static const double DAY = 30.0; /* Pa, of a and b: vague                   */

/* Construction water of a house under two years old: our guess. */
static const double YOUNG_MEAN = 150.0, YOUNG = 100.0; /* Pa               */

/* Regression on two lived-in houses, rounded.  sd and time of the slow habit,
   the quick one, white; each the logarithm of a figure and its spread. */
#define LN_2_2 0.78845736036427  /* % RH                                  */
#define LN_480 6.17378610390194  /* h, 20 days                            */
#define LN_1_8 0.58778666490212  /* % RH                                  */
#define LN_8   2.07944154167984  /* h                                     */
#define LN_0_3 -1.20397280432594 /* % RH                                 */
const double evidence__noise_mean[EVIDENCE__NOISES] = {LN_2_2, LN_480, LN_1_8,
                                                       LN_8, LN_0_3};
const double evidence__noise_sd[EVIDENCE__NOISES] = {0.2, 0.5, 0.5, 0.6, 0.5};

struct dew_evidence_noise evidence__noise_of(const double ln[EVIDENCE__NOISES])
{
    return (struct dew_evidence_noise){.slow = exp(ln[0]),
                                       .slow_hours = exp(ln[1]),
                                       .quick = exp(ln[2]),
                                       .quick_hours = exp(ln[3]),
                                       .white = exp(ln[4])};
}

double evidence__bend_at(double a, double b)
{
    double far = (a - b) / BEND_OVER;

    return BEND * BEND * exp(-0.5 * far * far);
}

double evidence__bend(size_t i, size_t j)
{
    return evidence__bend_at(dew_evidence_node[i], dew_evidence_node[j]) +
           (i == j ? NODE * NODE : 0.0);
}

static void curve(const struct dew_evidence_prior *p, double *mean, double *c,
                  size_t n)
{
    for (int i = 0; i < DEW_EVIDENCE_NODES; i++)
        mean[i] =
            fmax(p->level * (1.0 - dew_evidence_node[i] / p->zero), LEAST);
    for (size_t i = 0; i < DEW_EVIDENCE_NODES; i++)
        for (size_t j = 0; j < DEW_EVIDENCE_NODES; j++)
            c[i * n + j] = LEVEL_SHARE * fmax(mean[i], LEVEL_FROM) *
                               LEVEL_SHARE * fmax(mean[j], LEVEL_FROM) +
                           evidence__bend(i, j);
}

enum dew_status evidence__prior(const struct dew_evidence_ask *ask,
                                struct evidence__prior *prior,
                                struct dew_error *err)
{
    const double sd[] = {Z, Z, DAY, DAY, YOUNG};
    size_t n = EVIDENCE__MOST - (ask->young ? 0 : 1);

    memset(prior, 0, sizeof *prior);
    prior->count = n;
    curve(&ask->prior, prior->mean, prior->root, n);
    for (size_t i = EVIDENCE__Z; i < n; i++)
        prior->root[i * n + i] = sd[i - EVIDENCE__Z] * sd[i - EVIDENCE__Z];
    if (ask->young)
        prior->mean[EVIDENCE__YOUNG] = YOUNG_MEAN;
    return core__cholesky(prior->root, n, err);
}

void evidence__unknowns(const struct evidence__prior *prior, const double *u,
                        double q[EVIDENCE__MOST])
{
    size_t n = prior->count;

    q[EVIDENCE__YOUNG] = 0.0;
    for (size_t i = 0; i < n; i++) {
        q[i] = prior->mean[i];
        for (size_t j = 0; j <= i; j++)
            q[i] += prior->root[i * n + j] * u[j];
    }
}
