/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the equipment does in this house beside what its label says, and what
 * its figures leave open.  Private to the report.
 */
#ifndef DEW_REPORT_GEAR_H
#define DEW_REPORT_GEAR_H

#include "report/json.h"

static inline const struct dew_choice *report__choice(
    const struct dew_report *r, size_t i)
{
    return &r->question->choices[i];
}

/*
 * Of option i: the dehumidifier by its label and here, the range of a core's
 * rating, both ways of running several air handlers; null where it does not
 * apply.
 */
json_t *report__gear_dryer(struct maker *m, size_t i);
json_t *report__gear_core(struct maker *m, size_t i);
json_t *report__gear_handlers(struct maker *m, size_t i);

/* What is not known of the wet coil, likewise. */
int report__gear_coil_body(const struct dew_report *r, size_t i, char *out,
                           size_t size);
/* The same of many options: figures behind one lead. */
extern const char report__gear_coil_lead[];
int report__gear_coil_brief(const struct dew_report *r, size_t i, char *out,
                            size_t size);
json_t *report__gear_coil(struct maker *m, size_t i);

/* What keeping a core from frost costs, as text (0 when there is nothing to
   tell) and as JSON. */
int report__gear_frost_body(const struct dew_report *r, size_t i, char *out,
                            size_t size);
json_t *report__gear_frost(struct maker *m, size_t i);

/* What the owner saw the dehumidifier of option i take out ("3 gal/day"), and
   whether anything: 0 or 1. */
int report__gear_seen(const struct dew_report *r, size_t i,
                      struct report__word *seen);

#endif
