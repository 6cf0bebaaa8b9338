/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the figures are: how far years differ, how far off the model was. */
#include <math.h>

#include "report/words.h"

/* ---- the years of a file --------------------------------------------------- */

enum { WHOLE = 8700 }; /* hours of a year that is all there */

/* Least and most hours too humid of an option in the whole years of the
   weather's file; how many they are. */
static int file_years(const struct dew_report *r, size_t option, double *low,
                      double *high)
{
    const struct dew_outcome *o = r->question->choices[option].outcome;
    int years = 0;

    *low = INFINITY;
    *high = 0;
    if (r->dates == NULL)
        return 0;
    for (size_t from = 0, h = 0; h < o->count; from = h) {
        double humid = 0;

        for (; h < o->count && r->dates[h].year == r->dates[from].year; h++)
            humid += o->series.humid[h];
        if (h - from < WHOLE)
            continue;
        *low = fmin(*low, humid);
        *high = fmax(*high, humid);
        years++;
    }
    return years;
}

/* ---- the sentence ----------------------------------------------------------- */

/* "today is too humid in 3 to 40 hours, "own ducts" in 0 to 0". */
static void say_hours(const struct dew_report *r, size_t option,
                      const double low[2], const double high[2], char *out,
                      size_t size)
{
    int at = snprintf(out, size, "today is too humid in %.30s to %.30s hours",
                      report__number(low[0], 0).text,
                      report__number(high[0], 0).text);

    if (option > 0)
        snprintf(out + at, size - (size_t)at, ", \"%.160s\" in %.30s to %.30s",
                 report__option(r, (int)option).text,
                 report__number(low[1], 0).text,
                 report__number(high[1], 0).text);
}

static void say_years(const struct dew_report *r, char *out, size_t size)
{
    const struct dew_report_years *y = r->years;
    size_t option =
        y != NULL && y->count > 0 ? y->option : report__beside_today(r);
    double low[2], high[2];
    int years = file_years(r, 0, &low[0], &high[0]);
    char hours[320];

    if (y != NULL && y->count > 0) {
        say_hours(r, option, y->low, y->high, hours, sizeof hours);
        snprintf(out, size,
                 "in %d other made years of this place %s, and real years "
                 "differ more",
                 y->count, hours);
    } else if (years > 1) {
        file_years(r, option, &low[1], &high[1]);
        say_hours(r, option, low, high, hours, sizeof hours);
        snprintf(out, size, "in the %d whole years of the weather %s", years,
                 hours);
    } else {
        snprintf(out, size, "one year of weather%s",
                 y != NULL ? " (run --years 8: how years differ)"
                           : ", and real years differ");
    }
}

/* What the houses drawn went through, and other years where they were asked
   for. */
static void say_draws(const struct dew_report *r, char *out, size_t size)
{
    const struct dew_draws *d = r->question->draws;
    char years[480];
    int at = snprintf(out, size, "of %zu houses like yours", d->count);

    if (r->years == NULL || r->years->count == 0)
        return;
    say_years(r, years, sizeof years);
    snprintf(out + at, size - (size_t)at, "; %s", years);
}

/* The points: the root mean square of the measured houses of
   docs/dev/first-results.md. */
char *report__sure(const struct dew_report *report, char *out, size_t size)
{
    char drawn[640];

    if (report->question->draws != NULL)
        say_draws(report, drawn, sizeof drawn);
    else
        say_years(report, drawn, sizeof drawn);
    snprintf(out, size,
             report->question->draws != NULL
                 ? "How sure: %s; two measured ones lay 3 and 9 points off."
                 : "How sure: %s; in two measured houses the model was 3 and 9 "
                   "points of humidity off.",
             drawn);
    return out;
}
