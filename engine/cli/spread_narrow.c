/* SPDX-License-Identifier: GPL-3.0-or-later */
/* By how many hours it would narrow the answer to know a figure. */
#include <math.h>
#include <stdlib.h>

#include "cli/spread_worth.h"

/*
 * The share of the variance that it explains taken away from the width in
 * which 8 of 10 houses lie: as much as a normal spread narrows by.
 */
static double narrows(const struct cli__spread *s, size_t option,
                      enum dew_drawn_what what, const double *x, double *y)
{
    struct dew_draws_range r = dew_draws_range(s->told, option, what);
    double share;

    for (size_t i = 0; i < s->draws; i++)
        y[i] = dew_drawn_figure(dew_spread_house(s->spread, i, option), what);
    share = dew_worth_explained(x, y, s->draws, NULL);
    return share > 0 ? (r.p90 - r.p10) * (1 - sqrt(1 - fmin(share, 1))) : 0;
}

double cli__spread_narrows(const struct cli__spread *s, size_t column)
{
    const size_t options[] = {0, dew_draws_best(s->told)};
    double *room = calloc(2 * s->draws, sizeof *room), most = 0;

    if (room == NULL || s->draws < DEW_WORTH_LEAST) {
        free(room);
        return NAN;
    }
    for (size_t i = 0; i < s->draws; i++)
        room[i] = dew_spread_known(s->spread, column, i);
    for (size_t k = 0; k < 2; k++) {
        double *y = room + s->draws;

        most = fmax(most, narrows(s, options[k], DEW_DRAWN_too_humid, room, y));
        most = fmax(most, narrows(s, options[k], DEW_DRAWN_too_dry, room, y));
    }
    free(room);
    return most;
}
