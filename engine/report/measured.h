/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured beside the model, in words.  Private to the report. */
#ifndef DEW_REPORT_MEASURED_H
#define DEW_REPORT_MEASURED_H

#include <jansson.h>

#include "dew/report.h"

/* The section of the text; nothing where the report has no log. */
void dew__beside_text(const struct dew_report *r, FILE *out);

/* The same for JSON: null without a log; NULL without memory. */
json_t *dew__beside_json(const struct dew_report *r);

/* One sentence on the humidity, one on the temperature.  Returns out. */
char *dew__beside_rh(const struct dew_report *r, char *out, size_t size);
char *dew__beside_t(const struct dew_report *r, char *out, size_t size);

#endif
