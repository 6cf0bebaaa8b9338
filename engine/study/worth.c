/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/worth.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "core/smooth.h"

_Static_assert((int)DEW_WORTH_TOGETHER == CORE__SMOOTH_INPUTS &&
                   (int)DEW_WORTH_OPTIONS == CORE__SMOOTH_RESPONSES &&
                   (int)DEW_WORTH_LEAST == CORE__SMOOTH_LEAST,
               "the limits of a fit");

enum { SHUFFLES = 99, SEED = 2014 };

struct dew_worth {
    size_t draws, options, best;
    double *more; /* [draws][options]  loss above that of the best           */
    double *fit;  /* [draws][options]  of more, expected                     */
    size_t *choice;    /* [draws]                                            */
    uint32_t *shuffle; /* [SHUFFLES][draws]                                  */
};

/* ---- opening ------------------------------------------------------------------- */

static enum dew_status check(const struct dew_worth_table *of,
                             struct dew_error *err)
{
    if (of->draws < DEW_WORTH_LEAST || of->draws > UINT32_MAX ||
        of->options < 1 || of->options > DEW_WORTH_OPTIONS)
        return core__fail(err, DEW_ERANGE,
                          "losses of %zu options in %zu draws are outside "
                          "1 .. %d and %d or more",
                          of->options, of->draws, DEW_WORTH_OPTIONS,
                          DEW_WORTH_LEAST);
    for (size_t i = 0; i < of->draws * of->options; i++)
        if (!isfinite(of->loss[i]))
            return core__fail(err, DEW_ERANGE,
                              "the loss of option %zu in draw %zu is no number",
                              i % of->options + 1, i / of->options + 1);
    return DEW_OK;
}

static double mean_of(const double *table, size_t draws, size_t options,
                      size_t option)
{
    double sum = 0;

    for (size_t i = 0; i < draws; i++)
        sum += table[i * options + option];
    return sum / (double)draws;
}

static void fill(struct dew_worth *w, const double *loss)
{
    for (size_t d = 1; d < w->options; d++)
        if (mean_of(loss, w->draws, w->options, d) <
            mean_of(loss, w->draws, w->options, w->best))
            w->best = d;
    for (size_t i = 0; i < w->draws; i++)
        for (size_t d = 0; d < w->options; d++)
            w->more[i * w->options + d] =
                loss[i * w->options + d] - loss[i * w->options + w->best];
}

static enum dew_status shuffle(struct dew_worth *w, struct dew_error *err)
{
    struct core__random *random;
    enum dew_status status = core__random_open(&random, SEED, err);

    if (status != DEW_OK)
        return status;
    for (size_t r = 0; r < SHUFFLES; r++) {
        uint32_t *order = w->shuffle + r * w->draws;

        for (size_t i = 0; i < w->draws; i++) {
            size_t k = core__random_below(random, i + 1);

            order[i] = order[k];
            order[k] = (uint32_t)i;
        }
    }
    core__random_close(random);
    return DEW_OK;
}

enum dew_status dew_worth_open(struct dew_worth **worth,
                               const struct dew_worth_table *of,
                               struct dew_error *err)
{
    struct dew_worth *w;
    enum dew_status status = check(of, err);
    size_t cells = of->draws * of->options;

    *worth = NULL;
    if (status != DEW_OK)
        return status;
    w = calloc(1, sizeof *w);
    if (w == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu losses", cells);
    *w = (struct dew_worth){
        .draws = of->draws,
        .options = of->options,
        .more = calloc(cells, sizeof *w->more),
        .fit = calloc(cells, sizeof *w->fit),
        .choice = calloc(of->draws, sizeof *w->choice),
        .shuffle = calloc(SHUFFLES * of->draws, sizeof *w->shuffle)};
    status = w->more != NULL && w->fit != NULL && w->choice != NULL &&
                     w->shuffle != NULL
                 ? shuffle(w, err)
                 : core__fail(err, DEW_EMEM, "no memory for %zu losses", cells);
    if (status != DEW_OK) {
        dew_worth_close(w);
        return status;
    }
    fill(w, of->loss);
    *worth = w;
    return DEW_OK;
}

void dew_worth_close(struct dew_worth *w)
{
    if (w == NULL)
        return;
    free(w->more);
    free(w->fit);
    free(w->choice);
    free(w->shuffle);
    free(w);
}

/* ---- without regression --------------------------------------------------------- */

size_t dew_worth_best(const struct dew_worth *w)
{
    return w->best;
}

/* The option of least excess in a row of a table; the best, if none is less. */
static size_t least_of(const struct dew_worth *w, const double *row)
{
    size_t least = w->best;

    for (size_t d = 0; d < w->options; d++)
        if (row[d] < row[least])
            least = d;
    return least;
}

double dew_worth_perfect(const struct dew_worth *w)
{
    double sum = 0;

    for (size_t i = 0; i < w->draws; i++) {
        const double *row = w->more + i * w->options;

        sum -= row[least_of(w, row)];
    }
    return sum / (double)w->draws;
}

/* ---- with it ---------------------------------------------------------------------- */

/* What the options chosen by a fit save, where x is in that order. */
static enum dew_status value(struct dew_worth *w, struct core__smooth *smooth,
                             const uint32_t *order, struct dew_worth_gain *g,
                             struct dew_error *err)
{
    enum dew_status status =
        core__smooth_left_out(smooth, w->more, order, w->fit, err);
    double n = (double)w->draws, sum = 0, squares = 0;
    size_t turned = 0;

    for (size_t i = 0; i < w->draws && status == DEW_OK; i++) {
        size_t chosen = least_of(w, w->fit + i * w->options);
        double saved = -w->more[i * w->options + chosen];

        w->choice[i] = chosen;
        turned += chosen != w->best;
        sum += saved;
        squares += saved * saved;
    }
    *g = (struct dew_worth_gain){
        .value = sum / n,
        .error = sqrt(fmax(0, squares / n - sum / n * (sum / n)) / (n - 1)),
        .turned = (double)turned / n};
    return status;
}

/* The highest that a shuffled one reaches; no more are tried than it takes. */
static enum dew_status chance(struct dew_worth *w, struct core__smooth *smooth,
                              struct dew_worth_gain *g, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t r = 0; r < SHUFFLES && status == DEW_OK && g->value > g->chance;
         r++) {
        struct dew_worth_gain by_luck;

        status = value(w, smooth, w->shuffle + r * w->draws, &by_luck, err);
        g->chance = fmax(g->chance, by_luck.value);
    }
    g->told = g->value > g->chance;
    return status;
}

enum dew_status dew_worth_of(struct dew_worth *w, const double *const *x,
                             size_t count, struct dew_worth_gain *gain,
                             struct dew_error *err)
{
    struct core__smoothing of = {
        .n = w->draws, .inputs = count, .responses = w->options};
    struct dew_worth_gain again;
    struct core__smooth *smooth;
    enum dew_status status;

    for (size_t k = 0; k < count && k < CORE__SMOOTH_INPUTS; k++)
        of.x[k] = x[k];
    status = core__smooth_open(&smooth, &of, err);
    if (status == DEW_OK)
        status = value(w, smooth, NULL, gain, err);
    if (status == DEW_OK)
        status = chance(w, smooth, gain, err);
    if (status == DEW_OK)
        status = value(w, smooth, NULL, &again, err); /* its choices        */
    core__smooth_close(smooth);
    return status;
}

const size_t *dew_worth_choice(const struct dew_worth *w)
{
    return w->choice;
}

double dew_worth_explained(const double *x, const double *y, size_t draws,
                           struct dew_error *err)
{
    const struct core__smoothing of = {
        .n = draws, .inputs = 1, .responses = 1, .x = {x}};
    double *fit = malloc(draws * sizeof *fit), rest = 0, all = 0;
    double mean = core__mean(y, draws);
    struct core__smooth *smooth = NULL;
    enum dew_status status =
        fit != NULL ? core__smooth_open(&smooth, &of, err)
                    : core__fail(err, DEW_EMEM, "no memory for a fit");

    if (status == DEW_OK)
        status = core__smooth_left_out(smooth, y, NULL, fit, err);
    for (size_t i = 0; i < draws && status == DEW_OK; i++) {
        rest += (y[i] - fit[i]) * (y[i] - fit[i]);
        all += (y[i] - mean) * (y[i] - mean);
    }
    core__smooth_close(smooth);
    free(fit);
    return all > 0 ? 1 - rest / all : NAN;
}
