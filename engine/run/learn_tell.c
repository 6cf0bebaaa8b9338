/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the weights of the draws say of each figure. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "run/learn.h"

/* The log tells something of a figure whose normal score it moves by so much,
   or whose spread it makes so much less; it pushes it to an end where less
   than one in twenty was thought beyond.  A pair goes together from such a
   correlation on.  None of it counts below so many of its errors by chance.
   Our own. */
static const double MOVED = 0.45, NARROWED = 0.8, END = 1.645, TOGETHER = 0.4,
                    CHANCE = 4, SKEW = 3;

enum { PAIRS = 10 };

/* ---- a figure ------------------------------------------------------------------- */

struct drawn {
    double z, weight;
};

static int ascending(const void *a, const void *b)
{
    const struct drawn *x = a, *y = b;

    return (x->z > y->z) - (x->z < y->z);
}

static double score(const struct dew_learn *l, size_t draw, size_t column)
{
    return evidence__rounds_at(l->rounds, draw)[column];
}

/* Where that share of the weight is below; x is sorted. */
static double quantile(const struct drawn *x, size_t count, double share)
{
    double below = 0;

    for (size_t i = 0; i < count; i++) {
        below += x[i].weight;
        if (below >= share)
            return x[i].z;
    }
    return x[count - 1].z;
}

static double mean_of(const struct dew_learn *l, size_t column)
{
    double sum = 0;

    for (size_t i = 0; i < l->draws; i++)
        sum += l->rounds->weights[i] * score(l, i, column);
    return sum;
}

/* Of two, or of one and itself. */
static double covariance(const struct dew_learn *l,
                         const struct dew_learn_input *x, size_t a,
                         const struct dew_learn_input *y, size_t b)
{
    double sum = 0;

    for (size_t i = 0; i < l->draws; i++)
        sum += l->rounds->weights[i] * (score(l, i, a) - x->mean) *
               (score(l, i, b) - y->mean);
    return sum;
}

/*
 * A PERT of mean m and sd s whose ends lie a below and b above it has a b = 7
 * s^2 (num.h); a / b is the skew of the quantiles.
 */
static struct dew_measure range_of(const struct dew_learn *l,
                                   const struct dew_spread_input *from,
                                   const struct dew_evidence_range *after)
{
    double sum = 0, squares = 0, sd, skew, mean;
    struct dew_measure out;

    for (size_t i = 0; i < l->draws; i++) {
        double w = l->rounds->weights[i],
               x = w > 1e-9 ? dew_spread_figure(l->doubts, from, i, 0) : 0;

        sum += w * (x - after->p50);
        squares += w * (x - after->p50) * (x - after->p50);
    }
    mean = after->p50 + sum;
    sd = sqrt(fmax(squares - sum * sum, 0));
    skew = (after->p50 - after->p10) / (after->p90 - after->p50);
    skew = isfinite(skew) ? fmin(fmax(skew, 1 / SKEW), SKEW) : 1;
    out.low =
        fmax(mean - sd * sqrt(7 * skew), run__spread_at(l->doubts, from, 0, 0));
    out.high =
        fmin(mean + sd * sqrt(7 / skew), run__spread_at(l->doubts, from, 0, 1));
    out.si = fmin(fmax((6 * mean - out.low - out.high) / 4, out.low), out.high);
    return out;
}

static void tell_input(const struct dew_learn *l,
                       const struct dew_spread_input *from, struct drawn *room,
                       struct dew_learn_input *to)
{
    static const double shares[] = {0.1, 0.5, 0.9};
    double *before[] = {&to->before.p10, &to->before.p50, &to->before.p90},
           *after[] = {&to->after.p10, &to->after.p50, &to->after.p90},
           *scores[] = {&to->score.p10, &to->score.p50, &to->score.p90};

    *to = (struct dew_learn_input){.key = from->key,
                                   .usual = from->usual,
                                   .how = run__spread_how(l->doubts, from, 0)};
    for (size_t i = 0; i < l->draws; i++)
        room[i] =
            (struct drawn){score(l, i, from->column), l->rounds->weights[i]};
    qsort(room, l->draws, sizeof *room, ascending);
    for (int k = 0; k < 3; k++) {
        *before[k] = run__spread_at(l->doubts, from, 0, shares[k]);
        *scores[k] = quantile(room, l->draws, shares[k]);
        *after[k] =
            run__spread_at(l->doubts, from, 0, run__learn_share(*scores[k]));
    }
    to->mean = mean_of(l, from->column);
    to->sd = sqrt(covariance(l, to, from->column, to, from->column));
    to->moved =
        fabs(to->mean) > fmax(MOVED, CHANCE / sqrt(l->rounds->effective)) ||
        to->sd < fmin(NARROWED, 1 - CHANCE / sqrt(2 * l->rounds->effective));
    if (to->moved && to->how != DEW_DOUBT_WORDS)
        to->left = range_of(l, from, &to->after);
    to->end = to->score.p50 > END ? 1 : to->score.p50 < -END ? -1 : 0;
}

/* ---- pairs ------------------------------------------------------------------------ */

/* Put a pair where it belongs, the strongest first. */
static void put(struct dew_learn *l, struct dew_learn_pair pair)
{
    size_t k = l->pair_count < PAIRS ? l->pair_count++ : PAIRS;

    for (; k > 0 && fabs(l->pairs[k - 1].r) < fabs(pair.r); k--)
        if (k < PAIRS)
            l->pairs[k] = l->pairs[k - 1];
    if (k < PAIRS)
        l->pairs[k] = pair;
}

/* columns: of each input. */
static void find_pairs(struct dew_learn *l, const size_t *columns)
{
    double least = fmax(TOGETHER, CHANCE / sqrt(l->learned.effective));

    for (size_t a = 0; a < l->input_count; a++)
        for (size_t b = 0; b < a; b++) {
            const struct dew_learn_input *x = &l->inputs[a], *y = &l->inputs[b];
            double r =
                covariance(l, x, columns[a], y, columns[b]) / (x->sd * y->sd);

            if (fabs(r) >= least)
                put(l, (struct dew_learn_pair){.a = b, .b = a, .r = r});
        }
}

/* ---- all --------------------------------------------------------------------------- */

static void tell_whole(struct dew_learn *l)
{
    struct dew_learned *to = &l->learned;
    const struct evidence__rounds *r = l->rounds;
    size_t best = 0, hours = 0;

    if (l->run->year != NULL)
        (void)dew_year_hours(l->run->year, &hours);
    *to = (struct dew_learned){.draws = l->draws,
                               .further = l->draws - l->asked,
                               .effective = r->effective,
                               .readings = l->seen.count,
                               .days = (double)l->hours.weigh,
                               .noise = l->noise,
                               .cooled = l->hours.cooled,
                               .told_run = l->hours.told_run,
                               .told_fan = l->hours.told_fan,
                               .typical = l->hours.typical,
                               .yearly = hours >= DEW_MARCH_YEAR,
                               .likely = l->near[0]};
    for (size_t i = 0; i < l->draws; i++) {
        if (isnan(l->near[1 + i].rmse))
            continue;
        to->houses++;
        to->after.rmse += r->weights[i] * l->near[1 + i].rmse;
        to->after.bias += r->weights[i] * l->near[1 + i].bias;
        if (r->fits[i] > r->fits[best])
            best = i;
    }
    to->best = l->near[1 + best];
    to->innovation = sqrt(-2 * r->fits[best] / to->days);
    if (to->readings == 0)
        to->reach = to->after.bias /
                    (l->noise.slow *
                     sqrt(run__learn_mean(l->noise.slow_hours / to->days)));
    to->told = to->effective >= DEW_LEARN_ENOUGH &&
               to->innovation <= DEW_LEARN_INNOVATION &&
               fabs(to->reach) <= DEW_LEARN_REACH;
}

static enum dew_status tell_inputs(struct dew_learn *l, struct drawn *room,
                                   size_t *columns, struct dew_error *err)
{
    const struct dew_spread *s = l->doubts;

    l->inputs = calloc(s->columns + 1, sizeof *l->inputs);
    l->pairs = calloc(PAIRS, sizeof *l->pairs);
    if (room == NULL || columns == NULL || l->inputs == NULL ||
        l->pairs == NULL)
        return core__fail(err, DEW_EMEM, "no memory for what was learned");
    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].why == DEW_SPREAD_DRAWN) {
            columns[l->input_count] = s->inputs[k].column;
            tell_input(l, &s->inputs[k], room, &l->inputs[l->input_count++]);
        }
    find_pairs(l, columns);
    return DEW_OK;
}

enum dew_status run__learn_tell(struct dew_learn *l, struct dew_error *err)
{
    struct drawn *room = calloc(l->draws, sizeof *room);
    size_t *columns = calloc(l->doubts->columns + 1, sizeof *columns);
    enum dew_status status;

    tell_whole(l);
    status = tell_inputs(l, room, columns, err);
    free(room);
    free(columns);
    return status;
}
