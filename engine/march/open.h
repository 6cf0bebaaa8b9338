/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One house, made ready for its first hour.  Private. */
#ifndef DEW_MARCH_OPEN_H
#define DEW_MARCH_OPEN_H

#include "march/march.h"

/* A march of one house. */
struct dew_march {
    struct march__body body;
    struct dew_plane planes[DEW_FACADES];
    int hour; /* hours done                                                 */
    const double *prescribed; /* degC  the indoor t measured, or NULL       */
    size_t prescribed_count;
};

/* Fill *body from a case and the weather before its first hour.  Errors: those
   of dew_march_open but for memory. */
enum dew_status march__open(struct march__body *body, const struct dew_case *c,
                            const struct dew_hour *before,
                            struct dew_error *err);

/* Before its first hour: air, mass and stores at a temperature and an RH. */
void march__settle_at(struct march__body *body, double t, double rh);

/* Kinks that a house may have: of enum march__kind. */
int march__kinds_of(const struct dew_case *c);

enum {
    MARCH__DAY = 24,
    MARCH__LEAD = 22 * 7 * MARCH__DAY, /* h  led in with                    */
    MARCH__FINE = 4 * 7 * MARCH__DAY,  /* h  of it in the case's own steps  */
    MARCH__FEW = 1 /* steps an hour before: they leave 0.01 point             */
};

/* How hour h of a lead-in that stops at end is marched, and in how many steps of
   those that are asked for: few and rough ones but for the last weeks. */
int march__led_way(size_t h, size_t end);
int march__led_steps(size_t h, size_t end, int steps);

/* Hours until the day of the year comes round; 0: not in these hours. */
size_t march__first_year(const struct dew_date *dates, size_t count);

#endif
