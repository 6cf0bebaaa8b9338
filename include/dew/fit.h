/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A log fitted: a scenario, which here need not be whole, and a logger's file,
 * with the outdoors of the file's own columns or of weather.file.
 *
 *     dew_fit_open        reads, learns (evidence.h)
 *     dew_fit_evidence, dew_fit_hours, dew_fit_dates, dew_fit_note
 */
#ifndef DEW_FIT_H
#define DEW_FIT_H

#include "dew/evidence.h"
#include "dew/run.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { DEW_FIT_LOGS = 8 };

/* What is asked.  Borrowed while it is opened. */
struct dew_fit_ask {
    const char *name; /* of the scenario: a file, "-" for standard input      */
    const char *const *logs; /* the logger's files: the first gives the hours,
                                the others what it lacks                     */
    size_t log_count;        /* 1 .. DEW_FIT_LOGS                            */
    const char *const *sets; /* "key=value", over what the scenario says      */
    size_t set_count;
    const struct dew_date *until; /* learn from hours that end before it; NULL:
                                     from all                                 */
    int changed; /* 1: the house was changed on that day: dew_fit_change      */
};

struct dew_fit; /* opaque: scenario, log, outdoors, evidence */

/*
 * Of the scenario only the answers to what the files leave open (log.*,
 * weather.*) and safety.house_age are used; keys that are wanting are no
 * fault.
 *
 * Owner   on DEW_OK *fit is the caller's, for dew_fit_close; else NULL.
 * Errors  all that were found are in faults: those of dew_scenario_look other
 *         than keys that are wanting, of dew_log_parse, dew_weather_parse and
 *         dew_evidence_open; DEW_EMISSING also for outdoors that are not had
 *         or have no hour of the log; DEW_ERANGE for an until outside the log, and
 *         for no file or too many.
 */
enum dew_status dew_fit_open(struct dew_fit **fit,
                             const struct dew_fit_ask *ask,
                             struct dew_faults *faults);
void dew_fit_close(struct dew_fit *fit); /* NULL is allowed */

/* Borrowed from the fit, as all below. */
const struct dew_evidence *dew_fit_evidence(const struct dew_fit *fit);
const struct dew_evidence_hour *dew_fit_hours(const struct dew_fit *fit,
                                              size_t *count);
const struct dew_date *dew_fit_dates(const struct dew_fit *fit, size_t *count);
/* Hours learned from, from the first on. */
size_t dew_fit_until(const struct dew_fit *fit);
/* All of it, for charts. */
struct dew_report_fit dew_fit_told(const struct dew_fit *fit);
/* 1 inch-pound, 2 metric: as the scenario was written. */
int dew_fit_system(const struct dew_fit *fit);

/* Where the house was changed: the log from DEW_FIT_SETTLES days on beside the
   house as it was, and what is learned from these days alone; else NULL. */
enum { DEW_FIT_SETTLES = 10 };
const struct dew_evidence_change *dew_fit_change(const struct dew_fit *fit);
const struct dew_evidence *dew_fit_after(const struct dew_fit *fit);
/* The humidity that hours of the change are counted above, 0 .. 1. */
double dew_fit_too_humid(const struct dew_fit *fit);

/* Falls of CO2 in the hours learned from (after 0) or, where the house was
   changed, in those after (1); NULL where the log has no CO2.  The outdoors are
   limits.outdoor_carbon_dioxide. */
const struct dew_evidence_falls *dew_fit_falls(const struct dew_fit *fit,
                                               int after);

/* Shares of the hours that the log has of them for which cooling and the blower
   ran, -; NaN where it has none. */
struct dew_fit_run {
    double cool, fan;
};
struct dew_fit_run dew_fit_run(const struct dew_fit *fit);

/* Line i of what was assumed; NULL after the last. */
const char *dew_fit_note(const struct dew_fit *fit, size_t i);

#ifdef __cplusplus
}
#endif
#endif
