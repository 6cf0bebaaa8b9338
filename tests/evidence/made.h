/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Made-up hours of a made-up house: outdoors with a season, days and spells of
 * weather, and a log by the model itself at unknowns that are known here.
 */
#ifndef DEW_TESTS_EVIDENCE_MADE_H
#define DEW_TESTS_EVIDENCE_MADE_H

#include <math.h>
#include <string.h>

#include "core/num.h"
#include "dew/air.h"
#include "evidence/evidence.h"
#include "support/rows.h"

enum { MADE_MOST = 24 * 366 };

struct made {
    size_t count;
    struct dew_evidence_hour hours[MADE_MOST];
    struct evidence__step steps[MADE_MOST];
    double rh[MADE_MOST]; /* % RH of the house alone */
};

/* A truth that is no prior mean: Pa, z, Pa. */
static const double MADE_TRUTH[EVIDENCE__MOST] = {
    812.0, 590.0, 371.0, 214.0, 63.0, 1.3, 1.9, 41.0, -17.0, 0.0};
static const struct dew_evidence_noise MADE_NOISE = {.slow = 2.1,
                                                     .slow_hours = 430.0,
                                                     .quick = 1.7,
                                                     .quick_hours = 7.0,
                                                     .white = 0.25};

/* Outdoors and indoor temperature of count hours from day of the year. */
static inline void made_outdoors(struct made *m, struct core__random *r,
                                 size_t count, double day)
{
    double spell = 0.0;

    m->count = count;
    for (size_t h = 0; h < count; h++) {
        struct dew_evidence_hour *x = &m->hours[h];
        double season = -cos(6.283185307 * (day + (double)h / 24 - 20) / 365);

        spell += (0.0 - spell) / 72 + 0.6 * core__random_gaussian(r);
        x->clock = (int)(h % 24);
        x->t_out = 7.3 + 9.4 * season + spell -
                   3.1 * cos(6.283185307 * (x->clock - 3) / 24);
        x->pv_out =
            (0.83 - 0.011 * (x->t_out - 7.3)) * dew_air_pws_liquid(x->t_out);
        x->t_in = 21.3 + 0.06 * x->t_out + 0.2 * core__random_gaussian(r);
        x->rh = 0.43;
    }
}

/* The log at q, with habits drawn; noise NULL: none. */
static inline void made_log(struct made *m, struct core__random *r,
                            const double *q,
                            const struct dew_evidence_noise *noise)
{
    struct evidence__series s = {.count = m->count,
                                 .until = m->count,
                                 .hours = m->hours,
                                 .steps = m->steps};
    struct dew_evidence_noise none = {0, 1, 0, 1, 0}, n = noise ? *noise : none;
    double d = exp(-1 / n.slow_hours), g = exp(-1 / n.quick_hours);
    double slow = n.slow * core__random_gaussian(r),
           quick = n.quick * core__random_gaussian(r);

    for (int turn = 0; turn < 20; turn++) { /* the stores start as logged */
        evidence__series(&s);
        evidence__house(&s, q, m->count, m->rh);
        for (size_t h = 0; h < m->count; h++)
            m->hours[h].rh = 0.01 * m->rh[h];
    }
    for (size_t h = 0; h < m->count; h++) {
        slow = d * slow + n.slow * sqrt(1 - d * d) * core__random_gaussian(r);
        quick =
            g * quick + n.quick * sqrt(1 - g * g) * core__random_gaussian(r);
        m->hours[h].rh = 0.01 * (m->rh[h] + slow + quick +
                                 n.white * core__random_gaussian(r));
    }
}

static inline struct dew_evidence *made_learned(const struct made *m,
                                                size_t until)
{
    struct dew_evidence_ask ask = {.hours = m->hours,
                                   .count = m->count,
                                   .until = until,
                                   .prior = DEW_EVIDENCE_PRIOR};
    struct dew_evidence *e;

    assert_int_equal(dew_evidence_open(&e, &ask, NULL), DEW_OK);
    return e;
}

/* What changed from an hour on. */
static inline struct dew_evidence_change made_changed(const struct made *m,
                                                      struct dew_evidence *e,
                                                      size_t from,
                                                      double too_humid)
{
    struct dew_evidence_change_ask ask = {.hours = m->hours,
                                          .from = from,
                                          .too_humid = too_humid,
                                          .draws = 200,
                                          .seed = 5};
    struct dew_evidence_change c;

    assert_int_equal(dew_evidence_changed(e, &ask, &c, NULL), DEW_OK);
    return c;
}

#endif
