/* SPDX-License-Identifier: GPL-3.0-or-later */
/* No case, site or hour of weather that holds a NaN comes into the march. */
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
    const struct {
        const char *path;
        double x;
    } lanes[] = {{"weather.t", h->t},
                 {"weather.w", h->w},
                 {"weather.p", h->p},
                 {"weather.wind", h->wind},
                 {"weather.global", h->global},
                 {"weather.direct", h->direct},
                 {"weather.diffuse", h->diffuse},
                 {"weather.sky", h->sky}};

    for (size_t i = 0; i < sizeof lanes / sizeof lanes[0]; i++)
        if (isnan(lanes[i].x))
            return refuse(lanes[i].path, err);
    return DEW_OK;
}

enum dew_status march__numbers(const struct dew_case *c, struct dew_error *err)
{
    for (size_t i = 0; i < sizeof spans / sizeof spans[0]; i++)
        if (!spans[i].may_lack && !holds(c, &spans[i]))
            return refuse(spans[i].path, err);
    return DEW_OK;
}
