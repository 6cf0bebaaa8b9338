/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a fit share.  Private to engine/run/. */
#ifndef DEW_RUN_FIT_H
#define DEW_RUN_FIT_H

#include <stdint.h>

#include "dew/fit.h"
#include "run/run.h"

enum { RUN__FIT_NOTES = 10, RUN__FIT_NOTE = 320 };

struct dew_fit {
    struct dew_run *run; /* scenario, outdoors, the first log               */
    struct dew_log_report read;
    struct dew_log *joined[DEW_FIT_LOGS]; /* the first is run->log: NULL     */
    size_t logs;
    int own;       /* 1: the outdoors are the logs' own                     */
    int64_t first; /* the end of hours[0], weather/calendar.h               */
    struct dew_evidence_hour *hours; /* count                               */
    struct dew_date *dates;          /* count                               */
    double *co2;                     /* count; ppm                          */
    int has_co2;
    double *cool, *fan; /* count; -  share of the hour that they ran         */
    int has_cool, has_fan;
    size_t count;
    struct dew_evidence *evidence, *after; /* after: NULL unless changed    */
    struct dew_evidence_change change;
    struct dew_evidence_falls falls[2]; /* before, after                    */
    size_t until;
    int young;
    char notes[RUN__FIT_NOTES][RUN__FIT_NOTE];
    size_t note_count;
};

/* fit_hours.c: the hours from the first of any log to the last, indoors and
   out; a fault where none is whole. */
enum dew_status run__fit_hours(struct dew_fit *f, const struct dew_fit_ask *ask,
                               const struct dew_log_ask *how);

/* What it lacks of the units of a file's outdoor columns, where there is no
   other outdoors; and how to answer. */
void run__fit_outdoor_units(struct dew_fit *f, const char *name,
                            const struct dew_log_ask *how);
enum dew_status run__fit_say_units(struct dew_run *r);

#endif
