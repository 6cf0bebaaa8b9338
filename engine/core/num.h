/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Numerical methods: thin wrappers, private to engine/.  Only num*.c includes
 * GSL.  GSL answers a broken precondition by a process-wide handler that
 * aborts; so every bracket, range, length and value is checked here first
 * and comes back as a status.
 *
 * Memory     only an _open allocates.  What a wrapper needs inside, it takes
 *            in one block and reports DEW_EMEM.  Three cannot: core__curve_open,
 *            core__fit_open and core__search_valley let GSL allocate, and when there is no memory
 *            then, GSL's handler acts (abort, unless the program turned it
 *            off; then DEW_EMEM).
 * Matrices   row by row, n * n or rows * columns doubles.
 */
#ifndef DEW_CORE_NUM_H
#define DEW_CORE_NUM_H

#include <stddef.h>

#include "dew/status.h"

/* ---- random numbers and Sobol points: num_random.c ---------------------- */

struct core__random;
struct core__sobol;

/*
 * A stream that depends on seed alone: the Mersenne twister MT19937, in
 * integers, so that it is the same on every machine.  Gaussians come by
 * Leva's ratio of uniforms, whose result is a quotient of two of them; a
 * logarithm only accepts or rejects.
 */
enum dew_status core__random_open(struct core__random **random,
                                  unsigned long seed, struct dew_error *err);
size_t core__random_below(struct core__random *random,
                          size_t n);                       /* 0 .. n - 1 */
double core__random_uniform(struct core__random *random);  /* 0 <= x < 1     */
double core__random_gaussian(struct core__random *random); /* mean 0, sd 1   */
void core__random_close(struct core__random *random);      /* NULL allowed   */

enum { CORE__SOBOL_MOST = 40 };

/* Quasi-random points in the unit cube; dimension 1 .. CORE__SOBOL_MOST. */
enum dew_status core__sobol_open(struct core__sobol **sobol, size_t dimension,
                                 struct dew_error *err);
void core__sobol_next(struct core__sobol *sobol, double *point);
void core__sobol_close(struct core__sobol *sobol);

/* ---- ranges and draws: num_draw.c ---------------------------------------- */

/*
 * A figure known as likely, between low and high: the beta distribution of
 * PERT, whose likely value weighs four times an end [MALCOLM59].
 */
struct core__pert {
    double low, likely, high; /* low <= likely <= high, else all is NaN      */
};
/* The value below which that share (0 .. 1) lies. */
double core__pert_at(const struct core__pert *p, double share);
double core__pert_mean(
    const struct core__pert *p); /* (low + 4 likely + high) / 6 */
double core__pert_variance(const struct core__pert *p);

enum { CORE__DRAWS_MOST = 1 << 20 };

/*
 * count points (1 .. CORE__DRAWS_MOST) in a cube of so many columns, by seed
 * alone: Sobol points, all bits of a column turned by the same random ones
 * (digital shift), in the first CORE__SOBOL_MOST columns, and a Latin
 * hypercube in the rest.  A further column leaves those before it as they
 * are.  Take a power of two: each part of a column is then hit alike.  Past the
 * 25th column a few pairs go together in some hundred points.
 */
struct core__draws {
    size_t count, columns;
    unsigned long seed;
};
/* u: count * columns, point by point; each above 0 and below 1. */
enum dew_status core__draw(const struct core__draws *draws, double *u,
                           struct dew_error *err);

/* ---- statistics: num_random.c ------------------------------------------- */

void core__sort(double *x, size_t n); /* ascending; no NaN among them        */

/* Of sorted values, linear between them; share 0 .. 1.  NaN if n is 0. */
double core__quantile(const double *sorted, size_t n, double share);
double core__mean(const double *x, size_t n); /* NaN if n is 0                */
double core__sd(const double *x, size_t n);   /* divides by n - 1; n > 1     */

/* Pearson's r; NaN if n < 2 or one side does not vary. */
double core__correlation(const double *x, const double *y, size_t n);

/* ---- linear algebra: num_linear.c --------------------------------------- */

/*
 * Solve a x = b; b becomes x, a is destroyed.  work: n doubles.
 * Errors: DEW_ESOLVE when a is singular to working precision or not finite.
 * b is changed only on DEW_OK.  By Householder QR; allocates nothing.
 */
enum dew_status core__solve(double *a, double *b, double *work, size_t n,
                            struct dew_error *err);

/* The same for a symmetric positive definite a, by Cholesky: half the work. */
enum dew_status core__solve_spd(double *a, double *b, size_t n,
                                struct dew_error *err);

/*
 * The lower triangle l with l l' = a, in the place of a symmetric positive
 * definite a; above it are zeros.  Errors: DEW_ESOLVE.
 */
enum dew_status core__cholesky(double *a, size_t n, struct dew_error *err);

/*
 * The eigenvalues of a symmetric a, in no order, and their vectors of length
 * 1, column k that of values[k]; by Jacobi's turns.  a is destroyed.
 * Errors: DEW_ESOLVE where a is not finite.
 */
enum dew_status core__eigen(double *a, double *values, double *vectors,
                            size_t n, struct dew_error *err);

/* A linear least-squares problem: minimise |a x - b|. */
struct core__lines {
    size_t rows, columns; /* rows >= columns >= 1                            */
    double *a;            /* rows * columns; destroyed                       */
    const double *b;      /* rows                                            */
};

/* Doubles of work that core__least_squares needs. */
size_t core__least_squares_work(size_t rows, size_t columns);

/*
 * x: columns.  covariance: columns * columns, scaled by the residual
 * variance, or NULL; with rows == columns there is none and it is NaN.
 * Errors: DEW_ESOLVE when the columns are not independent.
 */
enum dew_status core__least_squares(const struct core__lines *lines,
                                    double *work, double *x, double *covariance,
                                    struct dew_error *err);

/* ---- curves through points: num_curve.c --------------------------------- */

struct core__curve;

enum core__curve_kind {
    CORE__LINEAR,   /* n >= 2                                                 */
    CORE__STEFFEN,  /* n >= 3: smooth, no overshoot, extremes only at points  */
    CORE__CUBIC,    /* n >= 3: natural cubic spline                           */
    CORE__PERIODIC, /* n >= 3: periodic cubic spline, y[n - 1] == y[0]        */
};

/*
 * x ascends strictly; x and y are copied.
 * Errors: DEW_ERANGE for x, y or n; DEW_EMEM.
 */
enum dew_status core__curve_open(struct core__curve **curve,
                                 enum core__curve_kind kind, const double *x,
                                 const double *y, size_t n,
                                 struct dew_error *err);
/* Value and slope; NaN outside the points. */
double core__curve_at(const struct core__curve *curve, double x);
double core__curve_slope(const struct core__curve *curve, double x);
void core__curve_close(struct core__curve *curve);

/* ---- one unknown: num_search.c ------------------------------------------ */

struct core__function {
    double (*f)(double x, void *with);
    void *with;
};

/*
 * The root of f in low .. high, where its sign changes, to tolerance in x
 * (absolute, > 0), by Brent's method; at most 200 evaluations.
 * Errors: DEW_ESOLVE when the ends do not bracket, or f is not finite.
 */
enum dew_status core__search_root(const struct core__function *f, double low,
                                  double high, double tolerance, double *root,
                                  struct dew_error *err);

/*
 * The least of f in low .. high, starting inside the bracket at middle with
 * f(middle) below f at both ends, by Brent's method.
 * Errors: DEW_ESOLVE likewise.
 */
struct core__bracket {
    double low, middle, high;
};
enum dew_status core__search_least(const struct core__function *f,
                                   const struct core__bracket *in,
                                   double tolerance, double *x,
                                   struct dew_error *err);

/* ---- several unknowns, without slopes: num_simplex.c ---------------------- */

struct core__valley {
    size_t unknowns; /* >= 1                                               */
    double (*f)(const double *x, void *with);
    void *with;
    double step;      /* > 0   first size of the simplex in each unknown    */
    double tolerance; /* > 0   its size at the end                          */
    int turns;        /* >= 1  at most; where they run out x is as far as it
                         came                                               */
};

/*
 * The lowest point of f near x, by the simplex of Nelder and Mead; where f is
 * not finite it is not lowest.  x: unknowns doubles, changed only on DEW_OK.
 * Errors: DEW_ESOLVE, DEW_ERANGE, DEW_EMEM.
 */
enum dew_status core__search_valley(const struct core__valley *valley,
                                    double *x, struct dew_error *err);

/* ---- nonlinear least squares: num_fit.c --------------------------------- */

struct core__fit;

struct core__residuals {
    size_t count;    /* of residuals, >= unknowns                          */
    size_t unknowns; /* >= 1                                               */
    /* write count residuals at x; return 0, or another number to say that
       there are none at x */
    int (*f)(const double *x, double *residuals, void *with);
    void *with;
};

/*
 * Levenberg-Marquardt with forward differences, one iteration a step, so
 * that progress and stopping are the caller's.  x: unknowns doubles, the
 * start; *r is copied.  done becomes 1 when x moves by less than 1e-8 of
 * itself, the gradient vanishes, or no step improves.
 * Errors: DEW_ESOLVE when f has no residuals at a point, DEW_ERANGE, DEW_EMEM.
 */
enum dew_status core__fit_open(struct core__fit **fit,
                               const struct core__residuals *r, const double *x,
                               struct dew_error *err);
enum dew_status core__fit_step(struct core__fit *fit, int *done,
                               struct dew_error *err);
/* The unknowns as they stand, and the sum of squares; borrowed. */
const double *core__fit_x(const struct core__fit *fit);
double core__fit_squares(const struct core__fit *fit);
/* unknowns * unknowns, scaled by the residual variance; NaN if none is left. */
void core__fit_covariance(const struct core__fit *fit, double *covariance);
void core__fit_close(struct core__fit *fit);

/* ---- the process: num_process.c ----------------------------------------- */

/*
 * Turn GSL's aborting handler off, for the whole process: main's alone to
 * call.  Tests leave it on, so that a missing check here dies loudly.
 */
void core__num_quiet(void);

/* "2.7.1", of the GSL that runs.  Static. */
const char *core__num_version(void);

#endif
