/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Reports: what a study found, as text, JSON, tables of hours and one HTML
 * page.  The same input gives the same bytes: no clock, host or path is in an
 * output.  Cautions stand in every one of them.
 */
#ifndef DEW_REPORT_H
#define DEW_REPORT_H

#include <stdio.h>

#include "dew/study.h"
#include "dew/verdict.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Units of text and pages; JSON and CSV never change. */
enum dew_system { DEW_SYSTEM_US = 1, DEW_SYSTEM_SI = 2 };

/* One value of the scenario as it was understood.  Borrowed. */
struct dew_report_input {
    const char *option; /* name, or "" for the base                        */
    const char *key;    /* "house.volume"                                  */
    const char *value;  /* "16200 ft3"                                     */
    const char *origin; /* "file", "option", "set", "fit", "default"       */
    const char *source; /* of a default: where it is from; or ""           */
};

/* One file that was read.  Borrowed. */
struct dew_report_file {
    const char *role;   /* "scenario", "weather"                           */
    const char *sha256; /* 64 hexadecimal digits                           */
};

/* One option marched with one thing read another way.  Borrowed. */
struct dew_report_doubt {
    size_t option; /* of the question's choices                            */
    enum dew_otherwise how;
    const struct dew_case *c;
    const struct dew_outcome *outcome;
};

/* What a log tells by itself: dew/evidence.h.  Borrowed. */
struct dew_report_fit {
    const struct dew_evidence_hour *hours; /* count, as told and dates       */
    const struct dew_evidence_told *told;
    const struct dew_date *dates;
    size_t count, until; /* hours learned from                               */
    const struct dew_evidence_learned *learned;
};

/*
 * A log of the house as it stands, laid beside the hours marched.  Borrowed.
 * Arrays of one value for each hour marched, NaN where nothing was read.
 */
struct dew_report_log {
    const double *t;             /* degC                                   */
    const double *rh;            /* -                                      */
    const double *dew_point;     /* degC                                   */
    const double *dew_point_out; /* degC  of its own outdoor columns; NULL */
    int same_hours; /* 1: the weather is that of the hours logged; 0: laid
                          beside by month, day and hour alone               */
};

struct dew_report_ducts; /* ducts_report.h */

/* All that a report tells.  Borrowed, must outlive the call. */
/* Hours too humid in other made years of the place. */
struct dew_report_years {
    int count;              /* years; 0: none was marched, though it could be */
    size_t option;          /* that was marched beside the first              */
    double low[2], high[2]; /* h  of the first and of that option             */
};

struct dew_report {
    const char *title;
    const char *version; /* of the program                      */
    const struct dew_question *question;
    const struct dew_verdict *verdict;
    const struct dew_caution *cautions;
    size_t caution_count;
    const char *weather;              /* which file or place, how made       */
    const char *const *weather_notes; /* what its reading left out, mended */
    size_t weather_note_count;
    const struct dew_site *site;  /* NULL = not known                    */
    const struct dew_date *dates; /* of the hours marched                   */
    const struct dew_report_input *inputs;
    size_t input_count;
    const struct dew_report_file *files;
    size_t file_count;
    const struct dew_report_doubt *doubts; /* may be NULL                   */
    size_t doubt_count;
    const struct dew_report_ducts *ducts; /* NULL = none to draw            */
    enum dew_system system;
    const char *log; /* which log was laid beside the first option, how read */
    const struct dew_beside *beside;   /* NULL = none                         */
    const struct dew_report_log *laid; /* its hours; NULL only without log  */
    const struct dew_report_fit *learned; /* from it alone; NULL: nothing    */
    int prescribed_t; /* 1: the house was held at the temperature measured          */
    const struct dew_choice *handed; /* of the question's choices: the one the
                          sheets are about; NULL = the best or the nearest  */
    const struct dew_report_years
        *years; /* NULL = the weather is a file's     */
};

enum { DEW_SHA256_TEXT = 65, DEW_SENTENCE = 640 };

/* The option that a report sets beside the first, 0 where there is none: the
   best, the nearest, or the one that was picked. */
size_t dew_report_beside_today(const struct dew_report *report);

/* SHA-256 of length bytes as 64 hexadecimal digits and NUL into out. */
void dew_report_sha256(const void *data, size_t length,
                       char out[DEW_SHA256_TEXT]);

/*
 * Put finding f of the report's verdict into words.  Returns out, of
 * DEW_SENTENCE bytes or more; cut, never overrun.
 */
char *dew_report_sentence(const struct dew_report *report,
                          const struct dew_finding *f, char *out, size_t size);

/*
 * What a run of that many hours makes of "a year" in a report: sums are those
 * of the hours marched.  "" within the hours of a year, 8700 to 8784 (a few
 * lost hours are let pass: our own).  size of 200 or more; cut, never overrun.
 */
char *dew_report_span(size_t hours, char *out, size_t size);

/*
 * Write the report to out, as text of at most 80 columns, as JSON, as one
 * HTML page that needs no other file, or the hours of one option (from 0) as
 * CSV.
 * Errors: DEW_EMEM; DEW_EIO when out could not be written.
 */
enum dew_status dew_report_text(const struct dew_report *report, FILE *out,
                                struct dew_error *err);
/* The same in brief, at most 60 lines for five options: directory is where
   dew_report_write wrote its files, NULL = nowhere. */
enum dew_status dew_report_brief(const struct dew_report *report,
                                 const char *directory, FILE *out,
                                 struct dew_error *err);
enum dew_status dew_report_json(const struct dew_report *report, FILE *out,
                                struct dew_error *err);
enum dew_status dew_report_html(const struct dew_report *report, FILE *out,
                                struct dew_error *err);
enum dew_status dew_report_hours(const struct dew_report *report, size_t option,
                                 FILE *out, struct dew_error *err);

/*
 * Sheets to hand over, each one page of A4 or letter, about the option handed,
 * else the best, or the nearest where none will do: what to fit and to measure, what to
 * inspect, and the owner's calendar.  Cautions that say STOP stand on each.
 * Errors: as above.
 */
enum dew_status dew_report_contractor(const struct dew_report *report,
                                      FILE *out, struct dew_error *err);
enum dew_status dew_report_inspector(const struct dew_report *report, FILE *out,
                                     struct dew_error *err);
enum dew_status dew_report_calendar(const struct dew_report *report, FILE *out,
                                    struct dew_error *err);

/*
 * The charts: name, part of a file's name, 1 = one for each option.
 */
/* clang-format off */
#define DEW_CHART_MAP(X)                                                       \
    X(humid_months, "hours-too-humid", 0)                                      \
    X(houses, "houses-like-yours", 0)                                          \
    X(houses_months, "houses-by-month", 0)                                     \
    X(energy, "energy", 0)                                                     \
    X(cost, "cost", 0)                                                         \
    X(log_dew, "log-dew-points", 0)                                            \
    X(log_rh, "log-rh", 0)                                                     \
    X(dew_points, "dew-points", 1)                                             \
    X(water, "water", 1)                                                       \
    X(glass, "glass", 1)                                                       \
    X(map, "rh-by-hour", 1)                                                    \
    X(answer, "answer", 0)
/* clang-format on */

enum dew_chart {
#define X(name, file, each) DEW_CHART_##name,
    DEW_CHART_MAP(X)
#undef X
        DEW_CHARTS
};

/* "dew-points"; never NULL. */
const char *dew_report_chart_file(enum dew_chart kind);

/* 1 when each option has one of its own. */
int dew_report_chart_each(enum dew_chart kind);

/* How many charts of a kind the report has: one, one for each option, or 0
   where it needs what is not given (prices, a log, houses drawn). */
size_t dew_report_chart_count(const struct dew_report *report,
                              enum dew_chart kind);

/*
 * Write one chart to out as an SVG file that needs no other; option counts
 * from 0 and is 0 for charts that show all.
 * Errors: DEW_ERANGE when there is no such chart; DEW_EMEM; DEW_EIO.
 */
enum dew_status dew_report_chart(const struct dew_report *report,
                                 enum dew_chart kind, size_t option, FILE *out,
                                 struct dew_error *err);

/*
 * Write report.html, summary.json, the sheets to hand over, hours-N-NAME.csv
 * for each option and charts/NAME.svg into directory, which is made when it is
 * absent.  Nothing takes its name before all are written and synced.  The
 * summary goes first and comes last: it names every other file with its
 * SHA-256, and a directory without it holds no whole set.  Files of an earlier
 * set that this one has not are removed while they are as they were written.
 * One writer at a time: another is refused.  What is there and is no regular
 * file is left alone.
 * Errors: DEW_EMEM; DEW_EIO with the file's name in err->source, or the
 * directory's and the process that is writing there.
 */
enum dew_status dew_report_write(const struct dew_report *report,
                                 const char *directory, struct dew_error *err);

/* The same of report.html and summary.json alone. */
enum dew_status dew_report_write_few(const struct dew_report *report,
                                     const char *directory,
                                     struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
