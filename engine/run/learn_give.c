/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The houses that a log leaves in the place of a spread's draws. */
#include <stdlib.h>

#include "core/fail.h"
#include "run/learn.h"

size_t run__learn_pick(const struct dew_learn *l, size_t cause, double weight,
                       size_t count, size_t *draws)
{
    double below = 0;
    size_t n = 0;

    for (size_t d = 0; d < l->draws; d++) {
        if (run__learn_has(l, d, cause))
            below += l->rounds->weights[d] / weight;
        while (n < count && ((double)n + 0.5) / (double)count < below)
            draws[n++] = d;
    }
    return n;
}

static void pick_all(const struct dew_learn *l, size_t count, size_t *draws)
{
    size_t n = run__learn_pick(l, RUN__LEARN_CAUSES, 1, count, draws);

    while (n < count) /* the last, where rounding left it out */
        draws[n++] = l->draws - 1;
}

/* The column that learned of a key; the number of columns where none did. */
static size_t column_of(const struct dew_learn *l, size_t key)
{
    const struct dew_spread *s = l->doubts;

    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].key == key && s->inputs[k].why == DEW_SPREAD_DRAWN)
            return s->inputs[k].column;
    return s->columns;
}

static enum dew_status give(const struct dew_learn *l, struct dew_spread *to,
                            const size_t *draws, double *shares,
                            struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t c = 0; c < dew_spread_columns(to) && status == DEW_OK; c++) {
        struct dew_spread_column column = dew_spread_column(to, c);
        size_t from = column.of == DEW_SPREAD_OF_INPUT
                          ? column_of(l, column.input->key)
                          : l->doubts->columns;

        if (from == l->doubts->columns)
            continue;
        for (size_t i = 0; i < to->draws; i++)
            shares[i] = run__learn_share(
                evidence__rounds_at(l->rounds, draws[i])[from]);
        status = dew_spread_give(to, c, shares, err);
    }
    return status;
}

const struct dew_run *dew_learn_run(const struct dew_learn *l)
{
    return l->run;
}

enum dew_status dew_learn_give(const struct dew_learn *l, struct dew_spread *to,
                               struct dew_error *err)
{
    size_t *draws = calloc(to->draws + 1, sizeof *draws);
    double *shares = calloc(to->draws + 1, sizeof *shares);
    enum dew_status status;

    if (draws == NULL || shares == NULL)
        status = core__fail(err, DEW_EMEM, "no memory for draws");
    else if (!l->done || !l->learned.told)
        status = core__fail(err, DEW_EMISSING,
                            "nothing was learned: no house to give");
    else {
        pick_all(l, to->draws, draws);
        status = give(l, to, draws, shares, err);
    }
    free(draws);
    free(shares);
    return status;
}
