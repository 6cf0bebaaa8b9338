/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A case's own steps beside sixty an hour. */
#ifndef DEW_TESTS_EXACT_H
#define DEW_TESTS_EXACT_H

#include "dew/air.h"
#include "dew/march.h"

struct exact {
    double rms, max; /* points of RH at the ends of hours                   */
    double humid[2]; /* h above the limit: own steps, sixty                 */
};

struct exact_hours {
    const struct dew_hour *hours;
    const struct dew_date *dates;
    size_t count;
    int whole; /* 1: a year, that is led in to; 0: its first week not counted */
};

static inline struct dew_march *exact_open(const struct dew_case *c, int steps,
                                           const struct exact_hours *y)
{
    struct dew_case own = *c;
    struct dew_march *m;

    own.steps_per_hour = steps;
    assert_int_equal(dew_march_open(&m, &own, &y->hours[0], NULL), DEW_OK);
    if (y->whole)
        assert_int_equal(
            dew_march_warm_up(m, y->hours, y->dates, y->count, NULL, NULL),
            DEW_OK);
    return m;
}

/* RH at the end of the hour; *humid grows where its mean is too high. */
static inline double exact_hour(struct dew_march *m,
                                const struct exact_hours *y, size_t h,
                                double too_humid, double *humid)
{
    struct dew_result r;

    assert_int_equal(dew_march_step(m, &y->hours[h], &y->dates[h], &r, NULL),
                     DEW_OK);
    *humid += r.rh > too_humid + 0.0005;
    return dew_air_rh(r.end.t_air, r.end.w, y->hours[h].p);
}

static inline struct exact exact_run(const struct dew_case *c,
                                     const struct exact_hours *y)
{
    struct dew_march *own = exact_open(c, c->steps_per_hour, y);
    struct dew_march *fine = exact_open(c, 60, y);
    size_t from = y->whole ? 0 : 7 * 24;
    struct exact e = {0};

    for (size_t h = 0; h < y->count; h++) {
        double limit = c->limits.too_humid;
        double gap = exact_hour(own, y, h, limit, &e.humid[0]) -
                     exact_hour(fine, y, h, limit, &e.humid[1]);

        if (h < from)
            continue;
        e.rms += gap * gap;
        e.max = fmax(e.max, fabs(gap));
    }
    e.rms = 100.0 * sqrt(e.rms / (double)(y->count - from));
    e.max *= 100.0;
    dew_march_close(own);
    dew_march_close(fine);
    return e;
}

/* What holds for every shipped scenario; of the hours 3 or 0.3 %. */
static inline int exact_enough(const struct exact *e)
{
    double room = fmax(3.0, 0.003 * e->humid[1]);

    return e->rms <= 0.03 && e->max <= 0.15 &&
           fabs(e->humid[0] - e->humid[1]) <= room;
}

#endif
