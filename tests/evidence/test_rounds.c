/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rounds of draws and their weights, where the answer has a closed form. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/num.h"
#include "evidence/rounds.h"
#include "support/rows.h"

enum { UNKNOWNS = 4, MISFITS = 40, DRAWS = 2048 };

/* r = y - G z */
struct linear {
    double g[MISFITS][UNKNOWNS], y[MISFITS];
};

static struct linear made_linear(unsigned long seed, double size)
{
    static const double truth[UNKNOWNS] = {1.31, -0.62, 0.17, 0.0};
    /* the third hardly shows, the fourth is the second's twin */
    static const double shows[UNKNOWNS] = {1.0, 0.4, 0.03, 0.4};
    struct linear l;
    struct core__random *r;

    assert_int_equal(core__random_open(&r, seed, NULL), DEW_OK);
    for (int h = 0; h < MISFITS; h++) {
        l.y[h] = core__random_gaussian(r);
        for (int k = 0; k < UNKNOWNS; k++) {
            l.g[h][k] = size * shows[k] * core__random_gaussian(r);
            if (k == 3)
                l.g[h][3] = 0.98 * l.g[h][1] + 0.1 * l.g[h][3];
            l.y[h] += l.g[h][k] * truth[k];
        }
    }
    core__random_close(r);
    return l;
}

/* What it leaves of the unknowns: mean, covariance; and its evidence. */
struct answer {
    double mean[UNKNOWNS], cov[UNKNOWNS][UNKNOWNS], log_evidence;
};

static struct answer closed_form(const struct linear *l)
{
    double a[UNKNOWNS * UNKNOWNS] = {0}, root[UNKNOWNS * UNKNOWNS];
    double b[UNKNOWNS] = {0};
    struct answer out = {.log_evidence = 0};

    for (int i = 0; i < UNKNOWNS; i++) {
        for (int j = 0; j < UNKNOWNS; j++) {
            a[i * UNKNOWNS + j] = i == j;
            for (int h = 0; h < MISFITS; h++)
                a[i * UNKNOWNS + j] += l->g[h][i] * l->g[h][j];
        }
        for (int h = 0; h < MISFITS; h++)
            b[i] += l->g[h][i] * l->y[h];
    }
    memcpy(root, a, sizeof a);
    assert_int_equal(core__cholesky(root, UNKNOWNS, NULL), DEW_OK);
    for (int i = 0; i < UNKNOWNS; i++)
        out.log_evidence -= log(root[i * UNKNOWNS + i]);
    for (int h = 0; h < MISFITS; h++)
        out.log_evidence -= 0.5 * l->y[h] * l->y[h];
    for (int k = 0; k <= UNKNOWNS; k++) {
        double x[UNKNOWNS], m[UNKNOWNS * UNKNOWNS];

        for (int i = 0; i < UNKNOWNS; i++)
            x[i] = k < UNKNOWNS ? i == k : b[i];
        memcpy(m, a, sizeof a);
        assert_int_equal(core__solve_spd(m, x, UNKNOWNS, NULL), DEW_OK);
        for (int i = 0; i < UNKNOWNS; i++)
            if (k < UNKNOWNS)
                out.cov[k][i] = x[i];
            else {
                out.mean[i] = x[i];
                out.log_evidence += 0.5 * x[i] * b[i];
            }
    }
    return out;
}

/* ---- drawn ------------------------------------------------------------------------- */

typedef int misfit(const void *of, const double *z, double *r);

static int linear_misfit(const void *of, const double *z, double *r)
{
    const struct linear *l = of;

    for (int h = 0; h < MISFITS; h++) {
        r[h] = l->y[h];
        for (int k = 0; k < UNKNOWNS; k++)
            r[h] -= l->g[h][k] * z[k];
    }
    return 1;
}

static struct evidence__rounds *drawn(const struct evidence__rounds_ask *ask,
                                      misfit *f, const void *of)
{
    struct evidence__rounds *r;
    double *room = calloc(ask->misfits, sizeof *room);
    struct dew_error err = {0};
    size_t count;

    assert_non_null(room);
    assert_int_equal(evidence__rounds_open(&r, ask, NULL), DEW_OK);
    for (;;) {
        if (evidence__rounds_next(r, &count, &err) != DEW_OK)
            fail_msg("round %zu: %s", r->round, err.text);
        if (count == 0)
            break;
        for (size_t i = r->first[r->round]; i < r->first[r->round + 1]; i++) {
            const double *x =
                f(of, evidence__rounds_at(r, i), room) ? room : NULL;

            evidence__rounds_told(r, i, 1, &x);
        }
    }
    evidence__rounds_end(r);
    free(room);
    return r;
}

static double mean_of(const struct evidence__rounds *r, size_t k)
{
    double s = 0;

    for (size_t i = 0; i < r->draws; i++)
        s += r->weights[i] * evidence__rounds_at(r, i)[k];
    return s;
}

static double covariance_of(const struct evidence__rounds *r, size_t j,
                            size_t k)
{
    double s = 0, a = mean_of(r, j), b = mean_of(r, k);

    for (size_t i = 0; i < r->draws; i++)
        s += r->weights[i] * (evidence__rounds_at(r, i)[j] - a) *
             (evidence__rounds_at(r, i)[k] - b);
    return s;
}

static void check_linear(double size, double enough, double effective)
{
    for (unsigned long seed = 1; seed <= 3; seed++) {
        const struct linear l = made_linear(40 + seed, size);
        const struct answer a = closed_form(&l);
        const struct evidence__rounds_ask ask = {UNKNOWNS, MISFITS, DRAWS,
                                                 enough,   seed,    1};
        struct evidence__rounds *r = drawn(&ask, linear_misfit, &l);

        assert_int_equal(r->draws, enough > DRAWS ? 2 * DRAWS : DRAWS);
        assert_true(r->effective > effective);
        assert_near(r->log_evidence, a.log_evidence, 0.1);
        for (size_t i = 0; i < UNKNOWNS; i++) {
            assert_near(mean_of(r, i), a.mean[i], 0.15 * sqrt(a.cov[i][i]));
            for (size_t j = 0; j < UNKNOWNS; j++)
                assert_near(covariance_of(r, i, j), a.cov[i][j],
                            0.12 * sqrt(a.cov[i][i] * a.cov[j][j]));
        }
        evidence__rounds_close(r);
    }
}

TEST(what_is_left_of_a_linear_house_is_the_closed_form)
{
    check_linear(0.3, 0, 1000);
}

/* 1e-3 of what was thought possible, or less: the first round has no house
   anywhere near. */
TEST(so_it_is_where_the_log_tells_a_thousand_times_more)
{
    check_linear(300, 0, 700);
}

/* Misfits that move with one unknown of four, where half of what is known
   beforehand would not do, and with nothing else: chance, 4000 times. */
TEST(chance_in_many_misfits_is_not_taken_for_a_slope)
{
    enum { WIDE = 4000 };
    static const double moves = 40, at = 1.31; /* J'J; where r0 + J z is 0 */
    static double misfits[WIDE];
    const double *x = misfits, each = sqrt(moves / WIDE);
    const struct evidence__rounds_ask ask = {UNKNOWNS, WIDE, DRAWS, 0, 3, 1};
    const struct evidence__spot *s;
    struct evidence__rounds *r;
    struct core__random *rest;
    double middle = 0;
    size_t count;

    assert_int_equal(core__random_open(&rest, 97, NULL), DEW_OK);
    assert_int_equal(evidence__rounds_open(&r, &ask, NULL), DEW_OK);
    assert_int_equal(evidence__rounds_next(r, &count, NULL), DEW_OK);
    for (size_t i = 0; i < count; i++) {
        for (int h = 0; h < WIDE; h++)
            misfits[h] = each * (evidence__rounds_at(r, i)[0] - at) +
                         core__random_gaussian(rest);
        evidence__rounds_told(r, i, 1, &x);
    }
    assert_int_equal(evidence__rounds_next(r, &count, NULL), DEW_OK);
    s = &r->spots[1];
    assert_int_equal(s->knowns, 1);
    for (size_t k = 0; k < UNKNOWNS; k++)
        if (s->known[k]) {
            double stiff = 1 + r->power[1] * moves;

            assert_true(stiff > 2);
            assert_near(s->sd[k], 1.15 / sqrt(stiff), 0.02 / sqrt(stiff));
            middle = s->axes[k] * s->middle[k]; /* along the first unknown */
            assert_near(middle, at * (1 - 1 / stiff), 0.05);
        }
    evidence__rounds_close(r);
    core__random_close(rest);
}

/* ---- not linear ---------------------------------------------------------------------- */

/* A source that is known to a factor, and shows in a thousand hours. */
enum { HOURS = 1000 };
static const double SEEN = 2.4;

static int curved_misfit(const void *of, const double *z, double *r)
{
    static double sines[HOURS];
    const double source = exp(0.7 * z[0] + 0.2 * z[1]);

    (void)of;
    for (int h = 1; h < HOURS && !(sines[h] < 0 || sines[h] > 0); h++)
        sines[h] = sin(h);
    for (int h = 0; h < HOURS; h++)
        r[h] = (SEEN + 0.31 * sines[h] - source) / 0.9;
    return z[1] < 1.2; /* beyond it is no house */
}

/* By a grid, of z[0]: mean and sd. */
static void by_grid(double *mean, double *sd)
{
    double r[HOURS], sum = 0, s1 = 0, s2 = 0, most = -INFINITY;

    for (int pass = 0; pass < 2; pass++)
        for (double x = -2; x < 4; x += 0.004)
            for (int i = 0; i < 124; i++) {
                const double y = -5 + 0.05 * i, z[2] = {x, y + 0.025};
                double e = exp(0.7 * z[0] + 0.2 * z[1]), f;

                /* the mean of the sines, and their sum of squares, once */
                if (pass == 0 && sum == 0) {
                    curved_misfit(NULL, z, r);
                    sum = 1;
                    s1 = s2 = 0;
                    for (int h = 0; h < HOURS; h++)
                        s1 += 0.31 * sin(h) / HOURS;
                }
                f = -0.5 * HOURS * (SEEN + s1 - e) * (SEEN + s1 - e) / 0.81 -
                    0.5 * (z[0] * z[0] + z[1] * z[1]);
                if (pass == 0)
                    most = fmax(most, f);
                else {
                    mean[0] += exp(f - most) * z[0];
                    sd[0] += exp(f - most) * z[0] * z[0];
                    s2 += exp(f - most);
                }
            }
    mean[0] /= s2;
    sd[0] = sqrt(sd[0] / s2 - mean[0] * mean[0]);
}

TEST(where_it_is_not_linear_a_grid_has_the_same)
{
    const struct evidence__rounds_ask ask = {2, HOURS, 1024, 0, 7, 2};
    struct evidence__rounds *r = drawn(&ask, curved_misfit, NULL);
    double mean = 0, sd = 0;

    by_grid(&mean, &sd);
    assert_true(r->effective > 150);
    assert_near(mean_of(r, 0), mean, 0.2 * sd);
    assert_near(sqrt(covariance_of(r, 0, 0)), sd, 0.12 * sd);
    for (size_t i = 0; i < r->draws; i++)
        if (evidence__rounds_at(r, i)[1] >= 1.2)
            assert_near(r->weights[i], 0, 0);
    evidence__rounds_close(r);
}

/* ---- effective draws ------------------------------------------------------------------- */

static int nothing(const void *of, const double *z, double *r)
{
    (void)of;
    r[0] = 0;
    return z[0] < 0.6744897502; /* three of four */
}

TEST(a_log_that_tells_nothing_leaves_every_house_its_weight)
{
    const struct evidence__rounds_ask ask = {3, 1, 2048, 0, 5, 1};
    struct evidence__rounds *r = drawn(&ask, nothing, NULL);
    size_t houses = 0;

    for (size_t i = 0; i < r->draws; i++)
        houses += evidence__rounds_at(r, i)[0] < 0.6744897502;
    assert_near(r->effective, (double)houses, 1e-6);
    assert_near(r->effective / 2048, 0.75, 0.03);
    assert_near(r->log_evidence, log((double)houses / 2048), 1e-9);
    evidence__rounds_close(r);
}

/* ---- further rounds -------------------------------------------------------------------- */

TEST(it_goes_on_while_the_draws_are_worth_too_little_and_no_longer)
{
    struct evidence__rounds_ask ask = {2, HOURS, 512, 0, 7, 1};
    struct evidence__rounds *r = drawn(&ask, curved_misfit, NULL);
    const double had = r->effective;

    assert_int_equal(r->draws, 512);
    evidence__rounds_close(r);
    ask.enough = had - 1; /* is had */
    r = drawn(&ask, curved_misfit, NULL);
    assert_int_equal(r->draws, 512);
    assert_near(r->effective, had, 0);
    evidence__rounds_close(r);
    ask.enough = had + 1; /* one round has it */
    r = drawn(&ask, curved_misfit, NULL);
    assert_int_equal(r->draws, 512 + 128);
    assert_true(r->effective > had + 1);
    evidence__rounds_close(r);
    ask.enough = 1e9; /* never */
    r = drawn(&ask, curved_misfit, NULL);
    assert_int_equal(r->draws, 2 * 512);
    assert_int_equal(r->first[r->round + 1], 2 * 512);
    assert_true(r->effective > 1.4 * had);
    evidence__rounds_close(r);
}

TEST(gone_on_with_it_is_the_closed_form_still)
{
    check_linear(0.3, 1e9, 1500);
    check_linear(300, 1e9, 1400);
}

static double evidence_of(size_t draws, double enough, unsigned long seed)
{
    const struct evidence__rounds_ask ask = {2, HOURS, draws, enough, seed, 1};
    struct evidence__rounds *r = drawn(&ask, curved_misfit, NULL);
    double out = r->log_evidence;

    evidence__rounds_close(r);
    return out;
}

/* Each draw weighs by all rounds' densities, those that followed among them:
   else the mean of the weights is not the evidence. */
TEST(rounds_that_follow_are_in_the_mixture)
{
    enum { SEEDS = 120 };
    double many = evidence_of(16384, 0, 3), mean = 0;

    for (unsigned long seed = 1; seed <= SEEDS; seed++)
        mean += evidence_of(240, 1e9, seed) / SEEDS;
    assert_near(mean, many, 0.02);
}

/* Rounds that are placed by few draws, whose weights they then change: on the
   mean over many seeds they must be neither beside the grid nor surer. */
TEST(rounds_placed_by_few_draws_do_not_pull_their_weights)
{
    enum { SEEDS = 120 };
    double mean = 0, sd = 0, off = 0, wide = 0, rms = 0;

    by_grid(&mean, &sd);
    for (unsigned long seed = 1; seed <= SEEDS; seed++) {
        const struct evidence__rounds_ask ask = {2, HOURS, 240, 1e9, seed, 1};
        struct evidence__rounds *r = drawn(&ask, curved_misfit, NULL);
        double z = (mean_of(r, 0) - mean) / sd;

        assert_int_equal(r->draws, 480);
        off += z / SEEDS;
        rms += z * z / SEEDS;
        wide += covariance_of(r, 0, 0) / (sd * sd) / SEEDS;
        evidence__rounds_close(r);
    }
    assert_true(sqrt(rms) < 0.1);
    assert_near(off, 0, 3 * sqrt(rms / SEEDS));
    assert_near(wide, 1, 0.03);
}

TEST(threads_change_nothing)
{
    const struct evidence__rounds_ask one = {2, HOURS, 512, 1e9, 7, 1},
                                      many = {2, HOURS, 512, 1e9, 7, 2};
    struct evidence__rounds *a = drawn(&one, curved_misfit, NULL),
                            *b = drawn(&many, curved_misfit, NULL);

    for (size_t i = 0; i < a->ask.draws; i++)
        assert_near(a->weights[i], b->weights[i], 0);
    evidence__rounds_close(a);
    evidence__rounds_close(b);
}

TEST(too_few_draws_are_refused)
{
    struct evidence__rounds_ask ask = {30, 10, 600, 50, 1, 1};
    struct evidence__rounds *r;
    struct dew_error err = {0};

    assert_int_equal(evidence__rounds_open(&r, &ask, &err), DEW_ERANGE);
    assert_null(r);
    assert_string_equal(err.text, "600 houses are too few to learn 30 figures "
                                  "from: 608 at least");
}

RUN_TESTS("rounds");
