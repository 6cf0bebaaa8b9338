/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What differs from draw to draw, column by column. */
#include <string.h>

#include "core/fail.h"
#include "run/spread.h"

size_t dew_spread_columns(const struct dew_spread *s)
{
    return s->columns;
}

struct dew_spread_column dew_spread_column(const struct dew_spread *s,
                                           size_t column)
{
    if (column == s->year_column)
        return (struct dew_spread_column){DEW_SPREAD_OF_YEAR, NULL};
    if (column == s->model_column)
        return (struct dew_spread_column){DEW_SPREAD_OF_MODEL, NULL};
    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].why == DEW_SPREAD_DRAWN &&
            s->inputs[k].column == column)
            return (struct dew_spread_column){DEW_SPREAD_OF_INPUT,
                                              &s->inputs[k]};
    return (struct dew_spread_column){DEW_SPREAD_OF_NOTHING, NULL};
}

double dew_spread_share(const struct dew_spread *s, size_t column, size_t draw)
{
    return s->u[draw * s->columns + column];
}

double dew_spread_known(const struct dew_spread *s, size_t column, size_t draw)
{
    const struct dew_spread_column c = dew_spread_column(s, column);

    switch (c.of) {
    case DEW_SPREAD_OF_INPUT:
        return dew_spread_figure(s, c.input, draw, c.input->option);
    case DEW_SPREAD_OF_YEAR:
        return dew_spread_year(s, draw);
    case DEW_SPREAD_OF_MODEL:
        return dew_spread_off(s, draw);
    case DEW_SPREAD_OF_NOTHING:
        break;
    }
    return 0;
}

enum dew_status dew_spread_give(struct dew_spread *s, size_t column,
                                const double *shares, struct dew_error *err)
{
    if (s->marched > 0)
        return core__fail(err, DEW_ERANGE,
                          "draws that are marched are not to be changed");
    for (size_t i = 0; i < s->draws; i++)
        if (!(shares[i] > 0 && shares[i] < 1))
            return core__fail(err, DEW_ERANGE,
                              "the share of draw %zu is outside 0 .. 1, ends "
                              "apart",
                              i + 1);
    for (size_t i = 0; i < s->draws; i++)
        s->u[i * s->columns + column] = shares[i];
    memset(s->anew, 0, sizeof s->anew); /* that was of the draws by seed    */
    s->anew_count = 0;
    return DEW_OK;
}
