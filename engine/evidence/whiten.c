/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Habits as two Ornstein-Uhlenbeck processes and white noise: the exact
 * Kalman filter of the two, an hour a step.
 */
#include <math.h>

#include "evidence/evidence.h"

struct decay {
    double d, g; /* what is left of slow and quick after the hours          */
    double slow, quick; /* variances that came in meanwhile                 */
};

static struct decay after(const struct dew_evidence_noise *n, double hours)
{
    struct decay k = {.d = exp(-hours / n->slow_hours),
                      .g = exp(-hours / n->quick_hours)};

    k.slow = n->slow * n->slow * (1.0 - k.d * k.d);
    k.quick = n->quick * n->quick * (1.0 - k.g * k.g);
    return k;
}

static void forward(struct evidence__state *s, const struct decay *k)
{
    s->slow *= k->d;
    s->quick *= k->g;
    s->ss = s->ss * k->d * k->d + k->slow;
    s->sq = s->sq * k->d * k->g;
    s->qq = s->qq * k->g * k->g + k->quick;
}

/* Returns the innovation; *variance is its own. */
static double learn(struct evidence__state *s, double y, double white,
                    double *variance)
{
    double cs = s->ss + s->sq, cq = s->sq + s->qq;
    double v = cs + cq + white, gap = y - s->slow - s->quick;

    s->slow += cs / v * gap;
    s->quick += cq / v * gap;
    s->ss -= cs * cs / v;
    s->sq -= cs * cq / v;
    s->qq -= cq * cq / v;
    *variance = v;
    return gap;
}

struct evidence__white evidence__whiten(const struct dew_evidence_noise *noise,
                                        const double *rest, size_t count,
                                        double *out)
{
    struct evidence__white w = {.end = {.ss = noise->slow * noise->slow,
                                        .qq = noise->quick * noise->quick}};
    struct decay hour = after(noise, 1.0);
    double white = noise->white * noise->white, variance;

    for (size_t h = 0; h < count; h++) {
        forward(&w.end, &hour);
        if (isnan(rest[h]))
            continue;
        double gap = learn(&w.end, rest[h], white, &variance);
        double r = gap / sqrt(variance);

        if (out != NULL)
            out[w.count] = r;
        w.count++;
        w.squares += r * r;
        w.log_det += log(variance);
    }
    return w;
}

double evidence__later(const struct dew_evidence_noise *noise,
                       const struct evidence__state *end, double hours,
                       double *variance)
{
    struct evidence__state s = *end;
    struct decay k = after(noise, hours);

    forward(&s, &k);
    *variance = s.ss + 2.0 * s.sq + s.qq + noise->white * noise->white;
    return s.slow + s.quick;
}
