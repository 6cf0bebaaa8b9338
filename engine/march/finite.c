/* SPDX-License-Identifier: GPL-3.0-or-later */
/* No case, site or hour of weather that holds a NaN comes into the march, and
   no hour or date that cannot be. */
#include <float.h>
#include <math.h>
#include <stddef.h>

#include "core/fail.h"
#include "march/case_map.h"
#include "march/march.h"

static const struct march__span spans[] = {MARCH__CASE_SPANS};

static int holds(const struct dew_case *c, const struct march__span *run)
{
    const char *at = (const char *)c + run->offset;

    for (size_t i = 0; i < run->times; i++, at += run->stride) {
        const double *x = (const double *)(const void *)at;

        for (size_t k = 0; k < run->count; k++)
            if (isnan(x[k]))
                return 0;
    }
    return 1;
}

static enum dew_status refuse(const char *path, struct dew_error *err)
{
    core__in(err, path);
    return core__fail(err, DEW_ERANGE, "a value in it is no number");
}

enum dew_status march__one_hour(const struct dew_hour *h, struct dew_error *err)
{
    const double any = DBL_MAX; /* what is finite */
    const struct {
        const char *path;
        double x, low, high;
    } lanes[] = {{"weather.t", h->t, -100, 90}, /* the span of dew/air.h */
                 {"weather.w", h->w, 0, 1},
                 {"weather.p", h->p, 1, any},
                 {"weather.wind", h->wind, 0, any},
                 {"weather.global", h->global, -any, any},
                 {"weather.direct", h->direct, -any, any},
                 {"weather.diffuse", h->diffuse, -any, any},
                 {"weather.sky", h->sky, -any, any}};

    for (size_t i = 0; i < sizeof lanes / sizeof lanes[0]; i++) {
        if (isnan(lanes[i].x))
            return refuse(lanes[i].path, err);
        if (lanes[i].x < lanes[i].low || lanes[i].x > lanes[i].high) {
            core__in(err, lanes[i].path);
            return core__fail(err, DEW_ERANGE, "%g cannot be", lanes[i].x);
        }
    }
    return DEW_OK;
}

/* Schedules are looked up by these. */
enum dew_status march__one_date(const struct dew_date *d, struct dew_error *err)
{
    const struct {
        const char *path;
        int x, low, high;
    } parts[] = {{"date.month", d->month, 1, 12},
                 {"date.day", d->day, 1, 31},
                 {"date.hour", d->hour, 1, 24},
                 {"date.weekday", d->weekday, 0, 6},
                 {"date.yearday", d->yearday, 1, 366}};

    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (parts[i].x < parts[i].low || parts[i].x > parts[i].high) {
            core__in(err, parts[i].path);
            return core__fail(err, DEW_ERANGE, "%d is outside %d .. %d",
                              parts[i].x, parts[i].low, parts[i].high);
        }
    return DEW_OK;
}

enum dew_status march__numbers(const struct dew_case *c, struct dew_error *err)
{
    for (size_t i = 0; i < sizeof spans / sizeof spans[0]; i++)
        if (!spans[i].may_lack && !holds(c, &spans[i]))
            return refuse(spans[i].path, err);
    return DEW_OK;
}
