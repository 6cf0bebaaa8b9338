/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The rules of the verdict.  Each reads the question and adds the findings
 * it makes, or none.
 */
#ifndef DEW_STUDY_RULES_H
#define DEW_STUDY_RULES_H

#include "dew/verdict.h"
#include "study/year.h"

/* The rules, one function each: see DEW_FINDING_MAP. */
typedef void study__rule(const struct dew_question *q, struct dew_verdict *v);
#define X(kind, rule, ...) study__rule study__rule_##rule;
DEW_FINDING_MAP(X, X, , , )
#undef X

/* Puts a copy of f at the end of the list; at the last slot again when full. */
struct dew_finding *study__find(struct dew_verdict *v,
                                const struct dew_finding *f);

/* The same of a kind, about an option (or none), its numbers by name. */
#define FIND(v, kind_, option_, ...)                                           \
    study__find((v), &(struct dew_finding){.kind = DEW_FINDING_##kind_,        \
                                           .option = (option_),                \
                                           .other = DEW_NO_OPTION,             \
                                           .number.kind_ = {__VA_ARGS__}})

/* The house as it stands. */
const struct dew_outcome *study__base(const struct dew_question *q);
const struct dew_outcome *study__outcome(const struct dew_question *q,
                                         size_t i);

/* h   that may pass a limit in month m (from 0) and keep it */
double study__allowed_month(const struct dew_question *q,
                            const struct dew_outcome *o, int m);

/* ---- doubt.c ----------------------------------------------------------------- */

/* Hours of an option that a finding hangs on: which side of their limit. */
struct study__side {
    size_t option;
    enum dew_drawn_what what;
};

/* Count the houses drawn in which all sides are as told. */
void study__doubt(struct dew_finding *f, const struct dew_question *q,
                  const struct study__side *side, size_t count);
#define DOUBT(f, q, option, of)                                                \
    study__doubt((f), (q),                                                     \
                 &(const struct study__side){(option), DEW_DRAWN_##of}, 1)

/* The share of houses in which a has more hours too humid or too dry than b,
   ties half; of the likely house alone where none was drawn. */
double study__more_outside(const struct dew_question *q, size_t a, size_t b);

/* 1 where a share of houses is so large that it is sure, -1 where the rest
   is, 0: a close call. */
int study__sure(const struct dew_question *q, double share);

/*
 * Whether a is worse than b so that it counts: it passes the limit that b
 * keeps, or has more such hours than b by what a limit lets pass; and has more
 * in nearly all houses drawn.
 */
int study__worse(const struct dew_question *q, size_t a, size_t b,
                 enum dew_drawn_what what);

/* Houses drawn in which an option is the best; and which other is best in too
   many for best to be sure, or none. */
size_t study__best_in(const struct dew_question *q, size_t option);
int study__rival(const struct dew_question *q, size_t best);

/* ---- verdict.c --------------------------------------------------------------- */

/* Months in which member hours (at offset of a tally) pass the month's limit. */
unsigned study__months_above(const struct dew_question *q,
                             const struct dew_outcome *o, size_t member);
double study__worst_month(const struct dew_outcome *o, size_t member);

/* What an option has. */
int study__has_dryer(const struct dew_question *q, size_t i);
int study__has_ventilator(const struct dew_question *q, size_t i);
int study__has_cooling(const struct dew_question *q, size_t i);

/* Sum of the inflows of water of a tally, kg; the store left out. */
double study__inflow(const struct dew_water_flows *flows);

/*
 * The largest flows of water of the months, in (sign 1) or out (sign -1),
 * into f->source and f->source_kg, as kg/day.
 */
void study__sources(struct dew_finding *f, const struct dew_outcome *o,
                    unsigned months, double sign);

/* 1 where an outcome keeps the limits of humid, dry and wet glass. */
int study__keeps(const struct dew_question *q, const struct dew_outcome *o);

/* verdict_best.c */
/* The cheapest that ventilates and keeps the limits, but for one; or none. */
int study__cheapest(const struct dew_question *q, int but);
/* Whether several will do and none is best, for want of a price to install. */
int study__best_open(const struct dew_question *q);

#endif
