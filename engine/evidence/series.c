/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The house: an excess over the outdoors, and what remembers it. */
#include <math.h>

#include "dew/air.h"
#include "evidence/evidence.h"

const double dew_evidence_memory[DEW_EVIDENCE_MEMORIES] = {0, 12, 240};

/* Regression: the mean that windows and people follow, and where the curve
   ends. */
static const double MEAN_OVER = 6.0;                   /* h                   */
static const double COLD_END = -30.0, WARM_END = 24.0; /* degC             */
/* Our guess: how long a new house dries. */
static const double DRIES_OVER = 180.0 * 24.0; /* h                        */
static const double TURN = 2.0 * 3.14159265358979323846 / 24.0;

/* What comes in of an hour by an exponential mean. */
static double coming(double hours)
{
    return hours > 0.0 ? 1.0 - exp(-1.0 / hours) : 1.0;
}

void evidence__place(struct evidence__step *step, double mean6)
{
    const double *node = dew_evidence_node;
    int last = DEW_EVIDENCE_NODES - 2, j = 0;

    step->mean6 = fmin(fmax(mean6, COLD_END), WARM_END);
    while (j < last && step->mean6 > node[j + 1])
        j++;
    step->node = j;
    step->share = (step->mean6 - node[j]) / (node[j + 1] - node[j]);
}

/* The mean of the humidities of the first hours; NaN where there are none. */
static double early(const struct evidence__series *s, size_t hours)
{
    double sum = 0.0, n = 0.0;

    for (size_t h = 0; h < hours && h < s->until; h++)
        if (!isnan(s->hours[h].rh)) {
            sum += 100.0 * s->hours[h].rh;
            n += 1.0;
        }
    return sum / n;
}

static void first_states(struct evidence__series *s)
{
    double week = early(s, 168), day = early(s, 24);

    s->start[0] = s->start[1] = isnan(day) ? week : day;
    s->start[2] = week;
}

void evidence__series(struct evidence__series *s)
{
    double mean6 = NAN, part = coming(MEAN_OVER);

    for (size_t h = 0; h < s->count; h++) {
        const struct dew_evidence_hour *hour = &s->hours[h];
        struct evidence__step *step = &s->steps[h];

        if (!isnan(hour->t_out))
            mean6 = isnan(mean6) ? hour->t_out
                                 : mean6 + part * (hour->t_out - mean6);
        evidence__place(step, isnan(mean6) ? 0.0 : mean6);
        step->slope = 100.0 / dew_air_pws_liquid(hour->t_in);
        step->base = isnan(hour->t_out) ? NAN : hour->pv_out * step->slope;
        step->cos = cos(TURN * hour->clock);
        step->sin = sin(TURN * hour->clock);
        step->young = exp(-(double)h / DRIES_OVER);
    }
    first_states(s);
}

double evidence__curve(const struct evidence__step *step, const double *q)
{
    const double *e = q + EVIDENCE__CURVE + step->node;

    return e[0] + step->share * (e[1] - e[0]);
}

void evidence__weights(const double *q, double w[DEW_EVIDENCE_MEMORIES])
{
    double a = exp(q[EVIDENCE__Z]), b = exp(q[EVIDENCE__Z + 1]);

    w[0] = 1.0 / (1.0 + a + b);
    w[1] = a * w[0];
    w[2] = b * w[0];
}

/* A memory rests through hours that were not had. */
void evidence__house(const struct evidence__series *s, const double *q,
                     size_t count, double *rh)
{
    double w[DEW_EVIDENCE_MEMORIES], in1 = coming(dew_evidence_memory[1]),
                                     in2 = coming(dew_evidence_memory[2]),
                                     m1 = s->start[1], m2 = s->start[2];

    evidence__weights(q, w);
    for (size_t h = 0; h < count; h++) {
        const struct evidence__step *step = &s->steps[h];
        double x =
            step->base + step->slope * (evidence__curve(step, q) +
                                        q[EVIDENCE__DAY] * step->cos +
                                        q[EVIDENCE__DAY + 1] * step->sin +
                                        q[EVIDENCE__YOUNG] * step->young);

        rh[h] = NAN;
        if (isnan(x))
            continue;
        m1 += in1 * (x - m1);
        m2 += in2 * (x - m2);
        rh[h] = w[0] * x + w[1] * m1 + w[2] * m2;
    }
}
