/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions and pressures as words.  Private to the report. */
#ifndef DEW_REPORT_CAUTION_H
#define DEW_REPORT_CAUTION_H

#include "report/words.h"

enum { REPORT__PRESSURE_LONG = 700, REPORT__CAUTION_LONG = 4000 };

/* "kitchen hood, bath fans, dryer": bits of enum dew_local. */
struct report__word report__fans(unsigned fans);

/* "range_hood.flow": the key that tells of one, in the order of report__fans;
   NULL where bit place of them is not set.  place 0 .. DEW_LOCALS - 1. */
const char *report__fan_key(unsigned fans, int place);

/* "-7.6 Pa"; "more than 50 Pa"; "not computed: kitchen hood not given". */
struct report__word report__suction(const struct dew_report *report,
                                    size_t option);

/*
 * What is said of the pressure beside a caution, with a blank before it: of
 * one option alone, as a sheet has it, or for DEW_NO_OPTION of all the caution
 * is about; "" for a caution without pressure.  Returns out, of
 * REPORT__PRESSURE_LONG or more.
 */
char *report__pressure(const struct dew_report *report,
                       const struct dew_caution *caution, int option, char *out,
                       size_t size);

/* 1 where nobody said. */
int report__open(const struct dew_caution *caution);

/* The words of an open question after "You have not said whether ". */
const char *report__open_rest(const struct dew_caution *caution);

/* "2 safety questions are open ..."; "" for none. */
struct report__word report__open_stop_words(size_t count);

/* An open question in a line, under their heading where it is the first; a
   screen has room for so many. */
enum { REPORT__QUESTIONS = 5 };
void report__ask(const struct dew_caution *caution, int first, FILE *out);

/* 1 where the i-th caution is open and none before it asks the same. */
int report__asks(const struct dew_report *report, size_t i);

/*
 * The STOP questions that are open, each once, in one sentence; "" where none
 * is.  The list of questions says what hangs on them.  Returns out.
 */
char *report__open_stops(const struct dew_report *report, char *out,
                         size_t size);

/* The same in brief, "2 safety questions are open (below): ..."; "" of none. */
struct report__word report__open_stops_brief(const struct dew_report *report);

/* What the levels mean, and whose word it is where no source is named: said
   once where a list of cautions begins. */
extern const char report__levels[];

/* The source of a caution or of a default, "" or "common practice" where it
   is that without a source. */
const char *report__source(const char *source, const char *practice);

/* One caution as text, and as part of a list: whose it is before it, more
   behind it; on a page whose NULL says it in brief, without its source. */
void report__caution_text(const struct dew_caution *c, const char *whose,
                          const char *more, FILE *out);
void report__caution_html(const struct dew_caution *c, const char *whose,
                          const char *more, FILE *out);
/* The same in a list whose heading says its level. */
void report__caution_listed(const struct dew_caution *c, const char *whose,
                            const char *more, FILE *out);

/* The same with its brief words on a line that unfolds the others. */
void report__caution_folded(const struct dew_caution *c, const char *whose,
                            const char *more, FILE *out);

#endif
