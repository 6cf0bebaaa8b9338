/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the days of a month are drawn and spread. */
#include "made/shape.h"

#include <math.h>

/*
 * The days of one month have shorter tails than a normal distribution, the
 * more they hang together: real months' excess kurtosis is 1.3 times their
 * skewness squared less 1.1 times the correlation of a day with the next.  The
 * exponent of the lambda distribution that is as flat (0.14 is nearly normal,
 * [JR71]), and the lognormal's k over the skewness that its values should
 * have.  Regressions, docs/weather-made.md.
 */
#define FLAT          0.05
#define FLAT_LAG      2.75
#define LEAN_OF_RANKS 0.33
#define LEAN_OF_FLAT  0.65
#define LEAN_OF_DRAWS 0.46 /* the same of a year's own draws             */

/* Weather has ends where a normal distribution has none. */
#define SCORE_MOST 3.0

double made__between(double x, double low, double high)
{
    return x < low ? low : x > high ? high : x;
}

void made__walk_on(struct made__walk *walk, struct core__random *random,
                   double lag, double second, int n, double *out)
{
    double first = lag * (1.0 - second);
    double noise = sqrt((1.0 + second) *
                        ((1.0 - second) * (1.0 - second) - first * first) /
                        (1.0 - second));

    for (int d = 0; d < n; d++) {
        double z = first * walk->last + second * walk->before +
                   noise * core__random_gaussian(random);

        walk->before = walk->last;
        walk->last = out[d] = z;
    }
}

double made__true_lag(double r, int n)
{
    double lag = (r + 1.0 / n) / (1.0 - 4.0 / n);

    return made__between(lag, -0.95, 0.95);
}

void made__standardise(double *x, int n)
{
    double mean = core__mean(x, (size_t)n), squares = 0.0, sd;

    for (int i = 0; i < n; i++)
        squares += (x[i] - mean) * (x[i] - mean);
    sd = sqrt(squares / n);
    for (int i = 0; i < n; i++)
        x[i] = sd > 0.0 ? (x[i] - mean) / sd : 0.0;
}

double made__power(const double *x, int n)
{
    double sum = 0.0;

    for (int i = 0; i < n; i++)
        sum += x[i] * x[i] / n;
    return sum;
}

void made__set_apart(double *x, const double *y, int n)
{
    double r = 0.0;

    for (int i = 0; i < n; i++)
        r += x[i] * y[i] / n;
    for (int i = 0; i < n; i++)
        x[i] -= r * y[i];
    made__standardise(x, n);
}

/* A score made to lean: lognormal. */
static double lean_of(double z, double k)
{
    return fabs(k) > 1e-6 ? expm1(k * z) / k : z;
}

/* The same with mean 0 and deviation 1. */
static double lean_score(double z, double k)
{
    double spread = exp(k * k);

    if (fabs(k) <= 1e-6)
        return z;
    return (lean_of(z, k) - (sqrt(spread) - 1.0) / k) * fabs(k) /
           sqrt(spread * (spread - 1.0));
}

/* In order, the values that the days should have. */
static void fill_values(struct made__spread *spread, double lag)
{
    double flat = FLAT * exp(FLAT_LAG * lag);
    double k = (LEAN_OF_RANKS + LEAN_OF_FLAT * flat) * spread->lean;
    int n = spread->n;

    for (int i = 0; i < n; i++) {
        double share = (i + 0.625) / (n + 0.25); /* Blom */

        spread->value[i] = pow(share, flat) - pow(1.0 - share, flat);
    }
    made__standardise(spread->value, n);
    for (int i = 0; i < n; i++)
        spread->value[i] = lean_of(spread->value[i], k);
    made__standardise(spread->value, n);
}

struct made__spread made__spread_of(int n, int typical, double lean, double lag)
{
    struct made__spread out = {.n = n, .typical = typical, .lean = lean};

    if (typical)
        fill_values(&out, lag);
    return out;
}

static void by_rank(double *score, const struct made__spread *spread)
{
    int rank[MADE__MONTH_MOST] = {0};

    for (int i = 0; i < spread->n; i++)
        for (int j = 0; j < i; j++)
            rank[score[j] <= score[i] ? i : j]++;
    for (int i = 0; i < spread->n; i++)
        score[i] = spread->value[rank[i]];
}

void made__shape(double *score, const struct made__spread *spread)
{
    if (spread->typical) {
        by_rank(score, spread);
        return;
    }
    for (int i = 0; i < spread->n; i++)
        score[i] = lean_score(made__between(score[i], -SCORE_MOST, SCORE_MOST),
                              LEAN_OF_DRAWS * spread->lean);
}

void made__deal(struct core__random *random, int n, double *out)
{
    struct made__spread normal = made__spread_of(n, 1, 0.0, MADE__LOOSE_LAG);

    for (int i = 0; i < n; i++)
        out[i] = core__random_gaussian(random);
    by_rank(out, &normal);
}
