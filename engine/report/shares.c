/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shares of the houses drawn, in words no surer than so many draws are. */
#include <math.h>
#include <string.h>

#include "dew/draws.h"
#include "report/words.h"

/* So many draws tell a share of houses to that many of 100. */
static int step_of(size_t draws)
{
    return draws >= 1024 ? 1 : draws >= 128 ? 5 : 10;
}

struct report__word report__of_100(size_t count, size_t draws)
{
    struct report__word w = {"none"};
    int step = step_of(draws);
    long near = step * lround(100.0 * (double)count / (double)draws / step);

    if (count == draws)
        snprintf(w.text, sizeof w.text, "all");
    else if (count > 0 && near == 0)
        snprintf(w.text, sizeof w.text, "under %d", step);
    else if (count > 0 && near == 100)
        snprintf(w.text, sizeof w.text, "over %d", 100 - step);
    else if (count > 0)
        snprintf(w.text, sizeof w.text, "%ld", near);
    return w;
}

struct report__word report__of_100_short(size_t count, size_t draws)
{
    struct report__word w = report__of_100(count, draws);

    if (strncmp(w.text, "under ", 6) == 0)
        snprintf(w.text, sizeof w.text, "<%d", step_of(draws));
    else if (strncmp(w.text, "over ", 5) == 0)
        snprintf(w.text, sizeof w.text, ">%d", 100 - step_of(draws));
    return w;
}

struct report__word report__houses(size_t count, size_t draws)
{
    struct report__word w, n = report__number((double)draws, 0);

    if (count == draws)
        snprintf(w.text, sizeof w.text, "all %.20s houses drawn", n.text);
    else if (count == 0)
        snprintf(w.text, sizeof w.text, "none of the %.20s houses drawn",
                 n.text);
    else
        snprintf(w.text, sizeof w.text, "%.20s of 100 houses",
                 report__of_100(count, draws).text);
    return w;
}

struct report__word report__interval(size_t count, size_t draws)
{
    struct report__word w = {""};
    struct dew_draws_interval in = dew_draws_interval(count, draws);

    if (count > 0 && count < draws)
        snprintf(w.text, sizeof w.text, " (%.0f to %.0f)", floor(100 * in.low),
                 ceil(100 * in.high));
    return w;
}
