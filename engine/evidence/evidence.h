/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The parts of an evidence, in the order they are used: what is known
 * beforehand (prior.c), the house (series.c), what it does beside (whiten.c);
 * learn.c brings them together, foretell.c tells the hours and holds them to
 * the log.  Humidities are in % RH here, missing ones NaN.
 */
#ifndef DEW_EVIDENCE_EVIDENCE_H
#define DEW_EVIDENCE_EVIDENCE_H

#include "dew/evidence.h"

enum { /* the unknowns, in their order */
       EVIDENCE__CURVE = 0,
       EVIDENCE__Z = EVIDENCE__CURVE + DEW_EVIDENCE_NODES,
       EVIDENCE__DAY = EVIDENCE__Z + 2,
       EVIDENCE__YOUNG = EVIDENCE__DAY + 2,
       EVIDENCE__MOST = DEW_EVIDENCE_UNKNOWNS,
       EVIDENCE__NOISES = 5
};

/* ---- prior.c: what is known beforehand ------------------------------------ */

/* Gaussian: q = mean + root u, u of N(0, 1) each; the lower triangle. */
struct evidence__prior {
    size_t count; /* of unknowns: one less in an old house                  */
    double mean[EVIDENCE__MOST];
    double root[EVIDENCE__MOST * EVIDENCE__MOST];
};
enum dew_status evidence__prior(const struct dew_evidence_ask *ask,
                                struct evidence__prior *prior,
                                struct dew_error *err);
void evidence__unknowns(const struct evidence__prior *prior, const double *u,
                        double q[EVIDENCE__MOST]);

/* Pa2   how far nodes i and j of the curve go from a straight level together:
   what habits make of it from cold to warm. */
double evidence__bend(size_t i, size_t j);
/* Pa2   the same at two outdoor temperatures, but for what is each node's own. */
double evidence__bend_at(double a, double b);

/* Logarithms of the figures of the noise: mean and sd of each. */
extern const double evidence__noise_mean[EVIDENCE__NOISES];
extern const double evidence__noise_sd[EVIDENCE__NOISES];
struct dew_evidence_noise evidence__noise_of(const double ln[EVIDENCE__NOISES]);

/* ---- series.c: the house ---------------------------------------------------- */

/* What of an hour does not change with the unknowns. */
struct evidence__step {
    double base;  /* % RH     of the outdoor vapour at t_in; NaN: not had    */
    double slope; /* % RH/Pa  100 / pws(t_in)                                */
    double mean6; /* degC     outdoors, mean of 6 h, kept within its ends    */
    double share; /* of the way from node to node + 1; beyond 0 .. 1 outside */
    double cos, sin, young;
    int node;
};

struct evidence__series {
    size_t count, until;
    const struct dew_evidence_hour *hours;
    struct evidence__step *steps; /* count                                  */
    double start[DEW_EVIDENCE_MEMORIES]; /* % RH                            */
};
void evidence__series(struct evidence__series *s);
/* Where on the curve a mean of 6 h is: mean6, node, share. */
void evidence__place(struct evidence__step *step, double mean6);

/* Pa at an hour of the curve alone. */
double evidence__curve(const struct evidence__step *step, const double *q);

void evidence__weights(const double *q, double w[DEW_EVIDENCE_MEMORIES]);

/* What the house does in hours 0 .. count - 1, % RH. */
void evidence__house(const struct evidence__series *s, const double *q,
                     size_t count, double *rh);

/* ---- whiten.c: what it does beside ------------------------------------------ */

struct evidence__state {
    double slow, quick; /* % RH                                 */
    double ss, sq, qq;  /* their covariance                     */
};

struct evidence__white {
    size_t count;   /* innovations                                      */
    double squares; /* their sum                                        */
    double log_det; /* sum of the logarithms of their variances         */
    struct evidence__state end;
};

/*
 * The standardised innovations of rest, count hours of which those that are
 * NaN are left out, into out (may be NULL).  A Kalman filter of two states.
 */
struct evidence__white evidence__whiten(const struct dew_evidence_noise *noise,
                                        const double *rest, size_t count,
                                        double *out);

/* What is left of a state after so many hours, and its variance, with the
   white part. */
double evidence__later(const struct dew_evidence_noise *noise,
                       const struct evidence__state *end, double hours,
                       double *variance);

/* ---- learn.c ------------------------------------------------------------------ */

struct dew_evidence {
    struct evidence__series series;
    struct evidence__prior prior;
    double u[EVIDENCE__MOST];                   /* q = mean + root u          */
    double cu[EVIDENCE__MOST * EVIDENCE__MOST]; /* covariance of u          */
    double ln[EVIDENCE__NOISES];
    struct evidence__white white;
    struct dew_evidence_learned learned;
    struct dew_evidence_told *told; /* count                      */
    double *rest, *again, *model;   /* count each: room           */
};

/* u, cu, ln, white from the hours before until. */
enum dew_status evidence__learn(struct dew_evidence *e, struct dew_error *err);

/* 1: the log of that hour, before until, was learned from. */
int evidence__learned_from(const struct dew_evidence *e, size_t h);

/* What the habits are at the last hour learned from, of those that it was
   learned from, where the house alone did rh; of that the hours before until
   are used up. */
struct evidence__state evidence__end(const struct dew_evidence *e,
                                     const struct dew_evidence_hour *hours,
                                     double *rh);

/* ---- foretell.c ---------------------------------------------------------------- */

/* The sd that a season not seen adds, far hours after the last learned from. */
double evidence__unseen(const struct evidence__step *step, const double *q,
                        double far);

enum dew_status evidence__foretell(struct dew_evidence *e,
                                   struct dew_error *err);
enum dew_status evidence__score(struct dew_evidence *e, struct dew_error *err);

/* ---- evidence.c --------------------------------------------------------------- */

/* Of n figures, which are sorted. */
struct dew_evidence_range evidence__range(double *x, size_t n);

#endif
