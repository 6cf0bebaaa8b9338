/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log's dew points indoors, and those of its outdoor columns. */
#include <math.h>
#include <string.h>

#include "dew/air.h"
#include "run/run.h"

/* Over ice below freezing, as the march has them; RH is over liquid. */
static double dew_point_of(double t, double rh)
{
    return rh > 0 ? dew_air_t_pws(rh * dew_air_pws_liquid(t)) : NAN;
}

/* The outdoor columns of a log; NULL where it has none. */
static struct dew_log *outdoors(const struct dew_text *text,
                                const struct dew_log_ask *ask,
                                const struct dew_log_report *read)
{
    struct dew_log_ask outside = *ask;
    struct dew_log_report report = {.hours = 0};
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    struct dew_log *log = NULL;

    outside.outdoors = 1;
    if (read->columns_left > 0)
        dew_log_parse(&log, text, &outside, &report, &faults);
    return log;
}

/* Hours as they were lived, one after the other; below 0: a is the earlier. */
static int order(const struct dew_date *a, const struct dew_date *b)
{
    const int left[] = {a->year, a->month, a->day, a->hour};
    const int right[] = {b->year, b->month, b->day, b->hour};

    for (int i = 0; i < 4; i++)
        if (left[i] != right[i])
            return left[i] < right[i] ? -1 : 1;
    return 0;
}

/* The hour marched that ends at d, + 1; 0: none.  from is where the last one
   was found: both run forward in time. */
static size_t lived(const struct dew_date *year, size_t marched,
                    const struct dew_date *d, size_t *from)
{
    while (*from < marched && order(&year[*from], d) < 0)
        (*from)++;
    return *from < marched && order(&year[*from], d) == 0 ? *from + 1 : 0;
}

/* A year that mixes years is met by month, day and hour alone. */
static void lay_outdoors(struct dew_run *r, run__calendar places,
                         const struct dew_log *out, double *dew)
{
    size_t count, marched, from = 0;
    const struct dew_log_hour *hours = dew_log_hours(out, &count);
    const struct dew_date *dates = dew_log_dates(out, &count);
    const struct dew_date *year = dew_year_dates(r->year, &marched);
    int mixed = marched > 0 && year[0].year == 0;

    memset(places, 0, sizeof(run__calendar)); /* hours marched, + 1; 0: none */
    for (size_t h = 0; mixed && h < marched; h++)
        *run__place(places, &year[h]) = h + 1;
    for (size_t k = 0; k < count; k++) {
        size_t h = mixed ? *run__place(places, &dates[k])
                         : lived(year, marched, &dates[k], &from);

        if (h == 0 || !isfinite(hours[k].t) || !(hours[k].rh > 0))
            continue;
        dew[h - 1] = dew_point_of(hours[k].t, hours[k].rh);
        r->laid.dew_point_out = dew;
    }
}

void run__lay(struct dew_run *r, run__calendar places,
              const struct dew_text *text, const struct dew_log_ask *ask,
              const struct dew_log_report *read)
{
    const struct dew_measured *m = &r->measured;
    struct dew_log *out = outdoors(text, ask, read);
    double *dew = r->hours + 2 * m->count, *dew_out = dew + m->count;
    size_t count;

    for (size_t h = 0; h < m->count; h++) {
        dew[h] = dew_point_of(m->t[h], m->rh[h]);
        dew_out[h] = NAN;
    }
    r->laid = (struct dew_report_log){
        .t = m->t,
        .rh = m->rh,
        .dew_point = dew,
        .same_hours = dew_year_dates(r->year, &count)->year != 0};
    if (out != NULL)
        lay_outdoors(r, places, out, dew_out);
    dew_log_close(out);
}
