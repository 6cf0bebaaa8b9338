/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log beside the model, summed by month and over all.  Private to the
   report. */
#ifndef DEW_REPORT_LOG_SUMS_H
#define DEW_REPORT_LOG_SUMS_H

#include "dew/report.h"

/* Means are over the hours that have both the log's value and the model's. */
struct report__log_sum {
    double hours;               /* h    with a dew point of both          */
    double dew_read, dew_model; /* degC mean dew points                   */
    double rh_hours;            /* h    with an RH of both                */
    double rh_read, rh_model;   /* -    means                             */
    double t_hours;
    double t_read, t_model; /* degC means                             */
    double tested;          /* h    with a dew point in and out       */
    double dries;           /* h    of them, outdoor air was drier    */
};

/* Whether there is an outdoor dew point to hold the log against: its own, or
   that of the same hours' weather. */
int report__log_tested(const struct dew_report *r);

/* The sums of a month from 0, or of all of them: -1.  The log's is option 0. */
struct report__log_sum report__log_sum_of(const struct dew_report *r,
                                          int month);

#endif
