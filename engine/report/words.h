/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amounts, months and names as words.  Private to the report. */
#ifndef DEW_REPORT_WORDS_H
#define DEW_REPORT_WORDS_H

#include <stdint.h>

#include "core/clean.h"
#include "dew/report.h"
#include "dew/unit.h"
#include "study/year.h"

/* A short text by value: good for one expression. */
struct report__word {
    char text[128];
};

/* "1,234.5": x with a fixed count of decimals; "-" when it is not a number. */
struct report__word report__number(double x, int decimals);

/* "1 hour", "1,255 hours". */
struct report__word report__hours(double h);

/* The unit a report shows a quantity in; a row of the unit table. */
const struct dew_unit *report__unit(enum dew_quantity quantity,
                                    enum dew_system system);

/* SI value in the shown unit, and the same with its name: "95 cfm". */
double report__shown(double si, enum dew_quantity quantity,
                     enum dew_system system);
struct report__word report__amount(double si, enum dew_quantity quantity,
                                   enum dew_system system, int decimals);

/* "40 %" of a share; "-" when it is not a number. */
struct report__word report__percent(double share);

/* "$1,234" in the currency of the report's prices. */
struct report__word report__money(const struct dew_report *report,
                                  double amount);

/* "July", "June to August", "May and July"; "no month". */
struct report__word report__months(unsigned mask);
const char *report__month(int month); /* 0 .. 11: "January"              */
const char *report__month_short(
    int month); /* "Jan"                           */

/* Columns that UTF-8 text takes, one a character. */
int report__width(const char *text);

/* The title, or "Untitled". */
const char *report__title(const char *title);

/* "year", or "720 hours" where the run is no year. */
struct report__word report__span(const struct dew_report *report);

/* Name of option i, cleaned. */
struct report__word report__option(const struct dew_report *report, int i);

/* The same behind its number: "2 heat core". */
struct report__word report__numbered(const struct dew_report *report, size_t i);

/* "option 2" or "options 2, 5": bit i = option i + 1; "" of none. */
char *report__which(uint64_t options, char *out, size_t size);

/* The first finding of a kind, of that option where one is named; or NULL. */
const struct dew_finding *report__found(const struct dew_report *r,
                                        enum dew_finding_kind kind, int option);

/* The option to look at: the best; where which is best is open, the cheapest to
   run of those that will do; DEW_NO_OPTION where none will. */
int report__picked(const struct dew_report *report);

/* Of the options that bring the fresh air asked for, the house as it stands
   apart, that of fewest hours too humid; 0 when there is none. */
size_t report__hand_least(const struct dew_report *r);

/* The option handed over: the best; else the nearest of those that will not
   do; else as above. */
size_t report__hand_option(const struct dew_report *r);

/* The option set beside the house as it stands: the one handed over, or the
   one of fewest humid hours; 0 when there is none. */
size_t report__beside_today(const struct dew_report *r);

/* Value of a key as it was understood for an option; "not given". */
struct report__word report__hand_input(const struct dew_report *r,
                                       size_t option, const char *key);

/* The same as report__money, "not given" for what is not known. */
struct report__word report__price(const struct dew_report *report,
                                  double amount);

/* How sure the figures are, in one sentence: the spread of years where it is
   known, and the model's own error.  Returns out. */
enum { REPORT__SURE = 800 };
char *report__sure(const struct dew_report *report, char *out, size_t size);

/* How limits were judged, in plain words.  Returns out. */
char *report__judged(const struct dew_report *report, char *out, size_t size);

/*
 * Finding i of the verdict in words, together with the others of its kind
 * where one sentence tells them all; "" where one before has told it.
 */
enum { REPORT__TOLD = 4096 };
char *report__told(const struct dew_report *r, size_t i,
                   char out[REPORT__TOLD]);

/* The power of ten that no option's books are further off than, as a share of
   what went through: what is left of sums is a figure in its order alone. */
double report__closes_within(const struct dew_report *report);

/* ---- shares.c: of the houses drawn ------------------------------------------- */

/* "85", "under 5", "over 95" of 100; "none" or "all" of those drawn. */
struct report__word report__of_100(size_t count, size_t draws);
/* The same for a cell: "<5", ">95". */
struct report__word report__of_100_short(size_t count, size_t draws);

/* "85 of 100 houses", "all 128 houses drawn", "none of the 128 houses drawn" */
struct report__word report__houses(size_t count, size_t draws);

/* " (77 to 90)": whole percent, outward; of all or none nothing. */
struct report__word report__interval(size_t count, size_t draws);

#endif
