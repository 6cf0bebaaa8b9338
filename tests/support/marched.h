/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marching in tests, under one weather that stays or hour by hour. */
#ifndef DEW_TESTS_MARCHED_H
#define DEW_TESTS_MARCHED_H

#include "support/cases.h"
#include "support/rows.h"

static const double p0 = 101325.0;

static inline struct dew_hour outdoors(double t, double rh)
{
    return (struct dew_hour){.t = t, .w = dew_air_w(t, rh, p0), .p = p0};
}

static inline struct dew_march *opened(const struct dew_case *c,
                                       const struct dew_hour *before)
{
    struct dew_march *m;
    struct dew_error err = {0};

    if (dew_march_open(&m, c, before, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    return m;
}

/* Hour h, whose date is date_of(h) */
static inline struct dew_result step(struct dew_march *m,
                                     const struct dew_hour *out, int h)
{
    struct dew_date date = date_of(h);
    struct dew_error err = {0};
    struct dew_result r;

    if (dew_march_step(m, out, &date, &r, &err) != DEW_OK)
        fail_msg("hour %d: %s", err.hour, err.text);
    return r;
}

/* The last of so many hours of one weather; *sum, or NULL: the last day. */
static inline struct dew_result run(const struct dew_case *c,
                                    const struct dew_hour *out, int hours,
                                    struct dew_tally *sum)
{
    struct dew_march *m = opened(c, out);
    struct dew_result r = {0};

    for (int h = 0; h < hours; h++) {
        struct dew_date date = date_of(h);

        r = step(m, out, h);
        if (sum != NULL && h >= hours - 24)
            dew_tally_add(sum, &c->limits, 0.0, &date, &r);
    }
    dew_march_close(m);
    return r;
}

#endif
