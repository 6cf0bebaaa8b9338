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

/* h   nearer than this is a close call at about so many hours */
double study__close(const struct dew_question *q, double hours);

/* Mark f where hours of o lie as near the limit as a close call. */
void study__mind_limit(struct dew_finding *f, const struct dew_question *q,
                       const struct dew_outcome *o, double hours);

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
