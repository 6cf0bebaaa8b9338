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
void dew__say(struct telling *t, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Short forms, for the sentences. */
#define HOURS(i)  dew__number(t->f->value[i], 0).text
#define MONTHS    dew__months(t->f->months).text
#define OPTION    dew__option(t->r, t->f->option).text
#define OTHER     dew__option(t->r, t->f->other).text
#define FLOW(i)   dew__amount(t->f->value[i], DEW_FLOW, t->r->system, 0).text
#define ENERGY(i) dew__amount(t->f->value[i], DEW_ENERGY, DEW_SYSTEM_SI, 0).text
#define MONEY(x)  dew__money(t->r, (x)).text
#define SPAN      dew__span(t->r).text
#define YEARS     dew__number(t->r->question->prices->years, 0).text

/* "40 %"; w holds it. */
const char *dew__in_percent(double share, struct dew__word *w);

/* Of the house as it stands. */
const struct dew_limits *dew__limits(const struct telling *t);

/* Water a day of kg a day. */
struct dew__word dew__per_day(const struct telling *t, double kg);

/* The months that stand out, if any do. */
void dew__say_most(struct telling *t);

/* One sentence for each kind of finding. */
#define X(name) void dew__say_##name(struct telling *t);
DEW_FINDING_MAP(X)
#undef X

#endif
