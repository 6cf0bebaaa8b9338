/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Options made for a house: a standing list of what is done about damp and dry
 * air, written as a scenario of our own form, marched, and what is no better
 * than another in hours, air and cost left out.
 *
 *     dew_suggest_open    the list, as options of the scenario
 *     dew_suggest_step    ... until done is 1
 *     dew_suggest_text    a scenario with those that are left
 *
 * Prices are our guess, in ranges, and say so in the text.
 */
#ifndef DEW_SUGGEST_H
#define DEW_SUGGEST_H

#include "dew/run.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Houses drawn at most to compare by, and to size an airflow on. */
enum { DEW_SUGGEST_DRAWS = 32, DEW_SUGGEST_SIZED = 16, DEW_SUGGEST_LEFT = 10 };

/* One option tried.  The first is the house as it stands: the first option of
   the scenario where it has any. */
struct dew_suggest_option {
    const char *name;
    double outside; /* h   outside the limits, mean of the houses drawn       */
    double air;     /* -   share of them to which it brings the air asked for */
    double does;    /* -   and in which it keeps the limits too               */
    double cost;    /* present cost over the years, of the house as told      */
    int left;       /* 1: not left out                                        */
    int by; /* the one that is no worse in any of them, or -1: past the ten   */
};

struct dew_suggest; /* opaque */

/*
 * from as for dew_run_open; its options, job and with are not read; it and what
 * it borrows stay until a step has done = 1.  A core is tried at the fresh air
 * asked for, and at its size: the least airflow that keeps the limits in 80 of
 * 100 houses drawn, or where none does the one that keeps them in most, if that
 * is another.  Without ranges, and with draws 0,
 * the house as told is marched alone.
 * Owner   on DEW_OK *suggest is the caller's, for dew_suggest_close; else NULL.
 * Errors  those of dew_run_open; DEW_ESYNTAX where options cannot be written
 *         into the text.
 */
enum dew_status dew_suggest_open(struct dew_suggest **suggest,
                                 const struct dew_run_ask *from, size_t draws,
                                 struct dew_faults *faults);
void dew_suggest_close(struct dew_suggest *suggest); /* NULL is allowed */

/* As dew_run_step and dew_spread_step. */
enum dew_status dew_suggest_step(struct dew_suggest *suggest, double *done,
                                 struct dew_error *err);

/* All that were tried; marched once done is 1.  Borrowed. */
const struct dew_suggest_option *dew_suggest_options(
    const struct dew_suggest *suggest, size_t *count);

/* The scenario with the options that are left, once done is 1; NULL before.
   Borrowed. */
const char *dew_suggest_text(const struct dew_suggest *suggest, size_t *length);

#ifdef __cplusplus
}
#endif
#endif
