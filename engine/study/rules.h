/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The rules of the verdict.  Each reads the question and adds the findings
 * it makes, or none.
 */
#ifndef DEW_STUDY_RULES_H
#define DEW_STUDY_RULES_H

#include "dew/verdict.h"

/* A fresh finding at the end of the list; the last slot again when full. */
struct dew_finding *dew__find(struct dew_verdict *v, enum dew_finding_kind kind,
                              int option);

/* The house as it stands. */
const struct dew_outcome *dew__base(const struct dew_question *q);
const struct dew_outcome *dew__outcome(const struct dew_question *q, size_t i);

/* h   that may pass a limit in a year, or in month m (from 0), and keep it */
double dew__allowed(const struct dew_question *q, const struct dew_outcome *o);
double dew__allowed_month(const struct dew_question *q,
                          const struct dew_outcome *o, int m);

/* h   nearer than this is a close call at about so many hours */
double dew__close(const struct dew_question *q, double hours);

/* Mark f where hours of o lie as near the limit as a close call. */
void dew__mind_limit(struct dew_finding *f, const struct dew_question *q,
                     const struct dew_outcome *o, double hours);

/* Months in which member hours (at offset of a tally) pass the month's limit. */
unsigned dew__months_above(const struct dew_question *q,
                           const struct dew_outcome *o, size_t member);
double dew__worst_month(const struct dew_outcome *o, size_t member);

/* What an option has. */
int dew__has_dryer(const struct dew_question *q, size_t i);
int dew__has_ventilator(const struct dew_question *q, size_t i);
int dew__has_cooling(const struct dew_question *q, size_t i);

/* Sum of the inflows of water of a tally, kg; the store left out. */
double dew__inflow(const struct dew_water_flows *flows);

/*
 * The largest flows of water of the months, in (sign 1) or out (sign -1),
 * into f->source and f->source_kg, as kg/day.
 */
void dew__sources(struct dew_finding *f, const struct dew_outcome *o,
                  unsigned months, double sign);

/* 1 where an outcome keeps the limits of humid, dry and wet glass. */
int dew__keeps(const struct dew_question *q, const struct dew_outcome *o);

/* verdict_coil.c */
void dew__rule_coil_today(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_coil_option(const struct dew_question *q, struct dew_verdict *v);

/* verdict_today.c */
void dew__rule_today_humid(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_today_dry(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_today_fine(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_today_sweat(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_short_heat(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_saturated(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_today_assumes(const struct dew_question *q,
                             struct dew_verdict *v);
void dew__rule_mould(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_drying(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_drying_ends(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_wait(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_settled(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_idle(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_cool_large(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_outdoor(const struct dew_question *q, struct dew_verdict *v);

/* verdict_options.c */
void dew__rule_air_alone(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_air_worsens(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_dryer(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_dryer_alone(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_dryer_instead(const struct dew_question *q,
                             struct dew_verdict *v);
void dew__rule_least_humid(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_core(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_grows_dry(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_wetter_untried(const struct dew_question *q,
                              struct dew_verdict *v);
void dew__rule_blower(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_under(const struct dew_question *q, struct dew_verdict *v);

/* verdict_ties.c */
void dew__rule_ties(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_dryer_size(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_dryer_label(const struct dew_question *q, struct dew_verdict *v);

/* verdict_staged.c */
void dew__rule_staged(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_reading(const struct dew_question *q, struct dew_verdict *v);

/* verdict_best.c */
/* The cheapest that ventilates and keeps the limits, but for one; or none. */
int dew__cheapest(const struct dew_question *q, int but);
/* Whether several will do and none is best, for want of a price to install. */
int dew__best_open(const struct dew_question *q);
void dew__rule_best(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_payback(const struct dew_question *q, struct dew_verdict *v);
void dew__rule_unpriced(const struct dew_question *q, struct dew_verdict *v);

#endif
