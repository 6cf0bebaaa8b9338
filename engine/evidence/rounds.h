/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Houses drawn in rounds, each nearer to what was measured than the one before,
 * and what each of them weighs.  Unknowns z are N(0, 1) each beforehand; of a
 * house that was drawn its misfit r(z) is given, n figures that would be
 * N(0, 1) each were it the true one: its likelihood is exp(-r'r / 2).
 *
 *     evidence__rounds_open
 *     while (evidence__rounds_next(r, &count, err) == DEW_OK && count > 0)
 *         for each of the count: march evidence__rounds_at(r, i), then
 *             evidence__rounds_told(r, i, misfit) or leave it out: no house
 *     evidence__rounds_end
 *
 * A round draws from one density: of directions that the misfits so far say
 * something of, a Student t of TAIL degrees of freedom around where a straight
 * line through the last round's misfits has the most likely house; of all
 * others the one known beforehand.  While that line does not hold the
 * likelihood is taken to a power below 1.  All this only says where to draw:
 * the weight is prior x likelihood / the mixture of all rounds' densities,
 * whatever they are (population Monte Carlo with the deterministic mixture).
 *
 * Where the draws are worth fewer than enough after ROUNDS rounds, others
 * follow, placed by all before, until they are, and FURTHER at most: as many
 * draws again as were asked for.
 *
 * The figures hang on the seed and the number of draws, not on the threads.
 */
#ifndef DEW_EVIDENCE_ROUNDS_H
#define DEW_EVIDENCE_ROUNDS_H

#include <stddef.h>

#include "dew/status.h"

enum {
    EVIDENCE__ROUNDS = 6,
    EVIDENCE__FURTHER = 4,
    EVIDENCE__ALL_ROUNDS = EVIDENCE__ROUNDS + EVIDENCE__FURTHER,
    EVIDENCE__TAIL = 5
};

struct evidence__rounds_ask {
    size_t unknowns; /* 1 ..                                                */
    size_t misfits;  /* 1 ..  n                                             */
    size_t draws;    /* of ROUNDS together; evidence__rounds_least ..       */
    double enough;   /* effective draws that FURTHER are for; 0: for none   */
    unsigned long seed;
    size_t threads;
};

/* With fewer a straight line has too few points; a multiple of 8. */
size_t evidence__rounds_least(size_t unknowns);

/* A density to draw from, in axes of its own: z = axes y. */
struct evidence__spot {
    double *axes;         /* unknowns * unknowns, an axis a column            */
    double *middle, *sd;  /* of y; 0 and 1 where not told                   */
    unsigned char *known; /* 1: the misfits tell of this axis               */
    size_t knowns;
};

struct evidence__rounds {
    struct evidence__rounds_ask ask;
    struct core__random *random;
    size_t draws;    /* of the rounds so far; ROUNDS of them at least        */
    size_t most;     /* that may come of them                                */
    double *z;       /* [most][unknowns]                          */
    double *fits;    /* [most]  logarithm of the likelihood;
                                   -inf: no house                            */
    double *weights; /* [most]  of 1, after the end               */
    struct evidence__spot spots[EVIDENCE__ALL_ROUNDS];
    size_t first[EVIDENCE__ALL_ROUNDS +
                 1]; /* draw of each round                  */
    size_t round; /* being drawn                                            */
    double power
        [EVIDENCE__ALL_ROUNDS]; /* of the likelihood, where it was placed */
    /* of this round: sums over its draws of (1, z) (1, z)', (1, z) r', r'r */
    double *products, *slopes;
    double squares;
    size_t told;
    double effective; /* draws, after the end: (sum w)^2 / sum w^2           */
    double
        log_evidence; /* of the mean likelihood of what is known beforehand */
};

/* Errors: DEW_ERANGE for the draws, DEW_EMEM. */
enum dew_status evidence__rounds_open(struct evidence__rounds **rounds,
                                      const struct evidence__rounds_ask *ask,
                                      struct dew_error *err);
/* Draw the next round; *count is 0 after the last.  Its draws are
   rounds->first[round] on.  Errors: DEW_ESOLVE, where too few were houses. */
enum dew_status evidence__rounds_next(struct evidence__rounds *rounds,
                                      size_t *count, struct dew_error *err);
const double *evidence__rounds_at(const struct evidence__rounds *rounds,
                                  size_t draw);
/* The misfits of count draws from first on, in their order: NULL where a draw
   is no house. */
void evidence__rounds_told(struct evidence__rounds *rounds, size_t first,
                           size_t count, const double *const *misfits);
/* weights, effective and log_evidence. */
void evidence__rounds_end(struct evidence__rounds *rounds);
void evidence__rounds_close(struct evidence__rounds *rounds); /* NULL allowed */

/* Logarithms of the weights of the draws so far, not yet of 1. */
void evidence__rounds_weigh(const struct evidence__rounds *rounds,
                            double *log_weights);

/* ---- aim.c ------------------------------------------------------------------ */

/* Where the next round draws, from this one's sums.  *power: of the
   likelihood. */
enum dew_status evidence__aim(struct evidence__rounds *rounds,
                              struct evidence__spot *spot, double *power,
                              struct dew_error *err);

#endif
