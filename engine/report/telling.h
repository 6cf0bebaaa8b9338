/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Putting findings into words: what the sentences share.  Private to the
   report; the sentences stand in sentence.c and sentence_<what>.c. */
#ifndef DEW_REPORT_TELLING_H
#define DEW_REPORT_TELLING_H

#include "report/words.h"

/* One finding being told. */
struct telling {
    const struct dew_report *r;
    const struct dew_finding *f;
    char *out;
    size_t size;
};

/* Add words to the sentence. */
void report__say(struct telling *t, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Short forms, for the sentences. */
#define HOURS(x)     report__number((x), 0).text
#define HRS(x)       report__hours(x).text /* "1 hour", "1,255 hours" */
#define BY_3(option) report__by_3(t->r, (option)).text
#define PPM(x)       report__number((x), 0).text
#define MONTHS       report__months(t->f->months).text
#define MOST         report__most(t->f->months).text
#define OPTION       report__option(t->r, t->f->option).text
#define OTHER        report__option(t->r, t->f->other).text
#define FLOW(x)      report__amount((x), DEW_FLOW, t->r->system, 0).text
#define ENERGY(x)    report__amount((x), DEW_ENERGY, DEW_SYSTEM_SI, 0).text
#define MONEY(x)     report__money(t->r, (x)).text
#define SHARE(x)     report__percent(x).text
#define SPAN         report__span(t->r).text
#define YEARS        report__number(t->r->question->prices->years, 0).text

/* The sentence of a kind, n its numbers; AS: a kind with those of another. */
#define SENTENCE_AS(kind, like)                                                \
    void report__say_##kind(struct telling *t,                                 \
                            const struct dew_numbers_##like *n)
#define SENTENCE(kind) SENTENCE_AS(kind, kind)

#define X(kind, ...)                SENTENCE(kind);
#define AS(kind, rule, group, like) SENTENCE_AS(kind, like);
DEW_FINDING_MAP(X, AS, , , )
#undef X
#undef AS

/* One that needs no more than its words and numbers. */
#define SAY(kind, ...) SAY_AS(kind, kind, __VA_ARGS__)
#define SAY_AS(kind, like, ...)                                                \
    SENTENCE_AS(kind, like)                                                    \
    {                                                                          \
        (void)n;                                                               \
        report__say(t, __VA_ARGS__);                                           \
    }

/* Of the house as it stands. */
const struct dew_limits *report__limits(const struct telling *t);

/* Water a day of kg a day. */
struct report__word report__per_day(const struct telling *t, double kg);

/* What to try where an option (or none) will not do: " Try next: ...". */
void report__say_try(struct telling *t, int option);

/* "a", "b" and "c": of more than four the first and how many more. */
void report__say_names(struct telling *t, const int *options, size_t count);

/* Findings that an option is dearer to run and never pays, in one sentence. */
void report__say_dearer(struct telling *t, const struct dew_finding *const *f,
                        size_t count);

/* What speaks against a tie-in, in its order, the first behind join. */
void report__say_tie_faults(struct telling *t, const char *join,
                            const struct dew_numbers_tie_fine *n);

/* ", 205 of them by 3 points or more": hours too humid of an option. */
struct report__word report__by_3(const struct dew_report *r, int option);

/* ", most in July", if any months stand out. */
struct report__word report__most(unsigned months);

#endif
